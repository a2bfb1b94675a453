/* SPDX-License-Identifier: MIT */
/* The way of the bar: a pull from its start to the lockout, a squat from standing to the hole. A
 * path is a model, not a measurement. */
#include "solve/case.h"

/* What every step of a path needs. */
typedef struct Way {
    PlumbCase c;
    PlumbSetup setup;
    double bend_start; /* knee bend at u = 0 and 1 */
    double bend_end;
    double bar_start_x;
    double bar_start_y;
    double bar_end_x;
    double bar_end_y;
    double balance;
    double knee_u; /* deadlift: u at which the bar is at the knee's height, 2 before it is known */
    double knee_gap;       /* clearance there */
    double knee_gap_slope; /* and its derivative by u */
} Way;

static Way way_begin(const PlumbLifter *lifter, const PlumbAnswer *answer)
{
    Way way = {.setup = answer->setup, .knee_u = 2.0};
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
    return way;
}

static double mix(double a, double b, double u)
{
    return a + u * (b - a);
}

/* Balance, knee bend and bar x linear in u, spine linear in u. */
static bool squat_step(Way *way, double u, PlumbState *state, double *bend)
{
    plumb_rig_spine(&way->c.rig, u * way->setup.spine_rad);
    *bend = mix(way->bend_start, way->bend_end, u);
    const PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN},
        .constraint = {{PLUMB_CON_knee_bend, *bend},
                       {PLUMB_CON_balance, way->balance},
                       {PLUMB_CON_bar_over, mix(way->bar_start_x, way->bar_end_x, u)}},
        .knee_bend_rad = *bend,
    };
    return plumb_newton(&way->c.rig, &problem, state) && plumb_on_branch(&way->c.rig, state, *bend);
}

/* The cubic in u with value and slope at the knee, and value and slope 0 at lockout. */
static double gap_cubic(const Way *way, double u)
{
    const double span = 1.0 - way->knee_u;
    const double t = (u - way->knee_u) / span;
    const double rest = 1.0 - t;
    return rest * rest * ((1.0 + 2.0 * t) * way->knee_gap + t * span * way->knee_gap_slope);
}

static double clearance_of(const PlumbCase *c, const PlumbState *state, double bend)
{
    PlumbEval eval;
    plumb_eval(&c->rig, state, bend, &eval);
    return plumb_constraint_value(&eval, PLUMB_CON_clearance, NULL);
}

/* Knee bend = start bend (1-u)^exponent, balance of the start, straight arms. Up to the knee the
 * bar rises over its place, or along the shin where that stands in the way; beyond, the clearance
 * follows the cubic and the bar with it. */
static bool pull_step(Way *way, double u, PlumbState *state, double *bend)
{
    plumb_rig_spine(&way->c.rig, (1.0 - u) * way->setup.spine_rad);
    *bend = way->bend_start * pow(fmax(0.0, 1.0 - u), way->setup.path_exponent);
    PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN, PLUMB_BAR_X},
        .constraint = {{PLUMB_CON_reach, 0.0},
                       {PLUMB_CON_balance, way->balance},
                       {PLUMB_CON_knee_bend, *bend},
                       {PLUMB_CON_clearance, 0.0}},
        .knee_bend_rad = *bend,
    };
    state->v[PLUMB_BAR_Y] = mix(way->bar_start_y, way->bar_end_y, u);
    if (u <= way->knee_u) {
        PlumbState free = *state;
        free.v[PLUMB_BAR_X] = way->bar_start_x;
        if (plumb_newton(&way->c.rig, &problem, &free) &&
            clearance_of(&way->c, &free, *bend) >= -1e-9) {
            *state = free;
            return plumb_on_branch(&way->c.rig, state, *bend);
        }
    } else {
        problem.constraint[3].target = gap_cubic(way, u);
    }
    problem.count = 4;
    return plumb_newton(&way->c.rig, &problem, state) && plumb_on_branch(&way->c.rig, state, *bend);
}

/* Height of the bar over the knee at u, from a warm state. */
static bool bar_over_knee(Way *way, double u, PlumbState *state, double *over, double *gap)
{
    double bend;
    if (!pull_step(way, u, state, &bend)) {
        return false;
    }
    PlumbEval eval;
    plumb_eval(&way->c.rig, state, bend, &eval);
    *over = eval.bar.y - eval.leg.knee.y;
    *gap = plumb_constraint_value(&eval, PLUMB_CON_clearance, NULL);
    return true;
}

/* Finds where the bar passes the knee, and the clearance's value and slope there from below. */
static bool find_knee_pass(Way *way, const PlumbState *start)
{
    enum { STEPS = 50 };
    PlumbState state = *start;
    double over;
    double gap;
    double low = 0.0;
    double high = -1.0;
    for (int i = 0; i <= STEPS && high < 0.0; i++) {
        const double u = (double)i / STEPS;
        if (!bar_over_knee(way, u, &state, &over, &gap)) {
            return false;
        }
        *(over < 0.0 ? &low : &high) = u;
    }
    if (high < 0.0) {
        return false;
    }
    while (high - low > 1e-12) {
        const double middle = 0.5 * (low + high);
        if (!bar_over_knee(way, middle, &state, &over, &gap)) {
            return false;
        }
        *(over < 0.0 ? &low : &high) = middle;
    }
    double back[3];
    const double h = 1e-4;
    for (int i = 0; i < 3; i++) {
        if (!bar_over_knee(way, fmax(0.0, low - i * h), &state, &over, &back[i])) {
            return false;
        }
    }
    way->knee_gap = back[0];
    way->knee_gap_slope =
        low > 2.0 * h ? (3.0 * back[0] - 4.0 * back[1] + back[2]) / (2.0 * h) : 0.0;
    way->knee_u = low;
    return true;
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

static void spread(double value, double *least, double *most)
{
    *least = fmin(*least, value);
    *most = fmax(*most, value);
}

static void collect_facts(const PlumbPathPoint *point, int count, double knee_u,
                          PlumbPathFacts *facts)
{
    double back[2] = {(double)INFINITY, -(double)INFINITY};
    double bar[2] = {(double)INFINITY, -(double)INFINITY};
    facts->held = true;
    facts->bar_shift_max_m = 0.0;
    for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
        facts->peak_moment_n_m[j] = 0.0;
        facts->peak_u[j] = 0.0;
    }
    for (int i = 0; i < count; i++) {
        const PlumbPosition *position = &point[i].position;
        facts->held = facts->held && point[i].held;
        if (!point[i].held) {
            continue;
        }
        spread(position->point[PLUMB_PT_bar].x, &bar[0], &bar[1]);
        if (!(point[i].u > knee_u)) {
            spread(position->angle_rad[PLUMB_ANG_back], &back[0], &back[1]);
        }
        facts->bar_shift_max_m = fmax(facts->bar_shift_max_m, point[i].bar_shift_m);
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            if (fabs(position->moment_both_n_m[j]) > fabs(facts->peak_moment_n_m[j])) {
                facts->peak_moment_n_m[j] = position->moment_both_n_m[j];
                facts->peak_u[j] = point[i].u;
            }
        }
    }
    facts->back_change_rad = back[1] >= back[0] ? back[1] - back[0] : (double)NAN;
    facts->bar_spread_m = bar[1] >= bar[0] ? bar[1] - bar[0] : (double)NAN;
}

bool plumb_path_solve(const PlumbLifter *lifter, const PlumbAnswer *answer, int count,
                      PlumbPathPoint *point, PlumbPathFacts *facts)
{
    if (answer->outcome == PLUMB_NO_POSE || !answer->end_held || count < 2 ||
        count > PLUMB_PATH_MAX) {
        return false;
    }
    const bool pull = answer->setup.lift == PLUMB_DEADLIFT;
    Way way = way_begin(lifter, answer);
    PlumbState state = position_state(pull ? &answer->start : &answer->end);
    facts->knee_pass_u = (double)NAN;
    if (pull && find_knee_pass(&way, &state)) {
        facts->knee_pass_u = way.knee_u;
    }
    state = position_state(pull ? &answer->start : &answer->end);
    for (int i = 0; i < count; i++) {
        const double u = (double)i / (count - 1);
        double bend = 0.0;
        PlumbState next = state;
        point[i].u = u;
        point[i].held = pull ? pull_step(&way, u, &next, &bend) : squat_step(&way, u, &next, &bend);
        state = point[i].held ? next : state;
        plumb_case_describe(&way.c, &way.c.rig, &next, bend, &point[i].position);
        point[i].bar_shift_m = pull && u <= way.knee_u
                                   ? point[i].position.point[PLUMB_PT_bar].x - way.bar_start_x
                                   : 0.0;
    }
    collect_facts(point, count, facts->knee_pass_u, facts);
    return true;
}
