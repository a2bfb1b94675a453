/* SPDX-License-Identifier: MIT */
/* Any bytes as a file of marks. What is refused names a place; what is read is written back byte by
 * byte, and a moved mark or another thing told gives a file that reads to the same. */
#include <plumbar/marks_file.h>

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

/* -1: nothing is left that is of this picture alone, and no line names it. */
static int picture_of(const PlumbMarks *marks, const char *name)
{
    for (int i = 0; i < marks->still_count; i++) {
        if (strcmp(marks->picture[i], name) == 0) {
            return i;
        }
    }
    return -1;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static PlumbMarks marks;
    static PlumbMarks again;
    const PlumbMarksMap map = plumb_marks_map_default();
    char *const bytes =
        malloc(size > 0 ? size : 1); /* exact, so that a read past the end is seen */
    PlumbError error = {.status = PLUMB_OK};
    if (bytes == NULL) {
        return 0;
    }
    if (size > 0) {
        memcpy(bytes, data, size);
    }
    if (plumb_marks_parse(bytes, size, &map, &marks, &error) != PLUMB_OK) {
        check(error.status == PLUMB_BAD_INPUT && error.message[0] != '\0');
        check(error.line >= 1 && error.column >= 1);
        free(bytes);
        return 0;
    }
    char *text = NULL;
    size_t length = 0;
    check(plumb_marks_text(&marks, bytes, size, &map, &text, &length, &error) == PLUMB_OK);
    check(length == size && memcmp(text, bytes, size) == 0);
    free(text);
    if (marks.count > 0) {
        marks.mark[0].x_px = 17.25;
        check(plumb_marks_text(&marks, bytes, size, &map, &text, &length, &error) == PLUMB_OK);
        check(plumb_marks_parse(text, length, &map, &again, &error) == PLUMB_OK);
        check(again.count == marks.count);
        check(again.mark[0].x_px >= 17.25 && again.mark[0].x_px <= 17.25);
        free(text);
    }
    for (int i = 0; i < marks.still_count; i++) {
        marks.told[i][PLUMB_TOLD_distance_m] = i % 2 == 0 ? 7.5 : 0.0;
        marks.told[i][PLUMB_TOLD_floor] = -1.0;
    }
    check(plumb_marks_text(&marks, bytes, size, &map, &text, &length, &error) == PLUMB_OK);
    check(plumb_marks_parse(text, length, &map, &again, &error) == PLUMB_OK);
    for (int i = 0; i < marks.still_count; i++) {
        const int at = picture_of(&again, marks.picture[i]);
        /* What is told of a picture without a name is told of all. */
        for (int key = 0; at >= 0 && picture_of(&marks, "") < 0 && key < PLUMB_TOLD_COUNT; key++) {
            const double off = again.told[at][key] - marks.told[i][key];
            check(off <= 5e-4 && off >= -5e-4);
        }
    }
    free(text);
    free(bytes);
    return 0;
}
