/* SPDX-License-Identifier: MIT */
/* plumbar trace: words, marks and pictures read, and the fit made. */
#include "trace_still.h"
#include "trace_words.h"
#include "words.h"

#include <plumbar/quantity.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Keys of a still that are no settings. */
typedef struct StillWords {
    PlumbTraceWords trace;
    double limit[PLUMB_STILL_LIMIT_COUNT]; /* NaN: the default */
} StillWords;

/* Takes a key of a still; *known is false where it is none. */
static PlumbStatus take_key(const char *word, StillWords *words, bool *known, PlumbCliFault *fault)
{
    char key[PLUMB_TRACE_KEY_SIZE];
    const char *const value = plumb_trace_word_split(word, key);
    *known = value != NULL;
    for (int i = 0; value != NULL && i < PLUMB_STILL_LIMIT_COUNT; i++) {
        if (strcmp(key, plumb_still_limit_name((PlumbStillLimit)i)) == 0) {
            return plumb_trace_word_limit(key, value,
                                          plumb_still_limit_quantity((PlumbStillLimit)i),
                                          &words->limit[i], fault);
        }
    }
    return *known ? plumb_trace_word_take(key, value, &words->trace, known, fault) : PLUMB_OK;
}

/* Tells the words of a still from those of a lifter and a set-up. */
static PlumbStatus split_words(const PlumbCliArgs *args, PlumbCliStill *still, StillWords *words,
                               PlumbCliFault *fault)
{
    const char *rest[PLUMB_CLI_WORDS_MAX];
    int count = 0;
    for (int i = 0; i < PLUMB_STILL_LIMIT_COUNT; i++) {
        words->limit[i] = (double)NAN;
    }
    if (args->word_count == 0 || strcmp(args->word[0], "still") != 0) {
        return plumb_fault_bad(fault, "trace",
                               "write plumbar trace still MARKS.csv, or trace film FILM MARKS.csv",
                               "", "");
    }
    for (int i = 1; i < args->word_count; i++) {
        bool known = false;
        if (plumb_trace_is_marks(args->word[i])) {
            if (still->marks_path != NULL) {
                return plumb_fault_bad(fault, "marks", "one file of marks at a time; '",
                                       args->word[i], "' is a second one");
            }
            still->marks_path = args->word[i];
            continue;
        }
        const PlumbStatus status = take_key(args->word[i], words, &known, fault);
        if (status != PLUMB_OK) {
            return status;
        }
        if (!known) {
            rest[count++] = args->word[i];
        }
    }
    if (still->marks_path == NULL) {
        return plumb_fault_bad(fault, "marks",
                               "no file of marks is named; write plumbar trace still MARKS.csv "
                               "(the ending is .csv)",
                               "", "");
    }
    return plumb_request_read(rest, count,
                              PLUMB_REQUEST_SETUP | PLUMB_REQUEST_ANY_LIFT | PLUMB_REQUEST_BENCH,
                              &still->request, fault);
}

static PlumbStatus read_marks(const PlumbCliArgs *args, PlumbCliStill *still, PlumbMarks *marks,
                              PlumbCliFault *fault)
{
    char *bytes;
    size_t length;
    still->map = plumb_marks_map_default();
    fault->path[0] = '\0';
    if (args->given[PLUMB_OPT_COLUMNS]) {
        const PlumbStatus status =
            plumb_marks_map_read(args->value[PLUMB_OPT_COLUMNS], &still->map, &fault->error);
        if (status != PLUMB_OK) {
            return status;
        }
    }
    PlumbStatus status = plumb_file_read_whole(still->marks_path, PLUMB_MARKS_FILE_MAX_BYTES,
                                               &bytes, &length, &fault->error);
    if (status != PLUMB_OK) {
        return status;
    }
    status = plumb_marks_parse(bytes, length, &still->map, marks, &fault->error);
    free(bytes);
    if (status == PLUMB_BAD_INPUT) {
        plumb_fault_in_file(fault, still->marks_path);
    }
    return status;
}

/* The picture stands beside the marks. Its size is enough here; it may be missing. */
static void find_picture(PlumbCliStill *still, int index)
{
    char *bytes;
    size_t length;
    PlumbPhotoHead head;
    PlumbError error;
    if (!plumb_marks_picture_path(still->marks_path, still->all.marks.picture[index],
                                  still->picture_path[index], PLUMB_CLI_PATH_SIZE) ||
        plumb_file_read_whole(still->picture_path[index], PLUMB_PHOTO_MAX_BYTES, &bytes, &length,
                              &error) != PLUMB_OK) {
        still->picture_path[index][0] = '\0';
        return;
    }
    if (plumb_photo_head(bytes, length, &head, &error) == PLUMB_OK) {
        still->all.ask.size_px[index] = (PlumbVec2){head.width_px, head.height_px};
    } else {
        still->picture_path[index][0] = '\0';
    }
    free(bytes);
}

static void prepare(PlumbCliStill *still, PlumbMarks *marks, const StillWords *words)
{
    const PlumbCliRequest *const request = &still->request;
    PlumbStills *const all = &still->all;
    bool any_side = false;
    for (int i = 0; i < marks->still_count; i++) {
        any_side = any_side || !plumb_marks_front(marks, i);
    }
    for (int i = 0; i < marks->still_count; i++) {
        const double distance_m = marks->told[i][PLUMB_TOLD_distance_m];
        plumb_trace_words_tell(&words->trace, marks->told[i]);
        if (plumb_marks_front(marks, i) && any_side) {
            /* A word tells of the view from the side; of another the file of marks does. */
            marks->told[i][PLUMB_TOLD_distance_m] = distance_m;
        }
    }
    plumb_stills_begin(all, &request->lifter, &request->record.spec, &request->setup, marks);
    all->ask.disc_z_m = words->trace.disc_out_m > 0.0 ? words->trace.disc_out_m : all->ask.disc_z_m;
    all->ask.joint_sigma_m =
        words->trace.error_m > 0.0 ? words->trace.error_m : all->ask.joint_sigma_m;
    for (int i = 0; i < marks->still_count; i++) {
        all->ask.size_px[i] = (PlumbVec2){words->trace.width_px, words->trace.height_px};
        find_picture(still, i);
    }
    for (int i = 0; i < PLUMB_STILL_LIMIT_COUNT; i++) {
        all->limit[i] = isnan(words->limit[i]) ? all->limit[i] : words->limit[i];
    }
}

PlumbStatus plumb_still_read(const PlumbCliArgs *args, PlumbCliStill *still, PlumbCliFault *fault)
{
    StillWords words = {.trace = {.error_m = 0.0}};
    PlumbMarks *const marks = malloc(sizeof *marks);
    if (marks == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "marks", "no memory");
    }
    PlumbStatus status = split_words(args, still, &words, fault);
    if (status == PLUMB_OK) {
        status = read_marks(args, still, marks, fault);
    }
    if (status != PLUMB_OK) {
        free(marks);
        return status;
    }
    prepare(still, marks, &words);
    free(marks);
    fault->path[0] = '\0';
    return plumb_stills_fit(&still->all, &fault->error);
}
