/* SPDX-License-Identifier: MIT */
/* Checks of UTF-8 by the table of well-formed byte sequences of the Unicode standard (3-7). */
#include "io/utf8.h"

#include <string.h>

/* Lead bytes from..to take `more` continuation bytes, the first of them within low..high. */
static const struct {
    unsigned char from, to, more, low, high;
} sequences[] = {
    {0x01, 0x7F, 0, 0, 0},       {0xC2, 0xDF, 1, 0x80, 0xBF}, {0xE0, 0xE0, 2, 0xA0, 0xBF},
    {0xE1, 0xEC, 2, 0x80, 0xBF}, {0xED, 0xED, 2, 0x80, 0x9F}, {0xEE, 0xEF, 2, 0x80, 0xBF},
    {0xF0, 0xF0, 3, 0x90, 0xBF}, {0xF1, 0xF3, 3, 0x80, 0xBF}, {0xF4, 0xF4, 3, 0x80, 0x8F},
};

/* Bytes of the well-formed sequence at the start; 0 where there is none. */
static size_t sequence_length(const unsigned char *bytes, size_t length)
{
    for (size_t i = 0; i < sizeof sequences / sizeof sequences[0]; i++) {
        if (bytes[0] < sequences[i].from || bytes[0] > sequences[i].to) {
            continue;
        }
        const size_t more = sequences[i].more;
        if (length < 1 + more) {
            return 0;
        }
        if (more > 0 && (bytes[1] < sequences[i].low || bytes[1] > sequences[i].high)) {
            return 0;
        }
        for (size_t k = 2; k <= more; k++) {
            if (bytes[k] < 0x80u || bytes[k] > 0xBFu) {
                return 0;
            }
        }
        return 1 + more;
    }
    return 0;
}

size_t plumb_utf8_check(const char *bytes, size_t length, const char **complaint)
{
    const unsigned char *const data = (const unsigned char *)bytes;
    *complaint = NULL;
    if (length >= 2 &&
        ((data[0] == 0xFFu && data[1] == 0xFEu) || (data[0] == 0xFEu && data[1] == 0xFFu))) {
        *complaint = "the text is UTF-16; save it as UTF-8";
        return 0;
    }
    size_t at = 0;
    while (at < length) {
        const size_t taken = sequence_length(data + at, length - at);
        if (taken == 0) {
            *complaint = data[at] == 0 ? "a NUL byte: not a text file in UTF-8"
                                       : "not UTF-8 text; save the file as UTF-8";
            return at;
        }
        at += taken;
    }
    return 0;
}

size_t plumb_utf8_mark_length(const char *bytes, size_t length)
{
    return length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
}
