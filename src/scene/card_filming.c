/* SPDX-License-Identifier: MIT */
/* The filming card: where the camera stands, and what is in the picture. */
#include "scene/card.h"

#include <plumbar/card.h>

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

/* From above: the camera in line with the bar, whose ends carry the discs. */
static const PlumbLink ABOVE[] = {
    {{-0.12, 0.03}, 0.05, {0.12, 0.03}, 0.05},    /* shoulders */
    {{-0.16, 0.02}, 0.025, {-0.16, -0.10}, 0.02}, /* arms */
    {{0.16, 0.02}, 0.025, {0.16, -0.10}, 0.02},   {{0.0, 0.0}, 0.05, {0.0, -0.02}, 0.05}, /* head */
    {{-0.98, -0.11}, 0.05, {-0.90, -0.11}, 0.05}, /* camera */
    {{-0.86, -0.11}, 0.03, {-0.83, -0.11}, 0.03},
};
static const PlumbStroke ABOVE_BAR[] = {
    {PLUMB_STROKE_BAR, {-0.60, -0.117}, {0.60, -0.103}},
    {PLUMB_STROKE_BAR, {-0.54, -0.237}, {-0.51, 0.017}},
    {PLUMB_STROKE_BAR, {0.51, -0.237}, {0.54, 0.017}},
    {PLUMB_STROKE_CHAIN, {-0.80, -0.11}, {0.70, -0.11}},
};

/* Standing with the bar in the hands, from the front. */
#define FRONT_PERSON                                                                               \
    {{-0.075, 0.03}, 0.024, {-0.07, 0.285}, 0.034}, {{0.075, 0.03}, 0.024, {0.07, 0.285}, 0.034},  \
        {{-0.07, 0.285}, 0.034, {-0.05, 0.52}, 0.052},                                             \
        {{0.07, 0.285}, 0.034, {0.05, 0.52}, 0.052}, {{0.0, 0.54}, 0.085, {0.0, 0.75}, 0.10},      \
        {{0.0, 0.83}, 0.026, {0.0, 0.90}, 0.026}, {{0.0, 0.925}, 0.052, {0.0, 0.94}, 0.055},       \
        {{-0.115, 0.80}, 0.03, {-0.14, 0.62}, 0.024}, {{0.115, 0.80}, 0.03, {0.14, 0.62}, 0.024},  \
        {{-0.14, 0.62}, 0.024, {-0.155, 0.45}, 0.018},                                             \
    {                                                                                              \
        {0.14, 0.62}, 0.024, {0.155, 0.45}, 0.018                                                  \
    }

static const PlumbLink HIP_HIGH[] = {
    FRONT_PERSON,
    {{-0.98, 0.53}, 0.05, {-0.90, 0.53}, 0.05},
    {{-0.86, 0.53}, 0.03, {-0.83, 0.53}, 0.03},
};
/* The bar in the hands, seen square to its length. */
#define HELD_BAR                                                                                   \
    {PLUMB_STROKE_BAR, {-0.60, 0.437}, {0.60, 0.451}},                                             \
        {PLUMB_STROKE_BAR, {-0.54, 0.317}, {-0.51, 0.571}},                                        \
    {                                                                                              \
        PLUMB_STROKE_BAR, {0.51, 0.317},                                                           \
        {                                                                                          \
            0.54, 0.571                                                                            \
        }                                                                                          \
    }

static const PlumbStroke HIP_BEHIND[] = {
    {PLUMB_STROKE_GROUND, {-1.16, 0.0}, {0.72, 0.0}},
    {PLUMB_STROKE_LINE, {-0.94, 0.50}, {-1.08, 0.0}},
    {PLUMB_STROKE_LINE, {-0.94, 0.50}, {-0.80, 0.0}},
    {PLUMB_STROKE_LINE, {-0.94, 0.50}, {-0.94, 0.0}},
};
static const PlumbStroke HIP_FRONT[] = {
    HELD_BAR,
    {PLUMB_STROKE_CHAIN, {-0.80, 0.53}, {0.30, 0.53}},
};

/* The start of a pull as the picture has it: its edge, both discs, a post. */
static const PlumbLink PULL[] = {
    {{-0.055, 0.028}, 0.026, {0.075, 0.014}, 0.013}, {{-0.02, 0.05}, 0.026, {0.05, 0.285}, 0.036},
    {{-0.16, 0.40}, 0.062, {0.05, 0.285}, 0.036},    {{-0.16, 0.40}, 0.066, {0.10, 0.525}, 0.06},
    {{0.14, 0.56}, 0.026, {0.19, 0.61}, 0.026},      {{0.205, 0.625}, 0.055, {0.215, 0.63}, 0.055},
    {{0.11, 0.53}, 0.03, {0.085, 0.33}, 0.024},      {{0.085, 0.33}, 0.024, {0.062, 0.14}, 0.016},
};
static const PlumbStroke PULL_BEHIND[] = {
    {PLUMB_STROKE_GROUND, {-0.50, 0.0}, {0.62, 0.0}},
    {PLUMB_STROKE_BOX, {0.46, 0.0}, {0.50, 0.80}},
    {PLUMB_STROKE_DISC, {0.10, 0.135}, {0.118, 0.0}},
};
static const PlumbStroke PULL_FRONT[] = {
    {PLUMB_STROKE_DISC, {0.062, 0.127}, {0.127, 0.0}},
    {PLUMB_STROKE_BOX, {-0.56, -0.10}, {0.68, 0.84}},
};

static const PlumbLink FROM_FRONT[] = {FRONT_PERSON};
static const PlumbStroke FRONT_FLOOR[] = {{PLUMB_STROKE_GROUND, {-0.64, 0.0}, {0.64, 0.0}}};
static const PlumbStroke FRONT_FRAME[] = {
    HELD_BAR,
    {PLUMB_STROKE_BOX, {-0.78, -0.12}, {0.78, 1.06}},
};

#define PERSON(list) .link = (list), .link_count = COUNT(list)
#define BEHIND(list) .behind = (list), .behind_count = COUNT(list)
#define FRONT(list) .front = (list), .front_count = COUNT(list)

static const PlumbSketch SKETCH[PLUMB_FILMING_COUNT] = {
    [PLUMB_FILMING_far] = {{-1.06, -0.34},
                           {0.72, 0.40},
                           PERSON(ABOVE),
                           BEHIND(ABOVE_BAR),
                           .span = {false, {-0.80, -0.11}, {0.0, 0.03}, 0.20, "5 m or more"}},
    [PLUMB_FILMING_lens] =
        {{-1.18, -0.05}, {0.74, 1.02}, PERSON(HIP_HIGH), BEHIND(HIP_BEHIND), FRONT(HIP_FRONT)},
    [PLUMB_FILMING_whole] =
        {{-0.58, -0.12}, {0.70, 0.86}, PERSON(PULL), BEHIND(PULL_BEHIND), FRONT(PULL_FRONT)},
    [PLUMB_FILMING_front] =
        {{-0.80, -0.14}, {0.80, 1.08}, PERSON(FROM_FRONT), BEHIND(FRONT_FLOOR), FRONT(FRONT_FRAME)},
};

double plumb_compose_filming_card(PlumbScene *scene, const PlumbDrawing *drawing, PlumbLift lift,
                                  PlumbRect rect)
{
    static const PlumbCardLine LINE[PLUMB_FILMING_COUNT] = {
#define X(name, heading, words) {&SKETCH[PLUMB_FILMING_##name], heading, words},
        PLUMB_FILMING_LIST(X)
#undef X
    };
    const PlumbBoard board = {scene, drawing};
    return lift == PLUMB_BENCH
               ? plumb_card_press(&board, rect)
               : plumb_card_lines(&board, rect, LINE, PLUMB_FILMING_COUNT, 2, PLUMB_FILMING_LAST);
}
