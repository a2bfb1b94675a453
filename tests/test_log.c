/* SPDX-License-Identifier: MIT */
/* The log of a lifter file: what reads, what is refused and where, and that an added entry changes
 * nothing else; and its chart. */
#include "scene_bench.h"

#include <plumbar/diary.h>
#include <plumbar/lifter_file.h>

#include <math.h>

#define HEAD "lifter:\n  sex: male\n  stature: 178 cm\n  mass: 85 kg\n"
#define SETUPS "setups:\n  pull:\n    lift: deadlift\n    stance: 36 cm\n    load: 150 kg\n"

static PlumbLifterFile *parsed(const char *text)
{
    PlumbLifterFile *file = NULL;
    PlumbError error;
    if (plumb_lifter_file_parse(text, strlen(text), "test.yaml", &file, &error) != PLUMB_OK) {
        fail_msg("%d:%d: %s: %s\n%s", error.line, error.column, error.field, error.message, text);
    }
    return file;
}

static void parse__reads_entries(void **state)
{
    (void)state;
    PlumbLifterFile *const file =
        parsed(HEAD "log:\n"
                    "  - date: 2025-11-03\n"
                    "    setup: pull\n"
                    "    load: 140 kg\n"
                    "    findings: [hips_rise_first, hitching]\n"
                    "    note: >\n"
                    "      slow off\n"
                    "      the floor\n"
                    "  - {date: 2025-12-24, lift: squat, load: 100 kg}\n"
                    "  - date: 2026-02-28\n"
                    "    lift: deadlift\n"
                    "    setup: one that is gone\n"
                    "    settings: {stance: 40 cm, toes: 20 deg}\n" SETUPS);
    assert_int_equal(file->log_count, 3);
    const PlumbLogEntry *const log = file->log;
    assert_string_equal(log[0].date, "2025-11-03");
    assert_int_equal(log[0].lift, PLUMB_DEADLIFT);
    assert_near(log[0].setup.stance_m, 0.36, 1e-12); /* of the named set-up */
    assert_near(log[0].setup.load_kg, 140.0, 1e-12); /* the day's own */
    assert_string_equal(log[0].findings, "hips_rise_first, hitching");
    assert_string_equal(log[0].note, "slow off the floor\n");
    assert_int_equal(log[0].line, 6);
    assert_false(log[0].settings_given);
    assert_int_equal(log[1].lift, PLUMB_SQUAT);
    assert_near(log[1].setup.load_kg, 100.0, 1e-12);
    assert_true(log[2].settings_given);
    assert_near(log[2].setup.stance_m, 0.40, 1e-12);
    PlumbError error;
    assert_ptr_equal(plumb_lifter_file_log(file, "2026-02-28", PLUMB_DEADLIFT, &error), &log[2]);
    assert_null(plumb_lifter_file_log(file, "2026-02-28", PLUMB_SQUAT, &error));
    assert_non_null(strstr(error.message, "no squat of that day; it has 2025-12-24"));
    plumb_lifter_file_free(file);
}

static void parse__says_where_what_is_wrong_stands(void **state)
{
    (void)state;
    static const struct {
        const char *log;
        int line;
        int column;
        const char *field;
        const char *words;
    } row[] = {
        {"log: pull\n", 5, 6, "log", "a list is allowed here"},
        {"log:\n  - pull\n", 6, 5, "log", "an entry is"},
        {"log:\n  - lift: squat\n", 6, 5, "log.date", "is missing"},
        {"log:\n  - date: 2026-02-29\n    lift: squat\n", 6, 11, "log.date", "2026-01-31"},
        {"log:\n  - date: 3 May\n    lift: squat\n", 6, 11, "log.date", "2026-01-31"},
        {"log:\n  - date: 2026-01-31\n", 6, 5, "log.lift", "is missing"},
        {"log:\n  - date: 2026-01-31\n    lift: row\n", 7, 11, "log.lift", "is allowed"},
        {"log:\n  - date: 2026-01-31\n    lift: squat\n    lode: 3 kg\n", 8, 5, "log.lode",
         "did you mean load?"},
        {"log:\n  - date: 2026-01-31\n    lift: squat\n    load: 3\n", 8, 11, "load", "unit"},
        {"log:\n  - date: 2026-01-31\n    lift: squat\n    lift: squat\n", 8, 5, "log.lift",
         "twice"},
        {"log:\n  - date: 2026-01-31\n    lift: squat\n    settings:\n      stance: 9 m\n", 9, 15,
         "stance", "130"},
        {"log:\n  - date: 2026-01-31\n    lift: squat\n    findings: [[a]]\n", 8, 16,
         "log.findings", "a list of words"},
        {"log:\n  - date: 2026-01-31\n    lift: squat\n    setup: pull\n" SETUPS, 7, 11, "log.lift",
         "another lift"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char text[1024];
        snprintf(text, sizeof text, "%s%s", HEAD, row[i].log);
        /* Set-ups may stand after the log. */
        PlumbLifterFile *file = NULL;
        PlumbError error = {.line = 0};
        assert_int_equal(plumb_lifter_file_parse(text, strlen(text), "", &file, &error),
                         PLUMB_BAD_INPUT);
        if (error.line != row[i].line || error.column != row[i].column ||
            strcmp(error.field, row[i].field) != 0 || strstr(error.message, row[i].words) == NULL) {
            fail_msg("row %zu: %d:%d: %s: %s", i, error.line, error.column, error.field,
                     error.message);
        }
    }
}

static PlumbLogEntry entry_of(const char *date, const char *note)
{
    PlumbLogEntry entry = {.lift = PLUMB_DEADLIFT, .setup = plumb_setup_default(PLUMB_DEADLIFT)};
    memcpy(entry.date, date, strlen(date) + 1);
    memcpy(entry.note, note, strlen(note) + 1);
    memcpy(entry.setup_name, "pull", sizeof "pull");
    entry.setup.stance_m = 0.41;
    entry.setup.load_kg = 152.5;
    return entry;
}

/* Whether `after` is `before` with one piece put in. */
static bool is_insertion(const char *before, const char *after)
{
    const size_t had = strlen(before);
    const size_t has = strlen(after);
    size_t head = 0;
    while (head < had && before[head] == after[head]) {
        head++;
    }
    size_t tail = 0;
    while (tail < had - head && before[had - 1 - tail] == after[has - 1 - tail]) {
        tail++;
    }
    return head + tail == had && has > had;
}

/* Ways in which people write their files; each keeps every byte and gains one entry. */
static void add_log__keeps_every_other_byte(void **state)
{
    (void)state;
    static const char *const text[] = {
        HEAD SETUPS,
        "# a comment \xc3\xa9\r\nlifter:\r\n  sex: male\r\n  stature: 178 cm\r\n  mass: 85 kg\r\n",
        "lifter: {sex: male, stature: 178 cm, mass: 85 kg}",
        HEAD "log:\n" SETUPS,
        HEAD "log:   # of this winter\n\n" SETUPS,
        HEAD "log:\n  - date: 2025-11-03\n    lift: squat   # easy\n\n# next\n" SETUPS,
        HEAD "log:\n- date: 2025-11-03\n  lift: squat\n  note: |\n    two\n    lines\n" SETUPS,
        HEAD "log:\n      - {date: 2025-11-03, lift: squat}",
        "\xef\xbb\xbf" HEAD "\n\n\n",
    };
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
        PlumbLifterFile *const file = parsed(text[i]);
        const size_t before = file->log_count;
        const PlumbLogEntry entry = entry_of("2026-01-31", "feels: 'good', # really \"good\"");
        PlumbError error;
        if (plumb_lifter_file_add_log(file, &entry, &error) != PLUMB_OK) {
            fail_msg("text %zu: %s: %s", i, error.field, error.message);
        }
        assert_true(file->changed);
        assert_int_equal(file->log_count, before + 1);
        if (!is_insertion(text[i], file->bytes)) {
            fail_msg("text %zu became\n%s", i, file->bytes);
        }
        const PlumbLogEntry *const added = &file->log[before];
        assert_string_equal(added->note, entry.note);
        assert_string_equal(added->setup_name, "pull");
        assert_near(added->setup.stance_m, 0.41, 1e-12);
        assert_near(added->setup.load_kg, 152.5, 1e-12);
        assert_memory_equal(&added->setup.lead, &entry.setup.lead, sizeof added->setup.lead);
        /* Line ends are those of the file. */
        if (strstr(text[i], "\r\n") != NULL) {
            for (const char *c = file->bytes; *c != '\0'; c++) {
                assert_true(*c != '\n' || c[-1] == '\r');
            }
        }
        /* And once more, below the first. */
        const PlumbLogEntry next = entry_of("2026-02-07", "");
        assert_int_equal(plumb_lifter_file_add_log(file, &next, &error), PLUMB_OK);
        assert_int_equal(file->log_count, before + 2);
        plumb_lifter_file_free(file);
    }
}

static void add_log__refuses_and_leaves_the_file(void **state)
{
    (void)state;
    PlumbLifterFile *const file = parsed(HEAD "log: [{date: 2025-11-03, lift: squat}]\n" SETUPS);
    PlumbError error;
    PlumbLogEntry entry = entry_of("2026-01-31", "");
    assert_int_equal(plumb_lifter_file_add_log(file, &entry, &error), PLUMB_UNSUPPORTED);
    assert_non_null(strstr(error.message, "by hand"));
    memcpy(entry.date, "2026-13-01", sizeof entry.date);
    assert_int_equal(plumb_lifter_file_add_log(file, &entry, &error), PLUMB_BAD_INPUT);
    entry = entry_of("2026-01-31", "\x01");
    assert_int_equal(plumb_lifter_file_add_log(file, &entry, &error), PLUMB_BAD_INPUT);
    assert_false(file->changed);
    assert_int_equal(file->log_count, 1);
    plumb_lifter_file_free(file);
}

/* What a day had stays, whatever becomes of the set-up that it names. */
static void add_log__keeps_the_day_s_own_settings(void **state)
{
    (void)state;
    PlumbLifterFile *const file = parsed(HEAD "setups:\n  pull:\n    lift: deadlift\n");
    PlumbError error;
    PlumbLogEntry entry = entry_of("2026-01-31", "");
    entry.setup = plumb_setup_default(PLUMB_DEADLIFT); /* nothing differs from the defaults */
    assert_int_equal(plumb_lifter_file_add_log(file, &entry, &error), PLUMB_OK);
    assert_int_equal(plumb_lifter_file_set_setup(file, "pull", "stance", "50 cm", &error),
                     PLUMB_OK);
    assert_near(file->log[0].setup.stance_m, 0.32, 1e-12);
    plumb_lifter_file_free(file);
}

static void date_is__of_the_calendar(void **state)
{
    (void)state;
    static const char *const good[] = {"2024-02-29", "2000-02-29", "2026-12-31", "0001-01-01"};
    static const char *const bad[] = {"2026-02-29", "1900-02-29", "2026-04-31", "2026-00-10",
                                      "2026-13-01", "2026-1-01",  "26-01-01",   "2026-01-01 ",
                                      "2026/01/01", "",           "0000-01-01"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        assert_true(plumb_date_is(good[i]));
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_false(plumb_date_is(bad[i]));
    }
}

static void compose_diary__nothing_overlaps(void **state)
{
    Bench *bench = *state;
    unsigned long seed = 31;
    double day[400];
    double value[4][400];
    const char *date[400];
    for (int i = 0; i < 120; i++) {
        const int count = i % 10 == 0 ? 1 : 1 + (int)between(&seed, 0.0, i % 3 == 0 ? 399.0 : 12.0);
        double at = 739000.0;
        for (int k = 0; k < count; k++) {
            at += floor(between(&seed, 0.0, 40.0)); /* several on one day, too */
            day[k] = at;
            date[k] = "2026-01-31";
            for (int p = 0; p < 4; p++) {
                value[p][k] = next_random(&seed) < 0.1 ? (double)NAN : between(&seed, -5.0, 400.0);
            }
        }
        PlumbDiary diary = {.title = i % 2 == 0 ? "A. Lifter, deadlift"
                                                : "wwww wwww wwww wwww "
                                                  "wwww wwww wwww wwww "
                                                  "wwww wwww wwww wwww",
                            .note = "Each dot is an entry of the log.",
                            .count = count,
                            .day = day,
                            .date = date,
                            .panel_count = 1 + i % 4,
                            .text_width = plumb_font_width,
                            .text_user = bench->font};
        for (int p = 0; p < 4; p++) {
            diary.panel[p] = (PlumbDiaryPanel){"hip height, cm", p % 2, value[p]};
        }
        plumb_compose_diary(bench->scene, &diary, (PlumbFormat)(i % PLUMB_FORMAT_COUNT));
        char what[32];
        snprintf(what, sizeof what, "case %d", i);
        assert_clear(bench->scene, what);
        assert_true(count_text(bench->scene, "2026-01-31") >= 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parse__reads_entries),
        cmocka_unit_test(parse__says_where_what_is_wrong_stands),
        cmocka_unit_test(add_log__keeps_every_other_byte),
        cmocka_unit_test(add_log__refuses_and_leaves_the_file),
        cmocka_unit_test(add_log__keeps_the_day_s_own_settings),
        cmocka_unit_test(date_is__of_the_calendar),
        cmocka_unit_test(compose_diary__nothing_overlaps),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
