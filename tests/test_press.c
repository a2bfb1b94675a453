/* SPDX-License-Identifier: MIT */
/* The bench press: a case by hand, identities, properties over random presses, brute force, and
 * what is remarked on. */
#include "support.h"

#include "press_sample.h"

#include "model/arm.h"

#include <string.h>

enum { CASES = 10000, SOME = 400 };

static PlumbLifter median(PlumbSex sex, double stature_m, double mass_kg)
{
    const PlumbBodySpec spec = plumb_body_spec(sex, stature_m, mass_kg);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    return plumb_lifter_default(&body);
}

static PlumbPressAnswer solved(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    PlumbPressAnswer answer;
    assert_int_equal(plumb_setup_check(setup, NULL), PLUMB_OK);
    plumb_press_solve(lifter, setup, &answer);
    return answer;
}

static double distance(PlumbVec3 a, PlumbVec3 b)
{
    return vec3_length(vec3_sub(a, b));
}

/* An arm without weight: upper arm 0.3 m, forearm and hand 0.4 m, the hand 0.24 m outside of and
 * 0.22 m above the shoulder, the bar over the shoulder in the side view. The elbow under the bar
 * then lies at (0, -0.18, 0.24) of the shoulder, a 3-4-5 triangle, and the forearm is upright. */
static PlumbLifter by_hand(PlumbSetup *setup)
{
    PlumbLifter lifter = median(PLUMB_MALE, 1.75, 80.0);
    PlumbBody *body = &lifter.body;
    body->upper_arm_m = 0.30;
    body->forearm_m = 0.32;
    body->wrist_to_grip_palm_m = 0.08;
    body->forefinger_to_grip_centre_m = 0.04;
    body->shoulder_joint_spacing_m = 0.40;
    body->shoulder_half_depth_m = 0.10;
    body->chest_depth_m = 0.256;
    body->segment[PLUMB_SEG_upper_arm].mass_frac = 0.0;
    body->segment[PLUMB_SEG_forearm].mass_frac = 0.0;
    body->segment[PLUMB_SEG_hand].mass_frac = 0.0;
    lifter.equipment.shaft_diameter_m = 0.028;
    *setup = plumb_setup_default(PLUMB_BENCH);
    setup->grip_m = 0.80;
    setup->arch_m = 0.05;
    setup->load_kg = 100.0;
    setup->lead = PLUMB_LEAD_TOUCH;
    setup->touch_m = 0.0;
    return lifter;
}

static void solve__by_hand(void **state)
{
    (void)state;
    PlumbSetup setup;
    const PlumbLifter lifter = by_hand(&setup);
    const PlumbPressAnswer a = solved(&lifter, &setup);
    const PlumbVec3 shoulder = a.touch.point[PLUMB_PRESS_shoulder];
    const PlumbVec3 elbow = vec3_sub(a.touch.point[PLUMB_PRESS_elbow], shoulder);
    const double half_n = 50.0 * PLUMB_GRAVITY;
    assert_near(elbow.x, 0.0, 1e-12);
    assert_near(elbow.y, -0.18, 1e-12);
    assert_near(elbow.z, 0.24, 1e-12);
    assert_near(a.touch.angle_rad[PLUMB_PRESS_ANG_abduction], degrees(90.0), 1e-12);
    assert_near(a.touch.angle_rad[PLUMB_PRESS_ANG_forearm_front], 0.0, 1e-12);
    assert_near(a.touch.angle_rad[PLUMB_PRESS_ANG_elbow_flexion], acos(-0.6), 1e-12);
    assert_near(a.touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction], 0.24 * half_n, 1e-9);
    assert_near(a.touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_flexion], 0.0, 1e-9);
    assert_near(a.touch.moment_n_m[PLUMB_PRESS_JOINT_elbow_extension], 0.0, 1e-9);
    assert_near(a.elbows_upright_rad, degrees(90.0), 1e-6);
    /* Top of the shoulder over the underside of the elbow. */
    assert_near(a.touch.elbow_below_rule_m,
                0.18 + lifter.body.shoulder_top_above_joint_m + lifter.body.elbow_half_thickness_m,
                1e-12);
    /* The straight arm of 0.7 m reaches sqrt(0.7² - 0.24²) up. */
    assert_near(a.travel_m, sqrt(0.49 - 0.0576) - 0.22, 1e-12);
    assert_near(a.work_bar_j, 100.0 * PLUMB_GRAVITY * a.travel_m, 1e-9);
}

/* A hand that pushes outwards with p of W/2 is pushed inwards: -p W/2 at 0.22 m above the shoulder
 * takes from the adductors, at 0.4 m above the elbow it bends the elbow. */
static void push__moves_moments_by_the_formula(void **state)
{
    (void)state;
    PlumbSetup setup;
    const PlumbLifter lifter = by_hand(&setup);
    setup.hands_push_frac = 0.2;
    const PlumbPressAnswer a = solved(&lifter, &setup);
    const double half_n = 50.0 * PLUMB_GRAVITY;
    assert_near(a.touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction],
                (0.24 - 0.2 * 0.22) * half_n, 1e-9);
    assert_near(a.touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_flexion], 0.0, 1e-9);
    assert_near(a.touch.moment_n_m[PLUMB_PRESS_JOINT_elbow_extension], 0.2 * 0.4 * half_n, 1e-9);
    for (int i = 0; i < SOME; i++) {
        PlumbLifter other;
        PlumbPressAnswer plain;
        PlumbPressPosition at;
        press_case(i, &other, &plain, &at);
        const double p = plain.setup.hands_push_frac;
        plain.setup.hands_push_frac = 0.0;
        plain.setup.lead = PLUMB_LEAD_TOUCH;
        PlumbPressPosition without;
        plumb_press_at(&other, &plain, at.rise_frac, &without);
        const double push_n = p * 0.5 * plain.setup.load_kg * PLUMB_GRAVITY;
        const PlumbVec3 up = vec3_sub(at.point[PLUMB_PRESS_grip], at.point[PLUMB_PRESS_shoulder]);
        assert_near(at.moment_n_m[0] - without.moment_n_m[0], -push_n * up.y, 1e-9);
        assert_near(at.moment_n_m[1] - without.moment_n_m[1], 0.0, 1e-9);
    }
}

static void check_instant(const PlumbLifter *lifter, const PlumbPressAnswer *a, double rise)
{
    const PlumbBody *body = &lifter->body;
    PlumbPressPosition at;
    plumb_press_at(lifter, a, rise, &at);
    const PlumbVec3 *p = at.point;
    const double lower = body->forearm_m + body->wrist_to_grip_palm_m;
    /* At straight arms the elbow is found from a difference of squares: 1e-9 there. */
    assert_near(distance(p[PLUMB_PRESS_elbow], p[PLUMB_PRESS_shoulder]), body->upper_arm_m, 1e-9);
    assert_near(distance(p[PLUMB_PRESS_grip], p[PLUMB_PRESS_elbow]), lower, 1e-9);
    assert_near(distance(p[PLUMB_PRESS_wrist], p[PLUMB_PRESS_elbow]), body->forearm_m, 1e-9);
    for (int i = 0; i < PLUMB_PRESS_ANGLE_COUNT; i++) {
        assert_true(isfinite(at.angle_rad[i]));
    }
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        assert_true(isfinite(at.moment_n_m[i]) && at.capacity_n_m[i] > 0.0);
        assert_near(at.relative_effort[i], fabs(at.moment_n_m[i]) / at.capacity_n_m[i], 1e-12);
    }
    assert_true(isfinite(at.summed_effort));
}

static void check_held(const PlumbLifter *lifter, const PlumbPressAnswer *a)
{
    const PlumbBody *body = &lifter->body;
    const PlumbSetup *s = &a->setup;
    const double arm = body->upper_arm_m + body->forearm_m + body->wrist_to_grip_palm_m;
    const double dz =
        0.5 * s->grip_m + body->forefinger_to_grip_centre_m - 0.5 * body->shoulder_joint_spacing_m;
    const double shoulder = s->bench_height_m + body->shoulder_half_depth_m;
    const PlumbVec3 top = a->lockout.point[PLUMB_PRESS_bar];
    assert_near(top.y - shoulder, sqrt(arm * arm - dz * dz - s->lockout_over_m * s->lockout_over_m),
                1e-9);
    assert_near(top.x, s->lockout_over_m, 1e-12);
    assert_near(a->touch.point[PLUMB_PRESS_bar].x, s->touch_m, 1e-12);
    assert_near(a->touch.point[PLUMB_PRESS_bar].y,
                s->bench_height_m + body->chest_depth_m + s->arch_m +
                    0.5 * lifter->equipment.shaft_diameter_m,
                1e-12);
    assert_near(a->lockout.angle_rad[PLUMB_PRESS_ANG_elbow_flexion], 0.0, 1e-6);
    assert_true(a->path_m >= a->travel_m - 1e-9);
    if (a->outcome == PLUMB_HELD && s->elbows_given) {
        assert_near(a->touch.angle_rad[PLUMB_PRESS_ANG_abduction], s->elbows_rad, 1e-7);
    } else if (a->outcome == PLUMB_HELD) {
        assert_near(a->touch.elbow_off_bar_m, 0.0, 1e-9);
    }
    for (double rise = 0.0; rise <= 1.0; rise += 0.125) {
        check_instant(lifter, a, rise);
    }
}

/* Every random press is held with whole links and finite figures, or refused with how much is
 * missing; refusals are few. */
static void solve__holds_or_says_why(void **state)
{
    (void)state;
    Random random = random_begin(0x9e55u);
    int refused = 0;
    for (int i = 0; i < CASES; i++) {
        const PlumbLifter lifter = random_lifter(&random);
        const PlumbSetup setup = random_press(&random, &lifter);
        PlumbPressAnswer a;
        plumb_press_solve(&lifter, &setup, &a);
        if (a.outcome == PLUMB_NO_POSE) {
            refused++;
            assert_true(a.miss_m > 0.0 && a.finding_count > 0);
            assert_int_equal(a.finding[0].id, PLUMB_FIND_press_no_pose);
            assert_true(isnan(a.travel_m));
        } else {
            check_held(&lifter, &a);
        }
        for (int k = 0; k < a.finding_count; k++) {
            char words[PLUMB_FINDING_TEXT_SIZE];
            PlumbText text = plumb_text_begin(words, sizeof words);
            plumb_finding_text(&text, &a.finding[k], PLUMB_METRIC);
            assert_false(text.cut);
            assert_null(strstr(words, "nan"));
        }
    }
    print_message("  %d of %d refused\n", refused, CASES);
    assert_true(refused > 0 && refused < CASES / 10);
}

static void no_pose__says_where_and_how_much(void **state)
{
    (void)state;
    const PlumbLifter lifter = median(PLUMB_FEMALE, 1.45, 50.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = 1.20;
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.05;
    const PlumbPressAnswer a = solved(&lifter, &setup);
    const PlumbBody *b = &lifter.body;
    const double dz = 0.60 + b->forefinger_to_grip_centre_m - 0.5 * b->shoulder_joint_spacing_m;
    assert_int_equal(a.outcome, PLUMB_NO_POSE);
    assert_true(a.at_lockout);
    const double arm = b->upper_arm_m + b->forearm_m + b->wrist_to_grip_palm_m;
    const double chest = b->chest_depth_m + setup.arch_m + 0.014 - b->shoulder_half_depth_m;
    const double want = dz > arm ? dz - arm : chest - sqrt(arm * arm - dz * dz);
    assert_near(a.miss_m, want, 1e-12);
}

static PlumbVec3 elbow_at(const PlumbArm *arm, double swivel_rad)
{
    return plumb_arm_elbow(arm, plumb_arm_side(arm, swivel_rad));
}

/* Turning the elbow through its whole circle finds no place under the bar further out than the one
 * that is taken, and where the hand is outside of and above the shoulder none that is lower. */
static void elbow__is_the_outer_and_lower_of_two(void **state)
{
    (void)state;
    enum { TURNS = 7200 };
    for (int i = 0; i < SOME; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer a;
        PlumbPressPosition at;
        press_case(i, &lifter, &a, &at);
        const PlumbBody *b = &lifter.body;
        const PlumbVec3 s = a.touch.point[PLUMB_PRESS_shoulder];
        const PlumbVec3 g = a.touch.point[PLUMB_PRESS_grip];
        const PlumbArm arm =
            plumb_arm(s, g, b->upper_arm_m, b->forearm_m + b->wrist_to_grip_palm_m);
        double off;
        const PlumbVec3 taken = elbow_at(&arm, plumb_arm_swivel(&arm, g.x, &off));
        double before = elbow_at(&arm, 0.0).x - g.x;
        for (int k = 1; k <= TURNS && off <= 0.0; k++) {
            const double swivel = 2.0 * PLUMB_PI * k / TURNS;
            const PlumbVec3 elbow = elbow_at(&arm, swivel);
            const double now = elbow.x - g.x;
            if (before * now <= 0.0) {
                assert_true(elbow.z <= taken.z + 1e-3);
                assert_true(g.z < s.z + 1e-3 || elbow.y >= taken.y - 1e-3);
            }
            before = now;
        }
    }
}

static void swivel__upright_forearm(void **state)
{
    (void)state;
    int found = 0;
    for (int i = 0; i < SOME; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer a;
        PlumbPressPosition at;
        press_case(i, &lifter, &a, &at);
        const double offered = a.elbows_upright_rad;
        if (isnan(offered) || offered < degrees(20.0) || offered > degrees(90.0)) {
            continue;
        }
        found++;
        PlumbSetup setup = a.setup;
        setup.lead = PLUMB_LEAD_TOUCH;
        setup.elbows_given = true;
        setup.elbows_rad = offered;
        const PlumbPressAnswer b = solved(&lifter, &setup);
        /* The asked abduction has two places; the outer one is taken, which is the offered one as
         * long as that lies on the outer half. */
        if (b.touch.elbow_off_hand_m < 1e-6) {
            assert_near(b.touch.angle_rad[PLUMB_PRESS_ANG_forearm_front], 0.0, 1e-6);
        }
        assert_near(b.touch.angle_rad[PLUMB_PRESS_ANG_abduction], offered, 1e-7);
    }
    assert_true(found > SOME / 4);
}

static void scaling__leaves_angles_alone(void **state)
{
    (void)state;
    static const double by = 1.13;
    for (int i = 0; i < SOME; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer a;
        PlumbPressPosition at;
        press_case(i, &lifter, &a, &at);
        PlumbLifter large = lifter;
        for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
            large.body.length_m[k] *= by;
        }
        large.equipment.shaft_diameter_m *= by;
        PlumbPressAnswer b = a;
        b.setup.grip_m *= by;
        b.setup.arch_m *= by;
        b.setup.touch_m *= by;
        b.setup.lockout_over_m *= by;
        b.setup.bench_height_m *= by;
        PlumbPressPosition there;
        plumb_press_at(&large, &b, at.rise_frac, &there);
        for (int k = 0; k < PLUMB_PRESS_ANGLE_COUNT; k++) {
            assert_near(there.angle_rad[k], at.angle_rad[k], 1e-8);
        }
    }
}

/* The range is where the summed effort is within 5 % of its least among the touches that let the
 * upper arm go no further from the trunk than wanted, and auto its middle: against a grid of half
 * millimetres. */
static void range__against_brute_force(void **state)
{
    (void)state;
    int ended_by_effort = 0;
    int held_back = 0;
    for (int i = 0; i < 60; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer a;
        PlumbPressPosition at;
        press_case(i, &lifter, &a, &at);
        PlumbSetup setup = a.setup;
        setup.lead = PLUMB_LEAD_AUTO;
        a = solved(&lifter, &setup);
        if (!a.low_effort.exists) {
            continue;
        }
        assert_near(a.setup.touch_m, 0.5 * (a.low_effort.low + a.low_effort.high), 1e-12);
        assert_true(a.window.low <= a.low_effort.low && a.low_effort.high <= a.window.high);
        double least = (double)INFINITY;
        PlumbPressAnswer trial = a;
        const double angle =
            setup.elbows_given ? setup.elbows_rad : lifter.limit_rad[PLUMB_LIMIT_press_abduction];
        const double under = lifter.body.upper_arm_m * cos(angle);
        const double from = fmax(a.window.low, fmin(under, a.window.high));
        assert_true(a.low_effort.low >= from - 1e-12);
        held_back += a.low_effort.low_end == PLUMB_END_upper_arm_flared ? 1 : 0;
        for (double t = from; t <= a.window.high; t += 0.0005) {
            trial.setup.touch_m = t;
            plumb_press_at(&lifter, &trial, 0.0, &at);
            least = fmin(least, at.summed_effort);
        }
        const double end[2] = {a.low_effort.low, a.low_effort.high};
        const PlumbEnd why[2] = {a.low_effort.low_end, a.low_effort.high_end};
        for (int k = 0; k < 2; k++) {
            trial.setup.touch_m = end[k];
            plumb_press_at(&lifter, &trial, 0.0, &at);
            assert_true(at.summed_effort <= 1.05 * least * (1.0 + 1e-6));
            if (why[k] == PLUMB_END_effort) {
                ended_by_effort++;
                assert_near(at.summed_effort / least, 1.05, 1e-3);
            }
        }
    }
    assert_true(ended_by_effort > 20 && held_back > 20);
}

static void path__against_small_steps(void **state)
{
    (void)state;
    enum { STEPS = 20000 };
    for (int i = 0; i < 40; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer a;
        PlumbPressPosition at;
        press_case(i, &lifter, &a, &at);
        plumb_press_at(&lifter, &a, 0.0, &at);
        PlumbVec3 before = at.point[PLUMB_PRESS_bar];
        double sum = 0.0;
        for (int k = 1; k <= STEPS; k++) {
            plumb_press_at(&lifter, &a, (double)k / STEPS, &at);
            sum += distance(at.point[PLUMB_PRESS_bar], before);
            before = at.point[PLUMB_PRESS_bar];
        }
        assert_near(a.path_m, sum, 2e-6);
        if (a.setup.path_exponent > 1.0 && a.setup.touch_m > a.setup.lockout_over_m) {
            plumb_press_at(&lifter, &a, 0.5, &at);
            const double straight = 0.5 * (a.setup.touch_m + a.setup.lockout_over_m);
            assert_true(at.point[PLUMB_PRESS_bar].x < straight);
        }
    }
}

/* A closer look at the elbow's turn within any centimetre finds no larger one than is told. */
static void step__is_the_largest(void **state)
{
    (void)state;
    for (int i = 0; i < 60; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer a;
        PlumbPressPosition at;
        PlumbPressPosition on;
        press_case(i, &lifter, &a, &at);
        const double centimetre = 0.01 / a.travel_m;
        double largest = 0.0;
        for (int k = 0; k <= 1000; k++) {
            const double rise = (1.0 - centimetre) * k / 1000.0;
            plumb_press_at(&lifter, &a, rise, &at);
            plumb_press_at(&lifter, &a, rise + centimetre, &on);
            largest = fmax(largest, fabs(on.angle_rad[PLUMB_PRESS_ANG_abduction] -
                                         at.angle_rad[PLUMB_PRESS_ANG_abduction]));
        }
        assert_near(a.abduction_step_rad, largest, 0.02 * largest + degrees(0.02));
    }
}

/* The lifter's thorax: down -y, front x, right z. */
static double rotation(PlumbVec3 upper, PlumbVec3 forearm)
{
    return plumb_arm_external_rotation(upper, forearm, vec3(0.0, -1.0, 0.0), vec3(1.0, 0.0, 0.0));
}

static void rotation__by_hand(void **state)
{
    (void)state;
    const PlumbVec3 down = vec3(0.0, -1.0, 0.0);
    const PlumbVec3 up = vec3(0.0, 1.0, 0.0);
    const PlumbVec3 front = vec3(1.0, 0.0, 0.0);
    const PlumbVec3 right = vec3(0.0, 0.0, 1.0);
    assert_near(rotation(down, front), 0.0, 1e-12);
    assert_near(rotation(down, right), degrees(90.0), 1e-12);
    assert_near(rotation(down, vec3(0.0, 0.0, -1.0)), degrees(-90.0), 1e-12);
    /* Arm out to the side: forearm forward is 0, up is outwards. */
    assert_near(rotation(right, front), 0.0, 1e-12);
    assert_near(rotation(right, up), degrees(90.0), 1e-12);
    /* Arm straight ahead: forearm up is 0. */
    assert_near(rotation(front, up), 0.0, 1e-12);
    assert_near(rotation(front, right), degrees(90.0), 1e-12);
    /* A straight arm tells nothing; overhead it is swung by way of the front. */
    assert_near(rotation(right, right), 0.0, 0.0);
    assert_near(rotation(up, vec3(-1.0, 0.0, 0.0)), 0.0, 1e-12);
}

static bool has(const PlumbFinding *finding, int count, PlumbFindingId id)
{
    for (int i = 0; i < count; i++) {
        if (finding[i].id == id) {
            return true;
        }
    }
    return false;
}

#define NONE ((double)NAN)

/* A press of the median man, touch 10 cm; NONE leaves the default. */
static const struct {
    double grip_m;
    double touch_m;
    double elbows_deg;
    double over_m;
    PlumbFindingId id;
    bool expected;
} remarks[] = {
    {0.82, NONE, NONE, NONE, PLUMB_FIND_grip_over_rule, true},
    {0.81, NONE, NONE, NONE, PLUMB_FIND_grip_over_rule, false},
    {0.40, NONE, NONE, NONE, PLUMB_FIND_elbows_flare_outside, true},
    {0.40, NONE, 60, NONE, PLUMB_FIND_elbows_flare_outside, false},
    {0.65, NONE, NONE, NONE, PLUMB_FIND_elbows_flare_outside, false},
    {0.65, NONE, NONE, NONE, PLUMB_FIND_forearm_not_upright, false},
    {1.00, NONE, NONE, NONE, PLUMB_FIND_forearm_not_upright, true},
    {0.60, NONE, NONE, 0.05, PLUMB_FIND_bar_off_shoulder_lockout, true},
    {0.60, NONE, NONE, 0.02, PLUMB_FIND_bar_off_shoulder_lockout, false},
    {0.60, 0.25, NONE, NONE, PLUMB_FIND_elbows_flare_suddenly, true},
    {0.60, 0.10, NONE, NONE, PLUMB_FIND_elbows_flare_suddenly, false},
    {0.60, 0.10, NONE, 0.10, PLUMB_FIND_elbow_path_jumps, true},
    {0.60, 0.10, 60, 0.0, PLUMB_FIND_elbow_path_jumps, false},
    {0.60, 0.02, NONE, NONE, PLUMB_FIND_touch_near_neck, true},
    {0.60, 0.10, NONE, NONE, PLUMB_FIND_touch_near_neck, false},
    {0.30, 0.25, NONE, NONE, PLUMB_FIND_elbow_not_under_bar, true},
    {0.80, -0.05, 20, NONE, PLUMB_FIND_elbows_not_met, true},
    {0.60, 0.10, 50, NONE, PLUMB_FIND_elbows_not_met, false},
    {0.36, 0.00, NONE, NONE, PLUMB_FIND_joint_past_limit, true},
    {0.36, NONE, NONE, NONE, PLUMB_FIND_hands_off_knurling, true},
};

static void findings__table(void **state)
{
    (void)state;
    const PlumbLifter lifter = median(PLUMB_MALE, 1.75, 80.0);
    for (size_t i = 0; i < sizeof remarks / sizeof remarks[0]; i++) {
        PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
        setup.lead = PLUMB_LEAD_TOUCH;
        setup.grip_m = remarks[i].grip_m;
        setup.touch_m = isnan(remarks[i].touch_m) ? 0.10 : remarks[i].touch_m;
        setup.elbows_given = !isnan(remarks[i].elbows_deg);
        setup.elbows_rad = setup.elbows_given ? degrees(remarks[i].elbows_deg) : 0.0;
        setup.lockout_over_m = isnan(remarks[i].over_m) ? 0.0 : remarks[i].over_m;
        const PlumbPressAnswer a = solved(&lifter, &setup);
        if (has(a.finding, a.finding_count, remarks[i].id) != remarks[i].expected) {
            fail_msg("row %zu: %s", i, plumb_finding_name(remarks[i].id));
        }
    }
}

/* A deep chest on a high arch: the elbows stay above the rule; without the arch they do not. */
static void findings__elbow_rule(void **state)
{
    (void)state;
    PlumbLifter lifter = median(PLUMB_MALE, 1.75, 80.0);
    lifter.body.chest_depth_m = 0.40;
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = 0.81;
    setup.arch_m = 0.15;
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.10;
    const PlumbPressAnswer a = solved(&lifter, &setup);
    assert_false(a.elbow_rule_met);
    assert_true(has(a.finding, a.finding_count, PLUMB_FIND_elbow_above_rule));
    setup.arch_m = 0.0;
    const PlumbPressAnswer b = solved(&lifter, &setup);
    assert_true(b.elbow_rule_met);
    assert_false(has(b.finding, b.finding_count, PLUMB_FIND_elbow_above_rule));
}

/* Whether a squat is told that its seat and grip ask too much of this motion. */
static bool squat_past(const PlumbLifter *lifter, PlumbSeat seat, double grip_m, PlumbLimit limit)
{
    PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
    plumb_setup_seat(&setup, seat);
    setup.grip_m = grip_m;
    PlumbAnswer answer;
    plumb_answer_solve(lifter, &setup, &answer);
    for (int i = 0; i < answer.finding_count; i++) {
        if (answer.finding[i].id == PLUMB_FIND_joint_past_limit &&
            answer.finding[i].detail == (int)limit) {
            return true;
        }
    }
    return false;
}

static void squat__seat_and_grip(void **state)
{
    (void)state;
    PlumbLifter lifter = median(PLUMB_MALE, 1.75, 80.0);
    const PlumbLimit turn = PLUMB_LIMIT_shoulder_external_rotation;
    for (int seat = 0; seat < PLUMB_SEAT_COUNT; seat++) {
        PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
        plumb_setup_seat(&setup, (PlumbSeat)seat);
        assert_false(squat_past(&lifter, (PlumbSeat)seat, setup.grip_m, turn));
        assert_false(squat_past(&lifter, (PlumbSeat)seat, setup.grip_m, PLUMB_LIMIT_elbow_flexion));
    }
    assert_true(squat_past(&lifter, PLUMB_HIGH_BAR, 0.45, turn));
    assert_true(squat_past(&lifter, PLUMB_LOW_BAR, 0.45, turn));
    assert_false(squat_past(&lifter, PLUMB_FRONT_BAR, 0.45, turn));
    assert_true(squat_past(&lifter, PLUMB_LOW_BAR, 0.45, PLUMB_LIMIT_elbow_flexion));
    /* The lifter's own test counts as it is. */
    lifter.limit_rad[turn] = degrees(100.0);
    lifter.limit_entered[turn] = true;
    assert_true(squat_past(&lifter, PLUMB_HIGH_BAR, 0.80, turn));
    lifter.limit_rad[turn] = degrees(120.0);
    assert_false(squat_past(&lifter, PLUMB_HIGH_BAR, 0.80, turn));
}

static void quick__is_the_answer_without_ranges(void **state)
{
    (void)state;
    for (int i = 0; i < 60; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer a;
        PlumbPressPosition at;
        press_case(i, &lifter, &a, &at);
        PlumbPressAnswer q;
        plumb_press_quick(&lifter, &a.setup, &q);
        assert_near(q.setup.touch_m, a.setup.touch_m, 1e-12);
        assert_near(q.travel_m, a.travel_m, 0.0);
        assert_false(q.window.exists);
        assert_int_equal(q.finding_count, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(solve__by_hand),
        cmocka_unit_test(push__moves_moments_by_the_formula),
        cmocka_unit_test(solve__holds_or_says_why),
        cmocka_unit_test(no_pose__says_where_and_how_much),
        cmocka_unit_test(elbow__is_the_outer_and_lower_of_two),
        cmocka_unit_test(swivel__upright_forearm),
        cmocka_unit_test(scaling__leaves_angles_alone),
        cmocka_unit_test(range__against_brute_force),
        cmocka_unit_test(path__against_small_steps),
        cmocka_unit_test(step__is_the_largest),
        cmocka_unit_test(rotation__by_hand),
        cmocka_unit_test(findings__table),
        cmocka_unit_test(findings__elbow_rule),
        cmocka_unit_test(squat__seat_and_grip),
        cmocka_unit_test(quick__is_the_answer_without_ranges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
