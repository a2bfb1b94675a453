/* SPDX-License-Identifier: MIT */
/* What a table says about one length: its fraction, spread, basis and source. */
#ifndef PLUMBAR_BODY_FRACTION_H
#define PLUMBAR_BODY_FRACTION_H

#include "body/rows.h"

enum { PLUMB_SPREAD_NONE = -1 }; /* independent of all others */

typedef struct PlumbFraction {
    PlumbOf of;
    double mean; /* of what `of` names */
    double sd;
    int spread; /* PlumbSpread whose correlations hold, or PLUMB_SPREAD_NONE */
    bool may_be_negative;
    PlumbBasis basis;
    const char *source;
} PlumbFraction;

PlumbFraction plumb_fraction(PlumbSex sex, PlumbTable table, PlumbLength length);

/* The rows of which a length's fraction is the difference. plus: "" where the whole stature stands
 * in its place; minus: "" where nothing is taken off. */
typedef struct PlumbFractionRows {
    const char *file; /* of anthropometry/ */
    const char *plus;
    const char *minus;
    double plus_frac;
    double minus_frac;
} PlumbFractionRows;

PlumbFractionRows plumb_fraction_rows(PlumbSex sex, PlumbTable table, PlumbLength length);

/* The survey's length / stature, mean and spread; a share of foot or trunk carries the spread of
 * that too. */
PlumbFraction plumb_fraction_of_stature(PlumbSex sex, PlumbLength length);

/* Heights above the floor that no length is, as fractions of stature. */
double plumb_cervicale_fraction(PlumbSex sex);
double plumb_eye_fraction(void);

#endif
