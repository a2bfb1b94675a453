/* SPDX-License-Identifier: MIT */
/* Cards to keep at hand: what to tape, and how to film, each line a small drawing and a sentence.
 */
#ifndef PLUMBAR_CARD_H
#define PLUMBAR_CARD_H

#include <plumbar/scene.h>

/* The lines of the filming card: identifier, heading, sentence. Common practice, no source; lens
 * and post because of what a still leaves open. */
#define PLUMB_FILMING_LIST(X)                                                                      \
    X(far, "Far away and square", "5 m away or more, square to the bar, the camera level.")        \
    X(lens, "Height of the lens",                                                                  \
      "Lens at hip height; for the foot at a pull's start as low as the bar, since a disc hides "  \
      "it from higher.")                                                                           \
    X(whole, "All of it in the picture",                                                           \
      "The whole lifter and both discs in the picture, a post of the rack too.")                   \
    X(front, "From the front", "One still from the front, for stance, grip and knees.")

typedef enum PlumbFilming {
#define X(name, heading, words) PLUMB_FILMING_##name,
    PLUMB_FILMING_LIST(X)
#undef X
        PLUMB_FILMING_COUNT
} PlumbFilming;

/* The same of a bench press. */
#define PLUMB_FILMING_PRESS_LIST(X)                                                                \
    X(beside, "Beside the bench", "5 m away or more, in line with the bar, the camera level.")     \
    X(lens, "Height of the lens",                                                                  \
      "As high as the shoulders on the bench; small discs hide less of shoulder and elbow.")       \
    X(whole, "All of it in the picture",                                                           \
      "Shoulder, elbow and bar all the way, a post of the rack too: for touch and path.")          \
    X(head, "From the head end",                                                                   \
      "A second film from the head end, a little above the bar: for elbows and grip.")

typedef enum PlumbFilmingPress {
#define X(name, heading, words) PLUMB_FILMING_PRESS_##name,
    PLUMB_FILMING_PRESS_LIST(X)
#undef X
        PLUMB_FILMING_PRESS_COUNT
} PlumbFilmingPress;

/* What both cards end with. */
#define PLUMB_MEASURING_LAST                                                                       \
    "Tape twice and take the mean; a second person reads the tape. What is not taped is "          \
    "estimated "                                                                                   \
    "from stature."
#define PLUMB_FILMING_LAST "Ask before you film or share other people, above all minors."

/* Each draws its card into rect: as many columns as the width allows, text as large as the
 * drawing's text scale says and the height allows. Of the drawing only text scale and width of text
 * are used. Returns the height used, mm. */
double plumb_compose_measuring_card(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
double plumb_compose_filming_card(PlumbScene *scene, const PlumbDrawing *drawing, PlumbLift lift,
                                  PlumbRect rect);

#endif
