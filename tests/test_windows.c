/* SPDX-License-Identifier: MIT */
/* Windows and low-effort ranges against their own definition: poses inside meet every requirement,
 * poses just outside fail one, no grid point is feasible where there is none; the least effort on
 * a grid gives the range. */
#include "support.h"

#include "compare.h"

enum { CASES = 1500, GRID_CASES = 200, GRID = 200 };

#define check(condition, index) support_check((condition), (index), #condition, __LINE__)

static void support_check(bool holds, int index, const char *what, int line)
{
    if (!holds) {
        print_error("case %d: %s\n", index, what);
        _fail(__FILE__, line);
    }
}

typedef struct Windowed {
    PlumbLifter lifter;
    PlumbAnswer answer;
    PlumbSetup member; /* leads by the free quantity, the leg turned as solved */
} Windowed;

static void begin(int i, Windowed *w)
{
    Random random = random_begin(0x77696e646f770000u + (uint64_t)i);
    w->lifter = random_lifter(&random);
    const PlumbSetup setup =
        random_setup(&random, &w->lifter, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
    plumb_answer_solve(&w->lifter, &setup, &w->answer);
    w->member = w->answer.setup;
    w->member.lead = setup.lift == PLUMB_DEADLIFT ? PLUMB_LEAD_HIP_HEIGHT : PLUMB_LEAD_SHIN_ANGLE;
    w->member.knees_over_toes = false;
    w->member.knees_out_rad = w->answer.start.knees_out_rad;
}

static bool member_at(const Windowed *w, double s, PlumbPosition *position)
{
    PlumbSetup setup = w->member;
    *(setup.lift == PLUMB_DEADLIFT ? &setup.hip_height_m : &setup.shin_angle_rad) = s;
    PlumbAnswer answer;
    plumb_answer_quick(&w->lifter, &setup, &answer);
    *position = answer.start;
    return answer.outcome != PLUMB_NO_POSE;
}

/* The least margin of all requirements, from the described pose alone: cm, degrees, hundredths. */
static double margin_of(const Windowed *w, const PlumbPosition *p)
{
    const double *angle = p->angle_rad;
    const double motion[PLUMB_LIMIT_COUNT] = {
        angle[PLUMB_ANG_ankle_dorsiflexion],
        angle[PLUMB_ANG_knee_flexion],
        angle[PLUMB_ANG_hip_flexion],
        -angle[PLUMB_ANG_hip_flexion],
        angle[PLUMB_ANG_hip_abduction],
        angle[PLUMB_ANG_hip_external_rotation],
        -angle[PLUMB_ANG_hip_external_rotation],
    };
    double margin = (double)INFINITY;
    for (int i = 0; i < PLUMB_LIMIT_COUNT; i++) {
        margin = fmin(margin, (w->lifter.limit_rad[i] - motion[i]) / degrees(1.0));
    }
    if (w->member.lift == PLUMB_DEADLIFT) {
        const double ahead = p->point[PLUMB_PT_shoulder].x - p->point[PLUMB_PT_bar].x;
        const double most = w->member.shoulder_ahead_max_frac * w->lifter.body.stature_m;
        margin = fmin(margin, fmin(ahead, most - ahead) / 0.01);
        margin = fmin(margin, (angle[PLUMB_ANG_back] - degrees(10.0)) / degrees(1.0));
        margin = fmin(margin, fmin(p->balance_frac - 0.25, 0.60 - p->balance_frac) / 0.01);
    }
    return margin;
}

/* The pose at an end, followed from the middle: two poses meet there where the window ends in a
 * fold, and only one belongs to it. */
static bool end_at(const Windowed *w, double end, PlumbPosition *position)
{
    PlumbCase c;
    plumb_case_begin(&w->lifter, &w->member, &c);
    PlumbState state = plumb_case_guess(&c);
    const double middle = 0.5 * (w->answer.window.low + w->answer.window.high);
    bool held = true;
    for (int k = 0; k <= 20; k++) {
        held = plumb_family_at(&c, middle + (end - middle) * k / 20.0, &state);
    }
    plumb_case_describe(&c, &c.rig, &state, -1.0, position);
    return held;
}

static void window__contains_its_own_poses(void **state)
{
    (void)state;
    int windows = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        Windowed w;
        begin(i, &w);
        const PlumbInterval *window = &w.answer.window;
        if (!window->exists) {
            continue;
        }
        windows++;
        for (int k = 1; k <= 9; k++) {
            PlumbPosition p;
            check(member_at(&w, window->low + (window->high - window->low) * k / 10.0, &p), i);
            check(margin_of(&w, &p) > 0.0, i);
        }
        const double end[2] = {window->low, window->high};
        for (int k = 0; k < 2; k++) {
            PlumbPosition p;
            /* At a fold the pose may be found from one side only. */
            check(!end_at(&w, end[k], &p) || margin_of(&w, &p) > -1e-6, i);
        }
    }
    print_message("  %d windows\n", windows);
    assert_true(windows > cases_of(CASES) / 3);
}

static void check_beyond(int i, const Windowed *w, double s, PlumbEnd end)
{
    PlumbPosition p;
    const bool held = member_at(w, s, &p);
    if (end == PLUMB_END_no_pose) {
        check(!held || margin_of(w, &p) < 1e-3, i);
    } else if (end != PLUMB_END_none) {
        check(!held || margin_of(w, &p) < 0.0, i);
    }
}

static void window__ends_where_a_requirement_does(void **state)
{
    (void)state;
    for (int i = 0; i < cases_of(CASES); i++) {
        Windowed w;
        begin(i, &w);
        if (w.answer.window.exists) {
            check_beyond(i, &w, w.answer.window.low - 1e-6, w.answer.window.low_end);
            check_beyond(i, &w, w.answer.window.high + 1e-6, w.answer.window.high_end);
        }
    }
}

/* Where no window was found, none of a fine grid's poses meets all requirements; where one was, the
 * grid's feasible points around it are the window's. */
static void window__equals_brute_force(void **state)
{
    (void)state;
    int empty = 0;
    int present = 0;
    for (int i = 0; i < cases_of(GRID_CASES); i++) {
        Windowed w;
        begin(i, &w);
        PlumbCase c;
        plumb_case_begin(&w.lifter, &w.member, &c);
        double low;
        double high;
        double step;
        plumb_family_range(&c, &low, &high, &step);
        const PlumbInterval *window = &w.answer.window;
        *(window->exists ? &present : &empty) += 1;
        for (int k = 0; k <= GRID; k++) {
            const double s = low + (high - low) * k / GRID;
            PlumbPosition p;
            const bool feasible = member_at(&w, s, &p) && margin_of(&w, &p) > 1e-6;
            const bool inside = window->exists && s > window->low && s < window->high;
            check(!inside || feasible, i);
            check(window->exists || !feasible, i);
        }
    }
    print_message("  %d windows, %d empty\n", present, empty);
    assert_true(empty > 5 && present > 5);
}

static void low_effort_range__equals_brute_force(void **state)
{
    (void)state;
    int count = 0;
    for (int i = 0; i < cases_of(GRID_CASES); i++) {
        Windowed w;
        begin(i, &w);
        const PlumbInterval *window = &w.answer.window;
        const PlumbInterval *range = &w.answer.low_effort;
        check(window->exists == range->exists, i);
        if (!window->exists) {
            continue;
        }
        count++;
        double effort[GRID + 1];
        double least = (double)INFINITY;
        for (int k = 0; k <= GRID; k++) {
            PlumbPosition p;
            const double s = window->low + (window->high - window->low) * k / GRID;
            effort[k] = member_at(&w, s, &p) ? p.summed_effort : (double)INFINITY;
            least = fmin(least, effort[k]);
        }
        for (int k = 0; k <= GRID; k++) {
            const double s = window->low + (window->high - window->low) * k / GRID;
            const bool inside = s > range->low + 1e-9 && s < range->high - 1e-9;
            /* The grid's least may lie above the true one by its spacing. */
            check(!inside || effort[k] <= 1.05 * least * (1.0 + 1e-6), i);
        }
        PlumbPosition low;
        PlumbPosition high;
        if (range->low_end == PLUMB_END_effort && member_at(&w, range->low, &low)) {
            check(fabs(low.summed_effort / least - 1.05) < 1e-3, i);
        }
        if (range->high_end == PLUMB_END_effort && member_at(&w, range->high, &high)) {
            check(fabs(high.summed_effort / least - 1.05) < 1e-3, i);
        }
    }
    assert_true(count > cases_of(GRID_CASES) / 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(window__contains_its_own_poses),
        cmocka_unit_test(window__ends_where_a_requirement_does),
        cmocka_unit_test(window__equals_brute_force),
        cmocka_unit_test(low_effort_range__equals_brute_force),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
