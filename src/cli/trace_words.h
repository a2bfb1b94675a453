/* SPDX-License-Identifier: MIT */
/* Words of `plumbar trace` that stills and films share: camera, view, discs, errors. */
#ifndef PLUMBAR_CLI_TRACE_WORDS_H
#define PLUMBAR_CLI_TRACE_WORDS_H

#include "fault.h"

#include <plumbar/marks.h>
#include <plumbar/quantity.h>

#include <stdbool.h>

enum { PLUMB_TRACE_KEY_SIZE = 64 };

/* Keys that are no settings; 0: not given. */
typedef struct PlumbTraceWords {
    double told[PLUMB_TOLD_COUNT]; /* by PlumbToldKey: also keys of files of marks */
    double width_px;
    double height_px;
    double disc_out_m;
    double error_m;
} PlumbTraceWords;

/* The key of KEY=VALUE into key[PLUMB_TRACE_KEY_SIZE]; the value, or NULL where word is no such
 * pair. */
const char *plumb_trace_word_split(const char *word, char *key);
/* Takes a key; *known is false where it is none of these. */
PlumbStatus plumb_trace_word_take(const char *key, const char *value, PlumbTraceWords *words,
                                  bool *known, PlumbCliFault *fault);
/* A quantity within low and high; range says so in words, after the value in quotes. */
PlumbStatus plumb_trace_word_quantity(const char *key, const char *value, PlumbQuantity quantity,
                                      double low, double high, const char *range, double *si,
                                      PlumbCliFault *fault);
/* A threshold. */
PlumbStatus plumb_trace_word_limit(const char *key, const char *value, PlumbQuantity quantity,
                                   double *si, PlumbCliFault *fault);
/* Puts what the words tell over what the file of marks does. */
void plumb_trace_words_tell(const PlumbTraceWords *words, double told[PLUMB_TOLD_COUNT]);
/* Whether a word names a file of marks. */
bool plumb_trace_is_marks(const char *word);

#endif
