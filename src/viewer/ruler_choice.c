/* SPDX-License-Identifier: MIT */
/* Rulers that choose a word: style, bar, and what leads. */
#include "ruler.h"

#include <math.h>

static const PlumbLead LEADS[PLUMB_LIFT_COUNT][5] = {
    [PLUMB_DEADLIFT] = {PLUMB_LEAD_BALANCE, PLUMB_LEAD_HIP_HEIGHT, PLUMB_LEAD_BACK_ANGLE,
                        PLUMB_LEAD_AUTO, PLUMB_LEAD_HEIGHT_AND_BALANCE},
    [PLUMB_SQUAT] = {PLUMB_LEAD_AUTO, PLUMB_LEAD_SHIN_ANGLE, PLUMB_LEAD_BACK_ANGLE},
    [PLUMB_BENCH] = {PLUMB_LEAD_AUTO, PLUMB_LEAD_TOUCH},
};
static const int LEAD_COUNT[PLUMB_LIFT_COUNT] = {
    [PLUMB_DEADLIFT] = 5, [PLUMB_SQUAT] = 3, [PLUMB_BENCH] = 2};

int plumb_ruler_choices(const PlumbDesk *desk, PlumbSettingId id)
{
    return id == PLUMB_SET_style  ? PLUMB_STYLE_COUNT
           : id == PLUMB_SET_bar  ? PLUMB_SEAT_COUNT
           : id == PLUMB_SET_auto ? LEAD_COUNT[desk->now.lift]
                                  : 0;
}

static const char *lead_words(PlumbLead lead)
{
    static const char *const WORDS[PLUMB_LEAD_COUNT] = {
        [PLUMB_LEAD_BALANCE] = "balance",
        [PLUMB_LEAD_HIP_HEIGHT] = "hip height",
        [PLUMB_LEAD_BACK_ANGLE] = "back angle",
        [PLUMB_LEAD_SHIN_ANGLE] = "shin angle",
        [PLUMB_LEAD_AUTO] = "auto",
        [PLUMB_LEAD_HEIGHT_AND_BALANCE] = "both",
        [PLUMB_LEAD_TOUCH] = "touch",
    };
    return WORDS[lead];
}

const char *plumb_ruler_choice(const PlumbDesk *desk, PlumbSettingId id, int index)
{
    return id == PLUMB_SET_style ? plumb_style_name((PlumbStyle)index)
           : id == PLUMB_SET_bar ? plumb_seat_name((PlumbSeat)index)
                                 : lead_words(LEADS[desk->now.lift][index]);
}

/* -1: the preset was changed by hand, so that no style holds. */
static int chosen_style(const PlumbSetup *setup)
{
    for (int i = 0; i < PLUMB_STYLE_COUNT; i++) {
        PlumbSetup preset = *setup;
        plumb_setup_style(&preset, (PlumbStyle)i);
        if (fabs(preset.stance_m - setup->stance_m) < 1e-9 &&
            fabs(preset.toes_rad - setup->toes_rad) < 1e-9 &&
            fabs(preset.grip_m - setup->grip_m) < 1e-9) {
            return i;
        }
    }
    return -1;
}

int plumb_ruler_chosen(const PlumbDesk *desk, PlumbSettingId id)
{
    const PlumbSetup *const setup = plumb_desk_setup(desk);
    if (id == PLUMB_SET_style) {
        return chosen_style(setup);
    }
    if (id == PLUMB_SET_bar) {
        return (int)setup->seat;
    }
    for (int i = 0; i < LEAD_COUNT[setup->lift]; i++) {
        if (LEADS[setup->lift][i] == setup->lead) {
            return i;
        }
    }
    return -1;
}

PlumbLead plumb_ruler_lead_at(PlumbLift lift, int index)
{
    return LEADS[lift][index];
}
