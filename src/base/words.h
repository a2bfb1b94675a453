/* SPDX-License-Identifier: MIT */
/* "Did you mean": the word of a list that is nearest to a misspelt one. */
#ifndef PLUMBAR_BASE_WORDS_H
#define PLUMBAR_BASE_WORDS_H

#include <stdbool.h>
#include <stddef.h>

/* A search under way: begin, try every candidate, ask. Candidates must outlive the search. */
typedef struct PlumbNearest {
    const char *word;
    size_t length;
    const char *best;
    size_t distance;
} PlumbNearest;

PlumbNearest plumb_nearest_begin(const char *word, size_t length);
void plumb_nearest_try(PlumbNearest *nearest, const char *candidate);
/* The best candidate; NULL where none is near enough to be meant. */
const char *plumb_nearest_word(const PlumbNearest *nearest);

/* Whether word[length] is exactly candidate. */
bool plumb_word_is(const char *word, size_t length, const char *candidate);

#endif
