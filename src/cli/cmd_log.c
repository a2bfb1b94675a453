/* SPDX-License-Identifier: MIT */
/* plumbar log: the dated entries of a lifter file as a table, as a chart, and one more. */
#include "command.h"
#include "diary.h"
#include "request.h"
#include "source.h"

#include <plumbar/solved.h>

#include <stdlib.h>
#include <string.h>

static PlumbStatus copy_words(char *to, size_t size, const char *words, const char *option,
                              PlumbCliFault *fault)
{
    if (strlen(words) >= size) {
        return plumb_fault_bad(fault, option, "is too long; findings take up to 255 bytes, a note ",
                               "511", "");
    }
    memcpy(to, words, strlen(words) + 1);
    return PLUMB_OK;
}

/* The entry that the words ask for: a set-up of the file, with settings over it. */
static PlumbStatus new_entry(const PlumbCliArgs *args, const PlumbCliRequest *request,
                             PlumbLogEntry *entry, PlumbCliFault *fault)
{
    *entry = (PlumbLogEntry){.lift = request->lift, .setup = request->setup};
    memcpy(entry->date, args->date, sizeof entry->date);
    memcpy(entry->setup_name, request->setup_name, sizeof entry->setup_name);
    const char *const note = args->value[PLUMB_OPT_NOTE];
    const char *const findings = args->value[PLUMB_OPT_FINDINGS];
    PlumbStatus status = PLUMB_OK;
    if (note != NULL) {
        status = copy_words(entry->note, sizeof entry->note, note, "--note", fault);
    }
    if (status == PLUMB_OK && findings != NULL) {
        status = copy_words(entry->findings, sizeof entry->findings, findings, "--findings", fault);
    } else if (status == PLUMB_OK) {
        PlumbSolved solved;
        plumb_solved_solve(&request->lifter, &request->setup, &solved);
        PlumbText names = plumb_text_begin(entry->findings, sizeof entry->findings);
        plumb_solved_finding_names(&names, &solved);
    }
    return status;
}

/* What was written, and where it leads. */
static PlumbCliExit added(const PlumbCliArgs *args, const PlumbCliRequest *request,
                          const PlumbLogEntry *entry, PlumbCliFault *fault)
{
    PlumbCliOutput out = plumb_output_begin(args->output);
    char line[PLUMB_CLI_PATH_SIZE + 2 * PLUMB_LIFTER_NAME_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "logged in ");
    plumb_text_string(&text, request->path);
    plumb_text_string(&text, ": ");
    plumb_text_string(&text, entry->date);
    plumb_text_string(&text, ", ");
    plumb_text_string(&text, plumb_lift_text(entry->lift));
    plumb_text_string(&text, entry->setup_name[0] != '\0' ? ", " : "");
    plumb_text_string(&text, entry->setup_name);
    plumb_text_string(&text, ", ");
    plumb_text_said(&text, entry->setup.load_kg, PLUMB_Q_MASS, args->units);
    plumb_text_char(&text, '\n');
    plumb_output_string(&out, line);
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

static PlumbCliExit add(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    PlumbLogEntry entry;
    PlumbLifterFile *file = NULL;
    const unsigned may = PLUMB_REQUEST_SETUP | PLUMB_REQUEST_ANY_LIFT | PLUMB_REQUEST_BENCH;
    PlumbStatus status = plumb_request_read(args->word, args->word_count, may, &request, fault);
    if (status == PLUMB_OK && request.path[0] == '\0') {
        status = plumb_fault_bad(fault, "file", "is missing; write FILE:set-up name", "", "");
    }
    if (status == PLUMB_OK && request.setup_name[0] == '\0' && !request.lift_given) {
        status = plumb_fault_bad(fault, "--add",
                                 "needs what was lifted: FILE:set-up name, or the lift", "", "");
    }
    if (status == PLUMB_OK) {
        status = new_entry(args, &request, &entry, fault);
    }
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_read(request.path, &file, &fault->error);
    }
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_add_log(file, &entry, &fault->error);
    }
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_save(file, NULL, &fault->error);
    }
    plumb_lifter_file_free(file);
    return status == PLUMB_OK ? added(args, &request, &entry, fault) : plumb_fault_exit(status);
}

/* The file alone is named, and perhaps a lift before it. */
static PlumbStatus open_file(const PlumbCliArgs *args, PlumbCliSource *source, PlumbCliDiary *diary,
                             PlumbCliFault *fault)
{
    const char *const first = args->word_count > 0 ? args->word[0] : "";
    diary->one_lift = plumb_lift_find(first, strlen(first), &diary->lift);
    const int file = diary->one_lift ? 1 : 0;
    if (args->word_count != file + 1) {
        return plumb_fault_bad(fault, "file", "is what plumbar log reads, and nothing else; --add ",
                               "takes a set-up and settings", "");
    }
    return plumb_source_open(args->word[file], source, fault);
}

static PlumbCliExit show(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliSource source = {.file = NULL};
    PlumbCliDiary diary = {.count = 0};
    PlumbStatus status = open_file(args, &source, &diary, fault);
    if (status == PLUMB_OK) {
        status = plumb_diary_take(source.file, &diary, fault);
    }
    PlumbCliExit code = plumb_fault_exit(status);
    if (status == PLUMB_OK) {
        code = plumb_diary_print(args, source.file, &diary, fault);
    }
    free(diary.row);
    plumb_source_close(&source);
    return code;
}

PlumbCliExit plumb_cli_log(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    if (args->given[PLUMB_OPT_ADD]) {
        return add(args, fault);
    }
    if (args->given[PLUMB_OPT_NOTE] || args->given[PLUMB_OPT_FINDINGS]) {
        return plumb_fault_exit(
            plumb_fault_bad(fault, args->given[PLUMB_OPT_NOTE] ? "--note" : "--findings",
                            "belongs to a new entry; add --add", "", ""));
    }
    return show(args, fault);
}
