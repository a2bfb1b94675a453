/* SPDX-License-Identifier: MIT */
/* A file's failure in words, with the reason that the system gives. */
#include "io/fail.h"

#include <plumbar/format.h>

#include <string.h>

PlumbStatus plumb_file_fail(PlumbError *error, PlumbStatus status, const char *path,
                            const char *what, int reason)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_quoted(&text, path, strlen(path));
    plumb_text_string(&text, ": ");
    plumb_text_string(&text, what);
    char words[128];
    if (reason != 0 && strerror_r(reason, words, sizeof words) == 0) {
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, words);
    }
    return plumb_error_set(error, status, "file", message);
}

PlumbStatus plumb_file_no_memory(PlumbError *error, const char *path)
{
    return plumb_file_fail(error, PLUMB_OUT_OF_MEMORY, path, "no memory to read it", 0);
}
