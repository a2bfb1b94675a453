/* SPDX-License-Identifier: MIT */
/* Marks of a film become tracks: one a landmark, one a disc with the rim about its middle. */
#include "trace_film.h"

#include <math.h>
#include <string.h>

static const double joint_radius_m = 0.06; /* of the patch about a joint */
static const double disc_share = 0.8;      /* of a disc's radius that is followed */
static const double least_px = 10.0;       /* smaller patches are found anywhere */
static const double span_frac = 0.75; /* of the stature that marks from shoe to shoulder span */

static bool is_fixed(PlumbLandmark landmark)
{
    return landmark == PLUMB_MARK_plumb || landmark == PLUMB_MARK_scale;
}

/* A disc is one track, whether its rim or its middle was marked. */
static PlumbMarkName track_name(PlumbMarkName name)
{
    name.landmark = name.landmark == PLUMB_MARK_disc ? PLUMB_MARK_disc_centre : name.landmark;
    return name;
}

static int track_of(PlumbCliFilm *film, PlumbMarkName name)
{
    for (int t = 0; t < film->track_count; t++) {
        const PlumbMarkName other = film->track[t].name;
        if (other.landmark == name.landmark && other.near == name.near) {
            return t;
        }
    }
    if (film->track_count == PLUMB_TRACKS_MAX) {
        return -1;
    }
    film->track[film->track_count] = (PlumbSeriesTrack){.name = name};
    return film->track_count++;
}

static void add_anchor(PlumbCliFilm *film, int track, int frame, PlumbVec2 at)
{
    for (int i = 0; i < film->follow.anchor_count; i++) {
        if (film->anchor[i].track == track && film->anchor[i].frame == frame) {
            return;
        }
    }
    film->anchor[film->follow.anchor_count++] = (PlumbAnchor){track, frame, at};
}

/* The rim points of a disc in a frame, as an ellipse; false where they make none. */
static bool rim_of(const PlumbCliFilm *film, PlumbNear near, int frame, PlumbVec2 *rim, int *count,
                   PlumbEllipse *ellipse)
{
    *count = 0;
    for (int i = 0; i < film->marks.count && *count < PLUMB_SERIES_RIM_MAX; i++) {
        const PlumbMark *const mark = &film->marks.mark[i];
        if (mark->name.landmark == PLUMB_MARK_disc && mark->name.near == near &&
            mark->still == frame) {
            rim[(*count)++] = (PlumbVec2){mark->x_px, mark->y_px};
        }
    }
    return plumb_ellipse_fit(rim, *count, ellipse);
}

/* A rim point brings the whole rim of its frame. */
static PlumbStatus take_rim(PlumbCliFilm *film, const PlumbMark *mark, int t, PlumbCliFault *fault)
{
    PlumbVec2 rim[PLUMB_SERIES_RIM_MAX];
    PlumbEllipse ellipse;
    int count;
    if (!rim_of(film, mark->name.near, mark->still, rim, &count, &ellipse)) {
        plumb_error_set(&fault->error, PLUMB_BAD_INPUT, "landmark",
                        "the points of the disc's rim in this frame lie on no ellipse; three to "
                        "five of them, well apart, are needed in each frame where it is marked");
        fault->error.line = mark->line;
        return PLUMB_BAD_INPUT;
    }
    PlumbSeriesTrack *const track = &film->track[t];
    if (count > track->rim_count) {
        track->rim_count = count;
        for (int i = 0; i < count; i++) {
            track->rim_px[i] = (PlumbVec2){rim[i].x - ellipse.x_px, rim[i].y - ellipse.y_px};
        }
    }
    film->follow.radius_px[t] = fmax(film->follow.radius_px[t], disc_share * ellipse.b_px);
    add_anchor(film, t, mark->still, (PlumbVec2){ellipse.x_px, ellipse.y_px});
    return PLUMB_OK;
}

static PlumbStatus take_mark(PlumbCliFilm *film, const PlumbMark *mark, PlumbCliFault *fault)
{
    if (is_fixed(mark->name.landmark)) {
        if (film->ask.fixed_count < PLUMB_SERIES_FIXED) {
            film->ask.fixed[film->ask.fixed_count++] = *mark;
        }
        return PLUMB_OK;
    }
    const int t = track_of(film, track_name(mark->name));
    if (t < 0) {
        return plumb_error_set(&fault->error, PLUMB_BAD_INPUT, "marks",
                               "more than 32 different landmarks");
    }
    if (mark->name.landmark == PLUMB_MARK_disc) {
        return take_rim(film, mark, t, fault);
    }
    add_anchor(film, t, mark->still, (PlumbVec2){mark->x_px, mark->y_px});
    return PLUMB_OK;
}

/* Pixels in a metre: of the near disc, else as far as the marks span. */
static double px_per_m(const PlumbCliFilm *film)
{
    const double radius_m = 0.5 * film->request.lifter.equipment.disc_diameter_m;
    double low = 1e9;
    double high = -1e9;
    for (int t = 0; t < film->track_count; t++) {
        if (film->track[t].rim_count > 0 && film->track[t].name.near == PLUMB_NEAR) {
            return film->follow.radius_px[t] / disc_share / radius_m;
        }
    }
    for (int i = 0; i < film->follow.anchor_count; i++) {
        low = fmin(low, film->anchor[i].at_px.y);
        high = fmax(high, film->anchor[i].at_px.y);
    }
    return (high - low) / (span_frac * film->request.lifter.body.stature_m);
}

/* Patches of joints, and the near disc as what hides them. */
static void size_patches(PlumbCliFilm *film)
{
    PlumbTrackAsk *const follow = &film->follow;
    const double scale = px_per_m(film);
    for (int t = 0; t < film->track_count; t++) {
        const PlumbMarkName name = film->track[t].name;
        const bool disc = name.landmark == PLUMB_MARK_disc_centre;
        const double radius_m = 0.5 * film->request.lifter.equipment.disc_diameter_m;
        if (!(follow->radius_px[t] > 0.0)) {
            follow->radius_px[t] =
                fmax((disc ? disc_share * radius_m : joint_radius_m) * scale, least_px);
        }
        if (disc && name.near == PLUMB_NEAR && !name.front) {
            follow->cover_track = t;
            follow->cover_px = follow->radius_px[t] / disc_share;
        } else {
            follow->covered |= 1U << t;
        }
    }
}

/* Which way the lifter faces, by the first frame that tells. */
static int facing_of(const PlumbCliFilm *film)
{
    for (int i = 0; i < film->marks.count; i++) {
        PlumbMarks one = {.still_count = 1};
        for (int k = 0; k < film->marks.count && one.count < PLUMB_STILL_MARKS_MAX; k++) {
            if (film->marks.mark[k].still == film->marks.mark[i].still) {
                one.mark[one.count] = film->marks.mark[k];
                one.mark[one.count++].still = 0;
            }
        }
        const int facing = plumb_marks_facing(&one, 0);
        if (facing != 0) {
            return facing;
        }
    }
    return 1;
}

PlumbStatus plumb_film_tracks(PlumbCliFilm *film, PlumbCliFault *fault)
{
    bool front = false;
    film->follow.anchor = film->anchor;
    for (int i = 0; i < film->marks.count; i++) {
        front = front || film->marks.mark[i].name.front;
        if (take_mark(film, &film->marks.mark[i], fault) != PLUMB_OK) {
            return PLUMB_BAD_INPUT;
        }
    }
    if (film->track_count == 0) {
        return plumb_error_set(&fault->error, PLUMB_BAD_INPUT, "marks",
                               "nothing of the lifter is marked: heel, toe, knee, hip, shoulder "
                               "and three to five points of the disc's rim in one frame or more");
    }
    film->follow.track_count = film->track_count;
    size_patches(film);
    const int facing = film->words.facing != 0 ? film->words.facing : facing_of(film);
    film->ask.mirror_width_px = !front && facing < 0 ? film->width_px : 0.0;
    return PLUMB_OK;
}

int plumb_film_doubtful(const PlumbCliFilm *film, int track, int *from, int *to)
{
    const PlumbTrackPoint *const point =
        film->tracks.point + (size_t)track * (size_t)film->frame_count;
    int count = 0;
    int run = 0;
    int longest = 0;
    *from = -1;
    *to = -1;
    for (int f = 0; f < film->frame_count; f++) {
        const bool doubt = point[f].doubts != 0;
        count += doubt;
        run = doubt ? run + 1 : 0;
        if (run > longest) {
            longest = run;
            *from = f - run + 1;
            *to = f;
        }
    }
    return count;
}
