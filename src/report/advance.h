/* SPDX-License-Identifier: MIT */
/* Widths of text without a graphics library: the advances of the drawings' typeface, as a table
 * made at build time. */
#ifndef PLUMBAR_REPORT_ADVANCE_H
#define PLUMBAR_REPORT_ADVANCE_H

#include <plumbar/scene.h>

/* Units of an em in the table. */
#define PLUMB_ADVANCE_EM 2048.0

/* Runs of code points, first to last, and their advances one after the other. */
typedef struct PlumbAdvanceRun {
    unsigned first;
    unsigned last;
} PlumbAdvanceRun;

/* What the table covers: Latin, Greek, Cyrillic, punctuation, arrows, signs. */
#define PLUMB_ADVANCE_RUNS                                                                         \
    {                                                                                              \
        {0x20, 0x7e}, {0xa0, 0x24f}, {0x370, 0x377}, {0x384, 0x3ff}, {0x400, 0x52f},               \
            {0x2010, 0x2027}, {0x2030, 0x205e}, {0x2190, 0x2199},                                  \
        {                                                                                          \
            0x2200, 0x2265                                                                         \
        }                                                                                          \
    }

extern const unsigned short plumb_advance_table[];

/* A PlumbTextWidth; user is not used. A character outside of the table is 0.6 em wide. */
double plumb_advance_width(void *user, const char *text, size_t length, double size_mm);

#endif
