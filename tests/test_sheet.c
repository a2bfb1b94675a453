/* SPDX-License-Identifier: MIT */
/* Whole sheets and zones of windows: nothing overlaps, and each says what it must. */
#include "scene_bench.h"

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

/* The lowest baseline of the scene's texts, that of one of them where words are given. */
static double lowest_mm(const PlumbScene *scene, const char *words)
{
    double lowest = -1.0;
    for (int i = 0; i < scene->item_count; i++) {
        const PlumbItem *const item = &scene->item[i];
        if (item->kind == PLUMB_ITEM_TEXT &&
            (words == NULL || strcmp(plumb_scene_item_text(scene, item), words) == 0)) {
            lowest = fmax(lowest, item->at_mm.y);
        }
    }
    return lowest;
}

/* Whatever the room, a heading has a figure below it, and a name its figure. */
static void compose_table__no_heading_stands_alone(void **state)
{
    Bench *bench = *state;
    static const char *const HEADINGS[] = {"figures", "joint", "angles"};
    static const double WIDTH_MM[] = {36.0, 60.0, 95.0};
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    int seen[3] = {0};
    for (int i = 0; i < 3; i++) {
        for (int part = 0; part < 240; part++) {
            PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
            drawing.text_scale = i == 0 ? 2.0 : 1.0;
            plumb_scene_begin(bench->scene, 120.0, 140.0);
            plumb_compose_table(bench->scene, &drawing,
                                (PlumbRect){1.0, 1.0, WIDTH_MM[i], 4.0 + 0.5 * part});
            const double foot_mm = lowest_mm(bench->scene, NULL);
            for (int h = 0; h < 3; h++) {
                const double heading_mm = lowest_mm(bench->scene, HEADINGS[h]);
                seen[h] += heading_mm > 0.0;
                assert_true(heading_mm < 0.0 || foot_mm > heading_mm + 1.0);
            }
        }
    }
    for (int h = 0; h < 3; h++) {
        assert_true(seen[h] > 20);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(compose_sheet__nothing_overlaps_at_extreme_bodies),
        cmocka_unit_test(compose_zones__nothing_overlaps_in_windows),
        cmocka_unit_test(compose_table__no_heading_stands_alone),
        cmocka_unit_test(roles__text_is_set_only_in_roles_for_text),
        cmocka_unit_test(compose_sheet__says_what_it_must),
        cmocka_unit_test(compose_sheet__no_pose_is_dashed_and_named),
        cmocka_unit_test(compose_sheet__pencil_gives_each_figure_its_difference),
        cmocka_unit_test(efforts__stand_as_such_only_with_entered_strength),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
