/* SPDX-License-Identifier: MIT */
/* Builds the tree from libyaml's events. */
#include "io/yaml_tree.h"

#include "io/utf8.h"

#include <plumbar/format.h>

#include <stdlib.h>
#include <string.h>
#include <yaml.h>

/* A reading under way. libyaml's marks count characters; `index` and `offset` are the same place in
 * characters and bytes, moved along so that no file is walked twice. */
typedef struct Builder {
    PlumbYamlTree *tree;
    PlumbError *error;
    yaml_parser_t parser;
    yaml_event_t event;
    bool has_event;
    size_t index;
    size_t offset;
    size_t begin; /* after a byte order mark */
} Builder;

void plumb_yaml_place(const char *bytes, size_t length, size_t offset, int *line, int *column)
{
    const size_t begin = plumb_utf8_mark_length(bytes, length);
    int lines = 1;
    int columns = 1;
    for (size_t i = begin; i < offset && i < length; i++) {
        const bool lone_return = bytes[i] == '\r' && (i + 1 >= length || bytes[i + 1] != '\n');
        if (bytes[i] == '\n' || lone_return) {
            lines++;
            columns = 1;
        } else if (((unsigned char)bytes[i] & 0xC0u) != 0x80u) {
            columns++;
        }
    }
    *line = lines;
    *column = columns;
}

static PlumbStatus fail(const Builder *builder, size_t offset, const char *message)
{
    const PlumbYamlTree *const tree = builder->tree;
    plumb_error_set(builder->error, PLUMB_BAD_INPUT, "file", message);
    if (builder->error != NULL) {
        plumb_yaml_place(tree->bytes, tree->length, offset, &builder->error->line,
                         &builder->error->column);
    }
    return PLUMB_BAD_INPUT;
}

static size_t offset_of(Builder *builder, size_t index)
{
    const char *const bytes = builder->tree->bytes;
    const size_t length = builder->tree->length;
    while (builder->index < index && builder->offset < length) {
        builder->offset++;
        while (builder->offset < length &&
               ((unsigned char)bytes[builder->offset] & 0xC0u) == 0x80u) {
            builder->offset++;
        }
        builder->index++;
    }
    while (builder->index > index && builder->offset > builder->begin) {
        builder->offset--;
        while (builder->offset > builder->begin &&
               ((unsigned char)bytes[builder->offset] & 0xC0u) == 0x80u) {
            builder->offset--;
        }
        builder->index--;
    }
    return builder->offset;
}

/* What libyaml could not read, at its place. */
static PlumbStatus fail_syntax(Builder *builder)
{
    const yaml_parser_t *const parser = &builder->parser;
    if (parser->error == YAML_MEMORY_ERROR) {
        return plumb_error_set(builder->error, PLUMB_OUT_OF_MEMORY, "file",
                               "no memory to read the file");
    }
    size_t offset = builder->begin + parser->problem_offset;
    if (parser->error != YAML_READER_ERROR) {
        offset = offset_of(builder, parser->problem_mark.index);
    }
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    if (offset < builder->tree->length && builder->tree->bytes[offset] == '\t') {
        plumb_text_string(&text, "a tab stands where only spaces may; indent with spaces");
    } else {
        plumb_text_string(&text, "not readable as YAML: ");
        plumb_text_string(&text, parser->problem != NULL ? parser->problem : "unknown problem");
        plumb_text_string(&text, "; write \"key: value\" lines, indented alike within a section");
    }
    return fail(builder, offset, message);
}

static void drop_event(Builder *builder)
{
    if (builder->has_event) {
        yaml_event_delete(&builder->event);
        builder->has_event = false;
    }
}

static PlumbStatus next_event(Builder *builder)
{
    drop_event(builder);
    if (yaml_parser_parse(&builder->parser, &builder->event) == 0) {
        return fail_syntax(builder);
    }
    builder->has_event = true;
    return PLUMB_OK;
}

static PlumbStatus add_node(Builder *builder, PlumbYamlNode node, int *index)
{
    PlumbYamlTree *const tree = builder->tree;
    if (tree->count == PLUMB_YAML_NODES_MAX) {
        return fail(builder, node.start, "more than 10000 keys and values; no lifter needs these");
    }
    if (tree->count == tree->capacity) {
        const int capacity = tree->capacity == 0 ? 64 : tree->capacity * 2;
        PlumbYamlNode *const more = realloc(tree->node, (size_t)capacity * sizeof *more);
        if (more == NULL) {
            return plumb_error_set(builder->error, PLUMB_OUT_OF_MEMORY, "file",
                                   "no memory to read the file");
        }
        tree->node = more;
        tree->capacity = capacity;
    }
    tree->node[tree->count] = node;
    *index = tree->count++;
    return PLUMB_OK;
}

static PlumbYamlStyle style_of(yaml_scalar_style_t style)
{
    switch (style) {
    case YAML_SINGLE_QUOTED_SCALAR_STYLE:
        return PLUMB_YAML_SINGLE;
    case YAML_DOUBLE_QUOTED_SCALAR_STYLE:
        return PLUMB_YAML_DOUBLE;
    case YAML_LITERAL_SCALAR_STYLE:
    case YAML_FOLDED_SCALAR_STYLE:
        return PLUMB_YAML_BLOCK;
    case YAML_ANY_SCALAR_STYLE:
    case YAML_PLAIN_SCALAR_STYLE:
        break;
    }
    return PLUMB_YAML_PLAIN;
}

static PlumbYamlNode node_at(Builder *builder)
{
    const yaml_event_t *const event = &builder->event;
    const size_t start = offset_of(builder, event->start_mark.index);
    return (PlumbYamlNode){.start = start,
                           .end = offset_of(builder, event->end_mark.index),
                           .first = PLUMB_YAML_NONE,
                           .next = PLUMB_YAML_NONE,
                           .value = PLUMB_YAML_NONE};
}

static PlumbStatus build_scalar(Builder *builder, int *index)
{
    PlumbYamlNode node = node_at(builder);
    const size_t length = builder->event.data.scalar.length;
    node.kind = PLUMB_YAML_SCALAR;
    node.style = style_of(builder->event.data.scalar.style);
    if (memchr(builder->event.data.scalar.value, '\0', length) != NULL) {
        return fail(builder, node.start, "the value holds a NUL character; take it out");
    }
    node.text = malloc(length + 1);
    if (node.text == NULL) {
        return plumb_error_set(builder->error, PLUMB_OUT_OF_MEMORY, "file",
                               "no memory to read the file");
    }
    memcpy(node.text, builder->event.data.scalar.value, length);
    node.text[length] = '\0';
    node.length = length;
    const PlumbStatus status = add_node(builder, node, index);
    if (status != PLUMB_OK) {
        free(node.text);
    }
    /* The tree owns the text now. NOLINTNEXTLINE(clang-analyzer-unix.Malloc) */
    return status;
}

/* Anchors, aliases and tags make a file that says less than it looks. */
static PlumbStatus refuse_extras(Builder *builder)
{
    const yaml_event_t *const event = &builder->event;
    const void *anchor = NULL;
    const void *tag = NULL;
    const size_t at = offset_of(builder, event->start_mark.index);
    if (event->type == YAML_ALIAS_EVENT) {
        return fail(builder, at, "aliases (*name) are not read; write the value out");
    }
    if (event->type == YAML_SCALAR_EVENT) {
        anchor = event->data.scalar.anchor;
        tag = event->data.scalar.tag;
    } else if (event->type == YAML_MAPPING_START_EVENT) {
        anchor = event->data.mapping_start.anchor;
        tag = event->data.mapping_start.tag;
    } else if (event->type == YAML_SEQUENCE_START_EVENT) {
        anchor = event->data.sequence_start.anchor;
        tag = event->data.sequence_start.tag;
    }
    if (anchor != NULL) {
        return fail(builder, at, "anchors (&name) are not read; take the & word out");
    }
    if (tag != NULL) {
        return fail(builder, at, "tags (!name) are not read; take the ! word out");
    }
    return PLUMB_OK;
}

static PlumbStatus build_node(Builder *builder, int depth, int *index);

/* Builds the child at the current event and chains it behind *last within parent. */
static PlumbStatus build_child(Builder *builder, int depth, int parent, int *last)
{
    int child = PLUMB_YAML_NONE;
    const PlumbStatus status = build_node(builder, depth, &child);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbYamlNode *const node = builder->tree->node;
    if (*last == PLUMB_YAML_NONE) {
        node[parent].first = child;
    } else {
        node[*last].next = child;
    }
    *last = child;
    return PLUMB_OK;
}

/* A key and its value. */
static PlumbStatus build_entry(Builder *builder, int depth, int map, int *last)
{
    const size_t at = offset_of(builder, builder->event.start_mark.index);
    if (builder->event.type != YAML_SCALAR_EVENT && builder->event.type != YAML_ALIAS_EVENT) {
        return fail(builder, at, "a key must be a word");
    }
    PlumbStatus status = build_child(builder, depth, map, last);
    if (status == PLUMB_OK) {
        status = next_event(builder);
    }
    int value = PLUMB_YAML_NONE;
    if (status == PLUMB_OK) {
        status = build_node(builder, depth, &value);
    }
    if (status == PLUMB_OK) {
        builder->tree->node[*last].value = value;
    }
    return status;
}

/* A block's end event stands where the next thing begins; its last value is where it ends. */
static size_t end_of_block(const PlumbYamlTree *tree, int index, int last, size_t end)
{
    if (tree->node[index].flow || last == PLUMB_YAML_NONE) {
        return end;
    }
    const int value = tree->node[last].value;
    return tree->node[value == PLUMB_YAML_NONE ? last : value].end;
}

/* A map or a list, from its start event to its end event. */
static PlumbStatus build_collection(Builder *builder, int depth, int *index)
{
    const bool map = builder->event.type == YAML_MAPPING_START_EVENT;
    PlumbYamlNode node = node_at(builder);
    node.kind = map ? PLUMB_YAML_MAP : PLUMB_YAML_LIST;
    node.flow = map ? builder->event.data.mapping_start.style == YAML_FLOW_MAPPING_STYLE
                    : builder->event.data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE;
    if (depth == PLUMB_YAML_DEPTH_MAX) {
        return fail(builder, node.start, "nested too deeply; a lifter file has four levels");
    }
    int self = PLUMB_YAML_NONE;
    int last = PLUMB_YAML_NONE;
    PlumbStatus status = add_node(builder, node, &self);
    while (status == PLUMB_OK) {
        status = next_event(builder);
        if (status != PLUMB_OK || builder->event.type == YAML_MAPPING_END_EVENT ||
            builder->event.type == YAML_SEQUENCE_END_EVENT) {
            break;
        }
        status = map ? build_entry(builder, depth + 1, self, &last)
                     : build_child(builder, depth + 1, self, &last);
    }
    if (status == PLUMB_OK) {
        const size_t end = offset_of(builder, builder->event.end_mark.index);
        builder->tree->node[self].end = end_of_block(builder->tree, self, last, end);
        *index = self;
    }
    return status;
}

static PlumbStatus build_node(Builder *builder, int depth, int *index)
{
    const PlumbStatus status = refuse_extras(builder);
    if (status != PLUMB_OK) {
        return status;
    }
    if (builder->event.type == YAML_SCALAR_EVENT) {
        return build_scalar(builder, index);
    }
    return build_collection(builder, depth, index);
}

/* The first document, and that nothing comes after it. */
static PlumbStatus build_document(Builder *builder)
{
    PlumbStatus status = next_event(builder); /* stream start */
    if (status == PLUMB_OK) {
        status = next_event(builder);
    }
    if (status != PLUMB_OK || builder->event.type == YAML_STREAM_END_EVENT) {
        return status;
    }
    if (builder->event.data.document_start.tag_directives.start !=
        builder->event.data.document_start.tag_directives.end) {
        return fail(builder, builder->begin, "%TAG is not read; take the line out");
    }
    status = next_event(builder);
    if (status == PLUMB_OK) {
        status = build_node(builder, 0, &builder->tree->root);
    }
    if (status == PLUMB_OK) {
        status = next_event(builder); /* document end */
    }
    if (status == PLUMB_OK) {
        status = next_event(builder);
    }
    if (status == PLUMB_OK && builder->event.type != YAML_STREAM_END_EVENT) {
        const size_t at = offset_of(builder, builder->event.start_mark.index);
        return fail(builder, at, "a second document (---); a file holds one lifter");
    }
    return status;
}

PlumbStatus plumb_yaml_parse(const char *bytes, size_t length, PlumbYamlTree *tree,
                             PlumbError *error)
{
    *tree = (PlumbYamlTree){.bytes = bytes, .length = length, .root = PLUMB_YAML_NONE};
    Builder builder = {.tree = tree, .error = error};
    const char *complaint = NULL;
    const size_t bad = plumb_utf8_check(bytes, length, &complaint);
    if (complaint != NULL) {
        return fail(&builder, bad, complaint);
    }
    builder.begin = plumb_utf8_mark_length(bytes, length);
    builder.offset = builder.begin;
    if (yaml_parser_initialize(&builder.parser) == 0) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "file", "no memory to read the file");
    }
    yaml_parser_set_encoding(&builder.parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&builder.parser, (const unsigned char *)bytes + builder.begin,
                                 length - builder.begin);
    const PlumbStatus status = build_document(&builder);
    drop_event(&builder);
    yaml_parser_delete(&builder.parser);
    if (status != PLUMB_OK) {
        plumb_yaml_free(tree);
    }
    return status;
}

void plumb_yaml_free(PlumbYamlTree *tree)
{
    for (int i = 0; i < tree->count; i++) {
        free(tree->node[i].text);
    }
    free(tree->node);
    *tree = (PlumbYamlTree){.root = PLUMB_YAML_NONE};
}

int plumb_yaml_key(const PlumbYamlTree *tree, int map, const char *key, size_t length)
{
    if (map == PLUMB_YAML_NONE || tree->node[map].kind != PLUMB_YAML_MAP) {
        return PLUMB_YAML_NONE;
    }
    for (int i = tree->node[map].first; i != PLUMB_YAML_NONE; i = tree->node[i].next) {
        if (tree->node[i].length == length && memcmp(tree->node[i].text, key, length) == 0) {
            return i;
        }
    }
    return PLUMB_YAML_NONE;
}

bool plumb_yaml_is_empty(const PlumbYamlTree *tree, int node)
{
    const PlumbYamlNode *const it = &tree->node[node];
    return it->kind == PLUMB_YAML_SCALAR && it->style == PLUMB_YAML_PLAIN && it->length == 0;
}
