/* SPDX-License-Identifier: MIT */
/* The grip of a press that follows from the build. */
#include "solve/press.h"

/* Upright in both views the forearm carries the bar with no arm about the elbow, and a line through
 * it is seen by any eye: that a grip be chosen so is common practice, no source. With the upper
 * arm, length l, at the angle a from the trunk the elbow stands l sin a off the line through the
 * shoulder along the trunk; upright forearms fix how far of it is downwards. */
double plumb_press_grip_of_build_m(const PlumbLifter *lifter)
{
    const PlumbBody *const body = &lifter->body;
    const PlumbSetting *const grip = plumb_setting(PLUMB_SET_grip);
    const double arch_m = plumb_setting(PLUMB_SET_arch)->default_si[PLUMB_BENCH];
    const double bar_m = body->chest_depth_m + arch_m + 0.5 * lifter->equipment.shaft_diameter_m -
                         body->shoulder_half_depth_m;
    const double down_m = body->forearm_m + body->wrist_to_grip_palm_m - bar_m;
    const double off_m = body->upper_arm_m * sin(lifter->limit_rad[PLUMB_LIMIT_press_abduction]);
    const double out_m = sqrt(fmax(0.0, off_m * off_m - down_m * down_m));
    const double wanted_m =
        body->shoulder_joint_spacing_m + 2.0 * (out_m - body->forefinger_to_grip_centre_m);
    const double whole_m = 0.01 * floor(wanted_m / 0.01 + 0.5);
    return fmax(grip->min_si, fmin(whole_m, plumb_bench_grip_most_m()));
}

void plumb_press_default_grip(const PlumbLifter *lifter, PlumbSetup *setup)
{
    if (setup->lift == PLUMB_BENCH && setup->grip_by_build) {
        setup->grip_m = plumb_press_grip_of_build_m(lifter);
    }
}
