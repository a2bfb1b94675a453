/* SPDX-License-Identifier: MIT */
/* What each file of anthropometry/ must hold and which array it becomes; part of the generator. */
#ifndef PLUMBAR_ANTHROPOMETRY_SCHEMA_H
#define PLUMBAR_ANTHROPOMETRY_SCHEMA_H

#include <stdbool.h>

/* A closed list of words that a cell may hold, and the enumerator each becomes. */
typedef struct Word {
    const char *text;
    const char *enumerator;
} Word;

typedef struct WordList {
    int count;
    const Word *word;
} WordList;

typedef enum Kind {
    KIND_TEXT,
    KIND_NUMBER,
    KIND_NUMBER_OR_NONE, /* empty: NaN */
    KIND_IN_UNIT,        /* in the unit that the row's column `unit` names; empty: NaN */
    KIND_CM,
    KIND_DEG,
    KIND_WORD,
    KIND_SOURCE,   /* an id of sources.csv: becomes the citation */
    KIND_JSON_KEY, /* the text with the suffix of the SI unit that `unit` becomes */
    KIND_OFFSET    /* of the field of PlumbSetup so named; (size_t)-1 for words */
} Kind;

typedef struct Column {
    const char *name;  /* in the file */
    const char *field; /* of the row's struct */
    Kind kind;
    const WordList *words; /* KIND_WORD */
} Column;

typedef struct Key {
    const char *column;
    const WordList *words;
} Key;

/* Generated files; each belongs to one floor and includes nothing above it. */
typedef enum Output {
    OUTPUT_TABLES,   /* tables.h, tables.c: the body's floor */
    OUTPUT_SETTINGS, /* settings.h, settings.c: the model's floor */
    OUTPUT_COUNT
} Output;

enum { SCHEMA_KEYS = 3, SCHEMA_COLUMNS = 24 };

/* The keys of a row are the indices of its array. Every combination must stand in the file once;
 * without keys the rows are counted. `ordered`: rows must stand in the order of the keys. */
typedef struct Schema {
    const char *file;
    Output output;
    const char *array;
    const char *type;
    bool ordered;
    Key key[SCHEMA_KEYS];
    Column column[SCHEMA_COLUMNS];
} Schema;

extern const Schema schema_table[];
extern const int schema_count;

/* Units of cells: SI value = figure * times / over. */
typedef struct Unit {
    const char *text;
    double times;
    double over;
    const char *suffix; /* of a key whose value is SI */
} Unit;

extern const Unit schema_unit[];
extern const int schema_unit_count;

#endif
