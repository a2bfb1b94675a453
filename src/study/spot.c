/* SPDX-License-Identifier: MIT */
/* A solved position as a root of equations, and how it moves: implicit function theorem. */
#include "study/spot.h"

#include "base/roots.h"

#include <stddef.h>

static const double corner_m = 1e-9; /* two clearances this near are one: the bar in the corner */

/* The natural clearance, or the one of a capsule: the other made too thin to be met. */
static PlumbClearance clearance_of(const PlumbRig *rig, const PlumbEval *eval, PlumbCapsule capsule)
{
    const PlumbVec2 knee = {eval->leg.knee.x, eval->leg.knee.y};
    const PlumbVec2 hip = {eval->q.hip_x_m, eval->q.hip_height_m};
    if (capsule == PLUMB_CAPSULE_NEARER) {
        return plumb_rig_clearance(rig, knee, hip, eval->bar);
    }
    PlumbRig alone = *rig;
    *(capsule == PLUMB_CAPSULE_SHIN ? &alone.thigh_half_thickness : &alone.shin_half_thickness) =
        -1e3;
    return plumb_rig_clearance(&alone, knee, hip, eval->bar);
}

/* Whether the thigh is the one that counts. */
static bool thigh_counts(const PlumbRig *rig, const PlumbEval *eval, PlumbCapsule capsule)
{
    if (capsule != PLUMB_CAPSULE_NEARER) {
        return capsule == PLUMB_CAPSULE_THIGH;
    }
    const double nearer = clearance_of(rig, eval, PLUMB_CAPSULE_NEARER).value;
    PlumbRig thin = *rig;
    thin.thigh_half_thickness -= 1e-6;
    return plumb_rig_clearance(&thin, (PlumbVec2){eval->leg.knee.x, eval->leg.knee.y},
                               (PlumbVec2){eval->q.hip_x_m, eval->q.hip_height_m}, eval->bar)
               .value > nearer;
}

/* Moved as a whole the gap stays, so that its derivative by the ankle is minus that by the rest. */
double plumb_clearance_slope(const PlumbRig *rig, const PlumbEval *eval, PlumbCapsule capsule,
                             const PlumbLegMove *move)
{
    const PlumbClearance gap = clearance_of(rig, eval, capsule);
    const double ankle_x = -(gap.by_knee.x + gap.by_hip.x + gap.by_bar.x);
    const double ankle_y = -(gap.by_knee.y + gap.by_hip.y + gap.by_bar.y);
    const double flesh =
        thigh_counts(rig, eval, capsule) ? move->thigh_half_thickness : move->shin_half_thickness;
    return ankle_x * move->ankle.x + ankle_y * move->ankle.y + gap.by_knee.x * move->knee.x +
           gap.by_knee.y * move->knee.y + gap.by_hip.x * move->hip.x + gap.by_hip.y * move->hip.y +
           gap.by_bar.x * move->bar.x + gap.by_bar.y * move->bar.y - flesh;
}

double plumb_margin_value(const PlumbRig *rig, const PlumbEval *eval, double shoulder_most_m,
                          const double limit_rad[PLUMB_LIMIT_COUNT], PlumbEnd end)
{
    if (end == PLUMB_END_shoulder_behind) {
        return eval->shoulder.x - eval->bar.x;
    }
    if (end == PLUMB_END_shoulder_ahead) {
        return shoulder_most_m - (eval->shoulder.x - eval->bar.x);
    }
    if (end == PLUMB_END_back_level) {
        return plumb_constraint_value(eval, PLUMB_CON_back_angle, NULL) - degrees(10.0);
    }
    if (end == PLUMB_END_balance_heel) {
        return plumb_constraint_value(eval, PLUMB_CON_balance, NULL) - 0.25;
    }
    if (end == PLUMB_END_balance_toes) {
        return 0.60 - plumb_constraint_value(eval, PLUMB_CON_balance, NULL);
    }
    const int limit = (int)end - (int)PLUMB_END_ankle_dorsiflexion;
    double angle[PLUMB_LEG_LIMIT_COUNT];
    plumb_limit_angles(rig, eval->q, &eval->leg, angle);
    return limit_rad[limit] - angle[limit];
}

PlumbSpot plumb_spot(const PlumbCase *c, const PlumbRig *rig, const PlumbProblem *problem,
                     const PlumbState *state, bool upright)
{
    PlumbSpot spot = {.c = c,
                      .rig = *rig,
                      .count = problem->count,
                      .knee_bend_rad = problem->knee_bend_rad,
                      .upright = upright,
                      .state = *state};
    for (int i = 0; i < problem->count; i++) {
        spot.free[i] = problem->free[i];
        spot.equation[i].kind = PLUMB_EQ_CONSTRAINT;
        spot.equation[i].constraint = problem->constraint[i];
    }
    return spot;
}

void plumb_spot_from_setup(PlumbSpot *spot)
{
    for (int i = 0; i < spot->count; i++) {
        const PlumbConstraintId id = spot->equation[i].constraint.id;
        spot->equation[i].from_setup = id == PLUMB_CON_balance || id == PLUMB_CON_hip_height ||
                                       id == PLUMB_CON_back_angle || id == PLUMB_CON_shin_angle ||
                                       id == PLUMB_CON_depth;
    }
}

static bool is_clearance(const PlumbEquation *equation)
{
    return equation->kind == PLUMB_EQ_CONSTRAINT && equation->constraint.id == PLUMB_CON_clearance;
}

static double setup_target(const PlumbSetup *setup, PlumbConstraintId id)
{
    const double target[PLUMB_CONSTRAINT_COUNT] = {
        [PLUMB_CON_balance] = setup->balance_frac,
        [PLUMB_CON_hip_height] = setup->hip_height_m,
        [PLUMB_CON_back_angle] = setup->back_angle_rad,
        [PLUMB_CON_shin_angle] = setup->shin_angle_rad,
        [PLUMB_CON_depth] = setup->depth_m,
    };
    return target[id];
}

/* Residual of equation i, the clearance apart. */
static double residual(const PlumbSpot *spot, int i, const PlumbSetup *setup, const PlumbEval *eval)
{
    const PlumbEquation *const equation = &spot->equation[i];
    const PlumbRig *const rig = eval->rig;
    if (equation->kind == PLUMB_EQ_MARGIN) {
        const PlumbLifter *const lifter = spot->c->lifter;
        const double most = setup->shoulder_ahead_max_frac * lifter->body.stature_m;
        return plumb_margin_value(rig, eval, most, lifter->limit_rad, equation->end);
    }
    if (equation->kind == PLUMB_EQ_BAR_BALANCE) {
        return eval->bar.x - rig->heel.x - setup->balance_frac * (rig->toe.x - rig->heel.x);
    }
    PlumbConstraint constraint = equation->constraint;
    if (equation->from_setup) {
        constraint.target = setup_target(setup, constraint.id);
    }
    return plumb_constraint_value(eval, constraint.id, NULL) -
           plumb_constraint_target(rig, &constraint);
}

PlumbState plumb_spot_step(const PlumbSpot *spot, PlumbUnknown unknown, int k, PlumbRig *rig)
{
    PlumbState state = spot->state;
    state.v[unknown] += PLUMB_STEP_V * plumb_stencil_at[k];
    *rig = spot->rig;
    if (unknown == PLUMB_PSI) {
        plumb_rig_knees_out(rig, state.v[PLUMB_PSI]);
    }
    return state;
}

/* Derivative of a residual by one unknown, the pose's or the turn. */
static double residual_gradient(const PlumbSpot *spot, int i, PlumbUnknown unknown)
{
    double sum = 0.0;
    for (int k = 0; k < PLUMB_STENCIL; k++) {
        PlumbRig rig;
        const PlumbState state = plumb_spot_step(spot, unknown, k, &rig);
        PlumbEval eval;
        plumb_eval(&rig, &state, spot->knee_bend_rad, &eval);
        sum += plumb_stencil_weight[k] * residual(spot, i, &spot->c->setup, &eval);
    }
    return sum / PLUMB_STEP_V;
}

static void jacobian_row(const PlumbSpot *spot, int i, PlumbCapsule capsule, double *row)
{
    const PlumbEquation *const equation = &spot->equation[i];
    double gradient[PLUMB_UNKNOWN_COUNT];
    if (equation->kind == PLUMB_EQ_MARGIN) {
        for (int j = 0; j < spot->count; j++) {
            row[j] = residual_gradient(spot, i, spot->free[j]);
        }
        return;
    }
    PlumbEval eval = spot->eval;
    PlumbRig alone;
    if (is_clearance(equation) && capsule != PLUMB_CAPSULE_NEARER) {
        alone = spot->rig;
        *(capsule == PLUMB_CAPSULE_SHIN ? &alone.thigh_half_thickness
                                        : &alone.shin_half_thickness) = -1e3;
        eval.rig = &alone;
    } else {
        eval.rig = &spot->rig;
    }
    plumb_constraint_value(&eval,
                           equation->kind == PLUMB_EQ_BAR_BALANCE ? PLUMB_CON_bar_over
                                                                  : equation->constraint.id,
                           gradient);
    for (int j = 0; j < spot->count; j++) {
        row[j] = gradient[spot->free[j]];
    }
}

bool plumb_spot_is_free(const PlumbSpot *spot, PlumbUnknown unknown)
{
    for (int i = 0; i < spot->count; i++) {
        if (spot->free[i] == unknown) {
            return true;
        }
    }
    return false;
}

const PlumbRig *plumb_spot_rig(const PlumbSpot *spot, const PlumbVary *vary, int k)
{
    return spot->upright ? &vary->at[k].upright : &vary->at[k].rig;
}

void plumb_spot_ready(PlumbSpot *spot)
{
    plumb_eval(&spot->rig, &spot->state, spot->knee_bend_rad, &spot->eval);
    spot->at_corner = false;
    for (int i = 0; i < spot->count; i++) {
        spot->by_turn[i] = 0.0;
        if (spot->c->setup.knees_over_toes && !is_clearance(&spot->equation[i])) {
            spot->by_turn[i] = residual_gradient(spot, i, PLUMB_PSI);
        }
        if (is_clearance(&spot->equation[i])) {
            const double shin = clearance_of(&spot->rig, &spot->eval, PLUMB_CAPSULE_SHIN).value;
            const double thigh = clearance_of(&spot->rig, &spot->eval, PLUMB_CAPSULE_THIGH).value;
            spot->at_corner = fabs(shin - thigh) < corner_m;
        }
    }
    for (int i = 0; i < spot->count; i++) {
        jacobian_row(spot, i, PLUMB_CAPSULE_NEARER, spot->jacobian[i]);
    }
}

PlumbState plumb_spot_held(const PlumbSpot *spot, const PlumbVary *vary, int k)
{
    PlumbState state = spot->state;
    if (spot->rig.lift == PLUMB_DEADLIFT && !plumb_spot_is_free(spot, PLUMB_BAR_Y)) {
        state.v[PLUMB_BAR_X] = vary->at[k].bar.x;
        state.v[PLUMB_BAR_Y] = vary->at[k].bar.y;
    }
    return state;
}

/* What the factor changes while the unknowns are held. */
typedef struct Held {
    double residual[PLUMB_FREE_MAX]; /* derivatives; of the clearance 0 */
    PlumbLegMove move;
    double bar_x;
    double bar_y;
    double turn;
} Held;

static Held held_slopes(const PlumbSpot *spot, const PlumbVary *vary, double turn)
{
    enum { ANKLE_X, ANKLE_Y, KNEE_X, KNEE_Y, BAR_X, BAR_Y, SHIN, THIGH, POINTS };
    double sample[PLUMB_FREE_MAX][PLUMB_STENCIL];
    double point[POINTS][PLUMB_STENCIL];
    for (int k = 0; k < PLUMB_STENCIL; k++) {
        const PlumbRig *const rig = plumb_spot_rig(spot, vary, k);
        const PlumbState state = plumb_spot_held(spot, vary, k);
        PlumbEval eval;
        plumb_eval(rig, &state, spot->knee_bend_rad, &eval);
        for (int i = 0; i < spot->count; i++) {
            sample[i][k] = is_clearance(&spot->equation[i])
                               ? 0.0
                               : residual(spot, i, &vary->at[k].setup, &eval);
        }
        const double at[POINTS] = {
            rig->ankle.x, rig->ankle.y, eval.leg.knee.x,          eval.leg.knee.y,
            eval.bar.x,   eval.bar.y,   rig->shin_half_thickness, rig->thigh_half_thickness};
        for (int i = 0; i < POINTS; i++) {
            point[i][k] = at[i];
        }
    }
    Held held;
    for (int i = 0; i < spot->count; i++) {
        held.residual[i] = vary_slope(vary, sample[i]) + spot->by_turn[i] * turn;
    }
    held.bar_x = vary_slope(vary, point[BAR_X]);
    held.bar_y = vary_slope(vary, point[BAR_Y]);
    held.move = (PlumbLegMove){
        .ankle = {vary_slope(vary, point[ANKLE_X]), vary_slope(vary, point[ANKLE_Y])},
        .knee = {vary_slope(vary, point[KNEE_X]), vary_slope(vary, point[KNEE_Y])},
        .bar = {held.bar_x, held.bar_y},
        .shin_half_thickness = vary_slope(vary, point[SHIN]),
        .thigh_half_thickness = vary_slope(vary, point[THIGH]),
    };
    held.move.knee.x += spot->eval.leg.knee_dpsi.x * turn;
    held.move.knee.y += spot->eval.leg.knee_dpsi.y * turn;
    held.turn = turn;
    return held;
}

/* dv = J^-1 rhs with the clearance taken against one capsule. */
static bool solve_motion(const PlumbSpot *spot, PlumbCapsule capsule,
                         const double rhs[PLUMB_FREE_MAX], PlumbMotion *motion)
{
    double matrix[PLUMB_LINEAR_MAX][PLUMB_LINEAR_MAX];
    double x[PLUMB_LINEAR_MAX];
    for (int i = 0; i < spot->count; i++) {
        for (int j = 0; j < spot->count; j++) {
            matrix[i][j] = spot->jacobian[i][j];
        }
        if (capsule != PLUMB_CAPSULE_NEARER && is_clearance(&spot->equation[i])) {
            jacobian_row(spot, i, capsule, matrix[i]);
        }
        x[i] = rhs[i];
    }
    motion->known = plumb_linear_solve(spot->count, matrix, x);
    for (int i = 0; i < spot->count && motion->known; i++) {
        motion->dv[spot->free[i]] = x[i];
    }
    return motion->known;
}

static PlumbMotion move_against(const PlumbSpot *spot, const Held *held, const PlumbDrive *drive,
                                PlumbCapsule capsule)
{
    PlumbMotion motion = {.known = false};
    double rhs[PLUMB_FREE_MAX];
    for (int i = 0; i < spot->count; i++) {
        const double own =
            is_clearance(&spot->equation[i])
                ? plumb_clearance_slope(&spot->rig, &spot->eval, capsule, &held->move)
                : held->residual[i];
        rhs[i] = drive->target[i] - own;
    }
    motion.dv[PLUMB_PSI] = held->turn;
    if (spot->rig.lift == PLUMB_DEADLIFT) {
        motion.dv[PLUMB_BAR_X] = held->bar_x;
        motion.dv[PLUMB_BAR_Y] = held->bar_y;
    }
    solve_motion(spot, capsule, rhs, &motion);
    return motion;
}

/* Slope of the gap to a capsule along a whole motion. */
static double gap_along(const PlumbSpot *spot, const Held *held, const PlumbMotion *motion,
                        PlumbCapsule capsule)
{
    PlumbLegMove move = held->move;
    const PlumbLeg *const leg = &spot->eval.leg;
    const double dx = motion->dv[PLUMB_X];
    const double dy = motion->dv[PLUMB_Y];
    const double turn = plumb_spot_is_free(spot, PLUMB_PSI) ? motion->dv[PLUMB_PSI] : 0.0;
    move.knee.x += leg->knee_dx.x * dx + leg->knee_dy.x * dy + leg->knee_dpsi.x * turn;
    move.knee.y += leg->knee_dx.y * dx + leg->knee_dy.y * dy + leg->knee_dpsi.y * turn;
    move.hip = (PlumbVec2){dx, dy};
    move.bar = (PlumbVec2){motion->dv[PLUMB_BAR_X], motion->dv[PLUMB_BAR_Y]};
    return plumb_clearance_slope(&spot->rig, &spot->eval, capsule, &move);
}

PlumbMotion plumb_spot_motion(const PlumbSpot *spot, const PlumbVary *vary, const PlumbDrive *drive,
                              double direction)
{
    const Held held = held_slopes(spot, vary, drive->turn);
    if (!spot->at_corner) {
        return move_against(spot, &held, drive, PLUMB_CAPSULE_NEARER);
    }
    /* In the corner the smaller gap counts: the motion against one capsule is right where the gap
     * to the other does not shrink. */
    PlumbMotion motion = move_against(spot, &held, drive, PLUMB_CAPSULE_SHIN);
    const double other = direction * gap_along(spot, &held, &motion, PLUMB_CAPSULE_THIGH);
    if (!motion.known || other < 0.0) {
        motion = move_against(spot, &held, drive, PLUMB_CAPSULE_THIGH);
    }
    motion.kink = PLUMB_KINK_LEG_CORNER;
    return motion;
}

PlumbMotion plumb_spot_push(const PlumbSpot *spot, int i)
{
    PlumbMotion motion = {.known = false};
    double rhs[PLUMB_FREE_MAX] = {0.0};
    rhs[i] = 1.0;
    solve_motion(spot, spot->at_corner ? PLUMB_CAPSULE_SHIN : PLUMB_CAPSULE_NEARER, rhs, &motion);
    return motion;
}
