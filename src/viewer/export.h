/* SPDX-License-Identifier: MIT */
/* The sheet of what is on the desk as a file: PDF, SVG or PNG by its ending. */
#ifndef PLUMBAR_VIEWER_EXPORT_H
#define PLUMBAR_VIEWER_EXPORT_H

#include "desk.h"

/* Opens the line for the name, with one that is not taken yet. */
void plumb_export_ask(PlumbDesk *desk);
/* The same for any file: "sam-squat" WHAT ENDING, and words for the notes. */
void plumb_export_open(PlumbDesk *desk, PlumbFieldUse use, const char *what, const char *ending,
                       const char *words);
/* That name alone, one that is not taken yet. */
void plumb_export_name(const PlumbDesk *desk, const char *what, const char *ending,
                       char name[PLUMB_FIELD_TEXT_SIZE]);
/* Writes bytes, whole or not at all, unless making them has failed, and says so either way. */
bool plumb_export_put(PlumbDesk *desk, const char *path, PlumbStatus status, const char *bytes,
                      size_t length, PlumbError *error);
/* Says what came of it; true: it is written. */
bool plumb_export_say(PlumbDesk *desk, const char *path, bool replaced, PlumbStatus status,
                      const PlumbError *error);
/* Writes the sheet, whole or not at all, and says so. false: the name stays to be changed. */
bool plumb_export_write(PlumbDesk *desk, const char *path);

#endif
