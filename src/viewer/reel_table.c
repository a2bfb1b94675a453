/* SPDX-License-Identifier: MIT */
/* A film in table and notes: the figures of the frame on show, events, findings. */
#include "reel.h"

#include "page_trace.h"

#include <plumbar/advice.h>

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
enum { PRESS_FIGURES = 4 };

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

/* Speed of the bar. */
static void set_speed(const PlumbBoard *board, PlumbRect rect, double *y, double size,
                      double speed_m_s)
{
    char words[48];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, speed_m_s, 2);
    plumb_text_string(&text, " m/s");
    set_line(board, rect, y, size, PLUMB_ROLE_ink, "bar speed", words);
}

/* Of a press what the view shows; an elbow that is not to be trusted in the frame tells nothing. */
static void set_press(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double *y,
                      double size)
{
    static const int side[] = {PLUMB_READ_bar_from_shoulder, PLUMB_READ_bar_above_shoulder,
                               PLUMB_READ_upper_arm, PLUMB_READ_elbow_off_bar};
    static const int end[] = {PLUMB_READ_bar_above_shoulder, PLUMB_READ_upper_arm,
                              PLUMB_READ_forearm_front, PLUMB_READ_elbow_off_hand};
    const PlumbSeries *const series = &desk->tracing->reel->read->series;
    const PlumbSeriesFrame *const frame = &series->frame[desk->now.marked.still];
    for (int i = 0; i < PRESS_FIGURES; i++) {
        const int reading = series->end_view ? end[i] : side[i];
        const bool of_bar = reading == (int)PLUMB_READ_bar_from_shoulder ||
                            reading == (int)PLUMB_READ_bar_above_shoulder;
        set_quantity(desk, board, rect, y, size, plumb_trace_figure_name(reading),
                     of_bar || frame->elbow_seen ? frame->value[reading] : (double)NAN,
                     plumb_reading_quantity((PlumbReading)reading));
    }
    set_speed(board, rect, y, size, frame->bar_speed_m_s);
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
        text = plumb_text_begin(words, sizeof words);
        if (isfinite(frame->spread_frac)) {
            plumb_text_fixed(&text, frame->spread_frac, 2);
        } else {
            plumb_text_string(&text, "–");
        }
        set_line(board, rect, &y, size, PLUMB_ROLE_ink, "knees over ankles", words);
        set_quantity(desk, board, rect, &y, size, "shins outward", frame->shin_rad, PLUMB_Q_ANGLE);
        return;
    }
    if (read->series.lift == PLUMB_BENCH) {
        set_press(desk, board, rect, &y, size);
        return;
    }
    set_quantity(desk, board, rect, &y, size, "bar off mid-foot", frame->bar_m.x, PLUMB_Q_LENGTH);
    set_quantity(desk, board, rect, &y, size, "bar height", frame->bar_m.y, PLUMB_Q_LENGTH);
    set_quantity(desk, board, rect, &y, size, "hip height", frame->pose.hip_height_m,
                 PLUMB_Q_LENGTH);
    set_quantity(desk, board, rect, &y, size, "back above level", frame->value[PLUMB_ANG_back],
                 PLUMB_Q_ANGLE);
    set_speed(board, rect, &y, size, frame->bar_speed_m_s);
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

/* The index-th remark of the last reading, -1 past the last. */
static int remark_at(const PlumbReel *reel, int index)
{
    for (int i = 0; reel->fitted && i < reel->read->finding_count; i++) {
        if (reel->read->finding[i].verdict == PLUMB_FILM_BEYOND && index-- == 0) {
            return i;
        }
    }
    return -1;
}

int plumb_reel_paragraphs(const PlumbDesk *desk)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    int count = 0;
    while (reel != NULL && reel->read != NULL && remark_at(reel, count) >= 0) {
        count++;
    }
    return reel != NULL && reel->read != NULL ? count + 1 : 0;
}

static void say_doubts(const PlumbReel *reel, PlumbText *text)
{
    const int doubts = plumb_reel_doubts(reel);
    if (reel->fitted && remark_at(reel, 0) < 0) {
        plumb_text_string(text, "Nothing found that the spread does not cover. ");
    }
    plumb_text_integer(text, doubts);
    plumb_text_string(text, doubts == 1 ? " frame is in doubt" : " frames are in doubt");
    plumb_text_string(text, doubts > 0 ? "; J goes to the next; " : "; ");
    plumb_text_string(text, plumb_steady_text(reel->read->tracks.steady));
    plumb_text_char(text, '.');
    if (reel->fitted && reel->read->series.end_view) {
        plumb_text_string(text, plumb_trace_end_words(&reel->read->series.trace.still[0]));
    }
}

bool plumb_reel_remarks(const PlumbDesk *desk, PlumbFindingId id)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    bool remarked = false;
    for (int i = 0; reel != NULL && reel->fitted && i < reel->read->finding_count; i++) {
        const PlumbFilmFinding *const found = &reel->read->finding[i];
        remarked = remarked || (found->verdict == PLUMB_FILM_BEYOND && found->what.id == id);
    }
    return remarked;
}

int plumb_reel_paragraph(const PlumbDesk *desk, int index, PlumbText *text)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    const int at = remark_at(reel, index);
    PlumbAim aim;
    if (at < 0) {
        say_doubts(reel, text);
        return -1;
    }
    const PlumbFilmFinding *const found = &reel->read->finding[at];
    plumb_film_finding_text(text, reel->read, at, desk->units);
    if (plumb_finding_aim(found->what.id, reel->read->series.lift, &aim)) {
        plumb_text_string(text, " plumbar try --for ");
        plumb_text_string(text, plumb_finding_name(found->what.id));
        plumb_text_string(text, " ranks them; T tries them here.");
    }
    return found->frame;
}

bool plumb_reel_first_aim(const PlumbDesk *desk, PlumbAim *aim)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    for (int i = 0; reel != NULL && reel->fitted && i < reel->read->finding_count; i++) {
        const PlumbFilmFinding *const found = &reel->read->finding[i];
        if (found->verdict == PLUMB_FILM_BEYOND && reel->read->series.lift == desk->now.lift &&
            plumb_finding_aim(found->what.id, desk->now.lift, aim)) {
            return true;
        }
    }
    return false;
}
