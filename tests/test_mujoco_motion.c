/* SPDX-License-Identifier: MIT */
/* Net moments of lifts in motion against MuJoCo's inverse dynamics of the same chain: one model a
 * lifter, built in the pose of the start, then bent to each instant's angles. With --write FILE the
 * answers are stored for test_dynamics. */
#include "motion.h"
#include "mujoco_model.h"

static const double tolerance_n_m = 1e-7;

static double answer[MOTION_ROWS][COMPARE_COLUMNS];
static double worst_n_m;
static double worst_place_m;
static int way_rows;

/* A segment of a link: where it begins and ends, and how it turns. */
typedef struct Piece {
    PlumbMass mass;
    PlumbSegmentId segment;
    PlumbVec3 begin;
    PlumbVec3 end;
    double length;
} Piece;

typedef struct Chain {
    PlumbVec3 joint[PLUMB_JOINT_COUNT + 1]; /* and the bar */
    Piece piece[PLUMB_MASS_COUNT];
    int first[PLUMB_JOINT_COUNT + 1]; /* pieces of each link */
} Chain;

static void chain_of(const MotionCase *one, const PlumbPosition *p, Chain *chain)
{
    const PlumbBody *b = &one->lifter.body;
    const PlumbVec3 *pt = p->point;
    const bool pull = one->answer.setup.lift == PLUMB_DEADLIFT;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        chain->joint[i] = plumb_position_joint(p, (PlumbJoint)i);
    }
    chain->joint[PLUMB_JOINT_COUNT] = pt[PLUMB_PT_bar];
    const PlumbVec3 *j = chain->joint;
    const PlumbVec3 up = vec3(sin(p->pose.thorax_lean_rad), cos(p->pose.thorax_lean_rad), 0.0);
    const double drop = pull ? b->shoulder_drop_m : 0.0;
    const PlumbVec3 arm =
        vec3_between(pt[PLUMB_PT_shoulder], pt[PLUMB_PT_elbow], drop / (drop + b->upper_arm_m));
    const double hand = pull ? b->wrist_to_grip_fingers_m : b->wrist_to_grip_palm_m;
    const Piece all[] = {
        {PLUMB_MASS_shank, PLUMB_SEG_shank, pt[PLUMB_PT_knee], pt[PLUMB_PT_ankle], b->shank_m},
        {PLUMB_MASS_thigh, PLUMB_SEG_thigh, pt[PLUMB_PT_hip], pt[PLUMB_PT_knee], b->thigh_m},
        {PLUMB_MASS_pelvis, PLUMB_SEG_pelvis, j[PLUMB_JOINT_hip], j[PLUMB_JOINT_back], b->pelvis_m},
        {PLUMB_MASS_thorax, PLUMB_SEG_thorax, j[PLUMB_JOINT_back], j[PLUMB_JOINT_shoulder],
         b->trunk_m - b->pelvis_m},
        {PLUMB_MASS_head, PLUMB_SEG_head, j[PLUMB_JOINT_shoulder],
         vec3_along(j[PLUMB_JOINT_shoulder], b->trunk_m, up), b->trunk_m},
        {PLUMB_MASS_upper_arm, PLUMB_SEG_upper_arm, arm, pt[PLUMB_PT_elbow], b->upper_arm_m},
        {PLUMB_MASS_forearm, PLUMB_SEG_forearm, pt[PLUMB_PT_elbow], pt[PLUMB_PT_wrist],
         b->forearm_m},
        {PLUMB_MASS_hand, PLUMB_SEG_hand, pt[PLUMB_PT_wrist], pt[PLUMB_PT_grip], hand},
    };
    const int first[] = {0, 1, 2, 3, 5, 8};
    memcpy(chain->piece, all, sizeof all);
    memcpy(chain->first, first, sizeof first);
}

/* A welded body with the mass and the inertia about z of both sides: m k² of what of the segment's
 * length lies in the plane. */
static void write_piece(FILE *xml, const MotionCase *one, const Piece *piece, PlumbVec3 joint)
{
    const PlumbSegment *row = &one->lifter.body.segment[piece->segment];
    const double m = plumb_mass_count(piece->mass) * row->mass_frac * one->lifter.body.mass_kg;
    const double x = piece->end.x - piece->begin.x;
    const double y = piece->end.y - piece->begin.y;
    const double inertia = m * row->rg_frac * row->rg_frac * (x * x + y * y);
    const PlumbVec3 at = vec3_between(piece->begin, piece->end, row->com_frac);
    fprintf(xml,
            "<body><inertial pos='%.17g %.17g 0' mass='%.17g' diaginertia='%.17g %.17g %.17g'/>"
            "</body>",
            at.x - joint.x, at.y - joint.y, m, inertia, inertia, inertia);
}

/* MuJoCo wants a mass on the jointed body itself; this one is too light to matter. */
static const double nothing_kg = 1e-12;

static char *chain_xml(const MotionCase *one, const Chain *chain)
{
    char *text = NULL;
    size_t size = 0;
    FILE *xml = open_memstream(&text, &size);
    assert_non_null(xml);
    fprintf(xml,
            "<mujoco><compiler angle='radian' boundmass='0' boundinertia='0'/>"
            "<option gravity='0 %.17g 0'/><worldbody>",
            -PLUMB_GRAVITY);
    PlumbVec3 parent = vec3(0.0, 0.0, 0.0);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        const PlumbVec3 at = chain->joint[i];
        fprintf(xml,
                "<body pos='%.17g %.17g 0'><joint type='hinge' axis='0 0 1'/>"
                "<inertial pos='0 0 0' mass='%g' diaginertia='%g %g %g'/>",
                at.x - parent.x, at.y - parent.y, nothing_kg, nothing_kg, nothing_kg, nothing_kg);
        for (int k = chain->first[i]; k < chain->first[i + 1]; k++) {
            write_piece(xml, one, &chain->piece[k], at);
        }
        parent = at;
    }
    const PlumbVec3 bar = chain->joint[PLUMB_JOINT_COUNT];
    fprintf(xml,
            "<body name='bar' pos='%.17g %.17g 0'><inertial pos='0 0 0' mass='%.17g' "
            "diaginertia='%g %g %g'/></body>",
            bar.x - parent.x, bar.y - parent.y, one->answer.setup.load_kg + nothing_kg, nothing_kg,
            nothing_kg, nothing_kg);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        fputs("</body>", xml);
    }
    fputs("</worldbody></mujoco>", xml);
    fclose(xml);
    return text;
}

/* The chain at one instant: MuJoCo's moments, and how far its bar lies from ours. */
static void inverse(const MotionCase *one, mjModel *model, mjData *data, const PlumbMotionPoint *p,
                    double moment[PLUMB_JOINT_COUNT])
{
    Turns turns;
    motion_turns(one, p, &turns);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        data->qpos[i] = turns.angle[i] - (i > 0 ? turns.angle[i - 1] : 0.0);
        data->qvel[i] = turns.rate[i] - (i > 0 ? turns.rate[i - 1] : 0.0);
        data->qacc[i] = turns.acceleration[i] - (i > 0 ? turns.acceleration[i - 1] : 0.0);
    }
    mj_inverse(model, data);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        moment[i] = extensor_sign(i) * data->qfrc_inverse[i];
    }
    const double *bar = data->xpos + 3 * mj_name2id(model, mjOBJ_BODY, "bar");
    const PlumbVec3 ours = p->position.point[PLUMB_PT_bar];
    worst_place_m = fmax(worst_place_m, hypot(bar[0] - ours.x, bar[1] - ours.y));
}

static int solve_all(void **state)
{
    (void)state;
    static MotionCase one;
    uint64_t seed = motion_seed;
    for (int i = 0; i < MOTION_LIFTERS; i++) {
        motion_case(&seed, true, &one);
        Chain chain;
        chain_of(&one, &one.point[0].position, &chain);
        char *xml = chain_xml(&one, &chain);
        mjModel *model = mujoco_load(xml);
        free(xml);
        mjData *data = mj_makeData(model);
        for (int k = 0; k < MOTION_INSTANTS; k++) {
            double *row = answer[i * MOTION_INSTANTS + k];
            inverse(&one, model, data, &one.point[k], row);
            for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
                worst_n_m = fmax(worst_n_m, fabs(row[j] - one.point[k].moment_both_n_m[j]));
            }
            way_rows++;
        }
        mj_deleteData(data);
        mj_deleteModel(model);
    }
    return 0;
}

static void moments__equal_mujoco_along_whole_paths(void **state)
{
    (void)state;
    print_message("  %d instants of %d lifters: moments within %.2g N m, bar within %.2g m\n",
                  way_rows, MOTION_LIFTERS, worst_n_m, worst_place_m);
    assert_int_equal(way_rows, MOTION_ROWS);
    assert_true(worst_n_m < tolerance_n_m);
}

/* The chain of constant links reaches the bar that the path prescribes. */
static void bar__lies_where_mujoco_puts_it(void **state)
{
    (void)state;
    assert_true(worst_place_m < 1e-8);
}

static void stored__equal_live(void **state)
{
    (void)state;
    static double stored[MOTION_ROWS][COMPARE_COLUMNS];
    assert_stored(PLUMB_TEST_DATA "/mujoco_motion.csv", MOTION_ROWS, PLUMB_JOINT_COUNT, stored,
                  answer, tolerance_n_m);
}

int main(int argc, char **argv)
{
    if (argc == 3 && strcmp(argv[1], "--write") == 0) {
        solve_all(NULL);
        return compare_write(argv[2],
                             "# net moments of MuJoCo's mj_inverse in motion, both sides, N m: "
                             "ankle, knee, hip, back, shoulder; cases of tests/motion.h",
                             MOTION_ROWS, answer);
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments__equal_mujoco_along_whole_paths),
        cmocka_unit_test(bar__lies_where_mujoco_puts_it),
        cmocka_unit_test(stored__equal_live),
    };
    return cmocka_run_group_tests(tests, solve_all, NULL);
}
