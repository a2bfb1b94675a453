/* SPDX-License-Identifier: MIT */
/* A rendered lift packed as cameras pack it goes through plumbar trace film: the child that unpacks
 * it, following, fit, findings. The figures are those of the same frames as PNG, and of the truth.
 * PLUMB_LONG=1: all codecs and rates. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_encode.h"
#include "film_fault.h"
#include "film_folder.h"

#include <jansson.h>

enum { FRAMES_MAX = 260, FINDINGS_MAX = 16 };

/* How a film is packed. */
typedef struct Pack {
    const char *name; /* its ending chooses the container */
    const char *encoder;
    double rate_per_s;
    int turns;   /* stored on its side; the player turns it upright */
    bool uneven; /* frames at uneven times, some dropped */
    bool always;
} Pack;

static const Pack packs[] = {
    {"a.mp4", "libx264", 30.0, 0, false, true},      {"b.mp4", "libx264", 30.0, 1, false, true},
    {"c.mp4", "libx264", 120.0, 0, true, true},      {"d.mkv", "libx264", 30.0, 0, false, false},
    {"e.webm", "libvpx-vp9", 30.0, 0, false, false}, {"f.webm", "libvpx", 30.0, 0, false, false},
    {"g.mp4", "libx265", 30.0, 3, false, false},     {"h.mov", "mjpeg", 30.0, 2, false, false},
    {"i.mkv", "libvpx-vp9", 120.0, 0, true, false},  {"j.mp4", "libx264", 24.0, 0, false, false},
    {"k.mp4", "libx264", 60.0, 0, false, false},     {"l.mp4", "libx264", 120.0, 0, false, false},
};

/* What the program told. */
typedef struct Told {
    int count;
    double time_s[FRAMES_MAX];
    PlumbVec2 bar_m[FRAMES_MAX];
    double back_deg[FRAMES_MAX];
    double event_s[PLUMB_EVENT_COUNT];
    int findings;
    char verdict[FINDINGS_MAX][16];
} Told;

static double number(const json_t *object, const char *key)
{
    return json_number_value(json_object_get(object, key));
}

/* Runs the program on a film; words: more of the command line. */
static void read_film(const char *film, const char *words, Told *told)
{
    char line[6 * PATH_SIZE];
    json_error_t error;
    snprintf(line, sizeof line,
             "%s trace film %s %s deadlift sex=female stature=168cm mass=66kg distance=5m %s "
             "--json -o %s",
             PLUMB_PROGRAM, film, in_folder("m.csv"), words, in_folder("film.json"));
    assert_int_equal(system(line), 0);
    json_t *const root = json_load_file(in_folder("film.json"), 0, &error);
    assert_non_null(root);
    const json_t *const frames = json_object_get(root, "frames");
    const json_t *const findings = json_object_get(root, "findings");
    told->count = (int)json_array_size(frames);
    told->findings = (int)json_array_size(findings);
    assert_in_range(told->count, 1, FRAMES_MAX);
    assert_in_range(told->findings, 1, FINDINGS_MAX);
    for (int i = 0; i < told->count; i++) {
        const json_t *const frame = json_array_get(frames, (size_t)i);
        told->time_s[i] = number(frame, "time_s");
        told->bar_m[i] = (PlumbVec2){number(frame, "bar_x_m"), number(frame, "bar_height_m")};
        told->back_deg[i] = number(frame, "back_rad") * 180.0 / PLUMB_PI;
    }
    for (int i = 0; i < told->findings; i++) {
        const json_t *const finding = json_array_get(findings, (size_t)i);
        snprintf(told->verdict[i], sizeof told->verdict[i], "%s",
                 json_string_value(json_object_get(finding, "verdict")));
    }
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        const json_t *const event =
            json_object_get(json_object_get(root, "events"), plumb_event_name((PlumbEvent)i));
        told->event_s[i] =
            json_is_null(json_object_get(event, "time_s")) ? (double)NAN : number(event, "time_s");
    }
    json_decref(root);
}

/* ---- pictures */

/* A film as it is packed: which frames of the scene, and how they lie. */
typedef struct Reel {
    FilmScene scene;
    FilmRender *render;
    uint8_t *upright;
    int turns;
    int count;
    int frame[FRAMES_MAX];
    double time_s[FRAMES_MAX];
} Reel;

static void picture(void *context, int i, int width_px, int height_px, uint8_t *to)
{
    Reel *const reel = context;
    film_render_frame(reel->render, reel->frame[i], reel->upright);
    for (int y = 0; y < height_px; y++) {
        for (int x = 0; x < width_px; x++) {
            const int u = reel->turns == 0   ? x
                          : reel->turns == 1 ? height_px - 1 - y
                          : reel->turns == 2 ? width_px - 1 - x
                                             : y;
            const int v = reel->turns == 0   ? y
                          : reel->turns == 1 ? x
                          : reel->turns == 2 ? height_px - 1 - y
                                             : width_px - 1 - x;
            to[y * width_px + x] = reel->upright[v * WIDTH + u];
        }
    }
}

/* Frames of a scene of 120 a second at steps of 25, 33, 42 and 83 ms; the marked ones
 * (0.5 and 1 s, the end) are among them. */
static void choose_frames(Reel *reel, bool uneven)
{
    static const int steps[] = {4, 3, 5, 4, 4, 10};
    const int last = film_count(&reel->scene) - 1;
    reel->count = 0;
    for (int f = 0, i = 0; f <= last; i++) {
        reel->frame[reel->count] = f;
        reel->time_s[reel->count++] = film_time_s(&reel->scene, f);
        f += uneven ? steps[i % 6] : 1;
    }
}

static void open_reel(Reel *reel, const Pack *pack)
{
    reel->scene = small_scene(&lift);
    reel->scene.rate_per_s = pack->rate_per_s;
    reel->turns = pack->turns;
    reel->upright = film_memory(WIDTH * HEIGHT);
    reel->render = film_render_open(&reel->scene);
    choose_frames(reel, pack->uneven);
    put_marks(&reel->scene, in_folder("m.csv"), false, pack->uneven);
}

static void close_reel(Reel *reel)
{
    film_render_close(reel->render);
    free(reel->upright);
}

/* The same frames as PNG, and none of what the folder held before. */
static void read_raw(const Pack *pack, Reel *reel, Told *told)
{
    char words[32];
    char name[32] = "f0.png";
    for (int i = 1; remove(in_folder(name)) == 0; i++) {
        snprintf(name, sizeof name, "f%d.png", i);
    }
    for (int i = 0; i < reel->count; i++) {
        snprintf(name, sizeof name, "f%d.png", i);
        film_render_frame(reel->render, reel->frame[i], reel->upright);
        put_frame(name, reel->upright, false);
    }
    snprintf(words, sizeof words, "rate=%g", pack->rate_per_s);
    read_film(folder, words, told);
}

static void read_packed(const Pack *pack, Reel *reel, Told *told)
{
    const bool lying = pack->turns % 2 != 0;
    const FilmCode code = {.path = in_folder(pack->name),
                           .encoder = pack->encoder,
                           .width_px = lying ? HEIGHT : WIDTH,
                           .height_px = lying ? WIDTH : HEIGHT,
                           .count = reel->count,
                           .rate_per_s = pack->uneven ? 30.0 : pack->rate_per_s,
                           .time_s = reel->time_s,
                           .group = 30,
                           .between = strcmp(pack->encoder, "libx264") == 0 ? 2 : 0,
                           .turns = pack->turns,
                           .bits_per_s = 1500000}; /* as 6 Mbit/s at 720p */
    film_encode(&code, picture, reel);
    char path[2 * PATH_SIZE];
    snprintf(path, sizeof path, "%s", in_folder(pack->name));
    read_film(path, "", told);
}

/* ---- what is asked */

static double high(double *x, int count)
{
    film_sort(x, count);
    return x[count * 95 / 100];
}

/* Against the truth, at half of 720p: path 5 mm, back 2°, lift-off within a frame, silent. */
static void hold(const Pack *pack, const Told *told)
{
    static double path_mm[FRAMES_MAX];
    static double back_deg[FRAMES_MAX];
    PlumbVec2 off = {0.0, 0.0};
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < told->count; i++) {
            PlumbPosition p;
            film_lift_at(&lift, told->time_s[i], &p);
            const double x = told->bar_m[i].x - p.point[PLUMB_PT_bar].x;
            const double y = told->bar_m[i].y - p.point[PLUMB_PT_bar].y;
            if (k == 0) {
                off.x += x / told->count;
                off.y += y / told->count;
            }
            path_mm[i] = 1000.0 * hypot(x - off.x, y - off.y);
            back_deg[i] = fabs(told->back_deg[i] - p.angle_rad[PLUMB_ANG_back] * 180.0 / PLUMB_PI);
        }
    }
    FilmTruth truth;
    film_truth(&scene, &lift, &truth);
    const double late = (told->event_s[PLUMB_EVENT_lift_off] - truth.begin_s) * 30.0;
    const double path = high(path_mm, told->count);
    const double back = high(back_deg, told->count);
    printf("%-8s %-10s %5.0f a second: path %.1f mm, back %.1f°, lift-off %+.2f frames\n",
           pack->name, pack->encoder, pack->rate_per_s, path, back, late);
    fflush(stdout);
    assert_true(path < 5.0);
    assert_true(back < 2.0);
    assert_near(late, 0.0, 1.0);
    for (int i = 0; i < told->findings; i++) {
        assert_string_not_equal(told->verdict[i], "beyond");
    }
}

/* Against the same frames unpacked: path 3 mm, back 1°, events half a frame, verdicts the same. */
static void compare(const Told *told, const Told *raw, double rate_per_s)
{
    static double path_mm[FRAMES_MAX];
    static double back_deg[FRAMES_MAX];
    assert_int_equal(told->count, raw->count);
    for (int i = 0; i < told->count; i++) {
        assert_near(told->time_s[i], raw->time_s[i], 1e-3); /* the clock of Matroska */
        path_mm[i] =
            1000.0 * hypot(told->bar_m[i].x - raw->bar_m[i].x, told->bar_m[i].y - raw->bar_m[i].y);
        back_deg[i] = fabs(told->back_deg[i] - raw->back_deg[i]);
    }
    const double path = high(path_mm, told->count);
    const double back = high(back_deg, told->count);
    printf("                    from the same frames: path %.1f mm, back %.1f°\n", path, back);
    assert_true(path < 3.0);
    assert_true(back < 1.0);
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        assert_true(isnan(told->event_s[i]) == isnan(raw->event_s[i]));
        assert_true(isnan(raw->event_s[i]) ||
                    fabs(told->event_s[i] - raw->event_s[i]) < 0.5 / fmin(rate_per_s, 30.0));
    }
    assert_int_equal(told->findings, raw->findings);
    for (int i = 0; i < raw->findings; i++) {
        assert_string_equal(told->verdict[i], raw->verdict[i]);
    }
}

static void films__are_the_same_as_their_frames(void **state)
{
    static Told raw;
    static Told told;
    static Reel reel;
    double held = 0.0;
    (void)state;
    for (size_t k = 0; k < sizeof packs / sizeof packs[0]; k++) {
        const Pack *const pack = &packs[k];
        if (!pack->always && getenv("PLUMB_LONG") == NULL) {
            continue;
        }
        if (!film_encoder_found(pack->encoder)) {
            print_message("left out: %s is not installed\n", pack->encoder);
            continue;
        }
        open_reel(&reel, pack);
        if (!pack->uneven && pack->rate_per_s != held) {
            held = pack->rate_per_s;
            read_raw(pack, &reel, &raw);
        }
        read_packed(pack, &reel, &told);
        hold(pack, &told);
        if (!pack->uneven) {
            compare(&told, &raw, pack->rate_per_s);
        }
        close_reel(&reel);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(films__are_the_same_as_their_frames),
    };
    return cmocka_run_group_tests(tests, make_film, remove_folder);
}
