/* SPDX-License-Identifier: MIT */
/* What went wrong, where it stands, and the exit code that it ends in. */
#include "fault.h"

#include <plumbar/format.h>

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

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

/* A key of a file's section is written without it on a command line: "thigh", not
 * "measures.thigh". */
static const char *bare_key(const char *field)
{
    static const char *const sections[] = {"lifter.", "measures.", "limits.", "shoes."};
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++) {
        const size_t length = strlen(sections[i]);
        if (strncmp(field, sections[i], length) == 0) {
            return field + length;
        }
    }
    return field;
}

void plumb_fault_print(const PlumbCliFault *fault)
{
    const PlumbError *const error = &fault->error;
    if (plumb_fault_exit(error->status) == PLUMB_EXIT_IO) {
        /* The message names the file itself. */
        const bool named = strcmp(error->field, "file") == 0;
        fprintf(stderr, "plumbar: %s%s%s\n", named ? "" : error->field, named ? "" : ": ",
                error->message);
    } else if (fault->path[0] == '\0') {
        fprintf(stderr, "plumbar: command line: %s: %s\n", bare_key(error->field), error->message);
    } else if (error->line > 0) {
        fprintf(stderr, "%s:%d:%d: %s: %s\n", fault->path, error->line, error->column, error->field,
                error->message);
    } else {
        fprintf(stderr, "%s: %s: %s\n", fault->path, error->field, error->message);
    }
}
