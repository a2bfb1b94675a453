/* SPDX-License-Identifier: MIT */
/* Paths taken apart and put together, and sentences about a file. */
#include "path.h"

#include <string.h>
#include <strings.h>

bool plumb_path_ends(const char *path, const char *ending)
{
    const size_t length = strlen(path);
    const size_t tail = strlen(ending);
    return length > tail && strcasecmp(path + length - tail, ending) == 0;
}

const char *plumb_path_base(const char *path)
{
    const char *const slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}

bool plumb_path_put(char path[PLUMB_PATH_SIZE], const char *stem, size_t length, const char *ending)
{
    PlumbText text = plumb_text_begin(path, PLUMB_PATH_SIZE);
    plumb_text_bytes(&text, stem, length);
    plumb_text_string(&text, ending);
    return !text.cut;
}

void plumb_path_say(PlumbDesk *desk, bool wrong, const char *first, const char *path,
                    const char *rest)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, first);
    plumb_text_string(&text, path);
    plumb_text_string(&text, rest);
    plumb_desk_say(desk, wrong, words);
}

void plumb_path_say_error(PlumbDesk *desk, const char *first, const char *path,
                          const PlumbError *error)
{
    char words[PLUMB_MESSAGE_SIZE + PLUMB_FIELD_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (error->line > 0) {
        plumb_text_char(&text, ':');
        plumb_text_integer(&text, error->line);
    }
    plumb_text_string(&text, ": ");
    plumb_text_string(&text, error->message);
    plumb_path_say(desk, true, first, path, words);
}
