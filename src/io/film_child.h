/* SPDX-License-Identifier: MIT */
/* The process that unpacks a video: started, spoken to with a limit of patience, ended. */
#ifndef PLUMB_IO_FILM_CHILD_H
#define PLUMB_IO_FILM_CHILD_H

#include "io/film_wire.h"

#include <stdbool.h>
#include <sys/types.h>

typedef struct FilmChild {
    pid_t pid;  /* 0: ended */
    int socket; /* -1: closed */
    double silence_max_s;
    const char *end; /* why it ended, a static string; NULL while it runs */
} FilmChild;

/* Starts program with the open file film (which stays the caller's). 0, or an errno. */
int plumb_film_child_start(const char *program, int film, double silence_max_s, FilmChild *child);

/* Both false once the process has ended, or gave no sign for too long and was ended. */
bool plumb_film_child_send(FilmChild *child, const void *bytes, size_t length);
bool plumb_film_child_read(FilmChild *child, void *bytes, size_t length);

/* Ends the process; why: NULL, or what to note as the reason. */
void plumb_film_child_stop(FilmChild *child, const char *why);

/* Whether a process may be started from path. */
bool plumb_film_child_found(const char *path);

#endif
