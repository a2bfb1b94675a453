/* SPDX-License-Identifier: MIT */
/* The slope of every figure by every factor: motions of start, lockout, window and range, chained
 * as the answer chains them, with nothing solved again. */
#include "study/effect.h"
#include "study/positions.h"

#include <stddef.h>

/* One factor's slopes in one direction. */
typedef struct Slopes {
    double of[PLUMB_OUTPUT_COUNT];
    unsigned kink;
} Slopes;

static const PlumbDrive undriven = {.turn = 0.0};

/* The equation whose target follows: the hip height, or the shin angle, last but for that pair. */
static int lead_equation(const PlumbSpot *start)
{
    return start->equation[1].constraint.id == PLUMB_CON_hip_height ? 1 : 2;
}

static double middle_slope(const PlumbEndsSlope *ends)
{
    return 0.5 * (ends->range[0] + ends->range[1]);
}

/* The start that balance leads, for a relative hip height. */
static double balance_led_slope(const PlumbStudy *study, PlumbVary *vary, double direction,
                                unsigned *kink)
{
    if (study->over_toes) {
        plumb_vary_turn(vary, study->led_case.knees_out_rad);
    }
    const PlumbMotion motion = plumb_spot_motion(&study->led, vary, &undriven, direction);
    if (study->over_toes) {
        plumb_vary_turn(vary, study->c.knees_out_rad);
    }
    *kink |= motion.kink;
    return motion.known ? motion.dv[PLUMB_Y] : (double)NAN;
}

/* auto with the knees over the toes: the middle m of the range moves with the turn of the legs and
 * the turn with the middle, dm = m_p + m_t dt and dt = a + b dm, so that
 * dm = (m_p + m_t a) / (1 - m_t b). */
static double settled_slope(const PlumbStudy *study, const PlumbVary *vary, double direction,
                            double by_factor)
{
    const PlumbEndsSlope turned = plumb_ends_slope(&study->ends, vary, 1.0, direction);
    const PlumbMotion held = plumb_spot_motion(&study->start, vary, &undriven, direction);
    const PlumbMotion push = plumb_spot_push(&study->start, lead_equation(&study->start));
    const double by_turn = middle_slope(&turned) - by_factor;
    return (by_factor + by_turn * held.dv[PLUMB_PSI]) / (1.0 - by_turn * push.dv[PLUMB_PSI]);
}

/* How much the lead's target grows beside the factor's own share. Where that hangs on the answer's
 * range, *ends gets the slopes for later. */
static double lead_slope(const PlumbStudy *study, PlumbVary *vary, double direction,
                         PlumbEndsSlope *ends, unsigned *kink)
{
    if (study->follows_balance) {
        return balance_led_slope(study, vary, direction, kink);
    }
    if (!study->follows_range) {
        return 0.0;
    }
    if (!study->settled) {
        return (double)NAN;
    }
    *ends = plumb_ends_slope(&study->ends, vary, 0.0, direction);
    *kink |= ends->kink;
    return study->over_toes ? settled_slope(study, vary, direction, middle_slope(ends))
                            : middle_slope(ends);
}

static void put_angles(const PlumbSmooth *slope, Slopes *slopes)
{
    static const PlumbAngle angle[] = {
        PLUMB_ANG_back,
        PLUMB_ANG_shin,
        PLUMB_ANG_thigh,
        PLUMB_ANG_knee_flexion,
        PLUMB_ANG_ankle_dorsiflexion,
        PLUMB_ANG_hip_flexion,
        PLUMB_ANG_hip_abduction,
        PLUMB_ANG_hip_external_rotation,
        PLUMB_ANG_frontal_shin,
    };
    for (int i = 0; i < (int)(sizeof angle / sizeof angle[0]); i++) {
        slopes->of[PLUMB_OUT_back_angle + i] = slope->value[PLUMB_SMOOTH_ANGLE + angle[i]];
    }
}

static void put_joints(const PlumbSmooth *slope, const PlumbEffortSlope *effort, Slopes *slopes)
{
    static const PlumbJoint joint[PLUMB_JOINT_COUNT] = {PLUMB_JOINT_hip, PLUMB_JOINT_back,
                                                        PLUMB_JOINT_knee, PLUMB_JOINT_ankle,
                                                        PLUMB_JOINT_shoulder};
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        slopes->of[PLUMB_OUT_hip_arm + i] = slope->value[PLUMB_SMOOTH_ARM + (int)joint[i]];
        slopes->of[PLUMB_OUT_hip_moment + i] = slope->value[PLUMB_SMOOTH_MOMENT + (int)joint[i]];
        slopes->of[PLUMB_OUT_hip_effort + i] = effort->relative[joint[i]];
    }
    slopes->of[PLUMB_OUT_summed_effort] = effort->summed;
}

/* The gap between leg and bar; zero where the bar is against the leg. */
static double gap_slope(const PlumbStudy *study, const PlumbSmooth *slope)
{
    if (study->c.setup.lift != PLUMB_DEADLIFT) {
        return (double)NAN;
    }
    const double *const v = slope->value;
    const PlumbLegMove move = {
        .ankle = {v[PLUMB_SMOOTH_ANKLE_X], v[PLUMB_SMOOTH_ANKLE_Y]},
        .knee = {v[PLUMB_SMOOTH_KNEE_X], v[PLUMB_SMOOTH_KNEE_Y]},
        .hip = {v[PLUMB_SMOOTH_HIP_X], v[PLUMB_SMOOTH_HIP_Y]},
        .bar = {v[PLUMB_SMOOTH_BAR_X], v[PLUMB_SMOOTH_BAR_Y]},
        .shin_half_thickness = v[PLUMB_SMOOTH_SHIN_THICKNESS],
        .thigh_half_thickness = v[PLUMB_SMOOTH_THIGH_THICKNESS],
    };
    return plumb_clearance_slope(&study->c.rig, &study->start.eval, PLUMB_CAPSULE_NEARER, &move);
}

static void put_start(const PlumbStudy *study, const PlumbVary *vary, const PlumbMotion *motion,
                      double direction, PlumbSmooth *slope, Slopes *slopes)
{
    *slope = plumb_smooth_slope(&study->start, &study->start_smooth, vary, motion);
    const PlumbEffortSlope effort = plumb_effort_slope(&study->c.capacity, &study->efforts, slope,
                                                       vary->capacity_slope, direction);
    slopes->kink |= effort.kink | motion->kink;
    const double *const v = slope->value;
    put_joints(slope, &effort, slopes);
    put_angles(slope, slopes);
    slopes->of[PLUMB_OUT_balance] = v[PLUMB_SMOOTH_BALANCE];
    slopes->of[PLUMB_OUT_hip_height] = v[PLUMB_SMOOTH_HIP_Y];
    slopes->of[PLUMB_OUT_shoulder_ahead] = v[PLUMB_SMOOTH_SHOULDER_X] - v[PLUMB_SMOOTH_BAR_X];
    slopes->of[PLUMB_OUT_leg_gap] = motion->kink != 0 ? 0.0 : gap_slope(study, slope);
    slopes->of[PLUMB_OUT_toe_line] = v[PLUMB_SMOOTH_TOE_LINE];
    slopes->of[PLUMB_OUT_knee_outside] = v[PLUMB_SMOOTH_KNEE_Z] - v[PLUMB_SMOOTH_ANKLE_Z];
    slopes->of[PLUMB_OUT_bar_over] = v[PLUMB_SMOOTH_BAR_X];
    slopes->of[PLUMB_OUT_frontal_knee_moment] = v[PLUMB_SMOOTH_FRONTAL_KNEE];
    slopes->of[PLUMB_OUT_frontal_hip_moment] = v[PLUMB_SMOOTH_FRONTAL_HIP];
}

/* Which way a squat stands on this side of the factor: leaning as the bar asks, or upright. */
static bool stands_leaning(const PlumbStudy *study, const PlumbVary *vary, const PlumbDrive *drive,
                           double direction, unsigned *kink)
{
    if (!study->standing_tied) {
        return !study->standing_straight;
    }
    *kink |= PLUMB_KINK_UPRIGHT;
    const PlumbMotion motion = plumb_spot_motion(&study->leaning, vary, drive, direction);
    return motion.known && direction * motion.dv[PLUMB_LEAN] >= 0.0;
}

static void put_end(const PlumbStudy *study, const PlumbVary *vary, const PlumbSmooth *start,
                    double turn, double direction, Slopes *slopes)
{
    if (!study->has_end) {
        return;
    }
    const bool pull = study->c.setup.lift == PLUMB_DEADLIFT;
    PlumbDrive drive = {.turn = turn};
    drive.target[3] = pull ? start->value[PLUMB_SMOOTH_BALANCE] : 0.0;
    const bool leaning = !pull && stands_leaning(study, vary, &drive, direction, &slopes->kink);
    const PlumbSpot *const spot = leaning ? &study->leaning : &study->end;
    const PlumbMotion motion = plumb_spot_motion(spot, vary, &drive, direction);
    if (!motion.known) {
        return;
    }
    slopes->kink |= motion.kink;
    const PlumbSmooth slope = plumb_smooth_slope(
        spot, leaning ? &study->leaning_smooth : &study->end_smooth, vary, &motion);
    slopes->of[PLUMB_OUT_travel] =
        slope.value[PLUMB_SMOOTH_BAR_Y] - start->value[PLUMB_SMOOTH_BAR_Y];
    if (!pull) {
        slopes->of[PLUMB_OUT_standing_off] =
            slope.value[PLUMB_SMOOTH_BAR_X] - slope.value[PLUMB_SMOOTH_BALANCE_POINT];
    }
}

static void put_ends(const PlumbEndsSlope *ends, Slopes *slopes)
{
    slopes->kink |= ends->kink;
    slopes->of[PLUMB_OUT_window_low] = ends->window[0];
    slopes->of[PLUMB_OUT_window_high] = ends->window[1];
    slopes->of[PLUMB_OUT_window_width] = ends->window[1] - ends->window[0];
    slopes->of[PLUMB_OUT_range_low] = ends->range[0];
    slopes->of[PLUMB_OUT_range_high] = ends->range[1];
    slopes->of[PLUMB_OUT_hip_room] = slopes->of[PLUMB_OUT_hip_height] - ends->window[0];
}

/* All slopes of one factor in one direction. */
static void solve_direction(const PlumbStudy *study, PlumbVary *vary, double direction,
                            Slopes *slopes)
{
    slopes->kink = 0;
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        slopes->of[i] = (double)NAN;
    }
    PlumbDrive drive = {.turn = 0.0};
    PlumbEndsSlope ends = {.kink = 0};
    const double lead = lead_slope(study, vary, direction, &ends, &slopes->kink);
    drive.target[lead_equation(&study->start)] = lead;
    const PlumbMotion motion = plumb_spot_motion(&study->start, vary, &drive, direction);
    if (!motion.known || isnan(lead)) {
        slopes->kink |= PLUMB_KINK_NO_SLOPE;
        return;
    }
    const double turn = study->over_toes ? motion.dv[PLUMB_PSI] : 0.0;
    PlumbSmooth start;
    put_start(study, vary, &motion, direction, &start, slopes);
    put_end(study, vary, &start, turn, direction, slopes);
    if (!study->follows_range || study->over_toes) {
        ends = plumb_ends_slope(&study->ends, vary, turn, direction);
    }
    put_ends(&ends, slopes);
}

bool plumb_effects_solve(const PlumbLifter *lifter, const PlumbSetup *setup,
                         const PlumbAnswer *answer, const PlumbFactor *factor, int count,
                         PlumbEffectRow *row)
{
    PlumbStudy study;
    const bool known = setup->lift == PLUMB_DEADLIFT || setup->lift == PLUMB_SQUAT;
    if (!known || answer->outcome == PLUMB_NO_POSE ||
        !plumb_study_begin(&study, lifter, setup, answer)) {
        return false;
    }
    for (int i = 0; i < count; i++) {
        PlumbVary vary;
        Slopes up;
        Slopes down;
        plumb_vary_begin(lifter, &answer->setup, answer->start.knees_out_rad, &factor[i], &vary);
        solve_direction(&study, &vary, 1.0, &up);
        down = up;
        if (up.kink != 0) {
            solve_direction(&study, &vary, -1.0, &down);
        }
        for (int o = 0; o < PLUMB_OUTPUT_COUNT; o++) {
            if (!plumb_output_applies((PlumbOutput)o, answer->setup.lift)) {
                up.of[o] = down.of[o] = (double)NAN;
            }
            row[i].of[o] = plumb_effect_join(up.of[o], down.of[o], up.kink | down.kink,
                                             fabs(plumb_output_value(answer, (PlumbOutput)o)));
        }
    }
    return true;
}
