/* SPDX-License-Identifier: MIT */
/* Whole files: reading with a bound, and writing that replaces whole or leaves as it was. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "folder.h"

#include <plumbar/file.h>
#include <plumbar/lifter_file.h>

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static int entry_count(void)
{
    DIR *const directory = opendir(folder);
    assert_non_null(directory);
    int count = 0;
    while (readdir(directory) != NULL) {
        count++;
    }
    closedir(directory);
    return count - 2; /* . and .. */
}

static void put(const char *path, const char *text)
{
    PlumbError error = {.status = PLUMB_OK};
    if (plumb_file_write_atomic(path, text, strlen(text), &error) != PLUMB_OK) {
        fail_msg("%s", error.message);
    }
}

static void assert_holds(const char *path, const char *text)
{
    char *bytes = NULL;
    size_t length = 0;
    PlumbError error = {.status = PLUMB_OK};
    if (plumb_file_read_whole(path, 1 << 20, &bytes, &length, &error) != PLUMB_OK) {
        fail_msg("%s", error.message);
    }
    assert_int_equal(length, strlen(text));
    assert_string_equal(bytes, text);
    free(bytes);
}

static void read__has_a_bound(void **unused)
{
    (void)unused;
    char *bytes = NULL;
    size_t length = 0;
    PlumbError error;
    const char *const path = in_folder("bound");
    put(path, "12345");
    assert_int_equal(plumb_file_read_whole(path, 4, &bytes, &length, &error), PLUMB_TOO_LARGE);
    assert_null(bytes);
    assert_int_equal(plumb_file_read_whole(path, 5, &bytes, &length, &error), PLUMB_OK);
    assert_int_equal(length, 5);
    assert_string_equal(bytes, "12345");
    free(bytes);
    bytes = NULL;
    assert_int_equal(plumb_file_read_whole(in_folder("none"), 5, &bytes, &length, &error),
                     PLUMB_READ_FAILED);
    assert_non_null(strstr(error.message, "No such file"));
    assert_int_equal(plumb_file_read_whole(folder, 5, &bytes, &length, &error), PLUMB_READ_FAILED);
    assert_non_null(strstr(error.message, "is a directory"));
    assert_null(bytes);
    unlink(path);
}

static void read__grows_with_the_file(void **unused)
{
    (void)unused;
    const size_t size = 300001;
    char *const large = malloc(size + 1);
    assert_non_null(large);
    for (size_t i = 0; i < size; i++) {
        large[i] = (char)('a' + i % 26);
    }
    large[size] = '\0';
    const char *const path = in_folder("large");
    put(path, large);
    assert_holds(path, large);
    free(large);
    unlink(path);
}

static void write__makes_and_replaces(void **unused)
{
    (void)unused;
    const char *const path = in_folder("file");
    put(path, "one");
    assert_holds(path, "one");
    assert_int_equal(chmod(path, 0640), 0);
    put(path, "second");
    assert_holds(path, "second");
    put(path, "");
    assert_holds(path, "");
    struct stat about;
    assert_int_equal(stat(path, &about), 0);
    assert_int_equal(about.st_mode & 0777, 0640);
    assert_int_equal(entry_count(), 1);
    unlink(path);
}

static void write__goes_through_links(void **unused)
{
    (void)unused;
    const char *const path = in_folder("target");
    const char *const link = in_folder("link");
    put(path, "one");
    assert_int_equal(symlink("target", link), 0);
    put(link, "two");
    assert_holds(path, "two");
    struct stat about;
    assert_int_equal(lstat(link, &about), 0);
    assert_true(S_ISLNK(about.st_mode));
    unlink(path);
    PlumbError error;
    assert_int_equal(plumb_file_write_atomic(link, "x", 1, &error), PLUMB_WRITE_FAILED);
    assert_non_null(strstr(error.message, "leads nowhere"));
    unlink(link);
}

static void write__says_why_it_cannot(void **unused)
{
    (void)unused;
    PlumbError error;
    const char *const path = in_folder("plain");
    put(path, "kept");
    assert_int_equal(plumb_file_write_atomic(folder, "x", 1, &error), PLUMB_WRITE_FAILED);
    assert_non_null(strstr(error.message, "is a directory"));
    assert_int_equal(plumb_file_write_atomic(in_folder("no/such"), "x", 1, &error),
                     PLUMB_WRITE_FAILED);
    assert_non_null(strstr(error.message, "No such file"));
    assert_int_equal(plumb_file_write_atomic(in_folder("plain/x"), "x", 1, &error),
                     PLUMB_WRITE_FAILED);
    assert_int_equal(plumb_file_write_atomic("", "x", 1, &error), PLUMB_WRITE_FAILED);
    assert_holds(path, "kept");
    assert_int_equal(entry_count(), 1);
    unlink(path);
}

/* The superuser may write anywhere, so permission is tried only as somebody else. */
static void write__respects_permission(void **unused)
{
    (void)unused;
    if (geteuid() == 0) {
        skip();
    }
    PlumbError error;
    const char *const path = in_folder("plain");
    put(path, "kept");
    assert_int_equal(chmod(path, 0440), 0);
    assert_int_equal(plumb_file_write_atomic(path, "x", 1, &error), PLUMB_WRITE_FAILED);
    assert_int_equal(chmod(path, 0640), 0);
    assert_int_equal(chmod(folder, 0500), 0);
    assert_int_equal(plumb_file_write_atomic(path, "x", 1, &error), PLUMB_WRITE_FAILED);
    assert_int_equal(chmod(folder, 0700), 0);
    assert_holds(path, "kept");
    unlink(path);
}

/* A disc that fills up half way: files of this process may not grow beyond 100 bytes. */
static void write__that_breaks_off_leaves_the_old_file(void **unused)
{
    (void)unused;
    const char *const path = in_folder("old");
    put(path, "old content");
    struct rlimit before;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    const struct rlimit small = {100, before.rlim_max};
    void (*const handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    char text[5000];
    memset(text, 'x', sizeof text);
    PlumbError error = {.status = PLUMB_OK};
    const PlumbStatus status = plumb_file_write_atomic(path, text, sizeof text, &error);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    signal(SIGXFSZ, handler);
    assert_int_equal(status, PLUMB_WRITE_FAILED);
    assert_non_null(strstr(error.message, "File too large"));
    assert_holds(path, "old content");
    assert_int_equal(entry_count(), 1);
    unlink(path);
}

static void write__to_devices_in_place(void **unused)
{
    (void)unused;
    PlumbError error = {.status = PLUMB_OK};
    assert_int_equal(plumb_file_write_atomic("/dev/null", "x", 1, &error), PLUMB_OK);
    struct stat about;
    assert_int_equal(stat("/dev/null", &about), 0);
    assert_true(S_ISCHR(about.st_mode));
    assert_int_equal(plumb_file_write_atomic("/dev/full", "x", 1, &error), PLUMB_WRITE_FAILED);
    assert_non_null(strstr(error.message, "No space left"));
}

static void lifter_file__saves_what_was_changed(void **unused)
{
    (void)unused;
    const char *const path = in_folder("lifter.yaml");
    PlumbLifterFile *file = NULL;
    PlumbError error = {.status = PLUMB_OK};
    put(path, "# é\r\nlifter: {sex: male, stature: 178 cm, mass: 85 kg} # x\t");
    assert_int_equal(plumb_lifter_file_read(path, &file, &error), PLUMB_OK);
    assert_int_equal(plumb_lifter_file_set(file, "lifter", "mass", "90 kg", &error), PLUMB_OK);
    assert_true(file->changed);
    assert_int_equal(plumb_lifter_file_save(file, NULL, &error), PLUMB_OK);
    assert_false(file->changed);
    assert_holds(path, "# é\r\nlifter: {sex: male, stature: 178 cm, mass: 90 kg} # x\t");
    assert_int_equal(plumb_lifter_file_save(file, in_folder("no/such"), &error),
                     PLUMB_WRITE_FAILED);
    plumb_lifter_file_free(file);
    file = NULL;
    assert_int_equal(plumb_lifter_file_read(in_folder("none"), &file, &error), PLUMB_READ_FAILED);
    assert_null(file);
    unlink(path);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(read__has_a_bound),
        cmocka_unit_test(read__grows_with_the_file),
        cmocka_unit_test(write__makes_and_replaces),
        cmocka_unit_test(write__goes_through_links),
        cmocka_unit_test(write__says_why_it_cannot),
        cmocka_unit_test(write__respects_permission),
        cmocka_unit_test(write__that_breaks_off_leaves_the_old_file),
        cmocka_unit_test(write__to_devices_in_place),
        cmocka_unit_test(lifter_file__saves_what_was_changed),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
