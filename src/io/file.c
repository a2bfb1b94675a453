/* SPDX-License-Identifier: MIT */
/* Bounded reading of whole files, and writing that replaces a file whole or not at all. */
#define _XOPEN_SOURCE 700
#include <plumbar/file.h>

#include <plumbar/format.h>

#include "io/fail.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH_SIZE = 4200, TRIES = 100 };

/* Reads until the end or until one byte more than max_bytes. */
static PlumbStatus read_all(int from, const char *path, size_t max_bytes, char **bytes,
                            size_t *length, PlumbError *error)
{
    size_t room = max_bytes < 65536 ? max_bytes + 2 : 65536;
    size_t have = 0;
    char *data = malloc(room);
    while (data != NULL) {
        const ssize_t got = read(from, data + have, room - 1 - have);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            const int reason = errno;
            free(data);
            return plumb_file_fail(error, PLUMB_READ_FAILED, path, "could not be read", reason);
        }
        have += (size_t)got;
        if (have > max_bytes) {
            free(data);
            return plumb_file_fail(error, PLUMB_TOO_LARGE, path, "too large to be such a file", 0);
        }
        if (got == 0) {
            data[have] = '\0';
            *bytes = data;
            *length = have;
            return PLUMB_OK;
        }
        if (have + 1 == room) {
            char *const more = realloc(data, room * 2);
            if (more == NULL) {
                free(data);
            }
            room *= 2;
            data = more;
        }
    }
    return plumb_file_no_memory(error, path);
}

PlumbStatus plumb_file_read_whole(const char *path, size_t max_bytes, char **bytes, size_t *length,
                                  PlumbError *error)
{
    const int from = open(path, O_RDONLY | O_CLOEXEC);
    if (from < 0) {
        const int reason = errno;
        return plumb_file_fail(error, PLUMB_READ_FAILED, path, "could not be opened", reason);
    }
    struct stat about;
    PlumbStatus status = PLUMB_OK;
    if (fstat(from, &about) == 0 && S_ISDIR(about.st_mode)) {
        status =
            plumb_file_fail(error, PLUMB_READ_FAILED, path, "is a directory; a file is needed", 0);
    } else {
        status = read_all(from, path, max_bytes, bytes, length, error);
    }
    close(from);
    return status;
}

/* Writes all bytes; returns 0, or the reason. */
static int write_all(int to, const char *bytes, size_t length)
{
    size_t done = 0;
    while (done < length) {
        const ssize_t put = write(to, bytes + done, length - done);
        if (put < 0 && errno == EINTR) {
            continue;
        }
        if (put < 0) {
            return errno;
        }
        done += (size_t)put;
    }
    return 0;
}

/* A device or a pipe cannot be replaced: it is written to. */
static PlumbStatus write_in_place(const char *path, const char *bytes, size_t length,
                                  PlumbError *error)
{
    const int to = open(path, O_WRONLY | O_CLOEXEC);
    int reason = to < 0 ? errno : write_all(to, bytes, length);
    if (to >= 0 && close(to) != 0 && reason == 0) {
        reason = errno;
    }
    return reason == 0
               ? PLUMB_OK
               : plumb_file_fail(error, PLUMB_WRITE_FAILED, path, "could not be written", reason);
}

/* Length of the directory part with its slash, 0 for none. */
static size_t directory_length(const char *path)
{
    const char *const slash = strrchr(path, '/');
    return slash == NULL ? 0 : (size_t)(slash - path) + 1;
}

/* Creates a new file beside `path`; writes its name; returns the descriptor, -1 and errno. */
static int create_beside(const char *path, char name[PATH_SIZE])
{
    for (int i = 0; i < TRIES; i++) {
        PlumbText text = plumb_text_begin(name, PATH_SIZE);
        plumb_text_bytes(&text, path, directory_length(path));
        plumb_text_string(&text, ".plumbar-");
        plumb_text_integer(&text, (long long)getpid());
        plumb_text_char(&text, '-');
        plumb_text_integer(&text, i);
        plumb_text_string(&text, ".tmp");
        if (text.cut) {
            errno = ENAMETOOLONG;
            return -1;
        }
        const int to = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (to >= 0 || errno != EEXIST) {
            return to;
        }
    }
    return -1;
}

/* Gives the new file the owner and mode of the old one. Another owner is tried only: a file that
 * someone may write but does not own becomes theirs. */
static int take_mode(int to, const struct stat *old)
{
    if (old == NULL) {
        return 0;
    }
    struct stat now;
    if (fstat(to, &now) == 0 && (now.st_uid != old->st_uid || now.st_gid != old->st_gid)) {
        const int ignored = fchown(to, old->st_uid, old->st_gid);
        (void)ignored;
    }
    return fchmod(to, old->st_mode & 07777) == 0 ? 0 : errno;
}

/* The rename itself is on disk once the directory is; where that cannot be asked for, it is left
 * to the system. */
static void sync_directory(const char *path)
{
    char name[PATH_SIZE];
    PlumbText text = plumb_text_begin(name, sizeof name);
    const size_t length = directory_length(path);
    plumb_text_bytes(&text, length == 0 ? "." : path, length == 0 ? 1 : length);
    const int directory = open(name, O_RDONLY | O_CLOEXEC);
    if (directory >= 0) {
        (void)fsync(directory);
        close(directory);
    }
}

static PlumbStatus replace(const char *path, const struct stat *old, const char *bytes,
                           size_t length, PlumbError *error)
{
    char name[PATH_SIZE];
    const int to = create_beside(path, name);
    if (to < 0) {
        const int cause = errno;
        return plumb_file_fail(error, PLUMB_WRITE_FAILED, path, "no new file can be made beside it",
                               cause);
    }
    int reason = take_mode(to, old);
    if (reason == 0) {
        reason = write_all(to, bytes, length);
    }
    if (reason == 0 && fsync(to) != 0) {
        reason = errno;
    }
    if (close(to) != 0 && reason == 0) {
        reason = errno;
    }
    if (reason == 0 && rename(name, path) != 0) {
        reason = errno;
    }
    if (reason != 0) {
        unlink(name);
        return plumb_file_fail(error, PLUMB_WRITE_FAILED, path, "could not be written", reason);
    }
    sync_directory(path);
    return PLUMB_OK;
}

static PlumbStatus write_to_target(const char *path, const char *bytes, size_t length,
                                   PlumbError *error)
{
    struct stat old;
    if (stat(path, &old) != 0) {
        const int reason = errno;
        return reason == ENOENT ? replace(path, NULL, bytes, length, error)
                                : plumb_file_fail(error, PLUMB_WRITE_FAILED, path,
                                                  "could not be written", reason);
    }
    if (S_ISDIR(old.st_mode)) {
        return plumb_file_fail(error, PLUMB_WRITE_FAILED, path, "is a directory; name a file", 0);
    }
    if (!S_ISREG(old.st_mode)) {
        return write_in_place(path, bytes, length, error);
    }
    if (access(path, W_OK) != 0) {
        const int reason = errno;
        return plumb_file_fail(error, PLUMB_WRITE_FAILED, path, "may not be changed", reason);
    }
    return replace(path, &old, bytes, length, error);
}

PlumbStatus plumb_file_write_atomic(const char *path, const char *bytes, size_t length,
                                    PlumbError *error)
{
    struct stat link;
    if (lstat(path, &link) != 0 || !S_ISLNK(link.st_mode)) {
        return write_to_target(path, bytes, length, error);
    }
    char *const target = realpath(path, NULL);
    if (target == NULL) {
        const int reason = errno;
        return plumb_file_fail(error, PLUMB_WRITE_FAILED, path, "is a link that leads nowhere",
                               reason);
    }
    /* Links of the system, such as /dev/stdout, may lead to what has no name. */
    struct stat about;
    const bool named = stat(target, &about) == 0;
    const PlumbStatus status = write_to_target(named ? target : path, bytes, length, error);
    free(target);
    return status;
}
