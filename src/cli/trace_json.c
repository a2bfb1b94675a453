/* SPDX-License-Identifier: MIT */
/* A still as JSON: SI, a unit in every key. */
#include "json_out.h"
#include "own_start.h"
#include "trace_still.h"

#include <plumbar/advice.h>

#include <math.h>

static const char *key_of(char *key, size_t size, const char *name, const char *unit)
{
    PlumbText text = plumb_text_begin(key, size);
    plumb_text_string(&text, name);
    plumb_text_string(&text, unit);
    return key;
}

static void put_figures(PlumbJson json, const PlumbCliStill *still, int index)
{
    const PlumbTraced *const traced = &still->all.trace.still[index];
    const PlumbJson figures = plumb_json_object(json, "figures");
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        const PlumbReading reading = (PlumbReading)i;
        char key[96];
        const bool press = still->request.lift == PLUMB_BENCH;
        if (press ? !plumb_stills_shows(&still->all, index, reading)
                  : !plumb_reading_applies(reading, still->request.lift)) {
            continue;
        }
        const char *const unit = plumb_reading_unit(plumb_reading_quantity(reading));
        const PlumbJson one = plumb_json_object(figures, plumb_reading_name(reading));
        plumb_json_number(one, key_of(key, sizeof key, "value", unit), traced->value[i]);
        plumb_json_number(one, key_of(key, sizeof key, "sd", unit), traced->sd[i]);
        plumb_json_number(one, key_of(key, sizeof key, "minus_model", unit),
                          plumb_stills_difference(&still->all, index, reading));
    }
}

static void put_findings(PlumbJson json, const PlumbCliStill *still, int index)
{
    json_t *const list = json_array();
    for (int i = 0; i < still->all.finding_count[index]; i++) {
        const PlumbStillFinding *const finding = &still->all.finding[index][i];
        const char *const unit = plumb_reading_unit(finding->what.quantity);
        char key[64];
        char words[PLUMB_FINDING_TEXT_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_finding_text(&text, &finding->what, PLUMB_METRIC);
        PlumbJson one = plumb_json_begin(json.failed);
        plumb_json_string(one, "id", plumb_finding_name(finding->what.id));
        plumb_json_string(one, "severity",
                          finding->what.severity == PLUMB_WARNING ? "warning" : "note");
        plumb_json_number(one, key_of(key, sizeof key, "value", unit), finding->what.value);
        plumb_json_number(one, key_of(key, sizeof key, "sd", unit), finding->sd);
        plumb_json_number(one, key_of(key, sizeof key, "limit", unit), finding->what.limit);
        plumb_json_string(one, "text", words);
        PlumbSettingId setting[PLUMB_SETTING_COUNT];
        const int count = plumb_finding_settings(finding->what.id, still->request.lift, setting);
        json_t *const settings = json_array();
        for (int k = 0; k < count; k++) {
            json_array_append_new(settings, json_string(plumb_setting(setting[k])->key));
        }
        plumb_json_put(one, "settings", settings);
        plumb_json_put(one, "may_go_with",
                       finding->with < 0 ? json_null()
                                         : json_string(plumb_finding_name(
                                               still->all.finding[index][finding->with].what.id)));
        json_array_append_new(list, one.object);
    }
    plumb_json_put(json, "findings", list);
}

static void put_camera(PlumbJson json, const PlumbTraced *traced)
{
    const PlumbJson camera = plumb_json_object(json, "camera");
    plumb_json_number(camera, "focal_px", traced->camera.focal_px);
    plumb_json_number(camera, "distance_m", traced->camera.distance_m);
    plumb_json_number(camera, "distance_sd_m", traced->distance_sd_m);
    plumb_json_number(camera, "height_m", traced->camera.height_m);
    plumb_json_number(camera, "along_m", traced->camera.along_m);
    plumb_json_number(camera, "yaw_rad", traced->camera.yaw_rad);
    plumb_json_number(camera, "yaw_sd_rad", traced->yaw_sd_rad);
    plumb_json_number(camera, "pitch_rad", traced->camera.pitch_rad);
    plumb_json_number(camera, "roll_rad", traced->camera.roll_rad);
}

/* Every landmark of the near side where the fit sees it, px of the picture as it is. */
static void put_landmarks(PlumbJson json, const PlumbCliStill *still, int index)
{
    const PlumbJson marks = plumb_json_object(json, "landmarks_px");
    const bool front = still->all.trace.still[index].front;
    for (int i = 0; i <= PLUMB_MARK_disc_centre; i++) {
        for (int far = 0; far < 2; far++) {
            char name[64];
            const PlumbMarkName mark = {(PlumbLandmark)i, far == 1 ? PLUMB_FAR : PLUMB_NEAR, front};
            PlumbText text = plumb_text_begin(name, sizeof name);
            const bool lying =
                still->request.lift == PLUMB_BENCH && mark.landmark < PLUMB_MARK_shoulder;
            if (mark.landmark == PLUMB_MARK_disc || lying) {
                continue;
            }
            plumb_mark_name_text(&text, mark);
            const PlumbVec2 at =
                plumb_trace_pixel(&still->all.ask, &still->all.trace.still[index], mark);
            const double x =
                still->all.mirrored[index] ? still->all.ask.size_px[index].x - at.x : at.x;
            plumb_json_put(marks, name, json_pack("[f,f]", x, at.y));
        }
    }
}

/* The arm of a press, and the press that it is held against. */
static void put_press(PlumbJson json, const PlumbCliStill *still, int index)
{
    static const char *const stages[] = {[PLUMB_PRESS_AT_TOUCH] = "touch",
                                         [PLUMB_PRESS_ON_THE_WAY] = "on_the_way",
                                         [PLUMB_PRESS_AT_LOCKOUT] = "lockout"};
    const PlumbPressAnswer *const press = &still->all.press[index];
    const bool held = press->outcome != PLUMB_NO_POSE;
    const PlumbJson joints = plumb_json_object(json, "joints_m");
    for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
        plumb_json_vector(joints, plumb_press_point_name((PlumbPressPoint)i),
                          still->all.trace.still[index].press.point[i]);
    }
    plumb_json_string(json, "stage", stages[still->all.stage[index]]);
    const PlumbJson model = plumb_json_object(json, "model");
    plumb_json_string(model, "outcome", plumb_outcome_name(press->outcome));
    plumb_json_bool(model, "led_by_picture", still->all.led[index]);
    plumb_json_number(model, "grip_m", press->setup.grip_m);
    plumb_json_number(model, "touch_m", press->setup.touch_m);
    plumb_json_number(model, "lockout_over_m", press->setup.lockout_over_m);
    plumb_json_interval(model, "window", &press->window, PLUMB_BENCH);
    plumb_json_interval(model, "low_effort_range", &press->low_effort, PLUMB_BENCH);
    plumb_json_number(model, "rise_frac", held ? still->all.beside[index].rise_frac : (double)NAN);
}

static json_t *still_object(const PlumbCliStill *still, int index, bool *failed)
{
    const PlumbTraced *const traced = &still->all.trace.still[index];
    const PlumbJson json = plumb_json_begin(failed);
    plumb_json_string(json, "picture", still->all.marks.picture[index]);
    plumb_json_string(json, "view", plumb_traced_view(traced));
    plumb_json_bool(json, "mirrored", still->all.mirrored[index]);
    plumb_json_number(json, "mark_count", traced->mark_count);
    plumb_json_number(json, "misfit", traced->misfit);
    put_camera(json, traced);
    if (still->request.lift == PLUMB_BENCH) {
        put_press(json, still, index);
    } else {
        plumb_json_position(json, &traced->position, still->request.lift);
    }
    put_figures(json, still, index);
    put_findings(json, still, index);
    PlumbStillStart start;
    if (plumb_still_start(still, index, PLUMB_METRIC, &start)) {
        plumb_json_own_start(json, &start.own);
    }
    json_t *const open = json_array();
    for (int i = 0; i < PLUMB_UNSEEN_COUNT; i++) {
        if ((traced->unseen & (1U << i)) != 0) {
            json_array_append_new(open, json_string(plumb_unseen_name((PlumbUnseen)i)));
        }
    }
    plumb_json_put(json, "leaves_open", open);
    put_landmarks(json, still, index);
    return json.object;
}

void plumb_still_json(const PlumbCliStill *still, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "lift", plumb_lift_name(still->request.lift));
    plumb_json_bool(json, "converged", still->all.trace.converged);
    json_t *const list = json_array();
    for (int i = 0; i < still->all.trace.still_count; i++) {
        json_array_append_new(list, still_object(still, i, &failed));
    }
    plumb_json_put(json, "stills", list);
    const PlumbJson lengths = plumb_json_object(json, "lengths");
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbJson one = plumb_json_object(lengths, plumb_length_name((PlumbLength)i));
        plumb_json_number(one, "length_m", still->all.trace.body.mean_m[i]);
        plumb_json_number(one, "sd_m", sqrt(fmax(still->all.trace.body.cov_m2[i][i], 0.0)));
        plumb_json_number(one, "before_m", still->all.body.mean_m[i]);
        plumb_json_number(one, "before_sd_m", sqrt(fmax(still->all.body.cov_m2[i][i], 0.0)));
    }
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}
