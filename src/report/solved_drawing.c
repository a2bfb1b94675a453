/* SPDX-License-Identifier: MIT */
/* A solved set-up of any lift as a drawing. */
#include "report/solved_drawing.h"

PlumbDrawing plumb_drawing_solved(const PlumbLifter *lifter, const PlumbSolved *inked,
                                  const PlumbSolved *pencil, PlumbTextWidth text_width,
                                  void *text_user)
{
    PlumbDrawing drawing;
    if (inked->lift == PLUMB_BENCH) {
        drawing = plumb_press_drawing_default(lifter, &inked->press, text_width, text_user);
        drawing.press_pencil = pencil != NULL ? &pencil->press : NULL;
    } else {
        drawing = plumb_drawing_default(lifter, &inked->pose, text_width, text_user);
        drawing.pencil = pencil != NULL ? &pencil->pose : NULL;
    }
    return drawing;
}
