/* SPDX-License-Identifier: MIT */
/* A film that was read as a file: the chart, and from the side the frame of every event with the
 * figure over it. Command and window write films by this alone. */
#ifndef PLUMBAR_FILM_PAGES_H
#define PLUMBAR_FILM_PAGES_H

#include <plumbar/film_reading.h>
#include <plumbar/underlay.h>

/* What is written; pointers are borrowed. */
typedef struct PlumbFilmPages {
    PlumbFilmReading *read; /* fitted; its frames are asked for */
    const char *name;       /* of the film */
    const char *day;        /* "2026-01-31", "" allowed */
    PlumbUnits units;
    bool letter; /* paper in US letter instead of A4 */
    PlumbPaper paper;
} PlumbFilmPages;

/* Makes the file: a page each in a PDF, frames below the chart in SVG and PNG. tell may be NULL;
 * where it says so the work ends and *bytes stays empty. Freed by plumb_bytes_free. Fails as
 * plumb_frames_photo does, and where memory is out. Deterministic: the same reading gives the same
 * bytes. */
PlumbStatus plumb_film_pages_make(const PlumbFilmPages *pages, PlumbPictureKind kind,
                                  PlumbFilmTell tell, void *user, PlumbBytes *bytes,
                                  PlumbError *error);

#endif
