/* SPDX-License-Identifier: MIT */
/* Turns the tables of this folder into constant data of the library, at build time:
 * embed_tables SOURCE_DIR OUT_DIR writes tables.h, tables.c, settings.h and settings.c. A missing,
 * unknown or doubled row and a malformed cell end the build with file:line:column. */
#include "schema.h"
#include "table.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NOTICE                                                                                     \
    "/* SPDX-License-Identifier: MIT */\n/* Generated from anthropometry/; do not edit. */\n"

/* What the generated files of each output are called and begin with. */
static const struct {
    const char *header;
    const char *source;
    const char *header_top;
    const char *source_top;
} outputs[OUTPUT_COUNT] = {
    [OUTPUT_TABLES] = {"tables.h", "tables.c",
                       NOTICE "#ifndef PLUMBAR_TABLES_H\n#define PLUMBAR_TABLES_H\n\n"
                              "#include \"body/rows.h\"\n\n",
                       NOTICE "#include \"tables.h\"\n\n#include <math.h>\n\n"},
    [OUTPUT_SETTINGS] = {"settings.h", "settings.c",
                         NOTICE "#ifndef PLUMBAR_SETTINGS_H\n#define PLUMBAR_SETTINGS_H\n\n"
                                "#include <plumbar/setup.h>\n\n",
                         NOTICE "#include \"settings.h\"\n\n#include <math.h>\n"
                                "#include <stddef.h>\n\n"},
};

static Table sources;
static Table table;

static int word_index(const WordList *words, const Cell *cell)
{
    for (int i = 0; i < words->count; i++) {
        if (strcmp(words->word[i].text, cell->text) == 0) {
            return i;
        }
    }
    char what[2048] = "allowed is";
    for (int i = 0; i < words->count; i++) {
        const size_t used = strlen(what);
        snprintf(what + used, sizeof what - used, "%s %s", i ? "," : "", words->word[i].text);
    }
    table_fail(&table, cell, what);
}

static double number(const Cell *cell)
{
    char *end;
    errno = 0;
    const double value = strtod(cell->text, &end);
    if (end == cell->text || *end || errno || !isfinite(value)) {
        table_fail(&table, cell, "a decimal number is needed, such as 0.154");
    }
    return value;
}

static const Unit *unit_named(const char *text)
{
    for (int i = 0; i < schema_unit_count; i++) {
        if (strcmp(schema_unit[i].text, text) == 0) {
            return &schema_unit[i];
        }
    }
    return NULL;
}

static const Unit *unit_of_row(int row)
{
    const Cell *cell = &table.cell[row][table_column(&table, "unit")];
    const Unit *unit = unit_named(cell->text);
    if (!unit) {
        table_fail(&table, cell, "allowed units are m, cm, mm, kg, rad, deg, s, number, fraction");
    }
    return unit;
}

static void put_text(FILE *out, const char *text, const char *suffix)
{
    fputc('"', out);
    for (const char *c = text; *c; c++) {
        if (*c == '"' || *c == '\\') {
            fputc('\\', out);
        }
        fputc(*c, out);
    }
    fprintf(out, "%s\"", suffix);
}

static void put_number(FILE *out, const Cell *cell, const Unit *unit)
{
    fprintf(out, "%.17g", number(cell) * unit->times / unit->over);
}

static const char *citation(const Cell *cell)
{
    const int id = table_column(&sources, "source");
    for (int i = 1; i < sources.rows; i++) {
        if (strcmp(sources.cell[i][id].text, cell->text) == 0) {
            return sources.cell[i][table_column(&sources, "citation")].text;
        }
    }
    table_fail(&table, cell, "no such id in sources.csv");
}

static void put_offset(FILE *out, int row, const Cell *cell)
{
    const Unit *unit = unit_of_row(row);
    if (strcmp(unit->text, "word") == 0) {
        fputs("(size_t)-1", out);
    } else {
        fprintf(out, "offsetof(PlumbSetup, %s%s)", cell->text, unit->suffix);
    }
}

/* Writes the value of one cell. */
static void put_cell(FILE *out, const Column *column, int row, const Cell *cell)
{
    static const Unit plain = {"number", 1.0, 1.0, ""};
    const bool optional = column->kind == KIND_IN_UNIT || column->kind == KIND_NUMBER_OR_NONE;
    if (optional && cell->text[0] == '\0') {
        fputs("(double)NAN", out);
        return;
    }
    switch (column->kind) {
    case KIND_TEXT:
        put_text(out, cell->text, "");
        break;
    case KIND_NUMBER:
    case KIND_NUMBER_OR_NONE:
        put_number(out, cell, &plain);
        break;
    case KIND_IN_UNIT:
        put_number(out, cell, unit_of_row(row));
        break;
    case KIND_CM:
        put_number(out, cell, unit_named("cm"));
        break;
    case KIND_DEG:
        put_number(out, cell, unit_named("deg"));
        break;
    case KIND_WORD:
        fputs(column->words->word[word_index(column->words, cell)].enumerator, out);
        break;
    case KIND_SOURCE:
        put_text(out, citation(cell), "");
        break;
    case KIND_JSON_KEY:
        put_text(out, cell->text, unit_of_row(row)->suffix);
        break;
    case KIND_OFFSET:
        put_offset(out, row, cell);
        break;
    }
}

/* Checks a cell that is not carried over. */
static void check_cell(const Column *column, const Cell *cell)
{
    if (column->kind == KIND_WORD) {
        word_index(column->words, cell);
    } else if (column->kind == KIND_SOURCE) {
        citation(cell);
    }
}

static int key_count(const Schema *schema)
{
    int count = 0;
    while (count < SCHEMA_KEYS && schema->key[count].column) {
        count++;
    }
    return count;
}

/* Place of a row in the array, all keys counted together; also writes its index. */
static int put_index(FILE *out, const Schema *schema, int row)
{
    const int keys = key_count(schema);
    if (keys == 0) {
        fprintf(out, "[%d]", row - 1);
        return row - 1;
    }
    int place = 0;
    for (int k = 0; k < keys; k++) {
        const Cell *cell = &table.cell[row][table_column(&table, schema->key[k].column)];
        const int index = word_index(schema->key[k].words, cell);
        place = place * schema->key[k].words->count + index;
        fprintf(out, "[%d]", index);
    }
    return place;
}

static void put_row(FILE *out, const Schema *schema, int row, bool *seen)
{
    fputs("    ", out);
    const int place = put_index(out, schema, row);
    const Cell *first = &table.cell[row][0];
    if (seen[place]) {
        table_fail(&table, first, "this row stands twice");
    }
    seen[place] = true;
    if (schema->ordered && place != row - 1) {
        table_fail(&table, first, "the rows do not stand in the order of the program's list");
    }
    fputs(" = {", out);
    for (int i = 0; i < SCHEMA_COLUMNS && schema->column[i].name; i++) {
        const Column *column = &schema->column[i];
        const Cell *cell = &table.cell[row][table_column(&table, column->name)];
        if (column->field[0] == '\0') {
            check_cell(column, cell);
            continue;
        }
        fprintf(out, "%s.%s = ", i ? ", " : "", column->field);
        put_cell(out, column, row, cell);
    }
    fputs("},\n", out);
}

static void put_shape(FILE *out, const Schema *schema)
{
    fprintf(out, "const %s %s", schema->type, schema->array);
    const int keys = key_count(schema);
    if (keys == 0) {
        fprintf(out, "[%d]", table.rows - 1);
    }
    for (int k = 0; k < keys; k++) {
        fprintf(out, "[%d]", schema->key[k].words->count);
    }
}

static void embed(const Schema *schema, FILE *header, FILE *source)
{
    fputs("extern ", header);
    put_shape(header, schema);
    fputs(";\n", header);
    put_shape(source, schema);
    fputs(" = {\n", source);
    bool seen[TABLE_ROWS] = {false};
    for (int row = 1; row < table.rows; row++) {
        put_row(source, schema, row, seen);
    }
    fputs("};\n\n", source);
    int needed = 1;
    for (int k = 0; k < key_count(schema); k++) {
        needed *= schema->key[k].words->count;
    }
    for (int place = 0; key_count(schema) > 0 && place < needed; place++) {
        if (!seen[place]) {
            const WordList *last = schema->key[key_count(schema) - 1].words;
            fprintf(stderr, "%s: a row \"%s\" is missing\n", table.path,
                    last->word[place % last->count].text);
            exit(1);
        }
    }
}

static FILE *open_output(const char *directory, const char *file)
{
    char path[TABLE_PATH];
    snprintf(path, sizeof path, "%s/%s", directory, file);
    FILE *out = fopen(path, "wb");
    if (!out) {
        perror(path);
        exit(1);
    }
    return out;
}

static void close_output(FILE *out, const char *name)
{
    const bool failed = ferror(out) != 0;
    if (fclose(out) != 0 || failed) {
        perror(name);
        exit(1);
    }
}

static void write_output(Output output, const char *from, const char *to)
{
    FILE *header = open_output(to, outputs[output].header);
    FILE *source = open_output(to, outputs[output].source);
    fputs(outputs[output].header_top, header);
    fputs(outputs[output].source_top, source);
    for (int i = 0; i < schema_count; i++) {
        if (schema_table[i].output == output) {
            table_read(&table, from, schema_table[i].file);
            embed(&schema_table[i], header, source);
        }
    }
    fputs("\n#endif\n", header);
    close_output(header, outputs[output].header);
    close_output(source, outputs[output].source);
}

int main(int argc, char **argv)
{
    if (argc != 3) {
        fputs("usage: embed_tables SOURCE_DIR OUT_DIR\n", stderr);
        return 2;
    }
    table_read(&sources, argv[1], "sources.csv");
    for (int i = 0; i < OUTPUT_COUNT; i++) {
        write_output((Output)i, argv[1], argv[2]);
    }
    return 0;
}
