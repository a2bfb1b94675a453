/* SPDX-License-Identifier: MIT */
/* What went wrong, where it stands, and the exit code that it ends in. */
#include "fault.h"

#include <plumbar/format.h>

#include <stdio.h>

PlumbStatus plumb_fault_set(PlumbCliFault *fault, PlumbStatus status, const char *field,
                            const char *message)
{
    fault->path[0] = '\0';
    return plumb_error_set(&fault->error, status, field, message);
}

PlumbStatus plumb_fault_bad(PlumbCliFault *fault, const char *field, const char *before,
                            const char *quoted, const char *after)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, before);
    plumb_text_string(&text, quoted);
    plumb_text_string(&text, after);
    return plumb_fault_set(fault, PLUMB_BAD_INPUT, field, message);
}

void plumb_fault_in_file(PlumbCliFault *fault, const char *path)
{
    PlumbText text = plumb_text_begin(fault->path, sizeof fault->path);
    plumb_text_string(&text, path);
}

PlumbCliExit plumb_fault_exit(PlumbStatus status)
{
    return status == PLUMB_BAD_INPUT || status == PLUMB_UNSUPPORTED ? PLUMB_EXIT_BAD_INPUT
                                                                    : PLUMB_EXIT_IO;
}

void plumb_fault_print(const PlumbCliFault *fault)
{
    const PlumbError *const error = &fault->error;
    if (fault->path[0] == '\0' && plumb_fault_exit(error->status) == PLUMB_EXIT_BAD_INPUT) {
        fputs("plumbar: command line: ", stderr);
    } else if (error->line > 0) {
        fprintf(stderr, "%s:%d:%d: ", fault->path, error->line, error->column);
    } else if (fault->path[0] != '\0') {
        fprintf(stderr, "plumbar: %s: ", fault->path);
    } else {
        fputs("plumbar: ", stderr);
    }
    if (error->field[0] != '\0') {
        fprintf(stderr, "%s: ", error->field);
    }
    fprintf(stderr, "%s\n", error->message);
}
