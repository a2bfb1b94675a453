/* SPDX-License-Identifier: MIT */
/* A lifter's log, each entry solved: as a table, JSON, CSV, or a chart. */
#ifndef PLUMBAR_CLI_DIARY_H
#define PLUMBAR_CLI_DIARY_H

#include "args.h"

#include <plumbar/lifter_file.h>
#include <plumbar/press.h>

/* Figures of an entry: key in CSV and JSON, head of the column, name in the chart or "", quantity,
 * of a press or of the other lifts, or both. */
#define PLUMB_DIARY_FIGURE_LIST(X)                                                                 \
    X(travel_m, "travel", "", LENGTH, true, true)                                                  \
    X(hip_height_m, "hip height", "hip height", LENGTH, true, false)                               \
    X(hip_arm_m, "hip arm", "hips behind the bar", LENGTH, true, false)                            \
    X(back_angle_rad, "back", "back above level", ANGLE, true, false)                              \
    X(grip_m, "grip", "grip", LENGTH, false, true)                                                 \
    X(touch_m, "touch", "touch from the shoulders toward the feet", LENGTH, false, true)           \
    X(elbow_arm_m, "elbow arm", "", LENGTH, false, true)                                           \
    X(upper_arm_rad, "upper arm", "upper arm from the trunk", ANGLE, false, true)

typedef enum PlumbDiaryFigure {
#define X(key, head, chart, quantity, pose, press) PLUMB_DIARY_##key,
    PLUMB_DIARY_FIGURE_LIST(X)
#undef X
        PLUMB_DIARY_FIGURE_COUNT
} PlumbDiaryFigure;

/* One entry and its figures; NaN where no pose holds, or the lift has no such figure. */
typedef struct PlumbCliDiaryRow {
    const PlumbLogEntry *entry; /* of the file */
    double figure[PLUMB_DIARY_FIGURE_COUNT];
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
