/* SPDX-License-Identifier: MIT */
/* Turns files into constant bytes of the library; NAME%=FILE packs them first (zlib).
 * Use: embed_bytes OUT.c NAME=FILE.. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

typedef struct Bytes {
    unsigned char *data;
    size_t length;
} Bytes;

static int read_file(const char *path, Bytes *bytes)
{
    FILE *const in = fopen(path, "rb");
    if (in == NULL) {
        perror(path);
        return 1;
    }
    size_t capacity = 0;
    for (int c = getc(in); c != EOF; c = getc(in)) {
        if (bytes->length == capacity) {
            capacity = capacity == 0 ? 65536 : 2 * capacity;
            unsigned char *const grown = realloc(bytes->data, capacity);
            if (grown == NULL) {
                fclose(in);
                return 1;
            }
            bytes->data = grown;
        }
        bytes->data[bytes->length++] = (unsigned char)c;
    }
    return fclose(in) != 0;
}

static int pack(Bytes *bytes)
{
    uLongf length = compressBound(bytes->length);
    unsigned char *const packed = malloc(length);
    if (packed == NULL || compress2(packed, &length, bytes->data, bytes->length, 9) != Z_OK) {
        free(packed);
        return 1;
    }
    free(bytes->data);
    *bytes = (Bytes){packed, length};
    return 0;
}

/* One NUL follows the bytes and is not counted. */
static int embed(FILE *out, const char *name, size_t length, const char *path)
{
    Bytes bytes = {NULL, 0};
    const int packs = length > 0 && name[length - 1] == '%';
    length -= (size_t)packs;
    if (read_file(path, &bytes) != 0 || (packs && bytes.length > 0 && pack(&bytes) != 0)) {
        free(bytes.data);
        return 1;
    }
    fprintf(out, "const unsigned char plumb_embedded_%.*s[] = {", (int)length, name);
    for (size_t i = 0; i < bytes.length; i++) {
        fprintf(out, "%s%d,", i % 24 == 0 ? "\n" : "", bytes.data[i]);
    }
    fprintf(out, "0};\nconst size_t plumb_embedded_%.*s_size = %zu;\n\n", (int)length, name,
            bytes.length);
    free(bytes.data);
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
