/* SPDX-License-Identifier: MIT */
/* Angles of a pose, among them the hip's by the recommendation of the International Society of
 * Biomechanics. */
#include "model/measure.h"

PlumbVec3 plumb_leg_axis(const PlumbRig *rig, const PlumbLeg *leg)
{
    const PlumbVec3 to_ankle = vec3_sub(rig->ankle, leg->knee);
    const PlumbVec3 to_hip = vec3_sub(leg->hip, leg->knee);
    PlumbVec3 axis = vec3_cross(to_ankle, to_hip);
    const double least = 1e-9 * rig->shank * rig->thigh;
    if (vec3_dot(axis, axis) < least * least) {
        const PlumbVec3 up = vec3_unit(vec3_sub(leg->hip, rig->ankle));
        axis = vec3_cross(leg->bend_side, up);
    }
    axis = vec3_unit(axis);
    return axis.z < 0.0 ? vec3_scale(axis, -1.0) : axis;
}

/* Thigh against pelvis, Cardan Z-X-Y (Wu et al. 2002, J Biomech 35(4):543-548): with pelvis axes
 * X forward, Y up, Z right and thigh axes y to the hip, z the knee's flexion axis, x = y × z,
 * R = pelvis^T thigh = Rz(flexion) Rx(adduction) Ry(internal rotation), so that
 * R01 = -sin f cos a,  R11 = cos f cos a,  R21 = sin a,  R20 = -cos a sin i,  R22 = cos a cos i. */
static void hip_angles(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg, double *flexion,
                       double *abduction, double *external)
{
    const double lean = q.thorax_lean_rad - rig->spine_rad;
    const double s = sin(lean);
    const double c = cos(lean);
    const PlumbVec3 y = vec3_scale(vec3_sub(leg->hip, leg->knee), 1.0 / rig->thigh);
    const PlumbVec3 z = plumb_leg_axis(rig, leg);
    const PlumbVec3 x = vec3_cross(y, z);
    /* Pelvis axes in space: X = (c, -s, 0), Y = (s, c, 0), Z = (0, 0, 1). */
    const double r01 = c * y.x - s * y.y;
    const double r11 = s * y.x + c * y.y;
    /* A fold past 180° stays a flexion; a hip does not extend past 90°. */
    const double fold = atan2(-r01, r11);
    *flexion = fold < -0.5 * PLUMB_PI ? fold + 2.0 * PLUMB_PI : fold;
    *abduction = -asin(clamp(y.z, -1.0, 1.0));
    *external = -atan2(-x.z, z.z);
}

static double knee_flexion(const PlumbRig *rig, const PlumbLeg *leg)
{
    const PlumbVec3 shank = vec3_sub(leg->knee, rig->ankle);
    const PlumbVec3 thigh = vec3_sub(leg->hip, leg->knee);
    return atan2(vec3_length(vec3_cross(shank, thigh)), vec3_dot(shank, thigh));
}

static double dorsiflexion(const PlumbRig *rig, const PlumbLeg *leg)
{
    const PlumbVec3 shank = vec3_sub(leg->knee, rig->ankle);
    return atan2(vec3_dot(shank, rig->foot_axis), shank.y) - rig->shoe_pitch_rad;
}

void plumb_limit_angles(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg,
                        double angle_rad[PLUMB_LEG_LIMIT_COUNT])
{
    double flexion;
    double abduction;
    double external;
    hip_angles(rig, q, leg, &flexion, &abduction, &external);
    angle_rad[PLUMB_LIMIT_ankle_dorsiflexion] = dorsiflexion(rig, leg);
    angle_rad[PLUMB_LIMIT_knee_flexion] = knee_flexion(rig, leg);
    angle_rad[PLUMB_LIMIT_hip_flexion] = flexion;
    angle_rad[PLUMB_LIMIT_hip_extension] = -flexion;
    angle_rad[PLUMB_LIMIT_hip_abduction] = abduction;
    angle_rad[PLUMB_LIMIT_hip_external_rotation] = external;
    angle_rad[PLUMB_LIMIT_hip_internal_rotation] = -external;
}

void plumb_pose_angles(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg, PlumbVec2 bar,
                       double angle_rad[PLUMB_ANGLE_COUNT])
{
    const PlumbVec3 shank = vec3_sub(leg->knee, rig->ankle);
    const PlumbVec3 thigh = vec3_sub(leg->hip, leg->knee);
    const double s = sin(q.thorax_lean_rad);
    const double c = cos(q.thorax_lean_rad);
    const PlumbVec2 shoulder = rig_trunk_point(q, rig->shoulder_u, rig->shoulder_v);
    const PlumbVec2 arm = {bar.x - shoulder.x, bar.y - shoulder.y};
    angle_rad[PLUMB_ANG_thorax] = 0.5 * PLUMB_PI - q.thorax_lean_rad;
    angle_rad[PLUMB_ANG_back] = angle_rad[PLUMB_ANG_thorax] + rig->back_offset_rad;
    angle_rad[PLUMB_ANG_shin] = atan2(shank.x, shank.y);
    angle_rad[PLUMB_ANG_thigh] = atan2(thigh.y, -thigh.x);
    angle_rad[PLUMB_ANG_knee_flexion] = knee_flexion(rig, leg);
    angle_rad[PLUMB_ANG_ankle_dorsiflexion] = dorsiflexion(rig, leg);
    angle_rad[PLUMB_ANG_frontal_shin] = atan2(shank.z, shank.y);
    hip_angles(rig, q, leg, &angle_rad[PLUMB_ANG_hip_flexion], &angle_rad[PLUMB_ANG_hip_abduction],
               &angle_rad[PLUMB_ANG_hip_external_rotation]);
    angle_rad[PLUMB_ANG_hip_thorax_thigh] =
        acos(clamp((s * thigh.x + c * thigh.y) / rig->thigh, -1.0, 1.0));
    /* Forward of the thorax pointing down, (-s, -c), is flexion: a turn from it towards +x. */
    angle_rad[PLUMB_ANG_shoulder_flexion] = atan2(arm.x * c - arm.y * s, -(arm.x * s + arm.y * c));
}
