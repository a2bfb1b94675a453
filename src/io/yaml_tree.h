/* SPDX-License-Identifier: MIT */
/* The strict part of YAML that lifter files use, as a tree whose nodes know their bytes. */
#ifndef PLUMBAR_IO_YAML_TREE_H
#define PLUMBAR_IO_YAML_TREE_H

#include <plumbar/status.h>

#include <stdbool.h>
#include <stddef.h>

typedef enum PlumbYamlKind { PLUMB_YAML_SCALAR, PLUMB_YAML_MAP, PLUMB_YAML_LIST } PlumbYamlKind;

typedef enum PlumbYamlStyle {
    PLUMB_YAML_PLAIN,
    PLUMB_YAML_SINGLE, /* 'quoted' */
    PLUMB_YAML_DOUBLE, /* "quoted" */
    PLUMB_YAML_BLOCK   /* | or > */
} PlumbYamlStyle;

enum { PLUMB_YAML_NONE = -1, PLUMB_YAML_DEPTH_MAX = 16, PLUMB_YAML_NODES_MAX = 10000 };

/* Nodes name each other by index. The children of a map are its keys, chained by next; each key
 * has a value. The children of a list are chained alike. */
typedef struct PlumbYamlNode {
    PlumbYamlKind kind;
    PlumbYamlStyle style;
    bool flow;    /* a map or list in brackets */
    size_t start; /* bytes of the file, quotes and brackets included; a block's end is that of */
    size_t end;   /* its last value */
    char *text;   /* scalars: the value, with a NUL after length bytes */
    size_t length;
    int first;
    int next;
    int value;
} PlumbYamlNode;

typedef struct PlumbYamlTree {
    const char *bytes; /* the caller's */
    size_t length;
    PlumbYamlNode *node;
    int count;
    int capacity;
    int root; /* PLUMB_YAML_NONE for a file without content */
} PlumbYamlTree;

/* Reads bytes[length]. Refuses, with the place: what is not UTF-8 text, a second document,
 * anchors, aliases, tags, keys that are not plain words, and nesting beyond
 * PLUMB_YAML_DEPTH_MAX. Fill with plumb_yaml_free. */
PlumbStatus plumb_yaml_parse(const char *bytes, size_t length, PlumbYamlTree *tree,
                             PlumbError *error);
void plumb_yaml_free(PlumbYamlTree *tree);

/* The index of the key key[length] in a map; PLUMB_YAML_NONE where it has none or is no map. */
int plumb_yaml_key(const PlumbYamlTree *tree, int map, const char *key, size_t length);

/* Whether a node is a value left out, as after "measures:". */
bool plumb_yaml_is_empty(const PlumbYamlTree *tree, int node);

/* Line and column of a byte, counted from 1; a column is a character. */
void plumb_yaml_place(const char *bytes, size_t length, size_t offset, int *line, int *column);

#endif
