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

/* The joints' names, then columns of equal width; the widest figures decide how many fit. */
static Columns columns_of(const PlumbTableau *table)
{
    const double em = table->em_mm;
    const double name = plumb_board_width(&table->board, "shoulder", em);
    const double figure = plumb_board_width(&table->board, "-8888", em) + 0.9 * em;
    const double more =
        table->pencil != NULL ? plumb_board_width(&table->board, "+888", em) + 0.4 * em : 0.0;
    const double room = table->rect.width_mm - name - 0.5 * em;
    Columns columns = {COLUMNS, {0.0}, {0.0}};
    while (columns.count > 1 && columns.count * (figure + more) > room) {
        columns.count--;
    }
    const double mark = plumb_board_width(&table->board, "*", em);
    const double width = room / columns.count;
    for (int i = 0; i < columns.count; i++) {
        columns.difference_end_mm[i] = table->rect.width_mm - (columns.count - 1 - i) * width;
        columns.value_end_mm[i] = columns.difference_end_mm[i] - fmax(more, mark);
    }
    return columns;
}

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

/* One figure of a joint. */
typedef struct Figure {
    double value_si;
    double pencil_si;
    PlumbQuantity quantity;
    const char *mark;
} Figure;

static void add_figure(const PlumbTableau *table, const Columns *columns, int column, double y_mm,
                       PlumbTag tag, const Figure *figure)
{
    const PlumbUnits units = table->board.drawing->units;
    const double factor = plumb_quantity_factor(figure->quantity, units);
    const int decimals = plumb_quantity_decimals(figure->quantity, units);
    char words[48];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, figure->value_si * factor, decimals);
    plumb_table_put(table, PLUMB_ROLE_ink, tag, columns->value_end_mm[column], y_mm, PLUMB_END,
                    words);
    plumb_table_put(table, PLUMB_ROLE_ink, tag, columns->value_end_mm[column], y_mm, PLUMB_START,
                    figure->mark);
    if (table->pencil != NULL && isfinite(figure->pencil_si)) {
        PlumbText difference = plumb_text_begin(words, sizeof words);
        plumb_text_signed(&difference, (figure->value_si - figure->pencil_si) * factor, decimals);
        plumb_table_put(table, PLUMB_ROLE_pencil_text, tag, columns->difference_end_mm[column],
                        y_mm, PLUMB_END, words);
    }
}

static void add_joint(PlumbTableau *table, const Columns *columns, PlumbJoint joint)
{
    const double y = plumb_table_row(table);
    if (table->full) {
        return;
    }
    const PlumbPosition *at = &table->ink->start;
    const PlumbPosition *was = table->pencil != NULL ? &table->pencil->start : at;
    const PlumbTag tag = {PLUMB_TAG_ARM, (int)joint};
    const double unit = effort_unit(table);
    const PlumbQuantity effort =
        table->board.drawing->lifter->strength_entered ? PLUMB_Q_FRACTION : PLUMB_Q_SHARE;
    const char *mark = (at->extrapolated & (1u << joint)) != 0 ? "*" : "";
    const Figure figure[COLUMNS] = {
        {at->bar_arm_m[joint], was->bar_arm_m[joint], PLUMB_Q_LENGTH, ""},
        {at->moment_both_n_m[joint], was->moment_both_n_m[joint], PLUMB_Q_MOMENT, ""},
        {at->relative_effort[joint] / unit, was->relative_effort[joint] / unit, effort, mark},
    };
    plumb_table_put(table, PLUMB_ROLE_ink, tag, 0.0, y, PLUMB_START, plumb_joint_name(joint));
    for (int i = 0; i < columns->count; i++) {
        if (i < 2 || at->capacity_n_m[joint] > 0.0) {
            add_figure(table, columns, i, y, tag, &figure[i]);
        }
    }
}

static void add_head(PlumbTableau *table, const Columns *columns)
{
    const PlumbDrawing *drawing = table->board.drawing;
    const char *title[COLUMNS] = {"arm", "moment", "effort"};
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
    for (int i = 0; i < columns->count; i++) {
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, columns->value_end_mm[i], first,
                        PLUMB_END, title[i]);
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
