/* SPDX-License-Identifier: MIT */
/* Slices and their hashes (64-bit words mixed by multiplication; equal pixels, not safety). */
#include "slice.h"

#include <string.h>

static uint64_t mix(uint64_t hash, uint64_t word)
{
    hash = (hash ^ word) * 0x9E3779B97F4A7C15U;
    return hash ^ (hash >> 29);
}

static uint64_t mix_number(uint64_t hash, double number)
{
    uint64_t word = 0;
    memcpy(&word, &number, sizeof word);
    return mix(hash, word);
}

static uint64_t mix_bytes(uint64_t hash, const char *byte, int count)
{
    for (int i = 0; i < count; i += 8) {
        uint64_t word = 0;
        memcpy(&word, byte + i, count - i < 8 ? (size_t)(count - i) : 8U);
        hash = mix(hash, word);
    }
    return hash;
}

static uint64_t mix_item(uint64_t hash, const PlumbScene *scene, const PlumbItem *item)
{
    const uint64_t small = (uint64_t)item->kind | (uint64_t)item->pen.stroke << 8 |
                           (uint64_t)item->pen.dash << 16 | (uint64_t)item->pen.fill << 24 |
                           (uint64_t)item->align << 32 | (uint64_t)item->closed << 40;
    hash = mix(hash, small);
    hash = mix(hash, (uint64_t)(unsigned)item->count);
    const double number[] = {item->pen.weight_mm, item->at_mm.x, item->at_mm.y, item->size_mm,
                             item->from_rad,      item->to_rad,  item->turn_rad};
    for (size_t i = 0; i < sizeof number / sizeof number[0]; i++) {
        hash = mix_number(hash, number[i]);
    }
    if (item->kind == PLUMB_ITEM_PATH) {
        for (int i = 0; i < item->count; i++) {
            hash = mix_number(hash, scene->point_mm[item->first + i].x);
            hash = mix_number(hash, scene->point_mm[item->first + i].y);
        }
    } else if (item->kind == PLUMB_ITEM_TEXT) {
        hash = mix_bytes(hash, scene->byte + item->first, item->count);
    }
    return hash;
}

void plumb_slices_begin(PlumbSlices *slices)
{
    slices->count = 0;
}

void plumb_slices_end(PlumbSlices *slices, const PlumbScene *scene)
{
    if (slices->count == 0) {
        return;
    }
    PlumbSlice *const slice = &slices->slice[slices->count - 1];
    slice->count = scene->item_count - slice->first;
    const double place[] = {slice->rect.x_mm, slice->rect.y_mm, slice->rect.width_mm,
                            slice->rect.height_mm};
    uint64_t hash = mix(slice->hash, 1);
    for (int i = 0; i < 4; i++) {
        hash = mix_number(hash, place[i]);
    }
    for (int i = slice->first; i < scene->item_count; i++) {
        hash = mix_item(hash, scene, &scene->item[i]);
    }
    slice->hash = hash;
}

void plumb_slices_next(PlumbSlices *slices, const PlumbScene *scene, PlumbRect rect)
{
    plumb_slices_end(slices, scene);
    if (slices->count < PLUMB_SLICES_MAX) {
        slices->slice[slices->count++] = (PlumbSlice){rect, scene->item_count, 0, 0, 0};
    }
}

void plumb_slices_pane(PlumbSlices *slices, int pane, uint64_t stamp)
{
    PlumbSlice *const slice = &slices->slice[slices->count - 1];
    slice->pane = pane;
    slice->hash = stamp;
}

bool plumb_slices_stale(const PlumbSlices *slices, int index)
{
    return slices->count != slices->shown_count ||
           slices->slice[index].hash != slices->shown[index];
}

void plumb_slices_shown(PlumbSlices *slices)
{
    slices->shown_count = slices->count;
    for (int i = 0; i < slices->count; i++) {
        slices->shown[i] = slices->slice[i].hash;
    }
}
