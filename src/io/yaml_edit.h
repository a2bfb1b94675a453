/* SPDX-License-Identifier: MIT */
/* Changes to the bytes of a YAML text: which bytes go and which come, and nothing else. */
#ifndef PLUMBAR_IO_YAML_EDIT_H
#define PLUMBAR_IO_YAML_EDIT_H

#include "io/yaml_tree.h"
#include "io/yaml_write.h"

/* bytes[from..to) become text. text.data is heap memory. */
typedef struct PlumbYamlChange {
    size_t from;
    size_t to;
    PlumbBytes text;
} PlumbYamlChange;

/* Gives a scalar another value, in the quotes that it has. parent: the map it stands in. */
PlumbYamlChange plumb_yaml_replace(const PlumbYamlTree *tree, int parent, int value,
                                   const char *text);

/* Adds an entry at the end of the map that is the value of `key` (PLUMB_YAML_NONE: of the root),
 * which may be left out. parent: the map that key stands in. */
PlumbYamlChange plumb_yaml_append(const PlumbYamlTree *tree, int parent, int key,
                                  const PlumbYamlEntry *entry);

/* Adds a map of entries at the end of the list that is the value of `key`, a key of the root;
 * PLUMB_YAML_NONE: the root gets the key `name` with the list. false, *change untouched, where the
 * list is not written as lines that begin with a dash. */
bool plumb_yaml_append_item(const PlumbYamlTree *tree, int key, const char *name,
                            const PlumbYamlEntry *entry, size_t count, PlumbYamlChange *change);

/* Takes the entry of `key` out of `map`: its lines, or within brackets itself and one comma. */
PlumbYamlChange plumb_yaml_remove(const PlumbYamlTree *tree, int map, int key);

#endif
