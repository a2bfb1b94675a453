/* SPDX-License-Identifier: MIT */
/* Writes the advances of the drawings' typeface as C. Use: embed_advances OUT.c */
#include "report/advance.h"

#include <plumbar/draw.h>

#include <math.h>
#include <stdio.h>

static size_t utf8(unsigned code, char bytes[4])
{
    if (code < 0x80) {
        bytes[0] = (char)code;
        return 1;
    }
    if (code < 0x800) {
        bytes[0] = (char)(0xc0 | code >> 6);
        bytes[1] = (char)(0x80 | (code & 0x3f));
        return 2;
    }
    bytes[0] = (char)(0xe0 | code >> 12);
    bytes[1] = (char)(0x80 | (code >> 6 & 0x3f));
    bytes[2] = (char)(0x80 | (code & 0x3f));
    return 3;
}

int main(int argc, char **argv)
{
    static const PlumbAdvanceRun runs[] = PLUMB_ADVANCE_RUNS;
    FILE *const out = argc > 1 ? fopen(argv[1], "wb") : NULL;
    PlumbFont *const font = plumb_font_create();
    if (out == NULL || font == NULL) {
        fputs("usage: embed_advances OUT.c (and the typeface DejaVu Sans)\n", stderr);
        return 2;
    }
    fputs("/* Made by embed_advances from DejaVu Sans. */\n#include \"report/advance.h\"\n\n"
          "const unsigned short plumb_advance_table[] = {\n",
          out);
    for (size_t i = 0; i < sizeof runs / sizeof runs[0]; i++) {
        for (unsigned code = runs[i].first; code <= runs[i].last; code++) {
            char bytes[4];
            const size_t length = utf8(code, bytes);
            const double units = plumb_font_width(font, bytes, length, PLUMB_ADVANCE_EM);
            fprintf(out, "%ld,%s", lround(units), code % 16 == 15 ? "\n" : "");
        }
    }
    fputs("};\n", out);
    plumb_font_destroy(font);
    plumb_draw_finish();
    return fclose(out) != 0;
}
