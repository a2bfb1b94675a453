/* SPDX-License-Identifier: MIT */
/* Strength from best lifts, and limits from simple tests. */
#ifndef PLUMBAR_STRENGTH_H
#define PLUMBAR_STRENGTH_H

#include <plumbar/solve.h>

enum { PLUMB_REPETITIONS_MAX = 12 };

/* The greatest load for one repetition, from a set to the last repetition possible: load (1 + r/30)
 * by Epley (1985, Boyd Epley Workout) and load 36 / (37 - r) by Brzycki (1993, JOPERD 64(1):88-90),
 * citations from memory; both are the load itself for one repetition here. repetitions 1 to 12. */
double plumb_best_epley_kg(double load_kg, int repetitions);
double plumb_best_brzycki_kg(double load_kg, int repetitions);

/* The mean of both, with repetitions in reserve counted as done: a single with two in reserve is
 * then about 0.92 of the best (common practice says 0.90 to 0.93, no source). */
double plumb_best_single_kg(double load_kg, int repetitions, int reserve);

/* One best lift. */
typedef struct PlumbBest {
    PlumbLift lift;
    double load_kg;
    int repetitions; /* 1 to 12 */
    int reserve;     /* repetitions that were left, 0 to 5; together at most 12 */
} PlumbBest;

/* Reads "160 kg x 3", "160 kg x 3 @ 2" (two left), "352 lb". PLUMB_BAD_INPUT says how it is
 * written; *best is then untouched. */
PlumbStatus plumb_best_read(const char *text, PlumbLift lift, PlumbBest *best, PlumbError *error);

/* The multiplier, one for all joints, with which the best lift entered has largest relative effort
 * 1 in the lift's default set-up: the greatest of the lifts' own. false where no lift holds; the
 * multiplier is then untouched. strength of the lifter is not used. */
bool plumb_strength_from_best(const PlumbLifter *lifter, const PlumbBest *best, int count,
                              double *multiplier);

/* Dorsiflexion from the weight-bearing lunge: the greatest distance of the toe tips from a wall
 * that the knee still touches with the heel down. Side view: the front of the knee is at the wall,
 *   sin(angle) = (foot - heel to ankle + distance - flesh before the knee) / shank,
 * the flesh taken as the shin's half-thickness. NaN where the body cannot do that. */
double plumb_lunge_dorsiflexion_rad(const PlumbBody *body, double distance_m);

/* The same from text: a distance ("10 cm") or the shank's lean read with an inclinometer ("38
 * deg"). PLUMB_BAD_INPUT says what is allowed. */
PlumbStatus plumb_lunge_read(const PlumbBody *body, const char *text, double *dorsiflexion_rad,
                             PlumbError *error);

#endif
