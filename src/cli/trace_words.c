/* SPDX-License-Identifier: MIT */
/* Words of `plumbar trace` that stills and films share. */
#include "trace_words.h"
#include "words.h"

#include <string.h>

const char *plumb_trace_word_split(const char *word, char *key)
{
    const size_t length = strcspn(word, "=");
    if (length >= PLUMB_TRACE_KEY_SIZE || word[length] != '=') {
        return NULL;
    }
    memcpy(key, word, length);
    key[length] = '\0';
    return word + length + 1;
}

PlumbStatus plumb_trace_word_quantity(const char *key, const char *value, PlumbQuantity quantity,
                                      double low, double high, const char *range, double *si,
                                      PlumbCliFault *fault)
{
    double read;
    PlumbError error;
    if (plumb_quantity_read(value, strlen(value), quantity, &read, &error) != PLUMB_OK) {
        return plumb_fault_set(fault, PLUMB_BAD_INPUT, key, error.message);
    }
    if (read < low || read > high) {
        return plumb_fault_bad(fault, key, "'", value, range);
    }
    *si = read;
    return PLUMB_OK;
}

static PlumbStatus read_size(const char *value, PlumbTraceWords *words, PlumbCliFault *fault)
{
    const size_t length = strcspn(value, "x");
    double width;
    double height;
    if (value[length] != 'x' || !plumb_number_read(value, length, &width) ||
        !plumb_number_read(value + length + 1, strlen(value + length + 1), &height) ||
        !(width >= 16.0 && height >= 16.0 && width <= 1e5 && height <= 1e5)) {
        return plumb_fault_bad(fault, "size", "'", value, "' is no size; write 1920x1080");
    }
    words->width_px = width;
    words->height_px = height;
    return PLUMB_OK;
}

static PlumbStatus read_facing(const char *value, PlumbTraceWords *words, PlumbCliFault *fault)
{
    if (strcmp(value, "left") != 0 && strcmp(value, "right") != 0) {
        return plumb_fault_bad(fault, "facing", "'", value, "' is neither left nor right");
    }
    words->facing = strcmp(value, "right") == 0 ? 1 : -1;
    return PLUMB_OK;
}

static PlumbStatus read_floor(const char *value, PlumbTraceWords *words, PlumbCliFault *fault)
{
    if (strcmp(value, "yes") != 0 && strcmp(value, "no") != 0) {
        return plumb_fault_bad(fault, "floor", "'", value,
                               "' is neither yes (the discs stand) nor no (the bar is in the air)");
    }
    words->in_the_air = strcmp(value, "no") == 0;
    return PLUMB_OK;
}

PlumbStatus plumb_trace_word_limit(const char *key, const char *value, PlumbQuantity quantity,
                                   double *si, PlumbCliFault *fault)
{
    return plumb_trace_word_quantity(key, value, quantity, -10.0, 10.0, "' is beyond any lifter",
                                     si, fault);
}

PlumbStatus plumb_trace_word_take(const char *key, const char *value, PlumbTraceWords *words,
                                  bool *known, PlumbCliFault *fault)
{
    *known = true;
    if (strcmp(key, "facing") == 0) {
        return read_facing(value, words, fault);
    }
    if (strcmp(key, "size") == 0) {
        return read_size(value, words, fault);
    }
    if (strcmp(key, "floor") == 0) {
        return read_floor(value, words, fault);
    }
    if (strcmp(key, "distance") == 0) {
        return plumb_trace_word_quantity(key, value, PLUMB_Q_LENGTH, 1.5, 50.0,
                                         "' is not within 1.5 to 50 m", &words->distance_m, fault);
    }
    if (strcmp(key, "disc_out") == 0) {
        return plumb_trace_word_quantity(key, value, PLUMB_Q_LENGTH, 0.3, 1.2,
                                         "' is not within 30 to 120 cm", &words->disc_out_m, fault);
    }
    if (strcmp(key, "scale") == 0) {
        return plumb_trace_word_quantity(key, value, PLUMB_Q_LENGTH, 0.05, 5.0,
                                         "' is not within 5 cm to 5 m", &words->scale_m, fault);
    }
    if (strcmp(key, "error") == 0) {
        return plumb_trace_word_quantity(key, value, PLUMB_Q_LENGTH, 0.001, 0.2,
                                         "' is not within 1 mm to 20 cm", &words->error_m, fault);
    }
    *known = false;
    return PLUMB_OK;
}

bool plumb_trace_is_marks(const char *word)
{
    const size_t length = strlen(word);
    return length > 4 && strcmp(word + length - 4, ".csv") == 0 && !plumb_words_is_pair(word);
}
