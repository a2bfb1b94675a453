/* SPDX-License-Identifier: MIT */
/* What is told of a picture beside its marks: keys, ranges and words. */
#include <plumbar/marks.h>

#include <plumbar/quantity.h>

#include "base/words.h"

#include <math.h>
#include <stddef.h>

static const struct {
    const char *name;
    double low;
    double high;
    const char *allowed;
} rows[PLUMB_TOLD_COUNT] = {
#define X(name, low, high, allowed) {#name, low, high, allowed},
    PLUMB_TOLD_LIST(X)
#undef X
};

/* Words of 1 and of -1; a key without them takes metres. */
static const char *const words[PLUMB_TOLD_COUNT][2] = {
    [PLUMB_TOLD_facing] = {"right", "left"},
    [PLUMB_TOLD_floor] = {"yes", "no"},
};

const char *plumb_told_name(PlumbToldKey key)
{
    return rows[key].name;
}

const char *plumb_told_allowed(PlumbToldKey key)
{
    return rows[key].allowed;
}

bool plumb_told_holds(PlumbToldKey key, double value)
{
    const bool worded = words[key][0] != NULL;
    return worded ? fabs(fabs(value) - 1.0) <= 0.0
                  : value >= rows[key].low && value <= rows[key].high;
}

const char *plumb_told_word(PlumbToldKey key, double value)
{
    return words[key][value > 0.0 ? 0 : 1];
}

bool plumb_told_name_read(const char *name, size_t length, PlumbToldKey *key)
{
    for (int i = 0; i < PLUMB_TOLD_COUNT; i++) {
        if (plumb_word_is(name, length, rows[i].name)) {
            *key = (PlumbToldKey)i;
            return true;
        }
    }
    return false;
}

bool plumb_told_read(PlumbToldKey key, const char *text, size_t length, double *value)
{
    double read = 0.0;
    for (int i = 0; i < 2 && words[key][0] != NULL; i++) {
        read = plumb_word_is(text, length, words[key][i]) ? 1.0 - 2.0 * i : read;
    }
    if (words[key][0] == NULL && !plumb_number_read(text, length, &read)) {
        return false;
    }
    if (!plumb_told_holds(key, read)) {
        return false;
    }
    *value = read;
    return true;
}
