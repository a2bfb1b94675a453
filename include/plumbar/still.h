/* SPDX-License-Identifier: MIT */
/* A few stills of one lifter held against the model: fitted, compared, remarked on, and drawn over
 * their pictures. */
#ifndef PLUMBAR_STILL_H
#define PLUMBAR_STILL_H

#include <plumbar/scene.h>
#include <plumbar/trace.h>
#include <plumbar/track.h>

/* Marks and all that they tell. One block for the heap; it borrows nothing but moved, and points
 * into itself (ask), so that it must stay where it is. */
typedef struct PlumbStills {
    PlumbLifter lifter; /* as it was before the pictures were read */
    PlumbSetup setup;
    PlumbTraceBody body;
    PlumbMarks marks;             /* as the pictures have them; mirrored after the fit */
    int facing[PLUMB_STILLS_MAX]; /* 1 right, -1 left, 0 as the marks tell */
    PlumbTraceAsk ask;            /* sizes, distances and errors may be set before the fit */
    double limit[PLUMB_STILL_LIMIT_COUNT];

    /* What the fit fills in. */
    bool mirrored[PLUMB_STILLS_MAX]; /* the lifter faces left: marks and figures are mirrored */
    PlumbTraceWork work;
    PlumbTrace trace;
    /* The model beside each still, plumb_trace_model. Of a bench press only its outcome, set-up and
     * the points of `start` are filled. */
    PlumbAnswer answer[PLUMB_STILLS_MAX];
    bool led[PLUMB_STILLS_MAX]; /* it is led as the picture is; else by the set-up's own value */
    PlumbPressAnswer press[PLUMB_STILLS_MAX];    /* the model of a bench press, and */
    PlumbPressPosition beside[PLUMB_STILLS_MAX]; /* where its bar is as high as in the picture */
    PlumbPressStage stage[PLUMB_STILLS_MAX];     /* of a bench press: where on its way it is */
    PlumbAnswer own[PLUMB_STILLS_MAX]; /* the start that the picture shows, plumb_trace_setup */
    bool has_own[PLUMB_STILLS_MAX];    /* a pull from the side, its bar on the floor */
    bool bare;                         /* no model stands beside them: frames of a film */
    bool filled;             /* frames of a film: the figure is not seen, but filled in: dashed */
    const PlumbShift *moved; /* frames of a film: the camera against the first; NULL: it stood */
    PlumbStillFinding finding[PLUMB_STILLS_MAX][PLUMB_FINDING_MAX];
    int finding_count[PLUMB_STILLS_MAX];
} PlumbStills;

/* Takes lifter, set-up, marks and what is told beside them, with every other question at its
 * default. spec: what the lifter's body
 * was built from, which decides how much the pictures may move it. */
void plumb_stills_begin(PlumbStills *stills, const PlumbLifter *lifter, const PlumbBodySpec *spec,
                        const PlumbSetup *setup, const PlumbMarks *marks);

/* Mirrors what faces left, fits, solves the model beside each still and finds what there is to
 * remark. Once after each plumb_stills_begin. As plumb_trace_stills on failure. */
PlumbStatus plumb_stills_fit(PlumbStills *stills, PlumbError *error);

/* A figure's difference of the still from the model; NaN where either has none. */
double plumb_stills_difference(const PlumbStills *stills, int still, PlumbReading reading);
/* Whether the pictures told something of a length: its spread is smaller than it was. */
bool plumb_stills_told_length(const PlumbStills *stills, PlumbLength length);
/* Whether the view shows the figure at all. */
bool plumb_stills_shows(const PlumbStills *stills, int still, PlumbReading reading);

/* Appends "from the side", "from the front", "from the head end" or "from the foot end". */
void plumb_stills_view_text(PlumbText *text, const PlumbTraced *traced);
/* Appends how well the fit meets the marks of a still, and what to look for where it does not. */
void plumb_stills_fit_text(PlumbText *text, const PlumbStills *stills, int still);
/* Appends what leads the model beside a still, as a sentence. */
void plumb_stills_lead_text(PlumbText *text, const PlumbStills *stills, int still);
/* Appends a finding with its spread, the settings that bear on it and what it may go with. */
void plumb_stills_finding_text(PlumbText *text, const PlumbStills *stills, int still, int finding,
                               PlumbUnits units);

/* Where the fit has a landmark, in pixels of the still's picture as it is in its file. */
PlumbVec2 plumb_stills_pixel(const PlumbStills *stills, int still, PlumbMarkName name);

/* Where a picture lies on paper: pixel p comes to at + (p - origin) scale. */
typedef struct PlumbPictureFit {
    PlumbVec2 at_mm;
    PlumbVec2 origin_px;
    double mm_per_px;
    double top_mm;    /* of the room: plumb lines end below it */
    double mirror_px; /* width of a picture that is shown mirrored, else 0 */
} PlumbPictureFit;

PlumbVec2 plumb_picture_paper(const PlumbPictureFit *fit, PlumbVec2 pixel);
PlumbVec2 plumb_picture_pixel(const PlumbPictureFit *fit, PlumbVec2 at_mm);

/* Draws what the fit sees over the picture: discs, the two plumb lines, the model in pencil, the
 * figure in ink (dashed where it was filled in), landmarks that were not marked as dashed circles.
 */
void plumb_compose_still(PlumbScene *scene, const PlumbStills *stills, int still,
                         const PlumbPictureFit *fit, PlumbTextWidth text_width, void *text_user);
/* A cross for a mark, light below dark, so that it is seen on any picture. */
void plumb_compose_mark(PlumbScene *scene, PlumbPen pen, PlumbVec2 at_mm);

/* The still within a room of a page that is begun already: frame, drawing and marks, as large as
 * all that is drawn fits. *picture is where the whole picture belongs, which is to be seen within
 * the room alone. */
void plumb_compose_still_in(PlumbScene *scene, const PlumbStills *stills, int still, PlumbRect room,
                            PlumbTextWidth text_width, void *text_user, PlumbRect *picture);

/* A page of one still, begun: frame, drawing, marks and a few figures in words below. *picture is
 * where the picture belongs, on the page moved down by top_mm; begun anew where top_mm is 0. NULL:
 * there is none to see, and the figure is drawn alone, as large as it fits, with the floor and a
 * length to scale. Returns the height that it takes. */
double plumb_compose_still_page(PlumbScene *scene, const PlumbStills *stills, int still,
                                double top_mm, PlumbUnits units, PlumbTextWidth text_width,
                                void *text_user, PlumbRect *picture);

#endif
