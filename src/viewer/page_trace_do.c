/* SPDX-License-Identifier: MIT */
/* The buttons of the Trace page. */
#include "page_trace.h"

#include "field.h"
#include "reel.h"

#include <plumbar/quantity.h>

#include <string.h>

/* The lifter file is not concerned. */
void plumb_trace_keep(PlumbDesk *desk, unsigned key)
{
    const bool unsaved = desk->now.unsaved;
    plumb_desk_keep(desk, key);
    desk->now.unsaved = unsaved;
    desk->now.marked.unsaved = true;
}

static void mirror(PlumbDesk *desk)
{
    PlumbMarked *const marked = &desk->now.marked;
    int *const facing = &marked->facing[plumb_marked_view(marked)];
    const bool press = desk->now.lift == PLUMB_BENCH;
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_trace_keep(desk, 0);
    *facing = *facing < 0 ? 1 : -1;
    plumb_marked_tell(marked, PLUMB_TOLD_facing, *facing);
    plumb_text_string(&text, press ? "The feet are to the " : "The lifter faces ");
    plumb_text_string(&text, *facing < 0 ? "left: the picture is shown mirrored, its marks keep "
                                           "their places in the file."
                                         : "right: the picture is shown as it is.");
    plumb_desk_say(desk, false, words);
}

/* Where the camera stands, in words of the lift. */
static const char *view_words(PlumbLift lift, bool front)
{
    return !front                ? "from the side"
           : lift == PLUMB_BENCH ? "from an end of the bench"
                                 : "from the front";
}

/* Marks keep their landmark: near becomes right, far left, and back. */
static void turn_view(PlumbDesk *desk)
{
    PlumbMarked *const marked = &desk->now.marked;
    bool *const front = &marked->front[plumb_marked_view(marked)];
    plumb_trace_keep(desk, 0);
    *front = !*front;
    for (int i = 0; i < marked->marks.count; i++) {
        PlumbMark *const mark = &marked->marks.mark[i];
        const bool sided =
            mark->name.landmark != PLUMB_MARK_plumb && mark->name.landmark != PLUMB_MARK_scale;
        if ((marked->film || mark->still == marked->still) && sided) {
            mark->name.front = *front;
        }
    }
    desk->tracing->row = plumb_marked_next(marked, desk->now.lift, -1);
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "A view ");
    plumb_text_string(&text, view_words(desk->now.lift, *front));
    plumb_text_string(&text, *front ? ": right and left are the lifter's own."
                                    : ": near is the side toward the camera.");
    plumb_desk_say(desk, false, words);
}

static void toggle_air(PlumbDesk *desk)
{
    PlumbMarked *const marked = &desk->now.marked;
    const bool in_the_air = !(plumb_marked_told(marked, PLUMB_TOLD_floor) < 0.0);
    if (desk->now.lift != PLUMB_DEADLIFT) {
        plumb_desk_say(desk, false, "Only the bar of a deadlift stands on the floor.");
        return;
    }
    plumb_trace_keep(desk, 0);
    plumb_marked_tell(marked, PLUMB_TOLD_floor, in_the_air ? -1.0 : 0.0);
    plumb_desk_say(desk, false,
                   in_the_air ? "The bar has left the floor: the discs' height is read."
                              : "The discs stand on floor or blocks: this is the start.");
}

static void open_number(PlumbDesk *desk, PlumbFieldUse use, double value_m, const char *help)
{
    char words[64];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (value_m > 0.0) {
        plumb_text_quantity(&text, value_m, PLUMB_Q_LENGTH, desk->units);
    }
    plumb_field_open(desk, use, PLUMB_SET_style, words);
    plumb_desk_say(desk, false, help);
}

static void ask_rate(PlumbDesk *desk)
{
    char words[32];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, desk->now.marked.rate_per_s > 0.0 ? desk->now.marked.rate_per_s : 30.0,
                     0);
    plumb_field_open(desk, PLUMB_FIELD_RATE, PLUMB_SET_style, words);
    plumb_desk_say(desk, false,
                   "How many frames a second were filmed: a folder of frames does not tell, and "
                   "slow motion tells it wrong. Empty: the film's own times.");
}

static void do_film(PlumbDesk *desk, PlumbTraceDeed deed)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL && deed != PLUMB_TRACE_RATE) {
        plumb_desk_say(desk, true, "There is no film here: Ctrl+O opens one.");
    } else if (deed == PLUMB_TRACE_PLAY || deed == PLUMB_TRACE_SLOW) {
        plumb_reel_play(desk, deed == PLUMB_TRACE_SLOW ? PLUMB_PACE_SLOW : PLUMB_PACE_REAL);
    } else if (deed == PLUMB_TRACE_FOLLOW) {
        plumb_reel_follow(desk);
    } else if (deed == PLUMB_TRACE_DOUBT) {
        plumb_reel_next_doubt(desk);
    } else if (deed == PLUMB_TRACE_RATE) {
        ask_rate(desk);
    } else if (reel->fitted) {
        reel->chart = !reel->chart;
        desk->tracing->magnified = false;
    } else {
        plumb_desk_say(desk, true, "There is no chart yet: O follows the marks and fits the lift.");
    }
}

void plumb_trace_do(PlumbDesk *desk, int deed)
{
    PlumbMarked *const marked = &desk->now.marked;
    if (desk->page != PLUMB_PAGE_TRACE) {
        plumb_desk_say(desk, false, "This key belongs to the Trace page, which F8 shows.");
        return;
    }
    if (deed == (int)PLUMB_TRACE_ADD) {
        plumb_field_open(desk, PLUMB_FIELD_PICTURE, PLUMB_SET_style, "");
        plumb_desk_say(desk, false,
                       "A further picture of the same lifter and lift, fitted together with those "
                       "that are here: type its path, Enter adds it.");
        return;
    }
    if (marked->marks.still_count == 0) {
        plumb_desk_say(desk, true, "There is no picture yet: Ctrl+O opens one.");
        return;
    }
    if (deed >= (int)PLUMB_TRACE_PLAY) {
        do_film(desk, (PlumbTraceDeed)deed);
        return;
    }
    switch ((PlumbTraceDeed)deed) {
    case PLUMB_TRACE_MIRROR:
        mirror(desk);
        break;
    case PLUMB_TRACE_FRONT:
        turn_view(desk);
        break;
    case PLUMB_TRACE_AIR:
        toggle_air(desk);
        break;
    case PLUMB_TRACE_WHOLE:
        desk->tracing->whole = true;
        return;
    case PLUMB_TRACE_LENGTH:
        open_number(desk, PLUMB_FIELD_LENGTH, plumb_marked_told(marked, PLUMB_TOLD_scale_m),
                    "How far the two marks called scale are apart, in the plane of the lifter's "
                    "middle, with its unit: 1 m, or 36 in. Empty: no known length.");
        return;
    case PLUMB_TRACE_DISTANCE:
        open_number(desk, PLUMB_FIELD_DISTANCE, plumb_marked_told(marked, PLUMB_TOLD_distance_m),
                    "How far the lens was from the lifter, with its unit: 5 m, or 200 in. Empty: "
                    "not known, 4 m within 1.5 m is assumed.");
        return;
    case PLUMB_TRACE_USE:
        plumb_trace_use_start(desk);
        return;
    case PLUMB_TRACE_ADD:
    case PLUMB_TRACE_PLAY:
    case PLUMB_TRACE_SLOW:
    case PLUMB_TRACE_FOLLOW:
    case PLUMB_TRACE_DOUBT:
    case PLUMB_TRACE_CHART:
    case PLUMB_TRACE_RATE:
        return;
    }
    plumb_desk_touch(desk);
}

void plumb_trace_words(const PlumbDesk *desk, PlumbTraceDeed deed, PlumbText *text)
{
    static const char *const WORDS[] = {
        [PLUMB_TRACE_WHOLE] = "whole picture", [PLUMB_TRACE_ADD] = "add picture",
        [PLUMB_TRACE_LENGTH] = "known length", [PLUMB_TRACE_DISTANCE] = "camera",
        [PLUMB_TRACE_USE] = "use as my start", [PLUMB_TRACE_DOUBT] = "next doubt",
    };
    const PlumbMarked *const marked = &desk->now.marked;
    if (deed == PLUMB_TRACE_MIRROR) {
        plumb_text_string(text, desk->now.lift == PLUMB_BENCH ? "feet " : "faces ");
        plumb_text_string(text, marked->facing[plumb_marked_view(marked)] < 0 ? "left" : "right");
    } else if (deed == PLUMB_TRACE_FRONT) {
        plumb_text_string(text,
                          view_words(desk->now.lift, marked->front[plumb_marked_view(marked)]));
    } else if (deed == PLUMB_TRACE_AIR) {
        plumb_text_string(text, plumb_marked_told(marked, PLUMB_TOLD_floor) < 0.0
                                    ? "bar in the air"
                                    : "bar on the floor");
    } else if (deed >= PLUMB_TRACE_PLAY && deed != PLUMB_TRACE_DOUBT) {
        plumb_reel_words(desk, (int)deed, text);
    } else {
        plumb_text_string(text, deed == PLUMB_TRACE_USE && desk->now.lift == PLUMB_BENCH
                                    ? "use as my set-up"
                                    : WORDS[deed]);
    }
    const double told_m = deed == PLUMB_TRACE_LENGTH ? plumb_marked_told(marked, PLUMB_TOLD_scale_m)
                          : deed == PLUMB_TRACE_DISTANCE
                              ? plumb_marked_told(marked, PLUMB_TOLD_distance_m)
                              : 0.0;
    if (told_m > 0.0) {
        plumb_text_string(text, ": ");
        plumb_text_quantity(text, told_m, PLUMB_Q_LENGTH, desk->units);
    }
}

bool plumb_trace_can(const PlumbDesk *desk, PlumbTraceDeed deed)
{
    if (deed == PLUMB_TRACE_USE) {
        char words[PLUMB_DESK_MESSAGE_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        PlumbSetup setup;
        return plumb_trace_start(desk, &setup, &text);
    }
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (deed >= PLUMB_TRACE_PLAY) {
        return reel != NULL &&
               (deed == PLUMB_TRACE_CHART   ? reel->fitted
                : deed == PLUMB_TRACE_DOUBT ? reel->read != NULL
                                            : reel->known || deed == PLUMB_TRACE_RATE);
    }
    return deed == PLUMB_TRACE_ADD || desk->now.marked.marks.still_count > 0;
}

/* Other times make another film of it: it is looked through again. */
static bool take_rate(PlumbDesk *desk, const char *text)
{
    double rate_per_s = 0.0;
    if (text[0] != '\0' && (!plumb_number_read(text, strlen(text), &rate_per_s) ||
                            !(rate_per_s >= 1.0 && rate_per_s <= 1000.0))) {
        plumb_desk_say(desk, true, "1 to 1000 frames a second are allowed.");
        return false;
    }
    const bool unsaved = desk->now.marked.unsaved;
    plumb_trace_keep(desk, 0);
    desk->now.marked.unsaved = unsaved; /* it stands in no file */
    desk->now.marked.rate_per_s = rate_per_s;
    plumb_desk_say(desk, false, plumb_reel_first_words());
    plumb_desk_touch(desk);
    return true;
}

bool plumb_trace_take_field(PlumbDesk *desk, PlumbFieldUse use, const char *text)
{
    PlumbMarked *const marked = &desk->now.marked;
    const PlumbToldKey key = use == PLUMB_FIELD_LENGTH ? PLUMB_TOLD_scale_m : PLUMB_TOLD_distance_m;
    PlumbError error = {0};
    double value_m = 0.0;
    if (use == PLUMB_FIELD_PICTURE) {
        return plumb_trace_add(desk, text);
    }
    if (use == PLUMB_FIELD_RATE) {
        return take_rate(desk, text);
    }
    if (text[0] != '\0') {
        if (plumb_quantity_read(text, strlen(text), PLUMB_Q_LENGTH, &value_m, &error) != PLUMB_OK) {
            plumb_desk_say(desk, true, error.message);
            return false;
        }
        if (!plumb_told_holds(key, value_m)) {
            char words[96];
            PlumbText say = plumb_text_begin(words, sizeof words);
            plumb_text_string(&say,
                              key == PLUMB_TOLD_scale_m ? "A known length of " : "A distance of ");
            plumb_text_string(&say, plumb_told_allowed(key));
            plumb_text_string(&say, " is allowed.");
            plumb_desk_say(desk, true, words);
            return false;
        }
    }
    plumb_trace_keep(desk, 0);
    plumb_marked_tell(marked, key, value_m);
    plumb_desk_say(desk, false, "");
    plumb_desk_touch(desk);
    return true;
}
