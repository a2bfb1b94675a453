/* SPDX-License-Identifier: MIT */
/* Named positions in balance: starts, holes, windows, low-effort ranges, lockouts and paths. */
#ifndef PLUMBAR_SOLVE_H
#define PLUMBAR_SOLVE_H

#include <plumbar/pose.h>

/* The menu of constraints: identifier, name in files, words, one unit of miss (model units). */
#define PLUMB_CONSTRAINT_LIST(X)                                                                   \
    X(balance, "balance over the foot", 0.01)                                                      \
    X(reach, "arms reach the bar", 0.01)                                                           \
    X(clearance, "leg against the bar", 0.01)                                                      \
    X(hip_height, "hip height", 0.01)                                                              \
    X(shin_angle, "shin angle", 0.017453292519943295)                                              \
    X(knee_bend, "knee bend", 0.01)                                                                \
    X(back_angle, "back angle", 0.017453292519943295)                                              \
    X(depth, "depth", 0.01)                                                                        \
    X(bar_over, "bar over its place", 0.01)                                                        \
    X(knees_over_toes, "knees over the toes", 0.01)

typedef enum PlumbConstraintId {
#define X(name, text, unit) PLUMB_CON_##name,
    PLUMB_CONSTRAINT_LIST(X)
#undef X
        PLUMB_CONSTRAINT_COUNT
} PlumbConstraintId;

const char *plumb_constraint_name(PlumbConstraintId id);
const char *plumb_constraint_text(PlumbConstraintId id);

/* A constraint is met where its residual (value less target) is zero. Targets in SI. */
typedef struct PlumbConstraint {
    PlumbConstraintId id;
    double target;
} PlumbConstraint;

typedef enum PlumbOutcome {
    PLUMB_HELD,           /* in balance, inside the window */
    PLUMB_OUTSIDE_WINDOW, /* held, but outside the start window or past a limit */
    PLUMB_NO_POSE         /* no pose meets the request; the nearest one is described */
} PlumbOutcome;

const char *plumb_outcome_name(PlumbOutcome outcome);

/* General problem: the pose that meets three constraints, for a bar at (bar_x_m, bar_height_m) in
 * a deadlift. On PLUMB_HELD the residuals are below 1e-10. On PLUMB_NO_POSE *failed names the
 * constraint that cannot be met, *miss by how much (its model unit), and *pose is the nearest.
 * start: NULL, or a pose to begin from. failed and miss may be NULL. Allocates nothing. */
PlumbOutcome plumb_pose_solve(const PlumbLifter *lifter, const PlumbSetup *setup, double bar_x_m,
                              double bar_height_m, const PlumbConstraint constraint[3],
                              const PlumbPose *start, PlumbPose *pose, PlumbConstraintId *failed,
                              double *miss);

/* What ends a window, a range or a scan. */
#define PLUMB_END_LIST(X)                                                                          \
    X(none, "not ended")                                                                           \
    X(shoulder_behind, "the shoulder would be behind the bar")                                     \
    X(shoulder_ahead, "the shoulder would be too far ahead of the bar")                            \
    X(back_level, "the back would be less than 10° above level")                                   \
    X(balance_heel, "the balance would go to the heel")                                            \
    X(balance_toes, "the balance would go to the toes")                                            \
    X(ankle_dorsiflexion, "the ankle's dorsiflexion ends")                                         \
    X(knee_flexion, "the knee's flexion ends")                                                     \
    X(hip_flexion, "the hip's flexion ends")                                                       \
    X(hip_extension, "the hip's extension ends")                                                   \
    X(hip_abduction, "the hip's abduction ends")                                                   \
    X(hip_external_rotation, "the hip's external rotation ends")                                   \
    X(hip_internal_rotation, "the hip's internal rotation ends")                                   \
    X(shoulder_flexion, "the shoulder's flexion ends")                                             \
    X(shoulder_external_rotation, "the shoulder's external rotation ends")                         \
    X(elbow_flexion, "the elbow's flexion ends")                                                   \
    X(elbows_out_of_reach, "the elbows could not be where they are asked for")                     \
    X(touch_range, "the bar would leave the chest")                                                \
    X(upper_arm_flared,                                                                            \
      "elbows under the bar, the upper arms would flare further than auto lets them")              \
    X(no_pose, "no pose beyond")                                                                   \
    X(effort, "the summed effort would be 5 % above its least")

typedef enum PlumbEnd {
#define X(name, text) PLUMB_END_##name,
    PLUMB_END_LIST(X)
#undef X
        PLUMB_END_COUNT
} PlumbEnd;

const char *plumb_end_name(PlumbEnd end);
const char *plumb_end_text(PlumbEnd end);

/* An interval of the free quantity: hip height (deadlift, m), shin angle (squat, rad) or touch
 * (bench press, m). Where
 * exists is false nothing meets all requirements, and low_end, high_end are the two that collide.
 */
typedef struct PlumbInterval {
    bool exists;
    double low;
    double high;
    PlumbEnd low_end;
    PlumbEnd high_end;
} PlumbInterval;

enum { PLUMB_FINDING_MAX = 24, PLUMB_FINDING_TEXT_SIZE = 240 };

typedef enum PlumbSeverity { PLUMB_NOTE, PLUMB_WARNING } PlumbSeverity;

/* From hips_before_bar on: of films only. */
#define PLUMB_FINDING_LIST(X)                                                                      \
    X(no_pose)                                                                                     \
    X(shoulder_behind_bar)                                                                         \
    X(shoulder_far_ahead)                                                                          \
    X(back_near_level)                                                                             \
    X(bar_off_mid_foot)                                                                            \
    X(balance_toward_heel)                                                                         \
    X(balance_toward_toes)                                                                         \
    X(shin_through_bar)                                                                            \
    X(gap_to_bar)                                                                                  \
    X(joint_past_limit)                                                                            \
    X(depth_not_reached)                                                                           \
    X(hands_off_knurling)                                                                          \
    X(hands_past_rings)                                                                            \
    X(arm_cannot_reach)                                                                            \
    X(knees_inside_ankles)                                                                         \
    X(hips_rise_first)                                                                             \
    X(bar_off_balance_standing)                                                                    \
    X(knees_over_toes_not_met)                                                                     \
    X(press_no_pose)                                                                               \
    X(grip_over_rule)                                                                              \
    X(elbow_above_rule)                                                                            \
    X(elbows_not_met)                                                                              \
    X(elbow_not_under_bar)                                                                         \
    X(elbows_flare_outside)                                                                        \
    X(forearm_not_upright)                                                                         \
    X(elbow_path_jumps)                                                                            \
    X(elbows_flare_suddenly)                                                                       \
    X(touch_near_neck)                                                                             \
    X(bar_off_shoulder_lockout)                                                                    \
    X(hips_before_bar)                                                                             \
    X(hips_rise_faster)                                                                            \
    X(back_drops)                                                                                  \
    X(bar_path_wide)                                                                               \
    X(knees_go_back)                                                                               \
    X(bar_slips)                                                                                   \
    X(knees_come_in)                                                                               \
    X(shins_lean_in)                                                                               \
    X(touch_high)                                                                                  \
    X(upper_arm_turns)                                                                             \
    X(elbow_off_bar)

typedef enum PlumbFindingId {
#define X(name) PLUMB_FIND_##name,
    PLUMB_FINDING_LIST(X)
#undef X
        PLUMB_FINDING_COUNT
} PlumbFindingId;

const char *plumb_finding_name(PlumbFindingId id);

/* The rise of a press's bar within which upper_arm_turns counts, m; frames of a film are further
 * apart than the centimetre of elbow_path_jumps. */
#define PLUMB_TURN_RISE_M 0.03

/* value and limit are SI; quantity says how a person reads them. point: where on the drawing it
 * speaks of. detail: the PlumbLimit of joint_past_limit, the PlumbConstraintId of no_pose, the
 * PlumbEnd of hips_rise_first; where it happens of press_no_pose (0 touch, 1
 * lockout) and of the elbows' path, upper_arm_turns too (0 off the chest, 1 on the way, 2 before
 * the lockout); 0
 * otherwise. */
typedef struct PlumbFinding {
    PlumbFindingId id;
    PlumbSeverity severity;
    double value;
    double limit;
    PlumbQuantity quantity;
    PlumbPoint point;
    int detail;
} PlumbFinding;

/* Appends the finding in plain words. */
void plumb_finding_text(PlumbText *text, const PlumbFinding *finding, PlumbUnits units);

/* Appends by how much a request is missed, without a sign; "less than 0.1 cm" where the figure
 * would read as nothing. */
void plumb_miss_text(PlumbText *text, double miss_si, PlumbQuantity quantity, PlumbUnits units);

/* The whole answer to a set-up. */
typedef struct PlumbAnswer {
    PlumbSetup setup; /* as used: a relative hip height made absolute, leads resolved */
    PlumbOutcome outcome;
    PlumbConstraintId failed; /* PLUMB_NO_POSE only */
    double miss;              /* PLUMB_NO_POSE only: by how much, model unit of `failed` */
    PlumbPosition start;      /* deadlift start or squat hole; the nearest pose where none holds */
    bool end_held;            /* lockout or standing was found */
    PlumbPosition end;        /* deadlift lockout or squat standing */
    double travel_m;          /* NaN where either is missing */
    PlumbInterval window;
    PlumbInterval low_effort;
    double expected_hip_rise_m; /* 0 where none is expected */
    PlumbEnd hip_rise_end;
    double work_bar_j;         /* bar: m g travel; NaN as travel */
    double work_body_j;        /* the body's own share */
    double standing_bar_off_m; /* squat: bar from the balance point, standing */
    bool knees_over_toes_met;  /* true where not asked for */
    int finding_count;
    PlumbFinding finding[PLUMB_FINDING_MAX];
} PlumbAnswer;

/* Solves a set-up: start or hole, window, low-effort range, lockout or standing, travel, findings.
 * A pose that cannot be held is an answer, PLUMB_NO_POSE. setup must pass plumb_setup_check.
 * Allocates nothing; deterministic. */
void plumb_answer_solve(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbAnswer *answer);

/* Only what a ruler's curve needs: start or hole, end, travel; no window, range, or findings
 * (window.exists is false). An auto lead or a relative hip height is solved all the same. */
void plumb_answer_quick(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbAnswer *answer);

/* One step of a path. */
typedef struct PlumbPathPoint {
    double u; /* 0 start (deadlift) or standing (squat), 1 lockout or hole */
    bool held;
    PlumbPosition position;
    double bar_shift_m; /* deadlift: how far the shin pushes the bar ahead of bar_over */
} PlumbPathPoint;

enum { PLUMB_PATH_MAX = 1001 };

/* Facts of a whole path. */
typedef struct PlumbPathFacts {
    bool held;              /* every step was found */
    double knee_pass_u;     /* deadlift: bar at knee height; NaN for a squat */
    double back_change_rad; /* until knee pass (deadlift), over the path (squat): max - min */
    double bar_spread_m;    /* horizontal: max - min */
    double bar_shift_max_m;
    double peak_moment_n_m[PLUMB_JOINT_COUNT];
    double peak_u[PLUMB_JOINT_COUNT];
} PlumbPathFacts;

/* Fills point[count], count 2 to PLUMB_PATH_MAX, equally spaced in u, from a solved answer whose
 * start and end hold; false (nothing written) where they do not. */
bool plumb_path_solve(const PlumbLifter *lifter, const PlumbAnswer *answer, int count,
                      PlumbPathPoint *point, PlumbPathFacts *facts);

#endif
