/* SPDX-License-Identifier: MIT */
/* Two hundred damaged films: cut short, with flipped bits, with sizes that lie, other formats under
 * a film's name. Each ends with an error in words or with the frames that could be read, and words
 * on what was lost; none crashes the program or makes it wait. PLUMB_LONG=1 tries ten times as
 * many. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_encode.h"
#include "folder.h"

#include <plumbar/file.h>
#include <plumbar/frames.h>

#include <time.h>

enum { WIDTH = 160, HEIGHT = 96, COUNT = 30, PER_FILM = 50 };

/* A checked ground that wanders, so that every frame differs. */
static void checks(void *unused, int i, int width_px, int height_px, uint8_t *level)
{
    (void)unused;
    for (int y = 0; y < height_px; y++) {
        for (int x = 0; x < width_px; x++) {
            const int board = ((x + 3 * i) / 12 + (y + i) / 12) % 2;
            *level++ = (uint8_t)(60 + 100 * board + (x * 7 + y * 3 + i * 5) % 31);
        }
    }
}

static const struct {
    const char *name;
    const char *encoder;
    int between;
} goods[] = {{"good.mp4", "libx264", 2},
             {"good.mov", "mpeg4", 0},
             {"good.webm", "libvpx", 0},
             {"good.mkv", "libx264", 2}};

typedef struct Bytes {
    char *data;
    size_t length;
} Bytes;

static Bytes good_film(size_t k)
{
    const char *const path = in_folder(goods[k].name);
    const FilmCode code = {.path = path,
                           .encoder = goods[k].encoder,
                           .width_px = WIDTH,
                           .height_px = HEIGHT,
                           .count = COUNT,
                           .rate_per_s = 30.0,
                           .group = 10,
                           .between = goods[k].between,
                           .bits_per_s = 600000};
    film_encode(&code, checks, NULL);
    Bytes bytes;
    PlumbError error;
    assert_int_equal(plumb_file_read_whole(path, 10000000, &bytes.data, &bytes.length, &error),
                     PLUMB_OK);
    return bytes;
}

static uint64_t state;

static uint32_t drawn(uint32_t below)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return (uint32_t)((state >> 33) % below);
}

static size_t place(const Bytes *b, bool head)
{
    const size_t most = head && b->length > 600 ? 600 : b->length;
    return drawn((uint32_t)most);
}

/* What befalls a film: number n of its kind. Lengths never grow. */
static void cut(Bytes *b, int n)
{
    b->length = n == 0 ? 1 : b->length * (size_t)n / 13;
}

static void flip(Bytes *b, int n)
{
    for (int i = 0; i < 1 << n % 7; i++) {
        b->data[place(b, n % 2 == 1)] ^= (char)(1 << drawn(8));
    }
}

static void lie(Bytes *b, int n)
{
    static const unsigned char sizes[][4] = {{0xff, 0xff, 0xff, 0xff}, {0, 0, 0, 0},
                                             {0x7f, 0xff, 0xff, 0xff}, {0, 0, 0, 1},
                                             {0x00, 0xff, 0xff, 0xf0}, {0x80, 0, 0, 0}};
    for (int i = 0; i < 1 + n / 6; i++) {
        const size_t at = place(b, n % 3 != 0);
        if (at + 4 <= b->length) {
            memcpy(b->data + at, sizes[n % 6], 4);
        }
    }
}

static void scramble(Bytes *b, int n)
{
    const size_t length = b->length / 20 * (size_t)(1 + n % 4);
    const size_t from = drawn((uint32_t)(b->length - length));
    const size_t to = drawn((uint32_t)(b->length - length));
    if (n % 3 == 0) {
        memset(b->data + from, n % 2 == 0 ? 0 : 0xff, length);
    } else {
        memmove(b->data + to, b->data + from, length);
    }
}

static void (*const damages[])(Bytes *, int) = {cut, flip, lie, scramble};

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

typedef struct Tally {
    int errors;
    int whole;
    int partly;
} Tally;

/* Frames that were counted can be had, in order and out of it. */
static void read_frames(PlumbFrames *frames, const char *what)
{
    const int count = plumb_frames_count(frames);
    PlumbError error;
    PlumbGray gray;
    for (int k = 0; k < 12; k++) {
        const int i = k < 6 ? k % count : (int)drawn((uint32_t)count);
        if (plumb_frames_gray(frames, i, &gray, &error) != PLUMB_OK) {
            fail_msg("%s: frame %d of %d: %s", what, i, count, error.message);
        }
    }
    for (int i = 1; i < count; i++) {
        assert_true(plumb_frames_time_s(frames, i) > plumb_frames_time_s(frames, i - 1));
    }
}

static void try_film(const char *path, const char *what, Tally *tally)
{
    PlumbFramesOptions options = plumb_frames_options();
    options.film_program = PLUMB_FILM;
    options.cache_bytes = 0;
    PlumbFrames *frames = NULL;
    PlumbError error = {0};
    const double from_s = now_s();
    PlumbStatus status = plumb_frames_open(path, &options, &frames, &error);
    if (status == PLUMB_OK) {
        status = plumb_frames_survey(frames, 100000, NULL, &error);
    }
    if (status != PLUMB_OK) {
        assert_true(strlen(error.message) > 20);
        assert_string_equal(error.field, "file");
        tally->errors++;
    } else {
        const int count = plumb_frames_count(frames);
        read_frames(frames, what);
        /* The last two frames may be missing without a sign: a film's end is told to a frame. */
        if (count < COUNT - 2 && plumb_frames_lost(frames)[0] == '\0') {
            fail_msg("%s: %d of %d frames, and no word", what, count, COUNT);
        }
        tally->partly += plumb_frames_lost(frames)[0] != '\0' ? 1 : 0;
        tally->whole += plumb_frames_lost(frames)[0] == '\0' ? 1 : 0;
    }
    plumb_frames_close(frames);
    assert_true(now_s() - from_s < 60.0);
}

static void frames_video__ends_well_on_damaged_films(void **state_of_test)
{
    (void)state_of_test;
    const int per_film = is_long() ? 10 * PER_FILM : cases_of(PER_FILM);
    Tally tally = {0, 0, 0};
    for (size_t k = 0; k < sizeof goods / sizeof goods[0]; k++) {
        if (!film_encoder_found(goods[k].encoder)) {
            continue;
        }
        const Bytes good = good_film(k);
        for (int n = 0; n < per_film; n++) {
            char *const copy = malloc(good.length);
            assert_non_null(copy);
            memcpy(copy, good.data, good.length);
            Bytes bad = {copy, good.length};
            state = 1000 * k + (uint64_t)n;
            damages[n % 4](&bad, n / 4);
            PlumbError error;
            assert_int_equal(
                plumb_file_write_atomic(in_folder("bad.mp4"), bad.data, bad.length, &error),
                PLUMB_OK);
            free(copy);
            char what[64];
            snprintf(what, sizeof what, "%s, damage %d", goods[k].name, n);
            try_film(in_folder("bad.mp4"), what, &tally);
        }
        free(good.data);
    }
    print_message("%d errors, %d with words on what was lost, %d as if nothing had happened\n",
                  tally.errors, tally.partly, tally.whole);
    assert_true(tally.errors > per_film / 4); /* the damage is real, and not all of it deadly */
    assert_true(tally.partly > per_film / 4);
}

/* Other formats under a film's name: none of them is looked into, none opens another file. */
static void frames_video__refuses_other_formats(void **state_of_test)
{
    (void)state_of_test;
    static const char *const others[] = {
        "#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\nfile:///etc/hostname\n#EXT-X-ENDLIST\n",
        "ffconcat version 1.0\nfile '/etc/hostname'\n",
        "v=0\no=- 0 0 IN IP4 127.0.0.1\ns=x\nc=IN IP4 127.0.0.1\nm=video 5004 RTP/AVP 96\n",
        "RIFF\xff\xff\xff\x7f"
        "AVI LIST",
        "GIF89a\x01",
        "%PDF-1.4\n",
        "PK\x03\x04",
        "OggS",
        "#!/bin/sh\necho no film\n",
        "just words\n",
        "\x7f"
        "ELF",
        "<?xml version=\"1.0\"?><MPD><BaseURL>file:///etc/hostname</BaseURL></MPD>"};
    Tally tally = {0, 0, 0};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        PlumbError error;
        assert_int_equal(
            plumb_file_write_atomic(in_folder("other.mp4"), others[i], strlen(others[i]), &error),
            PLUMB_OK);
        try_film(in_folder("other.mp4"), others[i], &tally);
    }
    assert_int_equal(tally.errors, sizeof others / sizeof others[0]);
}

#define in_own_folder(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void)
{
    const struct CMUnitTest tests[] = {
        in_own_folder(frames_video__ends_well_on_damaged_films),
        in_own_folder(frames_video__refuses_other_formats),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
