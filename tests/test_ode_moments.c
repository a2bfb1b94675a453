/* SPDX-License-Identifier: MIT */
/* Sagittal net moments against the hinge moments of ODE's rigid bodies held still by motors.
 * With --write FILE the answers are stored for test_stored. */
#include "support.h"

#include "compare.h"

#include <ode/ode.h>

static const double relative = 1e-5; /* of the largest moment: what ODE's stepping leaves */

static double answer[ODE_CASES][COMPARE_COLUMNS];

static dBodyID make_body(dWorldID world, const Link *link)
{
    double mass = 0.0;
    PlumbVec2 sum = {0.0, 0.0};
    for (int i = 0; i < link->count; i++) {
        mass += link->mass_kg[i];
        sum.x += link->mass_kg[i] * link->com[i].x;
        sum.y += link->mass_kg[i] * link->com[i].y;
    }
    dBodyID body = dBodyCreate(world);
    dMass m;
    dMassSetSphereTotal(&m, mass, 0.2);
    dBodySetMass(body, &m);
    dBodySetPosition(body, sum.x / mass, sum.y / mass, 0.0);
    return body;
}

static dJointID make_hinge(dWorldID world, dBodyID upper, dBodyID lower, PlumbVec3 at)
{
    dJointID hinge = dJointCreateHinge(world, NULL);
    dJointAttach(hinge, upper, lower);
    dJointSetHingeAnchor(hinge, at.x, at.y, 0.0);
    dJointSetHingeAxis(hinge, 0.0, 0.0, 1.0);
    dJointSetHingeParam(hinge, dParamVel, 0.0);
    dJointSetHingeParam(hinge, dParamFMax, dInfinity);
    return hinge;
}

/* The torque about the hinge is the torque at the body's centre and the arm of the force: the z
 * component of t1 + r × f1. */
static double hinge_moment(dBodyID upper, const dJointFeedback *feedback, PlumbVec3 at)
{
    const dReal *centre = dBodyGetPosition(upper);
    const double rx = centre[0] - at.x;
    const double ry = centre[1] - at.y;
    return feedback->t1[2] + rx * feedback->f1[1] - ry * feedback->f1[0];
}

static void hold_still(const Link link[PLUMB_JOINT_COUNT], double moment[PLUMB_JOINT_COUNT])
{
    dWorldID world = dWorldCreate();
    dWorldSetGravity(world, 0.0, -PLUMB_GRAVITY, 0.0);
    dWorldSetCFM(world, 1e-12);
    dBodyID body[PLUMB_JOINT_COUNT];
    dJointFeedback feedback[PLUMB_JOINT_COUNT];
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        body[i] = make_body(world, &link[i]);
        dJointID hinge = make_hinge(world, body[i], i > 0 ? body[i - 1] : NULL, link[i].joint);
        dJointSetFeedback(hinge, &feedback[i]);
    }
    /* The first step settles the constraint's own rounding. */
    dWorldStep(world, 0.001);
    dWorldStep(world, 0.001);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        moment[i] = extensor_sign(i) * hinge_moment(body[i], &feedback[i], link[i].joint);
    }
    dWorldDestroy(world);
}

static void solve_all(void)
{
    for (int i = 0; i < ODE_CASES; i++) {
        PlumbLifter lifter;
        PlumbSetup setup;
        PlumbPosition position;
        moment_case(i, &lifter, &setup, &position);
        Link link[PLUMB_JOINT_COUNT];
        chain_build(&lifter, &setup, &position, link);
        hold_still(link, answer[i]);
    }
}

static void moments__equal_ode_hinges(void **state)
{
    (void)state;
    double worst = 0.0;
    for (int i = 0; i < ODE_CASES; i++) {
        PlumbLifter lifter;
        PlumbSetup setup;
        PlumbPosition position;
        moment_case(i, &lifter, &setup, &position);
        double largest = 0.0;
        for (int k = 0; k < PLUMB_JOINT_COUNT; k++) {
            largest = fmax(largest, fabs(position.moment_both_n_m[k]));
        }
        for (int k = 0; k < PLUMB_JOINT_COUNT; k++) {
            assert_near(position.moment_both_n_m[k], answer[i][k], relative * largest);
            worst = fmax(worst, fabs(position.moment_both_n_m[k] - answer[i][k]) / largest);
        }
    }
    print_message("  largest relative difference of %d: %.2g\n", ODE_CASES, worst);
}

int main(int argc, char **argv)
{
    dInitODE2(0);
    solve_all();
    dCloseODE();
    if (argc == 3 && strcmp(argv[1], "--write") == 0) {
        return compare_write(argv[2],
                             "# hinge moments of ODE, both sides, N m: ankle, knee, hip, back, "
                             "shoulder; cases of tests/compare.h",
                             ODE_CASES, answer);
    }
    const struct CMUnitTest tests[] = {cmocka_unit_test(moments__equal_ode_hinges)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
