/* SPDX-License-Identifier: MIT */
/* The population in words and tables: percentiles, slopes by build, sayings. */
#include "people.h"
#include "text_out.h"

#include <plumbar/scene.h>

#include <math.h>

enum { LINE_SIZE = 1024, CELL_SIZE = 96 };

static void put_share(PlumbText *text, double share, int decimals)
{
    plumb_text_fixed(text, 100.0 * share, decimals);
    plumb_text_string(text, " %");
}

static void head(const PlumbCliPeople *people, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbSetup *const setup = &people->request->setup;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "People   ");
    plumb_people_words(people, &text);
    plumb_print_wrapped(out, line, 9);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Set-up   ");
    plumb_text_string(&text, plumb_lift_text(setup->lift));
    plumb_text_string(&text, ", the same for all: ");
    plumb_text_quantity(&text, setup->load_kg, PLUMB_Q_MASS, units);
    const bool press = setup->lift == PLUMB_BENCH;
    plumb_text_string(&text, press ? ", grip " : ", stance ");
    plumb_text_quantity(&text, press ? setup->grip_m : setup->stance_m, PLUMB_Q_LENGTH, units);
    plumb_text_string(&text, press ? ", arch " : ", toes ");
    plumb_text_quantity(&text, press ? setup->arch_m : setup->toes_rad,
                        press ? PLUMB_Q_LENGTH : PLUMB_Q_ANGLE, units);
    plumb_setup_rest_text(&text, setup, units);
    plumb_print_wrapped(out, line, 9);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Outcome  ");
    put_share(&text, (double)people->held_count / people->count, 1);
    plumb_text_string(&text, " hold inside the window or limits, ");
    put_share(&text, (double)people->outside_count / people->count, 1);
    plumb_text_string(&text, " hold outside, ");
    put_share(&text, (double)people->no_pose_count / people->count, 1);
    plumb_text_string(&text, " have no pose");
    plumb_print_wrapped(out, line, 9);
}

static void percentile_cell(PlumbCliTable *table, double share)
{
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (!isfinite(share)) {
        plumb_text_string(&text, "-");
    } else if (share < 0.005) {
        plumb_text_string(&text, "< 1");
    } else if (share > 0.995) {
        plumb_text_string(&text, "> 99");
    } else {
        plumb_text_fixed(&text, 100.0 * share, 0);
    }
    plumb_table_text(table, cell);
}

/* Strength is nobody's own here, so that efforts say nothing of people. */
static bool is_effort(int output, PlumbLift lift)
{
    return lift == PLUMB_BENCH
               ? output >= (int)PLUMB_PRESS_OUT_adduction_effort &&
                     output <= (int)PLUMB_PRESS_OUT_summed_effort
               : output >= (int)PLUMB_OUT_hip_effort && output <= (int)PLUMB_OUT_summed_effort;
}

static void percentiles(const PlumbCliPeople *people, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbLift lift = people->request->setup.lift;
    PlumbCliTable table = plumb_table_begin("lrrrrrr", units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "this lifter");
    plumb_table_text(&table, "percentile");
    plumb_table_text(&table, "median");
    plumb_table_text(&table, "±");
    plumb_table_text(&table, "2.5 %");
    plumb_table_text(&table, "97.5 %");
    for (int output = 0; output < plumb_lift_output_count(lift); output++) {
        PlumbEstimate estimate;
        if (is_effort(output, lift) || !plumb_lift_output_applies(lift, output) ||
            !plumb_people_tell(people, output, &estimate)) {
            continue;
        }
        const PlumbQuantity quantity = plumb_lift_output_quantity(lift, output);
        const double own = plumb_solved_value(&people->own, output);
        plumb_table_text(&table, plumb_lift_output_text(lift, output));
        plumb_table_value(&table, own, quantity);
        percentile_cell(&table,
                        plumb_population_share_below(people->person, people->count, output, own));
        plumb_table_value(&table, estimate.median, quantity);
        plumb_table_value(&table, estimate.sd, quantity);
        plumb_table_value(&table, estimate.low, quantity);
        plumb_table_value(&table, estimate.high, quantity);
    }
    plumb_print_heading(out, "Where this lifter stands");
    plumb_table_end(&table, 2, out);
}

/* "+ 0.10", "+ 10.0 cm": the step for which a slope is told. */
static void step_cell(PlumbCliTable *table, PlumbTrait trait, PlumbUnits units)
{
    const double step = plumb_trait_step(trait);
    const PlumbQuantity quantity = trait == PLUMB_TRAIT_stature_m ? PLUMB_Q_LENGTH
                                   : trait == PLUMB_TRAIT_mass_kg ? PLUMB_Q_MASS
                                                                  : PLUMB_Q_FRACTION;
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_string(&text, plumb_trait_text(trait));
    plumb_text_char(&text, ' ');
    plumb_text_difference(&text, step, quantity, units);
    plumb_table_text(table, cell);
}

/* A slope for its step, one digit more than the figure is shown with. */
static void slope_cell(PlumbCliTable *table, double slope, double error, PlumbQuantity quantity,
                       PlumbUnits units)
{
    const double factor = plumb_quantity_factor(quantity, units);
    const int decimals = plumb_quantity_decimals(quantity, units) + 1;
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (!isfinite(slope)) {
        plumb_table_text(table, "-");
        return;
    }
    plumb_text_signed(&text, slope * factor, decimals);
    plumb_text_string(&text, " ± ");
    plumb_text_fixed(&text, error * factor, decimals);
    plumb_text_string(&text, quantity == PLUMB_Q_ANGLE ? "" : " ");
    plumb_text_string(&text, plumb_quantity_unit(quantity, units));
    plumb_table_text(table, cell);
}

static void slopes(const PlumbCliPeople *people, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbLift lift = people->request->setup.lift;
    PlumbCliTable table = plumb_table_begin("lrrr", units);
    plumb_table_text(&table, "");
    for (int k = 0; k < PLUMB_PEOPLE_REGRESSED; k++) {
        plumb_table_text(&table, plumb_lift_output_text(lift, plumb_people_regressed(lift, k)));
    }
    for (int i = 0; i < PLUMB_TRAIT_COUNT; i++) {
        if (!plumb_trait_applies((PlumbTrait)i, lift)) {
            continue;
        }
        step_cell(&table, (PlumbTrait)i, units);
        for (int k = 0; k < PLUMB_PEOPLE_REGRESSED; k++) {
            const PlumbRegression *const r = &people->regression[k];
            const double step = plumb_trait_step((PlumbTrait)i);
            slope_cell(&table, r->slope[i] * step, r->error[i] * step,
                       plumb_lift_output_quantity(lift, plumb_people_regressed(lift, k)), units);
        }
    }
    plumb_table_text(&table, "explains of the variance");
    for (int k = 0; k < PLUMB_PEOPLE_REGRESSED; k++) {
        plumb_table_value(&table, people->regression[k].explained_share, PLUMB_Q_SHARE);
    }
    plumb_print_heading(out, "What build does: linear regression, each slope with the other rows "
                             "held");
    plumb_table_end(&table, 2, out);
    plumb_print_wrapped(out, "  ± is the slope's standard error over the drawn bodies.", 2);
}

static void sayings(const PlumbCliPeople *people, PlumbUnits units, PlumbCliOutput *out)
{
    plumb_print_heading(out, "What holds, each body against itself with one thing changed");
    for (int i = 0; i < PLUMB_DIRECTION_COUNT; i++) {
        const PlumbDirection direction = (PlumbDirection)i;
        if (!plumb_direction_applies(direction, people->request->setup.lift)) {
            continue;
        }
        const PlumbSaying saying =
            plumb_population_saying(people->person, people->count, direction, people->scratch);
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "  ");
        plumb_text_string(&text, plumb_direction_text(direction));
        plumb_text_string(&text, ": holds in ");
        if (saying.count > 0) {
            put_share(&text, saying.share, 1);
            plumb_text_string(&text, " of bodies, by ");
            plumb_text_quantity(&text, saying.median, plumb_direction_quantity(direction), units);
            plumb_text_string(&text, " in the middle");
        } else {
            plumb_text_string(&text, "none, since none has a pose");
        }
        plumb_print_wrapped(out, line, 4);
    }
    static const char *const held[PLUMB_LIFT_COUNT] = {
        "  Held: the balance of the start, so that the build alone speaks.",
        "  Held: shin angle, depth and balance, so that the build alone speaks.",
        "  Held: the touch, so that grip or build alone speaks."};
    plumb_print_wrapped(out, held[people->request->setup.lift], 4);
}

void plumb_people_text(const PlumbCliPeople *people, PlumbUnits units, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    head(people, units, out);
    percentiles(people, units, out);
    slopes(people, units, out);
    sayings(people, units, out);
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, plumb_interval_caution());
    plumb_text_string(&text, " ");
    plumb_text_string(&text, plumb_caution_line());
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 0);
}
