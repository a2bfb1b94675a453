/* SPDX-License-Identifier: MIT */
/* One lifter in one press while it is being solved. */
#ifndef PLUMB_SOLVE_PRESS_H
#define PLUMB_SOLVE_PRESS_H

#include <plumbar/press.h>

#include "model/arm.h"

/* What the bar's way and the arm are made of; lengths m. */
typedef struct PlumbPress {
    const PlumbLifter *lifter;
    PlumbSetup setup;
    PlumbArmLoad load;
    PlumbVec3 shoulder;
    double hand_z;
    double upper;
    double lower;
    double touch_y;
    double lockout_y;
    double touch_swivel; /* the elbow's at the touch: under the bar, or as asked for */
    double touch_off_m;  /* by how much the elbow misses what is asked for at the touch */
    bool may_fold;       /* the bar may pass closer than the links' difference */
    double miss_m;       /* the arm does not span touch or lockout by this; 0: it does */
    bool at_lockout;
} PlumbPress;

PlumbPress plumb_press_begin(const PlumbLifter *lifter, const PlumbSetup *setup);
/* The same with another touch; the arm there, whose swivel becomes press->touch_swivel. */
PlumbArm plumb_press_touch(PlumbPress *press, double touch_m);

PlumbVec3 plumb_press_grip(const PlumbPress *press, double rise_frac);
PlumbArm plumb_press_arm(const PlumbPress *press, double rise_frac);
/* The elbow's swivel at a share of the rise; *off_m as of plumb_arm_swivel where the elbow is to
 * stay under the bar, else 0. */
double plumb_press_swivel(const PlumbPress *press, const PlumbArm *arm, double rise_frac,
                          double *off_m);
void plumb_press_describe(const PlumbPress *press, double rise_frac, PlumbPressPosition *position);
/* External rotation of the shoulder, rad. */
double plumb_press_rotation(const PlumbArm *arm, PlumbVec3 elbow);
/* Of a position what its effort is made of, and nothing else: moments, capacities, their shares and
 * the sum. */
void plumb_press_effort(const PlumbPress *press, const PlumbArm *arm, PlumbVec3 side,
                        const double strength_rad[PLUMB_ARM_JOINTS], PlumbPressPosition *position);
/* Upper arm from x, rad. */
double plumb_press_abduction(const PlumbPress *press, double rise_frac);

/* The bar's path in PLUMB_PRESS_PIECES pieces from the lockout down, each with its length, m: piece
 * i from a share of the rise 1 - (i/n)^4 to 1 - ((i+1)/n)^4. */
enum { PLUMB_PRESS_PIECES = 8 };
double plumb_press_path_piece(const PlumbPress *press, int piece);

/* How the length of the whole path moves with the bar's rise, its way along the bench (m per m) and
 * the exponent (m): of the very sum that makes the length. */
typedef struct PlumbPressPathSlope {
    double by_rise;
    double by_along;
    double by_exponent_m;
} PlumbPressPathSlope;

PlumbPressPathSlope plumb_press_path_slope(const PlumbPress *press);

/* The grid on which the largest turn of the upper arm in a centimetre of rise is looked for. */
enum { PLUMB_PRESS_STEP_STARTS = 256 };
/* The centimetre as a share of the rise. */
double plumb_press_step_window(double travel_m);
/* The upper arm's turn in the centimetre that begins at start i of the grid, with its sign, rad. */
double plumb_press_step_turn(const PlumbPress *press, double window, int start);

/* The summed effort of the low-effort range's ends over the least. */
#define PLUMB_PRESS_EFFORT_ALLOWANCE 1.05

/* Window and low-effort range of the touch; the touch below which the range does not look: nearer
 * to the neck an upper arm whose elbow is under the bar would stand further from the trunk than
 * elbows_rad, or than the lifter's press_abduction where no elbows are asked for; the least
 * effort's touch (NaN where there is no window); the touch that auto means. */
typedef struct PlumbPressRange {
    PlumbInterval window;
    PlumbInterval low_effort;
    double flare_m;
    double least_m;
    double middle_m;
} PlumbPressRange;

/* How far from the trunk the upper arm may stand where auto leads, rad. */
double plumb_press_flare_rad(const PlumbLifter *lifter, const PlumbSetup *setup);
void plumb_press_intervals(const PlumbPress *press, PlumbPressRange *range);

/* Fills answer->finding. */
void plumb_press_findings(const PlumbLifter *lifter, PlumbPressAnswer *answer);

#endif
