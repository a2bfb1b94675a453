/* SPDX-License-Identifier: MIT */
/* What a shared page carries of a lifter and two set-ups, as bytes: the same functions write them
 * here and read them in the page. */
#ifndef PLUMBAR_REPORT_PACK_H
#define PLUMBAR_REPORT_PACK_H

#include <plumbar/lifter.h>
#include <plumbar/setup.h>

enum { PLUMB_SHARE_NAME_SIZE = 96, PLUMB_SHARE_BYTES_MAX = 16384 };

/* All that a page shows. Names are cut where they do not fit. */
typedef struct PlumbShared {
    PlumbLifter lifter;
    PlumbSetup setup;
    bool has_pencil;
    PlumbSetup pencil;
    char name[PLUMB_SHARE_NAME_SIZE];
    char setup_name[PLUMB_SHARE_NAME_SIZE];
    char pencil_name[PLUMB_SHARE_NAME_SIZE];
    char date[PLUMB_SHARE_NAME_SIZE];
    PlumbUnits units;
} PlumbShared;

/* Little-endian; doubles to the bit. Returns the bytes written, 0 where size is too small. */
size_t plumb_shared_write(const PlumbShared *shared, unsigned char *bytes, size_t size);
/* false, *shared untouched, where bytes[length] are not those of plumb_shared_write. */
bool plumb_shared_read(const unsigned char *bytes, size_t length, PlumbShared *shared);

#endif
