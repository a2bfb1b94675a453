/* SPDX-License-Identifier: MIT */
/* Names of landmarks, and marks as a set. */
#include <plumbar/marks.h>

#include "base/words.h"

#include <math.h>
#include <string.h>

static const struct {
    const char *name;
    const char *text;
} rows[PLUMB_LANDMARK_COUNT] = {
#define X(name, text) {#name, text},
    PLUMB_LANDMARK_LIST(X)
#undef X
};

static const struct {
    const char *prefix;
    PlumbNear near;
    bool front;
} sides[] = {
    {"far_", PLUMB_FAR, false},
    {"near_", PLUMB_NEAR, false},
    {"right_", PLUMB_NEAR, true},
    {"left_", PLUMB_FAR, true},
};

enum { SIDES = sizeof sides / sizeof sides[0] };

const char *plumb_landmark_name(PlumbLandmark landmark)
{
    return rows[landmark].name;
}

const char *plumb_landmark_text(PlumbLandmark landmark)
{
    return rows[landmark].text;
}

bool plumb_mark_name_read(const char *name, size_t length, PlumbMarkName *read,
                          const char **nearest)
{
    PlumbMarkName found = {.near = PLUMB_NEAR, .front = false};
    for (int i = 0; i < SIDES; i++) {
        const size_t head = strlen(sides[i].prefix);
        if (length > head && memcmp(name, sides[i].prefix, head) == 0) {
            found.near = sides[i].near;
            found.front = sides[i].front;
            name += head;
            length -= head;
            break;
        }
    }
    PlumbNearest search = plumb_nearest_begin(name, length);
    for (int i = 0; i < PLUMB_LANDMARK_COUNT; i++) {
        if (plumb_word_is(name, length, rows[i].name)) {
            found.landmark = (PlumbLandmark)i;
            *read = found;
            return true;
        }
        plumb_nearest_try(&search, rows[i].name);
    }
    *nearest = plumb_nearest_word(&search);
    return false;
}

void plumb_mark_name_text(PlumbText *text, PlumbMarkName name)
{
    if (name.front) {
        plumb_text_string(text, name.near == PLUMB_NEAR ? "right_" : "left_");
    } else if (name.near == PLUMB_FAR) {
        plumb_text_string(text, "far_");
    }
    plumb_text_string(text, rows[name.landmark].name);
}

int plumb_marks_picture(PlumbMarks *marks, const char *name, size_t length)
{
    for (int i = 0; i < marks->still_count; i++) {
        if (plumb_word_is(name, length, marks->picture[i])) {
            return i;
        }
    }
    if (marks->still_count == PLUMB_STILLS_MAX || length >= PLUMB_PICTURE_NAME_SIZE) {
        return -1;
    }
    memcpy(marks->picture[marks->still_count], name, length);
    marks->picture[marks->still_count][length] = '\0';
    return marks->still_count++;
}

bool plumb_marks_front(const PlumbMarks *marks, int still)
{
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == still && marks->mark[i].name.front) {
            return true;
        }
    }
    return false;
}

void plumb_marks_mirror(PlumbMarks *marks, int still, double width_px)
{
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == still) {
            marks->mark[i].x_px = width_px - marks->mark[i].x_px;
        }
    }
}

/* Place of a near landmark across the picture, NaN where it is not marked. */
static double across_px(const PlumbMarks *marks, int still, PlumbLandmark landmark)
{
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        if (mark->still == still && mark->name.near == PLUMB_NEAR &&
            mark->name.landmark == landmark) {
            return mark->x_px;
        }
    }
    return (double)NAN;
}

/* Middle of the near disc's rim, or its centre; NaN where neither is marked. */
static PlumbVec2 disc_px(const PlumbMarks *marks, int still)
{
    PlumbVec2 sum = {0.0, 0.0};
    int count = 0;
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        if (mark->still == still && mark->name.near == PLUMB_NEAR &&
            (mark->name.landmark == PLUMB_MARK_disc ||
             mark->name.landmark == PLUMB_MARK_disc_centre)) {
            sum = (PlumbVec2){sum.x + mark->x_px, sum.y + mark->y_px};
            count++;
        }
    }
    return count > 0 ? (PlumbVec2){sum.x / count, sum.y / count}
                     : (PlumbVec2){(double)NAN, (double)NAN};
}

/* Where the feet of a lifter on a bench are: the hip says it, else a bar that is low enough to be
 * on its way to the chest. */
static int feet_of(const PlumbMarks *marks, int still)
{
    static const double aside_frac = 0.25; /* of its height: more than a lockout has */
    const double shoulder = across_px(marks, still, PLUMB_MARK_shoulder);
    const double hip = across_px(marks, still, PLUMB_MARK_hip) - shoulder;
    if (!isnan(hip)) {
        return hip > 0.0 ? 1 : -1;
    }
    const PlumbVec2 disc = disc_px(marks, still);
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        if (mark->still == still && mark->name.near == PLUMB_NEAR &&
            mark->name.landmark == PLUMB_MARK_shoulder &&
            fabs(disc.x - mark->x_px) > aside_frac * fabs(mark->y_px - disc.y)) {
            return disc.x > mark->x_px ? 1 : -1;
        }
    }
    return 0;
}

int plumb_marks_facing(const PlumbMarks *marks, int still, PlumbLift lift)
{
    /* What is ahead, what is behind; the surest pair first. */
    static const PlumbLandmark pairs[][2] = {{PLUMB_MARK_toe, PLUMB_MARK_heel},
                                             {PLUMB_MARK_toe, PLUMB_MARK_ankle},
                                             {PLUMB_MARK_knee, PLUMB_MARK_hip},
                                             {PLUMB_MARK_shoulder, PLUMB_MARK_hip}};
    if (lift == PLUMB_BENCH) {
        return feet_of(marks, still);
    }
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        const double ahead =
            across_px(marks, still, pairs[i][0]) - across_px(marks, still, pairs[i][1]);
        if (ahead > 0.0 || ahead < 0.0) {
            return ahead > 0.0 ? 1 : -1;
        }
    }
    return 0;
}
