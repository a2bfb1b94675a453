/* SPDX-License-Identifier: MIT */
/* A page of a still: over its picture, or alone, as large as its figure fits, with floor and scale;
 * and a still within a room of another page. */
#include "report/still_over.h"

#include <math.h>
#include <string.h>

static const double page_width_mm = 240.0;
static const double strip_mm = 26.0; /* of words below the picture */
static const double air = 0.06;      /* around what is drawn, a share of its size */
static const double letters_mm = 2.0 * PLUMB_NORMAL_TEXT_MM; /* of the plumb lines, above them */
static const double scale_mm = 12.0;       /* room of the length below a figure drawn alone */
static const double alone_most_mm = 190.0; /* of such a figure */
static const double shoe_m = 0.3;
static const PlumbTag no_tag = {PLUMB_TAG_NONE, 0};
static const PlumbPen frame = {.stroke = PLUMB_ROLE_rule, .weight_mm = PLUMB_FINE_MM};

static void put_line(const PlumbStillOver *over, double y_mm, double size_mm, PlumbRole role,
                     const char *words)
{
    plumb_scene_text(over->scene, role, no_tag, (PlumbVec2){4.0, y_mm}, size_mm, PLUMB_START, 0.0,
                     words, over->text_width(over->text_user, words, strlen(words), size_mm));
}

static void put_figure(PlumbText *text, const PlumbTraced *traced, PlumbReading reading,
                       const char *words, PlumbUnits units)
{
    plumb_text_string(text, text->length > 0 ? "; " : "");
    plumb_text_string(text, words);
    plumb_text_string(text, " ");
    plumb_text_quantity(text, traced->value[reading], plumb_reading_quantity(reading), units);
    plumb_text_string(text, " ± ");
    plumb_text_quantity(text, traced->sd[reading], plumb_reading_quantity(reading), units);
}

typedef struct Word {
    PlumbReading reading;
    const char *words;
} Word;

enum { WORD_ROWS = 2, ROW_WORDS = 4 };

/* The figures of a view: of a lifter who stands, then of a press. */
static const Word side_words[2][WORD_ROWS][ROW_WORDS] = {
    {{{PLUMB_READ_bar_over, "bar ahead of mid-foot"},
      {PLUMB_READ_balance, "balance"},
      {PLUMB_READ_hip_arm, "bar's arm about the hip"}},
     {{(PlumbReading)PLUMB_ANG_back, "back"},
      {(PlumbReading)PLUMB_ANG_shin, "shin"},
      {(PlumbReading)PLUMB_ANG_thigh, "thigh"},
      {PLUMB_READ_hip_height, "hip height"}}},
    {{{PLUMB_READ_bar_from_shoulder, "bar from the shoulders toward the feet"},
      {PLUMB_READ_bar_above_shoulder, "above them"}},
     {{PLUMB_READ_upper_arm, "upper arm from the trunk"},
      {PLUMB_READ_elbow_off_bar, "elbow from under the bar toward the feet"}}},
};
static const Word front_words[2][WORD_ROWS][ROW_WORDS] = {
    {{{PLUMB_READ_stance, "stance"}, {PLUMB_READ_grip, "grip between the forefingers"}},
     {{PLUMB_READ_knee_outside, "knee outside the ankle"},
      {(PlumbReading)PLUMB_ANG_frontal_shin, "shin from the front"}}},
    {{{PLUMB_READ_grip, "grip between the forefingers"},
      {PLUMB_READ_bar_above_shoulder, "bar above the shoulders"}},
     {{PLUMB_READ_upper_arm, "upper arm from the trunk"},
      {PLUMB_READ_forearm_front, "forearm from upright"},
      {PLUMB_READ_elbow_off_hand, "elbow outside the hand"}}},
};

static void draw_words(const PlumbStillOver *over, double top_mm, PlumbUnits units)
{
    const int press = over->stills->setup.lift == PLUMB_BENCH ? 1 : 0;
    const bool front = over->traced->front;
    for (int row = 0; row < WORD_ROWS; row++) {
        char line[512];
        PlumbText text = plumb_text_begin(line, sizeof line);
        const Word *const word = front ? front_words[press][row] : side_words[press][row];
        for (int i = 0; i < ROW_WORDS && word[i].words != NULL; i++) {
            put_figure(&text, over->traced, word[i].reading, word[i].words, units);
        }
        put_line(over, top_mm + 6.0 * (row + 1), PLUMB_NORMAL_TEXT_MM, PLUMB_ROLE_ink, line);
    }
    char line[512];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Ink: the figure fitted to the marks (+). Pencil: the model. Dashed: "
                             "hidden, drawn from the fit. ");
    plumb_text_string(&text, plumb_still_lines(over->stills->setup.lift, front));
    put_line(over, top_mm + 17.5, PLUMB_SMALL_TEXT_MM, PLUMB_ROLE_quiet, line);
    put_line(over, top_mm + 22.0, PLUMB_SMALL_TEXT_MM, PLUMB_ROLE_quiet, plumb_caution_line());
}

/* The marks that lie within the room. */
static void draw_marks(const PlumbStillOver *over, PlumbRect room)
{
    const PlumbMarks *const marks = &over->stills->marks;
    const PlumbPen pen = {.stroke = PLUMB_ROLE_mass, .weight_mm = PLUMB_FINE_MM};
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == over->still) {
            const PlumbVec2 pixel = {marks->mark[i].x_px, marks->mark[i].y_px};
            const PlumbVec2 at = plumb_still_paper(over, pixel);
            if (at.x >= room.x_mm && at.x <= room.x_mm + room.width_mm && at.y >= room.y_mm &&
                at.y <= room.y_mm + room.height_mm) {
                plumb_compose_mark(over->scene, pen, at);
            }
        }
    }
}

/* Grows a box by a point. */
static void take_in(PlumbVec2 *low, PlumbVec2 *high, PlumbVec2 at)
{
    *low = (PlumbVec2){fmin(low->x, at.x), fmin(low->y, at.y)};
    *high = (PlumbVec2){fmax(high->x, at.x), fmax(high->y, at.y)};
}

/* The pixels that the lines of a still and the marks on its lifter cover. over->fit: a pixel a
 * millimetre. */
static void cover(const PlumbStillOver *over, PlumbVec2 *low, PlumbVec2 *high)
{
    enum { POINTS = 16 };
    const PlumbMarks *const marks = &over->stills->marks;
    const PlumbPosition *const figure[2] = {&over->traced->position,
                                            &over->stills->answer[over->still].start};
    *low = (PlumbVec2){HUGE_VAL, HUGE_VAL};
    *high = (PlumbVec2){-HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        const bool drawn =
            over->stills->setup.lift != PLUMB_BENCH || mark->name.landmark >= PLUMB_MARK_shoulder;
        if (mark->still == over->still && mark->name.landmark <= PLUMB_MARK_bar && drawn) {
            take_in(low, high, plumb_still_paper(over, (PlumbVec2){mark->x_px, mark->y_px}));
        }
    }
    const int figures = over->stills->bare ? 1 : 2;
    const bool press = over->stills->setup.lift == PLUMB_BENCH;
    for (int k = 0; press && k < figures; k++) {
        PlumbVec3 point[PLUMB_STILL_PRESS_POINTS];
        const int count = plumb_still_press_points(over, figure[k], point);
        for (int i = 0; i < count; i++) {
            take_in(low, high, plumb_still_project(over, point[i]));
        }
    }
    for (int i = 0; !press && i < figures * PLUMB_POINT_COUNT; i++) {
        PlumbVec3 point = figure[i % figures]->point[i / figures];
        take_in(low, high, plumb_still_project(over, point));
        point.z = over->traced->front ? -point.z : point.z;
        take_in(low, high, plumb_still_project(over, point));
    }
    for (int i = 0; i < POINTS; i++) {
        const double turn_rad = i * 6.283185307179586 / POINTS;
        for (int near = 0; near < 2; near++) {
            const PlumbVec2 rim =
                plumb_trace_rim(&over->stills->ask, over->traced, (PlumbNear)near, turn_rad);
            take_in(low, high, plumb_still_paper(over, rim));
        }
    }
}

/* Puts all that is drawn into the room, as large as it fits, letters of the plumb lines above. */
static void fit_into(const PlumbStillOver *over, PlumbRect room, PlumbPictureFit *fit)
{
    PlumbVec2 low;
    PlumbVec2 high;
    *fit = (PlumbPictureFit){.mm_per_px = 1.0};
    cover(over, &low, &high);
    const double wide = (1.0 + 2.0 * air) * (high.x - low.x);
    const double tall = (1.0 + 2.0 * air) * (high.y - low.y);
    fit->mm_per_px = fmin(room.width_mm / wide, (room.height_mm - letters_mm) / tall);
    fit->at_mm = (PlumbVec2){room.x_mm + 0.5 * room.width_mm,
                             room.y_mm + 0.5 * (room.height_mm + letters_mm)};
    fit->origin_px = (PlumbVec2){0.5 * (low.x + high.x), 0.5 * (low.y + high.y)};
    fit->top_mm = room.y_mm;
}

void plumb_compose_still_in(PlumbScene *scene, const PlumbStills *stills, int still, PlumbRect room,
                            PlumbTextWidth text_width, void *text_user, PlumbRect *picture)
{
    PlumbPictureFit fit;
    const PlumbStillOver over = {scene,      stills,   &stills->trace.still[still], still, &fit,
                                 text_width, text_user};
    const PlumbVec2 size_px = stills->ask.size_px[still];
    fit_into(&over, room, &fit);
    const PlumbVec2 corner = plumb_picture_paper(&fit, (PlumbVec2){0.0, 0.0});
    *picture =
        (PlumbRect){corner.x, corner.y, size_px.x * fit.mm_per_px, size_px.y * fit.mm_per_px};
    plumb_scene_rect(scene, frame, no_tag, room);
    plumb_compose_still(scene, stills, still, &fit, text_width, text_user);
    draw_marks(&over, room);
}

/* The height at which a figure drawn alone fills the page's width, up to a square's. */
static double alone_height(const PlumbStillOver *over, PlumbPictureFit *fit)
{
    PlumbVec2 low;
    PlumbVec2 high;
    *fit = (PlumbPictureFit){.mm_per_px = 1.0};
    cover(over, &low, &high);
    const double share = (1.0 + 2.0 * air) * (high.y - low.y) / (high.x - low.x);
    return fmin(share * page_width_mm, alone_most_mm) + letters_mm + scale_mm;
}

/* Along the floor, from x or from the lifter's left in the view from the front, in the middle. */
static PlumbVec2 on_floor(const PlumbStillOver *over, double along_m)
{
    return plumb_still_project(over, over->traced->front ? (PlumbVec3){0.0, 0.0, -along_m}
                                                         : (PlumbVec3){along_m, 0.0, 0.0});
}

/* The floor, and below it a length to scale: in the plane of the lifter's middle. */
static void draw_floor(const PlumbStillOver *over, PlumbRect room, PlumbUnits units)
{
    const PlumbPosition *const position = &over->traced->position;
    const PlumbPen pen = {.stroke = PLUMB_ROLE_ink, .weight_mm = PLUMB_FINE_MM};
    const bool press = over->stills->setup.lift == PLUMB_BENCH;
    const double middle_m = over->traced->front ? 0.0
                            : press             ? position->point[PLUMB_PT_shoulder].x
                                                : position->point[PLUMB_PT_heel].x + 0.5 * shoe_m;
    const double scale_m = units == PLUMB_METRIC ? 0.5 : 20.0 * 0.0254;
    const char *const words =
        units == PLUMB_METRIC ? "50 cm, at the lifter" : "20 in, at the lifter";
    PlumbVec2 end[2] = {on_floor(over, middle_m - 0.5 * scale_m),
                        on_floor(over, middle_m + 0.5 * scale_m)};
    const double bottom_mm = room.y_mm + room.height_mm;
    const double down_mm = bottom_mm - 4.0 - fmax(end[0].y, end[1].y);
    const double left_mm = room.x_mm + 4.0;
    const double right_mm = room.x_mm + room.width_mm - 4.0;
    const double slope = (end[1].y - end[0].y) / (end[1].x - end[0].x);
    if (!press) { /* a bench is drawn, and its floor lies below the room */
        plumb_scene_line(over->scene, pen, no_tag,
                         (PlumbVec2){left_mm, end[0].y + (left_mm - end[0].x) * slope},
                         (PlumbVec2){right_mm, end[0].y + (right_mm - end[0].x) * slope});
    }
    for (int i = 0; i < 2; i++) {
        end[i].y += down_mm;
        plumb_scene_line(over->scene, pen, no_tag, (PlumbVec2){end[i].x, end[i].y - 1.5},
                         (PlumbVec2){end[i].x, end[i].y + 1.5});
    }
    plumb_scene_line(over->scene, pen, no_tag, end[0], end[1]);
    plumb_scene_text(over->scene, PLUMB_ROLE_ink, no_tag,
                     (PlumbVec2){0.5 * (end[0].x + end[1].x), 0.5 * (end[0].y + end[1].y) - 1.5},
                     PLUMB_SMALL_TEXT_MM, PLUMB_MIDDLE, 0.0, words,
                     over->text_width(over->text_user, words, strlen(words), PLUMB_SMALL_TEXT_MM));
}

static void begin_page(PlumbScene *scene, const PlumbStills *stills, double height_mm)
{
    plumb_scene_begin(scene, page_width_mm, height_mm);
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, "A still held against the model: ");
    plumb_text_string(&title, plumb_lift_name(stills->setup.lift));
}

double plumb_compose_still_page(PlumbScene *scene, const PlumbStills *stills, int still,
                                double top_mm, PlumbUnits units, PlumbTextWidth text_width,
                                void *text_user, PlumbRect *picture)
{
    const PlumbVec2 size_px = stills->ask.size_px[still];
    const bool alone = picture == NULL || !(size_px.x > 0.0);
    PlumbPictureFit fit = {.at_mm = {0.0, top_mm}, .top_mm = top_mm};
    const PlumbStillOver over = {scene,      stills,   &stills->trace.still[still], still, &fit,
                                 text_width, text_user};
    fit.mm_per_px = alone ? 1.0 : page_width_mm / size_px.x;
    const double height_mm = alone ? alone_height(&over, &fit) : size_px.y * fit.mm_per_px;
    const PlumbRect room = {0.0, top_mm, page_width_mm, height_mm};
    if (!(top_mm > 0.0)) {
        begin_page(scene, stills, height_mm + strip_mm);
    }
    scene->height_mm = top_mm + height_mm + strip_mm;
    plumb_scene_rect(scene, frame, no_tag, room);
    if (alone) {
        fit_into(&over, (PlumbRect){0.0, top_mm, page_width_mm, height_mm - scale_mm}, &fit);
        draw_floor(&over, room, units);
    } else {
        *picture = room;
    }
    plumb_compose_still(scene, stills, still, &fit, text_width, text_user);
    draw_marks(&over, room);
    draw_words(&over, top_mm + height_mm, units);
    return height_mm + strip_mm;
}
