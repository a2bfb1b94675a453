/* SPDX-License-Identifier: MIT */
/* The sheet of what is on the desk as a file: PDF, SVG or PNG by its ending. */
#ifndef PLUMBAR_VIEWER_EXPORT_H
#define PLUMBAR_VIEWER_EXPORT_H

#include "desk.h"

/* Opens the line for the name, with one that is not taken yet. */
void plumb_export_ask(PlumbDesk *desk);
/* Writes the sheet, whole or not at all, and says so. false: the name stays to be changed. */
bool plumb_export_write(PlumbDesk *desk, const char *path);

#endif
