/* SPDX-License-Identifier: MIT */
/* A film as JSON, and its series as CSV: SI, a unit in every key and column. */
#include "csv_out.h"
#include "json_out.h"
#include "trace_film.h"

#include <plumbar/advice.h>

#include <math.h>

void plumb_film_csv(const PlumbCliFilm *film, PlumbCliOutput *out)
{
    const PlumbSeries *const series = &film->read->series;
    const int columns = plumb_film_columns(series);
    PlumbCsv csv = {out, false};
    plumb_csv_text(&csv, "frame");
    plumb_csv_text(&csv, "time_s");
    for (int i = 0; i < columns; i++) {
        plumb_csv_text(&csv, plumb_film_column_name(series, i));
    }
    plumb_csv_row_end(&csv);
    for (int f = 0; f < series->frame_count; f++) {
        plumb_csv_number(&csv, f);
        plumb_csv_number(&csv, series->frame[f].time_s);
        for (int i = 0; i < columns; i++) {
            plumb_csv_number(&csv, plumb_film_column_value(series, i, f));
        }
        plumb_csv_row_end(&csv);
    }
}

static json_t *track_object(const PlumbCliFilm *film, int t, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    char name[64];
    PlumbText text = plumb_text_begin(name, sizeof name);
    plumb_mark_name_text(&text, film->read->track[t].name);
    plumb_json_string(json, "landmark", name);
    json_t *const places = json_array();
    for (int f = 0; f < film->read->frame_count; f++) {
        const PlumbTrackPoint *const p = plumb_film_point(film->read, t, f);
        const PlumbJson one = plumb_json_begin(failed);
        json_t *const why = json_array();
        plumb_json_number(one, "frame", f);
        plumb_json_number(one, "x_px", p->at_px.x);
        plumb_json_number(one, "y_px", p->at_px.y);
        plumb_json_number(one, "sure_frac", p->sure_frac);
        plumb_json_number(one, "apart_px", p->apart_px);
        plumb_json_bool(one, "marked", p->marked);
        for (int i = 0; i < PLUMB_DOUBT_COUNT; i++) {
            if ((p->doubts & (1U << i)) != 0) {
                json_array_append_new(why, json_string(plumb_doubt_name((PlumbDoubt)i)));
            }
        }
        plumb_json_put(one, "doubts", why);
        if (p->known) {
            json_array_append_new(places, one.object);
        } else {
            json_decref(one.object);
        }
    }
    plumb_json_put(json, "places", places);
    return json.object;
}

static json_t *finding_object(const PlumbCliFilm *film, const PlumbFilmFinding *finding,
                              bool *failed)
{
    static const char *const verdicts[] = {"clear", "unsure", "beyond", "not_seen"};
    const PlumbQuantity quantity = finding->what.quantity;
    const PlumbJson json = plumb_json_begin(failed);
    const bool angle = quantity == PLUMB_Q_ANGLE;
    const bool length = quantity == PLUMB_Q_LENGTH;
    plumb_json_string(json, "id", plumb_finding_name(finding->what.id));
    plumb_json_string(json, "verdict", verdicts[finding->verdict]);
    plumb_json_number(json,
                      angle    ? "value_rad"
                      : length ? "value_m"
                               : "value_frac",
                      finding->what.value);
    plumb_json_number(json, angle ? "sd_rad" : length ? "sd_m" : "sd_frac", finding->sd);
    plumb_json_number(json,
                      angle    ? "threshold_rad"
                      : length ? "threshold_m"
                               : "threshold_frac",
                      finding->what.limit);
    plumb_json_number(json, "frame", finding->frame >= 0 ? finding->frame : (double)NAN);
    json_t *const list = json_array();
    PlumbSettingId setting[PLUMB_SETTING_COUNT];
    const int count = plumb_finding_settings(finding->what.id, film->request.lift, setting);
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, json_string(plumb_setting(setting[i])->key));
    }
    plumb_json_put(json, "settings", list);
    return json.object;
}

static void put_events(const PlumbCliFilm *film, PlumbJson json)
{
    const PlumbJson events = plumb_json_object(json, "events");
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        const PlumbJson one = plumb_json_object(events, plumb_event_name((PlumbEvent)i));
        const int frame = film->read->series.event_frame[i];
        plumb_json_number(one, "time_s", film->read->series.event_s[i]);
        plumb_json_number(one, "frame", frame >= 0 ? frame : (double)NAN);
    }
}

static void put_frames(const PlumbCliFilm *film, PlumbJson json, bool *failed)
{
    const PlumbSeries *const series = &film->read->series;
    const int columns = plumb_film_columns(series);
    const bool press = series->lift == PLUMB_BENCH;
    const int known = 0; /* columns that are no numbers here */
    const int elbow_seen = press ? 2 : -1;
    json_t *const list = json_array();
    for (int f = 0; f < film->read->frame_count; f++) {
        const PlumbSeriesFrame *const frame = &film->read->series.frame[f];
        const PlumbJson one = plumb_json_begin(failed);
        plumb_json_number(one, "time_s", frame->time_s);
        for (int i = 0; i < columns; i++) {
            const char *const name = plumb_film_column_name(series, i);
            const double value = plumb_film_column_value(series, i, f);
            if (i == known || i == elbow_seen) {
                plumb_json_bool(one, name, value > 0.0);
            } else {
                plumb_json_number(one, name, value);
            }
        }
        json_array_append_new(list, one.object);
    }
    plumb_json_put(json, "frames", list);
}

void plumb_film_json(const PlumbCliFilm *film, PlumbCliOutput *out)
{
    const PlumbSeries *const series = &film->read->series;
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "lift", plumb_lift_name(series->lift));
    plumb_json_string(json, "view", plumb_film_view(series));
    plumb_json_string(json, "camera", plumb_steady_name(film->read->tracks.steady));
    plumb_json_number(json, "camera_moved_px", film->read->tracks.moved_px);
    plumb_json_number(json, "rate_hz", series->rate_hz);
    plumb_json_number(json, "cutoff_bar_hz", series->cutoff_hz[0]);
    plumb_json_number(json, "cutoff_body_hz", series->cutoff_hz[1]);
    plumb_json_number(json, "misfit", series->misfit);
    plumb_json_number(json, "filled_in_count", series->unknown_count);
    put_events(film, json);
    json_t *const findings = json_array();
    for (int i = 0; i < film->read->finding_count; i++) {
        json_array_append_new(findings, finding_object(film, &film->read->finding[i], &failed));
    }
    plumb_json_put(json, "findings", findings);
    put_frames(film, json, &failed);
    json_t *const tracks = json_array();
    for (int t = 0; t < film->read->track_count; t++) {
        json_array_append_new(tracks, track_object(film, t, &failed));
    }
    plumb_json_put(json, "tracks", tracks);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}
