/* SPDX-License-Identifier: MIT */
/* Marks on pictures: which landmark was seen where, in pixels, and how sure that is. */
#ifndef PLUMBAR_MARKS_H
#define PLUMBAR_MARKS_H

#include <plumbar/pose.h>

/* Landmarks: name in files, and what to mark. A point of the body has two sides; `rim` is one of
 * several points on the edge of a disc. */
#define PLUMB_LANDMARK_LIST(X)                                                                     \
    X(heel, "back of the shoe, where it meets the floor")                                          \
    X(toe, "tip of the shoe, where it meets the floor")                                            \
    X(ankle, "ankle joint: middle of the ankle bone")                                              \
    X(knee, "knee joint: middle of the knee, seen from the side")                                  \
    X(hip, "hip joint: the bony point at the top of the thigh")                                    \
    X(shoulder, "shoulder joint: middle of the rounding of the shoulder")                          \
    X(elbow, "elbow joint")                                                                        \
    X(wrist, "wrist joint")                                                                        \
    X(bar, "the bar's centre at the hand")                                                         \
    X(disc, "a point on the rim of the disc; three to five of them")                               \
    X(disc_centre, "the bar's end in the middle of the disc")                                      \
    X(scale, "an end of something of known length; two of them")                                   \
    X(plumb, "a point on something upright, the post of a rack or a door; two of them")

typedef enum PlumbLandmark {
#define X(name, text) PLUMB_MARK_##name,
    PLUMB_LANDMARK_LIST(X)
#undef X
        PLUMB_LANDMARK_COUNT
} PlumbLandmark;

/* Which of the two: from the side the one nearer to the camera or the far one, from the front the
 * lifter's right or left. */
typedef enum PlumbNear { PLUMB_NEAR, PLUMB_FAR } PlumbNear;

const char *plumb_landmark_name(PlumbLandmark landmark);
const char *plumb_landmark_text(PlumbLandmark landmark);

/* A landmark as files call it: "knee", "far_knee", from the front "right_knee", "left_knee". */
typedef struct PlumbMarkName {
    PlumbLandmark landmark;
    PlumbNear near;
    bool front; /* the name says right or left: a view from the front */
} PlumbMarkName;

/* Reads name[length]; false where it is none, *nearest is then the name that was meant or NULL. */
bool plumb_mark_name_read(const char *name, size_t length, PlumbMarkName *read,
                          const char **nearest);
/* Appends the name. */
void plumb_mark_name_text(PlumbText *text, PlumbMarkName name);

enum {
    PLUMB_STILLS_MAX = 6,
    PLUMB_MARKS_MAX = 360,
    PLUMB_STILL_MARKS_MAX = 60,
    PLUMB_PICTURE_NAME_SIZE = 256
};

/* What may be told of a picture beside its marks: key in files, the least and the most of it, and
 * what is allowed, in words. distance_m: from the lens to the lifter; scale_m: between the two
 * marks called scale; facing: right 1, left -1; floor: yes 1, the discs of a pull stand, no -1, its
 * bar is in the air. */
#define PLUMB_TOLD_LIST(X)                                                                         \
    X(distance_m, 1.5, 50.0, "1.5 to 50 m")                                                        \
    X(scale_m, 0.05, 5.0, "0.05 to 5 m")                                                           \
    X(facing, -1.0, 1.0, "right or left")                                                          \
    X(floor, -1.0, 1.0, "yes (the discs stand) or no (the bar is in the air)")

typedef enum PlumbToldKey {
#define X(name, low, high, allowed) PLUMB_TOLD_##name,
    PLUMB_TOLD_LIST(X)
#undef X
        PLUMB_TOLD_COUNT
} PlumbToldKey;

const char *plumb_told_name(PlumbToldKey key);
/* What is allowed: "1.5 to 50 m", "right or left". */
const char *plumb_told_allowed(PlumbToldKey key);
/* Whether a value may be told; 0 is no value. */
bool plumb_told_holds(PlumbToldKey key, double value);
/* The word of a value ("left"), NULL where the key takes a number. */
const char *plumb_told_word(PlumbToldKey key, double value);
/* Reads name[length] as a key. */
bool plumb_told_name_read(const char *name, size_t length, PlumbToldKey *key);
/* Reads text[length], a plain number (m) or the key's word; false where it is none that may be
 * told. */
bool plumb_told_read(PlumbToldKey key, const char *text, size_t length, double *value);

/* One mark. x right, y down, in pixels from the picture's top left corner. */
typedef struct PlumbMark {
    int still; /* index into PlumbMarks.picture */
    PlumbMarkName name;
    double x_px;
    double y_px;
    double sigma_px; /* standard error; NaN: the default of its landmark */
    double time_s;   /* NaN where none is given */
    int line;        /* of the file it was read from, 0 for a new one */
} PlumbMark;

/* The marks of a few pictures. A flat value. */
typedef struct PlumbMarks {
    int still_count;
    char picture[PLUMB_STILLS_MAX][PLUMB_PICTURE_NAME_SIZE]; /* "" where none is named */
    double told[PLUMB_STILLS_MAX][PLUMB_TOLD_COUNT];         /* by PlumbToldKey; 0: not told */
    int count;
    PlumbMark mark[PLUMB_MARKS_MAX];
} PlumbMarks;

/* Index of a picture, added where it is new; -1 where there is no room. */
int plumb_marks_picture(PlumbMarks *marks, const char *name, size_t length);
/* Whether the marks of a still are from the front: one of them says right or left. */
bool plumb_marks_front(const PlumbMarks *marks, int still);
/* Turns a still left to right: for a lifter who faces left. width_px of the picture. */
void plumb_marks_mirror(PlumbMarks *marks, int still, double width_px);
/* 1 where the toes are right of the heels, of a bench press the feet right of the shoulders, -1
 * left, 0 where the marks of the still do not tell. */
int plumb_marks_facing(const PlumbMarks *marks, int still, PlumbLift lift);

/* An ellipse in the picture: half axes a and b, a turned by turn_rad from x toward y (down). */
typedef struct PlumbEllipse {
    double x_px;
    double y_px;
    double a_px;
    double b_px;
    double turn_rad;
} PlumbEllipse;

/* The ellipse through points on a disc's rim: with three a circle, with four one whose axes are
 * level and upright, with five or more any, by least squares of the conic. false where the points
 * lie on no ellipse (on a line, on a hyperbola). */
bool plumb_ellipse_fit(const PlumbVec2 *point_px, int count, PlumbEllipse *ellipse);
/* A point of it; t 0 to 2 pi. */
PlumbVec2 plumb_ellipse_point(const PlumbEllipse *ellipse, double t);
/* Whether a point lies inside. */
bool plumb_ellipse_holds(const PlumbEllipse *ellipse, double x_px, double y_px);

#endif
