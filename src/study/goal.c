/* SPDX-License-Identifier: MIT */
/* What an aim or a finding measures, and which settings bear on it: tables. */
#include <plumbar/advice.h>

#include "base/words.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

/* How one lift measures an aim or a finding; measured NULL: it does not know it. */
typedef struct Measure {
    PlumbGoalForm form;
    int output; /* in the lift's own list */
    const char *measured;
} Measure;

static const char *const aim_names[PLUMB_AIM_COUNT][2] = {
#define X(name, text) {#name, text},
    PLUMB_AIM_LIST(X)
#undef X
};

static const Measure aims[PLUMB_AIM_COUNT][PLUMB_LIFT_COUNT] = {
#define LESS(output, text)                                                                         \
    {                                                                                              \
        PLUMB_GOAL_LESS, PLUMB_OUT_##output, text                                                  \
    }
#define BENCH(form, output, text)                                                                  \
    [PLUMB_BENCH] = {PLUMB_GOAL_##form, PLUMB_PRESS_OUT_##output, text}
    [PLUMB_AIM_less_travel] = {LESS(travel, "bar travel"), LESS(travel, "bar travel"),
                               BENCH(LESS, travel, "bar travel")},
    [PLUMB_AIM_less_back_moment] = {LESS(back_moment, "net back moment"),
                                    LESS(back_moment, "net back moment")},
    [PLUMB_AIM_knees_back] = {LESS(shin_angle, "shin from upright"),
                              LESS(shin_angle, "shin from upright")},
    [PLUMB_AIM_level_hips] = {{PLUMB_GOAL_ABOVE, PLUMB_OUT_hip_room, "expected rise of the hips"}},
    [PLUMB_AIM_bar_over_mid_foot] = {{PLUMB_GOAL_NEAR, PLUMB_OUT_bar_over, "bar from mid-foot"},
                                     {PLUMB_GOAL_NEAR, PLUMB_OUT_bar_over, "bar from mid-foot"}},
    [PLUMB_AIM_knees_over_toes] = {{PLUMB_GOAL_NEAR, PLUMB_OUT_toe_line,
                                    "knee from the line through the toes"},
                                   {PLUMB_GOAL_NEAR, PLUMB_OUT_toe_line,
                                    "knee from the line through the toes"}},
    [PLUMB_AIM_lower_effort] = {LESS(summed_effort, "summed effort"),
                                LESS(summed_effort, "summed effort"),
                                BENCH(LESS, summed_effort, "summed effort")},
    [PLUMB_AIM_less_shoulder_adduction] = {BENCH(NEAR, adduction_moment,
                                                 "net shoulder adduction moment, each arm")},
    [PLUMB_AIM_less_shoulder_flexion] = {BENCH(NEAR, flexion_moment,
                                               "net shoulder flexion moment, each arm")},
    [PLUMB_AIM_less_elbow_moment] = {BENCH(NEAR, elbow_moment,
                                           "net elbow extension moment, each arm")},
    [PLUMB_AIM_upright_forearms] = {BENCH(NEAR, forearm_front,
                                          "forearm from upright, from the head end")},
    [PLUMB_AIM_elbows_in] = {BENCH(LESS, upper_arm, "upper arm from the trunk")},
    [PLUMB_AIM_steady_elbows] = {BENCH(LESS, abduction_step,
                                       "largest turn of the upper arm in a centimetre of rise")},
#undef LESS
#undef BENCH
};

const char *plumb_aim_name(PlumbAim aim)
{
    return aim_names[aim][0];
}

const char *plumb_aim_text(PlumbAim aim)
{
    return aim_names[aim][1];
}

bool plumb_aim_find(const char *name, size_t length, PlumbAim *aim)
{
    for (int i = 0; i < PLUMB_AIM_COUNT; i++) {
        if (plumb_word_is(name, length, aim_names[i][0])) {
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

void plumb_finding_names_text(PlumbText *text, const char *names)
{
    while (*names != '\0') {
        const size_t length = strcspn(names, ", ");
        PlumbFindingId id;
        const bool is_name = plumb_finding_find(names, length, &id);
        for (size_t i = 0; i < length; i++) {
            plumb_text_char(text, is_name && names[i] == '_' ? ' ' : names[i]);
        }
        names += length;
        for (; *names == ',' || *names == ' '; names++) {
            plumb_text_char(text, *names);
        }
    }
}

bool plumb_goal_of_aim(PlumbAim aim, PlumbLift lift, PlumbGoal *goal)
{
    const Measure *const measure = &aims[aim][lift];
    if (measure->measured == NULL) {
        return false;
    }
    *goal = (PlumbGoal){.lift = lift,
                        .form = measure->form,
                        .output = measure->output,
                        .finding = PLUMB_FINDING_COUNT,
                        .aim = aim};
    return true;
}

/* How a finding is measured, and what bears on it in the order of trying. A setting that the lift
 * lacks is passed over. */
enum { BEARS_MAX = 9 };

typedef struct FindingRow {
    PlumbGoalForm form;
    int output; /* in the lift's own list */
    const char *measured;
    PlumbSettingId bears[BEARS_MAX];
} FindingRow;

/* What bears on a finding of a film, and the aims that stand for it: of a pull, of a squat, of a
 * press; PLUMB_AIM_COUNT: none. */
typedef struct FilmRow {
    PlumbAim aim[PLUMB_LIFT_COUNT];
    PlumbSettingId bears[BEARS_MAX];
} FilmRow;

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
                                      PLUMB_SET_back_angle, PLUMB_SET_grip, PLUMB_SET_bar,
                                      NO_MORE}},
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

/* The same of a bench press. A bar off the shoulders at lockout has nothing here: where the bar
 * ends is not moved by advice. */
static const FindingRow press_findings[PLUMB_FINDING_COUNT] = {
    [PLUMB_FIND_press_no_pose] = {PLUMB_GOAL_GONE,
                                  PLUMB_PRESS_OUT_travel,
                                  "arms that span the bar's way",
                                  {PLUMB_SET_grip, PLUMB_SET_touch, PLUMB_SET_arch, NO_MORE}},
    [PLUMB_FIND_joint_past_limit] = {PLUMB_GOAL_BELOW,
                                     PLUMB_PRESS_OUT_shoulder_angle,
                                     "joint past its limit",
                                     {PLUMB_SET_touch, PLUMB_SET_elbows, PLUMB_SET_grip,
                                      PLUMB_SET_arch, NO_MORE}},
    [PLUMB_FIND_grip_over_rule] = {PLUMB_GOAL_EXCESS,
                                   PLUMB_PRESS_OUT_travel,
                                   "grip over the rules",
                                   {PLUMB_SET_grip, NO_MORE}},
    [PLUMB_FIND_hands_off_knurling] = {PLUMB_GOAL_GONE,
                                       PLUMB_PRESS_OUT_travel,
                                       "hands on the knurling",
                                       {PLUMB_SET_grip, NO_MORE}},
    [PLUMB_FIND_elbow_above_rule] = {PLUMB_GOAL_ABOVE,
                                     PLUMB_PRESS_OUT_elbow_below_rule,
                                     "elbow above the top of the shoulder",
                                     {PLUMB_SET_arch, PLUMB_SET_grip, PLUMB_SET_elbows,
                                      PLUMB_SET_touch, NO_MORE}},
    [PLUMB_FIND_elbows_not_met] = {PLUMB_GOAL_GONE,
                                   PLUMB_PRESS_OUT_upper_arm,
                                   "elbows where they are asked for",
                                   {PLUMB_SET_elbows, PLUMB_SET_touch, PLUMB_SET_grip, NO_MORE}},
    [PLUMB_FIND_elbow_not_under_bar] = {PLUMB_GOAL_GONE,
                                        PLUMB_PRESS_OUT_upper_arm,
                                        "elbow under the bar",
                                        {PLUMB_SET_touch, PLUMB_SET_grip, PLUMB_SET_elbows,
                                         NO_MORE}},
    [PLUMB_FIND_elbows_flare_outside] = {PLUMB_GOAL_NEAR,
                                         PLUMB_PRESS_OUT_forearm_front,
                                         "forearm from upright, from the head end",
                                         {PLUMB_SET_elbows, PLUMB_SET_touch, PLUMB_SET_grip,
                                          NO_MORE}},
    [PLUMB_FIND_forearm_not_upright] = {PLUMB_GOAL_NEAR,
                                        PLUMB_PRESS_OUT_forearm_front,
                                        "forearm from upright, from the head end",
                                        {PLUMB_SET_elbows, PLUMB_SET_grip, PLUMB_SET_touch,
                                         NO_MORE}},
    [PLUMB_FIND_elbow_path_jumps] = {PLUMB_GOAL_BELOW,
                                     PLUMB_PRESS_OUT_abduction_step,
                                     "turn of the upper arm in a centimetre of rise",
                                     {PLUMB_SET_touch, PLUMB_SET_elbows, PLUMB_SET_grip,
                                      PLUMB_SET_arch, NO_MORE}},
    [PLUMB_FIND_elbows_flare_suddenly] = {PLUMB_GOAL_BELOW,
                                          PLUMB_PRESS_OUT_abduction_step,
                                          "turn of the upper arm in a centimetre of rise",
                                          {PLUMB_SET_touch, PLUMB_SET_elbows, PLUMB_SET_grip,
                                           PLUMB_SET_arch, NO_MORE}},
    [PLUMB_FIND_touch_near_neck] = {PLUMB_GOAL_ABOVE,
                                    PLUMB_PRESS_OUT_touch,
                                    "touch too near the neck",
                                    {PLUMB_SET_touch, NO_MORE}},
};

static const FilmRow films[PLUMB_FINDING_COUNT - PLUMB_FIND_hips_before_bar] = {
#define FILM(id) [PLUMB_FIND_##id - PLUMB_FIND_hips_before_bar]
    FILM(hips_before_bar) = {{PLUMB_AIM_level_hips, PLUMB_AIM_COUNT, PLUMB_AIM_COUNT},
                             {PLUMB_SET_hip_height, PLUMB_SET_back_angle, PLUMB_SET_bar_over,
                              PLUMB_SET_stance, PLUMB_SET_knees_out, PLUMB_SET_heel_lift, NO_MORE}},
    FILM(hips_rise_faster) = {{PLUMB_AIM_level_hips, PLUMB_AIM_less_back_moment, PLUMB_AIM_COUNT},
                              {PLUMB_SET_hip_height, PLUMB_SET_back_angle, PLUMB_SET_bar_over,
                               PLUMB_SET_stance, PLUMB_SET_bar, PLUMB_SET_heel_lift, NO_MORE}},
    FILM(back_drops) = {{PLUMB_AIM_level_hips, PLUMB_AIM_less_back_moment, PLUMB_AIM_COUNT},
                        {PLUMB_SET_hip_height, PLUMB_SET_back_angle, PLUMB_SET_bar_over,
                         PLUMB_SET_stance, PLUMB_SET_bar, NO_MORE}},
    FILM(bar_path_wide) = {{PLUMB_AIM_bar_over_mid_foot, PLUMB_AIM_bar_over_mid_foot,
                            PLUMB_AIM_COUNT},
                           {PLUMB_SET_bar_over, PLUMB_SET_stance, PLUMB_SET_bar,
                            PLUMB_SET_heel_lift, NO_MORE}},
    FILM(knees_go_back) = {{PLUMB_AIM_level_hips, PLUMB_AIM_COUNT, PLUMB_AIM_COUNT},
                           {PLUMB_SET_hip_height, PLUMB_SET_bar_over, PLUMB_SET_stance,
                            PLUMB_SET_heel_lift, NO_MORE}},
    FILM(bar_slips) = {{PLUMB_AIM_COUNT, PLUMB_AIM_less_back_moment, PLUMB_AIM_COUNT},
                       {PLUMB_SET_bar, PLUMB_SET_heel_lift, NO_MORE}},
    FILM(knees_come_in) = {{PLUMB_AIM_knees_over_toes, PLUMB_AIM_knees_over_toes, PLUMB_AIM_COUNT},
                           {PLUMB_SET_knees_out, PLUMB_SET_stance, PLUMB_SET_toes, NO_MORE}},
    FILM(shins_lean_in) = {{PLUMB_AIM_knees_over_toes, PLUMB_AIM_knees_over_toes, PLUMB_AIM_COUNT},
                           {PLUMB_SET_stance, PLUMB_SET_knees_out, PLUMB_SET_toes, NO_MORE}},
    FILM(touch_high) = {{PLUMB_AIM_COUNT, PLUMB_AIM_COUNT, PLUMB_AIM_elbows_in},
                        {PLUMB_SET_touch, PLUMB_SET_arch, NO_MORE}},
    FILM(upper_arm_turns) = {{PLUMB_AIM_COUNT, PLUMB_AIM_COUNT, PLUMB_AIM_steady_elbows},
                             {PLUMB_SET_touch, PLUMB_SET_elbows, PLUMB_SET_grip, PLUMB_SET_arch,
                              NO_MORE}},
    FILM(elbow_off_bar) = {{PLUMB_AIM_COUNT, PLUMB_AIM_COUNT, PLUMB_AIM_steady_elbows},
                           {PLUMB_SET_touch, PLUMB_SET_grip, PLUMB_SET_elbows, NO_MORE}},
#undef FILM
};

static const FindingRow *finding_row(PlumbFindingId id, PlumbLift lift)
{
    return lift == PLUMB_BENCH ? &press_findings[id] : &findings[id];
}

static int output_of_limit(PlumbLimit limit, PlumbLift lift)
{
    static const int output[PLUMB_LIMIT_COUNT] = {
        [PLUMB_LIMIT_ankle_dorsiflexion] = PLUMB_OUT_dorsiflexion,
        [PLUMB_LIMIT_knee_flexion] = PLUMB_OUT_knee_flexion,
        [PLUMB_LIMIT_hip_flexion] = PLUMB_OUT_hip_flexion,
        [PLUMB_LIMIT_hip_extension] = PLUMB_OUT_hip_flexion,
        [PLUMB_LIMIT_hip_abduction] = PLUMB_OUT_hip_abduction,
        [PLUMB_LIMIT_hip_external_rotation] = PLUMB_OUT_hip_rotation,
        [PLUMB_LIMIT_hip_internal_rotation] = PLUMB_OUT_hip_rotation,
    };
    static const int of_press[PLUMB_LIMIT_COUNT] = {
        [PLUMB_LIMIT_shoulder_flexion] = PLUMB_PRESS_OUT_shoulder_angle,
        [PLUMB_LIMIT_shoulder_external_rotation] = PLUMB_PRESS_OUT_shoulder_rotation,
        [PLUMB_LIMIT_elbow_flexion] = PLUMB_PRESS_OUT_elbow_flexion,
    };
    return lift == PLUMB_BENCH ? of_press[limit] : output[limit];
}

PlumbGoal plumb_goal_of_finding(const PlumbFinding *finding, PlumbLift lift)
{
    const FindingRow *const row = finding_row(finding->id, lift);
    PlumbGoal goal = {.lift = lift,
                      .form = row->measured != NULL ? row->form : PLUMB_GOAL_GONE,
                      .output = row->output,
                      .limit = finding->limit,
                      .finding = finding->id,
                      .aim = PLUMB_AIM_COUNT,
                      .what = *finding};
    if (finding->id == PLUMB_FIND_joint_past_limit) {
        const PlumbLimit limit = (PlumbLimit)finding->detail;
        goal.output = output_of_limit(limit, lift);
        if (lift != PLUMB_BENCH && limit >= PLUMB_LIMIT_shoulder_flexion) {
            goal.form =
                PLUMB_GOAL_GONE; /* the arm of a squat is drawn, its angles are no figures */
        }
        /* Extension and internal rotation count the other way. */
        if (limit == PLUMB_LIMIT_hip_extension || limit == PLUMB_LIMIT_hip_internal_rotation) {
            goal.form = PLUMB_GOAL_ABOVE;
            goal.limit = -finding->limit;
        }
    }
    return goal;
}

PlumbGoal plumb_goal_first(const PlumbSolved *solved)
{
    int count;
    const PlumbFinding *const finding = plumb_solved_findings(solved, &count);
    for (int i = 0; i < count; i++) {
        if (finding[i].severity == PLUMB_WARNING) {
            return plumb_goal_of_finding(&finding[i], solved->lift);
        }
    }
    PlumbGoal goal = {.lift = solved->lift};
    plumb_goal_of_aim(PLUMB_AIM_less_travel, solved->lift, &goal); /* every lift has it */
    return goal;
}

/* The goal's finding while it is there, else NULL; one of a limit is that of the same joint. */
static const PlumbFinding *still_there(const PlumbGoal *goal, const PlumbSolved *solved)
{
    int count;
    const PlumbFinding *const finding = plumb_solved_findings(solved, &count);
    for (int i = 0; i < count; i++) {
        if (finding[i].id == goal->finding && (goal->finding != PLUMB_FIND_joint_past_limit ||
                                               finding[i].detail == goal->what.detail)) {
            return &finding[i];
        }
    }
    return NULL;
}

bool plumb_goal_of_figure(const PlumbGoal *goal)
{
    return goal->form != PLUMB_GOAL_GONE && goal->form != PLUMB_GOAL_EXCESS;
}

double plumb_goal_amount(const PlumbGoal *goal, const PlumbSolved *solved)
{
    if (!plumb_goal_of_figure(goal)) {
        const PlumbFinding *const finding = still_there(goal, solved);
        if (finding == NULL) {
            return 0.0;
        }
        return goal->form == PLUMB_GOAL_GONE ? 1.0 : fabs(finding->value - finding->limit);
    }
    const double value = plumb_solved_value(solved, goal->output);
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
    case PLUMB_GOAL_EXCESS:
    case PLUMB_GOAL_GONE:
        break;
    }
    return value;
}

PlumbQuantity plumb_goal_quantity(const PlumbGoal *goal)
{
    return goal->form == PLUMB_GOAL_GONE     ? PLUMB_Q_NUMBER
           : goal->form == PLUMB_GOAL_EXCESS ? goal->what.quantity
                                             : plumb_lift_output_quantity(goal->lift, goal->output);
}

const char *plumb_goal_text(const PlumbGoal *goal)
{
    if (goal->aim != PLUMB_AIM_COUNT) {
        return aims[goal->aim][goal->lift].measured;
    }
    const char *const measured = finding_row(goal->finding, goal->lift)->measured;
    return measured != NULL ? measured : "the finding";
}

static bool of_film(PlumbFindingId id)
{
    return id >= PLUMB_FIND_hips_before_bar;
}

bool plumb_finding_aim(PlumbFindingId id, PlumbLift lift, PlumbAim *aim)
{
    *aim = PLUMB_AIM_COUNT;
    if (of_film(id)) {
        *aim = films[id - PLUMB_FIND_hips_before_bar].aim[lift];
    } else if (lift == PLUMB_BENCH && id == PLUMB_FIND_forearm_not_upright) {
        *aim = PLUMB_AIM_upright_forearms;
    }
    return *aim != PLUMB_AIM_COUNT;
}

int plumb_finding_settings(PlumbFindingId id, PlumbLift lift, PlumbSettingId *setting)
{
    const PlumbSettingId *const bears =
        of_film(id) ? films[id - PLUMB_FIND_hips_before_bar].bears : finding_row(id, lift)->bears;
    int count = 0;
    if (of_film(id) && (id >= PLUMB_FIND_touch_high) != (lift == PLUMB_BENCH)) {
        return 0; /* no film of such a lift shows it */
    }
    for (int i = 0; i < BEARS_MAX && bears[i] != NO_MORE; i++) {
        if (plumb_setting(bears[i])->lifts[lift]) {
            setting[count++] = bears[i];
        }
    }
    return count;
}
