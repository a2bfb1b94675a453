/* SPDX-License-Identifier: MIT */
/* The lifter file behind the drawing: opened, saved with every other byte kept, and watched. */
#ifndef PLUMBAR_VIEWER_BOOK_H
#define PLUMBAR_VIEWER_BOOK_H

#include "desk.h"

/* Puts a file on the desk, a step of undo. false: nothing changed, the notes say why. */
bool plumb_book_open(PlumbDesk *desk, const char *path);
/* Writes what was changed into the desk's own file; asks first where another program has changed
 * it meanwhile, and for a name where there is no file yet. */
bool plumb_book_save(PlumbDesk *desk);
/* The same into another file; sure: replace what is there. */
bool plumb_book_save_as(PlumbDesk *desk, const char *path, bool sure);
/* Keeps the set-up on the drawing under a further name; false where the name cannot be used. */
bool plumb_book_name(PlumbDesk *desk, const char *name);
/* Remembers how the desk's file is now. */
void plumb_book_stamp(PlumbDesk *desk, const char *path);
/* Whether a file's bytes are not those that this window last saw; *hash is then theirs. unseen: so
 * is one that it has never seen. */
bool plumb_book_changed(PlumbDesk *desk, const char *path, bool unseen, uint64_t *hash);
/* The path from the root; false where there is no such file. */
bool plumb_book_whole_path(const char *path, char whole[PLUMB_PATH_SIZE]);
/* Says so where another program has changed the file. Looks at most once a second. */
void plumb_book_watch(PlumbDesk *desk);

/* Opens the line for a path to open, to save as, or for a name. */
void plumb_book_ask(PlumbDesk *desk, PlumbFieldUse use);
/* Puts the next or last of the recent files into that line. */
void plumb_book_recent(PlumbDesk *desk, int step);

/* The index-th of the recent files, newest first; false where there are not so many. */
bool plumb_recent_get(const PlumbDesk *desk, int index, char path[PLUMB_PATH_SIZE]);
/* Puts a path first. */
void plumb_recent_add(const PlumbDesk *desk, const char *path);

#endif
