/* SPDX-License-Identifier: MIT */
/* The first still drawn: marks, the figure that fits them, the model's in pencil behind it, hidden
 * landmarks dashed, over the picture where there is one. */
#include "picture.h"
#include "trace_still.h"

#include <plumbar/draw.h>
#include <plumbar/underlay.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double page_width_mm = 240.0;
static const double strip_mm = 26.0; /* of words below the picture */
static const double strength = 0.55;
static const double px_per_mm = 8.0;

typedef struct Page {
    const PlumbCliStill *still;
    PlumbScene *scene;
    PlumbFont *font;
    double scale; /* mm in a pixel */
    PlumbVec2 origin_px;
    PlumbVec2 size_px;
    bool mirrored;
} Page;

static const PlumbTag no_tag = {PLUMB_TAG_NONE, 0};

static PlumbVec2 paper_of(const Page *page, PlumbVec2 pixel)
{
    const double x = page->mirrored ? page->size_px.x - pixel.x : pixel.x;
    return (PlumbVec2){(x - page->origin_px.x) * page->scale,
                       (pixel.y - page->origin_px.y) * page->scale};
}

/* Without a picture the page is that of the marks, with room around them. */
static void measure(Page *page)
{
    const PlumbMarks *const marks = &page->still->marks;
    page->size_px = page->still->ask.size_px[0];
    page->mirrored = page->still->mirrored[0];
    if (!(page->size_px.x > 0.0)) {
        PlumbVec2 low = {1e9, 1e9};
        PlumbVec2 high = {-1e9, -1e9};
        for (int i = 0; i < marks->count; i++) {
            if (marks->mark[i].still == 0) {
                low.x = fmin(low.x, marks->mark[i].x_px);
                low.y = fmin(low.y, marks->mark[i].y_px);
                high.x = fmax(high.x, marks->mark[i].x_px);
                high.y = fmax(high.y, marks->mark[i].y_px);
            }
        }
        const double room = 0.25 * fmax(high.x - low.x, high.y - low.y) + 1.0;
        page->size_px = (PlumbVec2){high.x - low.x + 2.0 * room, high.y - low.y + 2.0 * room};
        page->origin_px = (PlumbVec2){low.x - room, low.y - room};
        page->mirrored = false;
    }
    page->scale = page_width_mm / page->size_px.x;
}

static PlumbVec2 project(const Page *page, PlumbVec3 point)
{
    return paper_of(page, plumb_camera_project(&page->still->trace.still[0].camera, point, NULL));
}

/* The near side of a figure as one line from the foot to the hands. */
static void draw_figure(const Page *page, const PlumbPosition *position, PlumbPen pen)
{
    static const PlumbPoint chain[] = {
        PLUMB_PT_toe,    PLUMB_PT_heel,     PLUMB_PT_ankle, PLUMB_PT_knee,  PLUMB_PT_hip,
        PLUMB_PT_lumbar, PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_PT_wrist, PLUMB_PT_grip};
    enum { COUNT = sizeof chain / sizeof chain[0] };
    PlumbVec2 line[COUNT];
    for (int i = 0; i < COUNT; i++) {
        line[i] = project(page, position->point[chain[i]]);
    }
    plumb_scene_path(page->scene, pen, no_tag, line, COUNT, false);
}

static void draw_disc(const Page *page, PlumbNear near)
{
    enum { POINTS = 48 };
    PlumbVec2 rim[POINTS];
    for (int i = 0; i < POINTS; i++) {
        rim[i] = paper_of(page, plumb_trace_rim(&page->still->ask, &page->still->trace.still[0],
                                                near, i * 6.283185307179586 / POINTS));
    }
    const PlumbPen pen = {.stroke = PLUMB_ROLE_bar,
                          .weight_mm = PLUMB_FINE_MM,
                          .dash = near == PLUMB_NEAR ? PLUMB_SOLID : PLUMB_DASHED};
    plumb_scene_path(page->scene, pen, no_tag, rim, POINTS, true);
}

static bool marked(const PlumbCliStill *still, PlumbLandmark landmark)
{
    for (int i = 0; i < still->marks.count; i++) {
        const PlumbMark *const mark = &still->marks.mark[i];
        if (mark->still == 0 && mark->name.landmark == landmark && mark->name.near == PLUMB_NEAR) {
            return true;
        }
    }
    return false;
}

static void draw_marks(const Page *page)
{
    const PlumbCliStill *const still = page->still;
    const PlumbPen pen = {.stroke = PLUMB_ROLE_mass, .weight_mm = PLUMB_FINE_MM};
    const PlumbPen dashed = {
        .stroke = PLUMB_ROLE_ink, .weight_mm = PLUMB_FINE_MM, .dash = PLUMB_DASHED};
    const double arm_mm = 1.6;
    for (int i = 0; i < still->marks.count; i++) {
        if (still->marks.mark[i].still != 0) {
            continue;
        }
        const PlumbVec2 at =
            paper_of(page, (PlumbVec2){still->marks.mark[i].x_px, still->marks.mark[i].y_px});
        plumb_scene_line(page->scene, pen, no_tag, (PlumbVec2){at.x - arm_mm, at.y},
                         (PlumbVec2){at.x + arm_mm, at.y});
        plumb_scene_line(page->scene, pen, no_tag, (PlumbVec2){at.x, at.y - arm_mm},
                         (PlumbVec2){at.x, at.y + arm_mm});
    }
    for (int i = 0; i <= PLUMB_MARK_bar; i++) {
        const PlumbMarkName name = {(PlumbLandmark)i, PLUMB_NEAR, still->trace.still[0].front};
        if (!marked(still, (PlumbLandmark)i)) {
            plumb_scene_circle(
                page->scene, dashed, no_tag,
                paper_of(page, plumb_trace_pixel(&still->ask, &still->trace.still[0], name)), 2.0);
        }
    }
}

/* The two plumb lines in the lifter's middle plane. */
static void draw_plumblines(const Page *page)
{
    const PlumbPosition *const position = &page->still->trace.still[0].position;
    const double top_m = 1.6;
    const PlumbVec3 lines[2] = {position->point[PLUMB_PT_bar], position->com};
    const char *const letter[2] = {"B", "C"};
    for (int i = 0; i < 2; i++) {
        const PlumbPen pen = {.stroke = i == 0 ? PLUMB_ROLE_bar : PLUMB_ROLE_mass,
                              .weight_mm = PLUMB_MEDIUM_MM,
                              .dash = i == 0 ? PLUMB_CHAIN : PLUMB_CHAIN_DOUBLE};
        const PlumbVec2 foot = project(page, (PlumbVec3){lines[i].x, 0.0, 0.0});
        const PlumbVec2 head = project(page, (PlumbVec3){lines[i].x, top_m, 0.0});
        plumb_scene_line(page->scene, pen, no_tag, foot, head);
        const double other_x = project(page, (PlumbVec3){lines[1 - i].x, top_m, 0.0}).x;
        plumb_scene_text(page->scene, PLUMB_ROLE_ink, no_tag, (PlumbVec2){head.x, head.y - 1.0},
                         PLUMB_NORMAL_TEXT_MM, head.x < other_x ? PLUMB_END : PLUMB_START, 0.0,
                         letter[i],
                         plumb_font_width(page->font, letter[i], 1, PLUMB_NORMAL_TEXT_MM));
    }
}

static void put_line(const Page *page, double y_mm, double size_mm, PlumbRole role,
                     const char *words)
{
    plumb_scene_text(page->scene, role, no_tag, (PlumbVec2){4.0, y_mm}, size_mm, PLUMB_START, 0.0,
                     words, plumb_font_width(page->font, words, strlen(words), size_mm));
}

static void put_figure(PlumbText *text, const PlumbCliStill *still, PlumbReading reading,
                       const char *words, PlumbUnits units)
{
    const PlumbTraced *const traced = &still->trace.still[0];
    plumb_text_string(text, text->length > 0 ? "; " : "");
    plumb_text_string(text, words);
    plumb_text_string(text, " ");
    plumb_text_quantity(text, traced->value[reading], plumb_reading_quantity(reading), units);
    plumb_text_string(text, " ± ");
    plumb_text_quantity(text, traced->sd[reading], plumb_reading_quantity(reading), units);
}

static void draw_words(const Page *page, double top_mm, PlumbUnits units)
{
    char line[512];
    PlumbText text = plumb_text_begin(line, sizeof line);
    put_figure(&text, page->still, PLUMB_READ_bar_over, "bar ahead of mid-foot", units);
    put_figure(&text, page->still, PLUMB_READ_balance, "balance", units);
    put_figure(&text, page->still, PLUMB_READ_hip_arm, "bar's arm about the hip", units);
    put_line(page, top_mm + 6.0, PLUMB_NORMAL_TEXT_MM, PLUMB_ROLE_ink, line);
    text = plumb_text_begin(line, sizeof line);
    put_figure(&text, page->still, (PlumbReading)PLUMB_ANG_back, "back", units);
    put_figure(&text, page->still, (PlumbReading)PLUMB_ANG_shin, "shin", units);
    put_figure(&text, page->still, (PlumbReading)PLUMB_ANG_thigh, "thigh", units);
    put_figure(&text, page->still, PLUMB_READ_hip_height, "hip height", units);
    put_line(page, top_mm + 12.0, PLUMB_NORMAL_TEXT_MM, PLUMB_ROLE_ink, line);
    put_line(page, top_mm + 17.5, PLUMB_SMALL_TEXT_MM, PLUMB_ROLE_quiet,
             "Ink: the figure fitted to the marks (+). Pencil: the model with the same feet and "
             "hands. Dashed: hidden, drawn from the fit. B: bar, C: centre of mass.");
    put_line(page, top_mm + 22.0, PLUMB_SMALL_TEXT_MM, PLUMB_ROLE_quiet, plumb_caution_line());
}

static void compose(const Page *page, PlumbUnits units)
{
    const PlumbCliStill *const still = page->still;
    const double height_mm = page->size_px.y * page->scale;
    const PlumbPen ink = {.stroke = PLUMB_ROLE_ink, .weight_mm = PLUMB_HEAVY_MM};
    const PlumbPen pencil = {.stroke = PLUMB_ROLE_pencil, .weight_mm = PLUMB_MEDIUM_MM};
    const PlumbPen frame = {.stroke = PLUMB_ROLE_rule, .weight_mm = PLUMB_FINE_MM};
    plumb_scene_begin(page->scene, page_width_mm, height_mm + strip_mm);
    PlumbText title = plumb_text_begin(page->scene->title, sizeof page->scene->title);
    plumb_text_string(&title, "A still held against the model: ");
    plumb_text_string(&title, plumb_lift_name(still->request.lift));
    plumb_scene_rect(page->scene, frame, no_tag, (PlumbRect){0.0, 0.0, page_width_mm, height_mm});
    draw_disc(page, PLUMB_FAR);
    draw_disc(page, PLUMB_NEAR);
    draw_plumblines(page);
    draw_figure(page, &still->answer[0].start, pencil);
    draw_figure(page, &still->trace.still[0].position, ink);
    draw_marks(page);
    draw_words(page, height_mm, units);
}

/* Scene over picture, or over the plain frame where there is none or none can be unpacked. */
static PlumbStatus render(const Page *page, const PlumbCliArgs *args, PlumbCliPicture kind,
                          PlumbBytes *bytes, PlumbError *error)
{
    const PlumbPaper paper = args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
    const char *const path = page->still->picture_path[0];
    char *file = NULL;
    size_t length = 0;
    PlumbPhoto photo = {.pixel = NULL};
    PlumbPhotoHead head = {.kind = PLUMB_PHOTO_PNG};
    PlumbStatus status = PLUMB_UNSUPPORTED;
    if (path[0] != '\0' && plumb_photo_supported()) {
        status = plumb_file_read_whole(path, PLUMB_PHOTO_MAX_BYTES, &file, &length, error);
        status = status == PLUMB_OK ? plumb_photo_head(file, length, &head, error) : status;
        status = status == PLUMB_OK ? plumb_photo_unpack(file, length, &photo, error) : status;
        if (status != PLUMB_OK) {
            free(file);
            return status;
        }
    }
    if (status != PLUMB_OK) {
        return plumb_picture_render(page->scene, kind, args, bytes, error);
    }
    const PlumbUnderlay under = {photo.width_px,
                                 photo.height_px,
                                 photo.pixel,
                                 (const unsigned char *)file,
                                 length,
                                 head.kind == PLUMB_PHOTO_JPEG,
                                 {0.0, 0.0, page_width_mm, page->size_px.y * page->scale},
                                 strength};
    char date[32];
    PlumbText text = plumb_text_begin(date, sizeof date);
    plumb_text_string(&text, args->date);
    plumb_text_string(&text, "T12:00:00Z");
    status = kind == PLUMB_PICTURE_SVG
                 ? plumb_underlay_svg(page->scene, paper, &under, bytes, error)
             : kind == PLUMB_PICTURE_PNG
                 ? plumb_underlay_png(page->scene, paper, &under, px_per_mm, bytes, error)
                 : plumb_underlay_pdf(page->scene, paper, &under, date, bytes, error);
    plumb_photo_free(&photo);
    free(file);
    return status;
}

PlumbStatus plumb_still_draw(const PlumbCliStill *still, const PlumbCliArgs *args,
                             PlumbCliOutput *out, PlumbCliFault *fault)
{
    PlumbCliPicture kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    Page page = {.still = still};
    fault->path[0] = '\0';
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK) {
        page.scene = calloc(1, sizeof *page.scene);
        page.font = plumb_font_create();
        if (page.scene == NULL || page.font == NULL) {
            status =
                plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for the drawing");
        }
    }
    if (status == PLUMB_OK) {
        measure(&page);
        compose(&page, args->units);
        status = render(&page, args, kind, &bytes, &fault->error);
        if (status == PLUMB_UNSUPPORTED) {
            plumb_fault_in_file(fault, still->picture_path[0]);
        }
    }
    if (status == PLUMB_OK) {
        plumb_output_bytes(out, (const char *)bytes.data, bytes.length);
    }
    plumb_bytes_free(&bytes);
    plumb_font_destroy(page.font);
    free(page.scene);
    plumb_draw_finish();
    return status;
}
