/* SPDX-License-Identifier: MIT */
/* plumbar path --time: the way up in motion, and what both families of lifts tell of it alike. */
#ifndef PLUMBAR_CLI_MOTION_OUT_H
#define PLUMBAR_CLI_MOTION_OUT_H

#include "csv_out.h"
#include "json_out.h"
#include "request.h"
#include "text_out.h"

/* Solves the request, lets it move over its rep_time, and prints what args ask for. */
PlumbCliExit plumb_cli_motion(const PlumbCliArgs *args, const PlumbCliRequest *request,
                              PlumbCliFault *fault);

/* The greatest net moment of a joint in motion, N m, when, and that of the same poses at rest. */
typedef struct PlumbCliPeak {
    const char *key; /* of JSON */
    const char *words;
    double moving_n_m;
    double t_s;
    double rest_n_m;
} PlumbCliPeak;

/* Speeds and power of a way up. */
typedef struct PlumbCliPace {
    double rep_time_s;
    double mean_bar_speed_m_s;
    double peak_bar_speed_m_s;
    double peak_power_w;
} PlumbCliPace;

void plumb_motion_print_peaks(const PlumbCliPeak *peak, int count, PlumbUnits units,
                              PlumbCliOutput *out);
/* "Bar speed 0.141 m/s on average, 0.265 m/s at most" */
void plumb_motion_speed_words(PlumbText *text, const PlumbCliPace *pace);
/* each: "_both" where the moments are of both sides together, "" of one. */
void plumb_motion_json_pace(PlumbJson object, const PlumbCliPace *pace);
void plumb_motion_json_peaks(PlumbJson object, const PlumbCliPeak *peak, int count,
                             const char *each);
/* "motion_moment_both_hip_n_m": head of a column; each as above, or "". */
void plumb_motion_csv_moment(PlumbCsv *csv, const char *each, const char *joint);
/* A figure whose unit stands in the column's head. */
void plumb_motion_bare(PlumbCliTable *table, double value, int decimals);

/* A way up of either family; the family's own follows in the struct that begins with this. */
typedef struct PlumbCliMotion {
    const PlumbCliRequest *request;
    void *point; /* the instants, of the family's type */
    int count;   /* 0 where there is no start or no end */
    bool held;   /* at every instant */
} PlumbCliMotion;

/* What a family of lifts does with its own. */
typedef struct PlumbCliMotionForm {
    size_t point_size;
    PlumbStatus (*solve)(const PlumbCliArgs *args, PlumbCliMotion *motion, PlumbCliFault *fault);
    void (*text)(const PlumbCliMotion *motion, PlumbUnits units, PlumbCliOutput *out);
    /* The answer at rest in the pose of an instant, with what moves; of 0 also where none is. */
    void (*json)(const PlumbCliMotion *motion, int instant, const PlumbJsonFrame *frame,
                 PlumbJson json);
    void (*csv_head)(PlumbCsv *csv);
    void (*csv_row)(const PlumbCliMotion *motion, int instant, PlumbCsv *csv);
} PlumbCliMotionForm;

/* Solves the motion, which holds its request, and prints what args ask for. */
PlumbCliExit plumb_motion_run(const PlumbCliArgs *args, const PlumbCliMotionForm *form,
                              PlumbCliMotion *motion, PlumbCliFault *fault);

#endif
