/* SPDX-License-Identifier: MIT */
/* The rows of a lifter's record, and how they are found. */
#include "io/record_fields.h"

#include "base/words.h"

#include <string.h>

/* Limits of angles: what no joint exceeds. Of multipliers: what no training does. Of equipment:
 * what could still be lifted with. They catch slips of the pen, not lifters. */
#define LIFTER(key, meaning, example, kind, quantity)                                              \
    {                                                                                              \
        "lifter", key, meaning, example, kind, 0, quantity, 0, 0                                   \
    }
#define STRENGTH(key, meaning, kind, index)                                                        \
    {                                                                                              \
        "strength", key, meaning, "1.1", kind, index, PLUMB_Q_FRACTION, 0.2, 5                     \
    }
#define BEST(key, lift, example)                                                                   \
    {                                                                                              \
        "strength.best", key, "best set; x repetitions, @ repetitions left", example, FIELD_BEST,  \
            lift, PLUMB_Q_MASS, 0, 0                                                               \
    }
#define GEAR(section, key, meaning, example, id, quantity, least, greatest)                        \
    {                                                                                              \
        section, key, meaning, example, FIELD_EQUIPMENT, PLUMB_EQUIP_##id, quantity, least,        \
            greatest                                                                               \
    }

/* Of a person of 172 cm, as a tape and a test would have them. */
#define EXAMPLE_sitting_height "90 cm ± 1 cm"
#define EXAMPLE_buttock_to_knee "60 cm ± 1 cm"
#define EXAMPLE_knee_height_sitting "54 cm ± 1 cm"
#define EXAMPLE_span "176 cm ± 1 cm"
#define EXAMPLE_shoulder_to_elbow "36 cm ± 1 cm"
#define EXAMPLE_elbow_to_wrist "26 cm ± 1 cm"
#define EXAMPLE_foot "26 cm ± 0.5 cm"
#define EXAMPLE_heel_to_ankle_bone "6 cm ± 0.5 cm"
#define EXAMPLE_floor_to_fingertips "64 cm ± 1 cm"
#define EXAMPLE_ankle_dorsiflexion "38 deg"
#define EXAMPLE_knee_flexion "138 deg"
#define EXAMPLE_hip_flexion "125 deg"
#define EXAMPLE_hip_extension "17 deg"
#define EXAMPLE_hip_abduction "45 deg"
#define EXAMPLE_hip_external_rotation "42 deg"
#define EXAMPLE_hip_internal_rotation "35 deg"
#define EXAMPLE_shoulder_flexion "169 deg"
#define EXAMPLE_shoulder_external_rotation "90 deg"
#define EXAMPLE_elbow_flexion "145 deg"
#define EXAMPLE_press_abduction "60 deg"

static const FieldRow rows[] = {
    LIFTER("name", "shown on drawings", "Robin", FIELD_NAME, PLUMB_Q_WORD),
    LIFTER("sex", "male or female: which survey the body is from", "female", FIELD_SEX,
           PLUMB_Q_WORD),
    LIFTER("stature", "standing tall, without shoes", "172 cm", FIELD_STATURE, PLUMB_Q_STATURE),
    LIFTER("mass", "body mass", "70 kg", FIELD_MASS, PLUMB_Q_MASS),
    LIFTER("age", "years; strength is held to fall with it", "34", FIELD_AGE, PLUMB_Q_NUMBER),
    LIFTER("table", "lengths: survey, or the classic fractions of handbooks", "survey",
           FIELD_LENGTH_TABLE, PLUMB_Q_WORD),
    LIFTER("mass_table", "segment masses: survey or classic", "survey", FIELD_MASS_TABLE,
           PLUMB_Q_WORD),
    LIFTER("note", "anything worth keeping", "pulls in socks", FIELD_NOTE, PLUMB_Q_WORD),
#define X(name, text)                                                                              \
    {"measures", #name, text, EXAMPLE_##name, FIELD_TAPE, PLUMB_TAPE_##name, PLUMB_Q_LENGTH, 0, 0},
    PLUMB_TAPE_LIST(X)
#undef X
#define X(name, text)                                                                              \
    {"measures", #name, text, "+1 sd", FIELD_LENGTH, PLUMB_LEN_##name, PLUMB_Q_LENGTH, 0, 0},
        PLUMB_LENGTH_LIST(X)
#undef X
            {"shoes", "heel_lift", "sole under the heel", "19 mm", FIELD_SHOE, 0, PLUMB_Q_SMALL, 0,
             0.05},
    {"shoes", "ball_lift", "sole under the ball of the foot", "0 mm", FIELD_SHOE, 1, PLUMB_Q_SMALL,
     0, 0.05},
#define X(name)                                                                                    \
    {"limits",           #name,         "greatest angle",     EXAMPLE_##name,    FIELD_LIMIT,      \
     PLUMB_LIMIT_##name, PLUMB_Q_ANGLE, 0.017453292519943295, 3.1415926535897932},
    PLUMB_LIMIT_LIST(X)
#undef X
        {"limits", "lunge",
         "knee to the wall, heel down: the toes' distance from it, or the shank's lean", "10 cm",
         FIELD_LUNGE, 0, PLUMB_Q_LENGTH, 0, 0},
    STRENGTH("all", "multiplier of every joint's capacity", FIELD_STRENGTH_ALL, 0),
#define X(name)                                                                                    \
    STRENGTH(#name, "multiplier of this joint's capacity", FIELD_STRENGTH, PLUMB_JOINT_##name),
    PLUMB_JOINT_LIST(X)
#undef X
        BEST("squat", PLUMB_SQUAT, "160 kg x 3"),
    BEST("deadlift", PLUMB_DEADLIFT, "200 kg x 1 @ 2"),
    GEAR("equipment.bar", "mass", "of the bar alone", "20 kg", bar_mass, PLUMB_Q_MASS, 1, 60),
    GEAR("equipment.bar", "shaft", "diameter of the shaft", "28 mm", bar_shaft, PLUMB_Q_SMALL, 0.02,
         0.08),
    GEAR("equipment.bar", "rings", "between the ring marks", "81 cm", bar_rings, PLUMB_Q_LENGTH,
         0.2, 1.5),
    GEAR("equipment.bar", "knurl_start", "between the inner ends of the knurling", "42 cm",
         bar_knurl_start, PLUMB_Q_LENGTH, 0, 1.5),
    GEAR("equipment.bar", "knurl_stop", "between the outer ends of the knurling", "131 cm",
         bar_knurl_stop, PLUMB_Q_LENGTH, 0.2, 2.5),
    GEAR("equipment.discs", "diameter", "of the discs that touch the floor", "45 cm", disc_diameter,
         PLUMB_Q_LENGTH, 0.1, 0.8),
};
enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

static bool stands_bare(const FieldRow *row)
{
    return strcmp(row->section, "lifter") == 0 || strcmp(row->section, "measures") == 0 ||
           strcmp(row->section, "limits") == 0 || strcmp(row->section, "shoes") == 0;
}

const FieldRow *plumb_field_row(size_t i)
{
    return i < ROW_COUNT ? &rows[i] : NULL;
}

const FieldRow *plumb_field_in(const char *section, const char *key, size_t length)
{
    for (size_t i = 0; i < ROW_COUNT; i++) {
        if (strcmp(rows[i].section, section) == 0 && plumb_word_is(key, length, rows[i].key)) {
            return &rows[i];
        }
    }
    return NULL;
}

const FieldRow *plumb_field_named(const char *key)
{
    const char *const dot = strrchr(key, '.');
    for (size_t i = 0; i < ROW_COUNT; i++) {
        const FieldRow *const row = &rows[i];
        if (dot == NULL) {
            if (stands_bare(row) && strcmp(row->key, key) == 0) {
                return row;
            }
        } else if (plumb_word_is(key, (size_t)(dot - key), row->section) &&
                   strcmp(row->key, dot + 1) == 0) {
            return row;
        }
    }
    return NULL;
}

const char *plumb_field_nearest(const char *section, const char *key, size_t length)
{
    PlumbNearest nearest = plumb_nearest_begin(key, length);
    for (size_t i = 0; i < ROW_COUNT; i++) {
        const bool counts =
            section == NULL ? stands_bare(&rows[i]) : strcmp(rows[i].section, section) == 0;
        if (counts) {
            plumb_nearest_try(&nearest, rows[i].key);
        }
    }
    return plumb_nearest_word(&nearest);
}

bool plumb_lifter_field(size_t index, PlumbLifterField *field)
{
    const FieldRow *const row = plumb_field_row(index);
    if (row == NULL) {
        return false;
    }
    *field = (PlumbLifterField){row->section, row->key, row->meaning, row->example};
    return true;
}
