/* SPDX-License-Identifier: MIT */
/* Adds up the advances of UTF-8 text. */
#include "report/advance.h"

static const double OTHER_EM = 0.6;

static const PlumbAdvanceRun runs[] = PLUMB_ADVANCE_RUNS;

/* The code point at text[*at], which moves past it; 0 where the bytes are none. */
static unsigned next_code(const char *text, size_t length, size_t *at)
{
    const unsigned char first = (unsigned char)text[(*at)++];
    if (first < 0x80) {
        return first;
    }
    const unsigned more = first >= 0xf0 ? 3 : first >= 0xe0 ? 2 : first >= 0xc2 ? 1 : 0;
    unsigned code = more == 0 ? 0 : first & (0x3fU >> more);
    for (unsigned i = 0; i < more; i++) {
        if (*at >= length || ((unsigned char)text[*at] & 0xc0) != 0x80) {
            return 0;
        }
        code = code << 6 | ((unsigned char)text[(*at)++] & 0x3fU);
    }
    return code;
}

static double advance_em(unsigned code)
{
    size_t place = 0;
    for (size_t i = 0; i < sizeof runs / sizeof runs[0]; i++) {
        if (code >= runs[i].first && code <= runs[i].last) {
            return plumb_advance_table[place + code - runs[i].first] / PLUMB_ADVANCE_EM;
        }
        place += runs[i].last - runs[i].first + 1;
    }
    return OTHER_EM;
}

double plumb_advance_width(void *user, const char *text, size_t length, double size_mm)
{
    (void)user;
    double sum = 0.0;
    for (size_t at = 0; at < length;) {
        sum += advance_em(next_code(text, length, &at));
    }
    return sum * size_mm;
}
