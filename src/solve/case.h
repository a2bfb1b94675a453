/* SPDX-License-Identifier: MIT */
/* One lifter in one set-up while it is being solved: the rig, the capacities, the bar's place, and
 * the families of poses that windows and ranges run through. */
#ifndef PLUMB_SOLVE_CASE_H
#define PLUMB_SOLVE_CASE_H

#include "solve/system.h"

typedef struct PlumbCase {
    const PlumbLifter *lifter;
    PlumbSetup setup;
    PlumbRig rig;
    PlumbCapacity capacity;
    double knees_out_rad;
    PlumbVec2 bar; /* deadlift: where it stands */
} PlumbCase;

void plumb_case_begin(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbCase *c);

/* Turns the leg's plane of the case's rig. */
void plumb_case_turn(PlumbCase *c, double knees_out_rad);

/* The pose problem of a lead with its target; squat and deadlift are rows of one table. */
PlumbProblem plumb_lead_problem(const PlumbSetup *setup, PlumbLead lead);

/* Where Newton starts when nothing better is known. */
PlumbState plumb_case_guess(const PlumbCase *c);

/* On the branch that a lifter can stand in: hip behind the knee, -10° <= lean <= 100°. */
bool plumb_on_branch(const PlumbRig *rig, const PlumbState *state, double knee_bend_rad);

/* Meets a problem of three constraints: Newton from *state and from other seeds, then by scanning.
 * False where no pose does: *state is then the nearest miss, of the poses that meet two constraints
 * and miss the third by least the one with the smallest miss; *failed names the third and *miss is
 * by how much, infinite where not even two can be met. */
bool plumb_case_meet(const PlumbCase *c, const PlumbProblem *problem, PlumbState *state,
                     PlumbConstraintId *failed, double *miss);

/* The family of poses along the free quantity s: pull, hip height at the bar; squat, shin angle at
 * the depth and balance. *state is a warm start and the result; false where there is none. */
bool plumb_family_at(const PlumbCase *c, double s, PlumbState *state);

/* The quantity s of a state, and the range in which it is looked for. */
double plumb_family_quantity(const PlumbCase *c, const PlumbState *state);
void plumb_family_range(const PlumbCase *c, double *low, double *high, double *step);

/* Describes a state of the case with another spine or knee bend than the set-up's. */
void plumb_case_describe(const PlumbCase *c, const PlumbRig *rig, const PlumbState *state,
                         double knee_bend_rad, PlumbPosition *position);

/* Summed effort of a state of the family. */
double plumb_case_effort(const PlumbCase *c, const PlumbState *state, unsigned *extrapolated);

/* Window around the family's member nearest to seed, and the low-effort range inside it. */
PlumbInterval plumb_window_find(const PlumbCase *c, const PlumbState *seed);
PlumbInterval plumb_low_effort_find(const PlumbCase *c, const PlumbInterval *window,
                                    const PlumbState *seed);

/* Lockout of a pull with the balance of its start; standing of a squat. False where none is. */
bool plumb_lockout_solve(const PlumbCase *c, double balance_frac, PlumbRig *rig, PlumbState *state);
bool plumb_standing_solve(const PlumbCase *c, PlumbRig *rig, PlumbState *state, double *bar_off_m);

/* The family's member around which a window is looked for, which auto takes where there is no
 * range: the balance of a pull, the shin's lean of a squat. judgement. */
#define PLUMB_REFERENCE_BALANCE 0.40
#define PLUMB_MIDDLING_SHIN_RAD (30.0 * PLUMB_PI / 180.0)

/* Knee bend of the standing squat: 1 degree. */
#define PLUMB_STANDING_BEND_RAD (PLUMB_PI / 180.0)

/* The limit that sets an end of a window, SI: of the angle, the balance, or the shoulder ahead of
 * the bar; NaN for an end that is none of a figure. */
double plumb_end_limit(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbEnd end);

void plumb_findings(const PlumbCase *c, PlumbAnswer *answer);

#endif
