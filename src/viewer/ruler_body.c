/* SPDX-License-Identifier: MIT */
/* Rows and values of the body's rulers. */
#include "ruler_body.h"

#include <math.h>

static const PlumbLength LENGTHS[PLUMB_BODY_LENGTH_COUNT] = {PLUMB_LEN_shank,
                                                             PLUMB_LEN_thigh,
                                                             PLUMB_LEN_trunk,
                                                             PLUMB_LEN_upper_arm,
                                                             PLUMB_LEN_forearm,
                                                             PLUMB_LEN_foot_length,
                                                             PLUMB_LEN_hip_joint_spacing,
                                                             PLUMB_LEN_shoulder_joint_spacing,
                                                             PLUMB_LEN_chest_depth};

#define BODY_ROW(place, name, unit, words, kind, low, high, step)                                  \
    [place] = {.id = (PlumbSettingId)(PLUMB_SETTING_COUNT + (place)),                              \
               .key = name,                                                                        \
               .json_key = name unit,                                                              \
               .meaning = words,                                                                   \
               .quantity = kind,                                                                   \
               .lifts = {true, true, true},                                                        \
               .default_si = {(double)NAN, (double)NAN, (double)NAN},                              \
               .min_si = low,                                                                      \
               .max_si = high,                                                                     \
               .step_si = step,                                                                    \
               .offset = (size_t)-1}

/* Ranges of the rulers only: what a body can have is checked where it is built. */
static const PlumbSetting ROWS[] = {
    BODY_ROW(0, "stature", "_m", "Stature, standing without shoes.", PLUMB_Q_LENGTH, 1.2, 2.3,
             0.005),
    BODY_ROW(1, "mass", "_kg", "Mass of the body.", PLUMB_Q_MASS, 30.0, 250.0, 0.5),
    BODY_ROW(2, "shank", "_m", "Ankle to knee joint centre.", PLUMB_Q_LENGTH, 0.25, 0.6, 0.0025),
    BODY_ROW(3, "thigh", "_m", "Knee to hip joint centre.", PLUMB_Q_LENGTH, 0.25, 0.6, 0.0025),
    BODY_ROW(4, "trunk", "_m", "Mid-hip to mid-shoulder, standing.", PLUMB_Q_LENGTH, 0.3, 0.75,
             0.0025),
    BODY_ROW(5, "upper_arm", "_m", "Shoulder to elbow joint centre.", PLUMB_Q_LENGTH, 0.15, 0.45,
             0.0025),
    BODY_ROW(6, "forearm", "_m", "Elbow to wrist joint centre.", PLUMB_Q_LENGTH, 0.15, 0.4, 0.0025),
    BODY_ROW(7, "foot_length", "_m", "Heel to toe tip.", PLUMB_Q_LENGTH, 0.15, 0.4, 0.0025),
    BODY_ROW(8, "hip_joint_spacing", "_m", "Between the hip joint centres.", PLUMB_Q_LENGTH, 0.1,
             0.25, 0.0025),
    BODY_ROW(9, "shoulder_joint_spacing", "_m", "Between the shoulder joint centres.",
             PLUMB_Q_LENGTH, 0.2, 0.5, 0.0025),
    BODY_ROW(10, "chest_depth", "_m", "Front to back of the chest.", PLUMB_Q_LENGTH, 0.12, 0.45,
             0.0025),
};

PlumbLength plumb_body_length(PlumbSettingId id)
{
    const int at = (int)id - PLUMB_BODY_LENGTHS;
    return at >= 0 && at < PLUMB_BODY_LENGTH_COUNT ? LENGTHS[at] : PLUMB_LENGTH_COUNT;
}

const PlumbSetting *plumb_body_row(PlumbSettingId id)
{
    return &ROWS[(int)id - (int)PLUMB_SETTING_COUNT];
}

double plumb_body_value(const PlumbBody *body, PlumbSettingId id)
{
    return (int)id == PLUMB_BODY_stature ? body->stature_m
           : (int)id == PLUMB_BODY_mass  ? body->mass_kg
                                         : body->length_m[plumb_body_length(id)];
}

double plumb_body_percentile(const PlumbBody *body, PlumbSettingId id)
{
    return (int)id == PLUMB_BODY_stature ? plumb_stature_percentile(body->sex, body->stature_m)
           : (int)id == PLUMB_BODY_mass  ? plumb_mass_percentile(body->sex, body->mass_kg)
                                         : plumb_length_percentile(body, plumb_body_length(id));
}

/* Takes out the tapes that give this length; those first that build on others. */
static bool drop_tapes(PlumbLifterRecord *record, PlumbLength length)
{
    bool dropped = false;
    for (int i = PLUMB_TAPE_COUNT - 1; i >= 0; i--) {
        PlumbLifterRecord without = *record;
        PlumbLifter with_it;
        PlumbLifter without_it;
        without.spec.tape[i] = (PlumbMeasure){PLUMB_MEASURE_NONE, 0.0, 0.0};
        if (record->spec.tape[i].kind != PLUMB_MEASURE_NONE &&
            plumb_lifter_record_lifter(record, &with_it, NULL) == PLUMB_OK &&
            plumb_lifter_record_lifter(&without, &without_it, NULL) == PLUMB_OK &&
            with_it.body.length_basis[length] == PLUMB_BASIS_TAPED &&
            fabs(with_it.body.length_m[length] - without_it.body.length_m[length]) > 1e-9) {
            *record = without;
            dropped = true;
        }
    }
    return dropped;
}

static void set_length(PlumbLifterRecord *record, PlumbLength length, double value_si)
{
    record->spec.measure[length] = isfinite(value_si)
                                       ? (PlumbMeasure){PLUMB_MEASURE_LENGTH, value_si, 0.0}
                                       : (PlumbMeasure){PLUMB_MEASURE_NONE, 0.0, 0.0};
}

PlumbStatus plumb_body_change(PlumbLifterRecord *record, PlumbLifter *lifter, PlumbSettingId id,
                              double value_si, PlumbError *error)
{
    PlumbLifterRecord changed = *record;
    PlumbLifter built;
    const PlumbLength length = plumb_body_length(id);
    if ((int)id == PLUMB_BODY_stature) {
        changed.spec.stature_m = value_si;
    } else if ((int)id == PLUMB_BODY_mass) {
        changed.spec.mass_kg = value_si;
    } else {
        if (!isfinite(value_si) && changed.spec.measure[length].kind == PLUMB_MEASURE_NONE) {
            drop_tapes(&changed, length);
        }
        set_length(&changed, length, value_si);
    }
    PlumbStatus status = plumb_lifter_record_lifter(&changed, &built, error);
    if (status != PLUMB_OK && length != PLUMB_LENGTH_COUNT && isfinite(value_si)) {
        /* A tape and the length itself collide: what is set by hand counts. */
        changed = *record;
        if (drop_tapes(&changed, length)) {
            set_length(&changed, length, value_si);
            status = plumb_lifter_record_lifter(&changed, &built, error);
        }
    }
    if (status == PLUMB_OK) {
        *record = changed;
        *lifter = built;
    }
    return status;
}
