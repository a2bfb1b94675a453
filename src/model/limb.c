/* SPDX-License-Identifier: MIT */
/* The two-link limb in space and its derivatives. */
#include "model/limb.h"

double plumb_leg_span(const PlumbRig *rig, double knee_bend_rad)
{
    return sqrt(rig->shank * rig->shank + rig->thigh * rig->thigh +
                2.0 * rig->shank * rig->thigh * cos(knee_bend_rad));
}

/* Derivative of K = A + a n + r e when the hip moves along the axis on which n has component
 * n_axis:  dd = n_axis,  dn = (axis - n n_axis)/d,  de = (dw - e (e·dw))/|w| with
 * w = pole - n (n·pole),  dw = -dn (n·pole) - n (dn·pole). */
static PlumbVec3 knee_derivative(PlumbVec3 axis, double n_axis, PlumbVec3 n, PlumbVec3 e,
                                 PlumbVec3 pole, double inverse_d, double inverse_w, double a,
                                 double r, double da, double dr)
{
    const PlumbVec3 dn = vec3_scale(vec3_along(axis, -n_axis, n), inverse_d);
    const PlumbVec3 dw = vec3_scale(
        vec3_along(vec3_scale(dn, vec3_dot(n, pole)), vec3_dot(dn, pole), n), -inverse_w);
    const PlumbVec3 de = vec3_along(dw, -vec3_dot(e, dw), e);
    const PlumbVec3 straight = vec3_along(vec3_scale(n, da * n_axis), a, dn);
    return vec3_along(vec3_along(straight, dr * n_axis, e), r, de);
}

void plumb_leg_place(const PlumbRig *rig, double hip_x, double hip_y, double knee_bend_rad,
                     PlumbLeg *leg)
{
    const double first = rig->shank;
    const double second = rig->thigh;
    const PlumbVec3 pole = rig->pole;
    leg->hip = vec3(hip_x, hip_y, rig->hip_z);
    const PlumbVec3 along = vec3_sub(leg->hip, rig->ankle);
    const double d = vec3_length(along);
    const double inverse_d = 1.0 / d;
    const PlumbVec3 n = vec3_scale(along, inverse_d);
    const double gap = first * first - second * second;
    double a;
    double r;
    double da = 0.0; /* by d */
    double dr = 0.0;
    if (knee_bend_rad < 0.0) {
        a = 0.5 * (gap + d * d) * inverse_d;
        const double square = first * first - a * a;
        leg->reaches = square >= 0.0;
        r = sqrt(fmax(0.0, square));
        da = 1.0 - a * inverse_d;
        dr = r > 0.0 ? -a * da / r : 0.0;
    } else {
        const double span = plumb_leg_span(rig, knee_bend_rad);
        a = 0.5 * (gap + span * span) / span;
        r = first * second * sin(knee_bend_rad) / span;
        leg->reaches = true;
    }
    const PlumbVec3 w = vec3_along(pole, -vec3_dot(n, pole), n);
    const double inverse_w = 1.0 / vec3_length(w);
    const PlumbVec3 e = vec3_scale(w, inverse_w);
    leg->bend_side = e;
    leg->distance = d;
    leg->distance_dx = n.x;
    leg->distance_dy = n.y;
    leg->knee = vec3_along(vec3_along(rig->ankle, a, n), r, e);
    leg->knee_dx =
        knee_derivative(vec3(1.0, 0.0, 0.0), n.x, n, e, pole, inverse_d, inverse_w, a, r, da, dr);
    leg->knee_dy =
        knee_derivative(vec3(0.0, 1.0, 0.0), n.y, n, e, pole, inverse_d, inverse_w, a, r, da, dr);
    /* The pole turns about y: d pole / d psi = (-sin, 0, cos); only its part square to n counts. */
    const PlumbVec3 turn = vec3(-pole.z, 0.0, pole.x);
    const PlumbVec3 dw = vec3_scale(vec3_along(turn, -vec3_dot(n, turn), n), inverse_w);
    leg->knee_dpsi = vec3_scale(vec3_along(dw, -vec3_dot(e, dw), e), r);
}
