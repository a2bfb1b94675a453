/* SPDX-License-Identifier: MIT */
/* The changes that advice may ask for, their words, and what each does: tables. */
#include "study/option.h"

#include "base/vec.h"

#include <stddef.h>

#define CM 0.01
#define MM 0.001
#define DEG (PLUMB_PI / 180.0)

/* Sizes are those that a coach asks for at once: common practice, no source. */
static const PlumbChange changes[] = {
    {PLUMB_SET_stance, 5.0 * CM, PLUMB_SEAT_COUNT, "Stand {d} wider"},
    {PLUMB_SET_stance, -5.0 * CM, PLUMB_SEAT_COUNT, "Stand {d} narrower"},
    {PLUMB_SET_toes, 5.0 * DEG, PLUMB_SEAT_COUNT, "Turn each foot {d} further out"},
    {PLUMB_SET_toes, -5.0 * DEG, PLUMB_SEAT_COUNT, "Turn each foot {d} further in"},
    {PLUMB_SET_knees_out, 5.0 * DEG, PLUMB_SEAT_COUNT, "Push the knees {d} further out"},
    {PLUMB_SET_knees_out, -5.0 * DEG, PLUMB_SEAT_COUNT, "Let the knees come {d} further in"},
    {PLUMB_SET_grip, 5.0 * CM, PLUMB_SEAT_COUNT, "Grip {d} wider"},
    {PLUMB_SET_grip, -5.0 * CM, PLUMB_SEAT_COUNT, "Grip {d} narrower"},
    {PLUMB_SET_bar, 0.0, PLUMB_HIGH_BAR, "Carry the bar high on the back"},
    {PLUMB_SET_bar, 0.0, PLUMB_LOW_BAR, "Carry the bar low on the back"},
    {PLUMB_SET_bar, 0.0, PLUMB_FRONT_BAR, "Carry the bar in front"},
    {PLUMB_SET_hip_height, 2.0 * CM, PLUMB_SEAT_COUNT, "Start with the hips {d} higher"},
    {PLUMB_SET_hip_height, -2.0 * CM, PLUMB_SEAT_COUNT, "Start with the hips {d} lower"},
    {PLUMB_SET_back_angle, 3.0 * DEG, PLUMB_SEAT_COUNT, "Keep the back {d} steeper"},
    {PLUMB_SET_back_angle, -3.0 * DEG, PLUMB_SEAT_COUNT, "Lean the back {d} further forward"},
    {PLUMB_SET_bar_over, 1.0 * CM, PLUMB_SEAT_COUNT, "Stand with the bar {d} further forward"},
    {PLUMB_SET_bar_over, -1.0 * CM, PLUMB_SEAT_COUNT, "Stand with the bar {d} further back"},
    {PLUMB_SET_heel_lift, 10.0 * MM, PLUMB_SEAT_COUNT, "Wear heels {d} higher"},
    {PLUMB_SET_heel_lift, 20.0 * MM, PLUMB_SEAT_COUNT, "Wear heels {d} higher"},
    {PLUMB_SET_heel_lift, -10.0 * MM, PLUMB_SEAT_COUNT, "Wear heels {d} lower"},
};

const PlumbChange *plumb_change(int index)
{
    return index < (int)(sizeof changes / sizeof changes[0]) ? &changes[index] : NULL;
}

bool plumb_advice_may_move(PlumbSettingId id)
{
    for (int i = 0; plumb_change(i) != NULL; i++) {
        if (changes[i].setting == id) {
            return true;
        }
    }
    return false;
}

/* The present value of what the change moves: a lead that does not lead has that of the pose. */
static double present(const PlumbSetup *setup, const PlumbAnswer *answer, PlumbSettingId id)
{
    if (id == PLUMB_SET_hip_height) {
        return answer->start.pose.hip_height_m;
    }
    if (id == PLUMB_SET_back_angle) {
        return answer->start.angle_rad[PLUMB_ANG_back];
    }
    return id == PLUMB_SET_bar ? (double)setup->seat : plumb_setup_get(setup, id);
}

bool plumb_change_apply(const PlumbChange *change, const PlumbSetup *setup,
                        const PlumbAnswer *answer, PlumbOption *option)
{
    const PlumbSetting *const row = plumb_setting(change->setting);
    if (!row->lifts[setup->lift] ||
        (change->setting == PLUMB_SET_knees_out && setup->knees_over_toes)) {
        return false;
    }
    option->setting = change->setting;
    option->setup = *setup;
    option->grip_from_m = setup->grip_m;
    option->from_si = present(setup, answer, change->setting);
    if (change->setting == PLUMB_SET_bar) {
        plumb_setup_seat(&option->setup, change->seat); /* a grip of the old seat's goes with it */
        option->to_si = (double)change->seat;
        return setup->seat != change->seat;
    }
    option->to_si = option->from_si + change->delta_si;
    const double slack = 1e-9;
    if (option->to_si < row->min_si - slack || option->to_si > row->max_si + slack) {
        return false;
    }
    if (change->setting == PLUMB_SET_hip_height &&
        (setup->lead == PLUMB_LEAD_BALANCE || setup->hip_height_relative)) {
        /* Counted from the start that balance gives, so that it stays this much on any body. */
        const double base = setup->hip_height_relative ? setup->hip_height_m : 0.0;
        option->setup.hip_height_m = base + change->delta_si;
        option->setup.hip_height_relative = true;
        option->setup.lead =
            setup->lead == PLUMB_LEAD_BALANCE ? PLUMB_LEAD_HIP_HEIGHT : setup->lead;
        return true;
    }
    return plumb_setup_set(&option->setup, change->setting, option->to_si);
}

static const PlumbChange *change_of(const PlumbOption *option)
{
    const double delta = option->to_si - option->from_si;
    for (int i = 0; plumb_change(i) != NULL; i++) {
        const PlumbChange *const change = &changes[i];
        if (change->setting == option->setting &&
            (change->setting == PLUMB_SET_bar ? change->seat == option->setup.seat
                                              : (change->delta_si > 0.0) == (delta > 0.0))) {
            return change;
        }
    }
    return NULL;
}

void plumb_option_text(PlumbText *text, const PlumbOption *option, PlumbUnits units)
{
    const PlumbChange *const change = change_of(option);
    const PlumbSetting *const row = plumb_setting(option->setting);
    if (change == NULL) {
        return;
    }
    for (const char *c = change->words; *c != '\0'; c++) {
        if (c[0] == '{' && c[1] == 'd' && c[2] == '}') {
            const double size = option->to_si - option->from_si;
            plumb_text_quantity(text, size < 0.0 ? -size : size, row->quantity, units);
            c += 2;
        } else {
            plumb_text_char(text, *c);
        }
    }
    if (option->setting != PLUMB_SET_bar) {
        plumb_text_string(text, " (");
        plumb_text_quantity(text, option->from_si, row->quantity, units);
        plumb_text_string(text, " to ");
        plumb_text_quantity(text, option->to_si, row->quantity, units);
        plumb_text_string(text, ")");
    } else if (option->grip_from_m != option->setup.grip_m) {
        plumb_text_string(text, ", with the grip that goes with it (");
        plumb_text_quantity(text, option->setup.grip_m, PLUMB_Q_LENGTH, units);
        plumb_text_string(text, ")");
    }
}

typedef struct Reason {
    PlumbSettingId id;
    const char *side[PLUMB_LIFT_COUNT];
    const char *front; /* NULL: as from the side */
} Reason;

/* What each setting does; true in both directions of a change. */
static const Reason reasons[] = {
    {PLUMB_SET_stance,
     {"The width of the stance decides how high the hips stand over straight legs and how far the "
      "thighs reach back.",
      "The width of the stance decides how much of the thigh's length shows from the side, and so "
      "how far hips and knees reach."},
     "The nearer the feet, the further outside the ankles stand the knees."},
    {PLUMB_SET_toes,
     {"Feet turned out are shorter from the side and carry the knees outwards.",
      "Feet turned out are shorter from the side and carry the knees outwards."},
     "The knees point where the feet point: feet turned out carry them outwards."},
    {PLUMB_SET_knees_out,
     {"Knees pushed out shorten shin and thigh in the side view and make room for the bar.",
      "Knees pushed out shorten shin and thigh in the side view."},
     "Knees pushed out stand further outside the ankles."},
    {PLUMB_SET_grip,
     {"Slanted arms are shorter arms: the wider the grip, the lower the shoulders have to come and "
      "the higher the bar ends.",
      "The grip moves elbows and forearms on the back, and little else."},
     NULL},
    {PLUMB_SET_bar,
     {"", "The bar's place on the trunk decides how far the trunk leans to keep it over the foot."},
     NULL},
    {PLUMB_SET_hip_height,
     {"With straight arms and the bar in its place, the height of the hips decides back, shins and "
      "balance together.",
      ""},
     NULL},
    {PLUMB_SET_back_angle,
     {"With straight arms and the bar in its place, a steeper back means lower hips.",
      "At the same depth and balance, a steeper back means knees further forward."},
     NULL},
    {PLUMB_SET_bar_over,
     {"The shin leans as far as the bar lets it, and hips and back follow the shin.", ""},
     NULL},
    {PLUMB_SET_heel_lift,
     {"A raised heel lifts ankle, knees and hips and spares the ankle's bend.",
      "A raised heel tips the shin forward for the same bend of the ankle."},
     NULL},
};

const char *plumb_setting_reason(PlumbSettingId id, PlumbLift lift, bool frontal)
{
    for (size_t i = 0; i < sizeof reasons / sizeof reasons[0]; i++) {
        if (reasons[i].id == id) {
            const char *const side = reasons[i].side[lift];
            return frontal && reasons[i].front != NULL ? reasons[i].front
                   : side != NULL                      ? side
                                                       : "";
        }
    }
    return "";
}

const char *plumb_option_reason(const PlumbOption *option, const PlumbGoal *goal)
{
    const bool frontal = goal->finding == PLUMB_FIND_knees_inside_ankles ||
                         goal->finding == PLUMB_FIND_knees_over_toes_not_met;
    return plumb_setting_reason(option->setting, option->setup.lift, frontal);
}
