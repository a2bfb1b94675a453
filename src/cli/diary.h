/* SPDX-License-Identifier: MIT */
/* A lifter's log, each entry solved: as a table, JSON, CSV, or a chart. */
#ifndef PLUMBAR_CLI_DIARY_H
#define PLUMBAR_CLI_DIARY_H

#include "args.h"

#include <plumbar/lifter_file.h>
#include <plumbar/solve.h>

/* One entry and its figures; NaN where no pose holds. */
typedef struct PlumbCliDiaryRow {
    const PlumbLogEntry *entry; /* of the file */
    double travel_m;
    double hip_height_m;
    double hip_arm_m;
    double back_rad;
} PlumbCliDiaryRow;

typedef struct PlumbCliDiary {
    bool one_lift; /* only entries of `lift` are told */
    PlumbLift lift;
    int count;
    PlumbCliDiaryRow *row; /* by day, then as in the file; heap */
} PlumbCliDiary;

/* Solves the entries of the file, those of diary->lift where one_lift. PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_diary_take(const PlumbLifterFile *file, PlumbCliDiary *diary,
                             PlumbCliFault *fault);

/* Prints as args ask; -o with the ending of a picture draws. */
PlumbCliExit plumb_diary_print(const PlumbCliArgs *args, const PlumbLifterFile *file,
                               const PlumbCliDiary *diary, PlumbCliFault *fault);

#endif
