/* SPDX-License-Identifier: MIT */
/* How much room a figure takes. */
#include "scene/figure.h"

#include <math.h>

double plumb_ground_m(const PlumbSetup *setup)
{
    return setup->lift == PLUMB_DEADLIFT ? -setup->deficit_m : 0.0;
}

void plumb_extent_add(PlumbExtent *extent, const PlumbLifter *lifter, const PlumbSetup *setup,
                      const PlumbPosition *position)
{
    const double thick = 1.42 * lifter->body.thigh_half_thickness_m;
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        const PlumbVec3 p = position->point[i];
        const bool trunk = i == PLUMB_PT_hip || i == PLUMB_PT_lumbar || i == PLUMB_PT_shoulder;
        const double grow = trunk ? thick : 0.5 * thick;
        extent->left_m = fmin(extent->left_m, p.x - (i == PLUMB_PT_heel ? 0.0 : grow));
        extent->right_m = fmax(extent->right_m, p.x + (i == PLUMB_PT_toe ? 0.0 : grow));
        extent->top_m = fmax(extent->top_m, p.y + grow);
        extent->half_m = fmax(extent->half_m, fabs(p.z) + 0.04);
    }
    const double head = 0.25 * lifter->body.head_neck_m;
    const double disc = 0.5 * lifter->equipment.disc_diameter_m;
    const PlumbVec3 bar = position->point[PLUMB_PT_bar];
    extent->left_m = fmin(extent->left_m, fmin(position->head_top.x - head, bar.x - disc));
    extent->right_m = fmax(extent->right_m, fmax(position->head_top.x + head, bar.x + disc));
    extent->top_m = fmax(extent->top_m, fmax(position->head_top.y + 0.02, bar.y + disc));
    extent->bottom_m = fmin(extent->bottom_m, fmin(plumb_ground_m(setup), bar.y - disc));
}
