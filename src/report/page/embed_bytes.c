/* SPDX-License-Identifier: MIT */
/* Turns files into constant bytes of the library. Use: embed_bytes OUT.c NAME=FILE.. */
#include <stdio.h>
#include <string.h>

static int embed(FILE *out, const char *name, size_t length, const char *path)
{
    FILE *const in = fopen(path, "rb");
    if (in == NULL) {
        perror(path);
        return 1;
    }
    size_t count = 0;
    fprintf(out, "const unsigned char plumb_embedded_%.*s[] = {", (int)length, name);
    for (int c = getc(in); c != EOF; c = getc(in)) {
        fprintf(out, "%s%d,", count % 24 == 0 ? "\n" : "", c);
        count++;
    }
    fclose(in);
    fprintf(out, "0};\nconst size_t plumb_embedded_%.*s_size = %zu;\n\n", (int)length, name, count);
    return 0;
}

int main(int argc, char **argv)
{
    FILE *const out = argc > 1 ? fopen(argv[1], "wb") : NULL;
    if (out == NULL) {
        fputs("usage: embed_bytes OUT.c NAME=FILE..\n", stderr);
        return 2;
    }
    fputs("/* Made by embed_bytes. */\n#include \"report/embedded.h\"\n\n", out);
    int failed = 0;
    for (int i = 2; i < argc && failed == 0; i++) {
        const char *const equals = strchr(argv[i], '=');
        failed = equals == NULL || embed(out, argv[i], (size_t)(equals - argv[i]), equals + 1);
    }
    return fclose(out) != 0 || failed != 0;
}
