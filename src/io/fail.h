/* SPDX-License-Identifier: MIT */
/* How a file's failure is told. */
#ifndef PLUMB_IO_FAIL_H
#define PLUMB_IO_FAIL_H

#include <plumbar/status.h>

/* Fails, field "file", with: "<path>": <what>[: <reason of the system>]. reason: an errno, 0 for
 * none. */
PlumbStatus plumb_file_fail(PlumbError *error, PlumbStatus status, const char *path,
                            const char *what, int reason);

/* Fails with PLUMB_OUT_OF_MEMORY, the same way. */
PlumbStatus plumb_file_no_memory(PlumbError *error, const char *path);

#endif
