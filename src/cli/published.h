/* SPDX-License-Identifier: MIT */
/* Published results beside what this program computes for the same conditions; the rows are
 * computed when the program is built. */
#ifndef PLUMBAR_CLI_PUBLISHED_H
#define PLUMBAR_CLI_PUBLISHED_H

/* One row, all as it is shown. */
typedef struct PlumbPublished {
    const char *lift;
    const char *quantity;
    const char *published;
    const char *ours;
    const char *inside; /* yes, or how far not */
    const char *conditions;
    const char *source;
} PlumbPublished;

extern const PlumbPublished plumb_published[];
extern const int plumb_published_count;

#endif
