/* SPDX-License-Identifier: MIT */
/* The table of figures, each with its difference where something is pencilled. */
#include "scene/press.h"
#include "scene/table.h"

#include <math.h>

static const double ROW_PITCH = 1.52; /* ems */
static const double HEADING_AIR = 0.45;
static const double RULE_AIR = 0.2;

bool plumb_table_has_room(PlumbTableau *table, int rows, double air_ems)
{
    const double heading = table->heading[0] != '\0' ? ROW_PITCH + HEADING_AIR + RULE_AIR : 0.0;
    const double height = (heading + rows * ROW_PITCH + air_ems) * table->em_mm;
    table->full = table->full || table->y_mm + height > table->rect.y_mm + table->rect.height_mm;
    return !table->full;
}

/* The baseline of a row that has room. */
static double take_row(PlumbTableau *table)
{
    const double baseline = table->y_mm + 1.08 * table->em_mm;
    table->y_mm += ROW_PITCH * table->em_mm;
    return baseline;
}

double plumb_table_row(PlumbTableau *table)
{
    if (!plumb_table_has_room(table, 1, 0.0)) {
        return 0.0;
    }
    if (table->heading[0] != '\0') {
        table->y_mm += HEADING_AIR * table->em_mm;
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, 0.0, take_row(table), PLUMB_START,
                        table->heading);
        plumb_table_rule(table);
        table->heading[0] = '\0';
    }
    return take_row(table);
}

PlumbTag plumb_table_working(PlumbQuestion question)
{
    return (PlumbTag){PLUMB_TAG_WORKING, plumb_question_index(question)};
}

void plumb_table_put(const PlumbTableau *table, PlumbRole role, PlumbTag tag, double x_mm,
                     double y_mm, PlumbAlign align, const char *text)
{
    plumb_board_text(&table->board, role, tag, (PlumbVec2){table->rect.x_mm + x_mm, y_mm},
                     table->em_mm, align, text);
}

void plumb_table_rule(PlumbTableau *table)
{
    plumb_scene_line(table->board.scene, PEN_RULE, TAG_NONE,
                     (PlumbVec2){table->rect.x_mm, table->y_mm},
                     (PlumbVec2){table->rect.x_mm + table->rect.width_mm, table->y_mm});
    table->y_mm += RULE_AIR * table->em_mm;
}

/* What leads or is prescribed has a spread of rounding alone. */
static const double PRESCRIBED = 1e-9;

double plumb_table_sd(const PlumbTableau *table, int output)
{
    const double *sd = table->board.drawing->figure_sd;
    return table->spread && sd != NULL && sd[output] > PRESCRIBED ? sd[output] : PLUMB_NO_FIGURE;
}

static double width_of(const PlumbTableau *table, const char *text)
{
    return plumb_board_width(&table->board, text, table->em_mm);
}

static void value_words(const PlumbTableau *table, const PlumbTableRow *row, PlumbText *text)
{
    if (isfinite(row->value_si)) {
        plumb_text_quantity(text, row->value_si, row->quantity, table->board.drawing->units);
    } else {
        plumb_text_string(text, "none");
    }
}

void plumb_table_put_spread(PlumbText *text, double sd_si, PlumbQuantity quantity, PlumbUnits units)
{
    if (isfinite(sd_si)) {
        plumb_text_string(text, text->length > 0 ? " \xc2\xb1" : "\xc2\xb1");
        plumb_text_fixed(text, sd_si * plumb_quantity_factor(quantity, units),
                         plumb_quantity_decimals(quantity, units));
    }
}

/* The difference to what is pencilled, and the spread: of the difference, else of the figure. */
static void add_more(const PlumbTableau *table, const PlumbTableRow *row, double end_mm,
                     double y_mm)
{
    const PlumbUnits units = table->board.drawing->units;
    char words[64];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (table->differences && !(isfinite(row->value_si) && isfinite(row->pencil_si))) {
        return;
    }
    if (table->differences) {
        plumb_text_signed(
            &text, (row->value_si - row->pencil_si) * plumb_quantity_factor(row->quantity, units),
            plumb_quantity_decimals(row->quantity, units));
    }
    if (row->output != PLUMB_NO_OUTPUT) {
        plumb_table_put_spread(&text, plumb_table_sd(table, row->output), row->quantity, units);
    }
    plumb_table_put(table, table->differences ? PLUMB_ROLE_pencil_text : PLUMB_ROLE_quiet, row->tag,
                    end_mm, y_mm, PLUMB_END, words);
}

/* Room for the widest of them. */
static double more_width(const PlumbTableau *table)
{
    const char *const widest = table->differences && table->spread ? "+188.8 \xc2\xb1 8.8"
                               : table->differences                ? "+188.8"
                               : table->spread                     ? "\xc2\xb1 88.8"
                                                                   : "";
    return widest[0] != '\0' ? width_of(table, widest) + 0.5 * table->em_mm : 0.0;
}

/* Name, figure, difference or spread, reference. Where references would leave the longest name no
 * room they are left out; a name too long for its room even so has the figure below it. */
void plumb_table_add(PlumbTableau *table, const PlumbTableRow *row)
{
    const double gap = 0.5 * table->em_mm;
    const double more = more_width(table);
    const double reference = width_of(table, "from straight") + gap;
    const double figure = width_of(table, "888.8 cm") + gap;
    const double left = row->seen ? 0.9 * table->em_mm : 0.0;
    const double width = table->rect.width_mm;
    const double name = width_of(table, "crease above the knee") + 0.9 * table->em_mm;
    const bool referenced = width - reference - more - figure > (more > 0.0 ? name : 0.3 * width);
    const double end = width - (referenced ? reference : 0.0) - more;
    char words[64];
    PlumbText text = plumb_text_begin(words, sizeof words);
    value_words(table, row, &text);
    const bool two = left + width_of(table, row->name) > end - width_of(table, words) - gap;
    if (!plumb_table_has_room(table, two ? 2 : 1, 0.0)) {
        return;
    }
    double y = plumb_table_row(table);
    if (two) {
        double top = table->y_mm - ROW_PITCH * table->em_mm;
        plumb_board_wrap(&table->board, PLUMB_ROLE_quiet, row->tag, table->rect.x_mm + left, &top,
                         width - left, table->em_mm, 1, row->name);
        y = plumb_table_row(table);
    } else {
        plumb_table_put(table, row->seen ? PLUMB_ROLE_quiet : PLUMB_ROLE_ink, row->tag, left, y,
                        PLUMB_START, row->name);
    }
    plumb_table_put(table, PLUMB_ROLE_ink, row->working, end, y, PLUMB_END, words);
    if (more > 0.0) {
        add_more(table, row, end + more, y);
    }
    if (referenced && width_of(table, row->after) <= reference - gap + 1e-9) {
        plumb_table_put(table, PLUMB_ROLE_quiet, TAG_NONE, end + more + gap, y, PLUMB_START,
                        row->after);
    }
}

void plumb_table_heading(PlumbTableau *table, const char *words)
{
    PlumbText text = plumb_text_begin(table->heading, sizeof table->heading);
    plumb_text_string(&text, words);
}

static const PlumbLifter *pencil_lifter(const PlumbTableau *table)
{
    const PlumbDrawing *drawing = table->board.drawing;
    return drawing->pencil_lifter != NULL ? drawing->pencil_lifter : drawing->lifter;
}

/* A signed height or distance named by its direction; with a difference the sign stays. */
static void add_directed(PlumbTableau *table, const char *positive, const char *negative,
                         double value_si, double pencil_si, PlumbTag tag, int output,
                         PlumbExplainKind kind)
{
    const bool turned = table->pencil == NULL && value_si < 0.0;
    plumb_table_add(table,
                    &(PlumbTableRow){turned ? negative : positive, turned ? -value_si : value_si,
                                     pencil_si, PLUMB_Q_LENGTH, "", true, tag, output,
                                     plumb_table_working((PlumbQuestion){.kind = kind})});
}

/* What can be seen of the hip's height. */
static void add_seen(PlumbTableau *table)
{
    const PlumbPosition *at = &table->ink->start;
    const PlumbBody *body = &table->board.drawing->lifter->body;
    double crease_was = PLUMB_NO_FIGURE;
    double ahead_was = PLUMB_NO_FIGURE;
    if (table->pencil != NULL) {
        const PlumbPosition *was = &table->pencil->start;
        crease_was = plumb_crease_above_knee_m(&pencil_lifter(table)->body, was);
        ahead_was = was->point[PLUMB_PT_shoulder].x - was->point[PLUMB_PT_bar].x;
    }
    add_directed(table, "crease above the knee", "crease below the knee",
                 plumb_crease_above_knee_m(body, at), crease_was,
                 (PlumbTag){PLUMB_TAG_FIGURE, PLUMB_FIG_HIP_HEIGHT}, PLUMB_NO_OUTPUT,
                 PLUMB_EXPLAIN_crease_above_knee);
    add_directed(table, "shoulder ahead of bar", "shoulder behind bar",
                 at->point[PLUMB_PT_shoulder].x - at->point[PLUMB_PT_bar].x, ahead_was,
                 (PlumbTag){PLUMB_TAG_POINT, PLUMB_PT_shoulder}, PLUMB_OUT_shoulder_ahead,
                 PLUMB_EXPLAIN_shoulder_ahead);
}

static void add_angle(PlumbTableau *table, PlumbAngle angle, const char *name, const char *after,
                      bool seen)
{
    static const struct {
        PlumbOutput output;
        PlumbExplainKind kind;
    } of[PLUMB_ANGLE_COUNT] = {
        [PLUMB_ANG_back] = {PLUMB_OUT_back_angle, PLUMB_EXPLAIN_back_angle},
        [PLUMB_ANG_shin] = {PLUMB_OUT_shin_angle, PLUMB_EXPLAIN_shin_angle},
        [PLUMB_ANG_thigh] = {PLUMB_OUT_thigh_angle, PLUMB_EXPLAIN_thigh_angle},
        [PLUMB_ANG_knee_flexion] = {PLUMB_OUT_knee_flexion, PLUMB_EXPLAIN_knee_flexion},
        [PLUMB_ANG_ankle_dorsiflexion] = {PLUMB_OUT_dorsiflexion, PLUMB_EXPLAIN_dorsiflexion},
        [PLUMB_ANG_frontal_shin] = {PLUMB_OUT_frontal_shin, PLUMB_EXPLAIN_frontal_shin},
        [PLUMB_ANG_hip_flexion] = {PLUMB_OUT_hip_flexion, PLUMB_EXPLAIN_hip_flexion},
        [PLUMB_ANG_hip_abduction] = {PLUMB_OUT_hip_abduction, PLUMB_EXPLAIN_hip_abduction},
        [PLUMB_ANG_hip_external_rotation] = {PLUMB_OUT_hip_rotation, PLUMB_EXPLAIN_hip_rotation},
    };
    plumb_table_add(table,
                    &(PlumbTableRow){name,
                                     table->ink->start.angle_rad[angle],
                                     table->pencil != NULL ? table->pencil->start.angle_rad[angle]
                                                           : PLUMB_NO_FIGURE,
                                     PLUMB_Q_ANGLE,
                                     after,
                                     seen,
                                     {PLUMB_TAG_ANGLE, (int)angle},
                                     (int)of[angle].output,
                                     plumb_table_working((PlumbQuestion){.kind = of[angle].kind})});
}

void plumb_table_first_heading(PlumbTableau *table, const char *head)
{
    char words[96];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, head);
    if (table->differences) {
        plumb_text_string(&text, ", difference to ");
        const char *name = table->board.drawing->pencil_name;
        plumb_text_string(&text, name[0] != '\0' ? name : "the pencil");
    }
    const bool fits = width_of(table, words) <= table->rect.width_mm;
    plumb_table_heading(table, fits ? words : "figures");
}

static void add_main(PlumbTableau *table)
{
    const PlumbPosition *at = &table->ink->start;
    const PlumbAnswer *was = table->pencil;
    const double none = PLUMB_NO_FIGURE;
    plumb_table_first_heading(table, table->ink->outcome != PLUMB_NO_POSE ? "figures"
                                     : isfinite(table->ink->miss)         ? "the nearest pose"
                                                                          : "a first guess");
    plumb_table_add(table, &(PlumbTableRow){
                               "bar travel",
                               table->ink->travel_m,
                               was != NULL ? was->travel_m : none,
                               PLUMB_Q_LENGTH,
                               "",
                               false,
                               {PLUMB_TAG_FIGURE, PLUMB_FIG_TRAVEL},
                               PLUMB_OUT_travel,
                               plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_travel})});
    plumb_table_add(table, &(PlumbTableRow){"balance",
                                            at->balance_frac,
                                            was != NULL ? was->start.balance_frac : none,
                                            PLUMB_Q_FRACTION,
                                            "heel 0 toe 1",
                                            false,
                                            {PLUMB_TAG_SETTING, PLUMB_SET_balance},
                                            PLUMB_OUT_balance,
                                            plumb_table_working(
                                                (PlumbQuestion){.kind = PLUMB_EXPLAIN_balance})});
    add_angle(table, PLUMB_ANG_back, "back angle", "above level", false);
    plumb_table_add(
        table,
        &(PlumbTableRow){"hip height",
                         at->point[PLUMB_PT_hip].y,
                         was != NULL ? was->start.point[PLUMB_PT_hip].y : none,
                         PLUMB_Q_LENGTH,
                         "",
                         false,
                         {PLUMB_TAG_FIGURE, PLUMB_FIG_HIP_HEIGHT},
                         PLUMB_OUT_hip_height,
                         plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_hip_height})});
    add_seen(table);
    add_angle(table, PLUMB_ANG_shin, "shin", "from upright", true);
}

static void add_angles(PlumbTableau *table)
{
    plumb_table_heading(table, "angles");
    add_angle(table, PLUMB_ANG_thigh, "thigh", "above level", false);
    add_angle(table, PLUMB_ANG_knee_flexion, "knee flexion", "from straight", false);
    add_angle(table, PLUMB_ANG_ankle_dorsiflexion, "dorsiflexion", "in the shoe", false);
    add_angle(table, PLUMB_ANG_hip_flexion, "hip flexion", "to the pelvis", false);
    add_angle(table, PLUMB_ANG_hip_abduction, "hip abduction", "", false);
    add_angle(table, PLUMB_ANG_hip_external_rotation, "hip turned out", "", false);
    add_angle(table, PLUMB_ANG_frontal_shin, "shin from the front", "outward", false);
    plumb_table_add(
        table,
        &(PlumbTableRow){"knee outside the toe line",
                         table->ink->start.knee_to_toe_line_m,
                         table->pencil != NULL ? table->pencil->start.knee_to_toe_line_m
                                               : PLUMB_NO_FIGURE,
                         PLUMB_Q_LENGTH,
                         "",
                         false,
                         {PLUMB_TAG_POINT, PLUMB_PT_knee},
                         PLUMB_OUT_toe_line,
                         plumb_table_working((PlumbQuestion){.kind = PLUMB_EXPLAIN_toe_line})});
}

static PlumbTableau begin(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    PlumbTableau table = {.board = {scene, drawing},
                          .rect = rect,
                          .y_mm = rect.y_mm,
                          .ink = drawing->answer,
                          .pencil = drawing->pencil,
                          .differences = drawing->pencil != NULL,
                          .spread = drawing->figure_sd != NULL};
    table.em_mm = plumb_board_size(&table.board, PLUMB_SMALL_TEXT_MM);
    return table;
}

double plumb_compose_table(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    if (drawing->press != NULL) {
        return plumb_press_table(scene, drawing, rect);
    }
    PlumbTableau table = begin(scene, drawing, rect);
    add_main(&table);
    plumb_table_joints(&table);
    add_angles(&table);
    return table.y_mm - rect.y_mm;
}

double plumb_compose_figures(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    if (drawing->press != NULL) {
        return plumb_press_figures(scene, drawing, rect);
    }
    PlumbTableau table = begin(scene, drawing, rect);
    add_main(&table);
    add_angles(&table);
    return table.y_mm - rect.y_mm;
}

double plumb_compose_joints(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    if (drawing->press != NULL) {
        return plumb_press_joints(scene, drawing, rect);
    }
    PlumbTableau table = begin(scene, drawing, rect);
    plumb_table_joints(&table);
    return table.y_mm - rect.y_mm;
}
