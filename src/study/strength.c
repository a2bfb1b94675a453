/* SPDX-License-Identifier: MIT */
/* Strength from best lifts, and the ankle's limit from a lunge against a wall. */
#include <plumbar/strength.h>

#include <plumbar/quantity.h>

#include "base/vec.h"

#include <string.h>

double plumb_best_epley_kg(double load_kg, int repetitions)
{
    return repetitions <= 1 ? load_kg : load_kg * (1.0 + repetitions / 30.0);
}

double plumb_best_brzycki_kg(double load_kg, int repetitions)
{
    return load_kg * 36.0 / (37.0 - repetitions);
}

double plumb_best_single_kg(double load_kg, int repetitions, int reserve)
{
    const int all = repetitions + reserve;
    return 0.5 * (plumb_best_epley_kg(load_kg, all) + plumb_best_brzycki_kg(load_kg, all));
}

static PlumbStatus refuse(PlumbError *error, const char *field, const char *quoted,
                          const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_quoted(&text, quoted, strlen(quoted));
    plumb_text_string(&text, what);
    return plumb_error_set(error, PLUMB_BAD_INPUT, field, message);
}

/* A whole number after blanks, up to the next mark; -1 where there is none. */
static int count_read(const char *text, size_t length)
{
    double value;
    while (length > 0 && *text == ' ') {
        text++;
        length--;
    }
    while (length > 0 && text[length - 1] == ' ') {
        length--;
    }
    if (!plumb_number_read(text, length, &value) || value < 0.0 || value > 99.0 ||
        value != floor(value)) {
        return -1;
    }
    return (int)value;
}

PlumbStatus plumb_best_read(const char *text, PlumbLift lift, PlumbBest *best, PlumbError *error)
{
    static const char how[] = ": a best lift is written \"160 kg\", \"160 kg x 3\" or, with two "
                              "repetitions left, \"160 kg x 3 @ 2\"";
    const char *const field = plumb_lift_name(lift);
    const char *const end = text + strlen(text);
    const char *const at = strchr(text, '@');
    const char *const times = strchr(text, 'x');
    PlumbBest read = {lift, 0.0, 1, 0};
    const char *load_end = times != NULL ? times : at != NULL ? at : end;
    while (load_end > text && load_end[-1] == ' ') {
        load_end--;
    }
    if (plumb_quantity_read(text, (size_t)(load_end - text), PLUMB_Q_MASS, &read.load_kg, NULL) !=
            PLUMB_OK ||
        (at != NULL && times != NULL && at < times)) {
        return refuse(error, field, text, how);
    }
    if (times != NULL) {
        read.repetitions = count_read(times + 1, (size_t)((at != NULL ? at : end) - times - 1));
    }
    if (at != NULL) {
        read.reserve = count_read(at + 1, (size_t)(end - at - 1));
    }
    if (read.repetitions < 0 || read.reserve < 0) {
        return refuse(error, field, text, how);
    }
    if (!(read.load_kg >= 1.0 && read.load_kg <= 600.0)) {
        return refuse(error, field, text, ": 1 kg to 600 kg is allowed");
    }
    if (read.repetitions < 1 || read.reserve > 5 ||
        read.repetitions + read.reserve > PLUMB_REPETITIONS_MAX) {
        return refuse(error, field, text,
                      ": 1 to 12 repetitions, those left (0 to 5) included, are allowed; beyond "
                      "that no formula says what one repetition would be");
    }
    *best = read;
    return PLUMB_OK;
}

/* Largest relative effort at the best single, at strength 1. */
static double largest_effort(const PlumbLifter *lifter, const PlumbBest *best)
{
    if (best->lift != PLUMB_DEADLIFT && best->lift != PLUMB_SQUAT) {
        return 0.0;
    }
    PlumbSetup setup = plumb_setup_default(best->lift);
    PlumbAnswer answer;
    setup.load_kg = plumb_best_single_kg(best->load_kg, best->repetitions, best->reserve);
    plumb_answer_solve(lifter, &setup, &answer);
    double largest = 0.0;
    for (int i = 0; i < PLUMB_JOINT_COUNT && answer.outcome != PLUMB_NO_POSE; i++) {
        largest = fmax(largest, answer.start.relative_effort[i]);
    }
    return largest;
}

bool plumb_strength_from_best(const PlumbLifter *lifter, const PlumbBest *best, int count,
                              double *multiplier)
{
    PlumbLifter plain = *lifter;
    double largest = 0.0;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        plain.strength[i] = 1.0;
    }
    for (int i = 0; i < count; i++) {
        largest = fmax(largest, largest_effort(&plain, &best[i]));
    }
    if (!(largest > 0.0)) {
        return false;
    }
    *multiplier = largest;
    return true;
}

double plumb_lunge_dorsiflexion_rad(const PlumbBody *body, double distance_m)
{
    const double forward =
        body->foot_length_m - body->heel_to_ankle_m + distance_m - body->shin_half_thickness_m;
    const double sine = forward / body->shank_m;
    return fabs(sine) < 1.0 ? asin(sine) : (double)NAN;
}

PlumbStatus plumb_lunge_read(const PlumbBody *body, const char *text, double *dorsiflexion_rad,
                             PlumbError *error)
{
    double value;
    const size_t length = strlen(text);
    double angle = (double)NAN;
    if (plumb_quantity_read(text, length, PLUMB_Q_ANGLE, &value, NULL) == PLUMB_OK) {
        angle = value;
    } else if (plumb_quantity_read(text, length, PLUMB_Q_LENGTH, &value, NULL) == PLUMB_OK) {
        angle =
            value >= 0.0 && value <= 0.30 ? plumb_lunge_dorsiflexion_rad(body, value) : (double)NAN;
    } else {
        return refuse(error, "lunge", text,
                      ": give the toes' distance from the wall (\"10 cm\") or the shank's lean "
                      "(\"38 deg\")");
    }
    if (!(angle >= degrees(5.0) && angle <= degrees(60.0))) {
        return refuse(error, "lunge", text,
                      ": that is not a lunge of this body; 0 cm to 30 cm, or 5 deg to 60 deg, are "
                      "allowed");
    }
    *dorsiflexion_rad = angle;
    return PLUMB_OK;
}
