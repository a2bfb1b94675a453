/* SPDX-License-Identifier: MIT */
/* Writes the fields of a lifter's record, and settings, as texts that read back to the same. */
#include "io/record_fields.h"

#include "model/setup_table.h"

#include <plumbar/quantity.h>

#include <math.h>
#include <string.h>

enum { FIGURE_SIZE = 48, DECIMALS_MAX = 12 };

/* The unit that is written behind a figure; "" where there is none. */
static const char *written_unit(PlumbQuantity quantity)
{
    return quantity == PLUMB_Q_ANGLE ? "deg" : plumb_quantity_unit(quantity, PLUMB_METRIC);
}

/* Writes figure with the fewest decimals, most at most, that read back to value_si, and its unit;
 * returns how many, most + 1 where even those do not. */
static int shortest(double figure, const char *unit, PlumbQuantity quantity, double value_si,
                    int most, char written[FIGURE_SIZE])
{
    for (int decimals = 0; decimals <= most; decimals++) {
        double back = 0;
        PlumbText attempt = plumb_text_begin(written, FIGURE_SIZE);
        plumb_text_fixed(&attempt, figure, decimals);
        plumb_text_string(&attempt, unit[0] == '\0' ? "" : " ");
        plumb_text_string(&attempt, unit);
        if (plumb_quantity_read(written, attempt.length, quantity, &back, NULL) == PLUMB_OK &&
            fabs(back - value_si) <= 1e-10 * fmax(1, fabs(value_si))) {
            return decimals;
        }
    }
    return most + 1;
}

static bool has_pounds(PlumbQuantity quantity)
{
    return quantity == PLUMB_Q_LENGTH || quantity == PLUMB_Q_STATURE || quantity == PLUMB_Q_MASS;
}

void plumb_exact_figure(PlumbText *text, double value_si, PlumbQuantity quantity, bool sign)
{
    enum { METRIC_MOST = 1, POUNDS_MOST = 2 };
    char written[FIGURE_SIZE];
    char other[FIGURE_SIZE];
    const int decimals =
        shortest(value_si * plumb_quantity_factor(quantity, PLUMB_METRIC), written_unit(quantity),
                 quantity, value_si, DECIMALS_MAX, written);
    const bool pounds = has_pounds(quantity) && decimals > METRIC_MOST &&
                        shortest(value_si * plumb_quantity_factor(quantity, PLUMB_POUNDS_INCHES),
                                 quantity == PLUMB_Q_MASS ? "lb" : "in", quantity, value_si,
                                 POUNDS_MOST, other) <= POUNDS_MOST;
    const char *const chosen = pounds ? other : written;
    plumb_text_string(text, sign && chosen[0] != '-' ? "+" : "");
    plumb_text_string(text, chosen);
}

static bool measure_text(const PlumbMeasure *measure, PlumbText *text)
{
    if (measure->kind == PLUMB_MEASURE_NONE) {
        return false;
    }
    if (measure->kind == PLUMB_MEASURE_SPREAD) {
        plumb_exact_figure(text, measure->value, PLUMB_Q_NUMBER, true);
        plumb_text_string(text, " sd");
        return true;
    }
    plumb_exact_figure(text, measure->value, PLUMB_Q_LENGTH, false);
    if (measure->sd_m > 0) {
        plumb_text_string(text, " ± ");
        plumb_exact_figure(text, measure->sd_m, PLUMB_Q_LENGTH, false);
    }
    return true;
}

static bool number_text(double value_si, PlumbQuantity quantity, bool given, PlumbText *text)
{
    if (given) {
        plumb_exact_figure(text, value_si, quantity, false);
    }
    return given;
}

static bool word_text(const char *word, bool given, PlumbText *text)
{
    if (given) {
        plumb_text_string(text, word);
    }
    return given;
}

/* "160 kg x 3 @ 2" */
static bool best_text(const PlumbBest *best, bool given, PlumbText *text)
{
    if (!given) {
        return false;
    }
    plumb_exact_figure(text, best->load_kg, PLUMB_Q_MASS, false);
    if (best->repetitions > 1) {
        plumb_text_string(text, " x ");
        plumb_text_integer(text, best->repetitions);
    }
    if (best->reserve > 0) {
        plumb_text_string(text, " @ ");
        plumb_text_integer(text, best->reserve);
    }
    return true;
}

static const char *table_word(PlumbTable table)
{
    return table == PLUMB_CLASSIC ? "classic" : "survey";
}

bool plumb_field_text(const PlumbLifterRecord *record, const FieldRow *row, PlumbText *text)
{
    const PlumbBodySpec *const spec = &record->spec;
    const int i = row->index;
    switch (row->kind) {
    case FIELD_NAME:
        return word_text(record->name, record->name[0] != '\0', text);
    case FIELD_NOTE:
        return word_text(record->note, record->note[0] != '\0', text);
    case FIELD_SEX:
        return word_text(spec->sex == PLUMB_FEMALE ? "female" : "male", record->sex_given, text);
    case FIELD_STATURE:
        return number_text(spec->stature_m, row->quantity, record->stature_given, text);
    case FIELD_MASS:
        return number_text(spec->mass_kg, row->quantity, record->mass_given, text);
    case FIELD_AGE:
        return number_text(spec->age_years, row->quantity, spec->age_years > 0, text);
    case FIELD_LENGTH_TABLE:
        return word_text(table_word(spec->length_table), spec->length_table != PLUMB_SURVEY, text);
    case FIELD_MASS_TABLE:
        return word_text(table_word(spec->mass_table), spec->mass_table != PLUMB_SURVEY, text);
    case FIELD_LENGTH:
        return measure_text(&spec->measure[i], text);
    case FIELD_TAPE:
        return measure_text(&spec->tape[i], text);
    case FIELD_SHOE: {
        const double lift_m = i == 0 ? record->heel_m : record->ball_m;
        return number_text(lift_m, row->quantity, lift_m > 0, text);
    }
    case FIELD_LIMIT:
        return number_text(record->limit_rad[i], row->quantity, record->limit_given[i], text);
    case FIELD_LUNGE:
        return word_text(record->lunge, record->lunge[0] != '\0', text);
    case FIELD_BEST:
        return best_text(&record->best[i], record->best_given[i], text);
    case FIELD_STRENGTH:
        return number_text(record->strength[i], row->quantity, record->strength_given[i], text);
    case FIELD_EQUIPMENT:
        return number_text(record->equipment[i], row->quantity, record->equipment_given[i], text);
    case FIELD_STRENGTH_ALL: /* written joint by joint */
        break;
    }
    return false;
}

/* What the setting would be if it were not given: presets and shoes count. */
static double value_unless_given(const PlumbSetup *setup, PlumbSettingId id, double heel_m,
                                 double ball_m)
{
    PlumbSetup plain = plumb_setup_default(setup->lift);
    plain.heel_lift_m = heel_m;
    plain.ball_lift_m = ball_m;
    if (setup->lift == PLUMB_DEADLIFT) {
        plumb_setup_style(&plain, setup->style);
    } else if (setup->lift == PLUMB_SQUAT) {
        plumb_setup_seat(&plain, setup->seat);
    }
    return plumb_setup_get(&plain, id);
}

static bool lead_text(const PlumbSetup *setup, const PlumbSetting *setting, PlumbText *text)
{
    const bool pair = setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE &&
                      (setting->id == PLUMB_SET_hip_height || setting->id == PLUMB_SET_balance);
    if (!pair && plumb_setup_lead_setting(setup) != setting->id) {
        return false;
    }
    if (setting->id == PLUMB_SET_auto) {
        return word_text("yes", setup->lift == PLUMB_DEADLIFT, text);
    }
    const double value = plumb_setup_get(setup, setting->id);
    if (setting->id == PLUMB_SET_balance && !pair &&
        fabs(value - setting->default_si[setup->lift]) < 1e-12) {
        return false;
    }
    const bool sign = setting->id == PLUMB_SET_hip_height && setup->hip_height_relative;
    plumb_exact_figure(text, value, setting->quantity, sign);
    return true;
}

bool plumb_setting_text(const PlumbSetup *setup, PlumbSettingId id, double heel_m, double ball_m,
                        PlumbText *text)
{
    const PlumbSetting *const setting = plumb_setting(id);
    if (!setting->lifts[setup->lift]) {
        return false;
    }
    if (setting->leads[setup->lift]) {
        return lead_text(setup, setting, text);
    }
    if (id == PLUMB_SET_style) {
        return word_text(plumb_style_name(setup->style), setup->style != PLUMB_CONVENTIONAL, text);
    }
    if (id == PLUMB_SET_bar) {
        return word_text(plumb_seat_name(setup->seat), setup->seat != PLUMB_HIGH_BAR, text);
    }
    if (id == PLUMB_SET_knees_out && setup->knees_over_toes) {
        return word_text("over_toes", true, text);
    }
    if (id == PLUMB_SET_elbows && !setup->elbows_given) {
        return false;
    }
    const double value = plumb_setup_get(setup, id);
    const bool own_grip = id == PLUMB_SET_grip && setup->lift == PLUMB_BENCH;
    if (own_grip ? setup->grip_by_build
                 : fabs(value - value_unless_given(setup, id, heel_m, ball_m)) < 1e-12) {
        return false;
    }
    plumb_exact_figure(text, value, setting->quantity, false);
    return true;
}
