/* SPDX-License-Identifier: MIT */
/* Where a command's answer goes: standard output as it comes, or a file that is written whole. */
#ifndef PLUMBAR_CLI_OUTPUT_H
#define PLUMBAR_CLI_OUTPUT_H

#include <plumbar/format.h>
#include <plumbar/status.h>

#include <stdbool.h>
#include <stddef.h>

/* path NULL: standard output. A file is kept in memory until it is closed, so that a command that
 * fails half-way leaves nothing behind. The first failure is kept; later bytes are dropped. Where
 * nobody reads standard output any more, the process ends by SIGPIPE, without a word. */
typedef struct PlumbCliOutput {
    const char *path;
    char *data;
    size_t length;
    size_t capacity;
    PlumbStatus status;
    int reason; /* errno of the first failed write to standard output */
} PlumbCliOutput;

PlumbCliOutput plumb_output_begin(const char *path);

/* Each appends. */
void plumb_output_bytes(PlumbCliOutput *out, const char *bytes, size_t length);
void plumb_output_string(PlumbCliOutput *out, const char *string);
void plumb_output_repeat(PlumbCliOutput *out, char c, size_t count);

/* Writes what is still held, checks that all arrived, and frees. Fails with PLUMB_WRITE_FAILED
 * (full disk, the file's own reason) or PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_output_close(PlumbCliOutput *out, PlumbError *error);

/* Frees without writing a file. */
void plumb_output_drop(PlumbCliOutput *out);

/* Columns a UTF-8 string takes on a terminal: its characters. */
size_t plumb_output_width(const char *string);

#endif
