/* SPDX-License-Identifier: MIT */
/* The window: opens on a lifter and set-ups, and runs until it is closed or its script ends. */
#ifndef PLUMBAR_VIEWER_VIEWER_H
#define PLUMBAR_VIEWER_VIEWER_H

#include <plumbar/lifter_file.h>
#include <plumbar/scene.h>

/* A set-up that the window can show. */
typedef struct PlumbViewerSetup {
    const char *name; /* "" where it has none */
    PlumbSetup setup; /* passes plumb_setup_check */
} PlumbViewerSetup;

/* What the window opens with. Start from plumb_viewer_options; everything is borrowed for the run
 * only. */
typedef struct PlumbViewerOptions {
    const PlumbLifter *lifter;
    const PlumbLifterRecord *record; /* what the lifter was built from; NULL: sex, stature, mass */
    const char *path;                /* of the lifter file that it came from, "" allowed */
    const PlumbViewerSetup *setup;   /* [setup_count], in the order of the file; may be NULL */
    int setup_count;
    int first;                              /* which of them is shown first */
    const PlumbViewerSetup *pencil;         /* NULL: nothing pencilled */
    const PlumbLifterRecord *pencil_record; /* of pencil_lifter */
    const PlumbLifter *pencil_lifter;       /* NULL: the same lifter */
    const char *picture;                    /* marks or a film, to trace; NULL: none */
    PlumbUnits units;
    PlumbPaper paper;
    double text_scale; /* 1 to 2 */
    int width_px;
    int height_px;
    const char *date;         /* as it shall stand on exported sheets, "" allowed */
    const char *script_path;  /* NULL: hands */
    const char *shot_folder;  /* where a script's screenshots go; NULL: the current folder */
    const char *state_folder; /* where recent files and unsaved work are kept; NULL: nowhere */
} PlumbViewerOptions;

/* Metric, light paper, 1280x800, text at 100 %, no set-ups (a default deadlift is shown). */
PlumbViewerOptions plumb_viewer_options(const PlumbLifter *lifter);

/* Whether the Trace page opens it: the name of a picture, marks or a video, or a folder. */
bool plumb_viewer_traces(const char *path);

/* Exit code of the run: 0 closed, or the script ended; 2 a line of the script is not understood; 3
 * no display, or a file could not be read or written (said on standard error). */
int plumb_viewer_run(const PlumbViewerOptions *options);

#endif
