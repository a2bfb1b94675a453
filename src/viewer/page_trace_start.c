/* SPDX-License-Identifier: MIT */
/* The start that a picture or a film shows, taken over as the set-up. */
#include "page_trace.h"

#include "reel.h"

bool plumb_trace_start(const PlumbDesk *desk, PlumbTraced *traced)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    const PlumbSeries *const series = reel != NULL && reel->fitted ? &reel->read->series : NULL;
    const int frame = series == NULL || series->front
                          ? -1
                          : series->event_frame[series->lift == PLUMB_SQUAT ? PLUMB_EVENT_turn_round
                                                                            : PLUMB_EVENT_lift_off];
    int still;
    const PlumbStills *const seen = plumb_trace_figure(desk, &still);
    if (frame >= 0) {
        plumb_series_still(series, frame, traced);
    } else if (seen != NULL) {
        *traced = seen->trace.still[still];
    }
    return frame >= 0 || (seen != NULL && !traced->front);
}

void plumb_trace_use_start(PlumbDesk *desk)
{
    PlumbTraced traced;
    PlumbError error = {0};
    if (!plumb_trace_start(desk, &traced)) {
        plumb_desk_say(desk, true, "There is no fit of a view from the side to start from yet.");
        return;
    }
    const PlumbSetup setup = plumb_trace_setup(&traced);
    if (plumb_setup_check(&setup, &error) != PLUMB_OK) {
        plumb_desk_say(desk, true, error.message);
        return;
    }
    plumb_desk_keep(desk, 0);
    desk->now.setup[setup.lift] = setup;
    desk->page = PLUMB_PAGE_DRAWING;
    desk->refit = true;
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)plumb_setup_lead_setting(&setup));
    plumb_desk_touch(desk);
    const bool film = desk->now.marked.film;
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, setup.lift == PLUMB_SQUAT ? "The bottom of the squat in the "
                                                       : "The start of the pull in the ");
    plumb_text_string(&text, film ? "film" : "picture");
    plumb_text_string(&text, setup.lift == PLUMB_SQUAT
                                 ? " is the set-up now: its shin leads, with its depth and balance."
                                 : " is the set-up now: its hip height and balance lead, the bar "
                                   "stands where it was read.");
    plumb_text_string(&text, film ? " Ctrl+Z goes back, F8 shows the film."
                                  : " Ctrl+Z goes back, F8 shows the picture.");
    plumb_desk_say(desk, false, words);
}
