/* SPDX-License-Identifier: MIT */
/* Runs a fuzzing program's function over every file of a folder: the corpus as a normal test.
 * Use: <program> FOLDER */
#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { BYTES_MAX = 1 << 21, PATH_SIZE = 1024 };

int main(int argc, char **argv)
{
    DIR *folder = argc == 2 ? opendir(argv[1]) : NULL;
    uint8_t *bytes = malloc(BYTES_MAX);
    if (folder == NULL || bytes == NULL) {
        fprintf(stderr, "use: %s FOLDER\n", argv[0]);
        return 2;
    }
    int count = 0;
    for (const struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (entry->d_name[0] == '.') {
            continue;
        }
        char path[PATH_SIZE];
        snprintf(path, sizeof path, "%.500s/%.500s", argv[1], entry->d_name);
        FILE *file = fopen(path, "rb");
        if (file == NULL) {
            fprintf(stderr, "%s: cannot be read\n", path);
            return 1;
        }
        const size_t size = fread(bytes, 1, BYTES_MAX, file);
        fclose(file);
        printf("%s\n", path);
        fflush(stdout); /* so that the last name printed is the culprit's */
        LLVMFuzzerTestOneInput(bytes, size);
        count++;
    }
    closedir(folder);
    free(bytes);
    printf("%d inputs\n", count);
    return count > 0 ? 0 : 1;
}
