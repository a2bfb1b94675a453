/* SPDX-License-Identifier: MIT */
/* The named poses' equations written a second time, from the body's lengths and masses alone and
 * without the program's rig, limb or constraints; slow and plain. */
#ifndef PLUMBAR_TESTS_RESIDUALS_H
#define PLUMBAR_TESTS_RESIDUALS_H

#include <plumbar/plumbar.h>

#include <math.h>

typedef struct Plain {
    double x;
    double y;
    double z;
} Plain;

/* Joints of a pose that the equations need. */
typedef struct Figure {
    Plain ankle;
    Plain knee;
    Plain hip;
    Plain lumbar;
    Plain shoulder;
    Plain elbow;
    Plain wrist;
    Plain grip;
    double heel_x;
    double toe_x;
    double com_x;
} Figure;

static inline Plain plain_mix(Plain a, Plain b, double share)
{
    const Plain p = {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y),
                     a.z + share * (b.z - a.z)};
    return p;
}

static inline double plain_distance(Plain a, Plain b)
{
    return sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y) + (a.z - b.z) * (a.z - b.z));
}

/* Joint of a limb by the law of cosines: from p towards q by first cos(A), to the pole's side by
 * first sin(A), A the angle at p. */
static inline Plain plain_limb(Plain p, Plain q, double first, double second, Plain pole)
{
    const double d = plain_distance(p, q);
    const Plain n = {(q.x - p.x) / d, (q.y - p.y) / d, (q.z - p.z) / d};
    const double cosine = (first * first + d * d - second * second) / (2.0 * first * d);
    const double sine = sqrt(1.0 - cosine * cosine);
    const double along = n.x * pole.x + n.y * pole.y + n.z * pole.z;
    Plain e = {pole.x - along * n.x, pole.y - along * n.y, pole.z - along * n.z};
    const double size = sqrt(e.x * e.x + e.y * e.y + e.z * e.z);
    const Plain joint = {p.x + first * (cosine * n.x + sine * e.x / size),
                         p.y + first * (cosine * n.y + sine * e.y / size),
                         p.z + first * (cosine * n.z + sine * e.z / size)};
    return joint;
}

static inline void figure_arms(const PlumbBody *b, const PlumbSetup *s, double theta, Plain bar,
                               Figure *f)
{
    f->grip = bar;
    f->grip.z = 0.5 * s->grip_m + b->forefinger_to_grip_centre_m;
    Plain joint = f->shoulder;
    joint.z = 0.5 * b->shoulder_joint_spacing_m;
    if (s->lift == PLUMB_DEADLIFT) {
        const double arm =
            b->shoulder_drop_m + b->upper_arm_m + b->forearm_m + b->wrist_to_grip_fingers_m;
        f->elbow = plain_mix(joint, f->grip, (b->shoulder_drop_m + b->upper_arm_m) / arm);
        f->wrist = plain_mix(joint, f->grip, (arm - b->wrist_to_grip_fingers_m) / arm);
        return;
    }
    const double lower = b->forearm_m + b->wrist_to_grip_palm_m;
    const double back = s->seat == PLUMB_FRONT_BAR ? -1.0 : 0.5;
    const double down = s->seat == PLUMB_FRONT_BAR ? 0.0 : -1.0;
    const Plain pole = {down * sin(theta) - back * cos(theta),
                        down * cos(theta) + back * sin(theta), 0.0};
    const double d = plain_distance(joint, f->grip);
    const bool reaches = d <= b->upper_arm_m + lower && d >= fabs(b->upper_arm_m - lower);
    f->elbow = reaches ? plain_limb(joint, f->grip, b->upper_arm_m, lower, pole)
                       : plain_mix(joint, f->grip, 0.5);
    f->wrist = plain_mix(f->elbow, f->grip, b->forearm_m / lower);
}

static inline double figure_com_x(const PlumbBody *b, const PlumbSetup *s, double theta,
                                  double bar_x, const Figure *f)
{
    const PlumbSegment *g = b->segment;
    const double drop = s->lift == PLUMB_DEADLIFT ? b->shoulder_drop_m : 0.0;
    const Plain arm = plain_mix(f->shoulder, f->elbow, drop / (drop + b->upper_arm_m));
    const double foot_x = f->heel_x + g[PLUMB_SEG_foot].com_frac * (f->toe_x - f->heel_x);
    const double head_x = f->shoulder.x + g[PLUMB_SEG_head].com_frac * b->trunk_m * sin(theta);
    const double limbs =
        g[PLUMB_SEG_foot].mass_frac * foot_x +
        g[PLUMB_SEG_shank].mass_frac * plain_mix(f->knee, f->ankle, g[PLUMB_SEG_shank].com_frac).x +
        g[PLUMB_SEG_thigh].mass_frac * plain_mix(f->hip, f->knee, g[PLUMB_SEG_thigh].com_frac).x +
        g[PLUMB_SEG_upper_arm].mass_frac *
            plain_mix(arm, f->elbow, g[PLUMB_SEG_upper_arm].com_frac).x +
        g[PLUMB_SEG_forearm].mass_frac *
            plain_mix(f->elbow, f->wrist, g[PLUMB_SEG_forearm].com_frac).x +
        g[PLUMB_SEG_hand].mass_frac * plain_mix(f->wrist, f->grip, g[PLUMB_SEG_hand].com_frac).x;
    const double middle = g[PLUMB_SEG_pelvis].mass_frac *
                              plain_mix(f->hip, f->lumbar, g[PLUMB_SEG_pelvis].com_frac).x +
                          g[PLUMB_SEG_thorax].mass_frac *
                              plain_mix(f->lumbar, f->shoulder, g[PLUMB_SEG_thorax].com_frac).x +
                          g[PLUMB_SEG_head].mass_frac * head_x;
    return (b->mass_kg * (2.0 * limbs + middle) + s->load_kg * bar_x) / (b->mass_kg + s->load_kg);
}

/* q: hip x, hip y, thorax lean. bar: of a pull; a squat's is put on the thorax and returned. */
static inline Figure figure_of(const PlumbBody *b, const PlumbSetup *s, const double q[3],
                               Plain *bar)
{
    Figure f;
    const double cosine = cos(s->toes_rad);
    f.heel_x = -0.5 * b->foot_length_m * cosine;
    f.toe_x = 0.5 * b->foot_length_m * cosine;
    f.ankle.x = f.heel_x + b->heel_to_ankle_m * cosine;
    f.ankle.y = b->ankle_height_m + s->heel_lift_m +
                (s->ball_lift_m - s->heel_lift_m) * b->heel_to_ankle_m / b->ball_of_foot_m;
    f.ankle.z = 0.5 * s->stance_m;
    const Plain hip = {q[0], q[1], 0.5 * b->hip_joint_spacing_m};
    f.hip = hip;
    const double psi = s->toes_rad + s->knees_out_rad;
    const Plain pole = {cos(psi), 0.0, sin(psi)};
    f.knee = plain_limb(f.ankle, f.hip, b->shank_m, b->thigh_m, pole);
    const double theta = q[2];
    const double pelvis = theta - s->spine_rad;
    const double thorax = b->trunk_m - b->pelvis_m;
    const Plain lumbar = {q[0] + b->pelvis_m * sin(pelvis), q[1] + b->pelvis_m * cos(pelvis), 0.0};
    f.lumbar = lumbar;
    f.shoulder = lumbar;
    f.shoulder.x += thorax * sin(theta);
    f.shoulder.y += thorax * cos(theta);
    if (s->lift == PLUMB_SQUAT) {
        const double up[] = {b->bar_high_up_m, b->bar_low_up_m, b->bar_front_up_m};
        const double back[] = {b->bar_high_back_m, b->bar_low_back_m, b->bar_front_back_m};
        bar->x = f.shoulder.x + up[s->seat] * sin(theta) - back[s->seat] * cos(theta);
        bar->y = f.shoulder.y + up[s->seat] * cos(theta) + back[s->seat] * sin(theta);
    }
    figure_arms(b, s, theta, *bar, &f);
    f.com_x = figure_com_x(b, s, theta, bar->x, &f);
    return f;
}

/* Distance of the bar from the joint line p-q less its flesh, and on which side it is. */
static inline double plain_capsule(Plain p, Plain q, Plain bar, double flesh)
{
    const double ux = q.x - p.x;
    const double uy = q.y - p.y;
    const double share = ((bar.x - p.x) * ux + (bar.y - p.y) * uy) / (ux * ux + uy * uy);
    const double at = share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
    return hypot(bar.x - p.x - at * ux, bar.y - p.y - at * uy) - flesh;
}

/* Residuals of the lead's pose: reach, clearance and balance, hip height or back angle for a pull
 * whose bar is ahead of the leg; depth, balance and shin or back angle for a squat. */
static inline void plain_residuals(const PlumbLifter *lifter, const PlumbSetup *s,
                                   const double q[3], double residual[3])
{
    const PlumbBody *b = &lifter->body;
    const double radius = 0.5 * lifter->equipment.shaft_diameter_m;
    Plain bar = {s->bar_over_m,
                 0.5 * lifter->equipment.disc_diameter_m + s->blocks_m - s->deficit_m, 0.0};
    const Figure f = figure_of(b, s, q, &bar);
    const double balance = (f.com_x - f.heel_x) / (f.toe_x - f.heel_x) - s->balance_frac;
    const double back = atan2(f.shoulder.y - f.hip.y, f.shoulder.x - f.hip.x) - s->back_angle_rad;
    if (s->lift == PLUMB_DEADLIFT) {
        Plain joint = f.shoulder;
        joint.z = 0.5 * b->shoulder_joint_spacing_m;
        residual[0] = plain_distance(joint, f.grip) - b->shoulder_drop_m - b->upper_arm_m -
                      b->forearm_m - b->wrist_to_grip_fingers_m;
        residual[1] = fmin(plain_capsule(f.ankle, f.knee, bar, b->shin_half_thickness_m),
                           plain_capsule(f.knee, f.hip, bar, b->thigh_half_thickness_m)) -
                      radius;
        if (s->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE) {
            residual[1] = f.hip.y - s->hip_height_m;
        }
        residual[2] = s->lead == PLUMB_LEAD_HIP_HEIGHT   ? f.hip.y - s->hip_height_m
                      : s->lead == PLUMB_LEAD_BACK_ANGLE ? back
                                                         : balance;
        return;
    }
    residual[0] =
        f.hip.y + b->hip_crease_above_joint_m - f.knee.y - b->knee_top_above_joint_m + s->depth_m;
    residual[1] = balance;
    residual[2] = s->lead == PLUMB_LEAD_BACK_ANGLE
                      ? back
                      : atan2(f.knee.x - f.ankle.x, f.knee.y - f.ankle.y) - s->shin_angle_rad;
}

#endif
