/* SPDX-License-Identifier: MIT */
/* Commands and options as tables, and a command line split by them. */
#ifndef PLUMBAR_CLI_ARGS_H
#define PLUMBAR_CLI_ARGS_H

#include "fault.h"

#include <plumbar/format.h>

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Options, as bits of the commands that take them. */
typedef enum PlumbOptionId {
    PLUMB_OPT_HELP,
    PLUMB_OPT_JSON,
    PLUMB_OPT_CSV,
    PLUMB_OPT_OUTPUT,
    PLUMB_OPT_UNITS,
    PLUMB_OPT_POINTS,
    PLUMB_OPT_PAPER,
    PLUMB_OPT_DARK,
    PLUMB_OPT_PENCIL,
    PLUMB_OPT_DATE,
    PLUMB_OPT_SCRIPT,
    PLUMB_OPT_SHOTS,
    PLUMB_OPT_SIZE,
    PLUMB_OPT_TEXT,
    PLUMB_OPT_SAMPLES,
    PLUMB_OPT_SEED,
    PLUMB_OPT_THREADS,
    PLUMB_OPT_OF,
    PLUMB_OPT_FOR,
    PLUMB_OPT_KNEE,
    PLUMB_OPT_PROPOSED,
    PLUMB_OPT_NOTE,
    PLUMB_OPT_DRILLS,
    PLUMB_OPT_STUDENT,
    PLUMB_OPT_SINCE,
    PLUMB_OPT_STILL,
    PLUMB_OPT_ADD,
    PLUMB_OPT_FINDINGS,
    PLUMB_OPT_TIME,
    PLUMB_OPT_AT,
    PLUMB_OPT_COLUMNS,
    PLUMB_OPT_SAVE_BODY,
    PLUMB_OPT_COUNT
} PlumbOptionId;

enum { PLUMB_CLI_WORDS_MAX = 128, PLUMB_CLI_DATE_SIZE = 11 };

struct PlumbCliCommand;

/* A command line after splitting. Strings are those of argv. */
typedef struct PlumbCliArgs {
    const struct PlumbCliCommand *command;
    const char *word[PLUMB_CLI_WORDS_MAX];
    int word_count;
    bool given[PLUMB_OPT_COUNT];
    const char *value[PLUMB_OPT_COUNT]; /* of the options that take one */
    bool json;
    bool csv;
    bool dark;
    bool letter;
    PlumbUnits units;
    int points;
    int samples; /* -1: not given, the command's own number */
    int threads; /* 0: as many as the machine has */
    uint64_t seed;
    int width_px;
    int height_px;
    const char *output; /* NULL: standard output */
    const char *pencil; /* NULL: none */
    const char *script; /* NULL: none */
    const char *shots;  /* NULL: the current folder */
    const char *at;     /* NULL: the start or the hole */
    double text_scale;  /* 1 to 2 */
    char date[PLUMB_CLI_DATE_SIZE];
} PlumbCliArgs;

typedef PlumbCliExit (*PlumbCliRun)(const PlumbCliArgs *args, PlumbCliFault *fault);

/* One command. */
typedef struct PlumbCliCommand {
    const char *name;
    const char *synopsis; /* what follows the name */
    const char *summary;  /* half a line, for the list */
    const char *details;  /* what it does, for its own help */
    const char *example;  /* a line that runs as it stands */
    unsigned options;     /* bit 1 << PlumbOptionId */
    PlumbCliRun run;
} PlumbCliCommand;

/* The commands in the order of their use. */
extern const PlumbCliCommand plumb_cli_commands[];
extern const int plumb_cli_command_count;
/* NULL where none is called name; fault then says which is near. */
const PlumbCliCommand *plumb_command_find(const char *name, PlumbCliFault *fault);

/* One option. */
typedef struct PlumbCliOption {
    PlumbOptionId id;
    const char *name;       /* "--json" */
    const char *short_name; /* "-o", "" where none */
    const char *value;      /* "FILE", "" where it takes none */
    const char *meaning;
} PlumbCliOption;

extern const PlumbCliOption plumb_cli_options[PLUMB_OPT_COUNT];

/* Stores the value of an option that takes one, checked. PLUMB_BAD_INPUT says what is allowed. */
PlumbStatus plumb_option_take(PlumbCliArgs *args, PlumbOptionId id, const char *value,
                              PlumbCliFault *fault);

/* Splits argv[2..] of a command. PLUMB_BAD_INPUT: an unknown option (with the nearest), one that
 * the command lacks, a missing or wrong value, the same option twice. */
PlumbStatus plumb_args_read(const PlumbCliCommand *command, int argc, char *const *argv,
                            PlumbCliArgs *args, PlumbCliFault *fault);

#endif
