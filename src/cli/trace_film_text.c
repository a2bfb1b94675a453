/* SPDX-License-Identifier: MIT */
/* A film in words and tables: camera, marks in doubt, findings. */
#include "report.h"
#include "trace_film.h"

#include <plumbar/advice.h>

#include <math.h>

enum { LINE_SIZE = 1024 };

static void print_film(const PlumbCliFilm *film, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Film     ");
    plumb_text_string(&text, film->film_path);
    plumb_text_string(&text, ", from the ");
    plumb_text_string(&text, plumb_film_view(&film->read->series));
    plumb_text_string(&text, film->read->series.end_view ? " end; " : "; ");
    plumb_text_string(&text, plumb_lift_name(film->request.lift));
    plumb_text_string(&text, "; ");
    plumb_text_integer(&text, film->read->frame_count);
    plumb_text_string(&text, " frames of ");
    plumb_text_integer(&text, film->read->width_px);
    plumb_text_string(&text, " x ");
    plumb_text_integer(&text, film->read->height_px);
    plumb_text_string(&text, ", ");
    plumb_text_fixed(&text, film->read->series.rate_hz, 1);
    plumb_text_string(&text, " a second");
    plumb_text_string(&text,
                      film->read->mirror_width_px > 0.0
                          ? (film->request.lift == PLUMB_BENCH ? "; the lifter's feet are left"
                                                               : "; the lifter faces left")
                          : "");
    plumb_print_wrapped(out, line, 9);
    if (plumb_frames_lost(film->read->frames)[0] != '\0') {
        text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "Missing  ");
        plumb_text_string(&text, plumb_frames_lost(film->read->frames));
        plumb_print_wrapped(out, line, 9);
    }
}

static void print_camera(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbSeries *const series = &film->read->series;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Camera   ");
    if (!series->front) {
        const PlumbTraced *const traced = &series->trace.still[0];
        plumb_text_fixed(&text, traced->camera.distance_m, 1);
        plumb_text_string(&text, " m away (± ");
        plumb_text_fixed(&text, traced->distance_sd_m, 1);
        plumb_text_string(&text, " m), turned ");
        plumb_text_quantity(&text, plumb_traced_turn_rad(traced), PLUMB_Q_ANGLE, units);
        plumb_text_string(&text, " (± ");
        plumb_text_quantity(&text, traced->yaw_sd_rad, PLUMB_Q_ANGLE, units);
        plumb_text_string(&text, "); ");
    }
    plumb_text_string(&text, plumb_steady_text(film->read->tracks.steady));
    if (film->read->tracks.steady == PLUMB_SHAKEN) {
        plumb_text_string(&text, " (up to ");
        plumb_text_fixed(&text, film->read->tracks.moved_px, 1);
        plumb_text_string(&text, " px)");
    }
    plumb_print_wrapped(out, line, 9);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Fit      ");
    if (!series->front) {
        plumb_text_string(&text, "body and camera from ");
        plumb_text_integer(&text, series->key_count);
        plumb_text_string(&text, " frames, marks missed by ");
        plumb_text_fixed(&text, series->misfit, 2);
        plumb_text_string(&text, " of their error; ");
    }
    plumb_text_integer(&text, series->unknown_count);
    plumb_text_string(&text, series->unknown_count == 1 ? " frame" : " frames");
    plumb_text_string(&text, " filled in from the neighbours; smoothed at ");
    plumb_text_fixed(&text, series->cutoff_hz[0], 1);
    plumb_text_string(&text, " Hz (bar) and ");
    plumb_text_fixed(&text, series->cutoff_hz[1], 1);
    plumb_text_string(&text, " Hz (body)");
    if (series->misfit > 2.0) {
        plumb_text_string(&text, ". The misses are too much for chance: look for a mark on the "
                                 "wrong joint or side, facing=, and the discs' size");
    }
    plumb_print_wrapped(out, line, 9);
}

/* The most that trusted frames of a track tell its marks to differ by, px; 0: by no more than what
 * following leaves. */
static double marks_differ_px(const PlumbCliFilm *film, int track)
{
    double most = plumb_track_meet_px(film->read->follow.radius_px[track]);
    bool found = false;
    for (int f = 0; f < film->read->frame_count; f++) {
        const PlumbTrackPoint *const point = plumb_film_point(film->read, track, f);
        if (point->doubts == 0 && point->apart_px > most) {
            most = point->apart_px;
            found = true;
        }
    }
    return found ? most : 0.0;
}

static void print_marks(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrrl", units);
    plumb_print_heading(out, "Marks followed");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "marked in");
    plumb_table_text(&table, "in doubt");
    plumb_table_text(&table, "");
    for (int t = 0; t < film->read->track_count; t++) {
        char cell[PLUMB_CELL_SIZE];
        int from;
        int to;
        int marked = 0;
        const int doubtful = plumb_film_doubtful(film->read, t, &from, &to);
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        for (int i = 0; i < film->read->follow.anchor_count; i++) {
            marked += film->read->anchor[i].track == t;
        }
        plumb_mark_name_text(&text, film->read->track[t].name);
        plumb_table_text(&table, cell);
        text = plumb_text_begin(cell, sizeof cell);
        plumb_text_integer(&text, marked);
        plumb_table_text(&table, cell);
        text = plumb_text_begin(cell, sizeof cell);
        plumb_text_integer(&text, doubtful);
        plumb_table_text(&table, cell);
        text = plumb_text_begin(cell, sizeof cell);
        if (doubtful > 0) {
            const unsigned doubts = plumb_film_point(film->read, t, from)->doubts;
            int first = 0;
            while ((doubts & (1U << first)) == 0) {
                first++;
            }
            plumb_text_string(&text, "most in frames ");
            plumb_text_integer(&text, from);
            plumb_text_string(&text, " to ");
            plumb_text_integer(&text, to);
            plumb_text_string(&text, ": ");
            plumb_text_string(&text, plumb_doubt_text((PlumbDoubt)first));
        }
        const double differ_px = marks_differ_px(film, t);
        if (differ_px > 0.0) {
            plumb_text_string(&text, doubtful > 0 ? "; " : "");
            plumb_text_string(&text, "marked on spots ");
            plumb_text_fixed(&text, differ_px, 0);
            plumb_text_string(&text, " px apart");
        }
        plumb_table_text(&table, cell);
    }
    plumb_table_end(&table, 2, out);
}

/* The command that ranks what bears on a finding. */
static void put_try(const PlumbFilmFinding *finding, PlumbLift lift, PlumbText *text)
{
    PlumbAim aim;
    if (plumb_finding_aim(finding->what.id, lift, &aim)) {
        plumb_text_string(text, " Ranked by: plumbar try ");
        plumb_text_string(text, plumb_lift_name(lift));
        plumb_text_string(text, " ... --for ");
        plumb_text_string(text, plumb_finding_name(finding->what.id));
        plumb_text_string(text, ".");
    }
}

static void print_finding(const PlumbCliFilm *film, int index, PlumbUnits units,
                          PlumbCliOutput *out)
{
    const PlumbFilmFinding *const finding = &film->read->finding[index];
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, finding->what.severity == PLUMB_WARNING ? "  ! " : "  - ");
    plumb_film_finding_text(&text, film->read, index, units);
    put_try(finding, film->request.lift, &text);
    plumb_print_wrapped(out, line, 4);
}

/* Everything that was asked, with its figure: what is within its threshold is said too. */
static void print_answers(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out)
{
    static const char *const verdicts[] = {[PLUMB_FILM_CLEAR] = "within it",
                                           [PLUMB_FILM_UNSURE] =
                                               "beyond it, but not for sure: nothing is said of it",
                                           [PLUMB_FILM_BEYOND] = "beyond it",
                                           [PLUMB_FILM_NOT_SEEN] = "the film does not show it"};
    PlumbCliTable table = plumb_table_begin("lrrrl", units);
    plumb_print_heading(out, "What was asked");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "film");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "threshold");
    plumb_table_text(&table, "");
    for (int i = 0; i < film->read->finding_count; i++) {
        const PlumbFilmFinding *const f = &film->read->finding[i];
        char cell[PLUMB_CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_table_text(&table, plumb_film_limit_text(f->limit));
        plumb_table_value(&table, f->what.value, f->what.quantity);
        if (isfinite(f->sd)) {
            plumb_text_string(&text, "± ");
            plumb_text_quantity(&text, f->sd, f->what.quantity, units);
        }
        plumb_table_text(&table, cell);
        plumb_table_value(&table, f->what.limit, f->what.quantity);
        plumb_table_text(&table, verdicts[f->verdict]);
    }
    plumb_table_end(&table, 2, out);
}

void plumb_film_text(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out)
{
    int remarked = 0;
    plumb_print_lifter(&film->request, units, out);
    print_film(film, out);
    print_camera(film, units, out);
    print_marks(film, units, out);
    plumb_film_events(film, units, out);
    plumb_print_heading(out, "Findings");
    for (int i = 0; i < film->read->finding_count; i++) {
        if (film->read->finding[i].verdict == PLUMB_FILM_BEYOND) {
            print_finding(film, i, units, out);
            remarked++;
        }
    }
    if (remarked == 0) {
        plumb_output_string(out, "  nothing found that the spread does not cover\n");
    }
    print_answers(film, units, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(
        out,
        "± is one standard deviation: noise that smoothing leaves, marks that "
        "slide, and for places along foot or bench the camera. Heights are those of "
        "joint centres. Thresholds are common practice without a source. Ask "
        "before you film or share other people, above all minors.",
        0);
}
