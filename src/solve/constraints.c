/* SPDX-License-Identifier: MIT */
/* The menu of constraints: values and analytic derivatives by every unknown. */
#include "solve/system.h"

typedef double (*ConstraintFunction)(const PlumbEval *eval, double *gradient);

void plumb_eval(const PlumbRig *rig, const PlumbState *state, double knee_bend_rad, PlumbEval *eval)
{
    eval->rig = rig;
    eval->q = state_pose(state);
    eval->lean_sin = sin(eval->q.thorax_lean_rad);
    eval->lean_cos = cos(eval->q.thorax_lean_rad);
    eval->knee_bend_rad = knee_bend_rad;
    eval->psi = state->v[PLUMB_PSI];
    plumb_leg_place(rig, eval->q.hip_x_m, eval->q.hip_height_m, knee_bend_rad, &eval->leg);
    const double s = eval->lean_sin;
    const double c = eval->lean_cos;
    eval->shoulder.x = eval->q.hip_x_m + rig->shoulder_u * s - rig->shoulder_v * c;
    eval->shoulder.y = eval->q.hip_height_m + rig->shoulder_u * c + rig->shoulder_v * s;
    if (rig->lift == PLUMB_DEADLIFT) {
        eval->bar.x = state->v[PLUMB_BAR_X];
        eval->bar.y = state->v[PLUMB_BAR_Y];
    } else {
        eval->bar.x = eval->q.hip_x_m + rig->bar_u * s - rig->bar_v * c;
        eval->bar.y = eval->q.hip_height_m + rig->bar_u * c + rig->bar_v * s;
    }
}

static void clear(double *gradient)
{
    for (int i = 0; i < PLUMB_UNKNOWN_COUNT; i++) {
        gradient[i] = 0.0;
    }
}

/* x_COM is linear in knee, hip, the turned trunk and the bar; balance is linear in x_COM. */
static double balance(const PlumbEval *eval, double *gradient)
{
    const PlumbRig *rig = eval->rig;
    const double s = eval->lean_sin;
    const double c = eval->lean_cos;
    const double moment = rig->moment_fixed.x + rig->moment_knee * eval->leg.knee.x +
                          rig->moment_hip * eval->q.hip_x_m + rig->moment_u * s -
                          rig->moment_v * c + rig->moment_bar * eval->bar.x;
    const double scale = 1.0 / (rig->total_mass * (rig->toe.x - rig->heel.x));
    if (gradient != NULL) {
        gradient[PLUMB_X] = scale * (rig->moment_knee * eval->leg.knee_dx.x + rig->moment_hip);
        gradient[PLUMB_Y] = scale * rig->moment_knee * eval->leg.knee_dy.x;
        gradient[PLUMB_LEAN] = scale * (rig->moment_u * c + rig->moment_v * s);
        gradient[PLUMB_BAR_X] = scale * rig->moment_bar;
        gradient[PLUMB_BAR_Y] = 0.0;
        gradient[PLUMB_PSI] = scale * rig->moment_knee * eval->leg.knee_dpsi.x;
    }
    return scale * moment - rig->heel.x / (rig->toe.x - rig->heel.x);
}

/* Distance shoulder joint to hand, less the arm. */
static double reach(const PlumbEval *eval, double *gradient)
{
    const PlumbRig *rig = eval->rig;
    const double dx = eval->shoulder.x - eval->bar.x;
    const double dy = eval->shoulder.y - eval->bar.y;
    const double dz = rig->shoulder_z - rig->grip_z;
    const double distance = sqrt(dx * dx + dy * dy + dz * dz);
    if (gradient != NULL) {
        const double ux = dx / distance;
        const double uy = dy / distance;
        gradient[PLUMB_X] = ux;
        gradient[PLUMB_Y] = uy;
        gradient[PLUMB_LEAN] = ux * (eval->shoulder.y - eval->q.hip_height_m) -
                               uy * (eval->shoulder.x - eval->q.hip_x_m);
        gradient[PLUMB_BAR_X] = -ux;
        gradient[PLUMB_BAR_Y] = -uy;
        gradient[PLUMB_PSI] = 0.0;
    }
    return distance - rig->arm;
}

static double clearance(const PlumbEval *eval, double *gradient)
{
    const PlumbVec2 knee = {eval->leg.knee.x, eval->leg.knee.y};
    const PlumbVec2 hip = {eval->q.hip_x_m, eval->q.hip_height_m};
    const PlumbClearance gap = plumb_rig_clearance(eval->rig, knee, hip, eval->bar);
    if (gradient != NULL) {
        const PlumbLeg *leg = &eval->leg;
        gradient[PLUMB_X] =
            gap.by_knee.x * leg->knee_dx.x + gap.by_knee.y * leg->knee_dx.y + gap.by_hip.x;
        gradient[PLUMB_Y] =
            gap.by_knee.x * leg->knee_dy.x + gap.by_knee.y * leg->knee_dy.y + gap.by_hip.y;
        gradient[PLUMB_LEAN] = 0.0;
        gradient[PLUMB_BAR_X] = gap.by_bar.x;
        gradient[PLUMB_BAR_Y] = gap.by_bar.y;
        gradient[PLUMB_PSI] = gap.by_knee.x * leg->knee_dpsi.x + gap.by_knee.y * leg->knee_dpsi.y;
    }
    return gap.value;
}

static double hip_height(const PlumbEval *eval, double *gradient)
{
    if (gradient != NULL) {
        clear(gradient);
        gradient[PLUMB_Y] = 1.0;
    }
    return eval->q.hip_height_m;
}

static double shin_angle(const PlumbEval *eval, double *gradient)
{
    const PlumbLeg *leg = &eval->leg;
    const double x = leg->knee.x - eval->rig->ankle.x;
    const double y = leg->knee.y - eval->rig->ankle.y;
    if (gradient != NULL) {
        const double inverse = 1.0 / (x * x + y * y);
        clear(gradient);
        gradient[PLUMB_X] = inverse * (y * leg->knee_dx.x - x * leg->knee_dx.y);
        gradient[PLUMB_Y] = inverse * (y * leg->knee_dy.x - x * leg->knee_dy.y);
        gradient[PLUMB_PSI] = inverse * (y * leg->knee_dpsi.x - x * leg->knee_dpsi.y);
    }
    return atan2(x, y);
}

/* |HA| less the span of the bend; the target is the bend, so this one is handled by its caller. */
static double leg_distance(const PlumbEval *eval, double *gradient)
{
    if (gradient != NULL) {
        clear(gradient);
        gradient[PLUMB_X] = eval->leg.distance_dx;
        gradient[PLUMB_Y] = eval->leg.distance_dy;
    }
    return eval->leg.distance;
}

static double back_angle(const PlumbEval *eval, double *gradient)
{
    if (gradient != NULL) {
        clear(gradient);
        gradient[PLUMB_LEAN] = -1.0;
    }
    return 0.5 * PLUMB_PI - eval->q.thorax_lean_rad + eval->rig->back_offset_rad;
}

/* Height of the hip crease over the top of the knee; the target is -depth. */
static double crease(const PlumbEval *eval, double *gradient)
{
    const PlumbRig *rig = eval->rig;
    if (gradient != NULL) {
        clear(gradient);
        gradient[PLUMB_X] = -eval->leg.knee_dx.y;
        gradient[PLUMB_Y] = 1.0 - eval->leg.knee_dy.y;
        gradient[PLUMB_PSI] = -eval->leg.knee_dpsi.y;
    }
    return eval->q.hip_height_m + rig->hip_crease - eval->leg.knee.y - rig->knee_top;
}

static double bar_over(const PlumbEval *eval, double *gradient)
{
    if (gradient != NULL) {
        clear(gradient);
        if (eval->rig->lift == PLUMB_DEADLIFT) {
            gradient[PLUMB_BAR_X] = 1.0;
        } else {
            gradient[PLUMB_X] = 1.0;
            gradient[PLUMB_LEAN] = eval->bar.y - eval->q.hip_height_m;
        }
    }
    return eval->bar.x;
}

/* Distance of the knee outside the line through the foot. */
static double knee_to_toe_line(const PlumbEval *eval, double *gradient)
{
    const PlumbRig *rig = eval->rig;
    const PlumbLeg *leg = &eval->leg;
    const double nx = -rig->foot_axis.z;
    const double nz = rig->foot_axis.x;
    if (gradient != NULL) {
        clear(gradient);
        gradient[PLUMB_X] = nx * leg->knee_dx.x + nz * leg->knee_dx.z;
        gradient[PLUMB_Y] = nx * leg->knee_dy.x + nz * leg->knee_dy.z;
        gradient[PLUMB_PSI] = nx * leg->knee_dpsi.x + nz * leg->knee_dpsi.z;
    }
    return nx * (leg->knee.x - rig->ankle.x) + nz * (leg->knee.z - rig->ankle.z);
}

typedef struct ConstraintRow {
    const char *name;
    const char *text;
    double unit;
    ConstraintFunction function;
} ConstraintRow;

static const ConstraintRow rows[PLUMB_CONSTRAINT_COUNT] = {
#define FUNCTION_balance balance
#define FUNCTION_reach reach
#define FUNCTION_clearance clearance
#define FUNCTION_hip_height hip_height
#define FUNCTION_shin_angle shin_angle
#define FUNCTION_knee_bend leg_distance
#define FUNCTION_back_angle back_angle
#define FUNCTION_depth crease
#define FUNCTION_bar_over bar_over
#define FUNCTION_knees_over_toes knee_to_toe_line
#define X(name, text, unit) [PLUMB_CON_##name] = {#name, text, unit, FUNCTION_##name},
    PLUMB_CONSTRAINT_LIST(X)
#undef X
};

double plumb_constraint_value(const PlumbEval *eval, PlumbConstraintId id, double *gradient)
{
    return rows[id].function(eval, gradient);
}

double plumb_constraint_target(const PlumbRig *rig, const PlumbConstraint *constraint)
{
    if (constraint->id == PLUMB_CON_knee_bend) {
        return plumb_leg_span(rig, constraint->target);
    }
    return constraint->id == PLUMB_CON_depth ? -constraint->target : constraint->target;
}

double plumb_constraint_unit(PlumbConstraintId id)
{
    return rows[id].unit;
}

const char *plumb_constraint_name(PlumbConstraintId id)
{
    return rows[id].name;
}

const char *plumb_constraint_text(PlumbConstraintId id)
{
    return rows[id].text;
}
