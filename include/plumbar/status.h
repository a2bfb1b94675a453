/* SPDX-License-Identifier: MIT */
/* What a call reports when it failed: a status, and an error that names the place and the way out.
 */
#ifndef PLUMBAR_STATUS_H
#define PLUMBAR_STATUS_H

/* One list makes the codes and their texts. */
#define PLUMB_STATUS_LIST(X)                                                                       \
    X(OK, "ok")                                                                                    \
    X(BAD_INPUT, "bad input")                                                                      \
    X(READ_FAILED, "could not read")                                                               \
    X(WRITE_FAILED, "could not write")                                                             \
    X(TOO_LARGE, "too large")                                                                      \
    X(UNSUPPORTED, "not supported")                                                                \
    X(OUT_OF_MEMORY, "out of memory")

typedef enum PlumbStatus {
#define X(name, text) PLUMB_##name,
    PLUMB_STATUS_LIST(X)
#undef X
        PLUMB_STATUS_COUNT
} PlumbStatus;

enum { PLUMB_FIELD_SIZE = 96, PLUMB_MESSAGE_SIZE = 512 };

/* Owned by the caller; filled only by a call that fails. line and column count from 1, 0 means
 * that the input has none. message says which value was met, what is allowed and what to do. */
typedef struct PlumbError {
    PlumbStatus status;
    int line;
    int column;
    char field[PLUMB_FIELD_SIZE];
    char message[PLUMB_MESSAGE_SIZE];
} PlumbError;

/* The status in words, a static string; "unknown status" for a value outside the list. */
const char *plumb_status_text(PlumbStatus status);

/* Fills *error (may be NULL) with status, field and message, no place, and returns status. field
 * and message are cut at a character boundary where they do not fit. */
PlumbStatus plumb_error_set(PlumbError *error, PlumbStatus status, const char *field,
                            const char *message);

#endif
