/* SPDX-License-Identifier: MIT */
/* Writes down every row of this folder as text, so that the program can say what it rests on:
 * list_tables SOURCE_DIR OUT_FILE FILE.csv... A source that is not in sources.csv ends the build.
 */
#include "table.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static Table sources;
static Table table;

/* Columns that name a row, where they stand first; the first column always does. */
static bool is_key(const char *column)
{
    static const char *const keys[] = {"sex",   "segment", "length",  "dimension", "action",
                                       "age",   "tape",    "joint",   "motion",    "item",
                                       "style", "seat",    "setting", "about",     "lift"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (strcmp(keys[i], column) == 0) {
            return true;
        }
    }
    return false;
}

static int key_columns(void)
{
    int count = 1;
    while (count < table.columns && is_key(table.cell[0][0].text) &&
           is_key(table.cell[0][count].text)) {
        count++;
    }
    return count;
}

static int find_column(const char *name)
{
    for (int i = 0; i < table.columns; i++) {
        if (strcmp(table.cell[0][i].text, name) == 0) {
            return i;
        }
    }
    return -1;
}

static void put(FILE *out, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '"' || *c == '\\') {
            fputc('\\', out);
        }
        fputc(*c, out);
    }
}

static void put_column(FILE *out, int row, int column)
{
    fputs(", \"", out);
    put(out, column < 0 ? "" : table.cell[row][column].text);
    fputc('"', out);
}

/* A file whose rows say in words what they rest on has no ids. */
static const char *citation(int row, int column)
{
    if (column < 0) {
        return table.cell[row][table_column(&table, "rests_on")].text;
    }
    const Cell *cell = &table.cell[row][column];
    for (int i = 1; i < sources.rows; i++) {
        if (strcmp(sources.cell[i][0].text, cell->text) == 0) {
            return sources.cell[i][1].text;
        }
    }
    table_fail(&table, cell, "no such id in sources.csv");
}

/* "name figure" of every column that is not told elsewhere. */
static void put_figures(FILE *out, int row, int from)
{
    static const char *const elsewhere[] = {"basis", "status",  "source",
                                            "note",  "meaning", "rests_on"};
    bool begun = false;
    fputs(", \"", out);
    for (int i = from; i < table.columns; i++) {
        bool told = table.cell[row][i].text[0] == '\0';
        for (size_t k = 0; k < sizeof elsewhere / sizeof elsewhere[0]; k++) {
            told = told || strcmp(elsewhere[k], table.cell[0][i].text) == 0;
        }
        if (!told) {
            fputs(begun ? ", " : "", out);
            put(out, table.cell[0][i].text);
            fputc(' ', out);
            put(out, table.cell[row][i].text);
            begun = true;
        }
    }
    fputc('"', out);
}

static void put_row(FILE *out, const char *file, int row)
{
    const int keys = key_columns();
    const int basis = find_column("basis") >= 0    ? find_column("basis")
                      : find_column("status") >= 0 ? find_column("status")
                                                   : find_column("rests_on");
    const int note = find_column("note") >= 0 ? find_column("note") : find_column("meaning");
    const int source = find_column("source");
    fprintf(out, "    {\"%s\", \"", file);
    for (int k = 0; k < keys; k++) {
        fputs(k > 0 ? " " : "", out);
        put(out, table.cell[row][k].text);
    }
    fputc('"', out);
    put_figures(out, row, keys);
    put_column(out, row, basis);
    put_column(out, row, source);
    fputs(", \"", out);
    put(out, citation(row, source));
    fputc('"', out);
    put_column(out, row, note);
    fputs("},\n", out);
}

static void put_citations(FILE *out)
{
    fputs("static const PlumbCitation cited[] = {\n", out);
    for (int i = 1; i < sources.rows; i++) {
        fputs("    {\"", out);
        put(out, sources.cell[i][0].text);
        fputs("\", \"", out);
        put(out, sources.cell[i][1].text);
        fputs("\"},\n", out);
    }
    fputs("};\n\n", out);
}

static const char *const ending =
    "int plumb_source_row_count(void)\n{\n    return (int)(sizeof listed / sizeof "
    "listed[0]);\n}\n\n"
    "const PlumbSourceRow *plumb_source_row(int index)\n{\n    return &listed[index];\n}\n\n"
    "int plumb_citation_count(void)\n{\n    return (int)(sizeof cited / sizeof cited[0]);\n}\n\n"
    "const PlumbCitation *plumb_citation(int index)\n{\n    return &cited[index];\n}\n";

int main(int argc, char **argv)
{
    if (argc < 4) {
        fputs("usage: list_tables SOURCE_DIR OUT_FILE FILE.csv...\n", stderr);
        return 2;
    }
    table_read(&sources, argv[1], "sources.csv");
    FILE *out = fopen(argv[2], "wb");
    if (!out) {
        perror(argv[2]);
        return 1;
    }
    fputs("/* SPDX-License-Identifier: MIT */\n/* Generated from anthropometry/; do not edit. */\n"
          "#include <plumbar/sources.h>\n\nstatic const PlumbSourceRow listed[] = {\n",
          out);
    for (int i = 3; i < argc; i++) {
        const char *slash = strrchr(argv[i], '/');
        const char *file = slash ? slash + 1 : argv[i];
        if (strcmp(file, "sources.csv") == 0) {
            continue;
        }
        table_read(&table, argv[1], file);
        for (int row = 1; row < table.rows; row++) {
            put_row(out, file, row);
        }
    }
    fputs("};\n\n", out);
    put_citations(out);
    fputs(ending, out);
    const bool failed = ferror(out) != 0;
    if (fclose(out) != 0 || failed) {
        perror(argv[2]);
        return 1;
    }
    return 0;
}
