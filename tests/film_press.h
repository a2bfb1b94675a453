/* SPDX-License-Identifier: MIT */
/* Films of a bench press: the model's own press in time, faults laid over it, the views of it, and
 * what a film of it must tell, from the motion alone. Frame as of press.h. */
#ifndef PLUMBAR_TESTS_FILM_PRESS_H
#define PLUMBAR_TESTS_FILM_PRESS_H

#include "film_render.h"

#include <plumbar/press.h>

/* How a press departs from that of the lifter's build; all 0: not at all. */
typedef struct FilmPressFault {
    double touch_m;    /* the bar touches so much further toward the feet */
    double lockout_m;  /* at lockout it stands so much further toward the feet */
    double grip_m;     /* the hands are so much further apart */
    double elbows_rad; /* the upper arm lies so much further from the trunk at the touch than under
                          the bar; from there it turns evenly, as the model has it where elbows are
                          asked for */
    double jump_rad; /* on the way up only: the elbow swings outwards by so much beyond its way, */
    double jump_from_m; /* from this rise of the bar on, */
    double jump_over_m; /* within so much of rise, and stays so far off until the arm is straight */
} FilmPressFault;

/* Rest at straight arms, the way down, a pause on the chest, the way up, rest. */
typedef struct FilmPress {
    PlumbLifter lifter;
    PlumbPressAnswer answer; /* with what of the fault is a set-up */
    FilmPressFault fault;
    double jump_swivel_rad; /* what the jump is about the line from shoulder to grip */
    FilmBench bench;
    double rest_s;
    double down_s;
    double pause_s;
    double up_s;
    double hold_s;
} FilmPress;

/* The default lifter, the default press with the grip of the build: 0.5 s rest, 1.2 s down, 0.3 s
 * pause, 1.0 s up, 0.5 s rest; times may be set before it is filmed. Ends the test where it does
 * not hold. */
FilmPress film_press(const FilmPressFault *fault);
/* When the way up begins and ends, s. */
double film_press_begin_s(const FilmPress *press);
double film_press_end_s(const FilmPress *press);
double film_press_length_s(const FilmPress *press);
/* A FilmAt. Of the position: points, head and bar; no angles or loads. */
void film_press_at(const void *press, double t_s, PlumbPosition *position);
/* The upper arm from the trunk's line toward the feet, rad. */
double film_press_abduction(const PlumbPosition *position);

/* Where the camera stands, as its yaw: at the lifter's right, left, head or feet; any between. */
#define FILM_PRESS_RIGHT_RAD 0.0
#define FILM_PRESS_LEFT_RAD 3.14159265358979323846
#define FILM_PRESS_HEAD_RAD (-1.57079632679489661923)
#define FILM_PRESS_FEET_RAD 1.57079632679489661923

/* As film_scene, 4 m away, at the ends 1.1 m high, from the foot end 5 m away. Borrows the press.
 */
FilmScene film_press_scene(const FilmPress *press, double yaw_rad);

/* The rise within which a turn of the upper arm counts as a jump. */
#define FILM_PRESS_TURN_M 0.03

/* What a film of a press must tell: lengths m, of the bar from over the shoulder toward the feet
 * positive; angles rad, times s. The lockout's are those of the bar's highest place after the
 * touch. */
typedef struct FilmPressTruth {
    double touch_s;   /* the bar is lowest: the middle of the pause */
    double off_s;     /* then it is up by 5 mm, */
    double lockout_s; /* and within 5 mm of its top */
    double rise_m;    /* from touch to top */
    double touch_m;
    double lockout_m;
    double touch_abduction_rad;
    double lockout_abduction_rad;
    double turn_rad; /* largest turn of the upper arm from the trunk within rise_within_m of the way
                        up, away from it positive */
    double turn_frac;     /* share of the rise at which that begins */
    double forearm_rad;   /* at the touch from the head end, hand outwards positive */
    double elbow_below_m; /* at the touch, top of the shoulder above the underside of the elbow */
} FilmPressTruth;

/* From the motion sampled finely; any FilmAt that fills points as film_press_at does. */
void film_press_truth(const FilmScene *scene, const PlumbBody *body, double rise_within_m,
                      FilmPressTruth *truth);

#endif
