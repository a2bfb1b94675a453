/* SPDX-License-Identifier: MIT */
/* Finds the row that a figure comes from. */
#include <plumbar/sources.h>

#include <string.h>

const PlumbSourceRow *plumb_source_find(const char *file, const char *key)
{
    for (int i = 0; i < plumb_source_row_count(); i++) {
        const PlumbSourceRow *row = plumb_source_row(i);
        if (strcmp(row->file, file) == 0 && strcmp(row->key, key) == 0) {
            return row;
        }
    }
    return NULL;
}
