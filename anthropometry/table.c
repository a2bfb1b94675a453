/* SPDX-License-Identifier: MIT */
/* Reads one CSV file of anthropometry/ into cells that know their place; part of the generator. */
#include "table.h"

#include <csv.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Where the parser stands. libcsv is fed byte by byte, so that the end of each cell has a column.
 */
typedef struct Reader {
    Table *table;
    int line;
    int column;     /* of the byte being fed */
    int cell_start; /* column of the cell being read */
    int cells;      /* read in this row */
} Reader;

_Noreturn void table_fail(const Table *table, const Cell *cell, const char *what)
{
    fprintf(stderr, "%s:%d:%d: \"%s\": %s\n", table->path, cell->line, cell->column, cell->text,
            what);
    exit(1);
}

static _Noreturn void fail_at(const Reader *reader, const char *what)
{
    fprintf(stderr, "%s:%d:%d: %s\n", reader->table->path, reader->line, reader->column, what);
    exit(1);
}

static void cell_end(void *data, size_t length, void *user)
{
    Reader *reader = user;
    Table *table = reader->table;
    if (table->rows >= TABLE_ROWS || reader->cells >= TABLE_COLUMNS || length >= TABLE_TEXT) {
        fail_at(reader, "more rows, columns or text than the generator holds");
    }
    Cell *cell = &table->cell[table->rows][reader->cells];
    memcpy(cell->text, data, length);
    cell->text[length] = '\0';
    cell->line = reader->line;
    cell->column = reader->cell_start;
    reader->cells++;
    reader->cell_start = reader->column + 1;
}

static void row_end(int character, void *user)
{
    (void)character;
    Reader *reader = user;
    Table *table = reader->table;
    if (table->rows == 0) {
        table->columns = reader->cells;
    }
    if (reader->cells != table->columns) {
        fail_at(reader, "the row has more or fewer cells than the first row");
    }
    table->rows++;
    reader->cells = 0;
}

static void feed(struct csv_parser *parser, Reader *reader, char c)
{
    if (csv_parse(parser, &c, 1, cell_end, row_end, reader) != 1) {
        fail_at(reader, csv_strerror(csv_error(parser)));
    }
}

static void read_lines(FILE *file, struct csv_parser *parser, Reader *reader)
{
    char line[2048];
    while (fgets(line, sizeof line, file)) {
        reader->line++;
        reader->column = 1;
        reader->cell_start = 1;
        if (line[0] == '#') {
            continue;
        }
        for (const char *c = line; *c; c++, reader->column++) {
            feed(parser, reader, *c);
        }
        if (reader->cells != 0) {
            fail_at(reader, "a row must end with its line");
        }
    }
}

void table_read(Table *table, const char *directory, const char *file)
{
    table->rows = 0;
    table->columns = 0;
    snprintf(table->path, sizeof table->path, "%s/%s", directory, file);
    FILE *stream = fopen(table->path, "rb");
    if (!stream) {
        perror(table->path);
        exit(1);
    }
    struct csv_parser parser;
    if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI) != 0) {
        fputs("libcsv does not start\n", stderr);
        exit(1);
    }
    Reader reader = {.table = table};
    read_lines(stream, &parser, &reader);
    if (ferror(stream) || table->rows == 0) {
        fail_at(&reader, "could not be read, or is empty");
    }
    csv_fini(&parser, cell_end, row_end, &reader);
    csv_free(&parser);
    fclose(stream);
}

int table_column(const Table *table, const char *name)
{
    for (int i = 0; i < table->columns; i++) {
        if (strcmp(table->cell[0][i].text, name) == 0) {
            return i;
        }
    }
    fprintf(stderr, "%s:%d:1: there is no column \"%s\"\n", table->path, table->cell[0][0].line,
            name);
    exit(1);
}
