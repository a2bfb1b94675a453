/* SPDX-License-Identifier: MIT */
/* The table's joints: moment arm, net moment and relative effort of each, with differences. */
#include "scene/table.h"

#include <math.h>
#include <stddef.h>

enum { COLUMNS = 3 };

/* Where the columns stand, mm from the table's left edge. */
typedef struct Columns {
    int count; /* as many as find room, the first ones */
    double value_end_mm[COLUMNS];
    double difference_end_mm[COLUMNS];
} Columns;

/* Efforts stand as such only where the strength was entered; else against the greatest of the
 * inked set-up. */
static double effort_unit(const PlumbTableau *table)
{
    if (table->board.drawing->lifter->strength_entered) {
        return 1.0;
    }
    double greatest = 0.0;
    for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
        greatest = fmax(greatest, table->ink->start.relative_effort[j]);
    }
    return greatest > 0.0 ? greatest : 1.0;
}

/* One figure of a joint in words, with its difference and its mark. */
typedef struct Figure {
    char value[40];
    char difference[40];
    const char *mark;
} Figure;

static Figure figure_of(const PlumbTableau *table, double value_si, double pencil_si,
                        PlumbQuantity quantity, const char *mark, double sd_si)
{
    const PlumbUnits units = table->board.drawing->units;
    const double factor = plumb_quantity_factor(quantity, units);
    const int decimals = plumb_quantity_decimals(quantity, units);
    Figure figure = {"", "", mark};
    PlumbText value = plumb_text_begin(figure.value, sizeof figure.value);
    plumb_text_fixed(&value, value_si * factor, decimals);
    PlumbText difference = plumb_text_begin(figure.difference, sizeof figure.difference);
    if (table->pencil != NULL && isfinite(pencil_si)) {
        plumb_text_signed(&difference, (value_si - pencil_si) * factor, decimals);
    }
    plumb_table_put_spread(&difference, sd_si, quantity, units);
    return figure;
}

/* The figure of one column; empty words where the joint has none. */
static Figure joint_figure(const PlumbTableau *table, PlumbJoint joint, int column)
{
    const PlumbPosition *at = &table->ink->start;
    const PlumbPosition *was = table->pencil != NULL ? &table->pencil->start : at;
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
    if (column == 0) {
        return figure_of(table, at->bar_arm_m[joint], was->bar_arm_m[joint], PLUMB_Q_LENGTH, "",
                         plumb_table_sd(table, arm[joint]));
    }
    if (column == 1) {
        return figure_of(table, at->moment_both_n_m[joint], was->moment_both_n_m[joint],
                         PLUMB_Q_MOMENT, "", plumb_table_sd(table, moment[joint]));
    }
    if (!(at->capacity_n_m[joint] > 0.0)) {
        return (Figure){"", "", ""};
    }
    const double unit = effort_unit(table);
    const PlumbQuantity quantity =
        table->board.drawing->lifter->strength_entered ? PLUMB_Q_FRACTION : PLUMB_Q_SHARE;
    const double pencil =
        was->capacity_n_m[joint] > 0.0 ? was->relative_effort[joint] / unit : PLUMB_NO_FIGURE;
    return figure_of(table, at->relative_effort[joint] / unit, pencil, quantity,
                     (at->extrapolated & (1u << joint)) != 0 ? "*" : "", PLUMB_NO_FIGURE);
}

static const char *const TITLE[COLUMNS] = {"arm", "moment", "effort"};

static double width_of(const PlumbTableau *table, const char *words)
{
    return plumb_board_width(&table->board, words, table->em_mm);
}

/* The joints' names, then columns as wide as their widest figures, spread over the room; the last
 * columns are left out where there is none. */
static Columns columns_of(const PlumbTableau *table)
{
    const double gap = 0.8 * table->em_mm;
    const double name = width_of(table, "shoulder");
    double value[COLUMNS];
    double more[COLUMNS];
    double need = name;
    Columns columns = {0, {0.0}, {0.0}};
    for (int i = 0; i < COLUMNS; i++) {
        value[i] = width_of(table, TITLE[i]);
        const double mark = i == 2 ? width_of(table, "*") : 0.0;
        more[i] = mark;
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            const Figure figure = joint_figure(table, (PlumbJoint)j, i);
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

static void add_joint(PlumbTableau *table, const Columns *columns, PlumbJoint joint)
{
    const double y = plumb_table_row(table);
    if (table->full) {
        return;
    }
    const PlumbTag tag = {PLUMB_TAG_ARM, (int)joint};
    plumb_table_put(table, PLUMB_ROLE_ink, tag, 0.0, y, PLUMB_START, plumb_joint_name(joint));
    for (int i = 0; i < columns->count; i++) {
        const Figure figure = joint_figure(table, joint, i);
        const double x = columns->value_end_mm[i];
        plumb_table_put(table, PLUMB_ROLE_ink, tag, x, y, PLUMB_END, figure.value);
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
    table->y_mm += 0.45 * table->em_mm;
    const double first = plumb_table_row(table);
    const double second = plumb_table_row(table);
    if (table->full) {
        return;
    }
    plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, second, PLUMB_START, "joint");
    for (int i = 0; i < COLUMNS && i < columns->count; i++) {
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, columns->value_end_mm[i], first,
                        PLUMB_END, TITLE[i]);
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, columns->value_end_mm[i], second,
                        PLUMB_END, unit[i]);
    }
    plumb_table_rule(table);
}

/* What the columns mean, where that is not plain. */
static void add_remark(PlumbTableau *table, const char *words)
{
    const double y = plumb_table_row(table);
    if (!table->full &&
        plumb_board_width(&table->board, words, table->em_mm) <= table->rect.width_mm) {
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, y, PLUMB_START, words);
    }
}

void plumb_table_joints(PlumbTableau *table)
{
    static const PlumbJoint ORDER[PLUMB_JOINT_COUNT] = {PLUMB_JOINT_hip, PLUMB_JOINT_back,
                                                        PLUMB_JOINT_knee, PLUMB_JOINT_shoulder,
                                                        PLUMB_JOINT_ankle};
    const Columns columns = columns_of(table);
    if (columns.count == 0) {
        return;
    }
    add_head(table, &columns);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        add_joint(table, &columns, ORDER[i]);
    }
    if (columns.count < COLUMNS) {
        return;
    }
    if (!table->board.drawing->lifter->strength_entered) {
        add_remark(table, "effort: against the greatest one here");
    }
    if (table->ink->start.extrapolated != 0) {
        add_remark(table, "* capacity held at the tested edge");
    }
}
