/* SPDX-License-Identifier: MIT */
/* A solved set-up of any lift as a drawing. */
#ifndef PLUMBAR_REPORT_SOLVED_DRAWING_H
#define PLUMBAR_REPORT_SOLVED_DRAWING_H

#include <plumbar/scene.h>
#include <plumbar/solved.h>

/* The set-up in ink with another pencilled in, NULL for none; else as plumb_drawing_default. Both
 * are borrowed. */
PlumbDrawing plumb_drawing_solved(const PlumbLifter *lifter, const PlumbSolved *inked,
                                  const PlumbSolved *pencil, PlumbTextWidth text_width,
                                  void *text_user);

#endif
