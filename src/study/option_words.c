/* SPDX-License-Identifier: MIT */
/* A change that advice asks for in words, and what each setting does. */
#include "study/option.h"

#include <stddef.h>

/* A first step is asked for in the words of a change by so much in its direction. */
static const char *words_of(const PlumbOption *option)
{
    for (int i = 0; option->first_step && plumb_change(i) != NULL; i++) {
        const PlumbChange *const change = plumb_change(i);
        if (change->setting == option->setting && change->to == PLUMB_TO_DELTA &&
            change->delta_si * option->delta_si > 0.0) {
            return change->words;
        }
    }
    return plumb_change(option->change)->words;
}

void plumb_option_text(PlumbText *text, const PlumbOption *option, PlumbUnits units)
{
    const PlumbSetting *const row = plumb_setting(option->setting);
    for (const char *c = words_of(option); *c != '\0'; c++) {
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
    if (option->first_step) {
        plumb_text_string(text, ", ");
        plumb_option_step_text(text, option, units);
    }
}

void plumb_option_step_text(PlumbText *text, const PlumbOption *option, PlumbUnits units)
{
    plumb_text_string(text, "a first step toward ");
    plumb_text_said(text, option->place_si, plumb_setting(option->setting)->quantity, units);
    plumb_text_char(text, ' ');
    plumb_text_string(text, plumb_change(option->change)->place);
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
