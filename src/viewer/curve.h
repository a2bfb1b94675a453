/* SPDX-License-Identifier: MIT */
/* Bar travel and moment arms over the whole range of one setting, and where no pose is held. */
#ifndef PLUMBAR_VIEWER_CURVE_H
#define PLUMBAR_VIEWER_CURVE_H

#include "ruler_body.h"
#include "family.h"

enum { PLUMB_CURVE_POINTS = 65 };

typedef struct PlumbCurvePoint {
    double travel_m; /* NaN where the other end is not found */
    double arm_m[PLUMB_ARMS_MAX];
} PlumbCurvePoint;

/* One pass along the range, from a value that holds outwards to the ends of what holds. */
typedef struct PlumbCurvePass {
    int first; /* held points: first to last; none where first > last */
    int last;
    double low; /* of what holds, within the setting's range */
    double high;
    bool low_ends; /* nothing is held below low, above high */
    bool high_ends;
    int low_reason;
    int high_reason;
    PlumbCurvePoint point[PLUMB_CURVE_POINTS];
} PlumbCurvePass;

typedef enum PlumbCurvePhase {
    PLUMB_CURVE_SEED,
    PLUMB_CURVE_UP,
    PLUMB_CURVE_DOWN,
    PLUMB_CURVE_UP_ON, /* beyond where the last pass ended */
    PLUMB_CURVE_DOWN_ON,
    PLUMB_CURVE_HIGH_END,
    PLUMB_CURVE_LOW_END,
    PLUMB_CURVE_DONE
} PlumbCurvePhase;

/* A curve is cheap where poses hold and dear where none does, so it is made in small steps and what
 * the last pass found is shown meanwhile. */
typedef struct PlumbCurve {
    bool shown;          /* pass holds something to draw */
    PlumbCurvePass pass; /* what is drawn */
    bool begun;
    PlumbSetup key; /* the set-up of the pass being made, without the setting itself */
    PlumbCurvePhase phase;
    PlumbCurvePass making;
    int seed_tries;
    int hint_first; /* points that held in the last pass */
    int hint_last;
    int end_tries;
    double bad; /* nearest value beyond the end that does not hold */
} PlumbCurve;

/* Starts anew where the set-up differs from the one that the curve was made for; a lifter that
 * changed has to be said. */
void plumb_curve_aim(PlumbCurve *curve, PlumbSettingId id, const PlumbSetup *setup);
void plumb_curve_forget(PlumbCurve *curve);
/* The lifter of a curve; a ruler of the body builds others from the record. */
typedef struct PlumbCurveOf {
    const PlumbLifter *lifter;
    const PlumbLifterRecord *record;
} PlumbCurveOf;

/* One solve. `value` is the setting's present value. */
void plumb_curve_step(PlumbCurve *curve, PlumbSettingId id, PlumbCurveOf of, double value);
/* Done, or (rough) far enough to be shown. */
bool plumb_curve_done(const PlumbCurve *curve, bool rough);

/* The value at a point of the curve. */
double plumb_curve_at(PlumbSettingId id, int index);

#endif
