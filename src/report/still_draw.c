/* SPDX-License-Identifier: MIT */
/* A still drawn: marks, the figure that fits them, the model's in pencil behind it, landmarks that
 * were not marked dashed, over the picture where there is one. */
#include "report/still_over.h"

#include <math.h>
#include <string.h>

static const PlumbTag no_tag = {PLUMB_TAG_NONE, 0};

PlumbVec2 plumb_picture_paper(const PlumbPictureFit *fit, PlumbVec2 pixel)
{
    const double x = fit->mirror_px > 0.0 ? fit->mirror_px - pixel.x : pixel.x;
    return (PlumbVec2){fit->at_mm.x + (x - fit->origin_px.x) * fit->mm_per_px,
                       fit->at_mm.y + (pixel.y - fit->origin_px.y) * fit->mm_per_px};
}

PlumbVec2 plumb_picture_pixel(const PlumbPictureFit *fit, PlumbVec2 at_mm)
{
    const double x = fit->origin_px.x + (at_mm.x - fit->at_mm.x) / fit->mm_per_px;
    return (PlumbVec2){fit->mirror_px > 0.0 ? fit->mirror_px - x : x,
                       fit->origin_px.y + (at_mm.y - fit->at_mm.y) / fit->mm_per_px};
}

/* A pixel of the fit, which saw a lifter who faces left mirrored and a camera that stood. */
static PlumbVec2 pixel_of(const PlumbStills *stills, int still, PlumbVec2 pixel)
{
    const PlumbShift *const moved = stills->moved;
    if (stills->mirrored[still]) {
        pixel.x = stills->ask.size_px[still].x - pixel.x;
    }
    if (moved == NULL) {
        return pixel;
    }
    return (PlumbVec2){moved->along * pixel.x - moved->across * pixel.y + moved->shift_px.x,
                       moved->across * pixel.x + moved->along * pixel.y + moved->shift_px.y};
}

PlumbVec2 plumb_stills_pixel(const PlumbStills *stills, int still, PlumbMarkName name)
{
    return pixel_of(stills, still,
                    plumb_trace_pixel(&stills->ask, &stills->trace.still[still], name));
}

PlumbVec2 plumb_still_paper(const PlumbStillOver *over, PlumbVec2 pixel)
{
    return plumb_picture_paper(over->fit, pixel_of(over->stills, over->still, pixel));
}

PlumbVec2 plumb_still_project(const PlumbStillOver *over, PlumbVec3 point)
{
    return plumb_still_paper(over, plumb_camera_project(&over->traced->camera, point, NULL));
}

/* One side of a figure as one line from the foot to the hands; side -1 is the far one. */
static void draw_side(const PlumbStillOver *over, const PlumbPosition *position, double side,
                      PlumbPen pen)
{
    static const PlumbPoint chain[] = {
        PLUMB_PT_toe,    PLUMB_PT_heel,     PLUMB_PT_ankle, PLUMB_PT_knee,  PLUMB_PT_hip,
        PLUMB_PT_lumbar, PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_PT_wrist, PLUMB_PT_grip};
    enum { COUNT = sizeof chain / sizeof chain[0] };
    PlumbVec2 line[COUNT];
    for (int i = 0; i < COUNT; i++) {
        PlumbVec3 point = position->point[chain[i]];
        point.z *= side;
        line[i] = plumb_still_project(over, point);
    }
    plumb_scene_path(over->scene, pen, no_tag, line, COUNT, false);
}

/* The near side; from the front both. */
static void draw_figure(const PlumbStillOver *over, const PlumbPosition *position, PlumbPen pen)
{
    if (over->stills->setup.lift == PLUMB_BENCH) {
        plumb_still_press_figure(over, position, pen);
        return;
    }
    draw_side(over, position, 1.0, pen);
    if (over->traced->front) {
        draw_side(over, position, -1.0, pen);
    }
}

static void draw_disc(const PlumbStillOver *over, PlumbNear near)
{
    enum { POINTS = 96 };
    PlumbVec2 rim[POINTS];
    for (int i = 0; i < POINTS; i++) {
        rim[i] = plumb_still_paper(over, plumb_trace_rim(&over->stills->ask, over->traced, near,
                                                         i * 6.283185307179586 / POINTS));
    }
    const bool seen =
        near == PLUMB_NEAR || (over->stills->setup.lift == PLUMB_BENCH && over->traced->front);
    const PlumbPen pen = {.stroke = PLUMB_ROLE_bar,
                          .weight_mm = PLUMB_FINE_MM,
                          .dash = seen ? PLUMB_SOLID : PLUMB_DASHED};
    plumb_scene_path(over->scene, pen, no_tag, rim, POINTS, true);
}

static bool marked(const PlumbStillOver *over, PlumbMarkName name)
{
    const PlumbMarks *const marks = &over->stills->marks;
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        if (mark->still == over->still && mark->name.landmark == name.landmark &&
            mark->name.near == name.near) {
            return true;
        }
    }
    return false;
}

/* Of a press the arm alone is read, from an end both. */
static void draw_hidden(const PlumbStillOver *over)
{
    static const double radius_mm = 2.0;
    const PlumbPen dashed = {
        .stroke = PLUMB_ROLE_ink, .weight_mm = PLUMB_FINE_MM, .dash = PLUMB_DASHED};
    const bool press = over->stills->setup.lift == PLUMB_BENCH;
    const bool front = over->traced->front;
    const int sides = press && front ? 2 : 1;
    for (int i = press ? PLUMB_MARK_shoulder : 0; i <= PLUMB_MARK_bar; i++) {
        for (int near = 0; near < sides; near++) {
            const PlumbMarkName name = {(PlumbLandmark)i, (PlumbNear)near, front};
            const PlumbVec2 at = plumb_trace_pixel(&over->stills->ask, over->traced, name);
            if (!marked(over, name)) {
                plumb_scene_circle(over->scene, dashed, no_tag, plumb_still_paper(over, at),
                                   radius_mm);
            }
        }
    }
}

void plumb_still_upright(const PlumbStillOver *over, PlumbVec3 foot, double top_m,
                         PlumbVec2 end_mm[2])
{
    const double room_mm = over->fit->top_mm + 1.5 * PLUMB_NORMAL_TEXT_MM;
    PlumbVec2 *const head = &end_mm[1];
    end_mm[0] = plumb_still_project(over, foot);
    foot.y = top_m;
    *head = plumb_still_project(over, foot);
    if (head->y < room_mm && end_mm[0].y > room_mm) {
        const double share = (end_mm[0].y - room_mm) / (end_mm[0].y - head->y);
        *head = (PlumbVec2){end_mm[0].x + share * (head->x - end_mm[0].x), room_mm};
    }
}

void plumb_still_letter(const PlumbStillOver *over, PlumbVec2 at, PlumbAlign align,
                        const char *letter)
{
    plumb_scene_text(
        over->scene, PLUMB_ROLE_ink, no_tag, (PlumbVec2){at.x, at.y - 1.0}, PLUMB_NORMAL_TEXT_MM,
        align, 0.0, letter,
        over->text_width(over->text_user, letter, strlen(letter), PLUMB_NORMAL_TEXT_MM));
}

const char *plumb_still_lines(PlumbLift lift, bool front)
{
    return lift != PLUMB_BENCH ? "B: bar, C: centre of mass."
           : front             ? "H: hand, S: shoulder."
                               : "B: bar, S: shoulder.";
}

/* The two plumb lines; within a millimetre of each other they are one. */
static void draw_plumblines(const PlumbStillOver *over)
{
    const PlumbPen bar = {
        .stroke = PLUMB_ROLE_bar, .weight_mm = PLUMB_MEDIUM_MM, .dash = PLUMB_CHAIN};
    const PlumbPen mass = {
        .stroke = PLUMB_ROLE_mass, .weight_mm = PLUMB_MEDIUM_MM, .dash = PLUMB_CHAIN_DOUBLE};
    const double top_m = 1.6;
    PlumbVec2 line[2][2];
    const PlumbPosition *const position = &over->traced->position;
    plumb_still_upright(over, (PlumbVec3){position->point[PLUMB_PT_bar].x, 0.0, 0.0}, top_m,
                        line[0]);
    plumb_still_upright(over, (PlumbVec3){position->com.x, 0.0, 0.0}, top_m, line[1]);
    const PlumbVec2 head[2] = {line[0][1], line[1][1]};
    plumb_scene_line(over->scene, bar, no_tag, line[0][0], head[0]);
    if (fabs(head[0].x - head[1].x) < 1.0) {
        plumb_still_letter(over, head[0], PLUMB_MIDDLE, "B = C");
        return;
    }
    plumb_scene_line(over->scene, mass, no_tag, line[1][0], head[1]);
    const bool left = head[0].x < head[1].x;
    plumb_still_letter(over, head[0], left ? PLUMB_END : PLUMB_START, "B");
    plumb_still_letter(over, head[1], left ? PLUMB_START : PLUMB_END, "C");
}

void plumb_compose_still(PlumbScene *scene, const PlumbStills *stills, int still,
                         const PlumbPictureFit *fit, PlumbTextWidth text_width, void *text_user)
{
    const PlumbStillOver over = {scene,      stills,   &stills->trace.still[still], still, fit,
                                 text_width, text_user};
    const PlumbPen ink = {.stroke = PLUMB_ROLE_ink,
                          .weight_mm = PLUMB_HEAVY_MM,
                          .dash = stills->filled ? PLUMB_DASHED : PLUMB_SOLID};
    const PlumbPen pencil = {.stroke = PLUMB_ROLE_pencil, .weight_mm = PLUMB_MEDIUM_MM};
    draw_disc(&over, PLUMB_FAR);
    draw_disc(&over, PLUMB_NEAR);
    if (stills->setup.lift == PLUMB_BENCH) {
        plumb_still_press_behind(&over);
    } else {
        draw_plumblines(&over);
    }
    if (!stills->bare) {
        draw_figure(&over, &stills->answer[still].start, pencil);
    }
    draw_figure(&over, &over.traced->position, ink);
    draw_hidden(&over);
}

void plumb_compose_mark(PlumbScene *scene, PlumbPen pen, PlumbVec2 at_mm)
{
    static const double arm_mm = 1.6;
    static const PlumbPen halo = {.stroke = PLUMB_ROLE_paper, .weight_mm = 1.1};
    for (int i = 0; i < 2; i++) {
        const PlumbPen one = i == 0 ? halo : pen;
        plumb_scene_line(scene, one, no_tag, (PlumbVec2){at_mm.x - arm_mm, at_mm.y},
                         (PlumbVec2){at_mm.x + arm_mm, at_mm.y});
        plumb_scene_line(scene, one, no_tag, (PlumbVec2){at_mm.x, at_mm.y - arm_mm},
                         (PlumbVec2){at_mm.x, at_mm.y + arm_mm});
    }
}
