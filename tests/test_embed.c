/* SPDX-License-Identifier: MIT */
/* The generator of the tables: what is wrong in a CSV file ends the build, with file, line, column.
 */
#include "support.h"

#include "settings.h"
#include "tables.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char folder[] = "/tmp/plumbar_embed_XXXXXX";

static int make_folder(void **state)
{
    (void)state;
    return mkdtemp(folder) ? 0 : -1;
}

static int remove_folder(void **state)
{
    (void)state;
    char command[256];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command);
}

/* Copies the tables, edits one file by sed, and runs the generator: its exit code; what it said. */
static int run_edited(const char *file, const char *edit, char *said, size_t size)
{
    char command[1024];
    snprintf(command, sizeof command,
             "cp " PLUMB_SOURCE_DIR "/anthropometry/*.csv %s/ && sed -i '%s' %s/%s && "
             "LC_ALL=C " PLUMB_EMBED " %s %s 2>&1",
             folder, edit, folder, file, folder, folder);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    const size_t length = fread(said, 1, size - 1, pipe);
    said[length] = '\0';
    return pclose(pipe);
}

/* edit: sed's. said: what the message must hold after the folder's name. */
typedef struct Broken {
    const char *file;
    const char *edit;
    const char *said;
} Broken;

static const Broken broken[] = {
    {"lengths.csv", "s/^forearm,stature,0.1540/forearm,stature,0,1540/", "/lengths.csv:11:"},
    {"lengths.csv", "s/^forearm,stature,0.1540/forearm,stature,0.15x/",
     "/lengths.csv:11:17: \"0.15x\": a decimal number is needed"},
    {"lengths.csv", "s/^forearm,/fore_arm,/", "/lengths.csv:11:1: \"fore_arm\": allowed is"},
    {"lengths.csv", "/^forearm,/d", "/lengths.csv: a row \"forearm\" is missing"},
    {"lengths.csv", "s/^upper_arm,/forearm,/", "\"forearm\": this row stands twice"},
    {"lengths.csv", "s/,of,/,off,/", "/lengths.csv:4:1: there is no column \"of\""},
    {"lengths.csv", "s/ansur2,C7/ansur3,C7/", "\"ansur3\": no such id in sources.csv"},
    {"settings.csv", "s/^toes,setting,setting,no,deg/toes,setting,setting,no,degrees/",
     "/settings.csv:6:25: \"degrees\": allowed"},
    {"settings.csv", "4{h;d};5{G}", "/settings.csv:4:1: \"stance\": the rows do not stand in"},
    {"limits.csv", "s/^hip_flexion,deg,130.4/hip_flexion,deg,inf/",
     "\"inf\": a decimal number is needed"},
    {"masses.csv", "s/^male,foot,0.0137/male,foot,\"0.0137/", "/masses.csv:6:"},
    {"seats.csv", "s/^low,80/low,/", "\"\": a decimal number is needed"},
};

static void embed__names_the_place_of_a_fault(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        char said[4096];
        const int code = run_edited(broken[i].file, broken[i].edit, said, sizeof said);
        if (code == 0 || !strstr(said, broken[i].said)) {
            print_error("row %zu: exit %d: %s\n", i, code, said);
            fail();
        }
    }
}

static void embed__accepts_the_tables_as_they_are(void **state)
{
    (void)state;
    char said[4096];
    assert_int_equal(run_edited("lengths.csv", "", said, sizeof said), 0);
    assert_string_equal(said, "");
}

/* settings.csv: 14 deg, 32 cm, 50 mm in SI; the sumo preset of Escamilla et al. 2000 (70 cm, 42
 * deg, 47 cm); Anderson et al. 2007, Table 3: hip extension of young men, C1 = 0.161. */
static void tables__hold_si(void **state)
{
    (void)state;
    const PlumbSetting *stance = &plumb_table_setting[1];
    assert_string_equal(stance->json_key, "stance_m");
    assert_near(stance->default_si[0], 0.32, 0.0);
    const PlumbSetting *toes = &plumb_table_setting[2];
    assert_near(toes->default_si[0], 0.24434609527920614, 0.0);
    const PlumbSetting *heel = &plumb_table_setting[9];
    assert_string_equal(heel->json_key, "heel_lift_m");
    assert_near(heel->max_si, 0.050, 0.0);
    assert_true(isnan(plumb_table_setting[0].default_si[0]));
    assert_near(plumb_table_style[1].stance_m, 0.70, 0.0);
    assert_near(plumb_table_style[1].toes_rad, 0.7330382858376184, 0.0);
    assert_near(plumb_table_seat[2].grip_m, 0.65, 0.0);
    const PlumbCapacityRow *hip =
        &plumb_table_capacity[PLUMB_MALE][PLUMB_ACTION_hip_extension][PLUMB_AGE_18_TO_25];
    assert_near(hip->c1, 0.161, 0.0);
    assert_near(plumb_table_held[PLUMB_HELD_back].least_rad, 0.3490658503988659, 0.0);
    assert_near(plumb_table_upper[PLUMB_UPPER_lumbar_extension].tmax_n_m, 687.864, 0.0);
}

static void tables__correlations_are_symmetric(void **state)
{
    (void)state;
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        for (int i = 0; i < PLUMB_SPREAD_COUNT; i++) {
            assert_near(plumb_table_spread[sex][i].r[i], 1.0, 0.0);
            for (int j = 0; j < i; j++) {
                assert_near(plumb_table_spread[sex][i].r[j], plumb_table_spread[sex][j].r[i], 0.0);
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(embed__names_the_place_of_a_fault),
        cmocka_unit_test(embed__accepts_the_tables_as_they_are),
        cmocka_unit_test(tables__hold_si),
        cmocka_unit_test(tables__correlations_are_symmetric),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
