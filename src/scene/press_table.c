/* SPDX-License-Identifier: MIT */
/* The table of a press: figures, moment arms and moments of one arm, angles. */
#include "scene/press.h"
#include "scene/table.h"

#include <plumbar/press_effects.h>

#include <math.h>

static const int ARM_OUTPUT[PLUMB_PRESS_ARM_COUNT] = {
    [PLUMB_PRESS_ARM_shoulder_sagittal] = PLUMB_PRESS_OUT_side_arm,
    [PLUMB_PRESS_ARM_shoulder_frontal] = PLUMB_PRESS_OUT_front_arm,
    [PLUMB_PRESS_ARM_elbow] = PLUMB_PRESS_OUT_elbow_arm,
};
static const int MOMENT_OUTPUT[PLUMB_PRESS_JOINT_COUNT] = {
    [PLUMB_PRESS_JOINT_shoulder_adduction] = PLUMB_PRESS_OUT_adduction_moment,
    [PLUMB_PRESS_JOINT_shoulder_flexion] = PLUMB_PRESS_OUT_flexion_moment,
    [PLUMB_PRESS_JOINT_elbow_extension] = PLUMB_PRESS_OUT_elbow_moment,
};

/* One figure with that of the pencilled press; both NaN where there is none. */
static void add(PlumbTableau *table, const char *name, double value_si, double pencil_si,
                PlumbQuantity quantity, const char *after, PlumbTag tag, int output,
                PlumbTag working)
{
    plumb_table_add(table, &(PlumbTableRow){name, value_si, pencil_si, quantity, after, false, tag,
                                            output, working});
}

/* Tag of a figure with a working; which: of the kinds that there are three of. */
static PlumbTag working(PlumbExplainKind kind, int which)
{
    return plumb_table_working((PlumbQuestion){.kind = kind, .press = which});
}

/* The moment that an arm of the bar belongs to. */
static PlumbTag arm_tag(PlumbPressArm arm)
{
    int joint = 0;
    while (plumb_press_arm_of((PlumbPressJoint)joint) != arm) {
        joint++;
    }
    return (PlumbTag){PLUMB_TAG_ARM, joint};
}

static double pencil_angle(const PlumbPressAnswer *was, PlumbPressAngle angle)
{
    return was != NULL ? was->touch.angle_rad[angle] : PLUMB_NO_FIGURE;
}

static void add_angle(PlumbTableau *table, PlumbPressAngle angle, const char *name,
                      const char *after, int output, PlumbExplainKind kind)
{
    const PlumbDrawing *drawing = table->board.drawing;
    add(table, name, drawing->press->touch.angle_rad[angle],
        pencil_angle(drawing->press_pencil, angle), PLUMB_Q_ANGLE, after,
        (PlumbTag){PLUMB_TAG_POINT, PLUMB_PT_elbow}, output, working(kind, 0));
}

static void add_main(PlumbTableau *table)
{
    const PlumbPressAnswer *now = table->board.drawing->press;
    const PlumbPressAnswer *was = table->board.drawing->press_pencil;
    const double none = PLUMB_NO_FIGURE;
    const PlumbTag bar = {PLUMB_TAG_POINT, PLUMB_PT_bar};
    const PlumbTag elbow = {PLUMB_TAG_POINT, PLUMB_PT_elbow};
    add(table, "bar travel", now->travel_m, was != NULL ? was->travel_m : none, PLUMB_Q_LENGTH, "",
        (PlumbTag){PLUMB_TAG_FIGURE, PLUMB_FIG_TRAVEL}, PLUMB_PRESS_OUT_travel,
        working(PLUMB_EXPLAIN_travel, 0));
    add(table, "bar's path", now->path_m, was != NULL ? was->path_m : none, PLUMB_Q_LENGTH, "", bar,
        PLUMB_PRESS_OUT_path_length, working(PLUMB_EXPLAIN_path_length, 0));
    add(table, "touch", now->setup.touch_m, was != NULL ? was->setup.touch_m : none, PLUMB_Q_LENGTH,
        "to the feet", (PlumbTag){PLUMB_TAG_SETTING, PLUMB_SET_touch}, PLUMB_PRESS_OUT_touch,
        working(PLUMB_EXPLAIN_touch, 0));
    add(table, "grip / shoulders",
        now->setup.grip_m / plumb_press_shoulder_breadth_m(table->board.drawing->lifter), none,
        PLUMB_Q_SHARE, "joint spacing", (PlumbTag){PLUMB_TAG_SETTING, PLUMB_SET_grip},
        PLUMB_NO_OUTPUT, working(PLUMB_EXPLAIN_grip_share, 0));
    add(table, "elbow outside hand", now->touch.elbow_off_hand_m,
        was != NULL ? was->touch.elbow_off_hand_m : none, PLUMB_Q_LENGTH, "head end", elbow,
        PLUMB_PRESS_OUT_elbow_off_hand, working(PLUMB_EXPLAIN_elbow_off_hand, 0));
    add(table, "elbow below rule", now->touch.elbow_below_rule_m,
        was != NULL ? was->touch.elbow_below_rule_m : none, PLUMB_Q_LENGTH, "", elbow,
        PLUMB_PRESS_OUT_elbow_below_rule, working(PLUMB_EXPLAIN_elbow_below_rule, 0));
    add(table, "upper arm, per cm", now->abduction_step_rad,
        was != NULL ? was->abduction_step_rad : none, PLUMB_Q_ANGLE, "at most", elbow,
        PLUMB_PRESS_OUT_abduction_step, working(PLUMB_EXPLAIN_abduction_step, 0));
}

static void add_arms(PlumbTableau *table)
{
    static const char *const arms[PLUMB_PRESS_ARM_COUNT] = {"shoulder, side", "shoulder, head end",
                                                            "elbow"};
    static const char *const moments[PLUMB_PRESS_JOINT_COUNT] = {
        "shoulder adduction", "shoulder flexion", "elbow extension"};
    const PlumbPressAnswer *now = table->board.drawing->press;
    const PlumbPressAnswer *was = table->board.drawing->press_pencil;
    plumb_table_heading(table, "moment arms of the bar");
    for (int i = 0; i < PLUMB_PRESS_ARM_COUNT; i++) {
        add(table, arms[i], now->touch.bar_arm_m[i],
            was != NULL ? was->touch.bar_arm_m[i] : PLUMB_NO_FIGURE, PLUMB_Q_LENGTH, "",
            arm_tag((PlumbPressArm)i), ARM_OUTPUT[i], working(PLUMB_EXPLAIN_press_arm, i));
    }
    plumb_table_heading(table, "net moments, each arm");
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        add(table, moments[i], now->touch.moment_n_m[i],
            was != NULL ? was->touch.moment_n_m[i] : PLUMB_NO_FIGURE, PLUMB_Q_MOMENT, "",
            (PlumbTag){PLUMB_TAG_ARM, i}, MOMENT_OUTPUT[i], working(PLUMB_EXPLAIN_press_moment, i));
    }
}

/* Without an entered strength an effort is a share of the greatest one here. */
static void add_efforts(PlumbTableau *table)
{
    static const char *const names[PLUMB_PRESS_JOINT_COUNT] = {"adduction", "flexion", "elbow"};
    const PlumbDrawing *drawing = table->board.drawing;
    const PlumbPressPosition *touch = &drawing->press->touch;
    double whole = 0.0;
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        whole = fmax(whole, touch->relative_effort[i]);
    }
    whole = drawing->lifter->strength_entered ? 1.0 : whole;
    plumb_table_heading(table, drawing->lifter->strength_entered
                                   ? "effort, one person's strength"
                                   : "effort of the greatest, one person's");
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT && whole > 0.0; i++) {
        add(table, names[i], touch->relative_effort[i] / whole, PLUMB_NO_FIGURE, PLUMB_Q_SHARE, "",
            (PlumbTag){PLUMB_TAG_ARM, i}, PLUMB_NO_OUTPUT, working(PLUMB_EXPLAIN_press_effort, i));
    }
}

static void add_angles(PlumbTableau *table)
{
    plumb_table_heading(table, "angles at the touch");
    add_angle(table, PLUMB_PRESS_ANG_abduction, "upper arm", "to the trunk",
              PLUMB_PRESS_OUT_upper_arm, PLUMB_EXPLAIN_abduction);
    add_angle(table, PLUMB_PRESS_ANG_elbow_flexion, "elbow flexion", "from straight",
              PLUMB_PRESS_OUT_elbow_flexion, PLUMB_EXPLAIN_elbow_flexion);
    add_angle(table, PLUMB_PRESS_ANG_forearm_front, "forearm, head end", "from upright",
              PLUMB_PRESS_OUT_forearm_front, PLUMB_EXPLAIN_forearm_front);
    add_angle(table, PLUMB_PRESS_ANG_forearm_side, "forearm, side", "from upright", PLUMB_NO_OUTPUT,
              PLUMB_EXPLAIN_forearm_side);
    add_angle(table, PLUMB_PRESS_ANG_shoulder_external_rotation, "shoulder turned out", "",
              PLUMB_PRESS_OUT_shoulder_rotation, PLUMB_EXPLAIN_shoulder_rotation);
}

static PlumbTableau begin(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    PlumbTableau table = {.board = {scene, drawing},
                          .rect = rect,
                          .y_mm = rect.y_mm,
                          .differences = drawing->press_pencil != NULL,
                          .spread = drawing->figure_sd != NULL};
    table.em_mm = plumb_board_size(&table.board, PLUMB_SMALL_TEXT_MM);
    return table;
}

/* The head of a table; false where nothing holds, and nothing is to follow. */
static bool add_head(PlumbTableau *table)
{
    if (table->board.drawing->press->outcome == PLUMB_NO_POSE) {
        plumb_table_remark(table, "out of reach");
        return false;
    }
    plumb_table_first_heading(table, "figures");
    return true;
}

double plumb_press_table(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    PlumbTableau table = begin(scene, drawing, rect);
    if (add_head(&table)) {
        add_main(&table);
        add_arms(&table);
        add_angles(&table);
        add_efforts(&table);
    }
    return table.y_mm - rect.y_mm;
}

double plumb_press_figures(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    PlumbTableau table = begin(scene, drawing, rect);
    if (add_head(&table)) {
        add_main(&table);
        add_angles(&table);
    }
    return table.y_mm - rect.y_mm;
}

double plumb_press_joints(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    static const struct {
        PlumbPressJoint joint;
        const char *name;
    } ROWS[PLUMB_PRESS_JOINT_COUNT] = {
        {PLUMB_PRESS_JOINT_shoulder_flexion, "flexion"},
        {PLUMB_PRESS_JOINT_shoulder_adduction, "adduction"},
        {PLUMB_PRESS_JOINT_elbow_extension, "elbow"},
    };
    PlumbTableau table = begin(scene, drawing, rect);
    PlumbJointRow row[PLUMB_PRESS_JOINT_COUNT];
    const PlumbPressPosition *at = &drawing->press->touch;
    const PlumbPressPosition *was =
        drawing->press_pencil != NULL ? &drawing->press_pencil->touch : at;
    const double none = PLUMB_NO_FIGURE;
    if (drawing->press->outcome == PLUMB_NO_POSE) {
        return 0.0;
    }
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        const PlumbPressJoint joint = ROWS[i].joint;
        const PlumbPressArm arm = plumb_press_arm_of(joint);
        row[i] = (PlumbJointRow){
            ROWS[i].name,
            {PLUMB_TAG_ARM, (int)joint},
            {at->bar_arm_m[arm], at->moment_n_m[joint], at->relative_effort[joint]},
            {was->bar_arm_m[arm], was->moment_n_m[joint], was->relative_effort[joint]},
            {plumb_table_sd(&table, ARM_OUTPUT[arm]), plumb_table_sd(&table, MOMENT_OUTPUT[joint]),
             none},
            false,
            {working(PLUMB_EXPLAIN_press_arm, (int)arm),
             working(PLUMB_EXPLAIN_press_moment, (int)joint),
             working(PLUMB_EXPLAIN_press_effort, (int)joint)}};
    }
    plumb_table_matrix(&table, row, PLUMB_PRESS_JOINT_COUNT);
    plumb_table_remark(&table, "moments of each arm of the lifter");
    plumb_table_remark(&table, "strength: one person's, scaled");
    return table.y_mm - rect.y_mm;
}
