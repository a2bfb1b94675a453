/* SPDX-License-Identifier: MIT */
/* The way of the bar: a pull from its start to the lockout, a squat from standing to the hole. A
 * path is a model, not a measurement. */
#include "solve/way.h"

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

/* Whether the last step is the end of the lift; with the weight far toward the toes the steps can
 * lead to another pose. */
static bool arrives(const PlumbPosition *last, const PlumbPosition *end)
{
    return fabs(last->pose.hip_x_m - end->pose.hip_x_m) < 1e-6 &&
           fabs(last->pose.hip_height_m - end->pose.hip_height_m) < 1e-6 &&
           fabs(last->pose.thorax_lean_rad - end->pose.thorax_lean_rad) < 1e-6;
}

bool plumb_path_solve(const PlumbLifter *lifter, const PlumbAnswer *answer, int count,
                      PlumbPathPoint *point, PlumbPathFacts *facts)
{
    if (answer->outcome == PLUMB_NO_POSE || !answer->end_held || count < 2 ||
        count > PLUMB_PATH_MAX) {
        return false;
    }
    const bool pull = answer->setup.lift == PLUMB_DEADLIFT;
    PlumbStep step;
    PlumbWay way = plumb_way_begin(lifter, answer, &step);
    facts->knee_pass_u = way.knee_u <= 1.0 ? way.knee_u : (double)NAN;
    for (int i = 0; i < count; i++) {
        const double u = (double)i / (count - 1);
        point[i].u = u;
        point[i].held = plumb_way_step(&way, u, &step);
        plumb_case_describe(&way.c, &way.c.rig, &step.state, step.bend, &point[i].position);
        point[i].bar_shift_m = pull && u <= way.knee_u
                                   ? point[i].position.point[PLUMB_PT_bar].x - way.bar_start_x
                                   : 0.0;
    }
    const PlumbPosition *to = pull ? &answer->end : &answer->start;
    point[count - 1].held = point[count - 1].held && arrives(&point[count - 1].position, to);
    collect_facts(point, count, facts->knee_pass_u, facts);
    return true;
}
