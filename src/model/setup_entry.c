/* SPDX-License-Identifier: MIT */
/* Collects a set-up from texts in any order: keys, words, presets, and which one leads. */
#include <plumbar/setup.h>

#include <plumbar/quantity.h>

#include "base/words.h"
#include "model/setup_table.h"

#include <string.h>

/* Fails with the setting's key as field: "<value>": <what>. */
static PlumbStatus refuse(PlumbError *error, const char *key, const char *value, const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    if (value != NULL) {
        plumb_text_quoted(&text, value, strlen(value));
        plumb_text_string(&text, ": ");
    }
    plumb_text_string(&text, what);
    return plumb_error_set(error, PLUMB_BAD_INPUT, key, message);
}

/* Fails because of a value that is no word of the list names[count]. */
static PlumbStatus refuse_word(PlumbError *error, const char *key, const char *value,
                               const char *const *names, int count)
{
    char what[200];
    PlumbText text = plumb_text_begin(what, sizeof what);
    PlumbNearest nearest = plumb_nearest_begin(value, strlen(value));
    for (int i = 0; i < count; i++) {
        plumb_text_string(&text, i == 0 ? "" : i + 1 < count ? ", " : " or ");
        plumb_text_string(&text, names[i]);
        plumb_nearest_try(&nearest, names[i]);
    }
    plumb_text_string(&text, " is allowed");
    if (plumb_nearest_word(&nearest) != NULL) {
        plumb_text_string(&text, "; did you mean ");
        plumb_text_string(&text, plumb_nearest_word(&nearest));
        plumb_text_string(&text, "?");
    }
    return refuse(error, key, value, what);
}

/* The index of value among names[count], -1 where it is none. */
static int word_index(const char *value, const char *const *names, int count)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(value, names[i]) == 0) {
            return i;
        }
    }
    return -1;
}

static PlumbStatus add_style(PlumbSetupEntry *entry, const char *value, PlumbError *error)
{
    const char *const names[] = {plumb_style_name(PLUMB_CONVENTIONAL),
                                 plumb_style_name(PLUMB_SUMO)};
    const int index = word_index(value, names, PLUMB_STYLE_COUNT);
    if (index < 0) {
        return refuse_word(error, "style", value, names, PLUMB_STYLE_COUNT);
    }
    const StylePreset preset = plumb_style_preset((PlumbStyle)index);
    PlumbSetup *const setup = &entry->setup;
    setup->style = (PlumbStyle)index;
    setup->stance_m = entry->given[PLUMB_SET_stance] ? setup->stance_m : preset.stance_m;
    setup->toes_rad = entry->given[PLUMB_SET_toes] ? setup->toes_rad : preset.toes_rad;
    setup->grip_m = entry->given[PLUMB_SET_grip] ? setup->grip_m : preset.grip_m;
    return PLUMB_OK;
}

static PlumbStatus add_seat(PlumbSetupEntry *entry, const char *value, PlumbError *error)
{
    const char *const names[] = {plumb_seat_name(PLUMB_HIGH_BAR), plumb_seat_name(PLUMB_LOW_BAR),
                                 plumb_seat_name(PLUMB_FRONT_BAR)};
    const int index = word_index(value, names, PLUMB_SEAT_COUNT);
    if (index < 0) {
        return refuse_word(error, "bar", value, names, PLUMB_SEAT_COUNT);
    }
    const double grip_m = entry->setup.grip_m;
    plumb_setup_seat(&entry->setup, (PlumbSeat)index);
    if (entry->given[PLUMB_SET_grip]) {
        entry->setup.grip_m = grip_m;
    }
    return PLUMB_OK;
}

/* `auto` leads with yes. no: it does not, and a pull is led by its balance again; squat and press
 * then need another lead, which the closing sees. */
static PlumbStatus add_auto(PlumbSetupEntry *entry, const char *value, PlumbError *error)
{
    static const char *const names[] = {"yes", "no"};
    const int index = word_index(value, names, 2);
    if (index < 0) {
        return refuse_word(error, "auto", value, names, 2);
    }
    if (index == 0) {
        entry->setup.lead = PLUMB_LEAD_AUTO;
    } else if (entry->setup.lead == PLUMB_LEAD_AUTO) {
        entry->setup.lead = PLUMB_LEAD_BALANCE;
    }
    return PLUMB_OK;
}

/* A number with a sign in front, which for a hip height means a difference. */
static bool has_sign(const char *value)
{
    while (*value == ' ') {
        value++;
    }
    return *value == '+' || *value == '-' || strncmp(value, "\xE2\x88\x92", 3) == 0;
}

static PlumbStatus add_number(PlumbSetupEntry *entry, const PlumbSetting *setting,
                              const char *value, PlumbError *error)
{
    const bool relative = setting->id == PLUMB_SET_hip_height && has_sign(value);
    double value_si = 0;
    PlumbStatus status =
        plumb_quantity_read(value, strlen(value), setting->quantity, &value_si, error);
    if (status != PLUMB_OK) {
        if (error != NULL) {
            const int column = error->column;
            plumb_error_set(error, status, setting->key, error->message);
            error->column = column;
        }
        return status;
    }
    status = plumb_setting_check(setting, relative, value_si, error);
    if (status != PLUMB_OK) {
        return status;
    }
    double least = 0;
    double greatest = 0;
    plumb_setting_range(setting, relative, &least, &greatest);
    /* The check forgives the last bits of a unit's conversion; the set-up holds none of them. */
    const double held = value_si < least ? least : value_si > greatest ? greatest : value_si;
    *plumb_setup_double(&entry->setup, setting) = held;
    if (setting->id == PLUMB_SET_hip_height) {
        entry->setup.hip_height_relative = relative;
    }
    if (setting->id == PLUMB_SET_knees_out) {
        entry->setup.knees_over_toes = false;
    }
    if (setting->id == PLUMB_SET_elbows) {
        entry->setup.elbows_given = true;
    }
    if (setting->id == PLUMB_SET_grip) {
        entry->setup.grip_by_build = false;
    }
    return PLUMB_OK;
}

static PlumbStatus refuse_key(PlumbError *error, const char *key, PlumbLift lift)
{
    char what[200];
    PlumbText text = plumb_text_begin(what, sizeof what);
    const char *const nearest = plumb_setting_nearest(key, strlen(key), lift);
    plumb_text_string(&text, "not a setting of the ");
    plumb_text_string(&text, plumb_lift_text(lift));
    if (nearest != NULL) {
        plumb_text_string(&text, "; did you mean ");
        plumb_text_string(&text, nearest);
        plumb_text_string(&text, "?");
    }
    return refuse(error, key, key, what);
}

/* A setting of other lifts: "a setting of the squat, not of the deadlift". */
static PlumbStatus refuse_lift(PlumbError *error, const PlumbSetting *setting, PlumbLift lift)
{
    char what[200];
    PlumbText text = plumb_text_begin(what, sizeof what);
    plumb_text_string(&text, "a setting of the ");
    bool first = true;
    for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
        if (setting->lifts[i]) {
            plumb_text_string(&text, first ? "" : " and the ");
            plumb_text_string(&text, plumb_lift_text((PlumbLift)i));
            first = false;
        }
    }
    plumb_text_string(&text, ", not of the ");
    plumb_text_string(&text, plumb_lift_text(lift));
    return refuse(error, setting->key, NULL, what);
}

PlumbSetupEntry plumb_setup_entry(PlumbLift lift, double heel_m, double ball_m)
{
    PlumbSetupEntry entry;
    memset(&entry, 0, sizeof entry);
    entry.setup = plumb_setup_default(lift);
    entry.setup.heel_lift_m = heel_m;
    entry.setup.ball_lift_m = ball_m;
    return entry;
}

PlumbStatus plumb_setup_entry_add(PlumbSetupEntry *entry, const char *key, const char *value,
                                  PlumbError *error)
{
    const PlumbLift lift = entry->setup.lift;
    const PlumbSetting *const setting = plumb_setting_find(key, strlen(key));
    if (setting == NULL) {
        return refuse_key(error, key, lift);
    }
    if (!setting->lifts[lift]) {
        return refuse_lift(error, setting, lift);
    }
    if (entry->given[setting->id]) {
        return refuse(error, key, value, "the setting is given twice; give it once");
    }
    PlumbSetupEntry next = *entry;
    PlumbStatus status = PLUMB_OK;
    if (setting->id == PLUMB_SET_style) {
        status = add_style(&next, value, error);
    } else if (setting->id == PLUMB_SET_bar) {
        status = add_seat(&next, value, error);
    } else if (setting->id == PLUMB_SET_auto) {
        status = add_auto(&next, value, error);
    } else if (setting->id == PLUMB_SET_knees_out && strcmp(value, "over_toes") == 0) {
        next.setup.knees_over_toes = true;
    } else if (setting->id == PLUMB_SET_elbows && strcmp(value, "under_bar") == 0) {
        next.setup.elbows_given = false;
    } else {
        status = add_number(&next, setting, value, error);
    }
    if (status == PLUMB_OK) {
        next.given[setting->id] = true;
        *entry = next;
    }
    return status;
}

/* The leads given in this layer; auto counts where it says yes. */
static int leads_given(const PlumbSetupEntry *entry, PlumbSettingId found[PLUMB_SETTING_COUNT])
{
    int count = 0;
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSettingId id = (PlumbSettingId)i;
        if (!entry->given[id] || !plumb_setting(id)->leads[entry->setup.lift]) {
            continue;
        }
        if (id != PLUMB_SET_auto || entry->setup.lead == PLUMB_LEAD_AUTO) {
            found[count++] = id;
        }
    }
    return count;
}

static PlumbStatus resolve_lead(const PlumbSetupEntry *entry, PlumbLead *lead, PlumbError *error)
{
    PlumbSettingId found[PLUMB_SETTING_COUNT];
    const int count = leads_given(entry, found);
    if (count == 0) {
        *lead = entry->setup.lead;
        return PLUMB_OK;
    }
    if (count == 1) {
        *lead = plumb_setting_lead(found[0]);
        return PLUMB_OK;
    }
    if (count == 2 && found[0] == PLUMB_SET_balance && found[1] == PLUMB_SET_hip_height) {
        *lead = PLUMB_LEAD_HEIGHT_AND_BALANCE;
        return PLUMB_OK;
    }
    char what[240];
    PlumbText text = plumb_text_begin(what, sizeof what);
    for (int i = 0; i < count; i++) {
        plumb_text_string(&text, i == 0 ? "" : i + 1 < count ? ", " : " and ");
        plumb_text_string(&text, plumb_setting(found[i])->key);
    }
    plumb_text_string(&text, " cannot lead together; give one");
    plumb_text_string(&text,
                      entry->setup.lift == PLUMB_DEADLIFT ? ", or hip_height with balance" : "");
    return refuse(error, plumb_setting(found[count - 1])->key, NULL, what);
}

PlumbSetupEntry plumb_setup_entry_over(const PlumbSetupEntry *base)
{
    PlumbSetupEntry entry = *base;
    PlumbLead lead = base->setup.lead;
    if (resolve_lead(base, &lead, NULL) == PLUMB_OK) {
        entry.setup.lead = lead;
    }
    memset(entry.given, 0, sizeof entry.given);
    return entry;
}

PlumbStatus plumb_setup_entry_close(const PlumbSetupEntry *entry, PlumbSetup *setup,
                                    PlumbError *error)
{
    PlumbSetup closed = entry->setup;
    PlumbStatus status = resolve_lead(entry, &closed.lead, error);
    if (status == PLUMB_OK) {
        status = plumb_setup_check(&closed, error);
    }
    if (status == PLUMB_OK) {
        *setup = closed;
    }
    return status;
}
