/* SPDX-License-Identifier: MIT */
/* What every figure rests on: the rows of anthropometry/ as they stand there, and the citations. */
#ifndef PLUMBAR_SOURCES_H
#define PLUMBAR_SOURCES_H

#include <stddef.h>

/* One row of one file. Strings are static, "" where the file has none. */
typedef struct PlumbSourceRow {
    const char *file;     /* in anthropometry/: "masses.csv" */
    const char *key;      /* "male thorax" */
    const char *figures;  /* "mass_frac 0.3262, com_frac ..." as written there */
    const char *basis;    /* survey, derived, memory ...; published, rule, judgement ... */
    const char *source;   /* id in sources.csv */
    const char *citation; /* what the id stands for */
    const char *note;
} PlumbSourceRow;

int plumb_source_row_count(void);
const PlumbSourceRow *plumb_source_row(int index);
/* The row of file with this key; NULL where none is. */
const PlumbSourceRow *plumb_source_find(const char *file, const char *key);

typedef struct PlumbCitation {
    const char *source;
    const char *citation;
} PlumbCitation;

int plumb_citation_count(void);
const PlumbCitation *plumb_citation(int index);

#endif
