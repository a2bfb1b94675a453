/* SPDX-License-Identifier: MIT */
/* Drawings as lists of primitives: nothing overlaps, colours hold, the conventions are kept. */
#include "support.h"

#include <plumbar/draw.h>
#include <plumbar/scene.h>

#include <stdlib.h>
#include <string.h>

/* One typeface and one scene for all tests. */
typedef struct Bench {
    PlumbFont *font;
    PlumbScene *scene;
    PlumbAnswer answer;
    PlumbAnswer other;
} Bench;

static int bench_open(void **state)
{
    Bench *bench = calloc(1, sizeof *bench);
    bench->font = plumb_font_create();
    bench->scene = calloc(1, sizeof *bench->scene);
    *state = bench;
    return bench->font != NULL && bench->scene != NULL ? 0 : 1;
}

static int bench_close(void **state)
{
    Bench *bench = *state;
    plumb_font_destroy(bench->font);
    free(bench->scene);
    free(bench);
    return 0;
}

static PlumbLifter lifter_of(PlumbSex sex, double stature_m, double mass_kg, double thigh_sd,
                             double trunk_sd)
{
    PlumbBodySpec spec = plumb_body_spec(sex, stature_m, mass_kg);
    spec.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, thigh_sd, 0.0};
    spec.measure[PLUMB_LEN_trunk] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, trunk_sd, 0.0};
    PlumbBody body;
    PlumbError error;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_OK);
    return plumb_lifter_default(&body);
}

static PlumbDrawing drawing_of(Bench *bench, const PlumbLifter *lifter, const PlumbSetup *setup)
{
    plumb_answer_solve(lifter, setup, &bench->answer);
    PlumbDrawing drawing =
        plumb_drawing_default(lifter, &bench->answer, plumb_font_width, bench->font);
    drawing.name = "A. Lifter";
    drawing.date = "31 January 2026";
    return drawing;
}

/* Repeatable numbers in [0, 1): the minimal standard generator of Park and Miller. */
static double next_random(unsigned long *seed)
{
    *seed = *seed * 48271UL % 2147483647UL;
    return (double)*seed / 2147483647.0;
}

static double between(unsigned long *seed, double low, double high)
{
    return low + (high - low) * next_random(seed);
}

static bool boxes_meet(PlumbRect a, PlumbRect b)
{
    return a.x_mm < b.x_mm + b.width_mm && b.x_mm < a.x_mm + a.width_mm &&
           a.y_mm < b.y_mm + b.height_mm && b.y_mm < a.y_mm + a.height_mm;
}

/* Fails where a text leaves the paper or meets another, or the scene overflowed. */
static void assert_clear(const PlumbScene *scene, const char *what)
{
    assert_false(scene->full);
    for (int i = 0; i < scene->item_count; i++) {
        if (scene->item[i].kind != PLUMB_ITEM_TEXT) {
            continue;
        }
        const PlumbRect a = plumb_scene_item_box(scene, &scene->item[i]);
        if (a.x_mm < 0.0 || a.y_mm < 0.0 || a.x_mm + a.width_mm > scene->width_mm ||
            a.y_mm + a.height_mm > scene->height_mm) {
            fail_msg("%s: \"%s\" leaves the paper", what,
                     plumb_scene_item_text(scene, &scene->item[i]));
        }
        for (int j = 0; j < i; j++) {
            if (scene->item[j].kind == PLUMB_ITEM_TEXT &&
                boxes_meet(a, plumb_scene_item_box(scene, &scene->item[j]))) {
                fail_msg("%s: \"%s\" over \"%s\"", what,
                         plumb_scene_item_text(scene, &scene->item[i]),
                         plumb_scene_item_text(scene, &scene->item[j]));
            }
        }
    }
}

/* How many texts contain the words. */
static int count_text(const PlumbScene *scene, const char *words)
{
    int count = 0;
    for (int i = 0; i < scene->item_count; i++) {
        const char *text = plumb_scene_item_text(scene, &scene->item[i]);
        count += strstr(text, words) != NULL ? 1 : 0;
    }
    return count;
}

static int count_kind(const PlumbScene *scene, PlumbTagKind kind, int id)
{
    int count = 0;
    for (int i = 0; i < scene->item_count; i++) {
        count += scene->item[i].tag.kind == kind && scene->item[i].tag.id == id ? 1 : 0;
    }
    return count;
}

/* A set-up drawn at random within what people try, and beyond what holds. */
static PlumbSetup random_setup(unsigned long *seed)
{
    PlumbSetup setup = plumb_setup_default(next_random(seed) < 0.5 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
    const double kind = next_random(seed);
    if (setup.lift == PLUMB_DEADLIFT) {
        plumb_setup_style(&setup, kind < 0.5 ? PLUMB_CONVENTIONAL : PLUMB_SUMO);
        setup.deficit_m = kind < 0.2 ? between(seed, 0.0, 0.15) : 0.0;
        setup.blocks_m = kind > 0.8 ? between(seed, 0.0, 0.45) : 0.0;
        if (kind > 0.4 && kind < 0.6) {
            setup.lead = PLUMB_LEAD_HIP_HEIGHT;
            setup.hip_height_m = between(seed, 0.3, 1.3);
        }
    } else {
        plumb_setup_seat(&setup, kind < 0.3   ? PLUMB_HIGH_BAR
                                 : kind < 0.6 ? PLUMB_LOW_BAR
                                              : PLUMB_FRONT_BAR);
        setup.depth_m = between(seed, -0.4, 0.2);
        setup.heel_lift_m = kind > 0.5 ? between(seed, 0.0, 0.05) : 0.0;
    }
    setup.stance_m = between(seed, 0.10, 1.10);
    setup.toes_rad = between(seed, 0.0, 1.2);
    setup.grip_m = between(seed, 0.30, 1.20);
    setup.load_kg = between(seed, 0.0, 600.0);
    return setup;
}

static PlumbLifter random_lifter(unsigned long *seed)
{
    const PlumbSex sex = next_random(seed) < 0.5 ? PLUMB_MALE : PLUMB_FEMALE;
    const double stature_m = between(seed, 1.20, 2.30);
    const double mass_kg = between(seed, 30.0, 250.0);
    const double thigh_sd = between(seed, -4.0, 4.0);
    return lifter_of(sex, stature_m, mass_kg, thigh_sd, between(seed, -4.0, 4.0));
}

static void compose_sheet__nothing_overlaps_at_extreme_bodies(void **state)
{
    Bench *bench = *state;
    unsigned long seed = 20260131;
    int no_pose = 0;
    for (int i = 0; i < 240; i++) {
        const PlumbLifter lifter = random_lifter(&seed);
        const PlumbSetup setup = random_setup(&seed);
        PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
        drawing.units = i % 3 == 0 ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
        drawing.selected = (PlumbJoint)(i % PLUMB_JOINT_COUNT);
        drawing.text_scale = i % 4 == 0 ? 1.25 : 1.0;
        if (i % 5 == 0) {
            const PlumbSetup other = random_setup(&seed);
            plumb_answer_solve(&lifter, &other, &bench->other);
            drawing.pencil = &bench->other;
            drawing.pencil_name = "as trained until now";
        }
        char what[32];
        snprintf(what, sizeof what, "case %d", i);
        plumb_compose_sheet(bench->scene, &drawing, (PlumbFormat)(i % PLUMB_FORMAT_COUNT));
        assert_clear(bench->scene, what);
        no_pose += bench->answer.outcome == PLUMB_NO_POSE ? 1 : 0;
    }
    /* The property is of use only if both kinds of answer were drawn. */
    assert_in_range(no_pose, 5, 200);
}

static void compose_zones__nothing_overlaps_in_windows(void **state)
{
    Bench *bench = *state;
    static const double SIZE_MM[4][2] = {
        {220.0, 140.0}, {280.0, 175.0}, {400.0, 250.0}, {150.0, 180.0}};
    static const double SCALE[4] = {1.0, 1.25, 1.5, 2.0};
    unsigned long seed = 4;
    for (int i = 0; i < 80; i++) {
        const PlumbLifter lifter = random_lifter(&seed);
        const PlumbSetup setup = random_setup(&seed);
        PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
        drawing.text_scale = SCALE[i / 4 % 4];
        const double width = SIZE_MM[i % 4][0];
        const double height = SIZE_MM[i % 4][1];
        plumb_scene_begin(bench->scene, width, height);
        PlumbFit fit = plumb_views_fit(&drawing, (PlumbRect){1, 1, 0.62 * width, 0.7 * height});
        plumb_compose_views(bench->scene, &drawing, &fit);
        plumb_compose_table(bench->scene, &drawing,
                            (PlumbRect){0.64 * width, 1, 0.34 * width, 0.6 * height});
        plumb_compose_notes(bench->scene, &drawing,
                            (PlumbRect){1, 0.72 * height, 0.61 * width, 0.26 * height});
        plumb_compose_title(bench->scene, &drawing,
                            (PlumbRect){0.64 * width, 0.62 * height, 0.35 * width, 0.37 * height},
                            fit.scale_n);
        char what[48];
        snprintf(what, sizeof what, "window case %d, text %g", i, drawing.text_scale);
        assert_clear(bench->scene, what);
    }
}

static double luminance(PlumbRgb rgb)
{
    /* Relative luminance, WCAG 2.1. */
    const double part[3] = {rgb.red / 255.0, rgb.green / 255.0, rgb.blue / 255.0};
    double linear[3];
    for (int i = 0; i < 3; i++) {
        linear[i] = part[i] <= 0.03928 ? part[i] / 12.92 : pow((part[i] + 0.055) / 1.055, 2.4);
    }
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
}

static double contrast(PlumbRgb a, PlumbRgb b)
{
    const double la = luminance(a);
    const double lb = luminance(b);
    return (fmax(la, lb) + 0.05) / (fmin(la, lb) + 0.05);
}

static void paper_rgb__text_4_5_and_lines_3_on_both_papers(void **state)
{
    (void)state;
    static const PlumbRole TEXT[] = {PLUMB_ROLE_ink, PLUMB_ROLE_quiet, PLUMB_ROLE_pencil_text,
                                     PLUMB_ROLE_select};
    static const PlumbRole LINE[] = {PLUMB_ROLE_rule, PLUMB_ROLE_pencil, PLUMB_ROLE_bar,
                                     PLUMB_ROLE_mass, PLUMB_ROLE_hold};
    assert_near(contrast((PlumbRgb){0, 0, 0}, (PlumbRgb){255, 255, 255}), 21.0, 1e-9);
    for (int p = 0; p < PLUMB_PAPER_COUNT; p++) {
        static const PlumbRole GROUND[] = {PLUMB_ROLE_paper, PLUMB_ROLE_limb};
        for (size_t g = 0; g < 2; g++) {
            const PlumbRgb ground = plumb_paper_rgb((PlumbPaper)p, GROUND[g]);
            for (size_t i = 0; i < sizeof TEXT / sizeof TEXT[0]; i++) {
                assert_true(contrast(plumb_paper_rgb((PlumbPaper)p, TEXT[i]), ground) >= 4.5);
            }
            for (size_t i = 0; i < sizeof LINE / sizeof LINE[0]; i++) {
                assert_true(contrast(plumb_paper_rgb((PlumbPaper)p, LINE[i]), ground) >= 3.0);
            }
        }
    }
}

static void roles__text_is_set_only_in_roles_for_text(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    drawing.pencil = &bench->answer;
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    int texts = 0;
    for (int i = 0; i < bench->scene->item_count; i++) {
        const PlumbItem *item = &bench->scene->item[i];
        if (item->kind == PLUMB_ITEM_TEXT) {
            const PlumbRole role = item->pen.fill;
            assert_true(role == PLUMB_ROLE_ink || role == PLUMB_ROLE_quiet ||
                        role == PLUMB_ROLE_pencil_text);
            texts++;
        } else if (item->pen.stroke != PLUMB_ROLE_none) {
            assert_true(item->pen.weight_mm >= PLUMB_FINE_MM);
        }
    }
    assert_true(texts > 60);
}

/* Side view: x to the right, y up; front view: the lifter's right at the reader's left. */
static void fit__projects_to_a_ten_thousandth_of_a_millimetre(void **state)
{
    (void)state;
    const PlumbFit fit = {
        .scale_n = 12.5, .side_origin_mm = {80.0, 150.0}, .front_origin_mm = {170.0, 150.0}};
    unsigned long seed = 7;
    for (int i = 0; i < 1000; i++) {
        const double x = between(&seed, -1.2, 1.2);
        const double y = between(&seed, 0.0, 2.4);
        const PlumbVec3 p = {x, y, between(&seed, -1.2, 1.2)};
        const PlumbVec2 side = plumb_fit_side(&fit, p);
        const PlumbVec2 front = plumb_fit_front(&fit, p);
        assert_near(side.x, 80.0 + 80.0 * p.x, 1e-4);
        assert_near(side.y, 150.0 - 80.0 * p.y, 1e-4);
        assert_near(front.x, 170.0 - 80.0 * p.z, 1e-4);
        assert_near(front.y, 150.0 - 80.0 * p.y, 1e-4);
        const PlumbVec3 from_side = plumb_fit_side_back(&fit, side);
        const PlumbVec3 from_front = plumb_fit_front_back(&fit, front);
        assert_near(from_side.x, p.x, 2e-6);
        assert_near(from_side.y, p.y, 2e-6);
        assert_near(from_front.z, p.z, 2e-6);
    }
}

static void views_fit__both_views_stand_inside_at_a_round_scale(void **state)
{
    Bench *bench = *state;
    unsigned long seed = 11;
    const PlumbRect rect = {5.0, 7.0, 190.0, 140.0};
    for (int i = 0; i < 60; i++) {
        const PlumbLifter lifter = random_lifter(&seed);
        const PlumbSetup setup = random_setup(&seed);
        PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
        plumb_scene_begin(bench->scene, 200.0, 150.0);
        PlumbFit fit = plumb_views_fit(&drawing, rect);
        plumb_compose_views(bench->scene, &drawing, &fit);
        assert_near(2.0 * fit.scale_n, round(2.0 * fit.scale_n), 1e-12);
        assert_near(fit.side_origin_mm.y, fit.front_origin_mm.y, 0.0);
        for (int j = 0; j < bench->scene->item_count; j++) {
            const PlumbRect box = plumb_scene_item_box(bench->scene, &bench->scene->item[j]);
            assert_true(box.x_mm >= rect.x_mm - 1.0 && box.y_mm >= rect.y_mm - 1.0);
            assert_true(box.x_mm + box.width_mm <= rect.x_mm + rect.width_mm + 1.0);
            assert_true(box.y_mm + box.height_mm <= rect.y_mm + rect.height_mm + 1.0);
        }
    }
}

/* A fit that is held during a drag keeps the same figures, the same scale and the same origin. */
static void compose_views__held_fit_does_not_flicker(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    plumb_scene_begin(bench->scene, 200.0, 150.0);
    PlumbFit fit = plumb_views_fit(&drawing, (PlumbRect){1.0, 1.0, 198.0, 148.0});
    assert_false(fit.decided);
    plumb_compose_views(bench->scene, &drawing, &fit);
    assert_true(fit.decided);
    assert_true(fit.place[PLUMB_FIG_TRAVEL] >= 0);
    assert_true(fit.place[PLUMB_FIG_ARM_SELECTED] >= 0);
    assert_true(fit.place[PLUMB_FIG_BALANCE] >= 0);
    assert_true(fit.place[PLUMB_FIG_BACK_ANGLE] >= 0);
    assert_true(fit.place[PLUMB_FIG_HIP_HEIGHT] >= 0);
    const PlumbFit first = fit;
    fit.place[PLUMB_FIG_BACK_ANGLE] = -1;
    for (int step = 1; step <= 20; step++) {
        setup.stance_m = 0.32 + 0.01 * step;
        plumb_answer_solve(&lifter, &setup, &bench->answer);
        plumb_scene_begin(bench->scene, 200.0, 150.0);
        plumb_compose_views(bench->scene, &drawing, &fit);
        assert_int_equal(count_text(bench->scene, "bar travel"), 1);
        assert_int_equal(count_text(bench->scene, "hip arm"), 1);
        assert_int_equal(count_text(bench->scene, "hip height"), 1);
        assert_int_equal(count_text(bench->scene, "above level"),
                         first.place[PLUMB_FIG_THIGH_ANGLE] >= 0);
        assert_near(fit.scale_n, first.scale_n, 0.0);
        assert_near(fit.side_origin_mm.x, first.side_origin_mm.x, 0.0);
    }
}

static void plumb_lines__one_line_within_a_millimetre(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    static const struct {
        double apart_mm;
        int together;
        int alone;
    } ROW[] = {{0.0, 1, 0}, {0.9, 1, 0}, {-0.9, 1, 0}, {1.1, 0, 1}, {-1.1, 0, 1}, {30.0, 0, 1}};
    for (size_t i = 0; i < sizeof ROW / sizeof ROW[0]; i++) {
        plumb_scene_begin(bench->scene, 200.0, 150.0);
        PlumbFit fit = plumb_views_fit(&drawing, (PlumbRect){1.0, 1.0, 198.0, 148.0});
        bench->answer.start.com.x =
            bench->answer.start.point[PLUMB_PT_bar].x + ROW[i].apart_mm * fit.scale_n / 1000.0;
        plumb_compose_views(bench->scene, &drawing, &fit);
        assert_int_equal(count_text(bench->scene, "B = C"), ROW[i].together);
        int letters = 0;
        int lines = 0;
        for (int j = 0; j < bench->scene->item_count; j++) {
            letters +=
                strcmp(plumb_scene_item_text(bench->scene, &bench->scene->item[j]), "C") == 0;
            lines += bench->scene->item[j].pen.dash == PLUMB_CHAIN_DOUBLE;
        }
        assert_int_equal(letters, ROW[i].alone);
        assert_int_equal(lines, ROW[i].alone);
        assert_clear(bench->scene, "plumb lines");
    }
}

/* The arm's dimension line is as long as the arm, at scale. */
static void dimension__selected_arm_spans_joint_and_bar(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    const PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    plumb_scene_begin(bench->scene, 260.0, 200.0);
    PlumbFit fit = plumb_views_fit(&drawing, (PlumbRect){1.0, 1.0, 258.0, 198.0});
    plumb_compose_views(bench->scene, &drawing, &fit);
    double left = 1e9;
    double right = -1e9;
    for (int i = 0; i < bench->scene->item_count; i++) {
        const PlumbItem *item = &bench->scene->item[i];
        if (item->tag.kind == PLUMB_TAG_ARM && item->tag.id == PLUMB_JOINT_hip &&
            item->kind == PLUMB_ITEM_PATH) {
            for (int j = 0; j < item->count; j++) {
                left = fmin(left, bench->scene->point_mm[item->first + j].x);
                right = fmax(right, bench->scene->point_mm[item->first + j].x);
            }
        }
    }
    assert_near((right - left) * fit.scale_n / 1000.0,
                fabs(bench->answer.start.bar_arm_m[PLUMB_JOINT_hip]), 1e-6);
    assert_int_equal(fit.arm[0], PLUMB_JOINT_hip);
    assert_int_not_equal(fit.arm[1], PLUMB_JOINT_hip);
    assert_int_not_equal(fit.arm[2], fit.arm[1]);
}

static void compose_sheet__says_what_it_must(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.load_kg = 200.0;
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    /* Figures of the reference pose, two places each: views and table. */
    assert_int_equal(count_text(bench->scene, "52.7 cm"), 2);
    assert_int_equal(count_text(bench->scene, "65.5 cm"), 2);
    assert_int_equal(count_text(bench->scene, "26.8°"), 2);
    assert_int_equal(count_text(bench->scene, "36.1"), 2);
    static const char *const WORDS[] = {
        "A. Lifter",     "conventional deadlift", "200", "balance 0.40",          "31 January 2026",
        "not medical",   "shoulder drop",         "871", "crease above the knee", "survey table",
        "Window of the", "Low-effort range",      "1 : "};
    for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
        if (count_text(bench->scene, WORDS[i]) < 1) {
            fail_msg("the sheet does not say \"%s\"", WORDS[i]);
        }
    }
    assert_non_null(strstr(bench->scene->title, "A. Lifter, deadlift"));
    assert_non_null(strstr(bench->scene->description, "bar travel 52.7 cm"));
}

static void compose_sheet__no_pose_is_dashed_and_named(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    setup.hip_height_m = 1.2;
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    assert_int_equal(bench->answer.outcome, PLUMB_NO_POSE);
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    assert_true(count_text(bench->scene, plumb_constraint_text(bench->answer.failed)) >= 2);
    assert_int_equal(count_text(bench->scene, "No pose meets"), 1);
    int dashed = 0;
    for (int i = 0; i < bench->scene->item_count; i++) {
        const PlumbItem *item = &bench->scene->item[i];
        dashed += item->closed && item->pen.dash == PLUMB_DASHED;
        /* No inked limb. */
        assert_false(item->closed && item->pen.fill == PLUMB_ROLE_limb);
    }
    assert_true(dashed > 15);
}

static void compose_views__wish_is_dashed_over_the_inked_pose(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_FEMALE, 1.63, 70.0, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    setup.hip_height_m = 1.2;
    plumb_answer_solve(&lifter, &setup, &bench->other);
    assert_int_equal(bench->other.outcome, PLUMB_NO_POSE);
    int dashed[2] = {0, 0};
    int inked[2] = {0, 0};
    for (int with = 0; with < 2; with++) {
        drawing.wish = with == 1 ? &bench->other : NULL;
        plumb_scene_begin(bench->scene, 200.0, 150.0);
        PlumbFit fit = plumb_views_fit(&drawing, (PlumbRect){1.0, 1.0, 198.0, 148.0});
        plumb_compose_views(bench->scene, &drawing, &fit);
        for (int i = 0; i < bench->scene->item_count; i++) {
            const PlumbItem *item = &bench->scene->item[i];
            dashed[with] += item->closed && item->pen.dash == PLUMB_DASHED;
            inked[with] += item->closed && item->pen.fill == PLUMB_ROLE_limb;
        }
    }
    assert_int_equal(dashed[0], 0);
    assert_true(dashed[1] > 15);
    assert_int_equal(inked[0], inked[1]);
}

static void compose_sheet__pencil_gives_each_figure_its_difference(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.load_kg = 200.0;
    plumb_answer_solve(&lifter, &setup, &bench->other);
    plumb_setup_style(&setup, PLUMB_SUMO);
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    const int before = count_kind(bench->scene, PLUMB_TAG_PENCIL, 0);
    assert_int_equal(before, 0);
    drawing.pencil = &bench->other;
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    assert_true(count_kind(bench->scene, PLUMB_TAG_PENCIL, 0) > 20);
    int differences = 0;
    for (int i = 0; i < bench->scene->item_count; i++) {
        differences += bench->scene->item[i].pen.fill == PLUMB_ROLE_pencil_text;
    }
    /* 7 main figures, 5 joints by 3 columns, 8 further. */
    assert_int_equal(differences, 7 + 15 + 8);
    /* Reference poses: travel 48.17 against 52.69, hip 61.62 against 65.50, back 32.24 and 26.81.
     */
    assert_true(count_text(bench->scene, "-4.5") >= 1);
    assert_true(count_text(bench->scene, "-3.9") >= 1);
    assert_true(count_text(bench->scene, "+5.4") >= 1);
}

static void efforts__stand_as_such_only_with_entered_strength(void **state)
{
    Bench *bench = *state;
    PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.load_kg = 200.0;
    PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    assert_int_equal(count_text(bench->scene, "1.96"), 0);
    assert_int_equal(count_text(bench->scene, "100"), 1);
    lifter.strength_entered = true;
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    assert_int_equal(count_text(bench->scene, "1.96"), 1);
}

static void scene__refuses_what_does_not_fit_and_says_so(void **state)
{
    Bench *bench = *state;
    PlumbScene *scene = bench->scene;
    const PlumbPen pen = {PLUMB_ROLE_ink, 0.25, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbTag tag = {PLUMB_TAG_NONE, 0};
    plumb_scene_begin(scene, 100.0, 100.0);
    for (int i = 0; i < PLUMB_SCENE_ITEMS; i++) {
        plumb_scene_circle(scene, pen, tag, (PlumbVec2){1.0, 1.0}, 1.0);
    }
    assert_false(scene->full);
    plumb_scene_circle(scene, pen, tag, (PlumbVec2){1.0, 1.0}, 1.0);
    assert_true(scene->full);
    assert_int_equal(scene->item_count, PLUMB_SCENE_ITEMS);
    plumb_scene_begin(scene, 100.0, 100.0);
    assert_false(scene->full);
    plumb_scene_path(scene, pen, tag, scene->point_mm, PLUMB_SCENE_POINTS + 1, false);
    assert_true(scene->full);
    assert_int_equal(scene->item_count, 0);
}

static void scene_hit__finds_the_topmost_tagged_item(void **state)
{
    Bench *bench = *state;
    PlumbScene *scene = bench->scene;
    const PlumbPen line = {PLUMB_ROLE_ink, 0.25, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen area = {PLUMB_ROLE_ink, 0.25, PLUMB_SOLID, PLUMB_ROLE_limb};
    plumb_scene_begin(scene, 100.0, 100.0);
    plumb_scene_rect(scene, area, (PlumbTag){PLUMB_TAG_POINT, PLUMB_PT_hip},
                     (PlumbRect){10.0, 10.0, 40.0, 40.0});
    plumb_scene_circle(scene, line, (PlumbTag){PLUMB_TAG_POINT, PLUMB_PT_bar},
                       (PlumbVec2){30.0, 30.0}, 10.0);
    plumb_scene_line(scene, line, (PlumbTag){PLUMB_TAG_NONE, 0}, (PlumbVec2){0.0, 30.0},
                     (PlumbVec2){100.0, 30.0});
    static const struct {
        PlumbVec2 at;
        int id;
    } ROW[] = {{{30.0, 30.0}, PLUMB_PT_hip}, {{40.2, 30.0}, PLUMB_PT_bar},
               {{37.0, 37.0}, PLUMB_PT_bar}, {{51.0, 12.0}, PLUMB_PT_hip},
               {{53.0, 12.0}, -1},           {{80.0, 30.0}, -1}};
    for (size_t i = 0; i < sizeof ROW / sizeof ROW[0]; i++) {
        const PlumbItem *hit = plumb_scene_hit(scene, ROW[i].at, 1.5);
        assert_int_equal(hit != NULL ? hit->tag.id : -1, ROW[i].id);
    }
}

static void item_box__of_turned_text_and_arc(void **state)
{
    Bench *bench = *state;
    PlumbScene *scene = bench->scene;
    const PlumbTag tag = {PLUMB_TAG_NONE, 0};
    plumb_scene_begin(scene, 100.0, 100.0);
    plumb_scene_text(scene, PLUMB_ROLE_ink, tag, (PlumbVec2){50.0, 50.0}, 10.0, PLUMB_MIDDLE,
                     -1.5707963267948966, "width 20", 20.0);
    const PlumbRect text = plumb_scene_item_box(scene, &scene->item[0]);
    /* Turned to read upward: width becomes height, ascent points left. */
    assert_near(text.y_mm, 40.0, 1e-9);
    assert_near(text.height_mm, 20.0, 1e-9);
    assert_near(text.x_mm, 50.0 - 7.8, 1e-9);
    assert_near(text.width_mm, 7.8 + 2.4, 1e-9);
    const PlumbPen pen = {PLUMB_ROLE_ink, 0.5, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_arc(scene, pen, tag, (PlumbVec2){50.0, 50.0}, 10.0, 0.0, 1.5707963267948966);
    const PlumbRect arc = plumb_scene_item_box(scene, &scene->item[1]);
    assert_near(arc.x_mm, 49.75, 1e-9);
    assert_near(arc.y_mm, 49.75, 1e-9);
    assert_near(arc.width_mm, 10.5, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(compose_sheet__nothing_overlaps_at_extreme_bodies),
        cmocka_unit_test(compose_zones__nothing_overlaps_in_windows),
        cmocka_unit_test(paper_rgb__text_4_5_and_lines_3_on_both_papers),
        cmocka_unit_test(roles__text_is_set_only_in_roles_for_text),
        cmocka_unit_test(fit__projects_to_a_ten_thousandth_of_a_millimetre),
        cmocka_unit_test(views_fit__both_views_stand_inside_at_a_round_scale),
        cmocka_unit_test(compose_views__held_fit_does_not_flicker),
        cmocka_unit_test(plumb_lines__one_line_within_a_millimetre),
        cmocka_unit_test(dimension__selected_arm_spans_joint_and_bar),
        cmocka_unit_test(compose_sheet__says_what_it_must),
        cmocka_unit_test(compose_sheet__no_pose_is_dashed_and_named),
        cmocka_unit_test(compose_views__wish_is_dashed_over_the_inked_pose),
        cmocka_unit_test(compose_sheet__pencil_gives_each_figure_its_difference),
        cmocka_unit_test(efforts__stand_as_such_only_with_entered_strength),
        cmocka_unit_test(scene__refuses_what_does_not_fit_and_says_so),
        cmocka_unit_test(scene_hit__finds_the_topmost_tagged_item),
        cmocka_unit_test(item_box__of_turned_text_and_arc),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
