/* SPDX-License-Identifier: MIT */
/* The commented text of a new lifter file. */
#include "io/record_fields.h"
#include "io/yaml_write.h"

#include <stdlib.h>
#include <string.h>

enum { VALUE_SIZE = PLUMB_LIFTER_NOTE_SIZE, COMMENT_COLUMN = 40 };

/* What stands above each section, and how far its keys are indented. */
static const struct {
    const char *section;
    const char *heading;
    size_t indent;
} parts[] = {
    {"lifter", "lifter:\n", 2},
    {"measures",
     "\n# What can be taped, then lengths between joint centres; the figures here are estimates "
     "from\n"
     "# stature, used where nothing is given. Also read: 44 cm ± 0.5 cm (with the error of the "
     "tape),\n"
     "# 17.3 in, and for joint centres +1 sd, one standard deviation above the mean.\n"
     "measures:\n",
     2},
    {"shoes", "\nshoes:\n", 2},
    {"limits", "\n# The lifter's own tests, where the usual angles do not hold.\nlimits:\n", 2},
    {"strength", "\n# Multipliers of the usual capacity, 0.2 to 5.\nstrength:\n", 2},
    {"strength.best",
     "  # Or the best sets; they set every joint that has no multiplier.\n  best:\n", 4},
    {"equipment.bar", "\nequipment:\n  bar:\n", 4},
    {"equipment.discs", "  discs:\n", 4},
};

static const char head[] = "# A lifter. Quantities have units: cm, mm, m, in, ft; deg; kg, lb.\n"
                           "# Lines that start with # do nothing: take the # away to use one.\n";

static const char tail[] = "\n"
                           "# Set-ups by name; \"plumbar help setup\" lists the settings.\n"
                           "setups:\n"
                           "  # pull:\n"
                           "  #   lift: deadlift\n"
                           "  #   stance: 34 cm\n"
                           "  #   load: 120 kg\n"
                           "  # squat:\n"
                           "  #   lift: squat\n"
                           "  #   bar: low\n"
                           "  #   depth: 2 cm\n"
                           "  # press:\n"
                           "  #   lift: bench\n"
                           "  #   grip: 70 cm\n";

static void spaces(PlumbBytes *bytes, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        plumb_bytes_string(bytes, " ");
    }
}

/* Whether the stature was given in feet and inches, so that its text is. */
static bool in_inches(const PlumbLifter *lifter)
{
    char words[VALUE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_exact_figure(&text, lifter->body.stature_m, PLUMB_Q_STATURE, false);
    return strstr(words, " in") != NULL;
}

static void add_length(PlumbText *text, const PlumbLifter *lifter, double length_m)
{
    plumb_text_quantity(text, length_m, PLUMB_Q_LENGTH,
                        in_inches(lifter) ? PLUMB_POUNDS_INCHES : PLUMB_METRIC);
}

/* A value that the key could have, for a comment: what the lifter has without it. */
static void add_example(PlumbText *text, const PlumbLifter *lifter, const FieldRow *row)
{
    double low_m = 0;
    double high_m = 0;
    if (row->kind == FIELD_LENGTH) {
        add_length(text, lifter, lifter->body.length_m[row->index]);
    } else if (row->kind == FIELD_TAPE) {
        plumb_tape_range(lifter->body.sex, lifter->body.stature_m, (PlumbTape)row->index, &low_m,
                         &high_m);
        add_length(text, lifter, (low_m + high_m) / 2);
    } else if (row->kind == FIELD_LIMIT) {
        plumb_exact_figure(text, lifter->limit_rad[row->index], PLUMB_Q_ANGLE, false);
    } else {
        plumb_text_string(text, row->example);
    }
}

static size_t character_count(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++) {
        count += ((unsigned char)text[i] & 0xC0u) != 0x80u ? 1 : 0;
    }
    return count;
}

/* "  key: value", or "  # key: example   # meaning" where the record does not give it. */
static void add_field(PlumbBytes *bytes, const PlumbLifterRecord *record, const PlumbLifter *lifter,
                      const FieldRow *row, size_t indent)
{
    char value[VALUE_SIZE];
    PlumbText text = plumb_text_begin(value, sizeof value);
    const bool given = plumb_field_text(record, row, &text);
    if (!given) {
        add_example(&text, lifter, row);
    }
    const size_t start = bytes->length;
    spaces(bytes, indent);
    plumb_bytes_string(bytes, given ? "" : "# ");
    plumb_bytes_string(bytes, row->key);
    plumb_bytes_string(bytes, ": ");
    plumb_yaml_scalar(bytes, value, PLUMB_YAML_PLAIN, false);
    if (!given && !bytes->failed) {
        const size_t used = character_count(bytes->data + start, bytes->length - start);
        spaces(bytes, used < COMMENT_COLUMN ? COMMENT_COLUMN - used : 1);
        plumb_bytes_string(bytes, " # ");
        plumb_bytes_string(bytes, row->meaning);
    }
    plumb_bytes_string(bytes, "\n");
}

PlumbStatus plumb_lifter_file_new_text(const PlumbLifterRecord *record, char **text, size_t *length,
                                       PlumbError *error)
{
    PlumbLifter lifter;
    const PlumbStatus status = plumb_lifter_record_lifter(record, &lifter, error);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbBytes bytes = {.length = 0};
    plumb_bytes_string(&bytes, head);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        plumb_bytes_string(&bytes, parts[i].heading);
        for (size_t k = 0; plumb_field_row(k) != NULL; k++) {
            const FieldRow *const row = plumb_field_row(k);
            if (strcmp(row->section, parts[i].section) == 0) {
                add_field(&bytes, record, &lifter, row, parts[i].indent);
            }
        }
    }
    plumb_bytes_string(&bytes, tail);
    plumb_bytes_add(&bytes, "", 1);
    if (bytes.failed) {
        free(bytes.data);
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "file", "no memory for the text");
    }
    *text = bytes.data;
    *length = bytes.length - 1;
    return PLUMB_OK;
}
