/* SPDX-License-Identifier: MIT */
/* How sure the figures of a press are: bodies drawn around what is known, and their JSON. */
#include "press_out.h"

#include <stdlib.h>

enum { KEY_SIZE = 96 };

bool plumb_press_intervals_take(const PlumbCliArgs *args, const PlumbCliRequest *request, int count,
                                PlumbPressIntervals *intervals)
{
    PlumbPressSample *const sample = calloc((size_t)count, sizeof *sample);
    double *const scratch = calloc(2 * (size_t)count, sizeof *scratch);
    const bool ready = sample != NULL && scratch != NULL;
    if (ready) {
        PlumbBodies bodies;
        PlumbSampler sampler;
        plumb_bodies_around(&request->record.spec, &request->lifter.body, &bodies);
        plumb_sampler_begin(&request->lifter, &bodies, args->seed, &sampler);
        plumb_press_samples_solve(&sampler, &request->setup, 0, count, sample);
        plumb_press_intervals_sum(sample, count, scratch, intervals);
    }
    free(sample);
    free(scratch);
    return ready;
}

void plumb_press_json_intervals(PlumbJson json, const PlumbPressIntervals *intervals)
{
    if (intervals == NULL) {
        plumb_json_put(json, "intervals", json_null());
        return;
    }
    const PlumbJson object = plumb_json_object(json, "intervals");
    plumb_json_put(object, "samples_count", json_integer(intervals->sample_count));
    plumb_json_number(object, "coverage_frac", 0.95);
    plumb_json_string(object, "covers", plumb_interval_caution());
    plumb_json_number(object, "held_share_frac", intervals->held_share);
    plumb_json_number(object, "outside_window_share_frac", intervals->outside_share);
    plumb_json_number(object, "no_pose_share_frac", intervals->no_pose_share);
    const PlumbJson outputs = plumb_json_object(object, "outputs");
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        char key[KEY_SIZE];
        PlumbText text = plumb_text_begin(key, sizeof key);
        plumb_text_string(&text, plumb_press_output_name((PlumbPressOutput)o));
        plumb_text_string(&text, plumb_press_output_unit((PlumbPressOutput)o));
        const PlumbEstimate *const of = &intervals->of[o];
        const PlumbJson one = plumb_json_object(outputs, key);
        plumb_json_put(one, "count", json_integer(of->count));
        plumb_json_number(one, "mean", of->mean);
        plumb_json_number(one, "sd", of->sd);
        plumb_json_number(one, "median", of->median);
        plumb_json_number(one, "low", of->low);
        plumb_json_number(one, "high", of->high);
    }
}

void plumb_press_csv_intervals_head(PlumbCsv *csv)
{
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        plumb_csv_bounds_head(csv, plumb_press_output_name((PlumbPressOutput)o),
                              plumb_press_output_unit((PlumbPressOutput)o));
    }
}

void plumb_press_csv_intervals(PlumbCsv *csv, const PlumbPressIntervals *intervals)
{
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        plumb_csv_bounds(csv, intervals != NULL ? &intervals->of[o] : NULL);
    }
}
