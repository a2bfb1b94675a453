/* SPDX-License-Identifier: MIT */
/* The slope of every figure of a press by every factor: the closed form differentiated, with
 * nothing solved again. */
#include "study/effect.h"
#include "study/press_ends.h"

#include <stddef.h>

/* Turns this near (rad) to the largest are as large. */
static const double same_turn = 1e-11;

/* What does not hang on the factor. */
typedef struct Study {
    const PlumbLifter *lifter;
    PlumbSetup setup; /* the touch as used */
    bool follows_range;
    PlumbPressEnds ends;
    PlumbPressAnswer answer;
    PlumbPressPathSlope path;
    double turn[PLUMB_PRESS_STEP_STARTS + 1]; /* of the upper arm in each centimetre, signed */
} Study;

/* One factor's slopes in one direction. */
typedef struct Slopes {
    double of[PLUMB_PRESS_OUTPUT_COUNT];
    unsigned kink;
} Slopes;

static bool study_begin(Study *study, const PlumbLifter *lifter, const PlumbSetup *setup)
{
    study->lifter = lifter;
    study->setup = *setup;
    study->follows_range = setup->lead == PLUMB_LEAD_AUTO;
    PlumbPress press = plumb_press_begin(lifter, setup);
    if (study->follows_range) {
        PlumbPressRange range;
        plumb_press_intervals(&press, &range);
        plumb_press_touch(&press, range.middle_m);
        study->setup.lead = PLUMB_LEAD_TOUCH;
        study->setup.touch_m = range.middle_m;
        const PlumbPressInputs fixed =
            plumb_press_inputs(lifter, &study->setup, lifter, &study->setup, 1.0);
        plumb_press_ends_begin(&range, &fixed, &study->ends);
    }
    plumb_press_quick(lifter, &study->setup, &study->answer);
    if (study->answer.outcome == PLUMB_NO_POSE) {
        return false;
    }
    study->path = plumb_press_path_slope(&press);
    const double window = plumb_press_step_window(study->answer.travel_m);
    for (int i = 0; i <= PLUMB_PRESS_STEP_STARTS; i++) {
        study->turn[i] = plumb_press_step_turn(&press, window, i);
    }
    return true;
}

/* The largest of |turn| moves with the one that grows most on this side among those as large. */
static double step_slope(const Study *study, const PlumbPressInputs *in, Jet touch, Jet swivel,
                         Jet travel, unsigned *kink)
{
    const double direction = in->direction;
    const Jet window = plumb_press_step_window(travel.v) < 1.0
                           ? jet_scale(jet_inverse(travel), 0.01)
                           : jet_fixed(1.0);
    const double largest = study->answer.abduction_step_rad;
    double growth = (double)NAN;
    int met = 0;
    for (int i = 0; i <= PLUMB_PRESS_STEP_STARTS; i++) {
        if (!(fabs(study->turn[i]) >= largest - same_turn)) {
            continue;
        }
        const Jet from =
            jet_scale(jet_sub(jet_fixed(1.0), window), (double)i / PLUMB_PRESS_STEP_STARTS);
        const Jet to = i == PLUMB_PRESS_STEP_STARTS ? jet_fixed(1.0) : jet_add(from, window);
        const double by = plumb_press_abduction_jet(in, touch, swivel, to).d -
                          plumb_press_abduction_jet(in, touch, swivel, from).d;
        const bool none = fabs(study->turn[i]) <= same_turn;
        const double own = none ? fabs(by) : copysign(1.0, study->turn[i]) * by * direction;
        *kink |= met > 0 || none ? (unsigned)PLUMB_KINK_QUICKEST : 0U;
        growth = met == 0 ? own : fmax(growth, own);
        met++;
    }
    return growth * direction;
}

/* Why this figure may have a kink, of all that was met. */
static unsigned kink_of(unsigned met, int output)
{
    const bool effort = output >= (int)PLUMB_PRESS_OUT_adduction_effort &&
                        output <= (int)PLUMB_PRESS_OUT_elbow_effort;
    const bool step = output == (int)PLUMB_PRESS_OUT_abduction_step;
    return met & ~((effort ? 0U : (unsigned)PLUMB_KINK_MOMENT_SIGN) |
                   (step ? 0U : (unsigned)PLUMB_KINK_QUICKEST));
}

static void solve_direction(const Study *study, const PlumbFactor *factor, double direction,
                            Slopes *slopes)
{
    PlumbLifter moved = *study->lifter;
    PlumbSetup moved_setup = study->setup;
    plumb_factor_move(factor, 1.0, &moved, &moved_setup);
    const PlumbPressInputs in =
        plumb_press_inputs(study->lifter, &study->setup, &moved, &moved_setup, direction);
    slopes->kink = 0;
    const double touch_slope = study->follows_range
                                   ? plumb_press_middle_slope(&study->ends, &in, &slopes->kink)
                                   : moved_setup.touch_m - study->setup.touch_m;
    const Jet touch = jet(study->setup.touch_m, touch_slope, 0.0);
    PlumbPressTouch at;
    plumb_press_touch_jets(&in, touch, false, &at);
    slopes->kink |= at.kink;
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        slopes->of[o] = at.of[o].d;
    }
    const Jet travel = jet_sub(in.top, in.touch_y);
    slopes->of[PLUMB_PRESS_OUT_travel] = travel.d;
    slopes->of[PLUMB_PRESS_OUT_lockout_height] = in.top.d;
    slopes->of[PLUMB_PRESS_OUT_path_length] = study->path.by_rise * travel.d +
                                              study->path.by_along * (touch.d - in.over.d) +
                                              study->path.by_exponent_m * in.exponent.d;
    slopes->of[PLUMB_PRESS_OUT_abduction_step] =
        step_slope(study, &in, touch, at.swivel, travel, &slopes->kink);
}

bool plumb_press_effects_solve(const PlumbLifter *lifter, const PlumbSetup *setup,
                               const PlumbFactor *factor, int count, PlumbEffectRow *row)
{
    Study study = {.lifter = lifter};
    if (!study_begin(&study, lifter, setup)) {
        return false;
    }
    for (int i = 0; i < count; i++) {
        Slopes up;
        solve_direction(&study, &factor[i], 1.0, &up);
        Slopes down = up;
        if (up.kink != 0) {
            solve_direction(&study, &factor[i], -1.0, &down);
        }
        for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
            const double value = plumb_press_output_value(&study.answer, (PlumbPressOutput)o);
            row[i].of[o] = plumb_effect_join(up.of[o], down.of[o], kink_of(up.kink | down.kink, o),
                                             fabs(value));
        }
    }
    return true;
}
