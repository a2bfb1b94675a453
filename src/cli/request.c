/* SPDX-License-Identifier: MIT */
/* What a command is asked about: a lifter and a set-up, out of a file and of key=value words. */
#include "request.h"

#include "base/words.h"
#include "source.h"
#include "words.h"

#include <plumbar/press.h>

#include <string.h>

/* The lift of the words and that of the file's set-up agree, or one of them is there. */
static PlumbStatus choose_lift(const PlumbCliWords *words, const PlumbCliSource *source,
                               unsigned may, PlumbCliRequest *request, PlumbCliFault *fault)
{
    if (source->setup != NULL && words->has_lift && words->lift != source->setup->lift) {
        return plumb_fault_bad(fault, "lift", "the set-up is for a ",
                               plumb_lift_name(source->setup->lift),
                               "; name that lift, or leave it out");
    }
    request->lift_given = words->has_lift;
    if (source->setup != NULL) {
        request->lift = source->setup->lift;
    } else if (words->has_lift) {
        request->lift = words->lift;
    } else if ((may & PLUMB_REQUEST_ANY_LIFT) == 0) {
        return plumb_fault_bad(fault, "lift",
                               (may & PLUMB_REQUEST_BENCH) != 0
                                   ? "which one? Write deadlift, squat or bench first"
                                   : "which one? Write deadlift or squat first",
                               "", ", or name a set-up: FILE:set-up name");
    }
    if (request->lift == PLUMB_BENCH && (may & PLUMB_REQUEST_BENCH) == 0) {
        return plumb_fault_bad(fault, "lift", "this command knows deadlift and squat, not the ",
                               plumb_lift_text(PLUMB_BENCH), "");
    }
    return PLUMB_OK;
}

static PlumbStatus unknown_key(const char *key, unsigned may, PlumbLift lift, PlumbCliFault *fault)
{
    PlumbNearest search = plumb_nearest_begin(key, strlen(key));
    for (int i = 0; i < PLUMB_SETTING_COUNT && (may & PLUMB_REQUEST_SETUP) != 0; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        if (row->lifts[lift]) {
            plumb_nearest_try(&search, row->key);
        }
    }
    PlumbLifterField field;
    for (size_t i = 0; plumb_lifter_field(i, &field); i++) {
        plumb_nearest_try(&search, field.key);
    }
    const char *const nearest = plumb_nearest_word(&search);
    if (nearest != NULL) {
        return plumb_fault_bad(fault, key, "there is no such key; did you mean ", nearest, "?");
    }
    return plumb_fault_bad(fault, key, "there is no such key; ",
                           (may & PLUMB_REQUEST_SETUP) != 0
                               ? "plumbar help setup lists settings, plumbar help body measures"
                               : "plumbar help body lists them",
                           "");
}

static PlumbStatus add_axis(const PlumbCliPair *pair, bool of_lifter, PlumbCliRequest *request,
                            PlumbCliFault *fault)
{
    if (request->axis_count == PLUMB_AXES_MAX) {
        return plumb_fault_bad(fault, pair->key, "a third range; at most two can vary at once", "",
                               "");
    }
    PlumbCliRange range;
    PlumbStatus status = plumb_range_read(pair->key, pair->value, &range, fault);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbCliAxis *const axis = &request->axis[request->axis_count];
    status = of_lifter ? plumb_axis_of_lifter(pair->key, &range, &request->record, axis, fault)
                       : plumb_axis_of_setting(pair->key, &range, &request->entry, axis, fault);
    request->axis_count += status == PLUMB_OK;
    return status;
}

/* Adds one pair to the record or to the set-up, whichever knows its key. */
static PlumbStatus apply_pair(const PlumbCliPair *pair, unsigned may, PlumbCliRequest *request,
                              PlumbCliFault *fault)
{
    const bool is_setting = (may & PLUMB_REQUEST_SETUP) != 0 &&
                            plumb_setting_find(pair->key, strlen(pair->key)) != NULL;
    fault->path[0] = '\0';
    if (!is_setting && !plumb_lifter_record_has_key(pair->key)) {
        if (plumb_setting_find(pair->key, strlen(pair->key)) != NULL) {
            return plumb_fault_bad(fault, pair->key,
                                   "is a setting of a lift, not a measure of the lifter", "",
                                   "; leave it out here");
        }
        return unknown_key(pair->key, may, request->lift, fault);
    }
    if (plumb_range_is(pair->value)) {
        if ((may & PLUMB_REQUEST_AXES) != 0) {
            return add_axis(pair, !is_setting, request, fault);
        }
        return plumb_fault_bad(fault, pair->key, "'", pair->value,
                               "' is a range; ranges are for plumbar vary");
    }
    return is_setting
               ? plumb_setup_entry_add(&request->entry, pair->key, pair->value, &fault->error)
               : plumb_lifter_record_set(&request->record, pair->key, pair->value, &fault->error);
}

static PlumbStatus apply_pairs(const PlumbCliWords *words, unsigned may, PlumbCliRequest *request,
                               PlumbCliFault *fault)
{
    for (int i = 0; i < words->pair_count; i++) {
        const PlumbStatus status = apply_pair(&words->pair[i], may, request, fault);
        if (status != PLUMB_OK) {
            return status;
        }
    }
    return PLUMB_OK;
}

/* Names what is missing of sex, stature and mass, and how it is written. */
static PlumbStatus missing(const PlumbLifterRecord *record, PlumbCliFault *fault)
{
    static const char *const names[] = {"sex", "stature", "mass"};
    const bool given[] = {record->sex_given, record->stature_given, record->mass_given};
    char before[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(before, sizeof before);
    int count = 0;
    for (size_t i = 0; i < 3; i++) {
        if (!given[i]) {
            const bool last = i == 2 || (i == 1 && given[2]);
            plumb_text_string(&text, count == 0 ? "" : last ? " and " : ", ");
            plumb_text_string(&text, names[i]);
            count++;
        }
    }
    return plumb_fault_bad(fault, "lifter", before, count > 1 ? " are missing" : " is missing",
                           "; write sex=female stature=172cm mass=70kg, or name a lifter file");
}

static PlumbStatus build_lifter(PlumbCliRequest *request, PlumbCliFault *fault)
{
    const PlumbLifterRecord *const record = &request->record;
    if (!record->sex_given || !record->stature_given || !record->mass_given) {
        return missing(record, fault);
    }
    return plumb_lifter_record_lifter(record, &request->lifter, &fault->error);
}

static PlumbStatus check_size(const PlumbCliRequest *request, PlumbCliFault *fault)
{
    long cells = 1;
    for (int i = 0; i < request->axis_count; i++) {
        cells *= request->axis[i].count;
    }
    return cells <= PLUMB_CELLS_MAX
               ? PLUMB_OK
               : plumb_fault_bad(fault, request->axis[1].key, "the grid has more than 250000 cells",
                                 "", "; ask for fewer points");
}

static PlumbStatus finish(unsigned may, PlumbCliRequest *request, PlumbCliFault *fault)
{
    fault->path[0] = '\0';
    PlumbStatus status = build_lifter(request, fault);
    if (status == PLUMB_OK) {
        status = check_size(request, fault);
    }
    if (status != PLUMB_OK || (may & PLUMB_REQUEST_SETUP) == 0) {
        return status;
    }
    status = plumb_setup_entry_close(&request->entry, &request->setup, &fault->error);
    if (status == PLUMB_OK) {
        plumb_press_default_grip(&request->lifter, &request->setup);
    }
    return status;
}

static PlumbStatus take_file(const char *what, PlumbCliSource *source, PlumbCliRequest *request,
                             PlumbCliFault *fault)
{
    const PlumbStatus status = plumb_source_open(what, source, fault);
    if (status == PLUMB_OK) {
        memcpy(request->path, source->path, sizeof request->path);
        memcpy(request->setup_name, source->setup_name, sizeof request->setup_name);
        request->record = source->file->record;
    }
    return status;
}

static PlumbStatus fill(const PlumbCliWords *words, unsigned may, PlumbCliSource *source,
                        PlumbCliRequest *request, PlumbCliFault *fault)
{
    PlumbStatus status = PLUMB_OK;
    if ((may & PLUMB_REQUEST_OTHER_WORD) != 0) {
        request->other_word = words->file;
        status = words->file != NULL
                     ? PLUMB_OK
                     : plumb_fault_bad(fault, "file", "is missing; write the name of the file ",
                                       "to make", " first");
    } else if (words->file != NULL) {
        status = take_file(words->file, source, request, fault);
    }
    if (status == PLUMB_OK && (may & PLUMB_REQUEST_SETUP) != 0) {
        status = choose_lift(words, source, may, request, fault);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    request->entry =
        source->setup != NULL
            ? plumb_setup_entry_over(&source->setup->entry)
            : plumb_setup_entry(request->lift, request->record.heel_m, request->record.ball_m);
    status = apply_pairs(words, may, request, fault);
    return status == PLUMB_OK ? finish(may, request, fault) : status;
}

PlumbStatus plumb_request_read(const char *const *word, int count, unsigned may,
                               PlumbCliRequest *request, PlumbCliFault *fault)
{
    *request = (PlumbCliRequest){.record = plumb_lifter_record(), .lift = PLUMB_DEADLIFT};
    PlumbCliWords words;
    PlumbStatus status =
        plumb_words_read(word, count, (may & PLUMB_REQUEST_SETUP) != 0, &words, fault);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbCliSource source = {.file = NULL};
    status = fill(&words, may, &source, request, fault);
    plumb_source_close(&source);
    return status;
}

/* "key=value ..." over base's own words. */
static PlumbStatus read_over(const PlumbCliRequest *base, const char *what,
                             PlumbCliRequest *request, PlumbCliFault *fault)
{
    char text[PLUMB_CLI_PATH_SIZE];
    const char *word[PLUMB_PAIRS_MAX];
    if (strlen(what) >= sizeof text) {
        return plumb_fault_bad(fault, "--pencil", "is longer than settings can be", "", "");
    }
    memcpy(text, what, strlen(what) + 1);
    const int count = plumb_words_cut(text, word, PLUMB_PAIRS_MAX);
    if (count < 0) {
        return plumb_fault_bad(fault, "--pencil", "has too many words", "", "");
    }
    PlumbCliWords words;
    PlumbStatus status = plumb_words_read(word, count, true, &words, fault);
    if (status != PLUMB_OK) {
        return status;
    }
    *request = (PlumbCliRequest){
        .record = base->record, .lift = base->lift, .entry = plumb_setup_entry_over(&base->entry)};
    status = apply_pairs(&words, PLUMB_REQUEST_SETUP, request, fault);
    return status == PLUMB_OK ? finish(PLUMB_REQUEST_SETUP, request, fault) : status;
}

PlumbStatus plumb_request_read_pencil(const PlumbCliRequest *base, const char *what,
                                      PlumbCliRequest *request, PlumbCliFault *fault)
{
    if (plumb_words_is_pair(what)) {
        return read_over(base, what, request, fault);
    }
    const char *const words[] = {plumb_lift_name(base->lift), what};
    const unsigned may = PLUMB_REQUEST_SETUP | PLUMB_REQUEST_ANY_LIFT | PLUMB_REQUEST_BENCH;
    PlumbStatus status = plumb_request_read(words + 1, 1, may, request, fault);
    if (status == PLUMB_OK && request->setup_name[0] == '\0') {
        status = plumb_request_read(words, 2, may, request, fault);
        request->setup = base->setup;
    }
    if (status == PLUMB_OK && request->lift != base->lift) {
        return plumb_fault_bad(fault, "--pencil", "the set-up is for a ",
                               plumb_lift_name(request->lift), ", the inked one is not");
    }
    return status;
}

PlumbStatus plumb_request_at(const PlumbCliRequest *request, const int index[PLUMB_AXES_MAX],
                             PlumbLifter *lifter, PlumbSetup *setup, PlumbCliFault *fault)
{
    PlumbLifterRecord record = request->record;
    bool rebuild = false;
    *setup = request->setup;
    for (int i = 0; i < request->axis_count; i++) {
        const PlumbCliAxis *const axis = &request->axis[i];
        const double value = plumb_axis_value(axis, index[i]);
        char *const base = axis->of_lifter ? (char *)&record : (char *)setup;
        memcpy(base + axis->offset, &value, sizeof value);
        setup->grip_by_build &= axis->of_lifter || axis->setting != PLUMB_SET_grip;
        rebuild = rebuild || axis->of_lifter;
    }
    fault->path[0] = '\0';
    const PlumbStatus status =
        rebuild ? plumb_lifter_record_lifter(&record, lifter, &fault->error) : PLUMB_OK;
    if (!rebuild) {
        *lifter = request->lifter;
    }
    if (status == PLUMB_OK) {
        plumb_press_default_grip(lifter, setup);
    }
    return status == PLUMB_OK ? plumb_setup_check(setup, &fault->error) : status;
}
