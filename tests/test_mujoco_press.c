/* SPDX-License-Identifier: MIT */
/* Net moments of an arm that presses against MuJoCo's inverse dynamics of a chain in space at rest.
 * With --write FILE the answers are stored for test_stored. */
#include "mujoco_model.h"
#include "press_sample.h"

static const double tolerance_n_m = 1e-9;

static double answer[MOMENT_CASES][COMPARE_COLUMNS];

/* A mass at a place, welded to the body that is open. */
static void put_mass(FILE *xml, PlumbVec3 at, PlumbVec3 from, double mass_kg)
{
    if (mass_kg > 0.0) {
        fprintf(xml,
                "<body pos='%.17g %.17g %.17g'><inertial pos='0 0 0' mass='%.17g' "
                "diaginertia='1e-3 1e-3 1e-3'/></body>",
                at.x - from.x, at.y - from.y, at.z - from.z, mass_kg);
    }
}

/* The arm as it stands: hinges about x and z at the shoulder, one about the arm's own axis at the
 * elbow; all angles are 0 in this pose. */
static char *arm_xml(const PlumbLifter *lifter, const PlumbPressPosition *at, double bar_kg,
                     PlumbVec3 gravity)
{
    const PlumbBody *body = &lifter->body;
    const PlumbVec3 *p = at->point;
    const PlumbVec3 upper = vec3_sub(p[PLUMB_PRESS_elbow], p[PLUMB_PRESS_shoulder]);
    const PlumbVec3 fore = vec3_sub(p[PLUMB_PRESS_grip], p[PLUMB_PRESS_elbow]);
    const PlumbVec3 axis = vec3_unit(vec3_cross(upper, fore));
    char *text = NULL;
    size_t size = 0;
    FILE *xml = open_memstream(&text, &size);
    assert_non_null(xml);
    fprintf(xml,
            "<mujoco><compiler angle='radian'/><option gravity='%.17g %.17g %.17g'/><worldbody>"
            "<body pos='0 0 0'><joint type='hinge' axis='1 0 0'/><joint type='hinge' axis='0 0 1'/>"
            "<inertial pos='%.17g %.17g %.17g' mass='%.17g' diaginertia='1e-2 1e-2 1e-2'/>",
            gravity.x, gravity.y, gravity.z, body->segment[PLUMB_SEG_upper_arm].com_frac * upper.x,
            body->segment[PLUMB_SEG_upper_arm].com_frac * upper.y,
            body->segment[PLUMB_SEG_upper_arm].com_frac * upper.z,
            body->segment[PLUMB_SEG_upper_arm].mass_frac * body->mass_kg);
    const PlumbVec3 forearm = vec3_between(p[PLUMB_PRESS_elbow], p[PLUMB_PRESS_wrist],
                                           body->segment[PLUMB_SEG_forearm].com_frac);
    const PlumbVec3 com = vec3_sub(forearm, p[PLUMB_PRESS_elbow]);
    fprintf(xml,
            "<body pos='%.17g %.17g %.17g'><joint type='hinge' axis='%.17g %.17g %.17g'/>"
            "<inertial pos='%.17g %.17g %.17g' mass='%.17g' diaginertia='1e-2 1e-2 1e-2'/>",
            upper.x, upper.y, upper.z, axis.x, axis.y, axis.z, com.x, com.y, com.z,
            body->segment[PLUMB_SEG_forearm].mass_frac * body->mass_kg);
    put_mass(xml,
             vec3_between(p[PLUMB_PRESS_wrist], p[PLUMB_PRESS_grip],
                          body->segment[PLUMB_SEG_hand].com_frac),
             p[PLUMB_PRESS_elbow], body->segment[PLUMB_SEG_hand].mass_frac * body->mass_kg);
    put_mass(xml, p[PLUMB_PRESS_grip], p[PLUMB_PRESS_elbow], bar_kg);
    fputs("</body></body></worldbody></mujoco>", xml);
    fclose(xml);
    return text;
}

/* Adds factor times what the joints must supply: about x, about z, about the elbow's axis. */
static void add_inverse(const PlumbLifter *lifter, const PlumbPressPosition *at, double bar_kg,
                        PlumbVec3 gravity, double factor, double torque[3])
{
    char *xml = arm_xml(lifter, at, bar_kg, gravity);
    mjModel *model = mujoco_load(xml);
    free(xml);
    mjData *data = mj_makeData(model);
    assert_non_null(data);
    assert_int_equal(model->nv, 3);
    mj_inverse(model, data);
    for (int i = 0; i < 3; i++) {
        torque[i] += factor * data->qfrc_inverse[i];
    }
    mj_deleteData(data);
    mj_deleteModel(model);
}

/* The bar pushes the hand inwards with p times its weight: weight along -z of the bar alone, which
 * is the arm with the bar less the arm without it. */
static void solve_case(int i)
{
    PlumbLifter lifter;
    PlumbPressAnswer press;
    PlumbPressPosition at;
    press_case(i, &lifter, &press, &at);
    const double half_kg = 0.5 * press.setup.load_kg;
    const double push = press.setup.hands_push_frac;
    double torque[3] = {0.0, 0.0, 0.0};
    add_inverse(&lifter, &at, half_kg, vec3(0.0, -PLUMB_GRAVITY, 0.0), 1.0, torque);
    add_inverse(&lifter, &at, half_kg, vec3(0.0, 0.0, -push * PLUMB_GRAVITY), 1.0, torque);
    add_inverse(&lifter, &at, 0.0, vec3(0.0, 0.0, -push * PLUMB_GRAVITY), -1.0, torque);
    answer[i][PLUMB_PRESS_JOINT_shoulder_adduction] = -torque[0];
    answer[i][PLUMB_PRESS_JOINT_shoulder_flexion] = torque[1];
    answer[i][PLUMB_PRESS_JOINT_elbow_extension] = -torque[2];
}

static void moments__equal_mujoco_inverse_dynamics(void **state)
{
    (void)state;
    double worst = 0.0;
    for (int i = 0; i < MOMENT_CASES; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer press;
        PlumbPressPosition at;
        press_case(i, &lifter, &press, &at);
        for (int k = 0; k < PLUMB_PRESS_JOINT_COUNT; k++) {
            assert_near(at.moment_n_m[k], answer[i][k], tolerance_n_m);
            worst = fmax(worst, fabs(at.moment_n_m[k] - answer[i][k]));
        }
    }
    print_message("  largest difference of %d presses: %.2g N m\n", MOMENT_CASES, worst);
}

static void stored__equal_live(void **state)
{
    (void)state;
    static double stored[MOMENT_CASES][COMPARE_COLUMNS];
    assert_stored(PLUMB_TEST_DATA "/mujoco_press.csv", MOMENT_CASES, PLUMB_PRESS_JOINT_COUNT,
                  stored, answer, tolerance_n_m);
}

int main(int argc, char **argv)
{
    for (int i = 0; i < MOMENT_CASES; i++) {
        solve_case(i);
    }
    if (argc == 3 && strcmp(argv[1], "--write") == 0) {
        return compare_write(argv[2],
                             "# net moments of one arm by MuJoCo's mj_inverse, N m: shoulder "
                             "adduction, shoulder flexion, elbow extension, two empty columns; "
                             "cases of tests/press_sample.h",
                             MOMENT_CASES, answer);
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments__equal_mujoco_inverse_dynamics),
        cmocka_unit_test(stored__equal_live),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
