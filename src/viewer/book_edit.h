/* SPDX-License-Identifier: MIT */
/* What a sheet says that its file does not say yet, put into the file's text. */
#ifndef PLUMBAR_VIEWER_BOOK_EDIT_H
#define PLUMBAR_VIEWER_BOOK_EDIT_H

#include "desk.h"

/* Reads a file's lifter and set-ups into *sheet; those that the window has no rulers for stay in
 * the file only. */
PlumbStatus plumb_sheet_read(PlumbSheet *sheet, const PlumbLifterFile *file, PlumbError *error);
/* Changes those values of the file that the sheet has otherwise. */
PlumbStatus plumb_sheet_write(PlumbSheet *sheet, PlumbLifterFile *file, PlumbError *error);

#endif
