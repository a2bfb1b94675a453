/* SPDX-License-Identifier: MIT */
/* The sheet of a bench press: nothing overlaps, what it shows is the answer's, what does not hold
 * is said. */
#include "scene_bench.h"

#include <math.h>

static PlumbDrawing press_of(Bench *bench, const PlumbLifter *lifter,
                             const PlumbPressAnswer *answer)
{
    PlumbDrawing drawing =
        plumb_press_drawing_default(lifter, answer, plumb_font_width, bench->font);
    drawing.name = "A. Lifter";
    drawing.date = "31 January 2026";
    return drawing;
}

static PlumbPressAnswer median_press(PlumbLifter *lifter, double grip_m)
{
    *lifter = lifter_of(PLUMB_MALE, 1.78, 85.0, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.10;
    setup.grip_m = grip_m;
    PlumbPressAnswer answer;
    plumb_press_solve(lifter, &setup, &answer);
    return answer;
}

/* Random bodies and presses on both papers, in both units, with and without a pencil, at every size
 * of text. */
static void sheet__has_no_overlap(void **state)
{
    Bench *bench = *state;
    unsigned long seed = 20260131UL;
    for (int i = 0; i < 300; i++) {
        const PlumbLifter lifter = random_lifter(&seed);
        const PlumbSetup setup = random_press_setup(&seed);
        const PlumbSetup other = random_press_setup(&seed);
        PlumbPressAnswer answer;
        PlumbPressAnswer pencil;
        plumb_press_solve(&lifter, &setup, &answer);
        plumb_press_solve(&lifter, &other, &pencil);
        PlumbDrawing drawing = press_of(bench, &lifter, &answer);
        drawing.units = i % 2 == 0 ? PLUMB_METRIC : PLUMB_POUNDS_INCHES;
        drawing.press_pencil = i % 3 == 0 ? &pencil : NULL;
        drawing.text_scale = i % 5 == 4 ? 1.25 : 1.0;
        plumb_compose_sheet(bench->scene, &drawing,
                            i % 4 == 0 ? PLUMB_LETTER_LANDSCAPE : PLUMB_A4_LANDSCAPE);
        char what[32];
        snprintf(what, sizeof what, "press %d", i);
        assert_clear(bench->scene, what);
    }
}

static void sheet__shows_three_views_and_figures(void **state)
{
    Bench *bench = *state;
    PlumbLifter lifter;
    const PlumbPressAnswer answer = median_press(&lifter, 0.60);
    const PlumbDrawing drawing = press_of(bench, &lifter, &answer);
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    static const char *const shown[] = {"from the side",       "from the head end",  "from above",
                                        "bar travel",          "arm 10.0 cm",        "grip 60.0 cm",
                                        "upper arm 69.7",      "what the grip does", "bench press",
                                        "one published person"};
    for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++) {
        if (count_text(bench->scene, shown[i]) == 0) {
            fail_msg("the sheet lacks \"%s\"", shown[i]);
        }
    }
    char travel[32];
    PlumbText text = plumb_text_begin(travel, sizeof travel);
    plumb_text_quantity(&text, answer.travel_m, PLUMB_Q_LENGTH, PLUMB_METRIC);
    assert_true(count_text(bench->scene, travel) >= 2); /* at its dimension line and in the table */
    assert_non_null(strstr(bench->scene->description, travel));
    assert_non_null(strstr(bench->scene->title, "bench press"));
}

/* Every point of the right arm stands in each view where the model has it, mirrored for the left.
 */
static void views__project_the_model(void **state)
{
    Bench *bench = *state;
    PlumbLifter lifter;
    const PlumbPressAnswer answer = median_press(&lifter, 0.70);
    const PlumbDrawing drawing = press_of(bench, &lifter, &answer);
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    const PlumbVec3 shoulder = answer.touch.point[PLUMB_PRESS_shoulder];
    const PlumbVec3 elbow = answer.touch.point[PLUMB_PRESS_elbow];
    int joints = 0;
    PlumbVec2 at[2][8];
    int found[2] = {0, 0};
    for (int i = 0; i < bench->scene->item_count; i++) {
        const PlumbItem *item = &bench->scene->item[i];
        if (item->kind == PLUMB_ITEM_CIRCLE && item->tag.kind == PLUMB_TAG_POINT) {
            const int which = item->tag.id == PLUMB_PT_shoulder ? 0
                              : item->tag.id == PLUMB_PT_elbow  ? 1
                                                                : -1;
            if (which >= 0 && found[which] < 8) {
                at[which][found[which]++] = item->at_mm;
                joints++;
            }
        }
    }
    assert_int_equal(joints, 2 * 5); /* one arm from the side, two in the other views */
    /* Order of drawing: side; head end right, left; above right, left. */
    const double mm = (at[1][0].x - at[0][0].x) / (elbow.x - shoulder.x);
    assert_true(mm > 10.0 && mm < 200.0);
    assert_near(at[1][0].y - at[0][0].y, -mm * (elbow.y - shoulder.y), 1e-6);
    assert_near(at[1][1].x - at[0][1].x, mm * (elbow.z - shoulder.z), 1e-6);
    assert_near(at[1][2].x - at[0][2].x, -mm * (elbow.z - shoulder.z), 1e-6);
    assert_near(at[0][1].y, at[0][0].y, 1e-6); /* the same height beside one another */
    assert_near(at[1][3].y - at[0][3].y, mm * (elbow.z - shoulder.z), 1e-6);
    assert_near(at[0][3].x, at[0][0].x, 1e-6); /* the same place along the bench */
}

static void sheet__says_what_is_out_of_reach(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_FEMALE, 1.30, 45.0, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = 1.20;
    PlumbPressAnswer answer;
    plumb_press_solve(&lifter, &setup, &answer);
    assert_int_equal(answer.outcome, PLUMB_NO_POSE);
    const PlumbDrawing drawing = press_of(bench, &lifter, &answer);
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    assert_clear(bench->scene, "no pose");
    assert_true(count_text(bench->scene, "out of reach") > 0);
    assert_int_equal(count_text(bench->scene, "bar's path"), 0);
}

static void sheet__pencil_has_differences(void **state)
{
    Bench *bench = *state;
    PlumbLifter lifter;
    const PlumbPressAnswer answer = median_press(&lifter, 0.60);
    const PlumbPressAnswer pencil = median_press(&lifter, 0.75);
    PlumbDrawing drawing = press_of(bench, &lifter, &answer);
    drawing.press_pencil = &pencil;
    drawing.pencil_name = "wide";
    plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
    char words[32];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_signed(&text, 100.0 * (answer.travel_m - pencil.travel_m), 1);
    assert_true(count_text(bench->scene, words) > 0);
    assert_true(count_text(bench->scene, "difference to wide") > 0);
    assert_clear(bench->scene, "pencil");
}

/* A half view holds what is right of the middle line, and one view alone has all of the room. */
static void views__can_be_half_or_one(void **state)
{
    Bench *bench = *state;
    PlumbLifter lifter;
    const PlumbPressAnswer answer = median_press(&lifter, 0.60);
    PlumbDrawing drawing = press_of(bench, &lifter, &answer);
    const PlumbRect rect = {0.0, 0.0, 190.0, 125.0};
    const double whole_n = plumb_views_fit(&drawing, rect).scale_n;
    drawing.half_above = true;
    PlumbFit fit = plumb_views_fit(&drawing, rect);
    assert_true(fit.scale_n < whole_n);
    plumb_scene_begin(bench->scene, rect.width_mm, rect.height_mm);
    plumb_compose_views(bench->scene, &drawing, &fit);
    assert_clear(bench->scene, "half");
    const double middle = fit.press.origin_mm[PLUMB_PRESS_ABOVE].y;
    const double bench_mm = fit.press.bench_mm;
    int below = 0;
    for (int i = 0; i < bench->scene->item_count; i++) {
        const PlumbItem *item = &bench->scene->item[i];
        const PlumbRect box = item->box_mm;
        const bool figure = item->kind == PLUMB_ITEM_PATH && item->pen.stroke == PLUMB_ROLE_ink &&
                            item->pen.weight_mm >= PLUMB_MEDIUM_MM;
        if (figure && box.y_mm > bench_mm) {
            /* Half of the line's weight lies above its points. */
            assert_true(box.y_mm >= middle - PLUMB_MEDIUM_MM);
            below++;
        }
    }
    assert_true(below >= 5); /* trunk, hips, head and an arm */
    for (int i = PLUMB_SEE_SIDE; i <= PLUMB_SEE_FRONT; i++) {
        drawing.sight = (PlumbSight)i;
        fit = plumb_views_fit(&drawing, rect);
        assert_true(fit.scale_n < whole_n);
        plumb_scene_begin(bench->scene, rect.width_mm, rect.height_mm);
        plumb_compose_views(bench->scene, &drawing, &fit);
        assert_clear(bench->scene, "alone");
        assert_int_equal(count_text(bench->scene, "bar travel") > 0, i == (int)PLUMB_SEE_SIDE);
        assert_int_equal(count_text(bench->scene, "grip 60.0 cm") > 0, i == (int)PLUMB_SEE_FRONT);
        assert_int_equal(count_text(bench->scene, "from the trunk"), 0);
    }
}

/* What is kept of the grip's curves is told as if it were solved anew. */
static void curves__of_the_grip_are_kept(void **state)
{
    Bench *bench = *state;
    PlumbLifter lifter;
    static PlumbGripCurves kept;
    double first = 0.0;
    for (int i = 0; i < 3; i++) {
        PlumbPressAnswer answer = median_press(&lifter, i == 1 ? 0.70 : 0.60);
        if (i == 2) {
            PlumbSetup setup = answer.setup;
            setup.load_kg += 50.0;
            plumb_press_solve(&lifter, &setup, &answer);
        }
        PlumbDrawing drawing = press_of(bench, &lifter, &answer);
        drawing.grips = &kept;
        plumb_compose_sheet(bench->scene, &drawing, PLUMB_A4_LANDSCAPE);
        assert_true(kept.known);
        const double adduction = kept.value_si[3][12];
        first = i == 0 ? adduction : first;
        PlumbSetup setup = answer.setup;
        PlumbPressAnswer there;
        setup.grip_m = 0.5 * (plumb_press_shoulder_breadth_m(&lifter) + plumb_press_grip_most_m());
        plumb_press_solve(&lifter, &setup, &there);
        assert_near(adduction, there.touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction], 1e-9);
        assert_int_equal(fabs(adduction - first) > 1.0, i == 2);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sheet__has_no_overlap),
        cmocka_unit_test(sheet__shows_three_views_and_figures),
        cmocka_unit_test(views__project_the_model),
        cmocka_unit_test(sheet__says_what_is_out_of_reach),
        cmocka_unit_test(sheet__pencil_has_differences),
        cmocka_unit_test(views__can_be_half_or_one),
        cmocka_unit_test(curves__of_the_grip_are_kept),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
