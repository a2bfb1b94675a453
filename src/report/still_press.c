/* SPDX-License-Identifier: MIT */
/* A still of a bench press held against the model: which press stands beside it, and what its view
 * shows. */
#include "report/still_over.h"

#include <math.h>

/* The press whose bar is as high above the shoulders as the picture's. */
static void place_beside(PlumbStills *stills, int still)
{
    const PlumbTraced *const traced = &stills->trace.still[still];
    const PlumbPressAnswer *const press = &stills->press[still];
    const PlumbVec3 *const touch = press->touch.point;
    const double low_m = touch[PLUMB_PRESS_bar].y - touch[PLUMB_PRESS_shoulder].y;
    const double share = (traced->value[PLUMB_READ_bar_above_shoulder] - low_m) / press->travel_m;
    plumb_press_at(&stills->trace.lifter, press, fmin(fmax(share, 0.0), 1.0),
                   &stills->beside[still]);
}

/* Its arm as a figure: it lies where the fit's lifter does. */
static void place_figure(PlumbStills *stills, int still)
{
    static const struct {
        PlumbPoint point;
        PlumbPressPoint from;
    } arm[] = {{PLUMB_PT_shoulder, PLUMB_PRESS_shoulder},
               {PLUMB_PT_elbow, PLUMB_PRESS_elbow},
               {PLUMB_PT_wrist, PLUMB_PRESS_wrist},
               {PLUMB_PT_grip, PLUMB_PRESS_grip},
               {PLUMB_PT_bar, PLUMB_PRESS_bar}};
    const PlumbVec3 *const point = stills->beside[still].point;
    const PlumbPosition *const seen = &stills->trace.still[still].position;
    PlumbPosition *const figure = &stills->answer[still].start;
    const PlumbVec3 shoulder = seen->point[PLUMB_PT_shoulder];
    *figure = *seen;
    for (size_t i = 0; i < sizeof arm / sizeof arm[0]; i++) {
        PlumbVec3 at = point[arm[i].from];
        at.x += shoulder.x - point[PLUMB_PRESS_shoulder].x;
        at.y += shoulder.y - point[PLUMB_PRESS_shoulder].y;
        figure->point[arm[i].point] = at;
    }
}

void plumb_still_press_model(PlumbStills *stills, int still)
{
    const PlumbTraced *const traced = &stills->trace.still[still];
    PlumbAnswer *const answer = &stills->answer[still];
    PlumbPressAnswer *const press = &stills->press[still];
    stills->stage[still] = plumb_trace_press_stage(&stills->trace.lifter, traced);
    stills->led[still] =
        plumb_trace_press_placed(traced) && stills->stage[still] != PLUMB_PRESS_ON_THE_WAY;
    PlumbSetup model = plumb_trace_model(traced, &stills->setup, stills->led[still]);
    plumb_press_solve(&stills->trace.lifter, &model, press);
    if (stills->led[still] && press->outcome == PLUMB_NO_POSE) {
        stills->led[still] = false;
        model = plumb_trace_model(traced, &stills->setup, false);
        plumb_press_solve(&stills->trace.lifter, &model, press);
    }
    answer->setup = press->setup;
    answer->outcome = press->outcome;
    answer->start = traced->position;
    if (press->outcome != PLUMB_NO_POSE) {
        place_beside(stills, still);
        place_figure(stills, still);
    }
}

bool plumb_still_press_shows(const PlumbTraced *traced, PlumbReading reading)
{
    /* Straight arms have no axis of the elbow: what is taken about it, or counted from it, is
     * anything. */
    static const double axis_rad = 0.1;
    enum { SIDE = 1, END = 2 };
    static const struct {
        PlumbReading reading;
        unsigned views;
    } rows[] = {{PLUMB_READ_grip, END},
                {PLUMB_READ_bar_from_shoulder, SIDE},
                {PLUMB_READ_bar_above_shoulder, SIDE | END},
                {PLUMB_READ_upper_arm, SIDE | END},
                {PLUMB_READ_elbow_flexion, SIDE | END},
                {PLUMB_READ_forearm_front, END},
                {PLUMB_READ_forearm_side, SIDE},
                {PLUMB_READ_shoulder_rotation, SIDE | END},
                {PLUMB_READ_elbow_off_bar, SIDE | END},
                {PLUMB_READ_elbow_off_hand, END},
                {PLUMB_READ_elbow_below_rule, SIDE | END},
                {PLUMB_READ_front_arm, END},
                {PLUMB_READ_elbow_arm, SIDE | END},
                {PLUMB_READ_adduction_moment, END},
                {PLUMB_READ_flexion_moment, SIDE},
                {PLUMB_READ_elbow_moment, SIDE | END}};
    const bool about_elbow = reading == PLUMB_READ_shoulder_rotation ||
                             reading == PLUMB_READ_elbow_arm || reading == PLUMB_READ_elbow_moment;
    if (about_elbow && traced->press.angle_rad[PLUMB_PRESS_ANG_elbow_flexion] < axis_rad) {
        return false;
    }
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].reading == reading) {
            return isfinite(traced->value[reading]) &&
                   (rows[i].views & (traced->front ? END : SIDE)) != 0;
        }
    }
    return false;
}

void plumb_still_press_lead_text(PlumbText *text, const PlumbStills *stills, int still)
{
    const PlumbPressAnswer *const press = &stills->press[still];
    const PlumbPressStage stage = stills->stage[still];
    if (press->outcome == PLUMB_NO_POSE) {
        plumb_text_string(text, "No press of the model has this grip");
        plumb_text_string(text, press->at_lockout ? " at lockout." : " at the touch.");
        return;
    }
    plumb_text_string(text, "The model is the press with the same grip");
    plumb_text_string(text, !stills->led[still]             ? ""
                            : stage == PLUMB_PRESS_AT_TOUCH ? " and the touch as read"
                                                            : " and the bar's place at lockout "
                                                              "as read");
    plumb_text_string(text, press->setup.elbows_given ? ", its elbows as asked for"
                                                      : ", its elbows under the bar");
    plumb_text_string(text, stage == PLUMB_PRESS_ON_THE_WAY
                                ? ", where its bar is as high above the shoulders: at "
                            : stage == PLUMB_PRESS_AT_TOUCH ? ", at the touch: at "
                                                            : ", at lockout: at ");
    plumb_text_fixed(text, 100.0 * stills->beside[still].rise_frac, 0);
    plumb_text_string(text, " % of its rise.");
    if (stills->led[still] || stills->trace.still[still].front) {
        return;
    }
    plumb_text_string(text, stage == PLUMB_PRESS_ON_THE_WAY
                                ? " The touch is that of the set-up: the picture is more than 5 cm "
                                  "above the chest and short of straight arms. If the bar does "
                                  "touch in it, arch= raises the chest."
                            : stage == PLUMB_PRESS_AT_TOUCH
                                ? " The touch is that of the set-up, since the picture does not "
                                  "tell it, or no press has it."
                                : " The bar's place is that of the set-up, since the picture does "
                                  "not tell it, or no press has it.");
}
