/* SPDX-License-Identifier: MIT */
/* A bench press as a fit sees it: the arm between a shoulder that stays on the bench and the bar,
 * what is believed of it, and where a search begins.
 *
 * Unknowns of a picture are the bar's place and the elbow's swing about the line from shoulder to
 * grip. The swing counts from the elbow under the bar, where practice holds it, so that one belief
 * serves the whole way: within 25 degrees. */
#include "trace/fit.h"

#include "base/vec.h"

static const double shoulder_sd_m = 0.01;
static const double along_sd_m = 0.10; /* of the bar, from half way between touch and shoulders */
static const double swing_sd_rad = 25.0 * PLUMB_PI / 180.0;
static const double lumbar_frac = 0.3; /* of the trunk, drawn */
static const double nothing_sd = 1e-9; /* of an unknown that a press does not have */

/* What lies on the bench is a picture: the trunk level, the shanks upright. */
static void lie_down(const PlumbLifter *lifter, PlumbPosition *position)
{
    const PlumbBody *const body = &lifter->body;
    const PlumbVec3 shoulder = position->point[PLUMB_PT_shoulder];
    const PlumbVec3 hip = {shoulder.x + body->trunk_m, shoulder.y, 0.5 * body->hip_joint_spacing_m};
    const double fall =
        fmin(fmax(hip.y - body->ankle_height_m - body->shank_m, 0.0), 0.9 * body->thigh_m);
    const PlumbVec3 knee = {hip.x + sqrt(body->thigh_m * body->thigh_m - fall * fall), hip.y - fall,
                            1.5 * hip.z};
    const PlumbVec3 ankle = {knee.x, knee.y - body->shank_m, knee.z};
    position->point[PLUMB_PT_lumbar] =
        vec3_between(hip, vec3(shoulder.x, shoulder.y, hip.z), lumbar_frac);
    position->point[PLUMB_PT_hip] = hip;
    position->point[PLUMB_PT_knee] = knee;
    position->point[PLUMB_PT_ankle] = ankle;
    position->point[PLUMB_PT_heel] = vec3(ankle.x, ankle.y - body->ankle_height_m, ankle.z);
    position->point[PLUMB_PT_toe] = position->point[PLUMB_PT_heel];
    position->point[PLUMB_PT_toe].x += body->foot_length_m;
}

/* The points of a press as those of a position. */
static void place_arm(const PlumbLifter *lifter, const PlumbPressPosition *press,
                      PlumbPosition *position)
{
    static const PlumbPoint points[PLUMB_PRESS_POINT_COUNT] = {
        PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_PT_wrist, PLUMB_PT_grip, PLUMB_PT_bar};
    *position = (PlumbPosition){.clearance_m = 0.0};
    for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
        position->point[points[i]] = press->point[i];
    }
    position->pose = (PlumbPose){press->point[PLUMB_PRESS_shoulder].x,
                                 press->point[PLUMB_PRESS_shoulder].y, 0.0};
    lie_down(lifter, position);
}

double plumb_fit_press_points(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbPose pose,
                              PlumbVec2 bar_m, PlumbPressPosition *press, PlumbPosition *position)
{
    const PlumbVec2 shoulder = {pose.hip_x_m, pose.hip_height_m};
    const double miss =
        plumb_press_place(lifter, setup, shoulder, bar_m, pose.thorax_lean_rad, press);
    place_arm(lifter, press, position);
    position->pose = pose;
    return miss;
}

void plumb_fit_press_figure(const FitPrior *prior, const double *own, FitFigure *figure)
{
    const PlumbPose pose = {fit_value(&prior[FIT_SHOULDER_X], own[FIT_SHOULDER_X]),
                            fit_value(&prior[FIT_SHOULDER_Y], own[FIT_SHOULDER_Y]),
                            fit_value(&prior[FIT_SWING], own[FIT_SWING])};
    const PlumbVec2 bar = {fit_value(&prior[FIT_BAR_X], own[FIT_BAR_X]),
                           fit_value(&prior[FIT_BAR_Y], own[FIT_BAR_Y])};
    figure->short_m = plumb_fit_press_points(&figure->lifter, &figure->setup, pose, bar,
                                             &figure->press, &figure->position);
}

double plumb_fit_press_slack_m(const FitFigure *figure)
{
    const PlumbBody *const body = &figure->lifter.body;
    const PlumbVec3 *const point = figure->position.point;
    return body->upper_arm_m + body->forearm_m + body->wrist_to_grip_palm_m -
           vec3_length(vec3_sub(point[PLUMB_PT_grip], point[PLUMB_PT_shoulder]));
}

void plumb_fit_press_ends(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbAnswer *ends)
{
    PlumbPressAnswer answer;
    plumb_press_quick(lifter, setup, &answer);
    place_arm(lifter, &answer.touch, &ends->start);
    ends->end_held = answer.outcome != PLUMB_NO_POSE;
    if (ends->end_held) {
        place_arm(lifter, &answer.lockout, &ends->end);
    }
}

/* Whether a still's marks are from the head end: the lifter's right is right there. */
static bool from_head(const PlumbMarks *marks, int still)
{
    double sum[2] = {0.0, 0.0};
    int count[2] = {0, 0};
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        if (mark->still == still && mark->name.front) {
            sum[mark->name.near] += mark->x_px;
            count[mark->name.near]++;
        }
    }
    return count[0] == 0 || count[1] == 0 || sum[0] / count[0] >= sum[1] / count[1];
}

void plumb_fit_press_believe(Fit *fit, int still)
{
    const PlumbTraceAsk *const ask = fit->ask;
    const PlumbSetup *const setup = ask->setup;
    FitPrior *const own = fit->own[still];
    if (fit->front[still]) {
        own[FIT_YAW].mean = from_head(ask->marks, still) ? -0.5 * PLUMB_PI : 0.5 * PLUMB_PI;
    }
    own[FIT_SHOULDER_X] = (FitPrior){0.0, shoulder_sd_m};
    own[FIT_SHOULDER_Y] = (FitPrior){
        setup->bench_height_m + ask->body->mean_m[PLUMB_LEN_shoulder_half_depth], shoulder_sd_m};
    own[FIT_BAR_X] = (FitPrior){0.5 * own[FIT_BAR_X].mean, along_sd_m};
    own[FIT_SWING] = (FitPrior){0.0, swing_sd_rad};
    own[FIT_SPINE] = (FitPrior){0.0, nothing_sd};
}
