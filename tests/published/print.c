/* SPDX-License-Identifier: MIT */
/* Prints the table of published results in markdown:  published DATA_DIRECTORY  */
#include "published/published.h"

#include <stdio.h>

int main(int argc, char **argv)
{
    static PublishedRow row[PUBLISHED_MAX];
    static char buffer[PUBLISHED_TABLE];
    if (argc != 2) {
        fputs("usage: published DATA_DIRECTORY\n", stderr);
        return 2;
    }
    const int count = published_compute(argv[1], row);
    PlumbText text = plumb_text_begin(buffer, sizeof buffer);
    published_write(row, count, &text);
    return fputs(buffer, stdout) < 0 || text.cut ? 1 : 0;
}
