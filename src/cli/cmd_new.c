/* SPDX-License-Identifier: MIT */
/* plumbar new: writes a commented lifter file, and never over an existing one. */
#include "command.h"
#include "request.h"

#include <plumbar/file.h>

#include <stdlib.h>
#include <sys/stat.h>

static bool is_taken(const char *path)
{
    struct stat status;
    return lstat(path, &status) == 0;
}

PlumbCliExit plumb_cli_new(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_OTHER_WORD, &request, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    const char *const path = request.other_word;
    if (is_taken(path)) {
        return plumb_fault_exit(plumb_fault_bad(
            fault, "file", "'", path, "' exists and is left as it is; choose another name"));
    }
    char *text = NULL;
    size_t length = 0;
    status = plumb_lifter_file_new_text(&request.record, &text, &length, &fault->error);
    if (status == PLUMB_OK) {
        status = plumb_file_write_atomic(path, text, length, &fault->error);
    }
    free(text);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(NULL);
    plumb_output_string(&out, "wrote ");
    plumb_output_string(&out, path);
    plumb_output_string(&out, "\n");
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}
