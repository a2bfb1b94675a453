/* SPDX-License-Identifier: MIT */
/* plumbar path --time: the way up in motion, and what both families of lifts tell of it alike. */
#ifndef PLUMBAR_CLI_MOTION_OUT_H
#define PLUMBAR_CLI_MOTION_OUT_H

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
/* A figure whose unit stands in the column's head. */
void plumb_motion_bare(PlumbCliTable *table, double value, int decimals);

#endif
