/* SPDX-License-Identifier: MIT */
/* One form for the answers of all lifts: what differs between them stands here and nowhere else. */
#include <plumbar/solved.h>

#include <math.h>
#include <stddef.h>
#include <string.h>

static bool is_press(PlumbLift lift)
{
    return lift == PLUMB_BENCH;
}

void plumb_solved_solve(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbSolved *solved)
{
    solved->lift = setup->lift;
    if (is_press(setup->lift)) {
        plumb_press_solve(lifter, setup, &solved->press);
    } else {
        plumb_answer_solve(lifter, setup, &solved->pose);
    }
}

void plumb_solved_quick(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbSolved *solved)
{
    solved->lift = setup->lift;
    if (is_press(setup->lift)) {
        plumb_press_quick(lifter, setup, &solved->press);
    } else {
        plumb_answer_quick(lifter, setup, &solved->pose);
    }
}

PlumbOutcome plumb_solved_outcome(const PlumbSolved *solved)
{
    return is_press(solved->lift) ? solved->press.outcome : solved->pose.outcome;
}

const PlumbSetup *plumb_solved_setup(const PlumbSolved *solved)
{
    return is_press(solved->lift) ? &solved->press.setup : &solved->pose.setup;
}

const PlumbFinding *plumb_solved_findings(const PlumbSolved *solved, int *count)
{
    *count = is_press(solved->lift) ? solved->press.finding_count : solved->pose.finding_count;
    return is_press(solved->lift) ? solved->press.finding : solved->pose.finding;
}

const PlumbFinding *plumb_solved_finding(const PlumbSolved *solved, PlumbFindingId id)
{
    int count;
    const PlumbFinding *const finding = plumb_solved_findings(solved, &count);
    for (int i = 0; i < count; i++) {
        if (finding[i].id == id) {
            return &finding[i];
        }
    }
    return NULL;
}

void plumb_solved_finding_names(PlumbText *text, const PlumbSolved *solved)
{
    int count = 0;
    const PlumbFinding *const finding = plumb_solved_findings(solved, &count);
    for (int i = 0; i < count; i++) {
        plumb_text_string(text, i > 0 ? ", " : "");
        plumb_text_string(text, plumb_finding_name(finding[i].id));
    }
}

int plumb_lift_output_count(PlumbLift lift)
{
    return is_press(lift) ? (int)PLUMB_PRESS_OUTPUT_COUNT : (int)PLUMB_OUTPUT_COUNT;
}

const char *plumb_lift_output_name(PlumbLift lift, int output)
{
    return is_press(lift) ? plumb_press_output_name((PlumbPressOutput)output)
                          : plumb_output_name((PlumbOutput)output);
}

const char *plumb_lift_output_text(PlumbLift lift, int output)
{
    return is_press(lift) ? plumb_press_output_text((PlumbPressOutput)output)
                          : plumb_output_text((PlumbOutput)output);
}

PlumbQuantity plumb_lift_output_quantity(PlumbLift lift, int output)
{
    return is_press(lift) ? plumb_press_output_quantity((PlumbPressOutput)output)
                          : plumb_output_quantity((PlumbOutput)output, lift);
}

const char *plumb_lift_output_unit(PlumbLift lift, int output)
{
    return is_press(lift) ? plumb_press_output_unit((PlumbPressOutput)output)
                          : plumb_output_unit((PlumbOutput)output, lift);
}

bool plumb_lift_output_applies(PlumbLift lift, int output)
{
    return is_press(lift) || plumb_output_applies((PlumbOutput)output, lift);
}

bool plumb_lift_output_find(PlumbLift lift, const char *name, int *output)
{
    for (int i = 0; i < plumb_lift_output_count(lift); i++) {
        if (plumb_lift_output_applies(lift, i) &&
            strcmp(name, plumb_lift_output_name(lift, i)) == 0) {
            *output = i;
            return true;
        }
    }
    return false;
}

void plumb_lift_output_key(PlumbText *text, PlumbLift lift, int output)
{
    plumb_text_string(text, plumb_lift_output_name(lift, output));
    plumb_text_string(text, plumb_lift_output_unit(lift, output));
}

double plumb_solved_value(const PlumbSolved *solved, int output)
{
    if (plumb_solved_outcome(solved) == PLUMB_NO_POSE) {
        return (double)NAN;
    }
    return is_press(solved->lift)
               ? plumb_press_output_value(&solved->press, (PlumbPressOutput)output)
               : plumb_output_value(&solved->pose, (PlumbOutput)output);
}

bool plumb_solved_effects(const PlumbLifter *lifter, const PlumbSetup *setup,
                          const PlumbSolved *solved, const PlumbFactor *factor, int count,
                          PlumbEffectRow *row)
{
    return is_press(solved->lift)
               ? plumb_press_effects_solve(lifter, setup, factor, count, row)
               : plumb_effects_solve(lifter, setup, &solved->pose, factor, count, row);
}

bool plumb_solved_slopes(const PlumbLifter *lifter, const PlumbSetup *setup,
                         const PlumbSolved *solved, const PlumbFactor *factor, int factor_count,
                         const int *output, int output_count, double *slope)
{
    PlumbEffectRow row[PLUMB_FACTOR_MAX];
    if (!plumb_solved_effects(lifter, setup, solved, factor, factor_count, row)) {
        return false;
    }
    for (int o = 0; o < output_count; o++) {
        for (int i = 0; i < factor_count; i++) {
            slope[o * factor_count + i] = row[i].of[output[o]].up;
        }
    }
    return true;
}
