/* SPDX-License-Identifier: MIT */
/* Reads the sections of a lifter file, and says where what is wrong stands. */
#include "io/lifter_parse.h"

#include "base/words.h"
#include "io/record_fields.h"

#include <string.h>

/* The sections that hold values, and the two levels above a bar and its discs. */
static const char *const sections[] = {"lifter",   "measures",  "shoes",  "limits",
                                       "strength", "equipment", "setups", "log"};
static const char *const gear[] = {"bar", "discs"};

static void put_place(const LifterParse *parse, size_t offset)
{
    if (parse->error != NULL) {
        plumb_yaml_place(parse->tree->bytes, parse->tree->length, offset, &parse->error->line,
                         &parse->error->column);
    }
}

PlumbStatus plumb_parse_fail(const LifterParse *parse, size_t offset, const char *section,
                             const char *key, const char *quoted, const char *what)
{
    char field[PLUMB_FIELD_SIZE];
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText name = plumb_text_begin(field, sizeof field);
    PlumbText text = plumb_text_begin(message, sizeof message);
    if (section != NULL) {
        plumb_text_string(&name, section);
        plumb_text_string(&name, key != NULL ? "." : "");
    }
    plumb_text_string(&name, key != NULL ? key : "");
    if (quoted != NULL) {
        plumb_text_quoted(&text, quoted, strlen(quoted));
        plumb_text_string(&text, ": ");
    }
    plumb_text_string(&text, what);
    plumb_error_set(parse->error, PLUMB_BAD_INPUT, field, message);
    put_place(parse, offset);
    return PLUMB_BAD_INPUT;
}

PlumbStatus plumb_parse_place(const LifterParse *parse, int node, PlumbStatus status)
{
    if (status == PLUMB_OK || parse->error == NULL) {
        return status;
    }
    const PlumbYamlNode *const it = &parse->tree->node[node];
    const int within = parse->error->column;
    const size_t quote = it->style == PLUMB_YAML_PLAIN ? 0 : 1;
    put_place(parse, it->start);
    /* The column within the value holds only where the file has the value letter for letter. */
    if (within > 1 && it->end - it->start == it->length + 2 * quote &&
        memcmp(parse->tree->bytes + it->start + quote, it->text, it->length) == 0) {
        parse->error->column += within - 1 + (int)quote;
    }
    return status;
}

PlumbStatus plumb_parse_check_map(const LifterParse *parse, int node, const char *section)
{
    const PlumbYamlTree *const tree = parse->tree;
    if (node == PLUMB_YAML_NONE || plumb_yaml_is_empty(tree, node)) {
        return PLUMB_OK;
    }
    if (tree->node[node].kind != PLUMB_YAML_MAP) {
        return plumb_parse_fail(parse, tree->node[node].start, section, NULL, NULL,
                                "\"key: value\" lines are allowed here, indented under the name");
    }
    for (int i = tree->node[node].first; i != PLUMB_YAML_NONE; i = tree->node[i].next) {
        const PlumbYamlNode *const key = &tree->node[i];
        if (plumb_yaml_key(tree, node, key->text, key->length) != i) {
            return plumb_parse_fail(parse, key->start, section, key->text, NULL,
                                    "stands twice; keep one of the two lines");
        }
    }
    return PLUMB_OK;
}

PlumbStatus plumb_parse_check_scalar(const LifterParse *parse, int key, const char *section)
{
    const PlumbYamlNode *const it = &parse->tree->node[key];
    const PlumbYamlNode *const value = &parse->tree->node[it->value];
    if (value->kind != PLUMB_YAML_SCALAR) {
        return plumb_parse_fail(parse, value->start, section, it->text, NULL,
                                value->kind == PLUMB_YAML_LIST
                                    ? "a list stands here; one value is allowed"
                                    : "a section stands here; one value is allowed");
    }
    if (plumb_yaml_is_empty(parse->tree, it->value)) {
        return plumb_parse_fail(parse, it->start, section, it->text, NULL,
                                "has no value; write one behind the colon, or take the line out");
    }
    return PLUMB_OK;
}

/* A key that the section does not know. */
static PlumbStatus refuse_key(const LifterParse *parse, const char *section, int key,
                              const char *nearest)
{
    const PlumbYamlNode *const it = &parse->tree->node[key];
    char what[160];
    PlumbText text = plumb_text_begin(what, sizeof what);
    if (section == NULL) {
        plumb_text_string(&text, "not a section; ");
        for (size_t i = 0; nearest == NULL && i < sizeof sections / sizeof sections[0]; i++) {
            plumb_text_string(&text, i == 0 ? "" : ", ");
            plumb_text_string(&text, sections[i]);
        }
        plumb_text_string(&text, nearest == NULL ? " are allowed" : "");
    } else {
        plumb_text_string(&text, "not a key of ");
        plumb_text_string(&text, section);
        plumb_text_string(&text, nearest != NULL ? "; " : "");
    }
    if (nearest != NULL) {
        plumb_text_string(&text, "did you mean ");
        plumb_text_string(&text, nearest);
        plumb_text_string(&text, "?");
    }
    return plumb_parse_fail(parse, it->start, section, it->text, it->text, what);
}

static PlumbStatus parse_field(const LifterParse *parse, int key, const char *section,
                               PlumbLifterRecord *record)
{
    const PlumbYamlNode *const it = &parse->tree->node[key];
    const FieldRow *const row = plumb_field_in(section, it->text, it->length);
    if (row == NULL) {
        return refuse_key(parse, section, key, plumb_field_nearest(section, it->text, it->length));
    }
    PlumbStatus status = plumb_parse_check_scalar(parse, key, section);
    if (status == PLUMB_OK) {
        const char *const value = parse->tree->node[it->value].text;
        status = plumb_field_set(record, row, value, parse->error);
        status = plumb_parse_place(parse, it->value, status);
    }
    return status;
}

/* All keys of a section of values. `all` of the strengths counts first wherever it stands, so that
 * a single joint beside it keeps its own. */
static PlumbStatus parse_section(const LifterParse *parse, int node, const char *section)
{
    const PlumbYamlTree *const tree = parse->tree;
    PlumbLifterRecord *const record = &parse->file->record;
    PlumbStatus status = plumb_parse_check_map(parse, node, section);
    if (status != PLUMB_OK || plumb_yaml_is_empty(tree, node)) {
        return status;
    }
    const int all =
        strcmp(section, "strength") == 0 ? plumb_yaml_key(tree, node, "all", 3) : PLUMB_YAML_NONE;
    if (all != PLUMB_YAML_NONE) {
        status = parse_field(parse, all, section, record);
    }
    for (int i = tree->node[node].first; i != PLUMB_YAML_NONE && status == PLUMB_OK;
         i = tree->node[i].next) {
        if (strcmp(section, "strength") == 0 && strcmp(tree->node[i].text, "best") == 0) {
            status = parse_section(parse, tree->node[i].value, "strength.best");
        } else if (i != all) {
            status = parse_field(parse, i, section, record);
        }
    }
    return status;
}

static PlumbStatus parse_equipment(const LifterParse *parse, int node)
{
    const PlumbYamlTree *const tree = parse->tree;
    PlumbStatus status = plumb_parse_check_map(parse, node, "equipment");
    if (status != PLUMB_OK || plumb_yaml_is_empty(tree, node)) {
        return status;
    }
    for (int i = tree->node[node].first; i != PLUMB_YAML_NONE && status == PLUMB_OK;
         i = tree->node[i].next) {
        const PlumbYamlNode *const key = &tree->node[i];
        if (strcmp(key->text, gear[0]) == 0) {
            status = parse_section(parse, key->value, "equipment.bar");
        } else if (strcmp(key->text, gear[1]) == 0) {
            status = parse_section(parse, key->value, "equipment.discs");
        } else {
            PlumbNearest nearest = plumb_nearest_begin(key->text, key->length);
            plumb_nearest_try(&nearest, gear[0]);
            plumb_nearest_try(&nearest, gear[1]);
            status = refuse_key(parse, "equipment", i, plumb_nearest_word(&nearest));
        }
    }
    return status;
}

/* One top-level key; setups and log come later, when the lifter is known. */
static PlumbStatus parse_top(const LifterParse *parse, int key, int *setups, int *log)
{
    const PlumbYamlNode *const it = &parse->tree->node[key];
    PlumbNearest nearest = plumb_nearest_begin(it->text, it->length);
    if (strcmp(it->text, "setups") == 0) {
        *setups = it->value;
        return PLUMB_OK;
    }
    if (strcmp(it->text, "log") == 0) {
        *log = it->value;
        return PLUMB_OK;
    }
    if (strcmp(it->text, "equipment") == 0) {
        return parse_equipment(parse, it->value);
    }
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++) {
        if (strcmp(it->text, sections[i]) == 0) {
            return parse_section(parse, it->value, sections[i]);
        }
        plumb_nearest_try(&nearest, sections[i]);
    }
    return refuse_key(parse, NULL, key, plumb_nearest_word(&nearest));
}

int plumb_parse_find(const PlumbYamlTree *tree, const char *path)
{
    int node = tree->root;
    const char *rest = path;
    while (*rest != '\0') {
        int key = PLUMB_YAML_NONE;
        size_t taken = 0;
        /* Names of set-ups may hold dots: the longest start that is a key is taken. */
        for (size_t length = strlen(rest); length > 0 && key == PLUMB_YAML_NONE; length--) {
            if (rest[length] == '\0' || rest[length] == '.') {
                key = plumb_yaml_key(tree, node, rest, length);
                taken = length;
            }
        }
        if (key == PLUMB_YAML_NONE) {
            return PLUMB_YAML_NONE;
        }
        node = tree->node[key].value;
        rest += taken;
        rest += *rest == '.' ? 1 : 0;
    }
    return node;
}

/* Builds the lifter once, to see that it can be; errors get the place of their field. */
static PlumbStatus check_lifter(const LifterParse *parse)
{
    PlumbLifter lifter;
    const PlumbStatus status =
        plumb_lifter_record_lifter(&parse->file->record, &lifter, parse->error);
    if (status == PLUMB_OK || parse->error == NULL) {
        return status;
    }
    const int node = plumb_parse_find(parse->tree, parse->error->field);
    const int lifter_key = plumb_yaml_key(parse->tree, parse->tree->root, "lifter", 6);
    if (strcmp(parse->error->field, "lifter") == 0 && lifter_key != PLUMB_YAML_NONE) {
        put_place(parse, parse->tree->node[lifter_key].start);
    } else if (node != PLUMB_YAML_NONE) {
        put_place(parse, parse->tree->node[node].start);
    } else {
        put_place(parse, 0);
    }
    return status;
}

PlumbStatus plumb_parse_lifter(const LifterParse *parse)
{
    const PlumbYamlTree *const tree = parse->tree;
    if (tree->root == PLUMB_YAML_NONE || plumb_yaml_is_empty(tree, tree->root)) {
        return plumb_parse_fail(parse, 0, NULL, "file", NULL,
                                "empty; a lifter file starts with \"lifter:\" and has sex, stature "
                                "and mass below it");
    }
    PlumbStatus status = plumb_parse_check_map(parse, tree->root, NULL);
    int setups = PLUMB_YAML_NONE;
    int log = PLUMB_YAML_NONE;
    for (int i = status == PLUMB_OK ? tree->node[tree->root].first : PLUMB_YAML_NONE;
         i != PLUMB_YAML_NONE && status == PLUMB_OK; i = tree->node[i].next) {
        status = parse_top(parse, i, &setups, &log);
    }
    if (status == PLUMB_OK) {
        status = check_lifter(parse);
    }
    if (status == PLUMB_OK && setups != PLUMB_YAML_NONE) {
        status = plumb_parse_setups(parse, setups);
    }
    if (status == PLUMB_OK && log != PLUMB_YAML_NONE) {
        status = plumb_parse_log(parse, log);
    }
    return status;
}
