/* SPDX-License-Identifier: MIT */
/* The slope of every figure by every factor: motions of start, lockout, window and range, chained
 * as the answer chains them, with nothing solved again. */
#include "study/ends.h"

#include <stddef.h>

/* A set-up's solved positions and what links them. */
typedef struct Study {
    PlumbCase c; /* leads resolved, turned as solved */
    const PlumbAnswer *answer;
    bool over_toes;
    PlumbSpot start;
    PlumbSmoothBase start_smooth;
    PlumbEffortBase efforts;
    bool has_end;
    PlumbSpot end;
    PlumbSmoothBase end_smooth;
    bool standing_straight; /* squat: the trunk is held upright, the bar is let go */
    bool standing_tied;     /* and just so */
    PlumbSpot leaning;      /* squat: the other way to stand */
    PlumbSmoothBase leaning_smooth;
    PlumbEnds ends;
    /* what a lead follows */
    bool follows_balance; /* a relative hip height: the start that balance leads */
    PlumbCase led_case;
    PlumbSpot led;
    bool follows_range; /* auto */
    bool own_ends;      /* auto with knees over the toes: the range has a turn of its own */
    PlumbCase seed_case;
    PlumbSpot seed;
    PlumbEnds seed_ends;
} Study;

/* One factor's slopes in one direction. */
typedef struct Slopes {
    double of[PLUMB_OUTPUT_COUNT];
    unsigned kink;
} Slopes;

static PlumbProblem with_toes(const PlumbProblem *problem, bool over_toes)
{
    PlumbProblem turned = *problem;
    if (over_toes) {
        turned.count = 4;
        turned.free[3] = PLUMB_PSI;
        turned.constraint[3] = (PlumbConstraint){PLUMB_CON_knees_over_toes, 0.0};
    }
    return turned;
}

static PlumbState state_of(const PlumbPosition *position)
{
    return (PlumbState){.v = {[PLUMB_X] = position->pose.hip_x_m,
                              [PLUMB_Y] = position->pose.hip_height_m,
                              [PLUMB_LEAN] = position->pose.thorax_lean_rad,
                              [PLUMB_BAR_X] = position->point[PLUMB_PT_bar].x,
                              [PLUMB_BAR_Y] = position->point[PLUMB_PT_bar].y,
                              [PLUMB_PSI] = position->knees_out_rad}};
}

static void begin_start(Study *study)
{
    const PlumbState state = state_of(&study->answer->start);
    const PlumbProblem lead = plumb_lead_problem(&study->c.setup, study->c.setup.lead);
    const PlumbProblem problem = with_toes(&lead, study->over_toes);
    study->start = plumb_spot(&study->c, &study->c.rig, &problem, &state, false);
    plumb_spot_from_setup(&study->start);
    plumb_spot_ready(&study->start);
    plumb_smooth_begin(&study->start, PLUMB_SMOOTH_COUNT, &study->start_smooth);
    study->efforts = plumb_effort_base(&study->start);
}

static void begin_lockout(Study *study, PlumbRig *upright, const PlumbState *state)
{
    const PlumbProblem problem = {
        .count = 4,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_BAR_X, PLUMB_BAR_Y},
        .constraint = {{PLUMB_CON_knee_bend, 0.0},
                       {PLUMB_CON_reach, 0.0},
                       {PLUMB_CON_clearance, 0.0},
                       {PLUMB_CON_balance, study->answer->start.balance_frac}},
        .knee_bend_rad = 0.0,
    };
    study->end = plumb_spot(&study->c, upright, &problem, state, true);
    plumb_spot_ready(&study->end);
    plumb_smooth_begin(&study->end, PLUMB_SMOOTH_COUNT, &study->end_smooth);
}

static void begin_standing(Study *study, PlumbRig *upright, const PlumbState *state)
{
    PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN},
        .constraint = {{PLUMB_CON_knee_bend, PLUMB_STANDING_BEND_RAD},
                       {PLUMB_CON_balance, 0.0},
                       {PLUMB_CON_bar_over, 0.0}},
        .knee_bend_rad = PLUMB_STANDING_BEND_RAD,
    };
    study->leaning = plumb_spot(&study->c, upright, &problem, state, true);
    plumb_spot_from_setup(&study->leaning);
    study->leaning.equation[2].kind = PLUMB_EQ_BAR_BALANCE;
    plumb_spot_ready(&study->leaning);
    plumb_smooth_begin(&study->leaning, PLUMB_SMOOTH_COUNT, &study->leaning_smooth);
    problem.count = 2;
    study->end = plumb_spot(&study->c, upright, &problem, state, true);
    plumb_spot_from_setup(&study->end);
    plumb_spot_ready(&study->end);
    plumb_smooth_begin(&study->end, PLUMB_SMOOTH_COUNT, &study->end_smooth);
    const double lean = state->v[PLUMB_LEAN];
    const double off = study->answer->standing_bar_off_m;
    study->standing_straight = lean == 0.0;
    study->standing_tied = lean < 1e-9 && fabs(off) < 1e-9;
}

static void begin_end(Study *study)
{
    study->has_end = study->answer->end_held;
    if (!study->has_end) {
        return;
    }
    PlumbRig upright = study->c.rig;
    plumb_rig_spine(&upright, 0.0);
    const PlumbState state = state_of(&study->answer->end);
    if (study->c.setup.lift == PLUMB_DEADLIFT) {
        begin_lockout(study, &upright, &state);
    } else {
        begin_standing(study, &upright, &state);
    }
}

/* A start found again by the solver, for the leads that follow one: its pose is not part of the
 * answer. false where the solver has none. */
static bool begin_other(const Study *study, const PlumbLifter *lifter, const PlumbSetup *setup,
                        PlumbCase *c, PlumbSpot *spot)
{
    PlumbAnswer other;
    plumb_answer_quick(lifter, setup, &other);
    if (other.outcome == PLUMB_NO_POSE) {
        return false;
    }
    plumb_case_begin(lifter, &other.setup, c);
    plumb_case_turn(c, other.start.knees_out_rad);
    const PlumbState state = state_of(&other.start);
    const PlumbProblem lead = plumb_lead_problem(&other.setup, other.setup.lead);
    const PlumbProblem problem = with_toes(&lead, study->over_toes && other.knees_over_toes_met);
    *spot = plumb_spot(c, &c->rig, &problem, &state, false);
    plumb_spot_from_setup(spot);
    plumb_spot_ready(spot);
    return true;
}

/* auto with knees over the toes: the range is sought with the turn of another pose. */
static bool begin_seed(Study *study, const PlumbLifter *lifter, const PlumbSetup *asked)
{
    PlumbSetup setup = *asked;
    const bool pull = setup.lift == PLUMB_DEADLIFT;
    setup.lead = pull ? PLUMB_LEAD_BALANCE : PLUMB_LEAD_SHIN_ANGLE;
    setup.shin_angle_rad = degrees(30.0);
    if (!begin_other(study, lifter, &setup, &study->seed_case, &study->seed)) {
        return false;
    }
    PlumbSetup fixed = setup;
    fixed.knees_over_toes = false;
    fixed.knees_out_rad = study->seed_case.knees_out_rad;
    fixed.lead = PLUMB_LEAD_AUTO;
    PlumbAnswer turned;
    plumb_answer_solve(lifter, &fixed, &turned);
    plumb_ends_begin(&study->seed_case, &turned.window, &turned.low_effort, &study->seed.state,
                     &study->seed_ends);
    return true;
}

/* What the lead's own quantity follows; false where that is not known. */
static bool begin_lead(Study *study, const PlumbLifter *lifter, const PlumbSetup *asked)
{
    if (asked->hip_height_relative) {
        PlumbSetup setup = *asked;
        setup.lead = PLUMB_LEAD_BALANCE;
        setup.hip_height_relative = false;
        study->follows_balance = true;
        return begin_other(study, lifter, &setup, &study->led_case, &study->led);
    }
    if (asked->lead == PLUMB_LEAD_AUTO) {
        study->follows_range = true;
        study->own_ends = study->over_toes;
        return study->own_ends ? begin_seed(study, lifter, asked) : true;
    }
    return true;
}

static const PlumbDrive undriven = {.turn = 0.0};

/* How much the lead's target grows beside the factor's own share. Where that hangs on the answer's
 * own range, *ends gets the slopes for later. */
static double lead_slope(const Study *study, PlumbVary *vary, double direction,
                         PlumbEndsSlope *ends, unsigned *kink)
{
    if (!study->follows_balance && !study->follows_range) {
        return 0.0;
    }
    if (study->follows_range && !study->own_ends) {
        *ends = plumb_ends_slope(&study->ends, vary, 0.0, direction);
        *kink |= ends->kink;
        return 0.5 * (ends->range[0] + ends->range[1]);
    }
    const PlumbCase *const c = study->own_ends ? &study->seed_case : &study->led_case;
    const PlumbSpot *const spot = study->own_ends ? &study->seed : &study->led;
    if (study->over_toes) {
        plumb_vary_turn(vary, c->knees_out_rad);
    }
    const PlumbMotion motion = plumb_spot_motion(spot, vary, &undriven, direction);
    *kink |= motion.kink;
    if (!motion.known || study->follows_balance) {
        return motion.known ? motion.dv[PLUMB_Y] : (double)NAN;
    }
    const PlumbEndsSlope slope =
        plumb_ends_slope(&study->seed_ends, vary, motion.dv[PLUMB_PSI], direction);
    *kink |= slope.kink;
    return 0.5 * (slope.range[0] + slope.range[1]);
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
static double gap_slope(const Study *study, const PlumbSmooth *slope)
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

static void put_start(const Study *study, const PlumbVary *vary, const PlumbMotion *motion,
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
static bool stands_leaning(const Study *study, const PlumbVary *vary, const PlumbDrive *drive,
                           double direction, unsigned *kink)
{
    if (!study->standing_tied) {
        return !study->standing_straight;
    }
    *kink |= PLUMB_KINK_UPRIGHT;
    const PlumbMotion motion = plumb_spot_motion(&study->leaning, vary, drive, direction);
    return motion.known && direction * motion.dv[PLUMB_LEAN] >= 0.0;
}

static void put_end(const Study *study, const PlumbVary *vary, const PlumbSmooth *start,
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

/* The equation whose target follows: the hip height, or the shin angle, last but for that pair. */
static int lead_equation(const PlumbSpot *start)
{
    return start->equation[1].constraint.id == PLUMB_CON_hip_height ? 1 : 2;
}

/* All slopes of one factor in one direction. */
static void solve_direction(const Study *study, PlumbVary *vary, double direction, Slopes *slopes)
{
    slopes->kink = 0;
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        slopes->of[i] = (double)NAN;
    }
    PlumbDrive drive = {.turn = 0.0};
    PlumbEndsSlope ends = {.kink = 0};
    const double lead = lead_slope(study, vary, direction, &ends, &slopes->kink);
    drive.target[lead_equation(&study->start)] = lead;
    if (study->over_toes) {
        plumb_vary_turn(vary, study->c.knees_out_rad);
    }
    const PlumbMotion motion = plumb_spot_motion(&study->start, vary, &drive, direction);
    if (!motion.known || isnan(lead)) {
        slopes->kink |= PLUMB_KINK_NO_SLOPE;
        return;
    }
    const double turn = study->over_toes ? motion.dv[PLUMB_PSI] : 0.0;
    PlumbSmooth start;
    put_start(study, vary, &motion, direction, &start, slopes);
    put_end(study, vary, &start, turn, direction, slopes);
    if (!study->follows_range || study->own_ends) {
        ends = plumb_ends_slope(&study->ends, vary, turn, direction);
    }
    put_ends(&ends, slopes);
}

static bool begin(Study *study, const PlumbLifter *lifter, const PlumbSetup *asked,
                  const PlumbAnswer *answer)
{
    study->answer = answer;
    study->over_toes = asked->knees_over_toes && answer->knees_over_toes_met;
    study->follows_balance = false;
    study->follows_range = false;
    study->own_ends = false;
    study->standing_straight = false;
    study->standing_tied = false;
    plumb_case_begin(lifter, &answer->setup, &study->c);
    plumb_case_turn(&study->c, answer->start.knees_out_rad);
    begin_start(study);
    begin_end(study);
    plumb_ends_begin(&study->c, &answer->window, &answer->low_effort, &study->start.state,
                     &study->ends);
    return begin_lead(study, lifter, asked);
}

/* Slopes of both sides joined: where they agree there is no kink to speak of. */
static PlumbEffect join(double up, double down, unsigned kink, double scale)
{
    PlumbEffect effect = {up, down, 0};
    if (isnan(up) || isnan(down)) {
        effect.kink = PLUMB_KINK_NO_SLOPE;
    } else if (fabs(up - down) > 1e-9 * (fabs(up) + fabs(down)) + 1e-12 * scale) {
        effect.kink = kink;
    } else {
        effect.down = up;
    }
    return effect;
}

bool plumb_effects_solve(const PlumbLifter *lifter, const PlumbSetup *setup,
                         const PlumbAnswer *answer, const PlumbFactor *factor, int count,
                         PlumbEffectRow *row)
{
    Study study;
    const bool known = setup->lift == PLUMB_DEADLIFT || setup->lift == PLUMB_SQUAT;
    if (!known || answer->outcome == PLUMB_NO_POSE || !begin(&study, lifter, setup, answer)) {
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
            row[i].of[o] = join(up.of[o], down.of[o], up.kink | down.kink,
                                fabs(plumb_output_value(answer, (PlumbOutput)o)));
        }
    }
    return true;
}
