/* SPDX-License-Identifier: MIT */
/* A grey picture that belongs to somebody else: what marks are followed in. */
#ifndef PLUMBAR_GRAY_H
#define PLUMBAR_GRAY_H

#include <stddef.h>
#include <stdint.h>

/* height_px rows of width_px levels, 0 black to 255 white, from the top left; rows begin stride
 * levels apart. Borrowed: whoever lends it says for how long. */
typedef struct PlumbGray {
    int width_px;
    int height_px;
    ptrdiff_t stride;
    const uint8_t *level;
} PlumbGray;

#endif
