/* SPDX-License-Identifier: MIT */
/* Ranks single changes for a goal: solves each, weighs its gain against its spread, and looks for
 * limits and rules that it would break. */
#include "study/option.h"

#include "base/vec.h"

#include <math.h>

static const int prices[2][PLUMB_PRICE_COUNT] = {
    {
        PLUMB_OUT_travel,
        PLUMB_OUT_balance,
        PLUMB_OUT_back_angle,
        PLUMB_OUT_hip_height,
        PLUMB_OUT_shin_angle,
        PLUMB_OUT_back_moment,
        PLUMB_OUT_hip_moment,
        PLUMB_OUT_knee_moment,
        PLUMB_OUT_summed_effort,
    },
    {
        PLUMB_PRESS_OUT_travel,
        PLUMB_PRESS_OUT_touch,
        PLUMB_PRESS_OUT_upper_arm,
        PLUMB_PRESS_OUT_forearm_front,
        PLUMB_PRESS_OUT_elbow_below_rule,
        PLUMB_PRESS_OUT_adduction_moment,
        PLUMB_PRESS_OUT_flexion_moment,
        PLUMB_PRESS_OUT_elbow_moment,
        PLUMB_PRESS_OUT_summed_effort,
    },
};

int plumb_price_output(PlumbLift lift, int index)
{
    return prices[lift == PLUMB_BENCH ? 1 : 0][index];
}

/* Two spreads: about one chance in twenty that the gain is none. */
static const double spreads = 2.0;

double plumb_least_difference(PlumbLift lift, int output, double value)
{
    const PlumbQuantity quantity = plumb_lift_output_quantity(lift, output);
    if (quantity == PLUMB_Q_LENGTH) {
        return 0.002;
    }
    if (quantity == PLUMB_Q_ANGLE) {
        return degrees(0.5);
    }
    if (quantity == PLUMB_Q_MOMENT) {
        return fmax(0.5, 0.01 * fabs(value));
    }
    return lift != PLUMB_BENCH && output == PLUMB_OUT_balance ? 0.005 : 0.01 * fabs(value);
}

double plumb_notable_difference(PlumbLift lift, int output, double value)
{
    const PlumbQuantity quantity = plumb_lift_output_quantity(lift, output);
    if (quantity == PLUMB_Q_LENGTH) {
        return 0.01;
    }
    if (quantity == PLUMB_Q_ANGLE) {
        return degrees(2.0);
    }
    if (quantity == PLUMB_Q_MOMENT) {
        return fmax(2.0, 0.025 * fabs(value));
    }
    if (lift != PLUMB_BENCH && output == PLUMB_OUT_balance) {
        return 0.02;
    }
    const int sum = lift == PLUMB_BENCH ? PLUMB_PRESS_OUT_summed_effort : PLUMB_OUT_summed_effort;
    return (output == sum ? 0.075 : 0.025) * fabs(value);
}

bool plumb_option_is_notable(const PlumbOption *option, const PlumbAdvice *advice)
{
    return option->gain >= (1.0 - 1e-6) * advice->least_worth; /* a whole centimetre is one */
}

/* Slope of the goal's amount by its figure: the sign, or none where the amount is zero. */
static double amount_slope(const PlumbGoal *goal, const PlumbSolved *solved)
{
    if (!plumb_goal_of_figure(goal) || !(plumb_goal_amount(goal, solved) > 0.0)) {
        return goal->form == PLUMB_GOAL_LESS ? 1.0 : 0.0;
    }
    if (goal->form == PLUMB_GOAL_ABOVE) {
        return -1.0;
    }
    const double value = plumb_solved_value(solved, goal->output);
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

/* Spread of the gain, for where there is no time to draw bodies: the same body errs the same way
 * before and after, lengths apart from each other. NaN where unknown. */
static double gain_spread(const PlumbLifter *lifter, const PlumbSetup *setup,
                          const PlumbSolved *before, const PlumbOption *option,
                          const PlumbSolved *after, const PlumbGoal *goal)
{
    Unsure unsure;
    double old[2 * PLUMB_FACTOR_MAX]; /* slopes of the goal's figure, then of what newly leads */
    double new[PLUMB_FACTOR_MAX];
    unsure_begin(lifter, setup, &option->setup, &unsure);
    const int lead = plumb_option_new_lead(option, setup);
    const int count = unsure.count;
    unsure.factor[count] = (PlumbFactor){.kind = PLUMB_FACTOR_SETTING, .setting = option->setting};
    if (!plumb_goal_of_figure(goal)) {
        return 0.0;
    }
    const int output[2] = {goal->output, lead >= 0 ? lead : goal->output};
    if (!plumb_solved_slopes(lifter, setup, before, unsure.factor, count, output, 2, old) ||
        !plumb_solved_slopes(lifter, &option->setup, after, unsure.factor, count + (lead >= 0),
                             output, 1, new)) {
        return (double)NAN;
    }
    const double sign_before = amount_slope(goal, before);
    const double sign_after = amount_slope(goal, after);
    double square = 0.0;
    for (int i = 0; i < count; i++) {
        const double by_after = new[i] + (lead >= 0 ? new[count] * old[count + i] : 0.0);
        const double part = ((sign_after == 0.0 ? 0.0 : sign_after * by_after) -
                             (sign_before == 0.0 ? 0.0 : sign_before * old[i])) *
                            lifter->body.length_sd_m[unsure.factor[i].length];
        square += part * part;
    }
    return sqrt(square);
}

/* By how much a finding is off; the limit of elbows that flare is what is offered instead. */
static double excess(const PlumbFinding *finding)
{
    return finding->id == PLUMB_FIND_elbows_flare_outside ? fabs(finding->value)
                                                          : fabs(finding->value - finding->limit);
}

/* A finding counts as broken where the answer before had none of its kind, or a lesser one. A
 * note counts where the hands would leave the knurling; ring marks bind a press alone. */
static bool breaks(const PlumbSolved *before, const PlumbFinding *finding)
{
    const bool rule =
        finding->severity == PLUMB_WARNING || finding->id == PLUMB_FIND_hands_off_knurling;
    int count;
    const PlumbFinding *const old = plumb_solved_findings(before, &count);
    for (int i = 0; i < count && rule; i++) {
        if (old[i].id == finding->id && old[i].detail == finding->detail) {
            return excess(finding) > excess(&old[i]) + 1e-9;
        }
    }
    return rule;
}

/* Whether limits and rules are kept, and the first that is not. */
static void judge(const PlumbSolved *before, const PlumbSolved *after, PlumbOption *option)
{
    int count;
    const PlumbFinding *const finding = plumb_solved_findings(after, &count);
    option->kept = option->outcome != PLUMB_NO_POSE;
    for (int i = 0; i < count; i++) {
        if (breaks(before, &finding[i]) && (option->kept || i == 0)) {
            option->kept = false;
            option->broken = finding[i];
            return;
        }
    }
}

static void weigh(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbSolved *before,
                  const PlumbAdvice *advice, PlumbOption *option)
{
    const PlumbGoal *const goal = &advice->goal;
    PlumbSolved after;
    plumb_solved_solve(lifter, &option->setup, &after);
    option->outcome = plumb_solved_outcome(&after);
    option->gain = advice->amount - plumb_goal_amount(goal, &after);
    judge(before, &after, option);
    for (int i = 0; i < PLUMB_PRICE_COUNT; i++) {
        const int o = plumb_price_output(setup->lift, i);
        option->price[i] = plumb_solved_value(&after, o) - plumb_solved_value(before, o);
    }
    const bool gains = option->gain > advice->least_gain;
    option->gain_sd =
        gains ? gain_spread(lifter, setup, before, option, &after, goal) : (double)NAN;
    option->worth = gains && option->kept && plumb_option_is_notable(option, advice) &&
                    option->gain > spreads * option->gain_sd;
}

/* Worth trying first, then what keeps the rules, then the rest; within, the larger gain. */
bool plumb_option_before(const PlumbOption *a, const PlumbOption *b)
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
    while (at > 0 && plumb_option_before(one, &option[at - 1])) {
        option[at] = option[at - 1];
        at--;
    }
    option[at] = *one;
}

/* Two places in one direction have the same first step; it is offered for the first of them. */
static bool is_offered(const PlumbOption *option, int count, const PlumbOption *one)
{
    for (int i = 0; i < count; i++) {
        if (one->first_step && option[i].first_step && option[i].setting == one->setting &&
            option[i].delta_si == one->delta_si) {
            return true;
        }
    }
    return false;
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

void plumb_advice_rank(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbGoal *goal,
                       PlumbUnits units, PlumbOption *option, PlumbAdvice *advice)
{
    PlumbSolved before;
    plumb_solved_solve(lifter, setup, &before);
    *advice = (PlumbAdvice){.goal = *goal, .amount = plumb_goal_amount(goal, &before)};
    advice->least_gain = goal->form == PLUMB_GOAL_GONE
                             ? 0.5
                             : plumb_least_difference(goal->lift, goal->output, advice->amount);
    advice->least_worth = goal->aim == PLUMB_AIM_COUNT
                              ? advice->least_gain
                              : plumb_notable_difference(goal->lift, goal->output, advice->amount);
    for (int i = 0; plumb_change(i) != NULL && advice->count < PLUMB_OPTION_MAX; i++) {
        PlumbOption one = {.outcome = PLUMB_NO_POSE};
        if (!bears(goal, setup->lift, plumb_change(i)->setting) ||
            !plumb_change_apply(i, lifter, setup, &before, units, &one) ||
            is_offered(option, advice->count, &one)) {
            continue;
        }
        weigh(lifter, setup, &before, advice, &one);
        insert(option, advice->count++, &one);
        advice->worth_count += one.worth;
    }
}
