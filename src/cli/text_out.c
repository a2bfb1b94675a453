/* SPDX-License-Identifier: MIT */
/* Text for a terminal: columns that line up, figures in the reader's units, wrapped sentences. */
#include "text_out.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_CAPACITY = 4096, GAP = 2, LINE_WIDTH = 78 };

PlumbCliTable plumb_table_begin(const char *align, PlumbUnits units)
{
    return (PlumbCliTable){.align = align, .units = units};
}

void plumb_table_text(PlumbCliTable *table, const char *text)
{
    const size_t size = strlen(text) + 1;
    if (table->capacity - table->length < size) {
        const size_t capacity = (table->capacity + size) * 2 + FIRST_CAPACITY;
        char *const cells = realloc(table->cells, capacity);
        if (cells == NULL) {
            table->out_of_memory = true;
            return;
        }
        table->cells = cells;
        table->capacity = capacity;
    }
    memcpy(table->cells + table->length, text, size);
    table->length += size;
    table->count++;
}

void plumb_text_value(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units)
{
    if (isfinite(value_si)) {
        plumb_text_quantity(text, value_si, quantity, units);
    } else {
        plumb_text_string(text, "-");
    }
}

void plumb_table_value(PlumbCliTable *table, double value_si, PlumbQuantity quantity)
{
    char cell[PLUMB_CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_value(&text, value_si, quantity, table->units);
    plumb_table_text(table, cell);
}

void plumb_table_bare(PlumbCliTable *table, double value_si, PlumbQuantity quantity)
{
    char cell[PLUMB_CELL_SIZE] = "-";
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (isfinite(value_si)) {
        plumb_text_fixed(&text, value_si * plumb_quantity_factor(quantity, table->units),
                         plumb_quantity_decimals(quantity, table->units));
    } else {
        plumb_text_string(&text, "-");
    }
    plumb_table_text(table, cell);
}

void plumb_table_head(PlumbCliTable *table, const char *words, PlumbQuantity quantity)
{
    const char *const unit = plumb_quantity_unit(quantity, table->units);
    char cell[PLUMB_CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_string(&text, words);
    if (unit[0] != '\0') {
        plumb_text_string(&text, " [");
        plumb_text_string(&text, unit);
        plumb_text_string(&text, "]");
    }
    plumb_table_text(table, cell);
}

void plumb_table_row_end(PlumbCliTable *table)
{
    const size_t columns = strlen(table->align);
    while (!table->out_of_memory && table->count % columns != 0) {
        plumb_table_text(table, "");
    }
}

static void measure(const PlumbCliTable *table, size_t columns, size_t *width)
{
    const char *cell = table->cells;
    for (size_t i = 0; i < table->count; i++, cell += strlen(cell) + 1) {
        const size_t wide = plumb_output_width(cell);
        if (wide > width[i % columns]) {
            width[i % columns] = wide;
        }
    }
}

/* Blanks are held back until a cell follows, so that no line ends in them. */
static void print_rows(const PlumbCliTable *table, size_t columns, const size_t *width,
                       size_t indent, PlumbCliOutput *out)
{
    const char *cell = table->cells;
    size_t blanks = indent;
    for (size_t i = 0; i < table->count; i++, cell += strlen(cell) + 1) {
        const size_t column = i % columns;
        const size_t pad = width[column] - plumb_output_width(cell);
        const bool left = table->align[column] == 'l';
        blanks += left ? 0 : pad;
        if (cell[0] != '\0') {
            plumb_output_repeat(out, ' ', blanks);
            plumb_output_string(out, cell);
            blanks = 0;
        }
        blanks += (left ? pad : 0) + (width[column] > 0 ? GAP : 0);
        if (column == columns - 1) {
            plumb_output_string(out, "\n");
            blanks = indent;
        }
    }
}

void plumb_table_end(PlumbCliTable *table, size_t indent, PlumbCliOutput *out)
{
    size_t width[PLUMB_TABLE_COLUMNS_MAX] = {0};
    const size_t columns = strlen(table->align);
    plumb_table_row_end(table);
    if (table->out_of_memory) {
        out->status = PLUMB_OUT_OF_MEMORY;
    } else if (table->count > 0) {
        measure(table, columns, width);
        print_rows(table, columns, width, indent, out);
    }
    free(table->cells);
    *table = (PlumbCliTable){.align = table->align, .units = table->units};
}

void plumb_print_heading(PlumbCliOutput *out, const char *words)
{
    plumb_output_string(out, "\n");
    plumb_output_string(out, words);
    plumb_output_string(out, "\n");
}

/* A line never ends between a figure and its unit. */
static bool is_unit(const char *word, size_t length)
{
    static const char *const units[] = {"m",  "cm", "mm", "in", "ft", "kg",
                                        "lb", "%",  "N",  "J",  "W",  "s"};
    while (length > 1 && strchr(".,;:)", word[length - 1]) != NULL) {
        length--;
    }
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strlen(units[i]) == length && memcmp(units[i], word, length) == 0) {
            return true;
        }
    }
    return false;
}

/* The bytes up to the next place where a line may end: "± 3.5 cm" and "649 N m" are one. */
static size_t unbroken(const char *text)
{
    static const char plus_minus[] = "\xC2\xB1";
    size_t length = strcspn(text, " ");
    bool unit = false;
    while (length > 0 && text[length] == ' ') {
        const char *const next = text + length + 1;
        const size_t more = strcspn(next, " ");
        const bool sign = length >= 2 && memcmp(text + length - 2, plus_minus, 2) == 0;
        const bool figure = text[length - 1] >= '0' && text[length - 1] <= '9';
        unit = (figure || unit) && is_unit(next, more);
        if (!sign && !unit) {
            break;
        }
        length += 1 + more;
    }
    return length;
}

void plumb_print_wrapped(PlumbCliOutput *out, const char *text, size_t hang)
{
    size_t column = 0;
    const char *word = text;
    while (*word != '\0') {
        const size_t length = unbroken(word);
        size_t wide = 0;
        for (size_t i = 0; i < length; i++) {
            wide += ((unsigned char)word[i] & 0xC0U) != 0x80U;
        }
        if (column > hang && column + 1 + wide > LINE_WIDTH) {
            plumb_output_string(out, "\n");
            plumb_output_repeat(out, ' ', hang);
            column = hang;
        } else if (word != text) {
            plumb_output_string(out, " ");
            column++;
        }
        plumb_output_bytes(out, word, length);
        column += wide;
        word += length;
        word += *word == ' ';
    }
    plumb_output_string(out, "\n");
}
