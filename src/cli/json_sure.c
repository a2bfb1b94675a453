/* SPDX-License-Identifier: MIT */
/* Intervals as JSON: middle and spread of every figure, and what to measure next. */
#include "json_out.h"

#include <math.h>

enum { KEY_SIZE = 96 };

/* "travel_m", "back_angle_rad": the figure with its unit. */
static const char *output_key(char key[KEY_SIZE], PlumbLift lift, int output, const char *ending)
{
    PlumbText text = plumb_text_begin(key, KEY_SIZE);
    plumb_text_string(&text, plumb_lift_output_name(lift, output));
    plumb_text_string(&text, ending);
    plumb_text_string(&text, plumb_lift_output_unit(lift, output));
    return key;
}

void plumb_json_estimate(PlumbJson json, const char *key, const PlumbEstimate *estimate)
{
    const PlumbJson object = plumb_json_object(json, key);
    plumb_json_put(object, "count", json_integer(estimate->count));
    plumb_json_number(object, "mean", estimate->mean);
    plumb_json_number(object, "sd", estimate->sd);
    plumb_json_number(object, "median", estimate->median);
    plumb_json_number(object, "low", estimate->low);
    plumb_json_number(object, "high", estimate->high);
}

/* What each measure would leave of the spread of the drawing's figures. */
static json_t *measure_next(const PlumbCliSamples *samples, const PlumbBodySpec *spec,
                            PlumbLift lift, bool *failed)
{
    enum { TOLD = 5 };
    static const int pose[TOLD] = {PLUMB_OUT_travel, PLUMB_OUT_hip_arm, PLUMB_OUT_balance,
                                   PLUMB_OUT_back_angle, PLUMB_OUT_hip_height};
    static const int press[TOLD] = {PLUMB_PRESS_OUT_travel, PLUMB_PRESS_OUT_lockout_height,
                                    PLUMB_PRESS_OUT_front_arm, PLUMB_PRESS_OUT_elbow_arm,
                                    PLUMB_PRESS_OUT_upper_arm};
    const int *const told = lift == PLUMB_BENCH ? press : pose;
    char key[KEY_SIZE];
    json_t *const list = json_array();
    for (int i = 0; i < samples->measuring_count; i++) {
        const PlumbMeasuring *const measuring = &samples->measuring[i];
        const PlumbJson one = plumb_json_begin(failed);
        plumb_json_string(one, "measure", plumb_measuring_name(measuring));
        plumb_json_string(one, "text", plumb_measuring_text(measuring));
        plumb_json_number(one, "error_sd_m", measuring->sd_m);
        plumb_json_number(one, "share_of_variance_frac", samples->share[i]);
        for (int k = 0; k < TOLD; k++) {
            plumb_json_number(one, output_key(key, lift, told[k], "_sd_after"),
                              plumb_measuring_sd_after(spec, &samples->bodies, measuring,
                                                       samples->sample, samples->count, told[k]));
        }
        json_array_append_new(list, one.object);
    }
    return list;
}

void plumb_json_intervals(PlumbJson json, const PlumbCliSamples *samples, const PlumbBodySpec *spec,
                          PlumbLift lift)
{
    if (samples->count == 0) {
        plumb_json_put(json, "intervals", json_null());
        return;
    }
    char key[KEY_SIZE];
    const PlumbIntervals *const intervals = &samples->intervals;
    const PlumbJson object = plumb_json_object(json, "intervals");
    plumb_json_put(object, "samples_count", json_integer(samples->count));
    plumb_json_put(object, "seed", json_integer((json_int_t)samples->seed));
    plumb_json_number(object, "coverage_frac", 0.95);
    plumb_json_string(object, "covers", plumb_interval_caution());
    plumb_json_number(object, "held_share_frac", intervals->held_share);
    plumb_json_number(object, "outside_window_share_frac", intervals->outside_share);
    plumb_json_number(object, "no_pose_share_frac", intervals->no_pose_share);
    const PlumbJson outputs = plumb_json_object(object, "outputs");
    for (int i = 0; i < plumb_lift_output_count(lift); i++) {
        if (plumb_lift_output_applies(lift, i)) {
            plumb_json_estimate(outputs, output_key(key, lift, i, ""), &intervals->of[i]);
        }
    }
    plumb_json_bool(object, "only_stature_and_mass_known", samples->bare);
    plumb_json_put(object, "measure_next", measure_next(samples, spec, lift, json.failed));
}
