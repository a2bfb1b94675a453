/* SPDX-License-Identifier: MIT */
/* The zones of the window: drawing left, rulers right, figures and notes below the drawing. */
#include "layout.h"

#include <math.h>

static const double views_width_frac = 0.62;
static const double views_height_frac = 0.70;
static const double rulers_most_mm = 132.0; /* at 100 %; a longer ruler gains nothing */
static const double below_least_mm = 44.0;  /* a table of five joints at 100 % */
static const double below_most_mm = 80.0;   /* all that there is to say */
static const double three_least_mm = 130.0; /* at 100 %; narrower there are two columns */

/* Zones end on whole pixels, so that each can be painted without its neighbours. */
static double whole(double mm)
{
    return round(mm * PLUMB_WINDOW_PX_PER_MM) / PLUMB_WINDOW_PX_PER_MM;
}

PlumbLayout plumb_layout(double width_mm, double height_mm, double text_scale)
{
    const double top = whole(5.0 + 3.4 * text_scale);
    const double foot = whole(2.2 + 3.2 * text_scale);
    const double body = height_mm - top - foot;
    const double column =
        whole(fmin((1.0 - views_width_frac) * width_mm, rulers_most_mm * text_scale));
    const double left = width_mm - column;
    const double share = (1.0 - views_height_frac) * height_mm - foot;
    const double below = whole(fmax(fmin(share, below_most_mm * text_scale),
                                    fmin(below_least_mm * text_scale, 0.36 * body)));
    const double views = body - below;
    PlumbLayout layout;
    layout.top = (PlumbRect){0.0, 0.0, width_mm, top};
    layout.views = (PlumbRect){0.0, top, left, views};
    const bool three = left >= three_least_mm * text_scale;
    const double table = whole((three ? 0.35 : 0.52) * left);
    const double joints = three ? whole(0.33 * left) : 0.0;
    layout.table = (PlumbRect){0.0, top + views, table, below};
    layout.joints = (PlumbRect){table, top + views, joints, below};
    layout.notes = (PlumbRect){table + joints, top + views, left - table - joints, below};
    layout.rulers = (PlumbRect){left, top, column, body};
    layout.foot = (PlumbRect){0.0, height_mm - foot, width_mm, foot};
    return layout;
}

bool plumb_rect_has(PlumbRect rect, PlumbVec2 at_mm)
{
    return at_mm.x >= rect.x_mm && at_mm.x < rect.x_mm + rect.width_mm && at_mm.y >= rect.y_mm &&
           at_mm.y < rect.y_mm + rect.height_mm;
}
