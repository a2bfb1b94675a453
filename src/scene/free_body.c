/* SPDX-License-Identifier: MIT */
/* The free body of a working: what is cut free, the forces on it, and their levers. */
#include <plumbar/working.h>

#include "scene/forces.h"
#include "scene/mark.h"
#include "scene/parts.h"

#include <math.h>
#include <stddef.h>

/* Parts of the side view as plumb_parts_side lists them, as bits. */
enum {
    PART_HEAD = 3,
    PART_THORAX = 4,
    PART_PELVIS = 8,
    PART_FOOT = 16,
    PART_SHANK = 32,
    PART_THIGH = 64,
    PART_ARM = 128 | 256 | 512,
    PART_ALL = 1023
};

/* What is cut free at a joint: all above it. */
static unsigned parts_above(PlumbJoint joint)
{
    static const unsigned parts[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PART_ALL & ~(unsigned)PART_FOOT,
        [PLUMB_JOINT_knee] = PART_ALL & ~(unsigned)(PART_FOOT | PART_SHANK),
        [PLUMB_JOINT_hip] = PART_HEAD | PART_THORAX | PART_PELVIS | PART_ARM,
        [PLUMB_JOINT_back] = PART_HEAD | PART_THORAX | PART_ARM,
        [PLUMB_JOINT_shoulder] = PART_ARM,
    };
    return parts[joint];
}

static bool is_space(PlumbExplainKind kind)
{
    return kind >= PLUMB_EXPLAIN_knee_extension && kind <= PLUMB_EXPLAIN_hip_frontal;
}

bool plumb_cuts_free(PlumbExplainKind kind)
{
    return is_space(kind) || kind == PLUMB_EXPLAIN_moment || kind == PLUMB_EXPLAIN_effort ||
           kind == PLUMB_EXPLAIN_press_moment || kind == PLUMB_EXPLAIN_press_effort;
}

static unsigned parts_cut(PlumbQuestion question)
{
    const PlumbExplainKind kind = question.kind;
    if (kind == PLUMB_EXPLAIN_moment || kind == PLUMB_EXPLAIN_effort) {
        return parts_above(question.joint);
    }
    if (!is_space(kind)) {
        return PART_ALL;
    }
    return kind == PLUMB_EXPLAIN_ankle_along_foot ? PART_FOOT
           : kind == PLUMB_EXPLAIN_hip_frontal    ? PART_FOOT | PART_SHANK | PART_THIGH
                                                  : PART_FOOT | PART_SHANK;
}

static void draw_part(const PlumbStage *stage, const PlumbPart *part, bool cut)
{
    PlumbRound round[PLUMB_PART_BALLS];
    for (int i = 0; i < part->count; i++) {
        round[i] = (PlumbRound){plumb_stage_paper(stage, part->centre_m[i]),
                                part->radius_m[i] * 1000.0 / stage->fit.scale_n};
    }
    PlumbVec2 hull[PLUMB_HULL_POINTS];
    const int count = plumb_hull(round, part->count, hull);
    PlumbPen pen = cut ? PEN_FINE : PEN_REFERENCE;
    pen.fill = cut ? PLUMB_ROLE_limb : PLUMB_ROLE_none;
    plumb_scene_path(stage->board.scene, pen, TAG_NONE, hull, count, true);
    if (part->joint_line && cut) {
        plumb_scene_line(stage->board.scene, PEN_RULE, TAG_NONE, round[0].centre_mm,
                         round[part->count - 1].centre_mm);
    }
}

static void draw_figure(const PlumbStage *stage, const PlumbPosition *position, unsigned cut)
{
    PlumbParts parts;
    const PlumbExplainSubject *s = stage->working->subject;
    plumb_parts_side(&parts, &s->lifter->body, &s->answer->setup, position);
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < parts.count; i++) {
            const bool is_cut = (cut >> i & 1U) != 0;
            const bool leg = i >= 4 && i <= 6;
            const bool shown = leg || !plumb_leg_alone(stage->working->explanation->drawn.kind);
            if (is_cut == (pass == 1) && shown) {
                draw_part(stage, &parts.part[i], is_cut);
            }
        }
    }
}

static void draw_bar(const PlumbStage *stage, const PlumbPosition *position)
{
    const PlumbEquipment *e = &stage->working->subject->lifter->equipment;
    const PlumbVec2 at = plumb_stage_paper(stage, position->point[PLUMB_PT_bar]);
    const double mm = 1000.0 / stage->fit.scale_n;
    plumb_scene_circle(stage->board.scene, PEN_BAR, TAG_NONE, at, 0.5 * e->disc_diameter_m * mm);
    PlumbPen solid = PEN_BAR;
    solid.fill = PLUMB_ROLE_bar;
    plumb_scene_circle(stage->board.scene, solid, TAG_NONE, at,
                       fmax(0.5 * e->shaft_diameter_m * mm, 0.8));
}

static void masses_of(const PlumbStage *stage, PlumbMassPoint mass[PLUMB_MASS_COUNT])
{
    const PlumbExplainSubject *s = stage->working->subject;
    if (s->motion != NULL) {
        for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
            mass[i] = s->motion->mass[i];
        }
        return;
    }
    plumb_position_masses(s->lifter, &s->answer->setup, stage->at, mass);
}

/* Weights of all masses from `first` on, and their levers from x0; returns the greatest mass. */
static double draw_weights(const PlumbStage *stage, int first, double from_m)
{
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    masses_of(stage, mass);
    double most = 0.0;
    for (int i = first; i < PLUMB_MASS_COUNT; i++) {
        most = fmax(most, mass[i].mass_kg);
    }
    for (int i = first; i < PLUMB_MASS_COUNT; i++) {
        char words[16];
        plumb_force_number(words, sizeof words, i - first + 1);
        plumb_force_lever(stage, from_m, mass[i].at_m.x, i - first, words);
    }
    for (int i = first; i < PLUMB_MASS_COUNT; i++) {
        const PlumbRole role = i == PLUMB_MASS_bar ? PLUMB_ROLE_bar : PLUMB_ROLE_mass;
        plumb_force_draw(stage, mass[i].at_m, (PlumbVec2){0.0, -mass[i].mass_kg}, most, role);
    }
    return most;
}

/* Their numbers, when all else is drawn. */
static void name_weights(const PlumbStage *stage, int first, double most)
{
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    masses_of(stage, mass);
    for (int i = first; i < PLUMB_MASS_COUNT; i++) {
        plumb_force_name(stage, mass[i].at_m, (PlumbVec2){0.0, -mass[i].mass_kg}, most,
                         i - first + 1);
    }
}

static void draw_moment(const PlumbStage *stage)
{
    const PlumbExplanation *e = stage->working->explanation;
    const PlumbJoint joint = e->drawn.joint;
    const int first = (int)plumb_joint_first_mass(joint);
    const PlumbVec3 at = plumb_position_joint(stage->at, joint);
    const PlumbVec2 on = plumb_stage_paper(stage, at);
    const bool turned = joint == PLUMB_JOINT_knee || joint == PLUMB_JOINT_shoulder;
    const double moment = stage->working->subject->motion != NULL
                              ? stage->working->subject->motion->moment_both_n_m[joint]
                              : stage->at->moment_both_n_m[joint];
    plumb_force_line(stage, at, PLUMB_MASS_COUNT - first - 1, PLUMB_ROLE_rule);
    const double most = draw_weights(stage, first, at.x);
    const PlumbVec2 up = {on.x, fmax(on.y - 22.0, stage->rect.y_mm + 1.0)};
    plumb_force_arrow(stage, PLUMB_ROLE_ink, on, up);
    plumb_force_joint(stage, on);
    plumb_force_turn(stage, on, turned ? moment < 0.0 : moment >= 0.0);
    plumb_force_word(stage, on, up, "R");
    name_weights(stage, first, most);
}

static void draw_arm(const PlumbStage *stage)
{
    const PlumbVec3 at = plumb_position_joint(stage->at, stage->working->explanation->drawn.joint);
    const PlumbVec3 bar = stage->at->point[PLUMB_PT_bar];
    plumb_force_line(stage, at, 1, PLUMB_ROLE_rule);
    plumb_force_line(stage, bar, 1, PLUMB_ROLE_bar);
    plumb_force_lever(stage, at.x, bar.x, 0, "d");
    const PlumbVec2 on = plumb_stage_paper(stage, bar);
    plumb_force_arrow(stage, PLUMB_ROLE_bar, on, (PlumbVec2){on.x, on.y + PLUMB_FORCE_MOST_MM});
    plumb_force_joint(stage, plumb_stage_paper(stage, at));
}

static void draw_balance(const PlumbStage *stage)
{
    const PlumbVec3 heel = stage->at->point[PLUMB_PT_heel];
    const PlumbVec3 toe = stage->at->point[PLUMB_PT_toe];
    const double f = stage->working->explanation->program;
    const PlumbVec3 centre = {heel.x + f * (toe.x - heel.x), 0.0, 0.0};
    plumb_force_line(stage, (PlumbVec3){heel.x, 0.0, 0.0}, PLUMB_MASS_COUNT - 1, PLUMB_ROLE_rule);
    const double most = draw_weights(stage, PLUMB_MASS_foot, heel.x);
    const PlumbVec2 on = plumb_stage_paper(stage, centre);
    plumb_force_arrow(stage, PLUMB_ROLE_ink, (PlumbVec2){on.x, on.y + 2.0},
                      (PlumbVec2){on.x, on.y - PLUMB_FORCE_MOST_MM});
    plumb_force_word(stage, on, (PlumbVec2){on.x, on.y - PLUMB_FORCE_MOST_MM}, "F");
    name_weights(stage, PLUMB_MASS_foot, most);
}

static void draw_travel(const PlumbStage *stage)
{
    const PlumbAnswer *answer = stage->working->subject->answer;
    const PlumbVec3 low = answer->start.point[PLUMB_PT_bar];
    const PlumbVec3 high = answer->end.point[PLUMB_PT_bar];
    const PlumbVec2 a = plumb_stage_paper(stage, low);
    const PlumbVec2 b = plumb_stage_paper(stage, high);
    const double mm = 1000.0 / stage->fit.scale_n;
    const double x = fmax(a.x, b.x) +
                     0.5 * stage->working->subject->lifter->equipment.disc_diameter_m * mm + 4.0;
    plumb_mark_dimension(&stage->board, PEN_FINE, TAG_NONE, (PlumbVec2){x, a.y},
                         (PlumbVec2){x, b.y});
    plumb_scene_line(stage->board.scene, PEN_RULE, TAG_NONE, a, (PlumbVec2){x + 1.0, a.y});
    plumb_scene_line(stage->board.scene, PEN_RULE, TAG_NONE, b, (PlumbVec2){x + 1.0, b.y});
    plumb_force_word(stage, (PlumbVec2){x, a.y}, (PlumbVec2){x, 0.5 * (a.y + b.y)}, "T");
}

/* The moment of the joint that holds a cut leg, in the view in which it turns: what the program
 * tells of the sagittal ones is the joint's, of those seen from the front what the forces do. From
 * the front the lifter's right leg stands on the left. */
static void draw_leg_moment(const PlumbStage *stage, PlumbVec2 joint)
{
    const PlumbExplainKind kind = stage->working->explanation->drawn.kind;
    const double moment = stage->working->explanation->program;
    const bool frontal = kind == PLUMB_EXPLAIN_knee_frontal || kind == PLUMB_EXPLAIN_hip_frontal;
    const bool falls = kind == PLUMB_EXPLAIN_ankle_along_foot || kind == PLUMB_EXPLAIN_hip_frontal;
    if (frontal == stage->front) {
        plumb_force_turn(stage, joint, falls ? moment < 0.0 : moment >= 0.0);
    }
}

/* The forces of a cut leg in one view; the joint's leaves none over. */
static void draw_leg_forces(const PlumbStage *stage)
{
    const PlumbExplainSubject *s = stage->working->subject;
    const PlumbExplanation *e = stage->working->explanation;
    static const PlumbPoint cut[] = {[PLUMB_EXPLAIN_knee_extension] = PLUMB_PT_knee,
                                     [PLUMB_EXPLAIN_knee_frontal] = PLUMB_PT_knee,
                                     [PLUMB_EXPLAIN_ankle_along_foot] = PLUMB_PT_ankle,
                                     [PLUMB_EXPLAIN_hip_frontal] = PLUMB_PT_hip};
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    masses_of(stage, mass);
    const double half = 0.5 * plumb_total_mass_kg(s->lifter, &s->answer->setup);
    const double inwards = stage->front ? half * s->answer->setup.feet_push_frac : 0.0;
    const int count = e->step[0].term_count; /* the floor, then the weights from the foot up */
    PlumbVec3 at[4] = {plumb_between(stage->at->point[PLUMB_PT_heel],
                                     stage->at->point[PLUMB_PT_toe], stage->at->balance_frac)};
    PlumbVec2 force[4] = {{inwards, half}};
    PlumbVec2 left = {-inwards, -half};
    for (int i = 1; i < count; i++) {
        const PlumbMassPoint *const one = &mass[PLUMB_MASS_foot + i - 1];
        at[i] = one->at_m;
        force[i] = (PlumbVec2){0.0, -0.5 * one->mass_kg};
        left.y -= force[i].y;
    }
    for (int i = 0; i < count; i++) {
        plumb_force_draw(stage, at[i], force[i], half, i == 0 ? PLUMB_ROLE_bar : PLUMB_ROLE_mass);
    }
    const PlumbVec3 joint_m = stage->at->point[cut[e->drawn.kind]];
    const PlumbVec2 joint = plumb_stage_paper(stage, joint_m);
    plumb_force_draw(stage, joint_m, left, half, PLUMB_ROLE_ink);
    plumb_force_joint(stage, joint);
    draw_leg_moment(stage, joint);
    plumb_force_word(stage, joint, plumb_force_tip(joint, left, half), "R");
    for (int i = 0; i < count; i++) {
        plumb_force_name(stage, at[i], force[i], half, i + 1);
    }
}

/* Largest scale at which what spans these metres stands in the room. */
static void fit_rect(PlumbStage *stage, double left_m, double right_m, double top_m,
                     double below_mm)
{
    const double mm_per_m =
        fmin(stage->rect.width_mm / (right_m - left_m), (stage->rect.height_mm - below_mm) / top_m);
    stage->fit.scale_n = 1000.0 / mm_per_m;
    const double slack = stage->rect.width_mm - (right_m - left_m) * mm_per_m;
    const PlumbVec2 origin = {stage->rect.x_mm + 0.5 * slack - left_m * mm_per_m,
                              stage->rect.y_mm + stage->rect.height_mm - below_mm};
    stage->fit.side_origin_mm = origin;
    stage->fit.front_origin_mm = origin;
}

static void draw_ground(const PlumbStage *stage)
{
    const PlumbVec2 floor = plumb_fit_side(&stage->fit, (PlumbVec3){0.0, 0.0, 0.0});
    plumb_mark_ground(&stage->board, stage->rect.x_mm + 4.0, floor.y, stage->rect.width_mm - 8.0);
}

/* Room that the leg needs in the side view and the front view, m: from, and how wide. */
static void leg_extent(const PlumbPosition *p, double left_m[2], double *width_m)
{
    const double forward = fmax(p->point[PLUMB_PT_toe].x, p->point[PLUMB_PT_knee].x) + 0.12;
    const double outward = fmax(p->point[PLUMB_PT_toe].z, p->point[PLUMB_PT_knee].z) + 0.15;
    left_m[0] = fmin(p->point[PLUMB_PT_hip].x, p->point[PLUMB_PT_heel].x) - 0.16;
    left_m[1] = -outward; /* from the front the lifter's right lies to the left */
    *width_m = fmax(forward - left_m[0], outward + 0.1);
}

/* Side and front of the cut leg. */
static void compose_leg(PlumbStage *stage, PlumbRect rect)
{
    const unsigned cut = parts_cut(stage->working->explanation->drawn);
    double left[2];
    double width = 0.0;
    leg_extent(stage->at, left, &width);
    for (int view = 0; view < 2; view++) {
        stage->front = view == 1;
        stage->rect = rect;
        stage->rect.width_mm = 0.5 * rect.width_mm;
        stage->rect.x_mm += 0.5 * rect.width_mm * view;
        fit_rect(stage, left[view], left[view] + width, stage->at->point[PLUMB_PT_hip].y + 0.25,
                 12.0);
        draw_ground(stage);
        draw_figure(stage, stage->at, cut);
        if (is_space(stage->working->explanation->drawn.kind)) {
            draw_leg_forces(stage);
        } else {
            plumb_place_draw(stage);
        }
        const double size = plumb_board_size(&stage->board, PLUMB_SMALL_TEXT_MM);
        plumb_board_text(&stage->board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){stage->rect.x_mm + 2.0, rect.y_mm + size}, size, PLUMB_START,
                         stage->front ? "from the front, right leg" : "from the side, right leg");
    }
}

/* Extent of a pose in the side view. */
static void extend(const PlumbPosition *p, double *left, double *right, double *top)
{
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        *left = fmin(*left, p->point[i].x - 0.18);
        *right = fmax(*right, p->point[i].x + 0.12);
        *top = fmax(*top, p->point[i].y + 0.1);
    }
    *right = fmax(*right, fmax(p->point[PLUMB_PT_bar].x + 0.26, p->head_top.x + 0.1));
    *top = fmax(*top, fmax(p->head_top.y + 0.06, p->point[PLUMB_PT_bar].y + 0.26));
}

static void compose_side(PlumbStage *stage)
{
    const PlumbExplainSubject *s = stage->working->subject;
    const PlumbExplanation *e = stage->working->explanation;
    const PlumbExplainKind kind = e->drawn.kind;
    double left = 0.0;
    double right = 0.0;
    double top = 0.5;
    extend(stage->at, &left, &right, &top);
    if (kind == PLUMB_EXPLAIN_travel) {
        extend(&s->answer->start, &left, &right, &top);
        extend(&s->answer->end, &left, &right, &top);
    }
    const bool levers = kind == PLUMB_EXPLAIN_moment || kind == PLUMB_EXPLAIN_balance ||
                        kind == PLUMB_EXPLAIN_effort;
    const int rows = kind == PLUMB_EXPLAIN_effort
                         ? PLUMB_MASS_COUNT - (int)plumb_joint_first_mass(e->drawn.joint)
                         : e->step[0].term_count;
    const bool whole = kind == PLUMB_EXPLAIN_travel || kind == PLUMB_EXPLAIN_arm;
    fit_rect(stage, left, right, top,
             levers  ? 8.0 + rows * PLUMB_LEVER_PITCH_MM
             : whole ? 16.0
                     : 11.0);
    draw_ground(stage);
    if (kind == PLUMB_EXPLAIN_travel) {
        draw_figure(stage, &s->answer->start, 0);
        draw_bar(stage, &s->answer->start);
        draw_figure(stage, &s->answer->end, PART_ALL);
        draw_bar(stage, &s->answer->end);
        draw_travel(stage);
        return;
    }
    draw_figure(stage, stage->at, parts_cut(e->drawn));
    draw_bar(stage, stage->at);
    if (kind == PLUMB_EXPLAIN_moment || kind == PLUMB_EXPLAIN_effort) {
        draw_moment(stage);
    } else if (kind == PLUMB_EXPLAIN_arm) {
        draw_arm(stage);
    } else if (kind == PLUMB_EXPLAIN_balance) {
        draw_balance(stage);
    } else if (kind != PLUMB_EXPLAIN_summed_effort) {
        plumb_place_draw(stage);
    } else {
        for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
            plumb_force_joint(
                stage, plumb_stage_paper(stage, plumb_position_joint(stage->at, (PlumbJoint)i)));
        }
    }
}

/* A length has no free body: its terms are set one after the other along a line. */
static void compose_terms(PlumbStage *stage, PlumbRect rect)
{
    const PlumbExplainStep *step = &stage->working->explanation->step[0];
    const int last = step->column_count - 1;
    double most = step->result;
    double sum = 0.0;
    for (int i = 0; i < step->term_count; i++) {
        sum += step->term[i].value[last];
        most = fmax(most, sum);
    }
    const double mm = (rect.width_mm - 80.0) / most;
    const double size = plumb_board_size(&stage->board, PLUMB_SMALL_TEXT_MM);
    double from = 0.0;
    double y = rect.y_mm + 12.0;
    for (int i = 0; i <= step->term_count; i++) {
        const bool whole = i == step->term_count;
        const double a = whole ? 0.0 : from;
        const double b = whole ? step->result : from + step->term[i].value[last];
        const PlumbPen pen = whole ? PEN_OUTLINE : PEN_FINE;
        plumb_mark_dimension(&stage->board, pen, TAG_NONE, (PlumbVec2){rect.x_mm + a * mm, y},
                             (PlumbVec2){rect.x_mm + b * mm, y});
        plumb_board_text(&stage->board, PLUMB_ROLE_ink, TAG_NONE,
                         (PlumbVec2){rect.x_mm + fmax(a, b) * mm + 7.0, y + 0.35 * size}, size,
                         PLUMB_START, whole ? step->symbol : step->term[i].words);
        from = b;
        y += 8.0;
    }
}

void plumb_compose_free_body(PlumbScene *scene, const PlumbWorking *working, PlumbRect rect)
{
    const PlumbDrawing drawing =
        plumb_drawing_default(working->subject->lifter, working->subject->answer,
                              working->text_width, working->text_user);
    PlumbStage stage = {.board = {scene, &drawing}, .working = working, .rect = rect};
    const PlumbExplainKind kind = working->explanation->drawn.kind;
    if (kind == PLUMB_EXPLAIN_length) {
        compose_terms(&stage, rect);
        return;
    }
    if (working->subject->press != NULL) {
        plumb_compose_press_body(&stage, rect);
        return;
    }
    stage.at = plumb_explain_position(working->subject);
    if (plumb_leg_alone(kind)) {
        compose_leg(&stage, rect);
    } else {
        compose_side(&stage);
    }
}
