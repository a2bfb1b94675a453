/* SPDX-License-Identifier: MIT */
/* What both families of lifts share: which is which, reasons in words, differences. */
#include "family.h"

#include <math.h>

const PlumbFamily *plumb_family(PlumbLift lift)
{
    return lift == PLUMB_BENCH ? &plumb_family_press : &plumb_family_stand;
}

bool plumb_figure_applies(PlumbLift lift, int figure)
{
    return lift == PLUMB_BENCH || plumb_output_applies((PlumbOutput)figure, lift);
}

static const struct {
    const char *name;
    const char *text;
} OTHER[PLUMB_REASON_COUNT - PLUMB_CONSTRAINT_COUNT] = {
    {"body", "such a body"},
    {"touch", "arms that reach the touch"},
    {"lockout", "arms that reach the lockout"},
};

const char *plumb_reason_name(int reason)
{
    return reason < PLUMB_CONSTRAINT_COUNT ? plumb_constraint_name((PlumbConstraintId)reason)
                                           : OTHER[reason - PLUMB_CONSTRAINT_COUNT].name;
}

const char *plumb_reason_text(int reason)
{
    return reason < PLUMB_CONSTRAINT_COUNT ? plumb_constraint_text((PlumbConstraintId)reason)
                                           : OTHER[reason - PLUMB_CONSTRAINT_COUNT].text;
}

void plumb_posed_compare(const PlumbPosed *first, const PlumbPosed *second,
                         PlumbDifference of[PLUMB_FIGURES_MAX])
{
    const double none = (double)NAN;
    if (first->setup.lift != PLUMB_BENCH) {
        plumb_compare(&first->solved.pose, &second->solved.pose, of);
        return;
    }
    for (int i = 0; i < plumb_lift_output_count(first->setup.lift); i++) {
        const double was = plumb_solved_value(&first->solved, i);
        const double now = plumb_solved_value(&second->solved, i);
        of[i] = (PlumbDifference){was, now, now - was, {0, none, none, none, none, none}};
    }
}
