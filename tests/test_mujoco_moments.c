/* SPDX-License-Identifier: MIT */
/* Sagittal net moments against MuJoCo's inverse dynamics of a planar chain at rest.
 * With --write FILE the answers are stored for test_stored. */
#include "mujoco_model.h"

static const double tolerance_n_m = 1e-9;

static double answer[MOMENT_CASES][COMPARE_COLUMNS];

/* A body of the chain stands at its joint's place in the pose, so that all angles are 0 there. */
static void write_link(FILE *xml, const Link *link, PlumbVec3 parent, double scale)
{
    fprintf(xml, "<body pos='%.17g %.17g 0'><joint type='hinge' axis='0 0 1'/>",
            link->joint.x - parent.x, link->joint.y - parent.y);
    /* The joint's own body needs a mass: the first one; the others are welded to it. */
    for (int i = 0; i < link->count; i++) {
        if (i > 0 && link->mass_kg[i] <= 0.0) {
            continue;
        }
        fprintf(xml,
                "%s<inertial pos='%.17g %.17g 0' mass='%.17g' "
                "diaginertia='%g %g %g'/>%s",
                i > 0 ? "<body>" : "", link->com[i].x - link->joint.x,
                link->com[i].y - link->joint.y, link->mass_kg[i], scale, scale, scale,
                i > 0 ? "</body>" : "");
    }
}

static char *chain_xml(const Link link[PLUMB_JOINT_COUNT])
{
    char *text = NULL;
    size_t size = 0;
    FILE *xml = open_memstream(&text, &size);
    assert_non_null(xml);
    fprintf(xml,
            "<mujoco><compiler angle='radian'/><option gravity='0 %.17g 0'/>"
            "<worldbody>",
            -PLUMB_GRAVITY);
    PlumbVec3 parent = vec3(0.0, 0.0, 0.0);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        write_link(xml, &link[i], parent, 0.01);
        parent = link[i].joint;
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        fputs("</body>", xml);
    }
    fputs("</worldbody></mujoco>", xml);
    fclose(xml);
    return text;
}

static void inverse(const Link link[PLUMB_JOINT_COUNT], double moment[PLUMB_JOINT_COUNT])
{
    char *xml = chain_xml(link);
    mjModel *model = mujoco_load(xml);
    free(xml);
    mjData *data = mj_makeData(model);
    assert_non_null(data);
    assert_int_equal(model->nv, PLUMB_JOINT_COUNT);
    mj_inverse(model, data);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        moment[i] = extensor_sign(i) * data->qfrc_inverse[i];
    }
    mj_deleteData(data);
    mj_deleteModel(model);
}

static void solve_all(void)
{
    for (int i = 0; i < MOMENT_CASES; i++) {
        PlumbLifter lifter;
        PlumbSetup setup;
        PlumbPosition position;
        moment_case(i, &lifter, &setup, &position);
        Link link[PLUMB_JOINT_COUNT];
        chain_build(&lifter, &setup, &position, link);
        inverse(link, answer[i]);
    }
}

static void moments__equal_mujoco_inverse_dynamics(void **state)
{
    (void)state;
    double worst = 0.0;
    for (int i = 0; i < MOMENT_CASES; i++) {
        PlumbLifter lifter;
        PlumbSetup setup;
        PlumbPosition position;
        moment_case(i, &lifter, &setup, &position);
        for (int k = 0; k < PLUMB_JOINT_COUNT; k++) {
            assert_near(position.moment_both_n_m[k], answer[i][k], tolerance_n_m);
            worst = fmax(worst, fabs(position.moment_both_n_m[k] - answer[i][k]));
        }
    }
    print_message("  largest difference of %d bodies and poses: %.2g N m\n", MOMENT_CASES, worst);
}

static void stored__equal_live(void **state)
{
    (void)state;
    static double stored[MOMENT_CASES][COMPARE_COLUMNS];
    assert_stored(PLUMB_TEST_DATA "/mujoco_moments.csv", MOMENT_CASES, PLUMB_JOINT_COUNT, stored,
                  answer, tolerance_n_m);
}

int main(int argc, char **argv)
{
    solve_all();
    if (argc == 3 && strcmp(argv[1], "--write") == 0) {
        return compare_write(argv[2],
                             "# net moments of MuJoCo's mj_inverse, both sides, N m: ankle, knee, "
                             "hip, back, shoulder; cases of tests/compare.h",
                             MOMENT_CASES, answer);
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments__equal_mujoco_inverse_dynamics),
        cmocka_unit_test(stored__equal_live),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
