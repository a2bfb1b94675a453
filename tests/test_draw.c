/* SPDX-License-Identifier: MIT */
/* The writers: SVG that is well formed and keeps its text, PNG and PDF that repeat. */
#include "support.h"

#include <plumbar/draw.h>

#include <stdlib.h>
#include <string.h>

static int scene_open(void **state)
{
    *state = calloc(1, sizeof(PlumbScene));
    return *state != NULL ? 0 : 1;
}

static int scene_close(void **state)
{
    free(*state);
    plumb_draw_finish();
    return 0;
}

static const PlumbTag NO_TAG = {PLUMB_TAG_NONE, 0};

/* One item of each kind; text is set at (20, 30). */
static void fill_scene(PlumbScene *scene, const char *text)
{
    const PlumbPen line = {PLUMB_ROLE_ink, 0.5, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen chain = {PLUMB_ROLE_bar, 0.25, PLUMB_CHAIN, PLUMB_ROLE_limb};
    plumb_scene_begin(scene, 60.0, 40.0);
    strcpy(scene->title, "A & B <title>");
    strcpy(scene->description, "What is \"drawn\"");
    plumb_scene_line(scene, line, NO_TAG, (PlumbVec2){1.0, 2.0}, (PlumbVec2){59.0, 2.0});
    plumb_scene_rect(scene, chain, NO_TAG, (PlumbRect){5.0, 5.0, 10.0, 10.0});
    plumb_scene_circle(scene, line, NO_TAG, (PlumbVec2){30.0, 12.0}, 4.0);
    plumb_scene_arc(scene, line, NO_TAG, (PlumbVec2){45.0, 12.0}, 5.0, 0.0, 1.5707963267948966);
    plumb_scene_text(scene, PLUMB_ROLE_ink, NO_TAG, (PlumbVec2){20.0, 30.0}, 3.5, PLUMB_MIDDLE, 0.0,
                     text, 21.5);
}

/* The SVG as a string of the caller. */
static char *svg_of(const PlumbScene *scene, PlumbPaper paper)
{
    PlumbBytes bytes = {NULL, 0};
    PlumbError error;
    assert_int_equal(plumb_draw_svg(scene, paper, &bytes, &error), PLUMB_OK);
    char *string = malloc(bytes.length + 1);
    memcpy(string, bytes.data, bytes.length);
    string[bytes.length] = '\0';
    assert_int_equal(strlen(string), bytes.length);
    plumb_bytes_free(&bytes);
    return string;
}

/* Fails unless every element closes, every attribute is quoted, and no bare & or control character
 * stands: what an XML reader refuses. */
static void assert_well_formed(const char *xml)
{
    int depth = 0;
    for (const char *c = xml; *c != '\0'; c++) {
        assert_true((unsigned char)*c >= 0x20 || *c == '\n');
        if (*c == '&') {
            assert_true(strncmp(c, "&amp;", 5) == 0 || strncmp(c, "&lt;", 4) == 0 ||
                        strncmp(c, "&gt;", 4) == 0 || strncmp(c, "&quot;", 6) == 0);
        }
        if (*c != '<') {
            continue;
        }
        const bool closing = c[1] == '/';
        int quotes = 0;
        for (c++; *c != '>'; c++) {
            assert_true(*c != '\0' && *c != '<');
            quotes += *c == '"';
        }
        assert_int_equal(quotes % 2, 0);
        depth += closing ? -1 : c[-1] == '/' ? 0 : 1;
        assert_true(depth >= 0);
    }
    assert_int_equal(depth, 0);
}

static void svg__one_element_a_primitive_in_millimetres(void **state)
{
    PlumbScene *scene = *state;
    fill_scene(scene, "back 26.8°");
    char *svg = svg_of(scene, PLUMB_LIGHT_PAPER);
    assert_well_formed(svg);
    static const char *const PART[] = {
        "width=\"60mm\" height=\"40mm\" viewBox=\"0 0 60 40\"",
        "<title>A &amp; B &lt;title&gt;</title>",
        "<desc>What is &quot;drawn&quot;</desc>",
        "<path d=\"M1 2L59 2\" fill=\"none\" stroke=\"#1c1b19\" stroke-width=\"0.5\"/>",
        "<path d=\"M5 5L15 5 15 15 5 15Z\" fill=\"#f0ebde\" stroke=\"#d55e00\" "
        "stroke-width=\"0.25\" stroke-dasharray=\"6 1.2 1 1.2\"/>",
        "<circle cx=\"30\" cy=\"12\" r=\"4\"",
        "<path d=\"M50 12A5 5 0 0 1 45 17\"",
        "<text x=\"20\" y=\"30\" font-size=\"3.5\" textLength=\"21.5\" "
        "lengthAdjust=\"spacingAndGlyphs\" text-anchor=\"middle\" fill=\"#1c1b19\">back "
        "26.8°</text>",
    };
    for (size_t i = 0; i < sizeof PART / sizeof PART[0]; i++) {
        if (strstr(svg, PART[i]) == NULL) {
            fail_msg("no %s in\n%s", PART[i], svg);
        }
    }
    free(svg);
}

static void svg__hostile_text_stays_well_formed(void **state)
{
    PlumbScene *scene = *state;
    static const struct {
        const char *text;
        const char *want;
    } ROW[] = {
        {"<script>&\"", ">&lt;script&gt;&amp;&quot;</text>"},
        {"a\x01"
         "b\x7f\n",
         ">a\xef\xbf\xbd"
         "b\xef\xbf\xbd\xef\xbf\xbd</text>"},
        {"\xff\xc3", ">\xef\xbf\xbd\xef\xbf\xbd</text>"},                 /* no UTF-8, cut UTF-8 */
        {"\xed\xa0\x80", ">\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd</text>"}, /* surrogate */
        {"\xc0\xaf", ">\xef\xbf\xbd\xef\xbf\xbd</text>"},                 /* overlong */
        {"\xc3\x85sa \xe2\x80\xa6 \xf0\x9f\x8f\x8b",
         ">\xc3\x85sa \xe2\x80\xa6 \xf0\x9f\x8f\x8b</text>"},
    };
    for (size_t i = 0; i < sizeof ROW / sizeof ROW[0]; i++) {
        fill_scene(scene, ROW[i].text);
        char *svg = svg_of(scene, PLUMB_DARK_PAPER);
        assert_well_formed(svg);
        if (strstr(svg, ROW[i].want) == NULL) {
            fail_msg("row %zu: %s", i, svg);
        }
        free(svg);
    }
}

static void svg__large_arc_and_turned_text(void **state)
{
    PlumbScene *scene = *state;
    const PlumbPen line = {PLUMB_ROLE_ink, 0.5, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_begin(scene, 60.0, 40.0);
    plumb_scene_arc(scene, line, NO_TAG, (PlumbVec2){20.0, 20.0}, 10.0, 3.141592653589793 * 1.5,
                    0.0);
    plumb_scene_text(scene, PLUMB_ROLE_ink, NO_TAG, (PlumbVec2){9.0, 8.0}, 2.5, PLUMB_START,
                     -1.5707963267948966, "up", 0.0);
    char *svg = svg_of(scene, PLUMB_LIGHT_PAPER);
    assert_non_null(strstr(svg, "M30 20A10 10 0 1 1 20 10\""));
    assert_non_null(strstr(svg, "transform=\"rotate(-90 9 8)\""));
    assert_null(strstr(svg, "textLength"));
    free(svg);
}

static void writers__same_scene_same_bytes(void **state)
{
    PlumbScene *scene = *state;
    fill_scene(scene, "repeat");
    PlumbBytes first = {NULL, 0};
    PlumbBytes second = {NULL, 0};
    PlumbError error;
    for (int writer = 0; writer < 3; writer++) {
        for (int pass = 0; pass < 2; pass++) {
            PlumbBytes *into = pass == 0 ? &first : &second;
            const PlumbStatus status =
                writer == 0   ? plumb_draw_svg(scene, PLUMB_LIGHT_PAPER, into, &error)
                : writer == 1 ? plumb_draw_png(scene, PLUMB_LIGHT_PAPER, 4.0, into, &error)
                              : plumb_draw_pdf(scene, PLUMB_LIGHT_PAPER, "2026-01-31T12:00:00Z",
                                               into, &error);
            assert_int_equal(status, PLUMB_OK);
        }
        assert_int_equal(first.length, second.length);
        assert_memory_equal(first.data, second.data, first.length);
        plumb_bytes_free(&first);
        plumb_bytes_free(&second);
        assert_null(first.data);
    }
}

static bool contains(const PlumbBytes *bytes, const char *words)
{
    const size_t length = strlen(words);
    for (size_t i = 0; i + length <= bytes->length; i++) {
        if (memcmp(bytes->data + i, words, length) == 0) {
            return true;
        }
    }
    return false;
}

static void pdf__page_size_date_and_embedded_font(void **state)
{
    PlumbScene *scene = *state;
    fill_scene(scene, "text");
    PlumbBytes pdf = {NULL, 0};
    PlumbError error;
    assert_int_equal(plumb_draw_pdf(scene, PLUMB_LIGHT_PAPER, "2026-01-31T12:00:00Z", &pdf, &error),
                     PLUMB_OK);
    assert_memory_equal(pdf.data, "%PDF-1.", 7);
    assert_true(contains(&pdf, "20260131120000"));
    assert_true(contains(&pdf, "/FontFile"));
    assert_true(contains(&pdf, "DejaVuSans"));
    /* 60 mm and 40 mm in points. */
    assert_true(contains(&pdf, "170.07874 113.385827"));
    plumb_bytes_free(&pdf);
}

static unsigned big_endian(const unsigned char *p)
{
    return (unsigned)p[0] << 24 | (unsigned)p[1] << 16 | (unsigned)p[2] << 8 | p[3];
}

static void png__size_and_refusals(void **state)
{
    PlumbScene *scene = *state;
    fill_scene(scene, "text");
    PlumbBytes png = {NULL, 0};
    PlumbError error;
    assert_int_equal(plumb_draw_png(scene, PLUMB_LIGHT_PAPER, 4.5, &png, &error), PLUMB_OK);
    assert_memory_equal(png.data, "\x89PNG\r\n\x1a\n", 8);
    assert_int_equal(big_endian(png.data + 16), 270);
    assert_int_equal(big_endian(png.data + 20), 180);
    plumb_bytes_free(&png);
    static const double BAD[] = {0.0, -1.0, 0.99, 40.1, (double)NAN};
    for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
        assert_int_equal(plumb_draw_png(scene, PLUMB_LIGHT_PAPER, BAD[i], &png, &error),
                         PLUMB_BAD_INPUT);
        assert_string_equal(error.field, "px_per_mm");
        assert_null(png.data);
    }
}

static PlumbRgb pixel(cairo_surface_t *surface, int x, int y)
{
    const unsigned char *row = cairo_image_surface_get_data(surface) +
                               (ptrdiff_t)y * cairo_image_surface_get_stride(surface);
    uint32_t value;
    memcpy(&value, row + 4 * (size_t)x, sizeof value);
    return (PlumbRgb){(unsigned char)(value >> 16), (unsigned char)(value >> 8),
                      (unsigned char)value};
}

static void assert_rgb(PlumbRgb got, PlumbRgb want)
{
    assert_int_equal(got.red, want.red);
    assert_int_equal(got.green, want.green);
    assert_int_equal(got.blue, want.blue);
}

static void cairo__paints_each_kind_where_it_is(void **state)
{
    PlumbScene *scene = *state;
    fill_scene(scene, "text");
    PlumbFont *font = plumb_font_create();
    assert_non_null(font);
    for (int p = 0; p < PLUMB_PAPER_COUNT; p++) {
        const PlumbPaper paper = (PlumbPaper)p;
        cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 600, 400);
        cairo_t *cairo = cairo_create(surface);
        plumb_draw_cairo(cairo, scene, paper, font, 10.0);
        assert_int_equal(cairo_status(cairo), CAIRO_STATUS_SUCCESS);
        cairo_surface_flush(surface);
        assert_rgb(pixel(surface, 2, 390), plumb_paper_rgb(paper, PLUMB_ROLE_paper));
        assert_rgb(pixel(surface, 300, 20), plumb_paper_rgb(paper, PLUMB_ROLE_ink)); /* line */
        assert_rgb(pixel(surface, 100, 100), plumb_paper_rgb(paper, PLUMB_ROLE_limb));
        assert_rgb(pixel(surface, 300, 80), plumb_paper_rgb(paper, PLUMB_ROLE_ink)); /* circle */
        assert_rgb(pixel(surface, 300, 120), plumb_paper_rgb(paper, PLUMB_ROLE_paper));
        assert_rgb(pixel(surface, 499, 122), plumb_paper_rgb(paper, PLUMB_ROLE_ink)); /* arc */
        int inked = 0;
        for (int x = 100; x < 300; x++) {
            for (int y = 270; y < 300; y++) {
                inked += pixel(surface, x, y).red == plumb_paper_rgb(paper, PLUMB_ROLE_ink).red;
            }
        }
        assert_in_range(inked, 200, 4000); /* text */
        cairo_destroy(cairo);
        cairo_surface_destroy(surface);
    }
    plumb_font_destroy(font);
}

static void font_width__grows_in_proportion(void **state)
{
    (void)state;
    PlumbFont *font = plumb_font_create();
    const double one = plumb_font_width(font, "moment arm", 10, 2.5);
    assert_true(one > 10.0 && one < 20.0);
    assert_near(plumb_font_width(font, "moment arm", 10, 5.0), 2.0 * one, 1e-9);
    assert_near(plumb_font_width(font, "moment arm and more", 10, 2.5), one, 0.0);
    assert_near(plumb_font_width(font, "", 0, 2.5), 0.0, 0.0);
    /* 0 to 9 are of one width, so that columns of figures stand. */
    const double digit = plumb_font_width(font, "0", 1, 10.0);
    for (char c = '1'; c <= '9'; c++) {
        assert_near(plumb_font_width(font, &c, 1, 10.0), digit, 1e-9);
    }
    plumb_font_destroy(font);
    plumb_font_destroy(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(svg__one_element_a_primitive_in_millimetres),
        cmocka_unit_test(svg__hostile_text_stays_well_formed),
        cmocka_unit_test(svg__large_arc_and_turned_text),
        cmocka_unit_test(writers__same_scene_same_bytes),
        cmocka_unit_test(pdf__page_size_date_and_embedded_font),
        cmocka_unit_test(png__size_and_refusals),
        cmocka_unit_test(cairo__paints_each_kind_where_it_is),
        cmocka_unit_test(font_width__grows_in_proportion),
    };
    return cmocka_run_group_tests(tests, scene_open, scene_close);
}
