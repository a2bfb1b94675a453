/* SPDX-License-Identifier: MIT */
/* The problems that general libraries solve too, and where their answers are kept: the live
 * comparisons and the one with stored answers share them. */
#ifndef PLUMBAR_TESTS_COMPARE_H
#define PLUMBAR_TESTS_COMPARE_H

#include "solve/case.h"

#include "sample.h"

#include <string.h>

enum { MOMENT_CASES = 200, ODE_CASES = 10, ROOT_CASES = 200, COMPARE_COLUMNS = 5 };

/* Static moments of a random lifter in a random pose, lifts in turn. */
static inline void moment_case(int i, PlumbLifter *lifter, PlumbSetup *setup,
                               PlumbPosition *position)
{
    Random random = random_begin(0x6d6f6d656e740000u + (uint64_t)i);
    *lifter = random_lifter(&random);
    *setup = random_setup(&random, lifter, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
    *position = random_position(&random, lifter, setup);
}

/* A link of the sagittal chain: all that moves as one above a joint, both sides lumped. */
typedef struct Link {
    PlumbVec3 joint;
    int count;
    double mass_kg[4];
    PlumbVec2 com[4];
} Link;

static inline void link_add(Link *link, double mass_kg, PlumbVec3 from, PlumbVec3 to, double share)
{
    const PlumbVec3 at = vec3_between(from, to, share);
    link->mass_kg[link->count] = mass_kg;
    link->com[link->count].x = at.x;
    link->com[link->count].y = at.y;
    link->count++;
}

/* Shank, thigh, pelvis, thorax with head, arms with bar; joints in the order of PlumbJoint. From
 * the points of the position and the body's table alone. */
static inline void chain_build(const PlumbLifter *lifter, const PlumbSetup *setup,
                               const PlumbPosition *p, Link link[PLUMB_JOINT_COUNT])
{
    static const PlumbPoint joint[PLUMB_JOINT_COUNT] = {PLUMB_PT_ankle, PLUMB_PT_knee, PLUMB_PT_hip,
                                                        PLUMB_PT_lumbar, PLUMB_PT_shoulder};
    const PlumbBody *body = &lifter->body;
    const PlumbSegment *s = body->segment;
    const double m = body->mass_kg;
    const PlumbVec3 *pt = p->point;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        link[i].joint = pt[joint[i]];
        link[i].count = 0;
    }
    link_add(&link[0], 2.0 * m * s[PLUMB_SEG_shank].mass_frac, pt[PLUMB_PT_knee],
             pt[PLUMB_PT_ankle], s[PLUMB_SEG_shank].com_frac);
    link_add(&link[1], 2.0 * m * s[PLUMB_SEG_thigh].mass_frac, pt[PLUMB_PT_hip], pt[PLUMB_PT_knee],
             s[PLUMB_SEG_thigh].com_frac);
    link_add(&link[2], m * s[PLUMB_SEG_pelvis].mass_frac, pt[PLUMB_PT_hip], pt[PLUMB_PT_lumbar],
             s[PLUMB_SEG_pelvis].com_frac);
    link_add(&link[3], m * s[PLUMB_SEG_thorax].mass_frac, pt[PLUMB_PT_lumbar],
             pt[PLUMB_PT_shoulder], s[PLUMB_SEG_thorax].com_frac);
    const PlumbVec3 up = vec3(sin(p->pose.thorax_lean_rad), cos(p->pose.thorax_lean_rad), 0.0);
    const PlumbVec3 crown = vec3_along(pt[PLUMB_PT_shoulder], body->trunk_m, up);
    link_add(&link[3], m * s[PLUMB_SEG_head].mass_frac, pt[PLUMB_PT_shoulder], crown,
             s[PLUMB_SEG_head].com_frac);
    /* A hanging arm starts where the dropped shoulder joint is. */
    const double drop = setup->lift == PLUMB_DEADLIFT ? body->shoulder_drop_m : 0.0;
    const double length = vec3_length(vec3_sub(pt[PLUMB_PT_elbow], pt[PLUMB_PT_shoulder]));
    const double share = setup->lift == PLUMB_DEADLIFT ? drop / (drop + body->upper_arm_m) : 0.0;
    const PlumbVec3 arm = length > 0.0
                              ? vec3_between(pt[PLUMB_PT_shoulder], pt[PLUMB_PT_elbow], share)
                              : pt[PLUMB_PT_shoulder];
    link_add(&link[4], 2.0 * m * s[PLUMB_SEG_upper_arm].mass_frac, arm, pt[PLUMB_PT_elbow],
             s[PLUMB_SEG_upper_arm].com_frac);
    link_add(&link[4], 2.0 * m * s[PLUMB_SEG_forearm].mass_frac, pt[PLUMB_PT_elbow],
             pt[PLUMB_PT_wrist], s[PLUMB_SEG_forearm].com_frac);
    link_add(&link[4], 2.0 * m * s[PLUMB_SEG_hand].mass_frac, pt[PLUMB_PT_wrist], pt[PLUMB_PT_grip],
             s[PLUMB_SEG_hand].com_frac);
    link_add(&link[4], setup->load_kg, pt[PLUMB_PT_bar], pt[PLUMB_PT_bar], 0.0);
}

/* Moment that the extensors supply from the torque about +z on the link above: knee and shoulder
 * extend the other way round. */
static inline double extensor_sign(int joint)
{
    return joint == PLUMB_JOINT_knee || joint == PLUMB_JOINT_shoulder ? -1.0 : 1.0;
}

/* A random pose problem that this program solves: the i-th one counted from *seed onwards. */
typedef struct RootCase {
    PlumbLifter lifter;
    PlumbCase c;
    PlumbProblem problem;
    PlumbState root;
} RootCase;

static inline void root_case(uint64_t *seed, RootCase *root)
{
    for (;;) {
        Random random = random_begin(*seed);
        *seed += 1;
        root->lifter = random_lifter(&random);
        const PlumbLift lift = random_one_in(&random, 2) ? PLUMB_DEADLIFT : PLUMB_SQUAT;
        PlumbSetup setup = random_setup(&random, &root->lifter, lift);
        setup.knees_over_toes = false;
        plumb_case_begin(&root->lifter, &setup, &root->c);
        root->problem = plumb_lead_problem(&root->c.setup, setup.lead);
        root->root = plumb_case_guess(&root->c);
        PlumbConstraintId failed;
        double miss;
        /* The family's own leads stand for auto here. */
        if (setup.lead != PLUMB_LEAD_AUTO &&
            plumb_case_meet(&root->c, &root->problem, &root->root, &failed, &miss)) {
            return;
        }
    }
}

static const uint64_t root_seed = 0x726f6f7473000000u;

/* Stored answers: rows of COMPARE_COLUMNS numbers after one line of names. */
static inline int compare_read(const char *path, int rows, double value[][COMPARE_COLUMNS])
{
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        return 0;
    }
    char line[512];
    int count = 0;
    while (count < rows && fgets(line, sizeof line, file) != NULL) {
        char *at = line;
        int column = 0;
        for (; column < COMPARE_COLUMNS && line[0] != '#'; column++) {
            char *end;
            value[count][column] = strtod(at, &end);
            if (end == at) {
                break;
            }
            at = *end == ',' ? end + 1 : end;
        }
        count += column == COMPARE_COLUMNS ? 1 : 0;
    }
    fclose(file);
    return count;
}

static inline int compare_write(const char *path, const char *head, int rows,
                                double value[][COMPARE_COLUMNS])
{
    FILE *file = fopen(path, "w");
    if (file == NULL) {
        return 1;
    }
    fprintf(file, "%s\n", head);
    for (int i = 0; i < rows; i++) {
        for (int k = 0; k < COMPARE_COLUMNS; k++) {
            fprintf(file, "%.17g%s", value[i][k], k + 1 < COMPARE_COLUMNS ? "," : "\n");
        }
    }
    return fclose(file) == 0 ? 0 : 1;
}

#endif
