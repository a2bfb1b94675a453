/* SPDX-License-Identifier: MIT */
/* The measuring card: what the tape spans, on a person who sits or stands. */
#include "scene/card.h"

#include <plumbar/card.h>

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

/* From the side, on a flat box, the shank upright: shares of stature, the toes ahead. */
static const PlumbLink SITTING[] = {
    {{-0.025, 0.028}, 0.026, {0.105, 0.014}, 0.013}, /* foot */
    {{0.0, 0.04}, 0.026, {0.0, 0.275}, 0.036},       /* shank */
    {{-0.245, 0.265}, 0.062, {0.0, 0.275}, 0.036},   /* thigh */
    {{-0.245, 0.275}, 0.068, {-0.24, 0.55}, 0.062},  /* trunk */
    {{-0.24, 0.60}, 0.026, {-0.235, 0.68}, 0.026},   /* neck */
    {{-0.225, 0.70}, 0.055, {-0.225, 0.715}, 0.058}, /* head */
    {{-0.235, 0.54}, 0.03, {-0.20, 0.39}, 0.024},    /* upper arm */
    {{-0.20, 0.39}, 0.024, {-0.06, 0.35}, 0.016},    /* forearm, hand on the thigh */
};
static const PlumbStroke SEAT[] = {
    {PLUMB_STROKE_BOX, {-0.36, 0.0}, {-0.13, 0.203}},
    {PLUMB_STROKE_GROUND, {-0.42, 0.0}, {0.20, 0.0}},
};

/* Standing, from the side, the arm hanging. */
static const PlumbLink STANDING[] = {
    {{-0.03, 0.028}, 0.026, {0.095, 0.014}, 0.013}, {{0.0, 0.04}, 0.026, {0.0, 0.285}, 0.036},
    {{0.0, 0.285}, 0.036, {0.0, 0.52}, 0.062},      {{0.0, 0.53}, 0.066, {0.0, 0.80}, 0.062},
    {{0.0, 0.85}, 0.026, {0.004, 0.92}, 0.026},     {{0.012, 0.925}, 0.055, {0.012, 0.94}, 0.058},
    {{0.0, 0.80}, 0.03, {0.0, 0.64}, 0.024},        {{0.0, 0.64}, 0.024, {0.006, 0.485}, 0.016},
    {{0.006, 0.485}, 0.018, {0.008, 0.392}, 0.010},
};
static const PlumbStroke FLOOR[] = {{PLUMB_STROKE_GROUND, {-0.16, 0.0}, {0.30, 0.0}}};

/* From the front, the arms spread level. */
static const PlumbLink SPREAD[] = {
    {{-0.055, 0.03}, 0.024, {-0.055, 0.285}, 0.034}, {{0.055, 0.03}, 0.024, {0.055, 0.285}, 0.034},
    {{-0.055, 0.285}, 0.034, {-0.05, 0.52}, 0.052},  {{0.055, 0.285}, 0.034, {0.05, 0.52}, 0.052},
    {{0.0, 0.54}, 0.085, {0.0, 0.75}, 0.10},         {{-0.115, 0.80}, 0.03, {-0.28, 0.80}, 0.024},
    {{0.115, 0.80}, 0.03, {0.28, 0.80}, 0.024},      {{-0.28, 0.80}, 0.024, {-0.42, 0.80}, 0.016},
    {{0.28, 0.80}, 0.024, {0.42, 0.80}, 0.016},      {{-0.42, 0.80}, 0.018, {-0.508, 0.80}, 0.010},
    {{0.42, 0.80}, 0.018, {0.508, 0.80}, 0.010},     {{0.0, 0.83}, 0.026, {0.0, 0.90}, 0.026},
    {{0.0, 0.925}, 0.052, {0.0, 0.94}, 0.055},
};
static const PlumbStroke FLOOR_WIDE[] = {{PLUMB_STROKE_GROUND, {-0.30, 0.0}, {0.30, 0.0}}};

/* The arm alone, bent at a right angle; circles are the bones to be felt. */
static const PlumbLink ARM[] = {
    {{0.0, 0.53}, 0.066, {0.0, 0.80}, 0.062},      {{0.0, 0.85}, 0.026, {0.004, 0.92}, 0.026},
    {{0.012, 0.925}, 0.055, {0.012, 0.94}, 0.058}, {{0.0, 0.80}, 0.03, {0.0, 0.64}, 0.026},
    {{0.0, 0.64}, 0.026, {0.155, 0.64}, 0.016},    {{0.155, 0.64}, 0.018, {0.245, 0.64}, 0.010},
};
static const PlumbStroke ELBOW_BONES[] = {{PLUMB_STROKE_CIRCLE, {0.0, 0.64}, {0.009, 0.0}},
                                          {PLUMB_STROKE_CIRCLE, {0.155, 0.64}, {0.007, 0.0}}};

/* A foot from its outer side. */
static const PlumbLink FOOT[] = {
    {{-0.022, 0.05}, 0.028, {-0.022, 0.17}, 0.032},
    {{-0.022, 0.046}, 0.028, {0.06, 0.024}, 0.022},
    {{-0.022, 0.028}, 0.026, {0.105, 0.014}, 0.012},
};
static const PlumbStroke FLOOR_FOOT[] = {{PLUMB_STROKE_GROUND, {-0.09, 0.002}, {0.16, 0.002}}};
static const PlumbStroke ANKLE_BONE[] = {{PLUMB_STROKE_CIRCLE, {-0.012, 0.046}, {0.008, 0.0}}};

#define PERSON(list) .link = (list), .link_count = COUNT(list)
#define BEHIND(list) .behind = (list), .behind_count = COUNT(list)
#define FRONT(list) .front = (list), .front_count = COUNT(list)

static const PlumbSketch SKETCH[PLUMB_TAPE_COUNT] = {
    [PLUMB_TAPE_sitting_height] = {{-0.46, -0.04},
                                   {0.20, 0.80},
                                   PERSON(SITTING),
                                   BEHIND(SEAT),
                                   .span = {true, {-0.32, 0.203}, {-0.225, 0.773}, -0.42, NULL}},
    [PLUMB_TAPE_buttock_to_knee] = {{-0.46, -0.04},
                                    {0.20, 0.80},
                                    PERSON(SITTING),
                                    BEHIND(SEAT),
                                    .span = {false, {-0.313, 0.275}, {0.036, 0.275}, 0.12, NULL}},
    [PLUMB_TAPE_knee_height_sitting] = {{-0.46, -0.04},
                                        {0.20, 0.80},
                                        PERSON(SITTING),
                                        BEHIND(SEAT),
                                        .span = {true, {0.10, 0.0}, {0.0, 0.311}, 0.16, NULL}},
    [PLUMB_TAPE_span] = {{-0.54, -0.05},
                         {0.54, 1.08},
                         PERSON(SPREAD),
                         BEHIND(FLOOR_WIDE),
                         .span = {false, {-0.518, 0.80}, {0.518, 0.80}, 1.05, NULL}},
    [PLUMB_TAPE_shoulder_to_elbow] = {{-0.20, 0.46},
                                      {0.28, 1.0},
                                      PERSON(ARM),
                                      FRONT(ELBOW_BONES),
                                      .span = {true, {0.0, 0.614}, {0.0, 0.83}, -0.15, NULL}},
    [PLUMB_TAPE_elbow_to_wrist] = {{-0.20, 0.46},
                                   {0.28, 1.0},
                                   PERSON(ARM),
                                   FRONT(ELBOW_BONES),
                                   .span = {false, {0.0, 0.64}, {0.155, 0.64}, 0.50, NULL}},
    [PLUMB_TAPE_foot] = {{-0.10, -0.03},
                         {0.17, 0.21},
                         PERSON(FOOT),
                         BEHIND(FLOOR_FOOT),
                         .span = {false, {-0.048, 0.02}, {0.117, 0.02}, 0.12, NULL}},
    [PLUMB_TAPE_heel_to_ankle_bone] =
        {{-0.10, -0.03},
         {0.17, 0.21},
         PERSON(FOOT),
         BEHIND(FLOOR_FOOT),
         FRONT(ANKLE_BONE),
         .span = {false, {-0.05, 0.046}, {-0.012, 0.046}, 0.13, NULL}},
    [PLUMB_TAPE_floor_to_fingertips] = {{-0.20, -0.05},
                                        {0.32, 1.02},
                                        PERSON(STANDING),
                                        BEHIND(FLOOR),
                                        .span = {true, {0.11, 0.0}, {0.008, 0.382}, 0.22, NULL}},
};

enum { HEADING_SIZE = 40 };

/* "knee_height_sitting" as a heading. */
static void heading_of(PlumbTape tape, char heading[HEADING_SIZE])
{
    PlumbText text = plumb_text_begin(heading, HEADING_SIZE);
    for (const char *c = plumb_tape_name(tape); *c != '\0'; c++) {
        plumb_text_char(&text, *c == '_' ? ' ' : *c);
    }
    heading[0] = (char)(heading[0] - 'a' + 'A');
}

double plumb_compose_measuring_card(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    char heading[PLUMB_TAPE_COUNT][HEADING_SIZE];
    PlumbCardLine line[PLUMB_TAPE_COUNT];
    const PlumbBoard board = {scene, drawing};
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        heading_of((PlumbTape)i, heading[i]);
        line[i] = (PlumbCardLine){&SKETCH[i], heading[i], plumb_tape_text((PlumbTape)i)};
    }
    return plumb_card_lines(&board, rect, line, PLUMB_TAPE_COUNT, 3, PLUMB_MEASURING_LAST);
}
