/* SPDX-License-Identifier: MIT */
/* What moving a ruler does to the set-up: values, choices, steps, defaults, typed figures. */
#include "ruler.h"

#include <plumbar/quantity.h>

#include <math.h>
#include <string.h>

static PlumbSetup *setup_of(PlumbDesk *desk)
{
    return &desk->now.setup[desk->now.lift];
}

/* A lift stands on blocks or in a deficit, not both: the one that is moved wins. */
static void part_blocks(PlumbDesk *desk, PlumbSetup *setup, PlumbSettingId id)
{
    if (setup->lift == PLUMB_DEADLIFT && setup->deficit_m > 0.0 && setup->blocks_m > 0.0) {
        *(id == PLUMB_SET_blocks ? &setup->deficit_m : &setup->blocks_m) = 0.0;
        plumb_desk_say(desk, false, "Blocks and a deficit do not go together: the other is now 0.");
    }
}

/* Which tapes a change of the body leaves out: what is set by hand counts. */
static void say_dropped(PlumbDesk *desk, const PlumbLifterRecord *changed, bool follows)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        if (changed->spec.tape[i].kind == PLUMB_MEASURE_NONE &&
            desk->now.record.spec.tape[i].kind != PLUMB_MEASURE_NONE) {
            plumb_text_string(&text, text.length > 0 ? " and " : "Used no more: ");
            plumb_text_string(&text, plumb_tape_text((PlumbTape)i));
        }
    }
    if (text.length > 0) {
        plumb_text_string(&text, follows ? ". This length follows the stature again."
                                         : ". The ruler now gives this length.");
        plumb_desk_say(desk, false, words);
    } else if (follows) {
        plumb_desk_say(desk, false, "This length follows the stature again.");
    }
}

/* A body that cannot be stays as it was, and the notes say why. */
static bool set_body(PlumbDesk *desk, PlumbSettingId id, double value_si, unsigned key)
{
    PlumbLifterRecord record = desk->now.record;
    PlumbLifter lifter;
    PlumbError error = {0};
    if (plumb_body_change(&record, &lifter, id, value_si, &error) != PLUMB_OK) {
        plumb_desk_say(desk, true, error.message);
        return false;
    }
    plumb_desk_keep(desk, key);
    say_dropped(desk, &record, isnan(value_si));
    desk->now.record = record;
    desk->now.lifter = lifter;
    plumb_desk_touch(desk);
    return true;
}

void plumb_ruler_set(PlumbDesk *desk, PlumbSettingId id, double value_si, unsigned key)
{
    if (plumb_body_is(id)) {
        set_body(desk, id, value_si, key);
        return;
    }
    PlumbSetup setup = *plumb_desk_setup(desk);
    if (!plumb_setup_set(&setup, id, value_si)) {
        return;
    }
    plumb_desk_keep(desk, key);
    part_blocks(desk, &setup, id);
    *setup_of(desk) = setup;
    plumb_desk_touch(desk);
}

/* The new lead starts from the value that the pose has, so that nothing moves. */
static void choose_lead(PlumbDesk *desk, PlumbSetup *setup, PlumbLead lead)
{
    static const PlumbSettingId OF_LEAD[] = {PLUMB_SET_balance, PLUMB_SET_hip_height,
                                             PLUMB_SET_back_angle, PLUMB_SET_shin_angle,
                                             PLUMB_SET_touch};
    const PlumbPosed *const inked = plumb_desk_inked(desk);
    const PlumbSetup before = *setup;
    if (inked->setup.lift != setup->lift) {
        return; /* its answer is still to come */
    }
    setup->lead = lead;
    for (size_t i = 0; i < sizeof OF_LEAD / sizeof OF_LEAD[0]; i++) {
        if (plumb_ruler_leads(setup, OF_LEAD[i]) && !plumb_ruler_leads(&before, OF_LEAD[i])) {
            const double value = plumb_family_of(inked)->followed(inked, OF_LEAD[i]);
            const PlumbLead wanted = setup->lead;
            plumb_setup_set(setup, OF_LEAD[i], value);
            setup->lead = wanted;
        }
    }
}

void plumb_ruler_choose(PlumbDesk *desk, PlumbSettingId id, int index)
{
    if (index < 0 || index >= plumb_ruler_choices(desk, id) ||
        index == plumb_ruler_chosen(desk, id)) {
        return;
    }
    plumb_desk_keep(desk, 0);
    PlumbSetup *const setup = setup_of(desk);
    if (id == PLUMB_SET_style) {
        plumb_setup_style(setup, (PlumbStyle)index);
    } else if (id == PLUMB_SET_bar) {
        plumb_setup_seat(setup, (PlumbSeat)index);
    } else {
        choose_lead(desk, setup, plumb_ruler_lead_at(setup->lift, index));
    }
    plumb_desk_touch(desk);
}

void plumb_ruler_nudge(PlumbDesk *desk, PlumbSettingId id, int steps, unsigned key)
{
    const int choices = plumb_ruler_choices(desk, id);
    if (choices > 0) {
        int next = plumb_ruler_chosen(desk, id) + (steps > 0 ? 1 : -1);
        next = next < 0 ? 0 : next;
        plumb_ruler_choose(desk, id, next >= choices ? choices - 1 : next);
        return;
    }
    const double step = plumb_ruler_step(desk, id);
    const double value = plumb_ruler_value(desk, id);
    if (!isfinite(value)) {
        return;
    }
    /* From between two steps the first nudge goes to the next one. */
    const double at = value / step;
    const double from = steps > 0 ? floor(at + 1e-6) : ceil(at - 1e-6);
    plumb_ruler_set(desk, id, (from + steps) * step, key);
}

void plumb_ruler_default(PlumbDesk *desk, PlumbSettingId id)
{
    const PlumbLift lift = desk->now.lift;
    if (plumb_body_is(id)) {
        if (plumb_body_length(id) == PLUMB_LENGTH_COUNT) {
            plumb_desk_say(desk, false, "Stature and mass have no default.");
        } else {
            set_body(desk, id, (double)NAN, 0);
        }
        return;
    }
    const PlumbSetup plain =
        plumb_setup_entry(lift, desk->now.record.heel_m, desk->now.record.ball_m).setup;
    PlumbSetup setup = *plumb_desk_setup(desk);
    if (id == PLUMB_SET_style) {
        plumb_setup_style(&setup, plain.style);
    } else if (id == PLUMB_SET_bar) {
        plumb_setup_seat(&setup, plain.seat);
    } else if (id == PLUMB_SET_elbows) {
        setup.elbows_given = plain.elbows_given;
    } else if (id == PLUMB_SET_grip && lift == PLUMB_BENCH) {
        setup.grip_by_build = true; /* plumb_desk_touch fits it */
    } else if (id == PLUMB_SET_auto || isnan(plumb_ruler_row(id)->default_si[lift])) {
        setup.lead = plain.lead;
        setup.balance_frac = plain.balance_frac;
    } else {
        plumb_setup_set(&setup, id, plumb_setup_get(&plain, id));
    }
    plumb_desk_keep(desk, 0);
    *setup_of(desk) = setup;
    plumb_desk_touch(desk);
}

bool plumb_ruler_type(PlumbDesk *desk, PlumbSettingId id, const char *typed, PlumbError *error)
{
    if (plumb_body_is(id)) {
        double value = 0.0;
        PlumbLifterRecord record = desk->now.record;
        PlumbLifter lifter;
        if (plumb_quantity_read(typed, strlen(typed), plumb_ruler_row(id)->quantity, &value,
                                error) != PLUMB_OK ||
            plumb_body_change(&record, &lifter, id, value, error) != PLUMB_OK) {
            return false;
        }
        return set_body(desk, id, value, 0);
    }
    PlumbSetupEntry base = plumb_setup_entry(desk->now.lift, 0.0, 0.0);
    base.setup = *plumb_desk_setup(desk);
    PlumbSetupEntry entry = plumb_setup_entry_over(&base);
    PlumbSetup setup;
    if (plumb_setup_entry_add(&entry, plumb_ruler_row(id)->key, typed, error) != PLUMB_OK ||
        plumb_setup_entry_close(&entry, &setup, error) != PLUMB_OK ||
        plumb_setup_check(&setup, error) != PLUMB_OK) {
        return false;
    }
    const bool of_pair = base.setup.lead == PLUMB_LEAD_HEIGHT_AND_BALANCE &&
                         (id == PLUMB_SET_hip_height || id == PLUMB_SET_balance);
    if (of_pair) {
        setup.lead = PLUMB_LEAD_HEIGHT_AND_BALANCE;
    }
    plumb_desk_keep(desk, 0);
    *setup_of(desk) = setup;
    plumb_desk_touch(desk);
    return true;
}
