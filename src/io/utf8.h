/* SPDX-License-Identifier: MIT */
/* Whether bytes are the text that they should be. */
#ifndef PLUMBAR_IO_UTF8_H
#define PLUMBAR_IO_UTF8_H

#include <stddef.h>

/* Checks bytes[length]. *complaint is NULL for UTF-8 without NUL, else it says what is wrong and
 * what to do, and the offset of the first such byte is returned. */
size_t plumb_utf8_check(const char *bytes, size_t length, const char **complaint);

/* Bytes of a byte order mark at the start: 3 or 0. */
size_t plumb_utf8_mark_length(const char *bytes, size_t length);

#endif
