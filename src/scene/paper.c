/* SPDX-License-Identifier: MIT */
/* The two papers: rgb of every role, and the dashes of the lines. */
#include <plumbar/scene.h>

/* Blue, vermilion and bluish green are of the set of Okabe and Ito, which colour-blind readers
 * tell apart; the green is darkened on light paper, the blue is the set's sky blue on dark paper,
 * so that thin lines keep 3:1. Text roles keep 4.5:1. tests/test_scene.c computes both. */
static const PlumbRgb RGB[PLUMB_PAPER_COUNT][PLUMB_ROLE_COUNT] =
    {
        [PLUMB_LIGHT_PAPER] =
            {
                [PLUMB_ROLE_none] = {251, 248, 240},
                [PLUMB_ROLE_paper] = {251, 248, 240},
                [PLUMB_ROLE_ink] = {28, 27, 25},
                [PLUMB_ROLE_quiet] = {92, 88, 80},
                [PLUMB_ROLE_rule] = {122, 117, 107},
                [PLUMB_ROLE_limb] = {240, 235, 222},
                [PLUMB_ROLE_pencil] = {134, 132, 128},
                [PLUMB_ROLE_pencil_text] = {104, 102, 98},
                [PLUMB_ROLE_bar] = {213, 94, 0},
                [PLUMB_ROLE_mass] = {0, 114, 178},
                [PLUMB_ROLE_hold] = {0, 148, 108},
                [PLUMB_ROLE_select] = {28, 27, 25},
            },
        [PLUMB_DARK_PAPER] =
            {
                [PLUMB_ROLE_none] = {30, 29, 27},
                [PLUMB_ROLE_paper] = {30, 29, 27},
                [PLUMB_ROLE_ink] = {236, 231, 219},
                [PLUMB_ROLE_quiet] = {170, 165, 154},
                [PLUMB_ROLE_rule] = {128, 124, 115},
                [PLUMB_ROLE_limb] = {46, 44, 41},
                [PLUMB_ROLE_pencil] = {132, 130, 126},
                [PLUMB_ROLE_pencil_text] = {158, 156, 151},
                [PLUMB_ROLE_bar] = {230, 118, 40},
                [PLUMB_ROLE_mass] = {86, 180, 233},
                [PLUMB_ROLE_hold] = {0, 158, 115},
                [PLUMB_ROLE_select] = {255, 253, 246},
            },
};

PlumbRgb plumb_paper_rgb(PlumbPaper paper, PlumbRole role)
{
    return RGB[paper][role];
}

const char *plumb_role_name(PlumbRole role)
{
    static const char *const NAME[PLUMB_ROLE_COUNT] = {
#define X(name) [PLUMB_ROLE_##name] = #name,
        PLUMB_ROLE_LIST(X)
#undef X
    };
    return NAME[role];
}

int plumb_dash_parts(PlumbDash dash, double part_mm[PLUMB_DASH_PARTS_MAX])
{
    static const struct {
        int count;
        double part_mm[PLUMB_DASH_PARTS_MAX];
    } DASH[PLUMB_DASH_COUNT] = {
        [PLUMB_SOLID] = {0, {0.0}},
        [PLUMB_DASHED] = {2, {2.0, 1.2}},
        [PLUMB_CHAIN] = {4, {6.0, 1.2, 1.0, 1.2}},
        [PLUMB_CHAIN_DOUBLE] = {6, {6.0, 1.0, 0.8, 1.0, 0.8, 1.0}},
        [PLUMB_DOTTED] = {2, {0.5, 0.9}},
    };
    for (int i = 0; i < DASH[dash].count; i++) {
        part_mm[i] = DASH[dash].part_mm[i];
    }
    return DASH[dash].count;
}
