/* SPDX-License-Identifier: MIT */
/* Net moments of a pressing arm in motion against MuJoCo's inverse dynamics of a chain in space: a
 * ball at the shoulder, a hinge at the elbow, built in the pose of each instant and moved as the
 * path moves. With --write FILE the answers are stored for test_press_motion. */
#include "mujoco_model.h"
#include "press_motion.h"

static const double tolerance_n_m = 1e-8;

static double answer[PRESS_ROWS][COMPARE_COLUMNS];
static double worst_n_m;

/* MuJoCo wants every inertia above zero; a slender segment has none about its own axis. */
static const double nothing = 1e-13;

/* A welded mass at a place, slender along w. The inertia is given in its own axes: found from nine
 * numbers they would be off by the root of MuJoCo's tolerance. */
static void put_mass(FILE *xml, PlumbVec3 at, PlumbVec3 from, double mass_kg, double rg_frac,
                     PlumbVec3 w)
{
    const double across = mass_kg * rg_frac * rg_frac * vec3_dot(w, w) + nothing;
    fprintf(xml,
            "<body pos='%.17g %.17g %.17g'><inertial pos='0 0 0' mass='%.17g' "
            "zaxis='%.17g %.17g %.17g' diaginertia='%.17g %.17g %g'/></body>",
            at.x - from.x, at.y - from.y, at.z - from.z, mass_kg + nothing, w.x, w.y, w.z, across,
            across, nothing);
}

static char *arm_xml(const PressMotionCase *one, const PlumbPressMotionPoint *point, PlumbVec3 axis)
{
    const PlumbSegment *const row = one->lifter.body.segment;
    const PlumbVec3 *const p = point->position.point;
    const PlumbPressMassPoint *const m = point->mass;
    const PlumbVec3 upper = vec3_sub(p[PLUMB_PRESS_elbow], p[PLUMB_PRESS_shoulder]);
    char *text = NULL;
    size_t size = 0;
    FILE *xml = open_memstream(&text, &size);
    assert_non_null(xml);
    fprintf(xml,
            "<mujoco><compiler angle='radian' boundmass='0' boundinertia='0'/>"
            "<option gravity='0 %.17g 0'/><worldbody>"
            "<body pos='0 0 0'><joint type='ball'/><inertial pos='0 0 0' mass='%g' "
            "diaginertia='%g %g %g'/>",
            -PLUMB_GRAVITY, nothing, nothing, nothing, nothing);
    put_mass(xml, m[PLUMB_PRESS_MASS_upper_arm].at_m, p[PLUMB_PRESS_shoulder],
             m[PLUMB_PRESS_MASS_upper_arm].mass_kg, row[PLUMB_SEG_upper_arm].rg_frac, upper);
    fprintf(xml,
            "<body pos='%.17g %.17g %.17g'><joint type='hinge' axis='%.17g %.17g %.17g'/>"
            "<inertial pos='0 0 0' mass='%g' diaginertia='%g %g %g'/>",
            upper.x, upper.y, upper.z, axis.x, axis.y, axis.z, nothing, nothing, nothing, nothing);
    put_mass(xml, m[PLUMB_PRESS_MASS_forearm].at_m, p[PLUMB_PRESS_elbow],
             m[PLUMB_PRESS_MASS_forearm].mass_kg, row[PLUMB_SEG_forearm].rg_frac,
             vec3_sub(p[PLUMB_PRESS_wrist], p[PLUMB_PRESS_elbow]));
    put_mass(xml, m[PLUMB_PRESS_MASS_hand].at_m, p[PLUMB_PRESS_elbow],
             m[PLUMB_PRESS_MASS_hand].mass_kg, row[PLUMB_SEG_hand].rg_frac,
             vec3_sub(p[PLUMB_PRESS_grip], p[PLUMB_PRESS_wrist]));
    put_mass(xml, p[PLUMB_PRESS_grip], p[PLUMB_PRESS_elbow], m[PLUMB_PRESS_MASS_bar].mass_kg, 0.0,
             vec3(0.0, 0.0, 1.0));
    fputs("</body></body></worldbody></mujoco>", xml);
    fclose(xml);
    return text;
}

/* A unit vector along a vector in motion, with its speed and acceleration. */
typedef struct Moving {
    PlumbVec3 v;
    PlumbVec3 d;
    PlumbVec3 dd;
} Moving;

static Moving minus(Moving a, Moving b)
{
    return (Moving){vec3_sub(a.v, b.v), vec3_sub(a.d, b.d), vec3_sub(a.dd, b.dd)};
}

static Moving crossed(Moving a, Moving b)
{
    const PlumbVec3 dd = vec3_add(vec3_add(vec3_cross(a.dd, b.v), vec3_cross(a.v, b.dd)),
                                  vec3_scale(vec3_cross(a.d, b.d), 2.0));
    return (Moving){vec3_cross(a.v, b.v), vec3_add(vec3_cross(a.d, b.v), vec3_cross(a.v, b.d)), dd};
}

/* w / |w|, by f = |w|^-1: f' = -f³ w·w', f'' = 3 f⁵ (w·w')² - f³ (w'·w' + w·w''). */
static Moving unit(Moving w)
{
    const double f = 1.0 / vec3_length(w.v);
    const double wd = vec3_dot(w.v, w.d);
    const double f3 = f * f * f;
    const double f1 = -f3 * wd;
    const double f2 = 3.0 * f3 * f * f * wd * wd - f3 * (vec3_dot(w.d, w.d) + vec3_dot(w.v, w.dd));
    const PlumbVec3 d = vec3_add(vec3_scale(w.d, f), vec3_scale(w.v, f1));
    const PlumbVec3 dd =
        vec3_add(vec3_add(vec3_scale(w.dd, f), vec3_scale(w.d, 2.0 * f1)), vec3_scale(w.v, f2));
    return (Moving){vec3_scale(w.v, f), d, dd};
}

/* Turning of the frame u, n, u × n: ω = ½ Σ f × f', its rate ½ Σ f × f''. */
static void frame_turning(Moving u, Moving n, PlumbVec3 *rate, PlumbVec3 *growth)
{
    const Moving frame[3] = {u, n, crossed(u, n)};
    *rate = *growth = vec3(0.0, 0.0, 0.0);
    for (int i = 0; i < 3; i++) {
        *rate = vec3_along(*rate, 0.5, vec3_cross(frame[i].v, frame[i].d));
        *growth = vec3_along(*growth, 0.5, vec3_cross(frame[i].v, frame[i].dd));
    }
}

/* Elbow and grip from the shoulder, from the motion of the masses. */
static void links_of(const PressMotionCase *one, const PlumbPressMotionPoint *point, Moving *upper,
                     Moving *fore)
{
    const PlumbVec3 *const p = point->position.point;
    const PlumbPressMassPoint *const arm = &point->mass[PLUMB_PRESS_MASS_upper_arm];
    const PlumbPressMassPoint *const bar = &point->mass[PLUMB_PRESS_MASS_bar];
    const double share = 1.0 / one->lifter.body.segment[PLUMB_SEG_upper_arm].com_frac;
    *upper =
        (Moving){vec3_sub(p[PLUMB_PRESS_elbow], p[PLUMB_PRESS_shoulder]),
                 vec3_scale(arm->velocity_m_s, share), vec3_scale(arm->acceleration_m_s2, share)};
    const Moving grip = {vec3_sub(p[PLUMB_PRESS_grip], p[PLUMB_PRESS_shoulder]), bar->velocity_m_s,
                         bar->acceleration_m_s2};
    *fore = minus(grip, *upper);
}

static void inverse(const PressMotionCase *one, const PlumbPressMotionPoint *point,
                    double moment[PLUMB_PRESS_JOINT_COUNT])
{
    Moving upper;
    Moving fore;
    links_of(one, point, &upper, &fore);
    /* e × n of the elbow is along fore × upper. */
    const Moving axis = unit(crossed(upper, fore));
    PlumbVec3 rate[2];
    PlumbVec3 growth[2];
    frame_turning(unit(upper), axis, &rate[0], &growth[0]);
    frame_turning(unit(fore), axis, &rate[1], &growth[1]);
    char *xml = arm_xml(one, point, axis.v);
    mjModel *model = mujoco_load(xml);
    free(xml);
    mjData *data = mj_makeData(model);
    assert_int_equal(model->nv, 4);
    const double spin[2][3] = {{rate[0].x, rate[0].y, rate[0].z},
                               {growth[0].x, growth[0].y, growth[0].z}};
    for (int i = 0; i < 3; i++) {
        data->qvel[i] = spin[0][i];
        data->qacc[i] = spin[1][i];
    }
    data->qvel[3] = vec3_dot(vec3_sub(rate[1], rate[0]), axis.v);
    data->qacc[3] = vec3_dot(vec3_sub(growth[1], growth[0]), axis.v);
    mj_inverse(model, data);
    moment[PLUMB_PRESS_JOINT_shoulder_adduction] = -data->qfrc_inverse[0];
    moment[PLUMB_PRESS_JOINT_shoulder_flexion] = data->qfrc_inverse[2];
    moment[PLUMB_PRESS_JOINT_elbow_extension] = -data->qfrc_inverse[3];
    mj_deleteData(data);
    mj_deleteModel(model);
}

static int solve_all(void **state)
{
    (void)state;
    static PressMotionCase one;
    for (int i = 0; i < PRESS_LIFTERS; i++) {
        press_motion_case(i, &one);
        for (int k = 1; k < PRESS_INSTANTS - 1; k++) {
            double *row = answer[i * (PRESS_INSTANTS - 2) + k - 1];
            inverse(&one, &one.point[k], row);
            for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
                worst_n_m = fmax(worst_n_m, fabs(row[j] - one.point[k].moment_n_m[j]));
            }
        }
    }
    return 0;
}

static void moments__equal_mujoco_along_whole_paths(void **state)
{
    (void)state;
    print_message("  %d instants of %d lifters: moments within %.2g N m\n", PRESS_ROWS,
                  PRESS_LIFTERS, worst_n_m);
    assert_true(worst_n_m < tolerance_n_m);
}

static void stored__equal_live(void **state)
{
    (void)state;
    static double stored[PRESS_ROWS][COMPARE_COLUMNS];
    assert_stored(PLUMB_TEST_DATA "/mujoco_press_motion.csv", PRESS_ROWS, PLUMB_PRESS_JOINT_COUNT,
                  stored, answer, tolerance_n_m);
}

int main(int argc, char **argv)
{
    if (argc == 3 && strcmp(argv[1], "--write") == 0) {
        solve_all(NULL);
        return compare_write(
            argv[2],
            "# net moments of one pressing arm in motion by MuJoCo's mj_inverse, "
            "N m: shoulder adduction, shoulder flexion, elbow extension, two empty "
            "columns; cases of tests/press_motion.h",
            PRESS_ROWS, answer);
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments__equal_mujoco_along_whole_paths),
        cmocka_unit_test(stored__equal_live),
    };
    return cmocka_run_group_tests(tests, solve_all, NULL);
}
