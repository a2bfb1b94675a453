/* SPDX-License-Identifier: MIT */
/* Reads a table of drills, and says where what is wrong stands. */
#include <plumbar/drills.h>

#include "base/words.h"

#include <csv.h>

#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 4, CELL_SIZE = 512 };

static const char *const column_names[COLUMNS] = {"about", "lift", "drill", "rests_on"};

typedef struct Reading {
    PlumbDrills *drills;
    PlumbError *error;
    PlumbStatus status;
    char cell[COLUMNS][CELL_SIZE];
    int column;
    int line;
    bool headed;
    bool too_long;
    bool empty; /* nothing stood in the row so far */
} Reading;

static PlumbStatus fail(Reading *reading, int column, const char *quoted, const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    if (quoted != NULL) {
        plumb_text_quoted(&text, quoted, strlen(quoted));
        plumb_text_string(&text, ": ");
    }
    plumb_text_string(&text, what);
    plumb_error_set(reading->error, PLUMB_BAD_INPUT, column_names[column], message);
    if (reading->error != NULL) {
        reading->error->line = reading->line;
        reading->error->column = reading->line > 0 ? 1 : 0; /* the row, as a whole */
    }
    reading->status = PLUMB_BAD_INPUT;
    return PLUMB_BAD_INPUT;
}

/* Whether `about` names something; else says what is near. */
static PlumbStatus check_about(Reading *reading, const char *about)
{
    PlumbNearest nearest = plumb_nearest_begin(about, strlen(about));
    for (int i = 0; i < PLUMB_FINDING_COUNT; i++) {
        if (strcmp(plumb_finding_name((PlumbFindingId)i), about) == 0) {
            return PLUMB_OK;
        }
        plumb_nearest_try(&nearest, plumb_finding_name((PlumbFindingId)i));
    }
    if (plumb_setting_find(about, strlen(about)) != NULL) {
        return PLUMB_OK;
    }
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        plumb_nearest_try(&nearest, plumb_setting((PlumbSettingId)i)->key);
    }
    char what[160];
    PlumbText text = plumb_text_begin(what, sizeof what);
    plumb_text_string(&text, "is neither a finding nor a setting");
    if (plumb_nearest_word(&nearest) != NULL) {
        plumb_text_string(&text, "; did you mean ");
        plumb_text_string(&text, plumb_nearest_word(&nearest));
        plumb_text_string(&text, "?");
    }
    return fail(reading, 0, about, what);
}

static PlumbStatus take_row(Reading *reading)
{
    PlumbDrills *const drills = reading->drills;
    PlumbDrill drill = {.any_lift = strcmp(reading->cell[1], "any") == 0};
    if (check_about(reading, reading->cell[0]) != PLUMB_OK) {
        return reading->status;
    }
    if (!drill.any_lift &&
        !plumb_lift_find(reading->cell[1], strlen(reading->cell[1]), &drill.lift)) {
        return fail(reading, 1, reading->cell[1], "deadlift, squat, bench or any is allowed");
    }
    if (reading->cell[2][0] == '\0' || strlen(reading->cell[2]) >= sizeof drill.words) {
        return fail(reading, 2, NULL, "words of 1 to 319 bytes are needed");
    }
    if (reading->cell[3][0] == '\0' || strlen(reading->cell[3]) >= sizeof drill.rests_on) {
        return fail(reading, 3, NULL,
                    "what the drill rests on is needed, in 1 to 39 bytes: \"common practice\"");
    }
    if (drills->count >= PLUMB_DRILLS_MAX) {
        return fail(reading, 0, NULL, "more than 96 rows; take some out");
    }
    memcpy(drill.about, reading->cell[0], strlen(reading->cell[0]) + 1);
    memcpy(drill.words, reading->cell[2], strlen(reading->cell[2]) + 1);
    memcpy(drill.rests_on, reading->cell[3], strlen(reading->cell[3]) + 1);
    drills->drill[drills->count++] = drill;
    return PLUMB_OK;
}

static PlumbStatus take_head(Reading *reading)
{
    reading->headed = true;
    for (int i = 0; i < COLUMNS; i++) {
        if (strcmp(reading->cell[i], column_names[i]) != 0) {
            return fail(reading, i, reading->cell[i],
                        "the first row names the columns: about,lift,drill,rests_on");
        }
    }
    return PLUMB_OK;
}

static void on_cell(void *data, size_t length, void *user)
{
    Reading *const reading = user;
    if (reading->column < COLUMNS) {
        const size_t take = length < CELL_SIZE ? length : CELL_SIZE - 1;
        reading->too_long = reading->too_long || take < length;
        memcpy(reading->cell[reading->column], data, take);
        reading->cell[reading->column][take] = '\0';
    }
    reading->empty = reading->empty && length == 0;
    reading->column++;
}

static void on_row(int end, void *user)
{
    Reading *const reading = user;
    (void)end;
    const bool blank = reading->column == 0 || (reading->column == 1 && reading->empty);
    const bool comment = reading->column > 0 && reading->cell[0][0] == '#';
    if (reading->status == PLUMB_OK && !blank && !comment) {
        if (reading->column != COLUMNS || reading->too_long) {
            fail(reading, 0, NULL,
                 "each row has four cells of up to 511 bytes: about, lift, drill, rests_on");
        } else if (!reading->headed) {
            take_head(reading);
        } else {
            take_row(reading);
        }
    }
    memset(reading->cell, 0, sizeof reading->cell);
    reading->column = 0;
    reading->too_long = false;
    reading->empty = true;
}

/* Feeds line by line, so that a row's line is known and comments may hold what they like. */
static void feed(Reading *reading, struct csv_parser *parser, const char *bytes, size_t length)
{
    size_t at = 0;
    while (at < length && reading->status == PLUMB_OK) {
        const char *const end = memchr(bytes + at, '\n', length - at);
        const size_t take = end != NULL ? (size_t)(end - bytes) - at + 1 : length - at;
        reading->line++;
        const bool comment = bytes[at] == '#' && reading->column == 0;
        if (!comment && csv_parse(parser, bytes + at, take, on_cell, on_row, reading) != take) {
            fail(reading, 0, NULL, "quotes stand wrong; a cell in quotes doubles those within");
        }
        at += take;
    }
    if (reading->status == PLUMB_OK && csv_fini(parser, on_cell, on_row, reading) != 0) {
        fail(reading, 0, NULL, "a quote is opened and not closed");
    }
}

PlumbStatus plumb_drills_read(const char *bytes, size_t length, PlumbDrills *drills,
                              PlumbError *error)
{
    PlumbDrills *const read = calloc(1, sizeof *read);
    struct csv_parser parser;
    if (read == NULL || csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI) != 0) {
        free(read);
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "drills", "no memory for the drills");
    }
    Reading reading = {.drills = read, .error = error, .status = PLUMB_OK, .empty = true};
    const size_t mark = length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
    feed(&reading, &parser, bytes + mark, length - mark);
    csv_free(&parser);
    if (reading.status == PLUMB_OK && !reading.headed) {
        fail(&reading, 0, NULL, "the first row names the columns: about,lift,drill,rests_on");
    }
    if (reading.status == PLUMB_OK) {
        *drills = *read;
    }
    free(read);
    return reading.status;
}

const PlumbDrill *plumb_drills_find(const PlumbDrills *drills, const char *about, PlumbLift lift)
{
    for (int i = 0; i < drills->count; i++) {
        const PlumbDrill *const drill = &drills->drill[i];
        if (strcmp(drill->about, about) == 0 && (drill->any_lift || drill->lift == lift)) {
            return drill;
        }
    }
    return NULL;
}
