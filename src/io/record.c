/* SPDX-License-Identifier: MIT */
/* A lifter's record: set by keys, turned into the lifter that the model takes. */
#include "io/record_fields.h"

#include <string.h>

PlumbLifterRecord plumb_lifter_record(void)
{
    PlumbLifterRecord record;
    memset(&record, 0, sizeof record);
    record.spec.length_table = PLUMB_SURVEY;
    record.spec.mass_table = PLUMB_SURVEY;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        record.strength[i] = 1;
    }
    return record;
}

bool plumb_lifter_record_has_key(const char *key)
{
    return plumb_field_named(key) != NULL;
}

PlumbStatus plumb_lifter_record_set(PlumbLifterRecord *record, const char *key, const char *value,
                                    PlumbError *error)
{
    const FieldRow *const row = plumb_field_named(key);
    if (row != NULL) {
        return plumb_field_set(record, row, value, error);
    }
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    const char *const nearest = plumb_field_nearest(NULL, key, strlen(key));
    plumb_text_quoted(&text, key, strlen(key));
    plumb_text_string(&text, ": not a key of a lifter");
    if (nearest != NULL) {
        plumb_text_string(&text, "; did you mean ");
        plumb_text_string(&text, nearest);
        plumb_text_string(&text, "?");
    }
    return plumb_error_set(error, PLUMB_BAD_INPUT, key, message);
}

/* Names what of sex, stature and mass is missing. */
static PlumbStatus check_complete(const PlumbLifterRecord *record, PlumbError *error)
{
    const char *const names[] = {"sex", "stature", "mass"};
    const char *const examples[] = {"sex: female", "stature: 172 cm", "mass: 70 kg"};
    const bool given[] = {record->sex_given, record->stature_given, record->mass_given};
    char message[PLUMB_MESSAGE_SIZE];
    char give[80];
    PlumbText text = plumb_text_begin(message, sizeof message);
    PlumbText example = plumb_text_begin(give, sizeof give);
    int missing = 0;
    for (int i = 0; i < 3; i++) {
        if (!given[i]) {
            const bool last = i == 2 || (i == 1 && given[2]);
            plumb_text_string(&text, missing == 0 ? "" : last ? " and " : ", ");
            plumb_text_string(&text, names[i]);
            plumb_text_string(&example, missing > 0 ? ", " : "");
            plumb_text_string(&example, examples[i]);
            missing++;
        }
    }
    if (missing == 0) {
        return PLUMB_OK;
    }
    plumb_text_string(&text, missing > 1 ? " are missing" : " is missing");
    plumb_text_string(&text, "; a lifter needs sex, stature and mass, as ");
    plumb_text_string(&text, give);
    return plumb_error_set(error, PLUMB_BAD_INPUT, "lifter", message);
}

/* The body names its fields bare; a file has them in sections. */
static void name_section(PlumbError *error)
{
    const FieldRow *const row = error == NULL ? NULL : plumb_field_named(error->field);
    if (row != NULL && strchr(error->field, '.') == NULL) {
        PlumbText text = plumb_text_begin(error->field, sizeof error->field);
        plumb_text_string(&text, row->section);
        plumb_text_char(&text, '.');
        plumb_text_string(&text, row->key);
    }
}

/* Where the double of a dimension lies in the equipment. */
static double *equipment_double(PlumbEquipment *equipment, PlumbEquipmentId id)
{
    double *const fields[PLUMB_EQUIPMENT_COUNT] = {
        [PLUMB_EQUIP_bar_mass] = &equipment->bar_mass_kg,
        [PLUMB_EQUIP_bar_shaft] = &equipment->shaft_diameter_m,
        [PLUMB_EQUIP_bar_rings] = &equipment->ring_spacing_m,
        [PLUMB_EQUIP_bar_knurl_start] = &equipment->knurl_start_m,
        [PLUMB_EQUIP_bar_knurl_stop] = &equipment->knurl_stop_m,
        [PLUMB_EQUIP_disc_diameter] = &equipment->disc_diameter_m,
    };
    return fields[id];
}

/* The lunge gives the ankle's limit; both at once would be two answers to one question. */
static PlumbStatus apply_lunge(const PlumbLifterRecord *record, PlumbLifter *lifter,
                               PlumbError *error)
{
    const PlumbLimit ankle = PLUMB_LIMIT_ankle_dorsiflexion;
    if (record->lunge[0] == '\0') {
        return PLUMB_OK;
    }
    if (record->limit_given[ankle]) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "limits.lunge",
                               "lunge and ankle_dorsiflexion are one limit; give one of them");
    }
    const PlumbStatus status =
        plumb_lunge_read(&lifter->body, record->lunge, &lifter->limit_rad[ankle], error);
    if (status != PLUMB_OK && error != NULL) {
        PlumbText field = plumb_text_begin(error->field, sizeof error->field);
        plumb_text_string(&field, "limits.lunge");
    }
    lifter->limit_entered[ankle] = true;
    return status;
}

/* The best lifts set one multiplier for every joint that has none of its own. */
static PlumbStatus apply_best(const PlumbLifterRecord *record, PlumbLifter *lifter,
                              PlumbError *error)
{
    PlumbBest best[PLUMB_LIFT_COUNT];
    int count = 0;
    for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
        if (record->best_given[i]) {
            best[count++] = record->best[i];
        }
    }
    double multiplier = 1.0;
    if (count == 0) {
        return PLUMB_OK;
    }
    if (!plumb_strength_from_best(lifter, best, count, &multiplier)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "strength.best",
                               "no pose holds with these loads; check them, or take them out");
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        lifter->strength[i] = record->strength_given[i] ? record->strength[i] : multiplier;
    }
    lifter->strength_entered = true;
    return PLUMB_OK;
}

static void apply_limits(const PlumbLifterRecord *record, PlumbLifter *lifter)
{
    for (int i = 0; i < PLUMB_LIMIT_COUNT; i++) {
        if (record->limit_given[i]) {
            lifter->limit_rad[i] = record->limit_rad[i];
            lifter->limit_entered[i] = true;
        }
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        if (record->strength_given[i]) {
            lifter->strength[i] = record->strength[i];
            lifter->strength_entered = true;
        }
    }
}

PlumbStatus plumb_lifter_record_lifter(const PlumbLifterRecord *record, PlumbLifter *lifter,
                                       PlumbError *error)
{
    PlumbBody body;
    PlumbStatus status = check_complete(record, error);
    if (status != PLUMB_OK) {
        return status;
    }
    status = plumb_body_build(&record->spec, &body, error);
    if (status != PLUMB_OK) {
        name_section(error);
        return status;
    }
    PlumbLifter built = plumb_lifter_default(&body);
    apply_limits(record, &built);
    for (int i = 0; i < PLUMB_EQUIPMENT_COUNT; i++) {
        if (record->equipment_given[i]) {
            *equipment_double(&built.equipment, (PlumbEquipmentId)i) = record->equipment[i];
        }
    }
    if (built.equipment.knurl_start_m >= built.equipment.knurl_stop_m) {
        return plumb_error_set(error, PLUMB_BAD_INPUT,
                               record->equipment_given[PLUMB_EQUIP_bar_knurl_stop]
                                   ? "equipment.bar.knurl_stop"
                                   : "equipment.bar.knurl_start",
                               "the knurling would stop before it starts; knurl_stop is measured "
                               "between its outer ends and is the greater");
    }
    status = apply_lunge(record, &built, error);
    if (status == PLUMB_OK) {
        status = apply_best(record, &built, error);
    }
    if (status == PLUMB_OK) {
        *lifter = built;
    }
    return status;
}
