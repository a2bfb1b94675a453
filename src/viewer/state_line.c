/* SPDX-License-Identifier: MIT */
/* The desk in one line of key=value, for scripts and tests. */
#include "stage.h"

#include "command.h"
#include "page_trace.h"
#include "pages.h"
#include "ruler.h"
#include "slip.h"
#include "working.h"

#include <math.h>

static void word(PlumbText *text, const char *key, const char *value)
{
    plumb_text_char(text, ' ');
    plumb_text_string(text, key);
    plumb_text_char(text, '=');
    plumb_text_string(text, value);
}

static void number(PlumbText *text, const char *key, double value, int decimals)
{
    word(text, key, "");
    plumb_text_fixed(text, value, decimals);
}

static void count(PlumbText *text, const char *key, int value)
{
    word(text, key, "");
    plumb_text_integer(text, value);
}

static void settings(const PlumbDesk *desk, PlumbText *text)
{
    PlumbSettingId id[PLUMB_SETTING_COUNT];
    const int rulers = plumb_rulers(desk->now.lift, id);
    for (int i = 0; i < rulers; i++) {
        const double value = plumb_ruler_value(desk, id[i]);
        const int chosen = plumb_ruler_chosen(desk, id[i]);
        if (plumb_ruler_choices(desk, id[i]) == 0) {
            number(text, plumb_ruler_row(id[i])->json_key, value, 4);
        } else if (id[i] != PLUMB_SET_auto) {
            word(text, plumb_ruler_row(id[i])->key,
                 chosen < 0 ? "own" : plumb_ruler_choice(desk, id[i], chosen));
        }
    }
}

/* The figure whose working is shown, and how far it is scrolled; in the table the chosen one. */
static void working(const PlumbDesk *desk, PlumbText *text)
{
    if (plumb_working_shown(desk)) {
        word(text, "working", "");
        plumb_question_name(text, plumb_working_question(desk));
        if (desk->page == PLUMB_PAGE_COMPARE) {
            word(text, "column", desk->worked->pencilled ? "pencilled" : "inked");
        }
        number(text, "top_mm", desk->worked->top_mm, 0);
        number(text, "most_mm", desk->worked->most_mm, 0);
    } else if (desk->focus.kind == PLUMB_WIDGET_TABLE) {
        word(text, "chosen", "");
        plumb_question_name(text, plumb_working_question(desk));
    }
}

static void focus(const PlumbDesk *desk, PlumbText *text)
{
    switch (desk->focus.kind) {
    case PLUMB_WIDGET_RULER:
        word(text, "focus", plumb_ruler_row((PlumbSettingId)desk->focus.id)->key);
        break;
    case PLUMB_WIDGET_BUTTON:
        word(text, "focus", "button:");
        plumb_command_words(desk, (PlumbCommandId)desk->focus.id, text);
        break;
    case PLUMB_WIDGET_TABLE:
        word(text, "focus", "table");
        break;
    case PLUMB_WIDGET_OPTION:
        word(text, "focus", "option:");
        plumb_text_integer(text, desk->focus.id);
        break;
    case PLUMB_WIDGET_SCRUB:
        word(text, "focus", "scrubber");
        break;
    case PLUMB_WIDGET_MAP:
        word(text, "focus", "map");
        break;
    case PLUMB_WIDGET_PICTURE:
        word(text, "focus", "picture");
        break;
    case PLUMB_WIDGET_MARKS:
        word(text, "focus", "marks");
        break;
    case PLUMB_WIDGET_NOTES:
        word(text, "focus", "notes");
        number(text, "notes_mm", desk->notes_scroll.top_mm, 0);
        number(text, "notes_most_mm", desk->notes_scroll.most_mm, 0);
        break;
    case PLUMB_WIDGET_READ:
        word(text, "focus", desk->focus.id == PLUMB_READ_FIGURES ? "figures" : "notes");
        break;
    case PLUMB_WIDGET_LEAF:
    case PLUMB_WIDGET_MARK:
    case PLUMB_WIDGET_FRAME:
    case PLUMB_WIDGET_NONE:
    case PLUMB_WIDGET_FIGURE:
    case PLUMB_WIDGET_FOLD:
    case PLUMB_WIDGET_SLIP:
    case PLUMB_WIDGET_KIND_COUNT:
        word(text, "focus", "none");
        break;
    }
}

void plumb_state_line(const PlumbDesk *desk, char *line, size_t size)
{
    const PlumbPosed *const inked = plumb_desk_inked(desk);
    PlumbText text = plumb_text_begin(line, size);
    plumb_text_string(&text, "state");
    word(&text, "page", plumb_page_name(desk->page));
    if (desk->page == PLUMB_PAGE_PATH) {
        number(&text, "at", desk->way.at, 3);
        word(&text, "playing", desk->way.playing ? "yes" : "no");
    } else if (desk->page == PLUMB_PAGE_MAP) {
        word(&text, "across", plumb_ruler_row(desk->map.x)->key);
        word(&text, "up", plumb_ruler_row(desk->map.y)->key);
        word(&text, "figure", plumb_lift_output_name(desk->now.lift, plumb_map_figure(desk)));
        count(&text, "grid", desk->map.shown);
    } else if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_trace_state(desk, &text);
    }
    word(&text, "lift", plumb_lift_name(desk->now.lift));
    word(&text, "lead", plumb_lead_name(plumb_desk_setup(desk)->lead));
    word(&text, "outcome", plumb_outcome_name(desk->answer.outcome));
    if (desk->answer.outcome == PLUMB_NO_POSE) {
        word(&text, "failed", plumb_reason_name(desk->answer.reason));
    }
    settings(desk, &text);
    number(&text, "travel_m", inked->travel_m, 5);
    if (desk->body_shown) {
        for (int i = PLUMB_SETTING_COUNT; i < PLUMB_RULER_COUNT; i++) {
            number(&text, plumb_ruler_row((PlumbSettingId)i)->json_key,
                   plumb_ruler_value(desk, (PlumbSettingId)i), 4);
        }
    }
    word(&text, "selected", plumb_desk_family(desk)->arm_name(plumb_desk_arm(desk)));
    number(&text, "arm_m", inked->arm_m[plumb_desk_arm(desk)], 5);
    number(&text, "scale", desk->fit.scale_n, 2);
    focus(desk, &text);
    working(desk, &text);
    word(&text, "units", desk->units == PLUMB_METRIC ? "metric" : "pounds");
    word(&text, "paper", desk->paper == PLUMB_LIGHT_PAPER ? "light" : "dark");
    number(&text, "text", desk->text_scale, 2);
    word(&text, "pencil", plumb_desk_pencil_shown(desk) ? "yes" : "no");
    if (plumb_desk_pencil_shown(desk)) {
        number(&text, "pencil_travel_m", desk->pencil.travel_m, 5);
    }
    word(&text, "unsaved", desk->now.unsaved ? "yes" : "no");
    count(&text, "named", desk->now.named_count);
    if (desk->now.path[0] != '\0') {
        word(&text, "file", "\"");
        plumb_text_string(&text, desk->now.path);
        plumb_text_char(&text, '"');
    }
    if (desk->now.setup_name[desk->now.lift][0] != '\0') {
        word(&text, "setup", "\"");
        plumb_text_string(&text, desk->now.setup_name[desk->now.lift]);
        plumb_text_char(&text, '"');
    }
    if (desk->try_first.on) {
        word(&text, "try",
             desk->try_first.advice.goal.aim != PLUMB_AIM_COUNT
                 ? plumb_aim_name(desk->try_first.advice.goal.aim)
                 : plumb_finding_name(desk->try_first.advice.goal.finding));
        count(&text, "options", desk->try_first.advice.worth_count);
    }
    if (desk->card != PLUMB_CARD_NONE) {
        word(&text, "card",
             desk->card == PLUMB_CARD_WELCOME   ? "welcome"
             : desk->card == PLUMB_CARD_FILMING ? "filming"
                                                : "measuring");
    }
    count(&text, "undo", desk->history.past_count);
    count(&text, "redo", desk->history.future_count);
    word(&text, "drag", desk->drag.on ? "yes" : "no");
    plumb_slip_state(desk, &text);
    if (desk->field.use != PLUMB_FIELD_SHUT) {
        word(&text, "typed", "\"");
        plumb_text_string(&text, desk->field.text);
        plumb_text_char(&text, '"');
    }
    if (desk->message[0] != '\0') {
        word(&text, desk->message_wrong ? "wrong" : "say", "\"");
        plumb_text_string(&text, desk->message);
        plumb_text_char(&text, '"');
    }
}
