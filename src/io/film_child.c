/* SPDX-License-Identifier: MIT */
/* The process that unpacks a video. It gets one socket and the open film, no environment and no
 * other file; its own limits it sets itself, before it reads anything. */
#include "io/film_child.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { FREE_FROM = 10 }; /* descriptors below are given away in the child */

bool plumb_film_child_found(const char *path)
{
    return access(path, X_OK) == 0;
}

/* A copy out of the way of those that the child receives, closed when a program is started. */
static int out_of_the_way(int descriptor)
{
    return fcntl(descriptor, F_DUPFD_CLOEXEC, FREE_FROM);
}

static int spawn(const char *program, int socket, int film, pid_t *pid)
{
    posix_spawn_file_actions_t actions;
    int reason = posix_spawn_file_actions_init(&actions);
    if (reason != 0) {
        return reason;
    }
    reason = posix_spawn_file_actions_adddup2(&actions, socket, FILM_SOCKET);
    if (reason == 0) {
        reason = posix_spawn_file_actions_adddup2(&actions, film, FILM_FILE);
    }
    for (int i = 1; i <= 2 && reason == 0; i++) {
        reason = posix_spawn_file_actions_addopen(&actions, i, "/dev/null", O_WRONLY, 0);
    }
    char name[] = "plumbar-film";
    char *arguments[] = {name, NULL};
    char *nothing[] = {NULL};
    if (reason == 0) {
        reason = posix_spawn(pid, program, &actions, NULL, arguments, nothing);
    }
    posix_spawn_file_actions_destroy(&actions);
    return reason;
}

int plumb_film_child_start(const char *program, int film, double silence_max_s, FilmChild *child)
{
    int pair[2];
    if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, pair) != 0) {
        return errno;
    }
    const int theirs = out_of_the_way(pair[1]);
    const int copy = out_of_the_way(film);
    pid_t pid = 0;
    const int reason = theirs < 0 || copy < 0 ? EMFILE : spawn(program, theirs, copy, &pid);
    close(pair[1]);
    if (theirs >= 0) {
        close(theirs);
    }
    if (copy >= 0) {
        close(copy);
    }
    if (reason != 0) {
        close(pair[0]);
        return reason;
    }
    *child = (FilmChild){pid, pair[0], silence_max_s, NULL};
    return 0;
}

static const char *end_words(int status)
{
    if (WIFSIGNALED(status)) {
        const int signal = WTERMSIG(status);
        return signal == SIGXCPU || signal == SIGKILL
                   ? "its reader took more time than it may; the film is damaged or too long: cut "
                     "it to the lift"
                   : "its reader broke off; the film is damaged";
    }
    return WEXITSTATUS(status) == 127
               ? "its reader could not be started; the FFmpeg libraries that it was built with are "
                 "not installed"
               : "its reader ended early; the film is damaged or needs too much memory";
}

void plumb_film_child_stop(FilmChild *child, const char *why)
{
    if (child->socket >= 0) {
        close(child->socket);
        child->socket = -1;
    }
    if (child->pid == 0) {
        return;
    }
    int status = 0;
    /* Where it ended by itself the kill does nothing, and its own reason is what is read. */
    kill(child->pid, SIGKILL);
    while (waitpid(child->pid, &status, 0) < 0 && errno == EINTR) {
    }
    child->pid = 0;
    child->end = why != NULL ? why : end_words(status);
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Waits until the socket is ready; ends the process where it is not in time. */
static bool wait_ready(FilmChild *child, short event, double until_s)
{
    for (;;) {
        const double left_s = fmax(until_s - now_s(), 0.0);
        struct pollfd ask = {child->socket, event, 0};
        const int ready = poll(&ask, 1, (int)ceil(1000.0 * left_s));
        if (ready > 0) {
            return true;
        }
        if (ready == 0) {
            plumb_film_child_stop(child, "its reader gave no sign for too long and was ended; the "
                                         "film is damaged");
            return false;
        }
        if (errno != EINTR) {
            plumb_film_child_stop(child, NULL);
            return false;
        }
    }
}

bool plumb_film_child_send(FilmChild *child, const void *bytes, size_t length)
{
    const char *from = bytes;
    const double until_s = now_s() + child->silence_max_s;
    while (length > 0) {
        if (child->socket < 0 || !wait_ready(child, POLLOUT, until_s)) {
            return false;
        }
        const ssize_t put = send(child->socket, from, length, MSG_NOSIGNAL | MSG_DONTWAIT);
        if (put < 0 && errno != EINTR && errno != EAGAIN) {
            plumb_film_child_stop(child, NULL);
            return false;
        }
        from += put > 0 ? put : 0;
        length -= put > 0 ? (size_t)put : 0;
    }
    return true;
}

bool plumb_film_child_read(FilmChild *child, void *bytes, size_t length)
{
    char *to = bytes;
    const double until_s = now_s() + child->silence_max_s;
    while (length > 0) {
        if (child->socket < 0 || !wait_ready(child, POLLIN, until_s)) {
            return false;
        }
        const ssize_t got = recv(child->socket, to, length, MSG_DONTWAIT);
        if (got == 0 || (got < 0 && errno != EINTR && errno != EAGAIN)) {
            plumb_film_child_stop(child, NULL);
            return false;
        }
        to += got > 0 ? got : 0;
        length -= got > 0 ? (size_t)got : 0;
    }
    return true;
}
