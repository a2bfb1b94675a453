/* SPDX-License-Identifier: MIT */
/* Ten full poses, computed apart from this program from the same published figures, against the
 * solver: joints, angles, arms, moments, efforts, travel to 1e-8; windows and ranges to 1e-6. */
#include "support.h"

#include <plumbar/plumbar.h>

#include <jansson.h>
#include <string.h>

static const double tight = 1e-8;  /* m, rad, N m: the digits of the reference */
static const double joints = 1e-9; /* m: joints are printed to 1e-10 */
static const double loose = 1e-6;  /* windows and ranges, as the reference says */

static double number(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (!json_is_number(value)) {
        fail_msg("reference lacks %s", key);
    }
    return json_number_value(value);
}

static bool has(const json_t *object, const char *key)
{
    return json_object_get(object, key) != NULL;
}

static PlumbLifter read_lifter(const json_t *input)
{
    const char *sex = json_string_value(json_object_get(input, "sex"));
    const PlumbBodySpec spec =
        plumb_body_spec(strcmp(sex, "female") == 0 ? PLUMB_FEMALE : PLUMB_MALE,
                        number(input, "stature_m"), number(input, "mass_kg"));
    PlumbBody body;
    PlumbError error;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_OK);
    return plumb_lifter_default(&body);
}

static PlumbSetup read_setup(const json_t *input)
{
    const bool squat = strcmp(json_string_value(json_object_get(input, "lift")), "squat") == 0;
    PlumbSetup setup = plumb_setup_default(squat ? PLUMB_SQUAT : PLUMB_DEADLIFT);
    setup.stance_m = number(input, "stance_m");
    setup.toes_rad = number(input, "toes_rad");
    setup.knees_out_rad = number(input, "knees_out_rad");
    setup.grip_m = number(input, "grip_m");
    setup.load_kg = number(input, "load_kg");
    setup.spine_rad = number(input, "spine_rad");
    setup.balance_frac = number(input, "balance_frac");
    if (squat) {
        const char *bar = json_string_value(json_object_get(input, "bar"));
        setup.seat = strcmp(bar, "low") == 0     ? PLUMB_LOW_BAR
                     : strcmp(bar, "front") == 0 ? PLUMB_FRONT_BAR
                                                 : PLUMB_HIGH_BAR;
        setup.depth_m = number(input, "depth_m");
        setup.shin_angle_rad = number(input, "shin_angle_rad");
        setup.lead = PLUMB_LEAD_SHIN_ANGLE;
    }
    return setup;
}

static void check_joints(const json_t *want, const PlumbPosition *position)
{
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        const json_t *p = json_object_get(want, plumb_point_name((PlumbPoint)i));
        assert_non_null(p);
        assert_near(position->point[i].x, json_number_value(json_array_get(p, 0)), joints);
        assert_near(position->point[i].y, json_number_value(json_array_get(p, 1)), joints);
        assert_near(position->point[i].z, json_number_value(json_array_get(p, 2)), joints);
    }
}

static void check_arrays(const json_t *want, const PlumbPosition *p)
{
    const json_t *arms = json_object_get(want, "bar_arms_m");
    const json_t *moments = json_object_get(want, "moments_both_n_m");
    const json_t *efforts = json_object_get(want, "relative_effort");
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        const char *name = plumb_joint_name((PlumbJoint)i);
        assert_near(p->bar_arm_m[i], number(arms, name), tight);
        assert_near(p->moment_both_n_m[i], number(moments, name), tight);
        if (has(efforts, name)) {
            assert_near(p->relative_effort[i], number(efforts, name), tight);
        }
    }
    const json_t *angles = json_object_get(want, "angles_rad");
    for (int i = 0; i < PLUMB_ANGLE_COUNT; i++) {
        const char *name = plumb_angle_name((PlumbAngle)i);
        if (has(angles, name)) {
            assert_near(p->angle_rad[i], number(angles, name), tight);
        }
    }
    assert_near(p->angle_rad[PLUMB_ANG_hip_thorax_thigh], number(want, "hip_thorax_thigh_rad"),
                tight);
    assert_near(p->summed_effort, number(want, "summed_effort"), tight);
    const json_t *knee = json_object_get(want, "knee_3d_per_side_n_m");
    assert_near(p->loads_3d.knee_extension_n_m, number(knee, "flexion_axis"), tight);
    assert_near(p->loads_3d.knee_minus_m_z_n_m, number(knee, "minus_m_z"), tight);
    assert_near(p->loads_3d.ankle_along_foot_n_m, number(want, "ankle_along_foot_per_side_n_m"),
                tight);
}

static void check_interval(const json_t *want, const PlumbInterval *got)
{
    assert_true(got->exists);
    assert_near(got->low, json_number_value(json_array_get(want, 0)), loose);
    assert_near(got->high, json_number_value(json_array_get(want, 1)), loose);
}

static void check_case(const json_t *want)
{
    const json_t *input = json_object_get(want, "input");
    print_message("  %s\n", json_string_value(json_object_get(want, "name")));
    const PlumbLifter lifter = read_lifter(input);
    const PlumbSetup setup = read_setup(input);
    PlumbAnswer answer;
    plumb_answer_solve(&lifter, &setup, &answer);
    assert_int_not_equal(answer.outcome, PLUMB_NO_POSE);
    const json_t *pose = json_object_get(want, "pose");
    assert_near(answer.start.pose.hip_x_m, number(pose, "hip_x_m"), tight);
    assert_near(answer.start.pose.hip_height_m, number(pose, "hip_height_m"), tight);
    assert_near(answer.start.pose.thorax_lean_rad, number(pose, "thorax_lean_rad"), tight);
    check_joints(json_object_get(want, "joints_m"), &answer.start);
    const json_t *com = json_object_get(want, "com_m");
    assert_near(answer.start.com.x, json_number_value(json_array_get(com, 0)), joints);
    assert_near(answer.start.com.y, json_number_value(json_array_get(com, 1)), joints);
    assert_near(answer.start.balance_frac, number(want, "balance_frac"), tight);
    check_arrays(want, &answer.start);
    if (has(want, "lockout")) {
        const json_t *lockout = json_object_get(want, "lockout");
        assert_near(answer.end.pose.hip_x_m, number(lockout, "hip_x_m"), tight);
        assert_near(answer.end.pose.hip_height_m, number(lockout, "hip_height_m"), tight);
        assert_near(answer.end.point[PLUMB_PT_bar].x, number(lockout, "bar_x_m"), tight);
        assert_near(answer.end.point[PLUMB_PT_bar].y, number(lockout, "bar_height_m"), tight);
        assert_near(answer.travel_m, number(want, "travel_m"), tight);
        check_interval(json_object_get(want, "window_m"), &answer.window);
        check_interval(json_object_get(want, "low_effort_range_m"), &answer.low_effort);
    } else {
        check_interval(json_object_get(want, "low_effort_range_shin_rad"), &answer.low_effort);
    }
}

static void answer__equals_reference_poses(void **state)
{
    (void)state;
    json_error_t error;
    json_t *root = json_load_file(PLUMB_TEST_DATA "/reference_poses.json", 0, &error);
    assert_non_null(root);
    assert_int_equal(json_array_size(root), 10);
    for (size_t i = 0; i < json_array_size(root); i++) {
        check_case(json_array_get(root, i));
    }
    json_decref(root);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answer__equals_reference_poses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
