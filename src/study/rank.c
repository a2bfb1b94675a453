/* SPDX-License-Identifier: MIT */
/* Ranks single changes for a goal: solves each, weighs its gain against its spread, and looks for
 * limits and rules that it would break. */
#include "study/option.h"

#include "base/vec.h"

#include <math.h>

const PlumbOutput plumb_price_outputs[PLUMB_PRICE_COUNT] = {
    PLUMB_OUT_travel,     PLUMB_OUT_balance,     PLUMB_OUT_back_angle,
    PLUMB_OUT_hip_height, PLUMB_OUT_shin_angle,  PLUMB_OUT_back_moment,
    PLUMB_OUT_hip_moment, PLUMB_OUT_knee_moment, PLUMB_OUT_summed_effort,
};

/* Two spreads: about one chance in twenty that the gain is none. */
static const double spreads = 2.0;

double plumb_least_difference(PlumbOutput output, PlumbLift lift, double value)
{
    const PlumbQuantity quantity = plumb_output_quantity(output, lift);
    if (quantity == PLUMB_Q_LENGTH) {
        return 0.002;
    }
    if (quantity == PLUMB_Q_ANGLE) {
        return degrees(0.5);
    }
    return output == PLUMB_OUT_balance ? 0.005 : 0.01 * fabs(value);
}

/* Slope of the goal's amount by its figure: the sign, or none where the amount is zero. */
static double amount_slope(const PlumbGoal *goal, const PlumbAnswer *answer)
{
    if (goal->form == PLUMB_GOAL_GONE || !(plumb_goal_amount(goal, answer) > 0.0)) {
        return goal->form == PLUMB_GOAL_LESS ? 1.0 : 0.0;
    }
    if (goal->form == PLUMB_GOAL_ABOVE) {
        return -1.0;
    }
    const double value = plumb_output_value(answer, goal->output);
    return goal->form == PLUMB_GOAL_NEAR && value < 0.0 ? -1.0 : 1.0;
}

/* The lengths that are not known exactly, as factors, and last the setting that an option moves. */
typedef struct Unsure {
    PlumbFactor factor[PLUMB_FACTOR_MAX];
    int count;
} Unsure;

/* Lengths with a spread, of either set-up: another seat has other lengths. */
static void unsure_begin(const PlumbLifter *lifter, const PlumbSetup *a, const PlumbSetup *b,
                         Unsure *unsure)
{
    PlumbFactor all[2][PLUMB_FACTOR_MAX];
    const int count[2] = {plumb_factors(a, all[0]), plumb_factors(b, all[1])};
    bool taken[PLUMB_LENGTH_COUNT] = {false};
    unsure->count = 0;
    for (int s = 0; s < 2; s++) {
        for (int i = 0; i < count[s]; i++) {
            const PlumbLength length = all[s][i].length;
            if (all[s][i].kind == PLUMB_FACTOR_LENGTH && !taken[length] &&
                lifter->body.length_sd_m[length] > 0.0) {
                taken[length] = true;
                unsure->factor[unsure->count++] = all[s][i];
            }
        }
    }
}

/* The figure that an option makes lead where something else led before: "2 cm higher" is counted
 * from what that body's own start was. PLUMB_OUTPUT_COUNT: none. */
static PlumbOutput new_lead(const PlumbSetup *setup, const PlumbOption *option)
{
    if (option->setup.lead == setup->lead || option->setup.hip_height_relative) {
        return PLUMB_OUTPUT_COUNT;
    }
    return option->setting == PLUMB_SET_hip_height   ? PLUMB_OUT_hip_height
           : option->setting == PLUMB_SET_back_angle ? PLUMB_OUT_back_angle
                                                     : PLUMB_OUTPUT_COUNT;
}

/* Spread of the gain: the same body errs the same way before and after. NaN where unknown. */
static double gain_spread(const PlumbLifter *lifter, const PlumbSetup *setup,
                          const PlumbAnswer *before, const PlumbOption *option,
                          const PlumbAnswer *after, const PlumbGoal *goal)
{
    static const double unknown = (double)NAN;
    Unsure unsure;
    PlumbEffectRow old[PLUMB_FACTOR_MAX];
    PlumbEffectRow new[PLUMB_FACTOR_MAX];
    unsure_begin(lifter, setup, &option->setup, &unsure);
    const PlumbOutput lead = new_lead(setup, option);
    const int count = unsure.count;
    unsure.factor[count] = (PlumbFactor){.kind = PLUMB_FACTOR_SETTING, .setting = option->setting};
    if (goal->form == PLUMB_GOAL_GONE) {
        return 0.0;
    }
    if (!plumb_effects_solve(lifter, setup, before, unsure.factor, count, old) ||
        !plumb_effects_solve(lifter, &option->setup, after, unsure.factor,
                             count + (lead != PLUMB_OUTPUT_COUNT), new)) {
        return unknown;
    }
    const double sign_before = amount_slope(goal, before);
    const double sign_after = amount_slope(goal, after);
    double square = 0.0;
    for (int i = 0; i < count; i++) {
        double by_after = new[i].of[goal->output].up;
        if (lead != PLUMB_OUTPUT_COUNT) {
            by_after += new[count].of[goal->output].up *old[i].of[lead].up;
        }
        const double part =
            ((sign_after == 0.0 ? 0.0 : sign_after * by_after) -
             (sign_before == 0.0 ? 0.0 : sign_before * old[i].of[goal->output].up)) *
            lifter->body.length_sd_m[unsure.factor[i].length];
        square += part * part;
    }
    return sqrt(square);
}

static double excess(const PlumbFinding *finding)
{
    return fabs(finding->value - finding->limit);
}

/* A finding counts as broken where the answer before had none of its kind, or a lesser one. Notes
 * count where they are rules of the grip. */
static bool breaks(const PlumbAnswer *before, const PlumbFinding *finding)
{
    const bool rule = finding->severity == PLUMB_WARNING ||
                      finding->id == PLUMB_FIND_hands_off_knurling ||
                      finding->id == PLUMB_FIND_hands_past_rings;
    for (int i = 0; i < before->finding_count && rule; i++) {
        const PlumbFinding *const old = &before->finding[i];
        if (old->id == finding->id && old->detail == finding->detail) {
            return excess(finding) > excess(old) + 1e-9;
        }
    }
    return rule;
}

static void weigh(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbAnswer *before,
                  const PlumbAdvice *advice, PlumbOption *option)
{
    const PlumbGoal *const goal = &advice->goal;
    PlumbAnswer after;
    plumb_answer_solve(lifter, &option->setup, &after);
    option->outcome = after.outcome;
    option->gain = advice->amount - plumb_goal_amount(goal, &after);
    option->kept = after.outcome != PLUMB_NO_POSE;
    for (int i = 0; i < after.finding_count; i++) {
        if (breaks(before, &after.finding[i]) && (option->kept || i == 0)) {
            option->kept = false;
            option->broken = after.finding[i];
            break;
        }
    }
    for (int i = 0; i < PLUMB_PRICE_COUNT; i++) {
        const PlumbOutput o = plumb_price_outputs[i];
        option->price[i] = after.outcome == PLUMB_NO_POSE || before->outcome == PLUMB_NO_POSE
                               ? (double)NAN
                               : plumb_output_value(&after, o) - plumb_output_value(before, o);
    }
    const bool gains = option->gain > advice->least_gain;
    option->gain_sd =
        gains ? gain_spread(lifter, setup, before, option, &after, goal) : (double)NAN;
    option->worth = gains && option->kept && option->gain > spreads * option->gain_sd;
}

/* Worth trying first, then what keeps the rules, then the rest; within, the larger gain. */
static bool goes_before(const PlumbOption *a, const PlumbOption *b)
{
    if (a->worth != b->worth) {
        return a->worth;
    }
    if (a->kept != b->kept) {
        return a->kept;
    }
    return a->gain > b->gain || (isnan(b->gain) && !isnan(a->gain));
}

static void insert(PlumbOption *option, int count, const PlumbOption *one)
{
    int at = count;
    while (at > 0 && goes_before(one, &option[at - 1])) {
        option[at] = option[at - 1];
        at--;
    }
    option[at] = *one;
}

static bool bears(const PlumbGoal *goal, PlumbLift lift, PlumbSettingId id)
{
    if (goal->aim != PLUMB_AIM_COUNT) {
        return true;
    }
    PlumbSettingId setting[PLUMB_SETTING_COUNT];
    const int count = plumb_finding_settings(goal->finding, lift, setting);
    for (int i = 0; i < count; i++) {
        if (setting[i] == id) {
            return true;
        }
    }
    return false;
}

void plumb_advice_rank(const PlumbLifter *lifter, const PlumbSetup *setup,
                       const PlumbAnswer *answer, const PlumbGoal *goal, PlumbOption *option,
                       PlumbAdvice *advice)
{
    *advice = (PlumbAdvice){.goal = *goal, .amount = plumb_goal_amount(goal, answer)};
    advice->least_gain = goal->form == PLUMB_GOAL_GONE
                             ? 0.5
                             : plumb_least_difference(goal->output, setup->lift, advice->amount);
    for (int i = 0; plumb_change(i) != NULL && advice->count < PLUMB_OPTION_MAX; i++) {
        PlumbOption one = {.outcome = PLUMB_NO_POSE};
        if (!bears(goal, setup->lift, plumb_change(i)->setting) ||
            !plumb_change_apply(plumb_change(i), setup, answer, &one)) {
            continue;
        }
        weigh(lifter, setup, answer, advice, &one);
        insert(option, advice->count++, &one);
        advice->worth_count += one.worth;
    }
}
