/* SPDX-License-Identifier: MIT */
/* A set-up solved, whatever its lift: one form for the studies that only ask for figures, findings
 * and slopes. The bench press has an answer and figures of its own; here they count alike. */
#ifndef PLUMBAR_SOLVED_H
#define PLUMBAR_SOLVED_H

#include <plumbar/effects.h>
#include <plumbar/format.h>
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

/* Appends the names of the findings, separated by commas. */
void plumb_solved_finding_names(PlumbText *text, const PlumbSolved *solved);

/* A figure is a number in its lift's own list: a PlumbOutput, or a PlumbPressOutput of a bench
 * press. Name, words, quantity and the unit that ends its key. */
int plumb_lift_output_count(PlumbLift lift);
const char *plumb_lift_output_name(PlumbLift lift, int output);
const char *plumb_lift_output_text(PlumbLift lift, int output);
PlumbQuantity plumb_lift_output_quantity(PlumbLift lift, int output);
const char *plumb_lift_output_unit(PlumbLift lift, int output);
/* Whether the lift has this figure. */
bool plumb_lift_output_applies(PlumbLift lift, int output);
/* The figure of the lift that has this name; false where none has. */
bool plumb_lift_output_find(PlumbLift lift, const char *name, int *output);
/* Appends the figure's key in files: name and unit, "back_angle_rad". */
void plumb_lift_output_key(PlumbText *text, PlumbLift lift, int output);

/* The figure, SI; NaN where there is none, all of them without a pose. */
double plumb_solved_value(const PlumbSolved *solved, int output);

/* Slopes of all figures by factor[count] into row[count], as plumb_effects_solve or
 * plumb_press_effects_solve. setup: as asked; solved: plumb_solved_solve of it. false, rows
 * untouched, where no pose is held. */
bool plumb_solved_effects(const PlumbLifter *lifter, const PlumbSetup *setup,
                          const PlumbSolved *solved, const PlumbFactor *factor, int count,
                          PlumbEffectRow *row);
/* Slopes of output_count outputs by factor[factor_count] when the factor grows, SI per SI:
 * slope[output_count][factor_count]. setup: as asked; solved: plumb_solved_solve of it. false,
 * slope untouched, where no pose is held. */
bool plumb_solved_slopes(const PlumbLifter *lifter, const PlumbSetup *setup,
                         const PlumbSolved *solved, const PlumbFactor *factor, int factor_count,
                         const int *output, int output_count, double *slope);

#endif
