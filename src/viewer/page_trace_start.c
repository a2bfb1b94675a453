/* SPDX-License-Identifier: MIT */
/* The start that a picture or a film shows, of a press its touch, lockout, grip and elbows, taken
 * over as the set-up. */
#include "page_trace.h"

#include "reel.h"

/* The film's reading, NULL where there is none. */
static const PlumbSeries *series_of(const PlumbDesk *desk)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    return reel != NULL && reel->fitted ? &reel->read->series : NULL;
}

/* What of a press was read. */
enum { TOUCH, LOCKOUT, GRIP, ELBOWS, PRESS_PARTS };

/* What is not told better than a coach sees it stays as it is. */
static const double spread_most_m = 0.05;
static const double spread_most_rad = 0.25;

static void take(PlumbSetup *setup, const PlumbTraced *traced, PlumbSettingId id,
                 PlumbReading reading, bool *read)
{
    const bool angle = plumb_reading_quantity(reading) == PLUMB_Q_ANGLE;
    if (!(traced->sd[reading] > (angle ? spread_most_rad : spread_most_m))) {
        plumb_setup_set(setup, id, traced->value[reading]); /* clipped */
        *read = true;
    }
}

/* What a view of a press tells of a set-up: beside the bench the bar's places, from its ends the
 * hands and the elbows. */
static void take_press(PlumbSetup *setup, const PlumbTraced *traced, PlumbPressStage stage,
                       bool read[PRESS_PARTS])
{
    const PlumbReading along = PLUMB_READ_bar_from_shoulder;
    if (traced->front) {
        take(setup, traced, PLUMB_SET_grip, PLUMB_READ_grip, &read[GRIP]);
    }
    if (traced->front && stage == PLUMB_PRESS_AT_TOUCH) {
        take(setup, traced, PLUMB_SET_elbows, PLUMB_READ_upper_arm, &read[ELBOWS]);
    } else if (!traced->front && stage == PLUMB_PRESS_AT_TOUCH) {
        take(setup, traced, PLUMB_SET_touch, along, &read[TOUCH]);
    } else if (!traced->front && stage == PLUMB_PRESS_AT_LOCKOUT) {
        take(setup, traced, PLUMB_SET_lockout_over, along, &read[LOCKOUT]);
    }
}

/* Of a film the frames of the turn-round and of the lockout. */
static void read_film_press(const PlumbSeries *series, PlumbSetup *setup, bool read[PRESS_PARTS])
{
    static const struct {
        PlumbEvent event;
        PlumbPressStage stage;
    } ends[] = {{PLUMB_EVENT_turn_round, PLUMB_PRESS_AT_TOUCH},
                {PLUMB_EVENT_lockout, PLUMB_PRESS_AT_LOCKOUT}};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        const int frame = series->event_frame[ends[i].event];
        PlumbTraced traced;
        if (frame >= 0) {
            plumb_series_still(series, frame, &traced);
            const bool elbow = series->frame[frame].elbow_seen || !series->end_view;
            take_press(setup, &traced, elbow ? ends[i].stage : PLUMB_PRESS_ON_THE_WAY, read);
        }
    }
}

/* Of pictures all that were fitted together; false where none tells a thing. */
static bool read_press(const PlumbDesk *desk, PlumbSetup *setup, bool read[PRESS_PARTS])
{
    const PlumbSeries *const series = series_of(desk);
    int still;
    const PlumbStills *const seen = plumb_trace_figure(desk, &still);
    *setup = *plumb_desk_setup(desk);
    if (series != NULL && series->lift == PLUMB_BENCH) {
        read_film_press(series, setup, read);
    } else if (seen != NULL && seen->setup.lift == PLUMB_BENCH) {
        for (int i = 0; i < seen->trace.still_count; i++) {
            const PlumbTraced *const traced = &seen->trace.still[i];
            take_press(setup, traced, plumb_trace_press_stage(&seen->trace.lifter, traced), read);
        }
    }
    return read[TOUCH] || read[LOCKOUT] || read[GRIP] || read[ELBOWS];
}

static void say_press(const bool read[PRESS_PARTS], const char *of, PlumbText *text)
{
    static const char *const parts[] = {"touch", "place at lockout", "grip", "elbows"};
    int left = 0;
    for (int i = 0; i < PRESS_PARTS; i++) {
        left += read[i];
    }
    plumb_text_string(text, "The press in the ");
    plumb_text_string(text, of);
    plumb_text_string(text, " is the set-up now: its ");
    for (int i = 0; i < PRESS_PARTS; i++) {
        if (read[i]) {
            plumb_text_string(text, parts[i]);
            left--;
            plumb_text_string(text, left > 1 ? ", " : left == 1 ? " and " : " as read");
        }
    }
    plumb_text_string(text, "; the rest stays.");
}

/* Of a film that was read the frame of lift-off, or the turn-round of a squat, else the picture on
 * show. */
static bool read_start(const PlumbDesk *desk, PlumbSetup *setup)
{
    const PlumbSeries *const series = series_of(desk);
    const int frame = series == NULL || series->front
                          ? -1
                          : series->event_frame[series->lift == PLUMB_SQUAT ? PLUMB_EVENT_turn_round
                                                                            : PLUMB_EVENT_lift_off];
    int still;
    const PlumbStills *const seen = plumb_trace_figure(desk, &still);
    PlumbTraced traced;
    if (frame >= 0) {
        plumb_series_still(series, frame, &traced);
    } else if (seen != NULL && !seen->trace.still[still].front) {
        traced = seen->trace.still[still];
    } else {
        return false;
    }
    *setup = plumb_trace_setup(&traced);
    return true;
}

static void say_start(PlumbLift lift, const char *of, PlumbText *text)
{
    plumb_text_string(text, lift == PLUMB_SQUAT ? "The bottom of the squat in the "
                                                : "The start of the pull in the ");
    plumb_text_string(text, of);
    plumb_text_string(text, lift == PLUMB_SQUAT
                                ? " is the set-up now: its shin leads, with its depth and balance."
                                : " is the set-up now: its hip height and balance lead, the bar "
                                  "stands where it was read.");
}

bool plumb_trace_start(const PlumbDesk *desk, PlumbSetup *setup, PlumbText *text)
{
    const char *const of = desk->now.marked.film ? "film" : "picture";
    const PlumbSeries *const series = series_of(desk);
    bool read[PRESS_PARTS] = {false};
    if ((series != NULL ? series->lift : desk->now.lift) == PLUMB_BENCH) {
        const bool any = read_press(desk, setup, read);
        say_press(read, of, text);
        return any;
    }
    const bool any = read_start(desk, setup);
    say_start(desk->now.lift, of, text);
    return any;
}

static void refuse(PlumbDesk *desk)
{
    int still;
    const bool seen = plumb_trace_figure(desk, &still) != NULL;
    plumb_desk_say(
        desk, true,
        !seen || desk->now.lift != PLUMB_BENCH
            ? "There is no fit of a view from the side to start from yet."
            : "This picture tells nothing of the set-up within 5 cm or 15°. From the side "
              "it shows the touch, or at lockout where the bar stands, if the shoulder "
              "is marked; from an end grip and elbows.");
}

void plumb_trace_use_start(PlumbDesk *desk)
{
    PlumbSetup setup;
    PlumbError error = {0};
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (!plumb_trace_start(desk, &setup, &text)) {
        refuse(desk);
        return;
    }
    if (plumb_setup_check(&setup, &error) != PLUMB_OK) {
        plumb_desk_say(desk, true, error.message);
        return;
    }
    plumb_desk_keep(desk, 0);
    desk->now.lift = setup.lift;
    desk->now.setup[setup.lift] = setup;
    desk->page = PLUMB_PAGE_DRAWING;
    desk->refit = true;
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)plumb_setup_lead_setting(&setup));
    plumb_desk_touch(desk);
    plumb_text_string(&text, desk->now.marked.film ? " Ctrl+Z goes back, F8 shows the film."
                                                   : " Ctrl+Z goes back, F8 shows the picture.");
    plumb_desk_say(desk, false, words);
}
