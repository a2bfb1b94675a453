/* SPDX-License-Identifier: MIT */
/* Reads the named set-ups of a lifter file. */
#include "io/lifter_parse.h"

#include "base/words.h"

#include <stdlib.h>
#include <string.h>

/* "setups.NAME", the section of a set-up's keys. */
static void section_of(const char *name, char section[PLUMB_FIELD_SIZE])
{
    PlumbText text = plumb_text_begin(section, PLUMB_FIELD_SIZE);
    plumb_text_string(&text, "setups.");
    plumb_text_string(&text, name);
}

static PlumbStatus check_name(const LifterParse *parse, int key)
{
    const PlumbYamlNode *const it = &parse->tree->node[key];
    const char *what = NULL;
    if (it->length == 0) {
        what = "a set-up needs a name";
    } else if (it->length >= PLUMB_LIFTER_NAME_SIZE) {
        what = "the name of the set-up is too long; up to 95 bytes are allowed";
    }
    for (size_t i = 0; i < it->length; i++) {
        const unsigned char c = (unsigned char)it->text[i];
        if (c < 0x20u || c == 0x7Fu) {
            what = "the name holds a control character; take it out";
        }
    }
    return what == NULL ? PLUMB_OK
                        : plumb_parse_fail(parse, it->start, "setups", it->text, it->text, what);
}

/* The lift comes first, since it decides which keys are allowed. */
static PlumbStatus parse_lift(const LifterParse *parse, int name, const char *section,
                              PlumbLift *lift)
{
    const PlumbYamlTree *const tree = parse->tree;
    const int key = plumb_yaml_key(tree, tree->node[name].value, "lift", 4);
    if (key == PLUMB_YAML_NONE) {
        return plumb_parse_fail(parse, tree->node[name].start, section, NULL, NULL,
                                "the lift is missing; add \"lift: deadlift\", \"lift: squat\" or "
                                "\"lift: bench\"");
    }
    PlumbStatus status = plumb_parse_check_scalar(parse, key, section);
    if (status != PLUMB_OK) {
        return status;
    }
    const PlumbYamlNode *const value = &tree->node[tree->node[key].value];
    if (!plumb_lift_find(value->text, value->length, lift)) {
        PlumbNearest nearest = plumb_nearest_begin(value->text, value->length);
        char what[96];
        PlumbText text = plumb_text_begin(what, sizeof what);
        for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
            plumb_nearest_try(&nearest, plumb_lift_name((PlumbLift)i));
        }
        plumb_text_string(&text, "deadlift, squat or bench is allowed");
        if (plumb_nearest_word(&nearest) != NULL) {
            plumb_text_string(&text, "; did you mean ");
            plumb_text_string(&text, plumb_nearest_word(&nearest));
            plumb_text_string(&text, "?");
        }
        return plumb_parse_fail(parse, value->start, section, "lift", value->text, what);
    }
    return PLUMB_OK;
}

/* Puts "setups.NAME." before the field of an error made by the set-up's own checks. */
static void name_field(const LifterParse *parse, const char *section)
{
    if (parse->error != NULL) {
        char field[PLUMB_FIELD_SIZE];
        PlumbText text = plumb_text_begin(field, sizeof field);
        plumb_text_string(&text, section);
        plumb_text_char(&text, '.');
        plumb_text_string(&text, parse->error->field);
        memcpy(parse->error->field, field, sizeof field);
    }
}

static PlumbStatus parse_note(const LifterParse *parse, int value, const char *section,
                              PlumbFileSetup *setup)
{
    const PlumbYamlNode *const it = &parse->tree->node[value];
    if (it->length >= sizeof setup->note) {
        return plumb_parse_fail(parse, it->start, section, "note", it->text,
                                "too long; up to 511 bytes are allowed");
    }
    for (size_t i = 0; i < it->length; i++) {
        const unsigned char c = (unsigned char)it->text[i];
        if ((c < 0x20u && c != '\n' && c != '\t') || c == 0x7Fu) {
            return plumb_parse_fail(parse, it->start, section, "note", it->text,
                                    "holds a control character; take it out");
        }
    }
    memcpy(setup->note, it->text, it->length + 1);
    return PLUMB_OK;
}

static PlumbStatus parse_key(const LifterParse *parse, int key, const char *section,
                             PlumbFileSetup *setup)
{
    const PlumbYamlNode *const it = &parse->tree->node[key];
    if (strcmp(it->text, "lift") == 0) {
        return PLUMB_OK;
    }
    PlumbStatus status = plumb_parse_check_scalar(parse, key, section);
    if (status != PLUMB_OK) {
        return status;
    }
    if (strcmp(it->text, "note") == 0) {
        return parse_note(parse, it->value, section, setup);
    }
    status = plumb_setup_entry_add(&setup->entry, it->text, parse->tree->node[it->value].text,
                                   parse->error);
    if (status != PLUMB_OK) {
        const PlumbSetting *const known = plumb_setting_find(it->text, it->length);
        name_field(parse, section);
        const bool at_value = known != NULL && known->lifts[setup->lift];
        if (!at_value && parse->error != NULL) {
            parse->error->column = 0;
        }
        plumb_parse_place(parse, at_value ? it->value : key, status);
    }
    return status;
}

/* Settings that collide: the error stands at the field that it names, else at the set-up. */
static PlumbStatus check_closes(const LifterParse *parse, int name, const char *section,
                                const PlumbFileSetup *setup)
{
    PlumbSetup closed;
    const PlumbStatus status = plumb_setup_entry_close(&setup->entry, &closed, parse->error);
    if (status != PLUMB_OK && parse->error != NULL) {
        const PlumbYamlTree *const tree = parse->tree;
        const char *const field = parse->error->field;
        const int key = plumb_yaml_key(tree, tree->node[name].value, field, strlen(field));
        parse->error->column = 0;
        plumb_parse_place(parse, key == PLUMB_YAML_NONE ? name : key, status);
        name_field(parse, section);
    }
    return status;
}

static PlumbStatus parse_setup(const LifterParse *parse, int name, PlumbFileSetup *setup)
{
    const PlumbYamlTree *const tree = parse->tree;
    const PlumbYamlNode *const it = &tree->node[name];
    char section[PLUMB_FIELD_SIZE];
    int column = 0;
    PlumbStatus status = check_name(parse, name);
    if (status != PLUMB_OK) {
        return status;
    }
    section_of(it->text, section);
    status = plumb_parse_check_map(parse, it->value, section);
    if (status == PLUMB_OK) {
        status = parse_lift(parse, name, section, &setup->lift);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    memcpy(setup->name, it->text, it->length + 1);
    plumb_yaml_place(tree->bytes, tree->length, it->start, &setup->line, &column);
    setup->entry =
        plumb_setup_entry(setup->lift, parse->file->record.heel_m, parse->file->record.ball_m);
    for (int i = tree->node[it->value].first; i != PLUMB_YAML_NONE && status == PLUMB_OK;
         i = tree->node[i].next) {
        status = parse_key(parse, i, section, setup);
    }
    return status == PLUMB_OK ? check_closes(parse, name, section, setup) : status;
}

PlumbStatus plumb_parse_setups(const LifterParse *parse, int node)
{
    const PlumbYamlTree *const tree = parse->tree;
    PlumbStatus status = plumb_parse_check_map(parse, node, "setups");
    if (status != PLUMB_OK || plumb_yaml_is_empty(tree, node)) {
        return status;
    }
    size_t count = 0;
    for (int i = tree->node[node].first; i != PLUMB_YAML_NONE; i = tree->node[i].next) {
        count++;
    }
    PlumbLifterFile *const file = parse->file;
    if (count == 0) {
        return PLUMB_OK;
    }
    file->setup = calloc(count, sizeof *file->setup);
    if (file->setup == NULL) {
        return plumb_error_set(parse->error, PLUMB_OUT_OF_MEMORY, "setups",
                               "no memory for the set-ups");
    }
    for (int i = tree->node[node].first; i != PLUMB_YAML_NONE && status == PLUMB_OK;
         i = tree->node[i].next) {
        status = parse_setup(parse, i, &file->setup[file->setup_count]);
        file->setup_count++;
    }
    return status;
}
