/* SPDX-License-Identifier: MIT */
/* The free body of a press: the right arm with half of the bar, from the side, from the head end
 * and from above, with its forces and levers. */
#include "scene/forces.h"
#include "scene/mark.h"
#include "scene/press.h"

#include "base/vec.h"
#include "solve/press.h"

#include <math.h>
#include <stddef.h>

enum { FORCES = 4 };

typedef struct Force {
    PlumbVec3 at_m;
    double newton;  /* down */
    double inwards; /* N: on a hand that pushes outwards */
    int number;     /* of its term; 0: it is not among them */
    PlumbRole role;
} Force;

typedef struct Body {
    PlumbStage *stage;
    PlumbFit fit;
    PlumbPressViews views;
    const PlumbPressPosition *at;
} Body;

/* The joint that is cut, or from which a lever counts. */
static PlumbVec3 joint_of(const Body *body)
{
    const PlumbQuestion question = body->stage->working->explanation->drawn;
    const bool elbow = question.kind == PLUMB_EXPLAIN_press_arm
                           ? question.press == (int)PLUMB_PRESS_ARM_elbow
                           : question.press == (int)PLUMB_PRESS_JOINT_elbow_extension &&
                                 (question.kind == PLUMB_EXPLAIN_press_moment ||
                                  question.kind == PLUMB_EXPLAIN_press_effort);
    return body->at->point[elbow ? PLUMB_PRESS_elbow : PLUMB_PRESS_shoulder];
}

static bool cuts_elbow(PlumbQuestion question)
{
    return question.press == (int)PLUMB_PRESS_JOINT_elbow_extension;
}

/* Bar, upper arm, forearm and hand with their weights, numbered as the terms are. */
static void forces_of(const Body *body, Force force[FORCES])
{
    const PlumbExplainSubject *const s = body->stage->working->subject;
    const PlumbLifter *const lifter = s->lifter;
    const PlumbVec3 *const at = body->at->point;
    static const PlumbSegmentId segment[3] = {PLUMB_SEG_upper_arm, PLUMB_SEG_forearm,
                                              PLUMB_SEG_hand};
    const PlumbPressPoint end[4] = {PLUMB_PRESS_shoulder, PLUMB_PRESS_elbow, PLUMB_PRESS_wrist,
                                    PLUMB_PRESS_grip};
    const bool elbow = cuts_elbow(body->stage->working->explanation->drawn);
    const PlumbSetup *const setup = plumb_explain_setup(s);
    const double half = 0.5 * setup->load_kg * PLUMB_GRAVITY;
    force[0] =
        (Force){at[PLUMB_PRESS_grip], half, setup->hands_push_frac * half, 1, PLUMB_ROLE_bar};
    for (int i = 0; i < 3; i++) {
        const PlumbSegment *const part = &lifter->body.segment[segment[i]];
        force[i + 1] = (Force){vec3_between(at[end[i]], at[end[i + 1]], part->com_frac),
                               part->mass_frac * lifter->body.mass_kg * PLUMB_GRAVITY, 0.0,
                               elbow ? (i == 0 ? 0 : i + 1) : i + 2, PLUMB_ROLE_mass};
    }
}

/* The stage stands in one view, so that words keep to its room. */
static void enter(Body *body, PlumbPressView view)
{
    body->stage->rect = body->fit.press.room[view];
    body->stage->fit.side_origin_mm =
        (PlumbVec2){0.0, body->stage->rect.y_mm + body->stage->rect.height_mm};
}

static PlumbVec2 paper(const Body *body, PlumbPressView view, PlumbVec3 at_m)
{
    return plumb_press_paper(&body->views, view, at_m);
}

/* Arrows of the forces on the cut part and of the joint's, which leaves none over; the push of the
 * hands shows from the head end, where the right arm stands on the right. */
static void draw_forces(Body *body, PlumbPressView view, PlumbVec2 joint)
{
    static const double most_share = 0.8; /* arrows are shorter than those of a standing lifter */
    Force force[FORCES];
    PlumbVec2 tip[FORCES];
    PlumbVec2 tail[FORCES];
    PlumbVec2 left = {0.0, 0.0};
    forces_of(body, force);
    enter(body, view);
    const double most = fmax(force[0].newton, force[1].newton) / most_share;
    for (int i = 0; i < FORCES; i++) {
        const PlumbVec2 newton = {view == PLUMB_PRESS_HEAD ? -force[i].inwards : 0.0,
                                  -force[i].newton};
        tail[i] = paper(body, view, force[i].at_m);
        tip[i] = plumb_force_tip(tail[i], newton, most);
        if (force[i].number > 0) {
            plumb_force_arrow(body->stage, force[i].role, tail[i], tip[i]);
            left = (PlumbVec2){left.x - newton.x, left.y - newton.y};
        }
    }
    const PlumbVec2 held = plumb_force_tip(joint, left, most);
    plumb_force_arrow(body->stage, PLUMB_ROLE_ink, joint, held);
    plumb_force_word(body->stage, joint, held, "R");
    for (int i = 0; i < FORCES; i++) {
        if (force[i].number > 0) {
            char words[16];
            plumb_force_number(words, sizeof words, force[i].number);
            plumb_force_word(body->stage, tail[i], tip[i], words);
        }
    }
}

/* Which way the joint's moment on the cut part turns in a view: against the moment of the forces,
 * M about the axis by which it counts. From the head end one looks along x, from the side against
 * z. */
static bool turns_against_clock(const Body *body, PlumbPressView view)
{
    const PlumbExplainSubject *const s = body->stage->working->subject;
    const PlumbPressJoint joint = (PlumbPressJoint)body->stage->working->explanation->drawn.press;
    const bool moving = s->press_motion != NULL;
    const PlumbVec3 axis = plumb_press_axis(
        moving ? s->press_motion->elbow_axis : plumb_press_elbow_axis(body->at), joint);
    const double moment = moving ? s->press_motion->moment_n_m[joint] : body->at->moment_n_m[joint];
    return view == PLUMB_PRESS_HEAD ? moment * axis.x >= 0.0 : moment * axis.z <= 0.0;
}

/* Lever of the bar's weight about the joint, in its own row below the bench. */
static void draw_lever(Body *body, PlumbPressView view, PlumbVec3 from_m, const char *words)
{
    const PlumbVec2 a = paper(body, view, from_m);
    const PlumbVec2 b = paper(body, view, body->at->point[PLUMB_PRESS_grip]);
    const double size = plumb_board_size(&body->stage->board, PLUMB_SMALL_TEXT_MM);
    const double y = body->fit.press.bench_mm + 1.6 * size;
    const PlumbPen chain = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    enter(body, view);
    plumb_scene_line(body->stage->board.scene, chain, TAG_NONE, a, (PlumbVec2){a.x, y + 1.0});
    plumb_scene_line(body->stage->board.scene, chain, TAG_NONE, b, (PlumbVec2){b.x, y + 1.0});
    plumb_mark_dimension(&body->stage->board, PEN_FINE, TAG_NONE, (PlumbVec2){a.x, y},
                         (PlumbVec2){b.x, y});
    plumb_board_text(
        &body->stage->board, PLUMB_ROLE_ink, TAG_NONE,
        (PlumbVec2){fmax(a.x, b.x) + (fabs(a.x - b.x) < 6.0 ? 6.0 : 1.5), y + 0.35 * size}, size,
        PLUMB_START, words);
}

/* Whether a joint's lever is drawn in a view: of the shoulder in the one that it is of, of the
 * elbow where the hand stands further off it. */
static bool shows_lever(const Body *body, PlumbPressView view, bool elbow, bool frontal)
{
    const PlumbVec3 hand = body->at->point[PLUMB_PRESS_grip];
    const PlumbVec3 at = body->at->point[PLUMB_PRESS_elbow];
    const bool head = elbow ? fabs(hand.z - at.z) > fabs(hand.x - at.x) : frontal;
    return head == (view == PLUMB_PRESS_HEAD);
}

/* A joint is cut: the views in which its lever shows. */
static void draw_cut(Body *body)
{
    const PlumbExplanation *const e = body->stage->working->explanation;
    const PlumbVec3 joint = joint_of(body);
    const bool elbow = cuts_elbow(e->drawn);
    const bool adduction = e->drawn.press == (int)PLUMB_PRESS_JOINT_shoulder_adduction;
    for (int i = 0; i < 2; i++) {
        const PlumbPressView view = (PlumbPressView)i;
        if (!plumb_press_sees(body->views.board.drawing, view)) {
            continue;
        }
        const bool lever = shows_lever(body, view, elbow, adduction);
        if (lever) { /* first: the numbers of the arrows keep clear of its own */
            draw_lever(body, view, joint, "1");
        }
        const PlumbVec2 on = paper(body, view, joint);
        enter(body, view);
        if (lever) {
            plumb_force_turn(body->stage, on, turns_against_clock(body, view));
        }
        draw_forces(body, view, on);
        plumb_force_joint(body->stage, on);
    }
}

static void draw_arm(Body *body)
{
    const int which = body->stage->working->explanation->drawn.press;
    const PlumbVec3 joint = joint_of(body);
    for (int i = 0; i < 2; i++) {
        const PlumbPressView view = (PlumbPressView)i;
        const bool shown = shows_lever(body, view, which == (int)PLUMB_PRESS_ARM_elbow,
                                       which == (int)PLUMB_PRESS_ARM_shoulder_frontal);
        plumb_force_joint(body->stage, paper(body, view, joint));
        if (shown) {
            const PlumbVec2 on = paper(body, view, body->at->point[PLUMB_PRESS_grip]);
            draw_lever(body, view, joint, "d");
            plumb_force_arrow(body->stage, PLUMB_ROLE_bar, on,
                              (PlumbVec2){on.x, on.y + 0.8 * PLUMB_FORCE_MOST_MM});
        }
    }
}

/* The bar's way: where it ends, and how far it rises. */
static void draw_way(Body *body)
{
    const PlumbPressAnswer *const press = body->stage->working->subject->press;
    const PlumbVec2 low = paper(body, PLUMB_PRESS_SIDE, press->touch.point[PLUMB_PRESS_bar]);
    const PlumbVec2 high = paper(body, PLUMB_PRESS_SIDE, press->lockout.point[PLUMB_PRESS_bar]);
    const double disc = 0.5 * body->stage->working->subject->lifter->equipment.disc_diameter_m *
                        1000.0 / body->fit.scale_n;
    const double x = fmax(low.x, high.x) + disc + 4.0;
    enum { POINTS = 33 };
    PlumbVec2 way[POINTS];
    const PlumbSetup *const setup = &press->setup;
    for (int i = 0; i < POINTS; i++) {
        const double k = (double)i / (POINTS - 1);
        const PlumbVec3 bar = {setup->lockout_over_m + (setup->touch_m - setup->lockout_over_m) *
                                                           pow(1.0 - k, setup->path_exponent),
                               press->touch.point[PLUMB_PRESS_bar].y + k * press->travel_m, 0.0};
        way[i] = paper(body, PLUMB_PRESS_SIDE, bar);
    }
    enter(body, PLUMB_PRESS_SIDE);
    const PlumbPen pen = {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_path(body->stage->board.scene, pen, TAG_NONE, way, POINTS, false);
    plumb_mark_dimension(&body->stage->board, PEN_FINE, TAG_NONE, (PlumbVec2){x, low.y},
                         (PlumbVec2){x, high.y});
    plumb_scene_line(body->stage->board.scene, PEN_RULE, TAG_NONE, low,
                     (PlumbVec2){x + 1.0, low.y});
    plumb_scene_line(body->stage->board.scene, PEN_RULE, TAG_NONE, high,
                     (PlumbVec2){x + 1.0, high.y});
    plumb_force_word(body->stage, (PlumbVec2){x, low.y}, (PlumbVec2){x, 0.5 * (low.y + high.y)},
                     "T");
}

/* A press's angle in one view: from upright, or from the trunk's line. */
typedef struct Turn {
    PlumbExplainKind kind;
    PlumbPressView view;
    PlumbPressPoint apex;
    PlumbPressPoint far;
    bool upright;
} Turn;

static const Turn turns[] = {
    {PLUMB_EXPLAIN_forearm_front, PLUMB_PRESS_HEAD, PLUMB_PRESS_elbow, PLUMB_PRESS_grip, true},
    {PLUMB_EXPLAIN_forearm_side, PLUMB_PRESS_SIDE, PLUMB_PRESS_elbow, PLUMB_PRESS_grip, true},
    {PLUMB_EXPLAIN_shoulder_angle, PLUMB_PRESS_SIDE, PLUMB_PRESS_shoulder, PLUMB_PRESS_elbow,
     false},
};

/* Upright and level dimensions, seen from the head end. */
static void draw_place(Body *body)
{
    const PlumbExplainKind kind = body->stage->working->explanation->drawn.kind;
    const PlumbBody *const of = &body->stage->working->subject->lifter->body;
    const PlumbVec3 *const at = body->at->point;
    if (kind == PLUMB_EXPLAIN_touch) {
        draw_lever(body, PLUMB_PRESS_SIDE, at[PLUMB_PRESS_shoulder], "t");
    } else if (kind == PLUMB_EXPLAIN_elbow_off_hand) {
        draw_lever(body, PLUMB_PRESS_HEAD, at[PLUMB_PRESS_elbow], "d");
    } else if (kind == PLUMB_EXPLAIN_lockout_height || kind == PLUMB_EXPLAIN_elbow_below_rule) {
        const bool rule = kind == PLUMB_EXPLAIN_elbow_below_rule;
        PlumbVec3 low = at[rule ? PLUMB_PRESS_elbow : PLUMB_PRESS_shoulder];
        PlumbVec3 high = at[rule ? PLUMB_PRESS_shoulder : PLUMB_PRESS_grip];
        low.y -= rule ? of->elbow_half_thickness_m : 0.0;
        high.y += rule ? of->shoulder_top_above_joint_m : 0.0;
        const PlumbRect room = body->fit.press.room[PLUMB_PRESS_HEAD];
        enter(body, PLUMB_PRESS_HEAD);
        plumb_rise_draw(body->stage, paper(body, PLUMB_PRESS_HEAD, low),
                        paper(body, PLUMB_PRESS_HEAD, high), room.x_mm + 10.0, rule ? "d" : "h");
    }
}

static void draw_turn(Body *body, const Turn *turn)
{
    const PlumbVec2 apex = paper(body, turn->view, body->at->point[turn->apex]);
    const PlumbVec2 far = paper(body, turn->view, body->at->point[turn->far]);
    PlumbVec3 along = body->at->point[turn->apex];
    along.x += 0.2;
    const PlumbVec2 toward = paper(body, turn->view, along);
    enter(body, turn->view);
    plumb_wedge_draw(body->stage, apex, far,
                     turn->upright ? atan2(far.y < apex.y ? -1.0 : 1.0, 0.0)
                                   : atan2(toward.y - apex.y, toward.x - apex.x));
}

/* Joints and marks of an angle or a distance. */
static void draw_angle(Body *body)
{
    const PlumbExplainKind kind = body->stage->working->explanation->drawn.kind;
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        if (turns[i].kind == kind) {
            draw_turn(body, &turns[i]);
        }
    }
    draw_place(body);
    for (int i = 0; i < PLUMB_PRESS_VIEW_COUNT; i++) {
        const PlumbPressView view = (PlumbPressView)i;
        for (int k = PLUMB_PRESS_shoulder;
             k <= PLUMB_PRESS_elbow && plumb_press_sees(body->views.board.drawing, view); k++) {
            plumb_force_joint(body->stage, paper(body, view, body->at->point[k]));
        }
    }
}

/* The upper arm and the trunk's line from above. */
static void draw_abduction(Body *body)
{
    const PlumbVec3 shoulder = body->at->point[PLUMB_PRESS_shoulder];
    const PlumbVec3 along = {shoulder.x + 0.25, shoulder.y, shoulder.z};
    for (int i = 0; i < PLUMB_PRESS_VIEW_COUNT; i++) {
        const PlumbPressView view = (PlumbPressView)i;
        if (!plumb_press_sees(body->views.board.drawing, view)) {
            continue;
        }
        enter(body, view);
        if (view != PLUMB_PRESS_HEAD) {
            const PlumbPen chain = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
            plumb_scene_line(body->stage->board.scene, chain, TAG_NONE, paper(body, view, shoulder),
                             paper(body, view, along));
        }
        plumb_force_joint(body->stage, paper(body, view, shoulder));
        plumb_force_joint(body->stage, paper(body, view, body->at->point[PLUMB_PRESS_elbow]));
    }
}

static void captions(const Body *body)
{
    static const char *const words[PLUMB_PRESS_VIEW_COUNT] = {"from the side", "from the head end",
                                                              "from above"};
    const double em = plumb_board_size(&body->stage->board, PLUMB_SMALL_TEXT_MM);
    for (int i = 0; i < PLUMB_PRESS_VIEW_COUNT; i++) {
        if (!plumb_press_sees(body->views.board.drawing, (PlumbPressView)i)) {
            continue;
        }
        const PlumbRect room = body->fit.press.room[i];
        plumb_board_text(&body->stage->board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){room.x_mm + 1.0, room.y_mm + em}, em, PLUMB_START, words[i]);
    }
}

/* The views that a question is about; where there is room for one, that in which its lever lies. */
static PlumbSight sight_of(const PlumbQuestion *question, bool narrow)
{
    if (question->kind == PLUMB_EXPLAIN_press_moment && narrow) {
        return question->press == PLUMB_PRESS_JOINT_shoulder_adduction ? PLUMB_SEE_FRONT
               : question->press == PLUMB_PRESS_JOINT_shoulder_flexion ? PLUMB_SEE_SIDE
                                                                       : PLUMB_SEE_LEVEL;
    }
    return PLUMB_SEE_LEVEL;
}

static void draw_marks(Body *body)
{
    const PlumbExplainKind kind = body->stage->working->explanation->drawn.kind;
    if (kind == PLUMB_EXPLAIN_press_moment || kind == PLUMB_EXPLAIN_press_effort) {
        draw_cut(body);
    } else if (kind == PLUMB_EXPLAIN_press_arm) {
        draw_arm(body);
    } else if (kind == PLUMB_EXPLAIN_travel || kind == PLUMB_EXPLAIN_path_length) {
        draw_way(body);
    } else if (kind == PLUMB_EXPLAIN_abduction || kind == PLUMB_EXPLAIN_abduction_step) {
        draw_abduction(body);
    } else {
        draw_angle(body);
    }
}

static void compose_sight(PlumbStage *stage, const PlumbPressAnswer *shown, PlumbSight sight,
                          PlumbRect rect)
{
    PlumbDrawing drawing =
        plumb_press_drawing_default(stage->working->subject->lifter, shown,
                                    stage->working->text_width, stage->working->text_user);
    Body body = {.stage = stage, .at = &shown->touch};
    stage->board.drawing = &drawing;
    drawing.sight = sight;
    body.fit = plumb_press_fit(&drawing, rect);
    body.views = (PlumbPressViews){stage->board, &body.fit, true};
    plumb_press_figure(&body.views);
    captions(&body);
    draw_marks(&body);
}

void plumb_compose_press_body(PlumbStage *stage, PlumbRect rect)
{
    static const double NARROW_MM = 110.0;
    static const double ABOVE_SHARE = 0.3; /* of the width, where the view from above counts */
    const PlumbExplainSubject *const s = stage->working->subject;
    const PlumbQuestion *const question = &stage->working->explanation->drawn;
    const PlumbExplainKind kind = question->kind;
    PlumbPressAnswer shown = *s->press;
    shown.touch =
        kind == PLUMB_EXPLAIN_lockout_height ? s->press->lockout : *plumb_explain_press(s);
    const bool narrow = rect.width_mm < NARROW_MM;
    const bool above = kind == PLUMB_EXPLAIN_abduction || kind == PLUMB_EXPLAIN_abduction_step ||
                       kind == PLUMB_EXPLAIN_shoulder_rotation;
    const double part = above ? (narrow ? 1.0 : ABOVE_SHARE) * rect.width_mm : 0.0;
    if (part < rect.width_mm) {
        compose_sight(stage, &shown, sight_of(question, narrow),
                      (PlumbRect){rect.x_mm, rect.y_mm, rect.width_mm - part, rect.height_mm});
    }
    if (above) {
        compose_sight(
            stage, &shown, PLUMB_SEE_ABOVE,
            (PlumbRect){rect.x_mm + rect.width_mm - part, rect.y_mm, part, rect.height_mm});
    }
}
