/* SPDX-License-Identifier: MIT */
/* The population as a scatter drawing: each regressed figure over the build that moves it. */
#include "people.h"
#include "picture.h"
#include "samples.h"

#include <plumbar/scatter.h>

#include <math.h>
#include <stdlib.h>

enum { WORDS_SIZE = 512, LABEL_SIZE = 96 };

typedef struct Chart {
    PlumbScene scene;
    PlumbScatter scatter;
    char title[WORDS_SIZE];
    char note[WORDS_SIZE];
    char label[PLUMB_PEOPLE_REGRESSED][LABEL_SIZE];
    double *x[PLUMB_PEOPLE_REGRESSED];
    double *y[PLUMB_PEOPLE_REGRESSED];
    PlumbFont *font;
} Chart;

static void set_words(const PlumbCliPeople *people, PlumbUnits units, Chart *chart)
{
    const PlumbSetup *const setup = &people->request->setup;
    PlumbText title = plumb_text_begin(chart->title, sizeof chart->title);
    static const char *const lifts[PLUMB_LIFT_COUNT] = {"Deadlift, ", "Squat, ", "Bench press, "};
    plumb_text_string(&title, lifts[setup->lift]);
    plumb_text_quantity(&title, setup->load_kg, PLUMB_Q_MASS, units);
    plumb_text_string(&title, ": ");
    plumb_people_words(people, &title);
    PlumbText note = plumb_text_begin(chart->note, sizeof chart->note);
    plumb_text_string(&note,
                      "Line: what the build on the level axis does while the other traits (");
    for (int i = 0, listed = 0; i < PLUMB_TRAIT_COUNT; i++) {
        if (plumb_trait_applies((PlumbTrait)i, setup->lift)) {
            plumb_text_string(&note, listed++ > 0 ? ", " : "");
            plumb_text_string(&note, plumb_trait_text((PlumbTrait)i));
        }
    }
    plumb_text_string(&note, ") are held. The cloud covers bodies, not the model's form and not "
                             "strength.");
    chart->scatter.title = chart->title;
    chart->scatter.note = chart->note;
    chart->scatter.mark = "this lifter";
}

static void own_sample(const PlumbCliPeople *people, PlumbSample *own)
{
    const PlumbBody *const body = &people->request->lifter.body;
    own->stature_m = body->stature_m;
    own->mass_kg = body->mass_kg;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        own->length_m[i] = body->length_m[i];
    }
}

static PlumbStatus set_panel(const PlumbCliPeople *people, int index, PlumbUnits units,
                             Chart *chart)
{
    const PlumbSetup *const setup = &people->request->setup;
    const PlumbLift lift = setup->lift;
    const int output = plumb_people_regressed(lift, index);
    const PlumbTrait trait = plumb_people_trait(lift, index);
    const PlumbRegression *const r = &people->regression[index];
    const PlumbQuantity quantity = plumb_lift_output_quantity(lift, output);
    const double factor = plumb_quantity_factor(quantity, units);
    double *const x = chart->x[index] = malloc((size_t)people->count * sizeof *x + 1);
    double *const y = chart->y[index] = malloc((size_t)people->count * sizeof *y + 1);
    if (x == NULL || y == NULL) {
        return PLUMB_OUT_OF_MEMORY;
    }
    for (int i = 0; i < people->count; i++) {
        x[i] = plumb_trait_value(&people->person[i].sample, trait, setup);
        y[i] = people->person[i].sample.output[output] * factor;
    }
    PlumbText label = plumb_text_begin(chart->label[index], LABEL_SIZE);
    plumb_text_string(&label, plumb_lift_output_text(lift, output));
    plumb_text_string(&label, " [");
    plumb_text_string(&label, plumb_quantity_unit(quantity, units));
    plumb_text_string(&label, "]");
    PlumbSample own;
    own_sample(people, &own);
    chart->scatter.panel[index] = (PlumbScatterPanel){
        .x_label = plumb_trait_text(trait),
        .y_label = chart->label[index],
        .x = x,
        .y = y,
        .count = people->count,
        .has_line = true,
        .line_x = r->mean[trait],
        .line_y = r->level * factor,
        .slope = r->slope[trait] * factor,
        .mark_x = plumb_trait_value(&own, trait, setup),
        .mark_y = plumb_solved_value(&people->own, output) * factor,
    };
    return PLUMB_OK;
}

static PlumbStatus compose(const PlumbCliPeople *people, const PlumbCliArgs *args, Chart *chart)
{
    chart->font = plumb_font_create();
    if (chart->font == NULL) {
        return PLUMB_OUT_OF_MEMORY;
    }
    set_words(people, args->units, chart);
    chart->scatter.panel_count = PLUMB_PEOPLE_REGRESSED;
    chart->scatter.text_width = plumb_font_width;
    chart->scatter.text_user = chart->font;
    for (int i = 0; i < PLUMB_PEOPLE_REGRESSED; i++) {
        if (set_panel(people, i, args->units, chart) != PLUMB_OK) {
            return PLUMB_OUT_OF_MEMORY;
        }
    }
    plumb_compose_scatter(&chart->scene, &chart->scatter,
                          args->letter ? PLUMB_LETTER_LANDSCAPE : PLUMB_A4_LANDSCAPE);
    return PLUMB_OK;
}

PlumbStatus plumb_people_draw(const PlumbCliPeople *people, const PlumbCliArgs *args,
                              PlumbCliOutput *out, PlumbCliFault *fault)
{
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    Chart *const chart = calloc(1, sizeof *chart);
    PlumbStatus status = chart != NULL ? compose(people, args, chart) : PLUMB_OUT_OF_MEMORY;
    if (status == PLUMB_OK) {
        plumb_picture_find(args->output, &kind);
        status = plumb_picture_render(&chart->scene, kind, args, &bytes, &fault->error);
        plumb_output_bytes(out, (const char *)bytes.data, bytes.length);
        plumb_bytes_free(&bytes);
    } else {
        plumb_samples_no_memory(fault);
    }
    for (int i = 0; chart != NULL && i < PLUMB_PEOPLE_REGRESSED; i++) {
        free(chart->x[i]);
        free(chart->y[i]);
    }
    if (chart != NULL) {
        plumb_font_destroy(chart->font);
    }
    free(chart);
    plumb_draw_finish();
    return status;
}
