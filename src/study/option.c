/* SPDX-License-Identifier: MIT */
/* The changes that advice may ask for, as a table, and how each is made. */
#include "study/option.h"

#include "base/vec.h"

#include <math.h>
#include <stddef.h>

#define CM 0.01
#define MM 0.001
#define INCH 0.0254
#define DEG (PLUMB_PI / 180.0)

/* Sizes are those that a coach asks for at once: common practice, no source. */
#define MOVE(setting, size, words)                                                                 \
    {                                                                                              \
        PLUMB_SET_##setting, PLUMB_TO_DELTA, size, PLUMB_SEAT_COUNT, words, ""                     \
    }
#define SEAT(seat, words)                                                                          \
    {                                                                                              \
        PLUMB_SET_bar, PLUMB_TO_SEAT, 0.0, PLUMB_##seat##_BAR, words, ""                           \
    }
#define GO(setting, to, words, place)                                                              \
    {                                                                                              \
        PLUMB_SET_##setting, PLUMB_TO_##to, 0.0, PLUMB_SEAT_COUNT, words, place                    \
    }

static const PlumbChange changes[] = {
    MOVE(stance, 5.0 * CM, "Stand {d} wider"),
    MOVE(stance, -5.0 * CM, "Stand {d} narrower"),
    MOVE(toes, 5.0 * DEG, "Turn each foot {d} further out"),
    MOVE(toes, -5.0 * DEG, "Turn each foot {d} further in"),
    MOVE(knees_out, 5.0 * DEG, "Push the knees {d} further out"),
    MOVE(knees_out, -5.0 * DEG, "Let the knees come {d} further in"),
    MOVE(grip, 5.0 * CM, "Grip {d} wider"),
    MOVE(grip, -5.0 * CM, "Grip {d} narrower"),
    {PLUMB_SET_grip, PLUMB_TO_GRIP_BACK, 10.0 * CM, PLUMB_SEAT_COUNT, "Grip {d} wider", ""},
    GO(grip, GRIP_RULE, "Grip {d} narrower, as wide as the rules allow", "within the rules"),
    SEAT(HIGH, "Carry the bar high on the back"),
    SEAT(LOW, "Carry the bar low on the back"),
    SEAT(FRONT, "Carry the bar in front"),
    MOVE(hip_height, 2.0 * CM, "Start with the hips {d} higher"),
    MOVE(hip_height, -2.0 * CM, "Start with the hips {d} lower"),
    MOVE(back_angle, 3.0 * DEG, "Keep the back {d} steeper"),
    MOVE(back_angle, -3.0 * DEG, "Lean the back {d} further forward"),
    MOVE(bar_over, 1.0 * CM, "Stand with the bar {d} further forward"),
    MOVE(bar_over, -1.0 * CM, "Stand with the bar {d} further back"),
    MOVE(heel_lift, 10.0 * MM, "Wear heels {d} higher"),
    MOVE(heel_lift, 20.0 * MM, "Wear heels {d} higher"),
    MOVE(heel_lift, -10.0 * MM, "Wear heels {d} lower"),
    MOVE(touch, 2.0 * CM, "Touch the chest {d} nearer to the feet"),
    MOVE(touch, -2.0 * CM, "Touch the chest {d} nearer to the head"),
    MOVE(arch, 2.0 * CM, "Arch the back so that the chest is {d} higher"),
    MOVE(arch, -2.0 * CM, "Arch the back so that the chest is {d} lower"),
    MOVE(elbows, 10.0 * DEG, "Hold the elbows {d} further from the trunk"),
    MOVE(elbows, -10.0 * DEG, "Hold the elbows {d} nearer to the trunk"),
    GO(elbows, UPRIGHT, "Hold the elbows where the forearm stays upright from the head end",
       "with the forearm upright"),
    GO(elbows, UNDER_BAR, "Keep the elbows under the bar", "under the bar"),
};

/* The most that a lifter is asked to change at once, for every setting but the bar's place, of
 * which there is no half: one step of the table and a half, or two. Common practice, no source. */
static const double largest_si[PLUMB_SETTING_COUNT] = {
    [PLUMB_SET_stance] = 10.0 * CM,     [PLUMB_SET_toes] = 10.0 * DEG,
    [PLUMB_SET_knees_out] = 10.0 * DEG, [PLUMB_SET_grip] = 10.0 * CM,
    [PLUMB_SET_hip_height] = 4.0 * CM,  [PLUMB_SET_back_angle] = 6.0 * DEG,
    [PLUMB_SET_bar_over] = 2.0 * CM,    [PLUMB_SET_heel_lift] = 20.0 * MM,
    [PLUMB_SET_touch] = 4.0 * CM,       [PLUMB_SET_arch] = 4.0 * CM,
    [PLUMB_SET_elbows] = 15.0 * DEG,
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

/* The present value of what the change moves: what does not lead has that of the pose. */
static double present(const PlumbSetup *setup, const PlumbSolved *solved, PlumbSettingId id)
{
    switch ((int)id) {
    case PLUMB_SET_hip_height:
        return solved->pose.start.pose.hip_height_m;
    case PLUMB_SET_back_angle:
        return solved->pose.start.angle_rad[PLUMB_ANG_back];
    case PLUMB_SET_touch:
        return solved->press.setup.touch_m;
    case PLUMB_SET_elbows:
        return setup->elbows_given ? setup->elbows_rad
                                   : solved->press.touch.angle_rad[PLUMB_PRESS_ANG_abduction];
    case PLUMB_SET_bar:
        return (double)setup->seat;
    default:
        return plumb_setup_get(setup, id);
    }
}

/* A size in steps that a person counts in: in pounds and inches to the half inch, of
 * shoes to the quarter. */
static double in_steps(double size_si, PlumbSettingId id, PlumbUnits units)
{
    const PlumbQuantity quantity = plumb_setting(id)->quantity;
    const double step_m = quantity == PLUMB_Q_SMALL ? 0.25 * INCH : 0.5 * INCH;
    if (units == PLUMB_METRIC || (quantity != PLUMB_Q_LENGTH && quantity != PLUMB_Q_SMALL)) {
        return size_si;
    }
    return step_m * round(size_si / step_m);
}

/* The upper arm from the trunk with the elbows under the bar; NaN where no pose holds that. */
static double under_bar_rad(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    PlumbSetup under = *setup;
    PlumbSolved solved;
    under.elbows_given = false;
    plumb_solved_solve(lifter, &under, &solved);
    return plumb_solved_outcome(&solved) == PLUMB_NO_POSE
               ? (double)NAN
               : solved.press.touch.angle_rad[PLUMB_PRESS_ANG_abduction];
}

/* Where the change goes; NaN where it does not apply. */
static double target(const PlumbChange *change, const PlumbLifter *lifter, const PlumbSetup *setup,
                     const PlumbSolved *solved, double from_si, double delta_si)
{
    static const double least_turn_rad = 1.0 * DEG;
    switch (change->to) {
    case PLUMB_TO_DELTA:
        return from_si + delta_si;
    case PLUMB_TO_GRIP_BACK:
        return setup->lift == PLUMB_SQUAT && setup->seat != PLUMB_FRONT_BAR ? from_si + delta_si
                                                                            : (double)NAN;
    case PLUMB_TO_GRIP_RULE:
        return setup->lift == PLUMB_BENCH && setup->grip_m > plumb_press_grip_most_m()
                   ? plumb_press_grip_most_m()
                   : (double)NAN;
    case PLUMB_TO_UPRIGHT:
        return fabs(solved->press.elbows_upright_rad - from_si) > least_turn_rad
                   ? solved->press.elbows_upright_rad
                   : (double)NAN;
    case PLUMB_TO_UNDER_BAR:
        return setup->elbows_given ? under_bar_rad(lifter, setup) : (double)NAN;
    case PLUMB_TO_SEAT:
        break;
    }
    return setup->seat != change->seat ? (double)change->seat : (double)NAN;
}

/* Whether the set-up's lift lets this setting be moved by itself. Of a press shoes move nothing. */
static bool applies(PlumbSettingId id, const PlumbSetup *setup)
{
    return plumb_setting(id)->lifts[setup->lift] &&
           !(id == PLUMB_SET_knees_out && setup->knees_over_toes) &&
           !(id == PLUMB_SET_heel_lift && setup->lift == PLUMB_BENCH);
}

static bool in_range(PlumbSettingId id, double value_si)
{
    const double slack = 1e-9;
    const PlumbSetting *const row = plumb_setting(id);
    return value_si >= row->min_si - slack && value_si <= row->max_si + slack;
}

/* A place further than the largest change becomes a first step toward it; what a figure of the
 * option does not show is not further. */
static void shorten(PlumbOption *option, PlumbUnits units)
{
    const PlumbQuantity quantity = plumb_setting(option->setting)->quantity;
    const double shown_si = quantity == PLUMB_Q_ANGLE ? 0.05 * DEG : 0.5 * MM;
    const double most_si = in_steps(largest_si[option->setting], option->setting, units);
    const double way_si = option->to_si - option->from_si;
    option->place_si = option->to_si;
    option->first_step = fabs(way_si) > most_si + shown_si;
    if (option->first_step) {
        option->delta_si = copysign(most_si, way_si);
        option->to_si = option->from_si + option->delta_si;
    }
}

bool plumb_change_apply(int index, const PlumbLifter *lifter, const PlumbSetup *setup,
                        const PlumbSolved *solved, PlumbUnits units, PlumbOption *option)
{
    const PlumbChange *const change = &changes[index];
    if (!applies(change->setting, setup)) {
        return false;
    }
    option->setting = change->setting;
    option->change = index;
    option->setup = *setup;
    option->grip_from_m = setup->grip_m;
    option->from_si = present(setup, solved, change->setting);
    option->delta_si = in_steps(change->delta_si, change->setting, units);
    option->to_si = target(change, lifter, setup, solved, option->from_si, option->delta_si);
    if (change->to == PLUMB_TO_SEAT) {
        plumb_setup_seat(&option->setup, change->seat); /* a grip of the old seat's goes with it */
        return !isnan(option->to_si);
    }
    shorten(option, units);
    if (change->to == PLUMB_TO_UNDER_BAR && !option->first_step) {
        option->setup.elbows_given = false; /* asks for no figure, so that no range binds it */
        return !isnan(option->to_si);
    }
    if (!in_range(change->setting, option->to_si) ||
        (change->to != PLUMB_TO_UNDER_BAR && !in_range(change->setting, option->place_si))) {
        return false;
    }
    if (change->setting == PLUMB_SET_hip_height &&
        (setup->lead == PLUMB_LEAD_BALANCE || setup->hip_height_relative)) {
        /* Counted from the start that balance gives, so that it stays this much on any body. */
        const double base = setup->hip_height_relative ? setup->hip_height_m : 0.0;
        option->setup.hip_height_m = base + option->delta_si;
        option->setup.hip_height_relative = true;
        option->setup.lead =
            setup->lead == PLUMB_LEAD_BALANCE ? PLUMB_LEAD_HIP_HEIGHT : setup->lead;
        return true;
    }
    return plumb_setup_set(&option->setup, change->setting, option->to_si);
}

int plumb_option_new_lead(const PlumbOption *option, const PlumbSetup *setup)
{
    if (changes[option->change].to == PLUMB_TO_UPRIGHT && !option->first_step) {
        return PLUMB_PRESS_OUT_elbows_upright;
    }
    if (option->setting == PLUMB_SET_elbows) {
        return !setup->elbows_given && option->setup.elbows_given ? (int)PLUMB_PRESS_OUT_upper_arm
                                                                  : -1;
    }
    if (option->setup.lead == setup->lead || option->setup.hip_height_relative) {
        return -1;
    }
    switch ((int)option->setting) {
    case PLUMB_SET_hip_height:
        return PLUMB_OUT_hip_height;
    case PLUMB_SET_back_angle:
        return PLUMB_OUT_back_angle;
    case PLUMB_SET_touch:
        return PLUMB_PRESS_OUT_touch;
    default:
        return -1;
    }
}

PlumbSetup plumb_option_on(const PlumbOption *option, const PlumbSetup *setup,
                           const PlumbSolved *own)
{
    PlumbSetup at = option->setup;
    const int lead = plumb_option_new_lead(option, setup);
    if (lead >= 0 && plumb_solved_outcome(own) != PLUMB_NO_POSE) {
        const double from = plumb_solved_value(own, lead);
        plumb_setup_set(&at, option->setting, from + option->delta_si);
    }
    return at;
}
