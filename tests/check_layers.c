/* SPDX-License-Identifier: MIT */
/* Reads the #include lines of src/ and include/plumbar/ and fails on one that runs upward, sideways
 * between floors that may not know each other, or out to a library that the floor may not use.
 * Use: check_layers ROOT */
#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { PATH_SIZE = 512, LINE_SIZE = 1024 };

typedef struct Folder {
    const char *name;
    int floor;
} Folder;

/* The floors of DEVELOPERS.md. Folders on one floor do not know each other. */
static const Folder folders[] = {
    {"base", 0},  {"body", 1},   {"model", 2}, {"solve", 3}, {"study", 4},
    {"trace", 4}, {"scene", 5},  {"draw", 6},  {"io", 6},    {"report", 7},
    {"cli", 8},   {"viewer", 8}, {"film", 8},
};

/* The folder whose floor a public header stands on; a new header needs a row here. */
static const struct {
    const char *header;
    const char *folder;
} headers[] = {
    /* read from pictures */
    {"marks.h", "trace"},
    {"camera.h", "trace"},
    {"trace.h", "trace"},
    {"gray.h", "trace"},
    {"frames.h", "io"},
    {"filter.h", "trace"},
    {"track.h", "trace"},
    {"series.h", "trace"},
    {"film_marks.h", "io"},
    {"film_chart.h", "scene"},
    {"marks_file.h", "io"},
    {"photo.h", "io"},
    {"underlay.h", "draw"},
    {"still.h", "report"},
    {"still_picture.h", "report"},
    {"film_reading.h", "report"},
    {"film_frame.h", "report"},
    {"film_pages.h", "report"},
    /* the rest */
    {"status.h", "base"},
    {"vec.h", "base"},
    {"format.h", "base"},
    {"quantity.h", "base"},
    {"body.h", "body"},
    {"lifter.h", "body"},
    {"setup.h", "model"},
    {"pose.h", "model"},
    {"solve.h", "solve"},
    {"scene.h", "scene"},
    {"draw.h", "draw"},
    {"file.h", "io"},
    {"lifter_file.h", "io"},
    {"plumbar.h", "solve"},
    {"sample.h", "study"},
    {"interval.h", "study"},
    {"population.h", "study"},
    {"scatter.h", "scene"},
    {"hold.h", "study"},
    {"effects.h", "study"},
    {"advice.h", "study"},
    {"start.h", "study"},
    {"dynamics.h", "solve"},
    {"press_effects.h", "study"},
    {"solved.h", "study"},
    {"press.h", "solve"},
    {"press_motion.h", "solve"},
    {"card.h", "scene"},
    {"handout.h", "scene"},
    {"svg.h", "draw"},
    {"phone.h", "scene"},
    {"diary.h", "scene"},
    {"diary.h", "scene"},
    {"drills.h", "io"},
    {"report.h", "report"},
    {"compare.h", "study"},
    {"styles.h", "study"},
    {"strength.h", "study"},
    {"sources.h", "body"},
    {"explain.h", "study"},
    {"working.h", "scene"},
};

/* System headers that only some folders may include, as beginnings of their names. */
static const struct {
    const char *prefix;
    const char *allowed; /* folders, each between spaces */
} libraries[] = {
    {"stdio.h", " draw io report cli viewer film "},
    {"stdlib.h", " study trace scene draw io report cli viewer film "},
    {"locale.h", " "},
    {"SDL", " io viewer "},
    {"cairo", " draw viewer "},
    {"fontconfig", " draw viewer "},
    {"yaml.h", " io "},
    {"csv.h", " io "},
    {"jansson.h", " io cli report "},
    {"libav", " film "},
    {"libsw", " film "},
};

static int faults;

static const Folder *folder_find(const char *name, size_t length)
{
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        if (strlen(folders[i].name) == length && strncmp(folders[i].name, name, length) == 0) {
            return &folders[i];
        }
    }
    return NULL;
}

static const Folder *header_folder(const char *header)
{
    for (size_t i = 0; i < sizeof headers / sizeof headers[0]; i++) {
        if (strcmp(headers[i].header, header) == 0) {
            return folder_find(headers[i].folder, strlen(headers[i].folder));
        }
    }
    return NULL;
}

static void fault(const char *path, int line, const char *target, const char *why)
{
    fprintf(stderr, "%s:%d: includes %s: %s\n", path, line, target, why);
    faults++;
}

/* The dispatch of `plumbar view` is the one step from the commands into the window. */
static bool is_dispatch(const Folder *from, const char *target)
{
    return strcmp(from->name, "cli") == 0 && strcmp(target, "viewer/viewer.h") == 0;
}

static void check_system(const char *path, int line, const Folder *from, const char *target)
{
    char word[32];
    snprintf(word, sizeof word, " %s ", from->name);
    for (size_t i = 0; i < sizeof libraries / sizeof libraries[0]; i++) {
        const bool named = strncmp(target, libraries[i].prefix, strlen(libraries[i].prefix)) == 0;
        if (named && strstr(libraries[i].allowed, word) == NULL) {
            fault(path, line, target, "not a library of this floor");
        }
    }
}

/* target: what stands between the quotes or angle brackets. */
static void check_include(const char *path, int line, const Folder *from, const char *target,
                          bool quoted)
{
    const Folder *to = from;
    const char *slash = strchr(target, '/');
    if (strncmp(target, "plumbar/", 8) == 0) {
        to = header_folder(target + 8);
    } else if (!quoted) {
        check_system(path, line, from, target);
        return;
    } else if (strcmp(target, "tables.h") == 0) {
        to = folder_find("body", 4); /* made from anthropometry/ at build time */
    } else if (strcmp(target, "settings.h") == 0) {
        to = folder_find("model", 5); /* the same */
    } else if (slash != NULL) {
        to = folder_find(target, (size_t)(slash - target));
    }
    if (to == NULL) {
        fault(path, line, target, "stands on no floor that is known");
    } else if (to != from && to->floor >= from->floor && !is_dispatch(from, target)) {
        fault(path, line, target, to->floor > from->floor ? "runs upward" : "runs sideways");
    }
}

static void check_file(const char *path, const Folder *from)
{
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        fprintf(stderr, "%s: cannot be read\n", path);
        faults++;
        return;
    }
    char text[LINE_SIZE];
    for (int line = 1; fgets(text, sizeof text, file) != NULL; line++) {
        const char *word = text + strspn(text, " \t");
        if (*word != '#') {
            continue;
        }
        word += 1 + strspn(word + 1, " \t");
        char target[PATH_SIZE];
        char open;
        if (sscanf(word, "include %c%511[^\">]", &open, target) == 2 &&
            (open == '"' || open == '<')) {
            check_include(path, line, from, target, open == '"');
        }
    }
    fclose(file);
}

/* Returns how many sources the folder holds. from NULL: public headers, each on its own floor. */
static int check_folder(const char *path, const Folder *from)
{
    DIR *directory = opendir(path);
    if (directory == NULL) {
        return 0;
    }
    int count = 0;
    for (const struct dirent *entry; (entry = readdir(directory)) != NULL;) {
        const char *ending = strrchr(entry->d_name, '.');
        if (ending == NULL || (strcmp(ending, ".c") != 0 && strcmp(ending, ".h") != 0)) {
            continue;
        }
        char file[PATH_SIZE];
        snprintf(file, sizeof file, "%.250s/%.250s", path, entry->d_name);
        const Folder *own = from != NULL ? from : header_folder(entry->d_name);
        if (own == NULL) {
            fprintf(stderr, "%s: has no row in the table of public headers\n", file);
            faults++;
        } else {
            check_file(file, own);
        }
        count++;
    }
    closedir(directory);
    return count;
}

/* A folder of src/ that the table does not name would go unread. */
static void check_folder_names(const char *root)
{
    char path[PATH_SIZE];
    snprintf(path, sizeof path, "%.250s/src", root);
    DIR *directory = opendir(path);
    for (const struct dirent *entry; directory && (entry = readdir(directory)) != NULL;) {
        const char *name = entry->d_name;
        if (name[0] != '.' && folder_find(name, strlen(name)) == NULL) {
            fprintf(stderr, "%s/%.250s: stands on no floor that is known\n", path, name);
            faults++;
        }
    }
    if (directory != NULL) {
        closedir(directory);
    }
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fprintf(stderr, "use: check_layers ROOT\n");
        return 2;
    }
    char path[PATH_SIZE];
    snprintf(path, sizeof path, "%.250s/include/plumbar", argv[1]);
    int count = check_folder(path, NULL);
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        snprintf(path, sizeof path, "%.250s/src/%s", argv[1], folders[i].name);
        count += check_folder(path, &folders[i]);
    }
    check_folder_names(argv[1]);
    if (count == 0 && faults == 0) {
        fprintf(stderr, "%s: no sources found\n", argv[1]);
        return 2;
    }
    printf("%d files, %d faults\n", count, faults);
    return faults > 0 ? 1 : 0;
}
