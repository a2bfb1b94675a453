/* SPDX-License-Identifier: MIT */
/* Pieces of YAML as text: values quoted where they must be, and new entries of maps. */
#ifndef PLUMBAR_IO_YAML_WRITE_H
#define PLUMBAR_IO_YAML_WRITE_H

#include "io/yaml_tree.h"

#include <stdbool.h>
#include <stddef.h>

/* Bytes that grow; `failed` once there is no memory, and nothing is added from then on. */
typedef struct PlumbBytes {
    char *data;
    size_t length;
    size_t capacity;
    bool failed;
} PlumbBytes;

void plumb_bytes_add(PlumbBytes *bytes, const char *data, size_t length);
void plumb_bytes_string(PlumbBytes *bytes, const char *string);

/* Adds value as one scalar: in `style` where that can hold it, else in double quotes. flow: within
 * brackets. */
void plumb_yaml_scalar(PlumbBytes *bytes, const char *value, PlumbYamlStyle style, bool flow);

/* A key with a value, or with entries of its own where value is NULL. */
typedef struct PlumbYamlEntry {
    const char *key;
    const char *value;
    const struct PlumbYamlEntry *child;
    size_t child_count;
} PlumbYamlEntry;

/* Adds the lines of an entry, indented, each ended by `eol`. */
void plumb_yaml_block_entry(PlumbBytes *bytes, const PlumbYamlEntry *entry, size_t indent,
                            const char *eol);
/* Adds "key: value" or "key: {..}" for use within brackets, words in `style`. */
void plumb_yaml_flow_entry(PlumbBytes *bytes, const PlumbYamlEntry *entry, PlumbYamlStyle style);

#endif
