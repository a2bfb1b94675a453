/* SPDX-License-Identifier: MIT */
/* What a working of an angle or a distance draws on the figure: a wedge, or a dimension. */
#include "scene/forces.h"
#include "scene/mark.h"

#include <math.h>
#include <stddef.h>

/* What an angle is counted from. */
typedef enum Reference {
    FROM_UPRIGHT,
    FROM_LEVEL, /* to the side on which the line ends */
    FROM_LINK   /* the line from `before` to the apex, carried on */
} Reference;

typedef struct Angle {
    PlumbExplainKind kind;
    bool front;
    PlumbPoint apex;
    PlumbPoint far;
    Reference from;
    PlumbPoint before;
} Angle;

static const Angle angles[] = {
    {PLUMB_EXPLAIN_back_angle, false, PLUMB_PT_hip, PLUMB_PT_shoulder, FROM_LEVEL, PLUMB_PT_hip},
    {PLUMB_EXPLAIN_shin_angle, false, PLUMB_PT_ankle, PLUMB_PT_knee, FROM_UPRIGHT, PLUMB_PT_ankle},
    {PLUMB_EXPLAIN_thigh_angle, false, PLUMB_PT_knee, PLUMB_PT_hip, FROM_LEVEL, PLUMB_PT_knee},
    {PLUMB_EXPLAIN_knee_flexion, false, PLUMB_PT_knee, PLUMB_PT_hip, FROM_LINK, PLUMB_PT_ankle},
    {PLUMB_EXPLAIN_dorsiflexion, false, PLUMB_PT_ankle, PLUMB_PT_knee, FROM_UPRIGHT,
     PLUMB_PT_ankle},
    {PLUMB_EXPLAIN_hip_flexion, false, PLUMB_PT_hip, PLUMB_PT_knee, FROM_LINK, PLUMB_PT_lumbar},
    {PLUMB_EXPLAIN_frontal_shin, true, PLUMB_PT_ankle, PLUMB_PT_knee, FROM_UPRIGHT, PLUMB_PT_ankle},
};

enum { SPOTS = 4 };

void plumb_wedge_draw(const PlumbStage *stage, PlumbVec2 apex, PlumbVec2 far, double leg)
{
    static const double pi = 3.14159265358979;
    const double line = atan2(far.y - apex.y, far.x - apex.x);
    const double length = hypot(far.x - apex.x, far.y - apex.y);
    const double radius = fmin(0.7 * length, 16.0);
    const double turn = remainder(line - leg, 2.0 * pi);
    const double middle = leg + 0.5 * turn;
    plumb_scene_line(
        stage->board.scene, PEN_REFERENCE, TAG_NONE, apex,
        (PlumbVec2){apex.x + (radius + 5.0) * cos(leg), apex.y + (radius + 5.0) * sin(leg)});
    plumb_scene_line(stage->board.scene, PEN_OUTLINE, TAG_NONE, apex, far);
    plumb_scene_arc(stage->board.scene, PEN_OUTLINE, TAG_NONE, apex, radius, leg, leg + turn);
    PlumbLabel label = {.tag = TAG_NONE};
    plumb_label_line(&label, &stage->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, "A");
    static const double OUT_MM[SPOTS] = {2.2, -2.4, 3.2, 4.4};
    PlumbSpot spot[SPOTS];
    for (int i = 0; i < SPOTS; i++) {
        const double out = radius + OUT_MM[i];
        spot[i] = (PlumbSpot){
            {apex.x + out * cos(middle), apex.y + out * sin(middle)}, PLUMB_MIDDLE, 0.5};
    }
    if (plumb_label_place(&stage->board, &label, spot, SPOTS, stage->rect, -1, 0.6) < 0) {
        plumb_label_place(&stage->board, &label, spot, SPOTS, stage->rect, -1, 60.0);
    }
}

static void draw_angle(const PlumbStage *stage, const Angle *row)
{
    const PlumbVec2 apex = plumb_stage_paper(stage, stage->at->point[row->apex]);
    const PlumbVec2 far = plumb_stage_paper(stage, stage->at->point[row->far]);
    const PlumbVec2 before = plumb_stage_paper(stage, stage->at->point[row->before]);
    const bool upwards = far.y < apex.y;
    const double leg = row->from == FROM_UPRIGHT ? atan2(upwards ? -1.0 : 1.0, 0.0)
                       : row->from == FROM_LEVEL ? atan2(0.0, far.x - apex.x)
                                                 : atan2(apex.y - before.y, apex.x - before.x);
    if (row->from == FROM_LINK) {
        plumb_scene_line(stage->board.scene, PEN_OUTLINE, TAG_NONE, before, apex);
    }
    plumb_wedge_draw(stage, apex, far, leg);
    plumb_force_joint(stage, apex);
    plumb_force_joint(stage, far);
}

void plumb_rise_draw(const PlumbStage *stage, PlumbVec2 low, PlumbVec2 high, double x_mm,
                     const char *words)
{
    plumb_scene_line(stage->board.scene, PEN_RULE, TAG_NONE, low, (PlumbVec2){x_mm, low.y});
    plumb_scene_line(stage->board.scene, PEN_RULE, TAG_NONE, high, (PlumbVec2){x_mm, high.y});
    plumb_mark_dimension(&stage->board, PEN_FINE, TAG_NONE, (PlumbVec2){x_mm, low.y},
                         (PlumbVec2){x_mm, high.y});
    const PlumbVec2 middle = {x_mm, 0.5 * (low.y + high.y)};
    plumb_force_word(stage, (PlumbVec2){x_mm, low.y}, middle, words);
}

/* Level, from one place to another, below the floor. */
static void draw_level(const PlumbStage *stage, PlumbVec3 from, PlumbVec3 to, const char *words)
{
    const double row_mm = PLUMB_HATCH_MM + 4.0;
    const PlumbVec2 a = plumb_stage_paper(stage, from);
    const PlumbVec2 b = plumb_stage_paper(stage, to);
    const double y = plumb_fit_side(&stage->fit, (PlumbVec3){0.0, 0.0, 0.0}).y + row_mm;
    const PlumbPen chain = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    const double size = plumb_board_size(&stage->board, PLUMB_SMALL_TEXT_MM);
    const double out = fabs(a.x - b.x) < 6.0 ? 6.0 : 1.5;
    plumb_scene_line(stage->board.scene, chain, TAG_NONE, a, (PlumbVec2){a.x, y + 1.0});
    plumb_scene_line(stage->board.scene, chain, TAG_NONE, b, (PlumbVec2){b.x, y + 1.0});
    plumb_mark_dimension(&stage->board, PEN_FINE, TAG_NONE, (PlumbVec2){a.x, y},
                         (PlumbVec2){b.x, y});
    plumb_board_text(&stage->board, PLUMB_ROLE_ink, TAG_NONE,
                     (PlumbVec2){fmax(a.x, b.x) + out, y + 0.35 * size}, size, PLUMB_START, words);
    plumb_force_joint(stage, a);
    plumb_force_joint(stage, b);
}

/* Its joint line. */
static void draw_leg(const PlumbStage *stage)
{
    const PlumbVec3 *const at = stage->at->point;
    for (int i = 0; i < 2; i++) {
        plumb_scene_line(stage->board.scene, PEN_OUTLINE, TAG_NONE,
                         plumb_stage_paper(stage, at[i == 0 ? PLUMB_PT_ankle : PLUMB_PT_knee]),
                         plumb_stage_paper(stage, at[i == 0 ? PLUMB_PT_knee : PLUMB_PT_hip]));
    }
    plumb_force_joint(stage, plumb_stage_paper(stage, at[PLUMB_PT_ankle]));
    plumb_force_joint(stage, plumb_stage_paper(stage, at[PLUMB_PT_knee]));
    plumb_force_joint(stage, plumb_stage_paper(stage, at[PLUMB_PT_hip]));
}

static void draw_crease(const PlumbStage *stage)
{
    const PlumbBody *const body = &stage->working->subject->lifter->body;
    PlumbVec3 knee = stage->at->point[PLUMB_PT_knee];
    PlumbVec3 hip = stage->at->point[PLUMB_PT_hip];
    plumb_force_joint(stage, plumb_stage_paper(stage, knee));
    plumb_force_joint(stage, plumb_stage_paper(stage, hip));
    knee.y += body->knee_top_above_joint_m;
    hip.y += body->hip_crease_above_joint_m;
    const PlumbVec2 low = plumb_stage_paper(stage, knee);
    const PlumbVec2 high = plumb_stage_paper(stage, hip);
    plumb_rise_draw(stage, low, high, stage->rect.x_mm + 12.0, "k");
}

static void draw_distance(const PlumbStage *stage)
{
    const PlumbVec3 *const at = stage->at->point;
    const PlumbExplainKind kind = stage->working->explanation->drawn.kind;
    const PlumbVec3 middle = {0.0, 0.0, 0.0};
    if (kind == PLUMB_EXPLAIN_hip_height) {
        const PlumbVec2 hip = plumb_stage_paper(stage, at[PLUMB_PT_hip]);
        const PlumbVec2 floor = {hip.x, plumb_stage_paper(stage, middle).y};
        plumb_rise_draw(stage, floor, hip, stage->rect.x_mm + 12.0, "h");
        plumb_force_joint(stage, hip);
    } else if (kind == PLUMB_EXPLAIN_crease_above_knee) {
        draw_crease(stage);
    } else if (kind == PLUMB_EXPLAIN_shoulder_ahead) {
        draw_level(stage, at[PLUMB_PT_bar], at[PLUMB_PT_shoulder], "d");
    } else if (kind == PLUMB_EXPLAIN_standing_off) {
        const double heel = at[PLUMB_PT_heel].x;
        const double foot = at[PLUMB_PT_toe].x - heel;
        const double share = plumb_explain_setup(stage->working->subject)->balance_frac;
        draw_level(stage, (PlumbVec3){heel + share * foot, 0.0, 0.0}, at[PLUMB_PT_bar], "d");
    } else if (kind == PLUMB_EXPLAIN_bar_over) {
        draw_level(stage, middle, at[PLUMB_PT_bar], "d");
    } else if (kind == PLUMB_EXPLAIN_hip_abduction && stage->front) {
        draw_level(stage, at[PLUMB_PT_hip], at[PLUMB_PT_knee], "-w");
    } else if (kind == PLUMB_EXPLAIN_knee_outside && stage->front) {
        draw_level(stage, at[PLUMB_PT_ankle], at[PLUMB_PT_knee], "z");
    }
}

bool plumb_leg_alone(PlumbExplainKind kind)
{
    const bool moment = kind >= PLUMB_EXPLAIN_knee_extension && kind <= PLUMB_EXPLAIN_hip_frontal;
    return moment || kind == PLUMB_EXPLAIN_hip_abduction || kind == PLUMB_EXPLAIN_hip_rotation ||
           kind == PLUMB_EXPLAIN_frontal_shin || kind == PLUMB_EXPLAIN_toe_line ||
           kind == PLUMB_EXPLAIN_knee_outside;
}

void plumb_place_draw(const PlumbStage *stage)
{
    const PlumbExplainKind kind = stage->working->explanation->drawn.kind;
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++) {
        if (angles[i].kind == kind) {
            if (angles[i].front == stage->front) {
                draw_angle(stage, &angles[i]);
            }
            return;
        }
    }
    if (kind == PLUMB_EXPLAIN_hip_rotation || kind == PLUMB_EXPLAIN_hip_abduction ||
        kind == PLUMB_EXPLAIN_toe_line || kind == PLUMB_EXPLAIN_leg_gap) {
        draw_leg(stage);
    }
    draw_distance(stage);
}
