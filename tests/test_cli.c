/* SPDX-License-Identifier: MIT */
/* Command lines as data: every case of tests/cli/ is run in a shell, in a folder of its own, and
 * its output, its errors and its exit code are compared. tests/cli/README says how a case is
 * written. */
#include "support.h"

#include <jansson.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { CASES_MAX = 512, LINES_MAX = 24, LINE_SIZE = 2048, OUTPUT_MAX = 1 << 22, PATH_SIZE = 512 };

/* Where the text of a line begins, after its kind. */
enum { COLUMN = 6 };

/* One line of a case: what is expected, and the text. */
typedef struct Line {
    char kind[16];
    char text[LINE_SIZE];
} Line;

typedef struct Case {
    char name[160];
    Line line[LINES_MAX];
    int count;
} Case;

static char folder[] = "/tmp/plumbar-cli-XXXXXX";

/* The last line of this kind; NULL where there is none. */
static const char *find_line(const Case *one, const char *kind)
{
    for (int i = one->count - 1; i >= 0; i--) {
        if (strcmp(one->line[i].kind, kind) == 0) {
            return one->line[i].text;
        }
    }
    return NULL;
}

static char *read_output(const char *name)
{
    char *const text = calloc(1, OUTPUT_MAX);
    FILE *const file = fopen(name, "rb");
    assert_non_null(text);
    assert_non_null(file);
    const size_t length = fread(text, 1, OUTPUT_MAX - 1, file);
    fclose(file);
    /* Nothing the program prints holds a NUL, so that a shorter string would hide bytes. */
    assert_int_equal(strlen(text), length);
    return text;
}

static bool has_line(const char *text, const char *line)
{
    const size_t length = strlen(line);
    for (const char *at = strstr(text, line); at != NULL; at = strstr(at + 1, line)) {
        if ((at == text || at[-1] == '\n') && at[length] == '\n') {
            return true;
        }
    }
    return false;
}

/* The value at a dotted path, "0.pose.hip_height_m"; numbers count elements of arrays. */
static json_t *json_at(json_t *root, const char *path)
{
    json_t *value = root;
    char key[LINE_SIZE];
    while (value != NULL && *path != '\0') {
        const size_t length = strcspn(path, ".");
        memcpy(key, path, length);
        key[length] = '\0';
        path += length + (path[length] == '.');
        value = json_is_array(value) ? json_array_get(value, (size_t)strtoul(key, NULL, 10))
                                     : json_object_get(value, key);
    }
    return value;
}

/* "PATH VALUE TOLERANCE": a number; "PATH null"; or "PATH "text"": a string. */
static void check_json(json_t *root, const char *expected)
{
    char path[LINE_SIZE];
    char want[LINE_SIZE];
    double tolerance = 0.0;
    const int fields = sscanf(expected, "%2047s %2047s %lf", path, want, &tolerance);
    assert_true(fields >= 2);
    const json_t *const value = json_at(root, path);
    if (value == NULL) {
        fail_msg("no key %s", path);
    }
    if (strcmp(want, "null") == 0) {
        assert_true(json_is_null(value));
    } else if (want[0] == '"') {
        want[strlen(want) - 1] = '\0';
        assert_true(json_is_string(value));
        assert_string_equal(json_string_value(value), want + 1);
    } else {
        assert_int_equal(fields, 3);
        assert_true(json_is_number(value));
        assert_near(json_number_value(value), strtod(want, NULL), tolerance);
    }
}

static void check_json_lines(const Case *one, const char *out)
{
    if (find_line(one, "json") == NULL) {
        return;
    }
    json_error_t error;
    json_t *const root = json_loads(out, JSON_REJECT_DUPLICATES, &error);
    if (root == NULL) {
        fail_msg("not JSON: line %d: %s", error.line, error.text);
    }
    for (int i = 0; i < one->count; i++) {
        if (strcmp(one->line[i].kind, "json") == 0) {
            check_json(root, one->line[i].text);
        }
    }
    json_decref(root);
}

static void check_text_line(const Line *line, const char *out, const char *err)
{
    if (strcmp(line->kind, "line") == 0 && !has_line(out, line->text)) {
        fail_msg("standard output lacks the line: %s\nit is:\n%s", line->text, out);
    }
    if (strcmp(line->kind, "has") == 0 && strstr(out, line->text) == NULL) {
        fail_msg("standard output lacks: %s\nit is:\n%s", line->text, out);
    }
    if (strcmp(line->kind, "not") == 0 && strstr(out, line->text) != NULL) {
        fail_msg("standard output has: %s", line->text);
    }
    if (strcmp(line->kind, "err") == 0 && !has_line(err, line->text)) {
        fail_msg("standard error lacks the line: %s\nit is:\n%s", line->text, err);
    }
}

/* A wrong exit code is told with what the program said. */
static void check(const Case *one, int status, const char *out, const char *err)
{
    const char *const want = find_line(one, "exit");
    const int code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    if (code != (int)strtol(want, NULL, 10)) {
        fail_msg("exit code %d, expected %s; standard error:\n%s", code, want, err);
    }
    for (int i = 0; i < one->count; i++) {
        check_text_line(&one->line[i], out, err);
    }
    check_json_lines(one, out);
    /* An error is one line and nothing else; an answer says nothing on standard error. */
    const size_t err_lines = err[0] == '\0' ? 0 : 1;
    assert_int_equal(find_line(one, "err") != NULL, err_lines);
    if (err_lines == 1) {
        assert_ptr_equal(strchr(err, '\n'), err + strlen(err) - 1);
    }
    if (code == 2) {
        assert_string_equal(out, "");
    }
    /* A sign before a figure that is rounded to zero. */
    assert_null(strstr(out, " -0.0 "));
    assert_null(strstr(out, "nan"));
}

static void cli__case(void **state)
{
    const Case *const one = *state;
    const char *const run = find_line(one, "run");
    char command[LINE_SIZE + 64];
    snprintf(command, sizeof command, "{ %s\n} >stdout.txt 2>stderr.txt", run);
    const int status = system(command);
    char *const out = read_output("stdout.txt");
    char *const err = read_output("stderr.txt");
    check(one, status, out, err);
    free(out);
    free(err);
}

/* Reads "kind: text" into the case. A line of another shape is a mistake in the data. */
static void read_line(Case *one, const char *text, const char *path)
{
    static const char *const kinds[] = {"run", "exit", "line", "has", "not", "err", "json"};
    const char *const colon = strchr(text, ':');
    const size_t length = colon != NULL ? (size_t)(colon - text) : 0;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strlen(kinds[i]) == length && strncmp(kinds[i], text, length) == 0 &&
            one->count < LINES_MAX) {
            Line *const line = &one->line[one->count++];
            snprintf(line->kind, sizeof line->kind, "%s", kinds[i]);
            snprintf(line->text, sizeof line->text, "%s",
                     strlen(text) > COLUMN ? text + COLUMN : "");
            return;
        }
    }
    fprintf(stderr, "%s: not a line of a case: %s\n", path, text);
    exit(EXIT_FAILURE);
}

/* Appends the cases of a file; "case: name" begins one. */
static int read_cases(const char *name, Case *cases, int count)
{
    char path[PATH_SIZE];
    char text[LINE_SIZE];
    snprintf(path, sizeof path, PLUMB_SOURCE_DIR "/tests/cli/%s", name);
    FILE *const file = fopen(path, "r");
    if (file == NULL) {
        perror(path);
        exit(EXIT_FAILURE);
    }
    while (fgets(text, sizeof text, file) != NULL) {
        text[strcspn(text, "\n")] = '\0';
        if (text[0] == '#' || text[0] == '\0') {
            continue;
        }
        if (strncmp(text, "case: ", COLUMN) == 0 && count < CASES_MAX) {
            snprintf(cases[count++].name, sizeof cases->name, "%.40s: %.100s", name, text + COLUMN);
        } else if (count > 0) {
            read_line(&cases[count - 1], text, path);
        }
    }
    fclose(file);
    return count;
}

static int enter_folder(void **state)
{
    char path[4 * PATH_SIZE];
    const char *const old = getenv("PATH");
    char program[] = PLUMB_PROGRAM;
    char *const slash = strrchr(program, '/');
    (void)state;
    if (slash == NULL || old == NULL || mkdtemp(folder) == NULL || chdir(folder) != 0) {
        return -1;
    }
    *slash = '\0';
    snprintf(path, sizeof path, "%s:%s", program, old);
    setenv("PATH", path, 1);
    return system("cp " PLUMB_SOURCE_DIR "/tests/cli/*.yaml " PLUMB_SOURCE_DIR
                  "/tests/cli/*.csv . && chmod u+w *.yaml") == 0
               ? 0
               : -1;
}

static int leave_folder(void **state)
{
    char command[PATH_SIZE];
    (void)state;
    snprintf(command, sizeof command, "rm -rf %s", folder);
    return chdir("/") == 0 && system(command) == 0 ? 0 : -1;
}

int main(void)
{
    static const char *const files[] = {"help.case",    "good.case",  "bad.case",   "files.case",
                                        "sure.case",    "study.case", "bench.case", "athlete.case",
                                        "working.case", "trace.case"};
    static Case cases[CASES_MAX];
    static struct CMUnitTest tests[CASES_MAX];
    int count = 0;
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        count = read_cases(files[i], cases, count);
    }
    for (int i = 0; i < count; i++) {
        if (find_line(&cases[i], "run") == NULL || find_line(&cases[i], "exit") == NULL) {
            fprintf(stderr, "%s: lacks run or exit\n", cases[i].name);
            return EXIT_FAILURE;
        }
        tests[i] = (struct CMUnitTest){cases[i].name, cli__case, NULL, NULL, &cases[i]};
    }
    return _cmocka_run_group_tests("command line", tests, (size_t)count, enter_folder,
                                   leave_folder);
}
