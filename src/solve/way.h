/* SPDX-License-Identifier: MIT */
/* The way of a lift: what prescribes each step of a path, and the state that meets it. */
#ifndef PLUMB_SOLVE_WAY_H
#define PLUMB_SOLVE_WAY_H

#include "solve/case.h"

/* What every step of a path needs. */
typedef struct PlumbWay {
    PlumbCase c;
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
} PlumbWay;

/* One met step: the state, and the problem that it meets (which constraints rule there). */
typedef struct PlumbStep {
    double u;
    double bend;
    PlumbState state;
    PlumbProblem problem;
} PlumbStep;

/* From an answer whose start and end hold; step->state is set to the state at u = 0. */
PlumbWay plumb_way_begin(const PlumbLifter *lifter, const PlumbAnswer *answer, PlumbStep *step);

/* Meets the step at u from the warm state in *step; false (only step->state kept) where no pose
 * does. Leaves the way's rig with the spine of the step. */
bool plumb_way_step(PlumbWay *way, double u, PlumbStep *step);

/* Clearance along the cubic beyond the knee. */
double plumb_way_gap(const PlumbWay *way, double u);

#endif
