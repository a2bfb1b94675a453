/* SPDX-License-Identifier: MIT */
/* Words of `plumbar trace` that stills and films share. */
#include "trace_words.h"
#include "words.h"

#include <math.h>
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

/* A key of files of marks, without its unit in the name but with one in the value. */
static PlumbStatus read_told(const char *key, const char *value, PlumbToldKey told,
                             PlumbTraceWords *words, PlumbCliFault *fault)
{
    double read = 0.0;
    if (told == PLUMB_TOLD_facing || told == PLUMB_TOLD_floor) {
        plumb_told_read(told, value, strlen(value), &read);
    } else {
        PlumbError error;
        if (plumb_quantity_read(value, strlen(value), PLUMB_Q_LENGTH, &read, &error) != PLUMB_OK) {
            return plumb_fault_set(fault, PLUMB_BAD_INPUT, key, error.message);
        }
    }
    if (!plumb_told_holds(told, read)) {
        char what[128];
        PlumbText text = plumb_text_begin(what, sizeof what);
        plumb_text_string(&text, "': allowed is ");
        plumb_text_string(&text, plumb_told_allowed(told));
        return plumb_fault_bad(fault, key, "'", value, what);
    }
    words->told[told] = read;
    return PLUMB_OK;
}

void plumb_trace_words_tell(const PlumbTraceWords *words, double told[PLUMB_TOLD_COUNT])
{
    for (int i = 0; i < PLUMB_TOLD_COUNT; i++) {
        told[i] = fabs(words->told[i]) > 0.0 ? words->told[i] : told[i];
    }
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
    static const char *const told[PLUMB_TOLD_COUNT] = {
        [PLUMB_TOLD_distance_m] = "distance",
        [PLUMB_TOLD_scale_m] = "scale",
        [PLUMB_TOLD_facing] = "facing",
        [PLUMB_TOLD_floor] = "floor",
    };
    for (int i = 0; i < PLUMB_TOLD_COUNT; i++) {
        if (strcmp(key, told[i]) == 0) {
            return read_told(key, value, (PlumbToldKey)i, words, fault);
        }
    }
    if (strcmp(key, "size") == 0) {
        return read_size(value, words, fault);
    }
    if (strcmp(key, "disc_out") == 0) {
        return plumb_trace_word_quantity(key, value, PLUMB_Q_LENGTH, 0.3, 1.2,
                                         "' is not within 30 to 120 cm", &words->disc_out_m, fault);
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
