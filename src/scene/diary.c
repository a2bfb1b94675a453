/* SPDX-License-Identifier: MIT */
/* Charts over days: panels one below the other on one axis of days. */
#include <plumbar/diary.h>

#include "scene/board.h"

#include <math.h>

static const double MARGIN_MM = 12.0;
static const double LEFT_MM = 22.0; /* room of the figures beside a panel */
static const double RIGHT_MM = 12.0;
static const double FOOT_MM = 9.0; /* room of the days below the last panel */
static const double GAP_MM = 9.0;  /* between panels: the label stands in it */
static const double DOT_MM = 0.9;
static const double TICK_MM = 1.4;
static const double SPAN_DIGITS = 20.0; /* of a panel's range at least: 2 cm, 2 kg, 2° */
static const double AIR_SHARE = 0.12;   /* of a panel's range, above and below */

typedef struct Frame {
    PlumbBoard board;
    const PlumbDiary *diary;
    double left_mm;
    double width_mm;
    double from_day;
    double to_day;
} Frame;

typedef struct Range {
    double low;
    double high;
    double top_mm;
    double height_mm;
} Range;

static double x_of(const Frame *frame, double day)
{
    return frame->left_mm +
           frame->width_mm * (day - frame->from_day) / (frame->to_day - frame->from_day);
}

static double y_of(const Range *range, double value)
{
    return range->top_mm + range->height_mm * (range->high - value) / (range->high - range->low);
}

/* The least and greatest with air; one value alone stands in the middle. */
static Range range_of(const Frame *frame, const PlumbDiaryPanel *panel, double top_mm,
                      double height_mm)
{
    Range range = {HUGE_VAL, -HUGE_VAL, top_mm, height_mm};
    for (int i = 0; i < frame->diary->count; i++) {
        if (isfinite(panel->value[i])) {
            range.low = fmin(range.low, panel->value[i]);
            range.high = fmax(range.high, panel->value[i]);
        }
    }
    if (!(range.low <= range.high)) {
        range.low = range.high = 0.0;
    }
    /* What differs by less than a few last digits stands level: its slope would be none. */
    const double digit = pow(10.0, -panel->decimals);
    const double more = fmax(0.0, SPAN_DIGITS * digit - (range.high - range.low));
    const double air = fmax(AIR_SHARE * (range.high - range.low), 2.0 * digit) + 0.5 * more;
    range.low -= air;
    range.high += air;
    return range;
}

/* The least and the greatest value that was entered, each with a rule across. */
static void draw_scale(const Frame *frame, const PlumbDiaryPanel *panel, const Range *range)
{
    const double size = plumb_board_size(&frame->board, PLUMB_SMALL_TEXT_MM);
    double seen[2] = {HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < frame->diary->count; i++) {
        if (isfinite(panel->value[i])) {
            seen[0] = fmin(seen[0], panel->value[i]);
            seen[1] = fmax(seen[1], panel->value[i]);
        }
    }
    const bool one = !(y_of(range, seen[0]) - y_of(range, seen[1]) > 1.3 * size);
    for (int i = one ? 1 : 0; i < 2; i++) {
        if (!isfinite(seen[i])) {
            continue;
        }
        char words[32];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_fixed(&text, seen[i], panel->decimals);
        const double y = y_of(range, seen[i]);
        const PlumbPen pen = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_DOTTED, PLUMB_ROLE_none};
        plumb_scene_line(frame->board.scene, pen, TAG_NONE, (PlumbVec2){frame->left_mm, y},
                         (PlumbVec2){frame->left_mm + frame->width_mm, y});
        plumb_board_text(&frame->board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){frame->left_mm - 2.0, y + 0.35 * size}, size, PLUMB_END,
                         words);
    }
}

static void draw_curve(const Frame *frame, const PlumbDiaryPanel *panel, const Range *range)
{
    const PlumbPen dot = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_ink};
    PlumbVec2 last = {0.0, 0.0};
    bool begun = false;
    for (int i = 0; i < frame->diary->count; i++) {
        if (!isfinite(panel->value[i])) {
            continue;
        }
        const PlumbVec2 at = {x_of(frame, frame->diary->day[i]), y_of(range, panel->value[i])};
        if (begun) {
            plumb_scene_line(frame->board.scene, PEN_FINE, TAG_NONE, last, at);
        }
        plumb_scene_circle(frame->board.scene, dot, TAG_NONE, at, DOT_MM);
        last = at;
        begun = true;
    }
}

static void draw_panel(const Frame *frame, const PlumbDiaryPanel *panel, double top_mm,
                       double height_mm)
{
    const double size = plumb_board_size(&frame->board, PLUMB_SMALL_TEXT_MM);
    const Range range = range_of(frame, panel, top_mm, height_mm);
    double y = top_mm - 1.5 * size;
    plumb_board_wrap(&frame->board, PLUMB_ROLE_ink, TAG_NONE, frame->left_mm, &y, frame->width_mm,
                     size, 1, panel->label);
    plumb_scene_rect(frame->board.scene, PEN_RULE, TAG_NONE,
                     (PlumbRect){frame->left_mm, top_mm, frame->width_mm, height_mm});
    draw_scale(frame, panel, &range);
    draw_curve(frame, panel, &range);
}

/* A tick for every day of the log; the first day is named, then each that finds room. */
static void draw_days(const Frame *frame, double y_mm)
{
    const PlumbDiary *diary = frame->diary;
    const double size = plumb_board_size(&frame->board, PLUMB_SMALL_TEXT_MM);
    double free_mm = -HUGE_VAL;
    for (int i = 0; i < diary->count; i++) {
        const double x = x_of(frame, diary->day[i]);
        const double half = 0.5 * plumb_board_width(&frame->board, diary->date[i], size);
        plumb_scene_line(frame->board.scene, PEN_FINE, TAG_NONE, (PlumbVec2){x, y_mm},
                         (PlumbVec2){x, y_mm + TICK_MM});
        if (x - half > free_mm) {
            plumb_board_text(&frame->board, PLUMB_ROLE_quiet, TAG_NONE,
                             (PlumbVec2){x, y_mm + TICK_MM + 1.2 * size}, size, PLUMB_MIDDLE,
                             diary->date[i]);
            free_mm = x + half + 2.0;
        }
    }
}

void plumb_compose_diary(PlumbScene *scene, const PlumbDiary *diary, PlumbFormat format)
{
    double width = 0.0;
    double height = 0.0;
    plumb_format_size(format, &width, &height);
    plumb_scene_begin(scene, width, height);
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, diary->title);
    PlumbText description = plumb_text_begin(scene->description, sizeof scene->description);
    plumb_text_string(&description, diary->note);
    const PlumbDrawing drawing = {
        .text_scale = 1.0, .text_width = diary->text_width, .text_user = diary->text_user};
    Frame frame = {{scene, &drawing},
                   diary,
                   MARGIN_MM + LEFT_MM,
                   width - 2.0 * MARGIN_MM - LEFT_MM - RIGHT_MM,
                   diary->count > 0 ? diary->day[0] : 0.0,
                   diary->count > 0 ? diary->day[diary->count - 1] : 1.0};
    if (!(frame.to_day > frame.from_day)) {
        frame.from_day -= 1.0;
        frame.to_day += 1.0;
    }
    double y = MARGIN_MM;
    plumb_board_wrap(&frame.board, PLUMB_ROLE_ink, TAG_NONE, MARGIN_MM, &y, width - 2.0 * MARGIN_MM,
                     PLUMB_LARGE_TEXT_MM, 1, diary->title);
    plumb_scene_line(scene, PEN_OUTLINE, TAG_NONE, (PlumbVec2){MARGIN_MM, y},
                     (PlumbVec2){width - MARGIN_MM, y});
    const double notes = 3.0 * PLUMB_LINE_PITCH * PLUMB_SMALL_TEXT_MM;
    const double bottom = height - MARGIN_MM - notes - FOOT_MM;
    const int count = diary->panel_count;
    const double each = (bottom - y - GAP_MM * count) / count;
    for (int i = 0; i < count; i++) {
        draw_panel(&frame, &diary->panel[i], y + GAP_MM + i * (each + GAP_MM), each);
    }
    draw_days(&frame, bottom);
    y = height - MARGIN_MM - notes;
    plumb_board_wrap(&frame.board, PLUMB_ROLE_quiet, TAG_NONE, MARGIN_MM, &y,
                     width - 2.0 * MARGIN_MM, PLUMB_SMALL_TEXT_MM, 3, diary->note);
}
