/* SPDX-License-Identifier: MIT */
/* The list of primitives: appending, reading back, boxes, and pointing at an item. */
#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

/* Above and below the baseline, as shares of the em: accents and descenders of the typeface. */
static const double TEXT_RISE = 0.78;
static const double TEXT_DROP = 0.24;

void plumb_scene_begin(PlumbScene *scene, double width_mm, double height_mm)
{
    scene->width_mm = width_mm;
    scene->height_mm = height_mm;
    scene->full = false;
    scene->item_count = 0;
    scene->point_count = 0;
    scene->byte_count = 0;
    scene->title[0] = '\0';
    scene->description[0] = '\0';
}

typedef struct Bounds {
    double left;
    double top;
    double right;
    double bottom;
} Bounds;

static Bounds bounds_empty(void)
{
    return (Bounds){HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
}

static void bounds_add(Bounds *bounds, PlumbVec2 p)
{
    bounds->left = p.x < bounds->left ? p.x : bounds->left;
    bounds->top = p.y < bounds->top ? p.y : bounds->top;
    bounds->right = p.x > bounds->right ? p.x : bounds->right;
    bounds->bottom = p.y > bounds->bottom ? p.y : bounds->bottom;
}

static PlumbRect bounds_rect(Bounds bounds, double grow)
{
    return (PlumbRect){bounds.left - grow, bounds.top - grow,
                       bounds.right - bounds.left + 2.0 * grow,
                       bounds.bottom - bounds.top + 2.0 * grow};
}

static PlumbRect text_box(const PlumbItem *item)
{
    const double share = item->align == PLUMB_START ? 0.0 : item->align == PLUMB_MIDDLE ? 0.5 : 1.0;
    const double left = -share * item->width_mm;
    const double c = cos(item->turn_rad);
    const double s = sin(item->turn_rad);
    Bounds bounds = bounds_empty();
    for (int i = 0; i < 4; i++) {
        const double x = (i & 1) != 0 ? left + item->width_mm : left;
        const double y = (i & 2) != 0 ? TEXT_DROP * item->size_mm : -TEXT_RISE * item->size_mm;
        bounds_add(&bounds,
                   (PlumbVec2){item->at_mm.x + c * x - s * y, item->at_mm.y + s * x + c * y});
    }
    return bounds_rect(bounds, 0.0);
}

static PlumbRect box_of(const PlumbScene *scene, const PlumbItem *item)
{
    if (item->kind == PLUMB_ITEM_TEXT) {
        return text_box(item);
    }
    const double grow = item->pen.stroke == PLUMB_ROLE_none ? 0.0 : 0.5 * item->pen.weight_mm;
    Bounds bounds = bounds_empty();
    if (item->kind == PLUMB_ITEM_PATH) {
        for (int i = 0; i < item->count; i++) {
            bounds_add(&bounds, scene->point_mm[item->first + i]);
        }
        return bounds_rect(bounds, grow);
    }
    const double r = item->size_mm;
    if (item->kind == PLUMB_ITEM_CIRCLE) {
        bounds_add(&bounds, (PlumbVec2){item->at_mm.x - r, item->at_mm.y - r});
        bounds_add(&bounds, (PlumbVec2){item->at_mm.x + r, item->at_mm.y + r});
        return bounds_rect(bounds, grow);
    }
    for (int i = 0; i <= 16; i++) {
        const double a = item->from_rad + (item->to_rad - item->from_rad) * i / 16.0;
        bounds_add(&bounds, (PlumbVec2){item->at_mm.x + r * cos(a), item->at_mm.y + r * sin(a)});
    }
    return bounds_rect(bounds, grow);
}

/* The next item, NULL (and the scene marked full) where there is no room. */
static PlumbItem *append(PlumbScene *scene, PlumbItemKind kind, PlumbPen pen, PlumbTag tag)
{
    if (scene->item_count >= PLUMB_SCENE_ITEMS) {
        scene->full = true;
        return NULL;
    }
    PlumbItem *item = &scene->item[scene->item_count++];
    *item = (PlumbItem){.kind = kind, .pen = pen, .tag = tag};
    return item;
}

void plumb_scene_path(PlumbScene *scene, PlumbPen pen, PlumbTag tag, const PlumbVec2 *point_mm,
                      int count, bool closed)
{
    if (count < 1) {
        return;
    }
    if (count > PLUMB_SCENE_POINTS - scene->point_count) {
        scene->full = true;
        return;
    }
    PlumbItem *item = append(scene, PLUMB_ITEM_PATH, pen, tag);
    if (item == NULL) {
        return;
    }
    item->first = scene->point_count;
    item->count = count;
    item->closed = closed;
    if (point_mm != &scene->point_mm[scene->point_count]) { /* else set in place */
        memcpy(&scene->point_mm[scene->point_count], point_mm, (size_t)count * sizeof *point_mm);
    }
    scene->point_count += count;
    item->box_mm = box_of(scene, item);
}

void plumb_scene_line(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbVec2 from_mm,
                      PlumbVec2 to_mm)
{
    const PlumbVec2 ends[2] = {from_mm, to_mm};
    plumb_scene_path(scene, pen, tag, ends, 2, false);
}

void plumb_scene_rect(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbRect rect)
{
    const double right = rect.x_mm + rect.width_mm;
    const double bottom = rect.y_mm + rect.height_mm;
    const PlumbVec2 corner[4] = {
        {rect.x_mm, rect.y_mm}, {right, rect.y_mm}, {right, bottom}, {rect.x_mm, bottom}};
    plumb_scene_path(scene, pen, tag, corner, 4, true);
}

void plumb_scene_circle(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbVec2 centre_mm,
                        double radius_mm)
{
    PlumbItem *item = append(scene, PLUMB_ITEM_CIRCLE, pen, tag);
    if (item != NULL) {
        item->at_mm = centre_mm;
        item->size_mm = radius_mm;
        item->box_mm = box_of(scene, item);
    }
}

void plumb_scene_arc(PlumbScene *scene, PlumbPen pen, PlumbTag tag, PlumbVec2 centre_mm,
                     double radius_mm, double from_rad, double to_rad)
{
    PlumbItem *item = append(scene, PLUMB_ITEM_ARC, pen, tag);
    if (item != NULL) {
        item->at_mm = centre_mm;
        item->size_mm = radius_mm;
        item->from_rad = fmin(from_rad, to_rad);
        item->to_rad = fmax(from_rad, to_rad);
        item->box_mm = box_of(scene, item);
    }
}

void plumb_scene_text(PlumbScene *scene, PlumbRole role, PlumbTag tag, PlumbVec2 anchor_mm,
                      double size_mm, PlumbAlign align, double turn_rad, const char *text,
                      double width_mm)
{
    const size_t length = strlen(text);
    if (length == 0) {
        return;
    }
    if (length + 1 > (size_t)(PLUMB_SCENE_BYTES - scene->byte_count)) {
        scene->full = true;
        return;
    }
    const PlumbPen pen = {.fill = role};
    PlumbItem *item = append(scene, PLUMB_ITEM_TEXT, pen, tag);
    if (item == NULL) {
        return;
    }
    item->first = scene->byte_count;
    item->count = (int)length;
    item->at_mm = anchor_mm;
    item->size_mm = size_mm;
    item->align = align;
    item->turn_rad = turn_rad;
    item->width_mm = width_mm;
    item->box_mm = box_of(scene, item);
    memcpy(&scene->byte[scene->byte_count], text, length + 1);
    scene->byte_count += (int)length + 1;
}

static PlumbVec2 moved(PlumbVec2 at, double scale, PlumbVec2 origin)
{
    return (PlumbVec2){origin.x + scale * at.x, origin.y + scale * at.y};
}

/* Whether any of a box stands in the room, or all of it. */
static bool stands_in(PlumbRect box, PlumbRect room, bool all)
{
    const double left = box.x_mm - room.x_mm;
    const double top = box.y_mm - room.y_mm;
    const double right = left + box.width_mm;
    const double bottom = top + box.height_mm;
    return all ? left >= 0.0 && top >= 0.0 && right <= room.width_mm && bottom <= room.height_mm
               : right >= 0.0 && bottom >= 0.0 && left <= room.width_mm && top <= room.height_mm;
}

static void append_path(PlumbScene *scene, const PlumbScene *from, const PlumbItem *item,
                        double scale, PlumbVec2 origin)
{
    if (item->count > PLUMB_SCENE_POINTS - scene->point_count) {
        scene->full = true;
        return;
    }
    PlumbVec2 *const point = &scene->point_mm[scene->point_count];
    for (int i = 0; i < item->count; i++) {
        point[i] = moved(from->point_mm[item->first + i], scale, origin);
    }
    plumb_scene_path(scene, item->pen, item->tag, point, item->count, item->closed);
}

void plumb_scene_append(PlumbScene *scene, const PlumbScene *from, double scale,
                        PlumbVec2 origin_mm, PlumbRect room)
{
    for (int i = 0; i < from->item_count; i++) {
        const PlumbItem *const item = &from->item[i];
        const PlumbVec2 at = moved(item->at_mm, scale, origin_mm);
        const PlumbVec2 corner =
            moved((PlumbVec2){item->box_mm.x_mm, item->box_mm.y_mm}, scale, origin_mm);
        const PlumbRect box = {corner.x, corner.y, scale * item->box_mm.width_mm,
                               scale * item->box_mm.height_mm};
        if (!stands_in(box, room, item->kind == PLUMB_ITEM_TEXT)) {
            continue;
        }
        switch (item->kind) {
        case PLUMB_ITEM_PATH:
            append_path(scene, from, item, scale, origin_mm);
            break;
        case PLUMB_ITEM_CIRCLE:
        case PLUMB_ITEM_ARC: {
            PlumbItem *const arc = append(scene, item->kind, item->pen, item->tag);
            if (arc != NULL) {
                arc->at_mm = at;
                arc->size_mm = scale * item->size_mm;
                arc->from_rad = item->from_rad;
                arc->to_rad = item->to_rad;
                arc->box_mm = box_of(scene, arc);
            }
            break;
        }
        case PLUMB_ITEM_TEXT:
            plumb_scene_text(scene, item->pen.fill, item->tag, at, scale * item->size_mm,
                             item->align, item->turn_rad, plumb_scene_item_text(from, item),
                             scale * item->width_mm);
            break;
        }
    }
}

const char *plumb_scene_item_text(const PlumbScene *scene, const PlumbItem *item)
{
    return item->kind == PLUMB_ITEM_TEXT ? &scene->byte[item->first] : "";
}

/* A box grown point by point. */
static double segment_distance(PlumbVec2 p, PlumbVec2 a, PlumbVec2 b)
{
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double square = dx * dx + dy * dy;
    double t = square > 0.0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0.0;
    t = fmax(0.0, fmin(1.0, t));
    return hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

static double box_distance(PlumbVec2 p, PlumbRect box)
{
    const double dx = fmax(0.0, fmax(box.x_mm - p.x, p.x - box.x_mm - box.width_mm));
    const double dy = fmax(0.0, fmax(box.y_mm - p.y, p.y - box.y_mm - box.height_mm));
    return hypot(dx, dy);
}

static bool point_inside(const PlumbVec2 *point, int count, PlumbVec2 p)
{
    bool inside = false;
    for (int i = 0, j = count - 1; i < count; j = i++) {
        if ((point[i].y > p.y) != (point[j].y > p.y) &&
            p.x < point[i].x +
                      (p.y - point[i].y) / (point[j].y - point[i].y) * (point[j].x - point[i].x)) {
            inside = !inside;
        }
    }
    return inside;
}

/* Distance from what is painted: a filled path is met anywhere inside, a stroked one at its line.
 */
static double item_distance(const PlumbScene *scene, const PlumbItem *item, PlumbVec2 p)
{
    if (item->kind == PLUMB_ITEM_TEXT || item->kind == PLUMB_ITEM_ARC) {
        return box_distance(p, item->box_mm);
    }
    if (item->kind == PLUMB_ITEM_CIRCLE) {
        const double out = hypot(p.x - item->at_mm.x, p.y - item->at_mm.y) - item->size_mm;
        return item->pen.fill != PLUMB_ROLE_none ? fmax(0.0, out) : fabs(out);
    }
    const PlumbVec2 *point = &scene->point_mm[item->first];
    if (item->closed && item->pen.fill != PLUMB_ROLE_none && point_inside(point, item->count, p)) {
        return 0.0;
    }
    double least = item->count == 1 ? hypot(p.x - point[0].x, p.y - point[0].y) : HUGE_VAL;
    for (int i = item->closed ? 0 : 1; i < item->count; i++) {
        const PlumbVec2 from = point[i == 0 ? item->count - 1 : i - 1];
        least = fmin(least, segment_distance(p, from, point[i]));
    }
    return least;
}

const PlumbItem *plumb_scene_hit(const PlumbScene *scene, PlumbVec2 at_mm, double reach_mm)
{
    for (int i = scene->item_count - 1; i >= 0; i--) {
        const PlumbItem *item = &scene->item[i];
        if (item->tag.kind != PLUMB_TAG_NONE && item_distance(scene, item, at_mm) <= reach_mm) {
            return item;
        }
    }
    return NULL;
}
