/* SPDX-License-Identifier: MIT */
/* People at large in one set-up, and what a small change of each body does. */
#include <plumbar/population.h>

#include <math.h>

static const double LONGER = 1.02;
static const double WIDER_M = 0.05;
static const double FIVE_DEGREES = 5.0 * 3.14159265358979323846 / 180.0;
enum { LEGS_LIFTS = -1 };

typedef struct DirectionRow {
    const char *name;
    int lift;
    const char *text;
    PlumbQuantity quantity;
} DirectionRow;

static const DirectionRow rows[PLUMB_DIRECTION_COUNT] = {
#define X(name, lift, text, quantity) {#name, lift, text, PLUMB_Q_##quantity},
    PLUMB_DIRECTION_LIST(X)
#undef X
};

const char *plumb_direction_name(PlumbDirection direction)
{
    return rows[direction].name;
}

const char *plumb_direction_text(PlumbDirection direction)
{
    return rows[direction].text;
}

PlumbQuantity plumb_direction_quantity(PlumbDirection direction)
{
    return rows[direction].quantity;
}

bool plumb_direction_applies(PlumbDirection direction, PlumbLift lift)
{
    return rows[direction].lift == (int)lift ||
           (rows[direction].lift == LEGS_LIFTS && lift != PLUMB_BENCH);
}

/* Back angle and travel of a changed body; NaN where it has no pose. */
typedef struct Changed {
    double back_rad;
    double travel_m;
} Changed;

static Changed solve(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    PlumbAnswer answer;
    plumb_answer_quick(lifter, setup, &answer);
    const bool held = answer.outcome != PLUMB_NO_POSE;
    return (Changed){held ? answer.start.angle_rad[PLUMB_ANG_back] : (double)NAN, answer.travel_m};
}

static Changed with_thighs(const PlumbLifter *lifter, const PlumbSetup *held)
{
    PlumbLifter changed = *lifter;
    changed.body.thigh_m *= LONGER;
    return solve(&changed, held);
}

static PlumbLifter longer_arms(const PlumbLifter *lifter)
{
    PlumbLifter changed = *lifter;
    changed.body.upper_arm_m *= LONGER;
    changed.body.forearm_m *= LONGER;
    changed.body.wrist_to_grip_fingers_m *= LONGER;
    changed.body.wrist_to_grip_palm_m *= LONGER;
    return changed;
}

static Changed with_arms(const PlumbLifter *lifter, const PlumbSetup *held)
{
    const PlumbLifter changed = longer_arms(lifter);
    return solve(&changed, held);
}

/* The set-up in which a body is changed: what the answer came to leads. */
static PlumbSetup hold(const PlumbAnswer *answer)
{
    PlumbSetup held = answer->setup;
    held.hip_height_relative = false;
    if (held.lift == PLUMB_DEADLIFT) {
        held.lead = PLUMB_LEAD_BALANCE;
        held.balance_frac = answer->start.balance_frac;
    } else {
        held.lead = PLUMB_LEAD_SHIN_ANGLE;
        held.shin_angle_rad = answer->start.angle_rad[PLUMB_ANG_shin];
    }
    return held;
}

static void try_sayings(const PlumbLifter *lifter, const PlumbAnswer *answer,
                        double by[PLUMB_DIRECTION_COUNT])
{
    const PlumbSetup held = hold(answer);
    const Changed as_is = {answer->start.angle_rad[PLUMB_ANG_back], answer->travel_m};
    const Changed thighs = with_thighs(lifter, &held);
    by[PLUMB_DIR_thighs_lean] = as_is.back_rad - thighs.back_rad;
    if (held.lift == PLUMB_DEADLIFT) {
        const Changed arms = with_arms(lifter, &held);
        by[PLUMB_DIR_arms_travel] = as_is.travel_m - arms.travel_m;
        by[PLUMB_DIR_arms_upright] = arms.back_rad - as_is.back_rad;
        return;
    }
    PlumbSetup stiff = held;
    stiff.shin_angle_rad -= FIVE_DEGREES;
    const double turned = as_is.back_rad - solve(lifter, &stiff).back_rad;
    by[PLUMB_DIR_ankle_over_thigh] = fabs(turned) - fabs(as_is.back_rad - thighs.back_rad);
    by[PLUMB_DIR_knees_forward] = turned;
}

/* The touch that the answer came to is held. NaN where the changed press has no pose. */
static void try_press_sayings(const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                              double by[PLUMB_DIRECTION_COUNT])
{
    PlumbSetup held = answer->setup;
    held.lead = PLUMB_LEAD_TOUCH;
    const PlumbLifter arms = longer_arms(lifter);
    PlumbPressAnswer changed;
    plumb_press_quick(&arms, &held, &changed);
    by[PLUMB_DIR_arms_press] = changed.travel_m - answer->travel_m;
    held.grip_m += WIDER_M;
    plumb_press_quick(lifter, &held, &changed);
    const PlumbPressOutput moment = PLUMB_PRESS_OUT_elbow_moment;
    by[PLUMB_DIR_grip_travel] = answer->travel_m - changed.travel_m;
    /* With its sign: past the grip of the upright forearm the biceps has to hold. */
    by[PLUMB_DIR_grip_elbow] =
        plumb_press_output_value(answer, moment) - plumb_press_output_value(&changed, moment);
}

static void solve_person(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t index,
                         PlumbPerson *person)
{
    PlumbLifter lifter;
    PlumbSolved solved;
    plumb_sample_solve(sampler, setup, index, &lifter, &solved, &person->sample);
    for (int i = 0; i < PLUMB_DIRECTION_COUNT; i++) {
        person->by[i] = (double)NAN;
    }
    if (plumb_solved_outcome(&solved) == PLUMB_NO_POSE) {
        return;
    }
    if (setup->lift == PLUMB_BENCH) {
        try_press_sayings(&lifter, &solved.press, person->by);
    } else {
        try_sayings(&lifter, &solved.pose, person->by);
    }
}

void plumb_population_solve(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t first,
                            int count, PlumbPerson *person)
{
    for (int i = 0; i < count; i++) {
        solve_person(sampler, setup, first + (uint64_t)i, &person[i]);
    }
}

PlumbEstimate plumb_population_estimate(const PlumbPerson *person, int count, int output,
                                        double *scratch)
{
    for (int i = 0; i < count; i++) {
        scratch[i] = person[i].sample.output[output];
    }
    return plumb_estimate(scratch, count, scratch + count);
}

double plumb_population_share_below(const PlumbPerson *person, int count, int output, double value)
{
    int all = 0;
    int below = 0;
    for (int i = 0; i < count; i++) {
        const double other = person[i].sample.output[output];
        all += isfinite(other) ? 1 : 0;
        below += other < value ? 1 : 0;
    }
    return all > 0 && isfinite(value) ? (double)below / all : (double)NAN;
}

PlumbSaying plumb_population_saying(const PlumbPerson *person, int count, PlumbDirection direction,
                                    double *scratch)
{
    int held = 0;
    for (int i = 0; i < count; i++) {
        scratch[i] = person[i].by[direction];
        held += scratch[i] > 0.0 ? 1 : 0;
    }
    const PlumbEstimate estimate = plumb_estimate(scratch, count, scratch + count);
    const double share = estimate.count > 0 ? (double)held / estimate.count : (double)NAN;
    return (PlumbSaying){estimate.count, share, estimate.median};
}
