/* SPDX-License-Identifier: MIT */
/* A lifter file and a set-up in it, named on the command line as FILE or FILE:set-up name. */
#include "source.h"

#include <stdbool.h>
#include <string.h>
#include <unistd.h>

static bool exists(const char *path)
{
    return access(path, F_OK) == 0;
}

static bool copy(char *out, size_t size, const char *text, size_t length)
{
    if (length >= size) {
        return false;
    }
    memcpy(out, text, length);
    out[length] = '\0';
    return true;
}

/* Splits FILE:set-up name. A colon may belong to the file: the first one after which the part
 * before it is a file counts; where no part is a file, the first colon does. */
static PlumbStatus split_file(const char *what, PlumbCliSource *source, PlumbCliFault *fault)
{
    const char *colon = exists(what) ? NULL : strchr(what, ':');
    for (const char *c = colon; c != NULL; c = strchr(c + 1, ':')) {
        if (copy(source->path, sizeof source->path, what, (size_t)(c - what)) &&
            exists(source->path)) {
            colon = c;
            break;
        }
    }
    const size_t length = colon != NULL ? (size_t)(colon - what) : strlen(what);
    const char *const name = colon != NULL ? colon + 1 : "";
    if (!copy(source->path, sizeof source->path, what, length)) {
        return plumb_fault_bad(fault, "file", "'", what, "' is longer than a file's name can be");
    }
    if (colon != NULL && (length == 0 || name[0] == '\0')) {
        return plumb_fault_bad(fault, "file", "'", what,
                               "' lacks a part; write FILE or FILE:set-up name");
    }
    if (!copy(source->setup_name, sizeof source->setup_name, name, strlen(name))) {
        return plumb_fault_bad(fault, "file", "'", name, "' is longer than a set-up's name can be");
    }
    return PLUMB_OK;
}

PlumbStatus plumb_source_open(const char *what, PlumbCliSource *source, PlumbCliFault *fault)
{
    PlumbStatus status = split_file(what, source, fault);
    if (status != PLUMB_OK) {
        return status;
    }
    status = plumb_lifter_file_read(source->path, &source->file, &fault->error);
    if (status != PLUMB_OK) {
        plumb_fault_in_file(fault, source->path);
        return status;
    }
    if (source->setup_name[0] != '\0') {
        source->setup = plumb_lifter_file_setup(source->file, source->setup_name, &fault->error);
        if (source->setup == NULL) {
            fault->path[0] = '\0';
            return fault->error.status;
        }
    }
    return PLUMB_OK;
}

void plumb_source_close(PlumbCliSource *source)
{
    plumb_lifter_file_free(source->file);
    source->file = NULL;
    source->setup = NULL;
}
