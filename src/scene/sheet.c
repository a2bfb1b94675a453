/* SPDX-License-Identifier: MIT */
/* The sheet: frame, views, notes below them, table and title block at the right. */
#include "scene/board.h"
#include "scene/describe.h"

#include <math.h>

static const double MARGIN_MM = 8.0;
static const double PAD_MM = 3.0;
static const double COLUMN_MM = 84.0;
static const double NOTES_MM = 44.0;

PlumbDrawing plumb_drawing_default(const PlumbLifter *lifter, const PlumbAnswer *answer,
                                   PlumbTextWidth text_width, void *text_user)
{
    return (PlumbDrawing){
        .lifter = lifter,
        .answer = answer,
        .name = "",
        .setup_name = "",
        .pencil_name = "",
        .date = "",
        .units = PLUMB_METRIC,
        .selected = PLUMB_JOINT_hip,
        .text_scale = 1.0,
        .text_width = text_width,
        .text_user = text_user,
    };
}

PlumbDrawing plumb_press_drawing_default(const PlumbLifter *lifter, const PlumbPressAnswer *press,
                                         PlumbTextWidth text_width, void *text_user)
{
    PlumbDrawing drawing = plumb_drawing_default(lifter, NULL, text_width, text_user);
    drawing.press = press;
    return drawing;
}

void plumb_format_size(PlumbFormat format, double *width_mm, double *height_mm)
{
    static const double SIZE_MM[PLUMB_FORMAT_COUNT][2] = {
        [PLUMB_A4_LANDSCAPE] = {297.0, 210.0},
        [PLUMB_LETTER_LANDSCAPE] = {279.4, 215.9},
    };
    *width_mm = SIZE_MM[format][0];
    *height_mm = SIZE_MM[format][1];
}

void plumb_compose_sheet(PlumbScene *scene, const PlumbDrawing *drawing, PlumbFormat format)
{
    double width = 0.0;
    double height = 0.0;
    plumb_format_size(format, &width, &height);
    plumb_scene_begin(scene, width, height);
    plumb_scene_describe(scene, drawing);
    const PlumbRect frame = {MARGIN_MM, MARGIN_MM, width - 2.0 * MARGIN_MM,
                             height - 2.0 * MARGIN_MM};
    const double title_mm =
        fmin(plumb_title_height_mm(drawing, COLUMN_MM, 100.0), 0.45 * frame.height_mm);
    const double split = frame.x_mm + frame.width_mm - COLUMN_MM;
    const double bottom = frame.y_mm + frame.height_mm;
    const PlumbRect views = {frame.x_mm + PAD_MM, frame.y_mm + PAD_MM,
                             split - frame.x_mm - 2.0 * PAD_MM,
                             frame.height_mm - NOTES_MM - 2.0 * PAD_MM};
    const PlumbRect notes = {frame.x_mm + PAD_MM, bottom - NOTES_MM + PAD_MM, views.width_mm,
                             NOTES_MM - 2.0 * PAD_MM};
    const PlumbRect table = {split + PAD_MM, frame.y_mm + PAD_MM, COLUMN_MM - 2.0 * PAD_MM,
                             frame.height_mm - title_mm - 2.0 * PAD_MM};
    const PlumbRect title = {split, bottom - title_mm, COLUMN_MM, title_mm};
    const PlumbPen heavy = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_rect(scene, heavy, TAG_NONE, frame);
    plumb_scene_line(scene, PEN_OUTLINE, TAG_NONE, (PlumbVec2){split, frame.y_mm},
                     (PlumbVec2){split, bottom});
    plumb_scene_line(scene, PEN_OUTLINE, TAG_NONE, (PlumbVec2){frame.x_mm, bottom - NOTES_MM},
                     (PlumbVec2){split, bottom - NOTES_MM});
    PlumbFit fit = plumb_views_fit(drawing, views);
    plumb_compose_views(scene, drawing, &fit);
    plumb_compose_table(scene, drawing, table);
    plumb_compose_notes(scene, drawing, notes);
    plumb_compose_title(scene, drawing, title, fit.scale_n);
}
