/* SPDX-License-Identifier: MIT */
/* The window as one drawing: zones, rulers, buttons, and what can be pointed at. */
#ifndef PLUMBAR_VIEWER_COMPOSE_H
#define PLUMBAR_VIEWER_COMPOSE_H

#include "command.h"
#include "desk.h"

#include "scene/board.h"

/* What the drawing of the set-up speaks of, for views, table, notes and exported sheets. */
PlumbDrawing plumb_desk_drawing(const PlumbDesk *desk);

/* Makes desk->fit. Large text beside a small figure would leave no figure: in the views text grows
 * only as long as the scale stays near that of plain text. */
typedef PlumbFit (*PlumbFitter)(PlumbDesk *desk, const PlumbDrawing *drawing, PlumbRect rect);
void plumb_fit_text(PlumbDesk *desk, PlumbDrawing drawing, PlumbRect rect, PlumbFitter fitter);

/* Draws the window into desk->scene and lists its widgets. The desk must be settled. */
void plumb_compose_window(PlumbDesk *desk);
/* Whether what stands in the place of the views is drawn to the scale of desk->fit. */
bool plumb_desk_scaled(const PlumbDesk *desk);

/* Parts of it. */
void plumb_compose_top(PlumbDesk *desk, const PlumbBoard *board);
void plumb_compose_rulers(PlumbDesk *desk, const PlumbBoard *board);
void plumb_notes_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect zone);
/* Scrolls the notes; false where all of them are in view. */
bool plumb_notes_scroll(PlumbDesk *desk, double lines);
bool plumb_notes_turn(PlumbDesk *desk, int pages);
void plumb_compose_keys(PlumbDesk *desk, const PlumbBoard *board);
void plumb_ruler_draw(const PlumbDesk *desk, const PlumbBoard *board, const PlumbRulerPlace *place);
/* The line being typed, in box; its end is shown where it is too long. */
void plumb_field_draw(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect box, double size_mm,
                      double base_mm);

/* A button of the table of commands, with its words. */
void plumb_button_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbCommandId id, PlumbRect rect,
                       const char *words);

/* A strip that says how many are above and below what is in view; its left half is the widget
 * first_id, its right half first_id + 1, for back and further down. */
void plumb_fold_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, PlumbWidgetKind kind,
                     int first_id, int above, int below);

void plumb_desk_widget(PlumbDesk *desk, PlumbWidgetKind kind, int id, PlumbRect rect, bool stop);
void plumb_focus_ring(const PlumbBoard *board, PlumbRect rect);

#endif
