/* SPDX-License-Identifier: MIT */
/* A frame of a film drawn as a still is, without a model beside it. */
#include <plumbar/film_frame.h>

#include "report/still_over.h"

#include <string.h>

static const double line_mm = 5.0;
static const double words_mm = 9.0; /* two lines of small text */
static const PlumbTag no_tag = {PLUMB_TAG_NONE, 0};

static void put_line(PlumbScene *scene, const PlumbFilmFrames *film, PlumbRole role,
                     PlumbVec2 at_mm, double size_mm, const char *words)
{
    plumb_scene_text(scene, role, no_tag, at_mm, size_mm, PLUMB_START, 0.0, words,
                     film->text_width(film->text_user, words, strlen(words), size_mm));
}

void plumb_film_still(const PlumbSeriesAsk *ask, const PlumbSeries *series, int frame,
                      PlumbStills *still)
{
    memset(still, 0, sizeof *still);
    still->lifter = series->trace.lifter;
    still->setup = *ask->still.setup;
    still->ask = ask->still;
    still->ask.lifter = &still->lifter;
    still->ask.setup = &still->setup;
    still->ask.marks = &still->marks;
    still->bare = true;
    still->filled = !series->frame[frame].known ||
                    (series->lift == PLUMB_BENCH && !series->frame[frame].elbow_seen);
    still->moved = ask->shift != NULL ? &ask->shift[frame] : NULL;
    still->mirrored[0] = ask->mirror_width_px > 0.0;
    still->trace.still_count = 1;
    still->trace.lifter = still->lifter;
    plumb_series_still(series, frame, &still->trace.still[0]);
    still->marks.still_count = 1;
    for (int t = 0; t < ask->track_count && still->marks.count < PLUMB_MARKS_MAX; t++) {
        PlumbVec2 at;
        if (plumb_series_place(ask, t, frame, &at)) {
            still->marks.mark[still->marks.count++] =
                (PlumbMark){.name = ask->track[t].name, .x_px = at.x, .y_px = at.y};
        }
    }
}

enum { WORD_ROWS = 2, ROW_WORDS = 3 };

typedef struct Word {
    int reading;
    const char *words;
} Word;

/* Of a lifter who stands, of a press from the side and from an end of the bench. */
static const Word figures[3][WORD_ROWS][ROW_WORDS] = {
    {{{PLUMB_READ_bar_height, "bar height "},
      {PLUMB_READ_bar_over, "; bar ahead of mid-foot "},
      {PLUMB_READ_hip_height, "; hip height "}},
     {{PLUMB_ANG_back, "back "}, {PLUMB_ANG_shin, "; shin "}, {PLUMB_ANG_thigh, "; thigh "}}},
    {{{PLUMB_READ_bar_above_shoulder, "bar above the shoulders "},
      {PLUMB_READ_bar_from_shoulder, "; toward the feet "}},
     {{PLUMB_READ_upper_arm, "upper arm from the trunk "},
      {PLUMB_READ_elbow_off_bar, "; elbow from under the bar "}}},
    {{{PLUMB_READ_bar_above_shoulder, "bar above the shoulders "},
      {PLUMB_READ_elbow_off_hand, "; elbow outside the hand "}},
     {{PLUMB_READ_upper_arm, "upper arm from the trunk "},
      {PLUMB_READ_forearm_front, "; forearm from upright "}}},
};

static void put_words(PlumbScene *scene, const PlumbFilmFrames *film, int frame, PlumbVec2 at_mm)
{
    const PlumbSeries *const series = film->series;
    const bool press = series->lift == PLUMB_BENCH;
    for (int row = 0; row < WORD_ROWS; row++) {
        char line[256];
        PlumbText text = plumb_text_begin(line, sizeof line);
        const Word *const word = figures[press ? (series->end_view ? 2 : 1) : 0][row];
        for (int i = 0; i < ROW_WORDS && word[i].words != NULL; i++) {
            const PlumbReading reading = (PlumbReading)word[i].reading;
            plumb_text_string(&text, word[i].words);
            plumb_text_quantity(&text, series->frame[frame].value[reading],
                                plumb_reading_quantity(reading), film->units);
        }
        const bool guessed = press && row == 1 && !series->frame[frame].elbow_seen;
        plumb_text_string(&text, guessed ? " (elbow not seen)" : "");
        put_line(scene, film, PLUMB_ROLE_ink,
                 (PlumbVec2){at_mm.x, at_mm.y + 1.5 * PLUMB_SMALL_TEXT_MM * (row + 1)},
                 PLUMB_SMALL_TEXT_MM, line);
    }
}

void plumb_compose_film_frame(PlumbScene *scene, const PlumbFilmFrames *film, PlumbEvent event,
                              PlumbRect rect, PlumbRect *room, PlumbRect *picture)
{
    const int frame = film->series->event_frame[event];
    char line[128];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, plumb_event_text(event, film->series->lift));
    plumb_text_string(&text, ", ");
    plumb_text_fixed(&text, film->series->event_s[event], 2);
    plumb_text_string(&text, " s, frame ");
    plumb_text_integer(&text, frame);
    put_line(scene, film, PLUMB_ROLE_ink, (PlumbVec2){rect.x_mm, rect.y_mm + line_mm - 1.5},
             PLUMB_NORMAL_TEXT_MM, line);
    *room = (PlumbRect){rect.x_mm, rect.y_mm + line_mm, rect.width_mm,
                        rect.height_mm - line_mm - words_mm};
    plumb_film_still(film->ask, film->series, frame, film->still);
    plumb_compose_still_in(scene, film->still, 0, *room, film->text_width, film->text_user,
                           picture);
    put_words(scene, film, frame, (PlumbVec2){rect.x_mm, rect.y_mm + rect.height_mm - words_mm});
}

void plumb_compose_film_legend(PlumbScene *scene, const PlumbFilmFrames *film, PlumbVec2 at_mm)
{
    char line[256];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Ink: the figure read from the film. +: marks as followed. Dashed: "
                             "hidden, in doubt, or filled in from its neighbours. ");
    plumb_text_string(&text, plumb_still_lines(film->series->lift, film->series->end_view));
    put_line(scene, film, PLUMB_ROLE_quiet, (PlumbVec2){at_mm.x, at_mm.y + PLUMB_SMALL_TEXT_MM},
             PLUMB_SMALL_TEXT_MM, line);
    put_line(scene, film, PLUMB_ROLE_quiet,
             (PlumbVec2){at_mm.x, at_mm.y + 2.6 * PLUMB_SMALL_TEXT_MM}, PLUMB_SMALL_TEXT_MM,
             plumb_caution_line());
}
