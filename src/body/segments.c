/* SPDX-License-Identifier: MIT */
/* Masses, centres of mass and radii of a body whose lengths are known. */
#include "body/segments.h"

#include "body/fraction.h"
#include "tables.h"

#include <math.h>

static void survey_segments(PlumbBody *body)
{
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        const PlumbMassRow *row = &plumb_table_mass[body->sex][i];
        body->segment[i] = (PlumbSegment){row->mass_frac, row->com_frac, row->rg_frac};
    }
}

/* The classic table measures the foot from malleolus to metatarsal, the thorax up to C7 and the
 * head from C7 to the ear canal, which lies at the eyes' height; the links of this model run from
 * heel to toe, from the hinge to mid-shoulder, and the head's centre is told from mid-shoulder in
 * lengths of the trunk. C7 and eyes keep their distance from the top of the head. */
static void classic_segments(PlumbBody *body)
{
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        const PlumbClassicMassRow *row = &plumb_table_classic_mass[i];
        const double rg_frac = isnan(row->rg_frac) ? 0.0 : row->rg_frac;
        body->segment[i] = (PlumbSegment){row->mass_frac, row->com_from_proximal_frac, rg_frac};
    }
    PlumbSegment *segment = body->segment;
    const double instep_m = body->ball_of_foot_m - body->heel_to_ankle_m;
    segment[PLUMB_SEG_foot].com_frac =
        (body->heel_to_ankle_m + segment[PLUMB_SEG_foot].com_frac * instep_m) / body->foot_length_m;
    segment[PLUMB_SEG_foot].rg_frac *= instep_m / body->foot_length_m;

    segment[PLUMB_SEG_pelvis].com_frac =
        plumb_table_classic_mass[PLUMB_SEG_pelvis].com_from_distal_frac;

    const double c7_m =
        body->head_neck_m - (1.0 - plumb_cervicale_fraction(body->sex)) * body->stature_m;
    const double thorax_m = body->trunk_m - body->pelvis_m;
    segment[PLUMB_SEG_thorax].com_frac =
        plumb_table_classic_mass[PLUMB_SEG_thorax].com_from_distal_frac * (thorax_m + c7_m) /
        thorax_m;

    const double ear_m = body->head_neck_m - (1.0 - plumb_eye_fraction()) * body->stature_m;
    segment[PLUMB_SEG_head].com_frac =
        (c7_m + segment[PLUMB_SEG_head].com_frac * (ear_m - c7_m)) / body->trunk_m;
    segment[PLUMB_SEG_head].rg_frac *= (ear_m - c7_m) / body->trunk_m;
}

static bool is_limb(int segment)
{
    return segment != PLUMB_SEG_pelvis && segment != PLUMB_SEG_thorax && segment != PLUMB_SEG_head;
}

/* The tables are rounded; a body weighs what it weighs. */
static void normalise_masses(PlumbBody *body)
{
    double sum = 0.0;
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        sum += (is_limb(i) ? 2.0 : 1.0) * body->segment[i].mass_frac;
    }
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        body->segment[i].mass_frac /= sum;
    }
}

void plumb_body_segments(PlumbBody *body)
{
    if (body->mass_table == PLUMB_CLASSIC) {
        classic_segments(body);
    } else {
        survey_segments(body);
    }
    normalise_masses(body);
    body->has_radii = body->mass_table == PLUMB_SURVEY;
}
