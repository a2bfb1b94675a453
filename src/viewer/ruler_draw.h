/* SPDX-License-Identifier: MIT */
/* What the parts of a ruler are drawn with. */
#ifndef PLUMBAR_VIEWER_RULER_DRAW_H
#define PLUMBAR_VIEWER_RULER_DRAW_H

#include "compose.h"

#define PLUMB_RULER_STRIP_MM 1.3 /* of window and low-effort range */
#define PLUMB_RULER_MAJOR_MM 2.0 /* a tick that has a number */

#define PLUMB_PEN_HEAVY ((PlumbPen){PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none})
#define PLUMB_PEN_TRAVEL                                                                           \
    ((PlumbPen){PLUMB_ROLE_bar, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none})
#define PLUMB_PEN_ARM ((PlumbPen){PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none})

static inline PlumbTag plumb_ruler_tag(const PlumbRulerPlace *place)
{
    return (PlumbTag){PLUMB_TAG_SETTING, (int)place->id};
}

static inline void plumb_ruler_text(const PlumbBoard *board, PlumbRole role,
                                    const PlumbRulerPlace *place, double x, double y,
                                    double size_mm, PlumbAlign align, const char *words)
{
    plumb_board_text(board, role, plumb_ruler_tag(place), (PlumbVec2){x, y}, size_mm, align, words);
}

/* Hatching with its reason, curves, window and low-effort range. */
void plumb_ruler_draw_band(const PlumbDesk *desk, const PlumbBoard *board,
                           const PlumbRulerPlace *place);
/* Whether neither bar travel nor any of the family's arms moves along the whole curve. */
bool plumb_ruler_is_flat(const PlumbCurvePass *pass, int arms);

#endif
