/* SPDX-License-Identifier: MIT */
/* The orientation of a JPEG read, and its pixels turned by it. */
#include "io/photo_turn.h"

#include <string.h>

enum { ENTRY_BYTES = 12, ORIENTATION = 0x0112, SHORT = 3 };

/* A block in TIFF form, numbers in the order of bytes that it says itself. */
typedef struct Tiff {
    const unsigned char *data;
    size_t length;
    bool low_first;
} Tiff;

static unsigned long number(const Tiff *tiff, size_t at, int bytes)
{
    unsigned long value = 0;
    for (int i = 0; i < bytes; i++) {
        const int shift = 8 * (tiff->low_first ? i : bytes - 1 - i);
        value |= (unsigned long)tiff->data[at + (size_t)i] << shift;
    }
    return value;
}

int plumb_turn_read(const unsigned char *segment, size_t length)
{
    static const char exif[6] = {'E', 'x', 'i', 'f', 0, 0};
    if (length < 6 + 8 || memcmp(segment, exif, sizeof exif) != 0) {
        return 1;
    }
    const Tiff tiff = {segment + 6, length - 6, segment[6] == 'I'};
    if ((segment[6] != 'I' && segment[6] != 'M') || segment[7] != segment[6] ||
        number(&tiff, 2, 2) != 42) {
        return 1;
    }
    const size_t at = (size_t)number(&tiff, 4, 4);
    if (at > tiff.length - 2) {
        return 1;
    }
    const size_t count = (size_t)number(&tiff, at, 2);
    for (size_t i = 0; i < count && at + 2 + (i + 1) * ENTRY_BYTES <= tiff.length; i++) {
        const size_t entry = at + 2 + i * ENTRY_BYTES;
        if (number(&tiff, entry, 2) == ORIENTATION && number(&tiff, entry + 2, 2) == SHORT) {
            const unsigned long turn = number(&tiff, entry + 8, 2);
            return turn >= 1 && turn <= 8 ? (int)turn : 1;
        }
    }
    return 1;
}

void plumb_turn_row(const uint32_t *row, int y, int width, int height, int turn, uint32_t *to)
{
    const bool exchanged = plumb_turn_exchanges(turn);
    /* Which way a stored row and a stored column run in the turned picture. */
    const bool x_back = turn == 2 || turn == 3 || turn == 7 || turn == 8;
    const bool y_back = turn == 3 || turn == 4 || turn == 6 || turn == 7;
    const size_t across = (size_t)(y_back ? height - 1 - y : y);
    for (int x = 0; x < width; x++) {
        const size_t along = (size_t)(x_back ? width - 1 - x : x);
        const size_t at =
            exchanged ? along * (size_t)height + across : across * (size_t)width + along;
        to[at] = row[x];
    }
}
