/* SPDX-License-Identifier: MIT */
/* The page of a working: title, free body, and below it what the text needs. */
#include <plumbar/working.h>

#include "scene/forces.h"
#include "scene/working_page.h"

#include <math.h>

static const double MARGIN_MM = 9.0;
static const double STRIP_MARGIN_MM = 2.0;
static const double BODY_LEAST_MM = 62.0; /* height of the free body */
static const double STRIP_BODY_MM = 80.0; /* of a strip, and the most of a wide one */
static const double BODY_MOST_MM = 150.0;
static const double LEG_BODY_MM = 100.0;  /* the leg from the side and from the front */
static const double SMALL_BODY_MM = 48.0; /* of a length, which has none */

static const double BESIDE_MM = 84.0; /* a free body this wide stands beside the text of a strip */

/* What the page stands on. */
typedef struct Ground {
    double width_mm;
    double bottom_mm;  /* how far text may reach */
    double body_mm;    /* height of the free body */
    double caution_mm; /* baseline of the caution; 0: none */
    bool strip;
} Ground;

void plumb_working_paragraph(PlumbWorkingPage *page, PlumbRole role, double size_mm,
                             const char *text)
{
    const int room = (int)fmin((page->bottom_mm - page->y_mm) / (PLUMB_LINE_PITCH * size_mm), 1e6);
    if (room > 0) {
        plumb_board_wrap(&page->board, role, TAG_NONE, page->x_mm, &page->y_mm, page->width_mm,
                         size_mm, room, text);
    }
}

static void describe(PlumbScene *scene, const PlumbWorking *working)
{
    const PlumbExplanation *e = working->explanation;
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, e->title);
    PlumbText text = plumb_text_begin(scene->description, sizeof scene->description);
    const PlumbExplainStep *step = &e->step[e->step_count - 1];
    plumb_text_string(&text, step->words);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, step->symbol);
    plumb_text_string(&text, " = ");
    plumb_text_fixed(&text, step->result, step->decimals);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, step->unit);
    plumb_text_string(&text, ". ");
    plumb_text_string(&text, plumb_caution_line());
}

static void head(PlumbWorkingPage *page)
{
    const PlumbWorking *w = page->working;
    plumb_working_paragraph(page, PLUMB_ROLE_ink, PLUMB_LARGE_TEXT_MM, w->explanation->title);
    char line[PLUMB_WORKING_LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    const PlumbBody *body = &w->subject->lifter->body;
    plumb_text_string(&text, w->name);
    plumb_text_string(&text, w->name[0] != '\0' ? ", " : "");
    plumb_text_string(&text, plumb_sex_name(body->sex));
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->stature_m, PLUMB_Q_STATURE, PLUMB_METRIC);
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->mass_kg, PLUMB_Q_MASS, PLUMB_METRIC);
    const PlumbSetup *const setup = plumb_explain_setup(w->subject);
    if (setup != NULL) {
        plumb_text_string(&text, "; ");
        plumb_text_string(&text, plumb_lift_text(setup->lift));
        plumb_text_string(&text, ", ");
        plumb_text_quantity(&text, setup->load_kg, PLUMB_Q_MASS, PLUMB_METRIC);
    }
    if (w->subject->motion != NULL || w->subject->press_motion != NULL) {
        plumb_text_string(&text, "; ");
        plumb_text_quantity(&text,
                            w->subject->motion != NULL ? w->subject->motion->t_s
                                                       : w->subject->press_motion->t_s,
                            PLUMB_Q_TIME, PLUMB_METRIC);
        plumb_text_string(&text, " after the start of the way up");
    }
    plumb_text_string(&text, w->date[0] != '\0' ? "; " : "");
    plumb_text_string(&text, w->date);
    plumb_working_paragraph(page, PLUMB_ROLE_quiet, page->em_mm, line);
}

/* Room of the free body, below the head or, in a wide strip, beside the text. */
static PlumbRect place_body(PlumbWorkingPage *page, const Ground *ground)
{
    const double beside = page->width_mm - PLUMB_WORKING_PAPER_MM - MARGIN_MM;
    if (ground->strip && page->width_mm > PLUMB_WORKING_PAPER_MM) {
        page->width_mm = PLUMB_WORKING_PAPER_MM;
    }
    PlumbRect body = {page->x_mm, page->y_mm + 2.0, page->width_mm, ground->body_mm};
    if (ground->strip && beside >= BESIDE_MM) {
        body.width_mm = fmin(beside, PLUMB_WORKING_PAPER_MM);
        page->x_mm += body.width_mm + MARGIN_MM;
        page->y_mm += 2.0;
    } else {
        page->y_mm = body.y_mm + body.height_mm + 3.0;
    }
    return body;
}

/* Returns where all of it ends, beyond the page or not, as far as the ground's bottom reaches. */
static double compose(PlumbScene *scene, const PlumbWorking *working, const Ground *ground)
{
    describe(scene, working);
    const PlumbDrawing drawing =
        plumb_drawing_default(working->subject->lifter, working->subject->answer,
                              working->text_width, working->text_user);
    const double margin = ground->strip ? STRIP_MARGIN_MM : MARGIN_MM;
    PlumbWorkingPage page = {.board = {scene, &drawing},
                             .working = working,
                             .x_mm = margin,
                             .y_mm = margin,
                             .width_mm = ground->width_mm - 2.0 * margin,
                             .bottom_mm = ground->bottom_mm,
                             .em_mm = PLUMB_SMALL_TEXT_MM,
                             .strip = ground->strip};
    head(&page);
    const PlumbRect body = place_body(&page, ground);
    plumb_compose_free_body(scene, working, body);
    plumb_working_steps(&page);
    plumb_working_legend(&page);
    for (int i = 0; i < working->explanation->note_count; i++) {
        plumb_working_paragraph(&page, PLUMB_ROLE_ink, page.em_mm, working->explanation->note[i]);
    }
    page.y_mm += 0.5 * page.em_mm;
    plumb_working_rests(&page);
    if (ground->caution_mm > 0.0) {
        plumb_board_text(&page.board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){MARGIN_MM, ground->caution_mm}, PLUMB_SMALL_TEXT_MM,
                         PLUMB_START, plumb_caution_line());
    }
    return fmax(page.y_mm, body.y_mm + body.height_mm);
}

static bool has_small_body(const PlumbWorking *working)
{
    return working->explanation->drawn.kind == PLUMB_EXPLAIN_length;
}

/* Views beside one another are as wide as the paper before they are as high as the room. */
static double body_most(const PlumbWorking *working)
{
    const PlumbExplainKind kind = working->explanation->drawn.kind;
    const bool above = kind == PLUMB_EXPLAIN_abduction || kind == PLUMB_EXPLAIN_abduction_step ||
                       kind == PLUMB_EXPLAIN_shoulder_rotation;
    return working->subject->press != NULL ? (above ? BODY_LEAST_MM : STRIP_BODY_MM)
           : plumb_leg_alone(kind)         ? LEG_BODY_MM
                                           : BODY_MOST_MM;
}

/* The text takes what it needs, the free body the rest of the page. */
void plumb_compose_working(PlumbScene *scene, const PlumbWorking *working)
{
    const double width = working->letter ? 215.9 : 210.0;
    const double height = working->letter ? 279.4 : 297.0;
    const double bottom = height - MARGIN_MM - 5.0;
    Ground ground = {.width_mm = width,
                     .bottom_mm = 10.0 * bottom,
                     .body_mm = BODY_LEAST_MM,
                     .caution_mm = height - MARGIN_MM};
    plumb_scene_begin(scene, width, height);
    const double end = compose(scene, working, &ground);
    const double room = BODY_LEAST_MM + bottom - end;
    const double most = body_most(working);
    ground.body_mm =
        has_small_body(working) ? SMALL_BODY_MM : fmin(fmax(room, BODY_LEAST_MM), most);
    ground.bottom_mm = bottom;
    plumb_scene_begin(scene, width, height);
    compose(scene, working, &ground);
}

double plumb_compose_working_strip(PlumbScene *scene, const PlumbWorking *working, double width_mm,
                                   double view_mm)
{
    const bool beside =
        width_mm - 2.0 * STRIP_MARGIN_MM - PLUMB_WORKING_PAPER_MM - MARGIN_MM >= BESIDE_MM;
    const double most =
        beside ? STRIP_BODY_MM : fmax(BODY_LEAST_MM, fmin(STRIP_BODY_MM, 0.45 * view_mm));
    const Ground ground = {.width_mm = width_mm,
                           .bottom_mm = HUGE_VAL,
                           .body_mm = has_small_body(working) ? SMALL_BODY_MM : most,
                           .strip = true};
    plumb_scene_begin(scene, width_mm, 0.0);
    scene->height_mm = compose(scene, working, &ground);
    return scene->height_mm;
}
