/* SPDX-License-Identifier: MIT */
/* The mouse: pressing, dragging and letting go of pointers; buttons, figures, the wheel. */
#include "hands.h"

#include "advise.h"
#include "command.h"
#include "page_trace.h"
#include "reel.h"
#include "pages.h"
#include "field.h"
#include "ruler.h"
#include "slip.h"
#include "working.h"

#include <math.h>

static const double grab_reach_mm = 2.5; /* nearer than this the pointer itself is taken */
static const double figure_reach_mm = 1.5;
static const double wheel_mm = 12.0; /* of a working */

static const PlumbWidget *widget_at(const PlumbDesk *desk, PlumbVec2 at_mm)
{
    for (int i = 0; i < desk->widget_count; i++) {
        if (plumb_rect_has(desk->widget[i].rect, at_mm)) {
            return &desk->widget[i];
        }
    }
    return NULL;
}

static const PlumbRulerPlace *place_of(const PlumbDesk *desk, PlumbSettingId id)
{
    for (int i = 0; i < desk->place_count; i++) {
        if (desk->place[i].id == id) {
            return &desk->place[i];
        }
    }
    return NULL;
}

/* Every drag has its own key of undo, above those of the keyboard. */
static unsigned drag_key(const PlumbDesk *desk)
{
    return 0x10000U + (unsigned)desk->drag.id;
}

/* What follows takes its figure over where it is clicked. */
static bool takes_over(const PlumbDesk *desk, PlumbSettingId id)
{
    const PlumbRulerRole role = plumb_ruler_role(desk, id);
    return role == PLUMB_RULER_COULD_LEAD || role == PLUMB_RULER_FOLLOWS;
}

/* Takes the value at the pointer, on the steps of the ruler. */
static void drag_to(PlumbDesk *desk, PlumbVec2 at_mm)
{
    const PlumbRulerPlace *const place = place_of(desk, desk->drag.id);
    if (place == NULL) {
        return;
    }
    desk->drag.at_mm = at_mm;
    desk->dirty = true;
    const double step = plumb_ruler_step(desk, place->id);
    const double value = plumb_ruler_value_at(place, at_mm.x - desk->drag.grab_mm);
    const double stepped = step * round(value / step);
    if (takes_over(desk, place->id) || fabs(stepped - plumb_ruler_value(desk, place->id)) > 1e-9) {
        plumb_ruler_set(desk, place->id, stepped, drag_key(desk));
    }
}

static void press_choice(PlumbDesk *desk, const PlumbRulerPlace *place, PlumbVec2 at_mm,
                         int choices)
{
    const double pitch = (place->x1_mm - place->x0_mm) / choices;
    const int index = (int)floor((at_mm.x - place->x0_mm) / pitch);
    if (index >= 0 && index < choices) {
        plumb_ruler_choose(desk, place->id, index);
    }
}

static void press_ruler(PlumbDesk *desk, PlumbSettingId id, PlumbVec2 at_mm, int clicks)
{
    const PlumbRulerPlace *const place = place_of(desk, id);
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)id);
    if (place == NULL) {
        return;
    }
    if (clicks == 2) {
        plumb_ruler_default(desk, id);
        return;
    }
    const int choices = plumb_ruler_choices(desk, id);
    const double line = place->figure.y_mm + place->figure.height_mm;
    if (at_mm.y < line) {
        return; /* on its name: the focus only */
    }
    if (choices > 0) {
        press_choice(desk, place, at_mm, choices);
        return;
    }
    desk->drag = (PlumbDrag){.on = true, .id = id, .at_mm = at_mm};
    desk->history.key = 0;
    const double value = plumb_ruler_value(desk, id);
    const double off =
        isfinite(value) ? at_mm.x - plumb_ruler_place_mm(place, value) : (double)INFINITY;
    if (fabs(off) > grab_reach_mm) {
        drag_to(desk, at_mm);
        return;
    }
    desk->drag.grab_mm = off;
    if (takes_over(desk, id)) {
        plumb_ruler_set(desk, id, value, drag_key(desk));
    }
}

/* On drawing and table: what is pointed at is selected, a set figure brings its ruler. */
static void press_figure(PlumbDesk *desk, PlumbVec2 at_mm)
{
    const PlumbItem *const item = plumb_scene_hit(desk->scene, at_mm, figure_reach_mm);
    if (item == NULL) {
        return;
    }
    if (item->tag.kind == PLUMB_TAG_FINDING) {
        plumb_advise_show(desk, (PlumbFindingId)item->tag.id);
        return;
    }
    if (item->tag.kind == PLUMB_TAG_WORKING) {
        plumb_working_press(desk, item->tag.id);
    } else if (item->tag.kind == PLUMB_TAG_ARM) {
        plumb_desk_select(desk, item->tag.id);
    } else if (item->tag.kind == PLUMB_TAG_POINT) {
        plumb_desk_select(desk, plumb_desk_family(desk)->arm_at((PlumbPoint)item->tag.id));
    } else if (item->tag.kind == PLUMB_TAG_SETTING) {
        const PlumbSettingId id = (PlumbSettingId)item->tag.id;
        plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)id);
        plumb_hand_reveal(desk, id);
    }
}

/* The table's figures show how they are worked out, the travel by its name too. */
static void press_table(PlumbDesk *desk, PlumbVec2 at_mm)
{
    const PlumbItem *const item = plumb_scene_hit(desk->scene, at_mm, figure_reach_mm);
    const PlumbTag tag = item != NULL ? item->tag : (PlumbTag){PLUMB_TAG_NONE, 0};
    if (tag.kind == PLUMB_TAG_FIGURE && tag.id == (int)PLUMB_FIG_TRAVEL) {
        plumb_working_press(desk,
                            plumb_question_index((PlumbQuestion){.kind = PLUMB_EXPLAIN_travel}));
    } else {
        press_figure(desk, at_mm);
    }
}

static void scrub_to(PlumbDesk *desk, PlumbVec2 at_mm)
{
    const double share = (at_mm.x - desk->scrub_x0_mm) / (desk->scrub_x1_mm - desk->scrub_x0_mm);
    if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_reel_scrub(desk, fmin(fmax(share, 0.0), 1.0));
    } else {
        plumb_path_scrub(desk, share);
    }
}

/* A press beside a line being typed takes it first; where that fails the line stays. */
static bool field_done(PlumbDesk *desk, const PlumbWidget *widget)
{
    const PlumbField *const field = &desk->field;
    const bool own = widget != NULL && field->use == PLUMB_FIELD_RULER &&
                     widget->ref.kind == PLUMB_WIDGET_FIGURE && widget->ref.id == (int)field->id;
    if (field->use == PLUMB_FIELD_SHUT) {
        return true;
    }
    if (own) {
        return false;
    }
    if (field->use != PLUMB_FIELD_RULER) {
        plumb_field_leave(desk);
        return true;
    }
    return plumb_field_take(desk);
}

void plumb_hand_press(PlumbDesk *desk, PlumbVec2 at_mm, int clicks)
{
    if (desk->keys_shown) {
        desk->keys_shown = false; /* the click closes the list and does nothing else */
        desk->dirty = true;
        return;
    }
    if (desk->card != PLUMB_CARD_NONE) {
        desk->card = PLUMB_CARD_NONE;
        desk->dirty = true;
        return;
    }
    if (desk->slip != PLUMB_SLIP_NONE) {
        plumb_slip_press(desk, at_mm);
        return;
    }
    const PlumbWidget *const found = widget_at(desk, at_mm);
    if (!field_done(desk, found)) {
        return;
    }
    const PlumbWidgetRef ref = found != NULL ? found->ref : (PlumbWidgetRef){0};
    switch (ref.kind) {
    case PLUMB_WIDGET_BUTTON:
        plumb_desk_focus(desk, ref.kind, ref.id);
        plumb_command_run(desk, (PlumbCommandId)ref.id);
        break;
    case PLUMB_WIDGET_FIGURE:
        plumb_field_open_ruler(desk, (PlumbSettingId)ref.id);
        plumb_desk_focus(desk, PLUMB_WIDGET_RULER, ref.id);
        break;
    case PLUMB_WIDGET_RULER:
        press_ruler(desk, (PlumbSettingId)ref.id, at_mm, clicks);
        break;
    case PLUMB_WIDGET_FRAME:
        plumb_reel_halt(desk);
        plumb_reel_go(desk, ref.id);
        break;
    case PLUMB_WIDGET_OPTION:
        plumb_advise_take(desk, ref.id);
        break;
    case PLUMB_WIDGET_SCRUB:
        plumb_desk_focus(desk, ref.kind, ref.id);
        desk->scrubbing = true;
        scrub_to(desk, at_mm);
        break;
    case PLUMB_WIDGET_MAP:
        plumb_desk_focus(desk, ref.kind, ref.id);
        plumb_map_go(desk, at_mm);
        break;
    case PLUMB_WIDGET_PICTURE:
        plumb_trace_press(desk, at_mm);
        break;
    case PLUMB_WIDGET_MARK:
        plumb_desk_focus(desk, PLUMB_WIDGET_MARKS, 0);
        plumb_trace_pick_row(desk, ref.id);
        break;
    case PLUMB_WIDGET_MARKS:
    case PLUMB_WIDGET_READ:
        plumb_desk_focus(desk, ref.kind, ref.id);
        break;
    case PLUMB_WIDGET_LEAF:
        plumb_trace_leaf(desk, ref.id / 2, ref.id % 2 > 0 ? 1 : -1);
        break;
    case PLUMB_WIDGET_NOTES:
        plumb_desk_focus(desk, ref.kind, 0);
        if (ref.id == 0) {
            press_figure(desk, at_mm);
        } else {
            plumb_notes_turn(desk, ref.id == 1 ? -1 : 1);
        }
        break;
    case PLUMB_WIDGET_FOLD:
        desk->first_ruler += (ref.id > 0 ? 1 : -1) * desk->rulers_fit;
        desk->first_ruler = desk->first_ruler < 0 ? 0 : desk->first_ruler;
        desk->dirty = true;
        break;
    case PLUMB_WIDGET_TABLE:
        plumb_desk_focus(desk, ref.kind, ref.id);
        press_table(desk, at_mm);
        break;
    case PLUMB_WIDGET_SLIP:
    case PLUMB_WIDGET_NONE:
    case PLUMB_WIDGET_KIND_COUNT:
        press_figure(desk, at_mm);
        break;
    }
}

void plumb_hand_move(PlumbDesk *desk, PlumbVec2 at_mm)
{
    if (desk->scrubbing) {
        scrub_to(desk, at_mm);
        return;
    }
    if (plumb_trace_move(desk, at_mm)) {
        return;
    }
    if (desk->drag.on) {
        desk->drag.moved = true;
        drag_to(desk, at_mm);
    }
}

void plumb_hand_release(PlumbDesk *desk, PlumbVec2 at_mm)
{
    if (plumb_trace_release(desk, at_mm)) {
        return;
    }
    if (desk->scrubbing) {
        scrub_to(desk, at_mm);
        desk->scrubbing = false;
    }
    if (!desk->drag.on) {
        return;
    }
    if (desk->drag.moved || fabs(at_mm.x - desk->drag.at_mm.x) > 0.0) {
        drag_to(desk, at_mm);
    }
    desk->drag.on = false;
    desk->history.key = 0;
    plumb_desk_touch(desk);
}

void plumb_hand_wheel(PlumbDesk *desk, PlumbVec2 at_mm, int notches)
{
    if (desk->slip != PLUMB_SLIP_NONE) {
        return;
    }
    const PlumbWidget *const widget = widget_at(desk, at_mm);
    if (!desk->keys_shown && plumb_trace_wheel(desk, at_mm, notches)) {
        return;
    }
    if (!desk->keys_shown && plumb_rect_has(desk->layout.views, at_mm) &&
        plumb_working_scroll(desk, -wheel_mm * notches)) {
        return;
    }
    if (!desk->keys_shown && plumb_rect_has(desk->layout.notes, at_mm) &&
        plumb_notes_scroll(desk, -2.0 * notches)) {
        return;
    }
    if (!plumb_rect_has(desk->layout.rulers, at_mm) || desk->keys_shown || desk->drag.on) {
        return;
    }
    const bool ruler = widget != NULL && (widget->ref.kind == PLUMB_WIDGET_RULER ||
                                          widget->ref.kind == PLUMB_WIDGET_FIGURE);
    if (ruler && plumb_desk_has_focus(desk, PLUMB_WIDGET_RULER, widget->ref.id)) {
        plumb_ruler_nudge(desk, (PlumbSettingId)widget->ref.id, notches,
                          0x20000U + (unsigned)widget->ref.id);
        return;
    }
    desk->first_ruler -= notches;
    desk->first_ruler = desk->first_ruler < 0 ? 0 : desk->first_ruler;
    desk->dirty = true;
}
