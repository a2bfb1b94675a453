/* SPDX-License-Identifier: MIT */
/* Set-ups: the table of settings, defaults, presets, leads, layers, and what is refused. */
#include "support.h"

#include <plumbar/setup.h>

#include <string.h>

#define DEGREE (3.14159265358979323846 / 180)

enum { LINE_SIZE = 200 };

/* Adds "key=value key=value"; " / " starts a layer over what came before. */
static PlumbStatus add_all(PlumbSetupEntry *entry, const char *line, PlumbError *error)
{
    char copy[LINE_SIZE];
    snprintf(copy, sizeof copy, "%s", line);
    PlumbStatus status = PLUMB_OK;
    for (char *word = strtok(copy, " "); word != NULL && status == PLUMB_OK;
         word = strtok(NULL, " ")) {
        if (strcmp(word, "/") == 0) {
            *entry = plumb_setup_entry_over(entry);
            continue;
        }
        char *const equals = strchr(word, '=');
        *equals = '\0';
        status = plumb_setup_entry_add(entry, word, equals + 1, error);
    }
    return status;
}

static PlumbStatus read_setup(PlumbLift lift, const char *line, PlumbSetup *setup,
                              PlumbError *error)
{
    PlumbSetupEntry entry = plumb_setup_entry(lift, 0.019, 0.003);
    const PlumbStatus status = add_all(&entry, line, error);
    return status == PLUMB_OK ? plumb_setup_entry_close(&entry, setup, error) : status;
}

static void table__rows_are_complete(void **unused)
{
    (void)unused;
    static const char *const keys[] = {
#define X(name) #name,
        PLUMB_SETTING_LIST(X)
#undef X
    };
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        assert_int_equal(row->id, i);
        assert_string_equal(row->key, keys[i]);
        assert_ptr_equal(plumb_setting_find(keys[i], strlen(keys[i])), row);
        assert_true(row->lifts[PLUMB_DEADLIFT] || row->lifts[PLUMB_SQUAT] ||
                    row->lifts[PLUMB_BENCH]);
        assert_true(strlen(row->meaning) > 10);
        assert_true(strlen(row->source) > 3);
        if (row->quantity == PLUMB_Q_WORD) {
            assert_true(row->offset == (size_t)-1);
            continue;
        }
        assert_true(row->offset < sizeof(PlumbSetup));
        assert_true(row->min_si < row->max_si && row->step_si > 0);
        for (int lift = 0; lift < PLUMB_LIFT_COUNT; lift++) {
            const double value = row->default_si[lift];
            assert_true(isnan(value) || (value >= row->min_si && value <= row->max_si));
            assert_true(!row->leads[lift] || row->lifts[lift]);
        }
    }
    assert_null(plumb_setting_find("stanc", 5));
    assert_string_equal(plumb_setting(PLUMB_SET_stance)->json_key, "stance_m");
    assert_string_equal(plumb_setting(PLUMB_SET_toes)->json_key, "toes_rad");
    assert_string_equal(plumb_setting(PLUMB_SET_load)->json_key, "load_kg");
    assert_string_equal(plumb_setting(PLUMB_SET_path_exponent)->json_key, "path_exponent");
}

/* Each numeric setting has a place of its own in the set-up: setting one changes no other. */
static void table__places_are_distinct(void **unused)
{
    (void)unused;
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        const PlumbLift lift = row->lifts[PLUMB_DEADLIFT] ? PLUMB_DEADLIFT
                               : row->lifts[PLUMB_SQUAT]  ? PLUMB_SQUAT
                                                          : PLUMB_BENCH;
        PlumbSetup setup = plumb_setup_default(lift);
        const PlumbSetup before = setup;
        const bool numeric = row->quantity != PLUMB_Q_WORD;
        assert_int_equal(plumb_setup_set(&setup, row->id, row->max_si), numeric);
        for (int k = 0; k < PLUMB_SETTING_COUNT; k++) {
            const double now = plumb_setup_get(&setup, (PlumbSettingId)k);
            const double then = plumb_setup_get(&before, (PlumbSettingId)k);
            if (k == i && numeric) {
                assert_near(now, row->max_si, 0);
            } else {
                assert_true((isnan(now) && isnan(then)) || !(fabs(now - then) > 0));
            }
        }
    }
}

static void default__is_that_of_the_table(void **unused)
{
    (void)unused;
    const PlumbSetup pull = plumb_setup_default(PLUMB_DEADLIFT);
    assert_int_equal(pull.lead, PLUMB_LEAD_BALANCE);
    assert_near(pull.balance_frac, 0.40, 1e-15);
    assert_near(pull.stance_m, 0.32, 1e-15);
    assert_near(pull.toes_rad, 14 * DEGREE, 1e-15);
    assert_near(pull.grip_m, 0.55, 1e-15);
    assert_near(pull.spine_rad, 15 * DEGREE, 1e-15);
    assert_near(pull.shoulder_ahead_max_frac, 0.10, 1e-15);
    const PlumbSetup squat = plumb_setup_default(PLUMB_SQUAT);
    assert_int_equal(squat.lead, PLUMB_LEAD_AUTO);
    assert_near(squat.balance_frac, 0.50, 1e-15);
    assert_near(squat.stance_m, 0.45, 1e-15);
    assert_near(squat.grip_m, 0.80, 1e-15);
    assert_near(squat.depth_m, 0.02, 1e-15);
    const PlumbSetup press = plumb_setup_default(PLUMB_BENCH);
    assert_int_equal(press.lead, PLUMB_LEAD_AUTO);
    assert_false(press.elbows_given);
    assert_near(press.grip_m, 0.60, 1e-15);
    assert_near(press.bench_height_m, 0.435, 1e-15);
    assert_near(press.arch_m, 0.03, 1e-15);
    assert_near(press.path_exponent, 1.0, 0.0);
    PlumbError error;
    assert_int_equal(plumb_setup_check(&pull, &error), PLUMB_OK);
    assert_int_equal(plumb_setup_check(&squat, &error), PLUMB_OK);
    assert_int_equal(plumb_setup_check(&press, &error), PLUMB_OK);
}

/* What a line of entries gives. NaN: not looked at. */
static const struct {
    PlumbLift lift;
    const char *line;
    PlumbLead lead;
    PlumbSettingId setting;
    double value;
} good[] = {
    {PLUMB_DEADLIFT, "", PLUMB_LEAD_BALANCE, PLUMB_SET_heel_lift, 0.019},
    {PLUMB_DEADLIFT, "heel_lift=5mm", PLUMB_LEAD_BALANCE, PLUMB_SET_heel_lift, 0.005},
    {PLUMB_SQUAT, "", PLUMB_LEAD_AUTO, PLUMB_SET_ball_lift, 0.003},
    {PLUMB_DEADLIFT, "style=sumo", PLUMB_LEAD_BALANCE, PLUMB_SET_stance, 0.70},
    {PLUMB_DEADLIFT, "style=sumo", PLUMB_LEAD_BALANCE, PLUMB_SET_toes, 42 * DEGREE},
    {PLUMB_DEADLIFT, "style=sumo", PLUMB_LEAD_BALANCE, PLUMB_SET_grip, 0.47},
    {PLUMB_DEADLIFT, "style=sumo stance=60cm", PLUMB_LEAD_BALANCE, PLUMB_SET_stance, 0.60},
    {PLUMB_DEADLIFT, "stance=60cm style=sumo", PLUMB_LEAD_BALANCE, PLUMB_SET_stance, 0.60},
    {PLUMB_DEADLIFT, "stance=60cm style=sumo", PLUMB_LEAD_BALANCE, PLUMB_SET_grip, 0.47},
    {PLUMB_DEADLIFT, "stance=60cm / style=sumo", PLUMB_LEAD_BALANCE, PLUMB_SET_stance, 0.70},
    {PLUMB_DEADLIFT, "style=sumo / stance=60cm", PLUMB_LEAD_BALANCE, PLUMB_SET_grip, 0.47},
    {PLUMB_SQUAT, "bar=low", PLUMB_LEAD_AUTO, PLUMB_SET_grip, 0.80},
    {PLUMB_SQUAT, "bar=front", PLUMB_LEAD_AUTO, PLUMB_SET_grip, 0.65},
    {PLUMB_SQUAT, "bar=front grip=70cm", PLUMB_LEAD_AUTO, PLUMB_SET_grip, 0.70},
    {PLUMB_SQUAT, "grip=80cm bar=front", PLUMB_LEAD_AUTO, PLUMB_SET_grip, 0.80},
    {PLUMB_SQUAT, "grip=90cm / bar=front", PLUMB_LEAD_AUTO, PLUMB_SET_grip, 0.90},
    {PLUMB_SQUAT, "bar=front / bar=high", PLUMB_LEAD_AUTO, PLUMB_SET_grip, 0.80},
    {PLUMB_DEADLIFT, "hip_height=60cm", PLUMB_LEAD_HIP_HEIGHT, PLUMB_SET_hip_height, 0.60},
    {PLUMB_DEADLIFT, "hip_height=+3cm", PLUMB_LEAD_HIP_HEIGHT, PLUMB_SET_hip_height, 0.03},
    {PLUMB_DEADLIFT, "hip_height=-3cm", PLUMB_LEAD_HIP_HEIGHT, PLUMB_SET_hip_height, -0.03},
    {PLUMB_DEADLIFT, "hip_height=60cm balance=0.45", PLUMB_LEAD_HEIGHT_AND_BALANCE,
     PLUMB_SET_balance, 0.45},
    {PLUMB_DEADLIFT, "balance=45% hip_height=60cm", PLUMB_LEAD_HEIGHT_AND_BALANCE,
     PLUMB_SET_balance, 0.45},
    {PLUMB_DEADLIFT, "balance=0.45 / hip_height=60cm", PLUMB_LEAD_HIP_HEIGHT, PLUMB_SET_hip_height,
     0.60},
    {PLUMB_DEADLIFT, "hip_height=60cm balance=0.45 / balance=0.5", PLUMB_LEAD_BALANCE,
     PLUMB_SET_balance, 0.50},
    {PLUMB_DEADLIFT, "hip_height=60cm / load=200kg", PLUMB_LEAD_HIP_HEIGHT, PLUMB_SET_hip_height,
     0.60},
    {PLUMB_DEADLIFT, "hip_height=60cm balance=0.45 / load=200kg", PLUMB_LEAD_HEIGHT_AND_BALANCE,
     PLUMB_SET_load, 200},
    {PLUMB_DEADLIFT, "hip_height=60cm / balance=0.38", PLUMB_LEAD_BALANCE, PLUMB_SET_balance, 0.38},
    {PLUMB_DEADLIFT, "back_angle=30deg", PLUMB_LEAD_BACK_ANGLE, PLUMB_SET_back_angle, 30 * DEGREE},
    {PLUMB_DEADLIFT, "auto=yes", PLUMB_LEAD_AUTO, PLUMB_SET_balance, 0.40},
    {PLUMB_DEADLIFT, "auto=no", PLUMB_LEAD_BALANCE, PLUMB_SET_balance, 0.40},
    {PLUMB_DEADLIFT, "auto=no hip_height=60cm", PLUMB_LEAD_HIP_HEIGHT, PLUMB_SET_hip_height, 0.60},
    {PLUMB_DEADLIFT, "auto=yes / auto=no", PLUMB_LEAD_BALANCE, PLUMB_SET_balance, 0.40},
    {PLUMB_DEADLIFT, "auto=yes / back_angle=30deg", PLUMB_LEAD_BACK_ANGLE, PLUMB_SET_back_angle,
     30 * DEGREE},
    {PLUMB_SQUAT, "shin_angle=30deg", PLUMB_LEAD_SHIN_ANGLE, PLUMB_SET_shin_angle, 30 * DEGREE},
    {PLUMB_SQUAT, "shin_angle=30deg balance=0.45", PLUMB_LEAD_SHIN_ANGLE, PLUMB_SET_balance, 0.45},
    {PLUMB_SQUAT, "back_angle=55deg / auto=yes", PLUMB_LEAD_AUTO, PLUMB_SET_balance, 0.50},
    {PLUMB_SQUAT, "auto=no shin_angle=30deg", PLUMB_LEAD_SHIN_ANGLE, PLUMB_SET_shin_angle,
     30 * DEGREE},
    {PLUMB_SQUAT, "depth=-2in", PLUMB_LEAD_AUTO, PLUMB_SET_depth, -0.0508},
    {PLUMB_SQUAT, "toes=75deg", PLUMB_LEAD_AUTO, PLUMB_SET_toes, 75 * DEGREE},
    {PLUMB_DEADLIFT, "load=440lb", PLUMB_LEAD_BALANCE, PLUMB_SET_load, 199.5806428},
    {PLUMB_DEADLIFT, "blocks=5cm deficit=0cm", PLUMB_LEAD_BALANCE, PLUMB_SET_blocks, 0.05},
    {PLUMB_DEADLIFT, "deficit=3cm / deficit=0cm blocks=5cm", PLUMB_LEAD_BALANCE, PLUMB_SET_blocks,
     0.05},
};

static void entry__good_lines(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        PlumbSetup setup;
        PlumbError error = {.status = PLUMB_OK};
        if (read_setup(good[i].lift, good[i].line, &setup, &error) != PLUMB_OK) {
            fail_msg("%s: %s: %s", good[i].line, error.field, error.message);
        }
        if (setup.lead != good[i].lead) {
            fail_msg("%s: led by %s", good[i].line, plumb_lead_name(setup.lead));
        }
        assert_near(plumb_setup_get(&setup, good[i].setting), good[i].value, 1e-12);
        assert_int_equal(plumb_setup_check(&setup, &error), PLUMB_OK);
    }
}

static const struct {
    PlumbLift lift;
    const char *line;
    const char *field;
    const char *says;
} bad[] = {
    {PLUMB_DEADLIFT, "stanc=30cm", "stanc", "not a setting of the deadlift; did you mean stance?"},
    {PLUMB_DEADLIFT, "colour=red", "colour", "not a setting of the deadlift"},
    {PLUMB_DEADLIFT, "depth=2cm", "depth", "a setting of the squat, not of the deadlift"},
    {PLUMB_DEADLIFT, "shin_angle=20deg", "shin_angle", "a setting of the squat"},
    {PLUMB_SQUAT, "hip_height=60cm", "hip_height", "a setting of the deadlift, not of the squat"},
    {PLUMB_SQUAT, "style=sumo", "style", "a setting of the deadlift"},
    {PLUMB_DEADLIFT, "stance=30cm stance=30cm", "stance", "given twice"},
    {PLUMB_DEADLIFT, "auto=yes auto=yes", "auto", "given twice"},
    {PLUMB_DEADLIFT, "stance=30", "stance", "the unit is missing"},
    {PLUMB_DEADLIFT, "stance=30deg", "stance", "deg makes it an angle"},
    {PLUMB_DEADLIFT, "stance=9cm", "stance", "9 cm is out of range; 10 cm to 130 cm is allowed"},
    {PLUMB_DEADLIFT, "stance=131cm", "stance", "131 cm is out of range"},
    {PLUMB_DEADLIFT, "toes=-1deg", "toes", "-1 deg is out of range; 0 deg to 75 deg is allowed"},
    {PLUMB_DEADLIFT, "load=-5kg", "load", "0 kg to 600 kg is allowed"},
    {PLUMB_DEADLIFT, "balance=0.71", "balance", "0.71 is out of range; 0.2 to 0.7 is allowed"},
    {PLUMB_DEADLIFT, "heel_lift=6cm", "heel_lift", "60 mm is out of range; 0 mm to 50 mm"},
    {PLUMB_DEADLIFT, "hip_height=+2m", "hip_height", "-100 cm to 100 cm is allowed"},
    {PLUMB_DEADLIFT, "knees_out=wide", "knees_out", "not a number with a unit"},
    {PLUMB_DEADLIFT, "style=sumu", "style", "conventional or sumo is allowed; did you mean sumo?"},
    {PLUMB_SQUAT, "bar=hihg", "bar", "high, low or front is allowed; did you mean high?"},
    {PLUMB_SQUAT, "auto=maybe", "auto", "yes or no is allowed"},
    {PLUMB_DEADLIFT, "balance=0.4 back_angle=30deg", "back_angle",
     "balance and back_angle cannot lead together"},
    {PLUMB_DEADLIFT, "hip_height=60cm auto=yes", "auto", "hip_height and auto cannot lead"},
    {PLUMB_DEADLIFT, "hip_height=60cm balance=0.4 auto=yes", "auto",
     "balance, hip_height and auto cannot lead together; give one, or hip_height with balance"},
    {PLUMB_SQUAT, "shin_angle=30deg back_angle=50deg", "shin_angle", "cannot lead together"},
    {PLUMB_SQUAT, "auto=no", "auto", "shin_angle, back_angle or auto leads"},
    {PLUMB_BENCH, "auto=no", "auto", "touch or auto leads"},
    {PLUMB_BENCH, "touch=10cm auto=yes", "touch", "auto and touch cannot lead together"},
    {PLUMB_BENCH, "touch=26cm", "touch", "-5 cm to 25 cm is allowed"},
    {PLUMB_BENCH, "elbows=95deg", "elbows", "20 deg to 90 deg is allowed"},
    {PLUMB_BENCH, "bench_height=50cm", "bench_height", "42 cm to 45 cm is allowed"},
    {PLUMB_BENCH, "stance=40cm", "stance",
     "a setting of the deadlift and the squat, not of the bench press"},
    {PLUMB_BENCH, "tuch=4cm", "tuch", "not a setting of the bench press; did you mean touch?"},
    {PLUMB_SQUAT, "arch=4cm", "arch", "a setting of the bench press, not of the squat"},
    {PLUMB_DEADLIFT, "deficit=2cm blocks=2cm", "blocks", "together are not possible"},
    {PLUMB_DEADLIFT, "deficit=2cm / blocks=2cm", "blocks", "together are not possible"},
};

static void entry__bad_lines_are_refused(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        PlumbSetup setup;
        memset(&setup, 0x5A, sizeof setup);
        const PlumbSetup before = setup;
        PlumbError error = {.status = PLUMB_OK};
        assert_int_equal(read_setup(bad[i].lift, bad[i].line, &setup, &error), PLUMB_BAD_INPUT);
        if (strcmp(error.field, bad[i].field) != 0 || strstr(error.message, bad[i].says) == NULL) {
            fail_msg("%s: %s: %s", bad[i].line, error.field, error.message);
        }
        assert_memory_equal(&setup, &before, sizeof setup);
    }
}

static void entry__is_unchanged_by_a_refused_key(void **unused)
{
    (void)unused;
    PlumbSetupEntry entry = plumb_setup_entry(PLUMB_DEADLIFT, 0, 0);
    const PlumbSetupEntry before = entry;
    assert_int_equal(plumb_setup_entry_add(&entry, "stance", "9 cm", NULL), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_setup_entry_add(&entry, "style", "x", NULL), PLUMB_BAD_INPUT);
    assert_memory_equal(&entry, &before, sizeof entry);
}

static void entry__words(void **unused)
{
    (void)unused;
    PlumbSetup setup;
    assert_int_equal(read_setup(PLUMB_SQUAT, "knees_out=over_toes bar=front", &setup, NULL),
                     PLUMB_OK);
    assert_true(setup.knees_over_toes);
    assert_int_equal(setup.seat, PLUMB_FRONT_BAR);
    assert_int_equal(read_setup(PLUMB_SQUAT, "knees_out=over_toes / knees_out=5deg", &setup, NULL),
                     PLUMB_OK);
    assert_false(setup.knees_over_toes);
    assert_int_equal(read_setup(PLUMB_DEADLIFT, "hip_height=+3cm / hip_height=60cm", &setup, NULL),
                     PLUMB_OK);
    assert_false(setup.hip_height_relative);
    assert_int_equal(read_setup(PLUMB_DEADLIFT, "hip_height=−3cm", &setup, NULL), PLUMB_OK);
    assert_true(setup.hip_height_relative);
    assert_near(setup.hip_height_m, -0.03, 1e-15);
}

static void set__clips_and_leads(void **unused)
{
    (void)unused;
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    assert_true(plumb_setup_set(&setup, PLUMB_SET_stance, 9));
    assert_near(setup.stance_m, 1.3, 0);
    assert_int_equal(setup.lead, PLUMB_LEAD_BALANCE);
    assert_true(plumb_setup_set(&setup, PLUMB_SET_hip_height, 0.6));
    assert_int_equal(setup.lead, PLUMB_LEAD_HIP_HEIGHT);
    assert_int_equal(plumb_setup_lead_setting(&setup), PLUMB_SET_hip_height);
    assert_false(plumb_setup_set(&setup, PLUMB_SET_hip_height, (double)NAN));
    assert_false(plumb_setup_set(&setup, PLUMB_SET_style, 1));
    assert_false(plumb_setup_set(&setup, PLUMB_SET_depth, 0));
    assert_near(setup.hip_height_m, 0.6, 0);
    setup.lead = PLUMB_LEAD_HEIGHT_AND_BALANCE;
    assert_true(plumb_setup_set(&setup, PLUMB_SET_balance, 0.45));
    assert_int_equal(setup.lead, PLUMB_LEAD_HEIGHT_AND_BALANCE);
    assert_int_equal(plumb_setup_lead_setting(&setup), PLUMB_SET_hip_height);
    PlumbSetup squat = plumb_setup_default(PLUMB_SQUAT);
    assert_true(plumb_setup_set(&squat, PLUMB_SET_balance, 0.45));
    assert_int_equal(squat.lead, PLUMB_LEAD_AUTO);
    squat.knees_over_toes = true;
    assert_true(plumb_setup_set(&squat, PLUMB_SET_knees_out, 0.1));
    assert_false(squat.knees_over_toes);
    assert_true(isnan(plumb_setup_get(&squat, PLUMB_SET_bar)));
}

static void seat__moves_a_grip_that_was_not_chosen(void **unused)
{
    (void)unused;
    PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
    plumb_setup_seat(&setup, PLUMB_FRONT_BAR);
    assert_near(setup.grip_m, 0.65, 1e-15);
    plumb_setup_seat(&setup, PLUMB_LOW_BAR);
    assert_near(setup.grip_m, 0.80, 1e-15);
    setup.grip_m = 0.9;
    plumb_setup_seat(&setup, PLUMB_FRONT_BAR);
    assert_near(setup.grip_m, 0.9, 0);
}

static void check__names_what_is_wrong(void **unused)
{
    (void)unused;
    PlumbError error;
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.toes_rad = (double)NAN;
    assert_int_equal(plumb_setup_check(&setup, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "toes");
    setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.load_kg = (double)INFINITY;
    assert_int_equal(plumb_setup_check(&setup, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "load");
    setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    assert_int_equal(plumb_setup_check(&setup, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "hip_height");
    setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.lead = PLUMB_LEAD_SHIN_ANGLE;
    assert_int_equal(plumb_setup_check(&setup, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "shin_angle");
    setup = plumb_setup_default(PLUMB_SQUAT);
    setup.lead = (PlumbLead)99;
    assert_int_equal(plumb_setup_check(&setup, &error), PLUMB_BAD_INPUT);
}

/* What a value rests on: a default of one lift says nothing of another's. */
static void default_row__is_that_of_the_lift(void **unused)
{
    (void)unused;
    static const struct {
        PlumbLift lift;
        const char *line;
        PlumbSettingId id;
        const char *file; /* NULL: given */
        const char *key;
        const char *basis;
    } cases[] = {
        {PLUMB_DEADLIFT, "", PLUMB_SET_stance, "styles.csv", "conventional", "published"},
        {PLUMB_DEADLIFT, "style=sumo", PLUMB_SET_toes, "styles.csv", "sumo", "published"},
        {PLUMB_DEADLIFT, "style=sumo grip=55cm", PLUMB_SET_grip, NULL, NULL, NULL},
        {PLUMB_DEADLIFT, "stance=32cm", PLUMB_SET_stance, "styles.csv", "conventional",
         "published"},
        {PLUMB_DEADLIFT, "", PLUMB_SET_spine, "settings.csv", "spine", "memory"},
        {PLUMB_DEADLIFT, "", PLUMB_SET_rep_time, "settings.csv", "rep_time", "published"},
        {PLUMB_DEADLIFT, "load=140kg", PLUMB_SET_load, NULL, NULL, NULL},
        {PLUMB_DEADLIFT, "", PLUMB_SET_depth, NULL, NULL, NULL},
        {PLUMB_DEADLIFT, "", PLUMB_SET_hip_height, NULL, NULL, NULL},
        {PLUMB_SQUAT, "", PLUMB_SET_stance, "defaults.csv", "squat stance", "memory"},
        {PLUMB_SQUAT, "", PLUMB_SET_toes, "defaults.csv", "squat toes", "memory"},
        {PLUMB_SQUAT, "", PLUMB_SET_grip, "seats.csv", "high", "memory"},
        {PLUMB_SQUAT, "bar=front", PLUMB_SET_grip, "seats.csv", "front", "memory"},
        {PLUMB_SQUAT, "bar=front grip=80cm", PLUMB_SET_grip, NULL, NULL, NULL},
        {PLUMB_SQUAT, "", PLUMB_SET_heel_lift, NULL, NULL, NULL}, /* the lifter's own shoe */
        {PLUMB_SQUAT, "heel_lift=0mm", PLUMB_SET_heel_lift, "settings.csv", "heel_lift",
         "judgement"},
        {PLUMB_BENCH, "", PLUMB_SET_grip, "defaults.csv", "bench grip", "judgement"},
        {PLUMB_BENCH, "grip=60cm", PLUMB_SET_grip, NULL, NULL, NULL},
        {PLUMB_BENCH, "", PLUMB_SET_bench_height, "settings.csv", "bench_height", "rule"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        PlumbSetup setup;
        PlumbError error;
        assert_int_equal(read_setup(cases[i].lift, cases[i].line, &setup, &error), PLUMB_OK);
        const PlumbSourceRow *const row = plumb_setup_default_row(&setup, cases[i].id);
        if ((row == NULL) != (cases[i].file == NULL)) {
            fail_msg("%s \"%s\": default or given", plumb_setting(cases[i].id)->key, cases[i].line);
        }
        if (row != NULL) {
            assert_string_equal(row->file, cases[i].file);
            assert_string_equal(row->key, cases[i].key);
            assert_string_equal(row->basis, cases[i].basis);
        }
    }
}

/* defaults.csv says of which default it speaks: the figure of settings.csv. */
static void default_row__holds_the_figure_of_the_table(void **unused)
{
    (void)unused;
    int figures = 0;
    for (int i = 0; i < plumb_source_row_count(); i++) {
        const PlumbSourceRow *const row = plumb_source_row(i);
        if (strcmp(row->file, "defaults.csv") != 0) {
            continue;
        }
        const char *const space = strchr(row->key, ' ');
        PlumbLift lift = PLUMB_LIFT_COUNT;
        assert_non_null(space);
        assert_true(plumb_lift_find(row->key, (size_t)(space - row->key), &lift));
        const PlumbSetting *const setting = plumb_setting_find(space + 1, strlen(space + 1));
        assert_non_null(setting);
        assert_true(setting->lifts[lift]);
        double figure = 0.0;
        char unit[8];
        if (sscanf(row->figures, "unit %7[a-z], default %lf", unit, &figure) == 2) {
            const double factor = plumb_quantity_factor(setting->quantity, PLUMB_METRIC);
            assert_near(figure, setting->default_si[lift] * factor, 1e-9);
            figures++;
        }
    }
    assert_int_equal(figures, 2);
}

static void words__find_and_name(void **unused)
{
    (void)unused;
    PlumbLift lift = PLUMB_DEADLIFT;
    assert_true(plumb_lift_find("squat", 5, &lift));
    assert_int_equal(lift, PLUMB_SQUAT);
    assert_false(plumb_lift_find("squats", 6, &lift));
    assert_string_equal(plumb_lift_name(PLUMB_DEADLIFT), "deadlift");
    assert_string_equal(plumb_style_name(PLUMB_SUMO), "sumo");
    assert_string_equal(plumb_seat_name(PLUMB_LOW_BAR), "low");
    for (int i = 0; i < PLUMB_LEAD_COUNT; i++) {
        assert_true(strlen(plumb_lead_name((PlumbLead)i)) > 0);
    }
    assert_string_equal(plumb_setting_nearest("shoulder_ahaed_max", 18, PLUMB_DEADLIFT),
                        "shoulder_ahead_max");
    assert_string_equal(plumb_setting_nearest("Hip-Height", 10, PLUMB_DEADLIFT), "hip_height");
    assert_null(plumb_setting_nearest("hip_height", 10, PLUMB_SQUAT));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table__rows_are_complete),
        cmocka_unit_test(table__places_are_distinct),
        cmocka_unit_test(default__is_that_of_the_table),
        cmocka_unit_test(entry__good_lines),
        cmocka_unit_test(entry__bad_lines_are_refused),
        cmocka_unit_test(entry__is_unchanged_by_a_refused_key),
        cmocka_unit_test(entry__words),
        cmocka_unit_test(set__clips_and_leads),
        cmocka_unit_test(seat__moves_a_grip_that_was_not_chosen),
        cmocka_unit_test(check__names_what_is_wrong),
        cmocka_unit_test(default_row__is_that_of_the_lift),
        cmocka_unit_test(default_row__holds_the_figure_of_the_table),
        cmocka_unit_test(words__find_and_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
