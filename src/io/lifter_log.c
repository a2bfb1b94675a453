/* SPDX-License-Identifier: MIT */
/* The log of a lifter file: dated entries read, found, and added. */
#include "base/words.h"
#include "io/record_fields.h"
#include "io/lifter_edit.h"
#include "io/lifter_parse.h"

#include <stdlib.h>
#include <string.h>

enum { VALUE_SIZE = 64, KEYS = 7 };

static const char *const entry_keys[KEYS] = {"date", "lift",     "setup", "settings",
                                             "load", "findings", "note"};

static int digits(const char *text, int count)
{
    int value = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return -1;
        }
        value = 10 * value + (text[i] - '0');
    }
    return value;
}

bool plumb_date_is(const char *text)
{
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (strlen(text) != PLUMB_LOG_DATE_SIZE - 1 || text[4] != '-' || text[7] != '-') {
        return false;
    }
    const int year = digits(text, 4);
    const int month = digits(text + 5, 2);
    const int day = digits(text + 8, 2);
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return year >= 1 && month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1] &&
           (month != 2 || leap || day <= 28);
}

static bool has_control(const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        const unsigned char byte = (unsigned char)*c;
        if ((byte < 0x20u && byte != '\n' && byte != '\t') || byte == 0x7Fu) {
            return true;
        }
    }
    return false;
}

/* Copies words that must fit and be readable. */
static PlumbStatus take_words(const LifterParse *parse, int value, const char *key, char *to,
                              size_t size)
{
    const PlumbYamlNode *const it = &parse->tree->node[value];
    if (it->length >= size || has_control(it->text)) {
        return plumb_parse_fail(parse, it->start, "log", key, NULL,
                                it->length >= size
                                    ? "too long; findings take up to 255 bytes, names 95, notes 511"
                                    : "holds a control character; take it out");
    }
    memcpy(to, it->text, it->length + 1);
    return PLUMB_OK;
}

/* One text, or a list of them which is joined by commas. */
static PlumbStatus take_findings(const LifterParse *parse, int key, PlumbLogEntry *entry)
{
    const PlumbYamlTree *const tree = parse->tree;
    const int value = tree->node[key].value;
    if (tree->node[value].kind != PLUMB_YAML_LIST) {
        const PlumbStatus status = plumb_parse_check_scalar(parse, key, "log");
        return status == PLUMB_OK
                   ? take_words(parse, value, "findings", entry->findings, sizeof entry->findings)
                   : status;
    }
    PlumbText text = plumb_text_begin(entry->findings, sizeof entry->findings);
    for (int i = tree->node[value].first; i != PLUMB_YAML_NONE; i = tree->node[i].next) {
        if (tree->node[i].kind != PLUMB_YAML_SCALAR || has_control(tree->node[i].text)) {
            return plumb_parse_fail(parse, tree->node[i].start, "log", "findings", NULL,
                                    "a list of words is allowed");
        }
        plumb_text_string(&text, text.length > 0 ? ", " : "");
        plumb_text_string(&text, tree->node[i].text);
    }
    return text.cut ? plumb_parse_fail(parse, tree->node[value].start, "log", "findings", NULL,
                                       "too long; findings take up to 255 bytes")
                    : PLUMB_OK;
}

/* The value of a key of the entry as text; NULL where it has none. Fails where it is no text. */
static PlumbStatus scalar_of(const LifterParse *parse, int map, const char *key, int *node)
{
    const int at = plumb_yaml_key(parse->tree, map, key, strlen(key));
    *node = PLUMB_YAML_NONE;
    if (at == PLUMB_YAML_NONE) {
        return PLUMB_OK;
    }
    const PlumbStatus status = plumb_parse_check_scalar(parse, at, "log");
    if (status == PLUMB_OK) {
        *node = parse->tree->node[at].value;
    }
    return status;
}

static PlumbStatus take_date(const LifterParse *parse, int map, PlumbLogEntry *entry)
{
    int node = PLUMB_YAML_NONE;
    const PlumbStatus status = scalar_of(parse, map, "date", &node);
    if (status != PLUMB_OK) {
        return status;
    }
    if (node == PLUMB_YAML_NONE) {
        return plumb_parse_fail(parse, parse->tree->node[map].start, "log", "date", NULL,
                                "is missing; an entry begins with a day like 2026-01-31");
    }
    const PlumbYamlNode *const it = &parse->tree->node[node];
    if (!plumb_date_is(it->text)) {
        return plumb_parse_fail(parse, it->start, "log", "date", it->text,
                                "a day like 2026-01-31 is allowed");
    }
    memcpy(entry->date, it->text, sizeof entry->date);
    return PLUMB_OK;
}

/* The named set-up, which decides the lift where the entry does not. */
static PlumbStatus take_setup(const LifterParse *parse, int map, PlumbLogEntry *entry,
                              const PlumbFileSetup **setup)
{
    int node = PLUMB_YAML_NONE;
    PlumbStatus status = scalar_of(parse, map, "setup", &node);
    *setup = NULL;
    if (status != PLUMB_OK || node == PLUMB_YAML_NONE) {
        return status;
    }
    status = take_words(parse, node, "setup", entry->setup_name, sizeof entry->setup_name);
    for (size_t i = 0; status == PLUMB_OK && i < parse->file->setup_count; i++) {
        if (strcmp(parse->file->setup[i].name, entry->setup_name) == 0) {
            *setup = &parse->file->setup[i];
        }
    }
    return status;
}

static PlumbStatus take_lift(const LifterParse *parse, int map, const PlumbFileSetup *setup,
                             PlumbLogEntry *entry)
{
    int node = PLUMB_YAML_NONE;
    const PlumbStatus status = scalar_of(parse, map, "lift", &node);
    if (status != PLUMB_OK) {
        return status;
    }
    if (node == PLUMB_YAML_NONE && setup == NULL) {
        return plumb_parse_fail(parse, parse->tree->node[map].start, "log", "lift", NULL,
                                "is missing; add the lift, or a set-up of this file");
    }
    if (setup != NULL) {
        entry->lift = setup->lift;
    }
    if (node == PLUMB_YAML_NONE) {
        return PLUMB_OK;
    }
    const PlumbYamlNode *const it = &parse->tree->node[node];
    if (!plumb_lift_find(it->text, it->length, &entry->lift)) {
        return plumb_parse_fail(parse, it->start, "log", "lift", it->text,
                                "deadlift, squat or bench is allowed");
    }
    if (setup != NULL && setup->lift != entry->lift) {
        return plumb_parse_fail(parse, it->start, "log", "lift", it->text,
                                "the set-up that is named is for another lift");
    }
    return PLUMB_OK;
}

static PlumbStatus add_setting(const LifterParse *parse, int key, const char *value_key,
                               PlumbSetupEntry *settings)
{
    const PlumbYamlTree *const tree = parse->tree;
    PlumbStatus status = plumb_parse_check_scalar(parse, key, "log");
    if (status == PLUMB_OK) {
        const int value = tree->node[key].value;
        status = plumb_setup_entry_add(settings, value_key, tree->node[value].text, parse->error);
        plumb_parse_place(parse, value, status);
    }
    return status;
}

/* Settings of the day over the lift's defaults; else the named set-up's of now. Load last. */
static PlumbStatus take_settings(const LifterParse *parse, int map, const PlumbFileSetup *setup,
                                 PlumbLogEntry *entry)
{
    const PlumbYamlTree *const tree = parse->tree;
    const PlumbLifterRecord *const record = &parse->file->record;
    const int key = plumb_yaml_key(tree, map, "settings", strlen("settings"));
    const int load = plumb_yaml_key(tree, map, "load", strlen("load"));
    PlumbSetupEntry settings = setup != NULL && key == PLUMB_YAML_NONE
                                   ? plumb_setup_entry_over(&setup->entry)
                                   : plumb_setup_entry(entry->lift, record->heel_m, record->ball_m);
    PlumbStatus status = PLUMB_OK;
    entry->settings_given = key != PLUMB_YAML_NONE;
    if (key != PLUMB_YAML_NONE) {
        const int value = tree->node[key].value;
        status = plumb_parse_check_map(parse, value, "log.settings");
        for (int i = tree->node[value].first; status == PLUMB_OK && i != PLUMB_YAML_NONE;
             i = tree->node[i].next) {
            status = add_setting(parse, i, tree->node[i].text, &settings);
        }
    }
    if (status == PLUMB_OK && load != PLUMB_YAML_NONE) {
        status = add_setting(parse, load, "load", &settings);
    }
    if (status == PLUMB_OK) {
        status = plumb_setup_entry_close(&settings, &entry->setup, parse->error);
        plumb_parse_place(parse, map, status);
    }
    return status;
}

static PlumbStatus check_keys(const LifterParse *parse, int map)
{
    PlumbStatus status = plumb_parse_check_map(parse, map, "log");
    for (int i = parse->tree->node[map].first; status == PLUMB_OK && i != PLUMB_YAML_NONE;
         i = parse->tree->node[i].next) {
        const PlumbYamlNode *const it = &parse->tree->node[i];
        PlumbNearest nearest = plumb_nearest_begin(it->text, it->length);
        bool known = false;
        for (int k = 0; k < KEYS; k++) {
            known = known || strcmp(entry_keys[k], it->text) == 0;
            plumb_nearest_try(&nearest, entry_keys[k]);
        }
        if (!known) {
            char what[128];
            PlumbText text = plumb_text_begin(what, sizeof what);
            plumb_text_string(&text, "not a key of a log's entry");
            if (plumb_nearest_word(&nearest) != NULL) {
                plumb_text_string(&text, "; did you mean ");
                plumb_text_string(&text, plumb_nearest_word(&nearest));
                plumb_text_string(&text, "?");
            }
            status = plumb_parse_fail(parse, it->start, "log", it->text, it->text, what);
        }
    }
    return status;
}

static PlumbStatus parse_entry(const LifterParse *parse, int map, PlumbLogEntry *entry)
{
    const PlumbYamlTree *const tree = parse->tree;
    if (tree->node[map].kind != PLUMB_YAML_MAP) {
        return plumb_parse_fail(parse, tree->node[map].start, "log", NULL, NULL,
                                "an entry is \"- date: ..\" with its other keys below it");
    }
    int column = 0;
    int note = PLUMB_YAML_NONE;
    const PlumbFileSetup *setup = NULL;
    plumb_yaml_place(tree->bytes, tree->length, tree->node[map].start, &entry->line, &column);
    PlumbStatus status = check_keys(parse, map);
    status = status == PLUMB_OK ? take_date(parse, map, entry) : status;
    status = status == PLUMB_OK ? take_setup(parse, map, entry, &setup) : status;
    status = status == PLUMB_OK ? take_lift(parse, map, setup, entry) : status;
    status = status == PLUMB_OK ? take_settings(parse, map, setup, entry) : status;
    const int findings = plumb_yaml_key(tree, map, "findings", strlen("findings"));
    if (status == PLUMB_OK && findings != PLUMB_YAML_NONE) {
        status = take_findings(parse, findings, entry);
    }
    status = status == PLUMB_OK ? scalar_of(parse, map, "note", &note) : status;
    if (status == PLUMB_OK && note != PLUMB_YAML_NONE) {
        status = take_words(parse, note, "note", entry->note, sizeof entry->note);
    }
    return status;
}

PlumbStatus plumb_parse_log(const LifterParse *parse, int node)
{
    const PlumbYamlTree *const tree = parse->tree;
    if (plumb_yaml_is_empty(tree, node)) {
        return PLUMB_OK;
    }
    if (tree->node[node].kind != PLUMB_YAML_LIST) {
        return plumb_parse_fail(parse, tree->node[node].start, "log", NULL, NULL,
                                "a list is allowed here, each entry begun by a dash");
    }
    size_t count = 0;
    for (int i = tree->node[node].first; i != PLUMB_YAML_NONE; i = tree->node[i].next) {
        count++;
    }
    PlumbLifterFile *const file = parse->file;
    file->log = count > 0 ? calloc(count, sizeof *file->log) : NULL;
    if (count > 0 && file->log == NULL) {
        return plumb_error_set(parse->error, PLUMB_OUT_OF_MEMORY, "log", "no memory for the log");
    }
    PlumbStatus status = PLUMB_OK;
    for (int i = tree->node[node].first; status == PLUMB_OK && i != PLUMB_YAML_NONE;
         i = tree->node[i].next) {
        status = parse_entry(parse, i, &file->log[file->log_count++]);
    }
    return status;
}

const PlumbLogEntry *plumb_lifter_file_log(const PlumbLifterFile *file, const char *date,
                                           PlumbLift lift, PlumbError *error)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    const PlumbLogEntry *found = NULL;
    int count = 0;
    plumb_text_quoted(&text, date, strlen(date));
    plumb_text_string(&text, ": the log has no ");
    plumb_text_string(&text, plumb_lift_text(lift));
    plumb_text_string(&text, " of that day");
    for (size_t i = 0; i < file->log_count; i++) {
        if (file->log[i].lift == lift) {
            found = strcmp(file->log[i].date, date) == 0 ? &file->log[i] : found;
            plumb_text_string(&text, count++ > 0 ? ", " : "; it has ");
            plumb_text_string(&text, file->log[i].date);
        }
    }
    if (found == NULL) {
        plumb_text_string(&text, count == 0 ? "; it has none at all" : "");
        plumb_error_set(error, PLUMB_BAD_INPUT, "log", message);
    }
    return found;
}

static PlumbStatus check_new(const PlumbLogEntry *entry, PlumbError *error)
{
    if (!plumb_date_is(entry->date)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "log.date",
                               "a day like 2026-01-31 is allowed");
    }
    if (has_control(entry->setup_name) || has_control(entry->findings) ||
        has_control(entry->note)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "log",
                               "the words hold a control character; take it out");
    }
    return plumb_setup_check(&entry->setup, error);
}

/* Whether the last entry of the file is the one that was added. */
static bool holds_entry(const PlumbLifterFile *next, const void *user)
{
    const PlumbLogEntry *const wanted = user;
    const PlumbLogEntry *const last = next->log_count > 0 ? &next->log[next->log_count - 1] : NULL;
    return last != NULL && strcmp(last->date, wanted->date) == 0 &&
           strcmp(last->note, wanted->note) == 0 &&
           strcmp(last->setup_name, wanted->setup_name) == 0;
}

/* The settings that differ from the lift's defaults, the load apart; the grip where none does, so
 * that the day keeps its own settings whatever becomes of the named set-up. */
static size_t fill_settings(const PlumbLifterFile *file, const PlumbSetup *setup,
                            char value[][VALUE_SIZE], PlumbYamlEntry *lines)
{
    size_t count = 0;
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSettingId id = (PlumbSettingId)i;
        PlumbText text = plumb_text_begin(value[i], VALUE_SIZE);
        if (id != PLUMB_SET_load &&
            plumb_setting_text(setup, id, file->record.heel_m, file->record.ball_m, &text)) {
            lines[count++] = (PlumbYamlEntry){.key = plumb_setting(id)->key, .value = value[i]};
        }
    }
    if (count == 0) {
        PlumbText text = plumb_text_begin(value[PLUMB_SET_grip], VALUE_SIZE);
        plumb_text_quantity(&text, 100.0 * setup->grip_m, PLUMB_Q_NUMBER, PLUMB_METRIC);
        plumb_text_string(&text, " cm");
        lines[count++] = (PlumbYamlEntry){.key = "grip", .value = value[PLUMB_SET_grip]};
    }
    return count;
}

PlumbStatus plumb_lifter_file_add_log(PlumbLifterFile *file, const PlumbLogEntry *entry,
                                      PlumbError *error)
{
    PlumbStatus status = check_new(entry, error);
    PlumbYamlTree tree;
    if (status == PLUMB_OK) {
        status = plumb_yaml_parse(file->bytes, file->length, &tree, error);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    char value[PLUMB_SETTING_COUNT][VALUE_SIZE];
    char load[VALUE_SIZE];
    PlumbYamlEntry settings[PLUMB_SETTING_COUNT];
    PlumbYamlEntry lines[KEYS];
    size_t count = 0;
    PlumbText text = plumb_text_begin(load, sizeof load);
    plumb_exact_figure(&text, entry->setup.load_kg, PLUMB_Q_MASS, false);
    lines[count++] = (PlumbYamlEntry){.key = "date", .value = entry->date};
    lines[count++] = (PlumbYamlEntry){.key = "lift", .value = plumb_lift_name(entry->lift)};
    if (entry->setup_name[0] != '\0') {
        lines[count++] = (PlumbYamlEntry){.key = "setup", .value = entry->setup_name};
    }
    const size_t set = fill_settings(file, &entry->setup, value, settings);
    lines[count++] = (PlumbYamlEntry){.key = "settings", .child = settings, .child_count = set};
    lines[count++] = (PlumbYamlEntry){.key = "load", .value = load};
    if (entry->findings[0] != '\0') {
        lines[count++] = (PlumbYamlEntry){.key = "findings", .value = entry->findings};
    }
    if (entry->note[0] != '\0') {
        lines[count++] = (PlumbYamlEntry){.key = "note", .value = entry->note};
    }
    PlumbYamlChange change = {.from = 0};
    const int key = plumb_yaml_key(&tree, tree.root, "log", strlen("log"));
    if (!plumb_yaml_append_item(&tree, key, "log", lines, count, &change)) {
        status = plumb_error_set(error, PLUMB_UNSUPPORTED, "log",
                                 "the log is not written as lines that begin with a dash; add the "
                                 "entry by hand");
    } else {
        status = plumb_edit_apply(file, &change, holds_entry, entry, "log", error);
        free(change.text.data);
    }
    plumb_yaml_free(&tree);
    return status;
}
