/* SPDX-License-Identifier: MIT */
/* A lifter with the tables' limits and a common bar, before anything of the lifter's own is known.
 */
#include <plumbar/lifter.h>

#include "tables.h"

static PlumbEquipment default_equipment(void)
{
    const PlumbItemRow *item = plumb_table_item;
    return (PlumbEquipment){
        .bar_mass_kg = item[PLUMB_ITEM_bar_mass].value,
        .shaft_diameter_m = item[PLUMB_ITEM_shaft_diameter].value,
        .ring_spacing_m = item[PLUMB_ITEM_ring_spacing].value,
        .knurl_start_m = item[PLUMB_ITEM_knurl_start].value,
        .knurl_stop_m = item[PLUMB_ITEM_knurl_stop].value,
        .disc_diameter_m = item[PLUMB_ITEM_disc_diameter].value,
    };
}

PlumbLifter plumb_lifter_default(const PlumbBody *body)
{
    PlumbLifter lifter = {.body = *body, .equipment = default_equipment()};
    for (int i = 0; i < PLUMB_LIMIT_COUNT; i++) {
        lifter.limit_rad[i] = plumb_table_limit[i].limit_rad[body->sex];
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        lifter.strength[i] = 1.0;
    }
    return lifter;
}
