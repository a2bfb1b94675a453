/* SPDX-License-Identifier: MIT */
/* Changes of a lifter file: the text is changed first, then read again as if it came from disk. */
#include "io/lifter_edit.h"

#include "io/lifter_parse.h"
#include "io/record_fields.h"

#include <stdlib.h>
#include <string.h>

enum { PATH_MAX_PARTS = 3, VALUE_SIZE = 64 };

/* Where a value stands: "measures", "thigh". */
typedef struct Path {
    const char *part[PATH_MAX_PARTS];
    size_t length[PATH_MAX_PARTS];
    int count;
} Path;

static void add_part(Path *path, const char *part, size_t length)
{
    path->part[path->count] = part;
    path->length[path->count] = length;
    path->count++;
}

/* The path of a section, which may have two parts ("equipment.bar"). */
static Path path_of_section(const char *section)
{
    Path path = {.count = 0};
    const char *const dot = strchr(section, '.');
    add_part(&path, section, dot == NULL ? strlen(section) : (size_t)(dot - section));
    if (dot != NULL) {
        add_part(&path, dot + 1, strlen(dot + 1));
    }
    return path;
}

static Path path_of_setup(const char *name)
{
    Path path = {.count = 0};
    add_part(&path, "setups", strlen("setups"));
    add_part(&path, name, strlen(name));
    return path;
}

/* How far a path exists in the tree. */
typedef struct Found {
    int depth;  /* parts that exist */
    int parent; /* the map that holds `key` */
    int key;    /* the last part that exists; PLUMB_YAML_NONE where none does */
} Found;

static Found find(const PlumbYamlTree *tree, const Path *path)
{
    Found found = {.depth = 0, .parent = PLUMB_YAML_NONE, .key = PLUMB_YAML_NONE};
    int map = tree->root;
    while (found.depth < path->count) {
        const int key =
            plumb_yaml_key(tree, map, path->part[found.depth], path->length[found.depth]);
        if (key == PLUMB_YAML_NONE) {
            break;
        }
        found.parent = map;
        found.key = key;
        found.depth++;
        map = tree->node[key].value;
    }
    return found;
}

static PlumbStatus fail(PlumbError *error, PlumbStatus status, const char *field,
                        const char *message)
{
    return plumb_error_set(error, status, field, message);
}

/* Whether the path's end now holds the leaf. */
static bool holds(const PlumbLifterFile *file, const Path *path, const PlumbYamlEntry *leaf)
{
    PlumbYamlTree tree;
    if (plumb_yaml_parse(file->bytes, file->length, &tree, NULL) != PLUMB_OK) {
        return false;
    }
    const Found found = find(&tree, path);
    bool held = found.depth == path->count;
    if (held) {
        const int map = tree.node[found.key].value;
        const int key = plumb_yaml_key(&tree, map, leaf->key, strlen(leaf->key));
        held = key != PLUMB_YAML_NONE &&
               (leaf->value == NULL ||
                (tree.node[tree.node[key].value].text != NULL &&
                 strcmp(tree.node[tree.node[key].value].text, leaf->value) == 0));
    }
    plumb_yaml_free(&tree);
    return held;
}

/* What a changed file must hold. */
typedef struct Wanted {
    const Path *path;
    const PlumbYamlEntry *leaf;
} Wanted;

static bool holds_wanted(const PlumbLifterFile *next, const void *user)
{
    const Wanted *const wanted = user;
    return holds(next, wanted->path, wanted->leaf);
}

PlumbStatus plumb_edit_apply(PlumbLifterFile *file, const PlumbYamlChange *change,
                             PlumbEditCheck check, const void *user, const char *field,
                             PlumbError *error)
{
    PlumbBytes text = {.failed = change->text.failed};
    plumb_bytes_add(&text, file->bytes, change->from);
    plumb_bytes_add(&text, change->text.data, change->text.length);
    plumb_bytes_add(&text, file->bytes + change->to, file->length - change->to);
    if (text.failed || text.data == NULL) {
        free(text.data);
        return fail(error, PLUMB_OUT_OF_MEMORY, "file", "no memory to change the file");
    }
    PlumbLifterFile *next = NULL;
    PlumbStatus status = plumb_lifter_file_parse(text.data, text.length, file->path, &next, error);
    if (status == PLUMB_OK && check != NULL && !check(next, user)) {
        plumb_lifter_file_free(next);
        status = fail(error, PLUMB_UNSUPPORTED, field,
                      "the way the file is written does not allow this change; make it by hand");
    } else if (status == PLUMB_OK) {
        const bool same =
            next->length == file->length && memcmp(next->bytes, file->bytes, file->length) == 0;
        next->changed = file->changed || !same;
        const PlumbLifterFile old = *file;
        *file = *next;
        *next = old;
        plumb_lifter_file_free(next);
    } else if (error != NULL) {
        /* The place would be one in a text that nobody has seen. */
        error->line = 0;
        error->column = 0;
    }
    free(text.data);
    return status;
}

/* The change that makes the path's end hold `leaf`: missing maps on the way are made. */
static PlumbYamlChange change_for(const PlumbYamlTree *tree, const Path *path,
                                  const PlumbYamlEntry *leaf)
{
    const Found found = find(tree, path);
    if (found.depth == path->count) {
        const int map = tree->node[found.key].value;
        const int key = plumb_yaml_key(tree, map, leaf->key, strlen(leaf->key));
        if (key != PLUMB_YAML_NONE && leaf->value != NULL) {
            return plumb_yaml_replace(tree, map, tree->node[key].value, leaf->value);
        }
        return plumb_yaml_append(tree, found.parent, found.key, leaf);
    }
    PlumbYamlEntry wrap[PATH_MAX_PARTS];
    char name[PATH_MAX_PARTS][PLUMB_LIFTER_NAME_SIZE];
    const PlumbYamlEntry *inner = leaf;
    for (int i = path->count - 1; i >= found.depth; i--) {
        PlumbText text = plumb_text_begin(name[i], sizeof name[i]);
        plumb_text_bytes(&text, path->part[i], path->length[i]);
        wrap[i] = (PlumbYamlEntry){.key = name[i], .child = inner, .child_count = 1};
        inner = &wrap[i];
    }
    return plumb_yaml_append(tree, found.parent, found.key, inner);
}

static PlumbStatus put(PlumbLifterFile *file, const Path *path, const PlumbYamlEntry *leaf,
                       PlumbError *error)
{
    PlumbYamlTree tree;
    PlumbStatus status = plumb_yaml_parse(file->bytes, file->length, &tree, error);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbYamlChange change = change_for(&tree, path, leaf);
    plumb_yaml_free(&tree);
    const Wanted wanted = {path, leaf};
    status = plumb_edit_apply(file, &change, holds_wanted, &wanted, leaf->key, error);
    free(change.text.data);
    return status;
}

PlumbStatus plumb_lifter_file_set(PlumbLifterFile *file, const char *section, const char *key,
                                  const char *value, PlumbError *error)
{
    const FieldRow *const row = plumb_field_in(section, key, strlen(key));
    PlumbLifterRecord trial = file->record;
    if (row == NULL) {
        return fail(error, PLUMB_BAD_INPUT, key, "not a key of this section of a lifter file");
    }
    const PlumbStatus status = plumb_field_set(&trial, row, value, error);
    if (status != PLUMB_OK) {
        return status;
    }
    const Path path = path_of_section(section);
    const PlumbYamlEntry leaf = {.key = key, .value = value};
    return put(file, &path, &leaf, error);
}

PlumbStatus plumb_lifter_file_set_setup(PlumbLifterFile *file, const char *setup_name,
                                        const char *key, const char *value, PlumbError *error)
{
    if (plumb_lifter_file_setup(file, setup_name, error) == NULL) {
        return PLUMB_BAD_INPUT;
    }
    if (value[0] == '\0') {
        return fail(error, PLUMB_BAD_INPUT, key, "there is no value");
    }
    const Path path = path_of_setup(setup_name);
    const PlumbYamlEntry leaf = {.key = key, .value = value};
    return put(file, &path, &leaf, error);
}

/* Takes a key out of the map at the path's end, where both are there. */
static PlumbStatus take_out(PlumbLifterFile *file, const Path *path, const char *key,
                            PlumbError *error)
{
    PlumbYamlTree tree;
    PlumbStatus status = plumb_yaml_parse(file->bytes, file->length, &tree, error);
    if (status != PLUMB_OK) {
        return status;
    }
    const Found found = find(&tree, path);
    const int map = found.depth == path->count ? tree.node[found.key].value : PLUMB_YAML_NONE;
    const int at =
        map == PLUMB_YAML_NONE ? PLUMB_YAML_NONE : plumb_yaml_key(&tree, map, key, strlen(key));
    if (at != PLUMB_YAML_NONE) {
        const PlumbYamlChange change = plumb_yaml_remove(&tree, map, at);
        status = plumb_edit_apply(file, &change, NULL, NULL, key, error);
    }
    plumb_yaml_free(&tree);
    return status;
}

PlumbStatus plumb_lifter_file_unset(PlumbLifterFile *file, const char *section, const char *key,
                                    PlumbError *error)
{
    if (plumb_field_in(section, key, strlen(key)) == NULL) {
        return fail(error, PLUMB_BAD_INPUT, key, "not a key of this section of a lifter file");
    }
    const Path path = path_of_section(section);
    return take_out(file, &path, key, error);
}

PlumbStatus plumb_lifter_file_unset_setup(PlumbLifterFile *file, const char *setup_name,
                                          const char *key, PlumbError *error)
{
    if (plumb_lifter_file_setup(file, setup_name, error) == NULL) {
        return PLUMB_BAD_INPUT;
    }
    const Path path = path_of_setup(setup_name);
    return take_out(file, &path, key, error);
}

static PlumbStatus check_new_name(const PlumbLifterFile *file, const char *name, PlumbError *error)
{
    if (name[0] == '\0' || strlen(name) >= PLUMB_LIFTER_NAME_SIZE) {
        return fail(error, PLUMB_BAD_INPUT, "setups", "a name of 1 to 95 bytes is needed");
    }
    for (const char *c = name; *c != '\0'; c++) {
        if ((unsigned char)*c < 0x20u || *c == 0x7F) {
            return fail(error, PLUMB_BAD_INPUT, "setups", "the name holds a control character");
        }
    }
    if (plumb_lifter_file_setup(file, name, NULL) != NULL) {
        return fail(error, PLUMB_BAD_INPUT, "setups",
                    "the file has a set-up of this name; choose another");
    }
    return PLUMB_OK;
}

PlumbStatus plumb_lifter_file_add_setup(PlumbLifterFile *file, const char *name,
                                        const PlumbSetup *setup, PlumbError *error)
{
    PlumbStatus status = check_new_name(file, name, error);
    if (status == PLUMB_OK) {
        status = plumb_setup_check(setup, error);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    char value[PLUMB_SETTING_COUNT][VALUE_SIZE];
    PlumbYamlEntry lines[PLUMB_SETTING_COUNT + 1];
    size_t count = 0;
    lines[count++] = (PlumbYamlEntry){.key = "lift", .value = plumb_lift_name(setup->lift)};
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSettingId id = (PlumbSettingId)i;
        PlumbText text = plumb_text_begin(value[i], VALUE_SIZE);
        if (plumb_setting_text(setup, id, file->record.heel_m, file->record.ball_m, &text)) {
            lines[count++] = (PlumbYamlEntry){.key = plumb_setting(id)->key, .value = value[i]};
        }
    }
    const PlumbYamlEntry entry = {.key = name, .child = lines, .child_count = count};
    const Path path = path_of_section("setups");
    return put(file, &path, &entry, error);
}
