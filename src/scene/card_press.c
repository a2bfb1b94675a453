/* SPDX-License-Identifier: MIT */
/* The filming card of a bench press: beside the bench, and at its head end. */
#include "scene/card.h"

#include <plumbar/card.h>

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

/* From above: the lifter lies with the head up; the camera in line with the bar. */
static const PlumbLink ABOVE[] = {
    {{0.0, 0.20}, 0.05, {0.0, 0.21}, 0.05},       /* head */
    {{-0.10, 0.08}, 0.05, {0.10, 0.08}, 0.05},    /* shoulders */
    {{0.0, 0.06}, 0.09, {0.0, -0.17}, 0.075},     /* trunk */
    {{-0.06, -0.20}, 0.05, {-0.12, -0.38}, 0.04}, /* thighs */
    {{0.06, -0.20}, 0.05, {0.12, -0.38}, 0.04},
    {{-0.12, 0.08}, 0.026, {-0.21, 0.01}, 0.022}, /* arms */
    {{0.12, 0.08}, 0.026, {0.21, 0.01}, 0.022},
    {{-0.98, 0.01}, 0.05, {-0.90, 0.01}, 0.05}, /* camera */
    {{-0.86, 0.01}, 0.03, {-0.83, 0.01}, 0.03},
};
static const PlumbStroke ABOVE_BENCH[] = {
    {PLUMB_STROKE_BOX, {-0.085, -0.22}, {0.085, 0.26}},
    {PLUMB_STROKE_CHAIN, {-0.80, 0.01}, {0.70, 0.01}},
};
static const PlumbStroke ABOVE_BAR[] = {
    {PLUMB_STROKE_BAR, {-0.60, 0.003}, {0.60, 0.017}},
    {PLUMB_STROKE_BAR, {-0.54, -0.117}, {-0.51, 0.137}},
    {PLUMB_STROKE_BAR, {0.51, -0.117}, {0.54, 0.137}},
};

/* From the head end, the bar at the chest. */
#define HEAD_PERSON                                                                                \
    {{-0.10, 0.31}, 0.055, {0.10, 0.31}, 0.055}, {{-0.12, 0.32}, 0.028, {-0.21, 0.27}, 0.022},     \
        {{0.12, 0.32}, 0.028, {0.21, 0.27}, 0.022}, {{-0.21, 0.27}, 0.022, {-0.20, 0.40}, 0.018},  \
        {{0.21, 0.27}, 0.022, {0.20, 0.40}, 0.018},                                                \
    {                                                                                              \
        {0.0, 0.33}, 0.055, {0.0, 0.34}, 0.055                                                     \
    }
#define HEAD_BENCH                                                                                 \
    {PLUMB_STROKE_BOX, {-0.085, 0.20}, {0.085, 0.25}},                                             \
        {PLUMB_STROKE_LINE, {0.0, 0.20}, {0.0, 0.0}},                                              \
    {                                                                                              \
        PLUMB_STROKE_LINE, {-0.14, 0.0},                                                           \
        {                                                                                          \
            0.14, 0.0                                                                              \
        }                                                                                          \
    }
#define HEAD_BAR                                                                                   \
    {PLUMB_STROKE_BAR, {-0.60, 0.413}, {0.60, 0.427}},                                             \
        {PLUMB_STROKE_BAR, {-0.54, 0.293}, {-0.51, 0.547}},                                        \
    {                                                                                              \
        PLUMB_STROKE_BAR, {0.51, 0.293},                                                           \
        {                                                                                          \
            0.54, 0.547                                                                            \
        }                                                                                          \
    }

static const PlumbLink LENS[] = {
    HEAD_PERSON,
    {{-0.98, 0.32}, 0.05, {-0.90, 0.32}, 0.05},
    {{-0.86, 0.32}, 0.03, {-0.83, 0.32}, 0.03},
};
static const PlumbStroke LENS_BEHIND[] = {
    {PLUMB_STROKE_GROUND, {-1.16, 0.0}, {0.72, 0.0}},
    {PLUMB_STROKE_LINE, {-0.94, 0.29}, {-1.06, 0.0}},
    {PLUMB_STROKE_LINE, {-0.94, 0.29}, {-0.82, 0.0}},
    {PLUMB_STROKE_LINE, {-0.94, 0.29}, {-0.94, 0.0}},
    HEAD_BENCH,
};
static const PlumbStroke LENS_FRONT[] = {
    HEAD_BAR,
    {PLUMB_STROKE_CHAIN, {-0.80, 0.32}, {-0.13, 0.32}},
};

/* The picture from the side: its edge, shoulder, elbow and bar over straight arms, a post. */
static const PlumbLink BESIDE[] = {
    {{-0.09, 0.33}, 0.055, {-0.08, 0.33}, 0.055}, {{0.02, 0.32}, 0.062, {0.29, 0.305}, 0.06},
    {{0.29, 0.30}, 0.052, {0.49, 0.27}, 0.036},   {{0.49, 0.27}, 0.034, {0.47, 0.04}, 0.024},
    {{0.45, 0.022}, 0.018, {0.57, 0.014}, 0.013}, {{0.0, 0.32}, 0.032, {0.015, 0.47}, 0.024},
    {{0.015, 0.47}, 0.024, {0.01, 0.61}, 0.018},
};
static const PlumbStroke BESIDE_BEHIND[] = {
    {PLUMB_STROKE_GROUND, {-0.42, 0.0}, {0.80, 0.0}},
    {PLUMB_STROKE_BOX, {0.66, 0.0}, {0.70, 0.76}},
    {PLUMB_STROKE_BOX, {-0.18, 0.20}, {0.34, 0.25}},
    {PLUMB_STROKE_LINE, {-0.10, 0.20}, {-0.10, 0.0}},
    {PLUMB_STROKE_LINE, {0.26, 0.20}, {0.26, 0.0}},
};
static const PlumbStroke BESIDE_FRONT[] = {
    {PLUMB_STROKE_DISC, {0.01, 0.64}, {0.127, 0.0}},
    {PLUMB_STROKE_BOX, {-0.48, -0.10}, {0.86, 0.84}},
};

static const PlumbLink HEAD_END[] = {HEAD_PERSON};
static const PlumbStroke HEAD_END_BEHIND[] = {
    {PLUMB_STROKE_GROUND, {-0.64, 0.0}, {0.64, 0.0}},
    HEAD_BENCH,
};
static const PlumbStroke HEAD_END_FRONT[] = {
    HEAD_BAR,
    {PLUMB_STROKE_BOX, {-0.78, -0.12}, {0.78, 0.78}},
};

#define PERSON(list) .link = (list), .link_count = COUNT(list)
#define BEHIND(list) .behind = (list), .behind_count = COUNT(list)
#define FRONT(list) .front = (list), .front_count = COUNT(list)

static const PlumbSketch SKETCH[PLUMB_FILMING_PRESS_COUNT] = {
    [PLUMB_FILMING_PRESS_beside] =
        {{-1.06, -0.46},
         {0.72, 0.44},
         PERSON(ABOVE),
         BEHIND(ABOVE_BENCH),
         FRONT(ABOVE_BAR),
         .span = {false, {-0.80, 0.01}, {0.0, 0.20}, 0.34, "5 m or more"}},
    [PLUMB_FILMING_PRESS_lens] =
        {{-1.18, -0.05}, {0.74, 0.62}, PERSON(LENS), BEHIND(LENS_BEHIND), FRONT(LENS_FRONT)},
    [PLUMB_FILMING_PRESS_whole] =
        {{-0.50, -0.12}, {0.88, 0.86}, PERSON(BESIDE), BEHIND(BESIDE_BEHIND), FRONT(BESIDE_FRONT)},
    [PLUMB_FILMING_PRESS_head] = {{-0.80, -0.14},
                                  {0.80, 0.80},
                                  PERSON(HEAD_END),
                                  BEHIND(HEAD_END_BEHIND),
                                  FRONT(HEAD_END_FRONT)},
};

double plumb_card_press(const PlumbBoard *board, PlumbRect rect)
{
    static const PlumbCardLine LINE[PLUMB_FILMING_PRESS_COUNT] = {
#define X(name, heading, words) {&SKETCH[PLUMB_FILMING_PRESS_##name], heading, words},
        PLUMB_FILMING_PRESS_LIST(X)
#undef X
    };
    return plumb_card_lines(board, rect, LINE, PLUMB_FILMING_PRESS_COUNT, 2, PLUMB_FILMING_LAST);
}
