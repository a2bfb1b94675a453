/* SPDX-License-Identifier: MIT */
/* What would be lost by a crash, kept in the state folder: written whole at most about once a
 * second by a thread of its own, so that the drawing never waits for the disk. */
#ifndef PLUMBAR_VIEWER_JOURNAL_H
#define PLUMBAR_VIEWER_JOURNAL_H

#include "desk.h"

/* Takes a place in the state folder that no other window holds. Where an earlier window left work
 * there that was never saved, the desk gets it back and says so. Without a folder nothing is kept.
 */
void plumb_journal_open(PlumbDesk *desk);
/* Says that something worth keeping has changed. */
void plumb_journal_touch(PlumbDesk *desk);
/* Hands over what is due. Returns the seconds until the next time, negative for never. */
double plumb_journal_tend(PlumbDesk *desk);
/* The window closes in order: what was changed and not saved stays for the next start. */
void plumb_journal_close(PlumbDesk *desk);

#endif
