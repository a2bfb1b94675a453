/* SPDX-License-Identifier: MIT */
/* Works out the least change of bytes for a change of content. */
#include "io/yaml_edit.h"

#include <string.h>

enum { STEP = 2 };

/* The line ending of the text: that of its first line, "\n" where it has one line. */
static const char *eol_of(const PlumbYamlTree *tree)
{
    for (size_t i = 0; i < tree->length; i++) {
        if (tree->bytes[i] == '\n') {
            return "\n";
        }
        if (tree->bytes[i] == '\r') {
            return i + 1 < tree->length && tree->bytes[i + 1] == '\n' ? "\r\n" : "\r";
        }
    }
    return "\n";
}

static bool is_break(char c)
{
    return c == '\n' || c == '\r';
}

/* The start of the line that holds the byte `at`. */
static size_t line_start(const PlumbYamlTree *tree, size_t at)
{
    while (at > 0 && !is_break(tree->bytes[at - 1])) {
        at--;
    }
    return at;
}

/* The start of the line after the byte `at`, or the end of the text. */
static size_t next_line(const PlumbYamlTree *tree, size_t at)
{
    while (at < tree->length && !is_break(tree->bytes[at])) {
        at++;
    }
    if (at + 1 < tree->length && tree->bytes[at] == '\r' && tree->bytes[at + 1] == '\n') {
        return at + 2;
    }
    return at < tree->length ? at + 1 : at;
}

/* The start of the line after what ends at `end`; a block scalar ends there already. */
static size_t line_after(const PlumbYamlTree *tree, size_t end)
{
    return end > 0 && is_break(tree->bytes[end - 1]) ? end : next_line(tree, end);
}

/* Passes over comments indented deeper than `indent`, with the empty lines before them: they speak
 * of the section above. */
static size_t after_comments(const PlumbYamlTree *tree, size_t at, size_t indent)
{
    size_t passed = at;
    size_t line = at;
    while (line < tree->length) {
        size_t first = line;
        while (first < tree->length && tree->bytes[first] == ' ') {
            first++;
        }
        const bool blank = first == tree->length || is_break(tree->bytes[first]);
        if (!blank && (tree->bytes[first] != '#' || first - line <= indent)) {
            break;
        }
        line = next_line(tree, line);
        passed = blank ? passed : line;
    }
    return passed;
}

static PlumbYamlChange insertion(size_t at)
{
    return (PlumbYamlChange){.from = at, .to = at};
}

/* How far the keys of a block stand from the margin. */
static size_t indent_of(const PlumbYamlTree *tree, int key)
{
    const size_t start = tree->node[key].start;
    const size_t mark = line_start(tree, start);
    /* A byte order mark before the first key takes no room. */
    return mark == 0 && start >= 3 && memcmp(tree->bytes, "\xEF\xBB\xBF", 3) == 0 ? start - 3
                                                                                  : start - mark;
}

/* Lines of a new entry at the line start `at`. A text without a final line break stays so. */
static PlumbYamlChange insert_lines(const PlumbYamlTree *tree, size_t at, size_t indent,
                                    const PlumbYamlEntry *entry)
{
    const char *const eol = eol_of(tree);
    PlumbYamlChange change = insertion(at);
    const bool open = at > 0 && !is_break(tree->bytes[at - 1]);
    if (open) {
        plumb_bytes_string(&change.text, eol);
    }
    plumb_yaml_block_entry(&change.text, entry, indent, eol);
    if (open && !change.text.failed) {
        change.text.length -= strlen(eol);
    }
    return change;
}

/* Within brackets, behind the last entry. */
static PlumbYamlChange insert_in_flow(const PlumbYamlTree *tree, int map,
                                      const PlumbYamlEntry *entry)
{
    int last = PLUMB_YAML_NONE;
    for (int i = tree->node[map].first; i != PLUMB_YAML_NONE; i = tree->node[i].next) {
        last = i;
    }
    if (last == PLUMB_YAML_NONE) {
        PlumbYamlChange change = insertion(tree->node[map].start + 1);
        plumb_yaml_flow_entry(&change.text, entry, PLUMB_YAML_PLAIN);
        return change;
    }
    PlumbYamlChange change = insertion(tree->node[tree->node[last].value].end);
    plumb_bytes_string(&change.text, ", ");
    plumb_yaml_flow_entry(&change.text, entry, tree->node[tree->node[map].first].style);
    return change;
}

/* Below a key whose value is left out, or beside it within brackets. */
static PlumbYamlChange insert_first(const PlumbYamlTree *tree, int parent, int key,
                                    const PlumbYamlEntry *entry)
{
    const PlumbYamlNode *const value = &tree->node[tree->node[key].value];
    if (tree->node[parent].flow) {
        PlumbYamlChange change = insertion(value->start);
        plumb_bytes_string(&change.text, " {");
        plumb_yaml_flow_entry(&change.text, entry, tree->node[key].style);
        plumb_bytes_string(&change.text, "}");
        return change;
    }
    const size_t at = next_line(tree, value->start);
    return insert_lines(tree, at, indent_of(tree, key) + STEP, entry);
}

PlumbYamlChange plumb_yaml_replace(const PlumbYamlTree *tree, int parent, int value,
                                   const char *text)
{
    const PlumbYamlNode *const it = &tree->node[value];
    PlumbYamlChange change = {.from = it->start, .to = it->end};
    plumb_yaml_scalar(&change.text, text, it->style, tree->node[parent].flow);
    if (it->style == PLUMB_YAML_BLOCK && it->end > 0 && is_break(tree->bytes[it->end - 1])) {
        plumb_bytes_string(&change.text, eol_of(tree));
    }
    return change;
}

PlumbYamlChange plumb_yaml_append(const PlumbYamlTree *tree, int parent, int key,
                                  const PlumbYamlEntry *entry)
{
    const int map = key == PLUMB_YAML_NONE ? tree->root : tree->node[key].value;
    if (plumb_yaml_is_empty(tree, map)) {
        return insert_first(tree, parent, key, entry);
    }
    if (tree->node[map].flow) {
        return insert_in_flow(tree, map, entry);
    }
    const size_t indent = indent_of(tree, tree->node[map].first);
    const size_t at = line_after(tree, tree->node[map].end);
    return insert_lines(tree, after_comments(tree, at, indent), indent, entry);
}

/* The lines of a list's item, its dash at `indent`. */
static void item_lines(PlumbBytes *bytes, const PlumbYamlEntry *entry, size_t count, size_t indent,
                       const char *eol)
{
    for (size_t i = 0; i < count; i++) {
        const size_t start = bytes->length;
        plumb_yaml_block_entry(bytes, &entry[i], indent + STEP, eol);
        if (i == 0 && !bytes->failed) {
            bytes->data[start + indent] = '-';
        }
    }
}

/* Where the dash of a list's item stands in its line; false where the line begins with another
 * thing. */
static bool dash_indent(const PlumbYamlTree *tree, int item, size_t *indent)
{
    const size_t start = line_start(tree, tree->node[item].start);
    size_t at = start;
    while (at < tree->length && tree->bytes[at] == ' ') {
        at++;
    }
    *indent = at - start;
    return at < tree->node[item].start && tree->bytes[at] == '-';
}

bool plumb_yaml_append_item(const PlumbYamlTree *tree, int key, const char *name,
                            const PlumbYamlEntry *entry, size_t count, PlumbYamlChange *change)
{
    const char *const eol = eol_of(tree);
    const PlumbYamlEntry head = {.key = name};
    const int list = key == PLUMB_YAML_NONE ? PLUMB_YAML_NONE : tree->node[key].value;
    const bool empty = list == PLUMB_YAML_NONE || plumb_yaml_is_empty(tree, list);
    size_t indent = STEP;
    size_t at = tree->length;
    if (tree->node[tree->root].flow) {
        return false;
    }
    if (list != PLUMB_YAML_NONE && empty) {
        at = next_line(tree, tree->node[list].start);
    } else if (list != PLUMB_YAML_NONE) {
        const PlumbYamlNode *const it = &tree->node[list];
        if (it->kind != PLUMB_YAML_LIST || it->flow || it->first == PLUMB_YAML_NONE ||
            !dash_indent(tree, it->first, &indent)) {
            return false;
        }
        at = after_comments(tree, line_after(tree, it->end), indent);
    }
    PlumbYamlChange made = insertion(at);
    const bool open = at > 0 && !is_break(tree->bytes[at - 1]);
    plumb_bytes_string(&made.text, open ? eol : "");
    if (list == PLUMB_YAML_NONE) {
        plumb_yaml_block_entry(&made.text, &head, 0, eol);
    }
    item_lines(&made.text, entry, count, indent, eol);
    if (open && !made.text.failed) {
        made.text.length -= strlen(eol); /* a text without a final line break stays so */
    }
    *change = made;
    return true;
}

static PlumbYamlChange remove_from_flow(const PlumbYamlTree *tree, int map, int key)
{
    const PlumbYamlNode *const it = &tree->node[key];
    const size_t end = tree->node[it->value].end;
    int before = PLUMB_YAML_NONE;
    for (int i = tree->node[map].first; i != key; i = tree->node[i].next) {
        before = i;
    }
    if (before != PLUMB_YAML_NONE) {
        return (PlumbYamlChange){.from = tree->node[tree->node[before].value].end, .to = end};
    }
    return (PlumbYamlChange){.from = it->start,
                             .to = it->next == PLUMB_YAML_NONE ? end : tree->node[it->next].start};
}

PlumbYamlChange plumb_yaml_remove(const PlumbYamlTree *tree, int map, int key)
{
    if (tree->node[map].flow) {
        return remove_from_flow(tree, map, key);
    }
    const PlumbYamlNode *const it = &tree->node[key];
    PlumbYamlChange change = {.from = line_start(tree, it->start),
                              .to = line_after(tree, tree->node[it->value].end)};
    const bool open =
        change.to == tree->length && change.to > 0 && !is_break(tree->bytes[change.to - 1]);
    if (open && change.from > 0) {
        /* The last line had no break; the one before it then has none. */
        change.from--;
        if (change.from > 0 && tree->bytes[change.from] == '\n' &&
            tree->bytes[change.from - 1] == '\r') {
            change.from--;
        }
    }
    return change;
}
