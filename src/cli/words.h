/* SPDX-License-Identifier: MIT */
/* The words of a command told apart: a lift, a file, key=value. */
#ifndef PLUMBAR_CLI_WORDS_H
#define PLUMBAR_CLI_WORDS_H

#include "fault.h"

#include <plumbar/setup.h>

#include <stdbool.h>
#include <stddef.h>

enum { PLUMB_PAIRS_MAX = 128, PLUMB_PAIR_KEY_SIZE = 64 };

/* key=value. The value is a string of the caller. */
typedef struct PlumbCliPair {
    char key[PLUMB_PAIR_KEY_SIZE];
    const char *value;
} PlumbCliPair;

typedef struct PlumbCliWords {
    bool has_lift;
    PlumbLift lift;
    const char *file; /* FILE or FILE:set-up name; NULL where none */
    PlumbCliPair pair[PLUMB_PAIRS_MAX];
    int pair_count;
} PlumbCliWords;

/* Tells the words apart; takes_lift: a bare first word is a lift. PLUMB_BAD_INPUT: a key twice, two
 * files, two lifts, a lift that there is not. */
PlumbStatus plumb_words_read(const char *const *word, int count, bool takes_lift,
                             PlumbCliWords *words, PlumbCliFault *fault);

/* Whether text begins with "key=". */
bool plumb_words_is_pair(const char *text);

/* Cuts "key=value key=value ..." at the blanks before each key, in place; a value may hold blanks
 * ("5 ft 10 in"). Returns how many, -1 where they are more than max. */
int plumb_words_cut(char *text, const char **word, int max);

#endif
