/* SPDX-License-Identifier: MIT */
/* A film in words: what is being done, the figures of the frame on show, events, findings. */
#include "reel.h"

#include "page_trace.h"

#include <plumbar/advice.h>

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

void plumb_reel_say(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL) {
        return;
    }
    if (reel->why[0] != '\0') {
        plumb_text_string(text, "The film is not shown: ");
        plumb_text_string(text, reel->why);
        plumb_text_string(text, ". ");
        return;
    }
    if (!reel->known) {
        plumb_text_string(text, "looking through the film, ");
        plumb_text_fixed(text, 100.0 * reel->looked_frac, 0);
        plumb_text_string(text, " %. ");
        return;
    }
    plumb_text_string(text, "frame ");
    plumb_text_integer(text, desk->now.marked.still);
    plumb_text_string(text, " of ");
    plumb_text_integer(text, reel->frame_count - 1);
    if (reel->shown != desk->now.marked.still && reel->pace == PLUMB_PACE_STILL) {
        plumb_text_string(text, reel->shown >= 0 ? " (still on its way; the last one is shown)"
                                                 : " (still on its way)");
    }
    plumb_text_string(text, reel->pace == PLUMB_PACE_REAL   ? ", playing"
                            : reel->pace == PLUMB_PACE_SLOW ? ", playing at a quarter speed"
                                                            : "");
    plumb_text_string(text, ". ");
    if (reel->reading || reel->drawing) {
        plumb_text_string(text, plumb_film_step_text(reel->step));
        plumb_text_string(text, ", ");
        plumb_text_fixed(text, 100.0 * reel->done_frac, 0);
        plumb_text_string(text, " %; O stops. ");
    } else if (plumb_reel_stale(desk) && plumb_trace_refusal(desk) == NULL) {
        plumb_text_string(text, "Marks or questions have changed: O follows again. ");
    }
    if (reel->lost[0] != '\0') {
        plumb_text_string(text, "Missing: ");
        plumb_text_string(text, reel->lost);
        plumb_text_string(text, ". ");
    }
}

bool plumb_reel_say_row(const PlumbDesk *desk, PlumbMarkName name, PlumbText *text)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL || reel->read == NULL || desk->now.marked.still >= reel->read->frame_count) {
        return false;
    }
    const bool rim = name.landmark == PLUMB_MARK_disc;
    name.landmark = rim ? PLUMB_MARK_disc_centre : name.landmark;
    for (int t = 0; t < reel->read->track_count; t++) {
        const PlumbMarkName track = reel->read->track[t].name;
        const PlumbTrackPoint *const point =
            plumb_film_point(reel->read, t, desk->now.marked.still);
        if (track.landmark != name.landmark || track.near != name.near || point->marked ||
            rim != (reel->read->track[t].rim_count > 0)) {
            continue;
        }
        plumb_text_string(text, !point->known                                     ? "not followed"
                                : point->doubts == 0                              ? "followed"
                                : (point->doubts & 1U << PLUMB_DOUBT_hidden) != 0 ? "hidden"
                                                                                  : "in doubt");
        return true;
    }
    return false;
}

/* A line with its figure at the right; moves *y on. */
static void set_line(const PlumbBoard *board, PlumbRect rect, double *y, double size,
                     PlumbRole role, const char *name, const char *value)
{
    *y += PLUMB_LINE_PITCH * size;
    const double room = rect.width_mm - plumb_board_width(board, value, size) - 1.5;
    double top = *y - 0.98 * size;
    plumb_board_wrap(board, role, NONE, rect.x_mm, &top, room, size, 1, name);
    plumb_board_text(board, role, NONE, (PlumbVec2){rect.x_mm + rect.width_mm, *y}, size, PLUMB_END,
                     value);
}

static void set_quantity(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double *y,
                         double size, const char *name, double value, PlumbQuantity quantity)
{
    char words[48];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (isfinite(value)) {
        plumb_text_quantity(&text, value, quantity, desk->units);
    } else {
        plumb_text_string(&text, "–");
    }
    set_line(board, rect, y, size, PLUMB_ROLE_ink, name, words);
}

/* The figures of the frame on show. */
static void set_frame(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double size)
{
    const PlumbFilmReading *const read = desk->tracing->reel->read;
    const PlumbSeriesFrame *const frame = &read->series.frame[desk->now.marked.still];
    double y = rect.y_mm - 0.35 * size;
    char words[48];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, frame->time_s, 2);
    plumb_text_string(&text, " s");
    set_line(board, rect, &y, size, PLUMB_ROLE_quiet,
             frame->known ? "this frame" : "this frame, filled in", words);
    if (read->series.front) {
        set_quantity(desk, board, rect, &y, size, "knees over ankles", frame->spread_frac,
                     PLUMB_Q_NUMBER);
        set_quantity(desk, board, rect, &y, size, "shins outward", frame->shin_rad, PLUMB_Q_ANGLE);
        return;
    }
    set_quantity(desk, board, rect, &y, size, "bar off mid-foot", frame->bar_m.x, PLUMB_Q_LENGTH);
    set_quantity(desk, board, rect, &y, size, "bar height", frame->bar_m.y, PLUMB_Q_LENGTH);
    set_quantity(desk, board, rect, &y, size, "hip height", frame->pose.hip_height_m,
                 PLUMB_Q_LENGTH);
    set_quantity(desk, board, rect, &y, size, "back above level", frame->value[PLUMB_ANG_back],
                 PLUMB_Q_ANGLE);
    text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, frame->bar_speed_m_s, 2);
    plumb_text_string(&text, " m/s");
    set_line(board, rect, &y, size, PLUMB_ROLE_ink, "bar speed", words);
}

/* Events by their time; a click goes there. */
static void set_events(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double size)
{
    const PlumbSeries *const series = &desk->tracing->reel->read->series;
    double y = rect.y_mm - 0.35 * size;
    set_line(board, rect, &y, size, PLUMB_ROLE_quiet, "events", "");
    for (int i = plumb_film_next_event(series, -1); i >= 0; i = plumb_film_next_event(series, i)) {
        char words[48];
        if (y + PLUMB_LINE_PITCH * size > rect.y_mm + rect.height_mm) {
            return;
        }
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_fixed(&text, series->event_s[i], 2);
        plumb_text_string(&text, " s");
        set_line(board, rect, &y, size, PLUMB_ROLE_ink,
                 plumb_event_text((PlumbEvent)i, series->lift), words);
        plumb_desk_widget(desk, PLUMB_WIDGET_FRAME, series->event_frame[i],
                          (PlumbRect){rect.x_mm, y - size, rect.width_mm, PLUMB_LINE_PITCH * size},
                          false);
    }
}

bool plumb_reel_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    double y = rect.y_mm;
    if (reel == NULL) {
        return false;
    }
    if (reel->fitted) {
        const bool wide = rect.width_mm > 44.0 * size;
        PlumbRect column = rect;
        column.width_mm = wide ? 0.5 * (rect.width_mm - 4.0) : rect.width_mm;
        set_frame(desk, board, column, size);
        const double down =
            wide ? 0.0 : (reel->read->series.front ? 3.4 : 6.4) * PLUMB_LINE_PITCH * size;
        column.x_mm += wide ? column.width_mm + 4.0 : 0.0;
        column.y_mm += down;
        column.height_mm -= down;
        if (column.height_mm > 2.0 * PLUMB_LINE_PITCH * size) {
            set_events(desk, board, column, size);
        }
        return true;
    }
    if (reel->not_read[0] != '\0') {
        plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm, &y, rect.width_mm, size, 6,
                         reel->not_read);
        return true;
    }
    return false;
}

/* One paragraph that goes to its frame on a click; false where nothing of it found room. */
static bool set_finding(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double *y,
                        double size, int index)
{
    const PlumbFilmReading *const read = desk->tracing->reel->read;
    const PlumbFilmFinding *const found = &read->finding[index];
    const int lines = (int)floor((rect.y_mm + rect.height_mm - *y) / (PLUMB_LINE_PITCH * size));
    char words[1024];
    PlumbText text = plumb_text_begin(words, sizeof words);
    PlumbAim aim;
    if (lines < 1) {
        return false;
    }
    plumb_film_finding_text(&text, read, index, desk->units);
    if (plumb_finding_aim(found->what.id, read->series.lift, &aim)) {
        plumb_text_string(&text, " plumbar try --for ");
        plumb_text_string(&text, plumb_finding_name(found->what.id));
        plumb_text_string(&text, " ranks them; T tries them here.");
    }
    const double from = *y;
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm + 2.0, y, rect.width_mm - 2.0, size,
                     lines, words);
    const PlumbPen pen = {PLUMB_ROLE_bar, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_line(board->scene, pen, NONE, (PlumbVec2){rect.x_mm + 0.5, from},
                     (PlumbVec2){rect.x_mm + 0.5, *y});
    plumb_desk_widget(desk, PLUMB_WIDGET_FRAME, found->frame,
                      (PlumbRect){rect.x_mm, from, rect.width_mm, *y - from}, false);
    *y += 0.4 * size;
    return true;
}

bool plumb_reel_notes(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    double y = rect.y_mm;
    int remarked = 0;
    char words[512];
    if (reel == NULL || reel->read == NULL) {
        return false;
    }
    for (int i = 0; reel->fitted && i < reel->read->finding_count; i++) {
        if (reel->read->finding[i].verdict == PLUMB_FILM_BEYOND) {
            remarked += set_finding(desk, board, rect, &y, size, i);
        }
    }
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (reel->fitted && remarked == 0) {
        plumb_text_string(&text, "Nothing found that the spread does not cover. ");
    }
    const int doubts = plumb_reel_doubts(reel);
    plumb_text_integer(&text, doubts);
    plumb_text_string(&text, doubts == 1 ? " frame is in doubt" : " frames are in doubt");
    plumb_text_string(&text, doubts > 0 ? "; J goes to the next; " : "; ");
    plumb_text_string(&text, plumb_steady_text(reel->read->tracks.steady));
    plumb_text_char(&text, '.');
    const int lines = (int)floor((rect.y_mm + rect.height_mm - y) / (PLUMB_LINE_PITCH * size));
    if (lines > 0) {
        plumb_board_wrap(board, PLUMB_ROLE_quiet, NONE, rect.x_mm + 2.0, &y, rect.width_mm - 2.0,
                         size, lines, words);
    }
    return true;
}

static void number(PlumbText *text, const char *key, int value)
{
    plumb_text_char(text, ' ');
    plumb_text_string(text, key);
    plumb_text_char(text, '=');
    plumb_text_integer(text, value);
}

static int remarks(const PlumbReel *reel)
{
    int count = 0;
    for (int i = 0; i < reel->read->finding_count; i++) {
        count += reel->read->finding[i].verdict == PLUMB_FILM_BEYOND;
    }
    return count;
}

void plumb_reel_state(const PlumbDesk *desk, PlumbText *text)
{
    static const char *const paces[] = {" play=no", " play=real", " play=slow"};
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL) {
        return;
    }
    plumb_text_string(text, reel->why[0] != '\0' ? " film=refused"
                            : reel->known        ? " film=open"
                                                 : " film=coming");
    number(text, "frames", reel->frame_count);
    number(text, "frame", desk->now.marked.still);
    number(text, "shown", reel->shown);
    plumb_text_string(text, paces[reel->pace]);
    plumb_text_string(text, reel->chart ? " chart=yes" : " chart=no");
    plumb_text_string(text, reel->reading            ? " followed=running"
                            : reel->read == NULL     ? " followed=no"
                            : plumb_reel_stale(desk) ? " followed=stale"
                                                     : " followed=yes");
    plumb_text_string(text, reel->drawing ? " drawing=yes" : "");
    if (reel->read != NULL) {
        number(text, "tracks", reel->read->track_count);
        number(text, "doubts", plumb_reel_doubts(reel));
        plumb_text_string(text, " camera=");
        plumb_text_string(text, plumb_steady_name(reel->read->tracks.steady));
    }
    if (reel->not_read[0] != '\0') {
        plumb_text_string(text, " not_read=\"");
        plumb_text_string(text, reel->not_read);
        plumb_text_char(text, '"');
    }
    plumb_text_string(text, reel->fitted ? " series=yes" : " series=no");
    const PlumbStills *const figure = plumb_reel_figure(desk);
    plumb_text_string(text, figure == NULL   ? " figure=no"
                            : figure->filled ? " figure=filled"
                                             : " figure=seen");
    if (reel->fitted && reel->read != NULL) {
        const PlumbSeries *const series = &reel->read->series;
        for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
            number(text, plumb_event_name((PlumbEvent)i), series->event_frame[i]);
        }
        number(text, "findings", remarks(reel));
    }
}

int plumb_reel_first_aim(const PlumbDesk *desk)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    PlumbAim aim;
    for (int i = 0; reel != NULL && reel->fitted && i < reel->read->finding_count; i++) {
        const PlumbFilmFinding *const found = &reel->read->finding[i];
        if (found->verdict == PLUMB_FILM_BEYOND &&
            plumb_finding_aim(found->what.id, reel->read->series.lift, &aim)) {
            return (int)found->what.id;
        }
    }
    return -1;
}

void plumb_reel_words(const PlumbDesk *desk, int deed, PlumbText *text)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (deed == (int)PLUMB_TRACE_RATE) {
        plumb_text_string(text, "frames a second");
        if (desk->now.marked.rate_per_s > 0.0) {
            plumb_text_string(text, ": ");
            plumb_text_fixed(text, desk->now.marked.rate_per_s, 0);
        }
    } else if (deed == (int)PLUMB_TRACE_FOLLOW) {
        plumb_text_string(text,
                          reel != NULL && (reel->reading || reel->drawing) ? "stop" : "follow");
    } else if (deed == (int)PLUMB_TRACE_CHART) {
        plumb_text_string(text, reel != NULL && reel->chart ? "picture" : "chart");
    } else {
        const bool slow = deed == (int)PLUMB_TRACE_SLOW;
        const PlumbReelPace pace = slow ? PLUMB_PACE_SLOW : PLUMB_PACE_REAL;
        plumb_text_string(text, reel != NULL && reel->pace == pace ? "pause"
                                : slow                             ? "slow"
                                                                   : "play");
    }
}
