/* SPDX-License-Identifier: MIT */
/* The timeline below the picture, followed places over it, and the chart in its place. */
#include "reel.h"

#include "page_trace.h"

#include <math.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
/* Width and height of the chart at plain text, where it is tight; that of a press has a panel more
 * and longer names. */
static const double chart_mm[2] = {110.0, 72.0};
static const double press_chart_mm[2] = {150.0, 92.0};
static const double roomy_lines = 30.0; /* of its text: less has no room for two rows of names */
enum { NAME_ROWS = 2 };

/* Time to place along the timeline. */
typedef struct Line {
    const PlumbReel *reel;
    double x0_mm;
    double x1_mm;
    double y_mm;
    double size_mm; /* of its text */
} Line;

static double place(const Line *line, double t_s)
{
    const double last_s = line->reel->time_s[line->reel->frame_count - 1];
    return line->x0_mm + (line->x1_mm - line->x0_mm) * (last_s > 0.0 ? t_s / last_s : 0.0);
}

double plumb_reel_timeline_mm(const PlumbBoard *board, double height_mm)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const int rows = height_mm > roomy_lines * size ? NAME_ROWS : 1;
    return (rows * 1.25 + 2.6) * size;
}

/* Frames in doubt as a heavy line; those next to each other as one. */
static void draw_doubts(const PlumbBoard *board, const Line *line)
{
    const PlumbReel *const reel = line->reel;
    const PlumbPen pen = {PLUMB_ROLE_bar, 1.2, PLUMB_SOLID, PLUMB_ROLE_none};
    int from = -1;
    for (int i = 0; i <= reel->frame_count; i++) {
        const bool doubt = i < reel->frame_count && plumb_film_doubt_at(reel->read, i) >= 0;
        if (doubt && from < 0) {
            from = i;
        } else if (!doubt && from >= 0) {
            const double x0 = place(line, reel->time_s[from]) - 0.3;
            const double x1 = place(line, reel->time_s[i - 1]) + 0.3;
            plumb_scene_line(board->scene, pen, NONE, (PlumbVec2){x0, line->y_mm},
                             (PlumbVec2){x1, line->y_mm});
            from = -1;
        }
    }
}

/* A dot for a frame that was marked. */
static void draw_marked(const PlumbDesk *desk, const PlumbBoard *board, const Line *line)
{
    const PlumbMarks *const marks = &desk->now.marked.marks;
    const PlumbPen pen = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_ink};
    int last = -1;
    for (int i = 0; i < marks->count; i++) {
        const int frame = marks->mark[i].still;
        if (frame != last && frame < line->reel->frame_count) {
            plumb_scene_circle(board->scene, pen, NONE,
                               (PlumbVec2){place(line, line->reel->time_s[frame]), line->y_mm},
                               0.28 * line->size_mm);
            last = frame;
        }
    }
}

/* Events with their names above; a name without room beside those before it is left out. */
static void draw_events(const PlumbBoard *board, const Line *line, double top_mm)
{
    const PlumbSeries *const series = &line->reel->read->series;
    double used_mm[NAME_ROWS] = {-1e9, -1e9};
    const PlumbPen pen = {PLUMB_ROLE_quiet, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    for (int i = plumb_film_next_event(series, -1); i >= 0; i = plumb_film_next_event(series, i)) {
        const char *const words = plumb_event_text((PlumbEvent)i, series->lift);
        const double x = place(line, series->event_s[i]);
        const double half = 0.5 * plumb_board_width(board, words, line->size_mm);
        const double middle = fmin(fmax(x, line->x0_mm + half), line->x1_mm - half);
        const double top = line->y_mm - 1.1 * line->size_mm;
        plumb_scene_line(board->scene, pen, NONE, (PlumbVec2){x, top},
                         (PlumbVec2){x, line->y_mm + 0.5 * line->size_mm});
        for (int row = 0; row < NAME_ROWS; row++) {
            const double base = top - (0.25 + 1.25 * row) * line->size_mm;
            if (middle - half > used_mm[row] + 1.0 && base - 0.9 * line->size_mm > top_mm) {
                used_mm[row] = middle + half;
                plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){middle, base},
                                 line->size_mm, PLUMB_MIDDLE, words);
                break;
            }
        }
    }
}

static void draw_cursor(const PlumbBoard *board, const Line *line, double t_s)
{
    const double x = place(line, t_s);
    const double s = 0.7 * line->size_mm;
    const PlumbVec2 point[3] = {{x, line->y_mm + 0.2 * s},
                                {x - 0.6 * s, line->y_mm + 1.3 * s},
                                {x + 0.6 * s, line->y_mm + 1.3 * s}};
    const PlumbPen solid = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_select};
    const PlumbPen pen = {PLUMB_ROLE_select, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_line(board->scene, pen, NONE, (PlumbVec2){x, line->y_mm - s},
                     (PlumbVec2){x, line->y_mm + 0.2 * s});
    plumb_scene_path(board->scene, solid, NONE, point, 3, true);
}

static void time_words(PlumbText *text, double t_s)
{
    plumb_text_fixed(text, t_s, 2);
    plumb_text_string(text, " s");
}

void plumb_reel_timeline(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double pad_mm = fmax(1.5, 0.7 * size); /* beside the dots at its ends */
    const double room = plumb_board_width(board, "00.00 s", size) + pad_mm;
    const double y = rect.y_mm + rect.height_mm - 1.2 * size;
    char words[32];
    if (reel == NULL || !reel->known) {
        return;
    }
    const Line line = {reel, rect.x_mm + room, rect.x_mm + rect.width_mm - room, y, size};
    const double now_s = reel->time_s[desk->now.marked.still];
    PlumbText text = plumb_text_begin(words, sizeof words);
    time_words(&text, now_s);
    plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){line.x0_mm - pad_mm, y + 0.36 * size},
                     size, PLUMB_END, words);
    text = plumb_text_begin(words, sizeof words);
    time_words(&text, reel->time_s[reel->frame_count - 1]);
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE,
                     (PlumbVec2){line.x1_mm + pad_mm, y + 0.36 * size}, size, PLUMB_START, words);
    plumb_scene_line(board->scene, PEN_FINE, NONE, (PlumbVec2){line.x0_mm, y},
                     (PlumbVec2){line.x1_mm, y});
    if (reel->read != NULL) {
        draw_doubts(board, &line);
        if (reel->fitted) {
            draw_events(board, &line, rect.y_mm);
        }
    }
    draw_marked(desk, board, &line);
    draw_cursor(board, &line, now_s);
    desk->scrub_x0_mm = line.x0_mm;
    desk->scrub_x1_mm = line.x1_mm;
    const PlumbRect place_of = {rect.x_mm, y - 1.2 * size, rect.width_mm, 2.4 * size};
    plumb_desk_widget(desk, PLUMB_WIDGET_SCRUB, 0, place_of, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_SCRUB, 0)) {
        plumb_focus_ring(board, place_of);
    }
}

/* The place of a landmark in a frame of a film from the front; false where it was not followed. */
static bool front_place(const PlumbFilmReading *read, int frame, PlumbLandmark landmark,
                        PlumbNear side, const PlumbPictureFit *fit, PlumbVec2 *at)
{
    for (int t = 0; t < read->track_count; t++) {
        const PlumbMarkName name = read->track[t].name;
        const PlumbTrackPoint *const point = plumb_film_point(read, t, frame);
        if (name.front && name.landmark == landmark && name.near == side && point->known) {
            *at = plumb_picture_paper(fit, point->at_px);
            return true;
        }
    }
    return false;
}

/* From the front: both shins, and the distances of knees and ankles, which are held against each
 * other; dashed where the frame was filled in. */
static void draw_front(const PlumbFilmReading *read, int frame, const PlumbBoard *board,
                       const PlumbPictureFit *fit)
{
    static const PlumbLandmark ends[2] = {PLUMB_MARK_ankle, PLUMB_MARK_knee};
    PlumbVec2 at[2][2];
    for (int i = 0; i < 4; i++) {
        if (!front_place(read, frame, ends[i / 2], i % 2 == 0 ? PLUMB_NEAR : PLUMB_FAR, fit,
                         &at[i / 2][i % 2])) {
            return;
        }
    }
    const PlumbPen shin = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM,
                           read->series.frame[frame].known ? PLUMB_SOLID : PLUMB_DASHED,
                           PLUMB_ROLE_none};
    const PlumbPen across = {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    for (int i = 0; i < 2; i++) {
        plumb_scene_line(board->scene, shin, NONE, at[0][i], at[1][i]);
        plumb_scene_line(board->scene, across, NONE, at[i][0], at[i][1]);
    }
}

void plumb_reel_places(const PlumbDesk *desk, const PlumbBoard *board, const PlumbPictureFit *fit)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL || reel->read == NULL || reel->shown < 0) {
        return;
    }
    const PlumbFilmReading *const read = reel->read;
    const int frame = reel->shown < read->frame_count ? reel->shown : read->frame_count - 1;
    if (reel->fitted && read->series.front) {
        draw_front(read, frame, board, fit);
    }
    for (int t = 0; t < read->track_count; t++) {
        const PlumbTrackPoint *const point = plumb_film_point(read, t, frame);
        if (!point->known || point->marked) {
            continue;
        }
        const bool doubt = point->doubts != 0;
        const PlumbPen halo = {PLUMB_ROLE_paper, 1.0, PLUMB_SOLID, PLUMB_ROLE_none};
        const PlumbPen pen = {doubt ? PLUMB_ROLE_bar : PLUMB_ROLE_mass, PLUMB_MEDIUM_MM,
                              doubt ? PLUMB_DASHED : PLUMB_SOLID, PLUMB_ROLE_none};
        const PlumbVec2 at = plumb_picture_paper(fit, point->at_px);
        plumb_scene_circle(board->scene, halo, NONE, at, 1.4);
        plumb_scene_circle(board->scene, pen, NONE, at, 1.4);
    }
}

PlumbFilmChart plumb_reel_chart_of(const PlumbDesk *desk, double text_scale)
{
    const PlumbReel *const reel = desk->tracing->reel;
    return (PlumbFilmChart){.series = &reel->read->series,
                            .finding = reel->read->finding,
                            .finding_count = reel->read->finding_count,
                            .name = plumb_trace_picture(desk),
                            .date = desk->options->date,
                            .units = desk->units,
                            .cursor = desk->now.marked.still,
                            .text_scale = text_scale,
                            .text_width = plumb_font_width,
                            .text_user = desk->font};
}

double plumb_reel_chart_scale(const PlumbDesk *desk, PlumbRect rect)
{
    const bool press = desk->tracing->reel->read->series.lift == PLUMB_BENCH;
    const double *const tight_mm = press ? press_chart_mm : chart_mm;
    const double most = fmin(rect.width_mm / tight_mm[0], rect.height_mm / tight_mm[1]);
    return fmin(desk->text_scale, fmax(most, 0.8));
}

bool plumb_reel_charts(const PlumbDesk *desk)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    return reel != NULL && reel->chart && reel->fitted;
}

void plumb_reel_chart(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbFilmChart chart = plumb_reel_chart_of(desk, plumb_reel_chart_scale(desk, rect));
    plumb_compose_film_panels(board->scene, &chart, rect);
}
