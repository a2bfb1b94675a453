/* SPDX-License-Identifier: MIT */
/* Lifter files as a whole: reading, asking, saving. */
#include <plumbar/lifter_file.h>

#include "base/words.h"
#include "io/lifter_parse.h"

#include <stdlib.h>
#include <string.h>

static PlumbStatus no_memory(PlumbError *error)
{
    return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "file", "no memory to hold the file");
}

/* A copy with a NUL behind it; NULL where there is no memory. */
static char *copy(const char *bytes, size_t length)
{
    char *const made = malloc(length + 1);
    if (made != NULL) {
        if (length > 0) {
            memcpy(made, bytes, length);
        }
        made[length] = '\0';
    }
    return made;
}

static PlumbStatus fill(PlumbLifterFile *file, PlumbError *error)
{
    PlumbYamlTree tree;
    PlumbStatus status = plumb_yaml_parse(file->bytes, file->length, &tree, error);
    if (status == PLUMB_OK) {
        const LifterParse parse = {&tree, file, error};
        status = plumb_parse_lifter(&parse);
        plumb_yaml_free(&tree);
    }
    return status;
}

PlumbStatus plumb_lifter_file_parse(const char *bytes, size_t length, const char *path,
                                    PlumbLifterFile **file, PlumbError *error)
{
    if (length > PLUMB_LIFTER_FILE_MAX_BYTES) {
        return plumb_error_set(error, PLUMB_TOO_LARGE, "file",
                               "over 1 MiB; a lifter file is a few kB of text");
    }
    PlumbLifterFile *const made = calloc(1, sizeof *made);
    if (made == NULL) {
        return no_memory(error);
    }
    made->record = plumb_lifter_record();
    made->path = copy(path == NULL ? "" : path, path == NULL ? 0 : strlen(path));
    made->bytes = copy(bytes, length);
    made->length = length;
    PlumbStatus status = PLUMB_OK;
    if (made->path == NULL || made->bytes == NULL) {
        status = no_memory(error);
    } else {
        status = fill(made, error);
    }
    if (status != PLUMB_OK) {
        plumb_lifter_file_free(made);
        return status;
    }
    *file = made;
    return PLUMB_OK;
}

PlumbStatus plumb_lifter_file_read(const char *path, PlumbLifterFile **file, PlumbError *error)
{
    char *bytes = NULL;
    size_t length = 0;
    PlumbStatus status =
        plumb_file_read_whole(path, PLUMB_LIFTER_FILE_MAX_BYTES, &bytes, &length, error);
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_parse(bytes, length, path, file, error);
        free(bytes);
    }
    return status;
}

void plumb_lifter_file_free(PlumbLifterFile *file)
{
    if (file != NULL) {
        free(file->path);
        free(file->bytes);
        free(file->setup);
        free(file->log);
        free(file);
    }
}

PlumbStatus plumb_lifter_file_lifter(const PlumbLifterFile *file, PlumbLifter *lifter,
                                     PlumbError *error)
{
    const PlumbStatus status = plumb_lifter_record_lifter(&file->record, lifter, error);
    if (status != PLUMB_OK && error != NULL) {
        plumb_lifter_file_place(file, error->field, &error->line, &error->column);
    }
    return status;
}

const PlumbFileSetup *plumb_lifter_file_setup(const PlumbLifterFile *file, const char *name,
                                              PlumbError *error)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    PlumbNearest nearest = plumb_nearest_begin(name, strlen(name));
    for (size_t i = 0; i < file->setup_count; i++) {
        if (strcmp(file->setup[i].name, name) == 0) {
            return &file->setup[i];
        }
        plumb_nearest_try(&nearest, file->setup[i].name);
    }
    plumb_text_quoted(&text, name, strlen(name));
    plumb_text_string(&text, ": the file has no such set-up");
    if (plumb_nearest_word(&nearest) != NULL) {
        plumb_text_string(&text, "; did you mean ");
        plumb_text_quoted(&text, plumb_nearest_word(&nearest),
                          strlen(plumb_nearest_word(&nearest)));
        plumb_text_string(&text, "?");
    }
    plumb_text_string(&text, file->setup_count == 0                 ? "; it has none"
                             : plumb_nearest_word(&nearest) != NULL ? " It has "
                                                                    : "; it has ");
    for (size_t i = 0; i < file->setup_count; i++) {
        plumb_text_string(&text, i > 0 ? ", " : "");
        plumb_text_quoted(&text, file->setup[i].name, strlen(file->setup[i].name));
    }
    plumb_error_set(error, PLUMB_BAD_INPUT, "setups", message);
    return NULL;
}

bool plumb_lifter_file_place(const PlumbLifterFile *file, const char *field, int *line, int *column)
{
    PlumbYamlTree tree;
    if (plumb_yaml_parse(file->bytes, file->length, &tree, NULL) != PLUMB_OK) {
        return false;
    }
    const int node = field[0] == '\0' ? PLUMB_YAML_NONE : plumb_parse_find(&tree, field);
    if (node != PLUMB_YAML_NONE) {
        plumb_yaml_place(file->bytes, file->length, tree.node[node].start, line, column);
    }
    plumb_yaml_free(&tree);
    return node != PLUMB_YAML_NONE;
}

PlumbStatus plumb_lifter_file_save(PlumbLifterFile *file, const char *path, PlumbError *error)
{
    const char *const target = path != NULL ? path : file->path;
    if (target[0] == '\0') {
        return plumb_error_set(error, PLUMB_WRITE_FAILED, "file",
                               "the lifter has no file yet; name one to save it to");
    }
    const PlumbStatus status = plumb_file_write_atomic(target, file->bytes, file->length, error);
    if (status == PLUMB_OK) {
        file->changed = false;
    }
    return status;
}
