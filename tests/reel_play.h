/* SPDX-License-Identifier: MIT */
/* Scripts played in the window on a film, and what its state lines say. Needs _XOPEN_SOURCE 700. */
#ifndef PLUMBAR_TESTS_REEL_PLAY_H
#define PLUMBAR_TESTS_REEL_PLAY_H

#include "folder.h"

enum { OUTPUT_SIZE = 1 << 17 };

static char output[OUTPUT_SIZE];
static char marks_path[2 * PATH_SIZE]; /* beside the folder */

static inline int mark_beside(int failed)
{
    snprintf(marks_path, sizeof marks_path, "%s.csv", folder);
    return failed;
}

static inline int make_marked(void **state)
{
    return mark_beside(make_folder(state));
}

static inline int clear_marked(void **state)
{
    remove(marks_path);
    return remove_folder(state);
}

/* The state line called name. */
static inline const char *state_of(const char *name)
{
    static char state[4200];
    char mark[80];
    snprintf(mark, sizeof mark, "\nat %s\n", name);
    const char *const found = strstr(output, mark);
    if (found == NULL) {
        fail_msg("no state called %s", name);
    }
    const char *const from = found + strlen(mark);
    snprintf(state, sizeof state, "%.*s ", (int)strcspn(from, "\n"), from);
    return state;
}

static inline void assert_state(const char *name, const char *pair)
{
    const char *const state = state_of(name);
    char wanted[128];
    snprintf(wanted, sizeof wanted, " %s ", pair);
    if (strstr(state, wanted) == NULL) {
        fail_msg("%s: \"%s\" is not in: %s", name, pair, state);
    }
}

static inline double number_in(const char *name, const char *key)
{
    char wanted[80];
    snprintf(wanted, sizeof wanted, " %s=", key);
    const char *const found = strstr(state_of(name), wanted);
    assert_non_null(found);
    return strtod(found + strlen(wanted), NULL);
}

/* Plays a script on a film of a lift, beside which its marks stand. */
static inline void play_film(const char *film, const char *of, const char *script)
{
    char line[6 * PATH_SIZE];
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    FILE *const file = fopen(in_folder("script.txt"), "w");
    assert_non_null(file);
    fputs(script, file);
    fclose(file);
    snprintf(line, sizeof line,
             "cd %s && SDL_VIDEODRIVER=dummy '%s' view %s %s sex=female stature=168cm mass=66kg "
             "--script script.txt --date 2026-01-02 2>&1",
             folder, PLUMB_PROGRAM, film, of);
    if (run_line(line, output, sizeof output) != 0) {
        fail_msg("%s", output);
    }
}

/* The same on the folder of frames, whose rate it is asked for first. */
static inline void play_folder(const char *of, const char *script)
{
    char path[PATH_SIZE + 2];
    snprintf(path, sizeof path, "%s/", folder);
    play_film(path, of, script);
}

#endif
