/* SPDX-License-Identifier: MIT */
/* One lifter in every style, and what the proportions favour against an average build. */
#include <plumbar/styles.h>

#include "base/vec.h"

#include <stddef.h>

/* Stances and toes: of a pull the published mean and one standard deviation to both sides
 * (Escamilla et al. 2000, 8 cm and 6° conventional, 11 cm and 8° sumo) by difference from the
 * preset; of a squat narrow, the default, and wide by common practice. */
typedef struct StyleRow {
    PlumbLift lift;
    int which; /* PlumbStyle or PlumbSeat */
    double stance_more_m;
    double toes_more_rad;
    bool preset;
} StyleRow;

#define DEG (PLUMB_PI / 180.0)
#define PULL(style, stance, toes, preset)                                                          \
    {                                                                                              \
        PLUMB_DEADLIFT, style, stance, (toes)*DEG, preset                                          \
    }
#define HOLE(seat, stance, toes, preset)                                                           \
    {                                                                                              \
        PLUMB_SQUAT, seat, stance, (toes)*DEG, preset                                              \
    }

static const StyleRow rows[] = {
    PULL(PLUMB_CONVENTIONAL, -0.08, -6.0, false),
    PULL(PLUMB_CONVENTIONAL, 0.0, 0.0, true),
    PULL(PLUMB_CONVENTIONAL, 0.08, 6.0, false),
    PULL(PLUMB_SUMO, -0.11, -8.0, false),
    PULL(PLUMB_SUMO, 0.0, 0.0, true),
    PULL(PLUMB_SUMO, 0.11, 8.0, false),
    HOLE(PLUMB_HIGH_BAR, -0.10, -10.0, false),
    HOLE(PLUMB_HIGH_BAR, 0.0, 0.0, true),
    HOLE(PLUMB_HIGH_BAR, 0.15, 10.0, false),
    HOLE(PLUMB_LOW_BAR, -0.10, -10.0, false),
    HOLE(PLUMB_LOW_BAR, 0.0, 0.0, true),
    HOLE(PLUMB_LOW_BAR, 0.15, 10.0, false),
    HOLE(PLUMB_FRONT_BAR, -0.10, -10.0, false),
    HOLE(PLUMB_FRONT_BAR, 0.0, 0.0, true),
    HOLE(PLUMB_FRONT_BAR, 0.15, 10.0, false),
};

/* base with the style's own stance, toes, grip and lead. */
static PlumbSetup style_setup(const PlumbSetup *base, const StyleRow *row)
{
    PlumbSetup setup = *base;
    const PlumbSetup standard = plumb_setup_default(base->lift);
    setup.lead = standard.lead;
    setup.balance_frac = standard.balance_frac;
    setup.hip_height_relative = false;
    setup.stance_m = standard.stance_m;
    setup.toes_rad = standard.toes_rad;
    setup.grip_m = standard.grip_m;
    setup.seat = standard.seat;
    if (base->lift == PLUMB_DEADLIFT) {
        plumb_setup_style(&setup, (PlumbStyle)row->which);
    } else {
        plumb_setup_seat(&setup, (PlumbSeat)row->which);
    }
    setup.stance_m += row->stance_more_m;
    setup.toes_rad += row->toes_more_rad;
    return setup;
}

static void fill_limits(const PlumbLifter *lifter, PlumbStyleEntry *entry)
{
    const double *const a = entry->answer.start.angle_rad;
    const double angle[PLUMB_LEG_LIMIT_COUNT] = {
        [PLUMB_LIMIT_ankle_dorsiflexion] = a[PLUMB_ANG_ankle_dorsiflexion],
        [PLUMB_LIMIT_knee_flexion] = a[PLUMB_ANG_knee_flexion],
        [PLUMB_LIMIT_hip_flexion] = a[PLUMB_ANG_hip_flexion],
        [PLUMB_LIMIT_hip_extension] = -a[PLUMB_ANG_hip_flexion],
        [PLUMB_LIMIT_hip_abduction] = a[PLUMB_ANG_hip_abduction],
        [PLUMB_LIMIT_hip_external_rotation] = a[PLUMB_ANG_hip_external_rotation],
        [PLUMB_LIMIT_hip_internal_rotation] = -a[PLUMB_ANG_hip_external_rotation],
    };
    entry->tightest = PLUMB_LIMIT_ankle_dorsiflexion;
    for (int i = 0; i < PLUMB_LEG_LIMIT_COUNT; i++) {
        entry->limit_left_rad[i] = lifter->limit_rad[i] - angle[i];
        if (entry->limit_left_rad[i] < entry->limit_left_rad[entry->tightest]) {
            entry->tightest = (PlumbLimit)i;
        }
    }
}

int plumb_styles(const PlumbLifter *lifter, const PlumbSetup *base,
                 PlumbStyleEntry entry[PLUMB_STYLE_ROWS_MAX])
{
    int count = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].lift != base->lift) {
            continue;
        }
        PlumbStyleEntry *const at = &entry[count++];
        at->setup = style_setup(base, &rows[i]);
        at->style = at->setup.style;
        at->seat = at->setup.seat;
        at->preset = rows[i].preset;
        plumb_answer_solve(lifter, &at->setup, &at->answer);
        fill_limits(lifter, at);
    }
    return count;
}

static const StyleRow *preset_of(PlumbLift lift, int which)
{
    size_t i = 0;
    while (!(rows[i].lift == lift && rows[i].which == which && rows[i].preset)) {
        i++;
    }
    return &rows[i];
}

/* The build of the tables for this sex, stature, mass and age, with this lifter's gym and limits.
 */
static bool average_lifter(const PlumbLifter *lifter, PlumbBodySpec *spec, PlumbLifter *average)
{
    const PlumbBody *const body = &lifter->body;
    *spec = plumb_body_spec(body->sex, body->stature_m, body->mass_kg);
    spec->age_years = body->age_years;
    spec->length_table = body->length_table;
    spec->mass_table = body->mass_table;
    *average = *lifter;
    return plumb_body_build(spec, &average->body, NULL) == PLUMB_OK;
}

static bool same_build(const PlumbBody *a, const PlumbBody *b)
{
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (fabs(a->length_m[i] - b->length_m[i]) > 1e-9) {
            return false;
        }
    }
    return true;
}

static double style_change(const PlumbLifter *lifter, const PlumbSetup setup[2], PlumbOutput output)
{
    PlumbSolved solved[2];
    for (int i = 0; i < 2; i++) {
        plumb_solved_solve(lifter, &setup[i], &solved[i]);
    }
    return plumb_solved_value(&solved[1], (int)output) -
           plumb_solved_value(&solved[0], (int)output);
}

/* Spread between people of one stature and mass: bodies drawn around the average, each in both
 * styles. */
static double style_spread(const PlumbBodySpec *spec, const PlumbLifter *average,
                           const PlumbSetup setup[2], PlumbOutput output)
{
    enum { PEOPLE = 200, SEED = 1 };
    const PlumbSide first = {spec, average, &setup[0]};
    const PlumbSide second = {spec, average, &setup[1]};
    double change[PEOPLE];
    double scratch[PEOPLE];
    PlumbPair pair;
    plumb_pair_begin(&first, &second, SEED, &pair);
    for (int i = 0; i < PEOPLE; i++) {
        double all[PLUMB_OUTPUT_COUNT];
        plumb_pair_solve(&pair, true, (uint64_t)i, 1, all);
        change[i] = all[output];
    }
    return plumb_estimate(change, PEOPLE, scratch).sd;
}

/* Which pairs, and on which figures, proportions are asked about. */
typedef struct Question {
    PlumbLift lift;
    int a;
    int b;
    PlumbOutput output;
} Question;

static const Question questions[] = {
    {PLUMB_DEADLIFT, PLUMB_CONVENTIONAL, PLUMB_SUMO, PLUMB_OUT_travel},
    {PLUMB_DEADLIFT, PLUMB_CONVENTIONAL, PLUMB_SUMO, PLUMB_OUT_back_moment},
    {PLUMB_SQUAT, PLUMB_HIGH_BAR, PLUMB_LOW_BAR, PLUMB_OUT_back_moment},
    {PLUMB_SQUAT, PLUMB_HIGH_BAR, PLUMB_LOW_BAR, PLUMB_OUT_knee_moment},
    {PLUMB_SQUAT, PLUMB_HIGH_BAR, PLUMB_FRONT_BAR, PLUMB_OUT_back_moment},
    {PLUMB_SQUAT, PLUMB_HIGH_BAR, PLUMB_FRONT_BAR, PLUMB_OUT_knee_moment},
};

int plumb_styles_favours(const PlumbLifter *lifter, const PlumbSetup *base,
                         PlumbFavour favour[PLUMB_FAVOUR_MAX])
{
    PlumbBodySpec spec;
    PlumbLifter average;
    int count = 0;
    if (!average_lifter(lifter, &spec, &average)) {
        return 0;
    }
    const bool same = same_build(&lifter->body, &average.body);
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        const Question *const q = &questions[i];
        if (q->lift != base->lift) {
            continue;
        }
        const PlumbSetup setup[2] = {style_setup(base, preset_of(q->lift, q->a)),
                                     style_setup(base, preset_of(q->lift, q->b))};
        PlumbFavour *const f = &favour[count];
        *f = (PlumbFavour){.a = q->a,
                           .b = q->b,
                           .output = q->output,
                           .difference = style_change(lifter, setup, q->output),
                           .average = style_change(&average, setup, q->output),
                           .spread = style_spread(&spec, &average, setup, q->output),
                           .same = same};
        f->strength = (f->difference - f->average) / f->spread;
        count += isfinite(f->strength);
    }
    return count;
}

static const double hardly_below = 0.5; /* spreads between people */

const char *plumb_favour_strength(const PlumbFavour *favour)
{
    const double size = fabs(favour->strength);
    return size < hardly_below ? "hardly"
           : size < 1.0        ? "weakly"
           : size < 2.0        ? "clearly"
                               : "strongly";
}

static const char *style_words(PlumbLift lift, int which)
{
    static const char *const styles[] = {"conventional", "sumo"};
    static const char *const seats[] = {"the high bar", "the low bar", "the front squat"};
    return lift == PLUMB_DEADLIFT ? styles[which] : seats[which];
}

/* "sumo has 4.1 cm less bar travel than conventional" */
static void difference_text(PlumbText *text, const PlumbFavour *favour, double difference,
                            PlumbLift lift, PlumbUnits units)
{
    plumb_text_quantity(text, fabs(difference), plumb_output_quantity(favour->output, lift), units);
    plumb_text_string(text, difference < 0.0 ? " less " : " more ");
    plumb_text_string(text, plumb_output_text(favour->output));
}

void plumb_favour_text(PlumbText *text, const PlumbFavour *favour, PlumbLift lift, PlumbUnits units)
{
    const char *const a = style_words(lift, favour->a);
    const char *const b = style_words(lift, favour->b);
    plumb_text_string(text, "Against ");
    plumb_text_string(text, a);
    plumb_text_string(text, ", ");
    plumb_text_string(text, b);
    plumb_text_string(text, " means ");
    difference_text(text, favour, favour->difference, lift, units);
    if (favour->same) {
        plumb_text_string(text, "; these are average proportions, which favour neither.");
        return;
    }
    plumb_text_string(text, "; on an average build of this stature and mass ");
    difference_text(text, favour, favour->average, lift, units);
    const bool hardly = fabs(favour->strength) < hardly_below;
    plumb_text_string(text, ". On this figure the proportions ");
    plumb_text_string(text, plumb_favour_strength(favour));
    plumb_text_string(text, " favour ");
    plumb_text_string(text, hardly ? "either" : favour->strength < 0.0 ? b : a);
    plumb_text_string(text, ".");
}
