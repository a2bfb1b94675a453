/* SPDX-License-Identifier: MIT */
/* Lifts that depart from the model's: a fault that grows, stays a while and goes, and what a film
 * of it must tell, from the motion alone. */
#ifndef PLUMBAR_TESTS_FILM_FAULT_H
#define PLUMBAR_TESTS_FILM_FAULT_H

#include "film_render.h"

#include <plumbar/series.h>

/* What is added to a lift; times count from the beginning of the way up, s. */
typedef struct FilmFault {
    const FilmLift *lift;
    double grows_from_s; /* both -INFINITY: there from the first frame on */
    double grown_s;
    double goes_from_s; /* both INFINITY: it stays */
    double gone_s;
    PlumbPose pose; /* added where the fault is full, like all below */
    double knees_out_rad;
    PlumbVec2 bar_m; /* of a pull: forward, up; of a squat: its slip, back across the thorax, up
                        along it */
} FilmFault;

/* A fault of no size and no time. */
FilmFault film_fault(const FilmLift *lift);
/* A FilmAt. */
void film_fault_at(const void *fault, double t_s, PlumbPosition *position);

/* Hips higher by up_m than t_s after the way up began, the trunk turned about the shoulder. */
PlumbPose film_hips_up(const FilmLift *lift, double t_s, double up_m);
/* A pull's start with the hips lower by down_m, as the model has it, less its own start. */
PlumbPose film_hips_low(const FilmLift *lift, double down_m);

/* What a film must tell. */
typedef struct FilmTruth {
    double figure[PLUMB_FILM_LIMIT_COUNT]; /* held against each threshold; NaN: not of this lift or
                                              view */
    double begin_s;                        /* lift-off, or the turn of a squat */
} FilmTruth;

/* From the motion sampled finely, by the words of the README. */
void film_truth(const FilmScene *scene, const FilmLift *lift, FilmTruth *truth);

#endif
