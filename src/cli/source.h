/* SPDX-License-Identifier: MIT */
/* A lifter file and a set-up in it, named on the command line as FILE or FILE:set-up name. */
#ifndef PLUMBAR_CLI_SOURCE_H
#define PLUMBAR_CLI_SOURCE_H

#include "fault.h"

#include <plumbar/lifter_file.h>

/* Zero-initialise; a source that was never opened has no file. */
typedef struct PlumbCliSource {
    char path[PLUMB_CLI_PATH_SIZE];          /* "" where no file is given */
    char setup_name[PLUMB_LIFTER_NAME_SIZE]; /* "" where no set-up is named */
    PlumbLifterFile *file;
    const PlumbFileSetup *setup; /* belongs to file; NULL where none is named */
} PlumbCliSource;

/* Reads the file and finds its set-up. Whatever the outcome, plumb_source_close gives it back. */
PlumbStatus plumb_source_open(const char *what, PlumbCliSource *source, PlumbCliFault *fault);

void plumb_source_close(PlumbCliSource *source);

#endif
