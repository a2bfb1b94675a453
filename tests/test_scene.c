/* SPDX-License-Identifier: MIT */
/* Primitives, papers, projections and the two views: the conventions are kept. */
#include "scene_bench.h"

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
            const PlumbRect box = bench->scene->item[j].box_mm;
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

/* Upright extent of what bears the dimension of the travel: its line and its arrowheads, mm. */
static double travel_drawn_mm(const PlumbScene *scene)
{
    double low = (double)INFINITY;
    double high = -(double)INFINITY;
    for (int i = 0; i < scene->item_count; i++) {
        const PlumbItem *const item = &scene->item[i];
        if (item->kind == PLUMB_ITEM_PATH && item->tag.kind == PLUMB_TAG_FIGURE &&
            item->tag.id == PLUMB_FIG_TRAVEL) {
            for (int k = item->first; k < item->first + item->count; k++) {
                low = fmin(low, scene->point_mm[k].y);
                high = fmax(high, scene->point_mm[k].y);
            }
        }
    }
    return high - low;
}

/* A page that plays a lift draws a step of the path as the start: the dimension says the whole
 * travel, and so is as long. */
static void draw_travel__whole_at_every_step_of_the_path(void **state)
{
    enum { STEPS = 5 };
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.756, 85.5, 0.0, 0.0);
    for (int lift = PLUMB_DEADLIFT; lift <= PLUMB_SQUAT; lift++) {
        const PlumbSetup setup = plumb_setup_default((PlumbLift)lift);
        PlumbPathPoint point[STEPS];
        PlumbPathFacts facts;
        PlumbDrawing drawing = drawing_of(bench, &lifter, &setup);
        assert_true(plumb_path_solve(&lifter, &bench->answer, STEPS, point, &facts));
        for (int i = 0; i < STEPS; i++) {
            bench->answer.start = point[i].position;
            plumb_scene_begin(bench->scene, 200.0, 150.0);
            PlumbFit fit = plumb_views_fit(&drawing, (PlumbRect){1.0, 1.0, 198.0, 148.0});
            plumb_compose_views(bench->scene, &drawing, &fit);
            /* mm; the projection is in single precision, to a ten-thousandth each */
            assert_near(travel_drawn_mm(bench->scene),
                        1000.0 * bench->answer.travel_m / fit.scale_n, 1e-3);
        }
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
    const PlumbRect text = scene->item[0].box_mm;
    /* Turned to read upward: width becomes height, ascent points left. */
    assert_near(text.y_mm, 40.0, 1e-9);
    assert_near(text.height_mm, 20.0, 1e-9);
    assert_near(text.x_mm, 50.0 - 7.8, 1e-9);
    assert_near(text.width_mm, 7.8 + 2.4, 1e-9);
    const PlumbPen pen = {PLUMB_ROLE_ink, 0.5, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_arc(scene, pen, tag, (PlumbVec2){50.0, 50.0}, 10.0, 0.0, 1.5707963267948966);
    const PlumbRect arc = scene->item[1].box_mm;
    assert_near(arc.x_mm, 49.75, 1e-9);
    assert_near(arc.y_mm, 49.75, 1e-9);
    assert_near(arc.width_mm, 10.5, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(paper_rgb__text_4_5_and_lines_3_on_both_papers),
        cmocka_unit_test(fit__projects_to_a_ten_thousandth_of_a_millimetre),
        cmocka_unit_test(views_fit__both_views_stand_inside_at_a_round_scale),
        cmocka_unit_test(compose_views__held_fit_does_not_flicker),
        cmocka_unit_test(draw_travel__whole_at_every_step_of_the_path),
        cmocka_unit_test(plumb_lines__one_line_within_a_millimetre),
        cmocka_unit_test(dimension__selected_arm_spans_joint_and_bar),
        cmocka_unit_test(compose_views__wish_is_dashed_over_the_inked_pose),
        cmocka_unit_test(scene__refuses_what_does_not_fit_and_says_so),
        cmocka_unit_test(scene_hit__finds_the_topmost_tagged_item),
        cmocka_unit_test(item_box__of_turned_text_and_arc),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
