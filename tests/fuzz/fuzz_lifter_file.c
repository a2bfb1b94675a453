/* SPDX-License-Identifier: MIT */
/* Any bytes as a lifter file. What is refused must name a place; what is read must give a lifter,
 * stay as it was byte by byte, and take a change of one value. */
#include <plumbar/lifter_file.h>

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check(bool holds)
{
    if (!holds) {
        abort();
    }
}

static void check_refusal(PlumbStatus status, const PlumbError *error)
{
    check(status == PLUMB_BAD_INPUT || status == PLUMB_TOO_LARGE);
    check(error->status == status && error->message[0] != '\0');
    check(memchr(error->message, '\0', sizeof error->message) != NULL);
    check(memchr(error->field, '\0', sizeof error->field) != NULL);
    check(error->line >= 0 && error->column >= 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *bytes = malloc(size > 0 ? size : 1); /* exact, so that a read past the end is seen */
    if (bytes == NULL) {
        return 0;
    }
    memcpy(bytes, data, size);
    PlumbLifterFile *file = NULL;
    PlumbError error = {.status = PLUMB_OK};
    const PlumbStatus status = plumb_lifter_file_parse(bytes, size, "fuzz.yaml", &file, &error);
    if (status != PLUMB_OK) {
        check(file == NULL);
        check_refusal(status, &error);
        free(bytes);
        return 0;
    }
    check(file->length == size && memcmp(file->bytes, bytes, size) == 0 && !file->changed);
    PlumbLifter lifter;
    check(plumb_lifter_file_lifter(file, &lifter, &error) == PLUMB_OK);
    /* A change is made, or refused and leaves the bytes alone. */
    if (plumb_lifter_file_set(file, "lifter", "mass", "81.5 kg", &error) == PLUMB_OK) {
        check(file->record.spec.mass_kg >= 81.5 && file->record.spec.mass_kg <= 81.5);
    } else {
        check(file->length == size && memcmp(file->bytes, bytes, size) == 0);
    }
    plumb_lifter_file_free(file);
    free(bytes);
    return 0;
}
