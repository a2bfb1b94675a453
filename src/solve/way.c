/* SPDX-License-Identifier: MIT */
/* The way of a lift, step by step. */
#include "solve/way.h"

static double mix(double a, double b, double u)
{
    return a + u * (b - a);
}

double plumb_way_gap(const PlumbWay *way, double u)
{
    const double span = 1.0 - way->knee_u;
    const double t = (u - way->knee_u) / span;
    const double rest = 1.0 - t;
    return rest * rest * ((1.0 + 2.0 * t) * way->knee_gap + t * span * way->knee_gap_slope);
}

static bool meet(const PlumbWay *way, const PlumbProblem *problem, PlumbState *state)
{
    return plumb_newton(&way->c.rig, problem, state) &&
           plumb_on_branch(&way->c.rig, state, problem->knee_bend_rad);
}

/* Balance, knee bend and bar x linear in u, spine linear in u. */
static bool squat_step(PlumbWay *way, double u, PlumbStep *step)
{
    plumb_rig_spine(&way->c.rig, u * way->c.setup.spine_rad);
    step->bend = mix(way->bend_start, way->bend_end, u);
    const PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN},
        .constraint = {{PLUMB_CON_knee_bend, step->bend},
                       {PLUMB_CON_balance, way->balance},
                       {PLUMB_CON_bar_over, mix(way->bar_start_x, way->bar_end_x, u)}},
        .knee_bend_rad = step->bend,
    };
    step->problem = problem;
    return meet(way, &problem, &step->state);
}

static double clearance_of(const PlumbWay *way, const PlumbStep *step)
{
    PlumbEval eval;
    plumb_eval(&way->c.rig, &step->state, step->bend, &eval);
    return plumb_constraint_value(&eval, PLUMB_CON_clearance, NULL);
}

/* Knee bend = start bend (1-u)^exponent, balance of the start, straight arms. Up to the knee the
 * bar rises over its place, or along the shin where that stands in the way; beyond, the clearance
 * follows the cubic and the bar with it. */
static bool pull_step(PlumbWay *way, double u, PlumbStep *step)
{
    plumb_rig_spine(&way->c.rig, (1.0 - u) * way->c.setup.spine_rad);
    step->bend = way->bend_start * pow(fmax(0.0, 1.0 - u), way->c.setup.path_exponent);
    PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN, PLUMB_BAR_X},
        .constraint = {{PLUMB_CON_reach, 0.0},
                       {PLUMB_CON_balance, way->balance},
                       {PLUMB_CON_knee_bend, step->bend},
                       {PLUMB_CON_clearance, 0.0}},
        .knee_bend_rad = step->bend,
    };
    step->state.v[PLUMB_BAR_Y] = mix(way->bar_start_y, way->bar_end_y, u);
    step->problem = problem;
    if (u <= way->knee_u) {
        PlumbStep upright = *step;
        upright.state.v[PLUMB_BAR_X] = way->bar_start_x;
        if (meet(way, &problem, &upright.state) && clearance_of(way, &upright) >= -1e-9) {
            *step = upright;
            return true;
        }
    } else {
        problem.constraint[3].target = plumb_way_gap(way, u);
    }
    problem.count = 4;
    step->problem = problem;
    return meet(way, &problem, &step->state);
}

bool plumb_way_step(PlumbWay *way, double u, PlumbStep *step)
{
    const PlumbState warm = step->state;
    step->u = u;
    const bool held =
        way->c.setup.lift == PLUMB_DEADLIFT ? pull_step(way, u, step) : squat_step(way, u, step);
    if (!held) {
        step->state = warm;
    }
    return held;
}

/* Height of the bar over the knee at u, and the clearance there. */
static bool bar_over_knee(PlumbWay *way, double u, PlumbStep *step, double *over, double *gap)
{
    if (!plumb_way_step(way, u, step)) {
        return false;
    }
    PlumbEval eval;
    plumb_eval(&way->c.rig, &step->state, step->bend, &eval);
    *over = eval.bar.y - eval.leg.knee.y;
    *gap = plumb_constraint_value(&eval, PLUMB_CON_clearance, NULL);
    return true;
}

/* The steps between which the bar passes the knee. */
static bool bracket_knee_pass(PlumbWay *way, PlumbStep *step, double *low, double *high)
{
    enum { STEPS = 50 };
    double over;
    double gap;
    for (int i = 0; i <= STEPS; i++) {
        const double u = (double)i / STEPS;
        if (!bar_over_knee(way, u, step, &over, &gap)) {
            return false;
        }
        if (over >= 0.0) {
            *high = u;
            return true;
        }
        *low = u;
    }
    return false;
}

/* Finds where the bar passes the knee, and the clearance's value and slope there from below. */
static void find_knee_pass(PlumbWay *way, PlumbStep step)
{
    double over;
    double gap[3];
    double low = 0.0;
    double high = 0.0;
    if (!bracket_knee_pass(way, &step, &low, &high)) {
        return;
    }
    while (high - low > 1e-12) {
        const double middle = 0.5 * (low + high);
        if (!bar_over_knee(way, middle, &step, &over, &gap[0])) {
            return;
        }
        *(over < 0.0 ? &low : &high) = middle;
    }
    const double h = 1e-4;
    for (int i = 0; i < 3; i++) {
        if (!bar_over_knee(way, fmax(0.0, low - i * h), &step, &over, &gap[i])) {
            return;
        }
    }
    way->knee_gap = gap[0];
    way->knee_gap_slope = low > 2.0 * h ? (3.0 * gap[0] - 4.0 * gap[1] + gap[2]) / (2.0 * h) : 0.0;
    way->knee_u = low;
}

static PlumbState position_state(const PlumbPosition *position)
{
    const PlumbState state = {.v = {[PLUMB_X] = position->pose.hip_x_m,
                                    [PLUMB_Y] = position->pose.hip_height_m,
                                    [PLUMB_LEAN] = position->pose.thorax_lean_rad,
                                    [PLUMB_BAR_X] = position->point[PLUMB_PT_bar].x,
                                    [PLUMB_BAR_Y] = position->point[PLUMB_PT_bar].y,
                                    [PLUMB_PSI] = position->knees_out_rad}};
    return state;
}

PlumbWay plumb_way_begin(const PlumbLifter *lifter, const PlumbAnswer *answer, PlumbStep *step)
{
    PlumbWay way = {.knee_u = 2.0};
    plumb_case_begin(lifter, &answer->setup, &way.c);
    plumb_case_turn(&way.c, answer->start.knees_out_rad);
    const bool pull = answer->setup.lift == PLUMB_DEADLIFT;
    const PlumbPosition *from = pull ? &answer->start : &answer->end;
    const PlumbPosition *to = pull ? &answer->end : &answer->start;
    way.bend_start = pull ? from->angle_rad[PLUMB_ANG_knee_flexion] : PLUMB_STANDING_BEND_RAD;
    way.bend_end = pull ? 0.0 : to->angle_rad[PLUMB_ANG_knee_flexion];
    way.bar_start_x = from->point[PLUMB_PT_bar].x;
    way.bar_start_y = from->point[PLUMB_PT_bar].y;
    way.bar_end_x = to->point[PLUMB_PT_bar].x;
    way.bar_end_y = to->point[PLUMB_PT_bar].y;
    way.balance = answer->start.balance_frac;
    step->u = 0.0;
    step->bend = way.bend_start;
    step->state = position_state(from);
    if (pull) {
        find_knee_pass(&way, *step);
    }
    return way;
}
