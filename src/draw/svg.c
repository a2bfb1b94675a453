/* SPDX-License-Identifier: MIT */
/* Our own SVG writer: millimetres, one element a primitive, text stays text. */
#include "draw/buffer.h"

#include <math.h>
#include <string.h>

static const double DEGREES_PER_RAD = 57.295779513082320877;

static void escaped(PlumbBuffer *out, const char *text, size_t length)
{
    char clean[PLUMB_CLEAN_SIZE];
    const size_t count = plumb_utf8_clean(clean, text, length);
    for (size_t i = 0; i < count; i++) {
        const char c = clean[i];
        if (c == '&') {
            plumb_buffer_string(out, "&amp;");
        } else if (c == '<') {
            plumb_buffer_string(out, "&lt;");
        } else if (c == '>') {
            plumb_buffer_string(out, "&gt;");
        } else if (c == '"') {
            plumb_buffer_string(out, "&quot;");
        } else {
            plumb_buffer_add(out, &c, 1);
        }
    }
}

/* ` name="value"` */
static void attribute(PlumbBuffer *out, const char *name, double value)
{
    plumb_buffer_string(out, " ");
    plumb_buffer_string(out, name);
    plumb_buffer_string(out, "=\"");
    plumb_buffer_number(out, value);
    plumb_buffer_string(out, "\"");
}

static void colour(PlumbBuffer *out, const char *name, PlumbPaper paper, PlumbRole role)
{
    static const char HEX[] = "0123456789abcdef";
    plumb_buffer_string(out, " ");
    plumb_buffer_string(out, name);
    if (role == PLUMB_ROLE_none) {
        plumb_buffer_string(out, "=\"none\"");
        return;
    }
    const PlumbRgb rgb = plumb_paper_rgb(paper, role);
    const unsigned char part[3] = {rgb.red, rgb.green, rgb.blue};
    plumb_buffer_string(out, "=\"#");
    for (int i = 0; i < 3; i++) {
        plumb_buffer_add(out, &HEX[part[i] >> 4], 1);
        plumb_buffer_add(out, &HEX[part[i] & 15], 1);
    }
    plumb_buffer_string(out, "\"");
}

static void pen(PlumbBuffer *out, PlumbPaper paper, PlumbPen with)
{
    colour(out, "fill", paper, with.fill);
    if (with.stroke == PLUMB_ROLE_none) {
        return;
    }
    colour(out, "stroke", paper, with.stroke);
    attribute(out, "stroke-width", with.weight_mm);
    double part_mm[PLUMB_DASH_PARTS_MAX];
    const int count = plumb_dash_parts(with.dash, part_mm);
    for (int i = 0; i < count; i++) {
        plumb_buffer_string(out, i == 0 ? " stroke-dasharray=\"" : " ");
        plumb_buffer_number(out, part_mm[i]);
    }
    plumb_buffer_string(out, count > 0 ? "\"" : "");
}

static void point(PlumbBuffer *out, const char *before, double x, double y)
{
    plumb_buffer_string(out, before);
    plumb_buffer_number(out, x);
    plumb_buffer_string(out, " ");
    plumb_buffer_number(out, y);
}

static void write_path(PlumbBuffer *out, PlumbPaper paper, const PlumbScene *scene,
                       const PlumbItem *item)
{
    plumb_buffer_string(out, "<path d=\"");
    for (int i = 0; i < item->count; i++) {
        const PlumbVec2 p = scene->point_mm[item->first + i];
        point(out, i == 0 ? "M" : i == 1 ? "L" : " ", p.x, p.y);
    }
    plumb_buffer_string(out, item->closed ? "Z\"" : "\"");
    pen(out, paper, item->pen);
    plumb_buffer_string(out, "/>\n");
}

static void write_circle(PlumbBuffer *out, PlumbPaper paper, const PlumbItem *item)
{
    plumb_buffer_string(out, "<circle");
    attribute(out, "cx", item->at_mm.x);
    attribute(out, "cy", item->at_mm.y);
    attribute(out, "r", item->size_mm);
    pen(out, paper, item->pen);
    plumb_buffer_string(out, "/>\n");
}

static void write_arc(PlumbBuffer *out, PlumbPaper paper, const PlumbItem *item)
{
    const double r = item->size_mm;
    const bool large = item->to_rad - item->from_rad > 180.0 / DEGREES_PER_RAD;
    plumb_buffer_string(out, "<path d=\"");
    point(out, "M", item->at_mm.x + r * cos(item->from_rad),
          item->at_mm.y + r * sin(item->from_rad));
    point(out, "A", r, r);
    plumb_buffer_string(out, large ? " 0 1 1" : " 0 0 1");
    point(out, " ", item->at_mm.x + r * cos(item->to_rad), item->at_mm.y + r * sin(item->to_rad));
    plumb_buffer_string(out, "\"");
    pen(out, paper, item->pen);
    plumb_buffer_string(out, "/>\n");
}

/* textLength keeps the measured width where another typeface stands in. */
static void write_text(PlumbBuffer *out, PlumbPaper paper, const PlumbScene *scene,
                       const PlumbItem *item)
{
    plumb_buffer_string(out, "<text");
    attribute(out, "x", item->at_mm.x);
    attribute(out, "y", item->at_mm.y);
    attribute(out, "font-size", item->size_mm);
    if (item->width_mm > 0.0) {
        attribute(out, "textLength", item->width_mm);
        plumb_buffer_string(out, " lengthAdjust=\"spacingAndGlyphs\"");
    }
    if (item->align != PLUMB_START) {
        plumb_buffer_string(out, item->align == PLUMB_MIDDLE ? " text-anchor=\"middle\""
                                                             : " text-anchor=\"end\"");
    }
    if (item->turn_rad < 0.0 || item->turn_rad > 0.0) {
        plumb_buffer_string(out, " transform=\"rotate(");
        plumb_buffer_number(out, item->turn_rad * DEGREES_PER_RAD);
        point(out, " ", item->at_mm.x, item->at_mm.y);
        plumb_buffer_string(out, ")\"");
    }
    colour(out, "fill", paper, item->pen.fill);
    plumb_buffer_string(out, ">");
    escaped(out, plumb_scene_item_text(scene, item), (size_t)item->count);
    plumb_buffer_string(out, "</text>\n");
}

static void write_head(PlumbBuffer *out, PlumbPaper paper, const PlumbScene *scene)
{
    plumb_buffer_string(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
    plumb_buffer_number(out, scene->width_mm);
    plumb_buffer_string(out, "mm\" height=\"");
    plumb_buffer_number(out, scene->height_mm);
    plumb_buffer_string(out, "mm\"");
    point(out, " viewBox=\"0 0 ", scene->width_mm, scene->height_mm);
    plumb_buffer_string(out, "\" role=\"img\" font-family=\"DejaVu Sans, sans-serif\" "
                             "stroke-linejoin=\"round\">\n<title>");
    escaped(out, scene->title, strlen(scene->title));
    plumb_buffer_string(out, "</title>\n<desc>");
    escaped(out, scene->description, strlen(scene->description));
    plumb_buffer_string(out, "</desc>\n<rect");
    attribute(out, "width", scene->width_mm);
    attribute(out, "height", scene->height_mm);
    colour(out, "fill", paper, PLUMB_ROLE_paper);
    plumb_buffer_string(out, "/>\n");
}

PlumbStatus plumb_draw_svg(const PlumbScene *scene, PlumbPaper paper, PlumbBytes *bytes,
                           PlumbError *error)
{
    PlumbBuffer out = {0};
    write_head(&out, paper, scene);
    for (int i = 0; i < scene->item_count; i++) {
        const PlumbItem *item = &scene->item[i];
        switch (item->kind) {
        case PLUMB_ITEM_PATH:
            write_path(&out, paper, scene, item);
            break;
        case PLUMB_ITEM_CIRCLE:
            write_circle(&out, paper, item);
            break;
        case PLUMB_ITEM_ARC:
            write_arc(&out, paper, item);
            break;
        case PLUMB_ITEM_TEXT:
            write_text(&out, paper, scene, item);
            break;
        }
    }
    plumb_buffer_string(&out, "</svg>\n");
    return plumb_buffer_finish(&out, bytes, error);
}
