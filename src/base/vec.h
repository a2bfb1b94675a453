/* SPDX-License-Identifier: MIT */
/* Small vector algebra by value, for the model's right-handed frame. */
#ifndef PLUMB_BASE_VEC_H
#define PLUMB_BASE_VEC_H

#include <plumbar/vec.h>

#include <math.h>

#define PLUMB_PI 3.14159265358979323846

/* Standard gravity, m/s², ISO 80000-3. */
#define PLUMB_GRAVITY 9.80665

static inline PlumbVec3 vec3(double x, double y, double z)
{
    const PlumbVec3 v = {x, y, z};
    return v;
}

static inline PlumbVec3 vec3_add(PlumbVec3 a, PlumbVec3 b)
{
    return vec3(a.x + b.x, a.y + b.y, a.z + b.z);
}

static inline PlumbVec3 vec3_sub(PlumbVec3 a, PlumbVec3 b)
{
    return vec3(a.x - b.x, a.y - b.y, a.z - b.z);
}

static inline PlumbVec3 vec3_scale(PlumbVec3 a, double s)
{
    return vec3(a.x * s, a.y * s, a.z * s);
}

/* a + s b */
static inline PlumbVec3 vec3_along(PlumbVec3 a, double s, PlumbVec3 b)
{
    return vec3(a.x + s * b.x, a.y + s * b.y, a.z + s * b.z);
}

static inline double vec3_dot(PlumbVec3 a, PlumbVec3 b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline PlumbVec3 vec3_cross(PlumbVec3 a, PlumbVec3 b)
{
    return vec3(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);
}

static inline double vec3_length(PlumbVec3 a)
{
    return sqrt(vec3_dot(a, a));
}

/* a / |a|; the zero vector where a has no length. */
static inline PlumbVec3 vec3_unit(PlumbVec3 a)
{
    const double length = vec3_length(a);
    return length > 0.0 ? vec3_scale(a, 1.0 / length) : vec3(0.0, 0.0, 0.0);
}

/* Point at share f of the way from a to b. */
static inline PlumbVec3 vec3_between(PlumbVec3 a, PlumbVec3 b, double f)
{
    return vec3_along(a, f, vec3_sub(b, a));
}

static inline double clamp(double value, double low, double high)
{
    return value < low ? low : (value > high ? high : value);
}

static inline double degrees(double deg)
{
    return deg * (PLUMB_PI / 180.0);
}

#endif
