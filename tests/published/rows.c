/* SPDX-License-Identifier: MIT */
/* The table of published results as rows of C, for `plumbar sources`:
 * published_rows DATA_DIRECTORY OUT_FILE */
#include "published/published.h"

#include <stdio.h>
#include <string.h>

static void put_cell(FILE *out, const char *from, const char *to)
{
    fputc('"', out);
    for (const char *c = from; c < to; c++) {
        if (*c == '"' || *c == '\\') {
            fputc('\\', out);
        }
        if (*c != '*') { /* markdown's stress */
            fputc(*c, out);
        }
    }
    fputc('"', out);
}

/* "| a | b |" becomes {"a", "b"}. */
static void put_line(FILE *out, const char *line)
{
    fputs("    {", out);
    const char *at = line + 2;
    for (int i = 0; i < 7; i++) {
        const char *end = strstr(at, i < 6 ? " | " : " |\n");
        if (end == NULL) {
            break;
        }
        fputs(i > 0 ? ", " : "", out);
        put_cell(out, at, end);
        at = end + 3;
    }
    fputs("},\n", out);
}

static int print_c(const char *table, const char *path)
{
    FILE *out = fopen(path, "wb");
    if (out == NULL) {
        perror(path);
        return 1;
    }
    int rows = 0;
    fputs("/* SPDX-License-Identifier: MIT */\n/* Generated; do not edit. */\n"
          "#include \"published.h\"\n\nconst PlumbPublished plumb_published[] = {\n",
          out);
    for (const char *line = table; *line != '\0'; line = strchr(line, '\n') + 1) {
        rows++;
        if (rows > 2) {
            put_line(out, line);
        }
    }
    fprintf(out, "};\nconst int plumb_published_count = %d;\n", rows - 2);
    return ferror(out) != 0 || fclose(out) != 0 ? 1 : 0;
}

int main(int argc, char **argv)
{
    static PublishedRow row[PUBLISHED_MAX];
    static char buffer[PUBLISHED_TABLE];
    if (argc != 3) {
        fputs("usage: published_rows DATA_DIRECTORY OUT_FILE\n", stderr);
        return 2;
    }
    const int count = published_compute(argv[1], row);
    PlumbText text = plumb_text_begin(buffer, sizeof buffer);
    published_write(row, count, &text);
    if (text.cut) {
        fputs("published_rows: the table is too long\n", stderr);
        return 1;
    }
    return print_c(buffer, argv[2]);
}
