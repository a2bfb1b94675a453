/* SPDX-License-Identifier: MIT */
/* The lines of the form, each checked as it is typed. */
#include "form.h"

#include "field.h"

#include <string.h>

typedef struct Ask {
    const char *key;
    const char *words;
    bool optional;
} Ask;

static const Ask ASKS[] = {
    {"name", "the name, as it shall stand on the drawing; Enter leaves it out", true},
    {"sex", "female or male, whose proportions are used where nothing is measured", false},
    {"stature", "stature without shoes, with its unit: 172 cm, or 5 ft 8 in", false},
    {"mass", "mass of the body, with its unit: 70 kg, or 154 lb", false},
};
enum { ASK_COUNT = sizeof ASKS / sizeof ASKS[0], STEP_COUNT = ASK_COUNT + PLUMB_TAPE_COUNT };

static const char *key_of(int step)
{
    return step < ASK_COUNT ? ASKS[step].key : plumb_tape_name((PlumbTape)(step - ASK_COUNT));
}

static void question(int step, PlumbText *text)
{
    plumb_text_string(text, "New lifter, ");
    plumb_text_integer(text, step + 1);
    plumb_text_string(text, " of ");
    plumb_text_integer(text, STEP_COUNT);
    plumb_text_string(text, ": ");
    if (step < ASK_COUNT) {
        plumb_text_string(text, ASKS[step].words);
    } else {
        plumb_text_string(text, plumb_tape_text((PlumbTape)(step - ASK_COUNT)));
        plumb_text_string(text, ", taped; Enter skips it, F6 shows the measuring card");
    }
    plumb_text_string(text, ". Up goes back, Escape leaves the form.");
}

static void ask(PlumbDesk *desk)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    question(desk->form_step, &text);
    plumb_desk_say(desk, false, words);
    plumb_field_open(desk, PLUMB_FIELD_LIFTER, PLUMB_SET_style, "");
}

void plumb_form_begin(PlumbDesk *desk)
{
    desk->form_record = plumb_lifter_record();
    desk->form_step = 0;
    ask(desk);
}

void plumb_form_back(PlumbDesk *desk)
{
    desk->form_step -= desk->form_step > 0 ? 1 : 0;
    ask(desk);
}

/* What was wrong, and the question again. */
static void say_error(PlumbDesk *desk, const PlumbError *error)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, error->field);
    plumb_text_string(&text, ": ");
    plumb_text_string(&text, error->message);
    plumb_text_string(&text, ". ");
    question(desk->form_step, &text);
    plumb_desk_say(desk, true, words);
}

/* The new lifter begins with every lift at its defaults and no file yet. */
static void put_on_desk(PlumbDesk *desk, const PlumbLifter *lifter)
{
    plumb_desk_keep(desk, 0);
    desk->now.path[0] = '\0';
    desk->now.pencilled = false;
    plumb_sheet_begin(&desk->now, &desk->form_record, lifter);
    plumb_desk_touch(desk);
    desk->field.use = PLUMB_FIELD_SHUT;
    plumb_desk_say(desk, false,
                   "The new lifter is on the drawing. B shows the rulers of the body, Ctrl+S saves "
                   "a file, Ctrl+Z goes back to the last lifter.");
}

bool plumb_form_take(PlumbDesk *desk)
{
    const int step = desk->form_step;
    const bool optional = step >= ASK_COUNT || ASKS[step].optional;
    PlumbLifterRecord record = desk->form_record;
    PlumbLifter lifter;
    PlumbError error = {0};
    const bool skipped = desk->field.text[0] == '\0' && optional;
    /* From the mass on a whole body stands behind every line. */
    if ((!skipped &&
         plumb_lifter_record_set(&record, key_of(step), desk->field.text, &error) != PLUMB_OK) ||
        (step >= ASK_COUNT - 1 &&
         plumb_lifter_record_lifter(&record, &lifter, &error) != PLUMB_OK)) {
        say_error(desk, &error);
        return false;
    }
    desk->form_record = record;
    desk->form_step++;
    if (desk->form_step < STEP_COUNT) {
        ask(desk);
    } else {
        put_on_desk(desk, &lifter);
    }
    return true;
}
