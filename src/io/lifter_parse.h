/* SPDX-License-Identifier: MIT */
/* From a tree of YAML to a lifter's record and set-ups. */
#ifndef PLUMBAR_IO_LIFTER_PARSE_H
#define PLUMBAR_IO_LIFTER_PARSE_H

#include "io/yaml_tree.h"

#include <plumbar/lifter_file.h>

/* A tree being read into a file; path is the dotted field of the node at hand. */
typedef struct LifterParse {
    const PlumbYamlTree *tree;
    PlumbLifterFile *file;
    PlumbError *error;
} LifterParse;

/* Fills record and setups of the file. Errors have place and dotted field. */
PlumbStatus plumb_parse_lifter(const LifterParse *parse);

/* Fills file->setup from the map at `node`; the record is complete by then. */
PlumbStatus plumb_parse_setups(const LifterParse *parse, int node);

/* Fills file->log from the list at `node`; the set-ups are complete by then. */
PlumbStatus plumb_parse_log(const LifterParse *parse, int node);

/* Fails at byte `offset` of the file with field "section.key" (either may be NULL) and "<quoted>":
 * <what> (quoted may be NULL). */
PlumbStatus plumb_parse_fail(const LifterParse *parse, size_t offset, const char *section,
                             const char *key, const char *quoted, const char *what);

/* Gives an error that a reader of values made its place: `node` is the value it read. */
PlumbStatus plumb_parse_place(const LifterParse *parse, int node, PlumbStatus status);

/* Fails where a map's key stands twice, or is `<<`, or node is neither a map nor left out. */
PlumbStatus plumb_parse_check_map(const LifterParse *parse, int node, const char *section);

/* Whether the value of a key is one text; fails where it is a map or a list. */
PlumbStatus plumb_parse_check_scalar(const LifterParse *parse, int key, const char *section);

/* The node of the value with a dotted path; PLUMB_YAML_NONE where the file has none. */
int plumb_parse_find(const PlumbYamlTree *tree, const char *path);

#endif
