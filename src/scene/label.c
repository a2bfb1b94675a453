/* SPDX-License-Identifier: MIT */
/* Finds a place for each label: never over another text, and over as little ink as can be. */
#include "scene/board.h"

#include <math.h>
#include <string.h>

/* Air kept around a text, mm. */
static const double AIR_MM = 0.45;

/* What crossing one item costs; a limit of 1 lets fine lines pass and no outline. */
static const double COST_OUTLINE = 2.0;
static const double COST_FINE = 0.5;
static const double COST_FILL = 0.4;

void plumb_label_line(PlumbLabel *label, const PlumbBoard *board, PlumbRole role, double size_mm,
                      const char *text)
{
    if (label->count >= PLUMB_LABEL_LINES) {
        return;
    }
    PlumbText copy =
        plumb_text_begin(label->line[label->count].text, sizeof label->line[label->count].text);
    plumb_text_string(&copy, text);
    label->line[label->count].size_mm = plumb_board_size(board, size_mm);
    label->line[label->count].role = role;
    label->count++;
}

static bool boxes_meet(PlumbRect a, PlumbRect b)
{
    return a.x_mm < b.x_mm + b.width_mm && b.x_mm < a.x_mm + a.width_mm &&
           a.y_mm < b.y_mm + b.height_mm && b.y_mm < a.y_mm + a.height_mm;
}

static bool box_within(PlumbRect inner, PlumbRect outer)
{
    return inner.x_mm >= outer.x_mm && inner.y_mm >= outer.y_mm &&
           inner.x_mm + inner.width_mm <= outer.x_mm + outer.width_mm &&
           inner.y_mm + inner.height_mm <= outer.y_mm + outer.height_mm;
}

/* Clips the segment's parameters to one pair of the box's sides; false where nothing is left. */
static bool clip(double from, double step, double low, double high, double *enter, double *leave)
{
    if (fabs(step) < 1e-12) {
        return from >= low && from <= high;
    }
    const double a = (low - from) / step;
    const double b = (high - from) / step;
    *enter = fmax(*enter, fmin(a, b));
    *leave = fmin(*leave, fmax(a, b));
    return *enter <= *leave;
}

static bool segment_meets(PlumbVec2 a, PlumbVec2 b, PlumbRect box)
{
    double enter = 0.0;
    double leave = 1.0;
    return clip(a.x, b.x - a.x, box.x_mm, box.x_mm + box.width_mm, &enter, &leave) &&
           clip(a.y, b.y - a.y, box.y_mm, box.y_mm + box.height_mm, &enter, &leave);
}

static bool path_meets(const PlumbScene *scene, const PlumbItem *item, PlumbRect box)
{
    const PlumbVec2 *point = &scene->point_mm[item->first];
    for (int i = item->closed ? 0 : 1; i < item->count; i++) {
        if (segment_meets(point[i == 0 ? item->count - 1 : i - 1], point[i], box)) {
            return true;
        }
    }
    return false;
}

/* The line of a circle meets the box where the box reaches both inside and outside of it. */
static bool circle_meets(const PlumbItem *item, PlumbRect box)
{
    const double left = box.x_mm - item->at_mm.x;
    const double top = box.y_mm - item->at_mm.y;
    const double right = left + box.width_mm;
    const double bottom = top + box.height_mm;
    const double near_x = fmax(0.0, fmax(left, -right));
    const double near_y = fmax(0.0, fmax(top, -bottom));
    const double far_x = fmax(fabs(left), fabs(right));
    const double far_y = fmax(fabs(top), fabs(bottom));
    return hypot(near_x, near_y) <= item->size_mm &&
           (item->pen.fill != PLUMB_ROLE_none || hypot(far_x, far_y) >= item->size_mm);
}

static double cost_of(const PlumbScene *scene, const PlumbItem *item, PlumbRect box)
{
    if (!boxes_meet(item->box_mm, box)) {
        return 0.0;
    }
    bool meets = true;
    if (item->kind == PLUMB_ITEM_PATH) {
        meets = path_meets(scene, item, box);
    } else if (item->kind == PLUMB_ITEM_CIRCLE) {
        meets = circle_meets(item, box);
    }
    const bool filled = item->pen.fill != PLUMB_ROLE_none;
    if (!meets) {
        return filled && item->kind == PLUMB_ITEM_PATH ? COST_FILL : 0.0;
    }
    return item->pen.weight_mm > PLUMB_FINE_MM || filled ? COST_OUTLINE : COST_FINE;
}

/* HUGE_VAL where the box meets a text or leaves the bounds. */
static double spot_cost(const PlumbScene *scene, PlumbRect box, PlumbRect bounds)
{
    if (!box_within(box, bounds)) {
        return HUGE_VAL;
    }
    double cost = 0.0;
    for (int i = 0; i < scene->item_count; i++) {
        const PlumbItem *item = &scene->item[i];
        if (item->kind != PLUMB_ITEM_TEXT) {
            cost += cost_of(scene, item, box);
        } else if (boxes_meet(item->box_mm, box)) {
            return HUGE_VAL;
        }
    }
    return cost;
}

static PlumbVec2 label_size(const PlumbBoard *board, const PlumbLabel *label)
{
    PlumbVec2 size = {0.0, 0.0};
    for (int i = 0; i < label->count; i++) {
        const double em = label->line[i].size_mm;
        size.x = fmax(size.x, plumb_board_width(board, label->line[i].text, em));
        size.y += PLUMB_LINE_PITCH * em;
    }
    return size;
}

/* Fine lines end at a text instead of running through it; on a filled shape they stay. */
static bool crossed(const PlumbScene *scene, PlumbRect box)
{
    bool lines = false;
    for (int i = 0; i < scene->item_count; i++) {
        const PlumbItem *item = &scene->item[i];
        if (item->kind != PLUMB_ITEM_TEXT && cost_of(scene, item, box) > 0.0) {
            if (item->pen.fill != PLUMB_ROLE_none) {
                return false;
            }
            lines = true;
        }
    }
    return lines;
}

static double align_share(PlumbAlign align)
{
    return align == PLUMB_START ? 0.0 : align == PLUMB_MIDDLE ? 0.5 : 1.0;
}

static void set_label(const PlumbBoard *board, const PlumbLabel *label, PlumbSpot spot,
                      double top_mm)
{
    double y = top_mm;
    for (int i = 0; i < label->count; i++) {
        const double em = label->line[i].size_mm;
        const double width = plumb_board_width(board, label->line[i].text, em);
        const PlumbRect box = {spot.at_mm.x - align_share(spot.align) * width - AIR_MM, y,
                               width + 2.0 * AIR_MM, PLUMB_LINE_PITCH * em};
        if (crossed(board->scene, box)) {
            const PlumbPen paper = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_paper};
            plumb_scene_rect(board->scene, paper, label->tag, box);
        }
        plumb_board_text(board, label->line[i].role, label->tag,
                         (PlumbVec2){spot.at_mm.x, y + 1.02 * em}, em, spot.align,
                         label->line[i].text);
        y += PLUMB_LINE_PITCH * em;
    }
}

int plumb_label_place(const PlumbBoard *board, const PlumbLabel *label, const PlumbSpot *spot,
                      int count, PlumbRect bounds, int held, double limit)
{
    const PlumbVec2 size = label_size(board, label);
    int best = -1;
    double least = limit;
    for (int i = 0; i < count; i++) {
        const PlumbRect box = {spot[i].at_mm.x - align_share(spot[i].align) * size.x - AIR_MM,
                               spot[i].at_mm.y - spot[i].rise * size.y, size.x + 2.0 * AIR_MM,
                               size.y};
        const double cost = spot_cost(board->scene, box, bounds);
        if (i == held && cost < HUGE_VAL) {
            best = i;
            break;
        }
        if (cost < least || (best < 0 && cost <= least && cost < HUGE_VAL)) {
            best = i;
            least = cost;
        }
    }
    if (best >= 0) {
        set_label(board, label, spot[best], spot[best].at_mm.y - spot[best].rise * size.y);
    }
    return best;
}
