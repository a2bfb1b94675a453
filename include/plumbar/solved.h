/* SPDX-License-Identifier: MIT */
/* A set-up solved, whatever its lift: one form for the studies that only ask for figures, findings
 * and slopes. The bench press has an answer and figures of its own; here they count alike. */
#ifndef PLUMBAR_SOLVED_H
#define PLUMBAR_SOLVED_H

#include <plumbar/effects.h>
#include <plumbar/press_effects.h>

typedef struct PlumbSolved {
    PlumbLift lift;
    union {
        PlumbAnswer pose;       /* deadlift and squat */
        PlumbPressAnswer press; /* bench press */
    };
} PlumbSolved;

/* Solves a set-up that passed plumb_setup_check, with window, range and findings, as
 * plumb_answer_solve or plumb_press_solve. Allocates nothing. */
void plumb_solved_solve(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbSolved *solved);

/* The same without window, range and findings, as plumb_answer_quick or plumb_press_quick. */
void plumb_solved_quick(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbSolved *solved);

PlumbOutcome plumb_solved_outcome(const PlumbSolved *solved);
/* The set-up as used: leads resolved. */
const PlumbSetup *plumb_solved_setup(const PlumbSolved *solved);
/* The findings and how many. */
const PlumbFinding *plumb_solved_findings(const PlumbSolved *solved, int *count);
/* The finding of this kind, NULL where there is none. */
const PlumbFinding *plumb_solved_finding(const PlumbSolved *solved, PlumbFindingId id);

/* A figure is a number in its lift's own list: a PlumbOutput, or a PlumbPressOutput of a bench
 * press. Name, words, quantity and the unit that ends its key. */
int plumb_lift_output_count(PlumbLift lift);
const char *plumb_lift_output_name(PlumbLift lift, int output);
const char *plumb_lift_output_text(PlumbLift lift, int output);
PlumbQuantity plumb_lift_output_quantity(PlumbLift lift, int output);
const char *plumb_lift_output_unit(PlumbLift lift, int output);
/* Whether the lift has this figure. */
bool plumb_lift_output_applies(PlumbLift lift, int output);

/* The figure, SI; NaN where there is none, all of them without a pose. */
double plumb_solved_value(const PlumbSolved *solved, int output);

/* What can move in a set-up: plumb_factors or plumb_press_factors, into
 * factor[PLUMB_FACTOR_MAX]. */
int plumb_lift_factors(const PlumbSetup *setup, PlumbFactor *factor);
/* Slopes of count outputs by factor[factor_count] when the factor grows, SI per SI:
 * slope[output_count][factor_count]. setup: as asked; solved: plumb_solved_solve of it. false,
 * slope untouched, where no pose is held. */
bool plumb_solved_slopes(const PlumbLifter *lifter, const PlumbSetup *setup,
                         const PlumbSolved *solved, const PlumbFactor *factor, int factor_count,
                         const int *output, int output_count, double *slope);

#endif
