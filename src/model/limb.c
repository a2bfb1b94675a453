/* SPDX-License-Identifier: MIT */
/* The two-link limb in space and its derivatives. */
#include "model/limb.h"

double plumb_leg_span(const PlumbRig *rig, double knee_bend_rad)
{
    return sqrt(rig->shank * rig->shank + rig->thigh * rig->thigh +
                2.0 * rig->shank * rig->thigh * cos(knee_bend_rad));
}

/* Derivative of K = A + a n + r e when the hip moves along an axis with components n_axis, e_axis,
 * b_axis in the leg's own frame n, e, b = n × e. The line ankle-hip turns by (e_axis, b_axis)/d and
 * grows by n_axis; turning out of the plane carries e along by (n·pole)/|w|, w = pole - n (n·pole):
 *   dn = (e e_axis + b b_axis)/d,  de = -(n e_axis + b b_axis (n·pole)/|w|)/d,
 *   dK = n (da n_axis - r e_axis/d) + e (dr n_axis + a e_axis/d) + b (a - r (n·pole)/|w|) b_axis/d.
 */
static PlumbVec3 knee_derivative(PlumbVec3 n, PlumbVec3 e, PlumbVec3 b, double along, double across,
                                 double out)
{
    return vec3(along * n.x + across * e.x + out * b.x, along * n.y + across * e.y + out * b.y,
                along * n.z + across * e.z + out * b.z);
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
        r = leg->reaches ? sqrt(square) : 0.0;
        da = 1.0 - a * inverse_d;
        dr = r > 0.0 ? -a * da / r : 0.0;
    } else {
        const double span = plumb_leg_span(rig, knee_bend_rad);
        a = 0.5 * (gap + span * span) / span;
        r = first * second * sin(knee_bend_rad) / span;
        leg->reaches = true;
    }
    const double tilt = vec3_dot(n, pole);
    const PlumbVec3 w = vec3_along(pole, -tilt, n);
    const double inverse_w = 1.0 / vec3_length(w);
    const PlumbVec3 e = vec3_scale(w, inverse_w);
    const PlumbVec3 b = vec3_cross(n, e);
    const double a_turn = a * inverse_d;
    const double r_turn = r * inverse_d;
    const double out = a_turn - r_turn * tilt * inverse_w;
    leg->bend_side = e;
    leg->distance = d;
    leg->distance_dx = n.x;
    leg->distance_dy = n.y;
    leg->knee = vec3_along(vec3_along(rig->ankle, a, n), r, e);
    leg->knee_dx =
        knee_derivative(n, e, b, da * n.x - r_turn * e.x, dr * n.x + a_turn * e.x, out * b.x);
    leg->knee_dy =
        knee_derivative(n, e, b, da * n.y - r_turn * e.y, dr * n.y + a_turn * e.y, out * b.y);
    /* The pole turns about y: d pole / d psi = (-pole.z, 0, pole.x); only its part along b turns e.
     */
    leg->knee_dpsi = vec3_scale(b, r * inverse_w * (pole.x * b.z - pole.z * b.x));
}
