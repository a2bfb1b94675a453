/* SPDX-License-Identifier: MIT */
/* Where a command's answer goes: standard output as it comes, or a file that is written whole. */
#include "output.h"

#include <plumbar/file.h>

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_CAPACITY = 1 << 14 };

PlumbCliOutput plumb_output_begin(const char *path)
{
    return (PlumbCliOutput){.path = path, .status = PLUMB_OK};
}

static bool grow(PlumbCliOutput *out, size_t more)
{
    size_t capacity = out->capacity > 0 ? out->capacity : FIRST_CAPACITY;
    while (capacity - out->length < more) {
        if (capacity > (size_t)-1 / 2) {
            return false;
        }
        capacity *= 2;
    }
    char *const data = realloc(out->data, capacity);
    if (data == NULL) {
        return false;
    }
    out->data = data;
    out->capacity = capacity;
    return true;
}

/* Whoever read the pipe has seen enough, as `head` does: nothing is left to work for and nothing to
 * report, so the process ends as one that had left the signal alone. */
static void stdout_failed(PlumbCliOutput *out, int reason)
{
    if (reason == EPIPE) {
        signal(SIGPIPE, SIG_DFL);
        raise(SIGPIPE);
    }
    out->reason = reason;
    out->status = PLUMB_WRITE_FAILED;
}

static void to_stdout(PlumbCliOutput *out, const char *bytes, size_t length)
{
    if (fwrite(bytes, 1, length, stdout) != length) {
        stdout_failed(out, errno);
    }
}

void plumb_output_bytes(PlumbCliOutput *out, const char *bytes, size_t length)
{
    if (out->status != PLUMB_OK || length == 0) {
        return;
    }
    if (out->path == NULL) {
        to_stdout(out, bytes, length);
        return;
    }
    if (out->capacity - out->length < length && !grow(out, length)) {
        out->status = PLUMB_OUT_OF_MEMORY;
        return;
    }
    memcpy(out->data + out->length, bytes, length);
    out->length += length;
}

void plumb_output_string(PlumbCliOutput *out, const char *string)
{
    plumb_output_bytes(out, string, strlen(string));
}

void plumb_output_repeat(PlumbCliOutput *out, char c, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        plumb_output_bytes(out, &c, 1);
    }
}

/* A full disk shows only when the last bytes leave the buffer. */
static PlumbStatus close_stdout(PlumbCliOutput *out, PlumbError *error)
{
    if (out->status == PLUMB_OK && fflush(stdout) != 0) {
        stdout_failed(out, errno);
    }
    if (out->status == PLUMB_OK && ferror(stdout) == 0) {
        return PLUMB_OK;
    }
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, "the answer could not be written in full");
    if (out->reason != 0) {
        plumb_text_string(&text, " (");
        plumb_text_string(&text, strerror(out->reason));
        plumb_text_string(&text, ")");
    }
    plumb_text_string(&text, "; make room, or write to a file with -o FILE");
    return plumb_error_set(error, PLUMB_WRITE_FAILED, "standard output", message);
}

PlumbStatus plumb_output_close(PlumbCliOutput *out, PlumbError *error)
{
    PlumbStatus status = out->status;
    if (status == PLUMB_OUT_OF_MEMORY) {
        plumb_error_set(error, status, "answer", "does not fit into memory; ask for fewer points");
    } else if (out->path == NULL) {
        status = close_stdout(out, error);
    } else {
        status = plumb_file_write_atomic(out->path, out->data != NULL ? out->data : "", out->length,
                                         error);
    }
    plumb_output_drop(out);
    return status;
}

void plumb_output_drop(PlumbCliOutput *out)
{
    free(out->data);
    out->data = NULL;
    out->length = 0;
    out->capacity = 0;
}

size_t plumb_output_width(const char *string)
{
    size_t width = 0;
    for (const char *c = string; *c != '\0'; c++) {
        width += ((unsigned char)*c & 0xC0U) != 0x80U;
    }
    return width;
}
