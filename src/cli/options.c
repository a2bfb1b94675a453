/* SPDX-License-Identifier: MIT */
/* The table of options, and the values that they take. */
#include "args.h"

#include <string.h>

const PlumbCliOption plumb_cli_options[PLUMB_OPT_COUNT] = {
    {PLUMB_OPT_HELP, "--help", "-h", "", "show how the command is used"},
    {PLUMB_OPT_JSON, "--json", "", "", "answer as JSON, SI units, a unit in every key"},
    {PLUMB_OPT_CSV, "--csv", "", "", "answer as CSV, SI units, a unit in every column"},
    {PLUMB_OPT_OUTPUT, "--output", "-o", "FILE", "write to FILE, whole or not at all"},
    {PLUMB_OPT_UNITS, "--units", "", "metric|pounds", "units of tables and drawings"},
    {PLUMB_OPT_POINTS, "--points", "", "N", "points along the path, 2 to 1001 (21)"},
    {PLUMB_OPT_PAPER, "--paper", "", "a4|letter", "size of the sheet (a4)"},
    {PLUMB_OPT_DARK, "--dark", "", "", "dark paper"},
    {PLUMB_OPT_PENCIL, "--pencil", "", "WHAT",
     "pencil a second set-up: FILE:set-up name, \"key=value ...\", or FILE for another lifter in "
     "the same set-up"},
    {PLUMB_OPT_DATE, "--date", "", "YYYY-MM-DD", "date in the title block (today)"},
    {PLUMB_OPT_SCRIPT, "--script", "", "FILE", "play events from FILE instead of hands"},
    {PLUMB_OPT_SHOTS, "--shots", "", "FOLDER", "where a script's screenshots go (.)"},
    {PLUMB_OPT_SIZE, "--size", "", "WxH", "size of the window (1280x800)"},
    {PLUMB_OPT_TEXT, "--text", "", "100|125|150|200", "size of the text in per cent"},
    {PLUMB_OPT_SAMPLES, "--samples", "", "N",
     "bodies drawn around what is known, to 1000000; 0: none"},
    {PLUMB_OPT_SEED, "--seed", "", "N", "other draws; the same seed gives the same answer (1)"},
    {PLUMB_OPT_THREADS, "--threads", "", "N", "threads, 1 to 64 (those of the machine)"},
    {PLUMB_OPT_OF, "--of", "", "FIGURE", "the figure whose effects are listed (travel)"},
    {PLUMB_OPT_FOR, "--for", "", "AIM", "an aim, or the name of a finding"},
    {PLUMB_OPT_KNEE, "--knee", "", "PLACE",
     "own start by the knee: the shin's lean, \"12 deg\", or how far the knee is ahead of the "
     "toes, "
     "\"-3 cm\""},
    {PLUMB_OPT_PROPOSED, "--proposed", "", "WHAT",
     "the proposed set-up: FILE:set-up name, or \"key=value ...\" over the present one"},
    {PLUMB_OPT_NOTE, "--note", "", "WORDS", "the coach's own words"},
    {PLUMB_OPT_DRILLS, "--drills", "", "FILE", "a table of drills of your own, CSV"},
    {PLUMB_OPT_STUDENT, "--student", "", "",
     "the student's page, with the free body of the hips or the arm"},
    {PLUMB_OPT_SINCE, "--since", "", "YYYY-MM-DD",
     "look back: the set-up against that of this day in the log"},
    {PLUMB_OPT_STILL, "--still", "", "WHAT",
     "marks on a picture of the present lift, as for trace still: \"MARKS.csv distance=5m\""},
    {PLUMB_OPT_ADD, "--add", "", "", "add an entry of --date to the file's log"},
    {PLUMB_OPT_FINDINGS, "--findings", "", "WORDS",
     "what was seen that day (the findings of the solved set-up)"},
    {PLUMB_OPT_TIME, "--time", "", "", "in motion: the way up over rep_time, and its loads"},
    {PLUMB_OPT_AT, "--at", "", "WHERE",
     "start or end of the lift; in motion, peak or a time of the way up like 1.2s (start)"},
    {PLUMB_OPT_COLUMNS, "--columns", "", "MAP",
     "what a file of marks calls its columns: \"landmark=point,x=px_x,y=px_y\""},
    {PLUMB_OPT_SAVE_BODY, "--save-body", "", "",
     "put the lengths that the pictures tell of into the lifter file"},
};

enum {
    POINTS_MAX = 1001,
    WIDTH_MIN = 1024,
    HEIGHT_MIN = 640,
    SIZE_MAX_PX = 8192,
    SAMPLES_MAX = 1000000,
    SEED_MAX = 999999999,
    THREADS_MAX = 64
};

static PlumbStatus read_units(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    if (strcmp(value, "pounds") != 0 && strcmp(value, "metric") != 0) {
        return plumb_fault_bad(fault, "--units", "'", value, "' is neither metric nor pounds");
    }
    args->units = strcmp(value, "pounds") == 0 ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
    return PLUMB_OK;
}

/* A whole number of digits alone; -1 where text is anything else or above limit. */
static int whole_number(const char *text, size_t length, int limit)
{
    long long value = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return -1;
        }
        value = value * 10 + (text[i] - '0');
        if (value > limit) {
            return -1;
        }
    }
    return length > 0 ? (int)value : -1;
}

static PlumbStatus read_points(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    const int points = whole_number(value, strlen(value), POINTS_MAX);
    if (points < 2) {
        return plumb_fault_bad(fault, "--points", "'", value,
                               "' is not a whole number from 2 to 1001");
    }
    args->points = points;
    return PLUMB_OK;
}

static PlumbStatus read_paper(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    if (strcmp(value, "a4") != 0 && strcmp(value, "letter") != 0) {
        return plumb_fault_bad(fault, "--paper", "'", value, "' is neither a4 nor letter");
    }
    args->letter = strcmp(value, "letter") == 0;
    return PLUMB_OK;
}

static bool is_date(const char *value)
{
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (strlen(value) != PLUMB_CLI_DATE_SIZE - 1 || value[4] != '-' || value[7] != '-') {
        return false;
    }
    const int year = whole_number(value, 4, 9999);
    const int month = whole_number(value + 5, 2, 12);
    const int day = whole_number(value + 8, 2, 31);
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return year >= 1 && month >= 1 && day >= 1 && day <= days[month - 1] &&
           (month != 2 || leap || day <= 28);
}

static PlumbStatus read_date(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    if (!is_date(value)) {
        return plumb_fault_bad(fault, "--date", "'", value, "' is not a day like 2026-01-31");
    }
    memcpy(args->date, value, sizeof args->date);
    return PLUMB_OK;
}

static PlumbStatus read_size(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    const char *const x = strchr(value, 'x');
    const int width = x != NULL ? whole_number(value, (size_t)(x - value), SIZE_MAX_PX) : -1;
    const int height = x != NULL ? whole_number(x + 1, strlen(x + 1), SIZE_MAX_PX) : -1;
    if (width < WIDTH_MIN || height < HEIGHT_MIN) {
        return plumb_fault_bad(fault, "--size", "'", value,
                               "' is not a size like 1280x800, from 1024x640 to 8192x8192");
    }
    args->width_px = width;
    args->height_px = height;
    return PLUMB_OK;
}

static PlumbStatus read_text_scale(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    static const char *const steps[] = {"100", "125", "150", "200"};
    static const double scales[] = {1.0, 1.25, 1.5, 2.0};
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        if (strcmp(steps[i], value) == 0) {
            args->text_scale = scales[i];
            return PLUMB_OK;
        }
    }
    return plumb_fault_bad(fault, "--text", "'", value, "' is none of 100, 125, 150 and 200");
}

static PlumbStatus read_samples(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    args->samples = whole_number(value, strlen(value), SAMPLES_MAX);
    if (args->samples < 0 || args->samples == 1) {
        return plumb_fault_bad(fault, "--samples", "'", value,
                               "' is neither 0 nor a whole number from 2 to 1000000");
    }
    return PLUMB_OK;
}

static PlumbStatus read_seed(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    const int seed = whole_number(value, strlen(value), SEED_MAX);
    if (seed < 0) {
        return plumb_fault_bad(fault, "--seed", "'", value,
                               "' is not a whole number from 0 to 999999999");
    }
    args->seed = (uint64_t)seed;
    return PLUMB_OK;
}

static PlumbStatus read_threads(PlumbCliArgs *args, const char *value, PlumbCliFault *fault)
{
    args->threads = whole_number(value, strlen(value), THREADS_MAX);
    if (args->threads < 1) {
        return plumb_fault_bad(fault, "--threads", "'", value,
                               "' is not a whole number from 1 to 64");
    }
    return PLUMB_OK;
}

PlumbStatus plumb_option_take(PlumbCliArgs *args, PlumbOptionId id, const char *value,
                              PlumbCliFault *fault)
{
    args->value[id] = value;
    switch (id) {
    case PLUMB_OPT_UNITS:
        return read_units(args, value, fault);
    case PLUMB_OPT_POINTS:
        return read_points(args, value, fault);
    case PLUMB_OPT_PAPER:
        return read_paper(args, value, fault);
    case PLUMB_OPT_DATE:
        return read_date(args, value, fault);
    case PLUMB_OPT_SIZE:
        return read_size(args, value, fault);
    case PLUMB_OPT_TEXT:
        return read_text_scale(args, value, fault);
    case PLUMB_OPT_SAMPLES:
        return read_samples(args, value, fault);
    case PLUMB_OPT_SEED:
        return read_seed(args, value, fault);
    case PLUMB_OPT_THREADS:
        return read_threads(args, value, fault);
    case PLUMB_OPT_HELP:
    case PLUMB_OPT_JSON:
    case PLUMB_OPT_CSV:
    case PLUMB_OPT_OUTPUT:
    case PLUMB_OPT_DARK:
    case PLUMB_OPT_PENCIL:
    case PLUMB_OPT_SCRIPT:
    case PLUMB_OPT_SHOTS:
    case PLUMB_OPT_PROPOSED:
    case PLUMB_OPT_NOTE:
    case PLUMB_OPT_DRILLS:
    case PLUMB_OPT_STUDENT:
    case PLUMB_OPT_STILL:
    case PLUMB_OPT_SINCE:
    case PLUMB_OPT_ADD:
    case PLUMB_OPT_FINDINGS:
    case PLUMB_OPT_OF:
    case PLUMB_OPT_FOR:
    case PLUMB_OPT_KNEE:
    case PLUMB_OPT_TIME:
    case PLUMB_OPT_AT:
    case PLUMB_OPT_COLUMNS:
    case PLUMB_OPT_SAVE_BODY:
    case PLUMB_OPT_COUNT:
        break;
    }
    return PLUMB_OK;
}
