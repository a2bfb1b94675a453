/* SPDX-License-Identifier: MIT */
/* The phone's column: views on a paper of their own, and what is read below them. */
#include <plumbar/phone.h>

#include "scene/board.h"
#include "scene/describe.h"

#include <math.h>

static const double AIR_MM = 3.0;
/* Text that ends at the edge is not cut by a rounding. */
static const double HAIR_MM = 0.1;
/* Room to compose in; the paper is cut to what was used. */
static const double TALL_MM = 4000.0;

/* The drawing read aloud: texts of one line together, lines after one another. */
static void read_aloud(PlumbScene *scene)
{
    PlumbText text = plumb_text_begin(scene->description, sizeof scene->description);
    double line_mm = -1.0;
    for (int i = 0; i < scene->item_count; i++) {
        const PlumbItem *item = &scene->item[i];
        if (item->kind != PLUMB_ITEM_TEXT) {
            continue;
        }
        const bool same = fabs(item->at_mm.y - line_mm) < 0.1;
        plumb_text_string(&text, text.length == 0 ? "" : same ? " " : "; ");
        plumb_text_string(&text, plumb_scene_item_text(scene, item));
        line_mm = item->at_mm.y;
    }
}

void plumb_compose_phone_views(PlumbScene *scene, const PlumbDrawing *drawing, double width_mm,
                               double height_mm, PlumbFit *fit)
{
    plumb_scene_begin(scene, width_mm, height_mm);
    plumb_scene_describe(scene, drawing);
    const bool decided = fit->decided;
    if (!decided) {
        *fit = plumb_views_fit(drawing, (PlumbRect){0.0, 0.0, width_mm, height_mm});
    }
    plumb_compose_views(scene, drawing, fit);
}

void plumb_compose_phone_table(PlumbScene *scene, const PlumbDrawing *drawing, double width_mm)
{
    plumb_scene_begin(scene, width_mm, TALL_MM);
    plumb_scene_describe(scene, drawing);
    const double wide = width_mm - 2.0 * HAIR_MM;
    double y = plumb_compose_figures(scene, drawing, (PlumbRect){HAIR_MM, 0.0, wide, TALL_MM});
    y += AIR_MM;
    y += plumb_compose_joints(scene, drawing, (PlumbRect){HAIR_MM, y, wide, TALL_MM});
    scene->height_mm = y + AIR_MM;
    read_aloud(scene);
}

void plumb_compose_phone_notes(PlumbScene *scene, const PlumbDrawing *drawing, double width_mm,
                               double scale_n)
{
    plumb_scene_begin(scene, width_mm, TALL_MM);
    plumb_scene_describe(scene, drawing);
    /* One column of notes, also where there is room for two. */
    const double notes_mm = fmin(width_mm, 55.0 * PLUMB_SMALL_TEXT_MM * drawing->text_scale);
    double y = plumb_compose_notes(scene, drawing, (PlumbRect){0.0, 1.0, notes_mm, TALL_MM});
    y += 1.0 + AIR_MM;
    const double title_mm = plumb_title_height_mm(drawing, width_mm - 1.0, scale_n);
    plumb_compose_title(scene, drawing, (PlumbRect){0.5, y, width_mm - 1.0, title_mm}, scale_n);
    scene->height_mm = y + title_mm + 0.5;
    read_aloud(scene);
}
