/* SPDX-License-Identifier: MIT */
/* The background's patches: chosen in the first frame, followed, and their common shift.
 *
 * A similarity q = (a p.x - b p.y + t.x, b p.x + a p.y + t.y) by least squares: about the means
 * p', q' it is a = sum(dp.dq) / sum|dp|², b = sum(dp x dq) / sum|dp|², t = q' - R p'. */
#include "trace/follow.h"

#include "base/vec.h"

enum { STRIDE = 6, WINDOW = 5, LEVEL = 1, AGREE_LEAST = 4 };

static const double radius_px = 24.0;
static const double box_room_frac = 0.5; /* the lifter's own extent beyond the marks' box */
static const double corner_least = 2.0;  /* squared levels a pixel in the weaker direction */
static const double apart_frac = 0.09;   /* of the width, between two patches */
static const double found_least = 0.75;  /* correlation of a patch that is still seen */
static const double near_px = 1.5;       /* of the common shift */
static const double agree_frac = 0.6;    /* of those seen */

typedef struct Box {
    PlumbVec2 low;
    PlumbVec2 high;
} Box;

static Box box_of(const PlumbTrackAsk *ask)
{
    Box box = {{1e9, 1e9}, {-1e9, -1e9}};
    for (int i = 0; i < ask->anchor_count; i++) {
        const PlumbVec2 at = ask->anchor[i].at_px;
        const double radius = ask->radius_px[ask->anchor[i].track];
        box.low = (PlumbVec2){fmin(box.low.x, at.x - radius), fmin(box.low.y, at.y - radius)};
        box.high = (PlumbVec2){fmax(box.high.x, at.x + radius), fmax(box.high.y, at.y + radius)};
    }
    const double room_x = box_room_frac * (box.high.x - box.low.x);
    const double room_y = box_room_frac * (box.high.y - box.low.y);
    return (Box){{box.low.x - room_x, box.low.y - room_y}, {box.high.x + room_x, box.high.y}};
}

/* The smaller eigenvalue of the gradients' products about a pixel, for each pixel. */
static double corner_at(const PlumbGray *g, int x, int y)
{
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (int j = y - WINDOW; j <= y + WINDOW; j++) {
        const uint8_t *const row = g->level + j * g->stride;
        for (int i = x - WINDOW; i <= x + WINDOW; i++) {
            const double dx = 0.5 * (row[i + 1] - row[i - 1]);
            const double dy = 0.5 * (row[i + g->stride] - row[i - g->stride]);
            xx += dx * dx;
            xy += dx * dy;
            yy += dy * dy;
        }
    }
    const double pixels = (2.0 * WINDOW + 1.0) * (2.0 * WINDOW + 1.0);
    return (0.5 * (xx + yy) - hypot(0.5 * (xx - yy), xy)) / pixels;
}

/* Best corner that keeps its distance from those taken; false where none is left. */
static bool next_corner(const Ground *ground, const PlumbGray *g, const Box *box, double apart_px,
                        PlumbVec2 *found)
{
    double best = corner_least;
    const int margin = 2 * WINDOW;
    for (int y = margin; y < g->height_px - margin; y += STRIDE) {
        for (int x = margin; x < g->width_px - margin; x += STRIDE) {
            const PlumbVec2 at = pyramid_up((PlumbVec2){x, y}, LEVEL);
            bool free =
                at.x < box->low.x || at.x > box->high.x || at.y < box->low.y || at.y > box->high.y;
            for (int i = 0; i < ground->count && free; i++) {
                free = hypot(at.x - ground->first[i].x, at.y - ground->first[i].y) > apart_px;
            }
            const double corner = free ? corner_at(g, x, y) : 0.0;
            if (corner > best) {
                best = corner;
                *found = at;
            }
        }
    }
    return best > corner_least;
}

void plumb_ground_begin(Ground *ground, const Pyramid *frame, const PlumbTrackAsk *ask)
{
    const Box box = box_of(ask);
    const double apart_px = apart_frac * ask->width_px;
    ground->count = 0;
    for (PlumbVec2 at = {0.0, 0.0};
         ground->count < GROUND_MAX &&
         next_corner(ground, &frame->level[LEVEL], &box, apart_px, &at);) {
        const int i = ground->count;
        ground->first[i] = at;
        if (!plumb_follow_begin(&ground->patch[i], frame, at, radius_px)) {
            return;
        }
        ground->count++;
    }
}

static PlumbVec2 shifted(const PlumbShift *s, PlumbVec2 p)
{
    return (PlumbVec2){s->along * p.x - s->across * p.y + s->shift_px.x,
                       s->across * p.x + s->along * p.y + s->shift_px.y};
}

/* The similarity of the pairs that are used, by least squares. */
static PlumbShift fit(const Ground *ground, const bool *used)
{
    PlumbVec2 p = {0.0, 0.0};
    PlumbVec2 q = {0.0, 0.0};
    int count = 0;
    for (int i = 0; i < ground->count; i++) {
        if (used[i]) {
            p = (PlumbVec2){p.x + ground->first[i].x, p.y + ground->first[i].y};
            q = (PlumbVec2){q.x + ground->patch[i].at.x, q.y + ground->patch[i].at.y};
            count++;
        }
    }
    const double n = count > 0 ? count : 1;
    p = (PlumbVec2){p.x / n, p.y / n};
    q = (PlumbVec2){q.x / n, q.y / n};
    double dot = 0.0;
    double cross = 0.0;
    double square = 0.0;
    for (int i = 0; i < ground->count; i++) {
        if (used[i]) {
            const PlumbVec2 a = {ground->first[i].x - p.x, ground->first[i].y - p.y};
            const PlumbVec2 b = {ground->patch[i].at.x - q.x, ground->patch[i].at.y - q.y};
            dot += a.x * b.x + a.y * b.y;
            cross += a.x * b.y - a.y * b.x;
            square += a.x * a.x + a.y * a.y;
        }
    }
    PlumbShift s = {1.0, 0.0, {0.0, 0.0}, count, false};
    if (square > 0.0) {
        s.along = dot / square;
        s.across = cross / square;
    }
    s.shift_px =
        (PlumbVec2){q.x - s.along * p.x + s.across * p.y, q.y - s.across * p.x - s.along * p.y};
    return s;
}

/* Of the shifts that two patches make, that which most others agree with. */
static PlumbShift most_agreed(const Ground *ground, const bool *seen, bool *used)
{
    PlumbShift best = {1.0, 0.0, {0.0, 0.0}, 0, false};
    for (int i = 0; i < ground->count; i++) {
        for (int j = i + 1; j < ground->count && seen[i]; j++) {
            bool pair[GROUND_MAX] = {false};
            bool near[GROUND_MAX] = {false};
            if (!seen[j]) {
                continue;
            }
            pair[i] = true;
            pair[j] = true;
            PlumbShift s = fit(ground, pair);
            s.agreed = 0;
            for (int k = 0; k < ground->count; k++) {
                const PlumbVec2 at = shifted(&s, ground->first[k]);
                near[k] = seen[k] && hypot(at.x - ground->patch[k].at.x,
                                           at.y - ground->patch[k].at.y) < near_px;
                s.agreed += near[k];
            }
            if (s.agreed > best.agreed) {
                best = s;
                for (int k = 0; k < ground->count; k++) {
                    used[k] = near[k];
                }
            }
        }
    }
    return best;
}

PlumbShift plumb_ground_step(Ground *ground, const Pyramid *frame, const PlumbShift *last)
{
    bool seen[GROUND_MAX] = {false};
    bool used[GROUND_MAX] = {false};
    int count = 0;
    for (int i = 0; i < ground->count; i++) {
        seen[i] = plumb_follow_step(&ground->patch[i], frame, false) > found_least;
        count += seen[i];
    }
    const PlumbShift agreed = most_agreed(ground, seen, used);
    if (agreed.agreed < AGREE_LEAST || agreed.agreed < agree_frac * count) {
        PlumbShift unknown = *last;
        unknown.known = false;
        unknown.agreed = agreed.agreed;
        return unknown;
    }
    PlumbShift shift = fit(ground, used);
    shift.known = true;
    return shift;
}
