/* SPDX-License-Identifier: MIT */
/* Paths in pieces, and what the notes say about a file. */
#ifndef PLUMBAR_VIEWER_PATH_H
#define PLUMBAR_VIEWER_PATH_H

#include "desk.h"

/* Whether a path has an ending, in letters of either case, and something before it. */
bool plumb_path_ends(const char *path, const char *ending);
/* What stands after the last slash. */
const char *plumb_path_base(const char *path);
/* The first length bytes of stem, then ending; false where that is too long. */
bool plumb_path_put(char path[PLUMB_PATH_SIZE], const char *stem, size_t length,
                    const char *ending);

/* Puts "FIRST PATH REST", without spaces between, into the notes. */
void plumb_path_say(PlumbDesk *desk, bool wrong, const char *first, const char *path,
                    const char *rest);
/* "FIRST PATH:3: what is wrong with it". */
void plumb_path_say_error(PlumbDesk *desk, const char *first, const char *path,
                          const PlumbError *error);

#endif
