/* SPDX-License-Identifier: MIT */
/* The typeface of every drawing: opened once, measured without hinting. */
#include "draw/font.h"

#include "draw/buffer.h"

#include <fontconfig/fontconfig.h>

#include <stdlib.h>

PlumbFont *plumb_font_create(void)
{
    PlumbFont *font = calloc(1, sizeof *font);
    if (font == NULL) {
        return NULL;
    }
    font->face = cairo_toy_font_face_create("DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                                            CAIRO_FONT_WEIGHT_NORMAL);
    font->options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(font->options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(font->options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_antialias(font->options, CAIRO_ANTIALIAS_GRAY);
    cairo_matrix_t em;
    cairo_matrix_t unit;
    cairo_matrix_init_scale(&em, PLUMB_RULER_EM, PLUMB_RULER_EM);
    cairo_matrix_init_identity(&unit);
    font->ruler = cairo_scaled_font_create(font->face, &em, &unit, font->options);
    if (cairo_scaled_font_status(font->ruler) != CAIRO_STATUS_SUCCESS) {
        plumb_font_destroy(font);
        return NULL;
    }
    return font;
}

void plumb_font_destroy(PlumbFont *font)
{
    if (font == NULL) {
        return;
    }
    cairo_scaled_font_destroy(font->ruler);
    cairo_font_options_destroy(font->options);
    cairo_font_face_destroy(font->face);
    free(font);
}

void plumb_draw_finish(void)
{
    cairo_debug_reset_static_data();
    FcFini();
}

double plumb_font_width(void *font, const char *text, size_t length, double size_mm)
{
    char clean[PLUMB_CLEAN_SIZE];
    plumb_utf8_clean(clean, text, length);
    const PlumbFont *with = font;
    cairo_text_extents_t extents;
    cairo_scaled_font_text_extents(with->ruler, clean, &extents);
    return extents.x_advance / PLUMB_RULER_EM * size_mm;
}
