/* SPDX-License-Identifier: MIT */
/* One patch from frame to frame.
 *
 * The patch as it is now is looked for, coarse to fine; from there the marked one is tried, turned
 * as far as what is followed has turned. Where that still fits it decides, so that nothing drifts.
 * Otherwise the present patch does, which is taken anew only when it has changed; each time that
 * costs the share by which it had. */
#include "trace/follow.h"

#include "base/vec.h"

enum { REACH = 7, REACH_WIDE = 18, CLIMB_MOST = 6, CLIMB_MARKED = 3, TURNS_MOST = 4 };

static const double marked_fits = 0.80; /* the marked patch decides */
static const double take_anew = 0.92;   /* below it the present patch has changed */
static const double look_wide = 0.75;   /* below it the search is widened */
static const double lost = 0.5;         /* below it the patch is not there */
static const double again = 0.85;       /* above it a lost one is found again */
static const double jump_radii = 0.5;   /* off the expected place: only if it is surely it */
static const double gate_radii = 1.5;   /* never further off, */
static const double gate_growth = 0.1;  /* and so much more for each frame unseen, */
static const double unseen_most = 12.0; /* so many at most */
static const double slowing = 0.95;     /* of the speed behind what hides it, each frame */
static const double turn_step_rad = 5.0 * PLUMB_PI / 180.0;

static int level_of(double radius_px)
{
    int level = 0;
    while (level < PYRAMID_LEVELS - 2 && radius_px > PATCH_RADIUS_MAX * (double)(1 << level)) {
        level++;
    }
    return level;
}

static int coarse_radius(int radius)
{
    return radius / 2 > PATCH_RADIUS_MIN ? radius / 2 : PATCH_RADIUS_MIN;
}

static bool take(Pair *pair, const Pyramid *frame, PlumbVec2 at, int level, int radius)
{
    return plumb_patch_take(&pair->fine, &frame->level[level], pyramid_down(at, level), radius,
                            0.0) &&
           plumb_patch_take(&pair->coarse, &frame->level[level + 1], pyramid_down(at, level + 1),
                            coarse_radius(radius), 0.0);
}

bool plumb_follow_begin(Follow *follow, const Pyramid *frame, PlumbVec2 at, double radius_px)
{
    follow->level = level_of(radius_px);
    const double scaled = radius_px / (double)(1 << follow->level);
    const int radius = (int)fmin(fmax(round(scaled), PATCH_RADIUS_MIN), PATCH_RADIUS_MAX);
    follow->at = at;
    follow->speed = (PlumbVec2){0.0, 0.0};
    follow->turn_rad = 0.0;
    follow->worth = 1.0;
    follow->unseen = 0;
    for (int k = 0; k < 2; k++) {
        plumb_cutting_keep(&follow->marked[k], &frame->level[follow->level + k],
                           pyramid_down(at, follow->level + k),
                           k == 0 ? radius : coarse_radius(radius));
    }
    follow->on = take(&follow->now, frame, at, follow->level, radius);
    return follow->on;
}

/* Looks for the present patch about a place; *at in pixels of its level. */
static double look(const Follow *follow, const Pyramid *frame, PlumbVec2 about, int reach,
                   PlumbVec2 *at)
{
    const int l = follow->level;
    PlumbVec2 coarse;
    plumb_patch_search(&follow->now.coarse, &frame->level[l + 1], pyramid_down(about, l + 1), reach,
                       &coarse);
    const PlumbVec2 from = pyramid_down(pyramid_up(coarse, l + 1), l);
    return plumb_patch_climb(&follow->now.fine, &frame->level[l], from, CLIMB_MOST, at);
}

/* How alike the marked patch is about a pixel when it has turned. */
static double like_turned(const Follow *follow, const Pyramid *frame, PlumbVec2 at, double turn_rad)
{
    Patch patch;
    return plumb_cutting_patch(&follow->marked[0], turn_rad, &patch)
               ? plumb_patch_score(&patch, &frame->level[follow->level], (int)lround(at.x),
                                   (int)lround(at.y))
               : -1.0;
}

/* The turn at which the marked patch is most alike, from the last one on: by steps, then where the
 * parabola through three of them is highest. */
static double best_turn(const Follow *follow, const Pyramid *frame, PlumbVec2 at)
{
    double turn = follow->turn_rad;
    double here = like_turned(follow, frame, at, turn);
    double less = like_turned(follow, frame, at, turn - turn_step_rad);
    double more = like_turned(follow, frame, at, turn + turn_step_rad);
    for (int i = 0; i < TURNS_MOST && (less > here || more > here); i++) {
        const bool on = more > less;
        turn += on ? turn_step_rad : -turn_step_rad;
        const double next =
            like_turned(follow, frame, at, turn + (on ? turn_step_rad : -turn_step_rad));
        const double was = here;
        here = on ? more : less;
        less = on ? was : next;
        more = on ? next : was;
    }
    const double bend = less - 2.0 * here + more;
    const double step = bend < 0.0 ? 0.5 * (less - more) / bend : 0.0;
    return turn + turn_step_rad * fmin(fmax(step, -0.5), 0.5);
}

/* The marked patch, turned, decides where it fits: then the present one is that. */
static double try_marked(Follow *follow, const Pyramid *frame, PlumbVec2 *at)
{
    const double turn = best_turn(follow, frame, *at);
    Pair turned;
    PlumbVec2 place;
    if (!plumb_cutting_patch(&follow->marked[0], turn, &turned.fine) ||
        !plumb_cutting_patch(&follow->marked[1], turn, &turned.coarse)) {
        return -1.0;
    }
    const double score =
        plumb_patch_climb(&turned.fine, &frame->level[follow->level], *at, CLIMB_MARKED, &place);
    if (score > marked_fits) {
        *at = place;
        follow->now = turned;
        follow->turn_rad = turn;
        follow->worth = 1.0;
    }
    return score;
}

PlumbVec2 plumb_follow_next(const Follow *follow)
{
    return (PlumbVec2){follow->at.x + follow->speed.x, follow->at.y + follow->speed.y};
}

void plumb_follow_hide(Follow *follow)
{
    follow->at = plumb_follow_next(follow);
    follow->speed = (PlumbVec2){slowing * follow->speed.x, slowing * follow->speed.y};
    follow->unseen++;
}

double plumb_follow_step(Follow *follow, const Pyramid *frame, bool edge)
{
    const int l = follow->level;
    const PlumbVec2 about = plumb_follow_next(follow);
    PlumbVec2 at;
    double score = look(follow, frame, about, REACH, &at);
    if (score < look_wide) {
        PlumbVec2 other;
        const double wide = look(follow, frame, about, REACH_WIDE, &other);
        at = wide > score ? other : at;
        score = fmax(wide, score);
    }
    const double like_marked = try_marked(follow, frame, &at);
    const bool fits = like_marked > marked_fits;
    score = fits ? like_marked : score;
    const PlumbVec2 place = pyramid_up(at, l);
    const double radius_px = follow->marked[0].radius * (double)(1 << l);
    const double off = hypot(place.x - about.x, place.y - about.y) / radius_px;
    const double gate = gate_radii + gate_growth * fmin(follow->unseen, unseen_most);
    const bool near = follow->unseen == 0 && off < jump_radii;
    /* What was out of sight is found again by what was marked, not by what it last looked like. */
    const double needed = near ? lost : again;
    if (off > gate || (edge && !fits) || (follow->unseen > 0 ? like_marked : score) < needed) {
        plumb_follow_hide(follow);
        return fmin(score, lost) * follow->worth;
    }
    follow->speed = (PlumbVec2){place.x - follow->at.x, place.y - follow->at.y};
    follow->at = place;
    const double sure = score * follow->worth;
    if (score < take_anew && !fits) {
        Pair next;
        if (take(&next, frame, place, l, follow->marked[0].radius)) {
            follow->now = next;
            follow->worth = sure;
        }
    }
    return sure;
}
