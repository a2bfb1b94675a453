/* SPDX-License-Identifier: MIT */
/* What both families of lifts share: which is which, reasons in words, differences. */
#include "family.h"

#include <math.h>

const PlumbFamily *plumb_family(PlumbLift lift)
{
    return lift == PLUMB_BENCH ? &plumb_family_press : &plumb_family_stand;
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
