/* SPDX-License-Identifier: MIT */
/* What was read: figures with their spread beside the model's, findings, what cannot be seen. */
#include "page_trace.h"

#include "pages.h"
#include "reel.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

/* In the order of importance; a view shows its own. */
static const int ROWS[] = {
    PLUMB_READ_bar_over,
    PLUMB_READ_stance,
    PLUMB_READ_balance,
    PLUMB_READ_grip,
    PLUMB_ANG_back,
    PLUMB_READ_hip_height,
    PLUMB_ANG_shin,
    PLUMB_READ_depth,
    PLUMB_READ_shoulder_ahead,
    PLUMB_READ_hip_arm,
    PLUMB_READ_back_arm,
    PLUMB_READ_knee_arm,
    PLUMB_ANG_thigh,
    PLUMB_READ_leg_gap,
    PLUMB_ANG_knee_flexion,
    PLUMB_READ_spine,
    PLUMB_READ_hip_moment,
    PLUMB_READ_back_moment,
    PLUMB_READ_knee_moment,
    PLUMB_ANG_ankle_dorsiflexion,
    PLUMB_READ_bar_height,
    PLUMB_READ_ankle_arm,
    PLUMB_READ_shoulder_arm,
    PLUMB_READ_ankle_moment,
    PLUMB_READ_shoulder_moment,
    PLUMB_READ_knee_outside,
    PLUMB_ANG_frontal_shin,
};
enum { ROW_COUNT = sizeof ROWS / sizeof ROWS[0] };

/* Where the columns of a block end. */
typedef struct Columns {
    double x;
    double width;
    double picture_end;
    double size;
    bool narrow; /* no column for the difference */
} Columns;

static const char *row_name(int reading)
{
    switch (reading) {
    case PLUMB_READ_bar_over:
        return "bar off mid-foot";
    case PLUMB_READ_balance:
        return "balance";
    case PLUMB_READ_hip_height:
        return "hip height";
    case PLUMB_READ_hip_arm:
        return "hip arm";
    case PLUMB_READ_back_arm:
        return "back arm";
    case PLUMB_READ_knee_arm:
        return "knee arm";
    case PLUMB_READ_ankle_arm:
        return "ankle arm";
    case PLUMB_READ_shoulder_arm:
        return "shoulder arm";
    case PLUMB_READ_hip_moment:
        return "hip moment";
    case PLUMB_READ_back_moment:
        return "back moment";
    case PLUMB_READ_knee_moment:
        return "knee moment";
    case PLUMB_READ_ankle_moment:
        return "ankle moment";
    case PLUMB_READ_shoulder_moment:
        return "shoulder moment";
    case PLUMB_READ_depth:
        return "depth below the knee";
    case PLUMB_READ_knee_outside:
        return "knee outside the ankle";
    case PLUMB_READ_grip:
        return "grip";
    default:
        return plumb_reading_text((PlumbReading)reading);
    }
}

static void put_spread(PlumbText *text, double sd, PlumbQuantity quantity, PlumbUnits units)
{
    plumb_text_string(text, " ± ");
    plumb_text_fixed(text, sd * plumb_quantity_factor(quantity, units),
                     plumb_quantity_decimals(quantity, units));
}

static void set_row(const PlumbDesk *desk, const PlumbBoard *board, const Columns *c, double y,
                    int reading)
{
    const PlumbTracing *const t = desk->tracing;
    const int still = t->fitted[plumb_marked_view(&desk->now.marked)];
    const PlumbTraced *const traced = &t->stills.trace.still[still];
    const PlumbQuantity quantity = plumb_reading_quantity((PlumbReading)reading);
    char words[64];
    double top = y - 0.98 * c->size;
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_quantity(&text, traced->value[reading], quantity, desk->units);
    put_spread(&text, traced->sd[reading], quantity, desk->units);
    const double room = c->picture_end - plumb_board_width(board, words, c->size) - 1.5;
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, c->x, &top, room, c->size, 1, row_name(reading));
    plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){c->x + c->picture_end, y}, c->size,
                     PLUMB_END, words);
    if (c->narrow) {
        return;
    }
    const double off = plumb_stills_difference(&t->stills, still, (PlumbReading)reading);
    text = plumb_text_begin(words, sizeof words);
    if (isfinite(off)) {
        plumb_text_difference(&text, off, quantity, desk->units);
    } else {
        plumb_text_string(&text, "–");
    }
    plumb_board_text(board, PLUMB_ROLE_pencil_text, NONE, (PlumbVec2){c->x + c->width, y}, c->size,
                     PLUMB_END, words);
}

void plumb_trace_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbTracing *const t = desk->tracing;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double pitch = PLUMB_LINE_PITCH * size;
    if (plumb_reel_table(desk, board, rect) || plumb_trace_refusal(desk) != NULL) {
        return; /* the column says why nothing is read */
    }
    if (plumb_trace_read(desk) == NULL) {
        double y = rect.y_mm;
        plumb_board_wrap(board, PLUMB_ROLE_quiet, NONE, rect.x_mm, &y, rect.width_mm, size, 4,
                         t->why_not.message[0] != '\0' && desk->now.marked.marks.count > 0
                             ? t->why_not.message
                             : "Here stand the figures that the marks tell, each with its spread "
                               "and its difference from the model.");
        return;
    }
    const double difference = plumb_board_width(board, "+1000 N m", size) + 1.5;
    const int blocks = rect.width_mm > 2.0 * 34.0 * size ? 2 : 1;
    const int rows = (int)floor(rect.height_mm / pitch) - 1;
    Columns c = {.size = size, .width = rect.width_mm / blocks - (blocks > 1 ? 3.0 : 0.0)};
    c.narrow = c.width < 27.0 * size;
    c.picture_end = c.narrow ? c.width : c.width - difference;
    int next = 0;
    for (int b = 0; b < blocks; b++) {
        c.x = rect.x_mm + b * (rect.width_mm / blocks + (blocks > 1 ? 1.5 : 0.0));
        double y = rect.y_mm + size;
        plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){c.x + c.picture_end, y}, size,
                         PLUMB_END, "picture ± sd");
        if (!c.narrow) {
            plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){c.x + c.width, y}, size,
                             PLUMB_END, "less model");
        }
        for (int i = 0; i < rows && next < ROW_COUNT; next++) {
            if (plumb_stills_shows(&t->stills, t->fitted[plumb_marked_view(&desk->now.marked)],
                                   (PlumbReading)ROWS[next])) {
                y += pitch;
                set_row(desk, board, &c, y, ROWS[next]);
                i++;
            }
        }
    }
}

/* One paragraph with a bar before it; false where nothing of it found room. */
static bool paragraph(const PlumbBoard *board, PlumbRect rect, double *y, double size,
                      PlumbRole role, bool bar, const char *words)
{
    const int lines = (int)floor((rect.y_mm + rect.height_mm - *y) / (PLUMB_LINE_PITCH * size));
    if (lines < 1) {
        return false;
    }
    const double from = *y;
    plumb_board_wrap(board, role, NONE, rect.x_mm + 2.0, y, rect.width_mm - 2.0, size, lines,
                     words);
    if (bar) {
        const PlumbPen pen = {PLUMB_ROLE_bar, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
        plumb_scene_line(board->scene, pen, NONE, (PlumbVec2){rect.x_mm + 0.5, from},
                         (PlumbVec2){rect.x_mm + 0.5, *y});
    }
    *y += 0.4 * size;
    return true;
}

void plumb_trace_notes(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbTracing *const t = desk->tracing;
    const PlumbTraced *const traced = plumb_trace_read(desk);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    double y = rect.y_mm;
    char words[1024];
    if (plumb_reel_notes(desk, board, rect) || traced == NULL) {
        return;
    }
    const int still = t->fitted[plumb_marked_view(&desk->now.marked)];
    for (int i = 0; i < t->stills.finding_count[still]; i++) {
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_stills_finding_text(&text, &t->stills, still, i, desk->units);
        const bool warns = t->stills.finding[still][i].what.severity == PLUMB_WARNING;
        paragraph(board, rect, &y, size, PLUMB_ROLE_ink, warns, words);
    }
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (t->stills.finding_count[still] == 0) {
        plumb_text_string(&text, "Nothing stands out beyond its spread. ");
    }
    plumb_stills_fit_text(&text, &t->stills, still);
    plumb_text_string(&text, ". ");
    plumb_stills_lead_text(&text, &t->stills, still);
    paragraph(board, rect, &y, size, PLUMB_ROLE_ink, false, words);
    text = plumb_text_begin(words, sizeof words);
    for (int i = 0; i < PLUMB_UNSEEN_COUNT; i++) {
        if ((traced->unseen & (1U << i)) != 0) {
            plumb_text_string(&text, text.length == 0 ? "Open: " : "; ");
            plumb_text_string(&text, plumb_unseen_text((PlumbUnseen)i));
        }
    }
    if (text.length > 0) {
        plumb_text_char(&text, '.');
        paragraph(board, rect, &y, size, PLUMB_ROLE_quiet, false, words);
    }
}

static void number(PlumbText *text, const char *key, double value, int decimals)
{
    plumb_text_char(text, ' ');
    plumb_text_string(text, key);
    plumb_text_char(text, '=');
    plumb_text_fixed(text, value, decimals);
}

void plumb_trace_state(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbMarked *const marked = &desk->now.marked;
    const PlumbTracing *const t = desk->tracing;
    const PlumbTraced *const traced = plumb_trace_read(desk);
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    plumb_mark_rows(marked, row);
    plumb_text_string(text, " picture=\"");
    plumb_text_string(text, plumb_trace_picture(desk));
    plumb_text_char(text, '"');
    number(text, "pictures", marked->marks.still_count, 0);
    number(text, "still", marked->still, 0);
    number(text, "marks", marked->marks.count, 0);
    plumb_text_string(text, marked->unsaved ? " marks_unsaved=yes" : " marks_unsaved=no");
    plumb_text_string(text,
                      marked->front[plumb_marked_view(marked)] ? " view=front" : " view=side");
    plumb_text_string(text, marked->facing[plumb_marked_view(marked)] < 0 ? " faces=left"
                                                                          : " faces=right");
    plumb_text_string(text, plumb_marked_told(marked, PLUMB_TOLD_floor) < 0.0 ? " floor=no"
                                                                              : " floor=yes");
    number(text, "distance_m", plumb_marked_told(marked, PLUMB_TOLD_distance_m), 2);
    number(text, "scale_m", plumb_marked_told(marked, PLUMB_TOLD_scale_m), 2);
    plumb_reel_state(desk, text);
    plumb_text_string(text, " row=");
    plumb_mark_name_text(text, row[t->row].name);
    const int last = plumb_marked_last(marked, row[t->row].name);
    if (last >= 0) {
        number(text, "mark_x_px", marked->marks.mark[last].x_px, 2);
        number(text, "mark_y_px", marked->marks.mark[last].y_px, 2);
    }
    number(text, "mm_per_px", t->view.mm_per_px, 4);
    number(text, "view_x_mm", t->view.at_mm.x, 2);
    number(text, "view_y_mm", t->view.at_mm.y, 2);
    plumb_text_string(text, t->magnified ? " magnifier=yes" : " magnifier=no");
    plumb_text_string(text, t->stale ? " fit=due" : traced == NULL ? " fit=none" : " fit=made");
    if (traced != NULL) {
        number(text, "misfit", traced->misfit, 2);
        number(text, "hip_read_m", traced->value[PLUMB_READ_hip_height], 4);
        number(text, "hip_sd_m", traced->sd[PLUMB_READ_hip_height], 4);
        number(text, "back_read_rad", traced->value[PLUMB_ANG_back], 4);
        number(text, "findings", t->stills.finding_count[t->fitted[plumb_marked_view(marked)]], 0);
    }
}
