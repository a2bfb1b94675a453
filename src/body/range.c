/* SPDX-License-Identifier: MIT */
/* Refusals of what a body cannot have, in words; and the ranges of its measures. */
#include "body/range.h"

#include "body/fraction.h"
#include "tables.h"

#include <plumbar/format.h>

#include <math.h>

static const double STATURE_M[2] = {1.20, 2.30};
static const double MASS_KG[2] = {30.0, 250.0};
static const double AGE_YEARS[2] = {10.0, 100.0};
static const double SD_LIMIT = 5.0;     /* of length / stature */
static const double LEAST_M = 0.001;    /* of a length that cannot be negative */
static const double ERROR_MOST_M = 0.1; /* of a measurement's standard deviation */

static void limits_of(double mean, double sd, bool may_be_negative, double stature_m, double *low_m,
                      double *high_m)
{
    const double low = stature_m * (mean - SD_LIMIT * sd);
    *low_m = may_be_negative ? low : fmax(low, LEAST_M);
    *high_m = stature_m * (mean + SD_LIMIT * sd);
}

void plumb_length_range(PlumbSex sex, double stature_m, PlumbLength length, double *low_m,
                        double *high_m)
{
    const PlumbFraction ratio = plumb_fraction_of_stature(sex, length);
    limits_of(ratio.mean, ratio.sd, ratio.may_be_negative, stature_m, low_m, high_m);
}

void plumb_tape_range(PlumbSex sex, double stature_m, PlumbTape tape, double *low_m, double *high_m)
{
    if (tape == PLUMB_TAPE_heel_to_ankle_bone) {
        plumb_length_range(sex, stature_m, PLUMB_LEN_heel_to_ankle, low_m, high_m);
        return;
    }
    static const PlumbDimension dimension[PLUMB_TAPE_COUNT] = {
#define X(name) [PLUMB_TAPE_##name] = PLUMB_DIMENSION_##name
        X(sitting_height), X(buttock_to_knee),     X(knee_height_sitting),
        X(span),           X(shoulder_to_elbow),   X(elbow_to_wrist),
        X(foot),           X(floor_to_fingertips),
#undef X
    };
    const PlumbDimensionRow *row = &plumb_table_dimension[sex][dimension[tape]];
    limits_of(row->ratio, row->ratio_sd, false, stature_m, low_m, high_m);
}

/* A message under way. */
typedef struct Note {
    char buffer[PLUMB_MESSAGE_SIZE];
    PlumbText text;
} Note;

static void note_begin(Note *note)
{
    note->text = plumb_text_begin(note->buffer, sizeof note->buffer);
}

static void say(Note *note, const char *words)
{
    plumb_text_string(&note->text, words);
}

static void say_quantity(Note *note, double value_si, PlumbQuantity quantity)
{
    plumb_text_quantity(&note->text, value_si, quantity, PLUMB_METRIC);
}

static void say_range(Note *note, double low, double high, PlumbQuantity quantity)
{
    say(note, "; allowed is ");
    say_quantity(note, low, quantity);
    say(note, " to ");
    say_quantity(note, high, quantity);
}

static PlumbStatus bad(const Note *note, const char *field, PlumbError *error)
{
    return plumb_error_set(error, PLUMB_BAD_INPUT, field, note->buffer);
}

static PlumbStatus check_number(const char *field, double value, const double range[2],
                                PlumbQuantity quantity, const char *what, PlumbError *error)
{
    if (value >= range[0] && value <= range[1]) {
        return PLUMB_OK;
    }
    Note note;
    note_begin(&note);
    say_quantity(&note, value, quantity);
    say(&note, " is no ");
    say(&note, what);
    say(&note, " that this model covers");
    say_range(&note, range[0], range[1], quantity);
    return bad(&note, field, error);
}

static PlumbStatus check_age(double age_years, PlumbError *error)
{
    if (age_years == 0.0 || (age_years >= AGE_YEARS[0] && age_years <= AGE_YEARS[1])) {
        return PLUMB_OK;
    }
    Note note;
    note_begin(&note);
    plumb_text_fixed(&note.text, age_years, 1);
    say(&note, " years is no age that this model covers; allowed is ");
    plumb_text_fixed(&note.text, AGE_YEARS[0], 0);
    say(&note, " to ");
    plumb_text_fixed(&note.text, AGE_YEARS[1], 0);
    say(&note, " years; leave it out where it is not known");
    return bad(&note, "age", error);
}

static PlumbStatus check_length(const char *field, double value_m, double low_m, double high_m,
                                double stature_m, const char *how, PlumbError *error)
{
    if (value_m >= low_m && value_m <= high_m) {
        return PLUMB_OK;
    }
    Note note;
    note_begin(&note);
    say_quantity(&note, value_m, PLUMB_Q_LENGTH);
    say(&note, " cannot be right for a stature of ");
    say_quantity(&note, stature_m, PLUMB_Q_LENGTH);
    say_range(&note, low_m, high_m, PLUMB_Q_LENGTH);
    say(&note, "; measure it again: ");
    say(&note, how);
    return bad(&note, field, error);
}

static PlumbStatus check_spread(const char *field, double sd_count, PlumbError *error)
{
    if (sd_count >= -SD_LIMIT && sd_count <= SD_LIMIT) {
        return PLUMB_OK;
    }
    Note note;
    note_begin(&note);
    plumb_text_signed(&note.text, sd_count, 2);
    say(&note, " sd is beyond any adult; allowed is ");
    plumb_text_signed(&note.text, -SD_LIMIT, 0);
    say(&note, " to ");
    plumb_text_signed(&note.text, SD_LIMIT, 0);
    say(&note, " sd");
    return bad(&note, field, error);
}

static PlumbStatus check_error(const char *field, double sd_m, PlumbError *error)
{
    if (sd_m >= 0.0 && sd_m <= ERROR_MOST_M) {
        return PLUMB_OK;
    }
    Note note;
    note_begin(&note);
    say(&note, "an error of ");
    say_quantity(&note, sd_m, PLUMB_Q_LENGTH);
    say(&note, " tells nothing");
    say_range(&note, 0.0, ERROR_MOST_M, PLUMB_Q_LENGTH);
    return bad(&note, field, error);
}

static PlumbStatus check_measure(const PlumbBodySpec *spec, PlumbLength length, PlumbError *error)
{
    const PlumbMeasure *measure = &spec->measure[length];
    const char *name = plumb_length_name(length);
    if (measure->kind == PLUMB_MEASURE_NONE) {
        return PLUMB_OK;
    }
    if (check_error(name, measure->sd_m, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    if (measure->kind == PLUMB_MEASURE_SPREAD) {
        return check_spread(name, measure->value, error);
    }
    double low_m;
    double high_m;
    plumb_length_range(spec->sex, spec->stature_m, length, &low_m, &high_m);
    return check_length(name, measure->value, low_m, high_m, spec->stature_m,
                        plumb_length_text(length), error);
}

static PlumbStatus check_tape(const PlumbBodySpec *spec, PlumbTape tape, PlumbError *error)
{
    const PlumbMeasure *measure = &spec->tape[tape];
    const char *name = plumb_tape_name(tape);
    if (measure->kind == PLUMB_MEASURE_NONE) {
        return PLUMB_OK;
    }
    if (measure->kind != PLUMB_MEASURE_LENGTH) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, name,
                               "a taped measure is a length; standard deviations belong to the "
                               "lengths between joints");
    }
    if (check_error(name, measure->sd_m, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    double low_m;
    double high_m;
    plumb_tape_range(spec->sex, spec->stature_m, tape, &low_m, &high_m);
    return check_length(name, measure->value, low_m, high_m, spec->stature_m, plumb_tape_text(tape),
                        error);
}

PlumbStatus plumb_spec_check(const PlumbBodySpec *spec, PlumbError *error)
{
    if ((unsigned)spec->sex >= PLUMB_SEX_COUNT) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "sex", "allowed is male or female");
    }
    if ((unsigned)spec->length_table >= PLUMB_TABLE_COUNT ||
        (unsigned)spec->mass_table >= PLUMB_TABLE_COUNT) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "table", "allowed is survey or classic");
    }
    if (check_number("stature", spec->stature_m, STATURE_M, PLUMB_Q_LENGTH, "stature", error) ||
        check_number("mass", spec->mass_kg, MASS_KG, PLUMB_Q_MASS, "body mass", error) ||
        check_age(spec->age_years, error)) {
        return PLUMB_BAD_INPUT;
    }
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (check_measure(spec, (PlumbLength)i, error) != PLUMB_OK) {
            return PLUMB_BAD_INPUT;
        }
    }
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        if (check_tape(spec, (PlumbTape)i, error) != PLUMB_OK) {
            return PLUMB_BAD_INPUT;
        }
    }
    return PLUMB_OK;
}

PlumbStatus plumb_converted_check(const PlumbBodySpec *spec, PlumbTape tape, PlumbLength length,
                                  double length_m, PlumbError *error)
{
    double low_m;
    double high_m;
    plumb_length_range(spec->sex, spec->stature_m, length, &low_m, &high_m);
    if (length_m >= low_m && length_m <= high_m) {
        return PLUMB_OK;
    }
    Note note;
    note_begin(&note);
    say_quantity(&note, spec->tape[tape].value, PLUMB_Q_LENGTH);
    say(&note, " does not fit the other measures: ");
    say(&note, plumb_length_name(length));
    say(&note, " would be ");
    say_quantity(&note, length_m, PLUMB_Q_LENGTH);
    say_range(&note, low_m, high_m, PLUMB_Q_LENGTH);
    say(&note, "; measure it again: ");
    say(&note, plumb_tape_text(tape));
    return bad(&note, plumb_tape_name(tape), error);
}

PlumbStatus plumb_collision(PlumbTape tape, PlumbLength length, PlumbError *error)
{
    Note note;
    note_begin(&note);
    say(&note, plumb_tape_name(tape));
    say(&note, " and ");
    say(&note, plumb_length_name(length));
    say(&note, " both fix the same length; give one of the two");
    return bad(&note, plumb_tape_name(tape), error);
}

PlumbStatus plumb_foot_check(const PlumbBody *body, PlumbError *error)
{
    if (body->ball_of_foot_m < body->foot_length_m) {
        return PLUMB_OK;
    }
    Note note;
    note_begin(&note);
    say_quantity(&note, body->ball_of_foot_m, PLUMB_Q_LENGTH);
    say(&note, " lies beyond the toes of a foot of ");
    say_quantity(&note, body->foot_length_m, PLUMB_Q_LENGTH);
    say(&note, "; allowed is less than the foot's length; measure both again");
    return bad(&note, plumb_length_name(PLUMB_LEN_ball_of_foot), error);
}
