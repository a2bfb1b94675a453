/* SPDX-License-Identifier: MIT */
/* Notes in words: window and low-effort range with what ends them, and the findings. */
#include "scene/board.h"
#include "scene/table.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

enum { NOTE_SIZE = 320 };

/* One or two columns of paragraphs. */
typedef struct Notes {
    PlumbBoard board;
    PlumbRect rect;
    double em_mm;
    double column_mm;
    int columns;
    int column;
    double y_mm;
    bool full;
} Notes;

static const double GUTTER_MM = 6.0;
static const double INDENT_MM = 3.2;

static int lines_left(const Notes *notes)
{
    const double room = notes->rect.y_mm + notes->rect.height_mm - notes->y_mm;
    return (int)floor(room / (PLUMB_LINE_PITCH * notes->em_mm) + 1e-6);
}

/* A paragraph with a mark in the margin; it goes to the next column where it does not fit whole. */
static void add_note(Notes *notes, const char *mark, PlumbTag tag, const char *words)
{
    if (notes->full) {
        return;
    }
    const double width = notes->column_mm - INDENT_MM;
    const int need = plumb_board_wrap_count(&notes->board, width, notes->em_mm, words);
    if (need > lines_left(notes) && notes->column + 1 < notes->columns) {
        notes->column++;
        notes->y_mm = notes->rect.y_mm;
    }
    if (lines_left(notes) < 1) {
        notes->full = true;
        return;
    }
    const double x = notes->rect.x_mm + notes->column * (notes->column_mm + GUTTER_MM);
    plumb_board_text(&notes->board, PLUMB_ROLE_ink, tag,
                     (PlumbVec2){x, notes->y_mm + 0.98 * notes->em_mm}, notes->em_mm, PLUMB_START,
                     mark);
    plumb_board_wrap(&notes->board, PLUMB_ROLE_ink, tag, x + INDENT_MM, &notes->y_mm, width,
                     notes->em_mm, lines_left(notes), words);
    notes->y_mm += 0.3 * notes->em_mm;
}

/* "name: low to high. Below, ...; above, ...": or which requirements collide. */
static void interval_words(PlumbText *text, const char *name, const PlumbInterval *interval,
                           PlumbQuantity quantity, PlumbUnits units)
{
    plumb_text_string(text, name);
    if (!interval->exists) {
        if (interval->low_end == PLUMB_END_no_pose && interval->high_end == PLUMB_END_no_pose) {
            plumb_text_string(text, ": empty. No pose holds with the other settings.");
            return;
        }
        plumb_text_string(text, ": empty. These collide: ");
        plumb_text_string(text, plumb_end_text(interval->low_end));
        plumb_text_string(text, "; ");
        plumb_text_string(text, plumb_end_text(interval->high_end));
        plumb_text_string(text, ".");
        return;
    }
    plumb_text_string(text, " ");
    plumb_text_quantity(text, interval->low, quantity, units);
    plumb_text_string(text, " to ");
    plumb_text_quantity(text, interval->high, quantity, units);
    plumb_text_string(text, ". Below, ");
    plumb_text_string(text, plumb_end_text(interval->low_end));
    plumb_text_string(text, "; above, ");
    plumb_text_string(text, plumb_end_text(interval->high_end));
    plumb_text_string(text, ".");
}

static void add_intervals(Notes *notes)
{
    const PlumbDrawing *drawing = notes->board.drawing;
    const PlumbAnswer *answer = drawing->answer;
    const bool squat = answer->setup.lift == PLUMB_SQUAT;
    const PlumbQuantity quantity = squat ? PLUMB_Q_ANGLE : PLUMB_Q_LENGTH;
    const PlumbTag tag = plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_window_low});
    char words[NOTE_SIZE];
    PlumbText window = plumb_text_begin(words, sizeof words);
    interval_words(&window, squat ? "Window of the shin angle" : "Window of the hip height",
                   &answer->window, quantity, drawing->units);
    add_note(notes, "\xe2\x80\x93", tag, words);
    if (answer->low_effort.exists) {
        PlumbText range = plumb_text_begin(words, sizeof words);
        interval_words(&range, "Low-effort range", &answer->low_effort, quantity, drawing->units);
        add_note(notes, "\xe2\x80\x93",
                 plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_range_low}), words);
    }
}

/* Window and low-effort range of a press: of the touch. */
static void add_press_intervals(Notes *notes)
{
    const PlumbPressAnswer *press = notes->board.drawing->press;
    const PlumbUnits units = notes->board.drawing->units;
    const PlumbTag tag = {PLUMB_TAG_SETTING, PLUMB_SET_touch};
    assert(press != NULL);
    const PlumbInterval *const interval[2] = {&press->window, &press->low_effort};
    static const char *const name[2] = {"Touch within the arm's limits", "Low-effort range"};
    for (int i = 0; i < 2; i++) {
        if (interval[i]->exists) {
            char words[NOTE_SIZE];
            PlumbText text = plumb_text_begin(words, sizeof words);
            interval_words(&text, name[i], interval[i], PLUMB_Q_LENGTH, units);
            add_note(notes, "\xe2\x80\x93",
                     plumb_table_working((PlumbQuestion){.kind = i == 0 ? PLUMB_EXPLAIN_window_low
                                                                        : PLUMB_EXPLAIN_range_low}),
                     words);
        }
    }
    add_note(notes, "\xe2\x80\x93", tag,
             "Strength of shoulder and elbow is one published person's, scaled by mass and "
             "stature.");
}

static void add_failure(Notes *notes)
{
    const PlumbAnswer *answer = notes->board.drawing->answer;
    if (answer->outcome != PLUMB_NO_POSE) {
        return;
    }
    static const PlumbQuantity QUANTITY[PLUMB_CONSTRAINT_COUNT] = {
        [PLUMB_CON_balance] = PLUMB_Q_FRACTION,
        [PLUMB_CON_shin_angle] = PLUMB_Q_ANGLE,
        [PLUMB_CON_back_angle] = PLUMB_Q_ANGLE,
        [PLUMB_CON_reach] = PLUMB_Q_LENGTH,
    };
    char words[NOTE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "No pose meets the request. What cannot be met: ");
    plumb_text_string(&text, plumb_constraint_text(answer->failed));
    if (isfinite(answer->miss)) {
        plumb_text_string(&text, ", missed by ");
        plumb_miss_text(&text, answer->miss, QUANTITY[answer->failed], notes->board.drawing->units);
    }
    plumb_text_string(&text, isfinite(answer->miss)
                                 ? ". The nearest pose is drawn dashed."
                                 : ". None near it was found; a first guess is drawn dashed.");
    add_note(notes, "!", (PlumbTag){PLUMB_TAG_FINDING, PLUMB_FIND_no_pose}, words);
}

static void add_findings(Notes *notes, PlumbSeverity severity)
{
    const PlumbDrawing *drawing = notes->board.drawing;
    const bool press = drawing->press != NULL;
    const int count = press ? drawing->press->finding_count : drawing->answer->finding_count;
    for (int i = 0; i < count; i++) {
        const PlumbFinding *finding =
            press ? &drawing->press->finding[i] : &drawing->answer->finding[i];
        if (finding->severity != severity || finding->id == PLUMB_FIND_no_pose) {
            continue;
        }
        char words[PLUMB_FINDING_TEXT_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_finding_text(&text, finding, notes->board.drawing->units);
        add_note(notes, severity == PLUMB_WARNING ? "!" : "\xe2\x80\x93",
                 (PlumbTag){PLUMB_TAG_FINDING, (int)finding->id}, words);
    }
}

/* Wherever spreads are shown it is said what they cover. */
static void add_spread_note(Notes *notes)
{
    const PlumbDrawing *drawing = notes->board.drawing;
    const bool press = drawing->press != NULL;
    const PlumbOutcome outcome = press ? drawing->press->outcome : drawing->answer->outcome;
    if (drawing->figure_sd != NULL && outcome != PLUMB_NO_POSE) {
        add_note(notes, "\xe2\x80\x93", (PlumbTag){PLUMB_TAG_NONE, 0},
                 drawing->pencil == NULL && drawing->press_pencil == NULL
                     ? "\xc2\xb1 is one standard deviation. It covers the body, not the model's "
                       "form and not strength."
                     : "\xc2\xb1 is one standard deviation of the difference. It covers the body, "
                       "not the model's form and not strength.");
    }
}

static void add_measure_next(Notes *notes)
{
    const char *const words = notes->board.drawing->measure_next;
    if (words != NULL && words[0] != '\0') {
        add_note(notes, "\xe2\x80\x93", (PlumbTag){PLUMB_TAG_NONE, 0}, words);
    }
}

double plumb_compose_notes(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    Notes notes = {{scene, drawing}, rect, 0.0, rect.width_mm, 1, 0, rect.y_mm, false};
    notes.em_mm = plumb_board_size(&notes.board, PLUMB_SMALL_TEXT_MM);
    if (rect.width_mm > 56.0 * notes.em_mm) {
        notes.columns = 2;
        notes.column_mm = 0.5 * (rect.width_mm - GUTTER_MM);
    }
    if (drawing->press != NULL) {
        add_findings(&notes, PLUMB_WARNING);
        add_spread_note(&notes);
        add_measure_next(&notes);
        add_press_intervals(&notes);
    } else {
        add_failure(&notes);
        add_findings(&notes, PLUMB_WARNING);
        add_spread_note(&notes);
        add_measure_next(&notes);
        add_intervals(&notes);
    }
    add_findings(&notes, PLUMB_NOTE);
    return notes.column > 0 ? rect.height_mm : notes.y_mm - rect.y_mm;
}
