/* SPDX-License-Identifier: MIT */
/* The window without a screen: what its drawing holds for random bodies, set-ups, pages and sizes,
 * and that no order of events brings it down. PLUMB_LONG=1 in the environment asks for the long
 * run. */
#include "scene_bench.h"

#ifdef PLUMB_HAS_VIEWER

#include "viewer/page_trace.h"
#include "viewer/working.h"
#include "window_bench.h"

#include <plumbar/file.h>

#include <unistd.h>

enum { CASES_SHORT = 60, CASES_LONG = 500, EVENTS_SHORT = 2000, EVENTS_LONG = 20000 };

/* A mark of a picture. */
typedef struct Placed {
    PlumbMarkName name;
    double x_px;
    double y_px;
} Placed;

/* A pull from the side; a press from the side, straight, and from the head end, at the touch. */
static const Placed PULL[] = {{{PLUMB_MARK_heel, PLUMB_NEAR, false}, 890, 740},
                              {{PLUMB_MARK_knee, PLUMB_NEAR, false}, 959, 604},
                              {{PLUMB_MARK_hip, PLUMB_NEAR, false}, 848, 588},
                              {{PLUMB_MARK_shoulder, PLUMB_NEAR, false}, 935, 480},
                              {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 931, 603},
                              {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 999, 654},
                              {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 971, 739},
                              {{PLUMB_MARK_plumb, PLUMB_NEAR, false}, 1170, 677},
                              {{PLUMB_MARK_plumb, PLUMB_NEAR, false}, 1168, 284}};
static const Placed PRESS_SIDE[] = {{{PLUMB_MARK_shoulder, PLUMB_NEAR, false}, 582, 462},
                                    {{PLUMB_MARK_elbow, PLUMB_NEAR, false}, 580, 390},
                                    {{PLUMB_MARK_disc_centre, PLUMB_NEAR, false}, 572, 296},
                                    {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 572, 221},
                                    {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 644, 273},
                                    {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 616, 357},
                                    {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 528, 357},
                                    {{PLUMB_MARK_disc, PLUMB_NEAR, false}, 501, 273},
                                    {{PLUMB_MARK_plumb, PLUMB_NEAR, false}, 883, 502},
                                    {{PLUMB_MARK_plumb, PLUMB_NEAR, false}, 883, 176}};
static const Placed PRESS_END[] = {{{PLUMB_MARK_shoulder, PLUMB_NEAR, true}, 684, 512},
                                   {{PLUMB_MARK_elbow, PLUMB_NEAR, true}, 734, 540},
                                   {{PLUMB_MARK_wrist, PLUMB_NEAR, true}, 734, 473},
                                   {{PLUMB_MARK_disc_centre, PLUMB_NEAR, true}, 825, 457},
                                   {{PLUMB_MARK_shoulder, PLUMB_FAR, true}, 594, 512},
                                   {{PLUMB_MARK_elbow, PLUMB_FAR, true}, 544, 540},
                                   {{PLUMB_MARK_wrist, PLUMB_FAR, true}, 544, 473},
                                   {{PLUMB_MARK_disc_centre, PLUMB_FAR, true}, 453, 457}};

/* The marks of a view of the lift on the desk, here and there moved; their picture is not to be
 * found. */
static void put_marks(PlumbDesk *desk, unsigned long *seed)
{
    const bool press = desk->now.lift == PLUMB_BENCH;
    const bool end = press && next_random(seed) < 0.5;
    const Placed *const mark = end ? PRESS_END : press ? PRESS_SIDE : PULL;
    const size_t count = end     ? sizeof PRESS_END / sizeof PRESS_END[0]
                         : press ? sizeof PRESS_SIDE / sizeof PRESS_SIDE[0]
                                 : sizeof PULL / sizeof PULL[0];
    PlumbMarked *const marked = &desk->now.marked;
    memset(marked, 0, sizeof *marked);
    plumb_marks_picture(&marked->marks, "a picture that is gone.jpg", 26);
    marked->front[0] = end;
    for (size_t i = 0; i < count; i++) {
        plumb_marked_add(marked, mark[i].name,
                         (PlumbVec2){mark[i].x_px + between(seed, -6.0, 6.0),
                                     mark[i].y_px + between(seed, -6.0, 6.0)});
    }
    plumb_desk_touch(desk);
}

/* Texts of one zone must not meet; those of the last slice stand in front of all, and not over one
 * another. */
static void assert_zones_clear(const PlumbDesk *desk, const char *what)
{
    PlumbScene *const scene = desk->scene;
    const int all = scene->item_count;
    const int front = desk->slices.slice[desk->slices.count - 1].first;
    scene->item_count = front;
    assert_clear(scene, what);
    scene->item_count = all;
    assert_clear_from(scene, front, what);
}

/* What stands over the pages for a while. */
typedef enum Over { OVER_NOTHING, OVER_KEYS, OVER_CARD, OVER_WORKING, OVER_FORM, OVER_COUNT } Over;

static void put_over(PlumbDesk *desk, Over over, int which)
{
    desk->keys_shown = over == OVER_KEYS;
    desk->card =
        over == OVER_CARD ? (PlumbCard)(PLUMB_CARD_MEASURING + which % 3) : PLUMB_CARD_NONE;
    desk->worked->on = over == OVER_WORKING;
    if (over == OVER_WORKING) {
        plumb_working_step(desk, which);
        desk->worked->top_mm = 40.0 * (which % 4);
    }
    if (over == OVER_FORM) {
        plumb_command_run(desk, PLUMB_CMD_NEW);
    } else {
        plumb_desk_say(desk, false, "");
    }
}

/* Size of the window in pixels and text of a case; every page, unit, paper, set of rulers and what
 * stands over them comes with every size in turn. */
static void dress(PlumbDesk *desk, int i)
{
    static const double SIZE[4][3] = {
        {1024, 640, 1.0}, {1280, 800, 1.0}, {2560, 1600, 1.0}, {1280, 800, 2.0}};
    const double *const size = SIZE[i % 4];
    resize(desk, size[0], size[1], i % 8 == 4 ? 2.0 : size[2]);
    desk->page = (PlumbPage)((i / 4) % PLUMB_PAGE_COUNT);
    desk->units = i % 3 == 0 ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
    desk->paper = i % 2 == 0 ? PLUMB_LIGHT_PAPER : PLUMB_DARK_PAPER;
    desk->body_shown = i % 5 == 0;
}

static void window__nothing_overlaps(void **state)
{
    (void)state;
    unsigned long seed = 20260301UL;
    unsigned long press_seed = 20260303UL;
    const int cases = is_long() ? CASES_LONG : cases_of(CASES_SHORT);
    for (int i = 0; i < cases; i++) {
        const PlumbLifter lifter = random_lifter(&seed);
        const PlumbSetup stand = random_setup(&seed);
        const PlumbSetup setup = i % 3 == 2 ? random_press_setup(&press_seed) : stand;
        PlumbDesk *const desk =
            open_desk(&lifter, &setup, i % 3 == 0 ? "a set-up whose name is quite long" : "pull");
        dress(desk, i);
        if (i % 7 == 0) {
            strcpy(desk->now.record.name, "Maximiliane Konstantinopolskaja-Feuerstein");
        }
        if (next_random(&seed) < 0.5) {
            plumb_command_run(desk, PLUMB_CMD_PENCIL);
            desk->now.setup[setup.lift].load_kg += 20.0;
            desk->now.setup[setup.lift].arch_m += 0.02;
            plumb_desk_touch(desk);
        }
        if (desk->page == PLUMB_PAGE_TRACE && i % 7 != 0) {
            put_marks(desk, &seed);
        }
        finish(desk);
        for (int over = 0; over < OVER_COUNT; over++) {
            put_over(desk, (Over)over, i / 4);
            frame(desk);
            char what[96];
            snprintf(what, sizeof what, "case %d, page %s, %.0f px, text %.0f %%, front %d", i,
                     plumb_page_name(desk->page), desk->width_mm * PLUMB_WINDOW_PX_PER_MM,
                     100.0 * desk->text_scale, over);
            assert_zones_clear(desk, what);
        }
        plumb_desk_destroy(desk);
    }
}

static void random_key(PlumbDesk *desk, unsigned long *seed)
{
    static const int KEY[] = {9,          13,         27,         ' ',        127,
                              8,          0x4000004F, 0x40000050, 0x40000051, 0x40000052,
                              0x4000004A, 0x4000004D, 0x4000003A, 0x4000003B, 0x4000003C,
                              0x4000003D, 0x4000003E, 0x4000003F, 0x4000004B, 0x4000004E,
                              0x40000041, '.',        ',',        '+',        '-'};
    const int count = (int)(sizeof KEY / sizeof KEY[0]);
    const unsigned mods = next_random(seed) < 0.2   ? (unsigned)PLUMB_MOD_CTRL
                          : next_random(seed) < 0.2 ? (unsigned)PLUMB_MOD_SHIFT
                                                    : 0U;
    const int key = next_random(seed) < 0.5 ? KEY[(int)(next_random(seed) * count)]
                                            : 'a' + (int)(next_random(seed) * 26.0);
    plumb_hand_key(desk, key, mods, next_random(seed) < 0.2);
    if (next_random(seed) < 0.5) {
        plumb_hand_key_up(desk);
    }
}

static void random_event(PlumbDesk *desk, unsigned long *seed)
{
    static const char *const TEXT[] = {"4", "5 cm", "\xC3\xA4", "deg", "-", "male", "80kg", " "};
    const PlumbVec2 at = {between(seed, -5.0, desk->width_mm + 5.0),
                          between(seed, -5.0, desk->height_mm + 5.0)};
    const double kind = next_random(seed);
    if (kind < 0.35) {
        random_key(desk, seed);
    } else if (kind < 0.5) {
        plumb_hand_press(desk, at, next_random(seed) < 0.2 ? 2 : 1);
    } else if (kind < 0.7) {
        plumb_hand_move(desk, at);
    } else if (kind < 0.85) {
        plumb_hand_release(desk, at);
    } else if (kind < 0.95) {
        plumb_hand_wheel(desk, at, next_random(seed) < 0.5 ? 1 : -2);
    } else {
        plumb_hand_text(desk, TEXT[(int)(next_random(seed) * 8.0)]);
    }
}

/* A click on a finding of a press goes to the ruler that bears on it, and selects its arm. */
static void press__finding_goes_to_what_it_speaks_of(void **state)
{
    (void)state;
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.78, 85.0, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.10;
    plumb_setup_set(&setup, PLUMB_SET_grip, 0.95);
    PlumbDesk *const desk = open_desk(&lifter, &setup, "");
    desk->width_mm = 320.0;
    desk->height_mm = 200.0;
    plumb_desk_say(desk, false, "");
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, PLUMB_SET_load);
    frame(desk);
    PlumbVec2 at = {-1.0, -1.0};
    for (int i = 0; i < desk->scene->item_count; i++) {
        const PlumbItem *const item = &desk->scene->item[i];
        if (item->kind == PLUMB_ITEM_TEXT && item->tag.kind == PLUMB_TAG_FINDING &&
            item->tag.id == (int)PLUMB_FIND_grip_over_rule) {
            at = (PlumbVec2){item->at_mm.x + 1.0, item->at_mm.y - 0.5};
        }
    }
    assert_true(at.x > 0.0);
    plumb_hand_press(desk, at, 1);
    plumb_hand_release(desk, at);
    assert_true(plumb_desk_has_focus(desk, PLUMB_WIDGET_RULER, PLUMB_SET_grip));
    plumb_desk_select(desk, PLUMB_PRESS_JOINT_elbow_extension);
    assert_int_equal(plumb_desk_arm(desk), PLUMB_PRESS_JOINT_elbow_extension);
    plumb_desk_select(desk, PLUMB_JOINT_shoulder); /* an arm that a press has not */
    assert_int_equal(plumb_desk_arm(desk), PLUMB_PRESS_JOINT_elbow_extension);
    plumb_desk_destroy(desk);
}

/* Whatever is typed may end up as the name of a file: the test works in a folder of its own. */
static void events__of_any_order_leave_a_desk_that_holds(void **state)
{
    (void)state;
    char folder[] = "/tmp/plumbar-window-XXXXXX";
    char back[4096];
    assert_non_null(getcwd(back, sizeof back));
    assert_non_null(mkdtemp(folder));
    assert_int_equal(chdir(folder), 0);
    unsigned long seed = 20260302UL;
    const PlumbLifter lifter = lifter_of(PLUMB_FEMALE, 1.68, 66.0, 0.0, 0.0);
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbDesk *const desk = open_desk(&lifter, &setup, "");
    desk->width_mm = 320.0;
    desk->height_mm = 200.0;
    frame(desk);
    put_marks(desk, &seed);
    const int events = is_long() ? EVENTS_LONG : cases_of(EVENTS_SHORT);
    for (int i = 0; i < events; i++) {
        plumb_desk_settle(desk);
        if (i == events / 2) { /* a press for the other half */
            plumb_desk_keep(desk, 0);
            desk->now.lift = PLUMB_BENCH;
            desk->page = PLUMB_PAGE_TRACE;
            put_marks(desk, &seed);
            plumb_desk_settle(desk);
        }
        random_event(desk, &seed);
        desk->quit = false;
        /* Redraws are coalesced, as where events come fast. */
        if (i % 8 == 7) {
            frame(desk);
            plumb_work(desk, 0.001, desk->drag.on);
            plumb_pages_work(desk, i % 64 == 63 ? 0.01 : 0.001);
            assert_false(desk->scene->full);
            assert_true(desk->widget_count < PLUMB_WIDGETS_MAX);
        }
        PlumbError error;
        assert_int_equal(plumb_setup_check(plumb_desk_setup(desk), &error), PLUMB_OK);
        assert_true(desk->history.past_count <= PLUMB_HISTORY_MAX);
    }
    while (plumb_desk_undo(desk)) {
    }
    frame(desk);
    assert_false(desk->scene->full);
    plumb_desk_destroy(desk);
    assert_int_equal(chdir(back), 0);
    char command[64];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    assert_int_equal(system(command), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(press__finding_goes_to_what_it_speaks_of),
        cmocka_unit_test(window__nothing_overlaps),
        cmocka_unit_test(events__of_any_order_leave_a_desk_that_holds),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}

#else

int main(void)
{
    return 0;
}

#endif
