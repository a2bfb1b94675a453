/* SPDX-License-Identifier: MIT */
/* What a page exports: a sheet of its own, and its figures as CSV. */
#ifndef PLUMBAR_VIEWER_EXPORT_PAGE_H
#define PLUMBAR_VIEWER_EXPORT_PAGE_H

#include "desk.h"

/* Composes the page on show on A4 across: begins *scene. The desk stays as it was. */
void plumb_export_compose(PlumbDesk *desk, PlumbScene *scene);
/* Its figures in SI, one record a line; the caller frees *bytes. */
PlumbStatus plumb_export_csv(const PlumbDesk *desk, char **bytes, size_t *length,
                             PlumbError *error);

#endif
