/* SPDX-License-Identifier: MIT */
/* What a film has to say on one line: above the picture, in the list, on buttons, to scripts. */
#include "reel.h"

#include "page_trace.h"

void plumb_reel_say(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL) {
        return;
    }
    if (reel->why[0] != '\0') {
        plumb_text_string(text, "The film is not shown: ");
        plumb_text_string(text, reel->why);
        plumb_text_string(text, ". ");
        return;
    }
    if (!reel->known) {
        plumb_text_string(text, "looking through the film, ");
        plumb_text_fixed(text, 100.0 * reel->looked_frac, 0);
        plumb_text_string(text, " %. ");
        return;
    }
    plumb_text_string(text, "frame ");
    plumb_text_integer(text, desk->now.marked.still);
    plumb_text_string(text, " of ");
    plumb_text_integer(text, reel->frame_count - 1);
    if (reel->shown != desk->now.marked.still && reel->pace == PLUMB_PACE_STILL) {
        plumb_text_string(text, reel->shown >= 0 ? " (still on its way; the last one is shown)"
                                                 : " (still on its way)");
    }
    plumb_text_string(text, reel->pace == PLUMB_PACE_REAL   ? ", playing"
                            : reel->pace == PLUMB_PACE_SLOW ? ", playing at a quarter speed"
                                                            : "");
    plumb_text_string(text, ". ");
    if (reel->reading || reel->drawing) {
        plumb_text_string(text, plumb_film_step_text(reel->step));
        plumb_text_string(text, ", ");
        plumb_text_fixed(text, 100.0 * reel->done_frac, 0);
        plumb_text_string(text, " %; O stops. ");
    } else if (plumb_reel_stale(desk)) {
        plumb_text_string(text, "Marks or questions have changed: O follows again. ");
    }
    if (reel->lost[0] != '\0') {
        plumb_text_string(text, "Missing: ");
        plumb_text_string(text, reel->lost);
        plumb_text_string(text, ". ");
    }
}

bool plumb_reel_say_row(const PlumbDesk *desk, PlumbMarkName name, PlumbText *text)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL || reel->read == NULL || desk->now.marked.still >= reel->read->frame_count) {
        return false;
    }
    const bool rim = name.landmark == PLUMB_MARK_disc;
    name.landmark = rim ? PLUMB_MARK_disc_centre : name.landmark;
    for (int t = 0; t < reel->read->track_count; t++) {
        const PlumbMarkName track = reel->read->track[t].name;
        const PlumbTrackPoint *const point =
            plumb_film_point(reel->read, t, desk->now.marked.still);
        if (track.landmark != name.landmark || track.near != name.near || point->marked ||
            rim != (reel->read->track[t].rim_count > 0)) {
            continue;
        }
        plumb_text_string(text, !point->known                                     ? "not followed"
                                : point->doubts == 0                              ? "followed"
                                : (point->doubts & 1U << PLUMB_DOUBT_hidden) != 0 ? "hidden"
                                                                                  : "in doubt");
        return true;
    }
    return false;
}

static void number(PlumbText *text, const char *key, int value)
{
    plumb_text_char(text, ' ');
    plumb_text_string(text, key);
    plumb_text_char(text, '=');
    plumb_text_integer(text, value);
}

static int remarks(const PlumbReel *reel)
{
    int count = 0;
    for (int i = 0; i < reel->read->finding_count; i++) {
        count += reel->read->finding[i].verdict == PLUMB_FILM_BEYOND;
    }
    return count;
}

void plumb_reel_state(const PlumbDesk *desk, PlumbText *text)
{
    static const char *const paces[] = {" play=no", " play=real", " play=slow"};
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL) {
        return;
    }
    plumb_text_string(text, reel->why[0] != '\0' ? " film=refused"
                            : reel->known        ? " film=open"
                                                 : " film=coming");
    number(text, "frames", reel->frame_count);
    number(text, "frame", desk->now.marked.still);
    number(text, "shown", reel->shown);
    plumb_text_string(text, paces[reel->pace]);
    plumb_text_string(text, reel->chart ? " chart=yes" : " chart=no");
    plumb_text_string(text, reel->reading            ? " followed=running"
                            : reel->read == NULL     ? " followed=no"
                            : plumb_reel_stale(desk) ? " followed=stale"
                                                     : " followed=yes");
    plumb_text_string(text, reel->drawing ? " drawing=yes" : "");
    if (reel->read != NULL) {
        number(text, "tracks", reel->read->track_count);
        number(text, "doubts", plumb_reel_doubts(reel));
        plumb_text_string(text, " camera=");
        plumb_text_string(text, plumb_steady_name(reel->read->tracks.steady));
    }
    if (reel->not_read[0] != '\0') {
        plumb_text_string(text, " not_read=\"");
        plumb_text_string(text, reel->not_read);
        plumb_text_char(text, '"');
    }
    plumb_text_string(text, reel->fitted ? " series=yes" : " series=no");
    const PlumbStills *const figure = plumb_reel_figure(desk);
    plumb_text_string(text, figure == NULL   ? " figure=no"
                            : figure->filled ? " figure=filled"
                                             : " figure=seen");
    if (reel->fitted && reel->read != NULL) {
        const PlumbSeries *const series = &reel->read->series;
        for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
            number(text, plumb_event_name((PlumbEvent)i), series->event_frame[i]);
        }
        number(text, "findings", remarks(reel));
    }
}

void plumb_reel_words(const PlumbDesk *desk, int deed, PlumbText *text)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (deed == (int)PLUMB_TRACE_RATE) {
        plumb_text_string(text, "frames a second");
        if (desk->now.marked.rate_per_s > 0.0) {
            plumb_text_string(text, ": ");
            plumb_text_fixed(text, desk->now.marked.rate_per_s, 0);
        }
    } else if (deed == (int)PLUMB_TRACE_FOLLOW) {
        plumb_text_string(text,
                          reel != NULL && (reel->reading || reel->drawing) ? "stop" : "follow");
    } else if (deed == (int)PLUMB_TRACE_CHART) {
        plumb_text_string(text, reel != NULL && reel->chart ? "picture" : "chart");
    } else {
        const bool slow = deed == (int)PLUMB_TRACE_SLOW;
        const PlumbReelPace pace = slow ? PLUMB_PACE_SLOW : PLUMB_PACE_REAL;
        plumb_text_string(text, reel != NULL && reel->pace == pace ? "pause"
                                : slow                             ? "slow"
                                                                   : "play");
    }
}
