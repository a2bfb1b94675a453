/* SPDX-License-Identifier: MIT */
/* Paints a scene onto a cairo context: window surface, picture and page alike. */
#include "draw/buffer.h"
#include "draw/font.h"

static void use(cairo_t *cairo, PlumbPaper paper, PlumbRole role)
{
    const PlumbRgb rgb = plumb_paper_rgb(paper, role);
    cairo_set_source_rgb(cairo, rgb.red / 255.0, rgb.green / 255.0, rgb.blue / 255.0);
}

/* Fills and strokes the current path and clears it. */
static void ink(cairo_t *cairo, PlumbPaper paper, PlumbPen pen)
{
    if (pen.fill != PLUMB_ROLE_none) {
        use(cairo, paper, pen.fill);
        cairo_fill_preserve(cairo);
    }
    if (pen.stroke != PLUMB_ROLE_none) {
        double part_mm[PLUMB_DASH_PARTS_MAX];
        cairo_set_dash(cairo, part_mm, plumb_dash_parts(pen.dash, part_mm), 0.0);
        cairo_set_line_width(cairo, pen.weight_mm);
        use(cairo, paper, pen.stroke);
        cairo_stroke_preserve(cairo);
    }
    cairo_new_path(cairo);
}

static void paint_path(cairo_t *cairo, PlumbPaper paper, const PlumbScene *scene,
                       const PlumbItem *item)
{
    for (int i = 0; i < item->count; i++) {
        const PlumbVec2 p = scene->point_mm[item->first + i];
        cairo_line_to(cairo, p.x, p.y);
    }
    if (item->closed) {
        cairo_close_path(cairo);
    }
    ink(cairo, paper, item->pen);
}

/* Glyphs with their clusters, so that a page's text can be searched and copied. */
static void paint_text(cairo_t *cairo, PlumbPaper paper, const PlumbFont *font,
                       const PlumbScene *scene, const PlumbItem *item)
{
    char clean[PLUMB_CLEAN_SIZE];
    const size_t length =
        plumb_utf8_clean(clean, plumb_scene_item_text(scene, item), (size_t)item->count);
    cairo_save(cairo);
    cairo_translate(cairo, item->at_mm.x, item->at_mm.y);
    cairo_rotate(cairo, item->turn_rad);
    cairo_set_font_face(cairo, font->face);
    cairo_set_font_options(cairo, font->options);
    cairo_set_font_size(cairo, item->size_mm);
    const double width = plumb_font_width((void *)font, clean, length, item->size_mm);
    const double share = item->align == PLUMB_START ? 0.0 : item->align == PLUMB_MIDDLE ? 0.5 : 1.0;
    cairo_glyph_t *glyph = NULL;
    cairo_text_cluster_t *cluster = NULL;
    cairo_text_cluster_flags_t flags = 0;
    int glyphs = 0;
    int clusters = 0;
    if (cairo_scaled_font_text_to_glyphs(cairo_get_scaled_font(cairo), -share * width, 0.0, clean,
                                         (int)length, &glyph, &glyphs, &cluster, &clusters,
                                         &flags) == CAIRO_STATUS_SUCCESS) {
        use(cairo, paper, item->pen.fill);
        cairo_show_text_glyphs(cairo, clean, (int)length, glyph, glyphs, cluster, clusters, flags);
        cairo_glyph_free(glyph);
        cairo_text_cluster_free(cluster);
    }
    cairo_restore(cairo);
}

static void paint_item(cairo_t *cairo, PlumbPaper paper, const PlumbFont *font,
                       const PlumbScene *scene, const PlumbItem *item)
{
    switch (item->kind) {
    case PLUMB_ITEM_PATH:
        paint_path(cairo, paper, scene, item);
        break;
    case PLUMB_ITEM_CIRCLE:
        cairo_arc(cairo, item->at_mm.x, item->at_mm.y, item->size_mm, 0.0, 6.28318530717958648);
        cairo_close_path(cairo);
        ink(cairo, paper, item->pen);
        break;
    case PLUMB_ITEM_ARC:
        cairo_arc(cairo, item->at_mm.x, item->at_mm.y, item->size_mm, item->from_rad, item->to_rad);
        ink(cairo, paper, item->pen);
        break;
    case PLUMB_ITEM_TEXT:
        paint_text(cairo, paper, font, scene, item);
        break;
    }
}

void plumb_draw_cairo_items(cairo_t *cairo, const PlumbScene *scene, PlumbPaper paper,
                            PlumbFont *font, double px_per_mm, int first, int count)
{
    cairo_save(cairo);
    cairo_scale(cairo, px_per_mm, px_per_mm);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_new_path(cairo);
    for (int i = first; i < first + count && i < scene->item_count; i++) {
        paint_item(cairo, paper, font, scene, &scene->item[i]);
    }
    cairo_restore(cairo);
}

void plumb_draw_cairo(cairo_t *cairo, const PlumbScene *scene, PlumbPaper paper, PlumbFont *font,
                      double px_per_mm)
{
    cairo_save(cairo);
    cairo_scale(cairo, px_per_mm, px_per_mm);
    cairo_new_path(cairo);
    cairo_rectangle(cairo, 0.0, 0.0, scene->width_mm, scene->height_mm);
    ink(cairo, paper, (PlumbPen){.fill = PLUMB_ROLE_paper});
    cairo_restore(cairo);
    plumb_draw_cairo_items(cairo, scene, paper, font, px_per_mm, 0, scene->item_count);
}
