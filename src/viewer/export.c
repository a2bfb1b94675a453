/* SPDX-License-Identifier: MIT */
/* Exported sheets: the name that is proposed, and the bytes by the ending. */
#include "export.h"

#include "compose.h"
#include "export_page.h"
#include "page_trace.h"
#include "path.h"
#include "pages.h"
#include "reel.h"
#include "field.h"
#include "working.h"

#include <plumbar/file.h>

#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const double png_px_per_mm = 8.0;

/* Letters and digits of the lifter's name; the rest would need quoting somewhere. */
static void add_stem(PlumbText *text, const char *name)
{
    bool any = false;
    for (; *name != '\0'; name++) {
        const bool plain = (*name >= 'a' && *name <= 'z') || (*name >= 'A' && *name <= 'Z') ||
                           (*name >= '0' && *name <= '9') || *name == '_';
        if (plain) {
            plumb_text_char(text, *name);
            any = true;
        } else if (any && text->data[text->length - 1] != '-') {
            plumb_text_char(text, '-');
        }
    }
    if (any) {
        plumb_text_string(text, text->data[text->length - 1] == '-' ? "" : "-");
    }
}

void plumb_export_name(const PlumbDesk *desk, const char *what, const char *ending,
                       char name[PLUMB_FIELD_TEXT_SIZE])
{
    for (int i = 1; i < 1000; i++) {
        PlumbText text = plumb_text_begin(name, PLUMB_FIELD_TEXT_SIZE - 8);
        add_stem(&text, desk->now.record.name);
        plumb_text_string(&text, plumb_lift_name(desk->now.lift));
        plumb_text_string(&text, what);
        if (i > 1) {
            plumb_text_char(&text, '-');
            plumb_text_integer(&text, i);
        }
        memcpy(name + text.length, ending, strlen(ending) + 1);
        if (access(name, F_OK) != 0) {
            break;
        }
    }
}

void plumb_export_open(PlumbDesk *desk, PlumbFieldUse use, const char *what, const char *ending,
                       const char *words)
{
    char name[PLUMB_FIELD_TEXT_SIZE];
    plumb_export_name(desk, what, ending, name);
    plumb_field_open(desk, use, PLUMB_SET_style, name);
    plumb_desk_say(desk, false, words);
}

void plumb_export_ask(PlumbDesk *desk)
{
    if (plumb_working_shown(desk)) {
        char what[64];
        PlumbText text = plumb_text_begin(what, sizeof what);
        plumb_text_char(&text, '-');
        plumb_question_name(&text, plumb_working_question(desk));
        plumb_export_open(desk, PLUMB_FIELD_EXPORT, what, ".pdf",
                          "Export this working, one page: Enter writes it. The ending .pdf, .svg "
                          "or .png decides the form; Escape leaves it.");
        return;
    }
    static const char *const WHAT[PLUMB_PAGE_COUNT] = {"", "-path", "-compare", "-map", "-trace"};
    plumb_export_open(desk, PLUMB_FIELD_EXPORT, WHAT[desk->page], ".pdf",
                      "Export this page: Enter writes it. The ending .pdf, .svg, .png or .csv (its "
                      "figures) decides the form; Escape leaves it.");
}

/* "2026-01-31T12:00:00Z" of now. */
static void date_of_now(char date[32])
{
    const time_t now = time(NULL);
    struct tm utc;
    date[0] = '\0';
    if (gmtime_r(&now, &utc) != NULL) {
        strftime(date, 32, "%Y-%m-%dT%H:%M:%SZ", &utc);
    }
}

static PlumbStatus draw(const PlumbScene *scene, PlumbPaper paper, const char *path,
                        PlumbBytes *bytes, PlumbError *error)
{
    if (plumb_path_ends(path, ".svg")) {
        return plumb_draw_svg(scene, paper, bytes, error);
    }
    if (plumb_path_ends(path, ".png")) {
        return plumb_draw_png(scene, paper, png_px_per_mm, bytes, error);
    }
    if (plumb_path_ends(path, ".pdf")) {
        char date[32];
        date_of_now(date);
        return plumb_draw_pdf(scene, paper, date, bytes, error);
    }
    return plumb_error_set(error, PLUMB_BAD_INPUT, "export",
                           "the name has to end in .pdf, .svg, .png or .csv");
}

static PlumbStatus make_sheet(PlumbDesk *desk, const char *path, PlumbBytes *bytes,
                              PlumbError *error)
{
    PlumbScene *const scene = malloc(sizeof *scene);
    if (scene == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "export", "out of memory");
    }
    plumb_export_compose(desk, scene);
    const PlumbStatus status = draw(scene, PLUMB_LIGHT_PAPER, path, bytes, error);
    free(scene);
    return status;
}

bool plumb_export_say(PlumbDesk *desk, const char *path, bool replaced, PlumbStatus status,
                      const PlumbError *error)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    const bool written = status == PLUMB_OK;
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, !written ? "Not exported: " : replaced ? "Replaced " : "Wrote ");
    plumb_text_string(&text, path);
    plumb_text_string(&text, written ? "." : ": ");
    plumb_text_string(&text, written ? "" : error->message);
    plumb_desk_say(desk, !written, words);
    return written;
}

bool plumb_export_put(PlumbDesk *desk, const char *path, PlumbStatus status, const char *bytes,
                      size_t length, PlumbError *error)
{
    const bool there = access(path, F_OK) == 0;
    if (status == PLUMB_OK) {
        status = plumb_file_write_atomic(path, bytes, length, error);
    }
    return plumb_export_say(desk, path, there, status, error);
}

bool plumb_export_write(PlumbDesk *desk, const char *path)
{
    PlumbError error = {0};
    PlumbBytes bytes = {NULL, 0};
    if (plumb_path_ends(path, ".csv") && !plumb_working_shown(desk)) {
        char *text = NULL;
        size_t length = 0;
        const PlumbStatus status = plumb_export_csv(desk, &text, &length, &error);
        const bool written = plumb_export_put(desk, path, status, text, length, &error);
        free(text);
        return written;
    }
    PlumbStatus status = PLUMB_OK;
    if (!plumb_working_shown(desk) && plumb_reel_written(desk)) {
        return plumb_reel_export(desk, path);
    }
    if (plumb_working_shown(desk)) {
        status = plumb_working_file(desk, path, &bytes, &error);
    } else if (desk->page == PLUMB_PAGE_TRACE) {
        char date[32];
        date_of_now(date);
        status = plumb_trace_export(desk, path, date, &bytes, &error);
    } else {
        status = make_sheet(desk, path, &bytes, &error);
    }
    const bool written =
        plumb_export_put(desk, path, status, (const char *)bytes.data, bytes.length, &error);
    plumb_bytes_free(&bytes);
    return written;
}
