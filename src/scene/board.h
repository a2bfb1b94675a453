/* SPDX-License-Identifier: MIT */
/* What every layout draws with: measured text, and labels that keep clear of one another. */
#ifndef PLUMBAR_SCENE_BOARD_H
#define PLUMBAR_SCENE_BOARD_H

#include <plumbar/scene.h>

typedef struct PlumbBoard {
    PlumbScene *scene;
    const PlumbDrawing *drawing;
} PlumbBoard;

/* Pens of the drawing's conventions. */
#define PEN_OUTLINE ((PlumbPen){PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none})
#define PEN_FINE ((PlumbPen){PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none})
#define PEN_RULE ((PlumbPen){PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none})
#define PEN_REFERENCE ((PlumbPen){PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none})
#define PEN_BAR ((PlumbPen){PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none})

#define TAG_NONE ((PlumbTag){PLUMB_TAG_NONE, 0})

/* A size of text at the drawing's text scale. */
double plumb_board_size(const PlumbBoard *board, double size_mm);
double plumb_board_width(const PlumbBoard *board, const char *text, double size_mm);
/* Measures and appends; size_mm as it shall stand. */
void plumb_board_text(const PlumbBoard *board, PlumbRole role, PlumbTag tag, PlumbVec2 anchor_mm,
                      double size_mm, PlumbAlign align, const char *text);
/* Breaks text at spaces into lines of at most width_mm and appends them from *y_mm (top of the
 * first line) downward, at most max_lines; the last one ends in an ellipsis where there was more.
 * Returns the lines set; *y_mm comes to the top of the next line. */
int plumb_board_wrap(const PlumbBoard *board, PlumbRole role, PlumbTag tag, double x_mm,
                     double *y_mm, double width_mm, double size_mm, int max_lines,
                     const char *text);
/* Lines that plumb_board_wrap would set without a limit. */
int plumb_board_wrap_count(const PlumbBoard *board, double width_mm, double size_mm,
                           const char *text);

#define PLUMB_LINE_PITCH 1.36 /* line to line, in ems */

enum { PLUMB_LABEL_LINES = 4, PLUMB_LABEL_SIZE = 96 };

/* A few lines of text that stand together. */
typedef struct PlumbLabel {
    int count;
    PlumbTag tag;
    struct {
        char text[PLUMB_LABEL_SIZE];
        double size_mm;
        PlumbRole role;
    } line[PLUMB_LABEL_LINES];
} PlumbLabel;

void plumb_label_line(PlumbLabel *label, const PlumbBoard *board, PlumbRole role, double size_mm,
                      const char *text);

/* A place for a label: the point of its box that comes to at_mm, as shares of its width (align) and
 * height (rise: 0 the top, 1 the bottom). */
typedef struct PlumbSpot {
    PlumbVec2 at_mm;
    PlumbAlign align;
    double rise;
} PlumbSpot;

/* Sets the label at the spot within bounds whose box meets no text and crosses the least of what is
 * drawn, and returns the spot's index; -1 and nothing set where none is free or all cross more
 * than limit. held >= 0: that spot is tried first and taken if it meets no text. */
int plumb_label_place(const PlumbBoard *board, const PlumbLabel *label, const PlumbSpot *spot,
                      int count, PlumbRect bounds, int held, double limit);

#endif
