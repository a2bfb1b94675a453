/* SPDX-License-Identifier: MIT */
/* The table's joints: moment arm, net moment and relative effort of each, with differences. */
#include "scene/table.h"

#include <math.h>
#include <stddef.h>

enum { COLUMNS = PLUMB_JOINT_COLUMNS };

/* Where the columns stand, mm from the table's left edge. */
typedef struct Columns {
    int count; /* as many as find room, the first ones */
    double value_end_mm[COLUMNS];
    double difference_end_mm[COLUMNS];
} Columns;

/* The rows, and what an effort is told against. */
typedef struct Matrix {
    const PlumbJointRow *row;
    int count;
    double effort_unit;
} Matrix;

/* Efforts stand as such only where the strength was entered; else against the greatest of the
 * inked set-up. */
static double effort_unit(const PlumbTableau *table, const PlumbJointRow *row, int count)
{
    if (table->board.drawing->lifter->strength_entered) {
        return 1.0;
    }
    double greatest = 0.0;
    for (int j = 0; j < count; j++) {
        greatest = fmax(greatest, row[j].value_si[2]); /* NaN counts as nothing */
    }
    return greatest > 0.0 ? greatest : 1.0;
}

/* One figure of a joint in words, with its difference and its mark. */
typedef struct Figure {
    char value[40];
    char difference[40];
    const char *mark;
} Figure;

/* The figure of one column; empty words where the joint has none. */
static Figure figure_of(const PlumbTableau *table, const Matrix *matrix, int joint, int column)
{
    const PlumbJointRow *const row = &matrix->row[joint];
    const PlumbQuantity effort =
        table->board.drawing->lifter->strength_entered ? PLUMB_Q_FRACTION : PLUMB_Q_SHARE;
    const PlumbQuantity quantity = column == 0   ? PLUMB_Q_LENGTH
                                   : column == 1 ? PLUMB_Q_MOMENT
                                                 : effort;
    const double unit = column == 2 ? matrix->effort_unit : 1.0;
    const double factor = plumb_quantity_factor(quantity, table->board.drawing->units) / unit;
    const int decimals = plumb_quantity_decimals(quantity, table->board.drawing->units);
    const double value_si = row->value_si[column];
    Figure figure = {"", "", column == 2 && row->held ? "*" : ""};
    if (!isfinite(value_si)) {
        return (Figure){"", "", ""};
    }
    PlumbText value = plumb_text_begin(figure.value, sizeof figure.value);
    plumb_text_fixed(&value, value_si * factor, decimals);
    PlumbText difference = plumb_text_begin(figure.difference, sizeof figure.difference);
    if (table->differences && isfinite(row->pencil_si[column])) {
        plumb_text_signed(&difference, (value_si - row->pencil_si[column]) * factor, decimals);
    }
    if (table->spread) {
        plumb_table_put_spread(&difference, row->sd_si[column], quantity,
                               table->board.drawing->units);
    }
    return figure;
}

static const char *const TITLE[COLUMNS] = {"arm", "moment", "effort"};

static double width_of(const PlumbTableau *table, const char *words)
{
    return plumb_board_width(&table->board, words, table->em_mm);
}

/* The joints' names, then columns as wide as their widest figures, spread over the room; the last
 * columns are left out where there is none. */
static Columns columns_of(const PlumbTableau *table, const Matrix *matrix)
{
    const double gap = 0.8 * table->em_mm;
    double name = 0.0;
    for (int j = 0; j < matrix->count; j++) {
        name = fmax(name, width_of(table, matrix->row[j].name));
    }
    double value[COLUMNS];
    double more[COLUMNS];
    double need = name;
    Columns columns = {0, {0.0}, {0.0}};
    for (int i = 0; i < COLUMNS; i++) {
        value[i] = width_of(table, TITLE[i]);
        const double mark = i == 2 ? width_of(table, "*") : 0.0;
        more[i] = mark;
        for (int j = 0; j < matrix->count; j++) {
            const Figure figure = figure_of(table, matrix, j, i);
            value[i] = fmax(value[i], width_of(table, figure.value));
            if (figure.difference[0] != '\0') {
                more[i] = fmax(more[i], mark + width_of(table, figure.difference) + 0.7 * gap);
            }
        }
        const double with = need + gap + value[i] + more[i];
        if (columns.count == i && with <= table->rect.width_mm) {
            need = with;
            columns.count++;
        }
    }
    const double spare = columns.count > 0 ? (table->rect.width_mm - need) / columns.count : 0.0;
    double x = name;
    for (int i = 0; i < columns.count; i++) {
        columns.value_end_mm[i] = x + gap + spare + value[i];
        x = columns.value_end_mm[i] + more[i];
        columns.difference_end_mm[i] = x;
    }
    return columns;
}

static void add_joint(PlumbTableau *table, const Matrix *matrix, const Columns *columns, int joint)
{
    const double y = plumb_table_row(table);
    if (table->full) {
        return;
    }
    const PlumbTag tag = matrix->row[joint].tag;
    plumb_table_put(table, PLUMB_ROLE_ink, tag, 0.0, y, PLUMB_START, matrix->row[joint].name);
    for (int i = 0; i < columns->count; i++) {
        const Figure figure = figure_of(table, matrix, joint, i);
        const double x = columns->value_end_mm[i];
        const PlumbTag working = matrix->row[joint].working[i];
        plumb_table_put(table, PLUMB_ROLE_ink, working, x, y, PLUMB_END, figure.value);
        plumb_table_put(table, PLUMB_ROLE_ink, tag, x, y, PLUMB_START, figure.mark);
        plumb_table_put(table, PLUMB_ROLE_pencil_text, tag, columns->difference_end_mm[i], y,
                        PLUMB_END, figure.difference);
    }
}

static void add_head(PlumbTableau *table, const Columns *columns)
{
    const PlumbDrawing *drawing = table->board.drawing;
    const char *unit[COLUMNS] = {plumb_quantity_unit(PLUMB_Q_LENGTH, drawing->units),
                                 plumb_quantity_unit(PLUMB_Q_MOMENT, drawing->units),
                                 drawing->lifter->strength_entered ? "" : "%"};
    if (!plumb_table_has_room(table, 3, 0.65)) {
        return; /* no head without a joint */
    }
    table->y_mm += 0.45 * table->em_mm;
    const double first = plumb_table_row(table);
    const double second = plumb_table_row(table);
    plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, second, PLUMB_START, "joint");
    for (int i = 0; i < COLUMNS && i < columns->count; i++) {
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, columns->value_end_mm[i], first,
                        PLUMB_END, TITLE[i]);
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, columns->value_end_mm[i], second,
                        PLUMB_END, unit[i]);
    }
    plumb_table_rule(table);
}

void plumb_table_remark(PlumbTableau *table, const char *words)
{
    const double y = plumb_table_row(table);
    if (!table->full &&
        plumb_board_width(&table->board, words, table->em_mm) <= table->rect.width_mm) {
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, y, PLUMB_START, words);
    }
}

/* The first so many columns, in text down to a share of the full size. */
static bool fit_columns(PlumbTableau *table, const Matrix *matrix, int wanted, Columns *columns)
{
    static const double SMALLEST = 0.82;
    const double full = table->em_mm;
    for (; table->em_mm >= SMALLEST * full; table->em_mm *= 0.98) {
        *columns = columns_of(table, matrix);
        if (columns->count >= wanted) {
            return true;
        }
    }
    table->em_mm = full;
    return false;
}

/* Hardly smaller text makes room first. A figure says more than another's spread: spreads go where
 * that keeps a column, and only there. */
static Columns fit(PlumbTableau *table, const Matrix *matrix)
{
    Columns columns = {0, {0.0}, {0.0}};
    const bool spread = table->spread;
    for (int wanted = COLUMNS; wanted > 0; wanted--) {
        table->spread = spread;
        if (fit_columns(table, matrix, wanted, &columns)) {
            break;
        }
        table->spread = false;
        if (spread && fit_columns(table, matrix, wanted, &columns)) {
            break;
        }
    }
    return columns;
}

void plumb_table_matrix(PlumbTableau *table, const PlumbJointRow *row, int count)
{
    const Matrix matrix = {row, count, effort_unit(table, row, count)};
    const double full = table->em_mm;
    const Columns columns = fit(table, &matrix);
    if (columns.count == 0) {
        return;
    }
    add_head(table, &columns);
    bool held = false;
    for (int i = 0; i < count; i++) {
        add_joint(table, &matrix, &columns, i);
        held = held || row[i].held;
    }
    table->em_mm = full;
    if (columns.count < COLUMNS) {
        return;
    }
    if (!table->board.drawing->lifter->strength_entered) {
        plumb_table_remark(table, "effort: against the greatest one here");
    }
    if (held) {
        plumb_table_remark(table, "* capacity held at the tested edge");
    }
}

static double effort_of(const PlumbPosition *at, PlumbJoint joint)
{
    return at->capacity_n_m[joint] > 0.0 ? at->relative_effort[joint] : PLUMB_NO_FIGURE;
}

static PlumbJointRow row_of(const PlumbTableau *table, PlumbJoint joint)
{
    static const PlumbOutput arm[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PLUMB_OUT_ankle_arm,       [PLUMB_JOINT_knee] = PLUMB_OUT_knee_arm,
        [PLUMB_JOINT_hip] = PLUMB_OUT_hip_arm,           [PLUMB_JOINT_back] = PLUMB_OUT_back_arm,
        [PLUMB_JOINT_shoulder] = PLUMB_OUT_shoulder_arm,
    };
    static const PlumbOutput moment[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PLUMB_OUT_ankle_moment,
        [PLUMB_JOINT_knee] = PLUMB_OUT_knee_moment,
        [PLUMB_JOINT_hip] = PLUMB_OUT_hip_moment,
        [PLUMB_JOINT_back] = PLUMB_OUT_back_moment,
        [PLUMB_JOINT_shoulder] = PLUMB_OUT_shoulder_moment,
    };
    const PlumbPosition *at = &table->ink->start;
    const PlumbPosition *was = table->pencil != NULL ? &table->pencil->start : at;
    return (PlumbJointRow){
        plumb_joint_name(joint),
        {PLUMB_TAG_ARM, (int)joint},
        {at->bar_arm_m[joint], at->moment_both_n_m[joint], effort_of(at, joint)},
        {was->bar_arm_m[joint], was->moment_both_n_m[joint], effort_of(was, joint)},
        {plumb_table_sd(table, (int)arm[joint]), plumb_table_sd(table, (int)moment[joint]),
         PLUMB_NO_FIGURE},
        (at->extrapolated & (1u << joint)) != 0 && at->capacity_n_m[joint] > 0.0,
        {plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_arm, .joint = joint}),
         plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_moment, .joint = joint}),
         plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_effort, .joint = joint})},
    };
}

void plumb_table_joints(PlumbTableau *table)
{
    static const PlumbJoint ORDER[PLUMB_JOINT_COUNT] = {PLUMB_JOINT_hip, PLUMB_JOINT_back,
                                                        PLUMB_JOINT_knee, PLUMB_JOINT_shoulder,
                                                        PLUMB_JOINT_ankle};
    PlumbJointRow row[PLUMB_JOINT_COUNT];
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        row[i] = row_of(table, ORDER[i]);
    }
    plumb_table_matrix(table, row, PLUMB_JOINT_COUNT);
}
