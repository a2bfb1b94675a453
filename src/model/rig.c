/* SPDX-License-Identifier: MIT */
/* A lifter in a set-up as a mechanism: constants that a pose does not change. */
#include "model/rig.h"

#include "model/limb.h"

/* The shoe lifts the ankle by its share of the wedge between heel and ball and pitches the sole. */
static void build_foot(const PlumbBody *body, const PlumbSetup *setup, PlumbRig *rig)
{
    const double rise = setup->heel_lift_m - setup->ball_lift_m;
    const double ankle_y = body->ankle_height_m + setup->heel_lift_m -
                           rise * (body->heel_to_ankle_m / body->ball_of_foot_m);
    rig->foot_axis = vec3(cos(setup->toes_rad), 0.0, sin(setup->toes_rad));
    const double ankle_x = (body->heel_to_ankle_m - 0.5 * body->foot_length_m) * rig->foot_axis.x;
    rig->ankle = vec3(ankle_x, ankle_y, 0.5 * setup->stance_m);
    rig->heel = vec3_along(rig->ankle, -body->heel_to_ankle_m, rig->foot_axis);
    rig->heel.y = 0.0;
    rig->toe = vec3_along(rig->heel, body->foot_length_m, rig->foot_axis);
    rig->shoe_pitch_rad = atan2(rise, body->ball_of_foot_m);
}

static void build_lengths(const PlumbBody *body, const PlumbEquipment *equipment,
                          const PlumbSetup *setup, PlumbRig *rig)
{
    rig->hip_z = 0.5 * body->hip_joint_spacing_m;
    rig->shank = body->shank_m;
    rig->thigh = body->thigh_m;
    rig->shin_half_thickness = body->shin_half_thickness_m;
    rig->thigh_half_thickness = body->thigh_half_thickness_m;
    rig->hip_crease = body->hip_crease_above_joint_m;
    rig->knee_top = body->knee_top_above_joint_m;
    rig->pelvis = body->pelvis_m;
    rig->thorax = body->trunk_m - body->pelvis_m;
    rig->trunk_length = body->trunk_m;
    rig->shoulder_z = 0.5 * body->shoulder_joint_spacing_m;
    rig->upper_arm = body->upper_arm_m;
    rig->forearm = body->forearm_m;
    const bool pull = setup->lift == PLUMB_DEADLIFT;
    rig->drop = pull ? body->shoulder_drop_m : 0.0;
    rig->hand = pull ? body->wrist_to_grip_fingers_m : body->wrist_to_grip_palm_m;
    rig->arm = rig->drop + rig->upper_arm + rig->forearm + rig->hand;
    rig->grip_z = 0.5 * setup->grip_m + body->forefinger_to_grip_centre_m;
    rig->bar_radius = 0.5 * equipment->shaft_diameter_m;
}

static void build_masses(const PlumbBody *body, const PlumbSetup *setup, PlumbRig *rig)
{
    static const double sides[PLUMB_SEGMENT_COUNT] = {
        [PLUMB_SEG_foot] = 2.0,    [PLUMB_SEG_shank] = 2.0,  [PLUMB_SEG_thigh] = 2.0,
        [PLUMB_SEG_pelvis] = 1.0,  [PLUMB_SEG_thorax] = 1.0, [PLUMB_SEG_upper_arm] = 2.0,
        [PLUMB_SEG_forearm] = 2.0, [PLUMB_SEG_hand] = 2.0,   [PLUMB_SEG_head] = 1.0,
    };
    rig->body_mass = 0.0;
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        rig->segment_mass[i] = sides[i] * body->segment[i].mass_frac * body->mass_kg;
        rig->com_frac[i] = body->segment[i].com_frac;
        rig->body_mass += rig->segment_mass[i];
    }
    rig->bar_mass = setup->load_kg;
    rig->total_mass = rig->body_mass + rig->bar_mass;
}

/* Where the bar lies on the thorax of a squat, from mid-shoulder, by its seat. */
static PlumbVec2 bar_seat(const PlumbBody *body, PlumbSeat seat)
{
    const PlumbVec2 seats[PLUMB_SEAT_COUNT] = {
        [PLUMB_HIGH_BAR] = {body->bar_high_up_m, body->bar_high_back_m},
        [PLUMB_LOW_BAR] = {body->bar_low_up_m, body->bar_low_back_m},
        [PLUMB_FRONT_BAR] = {body->bar_front_up_m, body->bar_front_back_m},
    };
    return seats[seat];
}

/* The arms of a squat do not move against the thorax: a two-link limb from the shoulder joint to
 * the hand on the bar, elbow pointing down and a little back (front squat: forward). In the
 * thorax's frame (u up along it, v behind, z right); the handedness of the frame does not matter
 * to the limb's construction, which uses no cross product. */
static void build_squat_arm(PlumbVec2 seat, PlumbRig *rig)
{
    const PlumbVec3 shoulder = vec3(0.0, 0.0, rig->shoulder_z);
    const PlumbVec3 grip = vec3(seat.x, seat.y, rig->grip_z);
    const PlumbVec3 pole =
        rig->seat == PLUMB_FRONT_BAR ? vec3(0.0, -1.0, 0.0) : vec3(-1.0, 0.5, 0.0);
    const double lower = rig->forearm + rig->hand;
    rig->arm_reaches = limb_reaches(shoulder, grip, rig->upper_arm, lower);
    rig->elbow_uvz = rig->arm_reaches ? limb_joint(shoulder, grip, rig->upper_arm, lower, pole)
                                      : vec3_between(shoulder, grip, 0.5);
    rig->wrist_uvz = vec3_between(rig->elbow_uvz, grip, rig->forearm / lower);
}

/* First moments of the arms about mid-shoulder in the thorax's frame (squat), kg m. */
static PlumbVec2 squat_arm_moment(PlumbVec2 seat, const PlumbRig *rig)
{
    const PlumbVec3 shoulder = vec3(0.0, 0.0, rig->shoulder_z);
    const PlumbVec3 grip = vec3(seat.x, seat.y, rig->grip_z);
    const PlumbVec3 com[3] = {
        vec3_between(shoulder, rig->elbow_uvz, rig->com_frac[PLUMB_SEG_upper_arm]),
        vec3_between(rig->elbow_uvz, rig->wrist_uvz, rig->com_frac[PLUMB_SEG_forearm]),
        vec3_between(rig->wrist_uvz, grip, rig->com_frac[PLUMB_SEG_hand]),
    };
    PlumbVec2 moment = {0.0, 0.0};
    for (int i = 0; i < 3; i++) {
        moment.x += rig->segment_mass[PLUMB_SEG_upper_arm + i] * com[i].x;
        moment.y += rig->segment_mass[PLUMB_SEG_upper_arm + i] * com[i].y;
    }
    return moment;
}

/* Share of the arm's line at which the masses of a hanging arm lie, times their mass: kg. */
static double hanging_arm_moment(const PlumbRig *rig)
{
    const double elbow = rig->drop + rig->upper_arm;
    const double wrist = elbow + rig->forearm;
    return (rig->segment_mass[PLUMB_SEG_upper_arm] *
                (rig->drop + rig->com_frac[PLUMB_SEG_upper_arm] * rig->upper_arm) +
            rig->segment_mass[PLUMB_SEG_forearm] *
                (elbow + rig->com_frac[PLUMB_SEG_forearm] * rig->forearm) +
            rig->segment_mass[PLUMB_SEG_hand] *
                (wrist + rig->com_frac[PLUMB_SEG_hand] * rig->hand)) /
           rig->arm;
}

/* Legs: COM of the shank lies between knee and ankle, of the thigh between hip and knee, so the
 * legs' first moment is linear in K and H. */
static void build_leg_moments(const PlumbBody *body, PlumbRig *rig)
{
    const double *mass = rig->segment_mass;
    const double *com = rig->com_frac;
    const double along = com[PLUMB_SEG_foot] * body->foot_length_m;
    const double ankle = mass[PLUMB_SEG_shank] * com[PLUMB_SEG_shank];
    rig->moment_fixed.x =
        mass[PLUMB_SEG_foot] * (rig->heel.x + along * rig->foot_axis.x) + ankle * rig->ankle.x;
    rig->moment_fixed.y = (0.5 * mass[PLUMB_SEG_foot] + ankle) * rig->ankle.y;
    rig->moment_knee = mass[PLUMB_SEG_shank] * (1.0 - com[PLUMB_SEG_shank]) +
                       mass[PLUMB_SEG_thigh] * com[PLUMB_SEG_thigh];
}

void plumb_rig_spine(PlumbRig *rig, double spine_rad)
{
    const double *mass = rig->segment_mass;
    const double *com = rig->com_frac;
    const bool pull = rig->lift == PLUMB_DEADLIFT;
    const double arms = mass[PLUMB_SEG_upper_arm] + mass[PLUMB_SEG_forearm] + mass[PLUMB_SEG_hand];
    /* The lumbar hinge seen in the thorax's frame: the pelvis is turned back by the spine's bend.
     */
    rig->spine_rad = spine_rad;
    rig->spine_cos = cos(spine_rad);
    rig->spine_sin = sin(spine_rad);
    const PlumbVec2 lumbar = {rig->pelvis * rig->spine_cos, rig->pelvis * rig->spine_sin};
    const PlumbVec2 old_shoulder = {rig->shoulder_u, rig->shoulder_v};
    rig->shoulder_u = lumbar.x + rig->thorax;
    rig->shoulder_v = lumbar.y;
    rig->back_offset_rad = atan2(rig->shoulder_v, rig->shoulder_u);
    rig->bar_u += rig->shoulder_u - old_shoulder.x;
    rig->bar_v += rig->shoulder_v - old_shoulder.y;
    const double hanging = pull ? hanging_arm_moment(rig) : 0.0;
    const double at_shoulder = mass[PLUMB_SEG_head] + arms - hanging + (pull ? 0.0 : rig->bar_mass);
    const PlumbVec2 seat = {rig->bar_u - rig->shoulder_u, rig->bar_v - rig->shoulder_v};
    const PlumbVec2 carried = pull ? (PlumbVec2){0.0, 0.0} : squat_arm_moment(seat, rig);
    rig->moment_bar = pull ? hanging + rig->bar_mass : 0.0;
    rig->moment_u = mass[PLUMB_SEG_pelvis] * com[PLUMB_SEG_pelvis] * lumbar.x +
                    mass[PLUMB_SEG_thorax] * (lumbar.x + com[PLUMB_SEG_thorax] * rig->thorax) +
                    mass[PLUMB_SEG_head] * com[PLUMB_SEG_head] * rig->trunk_length +
                    at_shoulder * rig->shoulder_u + carried.x +
                    (pull ? 0.0 : rig->bar_mass * seat.x);
    rig->moment_v = mass[PLUMB_SEG_pelvis] * com[PLUMB_SEG_pelvis] * lumbar.y +
                    mass[PLUMB_SEG_thorax] * lumbar.y + at_shoulder * rig->shoulder_v + carried.y +
                    (pull ? 0.0 : rig->bar_mass * seat.y);
    rig->moment_hip = mass[PLUMB_SEG_thigh] * (1.0 - com[PLUMB_SEG_thigh]) +
                      mass[PLUMB_SEG_pelvis] + mass[PLUMB_SEG_thorax] + at_shoulder;
}

void plumb_rig_knees_out(PlumbRig *rig, double knees_out_rad)
{
    const double foot = atan2(rig->foot_axis.z, rig->foot_axis.x);
    rig->pole = vec3(cos(foot + knees_out_rad), 0.0, sin(foot + knees_out_rad));
}

void plumb_rig_build(const PlumbLifter *lifter, const PlumbSetup *setup, double spine_rad,
                     double knees_out_rad, PlumbRig *rig)
{
    const PlumbBody *body = &lifter->body;
    rig->lift = setup->lift;
    rig->seat = setup->seat;
    build_foot(body, setup, rig);
    build_lengths(body, &lifter->equipment, setup, rig);
    build_masses(body, setup, rig);
    build_leg_moments(body, rig);
    plumb_rig_knees_out(rig, knees_out_rad);
    rig->arm_reaches = true;
    rig->elbow_uvz = rig->wrist_uvz = vec3(0.0, 0.0, 0.0);
    rig->shoulder_u = rig->shoulder_v = rig->bar_u = rig->bar_v = 0.0;
    if (setup->lift == PLUMB_SQUAT) {
        const PlumbVec2 seat = bar_seat(body, setup->seat);
        rig->bar_u = seat.x;
        rig->bar_v = seat.y;
        build_squat_arm(seat, rig);
    }
    plumb_rig_spine(rig, spine_rad);
}

double plumb_bar_start_height_m(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    return 0.5 * lifter->equipment.disc_diameter_m + setup->blocks_m - setup->deficit_m;
}

double plumb_total_mass_kg(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    return lifter->body.mass_kg + setup->load_kg;
}
