/* SPDX-License-Identifier: MIT */
/* Whole files in, whole files out: bounded reading, and writing that either replaces or leaves. */
#ifndef PLUMBAR_FILE_H
#define PLUMBAR_FILE_H

#include <plumbar/status.h>

#include <stddef.h>

/* Reads the file at path, at most max_bytes, into *bytes (the caller frees; one NUL follows the
 * *length bytes). Fails with PLUMB_READ_FAILED (missing, a directory, not readable: the message
 * says which), PLUMB_TOO_LARGE or PLUMB_OUT_OF_MEMORY; outputs are then untouched. */
PlumbStatus plumb_file_read_whole(const char *path, size_t max_bytes, char **bytes, size_t *length,
                                  PlumbError *error);

/* Makes the file at path hold exactly bytes[length], or leaves it as it was: a temporary file in
 * the same directory is written, synced and renamed over it. An existing file keeps its mode; a
 * symbolic link stays one and its target is replaced. Devices and pipes are written in place.
 * Fails with PLUMB_WRITE_FAILED and the reason; nothing of the temporary file is left. */
PlumbStatus plumb_file_write_atomic(const char *path, const char *bytes, size_t length,
                                    PlumbError *error);

#endif
