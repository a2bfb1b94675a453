/* SPDX-License-Identifier: MIT */
/* JSON objects filled key by key, bodies and set-ups in them, and their printing. */
#include "json_out.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Seventeen digits give every double back. */
enum { DIGITS = 17 };

PlumbJson plumb_json_begin(bool *failed)
{
    json_t *const object = json_object();
    *failed = *failed || object == NULL;
    return (PlumbJson){object, failed};
}

void plumb_json_put(PlumbJson json, const char *key, json_t *value)
{
    if (json_object_set_new(json.object, key, value) != 0) {
        *json.failed = true;
    }
}

void plumb_json_number(PlumbJson json, const char *key, double value)
{
    /* Adding zero turns -0 into 0. */
    plumb_json_put(json, key, isfinite(value) ? json_real(value + 0.0) : json_null());
}

void plumb_json_string(PlumbJson json, const char *key, const char *value)
{
    plumb_json_put(json, key, json_string(value));
}

void plumb_json_bool(PlumbJson json, const char *key, bool value)
{
    plumb_json_put(json, key, json_boolean(value));
}

void plumb_json_vector(PlumbJson json, const char *key, PlumbVec3 vector)
{
    const double xyz[] = {vector.x, vector.y, vector.z};
    json_t *const list = json_array();
    for (size_t i = 0; i < 3; i++) {
        json_array_append_new(list, isfinite(xyz[i]) ? json_real(xyz[i] + 0.0) : json_null());
    }
    plumb_json_put(json, key, list);
}

PlumbJson plumb_json_object(PlumbJson json, const char *key)
{
    json_t *const object = json_object();
    plumb_json_put(json, key, object);
    return (PlumbJson){object, json.failed};
}

static void put_lengths(PlumbJson json, const PlumbBody *body)
{
    const PlumbJson lengths = plumb_json_object(json, "lengths");
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbLength id = (PlumbLength)i;
        const PlumbJson one = plumb_json_object(lengths, plumb_length_name(id));
        plumb_json_number(one, "length_m", body->length_m[i]);
        plumb_json_number(one, "sd_m", body->length_sd_m[i]);
        plumb_json_string(one, "basis", plumb_basis_text(body->length_basis[i]));
        plumb_json_number(one, "percentile_frac", plumb_length_percentile(body, id));
        plumb_json_number(one, "ratio_percentile_frac", plumb_length_ratio_percentile(body, id));
    }
}

static void put_segments(PlumbJson json, const PlumbBody *body)
{
    const PlumbJson segments = plumb_json_object(json, "segments");
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        const PlumbSegment *const segment = &body->segment[i];
        const PlumbJson one = plumb_json_object(segments, plumb_segment_name((PlumbSegmentId)i));
        plumb_json_number(one, "mass_kg", segment->mass_frac * body->mass_kg);
        plumb_json_number(one, "mass_frac", segment->mass_frac);
        plumb_json_number(one, "com_frac", segment->com_frac);
        plumb_json_number(one, "radius_of_gyration_frac",
                          segment->rg_frac > 0.0 ? segment->rg_frac : (double)NAN);
    }
}

static void put_ratios(PlumbJson json, const PlumbBody *body)
{
    const PlumbJson ratios = plumb_json_object(json, "ratios");
    for (int i = 0; i < PLUMB_RATIO_COUNT; i++) {
        const PlumbRatio id = (PlumbRatio)i;
        const PlumbJson one = plumb_json_object(ratios, plumb_ratio_name(id));
        plumb_json_number(one, "value_frac", plumb_ratio_value(body, id));
        plumb_json_number(one, "percentile_frac", plumb_ratio_percentile(body, id));
    }
}

static json_t *extrapolations(unsigned bits)
{
    static const struct {
        unsigned bit;
        const char *name;
    } rows[] = {{PLUMB_BODY_AGE_BELOW_18, "age_below_18"},
                {PLUMB_BODY_STATURE_OUTSIDE, "stature_outside_survey"},
                {PLUMB_BODY_MASS_OUTSIDE, "mass_outside_survey"}};
    json_t *const list = json_array();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if ((bits & rows[i].bit) != 0) {
            json_array_append_new(list, json_string(rows[i].name));
        }
    }
    return list;
}

void plumb_json_body(PlumbJson json, const PlumbBody *body)
{
    plumb_json_string(json, "sex", plumb_sex_name(body->sex));
    plumb_json_number(json, "stature_m", body->stature_m);
    plumb_json_number(json, "mass_kg", body->mass_kg);
    plumb_json_number(json, "age_years", body->age_years > 0.0 ? body->age_years : (double)NAN);
    plumb_json_string(json, "length_table", plumb_table_name(body->length_table));
    plumb_json_string(json, "mass_table", plumb_table_name(body->mass_table));
    plumb_json_number(json, "stature_percentile_frac",
                      plumb_stature_percentile(body->sex, body->stature_m));
    plumb_json_number(json, "mass_percentile_frac",
                      plumb_mass_percentile(body->sex, body->mass_kg));
    plumb_json_number(json, "parts_sum_m", body->parts_sum_m);
    plumb_json_number(json, "parts_sum_minus_stature_m", body->parts_sum_m - body->stature_m);
    plumb_json_put(json, "extrapolated", extrapolations(body->extrapolated));
    put_lengths(json, body);
    put_ratios(json, body);
    put_segments(json, body);
}

void plumb_json_lifter(PlumbJson json, const PlumbLifter *lifter)
{
    const PlumbJson limits = plumb_json_object(json, "limits_rad");
    for (int i = 0; i < PLUMB_LIMIT_COUNT; i++) {
        plumb_json_number(limits, plumb_limit_name((PlumbLimit)i), lifter->limit_rad[i]);
    }
    plumb_json_bool(json, "strength_entered", lifter->strength_entered);
    const PlumbJson strength = plumb_json_object(json, "strength_frac");
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        plumb_json_number(strength, plumb_joint_name((PlumbJoint)i), lifter->strength[i]);
    }
    const PlumbEquipment *const gym = &lifter->equipment;
    const PlumbJson equipment = plumb_json_object(json, "equipment");
    plumb_json_number(equipment, "bar_mass_kg", gym->bar_mass_kg);
    plumb_json_number(equipment, "shaft_diameter_m", gym->shaft_diameter_m);
    plumb_json_number(equipment, "ring_spacing_m", gym->ring_spacing_m);
    plumb_json_number(equipment, "knurl_start_m", gym->knurl_start_m);
    plumb_json_number(equipment, "knurl_stop_m", gym->knurl_stop_m);
    plumb_json_number(equipment, "disc_diameter_m", gym->disc_diameter_m);
}

/* A lead that does not lead has no value of its own. */
static bool is_used(const PlumbSetup *setup, const PlumbSetting *row)
{
    if (!row->lifts[setup->lift]) {
        return false;
    }
    if (!row->leads[setup->lift]) {
        return true;
    }
    return plumb_setup_lead_setting(setup) == row->id ||
           (row->id == PLUMB_SET_balance && setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE);
}

void plumb_json_setup(PlumbJson json, const PlumbSetup *setup)
{
    plumb_json_string(json, "lead", plumb_lead_name(setup->lead));
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        if (!is_used(setup, row)) {
            continue;
        }
        if (row->id == PLUMB_SET_style) {
            plumb_json_string(json, row->json_key, plumb_style_name(setup->style));
        } else if (row->id == PLUMB_SET_bar) {
            plumb_json_string(json, row->json_key, plumb_seat_name(setup->seat));
        } else if (row->id == PLUMB_SET_knees_out && setup->knees_over_toes) {
            plumb_json_string(json, "knees_out", "over_toes");
        } else if (row->id == PLUMB_SET_elbows && !setup->elbows_given) {
            plumb_json_string(json, "elbows", "under_bar");
        } else if (row->offset != (size_t)-1) {
            plumb_json_number(json, row->json_key, plumb_setup_get(setup, row->id));
        }
        if (row->id == PLUMB_SET_grip && setup->lift == PLUMB_BENCH) {
            plumb_json_bool(json, "grip_by_build", setup->grip_by_build);
        }
    }
}

void plumb_json_print(PlumbJson json, size_t indent, PlumbCliOutput *out)
{
    const size_t style = indent > 0 ? JSON_INDENT(indent) : JSON_COMPACT;
    char *const text =
        *json.failed ? NULL : json_dumps(json.object, style | JSON_REAL_PRECISION(DIGITS));
    if (text == NULL) {
        out->status = PLUMB_OUT_OF_MEMORY;
    } else {
        plumb_output_string(out, text);
    }
    free(text);
    json_decref(json.object);
}
