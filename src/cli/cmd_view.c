/* SPDX-License-Identifier: MIT */
/* plumbar view: opens the window, where the program was built with it. The one file of this folder
 * that knows the window. */
#include "command.h"

#ifdef PLUMB_HAS_VIEWER

#include "request.h"
#include "viewer/viewer.h"
#include "words.h"

#include <stdlib.h>
#include <string.h>

/* What the window borrows while it runs. */
typedef struct Opening {
    PlumbCliRequest request;
    PlumbCliRequest pencil;
    const char *picture; /* marks or a film, to trace */
    PlumbViewerSetup pencil_setup;
    PlumbLifterFile *file; /* NULL where none was given */
    PlumbViewerSetup *setup;
    int setup_count;
    int first;
} Opening;

static bool any_given(const PlumbSetupEntry *entry)
{
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        if (entry->given[i]) {
            return true;
        }
    }
    return false;
}

/* Lists the set-ups of the file, the named one as the words have changed it. Words that name none
 * make one of their own, which stands first. */
static PlumbStatus list_setups(Opening *open, PlumbCliFault *fault)
{
    const PlumbCliRequest *const request = &open->request;
    const size_t in_file = open->file != NULL ? open->file->setup_count : 0;
    const bool named = request->setup_name[0] != '\0';
    open->setup = calloc(in_file + 1, sizeof *open->setup);
    if (open->setup == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "view", "no memory for the set-ups");
    }
    if (!named && (request->lift_given || any_given(&request->entry) || in_file == 0)) {
        open->setup[open->setup_count++] = (PlumbViewerSetup){"", request->setup};
    }
    for (size_t i = 0; i < in_file; i++) {
        const PlumbFileSetup *const from = &open->file->setup[i];
        PlumbViewerSetup *const to = &open->setup[open->setup_count];
        to->name = from->name;
        const PlumbStatus status = plumb_setup_entry_close(&from->entry, &to->setup, &fault->error);
        if (status != PLUMB_OK) {
            return status;
        }
        if (named && strcmp(from->name, request->setup_name) == 0) {
            to->setup = request->setup;
            open->first = open->setup_count;
        }
        open->setup_count++;
    }
    return PLUMB_OK;
}

/* A picture, marks or a film; a folder of frames is written with a slash, so that a folder called
 * deadlift is not taken for the lift. */
static bool is_picture(const char *word)
{
    return strpbrk(word, "./") != NULL && !plumb_words_is_pair(word) && plumb_viewer_traces(word);
}

static PlumbStatus read_opening(const PlumbCliArgs *args, Opening *open, PlumbCliFault *fault)
{
    /* A first start needs somebody on the drawing. */
    static const char *const example[] = {"deadlift", "sex=female", "stature=168cm", "mass=66kg"};
    const char *word[PLUMB_CLI_WORDS_MAX];
    int count = 0;
    for (int i = 0; i < args->word_count; i++) {
        if (is_picture(args->word[i]) && open->picture == NULL) {
            open->picture = args->word[i];
        } else {
            word[count++] = args->word[i];
        }
    }
    const bool plain = count == 0;
    PlumbStatus status = plumb_request_read(
        plain ? example : word, plain ? 4 : count,
        PLUMB_REQUEST_SETUP | PLUMB_REQUEST_ANY_LIFT | PLUMB_REQUEST_BENCH, &open->request, fault);
    if (plain && status == PLUMB_OK) {
        PlumbText name =
            plumb_text_begin(open->request.record.name, sizeof open->request.record.name);
        plumb_text_string(&name, "example lifter");
    }
    if (status == PLUMB_OK && args->pencil != NULL) {
        status = plumb_request_read_pencil(&open->request, args->pencil, &open->pencil, fault);
    }
    if (status == PLUMB_OK && open->request.path[0] != '\0') {
        status = plumb_lifter_file_read(open->request.path, &open->file, &fault->error);
    }
    return status == PLUMB_OK ? list_setups(open, fault) : status;
}

/* Where the desktop keeps what programs remember; a script remembers only where it is told to. */
static bool state_folder(const PlumbCliArgs *args, char *folder, size_t size)
{
    const char *const state = getenv("XDG_STATE_HOME");
    const char *const home = getenv("HOME");
    const bool told = state != NULL && state[0] == '/';
    if (!told && (args->script != NULL || home == NULL || home[0] != '/')) {
        return false;
    }
    PlumbText text = plumb_text_begin(folder, size);
    plumb_text_string(&text, told ? state : home);
    plumb_text_string(&text, told ? "/plumbar" : "/.local/state/plumbar");
    return true;
}

static PlumbCliExit run(const PlumbCliArgs *args, Opening *open)
{
    PlumbViewerOptions options = plumb_viewer_options(&open->request.lifter);
    options.record = &open->request.record;
    options.path = open->request.path;
    options.setup = open->setup;
    options.setup_count = open->setup_count;
    options.first = open->first;
    options.picture = open->picture;
    options.units = args->units;
    options.paper = args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
    options.text_scale = args->text_scale;
    options.width_px = args->width_px;
    options.height_px = args->height_px;
    options.date = args->date;
    options.script_path = args->script;
    options.shot_folder = args->shots;
    char folder[PLUMB_CLI_PATH_SIZE];
    options.state_folder = state_folder(args, folder, sizeof folder) ? folder : NULL;
    if (args->pencil != NULL) {
        const bool named = open->pencil.setup_name[0] != '\0';
        open->pencil_setup =
            (PlumbViewerSetup){named ? open->pencil.setup_name : args->pencil, open->pencil.setup};
        options.pencil = &open->pencil_setup;
        options.pencil_record = &open->pencil.record;
        options.pencil_lifter = &open->pencil.lifter;
    }
    return (PlumbCliExit)plumb_viewer_run(&options);
}

PlumbCliExit plumb_cli_view(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    Opening *const open = calloc(1, sizeof *open);
    if (open == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "view", "no memory for the window"));
    }
    const PlumbStatus status = read_opening(args, open, fault);
    const PlumbCliExit code = status == PLUMB_OK ? run(args, open) : plumb_fault_exit(status);
    plumb_lifter_file_free(open->file);
    free(open->setup);
    free(open);
    return code;
}

#else

PlumbCliExit plumb_cli_view(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    (void)args;
    return plumb_fault_exit(plumb_fault_set(
        fault, PLUMB_UNSUPPORTED, "view",
        "this program was built without the window; build it with -DPLUMB_VIEWER=ON and SDL2, or "
        "use plumbar draw"));
}

#endif
