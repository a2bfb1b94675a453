/* SPDX-License-Identifier: MIT */
/* Nearest words by edit distance with swapped neighbours counted once. */
#include "base/words.h"

#include <string.h>

enum { WORD_MAX = 48, FAR = 1000 };

/* Letters without case; a hyphen or a space for an underscore is no misspelling. */
static char folded(char c)
{
    if (c >= 'A' && c <= 'Z') {
        return (char)(c - 'A' + 'a');
    }
    return c == '-' || c == ' ' ? '_' : c;
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Optimal string alignment distance, by rows of its table. */
static size_t distance_between(const char *a, size_t a_length, const char *b, size_t b_length)
{
    size_t row[3][WORD_MAX + 1];
    for (size_t j = 0; j <= b_length; j++) {
        row[0][j] = j;
    }
    for (size_t i = 1; i <= a_length; i++) {
        size_t *const now = row[i % 3];
        const size_t *const before = row[(i + 2) % 3];
        const size_t *const two_before = row[(i + 1) % 3];
        now[0] = i;
        for (size_t j = 1; j <= b_length; j++) {
            const char x = folded(a[i - 1]);
            const char y = folded(b[j - 1]);
            now[j] = least(before[j - 1] + (x != y), least(before[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && x == folded(b[j - 2]) && folded(a[i - 2]) == y) {
                now[j] = least(now[j], two_before[j - 2] + 1);
            }
        }
    }
    return row[a_length % 3][b_length];
}

static bool is_start_of(const char *word, size_t length, const char *candidate)
{
    for (size_t i = 0; i < length; i++) {
        if (candidate[i] == '\0' || folded(word[i]) != folded(candidate[i])) {
            return false;
        }
    }
    return true;
}

PlumbNearest plumb_nearest_begin(const char *word, size_t length)
{
    return (PlumbNearest){.word = word, .length = length, .distance = FAR};
}

void plumb_nearest_try(PlumbNearest *nearest, const char *candidate)
{
    const size_t length = strlen(candidate);
    if (nearest->length == 0 || nearest->length > WORD_MAX || length > WORD_MAX) {
        return;
    }
    size_t distance = distance_between(nearest->word, nearest->length, candidate, length);
    /* "ankle" for "ankle_dorsiflexion" is a word left unfinished. */
    if (nearest->length >= 3 && is_start_of(nearest->word, nearest->length, candidate)) {
        distance = least(distance, 1);
    }
    if (distance < nearest->distance) {
        nearest->distance = distance;
        nearest->best = candidate;
    }
}

const char *plumb_nearest_word(const PlumbNearest *nearest)
{
    const size_t allowed = nearest->length < 3 ? 1 : (nearest->length + 2) / 3;
    return nearest->distance <= allowed ? nearest->best : NULL;
}

bool plumb_word_is(const char *word, size_t length, const char *candidate)
{
    return strlen(candidate) == length && memcmp(word, candidate, length) == 0;
}
