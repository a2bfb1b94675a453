/* SPDX-License-Identifier: MIT */
/* Marks under a hand: the guided list, and adding and removing. */
#include "marked.h"

#include <plumbar/frames.h>

#include <math.h>
#include <string.h>

enum { RIM_LEAST = 3, RIM_MOST = 5 };

static const double far_px = 1e6;
static const double rate_most_per_s = 1000.0;

static const PlumbMarkRow SIDE[] = {
    {{PLUMB_MARK_heel, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_toe, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_ankle, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_knee, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_hip, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_shoulder, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_elbow, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_wrist, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_bar, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_disc, PLUMB_NEAR, false}, RIM_LEAST, RIM_MOST},
    {{PLUMB_MARK_disc_centre, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_disc, PLUMB_FAR, false}, RIM_LEAST, RIM_MOST},
    {{PLUMB_MARK_disc_centre, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_plumb, PLUMB_NEAR, false}, 2, 2},
    {{PLUMB_MARK_scale, PLUMB_NEAR, false}, 2, 2},
    {{PLUMB_MARK_heel, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_toe, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_ankle, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_knee, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_hip, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_shoulder, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_elbow, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_wrist, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_bar, PLUMB_FAR, false}, 1, 1},
};

/* From the front each landmark has a right and a left row; those of the legs and hands first. */
static const PlumbMarkRow FRONT[] = {
    {{PLUMB_MARK_ankle, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_knee, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_toe, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_bar, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_hip, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_disc_centre, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_wrist, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_elbow, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_shoulder, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_heel, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_disc, PLUMB_NEAR, true}, RIM_LEAST, RIM_MOST},
};

static const PlumbMarkRow FRONT_ENDS[] = {
    {{PLUMB_MARK_plumb, PLUMB_NEAR, false}, 2, 2},
    {{PLUMB_MARK_scale, PLUMB_NEAR, false}, 2, 2},
};

/* Of a bench press beside the bench: disc and arm; the hip says which way the feet lie. */
static const PlumbMarkRow PRESS_SIDE[] = {
    {{PLUMB_MARK_disc, PLUMB_NEAR, false}, RIM_LEAST, RIM_MOST},
    {{PLUMB_MARK_shoulder, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_elbow, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_wrist, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_bar, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_plumb, PLUMB_NEAR, false}, 2, 2},
    {{PLUMB_MARK_hip, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_disc_centre, PLUMB_NEAR, false}, 1, 1},
    {{PLUMB_MARK_disc, PLUMB_FAR, false}, RIM_LEAST, RIM_MOST},
    {{PLUMB_MARK_disc_centre, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_scale, PLUMB_NEAR, false}, 2, 2},
    {{PLUMB_MARK_shoulder, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_elbow, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_wrist, PLUMB_FAR, false}, 1, 1},
    {{PLUMB_MARK_bar, PLUMB_FAR, false}, 1, 1},
};

/* The same from an end of the bench, right and left; discs are seen from their edge. */
static const PlumbMarkRow PRESS_END[] = {
    {{PLUMB_MARK_shoulder, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_elbow, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_wrist, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_disc_centre, PLUMB_NEAR, true}, 1, 1},
    {{PLUMB_MARK_bar, PLUMB_NEAR, true}, 1, 1},
};

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

int plumb_marked_view(const PlumbMarked *marked)
{
    return marked->film ? 0 : marked->still;
}

double plumb_marked_told(const PlumbMarked *marked, PlumbToldKey key)
{
    return marked->marks.told[plumb_marked_view(marked)][key];
}

void plumb_marked_tell(PlumbMarked *marked, PlumbToldKey key, double value)
{
    marked->marks.told[plumb_marked_view(marked)][key] = value;
}

/* Posts and known lengths have no side, whatever a file calls them. */
static bool same(PlumbMarkName a, PlumbMarkName b)
{
    const bool plain = a.landmark == PLUMB_MARK_plumb || a.landmark == PLUMB_MARK_scale;
    return a.landmark == b.landmark && (plain || (a.near == b.near && a.front == b.front));
}

/* A view from before the lifter, or from an end of the bench. */
static int both_sides(const PlumbMarkRow *list, int length, PlumbMarkRow row[PLUMB_MARK_ROWS_MAX])
{
    int count = 0;
    for (int i = 0; i < length; i++) {
        row[count++] = list[i];
        row[count] = list[i];
        row[count++].name.near = PLUMB_FAR;
    }
    memcpy(row + count, FRONT_ENDS, sizeof FRONT_ENDS);
    return count + COUNT(FRONT_ENDS);
}

static bool lists(const PlumbMarkRow *row, int count, PlumbMarkName name)
{
    bool found = false;
    for (int i = 0; i < count; i++) {
        found = found || (row[i].name.landmark == name.landmark &&
                          (row[i].name.near == name.near || row[i].most == 2));
    }
    return found;
}

/* Marks that were set with another lift on the desk stay: they can be chosen, moved and deleted. */
static int add_others(const PlumbMarked *marked, PlumbMarkRow row[PLUMB_MARK_ROWS_MAX], int count)
{
    for (int i = 0; i < marked->marks.count && count < PLUMB_MARK_ROWS_MAX; i++) {
        const PlumbMark *const mark = &marked->marks.mark[i];
        const bool rim = mark->name.landmark == PLUMB_MARK_disc;
        if (mark->still == marked->still && !lists(row, count, mark->name)) {
            row[count++] = (PlumbMarkRow){mark->name, rim ? RIM_LEAST : 1, rim ? RIM_MOST : 1};
        }
    }
    return count;
}

int plumb_mark_rows(const PlumbMarked *marked, PlumbLift lift,
                    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX])
{
    const bool press = lift == PLUMB_BENCH;
    int count;
    if (marked->front[plumb_marked_view(marked)]) {
        count = press ? both_sides(PRESS_END, COUNT(PRESS_END), row)
                      : both_sides(FRONT, COUNT(FRONT), row);
    } else {
        const PlumbMarkRow *const list = press ? PRESS_SIDE : SIDE;
        count = press ? COUNT(PRESS_SIDE) : COUNT(SIDE);
        memcpy(row, list, (size_t)count * sizeof row[0]);
    }
    return add_others(marked, row, count);
}

int plumb_marked_count(const PlumbMarked *marked, PlumbMarkName name)
{
    int count = 0;
    for (int i = 0; i < marked->marks.count; i++) {
        const PlumbMark *const mark = &marked->marks.mark[i];
        count += mark->still == marked->still && same(mark->name, name);
    }
    return count;
}

int plumb_marked_last(const PlumbMarked *marked, PlumbMarkName name)
{
    int last = -1;
    for (int i = 0; i < marked->marks.count; i++) {
        const PlumbMark *const mark = &marked->marks.mark[i];
        last = mark->still == marked->still && same(mark->name, name) ? i : last;
    }
    return last;
}

int plumb_marked_next(const PlumbMarked *marked, PlumbLift lift, int from)
{
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(marked, lift, row);
    for (int i = 1; i <= count; i++) {
        const int at = (from + i) % count;
        if (plumb_marked_count(marked, row[at].name) < row[at].least) {
            return at;
        }
    }
    return from;
}

int plumb_marked_add(PlumbMarked *marked, PlumbMarkName name, PlumbVec2 pixel)
{
    PlumbMarks *const marks = &marked->marks;
    int here = 0;
    for (int i = 0; i < marks->count; i++) {
        here += marks->mark[i].still == marked->still;
    }
    if (marks->count == PLUMB_MARKS_MAX || here == PLUMB_STILL_MARKS_MAX) {
        return -1;
    }
    marks->mark[marks->count] = (PlumbMark){.still = marked->still,
                                            .name = name,
                                            .x_px = pixel.x,
                                            .y_px = pixel.y,
                                            .sigma_px = (double)NAN,
                                            .time_s = (double)NAN};
    return marks->count++;
}

void plumb_marked_remove(PlumbMarked *marked, int index)
{
    PlumbMarks *const marks = &marked->marks;
    memmove(&marks->mark[index], &marks->mark[index + 1],
            (size_t)(marks->count - index - 1) * sizeof marks->mark[0]);
    marks->count--;
}

void plumb_marked_name(PlumbText *text, PlumbMarkName name)
{
    const size_t from = text->length;
    plumb_mark_name_text(text, name);
    for (size_t i = from; i < text->length; i++) {
        text->data[i] = text->data[i] == '_' ? ' ' : text->data[i];
    }
}

bool plumb_marked_holds(const PlumbMarked *marked)
{
    const PlumbMarks *const marks = &marked->marks;
    const int stills = marked->film ? PLUMB_FRAMES_MAX : marks->still_count;
    bool holds = marks->still_count >= 0 && marks->still_count <= PLUMB_STILLS_MAX &&
                 marks->count >= 0 && marks->count <= PLUMB_MARKS_MAX && marked->still >= 0 &&
                 (marked->still < stills || marked->still == 0) && marked->rate_per_s >= 0.0 &&
                 marked->rate_per_s <= rate_most_per_s &&
                 memchr(marked->path, '\0', sizeof marked->path) != NULL;
    for (int i = 0; holds && i < marks->still_count; i++) {
        holds = memchr(marks->picture[i], '\0', sizeof marks->picture[i]) != NULL;
        for (int key = 0; holds && key < PLUMB_TOLD_COUNT; key++) {
            const double told = marks->told[i][key];
            holds = !(fabs(told) > 0.0) || plumb_told_holds((PlumbToldKey)key, told);
        }
    }
    for (int i = 0; holds && i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        holds = mark->still >= 0 && mark->still < stills && (int)mark->name.landmark >= 0 &&
                mark->name.landmark < PLUMB_LANDMARK_COUNT && fabs(mark->x_px) <= far_px &&
                fabs(mark->y_px) <= far_px;
    }
    return holds;
}
