/* SPDX-License-Identifier: MIT */
/* Bytes that grow while a drawing is written. */
#ifndef PLUMBAR_DRAW_BUFFER_H
#define PLUMBAR_DRAW_BUFFER_H

#include <plumbar/svg.h>

#include <stdbool.h>
#include <stddef.h>

typedef struct PlumbBuffer {
    unsigned char *data;
    size_t length;
    size_t capacity;
    bool failed; /* memory ran out; nothing more is taken */
} PlumbBuffer;

void plumb_buffer_add(PlumbBuffer *buffer, const void *data, size_t length);
void plumb_buffer_string(PlumbBuffer *buffer, const char *string);
/* value with at most three decimals and no trailing zeros. */
void plumb_buffer_number(PlumbBuffer *buffer, double value);
/* Gives the bytes to the caller, or frees them and reports that memory ran out. */
PlumbStatus plumb_buffer_finish(PlumbBuffer *buffer, PlumbBytes *bytes, PlumbError *error);

enum { PLUMB_CLEAN_SIZE = 1024 };

/* Copies text[length] as valid UTF-8 without control characters: what is neither becomes U+FFFD.
 * Cut at a character boundary where it does not fit. Returns the length written. */
size_t plumb_utf8_clean(char clean[PLUMB_CLEAN_SIZE], const char *text, size_t length);

#endif
