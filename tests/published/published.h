/* SPDX-License-Identifier: MIT */
/* Published results against this model: one function a row of tests/data/published.csv, and the
 * table of all of them. */
#ifndef PLUMBAR_TESTS_PUBLISHED_H
#define PLUMBAR_TESTS_PUBLISHED_H

#include <plumbar/plumbar.h>

#include <math.h>
#include <stddef.h>

/* What the model gives over all the conditions of a row; empty while low > high. */
typedef struct Span {
    double low;
    double high;
} Span;

static inline void span_add(Span *span, double value)
{
    /* A NaN must not hide: it makes both ends NaN. */
    span->low = isnan(value) ? value : (value < span->low ? value : span->low);
    span->high = isnan(value) ? value : (value > span->high ? value : span->high);
}

/* Adds every figure of a row's conditions. NaN where a pose was not found. */
typedef void (*PublishedFunction)(Span *span);

typedef struct PublishedCase {
    const char *id;
    PublishedFunction function;
} PublishedCase;

extern const PublishedCase published_squat[];
extern const size_t published_squat_count;
extern const PublishedCase published_deadlift[];
extern const size_t published_deadlift_count;
extern const PublishedCase published_bench[];
extern const size_t published_bench_count;

/* A lifter of the survey's proportions, 26 kg/m². */
PlumbLifter published_lifter(PlumbSex sex, double stature_m);

typedef enum PublishedVerdict {
    PUBLISHED_INSIDE,
    PUBLISHED_NEAR, /* one published figure, within its tolerance */
    PUBLISHED_MISSED,
    PUBLISHED_FAILED
} PublishedVerdict;

enum { PUBLISHED_MAX = 64, PUBLISHED_TEXT = 320, PUBLISHED_TABLE = 32768 };

/* A row with its answer. */
typedef struct PublishedRow {
    char id[PUBLISHED_TEXT];
    char lift[PUBLISHED_TEXT];
    char quantity[PUBLISHED_TEXT];
    char unit[PUBLISHED_TEXT];
    int decimals;
    Span published; /* NaN: none */
    Span hard;
    char conditions[PUBLISHED_TEXT];
    char source[PUBLISHED_TEXT];
    char status[PUBLISHED_TEXT];
    Span ours;
    PublishedVerdict verdict;
} PublishedRow;

/* Reads directory/published.csv and computes every row; the count of rows. Ends the program where
 * a row has no function or a function no row. */
int published_compute(const char *directory, PublishedRow row[PUBLISHED_MAX]);

/* The document that shows the table has it between these lines. */
#define PUBLISHED_BEGIN "<!-- published results: written by a program -->\n"
#define PUBLISHED_END "<!-- end of published results -->\n"

/* The table in markdown. */
void published_write(const PublishedRow *row, int count, PlumbText *text);

#endif
