/* SPDX-License-Identifier: MIT */
/* Lifter files: what reads, what is refused and where, and that a change keeps every other byte. */
#include "support.h"

#include <plumbar/lifter_file.h>

#include <stdlib.h>
#include <string.h>

#define HEAD "lifter:\n  sex: male\n  stature: 178 cm\n  mass: 85 kg\n"

static PlumbLifterFile *parsed(const char *text)
{
    PlumbLifterFile *file = NULL;
    PlumbError error;
    if (plumb_lifter_file_parse(text, strlen(text), "test.yaml", &file, &error) != PLUMB_OK) {
        fail_msg("%d:%d: %s: %s\n%s", error.line, error.column, error.field, error.message, text);
    }
    return file;
}

static void parse__reads_every_section(void **unused)
{
    (void)unused;
    PlumbLifterFile *const file = parsed("# comment\n"
                                         "lifter:\n"
                                         "  name: \"Zoë\"\n"
                                         "  sex: female\n"
                                         "  stature: 5 ft 6 in\n"
                                         "  mass: 140 lb\n"
                                         "  age: 34 years\n"
                                         "  mass_table: classic\n"
                                         "  note: >\n"
                                         "    two\n"
                                         "    lines\n"
                                         "measures:\n"
                                         "  thigh: +1 sd\n"
                                         "  trunk: 49 cm ± 5 mm\n"
                                         "  foot: 25 cm +- 0.5 cm\n"
                                         "shoes: {heel_lift: 19 mm, ball_lift: 2 mm}\n"
                                         "limits:\n"
                                         "  ankle_dorsiflexion: 38 deg\n"
                                         "strength:\n"
                                         "  hip: 1.3\n"
                                         "  all: 1.1\n"
                                         "equipment:\n"
                                         "  bar:\n"
                                         "    mass: 15 kg\n"
                                         "  discs:\n"
                                         "    diameter: 44 cm\n"
                                         "setups:\n"
                                         "  wide pull:\n"
                                         "    lift: deadlift\n"
                                         "    style: sumo\n"
                                         "    note: 'feels ''odd'''\n"
                                         "  \"deep\": {lift: squat, depth: 5 cm}\n");
    const PlumbLifterRecord *const record = &file->record;
    assert_string_equal(record->name, "Zoë");
    assert_string_equal(record->note, "two lines\n");
    assert_int_equal(record->spec.sex, PLUMB_FEMALE);
    assert_near(record->spec.stature_m, 1.6764, 1e-15);
    assert_near(record->spec.mass_kg, 63.5029318, 1e-12);
    assert_near(record->spec.age_years, 34, 0);
    assert_int_equal(record->spec.mass_table, PLUMB_CLASSIC);
    assert_int_equal(record->spec.measure[PLUMB_LEN_thigh].kind, PLUMB_MEASURE_SPREAD);
    assert_near(record->spec.measure[PLUMB_LEN_thigh].value, 1, 0);
    assert_near(record->spec.measure[PLUMB_LEN_trunk].value, 0.49, 0);
    assert_near(record->spec.measure[PLUMB_LEN_trunk].sd_m, 0.005, 0);
    assert_near(record->spec.tape[PLUMB_TAPE_foot].sd_m, 0.005, 0);
    assert_near(record->heel_m, 0.019, 0);
    assert_near(record->ball_m, 0.002, 0);
    assert_near(record->strength[PLUMB_JOINT_hip], 1.3, 0);
    assert_near(record->strength[PLUMB_JOINT_knee], 1.1, 0);
    PlumbLifter lifter;
    assert_int_equal(plumb_lifter_file_lifter(file, &lifter, NULL), PLUMB_OK);
    assert_near(lifter.limit_rad[PLUMB_LIMIT_ankle_dorsiflexion], 0.66322511575784526, 1e-15);
    assert_true(lifter.limit_entered[PLUMB_LIMIT_ankle_dorsiflexion]);
    assert_false(lifter.limit_entered[PLUMB_LIMIT_knee_flexion]);
    assert_near(lifter.equipment.bar_mass_kg, 15, 0);
    assert_near(lifter.equipment.disc_diameter_m, 0.44, 0);
    assert_near(lifter.body.trunk_m, 0.49, 0);
    assert_near(lifter.strength[PLUMB_JOINT_hip], 1.3, 0);
    assert_int_equal(file->setup_count, 2);
    assert_string_equal(file->setup[0].name, "wide pull");
    assert_string_equal(file->setup[0].note, "feels 'odd'");
    assert_int_equal(file->setup[0].line, 28);
    PlumbSetup setup;
    assert_int_equal(plumb_setup_entry_close(&file->setup[0].entry, &setup, NULL), PLUMB_OK);
    assert_near(setup.stance_m, 0.70, 0);
    assert_near(setup.heel_lift_m, 0.019, 0);
    assert_int_equal(file->setup[1].lift, PLUMB_SQUAT);
    plumb_lifter_file_free(file);
}

static void parse__takes_windows_files_and_empty_sections(void **unused)
{
    (void)unused;
    static const char *const texts[] = {
        "\xEF\xBB\xBFlifter:\r\n  sex: male\r\n  stature: 178 cm\r\n  mass: 85 kg\r\n",
        (HEAD "measures:\nlimits:\n  # none yet\nsetups:\n"),
        ("---\n" HEAD "...\n"),
        ("%YAML 1.1\n---\n" HEAD),
        "{\"lifter\": {\"sex\": \"male\", \"stature\": \"178 cm\", \"mass\": \"85 kg\"}}",
        "lifter: {sex: male, stature: 178 cm, mass: 85 kg}",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        PlumbLifterFile *const file = parsed(texts[i]);
        assert_near(file->record.spec.stature_m, 1.78, 0);
        assert_int_equal(file->setup_count, 0);
        plumb_lifter_file_free(file);
    }
}

#define PULL HEAD "setups:\n  pull:\n    lift: deadlift\n"
#define SQUAT HEAD "setups:\n  sq:\n    lift: squat\n"

static const struct {
    const char *text;
    int line;
    int column;
    const char *field;
    const char *says;
} bad[] = {
    /* sections and keys */
    {HEAD "measurs:\n  thigh: 44 cm\n", 5, 1, "measurs", "not a section; did you mean measures?"},
    {HEAD "colours:\n", 5, 1, "colours", "lifter, measures, shoes, limits, strength"},
    {HEAD "measures:\n  thihg: 44 cm\n", 6, 3, "measures.thihg", "did you mean thigh?"},
    {HEAD "measures:\n  colour: 44 cm\n", 6, 3, "measures.colour", "not a key of measures"},
    {HEAD "limits:\n  ankle: 40 deg\n", 6, 3, "limits.ankle", "did you mean ankle_dorsiflexion?"},
    {HEAD "equipment:\n  bra: {}\n", 6, 3, "equipment.bra", "did you mean bar?"},
    {HEAD "equipment:\n  bar:\n    weight: 20 kg\n", 7, 5, "equipment.bar.weight", "not a key of"},
    {HEAD "  statur: 3 cm\n", 5, 3, "lifter.statur", "did you mean stature?"},
    {HEAD "measures:\n  thigh: 44 cm\n  thigh: 45 cm\n", 7, 3, "measures.thigh", "stands twice"},
    {HEAD "lifter:\n  sex: male\n", 5, 1, "lifter", "stands twice"},
    {HEAD "setups:\n  a: {lift: squat}\n  a: {lift: squat}\n", 7, 3, "setups.a", "stands twice"},
    {HEAD "<<: {a: b}\n", 5, 1, "<<", "not a section"},
    /* values */
    {HEAD "measures:\n  thigh: 44\n", 6, 10, "measures.thigh", "the unit is missing"},
    {HEAD "measures:\n  thigh: 44 deg\n", 6, 13, "measures.thigh", "deg makes it an angle"},
    {HEAD "measures:\n  thigh: \"44 deg\"\n", 6, 14, "measures.thigh", "deg makes it an angle"},
    {HEAD "measures:\n  thigh: 44,5 cm\n", 6, 12, "measures.thigh", "write 44.5 with a point"},
    {HEAD "measures:\n  thigh: 144 cm\n", 6, 10, "measures.thigh", "cm"},
    {HEAD "measures:\n  thigh: 44 cm ± 44\n", 6, 10, "measures.thigh", "the unit is missing"},
    {HEAD "measures:\n  thigh: 44 cm ± 0 cm\n", 6, 10, "measures.thigh", "above 0, up to 10 cm"},
    {HEAD "measures:\n  thigh: one sd\n", 6, 10, "measures.thigh", "+1 sd or -0.5 sd"},
    {HEAD "measures:\n  span: +1 sd\n", 6, 9, "measures.span", "a taped measure is a length"},
    {HEAD "measures:\n  thigh:\n", 6, 3, "measures.thigh", "has no value"},
    {HEAD "measures:\n  thigh: [44 cm]\n", 6, 10, "measures.thigh", "a list stands here"},
    {HEAD "measures:\n  thigh: {a: b}\n", 6, 10, "measures.thigh", "a section stands here"},
    {HEAD "measures: 44 cm\n", 5, 11, "measures", "\"key: value\" lines are allowed here"},
    {HEAD "measures: [thigh]\n", 5, 11, "measures", "\"key: value\" lines are allowed here"},
    {HEAD "limits:\n  knee_flexion: 190 deg\n", 6, 17, "limits.knee_flexion", "1 deg to 180 deg"},
    {HEAD "strength:\n  hip: 9\n", 6, 8, "strength.hip", "0.2 to 5 is allowed"},
    {HEAD "strength:\n  hip: 1 kg\n", 6, 10, "strength.hip", "kg makes it a mass"},
    {HEAD "shoes:\n  heel_lift: 6 cm\n", 6, 14, "shoes.heel_lift", "0 mm to 50 mm is allowed"},
    {HEAD "equipment:\n  bar:\n    mass: 200 kg\n", 7, 11, "equipment.bar.mass", "1 kg to 60 kg"},
    {HEAD "equipment:\n  bar:\n    knurl_start: 140 cm\n", 7, 18, "equipment.bar.knurl_start",
     "the knurling would stop before it starts"},
    {HEAD "  age: old\n", 5, 8, "lifter.age", "an age in years is allowed, as 34"},
    {HEAD "  table: handbook\n", 5, 10, "lifter.table", "survey or classic is allowed"},
    {HEAD "  name: \"a\\tb\"\n", 5, 9, "lifter.name", "control character"},
    {HEAD "  name: \"a\\0b\"\n", 5, 9, "file", "NUL character"},
    {"lifter:\n  sex: man\n", 2, 8, "lifter.sex", "male or female is allowed"},
    /* the body */
    {"lifter:\n  sex: male\n  stature: 78 cm\n  mass: 85 kg\n", 3, 12, "lifter.stature", "cm"},
    {"lifter:\n  sex: male\n  stature: 178 cm\n  mass: 8 kg\n", 4, 9, "lifter.mass", "kg"},
    {"lifter:\n  name: x\n", 1, 1, "lifter", "sex, stature and mass are missing"},
    {"# c\n\nlifter:\n  sex: male\n  mass: 80 kg\n", 3, 1, "lifter", "stature is missing"},
    {"measures:\n  thigh: 44 cm\n", 1, 1, "lifter", "a lifter needs sex, stature and mass"},
    {HEAD "measures:\n  foot: 27 cm\n  foot_length: 27 cm\n", 6, 9, "measures.foot", "same length"},
    /* set-ups */
    {HEAD "setups:\n  pull:\n    stance: 30 cm\n", 6, 3, "setups.pull", "the lift is missing"},
    {HEAD "setups:\n  pull:\n    lift: deadlfit\n", 7, 11, "setups.pull.lift", "mean deadlift?"},
    {HEAD "setups:\n  pull:\n    lift: press\n", 7, 11, "setups.pull.lift",
     "deadlift, squat or bench"},
    {HEAD "setups:\n  pull: heavy\n", 6, 9, "setups.pull", "\"key: value\" lines"},
    {HEAD "setups:\n  - lift: squat\n", 6, 3, "setups", "\"key: value\" lines"},
    {HEAD "setups:\n  \"\": {lift: squat}\n", 6, 3, "setups.", "a set-up needs a name"},
    {PULL "    stanec: 30 cm\n", 8, 5, "setups.pull.stanec", "did you mean stance?"},
    {PULL "    stance: 3 cm\n", 8, 13, "setups.pull.stance", "10 cm to 130 cm is allowed"},
    {PULL "    stance: 30 dge\n", 8, 16, "setups.pull.stance", "unknown unit"},
    {PULL "    depth: 3 cm\n", 8, 5, "setups.pull.depth", "a setting of the squat"},
    {PULL "    balance: 0.4\n    back_angle: 30 deg\n", 9, 5, "setups.pull.back_angle",
     "balance and back_angle cannot lead together"},
    {PULL "    deficit: 3 cm\n    blocks: 3 cm\n", 9, 5, "setups.pull.blocks", "not possible"},
    {SQUAT "    auto: no\n", 8, 5, "setups.sq.auto", "shin_angle, back_angle or auto leads"},
    {SQUAT "    hip_height: 60 cm\n", 8, 5, "setups.sq.hip_height", "of the deadlift"},
    {SQUAT "    bar: back\n", 8, 10, "setups.sq.bar", "high, low or front is allowed"},
    /* YAML */
    {"", 1, 1, "file", "empty"},
    {"# only a comment\n", 1, 1, "file", "empty"},
    {"\n\n", 1, 1, "file", "empty"},
    {"---\n...\n", 1, 1, "file", "empty"},
    {"just words\n", 1, 1, "", "\"key: value\" lines"},
    {"- sex: male\n", 1, 1, "", "\"key: value\" lines"},
    {HEAD "\tshoes:\n", 5, 1, "file", "a tab stands where only spaces may"},
    {HEAD " shoes:\n", 5, 2, "file", "not readable as YAML"},
    {HEAD "shoes: {heel_lift: 19 mm\n", 6, 1, "file", "not readable as YAML"},
    {HEAD "  note: \"open\n", 6, 1, "file", "not readable as YAML"},
    {HEAD "shoes: &s {heel_lift: 19 mm}\n", 5, 8, "file", "anchors (&name) are not read"},
    {HEAD "shoes: *s\n", 5, 8, "file", "aliases (*name) are not read"},
    {HEAD "shoes: !x {heel_lift: 19 mm}\n", 5, 8, "file", "tags (!name) are not read"},
    {HEAD "  age: !!int 34\n", 5, 8, "file", "tags (!name) are not read"},
    {"%TAG ! tag:x,2000:\n---\n" HEAD, 1, 1, "file", "%TAG is not read"},
    {HEAD "---\n" HEAD, 5, 1, "file", "a second document"},
    {HEAD "? [a, b]\n: c\n", 5, 3, "file", "a key must be a word"},
    {HEAD "a: [[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]\n", 5, 19, "file", "nested too deeply"},
    {"lifter:\n  name: \xFFx\n", 2, 9, "file", "not UTF-8 text"},
    {"lifter:\n  name: \xC3\n", 2, 9, "file", "not UTF-8 text"},
    {"lifter:\n  name: \xED\xA0\x80\n", 2, 9, "file", "not UTF-8 text"},
    {"lifter:\n  näme: \xC0\x80\n", 2, 9, "file", "not UTF-8 text"},
    {"lifter:\n  name: \x01\n", 2, 9, "file", "control characters are not allowed"},
    {"\xFF\xFEl\n", 1, 1, "file", "UTF-16"},
    /* places: after non-ASCII, after CRLF, after a byte order mark */
    {HEAD "setups:\n  zürich: {lift: squat, depth: 3}\n", 6, 32, "setups.zürich.depth", "unit"},
    {"lifter:\r\n  sex: male\r\n  mass: 85\r\n", 3, 9, "lifter.mass", "the unit is missing"},
    {"\xEF\xBB\xBFlifer:\n", 1, 1, "lifer", "did you mean lifter?"},
};

static void parse__refuses_with_the_place(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        PlumbLifterFile *file = NULL;
        PlumbError error = {.status = PLUMB_OK};
        const PlumbStatus status =
            plumb_lifter_file_parse(bad[i].text, strlen(bad[i].text), "x.yaml", &file, &error);
        if (status != PLUMB_BAD_INPUT || error.line != bad[i].line ||
            error.column != bad[i].column || strcmp(error.field, bad[i].field) != 0 ||
            strstr(error.message, bad[i].says) == NULL) {
            fail_msg("row %zu: status %d, %d:%d: %s: %s\n%s", i, (int)status, error.line,
                     error.column, error.field, error.message, bad[i].text);
        }
        assert_null(file);
        assert_int_equal(
            plumb_lifter_file_parse(bad[i].text, strlen(bad[i].text), NULL, &file, NULL),
            PLUMB_BAD_INPUT);
    }
}

static void parse__refuses_nul_and_too_large(void **unused)
{
    (void)unused;
    PlumbLifterFile *file = NULL;
    PlumbError error;
    assert_int_equal(plumb_lifter_file_parse("lifter:\n\0", 9, NULL, &file, &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(error.line, 2);
    assert_non_null(strstr(error.message, "a NUL byte"));
    const size_t size = PLUMB_LIFTER_FILE_MAX_BYTES + 1;
    char *const large = malloc(size);
    assert_non_null(large);
    memset(large, '#', size);
    assert_int_equal(plumb_lifter_file_parse(large, size, NULL, &file, &error), PLUMB_TOO_LARGE);
    assert_int_equal(plumb_lifter_file_parse(large, size - 1, NULL, &file, &error),
                     PLUMB_BAD_INPUT); /* one long comment */
    free(large);
    assert_null(file);
}

/* Every prefix of a file, and every file with one byte changed, is read or refused cleanly. */
static void parse__no_damage_upsets_it(void **unused)
{
    (void)unused;
    static const char text[] =
        PULL "    stance: \"32 cm\"  # c\n  sq: {lift: squat, note: 'a ''b'}\n"
             "measures:\n  thigh: |\n    44 cm\n  foot: 27 cm ± 1 cm\n";
    const size_t length = sizeof text - 1;
    static const char put[] = "\0\n\t :#-{}[]'\"&*!|>%@?,\xC3\xEF"
                              "0a";
    for (size_t i = 0; i <= length; i++) {
        PlumbLifterFile *file = NULL;
        PlumbError error;
        if (plumb_lifter_file_parse(text, i, NULL, &file, &error) != PLUMB_OK) {
            assert_null(file);
            assert_true(error.line >= 1 && error.column >= 1 && error.message[0] != '\0');
        }
        plumb_lifter_file_free(file);
        for (size_t k = 0; i < length && k < sizeof put - 1; k++) {
            char damaged[sizeof text];
            memcpy(damaged, text, sizeof text);
            damaged[i] = put[k];
            file = NULL;
            if (plumb_lifter_file_parse(damaged, length, NULL, &file, NULL) != PLUMB_OK) {
                assert_null(file);
            }
            plumb_lifter_file_free(file);
        }
    }
}

static void setup__is_found_by_name(void **unused)
{
    (void)unused;
    PlumbLifterFile *const file = parsed(SQUAT "  wide pull:\n    lift: deadlift\n");
    PlumbError error;
    assert_ptr_equal(plumb_lifter_file_setup(file, "wide pull", &error), &file->setup[1]);
    assert_null(plumb_lifter_file_setup(file, "wide pul", &error));
    assert_non_null(strstr(error.message, "did you mean \"wide pull\"?"));
    assert_non_null(strstr(error.message, "\"sq\", \"wide pull\""));
    int line = 0;
    int column = 0;
    assert_true(plumb_lifter_file_place(file, "lifter.mass", &line, &column));
    assert_int_equal(line, 4);
    assert_int_equal(column, 9);
    assert_true(plumb_lifter_file_place(file, "setups.wide pull.lift", &line, &column));
    assert_int_equal(line, 9);
    assert_false(plumb_lifter_file_place(file, "measures.thigh", &line, &column));
    plumb_lifter_file_free(file);
    PlumbLifterFile *const none = parsed(HEAD);
    assert_null(plumb_lifter_file_setup(none, "a", &error));
    assert_non_null(strstr(error.message, "it has none"));
    plumb_lifter_file_free(none);
}

/* One change: `before` becomes `after`, byte for byte. name NULL: a value of the lifter. */
static const struct {
    const char *what;
    const char *section;
    const char *name;
    const char *key;
    const char *value;
    const char *before;
    const char *after;
} edits[] = {
    {"plain value, comment and trailing spaces kept", "lifter", NULL, "mass", "90 kg",
     "# Größe\nlifter:\n  sex: male   \n  stature: 178 cm\n  mass:   85 kg   # morning ±1\t \n\n\n",
     "# Größe\nlifter:\n  sex: male   \n  stature: 178 cm\n  mass:   90 kg   # morning ±1\t "
     "\n\n\n"},
    {"CRLF and byte order mark", "lifter", NULL, "stature", "180.5 cm",
     "\xEF\xBB\xBFlifter:\r\n  sex: male\r\n  stature: 178 cm\r\n  mass: 85 kg\r\n",
     "\xEF\xBB\xBFlifter:\r\n  sex: male\r\n  stature: 180.5 cm\r\n  mass: 85 kg\r\n"},
    {"double quotes stay", "lifter", NULL, "mass", "90 kg",
     "lifter: {\"sex\": \"male\", \"stature\": \"178 cm\", \"mass\": \"85 kg\"}",
     "lifter: {\"sex\": \"male\", \"stature\": \"178 cm\", \"mass\": \"90 kg\"}"},
    {"single quotes stay", "lifter", NULL, "name", "O'Hara", HEAD "  name: 'x'\n",
     HEAD "  name: 'O''Hara'\n"},
    {"a plain value that needs quotes gets them", "lifter", NULL, "name", "a: b # c",
     HEAD "  name: x\n", HEAD "  name: \"a: b # c\"\n"},
    {"no final line break", "lifter", NULL, "mass", "90 kg",
     "lifter:\n  sex: male\n  stature: 178 cm\n  mass: 85 kg",
     "lifter:\n  sex: male\n  stature: 178 cm\n  mass: 90 kg"},
    {"new key at the end of its section", "measures", NULL, "trunk", "52 cm",
     HEAD "measures:   # m\n    thigh: 44 cm # t\n# end\nshoes:\n  heel_lift: 1 mm\n",
     HEAD
     "measures:   # m\n    thigh: 44 cm # t\n    trunk: 52 cm\n# end\nshoes:\n  heel_lift: 1 mm\n"},
    {"new key in an empty section", "measures", NULL, "trunk", "52 cm",
     HEAD "measures:   # m\n  # thigh: 44 cm\nshoes:\n",
     HEAD "measures:   # m\n  trunk: 52 cm\n  # thigh: 44 cm\nshoes:\n"},
    {"new section at the end", "limits", NULL, "knee_flexion", "120 deg",
     HEAD "setups:\n  # none\n  #   yet\n# end\n",
     HEAD "setups:\n  # none\n  #   yet\nlimits:\n  knee_flexion: 120 deg\n# end\n"},
    {"new section, CRLF, no final line break", "shoes", NULL, "heel_lift", "19 mm",
     "lifter:\r\n  sex: male\r\n  stature: 178 cm\r\n  mass: 85 kg",
     "lifter:\r\n  sex: male\r\n  stature: 178 cm\r\n  mass: 85 kg\r\nshoes:\r\n  heel_lift: 19 "
     "mm"},
    {"new section before the end of the document", "shoes", NULL, "heel_lift", "19 mm",
     "---\n" HEAD "...\n", "---\n" HEAD "shoes:\n  heel_lift: 19 mm\n...\n"},
    {"two levels of sections", "equipment.bar", NULL, "mass", "15 kg", HEAD,
     HEAD "equipment:\n  bar:\n    mass: 15 kg\n"},
    {"the second of two levels", "equipment.discs", NULL, "diameter", "44 cm",
     HEAD "equipment:\n  bar:\n    mass: 15 kg\n",
     HEAD "equipment:\n  bar:\n    mass: 15 kg\n  discs:\n    diameter: 44 cm\n"},
    {"within brackets", "shoes", NULL, "ball_lift", "2 mm",
     HEAD "shoes: { heel_lift: 19 mm } # s\n",
     HEAD "shoes: { heel_lift: 19 mm, ball_lift: 2 mm } # s\n"},
    {"within empty brackets", "shoes", NULL, "ball_lift", "2 mm", HEAD "shoes: {}\n",
     HEAD "shoes: {ball_lift: 2 mm}\n"},
    {"a section within brackets", "shoes", NULL, "ball_lift", "2 mm",
     "{\"lifter\": {\"sex\": \"male\", \"stature\": \"178 cm\", \"mass\": \"85 kg\"}}",
     "{\"lifter\": {\"sex\": \"male\", \"stature\": \"178 cm\", \"mass\": \"85 kg\"}, \"shoes\": "
     "{\"ball_lift\": \"2 mm\"}}"},
    {"a block scalar", "measures", NULL, "thigh", "45 cm",
     HEAD "measures:\n  thigh: >-\n    44 cm\n  trunk: 52 cm\n",
     HEAD "measures:\n  thigh: 45 cm\n  trunk: 52 cm\n"},
    {"a setting of a set-up", NULL, "pull", "stance", "40 cm", PULL "    stance: 34 cm  # wide\n",
     PULL "    stance: 40 cm  # wide\n"},
    {"a new setting", NULL, "pull", "hip_height", "-3 cm",
     PULL "    stance: 34 cm  # wide\n  sq:\n    lift: squat\n",
     PULL "    stance: 34 cm  # wide\n    hip_height: -3 cm\n  sq:\n    lift: squat\n"},
    {"a note with lines", NULL, "pull", "note", "one\ntwo \"2\"", PULL,
     PULL "    note: \"one\\ntwo \\\"2\\\"\"\n"},
    {"a setting is taken out", NULL, "pull", "stance", NULL,
     PULL "    stance: 34 cm  # wide\n    load: 120 kg\n", PULL "    load: 120 kg\n"},
    {"the last setting is taken out", NULL, "pull", "stance", NULL, PULL "    stance: 34 cm",
     HEAD "setups:\n  pull:\n    lift: deadlift"},
    {"a measure is taken out", "measures", NULL, "span", NULL,
     HEAD "measures:\n  thigh: 44 cm\n  span: 182 cm # twice\n# end\n",
     HEAD "measures:\n  thigh: 44 cm\n# end\n"},
    {"the only measure is taken out", "measures", NULL, "span", NULL,
     HEAD "measures:\n  span: 182 cm\n# end\n", HEAD "measures:\n# end\n"},
    {"a measure that is not there", "measures", NULL, "span", NULL, PULL, PULL},
    {"one that is not there", NULL, "pull", "stance", NULL, PULL, PULL},
    {"within brackets, the first", NULL, "a", "stance", NULL,
     HEAD "setups: {a: {stance: 34 cm, lift: deadlift}}\n", HEAD "setups: {a: {lift: deadlift}}\n"},
    {"within brackets, the last", NULL, "a", "stance", NULL,
     HEAD "setups: {a: {lift: deadlift, stance: 34 cm}}\n", HEAD "setups: {a: {lift: deadlift}}\n"},
};

static void edit__changes_only_what_it_must(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof edits / sizeof edits[0]; i++) {
        PlumbLifterFile *const file = parsed(edits[i].before);
        PlumbError error = {.status = PLUMB_OK};
        PlumbStatus status = PLUMB_OK;
        if (edits[i].section != NULL && edits[i].value == NULL) {
            status = plumb_lifter_file_unset(file, edits[i].section, edits[i].key, &error);
        } else if (edits[i].section != NULL) {
            status =
                plumb_lifter_file_set(file, edits[i].section, edits[i].key, edits[i].value, &error);
        } else if (edits[i].value != NULL) {
            status = plumb_lifter_file_set_setup(file, edits[i].name, edits[i].key, edits[i].value,
                                                 &error);
        } else {
            status = plumb_lifter_file_unset_setup(file, edits[i].name, edits[i].key, &error);
        }
        if (status != PLUMB_OK) {
            fail_msg("%s: %s: %s", edits[i].what, error.field, error.message);
        }
        if (strcmp(file->bytes, edits[i].after) != 0) {
            fail_msg("%s:\n%s", edits[i].what, file->bytes);
        }
        assert_int_equal(file->length, strlen(edits[i].after));
        assert_int_equal(file->changed, strcmp(edits[i].before, edits[i].after) != 0);
        plumb_lifter_file_free(file);
    }
}

static void edit__that_fails_leaves_the_file(void **unused)
{
    (void)unused;
    PlumbLifterFile *const file = parsed(PULL);
    PlumbError error;
    assert_int_equal(plumb_lifter_file_set(file, "measures", "thigh", "44", &error),
                     PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "measures.thigh");
    assert_int_equal(plumb_lifter_file_set(file, "measures", "thihg", "44 cm", &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_set(file, "measures", "thigh", "144 cm", &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(error.line, 0);
    assert_int_equal(plumb_lifter_file_set_setup(file, "pul", "stance", "30 cm", &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_set_setup(file, "pull", "stance", "3 cm", &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_set_setup(file, "pull", "stance", "", &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_unset_setup(file, "pull", "lift", &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_unset(file, "lifter", "sex", &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_unset(file, "measures", "thihg", &error), PLUMB_BAD_INPUT);
    assert_string_equal(file->bytes, PULL);
    assert_false(file->changed);
    plumb_lifter_file_free(file);
}

static void add_setup__writes_what_differs(void **unused)
{
    (void)unused;
    PlumbLifterFile *const file = parsed(HEAD "shoes:\n  heel_lift: 19 mm\n");
    PlumbError error;
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.heel_lift_m = 0.019;
    plumb_setup_style(&setup, PLUMB_SUMO);
    setup.stance_m = 0.65;
    setup.hip_height_m = -0.03;
    setup.hip_height_relative = true;
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    assert_int_equal(plumb_lifter_file_add_setup(file, "my: pull", &setup, &error), PLUMB_OK);
    PlumbSetup squat = plumb_setup_default(PLUMB_SQUAT);
    squat.knees_over_toes = true;
    plumb_setup_seat(&squat, PLUMB_FRONT_BAR);
    assert_int_equal(plumb_lifter_file_add_setup(file, "front", &squat, &error), PLUMB_OK);
    assert_string_equal(file->bytes, HEAD "shoes:\n  heel_lift: 19 mm\nsetups:\n"
                                          "  \"my: pull\":\n    lift: deadlift\n    style: sumo\n"
                                          "    stance: 65 cm\n    hip_height: -3 cm\n"
                                          "  front:\n    lift: squat\n"
                                          "    knees_out: over_toes\n    bar: front\n"
                                          "    heel_lift: 0 mm\n");
    assert_int_equal(plumb_lifter_file_add_setup(file, "front", &squat, &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_add_setup(file, "", &squat, &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_file_add_setup(file, "a\nb", &squat, &error), PLUMB_BAD_INPUT);
    plumb_lifter_file_free(file);
}

static uint64_t state = 7;

static double chance(void)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return (double)(state >> 11) / 9007199254740992.0;
}

static PlumbSetup random_setup(void)
{
    static const PlumbLead leads[PLUMB_LIFT_COUNT][4] = {
        {PLUMB_LEAD_BALANCE, PLUMB_LEAD_HIP_HEIGHT, PLUMB_LEAD_HEIGHT_AND_BALANCE, PLUMB_LEAD_AUTO},
        {PLUMB_LEAD_AUTO, PLUMB_LEAD_SHIN_ANGLE, PLUMB_LEAD_BACK_ANGLE, PLUMB_LEAD_AUTO},
        {PLUMB_LEAD_AUTO, PLUMB_LEAD_TOUCH, PLUMB_LEAD_TOUCH, PLUMB_LEAD_AUTO}};
    const PlumbLift lift = (PlumbLift)(int)(chance() * PLUMB_LIFT_COUNT);
    PlumbSetup setup = plumb_setup_default(lift);
    if (lift == PLUMB_DEADLIFT && chance() < 0.5) {
        plumb_setup_style(&setup, PLUMB_SUMO);
    }
    if (lift == PLUMB_SQUAT) {
        plumb_setup_seat(&setup, (PlumbSeat)(int)(chance() * 3));
    }
    const PlumbLead lead = leads[lift][(int)(chance() * 4)];
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        const bool pair = lead == PLUMB_LEAD_HEIGHT_AND_BALANCE && row->id == PLUMB_SET_balance;
        setup.lead = lead;
        if (row->leads[lift] && !pair && plumb_setup_lead_setting(&setup) != row->id) {
            continue;
        }
        if (row->id != PLUMB_SET_deficit && chance() < 0.7) {
            plumb_setup_set(&setup, row->id, row->min_si + chance() * (row->max_si - row->min_si));
        }
        if (plumb_setup_lead_setting(&setup) == PLUMB_SET_hip_height && setup.hip_height_m < 0.3) {
            setup.hip_height_m = 0.5;
        }
    }
    setup.lead = lead;
    return setup;
}

/* Any set-up that can be had comes back from the file the same, to a billionth. */
static void add_setup__reads_back(void **unused)
{
    (void)unused;
    for (int i = 0; i < 2000; i++) {
        PlumbLifterFile *const file = parsed(HEAD "shoes: {heel_lift: 12 mm}\n");
        const PlumbSetup setup = random_setup();
        PlumbError error = {.status = PLUMB_OK};
        PlumbSetup back;
        if (plumb_lifter_file_add_setup(file, "s", &setup, &error) != PLUMB_OK) {
            fail_msg("%s: %s", error.field, error.message);
        }
        assert_int_equal(plumb_setup_entry_close(&file->setup[0].entry, &back, NULL), PLUMB_OK);
        assert_int_equal(back.lift, setup.lift);
        assert_int_equal(back.lead, setup.lead);
        assert_int_equal(back.style, setup.style);
        assert_int_equal(back.seat, setup.seat);
        assert_int_equal(back.elbows_given, setup.elbows_given);
        for (int k = 0; k < PLUMB_SETTING_COUNT; k++) {
            const PlumbSetting *const row = plumb_setting((PlumbSettingId)k);
            if (row->quantity != PLUMB_Q_WORD && row->lifts[setup.lift]) {
                assert_near(plumb_setup_get(&back, row->id), plumb_setup_get(&setup, row->id),
                            1e-9 * fmax(1, setup.load_kg));
            }
        }
        plumb_lifter_file_free(file);
    }
}

static void record__sets_by_key(void **unused)
{
    (void)unused;
    PlumbLifterRecord record = plumb_lifter_record();
    PlumbError error;
    PlumbLifter lifter;
    assert_int_equal(plumb_lifter_record_lifter(&record, &lifter, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "sex, stature and mass are missing"));
    assert_int_equal(plumb_lifter_record_set(&record, "sex", "male", &error), PLUMB_OK);
    assert_int_equal(plumb_lifter_record_set(&record, "lifter.stature", "178cm", &error), PLUMB_OK);
    assert_int_equal(plumb_lifter_record_lifter(&record, &lifter, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "mass is missing"));
    assert_int_equal(plumb_lifter_record_set(&record, "mass", "85kg", &error), PLUMB_OK);
    assert_int_equal(plumb_lifter_record_set(&record, "strength.hip", "1.2", &error), PLUMB_OK);
    assert_int_equal(plumb_lifter_record_set(&record, "equipment.bar.mass", "15kg", &error),
                     PLUMB_OK);
    assert_int_equal(plumb_lifter_record_lifter(&record, &lifter, &error), PLUMB_OK);
    assert_near(lifter.strength[PLUMB_JOINT_hip], 1.2, 0);
    assert_near(lifter.equipment.bar_mass_kg, 15, 0);
    const PlumbLifterRecord before = record;
    assert_int_equal(plumb_lifter_record_set(&record, "thihg", "44cm", &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "did you mean thigh?"));
    assert_int_equal(plumb_lifter_record_set(&record, "hip", "1.2", &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_lifter_record_set(&record, "strength.hip", "12", &error),
                     PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "strength.hip");
    assert_memory_equal(&record, &before, sizeof record);
    assert_int_equal(plumb_lifter_record_set(&record, "thigh", "9cm", &error), PLUMB_OK);
    assert_int_equal(plumb_lifter_record_lifter(&record, &lifter, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "measures.thigh");
    assert_true(plumb_lifter_record_has_key("limits.hip_flexion"));
    assert_true(plumb_lifter_record_has_key("foot"));
    assert_false(plumb_lifter_record_has_key("bar.mass"));
}

/* Every key's example reads, so that what help shows works. */
static void record__examples_read(void **unused)
{
    (void)unused;
    PlumbLifterField field;
    size_t count = 0;
    for (; plumb_lifter_field(count, &field); count++) {
        PlumbLifterRecord record = plumb_lifter_record();
        PlumbError error;
        char key[80];
        snprintf(key, sizeof key, "%s.%s", field.section, field.key);
        if (plumb_lifter_record_set(&record, key, field.example, &error) != PLUMB_OK) {
            fail_msg("%s: %s", key, error.message);
        }
    }
    const int lunge_and_best = 1 + 2;
    assert_int_equal(count, 8 + PLUMB_LENGTH_COUNT + PLUMB_TAPE_COUNT + 2 + PLUMB_LIMIT_COUNT + 1 +
                                PLUMB_JOINT_COUNT + PLUMB_EQUIPMENT_COUNT + lunge_and_best);
}

static void new_text__reads_back_to_the_same_record(void **unused)
{
    (void)unused;
    static const char *const settings[][2] = {
        {"sex", "female"},
        {"stature", "5ft6"},
        {"mass", "137.5 lb"},
        {"name", "- # odd: ñame"},
        {"age", "34.5"},
        {"thigh", "+1.25 sd"},
        {"shank", "40.1 cm ± 7 mm"},
        {"span", "66 in"},
        {"mass_table", "classic"},
        {"note", "one\ntwo"},
        {"heel_lift", "0.75 in"},
        {"knee_flexion", "2.2 rad"},
        {"strength.knee", "95%"},
        {"equipment.discs.diameter", "17.7 in"},
    };
    PlumbLifterRecord record = plumb_lifter_record();
    PlumbError error;
    char *text = NULL;
    size_t length = 0;
    assert_int_equal(plumb_lifter_file_new_text(&record, &text, &length, &error), PLUMB_BAD_INPUT);
    assert_null(text);
    for (size_t i = 0; i < sizeof settings / sizeof settings[0]; i++) {
        assert_int_equal(plumb_lifter_record_set(&record, settings[i][0], settings[i][1], &error),
                         PLUMB_OK);
    }
    assert_int_equal(plumb_lifter_file_new_text(&record, &text, &length, &error), PLUMB_OK);
    assert_int_equal(strlen(text), length);
    PlumbLifterFile *const file = parsed(text);
    assert_string_equal(file->record.name, record.name);
    assert_string_equal(file->record.note, record.note);
    const PlumbBodySpec *const got = &file->record.spec;
    const PlumbBodySpec *const want = &record.spec;
    assert_int_equal(got->sex, want->sex);
    assert_int_equal(got->mass_table, want->mass_table);
    assert_near(got->stature_m, want->stature_m, 1e-9);
    assert_near(got->mass_kg, want->mass_kg, 1e-7);
    assert_near(got->age_years, want->age_years, 1e-9);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        assert_int_equal(got->measure[i].kind, want->measure[i].kind);
        assert_near(got->measure[i].value, want->measure[i].value, 1e-9);
        assert_near(got->measure[i].sd_m, want->measure[i].sd_m, 1e-9);
    }
    assert_near(got->tape[PLUMB_TAPE_span].value, want->tape[PLUMB_TAPE_span].value, 1e-9);
    assert_near(file->record.heel_m, record.heel_m, 1e-9);
    assert_near(file->record.limit_rad[PLUMB_LIMIT_knee_flexion], 2.2, 1e-9);
    assert_near(file->record.strength[PLUMB_JOINT_knee], 0.95, 1e-9);
    assert_false(file->record.strength_given[PLUMB_JOINT_hip]);
    assert_near(file->record.equipment[PLUMB_EQUIP_disc_diameter], 0.44958, 1e-9);
    plumb_lifter_file_free(file);
    free(text);
}

static void examples__read_and_build(void **unused)
{
    (void)unused;
    static const char *const names[] = {"long-thighs-short-trunk", "long-arms",
                                        "short-limbs-long-trunk", "tall-stiff-ankles",
                                        "even-build"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[300];
        PlumbLifterFile *file = NULL;
        PlumbError error;
        bool lifts[PLUMB_LIFT_COUNT] = {false, false};
        snprintf(path, sizeof path, "%s/examples/%s.yaml", PLUMB_SOURCE_DIR, names[i]);
        if (plumb_lifter_file_read(path, &file, &error) != PLUMB_OK) {
            fail_msg("%s:%d:%d: %s: %s", path, error.line, error.column, error.field,
                     error.message);
        }
        for (size_t k = 0; k < file->setup_count; k++) {
            lifts[file->setup[k].lift] = true;
        }
        assert_true(lifts[PLUMB_DEADLIFT] && lifts[PLUMB_SQUAT]);
        assert_string_equal(file->path, path);
        plumb_lifter_file_free(file);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parse__reads_every_section),
        cmocka_unit_test(parse__takes_windows_files_and_empty_sections),
        cmocka_unit_test(parse__refuses_with_the_place),
        cmocka_unit_test(parse__refuses_nul_and_too_large),
        cmocka_unit_test(parse__no_damage_upsets_it),
        cmocka_unit_test(setup__is_found_by_name),
        cmocka_unit_test(edit__changes_only_what_it_must),
        cmocka_unit_test(edit__that_fails_leaves_the_file),
        cmocka_unit_test(add_setup__writes_what_differs),
        cmocka_unit_test(add_setup__reads_back),
        cmocka_unit_test(record__sets_by_key),
        cmocka_unit_test(record__examples_read),
        cmocka_unit_test(new_text__reads_back_to_the_same_record),
        cmocka_unit_test(examples__read_and_build),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
