/* SPDX-License-Identifier: MIT */
/* What an aim or a finding measures, and which settings bear on it: tables. */
#include <plumbar/advice.h>

#include "base/words.h"

#include <math.h>
#include <stddef.h>

typedef struct AimRow {
    const char *name;
    const char *text;
    PlumbGoalForm form;
    PlumbOutput output;
    bool lifts[PLUMB_LIFT_COUNT];
    const char *measured;
} AimRow;

static const AimRow aims[PLUMB_AIM_COUNT] = {
#define AIM_less_travel PLUMB_GOAL_LESS, PLUMB_OUT_travel, {true, true}, "bar travel"
#define AIM_less_back_moment PLUMB_GOAL_LESS, PLUMB_OUT_back_moment, {true, true}, "net back moment"
#define AIM_knees_back PLUMB_GOAL_LESS, PLUMB_OUT_shin_angle, {true, true}, "shin from upright"
#define AIM_level_hips                                                                             \
    PLUMB_GOAL_ABOVE, PLUMB_OUT_hip_room, {true, false}, "expected rise of the hips"
#define AIM_bar_over_mid_foot PLUMB_GOAL_NEAR, PLUMB_OUT_bar_over, {true, true}, "bar from mid-foot"
#define AIM_lower_effort PLUMB_GOAL_LESS, PLUMB_OUT_summed_effort, {true, true}, "summed effort"
#define X(name, text) {#name, text, AIM_##name},
    PLUMB_AIM_LIST(X)
#undef X
};

const char *plumb_aim_name(PlumbAim aim)
{
    return aims[aim].name;
}

const char *plumb_aim_text(PlumbAim aim)
{
    return aims[aim].text;
}

bool plumb_aim_find(const char *name, size_t length, PlumbAim *aim)
{
    for (int i = 0; i < PLUMB_AIM_COUNT; i++) {
        if (plumb_word_is(name, length, aims[i].name)) {
            *aim = (PlumbAim)i;
            return true;
        }
    }
    return false;
}

bool plumb_finding_find(const char *name, size_t length, PlumbFindingId *id)
{
    for (int i = 0; i < PLUMB_FINDING_COUNT; i++) {
        if (plumb_word_is(name, length, plumb_finding_name((PlumbFindingId)i))) {
            *id = (PlumbFindingId)i;
            return true;
        }
    }
    return false;
}

bool plumb_goal_of_aim(PlumbAim aim, PlumbLift lift, PlumbGoal *goal)
{
    if (!aims[aim].lifts[lift]) {
        return false;
    }
    *goal = (PlumbGoal){.form = aims[aim].form,
                        .output = aims[aim].output,
                        .finding = PLUMB_FINDING_COUNT,
                        .aim = aim};
    return true;
}

/* How a finding is measured, and what bears on it in the order of trying. A setting that the lift
 * lacks is passed over. */
enum { BEARS_MAX = 8 };

typedef struct FindingRow {
    PlumbGoalForm form;
    PlumbOutput output;
    const char *measured;
    PlumbSettingId bears[BEARS_MAX];
} FindingRow;

/* The style is no setting that advice moves, and 0: it ends a list, also one that is not there. */
#define NO_MORE PLUMB_SET_style

static const FindingRow findings[PLUMB_FINDING_COUNT] = {
    [PLUMB_FIND_no_pose] = {PLUMB_GOAL_GONE,
                            PLUMB_OUT_balance,
                            "a pose that holds",
                            {PLUMB_SET_stance, PLUMB_SET_toes, PLUMB_SET_knees_out,
                             PLUMB_SET_heel_lift, PLUMB_SET_back_angle, PLUMB_SET_bar, NO_MORE}},
    [PLUMB_FIND_shoulder_behind_bar] = {PLUMB_GOAL_ABOVE,
                                        PLUMB_OUT_shoulder_ahead,
                                        "shoulder behind the bar",
                                        {PLUMB_SET_hip_height, PLUMB_SET_back_angle,
                                         PLUMB_SET_bar_over, PLUMB_SET_stance, NO_MORE}},
    [PLUMB_FIND_shoulder_far_ahead] = {PLUMB_GOAL_BELOW,
                                       PLUMB_OUT_shoulder_ahead,
                                       "shoulder too far ahead of the bar",
                                       {PLUMB_SET_hip_height, PLUMB_SET_back_angle,
                                        PLUMB_SET_bar_over, PLUMB_SET_stance, NO_MORE}},
    [PLUMB_FIND_back_near_level] = {PLUMB_GOAL_ABOVE,
                                    PLUMB_OUT_back_angle,
                                    "back angle short of its least",
                                    {PLUMB_SET_hip_height, PLUMB_SET_back_angle, PLUMB_SET_stance,
                                     PLUMB_SET_grip, PLUMB_SET_knees_out, NO_MORE}},
    [PLUMB_FIND_bar_off_mid_foot] = {PLUMB_GOAL_NEAR,
                                     PLUMB_OUT_bar_over,
                                     "bar from mid-foot",
                                     {PLUMB_SET_bar_over, PLUMB_SET_bar, PLUMB_SET_back_angle,
                                      PLUMB_SET_heel_lift, NO_MORE}},
    [PLUMB_FIND_balance_toward_heel] = {PLUMB_GOAL_ABOVE,
                                        PLUMB_OUT_balance,
                                        "balance too near the heel",
                                        {PLUMB_SET_hip_height, PLUMB_SET_back_angle,
                                         PLUMB_SET_bar_over, NO_MORE}},
    [PLUMB_FIND_balance_toward_toes] = {PLUMB_GOAL_BELOW,
                                        PLUMB_OUT_balance,
                                        "balance too near the toes",
                                        {PLUMB_SET_hip_height, PLUMB_SET_back_angle,
                                         PLUMB_SET_bar_over, NO_MORE}},
    [PLUMB_FIND_shin_through_bar] = {PLUMB_GOAL_ABOVE,
                                     PLUMB_OUT_leg_gap,
                                     "shin into the bar",
                                     {PLUMB_SET_hip_height, PLUMB_SET_bar_over, PLUMB_SET_stance,
                                      PLUMB_SET_knees_out, PLUMB_SET_toes, NO_MORE}},
    [PLUMB_FIND_gap_to_bar] = {PLUMB_GOAL_BELOW,
                               PLUMB_OUT_leg_gap,
                               "gap between leg and bar",
                               {PLUMB_SET_hip_height, PLUMB_SET_bar_over, PLUMB_SET_stance,
                                NO_MORE}},
    [PLUMB_FIND_joint_past_limit] = {PLUMB_GOAL_BELOW,
                                     PLUMB_OUT_hip_flexion,
                                     "joint past its limit",
                                     {PLUMB_SET_stance, PLUMB_SET_toes, PLUMB_SET_knees_out,
                                      PLUMB_SET_heel_lift, PLUMB_SET_hip_height,
                                      PLUMB_SET_back_angle, PLUMB_SET_bar, NO_MORE}},
    [PLUMB_FIND_depth_not_reached] = {PLUMB_GOAL_GONE, PLUMB_OUT_thigh_angle, "depth", {NO_MORE}},
    [PLUMB_FIND_hands_off_knurling] = {PLUMB_GOAL_GONE,
                                       PLUMB_OUT_travel,
                                       "hands on the knurling",
                                       {PLUMB_SET_grip, NO_MORE}},
    [PLUMB_FIND_hands_past_rings] = {PLUMB_GOAL_GONE,
                                     PLUMB_OUT_travel,
                                     "hands inside the ring marks",
                                     {PLUMB_SET_grip, NO_MORE}},
    [PLUMB_FIND_arm_cannot_reach] = {PLUMB_GOAL_GONE,
                                     PLUMB_OUT_travel,
                                     "an arm that reaches the bar",
                                     {PLUMB_SET_grip, PLUMB_SET_bar, NO_MORE}},
    [PLUMB_FIND_knees_inside_ankles] = {PLUMB_GOAL_ABOVE,
                                        PLUMB_OUT_knee_outside,
                                        "knees inside the ankles",
                                        {PLUMB_SET_stance, PLUMB_SET_knees_out, PLUMB_SET_toes,
                                         NO_MORE}},
    [PLUMB_FIND_hips_rise_first] = {PLUMB_GOAL_ABOVE,
                                    PLUMB_OUT_hip_room,
                                    "expected rise of the hips",
                                    {PLUMB_SET_hip_height, PLUMB_SET_back_angle, PLUMB_SET_bar_over,
                                     PLUMB_SET_stance, PLUMB_SET_knees_out, PLUMB_SET_heel_lift,
                                     NO_MORE}},
    [PLUMB_FIND_bar_off_balance_standing] = {PLUMB_GOAL_NEAR,
                                             PLUMB_OUT_standing_off,
                                             "bar from the balance point, standing",
                                             {PLUMB_SET_bar, PLUMB_SET_heel_lift, NO_MORE}},
    [PLUMB_FIND_knees_over_toes_not_met] = {PLUMB_GOAL_NEAR,
                                            PLUMB_OUT_toe_line,
                                            "knee from the line through the toes",
                                            {PLUMB_SET_toes, PLUMB_SET_stance, PLUMB_SET_heel_lift,
                                             NO_MORE}},
};

static PlumbOutput output_of_limit(PlumbLimit limit)
{
    static const PlumbOutput output[PLUMB_LIMIT_COUNT] = {
        [PLUMB_LIMIT_ankle_dorsiflexion] = PLUMB_OUT_dorsiflexion,
        [PLUMB_LIMIT_knee_flexion] = PLUMB_OUT_knee_flexion,
        [PLUMB_LIMIT_hip_flexion] = PLUMB_OUT_hip_flexion,
        [PLUMB_LIMIT_hip_extension] = PLUMB_OUT_hip_flexion,
        [PLUMB_LIMIT_hip_abduction] = PLUMB_OUT_hip_abduction,
        [PLUMB_LIMIT_hip_external_rotation] = PLUMB_OUT_hip_rotation,
        [PLUMB_LIMIT_hip_internal_rotation] = PLUMB_OUT_hip_rotation,
    };
    return output[limit];
}

PlumbGoal plumb_goal_of_finding(const PlumbFinding *finding)
{
    const FindingRow *const row = &findings[finding->id];
    PlumbGoal goal = {.form = row->measured != NULL ? row->form : PLUMB_GOAL_GONE,
                      .output = row->output,
                      .limit = finding->limit,
                      .finding = finding->id,
                      .aim = PLUMB_AIM_COUNT,
                      .what = *finding};
    if (finding->id == PLUMB_FIND_joint_past_limit) {
        const PlumbLimit limit = (PlumbLimit)finding->detail;
        goal.output = output_of_limit(limit);
        /* Extension and internal rotation count the other way. */
        if (limit == PLUMB_LIMIT_hip_extension || limit == PLUMB_LIMIT_hip_internal_rotation) {
            goal.form = PLUMB_GOAL_ABOVE;
            goal.limit = -finding->limit;
        }
    }
    return goal;
}

static bool has_finding(const PlumbAnswer *answer, PlumbFindingId id)
{
    for (int i = 0; i < answer->finding_count; i++) {
        if (answer->finding[i].id == id) {
            return true;
        }
    }
    return false;
}

double plumb_goal_amount(const PlumbGoal *goal, const PlumbAnswer *answer)
{
    if (goal->form == PLUMB_GOAL_GONE) {
        return has_finding(answer, goal->finding) ? 1.0 : 0.0;
    }
    const double value =
        answer->outcome == PLUMB_NO_POSE ? (double)NAN : plumb_output_value(answer, goal->output);
    if (isnan(value)) {
        return value;
    }
    switch (goal->form) {
    case PLUMB_GOAL_NEAR:
        return fabs(value);
    case PLUMB_GOAL_ABOVE:
        return fmax(0.0, goal->limit - value);
    case PLUMB_GOAL_BELOW:
        return fmax(0.0, value - goal->limit);
    case PLUMB_GOAL_LESS:
    case PLUMB_GOAL_GONE:
        break;
    }
    return value;
}

PlumbQuantity plumb_goal_quantity(const PlumbGoal *goal, PlumbLift lift)
{
    return goal->form == PLUMB_GOAL_GONE ? PLUMB_Q_NUMBER
                                         : plumb_output_quantity(goal->output, lift);
}

const char *plumb_goal_text(const PlumbGoal *goal)
{
    if (goal->aim != PLUMB_AIM_COUNT) {
        return aims[goal->aim].measured;
    }
    const char *const measured = findings[goal->finding].measured;
    return measured != NULL ? measured : "the finding";
}

int plumb_finding_settings(PlumbFindingId id, PlumbLift lift, PlumbSettingId *setting)
{
    int count = 0;
    for (int i = 0; i < BEARS_MAX && findings[id].bears[i] != NO_MORE; i++) {
        if (plumb_setting(findings[id].bears[i])->lifts[lift]) {
            setting[count++] = findings[id].bears[i];
        }
    }
    return count;
}
