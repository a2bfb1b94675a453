/* SPDX-License-Identifier: MIT */
/* People of the survey in the set-up on show: percentiles of this lifter, and which sayings hold.
 */
#include "crowd.h"

#include "desk.h"

#include <math.h>
#include <string.h>

enum { SEED = 1, PEOPLE_AT_ONCE = 2 };

void plumb_crowd_touch(PlumbDesk *desk)
{
    desk->crowd.begun = false;
    desk->crowd.done = desk->crowd.shown = 0;
    desk->crowd.words[0] = '\0';
}

static bool asked(const PlumbDesk *desk)
{
    return desk->body_shown && desk->page != PLUMB_PAGE_PATH && desk->page != PLUMB_PAGE_TRACE &&
           desk->answer.outcome != PLUMB_NO_POSE;
}

static void put_share(PlumbText *text, double share)
{
    plumb_text_fixed(text, 100.0 * share, 0);
    plumb_text_string(text, " %");
}

/* "62 % have less bar travel, 18 % a back nearer to level." */
static void put_percentiles(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbCrowd *const crowd = &desk->crowd;
    static const struct {
        int output;
        const char *words;
    } told[2][2] = {{{(int)PLUMB_OUT_travel, " have less bar travel, "},
                     {(int)PLUMB_OUT_back_angle, " a back nearer to level. "}},
                    {{(int)PLUMB_PRESS_OUT_travel, " have less bar travel, "},
                     {(int)PLUMB_PRESS_OUT_elbow_moment, " a smaller elbow moment. "}}};
    const size_t lift = desk->now.lift == PLUMB_BENCH ? 1 : 0;
    for (size_t i = 0; i < sizeof told[lift] / sizeof told[lift][0]; i++) {
        const int output = told[lift][i].output;
        const double own = plumb_solved_value(&desk->answer.solved, output);
        put_share(text, plumb_population_share_below(crowd->person, crowd->done, output, own));
        plumb_text_string(text, told[lift][i].words);
    }
}

/* "Longer thighs lean more: 100 %. ", the saying without what is in brackets. */
static void put_sayings(PlumbDesk *desk, PlumbText *text)
{
    PlumbCrowd *const crowd = &desk->crowd;
    for (int i = 0; i < PLUMB_DIRECTION_COUNT; i++) {
        const PlumbDirection direction = (PlumbDirection)i;
        if (!plumb_direction_applies(direction, desk->now.lift)) {
            continue;
        }
        const PlumbSaying saying =
            plumb_population_saying(crowd->person, crowd->done, direction, crowd->scratch);
        const char *const words = plumb_direction_text(direction);
        if (isfinite(saying.share)) {
            plumb_text_bytes(text, words, strcspn(words, "("));
            plumb_text_string(text, "in ");
            put_share(text, saying.share);
            plumb_text_string(text, ". ");
        }
    }
}

static void show(PlumbDesk *desk)
{
    PlumbCrowd *const crowd = &desk->crowd;
    PlumbText text = plumb_text_begin(crowd->words, sizeof crowd->words);
    plumb_text_string(&text, "Of ");
    plumb_text_integer(&text, crowd->done);
    plumb_text_string(&text, desk->now.lifter.body.sex == PLUMB_MALE
                                 ? " men of the survey in this set-up "
                                 : " women of the survey in this set-up ");
    put_percentiles(desk, &text);
    put_sayings(desk, &text);
    plumb_text_string(&text, "That covers bodies, not the model's form and not strength.");
    crowd->shown = crowd->done;
    desk->dirty = true;
}

static void begin(PlumbDesk *desk)
{
    PlumbCrowd *const crowd = &desk->crowd;
    plumb_crowd_touch(desk);
    plumb_sampler_population(&desk->now.lifter, SEED, &crowd->sampler);
    crowd->setup = *plumb_desk_setup(desk);
    crowd->begun = true;
}

bool plumb_crowd_work(PlumbDesk *desk, double seconds)
{
    PlumbCrowd *const crowd = &desk->crowd;
    const double begun_s = plumb_clock_s();
    if (!asked(desk) || desk->changed || desk->drag.on || desk->key_held) {
        return false;
    }
    if (!crowd->begun) {
        begin(desk);
    }
    while (crowd->done < PLUMB_CROWD_MOST) {
        plumb_population_solve(&crowd->sampler, &crowd->setup, (uint64_t)crowd->done,
                               PEOPLE_AT_ONCE, crowd->person + crowd->done);
        crowd->done += PEOPLE_AT_ONCE;
        if (crowd->done == PLUMB_CROWD_COARSE || crowd->done == PLUMB_CROWD_MOST) {
            show(desk);
        }
        if (plumb_clock_s() - begun_s > seconds) {
            break;
        }
    }
    desk->solver_s += plumb_clock_s() - begun_s;
    return crowd->done < PLUMB_CROWD_MOST;
}

const char *plumb_crowd_words(const PlumbDesk *desk)
{
    return asked(desk) ? desk->crowd.words : "";
}
