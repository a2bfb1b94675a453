/* SPDX-License-Identifier: MIT */
/* The films that other tests rest on: their pictures show each mark where the truth says. */
#include "support.h"

#include "film_look.h"

#include "base/vec.h"

#include <string.h>

static FilmScene clean_scene(const FilmLift *lift)
{
    FilmScene scene = film_scene(lift);
    scene.noise_levels = 0.0;
    scene.exposure_frac = 0.0;
    scene.stickers = true;
    return scene;
}

static const PlumbMarkName disc_name = {PLUMB_MARK_disc_centre, PLUMB_NEAR, false};
static const PlumbMarkName knee_name = {PLUMB_MARK_knee, PLUMB_NEAR, false};

static void film__shows_marks_where_the_truth_says(void **state)
{
    (void)state;
    const double shakes[] = {0.0, 4.0};
    for (int k = 0; k < 4; k++) {
        const FilmLift lift = film_lift(k % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
        FilmScene scene = clean_scene(&lift);
        scene.shake_px = shakes[k / 2];
        scene.camera.yaw_rad = degrees(6.0);
        scene.camera.roll_rad = degrees(1.0);
        for (int i = 5; i < film_count(&scene); i += 25) {
            uint8_t *const level = film_rendered(&scene, i);
            const PlumbVec2 knee = film_mark(&scene, i, knee_name);
            const PlumbVec2 disc = film_mark(&scene, i, disc_name);
            /* 0.3 px: the window cuts pixels of the ring, or of the disc behind the hub */
            const PlumbVec2 hub = film_centre_near(&scene, level, disc, 7.5, 38.0);
            assert_near(hub.x, disc.x, 0.3);
            assert_near(hub.y, disc.y, 0.3);
            if (!film_hidden(&scene, i, knee_name)) {
                const PlumbVec2 dot = film_centre_near(&scene, level, knee, 5.0, 245.0);
                assert_near(dot.x, knee.x, 0.3);
                assert_near(dot.y, knee.y, 0.3);
            }
            free(level);
        }
    }
}

static void film__is_the_same_in_any_order(void **state)
{
    (void)state;
    const FilmLift lift = film_lift(PLUMB_DEADLIFT);
    FilmScene scene = film_scene(&lift);
    scene.width_px = 640;
    scene.height_px = 360;
    scene.shake_px = 2.0;
    const size_t bytes = (size_t)scene.width_px * (size_t)scene.height_px;
    uint8_t *const alone = film_rendered(&scene, 7);
    uint8_t *const later = malloc(bytes);
    FilmRender *const render = film_render_open(&scene);
    film_render_frame(render, 20, later);
    assert_int_not_equal(memcmp(alone, later, bytes), 0);
    film_render_frame(render, 7, later);
    assert_int_equal(memcmp(alone, later, bytes), 0);
    film_render_close(render);
    free(alone);
    free(later);
}

static void film__has_the_noise_light_and_shake_that_are_asked_for(void **state)
{
    (void)state;
    const FilmLift lift = film_lift(PLUMB_DEADLIFT);
    const FilmScene clean = clean_scene(&lift);
    FilmScene noisy = clean;
    noisy.noise_levels = 5.0;
    FilmScene uneven = clean;
    uneven.light_frac = 0.2;
    uint8_t *const plain = film_rendered(&clean, 0);
    uint8_t *const grainy = film_rendered(&noisy, 0);
    uint8_t *const lit = film_rendered(&uneven, 0);
    double squares = 0.0;
    const int count = clean.width_px * clean.height_px;
    for (int i = 0; i < count; i++) {
        squares += pow((double)grainy[i] - (double)plain[i], 2.0);
    }
    assert_near(sqrt(squares / count), 5.0, 0.1); /* levels; rounding adds 0.04 */
    const ptrdiff_t row = 100 * (ptrdiff_t)clean.width_px;
    assert_near(lit[row + 1279], 1.2 * plain[row + 1279], 1.2); /* one level of rounding */
    assert_near(lit[row], 0.8 * plain[row], 1.2);
    free(plain);
    free(grainy);
    free(lit);
    FilmScene shaken = clean;
    shaken.shake_px = 3.0;
    shaken.length_s = 60.0;
    const PlumbVec3 still = {0.0, 1.0, 0.0};
    double away = 0.0;
    for (int i = 0; i < film_count(&shaken); i++) {
        const PlumbVec2 there = film_point(&shaken, i, still);
        const PlumbVec2 here = film_point(&clean, 0, still);
        away += pow(there.x - here.x, 2.0);
    }
    /* a minute of slow sines, and a little roll */
    assert_near(sqrt(away / film_count(&shaken)), 3.0, 0.5);
}

static void film__hides_what_lies_behind(void **state)
{
    (void)state;
    const FilmLift lift = film_lift(PLUMB_DEADLIFT);
    FilmScene scene = clean_scene(&lift);
    const PlumbMarkName ankle = {PLUMB_MARK_ankle, PLUMB_NEAR, false};
    const int last = film_count(&scene) - 1;
    assert_true(film_hidden(&scene, 0, ankle)); /* the disc stands before it */
    assert_false(film_hidden(&scene, last, ankle));
    assert_false(film_hidden(&scene, last, disc_name));
    scene.hide_from_s = 0.0;
    scene.hide_to_s = 10.0;
    assert_true(film_hidden(&scene, last, disc_name));
    scene.hide_to_s = 0.0;
    scene.post_x_m = film_place(&scene, last, ankle).x * 0.8; /* on the way to the lens */
    assert_true(film_hidden(&scene, last, ankle));
}

static void film__moves_by_the_model(void **state)
{
    (void)state;
    const FilmLift lift = film_lift(PLUMB_SQUAT);
    PlumbPosition p;
    film_lift_at(&lift, 0.0, &p);
    assert_near(p.point[PLUMB_PT_hip].y, lift.answer.end.point[PLUMB_PT_hip].y, 1e-6);
    film_lift_at(&lift, film_lift_begin_s(&lift), &p);
    assert_near(p.point[PLUMB_PT_hip].y, lift.answer.start.point[PLUMB_PT_hip].y, 1e-6);
    film_lift_at(&lift, film_lift_length_s(&lift), &p);
    assert_near(p.point[PLUMB_PT_hip].y, lift.answer.end.point[PLUMB_PT_hip].y, 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(film__shows_marks_where_the_truth_says),
        cmocka_unit_test(film__is_the_same_in_any_order),
        cmocka_unit_test(film__has_the_noise_light_and_shake_that_are_asked_for),
        cmocka_unit_test(film__hides_what_lies_behind),
        cmocka_unit_test(film__moves_by_the_model),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
