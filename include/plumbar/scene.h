/* SPDX-License-Identifier: MIT */
/* A drawing as a list of primitives in millimetres of paper, and the layouts that fill it. */
#ifndef PLUMBAR_SCENE_H
#define PLUMBAR_SCENE_H

#include <plumbar/press.h>
#include <plumbar/solve.h>

/* Colours are roles; a paper maps them to rgb. Text stands in ink, quiet and pencil_text only. */
#define PLUMB_ROLE_LIST(X)                                                                         \
    X(none)                                                                                        \
    X(paper)       /* background, and what hides what lies under it */                             \
    X(ink)         /* the figure, text */                                                          \
    X(quiet)       /* second text: units, captions */                                              \
    X(rule)        /* frames, hatch, reference legs: at least 3:1 */                               \
    X(limb)        /* fill of the inked limbs, hardly darker than the paper; never alone */        \
    X(pencil)      /* lines of the pencilled set-up */                                             \
    X(pencil_text) /* its text */                                                                  \
    X(bar)         /* bar, discs, plumb line B: vermilion, thin lines only */                      \
    X(mass)        /* centre of mass, plumb line C: blue */                                        \
    X(hold)        /* what holds: window, low-effort range, stable part of the foot: green */      \
    X(select)      /* what is selected or has the focus: ink on light paper, white on dark */

typedef enum PlumbRole {
#define X(name) PLUMB_ROLE_##name,
    PLUMB_ROLE_LIST(X)
#undef X
        PLUMB_ROLE_COUNT
} PlumbRole;

const char *plumb_role_name(PlumbRole role);

typedef enum PlumbPaper { PLUMB_LIGHT_PAPER, PLUMB_DARK_PAPER, PLUMB_PAPER_COUNT } PlumbPaper;

typedef struct PlumbRgb {
    unsigned char red;
    unsigned char green;
    unsigned char blue;
} PlumbRgb;

PlumbRgb plumb_paper_rgb(PlumbPaper paper, PlumbRole role);

typedef enum PlumbDash {
    PLUMB_SOLID,
    PLUMB_DASHED,
    PLUMB_CHAIN,        /* long, short: plumb line B */
    PLUMB_CHAIN_DOUBLE, /* long, short, short: plumb line C */
    PLUMB_DOTTED,
    PLUMB_DASH_COUNT
} PlumbDash;

enum { PLUMB_DASH_PARTS_MAX = 6 };
/* Lengths of stroke, gap, stroke, gap ... in mm; returns how many, 0 for a solid line. */
int plumb_dash_parts(PlumbDash dash, double part_mm[PLUMB_DASH_PARTS_MAX]);

/* The three weights of a line and the three sizes of text, mm. */
#define PLUMB_FINE_MM 0.25
#define PLUMB_MEDIUM_MM 0.5
#define PLUMB_HEAVY_MM 0.9
#define PLUMB_SMALL_TEXT_MM 2.5
#define PLUMB_NORMAL_TEXT_MM 3.5
#define PLUMB_LARGE_TEXT_MM 5.0

typedef struct PlumbPen {
    PlumbRole stroke; /* none: not stroked */
    double weight_mm;
    PlumbDash dash;
    PlumbRole fill; /* none: not filled */
} PlumbPen;

/* What an item speaks of, for pointing at it and for reading it aloud. */
typedef enum PlumbTagKind {
    PLUMB_TAG_NONE,
    PLUMB_TAG_POINT,   /* id: PlumbPoint */
    PLUMB_TAG_ARM,     /* id: PlumbJoint, its moment arm */
    PLUMB_TAG_ANGLE,   /* id: PlumbAngle */
    PLUMB_TAG_SETTING, /* id: PlumbSettingId */
    PLUMB_TAG_FINDING, /* id: PlumbFindingId */
    PLUMB_TAG_FIGURE,  /* id: PlumbFigure */
    PLUMB_TAG_WORKING, /* id: of plumb_question, a figure whose working can be shown */
    PLUMB_TAG_PENCIL,  /* belongs to the pencilled set-up; id 0 */
    PLUMB_TAG_TITLE    /* title block and caution; id 0 */
} PlumbTagKind;

typedef struct PlumbTag {
    PlumbTagKind kind;
    int id;
} PlumbTag;

/* Figures in their fixed order of importance. */
typedef enum PlumbFigure {
    PLUMB_FIG_TRAVEL,
    PLUMB_FIG_ARM_SELECTED,
    PLUMB_FIG_BALANCE,
    PLUMB_FIG_BACK_ANGLE,
    PLUMB_FIG_HIP_HEIGHT,
    PLUMB_FIG_ARM_SECOND,
    PLUMB_FIG_ARM_THIRD,
    PLUMB_FIG_SHIN_ANGLE,
    PLUMB_FIG_THIGH_ANGLE,
    PLUMB_FIGURE_COUNT
} PlumbFigure;

typedef enum PlumbItemKind {
    PLUMB_ITEM_PATH, /* polyline, polygon where closed */
    PLUMB_ITEM_CIRCLE,
    PLUMB_ITEM_ARC,
    PLUMB_ITEM_TEXT
} PlumbItemKind;

typedef enum PlumbAlign { PLUMB_START, PLUMB_MIDDLE, PLUMB_END } PlumbAlign;

typedef struct PlumbRect {
    double x_mm;
    double y_mm;
    double width_mm;
    double height_mm;
} PlumbRect;

/* One primitive. Paper: mm, x right, y down, origin at the top left corner. */
typedef struct PlumbItem {
    PlumbItemKind kind;
    PlumbPen pen; /* text: fill is its colour */
    PlumbTag tag;
    int first;        /* path: index of its first point; text: of its first byte */
    int count;        /* path: points; text: bytes without the end */
    bool closed;      /* path */
    PlumbVec2 at_mm;  /* circle, arc: centre; text: anchor on the baseline */
    double size_mm;   /* circle, arc: radius; text: height of the em */
    double from_rad;  /* arc: from the x axis toward the y axis, from_rad <= to_rad */
    double to_rad;    /* arc */
    PlumbAlign align; /* text */
    double turn_rad;  /* text: turned about its anchor, from the x axis toward the y axis */
    double width_mm;  /* text: as measured when it was placed */
    PlumbRect box_mm; /* that it covers, half its line weight included; kept when it is appended */
} PlumbItem;

enum {
    PLUMB_SCENE_ITEMS = 3072,
    PLUMB_SCENE_POINTS = 24576,
    PLUMB_SCENE_BYTES = 65536,
    PLUMB_SCENE_TITLE_SIZE = 160,
    PLUMB_SCENE_DESCRIPTION_SIZE = 1024
};

/* A whole drawing in one block without pointers, about a megabyte: for the heap, not the stack. */
typedef struct PlumbScene {
    double width_mm;
    double height_mm;
    bool full; /* something was dropped for want of room */
    int item_count;
    int point_count;
    int byte_count;
    char title[PLUMB_SCENE_TITLE_SIZE];             /* accessible name */
    char description[PLUMB_SCENE_DESCRIPTION_SIZE]; /* what the drawing says, in words */
    PlumbItem item[PLUMB_SCENE_ITEMS];
    PlumbVec2 point_mm[PLUMB_SCENE_POINTS];
    char byte[PLUMB_SCENE_BYTES];
} PlumbScene;

/* Width in mm of text[length] (UTF-8) set at size_mm; `user` is the caller's. */
typedef double (*PlumbTextWidth)(void *user, const char *text, size_t length, double size_mm);

/* Starts an empty drawing. */
void plumb_scene_begin(PlumbScene *scene, double width_mm, double height_mm);

/* Each appends one primitive. Text is copied; width_mm of the text must be measured by the caller.
 */
void plumb_scene_line(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbVec2 from_mm,
                      PlumbVec2 to_mm);
void plumb_scene_path(PlumbScene *scene, PlumbPen pen, PlumbTag tag, const PlumbVec2 *point_mm,
                      int count, bool closed);
void plumb_scene_rect(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbRect rect);
void plumb_scene_circle(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbVec2 centre_mm,
                        double radius_mm);
void plumb_scene_arc(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbVec2 centre_mm,
                     double radius_mm, double from_rad, double to_rad);
void plumb_scene_text(PlumbScene *scene, PlumbRole role, PlumbTag tag, PlumbVec2 anchor_mm,
                      double size_mm, PlumbAlign align, double turn_rad, const char *text,
                      double width_mm);

/* Appends the items of another drawing, scaled from its origin, which comes to origin_mm; weights
 * of lines stay. What does not meet the room is left out, and text that is not whole within it. */
void plumb_scene_append(PlumbScene *scene, const PlumbScene *from, double scale,
                        PlumbVec2 origin_mm, PlumbRect room);

/* The text of an item, terminated; "" where it is none. */
const char *plumb_scene_item_text(const PlumbScene *scene, const PlumbItem *item);
/* The topmost tagged item within reach_mm of a point, NULL where none is. */
const PlumbItem *plumb_scene_hit(const PlumbScene *scene, PlumbVec2 at_mm, double reach_mm);

/* Which views are drawn. One alone keeps to few figures and needs no room beside it: for a narrow
 * page. Of a press the front is the head end, and all are three. */
typedef enum PlumbSight {
    PLUMB_SEE_BOTH,
    PLUMB_SEE_SIDE,
    PLUMB_SEE_FRONT,
    PLUMB_SEE_ABOVE, /* of a press alone */
    PLUMB_SEE_LEVEL, /* side and front; of a press without the view from above */
    PLUMB_SIGHT_COUNT
} PlumbSight;

enum { PLUMB_GRIP_POINTS = 25, PLUMB_GRIP_CURVES = 6 };

/* What the grip does to one lifter in one set-up of the press; kept from drawing to drawing, it is
 * solved anew only where something else than the grip has changed. Start from {0}. */
typedef struct PlumbGripCurves {
    bool known;
    PlumbLifter lifter;
    PlumbSetup setup;
    double value_si[PLUMB_GRIP_CURVES][PLUMB_GRIP_POINTS]; /* NaN: no pose */
} PlumbGripCurves;

/* What a drawing speaks of. Start from plumb_drawing_default. Pointers are borrowed. */
typedef struct PlumbDrawing {
    const PlumbLifter *lifter;
    const PlumbAnswer *answer;        /* PLUMB_NO_POSE: its nearest pose is drawn dashed */
    const PlumbLifter *pencil_lifter; /* NULL: the same lifter */
    const PlumbAnswer *pencil;        /* NULL: nothing pencilled */
    const PlumbAnswer *wish;          /* NULL, or what was asked for and does not hold: dashed */
    const PlumbPressAnswer *press;    /* a bench press; answer, pencil and wish are then NULL */
    const PlumbPressAnswer *press_pencil;
    const PlumbPressAnswer *press_wish;
    const char *name;        /* of the lifter, "" allowed */
    const char *setup_name;  /* "" allowed */
    const char *pencil_name; /* of the pencilled set-up, "" allowed */
    const char *date;        /* as it shall stand, "" allowed */
    PlumbUnits units;
    PlumbSight sight;
    PlumbJoint selected;    /* whose moment arm leads the dimension lines */
    PlumbGripCurves *grips; /* of a press; NULL: its curves of the grip are solved each time */
    bool half_above;        /* a press from above: its right half only, so that all can be larger */
    double text_scale;      /* 1 to 2 */
    PlumbTextWidth text_width;
    void *text_user;
    const double *figure_sd;  /* spread of each figure of the lift, SI (interval.h), where something
                                 is pencilled of its difference (compare.h); NaN: not known yet;
                                 NULL: not told */
    const char *measure_next; /* a note on what to measure next; NULL or "": none */
} PlumbDrawing;

/* Metric, the hip selected, text at 100 %, nothing pencilled, empty names. */
PlumbDrawing plumb_drawing_default(const PlumbLifter *lifter, const PlumbAnswer *answer,
                                   PlumbTextWidth text_width, void *text_user);

/* The same for a bench press. */
PlumbDrawing plumb_press_drawing_default(const PlumbLifter *lifter, const PlumbPressAnswer *press,
                                         PlumbTextWidth text_width, void *text_user);

typedef enum PlumbPressView {
    PLUMB_PRESS_SIDE,  /* head at the left, x to the right, y up */
    PLUMB_PRESS_HEAD,  /* beside it at the same height, lifter's right at the right */
    PLUMB_PRESS_ABOVE, /* below the side view, x to the right, lifter's right downwards */
    PLUMB_PRESS_VIEW_COUNT
} PlumbPressView;

/* Where the views of a press stand; a view that is not seen has no width. */
typedef struct PlumbPressFit {
    PlumbRect room[PLUMB_PRESS_VIEW_COUNT];
    PlumbVec2 origin_mm[PLUMB_PRESS_VIEW_COUNT];
    PlumbRect rest;  /* below the view from the head end */
    double bench_mm; /* paper y of the bench's underside as drawn, in side and head view */
    double inner_m;  /* from the middle to the drawn discs */
    bool broken;     /* the discs truly stand further out */
} PlumbPressFit;

/* Where the views stand and which figures they show. Held during a drag, made anew on release. */
typedef struct PlumbFit {
    double scale_n;            /* 1 : n */
    PlumbVec2 side_origin_mm;  /* paper of the model's origin in the side view */
    PlumbVec2 front_origin_mm; /* in the front view */
    PlumbRect side;            /* room of the side view */
    PlumbRect front;           /* room of the front view */
    PlumbJoint arm[3];         /* whose moment arms are dimensioned; the first is the selected */
    bool decided;              /* place[] holds; false: the next composition decides */
    signed char place[PLUMB_FIGURE_COUNT]; /* where each figure's label stands, -1: only in the
                                              table */
    PlumbPressFit press; /* of a press, with the scale; the rest is then not used */
} PlumbFit;

/* The largest round scale at which both views, their plumb lines and dimension lines stand in
 * rect. Which figures find room is decided by the first composition and then held. */
PlumbFit plumb_views_fit(const PlumbDrawing *drawing, PlumbRect rect);

/* From model (m) to paper (mm) and, in the plane of the view, back (the third coordinate is 0). */
PlumbVec2 plumb_fit_side(const PlumbFit *fit, PlumbVec3 point_m);
PlumbVec2 plumb_fit_front(const PlumbFit *fit, PlumbVec3 point_m);
PlumbVec3 plumb_fit_side_back(const PlumbFit *fit, PlumbVec2 at_mm);
PlumbVec3 plumb_fit_front_back(const PlumbFit *fit, PlumbVec2 at_mm);

/* Side view and front view with plumb lines, foot's scale, dimension lines and angles. Decides
 * which figures are shown where fit->decided is false. A press: from the side, from the head end,
 * from above, and curves of what the grip does where there is room. */
void plumb_compose_views(PlumbScene *scene, const PlumbDrawing *drawing, PlumbFit *fit);
/* Table of figures; with something pencilled each figure has its difference. Returns the height
 * used in mm. Rows that do not fit are left out, the least important first. */
double plumb_compose_table(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
/* The two parts of the table apart, for a zone that is wide and low: the list of figures and
 * angles, and the joints. */
double plumb_compose_figures(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
double plumb_compose_joints(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
/* Window, low-effort range, seen heights and findings in words. Returns the height used in mm. */
double plumb_compose_notes(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
/* Height that the title block needs at this width, mm. */
double plumb_title_height_mm(const PlumbDrawing *drawing, double width_mm, double scale_n);
/* Title block with the one-line caution. scale_n as it stands in the views' fit,
 * NaN where nothing is drawn to scale. */
void plumb_compose_title(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect,
                         double scale_n);

typedef enum PlumbFormat {
    PLUMB_A4_LANDSCAPE,
    PLUMB_LETTER_LANDSCAPE,
    PLUMB_FORMAT_COUNT
} PlumbFormat;

void plumb_format_size(PlumbFormat format, double *width_mm, double *height_mm);

/* Composes the whole sheet: begins *scene, draws frame, views, table, notes and title block. */
void plumb_compose_sheet(PlumbScene *scene, const PlumbDrawing *drawing, PlumbFormat format);

/* The caution that stands on every drawing. */
const char *plumb_caution_line(void);

#endif
