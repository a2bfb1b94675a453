/* SPDX-License-Identifier: MIT */
/* One row of a file of marks: split by libcsv, checked cell by cell. */
#include "io/marks_row.h"

#include <plumbar/quantity.h>

#include "base/words.h"

#include <csv.h>

#include <math.h>
#include <string.h>

static const double far_px = 1e6; /* no picture is wider */

static const char *const column_names[PLUMB_MARKS_COLUMN_COUNT] = {
#define X(name) #name,
    PLUMB_MARKS_COLUMN_LIST(X)
#undef X
};

const char *plumb_marks_column_name(PlumbMarksColumn column)
{
    return column_names[column];
}

size_t plumb_line_length(const char *bytes, size_t length)
{
    const char *const end = memchr(bytes, '\n', length);
    return end != NULL ? (size_t)(end - bytes) + 1 : length;
}

bool plumb_line_is_blank(const char *line, size_t length)
{
    size_t i = 0;
    while (i < length &&
           (line[i] == ' ' || line[i] == '\t' || line[i] == '\r' || line[i] == '\n')) {
        i++;
    }
    return i == length || line[i] == '#';
}

static void on_cell(void *data, size_t length, void *user)
{
    PlumbRow *const row = user;
    if (row->count == PLUMB_ROW_CELLS || row->used + length + 1 > PLUMB_ROW_BYTES) {
        row->too_long = true;
        return;
    }
    char *const cell = row->bytes + row->used;
    if (length > 0) {
        memcpy(cell, data, length);
    }
    cell[length] = '\0';
    row->cell[row->count++] = cell;
    row->used += length + 1;
}

static void on_row(int end, void *user)
{
    (void)end;
    (void)user;
}

bool plumb_row_split(const char *line, size_t length, PlumbRow *row)
{
    struct csv_parser parser;
    row->count = 0;
    row->used = 0;
    row->too_long = false;
    if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI) != 0) {
        return false;
    }
    const bool read = csv_parse(&parser, line, length, on_cell, on_row, row) == length &&
                      csv_fini(&parser, on_cell, on_row, row) == 0;
    csv_free(&parser);
    return read && !row->too_long;
}

PlumbStatus plumb_cell_bad(PlumbError *error, const PlumbHead *head, PlumbMarksColumn column,
                           const char *quoted, const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    if (quoted != NULL) {
        plumb_text_quoted(&text, quoted, strlen(quoted));
        plumb_text_string(&text, ": ");
    }
    plumb_text_string(&text, what);
    plumb_error_set(error, PLUMB_BAD_INPUT, column_names[column], message);
    if (error != NULL) {
        error->column = head->at[column] >= 0 ? head->at[column] + 1 : 1;
    }
    return PLUMB_BAD_INPUT;
}

PlumbStatus plumb_head_read(const PlumbRow *row, const PlumbMarksMap *map, PlumbHead *head,
                            PlumbError *error)
{
    head->count = row->count;
    for (int k = 0; k < PLUMB_MARKS_COLUMN_COUNT; k++) {
        head->at[k] = -1;
        for (int i = 0; i < row->count; i++) {
            if (strcmp(row->cell[i], map->name[k]) != 0) {
                continue;
            }
            if (head->at[k] >= 0) {
                return plumb_cell_bad(error, head, (PlumbMarksColumn)k, row->cell[i],
                                      "two columns have this name");
            }
            head->at[k] = i;
        }
    }
    static const PlumbMarksColumn needed[] = {PLUMB_COLUMN_landmark, PLUMB_COLUMN_x,
                                              PLUMB_COLUMN_y};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (head->at[needed[i]] < 0) {
            return plumb_cell_bad(error, head, needed[i], map->name[needed[i]],
                                  "no column has this name; the first row names the columns, as in "
                                  "picture,time,landmark,x,y,sigma");
        }
    }
    return PLUMB_OK;
}

const char *plumb_cell_of(const PlumbRow *row, const PlumbHead *head, PlumbMarksColumn column)
{
    const int at = head->at[column];
    return at >= 0 && at < row->count ? row->cell[at] : "";
}

static PlumbStatus read_number(const PlumbRow *row, const PlumbHead *head, PlumbMarksColumn column,
                               bool may_lack, double *value, PlumbError *error)
{
    const char *const cell = plumb_cell_of(row, head, column);
    if (cell[0] == '\0' && may_lack) {
        *value = (double)NAN;
        return PLUMB_OK;
    }
    double read;
    if (!plumb_number_read(cell, strlen(cell), &read)) {
        return plumb_cell_bad(error, head, column, cell, "a plain number is needed, such as 412.5");
    }
    if (fabs(read) > far_px) {
        return plumb_cell_bad(error, head, column, cell,
                              "lies outside any picture; -1000000 to 1000000");
    }
    *value = read;
    return PLUMB_OK;
}

static PlumbStatus read_landmark(const PlumbRow *row, const PlumbHead *head, PlumbMark *mark,
                                 PlumbError *error)
{
    const char *const cell = plumb_cell_of(row, head, PLUMB_COLUMN_landmark);
    const char *nearest = NULL;
    if (plumb_mark_name_read(cell, strlen(cell), &mark->name, &nearest)) {
        return PLUMB_OK;
    }
    char what[256];
    PlumbText text = plumb_text_begin(what, sizeof what);
    plumb_text_string(&text, "is no landmark; ");
    PlumbNearest search = plumb_nearest_begin(cell, strlen(cell));
    for (int i = 0; i < PLUMB_TOLD_COUNT; i++) {
        plumb_nearest_try(&search, plumb_told_name((PlumbToldKey)i));
    }
    nearest = nearest != NULL ? nearest : plumb_nearest_word(&search);
    if (nearest != NULL) {
        plumb_text_string(&text, "did you mean ");
        plumb_text_string(&text, nearest);
        plumb_text_string(&text, "?");
    } else {
        for (int i = 0; i < PLUMB_LANDMARK_COUNT; i++) {
            plumb_text_string(&text, i > 0 ? ", " : "");
            plumb_text_string(&text, plumb_landmark_name((PlumbLandmark)i));
        }
        plumb_text_string(&text, " are known, with far_, right_ or left_ before them");
    }
    return plumb_cell_bad(error, head, PLUMB_COLUMN_landmark, cell, what);
}

static bool is_there(const PlumbMarks *marks, const PlumbMark *mark)
{
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const other = &marks->mark[i];
        if (other->still == mark->still && other->name.landmark == mark->name.landmark &&
            other->name.near == mark->name.near) {
            return true;
        }
    }
    return false;
}

PlumbStatus plumb_mark_read_seen(const PlumbRow *row, const PlumbHead *head, PlumbMark *mark,
                                 PlumbError *error)
{
    PlumbMark read = {.line = 0};
    if (read_landmark(row, head, &read, error) != PLUMB_OK ||
        read_number(row, head, PLUMB_COLUMN_x, false, &read.x_px, error) != PLUMB_OK ||
        read_number(row, head, PLUMB_COLUMN_y, false, &read.y_px, error) != PLUMB_OK ||
        read_number(row, head, PLUMB_COLUMN_sigma, true, &read.sigma_px, error) != PLUMB_OK ||
        read_number(row, head, PLUMB_COLUMN_time, true, &read.time_s, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    if (read.sigma_px <= 0.01) {
        return plumb_cell_bad(
            error, head, PLUMB_COLUMN_sigma, plumb_cell_of(row, head, PLUMB_COLUMN_sigma),
            "the error of a mark is above 0.01 px; leave it empty for the default");
    }
    *mark = read;
    return PLUMB_OK;
}

PlumbStatus plumb_mark_read(const PlumbRow *row, const PlumbHead *head, PlumbMarks *marks,
                            PlumbMark *mark, PlumbError *error)
{
    PlumbMark read;
    if (plumb_mark_read_seen(row, head, &read, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    const char *const picture = plumb_cell_of(row, head, PLUMB_COLUMN_picture);
    read.still = plumb_marks_picture(marks, picture, strlen(picture));
    if (read.still < 0) {
        return plumb_cell_bad(error, head, PLUMB_COLUMN_picture, picture,
                              "at most 6 pictures, with names of up to 255 bytes");
    }
    if (!plumb_mark_may_repeat(read.name.landmark) && is_there(marks, &read)) {
        return plumb_cell_bad(error, head, PLUMB_COLUMN_landmark,
                              plumb_cell_of(row, head, PLUMB_COLUMN_landmark),
                              "is marked twice on this picture; leave one out");
    }
    *mark = read;
    return PLUMB_OK;
}

PlumbStatus plumb_mark_read_frame(const PlumbRow *row, const PlumbHead *head, PlumbMark *mark,
                                  PlumbError *error)
{
    const char *const cell = plumb_cell_of(row, head, PLUMB_COLUMN_picture);
    double frame;
    if (plumb_mark_read_seen(row, head, mark, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    mark->still = -1;
    if (cell[0] == '\0') {
        return isnan(mark->time_s)
                   ? plumb_cell_bad(
                         error, head, PLUMB_COLUMN_time, NULL,
                         "a mark on a film needs the number of its frame, from 0, or its time, s")
                   : PLUMB_OK;
    }
    if (!plumb_number_read(cell, strlen(cell), &frame) || frame < 0.0 || frame != floor(frame) ||
        frame > far_px) {
        return plumb_cell_bad(
            error, head, PLUMB_COLUMN_picture, cell,
            "frames are counted from 0: write a whole number, or leave it empty and write "
            "the time");
    }
    mark->still = (int)frame;
    return PLUMB_OK;
}

bool plumb_mark_may_repeat(PlumbLandmark landmark)
{
    return landmark == PLUMB_MARK_disc || landmark == PLUMB_MARK_scale ||
           landmark == PLUMB_MARK_plumb;
}

size_t plumb_byte_order_mark(const char *bytes, size_t length)
{
    return length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
}
