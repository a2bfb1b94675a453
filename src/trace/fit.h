/* SPDX-License-Identifier: MIT */
/* The unknowns of a fit to marks, the figure that they make, and what the marks say of it. */
#ifndef PLUMB_TRACE_FIT_H
#define PLUMB_TRACE_FIT_H

#include <plumbar/trace.h>

/* Of the set-up, after the lengths; shared by all stills. */
enum { FIT_STANCE = PLUMB_LENGTH_COUNT, FIT_TOES, FIT_KNEES_OUT, FIT_GRIP };

/* Of each still. */
enum {
    FIT_FOCAL, /* natural logarithm, so that it stays positive */
    FIT_DISTANCE,
    FIT_YAW,
    FIT_PITCH,
    FIT_ROLL,
    FIT_ALONG,
    FIT_HEIGHT,
    FIT_HIP_X,
    FIT_HIP_Y,
    FIT_LEAN,
    FIT_SPINE,
    FIT_BAR_X,
    FIT_BAR_Y,
    FIT_SLIP = FIT_BAR_Y,       /* of a squat, whose bar lies on the thorax */
    FIT_SHOULDER_X = FIT_HIP_X, /* of a press, as the next two */
    FIT_SHOULDER_Y = FIT_HIP_Y,
    FIT_SWING = FIT_LEAN /* of the elbow, from under the bar */
};

/* What is believed before the marks are seen: normal, independent but for the lengths. */
typedef struct FitPrior {
    double mean;
    double sd;
} FitPrior;

typedef struct Fit {
    const PlumbTraceAsk *ask;
    PlumbTraceWork *work;
    int still_count;
    bool front[PLUMB_STILLS_MAX];
    PlumbVec2 centre_px[PLUMB_STILLS_MAX];
    FitPrior shared[4];
    FitPrior own[PLUMB_STILLS_MAX][PLUMB_TRACE_OWN];
    bool one_camera;                 /* that of the first still took them all */
    bool held[PLUMB_TRACE_UNKNOWNS]; /* unknowns that stay as they are */
} Fit;

/* One still's figure at a point of the unknowns. */
typedef struct FitFigure {
    PlumbLifter lifter;
    PlumbSetup setup;
    PlumbCamera camera;
    PlumbPosition position;
    double slip_m;            /* of a squat's bar up along the thorax */
    PlumbPressPosition press; /* of a press, whose points `position` has too */
    double short_m;           /* of a press: by how much the arm misses the bar */
} FitFigure;

/* The unknown's value. */
static inline double fit_value(const FitPrior *prior, double theta)
{
    return prior->mean + prior->sd * theta;
}

/* How many unknowns there are. */
static inline int fit_count(const Fit *fit)
{
    return PLUMB_TRACE_SHARED + fit->still_count * PLUMB_TRACE_OWN;
}

/* The still whose camera took a still. */
static inline int fit_camera(const Fit *fit, int still)
{
    return fit->one_camera ? 0 : still;
}

/* Index of unknown k (0 to SHARED + OWN - 1) of a still among all. */
static inline int fit_index(const Fit *fit, int still, int k)
{
    if (k < PLUMB_TRACE_SHARED) {
        return k;
    }
    const bool camera = k < PLUMB_TRACE_SHARED + FIT_HIP_X;
    return k + (camera ? fit_camera(fit, still) : still) * PLUMB_TRACE_OWN;
}

/* Priors around the lift's start or hole, and theta at a first guess: that pose or that of the
 * other end, seen by a camera turned by yaw_rad. The first scale depends on the guess. */
void plumb_fit_begin(Fit *fit, const PlumbAnswer *answer, bool end, double yaw_rad);

/* The figure of a still at theta. masses: also what the body's masses decide. */
void plumb_fit_figure(const Fit *fit, const double *theta, int still, bool masses,
                      FitFigure *figure);

/* Of a press: the arm and what lies on the bench, where lengths, set-up and camera are there. */
void plumb_fit_press_figure(const FitPrior *prior, const double *own, FitFigure *figure);
/* The same of a place of shoulder and elbow (as PlumbPose has them of a press) and bar; returns by
 * how much the arm misses the bar. */
double plumb_fit_press_points(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbPose pose,
                              PlumbVec2 bar_m, PlumbPressPosition *press, PlumbPosition *position);
/* How much nearer to the bar the shoulder is than a straight arm; below zero: farther. */
double plumb_fit_press_slack_m(const FitFigure *figure);
/* What is believed of a press's pose and camera, over that of other lifts. */
void plumb_fit_press_believe(Fit *fit, int still);
/* The touch as the start, the lockout as the end, points alone. */
void plumb_fit_press_ends(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbAnswer *ends);

/* Why no rim is marked from the end of a bench. */
extern const char plumb_disc_on_edge[];

/* Lengths at theta, m. */
void plumb_fit_lengths(const Fit *fit, const double *theta, double length_m[PLUMB_LENGTH_COUNT]);

/* Misses of a still's marks in their standard errors; returns how many rows. */
int plumb_fit_residuals(const Fit *fit, const double *theta, int still, double *residual);

/* Standard error of a mark, px. */
double plumb_fit_sigma_px(const PlumbTraceAsk *ask, const PlumbMark *mark, double px_per_m);

/* Place of a landmark of a position. */
PlumbVec3 plumb_fit_place(const PlumbPosition *position, PlumbMarkName name, double disc_z_m,
                          double disc_radius_m);

/* Runs theta to the least sum of squares, which it returns. */
double plumb_fit_descend(const Fit *fit, int *steps, bool *converged);
/* The same from the best of some guesses; theta, and where they are told how it went. */
double plumb_fit_search(Fit *fit, int *steps, bool *converged);
/* Covariance of the unknowns at theta into work->normal. */
void plumb_fit_covariance(const Fit *fit);

/* Fills trace from theta and its covariance (work->normal). */
void plumb_fit_tell(const Fit *fit, PlumbTrace *trace);

#endif
