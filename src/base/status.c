/* SPDX-License-Identifier: MIT */
/* Statuses in words, and the filling of errors. */
#include <plumbar/status.h>

#include <plumbar/format.h>

const char *plumb_status_text(PlumbStatus status)
{
    static const char *const text[PLUMB_STATUS_COUNT] = {
#define X(name, words) [PLUMB_##name] = words,
        PLUMB_STATUS_LIST(X)
#undef X
    };
    const unsigned index = (unsigned)status;
    return index < PLUMB_STATUS_COUNT ? text[index] : "unknown status";
}

PlumbStatus plumb_error_set(PlumbError *error, PlumbStatus status, const char *field,
                            const char *message)
{
    if (error != NULL) {
        /* A copy first: field and message may point into *error itself. */
        PlumbError filled = {.status = status};
        PlumbText field_text = plumb_text_begin(filled.field, sizeof filled.field);
        plumb_text_string(&field_text, field);
        PlumbText message_text = plumb_text_begin(filled.message, sizeof filled.message);
        plumb_text_string(&message_text, message);
        *error = filled;
    }
    return status;
}
