/* SPDX-License-Identifier: MIT */
/* The population of a command and what is told of it: text, JSON, CSV, drawing. */
#ifndef PLUMBAR_CLI_PEOPLE_H
#define PLUMBAR_CLI_PEOPLE_H

#include "output.h"
#include "request.h"

#include <plumbar/population.h>

enum { PLUMB_PEOPLE_REGRESSED = 3 };

typedef struct PlumbCliPeople {
    const PlumbCliRequest *request;
    PlumbSolved own; /* of the lifter of the request */
    uint64_t seed;
    int asked;
    int count; /* less than asked where it was stopped */
    PlumbPerson *person;
    double *scratch; /* 2 count */
    int held_count;
    int outside_count;
    int no_pose_count;
    PlumbRegression regression[PLUMB_PEOPLE_REGRESSED];
} PlumbCliPeople;

/* The figures that are regressed on build, in the lift's own list, and the trait of each one's
 * drawing. index: 0 to PLUMB_PEOPLE_REGRESSED - 1. */
int plumb_people_regressed(PlumbLift lift, int index);
PlumbTrait plumb_people_trait(PlumbLift lift, int index);

/* Whether a figure is worth a row: one that people differ in. */
bool plumb_people_tell(const PlumbCliPeople *people, int output, PlumbEstimate *estimate);

/* "4180 of 10000 bodies (stopped)" and what they are. */
void plumb_people_words(const PlumbCliPeople *people, PlumbText *text);

void plumb_people_text(const PlumbCliPeople *people, PlumbUnits units, PlumbCliOutput *out);
void plumb_people_json(const PlumbCliPeople *people, PlumbCliOutput *out);
void plumb_people_csv(const PlumbCliPeople *people, PlumbCliOutput *out);
/* Composes and renders the scatter drawing into out. */
PlumbStatus plumb_people_draw(const PlumbCliPeople *people, const PlumbCliArgs *args,
                              PlumbCliOutput *out, PlumbCliFault *fault);

#endif
