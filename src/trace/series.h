/* SPDX-License-Identifier: MIT */
/* What the parts of reading a film share: raw values of every frame and room to work in. */
#ifndef PLUMB_TRACE_SERIES_H
#define PLUMB_TRACE_SERIES_H

#include "trace/fit.h"

#include <plumbar/series.h>

/* Raw values of a frame, one array each. */
typedef enum SeriesPart {
    PART_HIP_X,
    PART_HIP_Y,
    PART_LEAN,
    PART_SPINE, /* of a press the upper arm's angle to the trunk, for its noise */
    PART_KNEES_OUT,
    PART_BAR_X,
    PART_BAR_Y,
    PART_SLIP,
    PART_COUNT
} SeriesPart;

typedef struct SeriesRoom {
    PlumbTraceWork work;
    PlumbMarks marks;                   /* of one frame, or of the key frames */
    PlumbMarks left[PLUMB_SERIES_KEYS]; /* of each key frame, what a pose could meet */
    double theta[PLUMB_TRACE_UNKNOWNS];
    Fit joint;  /* of the key frames */
    Fit single; /* of one frame, body and camera held */
} SeriesRoom;

/* A film while it is read. */
typedef struct Reading {
    const PlumbSeriesAsk *ask;
    SeriesRoom *room;
    double *part[PART_COUNT]; /* [frame_count] */
    double *even;             /* [frame_count] */
    double *spare;            /* [2 * frame_count + 2 * PLUMB_FILTER_EDGE] */
    PlumbTraceAsk still;      /* with marks and place as of this film */
    double lead_from_px;      /* where the lead is at first, */
    double lead_way_px;       /* and how far it goes to where the lift turns */
    bool end_view;            /* of a press, and */
    double touch_m;           /* its touch as the model has it */
    PlumbSeries *series;
} Reading;

/* The track of a landmark, -1 where there is none. */
int plumb_reading_track(const Reading *reading, PlumbLandmark landmark, PlumbNear near);
/* The track that shows how high the lift is: bar, disc, hip; -1. */
int plumb_reading_lead(const Reading *reading);

/* Marks of what is trusted in a frame are added as those of a still; returns how many landmarks. */
int plumb_reading_add(const Reading *reading, int frame, int still, PlumbMarks *marks);
/* The same of what does not move. */
void plumb_reading_add_fixed(const Reading *reading, int still, PlumbMarks *marks);
/* room->marks become those of one frame alone. */
int plumb_reading_one(Reading *reading, int frame);
/* Chooses series->key: frames on the way to where the lift turns. */
PlumbStatus plumb_reading_keys(Reading *reading, PlumbError *error);

/* Body and camera from the key frames, then a pose in every frame into the parts. */
PlumbStatus plumb_reading_fit(Reading *reading, PlumbError *error);
/* A series brought to even steps, smoothed and brought back; *cutoff_hz: 0 to be found. Returns
 * what is left of its noise: root mean square of what was taken away, times the share of the noise
 * that lies below the cut-off. */
double plumb_reading_smooth(const Reading *reading, double *x, double *cutoff_hz);
/* How far marks on the body slide: median of what the two ways of following differ by, over the
 * trusted frames of a mark, half of it, mean of all such marks; 3 mm at least. Uses `even`. */
double plumb_reading_slide_m(const Reading *reading, double px_per_m);
/* Parts smoothed, and every frame described. */
void plumb_reading_describe(Reading *reading);
/* Frames of a view from the front. */
PlumbStatus plumb_reading_front(Reading *reading, PlumbError *error);
/* Slope of a frame's value by time. */
void plumb_reading_events(const Reading *reading);

/* Fills what is NaN in x[count] from its known neighbours; false where nothing is known. */
bool plumb_series_fill(const double *time_s, double *x, int count);

#endif
