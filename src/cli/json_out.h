/* SPDX-License-Identifier: MIT */
/* Bodies, set-ups and answers as JSON: SI, a unit in every key, null where there is no figure. */
#ifndef PLUMBAR_CLI_JSON_OUT_H
#define PLUMBAR_CLI_JSON_OUT_H

#include "output.h"
#include "samples.h"

#include <plumbar/solve.h>

#include <jansson.h>
#include <stdbool.h>

/* An object being filled. The first failure (only memory can fail) stays in *failed. */
typedef struct PlumbJson {
    json_t *object;
    bool *failed;
} PlumbJson;

/* A new empty object; the caller owns .object. */
PlumbJson plumb_json_begin(bool *failed);

/* Each sets one key. A number that is not finite becomes null, -0 becomes 0. */
void plumb_json_number(PlumbJson json, const char *key, double value);
void plumb_json_string(PlumbJson json, const char *key, const char *value);
void plumb_json_bool(PlumbJson json, const char *key, bool value);
/* Takes the value over. */
void plumb_json_put(PlumbJson json, const char *key, json_t *value);
/* A point or direction as [x, y, z]. */
void plumb_json_vector(PlumbJson json, const char *key, PlumbVec3 vector);
/* A new object under key; borrowed. */
PlumbJson plumb_json_object(PlumbJson json, const char *key);

/* The keys of `body` and of `lifter` (limits, strength, equipment) put into json. */
void plumb_json_body(PlumbJson json, const PlumbBody *body);
void plumb_json_lifter(PlumbJson json, const PlumbLifter *lifter);
/* The keys of `setup`: all that the lift uses. */
void plumb_json_setup(PlumbJson json, const PlumbSetup *setup);
/* low, high and what ends them; `lift` decides the unit. */
void plumb_json_interval(PlumbJson json, const char *key, const PlumbInterval *interval,
                         PlumbLift lift);
/* The list `findings`. */
void plumb_json_findings(PlumbJson json, const PlumbFinding *finding, int count);
/* The keys of one position, from `pose` to `extrapolated`. */
void plumb_json_position(PlumbJson json, const PlumbPosition *position, PlumbLift lift);

/* What an answer is printed with. body and gym are the values of `body` and `lifter`, borrowed. */
typedef struct PlumbJsonFrame {
    json_t *body;
    json_t *gym;
} PlumbJsonFrame;

/* The whole answer to a set-up. at: the step of a path whose position stands in place of the
 * start's; NULL for the set-up itself, which also has `end`. */
void plumb_json_answer(PlumbJson json, const PlumbAnswer *answer, const PlumbJsonFrame *frame,
                       const PlumbPathPoint *at);

/* Middle and spread of a figure as the object `key`. */
void plumb_json_estimate(PlumbJson json, const char *key, const PlumbEstimate *estimate);
/* The key `intervals`: null where none were asked for. */
void plumb_json_intervals(PlumbJson json, const PlumbCliSamples *samples, const PlumbBodySpec *spec,
                          PlumbLift lift);

/* Prints json.object and gives it back; indent 0 prints it on one line. */
void plumb_json_print(PlumbJson json, size_t indent, PlumbCliOutput *out);

#endif
