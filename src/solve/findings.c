/* SPDX-License-Identifier: MIT */
/* What a coach would remark on a solved set-up, as figures against limits, and in plain words. */
#include "solve/case.h"

#include "model/arm.h"

/* Thresholds: common practice, no source, unless a rule of the set-up gives them. */
static const double bar_off_pull_m = 0.025;
static const double bar_off_squat_m = 0.05;
static const double gap_m = 0.01;
static const double through_m = -0.001;
static const double inside_m = -0.01;
static const double balance_least = 0.25;
static const double balance_most = 0.60;
static const double back_least_rad = 10.0 * PLUMB_PI / 180.0;
static const double angle_slack_rad = 1e-6;
static const double standing_off_m = 0.01;

static void add(PlumbAnswer *answer, PlumbFindingId id, PlumbSeverity severity, double value,
                double limit, PlumbQuantity quantity, PlumbPoint point, int detail)
{
    if (answer->finding_count < PLUMB_FINDING_MAX) {
        const PlumbFinding finding = {id, severity, value, limit, quantity, point, detail};
        answer->finding[answer->finding_count++] = finding;
    }
}

static void find_pull(const PlumbCase *c, PlumbAnswer *answer)
{
    const PlumbPosition *p = &answer->start;
    const double ahead = p->point[PLUMB_PT_shoulder].x - p->point[PLUMB_PT_bar].x;
    const double most = c->setup.shoulder_ahead_max_frac * c->lifter->body.stature_m;
    if (ahead < -1e-6) {
        add(answer, PLUMB_FIND_shoulder_behind_bar, PLUMB_WARNING, ahead, 0.0, PLUMB_Q_LENGTH,
            PLUMB_PT_shoulder, 0);
    }
    if (ahead > most + 1e-6) {
        add(answer, PLUMB_FIND_shoulder_far_ahead, PLUMB_WARNING, ahead, most, PLUMB_Q_LENGTH,
            PLUMB_PT_shoulder, 0);
    }
    if (p->angle_rad[PLUMB_ANG_back] < back_least_rad - angle_slack_rad) {
        add(answer, PLUMB_FIND_back_near_level, PLUMB_WARNING, p->angle_rad[PLUMB_ANG_back],
            back_least_rad, PLUMB_Q_ANGLE, PLUMB_PT_lumbar, 0);
    }
    if (p->clearance_m < through_m) {
        add(answer, PLUMB_FIND_shin_through_bar, PLUMB_WARNING, p->clearance_m, 0.0, PLUMB_Q_LENGTH,
            PLUMB_PT_knee, 0);
    }
    if (p->clearance_m > gap_m) {
        add(answer, PLUMB_FIND_gap_to_bar, PLUMB_NOTE, p->clearance_m, gap_m, PLUMB_Q_LENGTH,
            PLUMB_PT_bar, 0);
    }
    if (answer->expected_hip_rise_m > 0.0) {
        add(answer, PLUMB_FIND_hips_rise_first, PLUMB_WARNING, answer->expected_hip_rise_m, 0.0,
            PLUMB_Q_LENGTH, PLUMB_PT_hip, (int)answer->hip_rise_end);
    }
}

static void find_squat(const PlumbCase *c, PlumbAnswer *answer)
{
    const PlumbPosition *p = &answer->start;
    const PlumbBody *body = &c->lifter->body;
    const double depth = p->point[PLUMB_PT_knee].y + body->knee_top_above_joint_m -
                         p->point[PLUMB_PT_hip].y - body->hip_crease_above_joint_m;
    if (depth < -1e-6) {
        add(answer, PLUMB_FIND_depth_not_reached, PLUMB_NOTE, depth, 0.0, PLUMB_Q_LENGTH,
            PLUMB_PT_hip, 0);
    }
    if (!p->arm_reaches) {
        add(answer, PLUMB_FIND_arm_cannot_reach, PLUMB_WARNING, c->setup.grip_m, c->setup.grip_m,
            PLUMB_Q_LENGTH, PLUMB_PT_grip, 0);
    }
    if (answer->end_held && fabs(answer->standing_bar_off_m) > standing_off_m) {
        add(answer, PLUMB_FIND_bar_off_balance_standing, PLUMB_NOTE, answer->standing_bar_off_m,
            standing_off_m, PLUMB_Q_LENGTH, PLUMB_PT_bar, 0);
    }
}

static void find_balance(PlumbAnswer *answer)
{
    const PlumbPosition *p = &answer->start;
    const bool pull = answer->setup.lift == PLUMB_DEADLIFT;
    const double off = p->point[PLUMB_PT_bar].x;
    const double most = pull ? bar_off_pull_m : bar_off_squat_m;
    if (fabs(off) > most + 1e-9) {
        add(answer, PLUMB_FIND_bar_off_mid_foot, pull ? PLUMB_WARNING : PLUMB_NOTE, off, most,
            PLUMB_Q_LENGTH, PLUMB_PT_bar, 0);
    }
    if (p->balance_frac < balance_least - 1e-9) {
        add(answer, PLUMB_FIND_balance_toward_heel, PLUMB_WARNING, p->balance_frac, balance_least,
            PLUMB_Q_FRACTION, PLUMB_PT_heel, 0);
    }
    if (p->balance_frac > balance_most + 1e-9) {
        add(answer, PLUMB_FIND_balance_toward_toes, PLUMB_WARNING, p->balance_frac, balance_most,
            PLUMB_Q_FRACTION, PLUMB_PT_toe, 0);
    }
}

static void find_joints(const PlumbCase *c, PlumbAnswer *answer)
{
    static const PlumbPoint point[PLUMB_LEG_LIMIT_COUNT] = {
        [PLUMB_LIMIT_ankle_dorsiflexion] = PLUMB_PT_ankle,
        [PLUMB_LIMIT_knee_flexion] = PLUMB_PT_knee,
        [PLUMB_LIMIT_hip_flexion] = PLUMB_PT_hip,
        [PLUMB_LIMIT_hip_extension] = PLUMB_PT_hip,
        [PLUMB_LIMIT_hip_abduction] = PLUMB_PT_hip,
        [PLUMB_LIMIT_hip_external_rotation] = PLUMB_PT_hip,
        [PLUMB_LIMIT_hip_internal_rotation] = PLUMB_PT_hip,
    };
    const double *a = answer->start.angle_rad;
    const double angle[PLUMB_LEG_LIMIT_COUNT] = {
        [PLUMB_LIMIT_ankle_dorsiflexion] = a[PLUMB_ANG_ankle_dorsiflexion],
        [PLUMB_LIMIT_knee_flexion] = a[PLUMB_ANG_knee_flexion],
        [PLUMB_LIMIT_hip_flexion] = a[PLUMB_ANG_hip_flexion],
        [PLUMB_LIMIT_hip_extension] = -a[PLUMB_ANG_hip_flexion],
        [PLUMB_LIMIT_hip_abduction] = a[PLUMB_ANG_hip_abduction],
        [PLUMB_LIMIT_hip_external_rotation] = a[PLUMB_ANG_hip_external_rotation],
        [PLUMB_LIMIT_hip_internal_rotation] = -a[PLUMB_ANG_hip_external_rotation],
    };
    for (int i = 0; i < PLUMB_LEG_LIMIT_COUNT; i++) {
        if (angle[i] > c->lifter->limit_rad[i] + angle_slack_rad) {
            add(answer, PLUMB_FIND_joint_past_limit, PLUMB_WARNING, angle[i],
                c->lifter->limit_rad[i], PLUMB_Q_ANGLE, point[i], i);
        }
    }
    const double inside =
        answer->start.point[PLUMB_PT_knee].z - answer->start.point[PLUMB_PT_ankle].z;
    if (inside < inside_m) {
        add(answer, PLUMB_FIND_knees_inside_ankles, PLUMB_WARNING, inside, 0.0, PLUMB_Q_LENGTH,
            PLUMB_PT_knee, 0);
    }
    if (!answer->knees_over_toes_met) {
        add(answer, PLUMB_FIND_knees_over_toes_not_met, PLUMB_NOTE,
            answer->start.knee_to_toe_line_m, 0.0, PLUMB_Q_LENGTH, PLUMB_PT_knee, 0);
    }
}

/* The hand lies on the bar from the forefinger outwards. */
static void find_hands(const PlumbCase *c, PlumbAnswer *answer)
{
    const PlumbEquipment *bar = &c->lifter->equipment;
    const double inner = c->setup.grip_m;
    const double outer = inner + 4.0 * c->lifter->body.forefinger_to_grip_centre_m;
    if (inner < bar->knurl_start_m - 1e-9) {
        add(answer, PLUMB_FIND_hands_off_knurling, PLUMB_NOTE, inner, bar->knurl_start_m,
            PLUMB_Q_LENGTH, PLUMB_PT_grip, 0);
    } else if (outer > bar->knurl_stop_m + 1e-9) {
        add(answer, PLUMB_FIND_hands_off_knurling, PLUMB_WARNING, outer, bar->knurl_stop_m,
            PLUMB_Q_LENGTH, PLUMB_PT_grip, 1);
    }
    if (inner > bar->ring_spacing_m + 1e-9) {
        add(answer, PLUMB_FIND_hands_past_rings, PLUMB_NOTE, inner, bar->ring_spacing_m,
            PLUMB_Q_LENGTH, PLUMB_PT_grip, 0);
    }
}

/* A limit of the arm that a squat's seat and grip ask for. The elbow of a squat is drawn where most
 * lifters hold it, not solved, so that a figure within the spread of the table's limit says
 * nothing; the lifter's own test is taken at its word. */
static void find_arm_limit(const PlumbCase *c, PlumbAnswer *answer, PlumbLimit limit, double angle,
                           PlumbPoint point)
{
    const double spread = c->lifter->limit_entered[limit] ? 0.0 : 2.0 * plumb_limit_sd_rad(limit);
    if (angle > c->lifter->limit_rad[limit] + spread + angle_slack_rad) {
        add(answer, PLUMB_FIND_joint_past_limit, PLUMB_WARNING, angle, c->lifter->limit_rad[limit],
            PLUMB_Q_ANGLE, point, (int)limit);
    }
}

/* The arm against the thorax, in its frame: u up along it, v behind, z to the right. External
 * rotation as in model/arm.h, so that the forearm forward with the upper arm hanging is 0, the
 * forearm straight out to the side 90°. */
static void find_squat_arm(const PlumbCase *c, PlumbAnswer *answer)
{
    const PlumbRig *rig = &c->rig;
    if (!rig->arm_reaches) {
        return;
    }
    const PlumbVec3 shoulder = vec3(0.0, 0.0, rig->shoulder_z);
    const PlumbVec3 grip =
        vec3(rig->bar_u - rig->shoulder_u, rig->bar_v - rig->shoulder_v, rig->grip_z);
    const PlumbVec3 upper = vec3_unit(vec3_sub(rig->elbow_uvz, shoulder));
    const PlumbVec3 fore = vec3_unit(vec3_sub(grip, rig->elbow_uvz));
    const double rotation =
        plumb_arm_external_rotation(upper, fore, vec3(-1.0, 0.0, 0.0), vec3(0.0, -1.0, 0.0));
    const double flexion = atan2(vec3_length(vec3_cross(upper, fore)), vec3_dot(upper, fore));
    find_arm_limit(c, answer, PLUMB_LIMIT_shoulder_external_rotation, rotation, PLUMB_PT_shoulder);
    find_arm_limit(c, answer, PLUMB_LIMIT_elbow_flexion, flexion, PLUMB_PT_elbow);
}

void plumb_findings(const PlumbCase *c, PlumbAnswer *answer)
{
    answer->finding_count = 0;
    if (answer->outcome == PLUMB_NO_POSE) {
        const PlumbQuantity quantity =
            answer->failed == PLUMB_CON_balance ? PLUMB_Q_FRACTION
            : answer->failed == PLUMB_CON_shin_angle || answer->failed == PLUMB_CON_back_angle
                ? PLUMB_Q_ANGLE
                : PLUMB_Q_LENGTH;
        add(answer, PLUMB_FIND_no_pose, PLUMB_WARNING, answer->miss, 0.0, quantity, PLUMB_PT_hip,
            (int)answer->failed);
    }
    if (answer->setup.lift == PLUMB_DEADLIFT) {
        find_pull(c, answer);
    } else {
        find_squat(c, answer);
        find_squat_arm(c, answer);
    }
    find_balance(answer);
    find_joints(c, answer);
    find_hands(c, answer);
}
