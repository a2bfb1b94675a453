/* SPDX-License-Identifier: MIT */
/* What the tests of drawings share: a typeface, a scene, random lifters and set-ups, and a check
 * that no text meets another. */
#ifndef PLUMBAR_TESTS_SCENE_BENCH_H
#define PLUMBAR_TESTS_SCENE_BENCH_H

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

static inline int bench_open(void **state)
{
    Bench *bench = calloc(1, sizeof *bench);
    bench->font = plumb_font_create();
    bench->scene = calloc(1, sizeof *bench->scene);
    *state = bench;
    return bench->font != NULL && bench->scene != NULL ? 0 : 1;
}

static inline int bench_close(void **state)
{
    Bench *bench = *state;
    plumb_font_destroy(bench->font);
    free(bench->scene);
    free(bench);
    plumb_draw_finish();
    return 0;
}

static inline PlumbLifter lifter_of(PlumbSex sex, double stature_m, double mass_kg, double thigh_sd,
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

static inline PlumbDrawing drawing_of(Bench *bench, const PlumbLifter *lifter,
                                      const PlumbSetup *setup)
{
    plumb_answer_solve(lifter, setup, &bench->answer);
    PlumbDrawing drawing =
        plumb_drawing_default(lifter, &bench->answer, plumb_font_width, bench->font);
    drawing.name = "A. Lifter";
    drawing.date = "31 January 2026";
    return drawing;
}

/* Repeatable numbers in [0, 1): the minimal standard generator of Park and Miller. */
static inline double next_random(unsigned long *seed)
{
    *seed = *seed * 48271UL % 2147483647UL;
    return (double)*seed / 2147483647.0;
}

static inline double between(unsigned long *seed, double low, double high)
{
    return low + (high - low) * next_random(seed);
}

static inline bool boxes_meet(PlumbRect a, PlumbRect b)
{
    return a.x_mm < b.x_mm + b.width_mm && b.x_mm < a.x_mm + a.width_mm &&
           a.y_mm < b.y_mm + b.height_mm && b.y_mm < a.y_mm + a.height_mm;
}

/* Fails where a text from the first item on leaves the paper or meets another of these, or the
 * scene overflowed. */
static inline void assert_clear_from(const PlumbScene *scene, int first, const char *what)
{
    assert_false(scene->full);
    for (int i = first; i < scene->item_count; i++) {
        if (scene->item[i].kind != PLUMB_ITEM_TEXT) {
            continue;
        }
        const PlumbRect a = scene->item[i].box_mm;
        if (a.x_mm < 0.0 || a.y_mm < 0.0 || a.x_mm + a.width_mm > scene->width_mm ||
            a.y_mm + a.height_mm > scene->height_mm) {
            fail_msg("%s: \"%s\" leaves the paper", what,
                     plumb_scene_item_text(scene, &scene->item[i]));
        }
        for (int j = first; j < i; j++) {
            if (scene->item[j].kind == PLUMB_ITEM_TEXT && boxes_meet(a, scene->item[j].box_mm)) {
                fail_msg("%s: \"%s\" over \"%s\"", what,
                         plumb_scene_item_text(scene, &scene->item[i]),
                         plumb_scene_item_text(scene, &scene->item[j]));
            }
        }
    }
}

static inline void assert_clear(const PlumbScene *scene, const char *what)
{
    assert_clear_from(scene, 0, what);
}

/* How many texts contain the words. */
static inline int count_text(const PlumbScene *scene, const char *words)
{
    int count = 0;
    for (int i = 0; i < scene->item_count; i++) {
        const char *text = plumb_scene_item_text(scene, &scene->item[i]);
        count += strstr(text, words) != NULL ? 1 : 0;
    }
    return count;
}

static inline int count_kind(const PlumbScene *scene, PlumbTagKind kind, int id)
{
    int count = 0;
    for (int i = 0; i < scene->item_count; i++) {
        count += scene->item[i].tag.kind == kind && scene->item[i].tag.id == id ? 1 : 0;
    }
    return count;
}

/* A set-up drawn at random within what people try, and beyond what holds. */
static inline PlumbSetup random_setup(unsigned long *seed)
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

static inline PlumbSetup random_press_setup(unsigned long *seed)
{
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = between(seed, 0.20, 1.20);
    setup.load_kg = between(seed, 0.0, 400.0);
    setup.arch_m = between(seed, 0.0, 0.15);
    setup.lead = next_random(seed) < 0.3 ? PLUMB_LEAD_AUTO : PLUMB_LEAD_TOUCH;
    setup.touch_m = between(seed, -0.05, 0.25);
    setup.elbows_given = next_random(seed) < 0.5;
    setup.elbows_rad = between(seed, 0.35, 1.57);
    setup.lockout_over_m = between(seed, -0.10, 0.10);
    setup.hands_push_frac = between(seed, -0.3, 0.4);
    setup.path_exponent = between(seed, 1.0, 3.0);
    return setup;
}

static inline PlumbLifter random_lifter(unsigned long *seed)
{
    const PlumbSex sex = next_random(seed) < 0.5 ? PLUMB_MALE : PLUMB_FEMALE;
    const double stature_m = between(seed, 1.20, 2.30);
    const double mass_kg = between(seed, 30.0, 250.0);
    const double thigh_sd = between(seed, -4.0, 4.0);
    return lifter_of(sex, stature_m, mass_kg, thigh_sd, between(seed, -4.0, 4.0));
}

#endif
