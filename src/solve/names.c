/* SPDX-License-Identifier: MIT */
/* Names and words of outcomes, ends and findings. */
#include <plumbar/solve.h>

typedef struct NamedText {
    const char *name;
    const char *text;
} NamedText;

static const NamedText ends[PLUMB_END_COUNT] = {
#define X(name, text) {#name, text},
    PLUMB_END_LIST(X)
#undef X
};

static const char *const findings[PLUMB_FINDING_COUNT] = {
#define X(name) #name,
    PLUMB_FINDING_LIST(X)
#undef X
};

const char *plumb_outcome_name(PlumbOutcome outcome)
{
    static const char *const names[] = {"held", "outside_window", "no_pose"};
    return names[outcome];
}

const char *plumb_end_name(PlumbEnd end)
{
    return ends[end].name;
}

const char *plumb_end_text(PlumbEnd end)
{
    return ends[end].text;
}

const char *plumb_finding_name(PlumbFindingId id)
{
    return findings[id];
}
