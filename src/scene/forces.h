/* SPDX-License-Identifier: MIT */
/* Marks of mechanics: forces, moments, joints, levers, on the stage of a free body. */
#ifndef PLUMBAR_SCENE_FORCES_H
#define PLUMBAR_SCENE_FORCES_H

#include "scene/board.h"

#include <plumbar/working.h>

#define PLUMB_LEVER_PITCH_MM 4.2 /* from one lever's row to the next */
#define PLUMB_FORCE_MOST_MM 20.0 /* arrow of the greatest force */

/* Where a free body is drawn. */
typedef struct PlumbStage {
    PlumbBoard board;
    const PlumbWorking *working;
    const PlumbPosition *at;
    PlumbFit fit;
    PlumbRect rect;
    bool front; /* the view from the front, of the same leg */
} PlumbStage;

/* Paper of a place in the stage's view, mm. */
PlumbVec2 plumb_stage_paper(const PlumbStage *stage, PlumbVec3 point_m);

/* A line with a filled head at its tip. */
void plumb_force_arrow(const PlumbStage *stage, PlumbRole role, PlumbVec2 tail, PlumbVec2 tip);
/* A short word beside an arrow, where there is room. */
void plumb_force_word(const PlumbStage *stage, PlumbVec2 tail, PlumbVec2 tip, const char *words);
/* Force at a place, as the view shows it: to the right on paper, and up. */
void plumb_force_draw(const PlumbStage *stage, PlumbVec3 at_m, PlumbVec2 newton, double most_n,
                      PlumbRole role);
/* Its number, as the terms are; after all forces are drawn, so that none runs through it. */
void plumb_force_name(const PlumbStage *stage, PlumbVec3 at_m, PlumbVec2 newton, double most_n,
                      int number);
/* Where the arrow of a force that begins at tail ends. */
PlumbVec2 plumb_force_tip(PlumbVec2 tail, PlumbVec2 newton, double most_n);
/* Circular arrow about a joint, lettered M. */
void plumb_force_turn(const PlumbStage *stage, PlumbVec2 centre, bool against_clock);
void plumb_force_joint(const PlumbStage *stage, PlumbVec2 at);
/* Level distance between two places of the side view, in its own row below the floor. */
void plumb_force_lever(const PlumbStage *stage, double from_m, double to_m, int row,
                       const char *words);
/* Chain line from a place down to the row of a lever. */
void plumb_force_line(const PlumbStage *stage, PlumbVec3 from_m, int row, PlumbRole role);
void plumb_force_number(char *out, size_t size, int number);

/* An angle from a direction on paper, rad, y down, to the line from apex to far; lettered A. */
void plumb_wedge_draw(const PlumbStage *stage, PlumbVec2 apex, PlumbVec2 far, double leg);
/* Upright dimension between two heights at x_mm, led there from where they are. */
void plumb_rise_draw(const PlumbStage *stage, PlumbVec2 low, PlumbVec2 high, double x_mm,
                     const char *words);

/* Whether a figure cuts a part free at a joint, which then is drawn with its forces. */
bool plumb_cuts_free(PlumbExplainKind kind);
/* Whether a figure is of one leg in space, which alone is drawn, from the side and the front. */
bool plumb_leg_alone(PlumbExplainKind kind);
/* Marks of angles and distances of a pose that stands, in the stage's view. */
void plumb_place_draw(const PlumbStage *stage);

/* The free body of a press: three views with the right arm cut free. */
void plumb_compose_press_body(PlumbStage *stage, PlumbRect rect);

#endif
