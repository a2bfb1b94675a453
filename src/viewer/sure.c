/* SPDX-License-Identifier: MIT */
/* Rounds of draws: a hundred for the first look, then as many as the commands take. Each step is
 * some bodies or one figure, so that no frame waits. */
#include "sure.h"

#include "desk.h"

#include <math.h>

enum { SEED = 1, BODIES_AT_ONCE = 2 };

static void forget(PlumbSure *sure)
{
    sure->kind = PLUMB_SURE_NONE;
    sure->done = sure->summed = sure->shown = 0;
    sure->has_measuring = false;
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        sure->sd[i] = (double)NAN;
    }
}

void plumb_sure_touch(PlumbDesk *desk)
{
    forget(&desk->sure);
}

/* What the page on show tells of. What does not hold has none. */
static PlumbSureKind wanted(const PlumbDesk *desk)
{
    const bool pencil = plumb_desk_pencil_shown(desk);
    const bool pose = !desk->changed && desk->answer.outcome != PLUMB_NO_POSE;
    if (!pose || desk->drag.on || desk->key_held) {
        return PLUMB_SURE_NONE;
    }
    if (desk->page == PLUMB_PAGE_PATH) {
        return PLUMB_SURE_PATH;
    }
    const bool table = desk->page == PLUMB_PAGE_DRAWING || desk->page == PLUMB_PAGE_MAP;
    if (pencil && (table || desk->page == PLUMB_PAGE_COMPARE)) {
        return desk->pencil.outcome != PLUMB_NO_POSE ? PLUMB_SURE_CHANGES : PLUMB_SURE_NONE;
    }
    return table ? PLUMB_SURE_FIGURES : PLUMB_SURE_NONE;
}

static void begin(PlumbDesk *desk, PlumbSureKind kind)
{
    PlumbSure *const sure = &desk->sure;
    const PlumbSheet *const now = &desk->now;
    const PlumbSide inked = {&now->record.spec, &now->lifter, plumb_desk_setup(desk)};
    const PlumbSide pencilled = {&now->pencil_record.spec, &now->pencil_lifter, &now->pencil};
    forget(sure);
    sure->kind = kind;
    plumb_bodies_around(inked.spec, &now->lifter.body, &sure->bodies);
    plumb_pair_begin(kind == PLUMB_SURE_CHANGES ? &pencilled : &inked, &inked, SEED, &sure->pair);
}

_Static_assert((int)PLUMB_PRESS_FACT_COUNT <= (int)PLUMB_FACT_COUNT &&
                   (int)PLUMB_PRESS_STEP_COUNT <= (int)PLUMB_STEP_COUNT,
               "the room for paths holds those of a press");

static int path_size(const PlumbSure *sure)
{
    return plumb_path_sample_size(sure->pair.setup[1].lift, PLUMB_SURE_POINTS);
}

static void solve(PlumbSure *sure, int count)
{
    const PlumbSampler *const sampler = &sure->pair.sampler[1];
    const PlumbSetup *const setup = &sure->pair.setup[1];
    const uint64_t first = (uint64_t)sure->done;
    if (sure->kind == PLUMB_SURE_CHANGES) {
        plumb_pair_solve(&sure->pair, false, first, count,
                         sure->change + sure->done * PLUMB_OUTPUT_COUNT);
    } else if (sure->kind == PLUMB_SURE_PATH) {
        plumb_path_samples_solve(sampler, setup, PLUMB_SURE_POINTS, first, count, sure->point,
                                 sure->path + sure->done * path_size(sure));
    } else {
        plumb_samples_solve(sampler, setup, false, first, count, sure->sample + sure->done);
    }
    sure->done += count;
}

static int figure_count(const PlumbSure *sure)
{
    const PlumbLift lift = sure->pair.setup[1].lift;
    return sure->kind == PLUMB_SURE_PATH ? plumb_lift_fact_count(lift)
                                         : plumb_lift_output_count(lift);
}

static void sum(PlumbSure *sure, int figure)
{
    if (sure->kind == PLUMB_SURE_CHANGES) {
        sure->next[figure] = plumb_column_estimate(sure->change, sure->done, PLUMB_OUTPUT_COUNT,
                                                   figure, sure->scratch);
    } else if (sure->kind == PLUMB_SURE_PATH) {
        sure->next[figure] =
            plumb_column_estimate(sure->path, sure->done, path_size(sure), figure, sure->scratch);
    } else {
        for (int i = 0; i < sure->done; i++) {
            sure->value[i] = sure->sample[i].output[figure];
        }
        sure->next[figure] = plumb_estimate(sure->value, sure->done, sure->scratch);
    }
}

/* Finds what to measure next; a thousand bodies are enough for an order. */
static void find_next(const PlumbDesk *desk, PlumbSure *sure)
{
    static const double LEAST_SHARE = 0.01; /* of the variance; less is not worth the tape */
    const PlumbBodySpec *const spec = &desk->now.record.spec;
    PlumbMeasuring measuring[PLUMB_MEASURING_MAX];
    double share[PLUMB_MEASURING_MAX];
    const int count = plumb_measurings(spec, measuring);
    const int draws = sure->done < 1000 ? sure->done : 1000;
    plumb_measurings_rank(spec, &sure->bodies, measuring, count, sure->sample, draws, share);
    sure->has_measuring = count > 0 && share[0] > LEAST_SHARE;
    if (sure->has_measuring) {
        sure->measuring = measuring[0];
        plumb_measuring_gains(spec, &sure->bodies, &measuring[0], sure->sample, draws, sure->after);
    }
}

/* Afresh for each frame: units change. */
static void put_next_words(PlumbDesk *desk)
{
    PlumbSure *const sure = &desk->sure;
    PlumbText text = plumb_text_begin(sure->next_words, sizeof sure->next_words);
    if (!sure->has_measuring) {
        return;
    }
    plumb_text_string(&text, "Tape next: ");
    plumb_measuring_words(&text, &sure->measuring);
    plumb_text_string(&text, " (F6 shows how)");
    if (!plumb_measuring_gains_text(&text, sure->of, sure->after, desk->now.lift, desk->units)) {
        sure->next_words[0] = '\0';
        return;
    }
    plumb_text_string(&text, ".");
}

static void show(PlumbDesk *desk)
{
    PlumbSure *const sure = &desk->sure;
    sure->shown = sure->done;
    sure->summed = 0;
    for (int i = 0; i < figure_count(sure); i++) {
        sure->of[i] = sure->next[i];
        sure->sd[i] = sure->next[i].sd;
    }
    if (sure->kind == PLUMB_SURE_FIGURES) {
        find_next(desk, sure);
    }
    desk->dirty = true;
}

/* One step; false where all is done. */
static bool step(PlumbDesk *desk)
{
    PlumbSure *const sure = &desk->sure;
    const int most = sure->kind == PLUMB_SURE_PATH ? PLUMB_SURE_PATHS : PLUMB_SURE_MOST;
    const int round = sure->shown < PLUMB_SURE_COARSE ? PLUMB_SURE_COARSE : most;
    if (sure->shown == most) {
        return false;
    }
    if (sure->done < round) {
        solve(sure, BODIES_AT_ONCE);
    } else if (sure->summed < figure_count(sure)) {
        sum(sure, sure->summed++);
    } else {
        show(desk);
    }
    return true;
}

void plumb_sure_settle(PlumbDesk *desk)
{
    const PlumbSureKind kind = wanted(desk);
    if (kind != PLUMB_SURE_NONE && desk->sure.kind != kind) {
        begin(desk, kind);
    }
    put_next_words(desk);
}

bool plumb_sure_work(PlumbDesk *desk, double seconds)
{
    const double begun_s = plumb_clock_s();
    if (wanted(desk) == PLUMB_SURE_NONE) {
        return false;
    }
    plumb_sure_settle(desk);
    bool more;
    do {
        more = step(desk);
    } while (more && plumb_clock_s() - begun_s < seconds);
    desk->solver_s += plumb_clock_s() - begun_s;
    return more;
}

const PlumbEstimate *plumb_sure_of(const PlumbDesk *desk, int index)
{
    static const double PRESCRIBED = 1e-9;
    const PlumbSure *const sure = &desk->sure;
    const bool fits = (desk->page == PLUMB_PAGE_PATH) == (sure->kind == PLUMB_SURE_PATH);
    return fits && sure->shown > 0 && sure->sd[index] > PRESCRIBED ? &sure->of[index] : NULL;
}

void plumb_sure_fill(PlumbDesk *desk)
{
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        const PlumbEstimate *const spread = plumb_sure_of(desk, i);
        if (spread != NULL && desk->sure.kind == PLUMB_SURE_CHANGES) {
            desk->against.of[i].spread = *spread;
        }
    }
}
