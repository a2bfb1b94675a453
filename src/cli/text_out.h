/* SPDX-License-Identifier: MIT */
/* Text for a terminal: columns that line up, figures in the reader's units, wrapped sentences. */
#ifndef PLUMBAR_CLI_TEXT_OUT_H
#define PLUMBAR_CLI_TEXT_OUT_H

#include "output.h"

#include <plumbar/format.h>

enum { PLUMB_TABLE_COLUMNS_MAX = 512, PLUMB_CELL_SIZE = 256 };

/* A table being collected: cells one after the other, row by row. */
typedef struct PlumbCliTable {
    const char *align; /* one letter a column: l or r */
    PlumbUnits units;
    char *cells; /* NUL after each */
    size_t length;
    size_t capacity;
    size_t count;
    bool out_of_memory;
} PlumbCliTable;

/* align outlives the table. */
PlumbCliTable plumb_table_begin(const char *align, PlumbUnits units);
/* Each appends one cell. A value that is not finite becomes "-". */
void plumb_table_text(PlumbCliTable *table, const char *text);
void plumb_table_value(PlumbCliTable *table, double value_si, PlumbQuantity quantity);
/* The figure without its unit, for columns whose head says it. */
void plumb_table_bare(PlumbCliTable *table, double value_si, PlumbQuantity quantity);
/* A head: words and, in brackets, the unit of the column. */
void plumb_table_head(PlumbCliTable *table, const char *words, PlumbQuantity quantity);
/* Fills the row with empty cells. */
void plumb_table_row_end(PlumbCliTable *table);
/* Prints the rows, indented, and frees. */
void plumb_table_end(PlumbCliTable *table, size_t indent, PlumbCliOutput *out);

/* A blank line and a heading. */
void plumb_print_heading(PlumbCliOutput *out, const char *words);
/* A sentence, wrapped at 78 columns; the lines after the first are indented by `hang`. */
void plumb_print_wrapped(PlumbCliOutput *out, const char *text, size_t hang);

/* A figure in the reader's unit appended to *text; "-" where it is not finite. */
void plumb_text_value(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units);

#endif
