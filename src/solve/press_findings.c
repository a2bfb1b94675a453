/* SPDX-License-Identifier: MIT */
/* What a coach would remark on a press, as figures against limits. */
#include "solve/press.h"

/* Thresholds: common practice, no source, unless a rule or the lifter's limits give them. */
static const double upright_rad = 10.0 * PLUMB_PI / 180.0;
static const double far_outside_rad = 20.0 * PLUMB_PI / 180.0;
static const double near_neck_m = 0.04;
static const double lockout_off_m = 0.02;
static const double step_sudden_rad = 2.0 * PLUMB_PI / 180.0; /* within a centimetre of rise */
static const double step_jump_rad = 5.0 * PLUMB_PI / 180.0;
static const double slack = 1e-6;

static void add(PlumbPressAnswer *answer, PlumbFindingId id, PlumbSeverity severity, double value,
                double limit, PlumbQuantity quantity, PlumbPoint point, int detail)
{
    if (answer->finding_count < PLUMB_FINDING_MAX) {
        const PlumbFinding finding = {id, severity, value, limit, quantity, point, detail};
        answer->finding[answer->finding_count++] = finding;
    }
}

static void find_limits(const PlumbLifter *lifter, PlumbPressAnswer *answer)
{
    static const struct {
        PlumbLimit limit;
        PlumbPressAngle angle;
        PlumbPoint point;
    } rows[] = {
        {PLUMB_LIMIT_shoulder_flexion, PLUMB_PRESS_ANG_shoulder_flexion, PLUMB_PT_shoulder},
        {PLUMB_LIMIT_shoulder_external_rotation, PLUMB_PRESS_ANG_shoulder_external_rotation,
         PLUMB_PT_shoulder},
        {PLUMB_LIMIT_elbow_flexion, PLUMB_PRESS_ANG_elbow_flexion, PLUMB_PT_elbow},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const double angle = answer->touch.angle_rad[rows[i].angle];
        const double limit = lifter->limit_rad[rows[i].limit];
        if (angle > limit + slack) {
            add(answer, PLUMB_FIND_joint_past_limit, PLUMB_WARNING, angle, limit, PLUMB_Q_ANGLE,
                rows[i].point, (int)rows[i].limit);
        }
    }
}

static void find_rules(const PlumbLifter *lifter, PlumbPressAnswer *answer)
{
    const PlumbEquipment *bar = &lifter->equipment;
    const double grip = answer->setup.grip_m;
    const double outer = grip + 4.0 * lifter->body.forefinger_to_grip_centre_m;
    if (!answer->grip_rule_met) {
        add(answer, PLUMB_FIND_grip_over_rule, PLUMB_WARNING, grip, plumb_bench_grip_most_m(),
            PLUMB_Q_LENGTH, PLUMB_PT_grip, 0);
    }
    if (grip < bar->knurl_start_m - slack) {
        add(answer, PLUMB_FIND_hands_off_knurling, PLUMB_NOTE, grip, bar->knurl_start_m,
            PLUMB_Q_LENGTH, PLUMB_PT_grip, 0);
    } else if (outer > bar->knurl_stop_m + slack) {
        add(answer, PLUMB_FIND_hands_off_knurling, PLUMB_WARNING, outer, bar->knurl_stop_m,
            PLUMB_Q_LENGTH, PLUMB_PT_grip, 1);
    }
    if (answer->outcome != PLUMB_NO_POSE && !answer->elbow_rule_met) {
        add(answer, PLUMB_FIND_elbow_above_rule, PLUMB_WARNING, -answer->touch.elbow_below_rule_m,
            0.0, PLUMB_Q_LENGTH, PLUMB_PT_elbow, 0);
    }
}

/* Whether the elbow is where it is asked for, and what the forearm looks like from the head end. */
static void find_elbows(PlumbPressAnswer *answer)
{
    const PlumbPressPosition *touch = &answer->touch;
    const PlumbSetup *setup = &answer->setup;
    const double abduction = touch->angle_rad[PLUMB_PRESS_ANG_abduction];
    const double front = touch->angle_rad[PLUMB_PRESS_ANG_forearm_front];
    if (setup->elbows_given && fabs(abduction - setup->elbows_rad) > slack) {
        add(answer, PLUMB_FIND_elbows_not_met, PLUMB_WARNING, abduction, setup->elbows_rad,
            PLUMB_Q_ANGLE, PLUMB_PT_elbow, 0);
    }
    if (!setup->elbows_given && fabs(touch->elbow_off_bar_m) > slack) {
        add(answer, PLUMB_FIND_elbow_not_under_bar, PLUMB_WARNING, touch->elbow_off_bar_m, 0.0,
            PLUMB_Q_LENGTH, PLUMB_PT_elbow, 0);
    }
    if (fabs(front) <= upright_rad) {
        return;
    }
    const bool offered = front < -far_outside_rad && !isnan(answer->elbows_upright_rad);
    if (!setup->elbows_given && offered) {
        add(answer, PLUMB_FIND_elbows_flare_outside, PLUMB_WARNING, front,
            answer->elbows_upright_rad, PLUMB_Q_ANGLE, PLUMB_PT_elbow, 0);
    } else {
        add(answer, PLUMB_FIND_forearm_not_upright, PLUMB_NOTE, front, upright_rad, PLUMB_Q_ANGLE,
            PLUMB_PT_wrist, 0);
    }
}

static void find_path(PlumbPressAnswer *answer)
{
    const double step = answer->abduction_step_rad;
    const double at = answer->abduction_step_frac;
    const int where = at < 0.1 ? 0 : at < 0.85 ? 1 : 2;
    if (step > step_jump_rad) {
        add(answer, PLUMB_FIND_elbow_path_jumps, PLUMB_WARNING, step, step_jump_rad, PLUMB_Q_ANGLE,
            PLUMB_PT_elbow, where);
    } else if (step > step_sudden_rad) {
        add(answer, PLUMB_FIND_elbows_flare_suddenly, PLUMB_NOTE, step, step_sudden_rad,
            PLUMB_Q_ANGLE, PLUMB_PT_elbow, where);
    }
    if (answer->setup.touch_m < near_neck_m - slack) {
        add(answer, PLUMB_FIND_touch_near_neck, PLUMB_NOTE, answer->setup.touch_m, near_neck_m,
            PLUMB_Q_LENGTH, PLUMB_PT_bar, 0);
    }
    const double over = answer->setup.lockout_over_m;
    if (fabs(over) > lockout_off_m + slack) {
        add(answer, PLUMB_FIND_bar_off_shoulder_lockout, PLUMB_NOTE, over, lockout_off_m,
            PLUMB_Q_LENGTH, PLUMB_PT_bar, 0);
    }
}

void plumb_press_findings(const PlumbLifter *lifter, PlumbPressAnswer *answer)
{
    answer->finding_count = 0;
    if (answer->outcome == PLUMB_NO_POSE) {
        add(answer, PLUMB_FIND_press_no_pose, PLUMB_WARNING, answer->miss_m, 0.0, PLUMB_Q_LENGTH,
            PLUMB_PT_grip, answer->at_lockout ? 1 : 0);
        find_rules(lifter, answer);
        return;
    }
    find_limits(lifter, answer);
    find_rules(lifter, answer);
    find_elbows(answer);
    find_path(answer);
}
