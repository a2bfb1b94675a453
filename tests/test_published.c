/* SPDX-License-Identifier: MIT */
/* Published results and identities against the model, and the table that is shown of them. */
#include "support.h"

#include "published/published.h"

#include <stdlib.h>
#include <string.h>

static PublishedRow row[PUBLISHED_MAX];
static int count;

static int compute(void **state)
{
    (void)state;
    count = published_compute(PLUMB_TEST_DATA, row);
    return count > 0 ? 0 : -1;
}

static void published__within_hard_bounds(void **state)
{
    (void)state;
    for (int i = 0; i < count; i++) {
        const PublishedRow *r = &row[i];
        print_message("  %-28s ours %.6g to %.6g%s\n", r->id, r->ours.low, r->ours.high,
                      r->verdict == PUBLISHED_MISSED ? ", published range missed" : "");
        if (r->verdict == PUBLISHED_FAILED) {
            fail_msg("%s: %.17g to %.17g outside %g to %g", r->id, r->ours.low, r->ours.high,
                     r->hard.low, r->hard.high);
        }
    }
}

static void published__rows_are_sound(void **state)
{
    (void)state;
    for (int i = 0; i < count; i++) {
        assert_true(row[i].hard.low < row[i].hard.high);
        assert_true(row[i].source[0] != '\0' && row[i].conditions[0] != '\0');
        if (!isnan(row[i].published.low)) {
            assert_true(row[i].hard.low <= row[i].published.low);
            assert_true(row[i].hard.high >= row[i].published.high);
        }
    }
}

static char *read_text(const char *path)
{
    enum { SIZE = 1 << 20 };
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        fail_msg("%s: cannot be opened", path);
    }
    char *text = calloc(1, SIZE);
    assert_non_null(text);
    assert_true(fread(text, 1, SIZE - 1, file) > 0);
    fclose(file);
    return text;
}

/* The table between the markers of DEVELOPERS.md was written by `published`, not by hand. */
static void published__shown_table_is_current(void **state)
{
    (void)state;
    static char want[PUBLISHED_TABLE];
    PlumbText text = plumb_text_begin(want, sizeof want);
    published_write(row, count, &text);
    assert_false(text.cut);
    char *shown = read_text(PLUMB_SOURCE_DIR "/DEVELOPERS.md");
    const char *begin = strstr(shown, PUBLISHED_BEGIN);
    const char *end = strstr(shown, PUBLISHED_END);
    assert_true(begin != NULL && end != NULL && end > begin);
    begin += strlen(PUBLISHED_BEGIN);
    if ((size_t)(end - begin) != strlen(want) || strncmp(begin, want, strlen(want)) != 0) {
        fail_msg("the table of DEVELOPERS.md is not current: run published tests/data "
                 "DEVELOPERS.md");
    }
    free(shown);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published__rows_are_sound),
        cmocka_unit_test(published__within_hard_bounds),
        cmocka_unit_test(published__shown_table_is_current),
    };
    return cmocka_run_group_tests(tests, compute, NULL);
}
