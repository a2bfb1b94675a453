/* SPDX-License-Identifier: MIT */
/* One patch from frame to frame.
 *
 * The patch as it is now is looked for, coarse to fine; from there the marked one is tried. Where
 * that still fits it decides, so that nothing drifts. Otherwise the present patch does, which is
 * taken anew only when it has changed; each time that costs the share by which it had. */
#include "trace/follow.h"

#include "base/vec.h"

enum { REACH = 7, REACH_WIDE = 18, CLIMB_MOST = 6, CLIMB_MARKED = 3 };

static const double marked_fits = 0.85; /* the marked patch decides */
static const double take_anew = 0.92;   /* below it the present patch has changed */
static const double look_wide = 0.75;   /* below it the search is widened */
static const double lost = 0.5;         /* below it the patch is not there */

static int level_of(double radius_px)
{
    int level = 0;
    while (level < PYRAMID_LEVELS - 2 && radius_px > PATCH_RADIUS_MAX * (double)(1 << level)) {
        level++;
    }
    return level;
}

static bool take(Pair *pair, const Pyramid *frame, PlumbVec2 at, int level, int radius)
{
    const int coarse = radius / 2 > PATCH_RADIUS_MIN ? radius / 2 : PATCH_RADIUS_MIN;
    return plumb_patch_take(&pair->fine, &frame->level[level], pyramid_down(at, level), radius) &&
           plumb_patch_take(&pair->coarse, &frame->level[level + 1], pyramid_down(at, level + 1),
                            coarse);
}

bool plumb_follow_begin(Follow *follow, const Pyramid *frame, PlumbVec2 at, double radius_px)
{
    follow->level = level_of(radius_px);
    const double scaled = radius_px / (double)(1 << follow->level);
    const int radius = (int)fmin(fmax(lround(scaled), PATCH_RADIUS_MIN), PATCH_RADIUS_MAX);
    follow->at = at;
    follow->speed = (PlumbVec2){0.0, 0.0};
    follow->worth = 1.0;
    follow->on = take(&follow->marked, frame, at, follow->level, radius);
    follow->now = follow->marked;
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

double plumb_follow_step(Follow *follow, const Pyramid *frame)
{
    const int l = follow->level;
    const PlumbVec2 about = {follow->at.x + follow->speed.x, follow->at.y + follow->speed.y};
    PlumbVec2 at;
    double score = look(follow, frame, about, REACH, &at);
    if (score < look_wide) {
        PlumbVec2 other;
        const double wide = look(follow, frame, about, REACH_WIDE, &other);
        at = wide > score ? other : at;
        score = fmax(wide, score);
    }
    PlumbVec2 marked;
    const double like_marked =
        plumb_patch_climb(&follow->marked.fine, &frame->level[l], at, CLIMB_MARKED, &marked);
    if (like_marked > marked_fits) {
        at = marked;
        score = like_marked;
        follow->now = follow->marked;
        follow->worth = 1.0;
    }
    if (score < lost) {
        follow->speed = (PlumbVec2){0.0, 0.0};
        return score * follow->worth;
    }
    const PlumbVec2 place = pyramid_up(at, l);
    follow->speed = (PlumbVec2){place.x - follow->at.x, place.y - follow->at.y};
    follow->at = place;
    const double sure = score * follow->worth;
    if (score < take_anew && like_marked <= marked_fits) {
        Pair next;
        if (take(&next, frame, place, l, follow->marked.fine.radius)) {
            follow->now = next;
            follow->worth = sure;
        }
    }
    return sure;
}
