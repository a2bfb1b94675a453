/* SPDX-License-Identifier: MIT */
/* plumbar handout: one page for the athlete, as PDF, PNG or SVG. */
#include "command.h"
#include "picture.h"
#include "request.h"
#include "trace_still.h"
#include "try_out.h"
#include "words.h"

#include <plumbar/file.h>
#include <plumbar/report.h>

#include <stdlib.h>
#include <string.h>

enum { DRILLS_BYTES_MAX = 1 << 20 };

/* before is drawn in pencil: the present set-up against a proposed one, or, looking back, that of a
 * day of the log against the present one. */
typedef struct Page {
    PlumbCliRequest before;
    PlumbCliRequest after;
    PlumbProposal proposal; /* where nothing was proposed */
    bool proposed_here;
    PlumbDrills drills;
    char still_words[PLUMB_CLI_PATH_SIZE];
    PlumbCliStill *still; /* NULL: no picture */
    PlumbStillPicture picture;
    PlumbUnderlay under;
} Page;

static PlumbStatus read_drills(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const char *const path = args->value[PLUMB_OPT_DRILLS];
    if (path == NULL) {
        return PLUMB_OK;
    }
    char *bytes = NULL;
    size_t length = 0;
    PlumbStatus status =
        plumb_file_read_whole(path, DRILLS_BYTES_MAX, &bytes, &length, &fault->error);
    if (status == PLUMB_OK) {
        status = plumb_drills_read(bytes, length, &page->drills, &fault->error);
        free(bytes);
    }
    if (status != PLUMB_OK) {
        plumb_fault_in_file(fault, path);
    }
    return status;
}

/* Nothing is proposed: what plumbar would try first, where that is worth it. */
static PlumbStatus find_proposed(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    PlumbSolved solved;
    PlumbGoal goal;
    plumb_solved_solve(&page->before.lifter, &page->before.setup, &solved);
    PlumbStatus status = plumb_cli_goal(args, &solved, &goal, fault);
    if (status == PLUMB_OK) {
        status = plumb_proposal_find(&page->before.record, &page->before.setup, &goal, args->units,
                                     &page->proposal, &fault->error);
    }
    if (status == PLUMB_OK) {
        page->after = page->before;
        page->after.setup = page->proposal.option.setup;
        page->after.setup_name[0] = '\0';
        page->proposed_here = true;
    }
    return status;
}

/* The proposed set-up, over the present one or of a file, but of the same lifter. */
static PlumbStatus read_proposed(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const char *const what = args->value[PLUMB_OPT_PROPOSED];
    if (what == NULL) {
        return find_proposed(args, page, fault);
    }
    if (args->given[PLUMB_OPT_FOR]) {
        return plumb_fault_bad(fault, "--for", "chooses a change, --proposed gives one; leave one ",
                               "out", "");
    }
    const PlumbStatus status = plumb_request_read_pencil(&page->before, what, &page->after, fault);
    if (status != PLUMB_OK) {
        if (strcmp(fault->error.field, "--pencil") == 0) {
            memcpy(fault->error.field, "--proposed", sizeof "--proposed");
        }
    }
    return status;
}

/* The set-up of a day of the file's log, before the one that was read. */
static PlumbStatus read_since(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const char *const since = args->value[PLUMB_OPT_SINCE];
    if (args->given[PLUMB_OPT_PROPOSED] || args->given[PLUMB_OPT_FOR]) {
        return plumb_fault_bad(fault, "--since", "looks back, ",
                               args->given[PLUMB_OPT_FOR] ? "--for" : "--proposed",
                               " ahead; leave one out");
    }
    if (page->before.path[0] == '\0') {
        return plumb_fault_bad(fault, "--since", "needs a lifter file, whose log it reads", "", "");
    }
    PlumbLifterFile *file = NULL;
    PlumbStatus status = plumb_lifter_file_read(page->before.path, &file, &fault->error);
    if (status == PLUMB_OK) {
        const PlumbLogEntry *const entry =
            plumb_lifter_file_log(file, since, page->before.lift, &fault->error);
        page->after = page->before;
        if (entry != NULL) {
            page->before.setup = entry->setup;
        } else {
            status = fault->error.status;
        }
    }
    plumb_lifter_file_free(file);
    return status;
}

/* The marks of --still on the lifter and the set-up of the command: the words of `trace still`. */
static PlumbStatus read_still(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const char *const what = args->value[PLUMB_OPT_STILL];
    if (what == NULL) {
        return PLUMB_OK;
    }
    PlumbCliArgs words = *args;
    page->still = calloc(1, sizeof *page->still);
    if (page->still == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "--still", "no memory for the fit");
    }
    if (strlen(what) >= sizeof page->still_words) {
        return plumb_fault_bad(fault, "--still", "is longer than its words can be", "", "");
    }
    memcpy(page->still_words, what, strlen(what) + 1);
    /* The file first, then pairs. */
    words.word[0] = "still";
    words.word[1] = page->still_words;
    const int room = PLUMB_CLI_WORDS_MAX - 2 - args->word_count;
    const int count = plumb_words_cut(page->still_words, words.word + 2, room);
    if (count < 0) {
        return plumb_fault_bad(fault, "--still", "has too many words", "", "");
    }
    memcpy(words.word + 2 + count, args->word, (size_t)args->word_count * sizeof *args->word);
    words.word_count = 2 + count + args->word_count;
    PlumbStatus status = plumb_still_read(&words, page->still, fault);
    if (status == PLUMB_OK) {
        const int shown = plumb_handout_still(&page->still->all);
        status = plumb_still_picture(page->still->picture_path[shown], &page->picture, &page->under,
                                     &fault->error);
    }
    return status;
}

static PlumbStatus read_page(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH,
                           &page->before, fault);
    if (status == PLUMB_OK) {
        status = args->given[PLUMB_OPT_SINCE] ? read_since(args, page, fault)
                                              : read_proposed(args, page, fault);
    }
    if (status == PLUMB_OK) {
        status = read_drills(args, page, fault);
    }
    return status == PLUMB_OK ? read_still(args, page, fault) : status;
}

static PlumbStatus make(const PlumbCliArgs *args, const Page *page, PlumbPictureKind kind,
                        PlumbBytes *bytes, PlumbCliFault *fault)
{
    PlumbOrder order = plumb_order(&page->after.record, &page->before.setup, &page->after.setup);
    order.before_record = &page->before.record;
    order.before_name = page->before.setup_name;
    order.after_name = page->after.setup_name;
    order.date = args->date;
    order.units = args->units;
    order.paper = args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
    order.format = args->letter ? PLUMB_LETTER_PORTRAIT : PLUMB_A4_PORTRAIT;
    order.drills = args->given[PLUMB_OPT_DRILLS] ? &page->drills : NULL;
    order.stills = page->still != NULL ? &page->still->all : NULL;
    order.picture = page->under.pixel != NULL ? &page->under : NULL;
    order.proposal = page->proposed_here ? &page->proposal : NULL;
    order.note = args->given[PLUMB_OPT_NOTE] ? args->value[PLUMB_OPT_NOTE] : "";
    order.since = args->given[PLUMB_OPT_SINCE] ? args->value[PLUMB_OPT_SINCE] : "";
    order.student = args->given[PLUMB_OPT_STUDENT];
    order.sample_count = args->samples >= 0 ? args->samples : order.sample_count;
    return plumb_handout_make(&order, kind, bytes, &fault->error);
}

static PlumbCliExit handout(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK) {
        status = read_page(args, page, fault);
    }
    if (status == PLUMB_OK) {
        status = make(args, page, kind, &bytes, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
    plumb_bytes_free(&bytes);
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

PlumbCliExit plumb_cli_handout(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    Page *const page = calloc(1, sizeof *page);
    if (page == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "handout", "no memory for the handout"));
    }
    const PlumbCliExit code = handout(args, page, fault);
    plumb_still_picture_free(&page->picture);
    free(page->still);
    free(page);
    plumb_draw_finish();
    return code;
}
