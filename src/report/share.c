/* SPDX-License-Identifier: MIT */
/* The shared page: the template with its drawings, its lifter, its module and its policy. */
#include "report/advance.h"
#include "report/digest.h"
#include "report/embedded.h"
#include "report/pack.h"
#include "report/words.h"

#include <plumbar/phone.h>

#include <stdlib.h>
#include <string.h>

/* The narrowest phone: 360 px less its margins. */
static const double NARROW_MM = 344.0 / PLUMB_PHONE_PX_PER_MM;
static const double VIEW_HIGH_MM = 74.0;

typedef struct Making {
    const PlumbOrder *order;
    PlumbLifter lifter;
    PlumbLifter before_lifter; /* only checked: the page's solver has one lifter */
    PlumbSolved inked;
    PlumbSolved pencil;
    PlumbDrawing drawing; /* measured by the page's table */
    PlumbScene *scene;
    PlumbBuffer out;
    double scale_n;
} Making;

static void put(Making *making, const char *words)
{
    plumb_buffer_string(&making->out, words);
}

/* Text between tags: valid UTF-8, nothing that is markup. */
static void put_escaped(Making *making, const char *words)
{
    char clean[PLUMB_CLEAN_SIZE];
    plumb_utf8_clean(clean, words, strlen(words));
    for (const char *c = clean; *c != '\0'; c++) {
        const char *const entity = *c == '&'    ? "&amp;"
                                   : *c == '<'  ? "&lt;"
                                   : *c == '>'  ? "&gt;"
                                   : *c == '"'  ? "&quot;"
                                   : *c == '\'' ? "&#39;"
                                                : NULL;
        if (entity != NULL) {
            put(making, entity);
        } else {
            plumb_buffer_add(&making->out, c, 1);
        }
    }
}

static void put_scene(Making *making)
{
    PlumbBytes svg = {.data = NULL};
    if (plumb_draw_svg(making->scene, PLUMB_LIGHT_PAPER, &svg, NULL) == PLUMB_OK) {
        plumb_buffer_add(&making->out, svg.data, svg.length);
    } else {
        making->out.failed = true;
    }
    plumb_bytes_free(&svg);
}

static bool is_press(const Making *making)
{
    return making->order->after->lift == PLUMB_BENCH;
}

/* The choice of one view where there is room for one. */
static void put_sights(Making *making)
{
    put(making,
        "<label><input type=\"radio\" name=\"sight\" value=\"1\" checked> from the side</label>\n"
        "<label><input type=\"radio\" name=\"sight\" value=\"2\"> ");
    put(making, is_press(making)
                    ? "from the head end</label>\n<label><input type=\"radio\" name=\"sight\" "
                      "value=\"3\"> from above</label>"
                    : "from the front</label>");
}

static void put_views(Making *making)
{
    const int last = is_press(making) ? PLUMB_SEE_ABOVE : PLUMB_SEE_FRONT;
    for (int sight = PLUMB_SEE_SIDE; sight <= last; sight++) {
        PlumbFit fit = {.decided = false};
        making->drawing.sight = (PlumbSight)sight;
        plumb_compose_phone_views(making->scene, &making->drawing, NARROW_MM, VIEW_HIGH_MM, &fit);
        making->scale_n = fit.scale_n;
        put_scene(making);
    }
}

static void put_table(Making *making)
{
    plumb_compose_phone_table(making->scene, &making->drawing, NARROW_MM);
    put_scene(making);
}

static void put_notes(Making *making)
{
    plumb_compose_phone_notes(making->scene, &making->drawing, NARROW_MM, making->scale_n);
    put_scene(making);
}

static void put_hash(Making *making, const unsigned char *bytes, size_t length)
{
    unsigned char digest[PLUMB_SHA256_SIZE];
    plumb_sha256(bytes, length, digest);
    put(making, "sha256-");
    plumb_base64(&making->out, digest, sizeof digest);
}

static void put_style_hash(Making *making)
{
    put_hash(making, plumb_embedded_style, plumb_embedded_style_size);
}

static void put_script_hash(Making *making)
{
    put_hash(making, plumb_embedded_script, plumb_embedded_script_size);
}

static void put_style(Making *making)
{
    plumb_buffer_add(&making->out, plumb_embedded_style, plumb_embedded_style_size);
}

static void put_script(Making *making)
{
    plumb_buffer_add(&making->out, plumb_embedded_script, plumb_embedded_script_size);
}

static void put_module(Making *making)
{
    plumb_base64(&making->out, plumb_embedded_module, plumb_embedded_module_size);
}

static void copy_name(char to[PLUMB_SHARE_NAME_SIZE], const char *from)
{
    PlumbText text = plumb_text_begin(to, PLUMB_SHARE_NAME_SIZE);
    plumb_text_string(&text, from);
}

static void put_lifter(Making *making)
{
    const PlumbOrder *const order = making->order;
    const PlumbDrawing *const drawing = &making->drawing;
    PlumbShared shared = {
        .lifter = making->lifter,
        .setup = *order->after,
        .has_pencil = order->before != NULL,
        .pencil = order->before != NULL ? *order->before : *order->after,
        .units = order->units,
    };
    copy_name(shared.name, drawing->name);
    copy_name(shared.setup_name, drawing->setup_name);
    copy_name(shared.pencil_name, drawing->pencil_name);
    copy_name(shared.date, drawing->date);
    unsigned char bytes[PLUMB_SHARE_BYTES_MAX];
    const size_t length = plumb_shared_write(&shared, bytes, sizeof bytes);
    making->out.failed = making->out.failed || length == 0;
    plumb_base64(&making->out, bytes, length);
}

static void put_lift(Making *making)
{
    char words[64];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_lift_heading(&text, making->order->after, making->order->units);
    put(making, words);
}

static void put_heading(Making *making)
{
    put_lift(making);
    if (making->drawing.name[0] != '\0') {
        put(making, ": ");
        put_escaped(making, making->drawing.name);
    }
}

/* "Bold: high bar. Thin, grey: low bar. 2026-01-05" */
static void put_legend(Making *making)
{
    const PlumbDrawing *const drawing = &making->drawing;
    put(making, "Bold: ");
    put_escaped(making, drawing->setup_name[0] != '\0' ? drawing->setup_name : "the set-up");
    if (making->order->before != NULL) {
        put(making, ". Thin, grey: ");
        put_escaped(making, drawing->pencil_name[0] != '\0' ? drawing->pencil_name : "another");
    }
    put(making, ". ");
    put_escaped(making, drawing->date);
}

static void put_caution(Making *making)
{
    put_escaped(making, plumb_caution_long());
}

static void put_program(Making *making)
{
    put_escaped(making, making->order->program);
}

static const struct {
    const char *name;
    void (*put)(Making *making);
} markers[] = {
    {"script-hash", put_script_hash},
    {"style-hash", put_style_hash},
    {"program", put_program},
    {"title", put_heading},
    {"style", put_style},
    {"heading", put_heading},
    {"legend", put_legend},
    {"sights", put_sights},
    {"views", put_views},
    {"table", put_table},
    {"notes", put_notes},
    {"caution", put_caution},
    {"lifter", put_lifter},
    {"module", put_module},
    {"script", put_script},
};

static void put_marker(Making *making, const char *name, size_t length)
{
    for (size_t i = 0; i < sizeof markers / sizeof markers[0]; i++) {
        if (strlen(markers[i].name) == length && memcmp(markers[i].name, name, length) == 0) {
            markers[i].put(making);
            return;
        }
    }
}

/* Copies the template; {{name}} becomes what the marker puts. */
static void fill(Making *making)
{
    const char *const page = (const char *)plumb_embedded_page; /* ends in a NUL */
    const char *from = page;
    for (const char *mark = strstr(from, "{{"); mark != NULL; mark = strstr(from, "{{")) {
        const char *const end = strstr(mark, "}}");
        if (end == NULL) {
            break;
        }
        plumb_buffer_add(&making->out, from, (size_t)(mark - from));
        put_marker(making, mark + 2, (size_t)(end - mark - 2));
        from = end + 2;
    }
    put(making, from);
}

/* Solves both set-ups and prepares the drawing of them. */
static PlumbStatus prepare(Making *making, PlumbError *error)
{
    const PlumbOrder *const order = making->order;
    const bool pencilled = order->before != NULL;
    const PlumbStatus status =
        plumb_order_check(order, &making->lifter, &making->before_lifter, error);
    if (status != PLUMB_OK) {
        return status;
    }
    plumb_solved_solve(&making->lifter, order->after, &making->inked);
    if (pencilled) {
        plumb_solved_solve(&making->lifter, order->before, &making->pencil);
    }
    making->drawing =
        plumb_drawing_solved(&making->lifter, &making->inked, pencilled ? &making->pencil : NULL,
                             plumb_advance_width, NULL);
    plumb_order_names(order, &making->drawing);
    making->scene = malloc(sizeof *making->scene);
    return making->scene != NULL
               ? PLUMB_OK
               : plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "share", "no memory for the page");
}

PlumbStatus plumb_share_make(const PlumbOrder *order, PlumbBytes *bytes, PlumbError *error)
{
    if (plumb_embedded_module_size == 0) {
        return plumb_error_set(error, PLUMB_UNSUPPORTED, "share",
                               "this plumbar was built without the page's module; install clang, "
                               "lld, wasi-libc and libclang-rt-dev-wasm32 and build it again");
    }
    Making *const making = calloc(1, sizeof *making);
    if (making == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "share", "no memory for the page");
    }
    making->order = order;
    PlumbStatus status = prepare(making, error);
    if (status == PLUMB_OK) {
        fill(making);
        status = plumb_buffer_finish(&making->out, bytes, error);
    }
    free(making->scene);
    free(making);
    return status;
}
