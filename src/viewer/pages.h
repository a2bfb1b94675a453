/* SPDX-License-Identifier: MIT */
/* What fills the window beside the rulers, page by page. */
#ifndef PLUMBAR_VIEWER_PAGES_H
#define PLUMBAR_VIEWER_PAGES_H

#include "compose.h"

const char *plumb_page_name(PlumbPage page);
/* Everything that a page has worked out is out of date. */
void plumb_pages_touch(PlumbDesk *desk);
/* Works out what the page on show needs at once. */
void plumb_pages_settle(PlumbDesk *desk);
/* Refines what it shows for about seconds; false where nothing is left to do. */
bool plumb_pages_work(PlumbDesk *desk, double seconds);

/* Zones: what stands where the views stand, what stands below, words of the page for the notes. */
void plumb_path_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
void plumb_path_chart(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
double plumb_path_notes(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
void plumb_compare_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
void plumb_compare_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
void plumb_map_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);

/* Path. */
void plumb_path_settle(PlumbDesk *desk);
void plumb_path_scrub(PlumbDesk *desk, double share);
void plumb_path_step(PlumbDesk *desk, int steps);
/* Moves desk->on_way to the pose at the scrubber; there is a path. */
void plumb_path_pose(PlumbDesk *desk);
/* The time of the way up at which a share of the path, 0 start to 1 end, is passed, s. */
double plumb_path_time_s(const PlumbDesk *desk, double share);
void plumb_path_play(PlumbDesk *desk);
/* Moves the scrubber on where the lift is playing. */
void plumb_path_tick(PlumbDesk *desk);
/* The step of the path at the scrubber, -1 where there is no path. */
int plumb_path_here(const PlumbDesk *desk);

/* Compare. */
void plumb_against_settle(PlumbDesk *desk);

/* Map. */
/* The figure that is drawn, in the lift's own list. */
int plumb_map_figure(const PlumbDesk *desk);
void plumb_map_choose(PlumbDesk *desk);
/* which: 0 across, 1 up, 2 the figure; step 1 or -1. */
void plumb_map_next(PlumbDesk *desk, int which, int step);
bool plumb_map_work(PlumbDesk *desk, double seconds);
/* Goes to where the map was clicked. */
void plumb_map_go(PlumbDesk *desk, PlumbVec2 at_mm);

#endif
