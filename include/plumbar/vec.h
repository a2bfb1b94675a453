/* SPDX-License-Identifier: MIT */
/* Points and directions of the model's space: x forward, y up, z to the lifter's right; metres. */
#ifndef PLUMBAR_VEC_H
#define PLUMBAR_VEC_H

typedef struct PlumbVec2 {
    double x;
    double y;
} PlumbVec2;

typedef struct PlumbVec3 {
    double x;
    double y;
    double z;
} PlumbVec3;

#endif
