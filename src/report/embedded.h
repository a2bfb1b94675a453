/* SPDX-License-Identifier: MIT */
/* Files that are part of the program; made at build time. */
#ifndef PLUMBAR_REPORT_EMBEDDED_H
#define PLUMBAR_REPORT_EMBEDDED_H

#include <stddef.h>

extern const unsigned char plumb_embedded_drills[]; /* anthropometry/drills.csv */
extern const size_t plumb_embedded_drills_size;

#endif
