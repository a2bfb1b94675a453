/* SPDX-License-Identifier: MIT */
/* The sheet: frame, views, notes below them, table and title block at the right. */
#include "scene/board.h"

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

void plumb_format_size(PlumbFormat format, double *width_mm, double *height_mm)
{
    static const double SIZE_MM[PLUMB_FORMAT_COUNT][2] = {
        [PLUMB_A4_LANDSCAPE] = {297.0, 210.0},
        [PLUMB_LETTER_LANDSCAPE] = {279.4, 215.9},
    };
    *width_mm = SIZE_MM[format][0];
    *height_mm = SIZE_MM[format][1];
}

/* The drawing in a sentence or two, for who cannot see it. */
static void describe(PlumbScene *scene, const PlumbDrawing *drawing)
{
    const PlumbAnswer *answer = drawing->answer;
    const PlumbPosition *at = &answer->start;
    const PlumbUnits units = drawing->units;
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, drawing->name);
    plumb_text_string(&title, drawing->name[0] != '\0' ? ", " : "");
    plumb_text_string(&title, plumb_lift_name(answer->setup.lift));
    plumb_text_string(&title, ", ");
    plumb_text_quantity(&title, answer->setup.load_kg, PLUMB_Q_MASS, units);
    PlumbText text = plumb_text_begin(scene->description, sizeof scene->description);
    if (answer->outcome == PLUMB_NO_POSE) {
        plumb_text_string(&text, "No pose meets the request: ");
        plumb_text_string(&text, plumb_constraint_text(answer->failed));
        plumb_text_string(&text, ". The nearest pose: ");
    }
    plumb_text_string(&text, "back angle ");
    plumb_text_quantity(&text, at->angle_rad[PLUMB_ANG_back], PLUMB_Q_ANGLE, units);
    plumb_text_string(&text, " above level, hip height ");
    plumb_text_quantity(&text, at->point[PLUMB_PT_hip].y, PLUMB_Q_LENGTH, units);
    plumb_text_string(&text, ", balance ");
    plumb_text_quantity(&text, at->balance_frac, PLUMB_Q_FRACTION, units);
    if (isfinite(answer->travel_m)) {
        plumb_text_string(&text, ", bar travel ");
        plumb_text_quantity(&text, answer->travel_m, PLUMB_Q_LENGTH, units);
    }
    plumb_text_string(&text, ". ");
    plumb_text_string(&text, plumb_caution_line());
}

void plumb_compose_sheet(PlumbScene *scene, const PlumbDrawing *drawing, PlumbFormat format)
{
    double width = 0.0;
    double height = 0.0;
    plumb_format_size(format, &width, &height);
    plumb_scene_begin(scene, width, height);
    describe(scene, drawing);
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
