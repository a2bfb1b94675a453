/* SPDX-License-Identifier: MIT */
/* The shared page: what it carries, its drawings, its policy, and that it asks for nothing. */
#include "scene_bench.h"

#include "report/advance.h"
#include "report/digest.h"
#include "report/embedded.h"
#include "report/pack.h"
#include "report/solved_drawing.h"

#include <plumbar/phone.h>
#include <plumbar/report.h>

#include <math.h>

static void assert_base64(const char *bytes, const char *expected)
{
    PlumbBuffer out = {0};
    plumb_base64(&out, (const unsigned char *)bytes, strlen(bytes));
    assert_int_equal(out.length, strlen(expected));
    assert_memory_equal(out.length > 0 ? (const char *)out.data : "", expected, out.length);
    free(out.data);
}

/* The examples of RFC 4648. */
static void base64__of_the_standard(void **state)
{
    (void)state;
    assert_base64("", "");
    assert_base64("f", "Zg==");
    assert_base64("fo", "Zm8=");
    assert_base64("foo", "Zm9v");
    assert_base64("foob", "Zm9vYg==");
    assert_base64("fooba", "Zm9vYmE=");
    assert_base64("foobar", "Zm9vYmFy");
}

/* The examples of FIPS 180-4, and lengths around a block's end by another implementation. */
static void sha256__of_the_standard(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        size_t repeat;
        unsigned char first[4];
    } row[] = {
        {"", 0, {0xe3, 0xb0, 0xc4, 0x42}},
        {"abc", 1, {0xba, 0x78, 0x16, 0xbf}},
        {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1, {0x24, 0x8d, 0x6a, 0x61}},
        {"a", 55, {0x9f, 0x43, 0x90, 0xf8}},
        {"a", 64, {0xff, 0xe0, 0x54, 0xfe}},
        {"a", 1000000, {0xcd, 0xc7, 0x6e, 0x5c}},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const size_t piece = strlen(row[i].text);
        char *const bytes = malloc(piece * row[i].repeat + 1);
        for (size_t k = 0; k < row[i].repeat; k++) {
            memcpy(bytes + k * piece, row[i].text, piece);
        }
        unsigned char digest[PLUMB_SHA256_SIZE];
        plumb_sha256((const unsigned char *)bytes, piece * row[i].repeat, digest);
        assert_memory_equal(digest, row[i].first, 4);
        free(bytes);
    }
}

static void advance_width__is_the_typeface_s(void **state)
{
    Bench *bench = *state;
    static const char *const text[] = {"Estimates for teaching: 26.8\xc2\xb0 \xc2\xb1 1.2 cm",
                                       "\xc3\x84rger \xc5\x82\xc3\xb3\xc5\xbc \xc3\xb1",
                                       "\xd0\x96\xd0\xb8\xd0\xbc \xce\xb1\xce\xb2",
                                       "\xe2\x80\x93 \xe2\x80\xa6 B = C"};
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
        const size_t length = strlen(text[i]);
        /* A unit of the typeface is 1/2048 em; the table is exact where cairo is. */
        assert_near(plumb_advance_width(NULL, text[i], length, 3.5),
                    plumb_font_width(bench->font, text[i], length, 3.5), 1e-6);
    }
    assert_near(plumb_advance_width(NULL, "\xf0\x9f\x8f\x8b\xff", 5, 1.0), 1.2, 1e-12);
}

static void shared__reads_back_to_the_bit(void **state)
{
    (void)state;
    unsigned long seed = 77;
    unsigned char *const bytes = malloc(PLUMB_SHARE_BYTES_MAX);
    unsigned char *const again = malloc(PLUMB_SHARE_BYTES_MAX);
    for (int i = 0; i < 200; i++) {
        const bool press = i % 3 == 2;
        PlumbShared shared = {.lifter = random_lifter(&seed)};
        shared.setup = press ? random_press_setup(&seed) : random_setup(&seed);
        shared.pencil = press ? random_press_setup(&seed) : random_setup(&seed);
        shared.has_pencil = i % 2 == 0;
        shared.units = i % 3 == 0 ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
        snprintf(shared.name, sizeof shared.name, "lifter %d", i);
        const size_t length = plumb_shared_write(&shared, bytes, PLUMB_SHARE_BYTES_MAX);
        assert_true(length > 0);
        PlumbShared read = {.has_pencil = false};
        assert_true(plumb_shared_read(bytes, length, &read));
        assert_int_equal(plumb_shared_write(&read, again, PLUMB_SHARE_BYTES_MAX), length);
        assert_memory_equal(bytes, again, length);
        assert_string_equal(read.name, shared.name);
        /* The answer shows whether anything that it depends on was lost. */
        PlumbSolved a;
        PlumbSolved b;
        plumb_solved_solve(&shared.lifter, &shared.setup, &a);
        plumb_solved_solve(&read.lifter, &read.setup, &b);
        assert_int_equal(plumb_solved_outcome(&a), plumb_solved_outcome(&b));
        for (int k = 0; k < plumb_lift_output_count(a.lift); k++) {
            const double was = plumb_solved_value(&a, k);
            const double is = plumb_solved_value(&b, k);
            assert_memory_equal(&was, &is, sizeof was);
        }
        /* Cut or foreign bytes are refused. */
        assert_false(plumb_shared_read(bytes, length - 1, &read));
        bytes[0] ^= 1;
        assert_false(plumb_shared_read(bytes, length, &read));
    }
    free(bytes);
    free(again);
}

static void compose_phone__nothing_overlaps_in_500_random_cases(void **state)
{
    Bench *bench = *state;
    static const double WIDTH_MM[5] = {61.4, 64.0, 74.0, 107.0, 180.0};
    unsigned long seed = 360;
    for (int i = 0; i < 500; i++) {
        const PlumbLifter lifter = random_lifter(&seed);
        const bool press = i % 3 == 2;
        const PlumbSetup setup = press ? random_press_setup(&seed) : random_setup(&seed);
        PlumbSetup other = press ? random_press_setup(&seed) : random_setup(&seed);
        other = other.lift == setup.lift ? other : setup;
        PlumbSolved inked;
        PlumbSolved pencil;
        plumb_solved_solve(&lifter, &setup, &inked);
        plumb_solved_solve(&lifter, &other, &pencil);
        PlumbDrawing drawing = plumb_drawing_solved(&lifter, &inked, i % 2 == 0 ? &pencil : NULL,
                                                    plumb_advance_width, NULL);
        drawing.name = "A. Lifter";
        drawing.date = "31 January 2026";
        drawing.units = i % 4 == 0 ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
        const double width = WIDTH_MM[i % 5];
        drawing.sight = width >= PLUMB_PHONE_BOTH_MM ? (press ? PLUMB_SEE_LEVEL : PLUMB_SEE_BOTH)
                        : i % 4 < 2                  ? PLUMB_SEE_SIDE
                        : press && i % 8 < 4         ? PLUMB_SEE_ABOVE
                                                     : PLUMB_SEE_FRONT;
        char what[32];
        snprintf(what, sizeof what, "views, case %d", i);
        PlumbFit fit = {.decided = false};
        plumb_compose_phone_views(bench->scene, &drawing, width, 50.0 + i % 7 * 8.0, &fit);
        assert_clear(bench->scene, what);
        snprintf(what, sizeof what, "table, case %d", i);
        plumb_compose_phone_table(bench->scene, &drawing, width);
        assert_clear(bench->scene, what);
        snprintf(what, sizeof what, "notes, case %d", i);
        plumb_compose_phone_notes(bench->scene, &drawing, width, fit.scale_n);
        assert_clear(bench->scene, what);
    }
}

static void compose_ruler__nothing_overlaps_and_pointers_stand_right(void **state)
{
    Bench *bench = *state;
    const PlumbLifter lifter = lifter_of(PLUMB_FEMALE, 1.65, 66.0, 0.0, 0.0);
    for (int lift = 0; lift < PLUMB_LIFT_COUNT; lift++) {
        const PlumbSetup setup = plumb_setup_default((PlumbLift)lift);
        PlumbSolved solved;
        plumb_solved_solve(&lifter, &setup, &solved);
        PlumbDrawing drawing =
            plumb_drawing_solved(&lifter, &solved, NULL, plumb_font_width, bench->font);
        for (int i = 0; i < 2 * PLUMB_SETTING_COUNT; i++) {
            const PlumbSetting *row = plumb_setting((PlumbSettingId)(i / 2));
            if (!row->lifts[lift] || row->quantity == PLUMB_Q_WORD) {
                continue;
            }
            drawing.units = i % 2 == 0 ? PLUMB_METRIC : PLUMB_POUNDS_INCHES;
            PlumbRuler ruler = {.id = row->id,
                                .value_si = 0.25 * row->min_si + 0.75 * row->max_si,
                                .pencil_si = row->min_si,
                                .least_si = row->min_si,
                                .most_si = row->max_si,
                                .held_count = 4,
                                .held = {true, true, false, true},
                                .travel_m = {0.5, 0.6, (double)NAN, 0.7},
                                .arm_m = {0.3, 0.3, (double)NAN, 0.3}};
            assert_false(plumb_ruler_is_idle(&ruler));
            plumb_compose_ruler(bench->scene, &drawing, &ruler, 61.4);
            assert_clear(bench->scene, row->key);
            /* The pointer is the last path; its tip stands at three quarters. */
            const PlumbItem *last = &bench->scene->item[bench->scene->item_count - 1];
            assert_int_equal(last->kind, PLUMB_ITEM_PATH);
            assert_near(bench->scene->point_mm[last->first].x,
                        PLUMB_RULER_AIR_MM + 0.75 * (61.4 - 2.0 * PLUMB_RULER_AIR_MM), 1e-9);
        }
    }
}

/* The page of a lift pencilled over itself, as text; freed by the caller. */
static char *page_of(PlumbLift lift, const char *name, size_t *length)
{
    PlumbLifterRecord record = plumb_lifter_record();
    record.spec = plumb_body_spec(PLUMB_FEMALE, 1.65, 66.0);
    record.sex_given = record.stature_given = record.mass_given = true;
    snprintf(record.name, sizeof record.name, "%s", name);
    const PlumbSetup setup = plumb_setup_default(lift);
    PlumbOrder order = plumb_order(&record, &setup, &setup);
    order.program = "plumbar test";
    PlumbBytes bytes = {.data = NULL};
    PlumbError error;
    assert_int_equal(plumb_share_make(&order, &bytes, &error), PLUMB_OK);
    char *const text = malloc(bytes.length + 1);
    memcpy(text, bytes.data, bytes.length);
    text[bytes.length] = '\0';
    *length = bytes.length;
    plumb_bytes_free(&bytes);
    return text;
}

static int count_of(const char *text, const char *piece)
{
    int count = 0;
    for (const char *at = strstr(text, piece); at != NULL; at = strstr(at + 1, piece)) {
        count++;
    }
    return count;
}

static void share_make__asks_for_nothing_and_says_so(void **state)
{
    (void)state;
    if (plumb_embedded_module_size == 0) {
        skip();
    }
    size_t length = 0;
    char *const page = page_of(PLUMB_BENCH, "A. Lifter", &length);
    assert_in_range(length, 60000, 250000);
    assert_int_equal(strlen(page), length);
    static const char *const never[] = {"src=", "href=",   "url(",    "@import", "fetch(",
                                        "eval", "import(", "XMLHttp", "{{"};
    for (size_t i = 0; i < sizeof never / sizeof never[0]; i++) {
        const int allowed = strcmp(never[i], "eval") == 0 ? 1 : 0; /* 'wasm-unsafe-eval' */
        if (count_of(page, never[i]) != allowed) {
            fail_msg("\"%s\" stands on the page", never[i]);
        }
    }
    /* Namespaces of the drawings are the only addresses. */
    assert_int_equal(count_of(page, "http"),
                     count_of(page, "xmlns=\"http://www.w3.org/2000/svg\"") +
                         count_of(page, "http-equiv"));
    assert_int_equal(count_of(page, "default-src 'none'; script-src 'sha256-"), 1);
    /* The long caution, and the line in each drawing's description. */
    assert_true(count_of(page, "not medical advice") >= 5);
    size_t again = 0;
    char *const second = page_of(PLUMB_BENCH, "A. Lifter", &again);
    assert_int_equal(again, length);
    assert_memory_equal(page, second, length);
    free(second);
    free(page);
}

static void share_make__names_are_text(void **state)
{
    (void)state;
    if (plumb_embedded_module_size == 0) {
        skip();
    }
    size_t length = 0;
    char *const page = page_of(PLUMB_SQUAT, "</title><script>alert('1')</script>\xff\"&", &length);
    assert_null(strstr(page, "<script>alert"));
    assert_non_null(strstr(page, "&lt;script&gt;alert(&#39;1&#39;)"));
    assert_int_equal(count_of(page, "</script>"), 3);
    free(page);
}

static void share_make__refuses_two_lifts_on_one_page(void **state)
{
    (void)state;
    if (plumb_embedded_module_size == 0) {
        skip();
    }
    PlumbLifterRecord record = plumb_lifter_record();
    record.spec = plumb_body_spec(PLUMB_FEMALE, 1.65, 66.0);
    record.sex_given = record.stature_given = record.mass_given = true;
    const PlumbSetup squat = plumb_setup_default(PLUMB_SQUAT);
    const PlumbSetup press = plumb_setup_default(PLUMB_BENCH);
    const PlumbOrder order = plumb_order(&record, &squat, &press);
    PlumbBytes bytes = {.data = NULL};
    PlumbError error;
    assert_int_equal(plumb_share_make(&order, &bytes, &error), PLUMB_BAD_INPUT);
    assert_null(bytes.data);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(base64__of_the_standard),
        cmocka_unit_test(sha256__of_the_standard),
        cmocka_unit_test(advance_width__is_the_typeface_s),
        cmocka_unit_test(shared__reads_back_to_the_bit),
        cmocka_unit_test(compose_phone__nothing_overlaps_in_500_random_cases),
        cmocka_unit_test(compose_ruler__nothing_overlaps_and_pointers_stand_right),
        cmocka_unit_test(share_make__asks_for_nothing_and_says_so),
        cmocka_unit_test(share_make__names_are_text),
        cmocka_unit_test(share_make__refuses_two_lifts_on_one_page),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
