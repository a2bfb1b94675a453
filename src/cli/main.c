/* SPDX-License-Identifier: MIT */
/* The program: finds the command, reads its words, runs it, and says what went wrong. */
#include "command.h"
#include "help.h"

#include "base/words.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static PlumbCliExit help(const PlumbCliCommand *command, PlumbCliFault *fault)
{
    PlumbCliOutput out = plumb_output_begin(NULL);
    if (command != NULL) {
        plumb_help_command(command, &out);
    } else {
        plumb_help_program(&out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

static PlumbCliExit version(PlumbCliFault *fault)
{
    PlumbCliOutput out = plumb_output_begin(NULL);
    plumb_output_string(&out, "plumbar " PLUMB_VERSION "\n");
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

/* plumbar help [COMMAND] */
static PlumbCliExit help_words(int argc, char *const *argv, PlumbCliFault *fault)
{
    if (argc > 3) {
        return plumb_fault_exit(
            plumb_fault_bad(fault, "help", "takes one command, found also '", argv[3], "'"));
    }
    const PlumbCliCommand *const command = argc == 3 ? plumb_command_find(argv[2], fault) : NULL;
    return argc == 3 && command == NULL ? PLUMB_EXIT_BAD_INPUT : help(command, fault);
}

/* An option stands where the command should. */
static PlumbCliExit early_option(const char *word, PlumbCliFault *fault)
{
    PlumbNearest search = plumb_nearest_begin(word, strlen(word));
    plumb_nearest_try(&search, "--help");
    plumb_nearest_try(&search, "--version");
    const char *const nearest = plumb_nearest_word(&search);
    return plumb_fault_exit(
        nearest != NULL
            ? plumb_fault_bad(fault, word, "no such option; did you mean ", nearest, "?")
            : plumb_fault_bad(fault, word, "options follow the command: plumbar COMMAND ", word,
                              "; plumbar --help lists the commands"));
}

static PlumbCliExit run(int argc, char *const *argv, PlumbCliFault *fault)
{
    if (argc < 2) {
        return plumb_fault_exit(plumb_fault_bad(
            fault, "command", "is missing; plumbar --help lists the commands", "", ""));
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        return help(NULL, fault);
    }
    if (strcmp(argv[1], "--version") == 0) {
        return version(fault);
    }
    if (strcmp(argv[1], "help") == 0) {
        return help_words(argc, argv, fault);
    }
    if (argv[1][0] == '-') {
        return early_option(argv[1], fault);
    }
    const PlumbCliCommand *const command = plumb_command_find(argv[1], fault);
    PlumbCliArgs args;
    if (command == NULL) {
        return PLUMB_EXIT_BAD_INPUT;
    }
    const PlumbStatus status = plumb_args_read(command, argc, argv, &args, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    return args.given[PLUMB_OPT_HELP] ? help(command, fault) : command->run(&args, fault);
}

int main(int argc, char **argv)
{
    /* The reader of a film that died is a failed write, not the end of the process; for standard
     * output see output.c. */
    signal(SIGPIPE, SIG_IGN);
    PlumbCliFault fault = {.error = {.status = PLUMB_OK}};
    const PlumbCliExit code = run(argc, argv, &fault);
    const bool said = fault.error.message[0] == '\0'; /* the window tells its faults itself */
    if (!said && (code == PLUMB_EXIT_BAD_INPUT || code == PLUMB_EXIT_IO)) {
        plumb_fault_print(&fault);
    }
    return (int)code;
}
