/* SPDX-License-Identifier: MIT */
/* What went wrong, where it stands, and the exit code that it ends in. */
#ifndef PLUMBAR_CLI_FAULT_H
#define PLUMBAR_CLI_FAULT_H

#include <plumbar/status.h>

/* Exit codes of the program. */
typedef enum PlumbCliExit {
    PLUMB_EXIT_ANSWERED = 0,
    PLUMB_EXIT_NO_POSE = 1,
    PLUMB_EXIT_BAD_INPUT = 2,
    PLUMB_EXIT_IO = 3,
    PLUMB_EXIT_STOPPED = 130 /* Ctrl+C: what was done by then is told */
} PlumbCliExit;

enum { PLUMB_CLI_PATH_SIZE = 4096 };

/* path is the file that error.line counts in, "" for the command line. */
typedef struct PlumbCliFault {
    char path[PLUMB_CLI_PATH_SIZE];
    PlumbError error;
} PlumbCliFault;

/* Fills a fault of the command line and returns status. */
PlumbStatus plumb_fault_set(PlumbCliFault *fault, PlumbStatus status, const char *field,
                            const char *message);

/* PLUMB_BAD_INPUT with the message before + quoted + after. */
PlumbStatus plumb_fault_bad(PlumbCliFault *fault, const char *field, const char *before,
                            const char *quoted, const char *after);

/* Says that the fault lies in the file at path. */
void plumb_fault_in_file(PlumbCliFault *fault, const char *path);

/* The exit code that belongs to a failed status. */
PlumbCliExit plumb_fault_exit(PlumbStatus status);

/* One line on standard error. */
void plumb_fault_print(const PlumbCliFault *fault);

#endif
