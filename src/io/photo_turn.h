/* SPDX-License-Identifier: MIT */
/* How a picture is to be turned before a person looks at it.
 *
 * A camera stores what its sensor saw, and in the tag Orientation (0x0112) of the JPEG's EXIF block
 * (JEITA CP-3451) how that is held upright: 1 as it is, 2 mirrored, 3 by half a turn, 4 upside down
 * and mirrored, 5 to 8 with rows and columns exchanged. */
#ifndef PLUMBAR_IO_PHOTO_TURN_H
#define PLUMBAR_IO_PHOTO_TURN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* 1 to 8 out of the contents of an APP1 segment; 1 where it tells nothing. */
int plumb_turn_read(const unsigned char *segment, size_t length);

/* Whether width and height are exchanged. */
static inline bool plumb_turn_exchanges(int turn)
{
    return turn > 4;
}

/* Puts row y of a picture as it is stored (width x height) to its places in the turned one. */
void plumb_turn_row(const uint32_t *row, int y, int width, int height, int turn, uint32_t *to);

#endif
