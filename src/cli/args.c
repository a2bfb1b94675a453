/* SPDX-License-Identifier: MIT */
/* Splits a command line by the table of options. */
#include "args.h"

#include "base/words.h"

#include <string.h>
#include <time.h>

enum { POINTS_DEFAULT = 21, WIDTH_DEFAULT = 1280, HEIGHT_DEFAULT = 800 };

static PlumbStatus unknown_option(const char *name, unsigned taken, PlumbCliFault *fault)
{
    /* The hyphens that every option begins with are no likeness. */
    const size_t hyphens = strspn(name, "-");
    PlumbNearest search = plumb_nearest_begin(name + hyphens, strcspn(name + hyphens, "="));
    for (size_t i = 0; i < PLUMB_OPT_COUNT; i++) {
        if ((taken >> i & 1U) != 0) {
            plumb_nearest_try(&search, plumb_cli_options[i].name + 2);
        }
    }
    const char *const nearest = plumb_nearest_word(&search);
    if (nearest != NULL) {
        return plumb_fault_bad(fault, name, "no such option; did you mean --", nearest, "?");
    }
    return plumb_fault_bad(fault, name, "no such option; --help lists those of the command", "",
                           "");
}

/* Matches "--name", "--name=value" or "-n"; *value points past "=" or is NULL. */
static const PlumbCliOption *find_option(const char *argument, const char **value)
{
    const char *const equals = strchr(argument, '=');
    const size_t length = equals != NULL ? (size_t)(equals - argument) : strlen(argument);
    for (size_t i = 0; i < PLUMB_OPT_COUNT; i++) {
        const PlumbCliOption *const option = &plumb_cli_options[i];
        const bool is_long =
            strlen(option->name) == length && strncmp(option->name, argument, length) == 0;
        if (is_long || strcmp(option->short_name, argument) == 0) {
            *value = is_long && equals != NULL ? equals + 1 : NULL;
            return option;
        }
    }
    return NULL;
}

/* Reads the option at argv[*at] and steps past its value. */
static PlumbStatus read_option(PlumbCliArgs *args, int argc, char *const *argv, int *at,
                               PlumbCliFault *fault)
{
    const char *value = NULL;
    const PlumbCliOption *const option = find_option(argv[*at], &value);
    if (option == NULL) {
        return unknown_option(argv[*at], args->command->options, fault);
    }
    if ((args->command->options >> option->id & 1U) == 0) {
        return plumb_fault_bad(fault, option->name, "the command ", args->command->name,
                               " has no such option; its --help lists what it takes");
    }
    if (args->given[option->id]) {
        return plumb_fault_bad(fault, option->name, "given twice; leave one out", "", "");
    }
    args->given[option->id] = true;
    const bool takes_value = option->value[0] != '\0';
    if (!takes_value && value != NULL) {
        return plumb_fault_bad(fault, option->name, "takes no value, found '", value, "'");
    }
    if (takes_value && value == NULL) {
        *at += 1;
        value = *at < argc ? argv[*at] : NULL;
    }
    if (takes_value && (value == NULL || value[0] == '\0')) {
        return plumb_fault_bad(fault, option->name, "needs a value: ", option->value, "");
    }
    return takes_value ? plumb_option_take(args, option->id, value, fault) : PLUMB_OK;
}

static void today(char date[PLUMB_CLI_DATE_SIZE])
{
    const time_t now = time(NULL);
    struct tm local;
    if (localtime_r(&now, &local) == NULL ||
        strftime(date, PLUMB_CLI_DATE_SIZE, "%Y-%m-%d", &local) == 0) {
        date[0] = '\0';
    }
}

static PlumbStatus finish(PlumbCliArgs *args, PlumbCliFault *fault)
{
    args->json = args->given[PLUMB_OPT_JSON];
    args->csv = args->given[PLUMB_OPT_CSV];
    args->dark = args->given[PLUMB_OPT_DARK];
    args->output = args->value[PLUMB_OPT_OUTPUT];
    args->pencil = args->value[PLUMB_OPT_PENCIL];
    args->script = args->value[PLUMB_OPT_SCRIPT];
    args->shots = args->value[PLUMB_OPT_SHOTS];
    args->at = args->value[PLUMB_OPT_AT];
    if (args->json && args->csv) {
        return plumb_fault_bad(fault, "--csv", "an answer has one form; leave out --json or --csv",
                               "", "");
    }
    if (args->date[0] == '\0') {
        today(args->date);
    }
    return PLUMB_OK;
}

PlumbStatus plumb_args_read(const PlumbCliCommand *command, int argc, char *const *argv,
                            PlumbCliArgs *args, PlumbCliFault *fault)
{
    *args = (PlumbCliArgs){.command = command,
                           .points = POINTS_DEFAULT,
                           .samples = -1,
                           .seed = 1,
                           .text_scale = 1.0,
                           .width_px = WIDTH_DEFAULT,
                           .height_px = HEIGHT_DEFAULT};
    bool options_ended = false;
    for (int i = 2; i < argc; i++) {
        if (!options_ended && strcmp(argv[i], "--") == 0) {
            options_ended = true;
        } else if (!options_ended && argv[i][0] == '-' && argv[i][1] != '\0') {
            const PlumbStatus status = read_option(args, argc, argv, &i, fault);
            if (status != PLUMB_OK) {
                return status;
            }
        } else if (args->word_count == PLUMB_CLI_WORDS_MAX) {
            return plumb_fault_bad(fault, "arguments", "more than 128; settings belong in a file",
                                   "", "");
        } else {
            args->word[args->word_count++] = argv[i];
        }
    }
    return finish(args, fault);
}
