/* SPDX-License-Identifier: MIT */
/* A still drawn: marks, the figure that fits them, the model's in pencil behind it, landmarks that
 * were not marked dashed, over the picture where there is one. */
#include <plumbar/still.h>

#include <math.h>
#include <string.h>

static const double page_width_mm = 240.0;
static const double strip_mm = 26.0; /* of words below the picture */
static const PlumbTag no_tag = {PLUMB_TAG_NONE, 0};

typedef struct Over {
    PlumbScene *scene;
    const PlumbStills *stills;
    const PlumbTraced *traced;
    int still;
    const PlumbPictureFit *fit;
    PlumbTextWidth text_width;
    void *text_user;
} Over;

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

static PlumbVec2 paper_of(const Over *over, PlumbVec2 pixel)
{
    return plumb_picture_paper(over->fit, pixel_of(over->stills, over->still, pixel));
}

static PlumbVec2 project(const Over *over, PlumbVec3 point)
{
    return paper_of(over, plumb_camera_project(&over->traced->camera, point, NULL));
}

/* One side of a figure as one line from the foot to the hands; side -1 is the far one. */
static void draw_side(const Over *over, const PlumbPosition *position, double side, PlumbPen pen)
{
    static const PlumbPoint chain[] = {
        PLUMB_PT_toe,    PLUMB_PT_heel,     PLUMB_PT_ankle, PLUMB_PT_knee,  PLUMB_PT_hip,
        PLUMB_PT_lumbar, PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_PT_wrist, PLUMB_PT_grip};
    enum { COUNT = sizeof chain / sizeof chain[0] };
    PlumbVec2 line[COUNT];
    for (int i = 0; i < COUNT; i++) {
        PlumbVec3 point = position->point[chain[i]];
        point.z *= side;
        line[i] = project(over, point);
    }
    plumb_scene_path(over->scene, pen, no_tag, line, COUNT, false);
}

/* The near side; from the front both. */
static void draw_figure(const Over *over, const PlumbPosition *position, PlumbPen pen)
{
    draw_side(over, position, 1.0, pen);
    if (over->traced->front) {
        draw_side(over, position, -1.0, pen);
    }
}

static void draw_disc(const Over *over, PlumbNear near)
{
    enum { POINTS = 48 };
    PlumbVec2 rim[POINTS];
    for (int i = 0; i < POINTS; i++) {
        rim[i] = paper_of(over, plumb_trace_rim(&over->stills->ask, over->traced, near,
                                                i * 6.283185307179586 / POINTS));
    }
    const PlumbPen pen = {.stroke = PLUMB_ROLE_bar,
                          .weight_mm = PLUMB_FINE_MM,
                          .dash = near == PLUMB_NEAR ? PLUMB_SOLID : PLUMB_DASHED};
    plumb_scene_path(over->scene, pen, no_tag, rim, POINTS, true);
}

static bool marked(const Over *over, PlumbLandmark landmark)
{
    const PlumbMarks *const marks = &over->stills->marks;
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        if (mark->still == over->still && mark->name.landmark == landmark &&
            mark->name.near == PLUMB_NEAR) {
            return true;
        }
    }
    return false;
}

static void draw_hidden(const Over *over)
{
    static const double radius_mm = 2.0;
    const PlumbPen dashed = {
        .stroke = PLUMB_ROLE_ink, .weight_mm = PLUMB_FINE_MM, .dash = PLUMB_DASHED};
    for (int i = 0; i <= PLUMB_MARK_bar; i++) {
        const PlumbMarkName name = {(PlumbLandmark)i, PLUMB_NEAR, over->traced->front};
        if (!marked(over, (PlumbLandmark)i)) {
            plumb_scene_circle(
                over->scene, dashed, no_tag,
                paper_of(over, plumb_trace_pixel(&over->stills->ask, over->traced, name)),
                radius_mm);
        }
    }
}

/* Where an upright of the lifter's middle plane meets the floor, and its top within the room. */
static void upright(const Over *over, double x_m, PlumbVec2 *foot, PlumbVec2 *head)
{
    static const double top_m = 1.6;
    const double room_mm = over->fit->top_mm + 1.5 * PLUMB_NORMAL_TEXT_MM;
    *foot = project(over, (PlumbVec3){x_m, 0.0, 0.0});
    *head = project(over, (PlumbVec3){x_m, top_m, 0.0});
    if (head->y < room_mm && foot->y > room_mm) {
        const double share = (foot->y - room_mm) / (foot->y - head->y);
        *head = (PlumbVec2){foot->x + share * (head->x - foot->x), room_mm};
    }
}

static void put_letter(const Over *over, PlumbVec2 at, PlumbAlign align, const char *letter)
{
    plumb_scene_text(
        over->scene, PLUMB_ROLE_ink, no_tag, (PlumbVec2){at.x, at.y - 1.0}, PLUMB_NORMAL_TEXT_MM,
        align, 0.0, letter,
        over->text_width(over->text_user, letter, strlen(letter), PLUMB_NORMAL_TEXT_MM));
}

/* The two plumb lines; within a millimetre of each other they are one. */
static void draw_plumblines(const Over *over)
{
    const PlumbPen bar = {
        .stroke = PLUMB_ROLE_bar, .weight_mm = PLUMB_MEDIUM_MM, .dash = PLUMB_CHAIN};
    const PlumbPen mass = {
        .stroke = PLUMB_ROLE_mass, .weight_mm = PLUMB_MEDIUM_MM, .dash = PLUMB_CHAIN_DOUBLE};
    PlumbVec2 foot[2];
    PlumbVec2 head[2];
    upright(over, over->traced->position.point[PLUMB_PT_bar].x, &foot[0], &head[0]);
    upright(over, over->traced->position.com.x, &foot[1], &head[1]);
    plumb_scene_line(over->scene, bar, no_tag, foot[0], head[0]);
    if (fabs(head[0].x - head[1].x) < 1.0) {
        put_letter(over, head[0], PLUMB_MIDDLE, "B = C");
        return;
    }
    plumb_scene_line(over->scene, mass, no_tag, foot[1], head[1]);
    const bool left = head[0].x < head[1].x;
    put_letter(over, head[0], left ? PLUMB_END : PLUMB_START, "B");
    put_letter(over, head[1], left ? PLUMB_START : PLUMB_END, "C");
}

void plumb_compose_still(PlumbScene *scene, const PlumbStills *stills, int still,
                         const PlumbPictureFit *fit, PlumbTextWidth text_width, void *text_user)
{
    const Over over = {scene,      stills,   &stills->trace.still[still], still, fit,
                       text_width, text_user};
    const PlumbPen ink = {.stroke = PLUMB_ROLE_ink,
                          .weight_mm = PLUMB_HEAVY_MM,
                          .dash = stills->filled ? PLUMB_DASHED : PLUMB_SOLID};
    const PlumbPen pencil = {.stroke = PLUMB_ROLE_pencil, .weight_mm = PLUMB_MEDIUM_MM};
    draw_disc(&over, PLUMB_FAR);
    draw_disc(&over, PLUMB_NEAR);
    draw_plumblines(&over);
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

/* Without a picture the page is that of the marks, with room around them. */
static PlumbVec2 measure(const Over *over, PlumbPictureFit *fit)
{
    const PlumbMarks *const marks = &over->stills->marks;
    PlumbVec2 size = over->stills->ask.size_px[over->still];
    if (!(size.x > 0.0)) {
        PlumbVec2 low = {1e9, 1e9};
        PlumbVec2 high = {-1e9, -1e9};
        for (int i = 0; i < marks->count; i++) {
            if (marks->mark[i].still == over->still) {
                PlumbVec2 at = {marks->mark[i].x_px, marks->mark[i].y_px};
                at.x = over->stills->mirrored[over->still] ? -at.x : at.x;
                low = (PlumbVec2){fmin(low.x, at.x), fmin(low.y, at.y)};
                high = (PlumbVec2){fmax(high.x, at.x), fmax(high.y, at.y)};
            }
        }
        const double room = 0.25 * fmax(high.x - low.x, high.y - low.y) + 1.0;
        size = (PlumbVec2){high.x - low.x + 2.0 * room, high.y - low.y + 2.0 * room};
        fit->origin_px = (PlumbVec2){low.x - room, low.y - room};
    }
    fit->mm_per_px = page_width_mm / size.x;
    return size;
}

static void put_line(const Over *over, double y_mm, double size_mm, PlumbRole role,
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

static void draw_words(const Over *over, double top_mm, PlumbUnits units)
{
    typedef struct Word {
        PlumbReading reading;
        const char *words;
    } Word;
    static const Word side[2][4] = {{{PLUMB_READ_bar_over, "bar ahead of mid-foot"},
                                     {PLUMB_READ_balance, "balance"},
                                     {PLUMB_READ_hip_arm, "bar's arm about the hip"}},
                                    {{(PlumbReading)PLUMB_ANG_back, "back"},
                                     {(PlumbReading)PLUMB_ANG_shin, "shin"},
                                     {(PlumbReading)PLUMB_ANG_thigh, "thigh"},
                                     {PLUMB_READ_hip_height, "hip height"}}};
    static const Word front[2][4] = {
        {{PLUMB_READ_stance, "stance"}, {PLUMB_READ_grip, "grip between the forefingers"}},
        {{PLUMB_READ_knee_outside, "knee outside the ankle"},
         {(PlumbReading)PLUMB_ANG_frontal_shin, "shin from the front"}}};
    for (int row = 0; row < 2; row++) {
        char line[512];
        PlumbText text = plumb_text_begin(line, sizeof line);
        const Word *const word = over->traced->front ? front[row] : side[row];
        for (int i = 0; i < 4 && word[i].words != NULL; i++) {
            put_figure(&text, over->traced, word[i].reading, word[i].words, units);
        }
        put_line(over, top_mm + 6.0 * (row + 1), PLUMB_NORMAL_TEXT_MM, PLUMB_ROLE_ink, line);
    }
    char line[512];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Ink: the figure fitted to the marks (+). Pencil: the model. Dashed: "
                             "hidden, drawn from the fit. B: bar, C: centre of mass.");
    put_line(over, top_mm + 17.5, PLUMB_SMALL_TEXT_MM, PLUMB_ROLE_quiet, line);
    put_line(over, top_mm + 22.0, PLUMB_SMALL_TEXT_MM, PLUMB_ROLE_quiet, plumb_caution_line());
}

/* The marks that lie within the room. */
static void draw_marks(const Over *over, PlumbRect room)
{
    const PlumbMarks *const marks = &over->stills->marks;
    const PlumbPen pen = {.stroke = PLUMB_ROLE_mass, .weight_mm = PLUMB_FINE_MM};
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == over->still) {
            const PlumbVec2 pixel = {marks->mark[i].x_px, marks->mark[i].y_px};
            const PlumbVec2 at = paper_of(over, pixel);
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
static void cover(const Over *over, PlumbVec2 *low, PlumbVec2 *high)
{
    enum { POINTS = 16 };
    const PlumbMarks *const marks = &over->stills->marks;
    const PlumbPosition *const figure[2] = {&over->traced->position,
                                            &over->stills->answer[over->still].start};
    *low = (PlumbVec2){HUGE_VAL, HUGE_VAL};
    *high = (PlumbVec2){-HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        if (mark->still == over->still && mark->name.landmark <= PLUMB_MARK_bar) {
            take_in(low, high, paper_of(over, (PlumbVec2){mark->x_px, mark->y_px}));
        }
    }
    const int figures = over->stills->bare ? 1 : 2;
    for (int i = 0; i < figures * PLUMB_POINT_COUNT; i++) {
        PlumbVec3 point = figure[i % figures]->point[i / figures];
        take_in(low, high, project(over, point));
        point.z = over->traced->front ? -point.z : point.z;
        take_in(low, high, project(over, point));
    }
    for (int i = 0; i < POINTS; i++) {
        const double turn_rad = i * 6.283185307179586 / POINTS;
        for (int near = 0; near < 2; near++) {
            const PlumbVec2 rim =
                plumb_trace_rim(&over->stills->ask, over->traced, (PlumbNear)near, turn_rad);
            take_in(low, high, paper_of(over, rim));
        }
    }
}

void plumb_compose_still_in(PlumbScene *scene, const PlumbStills *stills, int still, PlumbRect room,
                            PlumbTextWidth text_width, void *text_user, PlumbRect *picture)
{
    static const double air = 0.06; /* around what is drawn, a share of its size */
    PlumbPictureFit fit = {.mm_per_px = 1.0};
    const Over over = {scene,      stills,   &stills->trace.still[still], still, &fit,
                       text_width, text_user};
    const PlumbPen frame = {.stroke = PLUMB_ROLE_rule, .weight_mm = PLUMB_FINE_MM};
    const PlumbVec2 size_px = stills->ask.size_px[still];
    PlumbVec2 low;
    PlumbVec2 high;
    cover(&over, &low, &high);
    const double above_mm = 2.0 * PLUMB_NORMAL_TEXT_MM; /* letters of the plumb lines */
    const double wide = (1.0 + 2.0 * air) * (high.x - low.x);
    const double tall = (1.0 + 2.0 * air) * (high.y - low.y);
    fit.mm_per_px = fmin(room.width_mm / wide, (room.height_mm - above_mm) / tall);
    fit.at_mm =
        (PlumbVec2){room.x_mm + 0.5 * room.width_mm, room.y_mm + 0.5 * (room.height_mm + above_mm)};
    fit.origin_px = (PlumbVec2){0.5 * (low.x + high.x), 0.5 * (low.y + high.y)};
    fit.top_mm = room.y_mm;
    const PlumbVec2 corner = plumb_picture_paper(&fit, (PlumbVec2){0.0, 0.0});
    *picture =
        (PlumbRect){corner.x, corner.y, size_px.x * fit.mm_per_px, size_px.y * fit.mm_per_px};
    plumb_scene_rect(scene, frame, no_tag, room);
    plumb_compose_still(scene, stills, still, &fit, text_width, text_user);
    draw_marks(&over, room);
}

double plumb_compose_still_page(PlumbScene *scene, const PlumbStills *stills, int still,
                                double top_mm, PlumbUnits units, PlumbTextWidth text_width,
                                void *text_user, PlumbRect *picture)
{
    PlumbPictureFit fit = {.at_mm = {0.0, top_mm}, .top_mm = top_mm};
    const Over over = {scene,      stills,   &stills->trace.still[still], still, &fit,
                       text_width, text_user};
    const PlumbVec2 size_px = measure(&over, &fit);
    const PlumbPen frame = {.stroke = PLUMB_ROLE_rule, .weight_mm = PLUMB_FINE_MM};
    const double height_mm = size_px.y * fit.mm_per_px;
    *picture = (PlumbRect){0.0, top_mm, page_width_mm, height_mm};
    if (!(top_mm > 0.0)) {
        plumb_scene_begin(scene, page_width_mm, height_mm + strip_mm);
        PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
        plumb_text_string(&title, "A still held against the model: ");
        plumb_text_string(&title, plumb_lift_name(stills->setup.lift));
    }
    scene->height_mm = top_mm + height_mm + strip_mm;
    plumb_scene_rect(scene, frame, no_tag, *picture);
    plumb_compose_still(scene, stills, still, &fit, text_width, text_user);
    draw_marks(&over, *picture);
    draw_words(&over, top_mm + height_mm, units);
    return height_mm + strip_mm;
}
