/* SPDX-License-Identifier: MIT */
/* What a coach would remark on a still: figures beyond their thresholds by more than their spread.
 */
#include <plumbar/trace.h>

#include "base/vec.h"

#include <stddef.h>

/* Beyond a threshold by this many standard deviations: 95 % two-sided. */
static const double sure_sd = 1.96;

/* common practice, no source; the same as of solved set-ups */
static const double bar_off_m[] = {0.025, 0.05}; /* pull, squat */
static const double balance_low = 0.25;
static const double balance_high = 0.60;
static const double back_low_rad = 10.0 * PLUMB_PI / 180.0;
static const double gap_m = 0.01;
static const double inside_m = -0.01;
/* common practice, no source; the same as of films of a press */
static const double touch_m = 0.04;
static const double elbow_off_m = 0.04;
static const double forearm_rad = 10.0 * PLUMB_PI / 180.0;
static const double lockout_off_m = 0.04;

static const struct {
    const char *name;
    const char *text;
    PlumbQuantity quantity;
} limits[PLUMB_STILL_LIMIT_COUNT] = {
#define X(name, text, quantity) {#name, text, quantity},
    PLUMB_STILL_LIMIT_LIST(X)
#undef X
};

const char *plumb_still_limit_name(PlumbStillLimit limit)
{
    return limits[limit].name;
}

const char *plumb_still_limit_text(PlumbStillLimit limit)
{
    return limits[limit].text;
}

PlumbQuantity plumb_still_limit_quantity(PlumbStillLimit limit)
{
    return limits[limit].quantity;
}

void plumb_still_limits_default(const PlumbLifter *lifter, const PlumbSetup *setup,
                                double limit[PLUMB_STILL_LIMIT_COUNT])
{
    limit[PLUMB_STILL_bar_off_limit] = bar_off_m[setup->lift == PLUMB_DEADLIFT ? 0 : 1];
    limit[PLUMB_STILL_balance_low_limit] = balance_low;
    limit[PLUMB_STILL_balance_high_limit] = balance_high;
    limit[PLUMB_STILL_shoulder_behind_limit] = 0.0;
    limit[PLUMB_STILL_shoulder_ahead_limit] =
        setup->shoulder_ahead_max_frac * lifter->body.stature_m;
    limit[PLUMB_STILL_back_low_limit] = back_low_rad;
    limit[PLUMB_STILL_gap_limit] = gap_m;
    limit[PLUMB_STILL_depth_limit] = 0.0;
    limit[PLUMB_STILL_knees_inside_limit] = inside_m;
    limit[PLUMB_STILL_touch_limit] = touch_m;
    limit[PLUMB_STILL_elbow_off_limit] = elbow_off_m;
    limit[PLUMB_STILL_forearm_limit] = forearm_rad;
    limit[PLUMB_STILL_elbow_rule_limit] = 0.0;
    limit[PLUMB_STILL_lockout_off_limit] = lockout_off_m;
}

/* Which side of the threshold is remarked. */
typedef enum Beyond { BEYOND_ABOVE, BEYOND_BELOW, BEYOND_EITHER } Beyond;

/* Which views and lifts show the figure; of a press the front is an end of the bench, TOUCH and
 * LOCKOUT when, and ELBOW that it rests on the elbow. */
enum {
    SIDE = 1,
    FRONT = 2,
    PULL = 4,
    SQUAT = 8,
    PRESS = 16,
    TOUCH = 32,
    LOCKOUT = 64,
    ELBOW = 128
};

typedef struct Row {
    PlumbFindingId id;
    PlumbStillLimit limit;
    PlumbReading reading;
    double sign;
    Beyond beyond;
    PlumbSeverity severity;
    PlumbPoint point;
    unsigned shown;
} Row;

static const Row rows[] = {
    {PLUMB_FIND_bar_off_mid_foot, PLUMB_STILL_bar_off_limit, PLUMB_READ_bar_over, 1.0,
     BEYOND_EITHER, PLUMB_WARNING, PLUMB_PT_bar, SIDE | PULL | SQUAT},
    {PLUMB_FIND_balance_toward_heel, PLUMB_STILL_balance_low_limit, PLUMB_READ_balance, 1.0,
     BEYOND_BELOW, PLUMB_WARNING, PLUMB_PT_heel, SIDE | PULL | SQUAT},
    {PLUMB_FIND_balance_toward_toes, PLUMB_STILL_balance_high_limit, PLUMB_READ_balance, 1.0,
     BEYOND_ABOVE, PLUMB_WARNING, PLUMB_PT_toe, SIDE | PULL | SQUAT},
    {PLUMB_FIND_shoulder_behind_bar, PLUMB_STILL_shoulder_behind_limit, PLUMB_READ_shoulder_ahead,
     1.0, BEYOND_BELOW, PLUMB_WARNING, PLUMB_PT_shoulder, SIDE | PULL},
    {PLUMB_FIND_shoulder_far_ahead, PLUMB_STILL_shoulder_ahead_limit, PLUMB_READ_shoulder_ahead,
     1.0, BEYOND_ABOVE, PLUMB_WARNING, PLUMB_PT_shoulder, SIDE | PULL},
    {PLUMB_FIND_back_near_level, PLUMB_STILL_back_low_limit, (PlumbReading)PLUMB_ANG_back, 1.0,
     BEYOND_BELOW, PLUMB_WARNING, PLUMB_PT_lumbar, SIDE | PULL},
    {PLUMB_FIND_gap_to_bar, PLUMB_STILL_gap_limit, PLUMB_READ_leg_gap, 1.0, BEYOND_ABOVE,
     PLUMB_NOTE, PLUMB_PT_bar, SIDE | PULL},
    {PLUMB_FIND_depth_not_reached, PLUMB_STILL_depth_limit, PLUMB_READ_depth, 1.0, BEYOND_BELOW,
     PLUMB_NOTE, PLUMB_PT_hip, SIDE | SQUAT},
    {PLUMB_FIND_knees_inside_ankles, PLUMB_STILL_knees_inside_limit, PLUMB_READ_knee_outside, 1.0,
     BEYOND_BELOW, PLUMB_WARNING, PLUMB_PT_knee, FRONT | PULL | SQUAT},
    {PLUMB_FIND_touch_high, PLUMB_STILL_touch_limit, PLUMB_READ_bar_from_shoulder, 1.0,
     BEYOND_BELOW, PLUMB_NOTE, PLUMB_PT_bar, SIDE | PRESS | TOUCH},
    {PLUMB_FIND_elbow_off_bar, PLUMB_STILL_elbow_off_limit, PLUMB_READ_elbow_off_bar, 1.0,
     BEYOND_EITHER, PLUMB_WARNING, PLUMB_PT_elbow, SIDE | FRONT | PRESS | TOUCH | ELBOW},
    {PLUMB_FIND_forearm_not_upright, PLUMB_STILL_forearm_limit, PLUMB_READ_forearm_front, 1.0,
     BEYOND_EITHER, PLUMB_NOTE, PLUMB_PT_wrist, FRONT | PRESS | TOUCH | ELBOW},
    {PLUMB_FIND_elbow_above_rule, PLUMB_STILL_elbow_rule_limit, PLUMB_READ_elbow_below_rule, -1.0,
     BEYOND_ABOVE, PLUMB_WARNING, PLUMB_PT_elbow, SIDE | FRONT | PRESS | TOUCH | ELBOW},
    {PLUMB_FIND_bar_off_shoulder_lockout, PLUMB_STILL_lockout_off_limit,
     PLUMB_READ_bar_from_shoulder, 1.0, BEYOND_EITHER, PLUMB_NOTE, PLUMB_PT_bar,
     SIDE | PRESS | LOCKOUT},
};

/* Two that may cause each other; common practice, no source. */
static const PlumbFindingId pairs[][2] = {
    {PLUMB_FIND_hips_rise_first, PLUMB_FIND_shoulder_behind_bar},
    {PLUMB_FIND_shoulder_behind_bar, PLUMB_FIND_balance_toward_heel},
    {PLUMB_FIND_bar_off_mid_foot, PLUMB_FIND_balance_toward_toes},
    {PLUMB_FIND_bar_off_mid_foot, PLUMB_FIND_balance_toward_heel},
    {PLUMB_FIND_bar_off_mid_foot, PLUMB_FIND_gap_to_bar},
    {PLUMB_FIND_back_near_level, PLUMB_FIND_shoulder_far_ahead},
    {PLUMB_FIND_depth_not_reached, PLUMB_FIND_joint_past_limit},
    {PLUMB_FIND_knees_inside_ankles, PLUMB_FIND_joint_past_limit},
};

typedef struct List {
    PlumbStillFinding *finding;
    int count;
} List;

static void add(List *list, const PlumbFinding *what, double sd)
{
    if (list->count < PLUMB_FINDING_MAX) {
        list->finding[list->count++] = (PlumbStillFinding){*what, sd, -1};
    }
}

static void find_row(const Row *row, const PlumbTraced *still, double limit, List *list)
{
    const double value = row->sign * still->value[row->reading];
    const double sd = still->sd[row->reading];
    const double above = row->beyond == BEYOND_BELOW    ? limit - value
                         : row->beyond == BEYOND_EITHER ? fabs(value) - limit
                                                        : value - limit;
    if (above > sure_sd * sd) {
        add(list,
            &(PlumbFinding){row->id, row->severity, value, limit,
                            plumb_reading_quantity(row->reading), row->point, 0},
            sd);
    }
}

static void find_joints(const PlumbTrace *trace, const PlumbTraced *still, List *list)
{
    static const struct {
        PlumbLimit limit;
        int reading;
        double sign;
        PlumbPoint point;
        bool press;
    } joints[] = {
        {PLUMB_LIMIT_ankle_dorsiflexion, PLUMB_ANG_ankle_dorsiflexion, 1.0, PLUMB_PT_ankle, false},
        {PLUMB_LIMIT_knee_flexion, PLUMB_ANG_knee_flexion, 1.0, PLUMB_PT_knee, false},
        {PLUMB_LIMIT_hip_flexion, PLUMB_ANG_hip_flexion, 1.0, PLUMB_PT_hip, false},
        {PLUMB_LIMIT_hip_extension, PLUMB_ANG_hip_flexion, -1.0, PLUMB_PT_hip, false},
        {PLUMB_LIMIT_shoulder_external_rotation, PLUMB_READ_shoulder_rotation, 1.0,
         PLUMB_PT_shoulder, true},
        {PLUMB_LIMIT_elbow_flexion, PLUMB_READ_elbow_flexion, 1.0, PLUMB_PT_elbow, true},
    };
    const bool press = still->setup.lift == PLUMB_BENCH;
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
        const double value = joints[i].sign * still->value[joints[i].reading];
        const double sd = still->sd[joints[i].reading];
        const double limit = trace->lifter.limit_rad[joints[i].limit];
        if (joints[i].press == press && value - limit > sure_sd * sd) {
            add(list,
                &(PlumbFinding){PLUMB_FIND_joint_past_limit, PLUMB_WARNING, value, limit,
                                PLUMB_Q_ANGLE, joints[i].point, (int)joints[i].limit},
                sd);
        }
    }
}

/* Hips below the window whose lower end is the shoulder's or the heel's: they will rise first. */
static void find_hips(const PlumbTraced *still, const PlumbAnswer *answer, List *list)
{
    const PlumbInterval *const window = &answer->window;
    const bool told = window->exists && (window->low_end == PLUMB_END_shoulder_behind ||
                                         window->low_end == PLUMB_END_balance_heel);
    const double rise = told ? window->low - still->value[PLUMB_READ_hip_height] : 0.0;
    const double sd = still->sd[PLUMB_READ_hip_height];
    if (rise > sure_sd * sd && rise > 0.0) {
        add(list,
            &(PlumbFinding){PLUMB_FIND_hips_rise_first, PLUMB_WARNING, rise, 0.0, PLUMB_Q_LENGTH,
                            PLUMB_PT_hip, (int)window->low_end},
            sd);
    }
}

static void join(List *list)
{
    for (size_t k = 0; k < sizeof pairs / sizeof pairs[0]; k++) {
        int at[2] = {-1, -1};
        for (int i = 0; i < list->count; i++) {
            for (int j = 0; j < 2; j++) {
                if (list->finding[i].what.id == pairs[k][j] && list->finding[i].with < 0) {
                    at[j] = i;
                }
            }
        }
        if (at[0] >= 0 && at[1] >= 0) {
            list->finding[at[0]].with = at[1];
            list->finding[at[1]].with = at[0];
        }
    }
}

/* What the still is: lift, view, of a press where on its way it is and whether the elbow is marked.
 */
static unsigned shown_by(const PlumbTrace *trace, const PlumbTraced *still)
{
    const unsigned view = still->front ? FRONT : SIDE;
    if (still->setup.lift != PLUMB_BENCH) {
        return view | (still->setup.lift == PLUMB_DEADLIFT ? PULL : SQUAT);
    }
    const PlumbPressStage stage = plumb_trace_press_stage(&trace->lifter, still);
    const bool elbow = (still->unseen & 1U << PLUMB_UNSEEN_elbow) == 0;
    return view | PRESS | (elbow ? ELBOW : 0U) |
           (stage == PLUMB_PRESS_AT_TOUCH     ? TOUCH
            : stage == PLUMB_PRESS_AT_LOCKOUT ? LOCKOUT
                                              : 0U);
}

/* Whether a row is asked: one of its views and lifts, and all else that it needs. */
static bool is_asked(const Row *row, unsigned shown)
{
    static const unsigned needs = TOUCH | LOCKOUT | ELBOW;
    return (row->shown & shown & (SIDE | FRONT)) != 0 &&
           (row->shown & shown & (PULL | SQUAT | PRESS)) != 0 && (row->shown & needs & ~shown) == 0;
}

int plumb_still_findings(const PlumbTrace *trace, int still, const PlumbAnswer *answer,
                         const double limit[PLUMB_STILL_LIMIT_COUNT],
                         PlumbStillFinding finding[PLUMB_FINDING_MAX])
{
    const PlumbTraced *const traced = &trace->still[still];
    const unsigned shown = shown_by(trace, traced);
    List list = {finding, 0};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (is_asked(&rows[i], shown)) {
            find_row(&rows[i], traced, limit[rows[i].limit], &list);
        }
    }
    if ((shown & PRESS) != 0 ? (shown & ELBOW) != 0 : !traced->front) {
        find_joints(trace, traced, &list);
    }
    if (!traced->front && (shown & PULL) != 0 && answer != NULL) {
        find_hips(traced, answer, &list);
    }
    join(&list);
    return list.count;
}
