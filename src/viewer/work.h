/* SPDX-License-Identifier: MIT */
/* Curves in the time that is left: those beside the focus first, coarse while something is moved.
 */
#ifndef PLUMBAR_VIEWER_WORK_H
#define PLUMBAR_VIEWER_WORK_H

#include "desk.h"

/* Works on curves for about seconds (a single solve is never cut). rough: only as far as they have
 * to be shown during a drag. false where nothing is left to do. */
bool plumb_work(PlumbDesk *desk, double seconds, bool rough);

#endif
