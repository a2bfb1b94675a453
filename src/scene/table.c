/* SPDX-License-Identifier: MIT */
/* The table of figures, each with its difference where something is pencilled. */
#include "scene/views.h"

#include <math.h>
#include <stddef.h>

#define NO_FIGURE ((double)NAN)

/* The pen that goes down the table. */
typedef struct Table {
    PlumbBoard board;
    PlumbRect rect;
    double y_mm;
    double em_mm;
    const PlumbAnswer *ink;
    const PlumbAnswer *pencil;
    bool full;
} Table;

/* Columns of the list: figures end here, differences there, as shares of the width. */
static const double VALUE_END = 0.66;
static const double DIFFERENCE_END = 0.80;
static const double VALUE_END_ALONE = 0.74;

static double row_height(const Table *table)
{
    return 1.52 * table->em_mm;
}

/* The baseline of the next row; the table is full where it would leave its room. */
static double next_row(Table *table)
{
    if (table->full || table->y_mm + row_height(table) > table->rect.y_mm + table->rect.height_mm) {
        table->full = true;
        return 0.0;
    }
    const double baseline = table->y_mm + 1.08 * table->em_mm;
    table->y_mm += row_height(table);
    return baseline;
}

static void put(const Table *table, PlumbRole role, PlumbTag tag, double share, double y_mm,
                PlumbAlign align, const char *text)
{
    plumb_board_text(&table->board, role, tag,
                     (PlumbVec2){table->rect.x_mm + share * table->rect.width_mm, y_mm},
                     table->em_mm, align, text);
}

static void rule(const Table *table)
{
    plumb_scene_line(table->board.scene, PEN_RULE, TAG_NONE,
                     (PlumbVec2){table->rect.x_mm, table->y_mm},
                     (PlumbVec2){table->rect.x_mm + table->rect.width_mm, table->y_mm});
}

/* One figure of the list. after: where it is measured from, "" for nothing. */
typedef struct Row {
    const char *name;
    double value_si;
    double pencil_si; /* NaN: no difference */
    PlumbQuantity quantity;
    const char *after;
    bool seen; /* what can be seen of the figure above: set in */
    PlumbTag tag;
} Row;

static void add_row(Table *table, const Row *row)
{
    const double y = next_row(table);
    if (table->full) {
        return;
    }
    const PlumbUnits units = table->board.drawing->units;
    char words[64];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (isfinite(row->value_si)) {
        plumb_text_quantity(&text, row->value_si, row->quantity, units);
    } else {
        plumb_text_string(&text, "none");
    }
    const bool pair = table->pencil != NULL;
    put(table, row->seen ? PLUMB_ROLE_quiet : PLUMB_ROLE_ink, row->tag, row->seen ? 0.03 : 0.0, y,
        PLUMB_START, row->name);
    put(table, PLUMB_ROLE_ink, row->tag, pair ? VALUE_END : VALUE_END_ALONE, y, PLUMB_END, words);
    if (pair && isfinite(row->value_si) && isfinite(row->pencil_si)) {
        char more[64];
        PlumbText difference = plumb_text_begin(more, sizeof more);
        plumb_text_signed(&difference,
                          (row->value_si - row->pencil_si) *
                              plumb_quantity_factor(row->quantity, units),
                          plumb_quantity_decimals(row->quantity, units));
        put(table, PLUMB_ROLE_pencil_text, row->tag, DIFFERENCE_END, y, PLUMB_END, more);
    }
    put(table, PLUMB_ROLE_quiet, TAG_NONE, (pair ? DIFFERENCE_END : VALUE_END_ALONE) + 0.02, y,
        PLUMB_START, row->after);
}

static void add_head(Table *table, const char *words)
{
    table->y_mm += 0.45 * table->em_mm;
    const double y = next_row(table);
    if (!table->full) {
        put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, y, PLUMB_START, words);
        rule(table);
        table->y_mm += 0.2 * table->em_mm;
    }
}

static PlumbTag figure_tag(PlumbFigure figure)
{
    return (PlumbTag){PLUMB_TAG_FIGURE, (int)figure};
}

static const PlumbLifter *pencil_lifter(const Table *table)
{
    const PlumbDrawing *drawing = table->board.drawing;
    return drawing->pencil_lifter != NULL ? drawing->pencil_lifter : drawing->lifter;
}

/* What can be seen of the hip's height; each line says which way. */
static void add_seen(Table *table)
{
    const PlumbDrawing *drawing = table->board.drawing;
    const PlumbPosition *at = &table->ink->start;
    const PlumbPosition *was = table->pencil != NULL ? &table->pencil->start : NULL;
    const double crease = plumb_crease_above_knee_m(&drawing->lifter->body, at);
    const double ahead = at->point[PLUMB_PT_shoulder].x - at->point[PLUMB_PT_bar].x;
    double crease_was = NO_FIGURE;
    double ahead_was = NO_FIGURE;
    if (was != NULL) {
        crease_was = plumb_crease_above_knee_m(&pencil_lifter(table)->body, was);
        ahead_was = was->point[PLUMB_PT_shoulder].x - was->point[PLUMB_PT_bar].x;
    }
    add_row(table, &(Row){"crease above the knee", crease, crease_was, PLUMB_Q_LENGTH, "", true,
                          figure_tag(PLUMB_FIG_HIP_HEIGHT)});
    add_row(table, &(Row){"shoulder ahead of the bar",
                          ahead,
                          ahead_was,
                          PLUMB_Q_LENGTH,
                          "",
                          true,
                          {PLUMB_TAG_POINT, PLUMB_PT_shoulder}});
}

static void add_angle(Table *table, PlumbAngle angle, const char *name, const char *after,
                      bool seen)
{
    add_row(table, &(Row){name,
                          table->ink->start.angle_rad[angle],
                          table->pencil != NULL ? table->pencil->start.angle_rad[angle] : NO_FIGURE,
                          PLUMB_Q_ANGLE,
                          after,
                          seen,
                          {PLUMB_TAG_ANGLE, (int)angle}});
}

static void add_main(Table *table)
{
    const PlumbPosition *at = &table->ink->start;
    const PlumbAnswer *was = table->pencil;
    const bool none = table->ink->outcome == PLUMB_NO_POSE;
    add_head(table, none ? "nearest pose: not in balance as asked" : "figures");
    add_row(table, &(Row){"bar travel", table->ink->travel_m, was != NULL ? was->travel_m : NO_FIGURE,
                          PLUMB_Q_LENGTH, "", false, figure_tag(PLUMB_FIG_TRAVEL)});
    add_row(table, &(Row){"balance",
                          at->balance_frac,
                          was != NULL ? was->start.balance_frac : NO_FIGURE,
                          PLUMB_Q_FRACTION,
                          "heel 0, toe 1",
                          false,
                          {PLUMB_TAG_SETTING, PLUMB_SET_balance}});
    add_angle(table, PLUMB_ANG_back, "back angle", "above level", false);
    add_row(table, &(Row){"hip height", at->point[PLUMB_PT_hip].y,
                          was != NULL ? was->start.point[PLUMB_PT_hip].y : NO_FIGURE, PLUMB_Q_LENGTH, "",
                          false, figure_tag(PLUMB_FIG_HIP_HEIGHT)});
    add_seen(table);
    add_angle(table, PLUMB_ANG_shin, "shin", "from upright", true);
}

/* Columns of the table of joints, as shares of the width: figures end at END, differences follow.
 */
enum { COLUMNS = 3 };
static const double END[COLUMNS] = {0.36, 0.62, 0.86};
static const double END_ALONE[COLUMNS] = {0.42, 0.68, 0.94};
static const double DIFFERENCE[COLUMNS] = {0.50, 0.76, 1.0};

/* Efforts stand as such only where the strength was entered; else against the greatest of the
 * inked set-up. */
static double effort_unit(const Table *table)
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

static void add_column(const Table *table, int column, double y_mm, PlumbTag tag, double value_si,
                       double pencil_si, PlumbQuantity quantity, const char *mark)
{
    const PlumbUnits units = table->board.drawing->units;
    const double factor = plumb_quantity_factor(quantity, units);
    const int decimals = plumb_quantity_decimals(quantity, units);
    const bool pair = table->pencil != NULL;
    char words[32];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, value_si * factor, decimals);
    plumb_text_string(&text, mark);
    put(table, PLUMB_ROLE_ink, tag, pair ? END[column] : END_ALONE[column], y_mm, PLUMB_END, words);
    if (pair && isfinite(pencil_si)) {
        PlumbText difference = plumb_text_begin(words, sizeof words);
        plumb_text_signed(&difference, (value_si - pencil_si) * factor, decimals);
        put(table, PLUMB_ROLE_pencil_text, tag, DIFFERENCE[column], y_mm, PLUMB_END, words);
    }
}

static void add_joint(Table *table, PlumbJoint joint)
{
    const double y = next_row(table);
    if (table->full) {
        return;
    }
    const PlumbPosition *at = &table->ink->start;
    const PlumbPosition *was = table->pencil != NULL ? &table->pencil->start : NULL;
    const PlumbTag tag = {PLUMB_TAG_ARM, (int)joint};
    const double unit = effort_unit(table);
    const PlumbQuantity effort =
        table->board.drawing->lifter->strength_entered ? PLUMB_Q_FRACTION : PLUMB_Q_SHARE;
    put(table, PLUMB_ROLE_ink, tag, 0.0, y, PLUMB_START, plumb_joint_name(joint));
    add_column(table, 0, y, tag, at->bar_arm_m[joint], was != NULL ? was->bar_arm_m[joint] : NO_FIGURE,
               PLUMB_Q_LENGTH, "");
    add_column(table, 1, y, tag, at->moment_both_n_m[joint],
               was != NULL ? was->moment_both_n_m[joint] : NO_FIGURE, PLUMB_Q_MOMENT, "");
    if (at->capacity_n_m[joint] > 0.0) {
        const bool edge = (at->extrapolated & (1u << joint)) != 0;
        add_column(table, 2, y, tag, at->relative_effort[joint] / unit,
                   was != NULL ? was->relative_effort[joint] / unit : NO_FIGURE, effort, edge ? "*" : "");
    }
}

static void add_joints(Table *table)
{
    static const PlumbJoint ORDER[PLUMB_JOINT_COUNT] = {PLUMB_JOINT_hip, PLUMB_JOINT_back,
                                                        PLUMB_JOINT_knee, PLUMB_JOINT_shoulder,
                                                        PLUMB_JOINT_ankle};
    const PlumbDrawing *drawing = table->board.drawing;
    const char *title[COLUMNS] = {"arm, ", "moment, ",
                                  drawing->lifter->strength_entered ? "effort" : "effort, %"};
    const PlumbQuantity quantity[2] = {PLUMB_Q_LENGTH, PLUMB_Q_MOMENT};
    table->y_mm += 0.45 * table->em_mm;
    const double y = next_row(table);
    if (table->full) {
        return;
    }
    put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, y, PLUMB_START, "joint");
    for (int i = 0; i < COLUMNS; i++) {
        char words[48];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, title[i]);
        plumb_text_string(&text, i < 2 ? plumb_quantity_unit(quantity[i], drawing->units) : "");
        put(table, PLUMB_ROLE_quiet, TAG_NONE, table->pencil != NULL ? END[i] : END_ALONE[i], y,
            PLUMB_END, words);
    }
    rule(table);
    table->y_mm += 0.2 * table->em_mm;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        add_joint(table, ORDER[i]);
    }
}

/* What the columns of the joints mean, one line each. */
static void add_remarks(Table *table)
{
    if (!table->board.drawing->lifter->strength_entered) {
        const double y = next_row(table);
        if (!table->full) {
            put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, y, PLUMB_START,
                "effort: share of the greatest one here");
        }
    }
    if (table->ink->start.extrapolated != 0) {
        const double y = next_row(table);
        if (!table->full) {
            put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, y, PLUMB_START,
                "* capacity held at the tested edge");
        }
    }
}

static void add_angles(Table *table)
{
    add_head(table, "angles");
    add_angle(table, PLUMB_ANG_thigh, "thigh", "above level", false);
    add_angle(table, PLUMB_ANG_knee_flexion, "knee flexion", "0 is straight", false);
    add_angle(table, PLUMB_ANG_ankle_dorsiflexion, "dorsiflexion", "in the shoe", false);
    add_angle(table, PLUMB_ANG_hip_flexion, "hip flexion", "to the pelvis", false);
    add_angle(table, PLUMB_ANG_hip_abduction, "hip abduction", "", false);
    add_angle(table, PLUMB_ANG_hip_external_rotation, "hip turned out", "", false);
    add_angle(table, PLUMB_ANG_frontal_shin, "shin from the front", "outward", false);
    add_row(table, &(Row){"knee outside the toe line",
                          table->ink->start.knee_to_toe_line_m,
                          table->pencil != NULL ? table->pencil->start.knee_to_toe_line_m : NO_FIGURE,
                          PLUMB_Q_LENGTH,
                          "",
                          false,
                          {PLUMB_TAG_POINT, PLUMB_PT_knee}});
}

double plumb_compose_table(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    Table table = {{scene, drawing}, rect, rect.y_mm, 0.0, drawing->answer, drawing->pencil, false};
    table.em_mm = plumb_board_size(&table.board, PLUMB_SMALL_TEXT_MM);
    add_main(&table);
    add_joints(&table);
    add_remarks(&table);
    add_angles(&table);
    return table.y_mm - rect.y_mm;
}
