/* SPDX-License-Identifier: MIT */
/* The start window of a pull and the joint window of a squat: the interval of the free quantity in
 * which every requirement holds, and what ends it. */
#include "solve/case.h"

#include "base/roots.h"

enum { REQUIREMENTS_MAX = 5 + PLUMB_LEG_LIMIT_COUNT, MARCH_MAX = 200 };

/* Requirements in the order of their margins; a squat has only the limits. */
static const PlumbEnd requirement_end[REQUIREMENTS_MAX] = {
    PLUMB_END_shoulder_behind, PLUMB_END_shoulder_ahead,        PLUMB_END_back_level,
    PLUMB_END_balance_heel,    PLUMB_END_balance_toes,          PLUMB_END_ankle_dorsiflexion,
    PLUMB_END_knee_flexion,    PLUMB_END_hip_flexion,           PLUMB_END_hip_extension,
    PLUMB_END_hip_abduction,   PLUMB_END_hip_external_rotation, PLUMB_END_hip_internal_rotation,
};

/* Judgements of the model: least back angle, and balance within the foot's stable part. */
static const double back_least_rad = 10.0 * PLUMB_PI / 180.0;
static const double balance_least = 0.25;
static const double balance_most = 0.60;

/* One member of the family with its margins (negative: not met), in units of miss. */
typedef struct Sample {
    double s;
    bool held;
    PlumbState state;
    double margin[REQUIREMENTS_MAX];
    int worst;
    int second;
} Sample;

static int first_requirement(const PlumbCase *c)
{
    return c->rig.lift == PLUMB_DEADLIFT ? 0 : 5;
}

static void pull_margins(const PlumbCase *c, const PlumbEval *eval, double margin[5])
{
    const double cm = 0.01;
    const double ahead = eval->shoulder.x - eval->bar.x;
    const double most = c->setup.shoulder_ahead_max_frac * c->lifter->body.stature_m;
    const double back = plumb_constraint_value(eval, PLUMB_CON_back_angle, NULL);
    const double balance = plumb_constraint_value(eval, PLUMB_CON_balance, NULL);
    margin[0] = ahead / cm;
    margin[1] = (most - ahead) / cm;
    margin[2] = (back - back_least_rad) / degrees(1.0);
    margin[3] = (balance - balance_least) / 0.01;
    margin[4] = (balance_most - balance) / 0.01;
}

static void measure(const PlumbCase *c, Sample *sample)
{
    PlumbEval eval;
    plumb_eval(&c->rig, &sample->state, -1.0, &eval);
    const int first = first_requirement(c);
    if (first == 0) {
        pull_margins(c, &eval, sample->margin);
    }
    double angle[PLUMB_LEG_LIMIT_COUNT];
    plumb_limit_angles(&c->rig, eval.q, &eval.leg, angle);
    for (int i = 0; i < PLUMB_LEG_LIMIT_COUNT; i++) {
        sample->margin[5 + i] = (c->lifter->limit_rad[i] - angle[i]) / degrees(1.0);
    }
    sample->worst = first;
    sample->second = first;
    for (int i = first; i < REQUIREMENTS_MAX; i++) {
        if (sample->margin[i] < sample->margin[sample->worst]) {
            sample->second = sample->worst;
            sample->worst = i;
        } else if (i != sample->worst && (sample->second == sample->worst ||
                                          sample->margin[i] < sample->margin[sample->second])) {
            sample->second = i;
        }
    }
}

static Sample sample_at(const PlumbCase *c, double s, const PlumbState *warm)
{
    Sample sample = {.s = s, .state = *warm};
    sample.held = plumb_family_at(c, s, &sample.state);
    if (sample.held) {
        measure(c, &sample);
    }
    return sample;
}

static bool feasible(const Sample *sample)
{
    return sample->held && sample->margin[sample->worst] >= 0.0;
}

typedef struct Track {
    const PlumbCase *c;
    PlumbState state;
    int requirement; /* -1: the least of all */
} Track;

static double margin_at(double s, void *context)
{
    Track *track = context;
    const Sample sample = sample_at(track->c, s, &track->state);
    if (!sample.held) {
        return (double)NAN;
    }
    track->state = sample.state;
    return sample.margin[track->requirement < 0 ? sample.worst : track->requirement];
}

static double less_margin_at(double s, void *context)
{
    return -margin_at(s, context);
}

/* Between a feasible sample and one that is not: where the first requirement ends, to 1e-9. */
static double refine_end(const PlumbCase *c, const Sample *in, const Sample *out, PlumbEnd *end)
{
    Sample edge = *out;
    *end = PLUMB_END_no_pose;
    if (!out->held) {
        double inside = in->s;
        double outside = out->s;
        PlumbState warm = in->state;
        while (fabs(outside - inside) > 1e-10) {
            const double middle = 0.5 * (inside + outside);
            const Sample at = sample_at(c, middle, &warm);
            *(at.held ? &inside : &outside) = middle;
            warm = at.held ? at.state : warm;
        }
        edge = sample_at(c, inside, &warm);
        if (!edge.held || feasible(&edge)) {
            return inside;
        }
    }
    double nearest = edge.s;
    for (int i = first_requirement(c); i < REQUIREMENTS_MAX; i++) {
        if (edge.margin[i] < 0.0 && in->margin[i] >= 0.0) {
            Track track = {c, in->state, i};
            const double root = plumb_root_bracketed(margin_at, &track, in->s, edge.s,
                                                     in->margin[i], edge.margin[i], 1e-10);
            if (*end == PLUMB_END_no_pose || fabs(root - in->s) < fabs(nearest - in->s)) {
                nearest = root;
                *end = requirement_end[i];
            }
        }
    }
    return nearest;
}

/* From a feasible sample in steps until one is not; the end of the window on that side. */
static double march_end(const PlumbCase *c, const Sample *from, double step, double limit,
                        PlumbEnd *end)
{
    Sample in = *from;
    for (int i = 0; i < MARCH_MAX; i++) {
        double s = in.s + step;
        const bool last = step > 0.0 ? s >= limit : s <= limit;
        s = last ? limit : s;
        const Sample out = sample_at(c, s, &in.state);
        if (!feasible(&out)) {
            return refine_end(c, &in, &out, end);
        }
        if (last) {
            break;
        }
        in = out;
    }
    *end = PLUMB_END_none;
    return limit;
}

/* A window thinner than a step: the best place between two samples that fail for other reasons. */
static bool thin_window(const PlumbCase *c, const Sample *a, const Sample *b, Sample *best)
{
    if (!a->held || !b->held || a->worst == b->worst) {
        return false;
    }
    Track track = {c, a->state, -1};
    double least;
    const double s = plumb_least_bracketed(less_margin_at, &track, fmin(a->s, b->s),
                                           fmax(a->s, b->s), 1e-9, &least);
    const Sample found = sample_at(c, s, &track.state);
    if (found.held && found.margin[found.worst] > best->margin[best->worst]) {
        *best = found;
    }
    return feasible(&found);
}

/* Steps away from a sample that fails until one holds; keeps the best failure met. */
static bool search(const PlumbCase *c, const Sample *from, double step, double limit, Sample *found,
                   Sample *best)
{
    Sample last = *from;
    for (int i = 0; i < MARCH_MAX; i++) {
        const double s = last.s + step;
        if (step > 0.0 ? s > limit : s < limit) {
            return false;
        }
        const Sample next = sample_at(c, s, &last.state);
        if (next.held && next.margin[next.worst] > best->margin[best->worst]) {
            *best = next;
        }
        if (feasible(&next)) {
            *found = next;
            return true;
        }
        if (thin_window(c, &last, &next, best)) {
            *found = *best;
            return true;
        }
        if (!next.held) {
            return false;
        }
        last = next;
    }
    return false;
}

/* Nothing meets all requirements: names the two that collide where they come nearest to being met.
 * There the two lowest margins cross; where they do not, the family itself ends there. */
static PlumbInterval collision(const Sample *best)
{
    const bool cross = best->margin[best->second] <= best->margin[best->worst] + 1e-3;
    const PlumbInterval none = {
        .exists = false,
        .low = (double)NAN,
        .high = (double)NAN,
        .low_end = requirement_end[best->worst],
        .high_end = cross ? requirement_end[best->second] : PLUMB_END_no_pose,
    };
    return none;
}

PlumbInterval plumb_window_find(const PlumbCase *c, const PlumbState *seed)
{
    double low;
    double high;
    double step;
    plumb_family_range(c, &low, &high, &step);
    Sample start = sample_at(c, plumb_family_quantity(c, seed), seed);
    if (!start.held) {
        const PlumbInterval none = {.low = (double)NAN,
                                    .high = (double)NAN,
                                    .low_end = PLUMB_END_no_pose,
                                    .high_end = PLUMB_END_no_pose};
        return none;
    }
    if (!feasible(&start)) {
        Sample best = start;
        Sample up;
        Sample down;
        const bool found_up = search(c, &start, step, high, &up, &best);
        const bool found_down = search(c, &start, -step, low, &down, &best);
        if (!found_up && !found_down) {
            return collision(&best);
        }
        const bool take_up = found_up && (!found_down || up.s - start.s <= start.s - down.s);
        start = take_up ? up : down;
    }
    PlumbInterval window = {.exists = true};
    window.high = march_end(c, &start, step, high, &window.high_end);
    window.low = march_end(c, &start, -step, low, &window.low_end);
    return window;
}

double plumb_end_limit(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbEnd end)
{
    const double fixed[] = {
        [PLUMB_END_none] = (double)NAN,
        [PLUMB_END_shoulder_behind] = 0.0,
        [PLUMB_END_shoulder_ahead] = setup->shoulder_ahead_max_frac * lifter->body.stature_m,
        [PLUMB_END_back_level] = back_least_rad,
        [PLUMB_END_balance_heel] = balance_least,
        [PLUMB_END_balance_toes] = balance_most,
    };
    if (end < PLUMB_END_ankle_dorsiflexion) {
        return fixed[end];
    }
    if (end > PLUMB_END_elbow_flexion) {
        return (double)NAN;
    }
    /* Ends and limits of joints stand in the same order. */
    const double limit = lifter->limit_rad[end - PLUMB_END_ankle_dorsiflexion];
    return end == PLUMB_END_hip_extension || end == PLUMB_END_hip_internal_rotation ? -limit
                                                                                    : limit;
}
