/* SPDX-License-Identifier: MIT */
/* The changes that advice may ask for, their words, and what each does: tables. */
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
        PLUMB_SET_##setting, PLUMB_TO_DELTA, size, PLUMB_SEAT_COUNT, words                         \
    }
#define SEAT(seat, words)                                                                          \
    {                                                                                              \
        PLUMB_SET_bar, PLUMB_TO_SEAT, 0.0, PLUMB_##seat##_BAR, words                               \
    }
#define GO(setting, to, words)                                                                     \
    {                                                                                              \
        PLUMB_SET_##setting, PLUMB_TO_##to, 0.0, PLUMB_SEAT_COUNT, words                           \
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
    {PLUMB_SET_grip, PLUMB_TO_GRIP_BACK, 10.0 * CM, PLUMB_SEAT_COUNT, "Grip {d} wider"},
    GO(grip, GRIP_RULE, "Grip {d} narrower, as wide as the rules allow"),
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
    GO(elbows, UPRIGHT, "Hold the elbows where the forearm stays upright from the head end"),
    GO(elbows, UNDER_BAR, "Keep the elbows under the bar"),
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

/* The size of a change in steps that a person counts in: in pounds and inches to the half inch, of
 * shoes to the quarter. */
static double size_of(const PlumbChange *change, PlumbUnits units)
{
    const PlumbQuantity quantity = plumb_setting(change->setting)->quantity;
    const double step_m = quantity == PLUMB_Q_SMALL ? 0.25 * INCH : 0.5 * INCH;
    if (units == PLUMB_METRIC || (quantity != PLUMB_Q_LENGTH && quantity != PLUMB_Q_SMALL)) {
        return change->delta_si;
    }
    return step_m * round(change->delta_si / step_m);
}

/* Where the change goes; NaN where it does not apply. */
static double target(const PlumbChange *change, const PlumbSetup *setup, const PlumbSolved *solved,
                     double from_si, double delta_si)
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
        return setup->elbows_given ? from_si : (double)NAN;
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

bool plumb_change_apply(int index, const PlumbSetup *setup, const PlumbSolved *solved,
                        PlumbUnits units, PlumbOption *option)
{
    const PlumbChange *const change = &changes[index];
    const PlumbSetting *const row = plumb_setting(change->setting);
    if (!applies(change->setting, setup)) {
        return false;
    }
    option->setting = change->setting;
    option->change = index;
    option->setup = *setup;
    option->grip_from_m = setup->grip_m;
    option->from_si = present(setup, solved, change->setting);
    option->delta_si = size_of(change, units);
    option->to_si = target(change, setup, solved, option->from_si, option->delta_si);
    if (change->to == PLUMB_TO_SEAT) {
        plumb_setup_seat(&option->setup, change->seat); /* a grip of the old seat's goes with it */
        return !isnan(option->to_si);
    }
    const double slack = 1e-9;
    if (!(option->to_si >= row->min_si - slack && option->to_si <= row->max_si + slack)) {
        return false;
    }
    if (change->to == PLUMB_TO_UNDER_BAR) {
        option->setup.elbows_given = false;
        return true;
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
    if (changes[option->change].to == PLUMB_TO_UPRIGHT) {
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

void plumb_option_text(PlumbText *text, const PlumbOption *option, PlumbUnits units)
{
    const PlumbChange *const change = &changes[option->change];
    const PlumbSetting *const row = plumb_setting(option->setting);
    for (const char *c = change->words; *c != '\0'; c++) {
        if (c[0] == '{' && c[1] == 'd' && c[2] == '}') {
            const double size = option->to_si - option->from_si;
            plumb_text_said(text, size < 0.0 ? -size : size, row->quantity, units);
            c += 2;
        } else {
            plumb_text_char(text, *c);
        }
    }
    if (option->setting != PLUMB_SET_bar) {
        plumb_text_string(text, " (");
        plumb_text_said(text, option->from_si, row->quantity, units);
        plumb_text_string(text, " to ");
        plumb_text_said(text, option->to_si, row->quantity, units);
        plumb_text_string(text, ")");
    } else if (option->grip_from_m != option->setup.grip_m) {
        plumb_text_string(text, ", with the grip that goes with it (");
        plumb_text_said(text, option->setup.grip_m, PLUMB_Q_LENGTH, units);
        plumb_text_string(text, ")");
    }
}

typedef struct Reason {
    PlumbSettingId id;
    const char *side[PLUMB_LIFT_COUNT];
    const char *front[PLUMB_LIFT_COUNT]; /* a bench press: from the head end; NULL: as side */
} Reason;

/* What each setting does; true in both directions of a change. */
static const Reason reasons[] = {
    {PLUMB_SET_stance,
     {"The width of the stance decides how high the hips stand over straight legs and how far the "
      "thighs reach back.",
      "The width of the stance decides how much of the thigh's length shows from the side, and so "
      "how far hips and knees reach."},
     {"The nearer the feet, the further outside the ankles stand the knees.",
      "The nearer the feet, the further outside the ankles stand the knees."}},
    {PLUMB_SET_toes,
     {"Feet turned out are shorter from the side and carry the knees outwards.",
      "Feet turned out are shorter from the side and carry the knees outwards."},
     {"The knees point where the feet point: feet turned out carry them outwards.",
      "The knees point where the feet point: feet turned out carry them outwards."}},
    {PLUMB_SET_knees_out,
     {"Knees pushed out shorten shin and thigh in the side view and make room for the bar.",
      "Knees pushed out shorten shin and thigh in the side view."},
     {"Knees pushed out stand further outside the ankles.",
      "Knees pushed out stand further outside the ankles."}},
    {PLUMB_SET_grip,
     {"Slanted arms are shorter arms: the wider the grip, the lower the shoulders have to come and "
      "the higher the bar ends.",
      "The grip moves elbows and forearms on the back, and little else.",
      "Slanted arms reach less high: the wider the grip, the lower the bar ends and the further "
      "out "
      "the load acts on the shoulder; the narrower, the more the elbow bends."},
     {NULL, NULL,
      "The hand moves with the grip while the arm keeps its length: a close grip leaves the elbows "
      "outside the hands, a wide one inside them."}},
    {PLUMB_SET_bar,
     {"", "The bar's place on the trunk decides how far the trunk leans to keep it over the foot."},
     {NULL}},
    {PLUMB_SET_hip_height,
     {"With straight arms and the bar in its place, the height of the hips decides back, shins and "
      "balance together.",
      ""},
     {NULL}},
    {PLUMB_SET_back_angle,
     {"With straight arms and the bar in its place, a steeper back means lower hips.",
      "At the same depth and balance, a steeper back means knees further forward."},
     {NULL}},
    {PLUMB_SET_bar_over,
     {"The shin leans as far as the bar lets it, and hips and back follow the shin.", ""},
     {NULL}},
    {PLUMB_SET_heel_lift,
     {"A raised heel lifts ankle, knees and hips and spares the ankle's bend.",
      "A raised heel tips the shin forward for the same bend of the ankle."},
     {NULL}},
    {PLUMB_SET_touch,
     {"", "",
      "The nearer to the feet the bar touches, the longer its arm about the shoulder from the "
      "side; "
      "elbows under the bar come nearer to the trunk with it."},
     {NULL, NULL,
      "Elbows under the bar follow the touch: toward the feet they come nearer to the trunk and "
      "under the hands, toward the head they swing out."}},
    {PLUMB_SET_arch,
     {"", "",
      "The chest meets the bar earlier or later on its way down, with the arm less or more bent; "
      "the "
      "shoulders stay on the bench."},
     {NULL}},
    {PLUMB_SET_elbows,
     {"", "",
      "The forearm joins elbow and hand: an elbow nearer to the trunk stands nearer to the feet, "
      "one "
      "further from it nearer to the head, and off the bar it takes load from one joint and gives "
      "it "
      "to the other."},
     {NULL, NULL,
      "From the head end an elbow held nearer to the trunk stands further in, one held further "
      "from "
      "it further out, while the hand stays on the bar."}},
};

const char *plumb_setting_reason(PlumbSettingId id, PlumbLift lift, bool frontal)
{
    for (size_t i = 0; i < sizeof reasons / sizeof reasons[0]; i++) {
        if (reasons[i].id == id) {
            const char *const side = reasons[i].side[lift];
            const char *const front = reasons[i].front[lift];
            return frontal && front != NULL ? front : side != NULL ? side : "";
        }
    }
    return "";
}

const char *plumb_option_reason(const PlumbOption *option, const PlumbGoal *goal)
{
    const bool frontal = goal->finding == PLUMB_FIND_knees_inside_ankles ||
                         goal->finding == PLUMB_FIND_knees_over_toes_not_met ||
                         goal->finding == PLUMB_FIND_elbows_flare_outside ||
                         goal->finding == PLUMB_FIND_forearm_not_upright ||
                         goal->aim == PLUMB_AIM_upright_forearms;
    return plumb_setting_reason(option->setting, option->setup.lift, frontal);
}
