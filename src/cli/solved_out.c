/* SPDX-License-Identifier: MIT */
/* The commands' side of what differs between the answers of the lifts. */
#include "solved_out.h"

#include "press_out.h"
#include "report.h"

void plumb_solved_head(const PlumbCliRequest *request, const PlumbSolved *solved,
                       const PlumbCliSamples *samples, PlumbUnits units, PlumbCliOutput *out)
{
    if (solved->lift == PLUMB_BENCH) {
        const PlumbPressReport report = {request, &solved->press, units, samples};
        plumb_press_report_head(&report, out);
    } else {
        const PlumbReport report = {request, &request->lifter, &solved->pose, units, samples};
        plumb_report_head(&report, out);
        plumb_report_measure_first(&report, out);
    }
}

void plumb_solved_json(PlumbJson json, const PlumbLifter *lifter, const PlumbSolved *solved)
{
    const PlumbJson body = plumb_json_begin(json.failed);
    const PlumbJson gym = plumb_json_begin(json.failed);
    plumb_json_body(body, &lifter->body);
    plumb_json_lifter(gym, lifter);
    const PlumbJsonFrame frame = {body.object, gym.object};
    if (solved->lift == PLUMB_BENCH) {
        plumb_press_json(json, lifter, &solved->press, &frame, NULL);
    } else {
        plumb_json_answer(json, &solved->pose, &frame, NULL);
    }
    json_decref(body.object);
    json_decref(gym.object);
}

void plumb_solved_csv_head(PlumbCsv *csv, PlumbLift lift)
{
    if (lift == PLUMB_BENCH) {
        plumb_press_csv_answer_head(csv);
        plumb_press_csv_position_head(csv);
    } else {
        plumb_csv_answer_head(csv, lift);
        plumb_csv_position_head(csv);
    }
}

void plumb_solved_csv(PlumbCsv *csv, const PlumbLifter *lifter, const PlumbSolved *solved)
{
    if (solved->lift == PLUMB_BENCH) {
        plumb_press_csv_answer(csv, lifter, &solved->press);
        plumb_press_csv_position(csv, &solved->press.touch);
    } else {
        plumb_csv_answer(csv, &solved->pose);
        plumb_csv_position(csv, &solved->pose.start, solved->lift);
    }
}

const char *plumb_figure_key(PlumbLift lift, int output, char key[PLUMB_FIGURE_KEY_SIZE])
{
    PlumbText text = plumb_text_begin(key, PLUMB_FIGURE_KEY_SIZE);
    plumb_lift_output_key(&text, lift, output);
    return key;
}
