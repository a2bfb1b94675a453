/* SPDX-License-Identifier: MIT */
/* Marks of a film become tracks: one a landmark, one a disc with the rim about its middle. */
#include <plumbar/film_reading.h>

#include <math.h>
#include <string.h>

static const double joint_radius_m = 0.06; /* of the patch about a joint */
static const double disc_out_m = 0.70;     /* as plumb_trace_ask has it */
static const double disc_share = 0.8;      /* of a disc's radius that is followed */
static const double least_px = 10.0;       /* smaller patches are found anywhere */
static const double span_frac = 0.75; /* of the stature that marks from shoe to shoulder span */
static const double press_span_frac = 0.45; /* and those from the elbow to a bar pressed */

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

static int track_of(PlumbFilmReading *reading, PlumbMarkName name)
{
    for (int t = 0; t < reading->track_count; t++) {
        const PlumbMarkName other = reading->track[t].name;
        if (other.landmark == name.landmark && other.near == name.near) {
            return t;
        }
    }
    if (reading->track_count == PLUMB_TRACKS_MAX) {
        return -1;
    }
    reading->track[reading->track_count] = (PlumbSeriesTrack){.name = name};
    return reading->track_count++;
}

static void add_anchor(PlumbFilmReading *reading, int track, int frame, PlumbVec2 at)
{
    for (int i = 0; i < reading->follow.anchor_count; i++) {
        if (reading->anchor[i].track == track && reading->anchor[i].frame == frame) {
            return;
        }
    }
    reading->anchor[reading->follow.anchor_count++] = (PlumbAnchor){track, frame, at};
}

/* The rim points of a disc in a frame, as an ellipse; false where they make none. */
static bool rim_of(const PlumbFilmReading *reading, PlumbNear near, int frame, PlumbVec2 *rim,
                   int *count, PlumbEllipse *ellipse)
{
    *count = 0;
    for (int i = 0; i < reading->marks.count && *count < PLUMB_SERIES_RIM_MAX; i++) {
        const PlumbMark *const mark = &reading->marks.mark[i];
        if (mark->name.landmark == PLUMB_MARK_disc && mark->name.near == near &&
            mark->still == frame) {
            rim[(*count)++] = (PlumbVec2){mark->x_px, mark->y_px};
        }
    }
    return plumb_ellipse_fit(rim, *count, ellipse);
}

/* A rim point brings the whole rim of its frame. */
static PlumbStatus take_rim(PlumbFilmReading *reading, const PlumbMark *mark, int t,
                            PlumbError *error)
{
    PlumbVec2 rim[PLUMB_SERIES_RIM_MAX];
    PlumbEllipse ellipse;
    int count;
    if (!rim_of(reading, mark->name.near, mark->still, rim, &count, &ellipse)) {
        plumb_error_set(error, PLUMB_BAD_INPUT, "landmark",
                        "the points of the disc's rim in this frame lie on no ellipse; three to "
                        "five of them, well apart, are needed in each frame where it is marked");
        if (error != NULL) {
            error->line = mark->line;
        }
        return PLUMB_BAD_INPUT;
    }
    PlumbSeriesTrack *const track = &reading->track[t];
    if (count > track->rim_count) {
        track->rim_count = count;
        for (int i = 0; i < count; i++) {
            track->rim_px[i] = (PlumbVec2){rim[i].x - ellipse.x_px, rim[i].y - ellipse.y_px};
        }
    }
    reading->follow.radius_px[t] = fmax(reading->follow.radius_px[t], disc_share * ellipse.b_px);
    add_anchor(reading, t, mark->still, (PlumbVec2){ellipse.x_px, ellipse.y_px});
    return PLUMB_OK;
}

static PlumbStatus take_mark(PlumbFilmReading *reading, const PlumbMark *mark, PlumbError *error)
{
    if (is_fixed(mark->name.landmark)) {
        if (reading->fixed_count < PLUMB_SERIES_FIXED) {
            reading->fixed[reading->fixed_count++] = *mark;
        }
        return PLUMB_OK;
    }
    const int t = track_of(reading, track_name(mark->name));
    if (t < 0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks", "more than 32 different landmarks");
    }
    if (mark->name.landmark == PLUMB_MARK_disc) {
        return take_rim(reading, mark, t, error);
    }
    add_anchor(reading, t, mark->still, (PlumbVec2){mark->x_px, mark->y_px});
    return PLUMB_OK;
}

/* How far right and left of a landmark are apart in a view from the front or an end, px; 0: they
 * are not both marked in one frame. */
static double pair_px(const PlumbFilmReading *reading, PlumbLandmark landmark)
{
    for (int i = 0; i < reading->follow.anchor_count; i++) {
        for (int k = 0; k < reading->follow.anchor_count; k++) {
            const PlumbAnchor *const a = &reading->anchor[i];
            const PlumbAnchor *const b = &reading->anchor[k];
            const PlumbMarkName right = reading->track[a->track].name;
            const PlumbMarkName left = reading->track[b->track].name;
            if (a->frame == b->frame && right.front && right.landmark == landmark &&
                left.landmark == landmark && right.near == PLUMB_NEAR && left.near == PLUMB_FAR) {
                return hypot(a->at_px.x - b->at_px.x, a->at_px.y - b->at_px.y);
            }
        }
    }
    return 0.0;
}

/* Pixels in a metre: of the near disc; from an end of the bench of the two discs' middles, or the
 * shoulders; else as far as the marks span. */
static double px_per_m(const PlumbFilmReading *reading, const PlumbFilmQuestion *question)
{
    const PlumbLifter *const lifter = question->lifter;
    const bool press = question->setup->lift == PLUMB_BENCH;
    const double radius_m = 0.5 * lifter->equipment.disc_diameter_m;
    const double out_m = question->disc_out_m > 0.0 ? question->disc_out_m : disc_out_m;
    const double discs_px = pair_px(reading, PLUMB_MARK_disc_centre);
    const double shoulders_px = press ? pair_px(reading, PLUMB_MARK_shoulder) : 0.0;
    double low = 1e9;
    double high = -1e9;
    for (int t = 0; t < reading->track_count; t++) {
        if (reading->track[t].rim_count > 0 && reading->track[t].name.near == PLUMB_NEAR) {
            return reading->follow.radius_px[t] / disc_share / radius_m;
        }
    }
    if (discs_px > 0.0) {
        return discs_px / (2.0 * out_m);
    }
    if (shoulders_px > 0.0) {
        return shoulders_px / lifter->body.shoulder_joint_spacing_m;
    }
    for (int i = 0; i < reading->follow.anchor_count; i++) {
        low = fmin(low, reading->anchor[i].at_px.y);
        high = fmax(high, reading->anchor[i].at_px.y);
    }
    return (high - low) / ((press ? press_span_frac : span_frac) * lifter->body.stature_m);
}

/* Patches of joints, and the near disc as what hides them. */
static void size_patches(PlumbFilmReading *reading, const PlumbFilmQuestion *question)
{
    PlumbTrackAsk *const follow = &reading->follow;
    const PlumbLifter *const lifter = question->lifter;
    const double scale = px_per_m(reading, question);
    for (int t = 0; t < reading->track_count; t++) {
        const PlumbMarkName name = reading->track[t].name;
        /* On edge a disc is the end of a bar, with background about it. */
        const bool disc = name.landmark == PLUMB_MARK_disc_centre && !name.front;
        const double radius_m = 0.5 * lifter->equipment.disc_diameter_m;
        if (!(follow->radius_px[t] > 0.0)) {
            follow->radius_px[t] =
                fmax((disc ? disc_share * radius_m : joint_radius_m) * scale, least_px);
        }
        if (disc && name.near == PLUMB_NEAR) {
            follow->cover_track = t;
            follow->cover_px = follow->radius_px[t] / disc_share;
        } else {
            follow->covered |= 1U << t;
        }
    }
}

/* Which way the lifter faces, by the first frame that tells. */
static int facing_of(const PlumbFilmReading *reading, PlumbLift lift)
{
    for (int i = 0; i < reading->marks.count; i++) {
        PlumbMarks one = {.still_count = 1};
        for (int k = 0; k < reading->marks.count && one.count < PLUMB_STILL_MARKS_MAX; k++) {
            if (reading->marks.mark[k].still == reading->marks.mark[i].still) {
                one.mark[one.count] = reading->marks.mark[k];
                one.mark[one.count++].still = 0;
            }
        }
        const int facing = plumb_marks_facing(&one, 0, lift);
        if (facing != 0) {
            return facing;
        }
    }
    return 1;
}

PlumbStatus plumb_film_reading_tracks(PlumbFilmReading *reading, const PlumbFilmQuestion *question,
                                      PlumbError *error)
{
    bool front = false;
    reading->follow = plumb_track_ask(reading->width_px, reading->height_px, reading->frame_count);
    reading->follow.anchor = reading->anchor;
    reading->track_count = 0;
    reading->fixed_count = 0;
    for (int i = 0; i < reading->marks.count; i++) {
        front = front || reading->marks.mark[i].name.front;
        if (take_mark(reading, &reading->marks.mark[i], error) != PLUMB_OK) {
            return PLUMB_BAD_INPUT;
        }
    }
    if (reading->track_count == 0) {
        return plumb_error_set(
            error, PLUMB_BAD_INPUT, "marks",
            question->setup->lift == PLUMB_BENCH
                ? "nothing of the lifter is marked: shoulder, elbow, wrist, bar and three to five "
                  "points of the disc's rim in one frame or more; from an end of the bench the "
                  "right and the left shoulder, elbow, wrist and disc_centre"
                : "nothing of the lifter is marked: heel, toe, knee, hip, shoulder and three to "
                  "five points of the disc's rim in one frame or more");
    }
    reading->follow.track_count = reading->track_count;
    size_patches(reading, question);
    const int facing =
        question->facing != 0 ? question->facing : facing_of(reading, question->setup->lift);
    reading->mirror_width_px = !front && facing < 0 ? reading->width_px : 0.0;
    return PLUMB_OK;
}

const PlumbTrackPoint *plumb_film_point(const PlumbFilmReading *reading, int track, int frame)
{
    return &reading->tracks.point[(size_t)track * (size_t)reading->frame_count + (size_t)frame];
}

int plumb_film_doubtful(const PlumbFilmReading *reading, int track, int *from, int *to)
{
    const PlumbTrackPoint *const point = plumb_film_point(reading, track, 0);
    int count = 0;
    int run = 0;
    int longest = 0;
    *from = -1;
    *to = -1;
    for (int f = 0; f < reading->frame_count; f++) {
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

int plumb_film_doubt_at(const PlumbFilmReading *reading, int frame)
{
    const unsigned hidden = 1U << PLUMB_DOUBT_hidden;
    for (int t = 0; t < reading->track_count; t++) {
        const PlumbTrackPoint *const point = plumb_film_point(reading, t, frame);
        if (point->known && (point->doubts & ~hidden) != 0 && (point->doubts & hidden) == 0) {
            return t;
        }
    }
    return -1;
}
