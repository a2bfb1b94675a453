/* SPDX-License-Identifier: MIT */
/* A lift read from pictures: camera, pose and body fitted together to marks, every figure with its
 * spread, and what a coach would remark on it. */
#ifndef PLUMBAR_TRACE_H
#define PLUMBAR_TRACE_H

#include <plumbar/camera.h>
#include <plumbar/marks.h>
#include <plumbar/press.h>
#include <plumbar/solve.h>

/* What is known of the lengths: means and covariances, as in PlumbBodies. */
typedef struct PlumbTraceBody {
    double mean_m[PLUMB_LENGTH_COUNT];
    double cov_m2[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT];
} PlumbTraceBody;

/* What is asked. Start from plumb_trace_ask; pointers are borrowed. Marks of a lifter who faces
 * left must have been mirrored. */
typedef struct PlumbTraceAsk {
    const PlumbLifter *lifter; /* mass, equipment, limits; the lengths come from body */
    const PlumbSetup *setup;   /* load, seat, shoes, spine; stance, toes and grip where not seen */
    const PlumbTraceBody *body;
    const PlumbMarks *marks;
    PlumbVec2 size_px[PLUMB_STILLS_MAX]; /* of the picture; 0: not known */
    double distance_m[PLUMB_STILLS_MAX]; /* camera to the lifter; 0: not known, 4 ± 1.5 m */
    bool on_floor[PLUMB_STILLS_MAX];     /* a pull's discs stand on floor or blocks: its start */
    double disc_z_m;                     /* middle of the lift to the disc that is marked */
    double joint_sigma_m;                /* error of a mark on the body that has none of its own */
    double disc_sigma_px;                /* the same of a mark on a disc or the bar's end */
    double reach_sd_m;                   /* how straight the arms of a pull are held to be */
    double gap_sd_m;                     /* a bar on the floor stands this near to the leg */
    double straight_sd_m[PLUMB_STILLS_MAX]; /* a leg as long as its bones within it; 0: bent */
    double slip_sd_m;                       /* how far a squat's bar may slip on the back; 0: not */
    double stand_sd_frac; /* a lifter who stands has a balance of 0.45 within it */
    double scale_length_m[PLUMB_STILLS_MAX]; /* between the two marks `scale`; 0: none */
    double scale_z_m;                        /* plane in which it was held */
} PlumbTraceAsk;

/* Joints 2 cm, discs 3 px at 0.70 m from the middle, arms straight within 2 cm, a balance of 0.45
 * within 0.15 (nobody falls over: it counts only where the foot is hidden); pulls at their start.
 */
PlumbTraceAsk plumb_trace_ask(const PlumbLifter *lifter, const PlumbSetup *setup,
                              const PlumbTraceBody *body, const PlumbMarks *marks);

/* Figures beside the angles: name, words, quantity. Joints in the order of PlumbJoint; from
 * bar_from_shoulder on those of a bench press. */
#define PLUMB_READING_LIST(X)                                                                      \
    X(balance, "balance along the foot, 0 heel to 1 toe tip", PLUMB_Q_FRACTION)                    \
    X(bar_over, "bar ahead of mid-foot, at the hands", PLUMB_Q_LENGTH)                             \
    X(bar_height, "bar height", PLUMB_Q_LENGTH)                                                    \
    X(hip_height, "hip height (joint centre)", PLUMB_Q_LENGTH)                                     \
    X(shoulder_ahead, "shoulder ahead of the bar", PLUMB_Q_LENGTH)                                 \
    X(leg_gap, "gap between leg and bar", PLUMB_Q_LENGTH)                                          \
    X(depth, "hip crease below the top of the knee", PLUMB_Q_LENGTH)                               \
    X(toe_line, "knee outside (+) or inside (-) the toe line", PLUMB_Q_LENGTH)                     \
    X(knee_outside, "knee outside the ankle, from the front", PLUMB_Q_LENGTH)                      \
    X(ankle_arm, "bar's moment arm about the ankle", PLUMB_Q_LENGTH)                               \
    X(knee_arm, "bar's moment arm about the knee", PLUMB_Q_LENGTH)                                 \
    X(hip_arm, "bar's moment arm about the hip", PLUMB_Q_LENGTH)                                   \
    X(back_arm, "bar's moment arm about the back", PLUMB_Q_LENGTH)                                 \
    X(shoulder_arm, "bar's moment arm about the shoulder", PLUMB_Q_LENGTH)                         \
    X(ankle_moment, "net moment of the ankles", PLUMB_Q_MOMENT)                                    \
    X(knee_moment, "net moment of the knees", PLUMB_Q_MOMENT)                                      \
    X(hip_moment, "net moment of the hips", PLUMB_Q_MOMENT)                                        \
    X(back_moment, "net moment of the back", PLUMB_Q_MOMENT)                                       \
    X(shoulder_moment, "net moment of the shoulders", PLUMB_Q_MOMENT)                              \
    X(stance, "stance", PLUMB_Q_LENGTH)                                                            \
    X(toes, "toes out", PLUMB_Q_ANGLE)                                                             \
    X(knees_out, "knees out", PLUMB_Q_ANGLE)                                                       \
    X(grip, "grip between the forefingers", PLUMB_Q_LENGTH)                                        \
    X(spine, "bend of the spine", PLUMB_Q_ANGLE)                                                   \
    X(bar_from_shoulder, "bar from the shoulders toward the feet", PLUMB_Q_LENGTH)                 \
    X(bar_above_shoulder, "bar above the shoulders", PLUMB_Q_LENGTH)                               \
    X(upper_arm, "upper arm from the trunk", PLUMB_Q_ANGLE)                                        \
    X(elbow_flexion, "elbow flexion", PLUMB_Q_ANGLE)                                               \
    X(forearm_front, "forearm from upright, from the head end", PLUMB_Q_ANGLE)                     \
    X(forearm_side, "forearm from upright, from the side", PLUMB_Q_ANGLE)                          \
    X(shoulder_rotation, "shoulder external rotation", PLUMB_Q_ANGLE)                              \
    X(elbow_off_bar, "elbow from under the bar toward the feet", PLUMB_Q_LENGTH)                   \
    X(elbow_off_hand, "elbow outside the hand", PLUMB_Q_LENGTH)                                    \
    X(elbow_below_rule, "elbow's underside below the shoulder's top", PLUMB_Q_LENGTH)              \
    X(front_arm, "bar's moment arm about the shoulder, from the head end", PLUMB_Q_LENGTH)         \
    X(elbow_arm, "bar's moment arm about the elbow", PLUMB_Q_LENGTH)                               \
    X(adduction_moment, "net shoulder adduction moment, each arm", PLUMB_Q_MOMENT)                 \
    X(flexion_moment, "net shoulder flexion moment, each arm", PLUMB_Q_MOMENT)                     \
    X(elbow_moment, "net elbow extension moment, each arm", PLUMB_Q_MOMENT)

/* A figure read from a picture: first the angles, in the order of PlumbAngle. */
typedef enum PlumbReading {
    PLUMB_READ_BEFORE = PLUMB_ANGLE_COUNT - 1,
#define X(name, text, quantity) PLUMB_READ_##name,
    PLUMB_READING_LIST(X)
#undef X
        PLUMB_READING_COUNT
} PlumbReading;

const char *plumb_reading_name(PlumbReading reading);
const char *plumb_reading_text(PlumbReading reading);
PlumbQuantity plumb_reading_quantity(PlumbReading reading);
/* How the key of such a figure ends in files: "_m", "_rad", "_n_m", "_frac". */
const char *plumb_reading_unit(PlumbQuantity quantity);
/* Whether the lift has such a figure at all. */
bool plumb_reading_applies(PlumbReading reading, PlumbLift lift);
/* The figure of a position, SI; NaN where there is none. */
double plumb_reading_value(PlumbReading reading, const PlumbLifter *lifter, const PlumbSetup *setup,
                           const PlumbPosition *position);
/* The same of an instant of a press. */
double plumb_press_reading_value(PlumbReading reading, const PlumbSetup *setup,
                                 const PlumbPressPosition *position);

/* What a picture leaves open: identifier and words. */
#define PLUMB_UNSEEN_LIST(X)                                                                       \
    X(stance, "stance, toes and grip cannot be seen from the side: they are those of the set-up, " \
              "with a spread")                                                                     \
    X(yaw, "only one disc is marked, so that the camera's turn is unknown: square to the bar "     \
           "within 5° is assumed, and the bar against foot or shoulder is the less sure for it; " \
           "mark both "                                                                            \
           "discs")                                                                                \
    X(scale, "no disc and no known length is marked: the scale rests on the lifter's own lengths") \
    X(distance, "the camera's distance was not given: 4 m within 1.5 m is assumed")                \
    X(size, "the picture's size is not known: its middle is taken to be the middle of the marks")  \
    X(foot, "neither heel nor toe is marked: the foot is put where the lifter would not fall "     \
            "over, so that balance and bar against foot cannot be judged; lower the lens to the "  \
            "bar, so that the disc does not hide the foot")                                        \
    X(level, "nothing upright is marked: the camera is taken to be level within 2°; mark two "    \
             "points of a post")                                                                   \
    X(hip, "the hip is not marked: it follows from the lengths and the other marks")               \
    X(shoulder, "the shoulder is not marked: it follows from the lengths and the other marks")     \
    X(knee, "the knee is not marked: it follows from the lengths and the other marks")             \
    X(side, "from the front, leans and places along the foot cannot be seen: they are those of "   \
            "the model, with a wide spread")                                                       \
    X(grip, "the grip cannot be seen from the side: it is that of the set-up, with a spread")      \
    X(elbow, "the elbow is not marked: it is held to be under the bar within 25°, so that the "   \
             "upper arm's angle says little; a camera at the head end sees both elbows")           \
    X(along, "from the end of the bench, places along it are told by the lengths of the arms "     \
             "alone: they have a wide spread")

typedef enum PlumbUnseen {
#define X(name, text) PLUMB_UNSEEN_##name,
    PLUMB_UNSEEN_LIST(X)
#undef X
        PLUMB_UNSEEN_COUNT
} PlumbUnseen;

const char *plumb_unseen_name(PlumbUnseen unseen);
const char *plumb_unseen_text(PlumbUnseen unseen);

/* One still as read. */
typedef struct PlumbTraced {
    bool front; /* of a bench press: from the head end or the foot end */
    int mark_count;
    double misfit;   /* root mean square of the marks' misses in their own standard errors */
    unsigned unseen; /* bits 1 << PlumbUnseen */
    PlumbCamera camera;
    double distance_sd_m;
    double yaw_sd_rad;
    PlumbSetup setup;                  /* stance, toes, knees_out, grip and spine as fitted */
    PlumbPosition position;            /* of a bench press: points alone, of the right side */
    PlumbPressPosition press;          /* of a bench press */
    double value[PLUMB_READING_COUNT]; /* NaN where the lift has none */
    double sd[PLUMB_READING_COUNT];    /* first order */
} PlumbTraced;

/* All that the pictures tell. */
typedef struct PlumbTrace {
    bool converged; /* false: the marks do not fit a lifter; figures are those of the best found */
    int step_count;
    PlumbTraceBody body; /* most likely lengths and what is left of their covariance */
    PlumbLifter lifter;  /* with these lengths */
    int still_count;
    PlumbTraced still[PLUMB_STILLS_MAX];
} PlumbTrace;

/* Unknowns: lengths and set-up, shared by all stills, then camera, pose and bar of each. */
enum {
    PLUMB_TRACE_SHARED = PLUMB_LENGTH_COUNT + 4,
    PLUMB_TRACE_OWN = 13,
    PLUMB_TRACE_UNKNOWNS = PLUMB_TRACE_SHARED + PLUMB_STILLS_MAX * PLUMB_TRACE_OWN,
    PLUMB_TRACE_ROWS = 2 * PLUMB_STILL_MARKS_MAX + 7
};

/* Room to work in, about 0.3 MB: for the heap. Nothing is kept in it between calls. */
typedef struct PlumbTraceWork {
    double theta[PLUMB_TRACE_UNKNOWNS]; /* in standard deviations of their priors */
    double trial[PLUMB_TRACE_UNKNOWNS];
    double gradient[PLUMB_TRACE_UNKNOWNS];
    double step[PLUMB_TRACE_UNKNOWNS];
    double normal[PLUMB_TRACE_UNKNOWNS][PLUMB_TRACE_UNKNOWNS];
    double factor[PLUMB_TRACE_UNKNOWNS][PLUMB_TRACE_UNKNOWNS];
    double column[PLUMB_TRACE_SHARED + PLUMB_TRACE_OWN][PLUMB_TRACE_ROWS];
    double residual[PLUMB_TRACE_ROWS];
    double root_m[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT];
} PlumbTraceWork;

/* Reads the stills of ask->marks together: one body, one set-up, a camera and a pose each. Of a
 * bench press the shoulders lie at x = 0, as high as the set-up's bench has them, within a
 * centimetre; seen are shoulder, elbow, wrist, bar and discs.
 * PLUMB_BAD_INPUT: no marks, too few marks to place anything. Deterministic;
 * allocates nothing. *trace is untouched on failure. */
PlumbStatus plumb_trace_stills(const PlumbTraceAsk *ask, PlumbTraceWork *work, PlumbTrace *trace,
                               PlumbError *error);

/* Where a landmark stands by the fit, also one that was hidden or not marked. For a rim the point
 * of the disc straight above its centre. */
PlumbVec3 plumb_trace_place(const PlumbTraceAsk *ask, const PlumbTraced *still, PlumbMarkName name);
/* The same in the picture, pixels (of the mirrored picture where it was mirrored). */
PlumbVec2 plumb_trace_pixel(const PlumbTraceAsk *ask, const PlumbTraced *still, PlumbMarkName name);
/* A point of the rim of a disc, turn_rad from the upright. */
PlumbVec2 plumb_trace_rim(const PlumbTraceAsk *ask, const PlumbTraced *still, PlumbNear near,
                          double turn_rad);

/* Thresholds of what is remarked on a still: key, words, quantity. common practice, no source;
 * shoulder_ahead_limit and the joints' limits are the lifter's own. From touch_limit on those of a
 * bench press, as of films. */
#define PLUMB_STILL_LIMIT_LIST(X)                                                                  \
    X(bar_off_limit, "bar off mid-foot, either way", PLUMB_Q_LENGTH)                               \
    X(balance_low_limit, "balance toward the heel", PLUMB_Q_FRACTION)                              \
    X(balance_high_limit, "balance toward the toes", PLUMB_Q_FRACTION)                             \
    X(shoulder_behind_limit, "shoulder ahead of the bar at least", PLUMB_Q_LENGTH)                 \
    X(shoulder_ahead_limit, "shoulder ahead of the bar at most", PLUMB_Q_LENGTH)                   \
    X(back_low_limit, "back above level at least", PLUMB_Q_ANGLE)                                  \
    X(gap_limit, "gap between leg and bar at most", PLUMB_Q_LENGTH)                                \
    X(depth_limit, "depth at least", PLUMB_Q_LENGTH)                                               \
    X(knees_inside_limit, "knee outside the ankle at least", PLUMB_Q_LENGTH)                       \
    X(touch_limit, "touch from the shoulders toward the feet at least", PLUMB_Q_LENGTH)            \
    X(elbow_off_limit, "elbow from under the bar at the touch, either way", PLUMB_Q_LENGTH)        \
    X(forearm_limit, "forearm from upright at the touch, either way", PLUMB_Q_ANGLE)               \
    X(elbow_rule_limit, "elbow's underside above the shoulder's top at the touch at most",         \
      PLUMB_Q_LENGTH)                                                                              \
    X(lockout_off_limit, "bar off the shoulders at lockout, either way", PLUMB_Q_LENGTH)

typedef enum PlumbStillLimit {
#define X(name, text, quantity) PLUMB_STILL_##name,
    PLUMB_STILL_LIMIT_LIST(X)
#undef X
        PLUMB_STILL_LIMIT_COUNT
} PlumbStillLimit;

const char *plumb_still_limit_name(PlumbStillLimit limit);
const char *plumb_still_limit_text(PlumbStillLimit limit);
PlumbQuantity plumb_still_limit_quantity(PlumbStillLimit limit);
void plumb_still_limits_default(const PlumbLifter *lifter, const PlumbSetup *setup,
                                double limit[PLUMB_STILL_LIMIT_COUNT]);

/* Something to remark. `with` is the index of another finding of the list that may be its cause or
 * its effect, -1 where there is none. */
typedef struct PlumbStillFinding {
    PlumbFinding what;
    double sd; /* of what.value */
    int with;
} PlumbStillFinding;

/* What stands beyond its threshold by more than twice its spread; silent otherwise, and on a view
 * that does not show it. answer (may be NULL): the start as it was read, solved as a set-up, for
 * hips that lie below its window. Returns how many. */
int plumb_still_findings(const PlumbTrace *trace, int still, const PlumbAnswer *answer,
                         const double limit[PLUMB_STILL_LIMIT_COUNT],
                         PlumbStillFinding finding[PLUMB_FINDING_MAX]);

/* "side", "front", of a bench press from its ends "head" or "foot". */
const char *plumb_traced_view(const PlumbTraced *still);
/* How far the camera is turned from square to that view, rad. */
double plumb_traced_turn_rad(const PlumbTraced *still);

/* Where on its way a press is. */
typedef enum PlumbPressStage {
    PLUMB_PRESS_AT_TOUCH, /* not more than 5 cm above the chest of the set-up's arch */
    PLUMB_PRESS_ON_THE_WAY,
    PLUMB_PRESS_AT_LOCKOUT /* the elbows bent by less than 20 degrees */
} PlumbPressStage;

/* Whether the bar's place along the bench is read: from the side, within 5 cm. */
bool plumb_trace_press_placed(const PlumbTraced *still);
/* lifter: as the fit has it. */
PlumbPressStage plumb_trace_press_stage(const PlumbLifter *lifter, const PlumbTraced *still);

/* The set-up that starts where the picture does: hip height and balance lead, the bar stands where
 * it was read. For a squat the shin leads. Of a bench press the grip is that of the fit, and from
 * the side the bar's place is the touch, which leads, of straight arms the lockout's, where it is
 * read within 5 cm; from an end the elbows are as they were read where that is within 15 degrees
 * and the arms are bent: meant for a still at the touch or at lockout. What lies beyond a setting's
 * range is clipped to it. */
PlumbSetup plumb_trace_setup(const PlumbTraced *still);

/* The set-up in which the model is held against a still: asked with feet, hands and spine as they
 * were read. led: it is led by what was read: the back angle where that leads asked, hip height and
 * balance where both do, else the hip height of a pull, the shin of a squat. (A balance as read
 * would say little: a centimetre of the bar moves the hips that go with it by ten.) A bench press
 * is led by the touch as read, of straight arms by the bar's place at lockout. Not led: what leads
 * asked keeps its value. */
PlumbSetup plumb_trace_model(const PlumbTraced *still, const PlumbSetup *asked, bool led);

#endif
