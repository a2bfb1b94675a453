/* SPDX-License-Identifier: MIT */
/* Any bytes as the words of a command line, one a line: splitting them and reading a lifter and a
 * set-up from them must end in an answer or in a message, and write nothing. */
#include "cli/args.h"
#include "cli/request.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { WORDS_MAX = 140 };

static void check(bool holds)
{
    if (!holds) {
        abort();
    }
}

static void check_fault(PlumbStatus status, const PlumbCliFault *fault)
{
    check(status != PLUMB_OK && fault->error.message[0] != '\0');
    check(memchr(fault->error.message, '\0', sizeof fault->error.message) != NULL);
    check(memchr(fault->error.field, '\0', sizeof fault->error.field) != NULL);
}

/* Splits text at its line ends into words after two that stand for program and command. */
static int split(char *text, char *word[WORDS_MAX])
{
    static char program[] = "plumbar";
    static char command[] = "setup";
    int count = 2;
    word[0] = program;
    word[1] = command;
    for (char *at = text; at != NULL && *at != '\0' && count < WORDS_MAX; count++) {
        word[count] = at;
        at = strchr(at, '\n');
        if (at != NULL) {
            *at++ = '\0';
        }
    }
    return count;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    PlumbCliRequest *request = malloc(sizeof *request);
    if (text != NULL && request != NULL) {
        memcpy(text, data, size);
        text[size] = '\0';
        char *word[WORDS_MAX];
        const int count = split(text, word);
        PlumbCliFault fault = {.error = {.status = PLUMB_OK}};
        const PlumbCliCommand *command =
            &plumb_cli_commands[size % (size_t)plumb_cli_command_count];
        PlumbCliArgs args;
        PlumbStatus status = plumb_args_read(command, count, word, &args, &fault);
        if (status == PLUMB_OK) {
            const unsigned may = PLUMB_REQUEST_SETUP | PLUMB_REQUEST_AXES;
            status = plumb_request_read(args.word, args.word_count, may, request, &fault);
        }
        if (status != PLUMB_OK) {
            check_fault(status, &fault);
        }
    }
    free(request);
    free(text);
    return 0;
}
