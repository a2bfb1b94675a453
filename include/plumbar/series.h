/* SPDX-License-Identifier: MIT */
/* A lift read from a film: a pose in every frame with one body and one camera, smoothed, with its
 * speeds and events, and what a coach would remark on it. */
#ifndef PLUMBAR_SERIES_H
#define PLUMBAR_SERIES_H

#include <plumbar/trace.h>
#include <plumbar/track.h>

enum {
    PLUMB_SERIES_KEYS = 5,  /* frames that body and camera are fitted to */
    PLUMB_SERIES_FIXED = 8, /* marks of what does not move: posts, a length held up */
    PLUMB_SERIES_RIM_MAX = 12,
    PLUMB_SERIES_MARKS_LEAST = 3
};

/* What a track is of. Of a disc whose rim was marked: the points about the place followed. */
typedef struct PlumbSeriesTrack {
    PlumbMarkName name;
    int rim_count;
    PlumbVec2 rim_px[PLUMB_SERIES_RIM_MAX];
} PlumbSeriesTrack;

/* What is asked; pointers are borrowed. */
typedef struct PlumbSeriesAsk {
    PlumbTraceAsk still; /* lifter, set-up, body, errors; size_px[0], distance_m[0]; no marks */
    bool from_floor;     /* a pull that begins with its discs on floor or blocks */
    int frame_count;
    const double *time_s; /* rising */
    int track_count;
    const PlumbSeriesTrack *track;
    const PlumbTrackPoint *point; /* [track_count * frame_count], as followed */
    const PlumbShift *shift;      /* [frame_count], to be taken out; NULL: none */
    double mirror_width_px;       /* of a lifter who faces left, the picture's width; else 0 */
    int fixed_count;
    PlumbMark fixed[PLUMB_SERIES_FIXED]; /* plumb and scale, as in the first frame */
    double cutoff_hz;                    /* 0: by residual analysis */
    /* Told the share that is done, 0 to 1; NULL: nobody. false stops. */
    bool (*progress)(void *user, double done_frac);
    void *user;
} PlumbSeriesAsk;

/* Default errors of a film: discs 1 px, since they are followed and not clicked. */
PlumbSeriesAsk plumb_series_ask(const PlumbLifter *lifter, const PlumbSetup *setup,
                                const PlumbTraceBody *body);

/* What a frame shows, smoothed. */
typedef struct PlumbSeriesFrame {
    double time_s;
    bool known;     /* false: too few trusted marks, or none of the bar; filled in */
    double misfit;  /* root mean square of the marks' misses in their standard errors */
    PlumbPose pose; /* of a press: the shoulder's place, and the elbow's swing from under the bar */
    double spine_rad;
    double knees_out_rad;
    PlumbVec2 bar_m;      /* as the disc shows it, in the lifter's middle plane */
    double bar_speed_m_s; /* upwards */
    double hip_speed_m_s;
    double knee_x_m;
    double knee_height_m;
    double slip_m; /* squat: bar along the thorax from where it lay in the mean */
    double value[PLUMB_READING_COUNT]; /* from the side */
    double spread_frac; /* from the front: distance of the knees over that of the ankles; NaN */
    double shin_rad;    /* from the front: outward lean, mean of both shins; NaN */
    double rise_px;     /* from the front: bar or hips, up */
    bool rise_known;    /* false: filled in */
    bool elbow_seen;    /* of a press: an elbow can be trusted in it */
} PlumbSeriesFrame;

/* Events: name and words. */
#define PLUMB_EVENT_LIST(X)                                                                        \
    X(hip_moves, "first motion of the hip")                                                        \
    X(lift_off, "lift-off")                                                                        \
    X(knee_pass, "bar passes the knee")                                                            \
    X(slowest, "slowest point")                                                                    \
    X(lockout, "lockout")                                                                          \
    X(turn_round, "turn-round")

typedef enum PlumbEvent {
#define X(name, text) PLUMB_EVENT_##name,
    PLUMB_EVENT_LIST(X)
#undef X
        PLUMB_EVENT_COUNT
} PlumbEvent;

const char *plumb_event_name(PlumbEvent event);
/* In words of the lift: a squat locks out by standing, a press turns round at the touch. */
const char *plumb_event_text(PlumbEvent event, PlumbLift lift);

/* All that the film tells. */
typedef struct PlumbSeries {
    bool stopped;  /* progress said so: nothing else holds */
    bool front;    /* knees and ankles alone: no fit; never of a press */
    bool end_view; /* a press, from the head end or the foot end */
    PlumbLift lift;
    int frame_count;
    PlumbSeriesFrame *frame; /* the caller's, [frame_count] */
    double rate_hz;          /* mean */
    int key_count;
    int key[PLUMB_SERIES_KEYS]; /* frames that body and camera were fitted to */
    PlumbTrace trace;           /* of them; none from the front */
    int unknown_count;          /* frames filled in */
    double misfit;              /* median over the frames */
    double cutoff_hz[2];        /* of the bar, of the body */
    double bar_noise_m;         /* what smoothing leaves of the noise: bar's and hip's place */
    double hip_noise_m;
    double angle_noise_rad;
    double spread_noise_frac; /* from the front */
    double slide_m; /* how far marks on the body slide: half of what the two ways differ by */
    double spread_slide_frac; /* from the front: what that makes of spread and lean */
    double shin_slide_rad;
    double event_s[PLUMB_EVENT_COUNT];  /* NaN where there is none */
    int event_frame[PLUMB_EVENT_COUNT]; /* nearest; -1 */
} PlumbSeries;

/* Where a track is in a frame as the fit sees it: the camera's movement taken out, and mirrored;
 * false where it is not to be trusted. */
bool plumb_series_place(const PlumbSeriesAsk *ask, int track, int frame, PlumbVec2 *at_px);

/* Bytes of room that a film of so many frames needs, aligned as malloc aligns. */
size_t plumb_series_room_bytes(int frame_count);

/* Reads a film. frame[frame_count] is the caller's and stays in use by *series. PLUMB_BAD_INPUT: no
 * track that shows the bar or the hip (of a press: bar and shoulder); too few trusted marks;
 * nothing that moves; from the front no knees and ankles. Stopped: PLUMB_OK. Deterministic;
 * allocates nothing. */
PlumbStatus plumb_series_read(const PlumbSeriesAsk *ask, void *room, PlumbSeriesFrame *frame,
                              PlumbSeries *series, PlumbError *error);

/* The still of a frame, for drawing: place, camera and figures of the film's fit. */
void plumb_series_still(const PlumbSeries *series, int frame, PlumbTraced *still);

/* Thresholds of what is remarked on a film: key, words, quantity. common practice, no source. */
#define PLUMB_FILM_LIMIT_LIST(X)                                                                   \
    X(hips_first_limit, "rise of the hip before lift-off at most", PLUMB_Q_LENGTH)                 \
    X(rise_ratio_limit, "hip rise over bar rise in the first 5 cm at most", PLUMB_Q_NUMBER)        \
    X(back_drop_limit, "fall of the back angle on the way up at most", PLUMB_Q_ANGLE)              \
    X(bar_ahead_limit, "bar ahead of mid-foot at most", PLUMB_Q_LENGTH)                            \
    X(path_width_limit, "width of the bar's path at most", PLUMB_Q_LENGTH)                         \
    X(depth_limit, "depth at least", PLUMB_Q_LENGTH)                                               \
    X(knees_back_limit, "knees going back before lift-off at most", PLUMB_Q_LENGTH)                \
    X(slip_limit, "movement of the bar on the back at most", PLUMB_Q_LENGTH)                       \
    X(knee_spread_limit, "knees coming in, as knee spread over ankle spread, at most",             \
      PLUMB_Q_NUMBER)                                                                              \
    X(shin_in_limit, "shin leaning inward where the way up begins at most", PLUMB_Q_ANGLE)         \
    X(touch_limit, "touch from the shoulders toward the feet at least", PLUMB_Q_LENGTH)            \
    X(arm_turn_limit, "turn of the upper arm within 3 cm of the bar's rise at most",               \
      PLUMB_Q_ANGLE)                                                                               \
    X(elbow_off_limit, "elbow from under the bar at the touch, either way", PLUMB_Q_LENGTH)        \
    X(forearm_limit, "forearm from upright at the touch, either way", PLUMB_Q_ANGLE)               \
    X(elbow_rule_limit, "elbow's underside above the shoulder's top at the touch at most",         \
      PLUMB_Q_LENGTH)                                                                              \
    X(lockout_off_limit, "bar off the shoulders at lockout, either way", PLUMB_Q_LENGTH)

typedef enum PlumbFilmLimit {
#define X(name, text, quantity) PLUMB_FILM_##name,
    PLUMB_FILM_LIMIT_LIST(X)
#undef X
        PLUMB_FILM_LIMIT_COUNT
} PlumbFilmLimit;

const char *plumb_film_limit_name(PlumbFilmLimit limit);
const char *plumb_film_limit_text(PlumbFilmLimit limit);
PlumbQuantity plumb_film_limit_quantity(PlumbFilmLimit limit);
void plumb_film_limits_default(PlumbLift lift, double limit[PLUMB_FILM_LIMIT_COUNT]);

/* How a question of the table was answered. */
typedef enum PlumbFilmVerdict {
    PLUMB_FILM_CLEAR,   /* within the threshold */
    PLUMB_FILM_UNSURE,  /* beyond it, but its spread covers that: nothing is remarked */
    PLUMB_FILM_BEYOND,  /* remarked */
    PLUMB_FILM_NOT_SEEN /* the film does not show it */
} PlumbFilmVerdict;

/* One question put to a film. */
typedef struct PlumbFilmFinding {
    PlumbFinding what; /* value NaN where it is not seen */
    PlumbFilmLimit limit;
    PlumbFilmVerdict verdict;
    double sd;
    int frame; /* where it shows */
} PlumbFilmFinding;

/* Every question that the lift and view can answer, in order; returns how many. Remarked is what
 * stands beyond its threshold by more than 1.96 of its spread. */
int plumb_film_findings(const PlumbSeries *series, const double limit[PLUMB_FILM_LIMIT_COUNT],
                        PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT]);

#endif
