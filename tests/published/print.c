/* SPDX-License-Identifier: MIT */
/* Prints the table of published results in markdown, or puts it between the markers of a document:
 *   published DATA_DIRECTORY [DOCUMENT] */
#include "published/published.h"

#include <stdio.h>
#include <string.h>

enum { DOCUMENT_MAX = 1 << 20 };

/* Rewrites the document with text between its markers; what is wrong, or NULL. */
static const char *put_between(const char *path, const char *text)
{
    static char document[DOCUMENT_MAX];
    FILE *in = fopen(path, "rb");
    if (in == NULL) {
        return "cannot be opened";
    }
    const size_t length = fread(document, 1, sizeof document - 1, in);
    fclose(in);
    document[length] = '\0';
    char *begin = strstr(document, PUBLISHED_BEGIN);
    const char *end = begin == NULL ? NULL : strstr(begin, PUBLISHED_END);
    if (end == NULL || length == sizeof document - 1) {
        return "lacks the markers of the table";
    }
    begin += strlen(PUBLISHED_BEGIN);
    FILE *out = fopen(path, "wb");
    if (out == NULL) {
        return "cannot be written";
    }
    fwrite(document, 1, (size_t)(begin - document), out);
    fputs(text, out);
    fputs(end, out);
    return fclose(out) == 0 ? NULL : "cannot be written";
}

int main(int argc, char **argv)
{
    static PublishedRow row[PUBLISHED_MAX];
    static char buffer[PUBLISHED_TABLE];
    if (argc != 2 && argc != 3) {
        fputs("usage: published DATA_DIRECTORY [DOCUMENT]\n", stderr);
        return 2;
    }
    const int count = published_compute(argv[1], row);
    PlumbText text = plumb_text_begin(buffer, sizeof buffer);
    published_write(row, count, &text);
    if (argc == 3) {
        const char *wrong = put_between(argv[2], buffer);
        if (wrong != NULL) {
            fprintf(stderr, "%s: %s\n", argv[2], wrong);
        }
        return wrong == NULL && !text.cut ? 0 : 1;
    }
    return fputs(buffer, stdout) < 0 || text.cut ? 1 : 0;
}
