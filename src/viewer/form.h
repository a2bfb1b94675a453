/* SPDX-License-Identifier: MIT */
/* A new lifter, asked for line by line; the measuring card; the words of a first start. */
#ifndef PLUMBAR_VIEWER_FORM_H
#define PLUMBAR_VIEWER_FORM_H

#include "compose.h"

/* Asks from the first line. */
void plumb_form_begin(PlumbDesk *desk);
/* Takes the line that stands in the field and asks the next; false where it is refused. */
bool plumb_form_take(PlumbDesk *desk);
/* Asks the line before again. */
void plumb_form_back(PlumbDesk *desk);

/* Shows the words of a first start where the state folder has none of them yet. */
void plumb_card_welcome(PlumbDesk *desk);
void plumb_card_draw(const PlumbDesk *desk, const PlumbBoard *board);

#endif
