/* SPDX-License-Identifier: MIT */
/* A folder of a test's own, made before it and removed with all files in it afterwards. Needs
 * _XOPEN_SOURCE 700. */
#ifndef PLUMBAR_TESTS_FOLDER_H
#define PLUMBAR_TESTS_FOLDER_H

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { PATH_SIZE = 400 };

static char folder[PATH_SIZE];

/* Path of a file in the folder; the last four stay valid. */
static inline const char *in_folder(const char *name)
{
    static char path[4][2 * PATH_SIZE];
    static int turn;
    turn = (turn + 1) % 4;
    snprintf(path[turn], sizeof path[turn], "%s/%s", folder, name);
    return path[turn];
}

/* Runs a line of a shell; its exit code (-1: none), what it says in text[size]. */
static inline int run_line(const char *line, char *text, size_t size)
{
    FILE *const pipe = popen(line, "r");
    if (pipe == NULL) {
        return -1;
    }
    text[fread(text, 1, size - 1, pipe)] = '\0';
    const int status = pclose(pipe);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static inline int make_folder(void **unused)
{
    (void)unused;
    const char *const base = getenv("TMPDIR");
    snprintf(folder, sizeof folder, "%s/plumbar-test-XXXXXX", base == NULL ? "/tmp" : base);
    return mkdtemp(folder) == NULL ? 1 : 0;
}

static inline int remove_folder(void **unused)
{
    (void)unused;
    DIR *const directory = opendir(folder);
    if (directory == NULL) {
        return 1;
    }
    for (struct dirent *entry = readdir(directory); entry != NULL; entry = readdir(directory)) {
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
            remove(in_folder(entry->d_name));
        }
    }
    closedir(directory);
    return rmdir(folder);
}

#endif
