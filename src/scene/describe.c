/* SPDX-License-Identifier: MIT */
/* The drawing in a sentence or two, for who cannot see it. */
#include "scene/describe.h"

#include <math.h>

static void set_title(PlumbScene *scene, const PlumbDrawing *drawing, const PlumbSetup *setup)
{
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, drawing->name);
    plumb_text_string(&title, drawing->name[0] != '\0' ? ", " : "");
    plumb_text_string(&title, plumb_lift_text(setup->lift));
    plumb_text_string(&title, ", ");
    plumb_text_quantity(&title, setup->load_kg, PLUMB_Q_MASS, drawing->units);
}

static void describe_press(PlumbScene *scene, const PlumbDrawing *drawing)
{
    const PlumbPressAnswer *press = drawing->press;
    const PlumbPressPosition *touch = &press->touch;
    const PlumbUnits units = drawing->units;
    PlumbText text = plumb_text_begin(scene->description, sizeof scene->description);
    if (press->outcome == PLUMB_NO_POSE) {
        plumb_text_string(&text, "No pose: the arms cannot span the way to the ");
        plumb_text_string(&text, press->at_lockout ? "lockout" : "touch");
    } else {
        plumb_text_string(&text, "grip ");
        plumb_text_quantity(&text, press->setup.grip_m, PLUMB_Q_LENGTH, units);
        plumb_text_string(&text, ", touch ");
        plumb_text_quantity(&text, press->setup.touch_m, PLUMB_Q_LENGTH, units);
        plumb_text_string(&text, " toward the feet, upper arm ");
        plumb_text_quantity(&text, touch->angle_rad[PLUMB_PRESS_ANG_abduction], PLUMB_Q_ANGLE,
                            units);
        plumb_text_string(&text, " from the trunk, bar travel ");
        plumb_text_quantity(&text, press->travel_m, PLUMB_Q_LENGTH, units);
    }
    plumb_text_string(&text, ". ");
    plumb_text_string(&text, plumb_caution_line());
}

void plumb_scene_describe(PlumbScene *scene, const PlumbDrawing *drawing)
{
    if (drawing->press != NULL) {
        set_title(scene, drawing, &drawing->press->setup);
        describe_press(scene, drawing);
        return;
    }
    const PlumbAnswer *answer = drawing->answer;
    const PlumbPosition *at = &answer->start;
    const PlumbUnits units = drawing->units;
    set_title(scene, drawing, &answer->setup);
    PlumbText text = plumb_text_begin(scene->description, sizeof scene->description);
    if (answer->outcome == PLUMB_NO_POSE) {
        plumb_text_string(&text, "No pose meets the request: ");
        plumb_text_string(&text, plumb_constraint_text(answer->failed));
        plumb_text_string(&text,
                          isfinite(answer->miss) ? ". The nearest pose: " : ". A first guess: ");
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
