/* SPDX-License-Identifier: MIT */
/* The window under SDL's dummy driver: scripts of events, and the states that they have to lead to.
 * The scripts stand in tests/viewer; in them "#= NAME key=value ..." is held by the state called
 * NAME, "#: NAME text" stands in it, "#! NAME text" does not. */
#include "support.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum { OUTPUT_SIZE = 1 << 18, SCRIPT_SIZE = 1 << 14, COMMAND_SIZE = 2048 };

static char output[OUTPUT_SIZE];
static char script[SCRIPT_SIZE];
static char folder[] = "/tmp/plumbar-viewer-XXXXXX";

/* Runs a command in the test's own folder and keeps what it prints; returns its exit code. */
static int run(const char *command)
{
    char line[COMMAND_SIZE];
    const int length = snprintf(line, sizeof line, "cd '%s' && %s", folder, command);
    assert_true(length > 0 && length < (int)sizeof line);
    FILE *const pipe = popen(line, "r");
    assert_non_null(pipe);
    size_t size = fread(output, 1, sizeof output - 1, pipe);
    output[size] = '\0';
    const int status = pclose(pipe);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

/* words: what the window opens on, and options. */
static int view_of(const char *name, const char *words)
{
    char line[2 * COMMAND_SIZE];
    snprintf(line, sizeof line,
             "SDL_VIDEODRIVER=dummy '%s' view %s --script '%s/tests/viewer/%s.txt'", PLUMB_PROGRAM,
             words, PLUMB_SOURCE_DIR, name);
    return run(line);
}

static int view(const char *name, const char *more)
{
    char words[COMMAND_SIZE];
    snprintf(words, sizeof words, "deadlift sex=male stature=178cm mass=85kg %s", more);
    return view_of(name, words);
}

static void read_script(const char *name)
{
    char path[COMMAND_SIZE];
    snprintf(path, sizeof path, "%s/tests/viewer/%s.txt", PLUMB_SOURCE_DIR, name);
    FILE *const file = fopen(path, "r");
    assert_non_null(file);
    const size_t size = fread(script, 1, sizeof script - 1, file);
    assert_true(size > 0 && size < sizeof script - 1);
    script[size] = '\0';
    fclose(file);
}

/* The state line printed under name, with a blank at its end. */
static void state_of(const char *name, char *line, size_t size)
{
    char mark[80];
    snprintf(mark, sizeof mark, "\nat %s\n", name);
    const char *const found = strstr(output, mark);
    if (found == NULL) {
        fail_msg("no state called %s", name);
    }
    const char *const from = found + strlen(mark);
    snprintf(line, size, "%.*s ", (int)strcspn(from, "\n"), from);
}

/* One line of expectations, "#= NAME key=value ...". */
static void check(char *line)
{
    char state[4200];
    const char kind = line[1];
    char *const name = line + 3;
    char *rest = strchr(name, ' ');
    assert_non_null(rest);
    *rest++ = '\0';
    state_of(name, state, sizeof state);
    if (kind != '=') {
        if ((strstr(state, rest) != NULL) != (kind == ':')) {
            fail_msg("%s: \"%s\" %s in: %s", name, rest, kind == ':' ? "is not" : "is", state);
        }
        return;
    }
    char *save = NULL;
    for (char *pair = strtok_r(rest, " ", &save); pair != NULL; pair = strtok_r(NULL, " ", &save)) {
        char wanted[128];
        const bool open = strncmp(pair, "typed=", 6) == 0 && pair[strlen(pair) - 1] != '"';
        snprintf(wanted, sizeof wanted, " %s%s", pair, open ? "" : " ");
        if (strstr(state, wanted) == NULL) {
            fail_msg("%s: \"%s\" is not in: %s", name, pair, state);
        }
    }
}

/* The expectations in a script, against what its run has printed. */
static void check_all(const char *name)
{
    read_script(name);
    int checks = 0;
    char *save = NULL;
    for (char *line = strtok_r(script, "\n", &save); line != NULL;
         line = strtok_r(NULL, "\n", &save)) {
        if (line[0] == '#' && strchr("=:!", line[1]) != NULL && line[2] == ' ') {
            check(line);
            checks++;
        }
    }
    assert_true(checks > 0);
}

static void play(const char *name)
{
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    assert_int_equal(view(name, ""), 0);
    check_all(name);
}

static bool is_file(const char *name, const char *starts_with)
{
    char path[COMMAND_SIZE];
    char head[16] = {0};
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *const file = fopen(path, "rb");
    if (file == NULL) {
        return false;
    }
    const size_t size = fread(head, 1, sizeof head - 1, file);
    fclose(file);
    return size >= strlen(starts_with) && memcmp(head, starts_with, strlen(starts_with)) == 0;
}

/* Width and height of a PNG stand at bytes 16 to 23, the most significant first. */
static void assert_png_size(const char *name, int width, int height)
{
    char path[COMMAND_SIZE];
    unsigned char head[24] = {0};
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *const file = fopen(path, "rb");
    assert_non_null(file);
    assert_int_equal(fread(head, 1, sizeof head, file), sizeof head);
    fclose(file);
    assert_int_equal(head[18] << 8 | head[19], width);
    assert_int_equal(head[22] << 8 | head[23], height);
}

static void rulers__move_by_mouse_and_keyboard(void **state)
{
    (void)state;
    play("rulers");
}

static void hand__takes_the_last_place_and_only_what_is_meant(void **state)
{
    (void)state;
    play("hand");
}

static void lead__takes_over_without_moving_anything(void **state)
{
    (void)state;
    play("lead");
}

static void typing__keeps_what_was_typed_until_it_is_right(void **state)
{
    (void)state;
    play("typing");
}

static void pencil__swaps_leaves_and_comes_back(void **state)
{
    (void)state;
    play("pencil");
}

static void wish__keeps_the_last_pose_that_holds(void **state)
{
    (void)state;
    play("wish");
    assert_true(is_file("beyond.png", "\x89PNG"));
}

static void looks__change_and_pictures_have_the_window_s_size(void **state)
{
    (void)state;
    play("looks");
    assert_png_size("small.png", 1024, 640);
    assert_png_size("big.png", 2560, 1600);
    assert_png_size("squat.png", 1280, 800);
}

static void export__writes_what_the_ending_says(void **state)
{
    (void)state;
    play("export");
    assert_true(is_file("sheet.svg", "<?xml") || is_file("sheet.svg", "<svg"));
    assert_true(is_file("sheet.pdf", "%PDF-"));
    assert_true(is_file("sheet.png", "\x89PNG"));
    assert_false(is_file("sheet.doc", ""));
}

static void pages__keep_the_set_up(void **state)
{
    (void)state;
    play("pages");
}

static void try_first__pencils_what_was(void **state)
{
    (void)state;
    play("try");
}

static void body__has_rulers_of_its_own(void **state)
{
    (void)state;
    play("body");
}

static void press__has_every_page_ruler_and_key(void **state)
{
    (void)state;
    play("press");
    assert_png_size("press-small.png", 1024, 640);
    assert_true(is_file("press-map.pdf", "%PDF-"));
    assert_true(is_file("press-compare.svg", "<?xml") || is_file("press-compare.svg", "<svg"));
    assert_true(is_file("press.csv", "figure,value"));
    assert_true(is_file("press-path.csv", "u,bar_x_m,bar_h"));
}

static void form__asks_line_by_line(void **state)
{
    (void)state;
    play("form");
    assert_true(is_file("Bo.yaml", "# A lifter."));
    assert_int_equal(run("grep -q '^  sitting_height: 95 cm' Bo.yaml && rm Bo.yaml"), 0);
}

static const char LIFTER_FILE[] = "# Ada's own words  stay\n"
                                  "lifter:\n  sex: female   # spaces too\n  stature: 168 cm\n"
                                  "  mass: 66 kg\n"
                                  "setups:\n  pull:\n    lift: deadlift\n    stance: 32 cm # now\n";

static void write_file(const char *name, const char *text)
{
    char path[COMMAND_SIZE];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *const file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

/* A command of the program makes the same file as the window has written. */
static void assert_same_as(const char *file, const char *command)
{
    char line[COMMAND_SIZE];
    snprintf(line, sizeof line, "'%s' %s --date 2026-01-31 -o 'by-%s' && cmp '%s' 'by-%s' 2>&1",
             PLUMB_PROGRAM, command, file, file, file);
    if (run(line) != 0) {
        fail_msg("%s: %s", command, output);
    }
}

static void working__of_every_figure_is_the_command_s(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    assert_int_equal(view("working", "--date 2026-01-31"), 0);
    check_all("working");
    assert_png_size("working-large.png", 1024, 640);
    assert_same_as("working.pdf",
                   "explain hip_moment deadlift sex=male stature=178cm mass=85kg load=120kg");
    assert_same_as("working.svg",
                   "explain hip_moment deadlift sex=male stature=178cm mass=85kg load=120kg");
    assert_same_as("press-working.png",
                   "explain adduction_moment bench sex=male stature=178cm mass=85kg");
}

/* The pages written at the scrubber: at the lockout the command's own, between the ends in motion.
 */
static void working__follows_the_scrubber(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    assert_int_equal(view("way", "--date 2026-01-31"), 0);
    check_all("way");
    assert_same_as("end.svg", "explain hip_moment deadlift sex=male stature=178cm mass=85kg "
                              "--at end");
    assert_int_equal(run("grep -q 'in motion, on the way up' way.svg && "
                         "grep -q 'at rest in the same pose' peak.svg && "
                         "grep -q 'back angle above level, at rest, on the way' angle.svg"),
                     0);
}

static void give__writes_what_the_commands_write(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    write_file("cy.yaml", "lifter:\n  name: Cy\n  sex: male\n  stature: 178 cm\n  mass: 85 kg\n"
                          "setups:\n  narrow:\n    lift: deadlift\n    stance: 32 cm\n"
                          "  wide:\n    lift: deadlift\n    stance: 45 cm\n");
    assert_int_equal(view_of("give", "cy.yaml:wide --pencil cy.yaml:narrow --date 2026-01-31"), 0);
    check_all("give");
    assert_false(is_file("other.pdf", ""));
    assert_false(is_file("other.html", ""));
    assert_same_as("next.pdf", "handout cy.yaml:narrow --proposed cy.yaml:wide --note "
                               "'Film the third set.'");
    assert_same_as("next.svg", "handout cy.yaml:narrow --proposed cy.yaml:wide");
    assert_same_as("both.html", "share cy.yaml:wide --pencil cy.yaml:narrow");
    assert_same_as("one.html", "share cy.yaml:wide");
    assert_same_as("press.pdf", "handout bench cy.yaml --proposed 'touch=11cm elbows=60deg'");
    assert_same_as("press.html", "share bench cy.yaml touch=11cm elbows=60deg");
    assert_int_equal(run("rm -f cy.yaml ./*.html"), 0);
}

/* Any PNG is a picture: here one of the program's own drawings. */
static void make_picture(void)
{
    char line[COMMAND_SIZE];
    snprintf(line, sizeof line,
             "'%s' draw deadlift sex=male stature=178cm mass=85kg -o pull.png --date 2026-01-31",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 0);
}

/* Rows of the slip of a handout and of the log: the same bytes as the commands with these words. */
static void slip__asks_what_the_commands_take(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    static const char CY[] = "lifter:\n  name: Cy\n  sex: male\n  stature: 178 cm\n  mass: 85 kg\n"
                             "setups:\n  narrow:\n    lift: deadlift\n    stance: 32 cm\n"
                             "  wide:\n    lift: deadlift\n    stance: 45 cm\nlog:\n"
                             "  - date: 2025-11-03\n    setup: narrow\n    load: 90 kg\n"
                             "  - {date: 2025-12-01, setup: narrow, load: 110 kg}\n";
    write_file("cy.yaml", CY);
    write_file("cy-then.yaml", CY);
    write_file("bad.csv", "about,lift,drill,rests_on\nstanse,any,Do.,mine\n");
    write_file("mine.csv", "about,lift,drill,rests_on\nstance,any,Stand on the marks.,mine\n");
    write_file("pull.csv", "picture,time,landmark,x,y,sigma\npull.png,,heel,1118,1040,\n"
                           "pull.png,,knee,1187,904,\npull.png,,hip,1076,888,\n"
                           "pull.png,,shoulder,1163,780,\npull.png,,disc,1159,903,\n"
                           "pull.png,,disc,1227,954,\npull.png,,disc,1199,1039,\n"
                           "pull.png,,disc,1114,1036,\n");
    make_picture();
    assert_int_equal(view_of("slip", "cy.yaml:wide --pencil cy.yaml:narrow --date 2026-01-31"), 0);
    check_all("slip");
    const char *const two = "handout cy-then.yaml:narrow --proposed cy-then.yaml:wide";
    char words[COMMAND_SIZE];
    snprintf(words, sizeof words, "%s --drills mine.csv", two);
    assert_same_as("drills.pdf", words);
    snprintf(words, sizeof words, "%s --student --paper letter", two);
    assert_same_as("Cy-deadlift-handout.pdf", words);
    assert_same_as("since.pdf", "handout cy-then.yaml:wide --since 2025-11-03 --note 'Good work.'");
    assert_same_as("try.svg", "handout cy-then.yaml:wide");
    snprintf(words, sizeof words, "%s --still pull.csv", two);
    assert_same_as("still.pdf", words);
    assert_same_as("still.svg", words);
    /* The log's entry is the command's, byte for byte. */
    assert_int_equal(run("'" PLUMB_PROGRAM "' log cy-then.yaml:wide --add --date 2026-01-31 --note "
                         "'felt easy, \"light\" & <quick>' && cmp cy.yaml cy-then.yaml"),
                     0);
    assert_png_size("log.png", 1024, 640);
    assert_int_equal(run("rm -f ./*.yaml ./*.csv ./*.pdf ./*.svg ./*.png"), 0);
}

static void write_lifter_file(const char *name)
{
    write_file(name, LIFTER_FILE);
}

static void recent__files_are_offered(void **state)
{
    (void)state;
    write_lifter_file("ada.yaml");
    write_lifter_file("bo.yaml");
    char states[COMMAND_SIZE];
    snprintf(states, sizeof states, "%s/state", folder);
    setenv("XDG_STATE_HOME", states, 1);
    play("recent");
    unsetenv("XDG_STATE_HOME");
    assert_int_equal(run("rm -rf state *.yaml"), 0);
}

/* A tape that a ruler or Delete has taken out goes from the file with its line, and nothing else.
 */
static void measures__that_are_gone_leave_the_file(void **state)
{
    (void)state;
    static const char BEFORE[] = "# Bo\n\nlifter: {sex: female, stature: 168 cm, mass: 66 kg}\n"
                                 "measures:   # by Ada\n  span: 170 cm\n"
                                 "  buttock_to_knee: 57 cm  # left\n  foot: 25 cm\n# end\n";
    static const char AFTER[] = "# Bo\n\nlifter: {sex: female, stature: 168 cm, mass: 66 kg}\n"
                                "measures:   # by Ada\n  foot: 25 cm\n  thigh: 43.00 cm\n"
                                "setups:\n  deadlift:\n    lift: deadlift\n# end\n";
    write_file("taped.yaml", BEFORE);
    write_file("after.yaml", AFTER);
    play("measures");
    assert_int_equal(run("diff after.yaml taped.yaml && rm *.yaml"), 0);
}

static void files__keep_every_byte_that_need_not_change(void **state)
{
    (void)state;
    write_lifter_file("ada.yaml");
    write_lifter_file("other.yaml");
    play("files");
    assert_int_equal(run("sed 's/41 cm/32 cm/' ada.yaml | head -n 9 > a.txt && "
                         "head -n 9 other.yaml | cmp - a.txt"),
                     0);
    assert_int_equal(run("grep -q '^  a further one:' ada.yaml && grep -q '41 cm # now' ada.yaml"),
                     0);
    assert_int_equal(run("rm *.yaml"), 0);
}

/* Shell: waits, a minute at most, until a run has printed the words. */
#define UNTIL_IT_SAYS(words)                                                                       \
    "for t in $(seq 1200); do grep -qs '" words "' went.txt && break; sleep 0.05; done; "

/* Another program writes between two saves: the first Ctrl+S asks, the second keeps both. */
static void file__changed_by_another_program_is_noticed(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    write_lifter_file("ada.yaml");
    assert_int_equal(
        run("printf 'set stance 41cm\\nstate begun\\nwait 3000\\nfront\\nstate noticed\\n"
            "key ctrl+S\\nstate asked\\nkey ctrl+S\\nstate saved\\n' > w.txt"),
        0);
    char line[COMMAND_SIZE];
    snprintf(line, sizeof line,
             "{ rm -f went.txt; (" UNTIL_IT_SAYS(
                 "begun") "echo '# theirs' >> ada.yaml) & SDL_VIDEODRIVER=dummy '%s' view ada.yaml "
                          "--script w.txt > went.txt; code=$?; wait; cat went.txt; exit $code; }",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 0);
    char words[4200];
    state_of("noticed", words, sizeof words);
    assert_non_null(strstr(words, "Another program has changed ada.yaml"));
    state_of("asked", words, sizeof words);
    assert_non_null(strstr(words, "unsaved=yes"));
    state_of("saved", words, sizeof words);
    assert_non_null(strstr(words, "unsaved=no"));
    assert_int_equal(run("grep -q '41 cm # now' ada.yaml && grep -q '# theirs' ada.yaml && "
                         "rm ada.yaml"),
                     0);
}

/* The last stance that a run printed, in millimetres; -1 where none was. */
static int last_stance_mm(void)
{
    int found = -1;
    for (const char *at = output; (at = strstr(at, " stance_m=")) != NULL; at++) {
        found = (int)lround(1000.0 * strtod(at + strlen(" stance_m="), NULL));
    }
    return found;
}

/* A hand that moves the stance by a millimetre every 20 ms is killed at a random moment. What comes
 * back is at most the last second behind, 50 steps and a little for a busy machine. */
static void work__outlives_kill(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    enum { BEHIND_MM = 55 };
    char line[COMMAND_SIZE];
    unsigned long seed = 20260303UL;
    const int kills = is_long() ? 50 : cases_of(5);
    assert_int_equal(run("for i in $(seq 250 650); do printf 'set stance %dmm\\nwait 20\\n' $i; "
                         "done > go.txt; printf 'state\\n' > see.txt"),
                     0);
    for (int i = 0; i < kills; i++) {
        seed = seed * 48271UL % 2147483647UL;
        const double after_s = 2.8 * (double)seed / 2147483647.0;
        snprintf(line, sizeof line,
                 "rm -rf state went.txt; XDG_STATE_HOME=\"$PWD/state\" SDL_VIDEODRIVER=dummy '%s' "
                 "view --script go.txt > went.txt & id=$!; " UNTIL_IT_SAYS(
                     " stance_m=") "sleep %.3f; kill -9 $id; wait $id; cat went.txt",
                 PLUMB_PROGRAM, after_s);
        run(line);
        const int went_mm = last_stance_mm();
        assert_true(went_mm >= 250);
        snprintf(line, sizeof line,
                 "XDG_STATE_HOME=\"$PWD/state\" SDL_VIDEODRIVER=dummy '%s' view --script see.txt",
                 PLUMB_PROGRAM);
        assert_int_equal(run(line), 0);
        const int came_mm = last_stance_mm();
        if (came_mm < went_mm - BEHIND_MM || came_mm > went_mm + 1) {
            fail_msg("killed after %.3f s at %d mm, back at %d mm", after_s, went_mm, came_mm);
        }
    }
    assert_int_equal(run("rm -rf state"), 0);
}

/* Copies what a state line says of the key, with a space before it. */
static void told_of(const char *key, char *words, size_t size)
{
    const char *const at = strstr(output, key);
    snprintf(words, size, "%.*s", at == NULL ? 0 : (int)(1 + strcspn(at + 1, " ")),
             at == NULL ? "" : at);
}

/* A press comes back whole after a kill: lift, touch, arch, elbows, the grip that follows from the
 * build, and the pencil. */
static void press__outlives_kill(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    static const char *const KEY[] = {" lift=",   " lead=",       " grip_m=", " touch_m=",
                                      " arch_m=", " elbows_rad=", " pencil=", " travel_m="};
    enum { KEYS = sizeof KEY / sizeof KEY[0], WORDS = 64 };
    char went[KEYS][WORDS];
    char came[WORDS];
    char line[COMMAND_SIZE];
    assert_int_equal(run("printf 'key Escape\\nset arch 5cm\\nkey P\\nset touch 11cm\\nwait 700\\n"
                         "set elbows 50deg\\nstate went\\nwait 60000\\n' > go.txt; "
                         "printf 'state\n' > see.txt"),
                     0);
    snprintf(
        line, sizeof line,
        "rm -rf state went.txt; XDG_STATE_HOME=\"$PWD/state\" SDL_VIDEODRIVER=dummy '%s' "
        "view bench sex=male stature=185cm mass=90kg --script go.txt > went.txt & "
        "id=$!; " UNTIL_IT_SAYS("at went") "sleep 0.3; kill -9 $id; wait $id; tail -n 1 went.txt",
        PLUMB_PROGRAM);
    run(line);
    for (int k = 0; k < KEYS; k++) {
        told_of(KEY[k], went[k], WORDS);
        assert_true(went[k][0] != '\0');
    }
    assert_string_equal(went[0], " lift=bench");
    assert_string_equal(went[KEYS - 2], " pencil=yes");
    snprintf(line, sizeof line,
             "XDG_STATE_HOME=\"$PWD/state\" SDL_VIDEODRIVER=dummy '%s' view --script see.txt",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 0);
    for (int k = 0; k < KEYS; k++) {
        told_of(KEY[k], came, WORDS);
        assert_string_equal(came, went[k]);
    }
    assert_int_equal(run("rm -rf state"), 0);
}

static void trace__marks_reads_and_saves(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    make_picture();
    play("trace");
    assert_true(is_file("pull.csv", "picture,time"));
    /* Fifteen marks, and what was told: M twice, K and C. */
    assert_int_equal(run("test $(grep -c '^pull.png,' pull.csv) = 18 && "
                         "test $(grep -c ',disc,' pull.csv) = 5 && "
                         "grep -q '^pull.png,,facing,right,,$' pull.csv && "
                         "grep -q '^pull.png,,distance_m,5,,$' pull.csv && "
                         "grep -q '^pull.png,,scale_m,1,,$' pull.csv"),
                     0);
    assert_int_equal(run("grep -q 'data:image/png;base64' page.svg && "
                         "grep -q '^hip_height_m,0.5' page.csv && rm *.csv"),
                     0);
}

/* Every row of the guided list, its word in files and how many marks it takes. */
static const struct {
    const char *name;
    int most;
} SIDE_ROWS[] = {
    {"heel", 1},         {"toe", 1},       {"ankle", 1},           {"knee", 1},     {"hip", 1},
    {"shoulder", 1},     {"elbow", 1},     {"wrist", 1},           {"bar", 1},      {"disc", 5},
    {"disc_centre", 1},  {"far_disc", 5},  {"far_disc_centre", 1}, {"plumb", 2},    {"scale", 2},
    {"far_heel", 1},     {"far_toe", 1},   {"far_ankle", 1},       {"far_knee", 1}, {"far_hip", 1},
    {"far_shoulder", 1}, {"far_elbow", 1}, {"far_wrist", 1},       {"far_bar", 1},
};
enum { SIDE_ROW_COUNT = sizeof SIDE_ROWS / sizeof SIDE_ROWS[0] };

/* Whether the state called STEP-ROW holds all of the words. */
static void expect(const char *step, int row, const char *words)
{
    char name[32];
    char line[160];
    snprintf(name, sizeof name, "%s-%d", step, row);
    snprintf(line, sizeof line, "#= %s %s", name, words);
    check(line);
}

/* Each kind of mark is set by key and named, moved by key and by mouse, deleted, and all of it
 * undone: far-side marks, posts and the second scale as well as the others. Nothing else is marked
 * meanwhile, so that Enter sets it in the middle of the view, a known pixel. */
static void trace__every_mark_is_set_moved_deleted_and_undone(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    make_picture();
    char path[COMMAND_SIZE];
    snprintf(path, sizeof path, "%s/m.txt", folder);
    FILE *const file = fopen(path, "w");
    assert_non_null(file);
    fprintf(file, "size 1280x800\ndrop pull.png\nkey Home\n");
    for (int i = 0; i < SIDE_ROW_COUNT; i++) {
        fprintf(file, "state row-%d\nkey Return\nstate set-%d\n", i, i);
        fprintf(file, "key Right\nkey shift+Down\nstate nudged-%d\nkey ctrl+Z\nkey ctrl+Z\n", i);
        fprintf(file, "state back-%d\nkey ctrl+shift+Z\nkey ctrl+shift+Z\n", i);
        fprintf(file, "carry 1189 850 1300 700\nstate carried-%d\n", i);
        fprintf(file, "key ctrl+Z\nstate home-%d\nkey Delete\nstate gone-%d\n", i, i);
        fprintf(file, "key ctrl+Z\nstate again-%d\nkey Delete\nkey .\n", i);
    }
    fprintf(file, "key Home\n");
    for (int i = 0; i < SIDE_ROW_COUNT; i++) {
        for (int k = 0; k < SIDE_ROWS[i].most; k++) {
            fprintf(file, "key Return\n");
        }
        fprintf(file, "key .\n");
    }
    fprintf(file, "state all-0\nkey ctrl+S\nstate saved-0\n");
    fprintf(file, "key S\nstate front-0\nkey ctrl+Z\nstate side-0\n");
    fclose(file);
    char line[COMMAND_SIZE];
    snprintf(line, sizeof line,
             "{ echo; SDL_VIDEODRIVER=dummy '%s' view deadlift sex=male stature=178cm mass=85kg "
             "--script m.txt | grep -A1 '^at ' | cut -c1-600; }",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 0);
    int marks = 0;
    for (int i = 0; i < SIDE_ROW_COUNT; i++) {
        char words[96];
        marks += SIDE_ROWS[i].most;
        snprintf(words, sizeof words, "row=%s marks=0", SIDE_ROWS[i].name);
        expect("row", i, words);
        snprintf(words, sizeof words, "row=%s marks=1 mark_x_px=1188.00 mark_y_px=840.00",
                 SIDE_ROWS[i].name);
        expect("set", i, words);
        snprintf(words, sizeof words, "row=%s marks=1 mark_x_px=1189.00 mark_y_px=850.00",
                 SIDE_ROWS[i].name);
        expect("nudged", i, words);
        snprintf(words, sizeof words, "marks=1 mark_x_px=1188.00 mark_y_px=840.00");
        expect("back", i, words);
        snprintf(words, sizeof words, "row=%s marks=1", SIDE_ROWS[i].name);
        expect("carried", i, words);
        char carried[4200];
        char name[32];
        snprintf(name, sizeof name, "carried-%d", i);
        state_of(name, carried, sizeof carried);
        const char *const x = strstr(carried, " mark_x_px=");
        assert_non_null(x);
        assert_near(strtod(x + strlen(" mark_x_px="), NULL), 1300.0, 4.0); /* a window's pixel */
        snprintf(words, sizeof words, "row=%s marks=1 mark_x_px=1189.00 mark_y_px=850.00",
                 SIDE_ROWS[i].name);
        expect("home", i, words);
        expect("gone", i, "marks=0");
        expect("again", i, words);
    }
    char words[48];
    snprintf(words, sizeof words, "marks=%d", marks);
    expect("all", 0, words);
    expect("saved", 0, "marks_unsaved=no");
    expect("front", 0, "view=front marks_unsaved=yes");
    expect("side", 0, "view=side marks_unsaved=no");
    for (int i = 0; i < SIDE_ROW_COUNT; i++) {
        snprintf(line, sizeof line, "test $(grep -c '^pull.png,,%s,' pull.csv) = %d",
                 SIDE_ROWS[i].name, SIDE_ROWS[i].most);
        assert_int_equal(run(line), 0);
    }
    assert_int_equal(run("rm pull.csv"), 0);
}

/* A picture that is added brings the marks and what is told beside it; one file has both then. */
static void trace__added_picture_brings_its_marks(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    char line[COMMAND_SIZE];
    make_picture();
    assert_int_equal(run("cp pull.png front.png && printf 'picture,landmark,x,y\n"
                         "pull.png,heel,1118,1040\npull.png,knee,1187,904\n' > pull.csv && "
                         "printf 'picture,landmark,x,y\nfront.png,right_ankle,900,1000\n"
                         "front.png,left_ankle,1100,1000\nfront.png,distance_m,4,\n' > front.csv "
                         "&& printf 'drop pull.png\nkey A\ntype front.png\nkey Return\nstate "
                         "added\nkey ctrl+S\nkey ctrl+Z\nstate without\n' > m.txt"),
                     0);
    snprintf(line, sizeof line,
             "SDL_VIDEODRIVER=dummy '%s' view deadlift sex=male stature=178cm mass=85kg --script "
             "m.txt",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 0);
    check((char[]){"#= added pictures=2 still=1 marks=4 view=front distance_m=4.00"});
    check((char[]){"#= without pictures=1 still=0 marks=2 view=side"});
    assert_int_equal(run("grep -q '^front.png,right_ankle,900,1000$' pull.csv && "
                         "grep -q '^front.png,left_ankle,1100,1000$' pull.csv && "
                         "grep -q '^front.png,distance_m,4,$' pull.csv && rm *.csv"),
                     0);
}

/* Comments, other columns and lines that need not change stay in a file of marks. */
static void trace__keeps_what_others_wrote(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    char line[COMMAND_SIZE];
    make_picture();
    assert_int_equal(
        run("printf '# by hand\nlandmark,x,y,who,picture\nheel,1118.5,1040,me,pull.png\n"
            "knee,1187,904,me,pull.png\nhip,1076,888,you,pull.png\n' > pull.csv && "
            "printf 'key End\nkey Home\nkey .\nkey .\nkey .\nkey Delete\nkey ctrl+S\n"
            "state saved\nkey ctrl+Z\nkey ctrl+S\nstate again\n' > m.txt"),
        0);
    snprintf(line, sizeof line,
             "SDL_VIDEODRIVER=dummy '%s' view pull.png sex=male stature=178cm mass=85kg --script "
             "m.txt",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 0);
    char words[4200];
    state_of("saved", words, sizeof words);
    assert_non_null(strstr(words, " marks=2 marks_unsaved=no"));
    state_of("again", words, sizeof words);
    assert_non_null(strstr(words, " marks=3 marks_unsaved=no"));
    assert_int_equal(run("head -n 4 pull.csv | tr '\n' '/' | grep -q '^# by hand/"
                         "landmark,x,y,who,picture/heel,1118.5,1040,me,pull.png/"
                         "hip,1076,888,you,pull.png/' && grep -q '^knee,1187' pull.csv && "
                         "rm pull.csv"),
                     0);
}

/* Another program writes the marks meanwhile: the first Ctrl+S asks. */
static void trace__asks_before_it_writes_over_another_s_marks(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    char line[COMMAND_SIZE];
    make_picture();
    assert_int_equal(
        run("printf 'spot 1118 1040\nstate begun\nwait 3000\nkey ctrl+S\nstate asked\nkey "
            "ctrl+S\nstate saved\n' > m.txt"),
        0);
    snprintf(line, sizeof line,
             "{ rm -f went.txt; (" UNTIL_IT_SAYS(
                 "begun") "printf 'landmark,x,y,picture\nhip,5,6,pull.png\n' > pull.csv) & "
                          "SDL_VIDEODRIVER=dummy '%s' view pull.png sex=male stature=178cm "
                          "mass=85kg --script m.txt > went.txt; code=$?; wait; cat went.txt; exit "
                          "$code; }",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 0);
    char words[4200];
    state_of("asked", words, sizeof words);
    assert_non_null(strstr(words, "Another program has written pull.csv"));
    assert_non_null(strstr(words, " marks_unsaved=yes"));
    state_of("saved", words, sizeof words);
    assert_non_null(strstr(words, " marks_unsaved=no"));
    assert_int_equal(run("grep -q '^heel,' pull.csv && ! grep -q '^hip,' pull.csv && rm pull.csv"),
                     0);
}

/* How many marks a run printed last; -1 where none was. */
static int last_marks(void)
{
    int found = -1;
    for (const char *at = output; (at = strstr(at, " marks=")) != NULL; at++) {
        found = (int)strtol(at + strlen(" marks="), NULL, 10);
    }
    return found;
}

/* A hand that sets a mark every 60 ms is killed; what comes back is at most a second behind. */
static void trace__outlives_kill(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    enum { BEHIND = 19 };
    char line[COMMAND_SIZE];
    make_picture();
    assert_int_equal(run("printf 'drop pull.png\n' > go.txt; for i in $(seq 1 40); do printf "
                         "'key Return\nkey .\nwait 60\n'; done >> go.txt; printf 'finish\n"
                         "key F8\nstate\n' > see.txt"),
                     0);
    for (int i = 0; i < 2; i++) {
        snprintf(
            line, sizeof line,
            "rm -rf state went.txt; XDG_STATE_HOME=\"$PWD/state\" SDL_VIDEODRIVER=dummy '%s' view "
            "--script go.txt > went.txt & id=$!; " UNTIL_IT_SAYS(
                " marks=3 ") "sleep %.1f; kill -9 $id; wait $id; cat went.txt",
            PLUMB_PROGRAM, 0.6 + 0.4 * i);
        run(line);
        const int went = last_marks();
        assert_true(went > 2);
        snprintf(line, sizeof line,
                 "XDG_STATE_HOME=\"$PWD/state\" SDL_VIDEODRIVER=dummy '%s' view --script see.txt",
                 PLUMB_PROGRAM);
        assert_int_equal(run(line), 0);
        const int came = last_marks();
        assert_true(came >= went - BEHIND && came <= went + 1 && came > 0);
        assert_non_null(strstr(output, "picture=\"pull.png\""));
    }
    assert_int_equal(run("rm -rf state"), 0);
}

static void picture__in_parts_is_the_whole_picture(void **state)
{
    (void)state;
    play("partial");
    assert_int_equal(run("cmp parts.png whole.png"), 0);
}

/* The same events give the same pixels. */
static void picture__repeats(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    assert_int_equal(run("mkdir -p one two"), 0);
    assert_int_equal(view("wish", "--shots one"), 0);
    assert_int_equal(view("wish", "--shots two"), 0);
    assert_int_equal(run("cmp one/beyond.png two/beyond.png"), 0);
}

static void bench__counts_every_step(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    assert_int_equal(view("bench", ""), 0);
    assert_non_null(strstr(output, "bench steps=60 p50_ms="));
}

static void script__that_is_wrong_names_its_line(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    char line[COMMAND_SIZE];
    assert_int_equal(run("printf 'state\\n\\nkey Banana\\n' > wrong.txt"), 0);
    snprintf(line, sizeof line,
             "SDL_VIDEODRIVER=dummy '%s' view squat sex=female stature=165cm mass=64kg --script "
             "wrong.txt 2>&1 >/dev/null",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 2);
    assert_non_null(strstr(output, "wrong.txt:3: key: a key like Tab"));
    assert_int_equal(run("printf 'jump 3 4\\n' > wrong.txt"), 0);
    assert_int_equal(run(line), 2);
    assert_non_null(strstr(output, "wrong.txt:1: jump: no such command"));
}

static void display__that_is_missing_is_said(void **state)
{
    (void)state;
    if (PLUMB_PROGRAM[0] == '\0') {
        skip();
    }
    char line[COMMAND_SIZE];
    snprintf(line, sizeof line,
             "env -u DISPLAY -u WAYLAND_DISPLAY -u SDL_VIDEODRIVER '%s' view sex=male "
             "stature=178cm mass=85kg 2>&1",
             PLUMB_PROGRAM);
    assert_int_equal(run(line), 3);
    assert_non_null(strstr(output, "there is no display"));
    assert_non_null(strstr(output, "plumbar draw"));
}

static int make_folder(void **state)
{
    (void)state;
    return mkdtemp(folder) == NULL ? -1 : 0;
}

static int remove_folder(void **state)
{
    (void)state;
    return run("rm -rf one two *.txt *.png *.pdf *.svg *.csv && rmdir \"$PWD\"");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rulers__move_by_mouse_and_keyboard),
        cmocka_unit_test(hand__takes_the_last_place_and_only_what_is_meant),
        cmocka_unit_test(lead__takes_over_without_moving_anything),
        cmocka_unit_test(typing__keeps_what_was_typed_until_it_is_right),
        cmocka_unit_test(pencil__swaps_leaves_and_comes_back),
        cmocka_unit_test(wish__keeps_the_last_pose_that_holds),
        cmocka_unit_test(looks__change_and_pictures_have_the_window_s_size),
        cmocka_unit_test(export__writes_what_the_ending_says),
        cmocka_unit_test(give__writes_what_the_commands_write),
        cmocka_unit_test(slip__asks_what_the_commands_take),
        cmocka_unit_test(working__of_every_figure_is_the_command_s),
        cmocka_unit_test(working__follows_the_scrubber),
        cmocka_unit_test(pages__keep_the_set_up),
        cmocka_unit_test(try_first__pencils_what_was),
        cmocka_unit_test(body__has_rulers_of_its_own),
        cmocka_unit_test(press__has_every_page_ruler_and_key),
        cmocka_unit_test(form__asks_line_by_line),
        cmocka_unit_test(files__keep_every_byte_that_need_not_change),
        cmocka_unit_test(recent__files_are_offered),
        cmocka_unit_test(measures__that_are_gone_leave_the_file),
        cmocka_unit_test(file__changed_by_another_program_is_noticed),
        cmocka_unit_test(work__outlives_kill),
        cmocka_unit_test(press__outlives_kill),
        cmocka_unit_test(trace__marks_reads_and_saves),
        cmocka_unit_test(trace__every_mark_is_set_moved_deleted_and_undone),
        cmocka_unit_test(trace__added_picture_brings_its_marks),
        cmocka_unit_test(trace__keeps_what_others_wrote),
        cmocka_unit_test(trace__asks_before_it_writes_over_another_s_marks),
        cmocka_unit_test(trace__outlives_kill),
        cmocka_unit_test(picture__in_parts_is_the_whole_picture),
        cmocka_unit_test(picture__repeats),
        cmocka_unit_test(bench__counts_every_step),
        cmocka_unit_test(script__that_is_wrong_names_its_line),
        cmocka_unit_test(display__that_is_missing_is_said),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
