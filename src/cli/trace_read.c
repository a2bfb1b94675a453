/* SPDX-License-Identifier: MIT */
/* plumbar trace: words, marks and pictures read, and the fit made. */
#include "trace_still.h"
#include "words.h"

#include <plumbar/quantity.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Keys of a still that are no settings. */
typedef struct StillWords {
    int facing; /* 1 right, -1 left, 0 by the marks */
    double distance_m;
    double width_px;
    double height_px;
    bool in_the_air; /* floor=no */
    double disc_out_m;
    double scale_m;
    double error_m;
    double limit[PLUMB_STILL_LIMIT_COUNT]; /* NaN: the default */
} StillWords;

static PlumbStatus read_quantity(const char *key, const char *value, PlumbQuantity quantity,
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

static PlumbStatus read_size(const char *value, StillWords *words, PlumbCliFault *fault)
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

static PlumbStatus read_facing(const char *value, StillWords *words, PlumbCliFault *fault)
{
    if (strcmp(value, "left") != 0 && strcmp(value, "right") != 0) {
        return plumb_fault_bad(fault, "facing", "'", value, "' is neither left nor right");
    }
    words->facing = strcmp(value, "right") == 0 ? 1 : -1;
    return PLUMB_OK;
}

static PlumbStatus read_floor(const char *value, StillWords *words, PlumbCliFault *fault)
{
    if (strcmp(value, "yes") != 0 && strcmp(value, "no") != 0) {
        return plumb_fault_bad(fault, "floor", "'", value,
                               "' is neither yes (the discs stand) nor no (the bar is in the air)");
    }
    words->in_the_air = strcmp(value, "no") == 0;
    return PLUMB_OK;
}

/* Takes a key of a still; *known is false where it is none. */
static PlumbStatus take_key(const char *word, StillWords *words, bool *known, PlumbCliFault *fault)
{
    const size_t length = strcspn(word, "=");
    const char *const value = word + length + 1;
    char key[64];
    *known = length < sizeof key && word[length] == '=';
    if (!*known) {
        return PLUMB_OK;
    }
    memcpy(key, word, length);
    key[length] = '\0';
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
        return read_quantity(key, value, PLUMB_Q_LENGTH, 1.5, 50.0, "' is not within 1.5 to 50 m",
                             &words->distance_m, fault);
    }
    if (strcmp(key, "disc_out") == 0) {
        return read_quantity(key, value, PLUMB_Q_LENGTH, 0.3, 1.2, "' is not within 30 to 120 cm",
                             &words->disc_out_m, fault);
    }
    if (strcmp(key, "scale") == 0) {
        return read_quantity(key, value, PLUMB_Q_LENGTH, 0.05, 5.0, "' is not within 5 cm to 5 m",
                             &words->scale_m, fault);
    }
    if (strcmp(key, "error") == 0) {
        return read_quantity(key, value, PLUMB_Q_LENGTH, 0.001, 0.2,
                             "' is not within 1 mm to 20 cm", &words->error_m, fault);
    }
    for (int i = 0; i < PLUMB_STILL_LIMIT_COUNT; i++) {
        if (strcmp(key, plumb_still_limit_name((PlumbStillLimit)i)) == 0) {
            return read_quantity(key, value, plumb_still_limit_quantity((PlumbStillLimit)i), -10.0,
                                 10.0, "' is beyond any lifter", &words->limit[i], fault);
        }
    }
    *known = false;
    return PLUMB_OK;
}

static bool is_marks(const char *word)
{
    const size_t length = strlen(word);
    return length > 4 && strcmp(word + length - 4, ".csv") == 0 && !plumb_words_is_pair(word);
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
        return plumb_fault_bad(fault, "trace", "write plumbar trace still MARKS.csv", "", "");
    }
    for (int i = 1; i < args->word_count; i++) {
        bool known = false;
        if (is_marks(args->word[i])) {
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
    return plumb_request_read(rest, count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_ANY_LIFT,
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

static void prepare(PlumbCliStill *still, const PlumbMarks *marks, const StillWords *words)
{
    const PlumbCliRequest *const request = &still->request;
    PlumbStills *const all = &still->all;
    plumb_stills_begin(all, &request->lifter, &request->record.spec, &request->setup, marks);
    all->ask.disc_z_m = words->disc_out_m > 0.0 ? words->disc_out_m : all->ask.disc_z_m;
    all->ask.scale_length_m = words->scale_m;
    all->ask.joint_sigma_m = words->error_m > 0.0 ? words->error_m : all->ask.joint_sigma_m;
    for (int i = 0; i < marks->still_count; i++) {
        all->ask.size_px[i] = (PlumbVec2){words->width_px, words->height_px};
        find_picture(still, i);
        all->ask.distance_m[i] = plumb_marks_front(marks, i) ? 0.0 : words->distance_m;
        all->ask.on_floor[i] = all->ask.on_floor[i] && !words->in_the_air;
        all->facing[i] = words->facing;
    }
    for (int i = 0; i < PLUMB_STILL_LIMIT_COUNT; i++) {
        all->limit[i] = isnan(words->limit[i]) ? all->limit[i] : words->limit[i];
    }
}

PlumbStatus plumb_still_read(const PlumbCliArgs *args, PlumbCliStill *still, PlumbCliFault *fault)
{
    StillWords words = {.facing = 0};
    PlumbMarks *const marks = malloc(sizeof *marks);
    PlumbStatus status = split_words(args, still, &words, fault);
    if (status == PLUMB_OK) {
        status = marks != NULL ? read_marks(args, still, marks, fault)
                               : plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "marks", "no memory");
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
