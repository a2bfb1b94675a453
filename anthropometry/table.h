/* SPDX-License-Identifier: MIT */
/* Reads one CSV file of anthropometry/ into cells that know their place; part of the generator. */
#ifndef PLUMBAR_ANTHROPOMETRY_TABLE_H
#define PLUMBAR_ANTHROPOMETRY_TABLE_H

enum { TABLE_COLUMNS = 24, TABLE_ROWS = 96, TABLE_TEXT = 320, TABLE_PATH = 1024 };

typedef struct Cell {
    char text[TABLE_TEXT];
    int line;
    int column; /* of the cell's first character, from 1 */
} Cell;

/* Row 0 holds the names of the columns. */
typedef struct Table {
    char path[TABLE_PATH];
    int columns;
    int rows;
    Cell cell[TABLE_ROWS][TABLE_COLUMNS];
} Table;

/* Reads directory/file; lines that start with # are left out. Ends the program with a message
 * where the file cannot be read, is not CSV, or has rows of unequal length. */
void table_read(Table *table, const char *directory, const char *file);

/* The column named name; ends the program where there is none. */
int table_column(const Table *table, const char *name);

/* Prints "path:line:column: what", the cell's text, and ends the program. */
_Noreturn void table_fail(const Table *table, const Cell *cell, const char *what);

#endif
