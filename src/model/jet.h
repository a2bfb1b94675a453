/* SPDX-License-Identifier: MIT */
/* Numbers that carry their first and second derivative by one parameter, so that a formula written
 * once gives exact velocities and accelerations. */
#ifndef PLUMB_MODEL_JET_H
#define PLUMB_MODEL_JET_H

#include "base/vec.h"

typedef struct Jet {
    double v;
    double d;  /* first derivative */
    double dd; /* second derivative */
} Jet;

typedef struct Jet3 {
    Jet x;
    Jet y;
    Jet z;
} Jet3;

static inline Jet jet(double v, double d, double dd)
{
    const Jet j = {v, d, dd};
    return j;
}

static inline Jet jet_fixed(double v)
{
    return jet(v, 0.0, 0.0);
}

static inline Jet jet_add(Jet a, Jet b)
{
    return jet(a.v + b.v, a.d + b.d, a.dd + b.dd);
}

static inline Jet jet_sub(Jet a, Jet b)
{
    return jet(a.v - b.v, a.d - b.d, a.dd - b.dd);
}

static inline Jet jet_scale(Jet a, double s)
{
    return jet(a.v * s, a.d * s, a.dd * s);
}

static inline Jet jet_mul(Jet a, Jet b)
{
    return jet(a.v * b.v, a.d * b.v + a.v * b.d, a.dd * b.v + 2.0 * a.d * b.d + a.v * b.dd);
}

/* f(a) from f and its first two derivatives at a.v. */
static inline Jet jet_chain(Jet a, double f, double f1, double f2)
{
    return jet(f, f1 * a.d, f2 * a.d * a.d + f1 * a.dd);
}

static inline Jet jet_inverse(Jet a)
{
    const double i = 1.0 / a.v;
    return jet_chain(a, i, -i * i, 2.0 * i * i * i);
}

static inline Jet jet_div(Jet a, Jet b)
{
    return jet_mul(a, jet_inverse(b));
}

/* Of a value above zero. */
static inline Jet jet_sqrt(Jet a)
{
    const double r = sqrt(a.v);
    return jet_chain(a, r, 0.5 / r, -0.25 / (r * a.v));
}

static inline Jet jet_sin(Jet a)
{
    const double s = sin(a.v);
    return jet_chain(a, s, cos(a.v), -s);
}

static inline Jet jet_cos(Jet a)
{
    const double c = cos(a.v);
    return jet_chain(a, c, -sin(a.v), -c);
}

static inline Jet jet_exp(Jet a)
{
    const double e = exp(a.v);
    return jet_chain(a, e, e, e);
}

/* a^e of a above zero. */
static inline Jet jet_power(Jet a, Jet e)
{
    const double i = 1.0 / a.v;
    return jet_exp(jet_mul(e, jet_chain(a, log(a.v), i, -i * i)));
}

/* The angle of (x, y), which are not both zero: φ' = (x y' - y x') / (x² + y²). */
static inline Jet jet_atan2(Jet y, Jet x)
{
    const double square = x.v * x.v + y.v * y.v;
    const double d = (x.v * y.d - y.v * x.d) / square;
    const double by = 2.0 * (x.v * x.d + y.v * y.d) / square;
    return jet(atan2(y.v, x.v), d, (x.v * y.dd - y.v * x.dd) / square - d * by);
}

static inline Jet3 jet3(Jet x, Jet y, Jet z)
{
    const Jet3 j = {x, y, z};
    return j;
}

static inline Jet3 jet3_fixed(PlumbVec3 p)
{
    return jet3(jet_fixed(p.x), jet_fixed(p.y), jet_fixed(p.z));
}

static inline Jet3 jet3_add(Jet3 a, Jet3 b)
{
    return jet3(jet_add(a.x, b.x), jet_add(a.y, b.y), jet_add(a.z, b.z));
}

static inline Jet3 jet3_sub(Jet3 a, Jet3 b)
{
    return jet3(jet_sub(a.x, b.x), jet_sub(a.y, b.y), jet_sub(a.z, b.z));
}

static inline Jet3 jet3_times(Jet3 a, Jet s)
{
    return jet3(jet_mul(a.x, s), jet_mul(a.y, s), jet_mul(a.z, s));
}

static inline Jet jet3_dot(Jet3 a, Jet3 b)
{
    return jet_add(jet_add(jet_mul(a.x, b.x), jet_mul(a.y, b.y)), jet_mul(a.z, b.z));
}

static inline Jet3 jet3_cross(Jet3 a, Jet3 b)
{
    return jet3(jet_sub(jet_mul(a.y, b.z), jet_mul(a.z, b.y)),
                jet_sub(jet_mul(a.z, b.x), jet_mul(a.x, b.z)),
                jet_sub(jet_mul(a.x, b.y), jet_mul(a.y, b.x)));
}

static inline Jet jet3_length(Jet3 a)
{
    return jet_sqrt(jet3_dot(a, a));
}

/* Point at share f of the way from a to b. */
static inline Jet3 jet3_between(Jet3 a, Jet3 b, double f)
{
    return jet3_add(a, jet3_times(jet3_sub(b, a), jet_fixed(f)));
}

#endif
