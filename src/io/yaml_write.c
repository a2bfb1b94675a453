/* SPDX-License-Identifier: MIT */
/* Writes YAML scalars and entries. */
#include "io/yaml_write.h"

#include <stdlib.h>
#include <string.h>

enum { STEP = 2 };

/* Characters beyond ASCII that YAML 1.1 takes for line breaks, or that stand for nothing, with
 * their escapes. */
static const struct {
    const char *bytes;
    const char *escape;
} special[] = {
    {"\xC2\x85", "\\N"},
    {"\xE2\x80\xA8", "\\L"},
    {"\xE2\x80\xA9", "\\P"},
    {"\xEF\xBB\xBF", "\\uFEFF"},
};
enum { SPECIAL_COUNT = sizeof special / sizeof special[0] };

void plumb_bytes_add(PlumbBytes *bytes, const char *data, size_t length)
{
    if (bytes->failed || length == 0) {
        return;
    }
    if (bytes->length + length > bytes->capacity) {
        const size_t capacity = (bytes->length + length) * 2 + 64;
        char *const more = realloc(bytes->data, capacity);
        if (more == NULL) {
            bytes->failed = true;
            return;
        }
        bytes->data = more;
        bytes->capacity = capacity;
    }
    memcpy(bytes->data + bytes->length, data, length);
    bytes->length += length;
}

void plumb_bytes_string(PlumbBytes *bytes, const char *string)
{
    plumb_bytes_add(bytes, string, strlen(string));
}

static bool has_special(const char *value)
{
    for (size_t i = 0; i < SPECIAL_COUNT; i++) {
        if (strstr(value, special[i].bytes) != NULL) {
            return true;
        }
    }
    for (const char *c = value; *c != '\0'; c++) {
        if ((unsigned char)*c < 0x20u || *c == 0x7F) {
            return true;
        }
    }
    return false;
}

static bool plain_holds(const char *value, bool flow)
{
    const size_t length = strlen(value);
    if (length == 0 || has_special(value) || strchr("?:,[]{}#&*!|>'\"%@` ", value[0]) != NULL) {
        return false;
    }
    if (value[0] == '-' && (value[1] == ' ' || value[1] == '\0' || value[1] == '-')) {
        return false;
    }
    if (value[0] == '.' && value[1] == '.') {
        return false;
    }
    if (value[length - 1] == ' ' || value[length - 1] == ':') {
        return false;
    }
    if (flow && (strpbrk(value, ",[]{}:?") != NULL)) {
        return false;
    }
    return strstr(value, ": ") == NULL && strstr(value, " #") == NULL;
}

static void single_quoted(PlumbBytes *bytes, const char *value)
{
    plumb_bytes_string(bytes, "'");
    for (const char *c = value; *c != '\0'; c++) {
        plumb_bytes_add(bytes, c, 1);
        if (*c == '\'') {
            plumb_bytes_string(bytes, "'");
        }
    }
    plumb_bytes_string(bytes, "'");
}

/* Adds one character of a double-quoted scalar; returns how many bytes of value it took. */
static size_t escaped(PlumbBytes *bytes, const char *value)
{
    static const char digits[] = "0123456789ABCDEF";
    const unsigned char c = (unsigned char)value[0];
    for (size_t i = 0; i < SPECIAL_COUNT; i++) {
        const size_t length = strlen(special[i].bytes);
        if (strncmp(value, special[i].bytes, length) == 0) {
            plumb_bytes_string(bytes, special[i].escape);
            return length;
        }
    }
    if (c == '"' || c == '\\') {
        plumb_bytes_string(bytes, "\\");
        plumb_bytes_add(bytes, value, 1);
    } else if (c == '\n') {
        plumb_bytes_string(bytes, "\\n");
    } else if (c < 0x20u || c == 0x7Fu) {
        const char escape[] = {'\\', 'x', digits[c >> 4], digits[c & 15u]};
        plumb_bytes_add(bytes, escape, sizeof escape);
    } else {
        plumb_bytes_add(bytes, value, 1);
    }
    return 1;
}

void plumb_yaml_scalar(PlumbBytes *bytes, const char *value, PlumbYamlStyle style, bool flow)
{
    if (style == PLUMB_YAML_SINGLE && !has_special(value)) {
        single_quoted(bytes, value);
        return;
    }
    const bool plain = style == PLUMB_YAML_PLAIN || style == PLUMB_YAML_BLOCK;
    if (plain && plain_holds(value, flow)) {
        plumb_bytes_string(bytes, value);
        return;
    }
    plumb_bytes_string(bytes, "\"");
    for (const char *c = value; *c != '\0';) {
        c += escaped(bytes, c);
    }
    plumb_bytes_string(bytes, "\"");
}

void plumb_yaml_block_entry(PlumbBytes *bytes, const PlumbYamlEntry *entry, size_t indent,
                            const char *eol)
{
    for (size_t i = 0; i < indent; i++) {
        plumb_bytes_string(bytes, " ");
    }
    plumb_yaml_scalar(bytes, entry->key, PLUMB_YAML_PLAIN, false);
    plumb_bytes_string(bytes, ":");
    if (entry->value != NULL) {
        plumb_bytes_string(bytes, " ");
        plumb_yaml_scalar(bytes, entry->value, PLUMB_YAML_PLAIN, false);
    }
    plumb_bytes_string(bytes, eol);
    for (size_t i = 0; i < entry->child_count; i++) {
        plumb_yaml_block_entry(bytes, &entry->child[i], indent + STEP, eol);
    }
}

void plumb_yaml_flow_entry(PlumbBytes *bytes, const PlumbYamlEntry *entry, PlumbYamlStyle style)
{
    plumb_yaml_scalar(bytes, entry->key, style, true);
    plumb_bytes_string(bytes, ": ");
    if (entry->value != NULL) {
        plumb_yaml_scalar(bytes, entry->value, style, true);
        return;
    }
    plumb_bytes_string(bytes, "{");
    for (size_t i = 0; i < entry->child_count; i++) {
        plumb_bytes_string(bytes, i > 0 ? ", " : "");
        plumb_yaml_flow_entry(bytes, &entry->child[i], style);
    }
    plumb_bytes_string(bytes, "}");
}
