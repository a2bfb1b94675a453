/* SPDX-License-Identifier: MIT */
/* What a command is asked about: a lifter and a set-up, out of a file and of key=value words. */
#ifndef PLUMBAR_CLI_REQUEST_H
#define PLUMBAR_CLI_REQUEST_H

#include "args.h"
#include "axis.h"

#include <plumbar/lifter_file.h>

/* What the words of a command may say; bits. */
enum {
    PLUMB_REQUEST_SETUP = 1,      /* a lift and settings */
    PLUMB_REQUEST_AXES = 2,       /* KEY=FROM..TO/N */
    PLUMB_REQUEST_ANY_LIFT = 4,   /* the lift may be left out: a deadlift */
    PLUMB_REQUEST_OTHER_WORD = 8, /* the one bare word names the file to make */
    PLUMB_REQUEST_BENCH = 16      /* the lift may be a bench press */
};

enum { PLUMB_AXES_MAX = 2, PLUMB_CELLS_MAX = 250000 };

typedef struct PlumbCliRequest {
    char path[PLUMB_CLI_PATH_SIZE];          /* of the lifter file, "" where none was given */
    char setup_name[PLUMB_LIFTER_NAME_SIZE]; /* "" where none was named */
    PlumbLifterRecord record;                /* file and words together */
    PlumbLifter lifter;
    PlumbLift lift;
    bool lift_given;       /* by a word */
    PlumbSetupEntry entry; /* the layer of the words over that of the file */
    PlumbSetup setup;
    const char *other_word;
    PlumbCliAxis axis[PLUMB_AXES_MAX]; /* every axis stands at its first value in record, setup */
    int axis_count;
} PlumbCliRequest;

/* Reads words (as split, options taken out). PLUMB_BAD_INPUT or PLUMB_READ_FAILED with the place in
 * *fault. */
PlumbStatus plumb_request_read(const char *const *word, int count, unsigned may,
                               PlumbCliRequest *request, PlumbCliFault *fault);

/* A second set-up beside base: "FILE:set-up name", "key=value ..." over base, or "FILE" for another
 * lifter in base's set-up. The lift must be base's. */
PlumbStatus plumb_request_read_pencil(const PlumbCliRequest *base, const char *what,
                                      PlumbCliRequest *request, PlumbCliFault *fault);

/* Puts lifter and setup at a point of the axes, index 0 to axis count - 1 each. */
PlumbStatus plumb_request_at(const PlumbCliRequest *request, const int index[PLUMB_AXES_MAX],
                             PlumbLifter *lifter, PlumbSetup *setup, PlumbCliFault *fault);

#endif
