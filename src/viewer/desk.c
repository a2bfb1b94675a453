/* SPDX-License-Identifier: MIT */
/* The desk: what the window opens with, and answers that follow what is set. */
#include "desk.h"

#include "journal.h"
#include "page_trace.h"
#include "pages.h"
#include "ruler.h"
#include "working.h"

#include <plumbar/press.h>

#include <stdlib.h>
#include <string.h>
#include <time.h>

PlumbViewerOptions plumb_viewer_options(const PlumbLifter *lifter)
{
    return (PlumbViewerOptions){.lifter = lifter,
                                .path = "",
                                .units = PLUMB_METRIC,
                                .paper = PLUMB_LIGHT_PAPER,
                                .text_scale = 1.0,
                                .width_px = 1280,
                                .height_px = 800,
                                .date = ""};
}

double plumb_clock_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void copy_name(char name[PLUMB_DESK_NAME_SIZE], const char *from)
{
    PlumbText text = plumb_text_begin(name, PLUMB_DESK_NAME_SIZE);
    plumb_text_string(&text, from);
}

/* The defaults of a lift in the lifter's own shoes. */
static PlumbSetup plain_setup(const PlumbSheet *sheet, PlumbLift lift)
{
    PlumbSetup setup = plumb_setup_entry(lift, sheet->record.heel_m, sheet->record.ball_m).setup;
    plumb_press_default_grip(&sheet->lifter, &setup);
    return setup;
}

void plumb_sheet_begin(PlumbSheet *sheet, const PlumbLifterRecord *record,
                       const PlumbLifter *lifter)
{
    sheet->record = *record;
    sheet->lifter = *lifter;
    sheet->named_count = 0;
    for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
        sheet->setup[i] = plain_setup(sheet, (PlumbLift)i);
        sheet->setup_name[i][0] = '\0';
    }
}

void plumb_sheet_pick(PlumbSheet *sheet, int index)
{
    const PlumbNamed *const named = &sheet->named[index];
    sheet->lift = named->setup.lift;
    sheet->setup[sheet->lift] = named->setup;
    memcpy(sheet->setup_name[sheet->lift], named->name, sizeof named->name);
}

int plumb_sheet_find(const PlumbSheet *sheet, const char *name)
{
    for (int i = 0; i < sheet->named_count; i++) {
        if (strcmp(sheet->named[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

bool plumb_sheet_add(PlumbSheet *sheet, const char *name, const PlumbSetup *setup)
{
    const int found = plumb_sheet_find(sheet, name);
    if (found < 0 && sheet->named_count == PLUMB_NAMED_MAX) {
        return false;
    }
    PlumbNamed *const named = &sheet->named[found < 0 ? sheet->named_count++ : found];
    copy_name(named->name, name);
    named->setup = *setup;
    return true;
}

void plumb_sheet_gather(PlumbSheet *sheet)
{
    for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
        const int at = plumb_sheet_find(sheet, sheet->setup_name[i]);
        if (at >= 0 && sheet->named[at].setup.lift == sheet->setup[i].lift) {
            sheet->named[at].setup = sheet->setup[i];
        }
    }
}

/* What the command line has said of the lifter; with less, what can be read off the body. */
static PlumbLifterRecord open_record(const PlumbViewerOptions *options)
{
    if (options->record != NULL) {
        return *options->record;
    }
    const PlumbBody *const body = &options->lifter->body;
    PlumbLifterRecord record = plumb_lifter_record();
    record.spec = plumb_body_spec(body->sex, body->stature_m, body->mass_kg);
    record.sex_given = record.stature_given = record.mass_given = true;
    return record;
}

static void open_sheet(PlumbDesk *desk)
{
    const PlumbViewerOptions *const options = desk->options;
    PlumbSheet *const now = &desk->now;
    const PlumbLifterRecord record = open_record(options);
    plumb_sheet_begin(now, &record, options->lifter);
    now->lift = PLUMB_DEADLIFT;
    PlumbText path = plumb_text_begin(now->path, sizeof now->path);
    plumb_text_string(&path, options->path);
    for (int i = 0; i < options->setup_count; i++) {
        const int back = options->setup_count - 1 - i; /* the first of each lift stays */
        const PlumbViewerSetup *const setup = &options->setup[back];
        now->setup[setup->setup.lift] = setup->setup;
        copy_name(now->setup_name[setup->setup.lift], setup->name);
    }
    for (int i = 0; i < options->setup_count; i++) {
        if (options->setup[i].name[0] != '\0') {
            plumb_sheet_add(now, options->setup[i].name, &options->setup[i].setup);
        }
    }
    if (options->setup_count > 0) {
        const PlumbViewerSetup *const first = &options->setup[options->first];
        now->lift = first->setup.lift;
        now->setup[now->lift] = first->setup;
        copy_name(now->setup_name[now->lift], first->name);
    }
    now->pencilled = options->pencil != NULL;
    if (now->pencilled) {
        now->pencil = options->pencil->setup;
        now->pencil_record = options->pencil_record != NULL ? *options->pencil_record : record;
        now->pencil_lifter =
            options->pencil_lifter != NULL ? *options->pencil_lifter : *options->lifter;
        copy_name(now->pencil_name, options->pencil->name);
    }
}

PlumbDesk *plumb_desk_create(const PlumbViewerOptions *options)
{
    PlumbDesk *const desk = calloc(1, sizeof *desk);
    if (desk == NULL) {
        return NULL;
    }
    desk->options = options;
    desk->font = plumb_font_create();
    desk->scene = calloc(1, sizeof *desk->scene);
    desk->tracing = plumb_tracing_create();
    desk->worked = plumb_worked_create();
    if (desk->font == NULL || desk->scene == NULL || desk->tracing == NULL ||
        desk->worked == NULL) {
        plumb_desk_destroy(desk);
        return NULL;
    }
    desk->units = options->units;
    desk->paper = options->paper;
    desk->text_scale = options->text_scale;
    desk->selected = PLUMB_JOINT_hip;
    open_sheet(desk);
    plumb_desk_touch(desk);
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)plumb_ruler_first(desk->now.lift));
    desk->hinted = true;
    plumb_desk_hint(desk);
    return desk;
}

void plumb_desk_destroy(PlumbDesk *desk)
{
    if (desk != NULL) {
        plumb_font_destroy(desk->font);
        free(desk->scene);
        plumb_tracing_destroy(desk->tracing);
        plumb_worked_destroy(desk->worked);
        free(desk->giving);
        free(desk->daybook);
        free(desk);
    }
}

const PlumbSetup *plumb_desk_setup(const PlumbDesk *desk)
{
    return &desk->now.setup[desk->now.lift];
}

void plumb_desk_touch(PlumbDesk *desk)
{
    plumb_press_default_grip(&desk->now.lifter, &desk->now.setup[PLUMB_BENCH]);
    desk->changed = true;
    desk->dirty = true;
    plumb_journal_touch(desk);
    plumb_pages_touch(desk);
    desk->try_first.on = false;
    if (!desk->drag.on && !desk->key_held) {
        desk->refit = true;
    }
}

/* Another lifter (by undo, or a swap): nothing that was found for the last one is shown. */
static void follow_lifter(PlumbDesk *desk)
{
    /* Padding that differs costs one more solution. NOLINTNEXTLINE(bugprone-suspicious-memory*) */
    if (memcmp(&desk->solved, &desk->now.lifter, sizeof desk->solved) == 0) {
        return;
    }
    desk->solved = desk->now.lifter;
    desk->has_inked = false;
    for (int i = 0; i < PLUMB_RULER_COUNT; i++) {
        if (desk->drag.on) {
            desk->curve[i].begun = false; /* the last one is shown until the next is made */
        } else {
            plumb_curve_forget(&desk->curve[i]);
        }
    }
}

void plumb_desk_settle(PlumbDesk *desk)
{
    if (!desk->changed) {
        return;
    }
    const double begun_s = plumb_clock_s();
    desk->changed = false;
    follow_lifter(desk);
    const PlumbSetup *const setup = plumb_desk_setup(desk);
    plumb_desk_family(desk)->solve(&desk->now.lifter, setup, false, &desk->answer);
    if (desk->answer.outcome != PLUMB_NO_POSE) {
        desk->inked = desk->answer;
        desk->has_inked = true;
    } else if (desk->has_inked && desk->inked.setup.lift != setup->lift) {
        desk->has_inked = false;
    }
    if (plumb_desk_pencil_shown(desk) && !desk->drag.on) {
        plumb_desk_family(desk)->solve(&desk->now.pencil_lifter, &desk->now.pencil, false,
                                       &desk->pencil);
    }
    desk->solver_s += plumb_clock_s() - begun_s;
}

const PlumbPosed *plumb_desk_inked(const PlumbDesk *desk)
{
    return desk->has_inked ? &desk->inked : &desk->answer;
}

const PlumbPosed *plumb_desk_wish(const PlumbDesk *desk)
{
    return desk->answer.outcome == PLUMB_NO_POSE && desk->has_inked ? &desk->answer : NULL;
}

const PlumbFamily *plumb_desk_family(const PlumbDesk *desk)
{
    return plumb_family(desk->now.lift);
}

int plumb_desk_arm(const PlumbDesk *desk)
{
    return desk->now.lift == PLUMB_BENCH ? (int)desk->press_selected : (int)desk->selected;
}

/* Dimension lines and curves follow; an arm that the family does not have changes nothing. */
void plumb_desk_select(PlumbDesk *desk, int arm)
{
    if (arm < 0 || arm >= plumb_desk_family(desk)->arm_count) {
        return;
    }
    if (desk->now.lift == PLUMB_BENCH) {
        desk->press_selected = (PlumbPressJoint)arm;
    } else {
        desk->selected = (PlumbJoint)arm;
    }
    desk->refit = true;
    desk->dirty = true;
}

bool plumb_desk_pencil_shown(const PlumbDesk *desk)
{
    return desk->now.pencilled && desk->now.pencil.lift == desk->now.lift;
}

void plumb_desk_say(PlumbDesk *desk, bool wrong, const char *message)
{
    PlumbText text = plumb_text_begin(desk->message, sizeof desk->message);
    plumb_text_string(&text, message);
    desk->message_wrong = wrong;
    desk->hinted = false;
    desk->dirty = true;
}

static const char *const HINT[PLUMB_PAGE_COUNT] = {
    [PLUMB_PAGE_DRAWING] = "Drag a pointer on a ruler, or use its arrow keys. A click on a joint "
                           "shows its arm, on a figure its working. F1: all keys.",
    [PLUMB_PAGE_PATH] = "Drag the scrubber above the moments, or press Space. A click on a figure "
                        "here shows its working.",
    [PLUMB_PAGE_COMPARE] = "A click on a figure of either set-up shows its working; X swaps the "
                           "two.",
    [PLUMB_PAGE_MAP] = "A click on the map goes there. The buttons above it, or F, H and V, choose "
                       "figure and settings.",
    [PLUMB_PAGE_TRACE] = "",
};

void plumb_desk_hint(PlumbDesk *desk)
{
    if (desk->hinted) {
        plumb_desk_say(desk, false,
                       desk->page == PLUMB_PAGE_TRACE
                           ? "Open a picture or a film, click what the list names, drag a mark or "
                             "move it with the arrow keys; F1 shows all keys."
                           : HINT[desk->page]);
        desk->hinted = true;
        desk->pages_hinted |= 1U << desk->page;
    }
}

void plumb_desk_page_hint(PlumbDesk *desk)
{
    const bool first = (desk->pages_hinted & 1U << desk->page) == 0;
    const bool bare = desk->page == PLUMB_PAGE_COMPARE && !plumb_desk_pencil_shown(desk);
    if (desk->page == PLUMB_PAGE_TRACE) {
        desk->hinted = desk->hinted || (first && desk->message[0] == '\0');
    } else if (!desk->message_wrong) {
        plumb_desk_say(desk, false, "");
        desk->hinted = first && !bare;
    }
    plumb_desk_hint(desk);
}

void plumb_desk_focus(PlumbDesk *desk, PlumbWidgetKind kind, int id)
{
    desk->focus = (PlumbWidgetRef){kind, id};
    desk->dirty = true;
}

bool plumb_desk_has_focus(const PlumbDesk *desk, PlumbWidgetKind kind, int id)
{
    return desk->slip == PLUMB_SLIP_NONE && desk->focus.kind == kind && desk->focus.id == id;
}
