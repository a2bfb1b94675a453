/* SPDX-License-Identifier: MIT */
/* The working of heights and distances of a pose that stands: link by link. */
#include "study/explain_limb.h"

#include "model/measure.h"

#include <stddef.h>

static PlumbExplainStep *links_step(PlumbExplanation *e, const char *title, const char *words,
                                    const char *equation)
{
    plumb_explain_symbol(e, "l", "length of a link, or a height or distance");
    plumb_explain_symbol(e, "c", "share of it that counts; below 0 it takes away");
    PlumbExplainStep *const step = plumb_explain_step(e, title, words, equation);
    plumb_explain_column(step, "l", "m", 4);
    plumb_explain_column(step, "c", "", 4);
    plumb_explain_column(step, "c l", "m", 4);
    return step;
}

static PlumbStatus finish(const PlumbExplainSubject *s, PlumbExplanation *e, const char *symbol,
                          double program)
{
    plumb_explain_sum(&e->step[e->step_count - 1], symbol, "m", 4);
    plumb_explain_pose(e, s);
    e->quantity = PLUMB_Q_LENGTH;
    e->program = program;
    return PLUMB_OK;
}

static void rise(PlumbExplainStep *step, const PlumbExplainLink *link)
{
    plumb_explain_product(step, link->words, link->length_m, link->up_m / link->length_m);
}

PlumbStatus plumb_explain_hip_height(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(s, link);
    plumb_explain_symbol(e, "h", "height of the hip joint above the floor");
    PlumbExplainStep *const step = links_step(
        e, "From the floor to the hip joint, link by link",
        "The hip is as high as ankle, shank and thigh rise; each link rises by its length times "
        "the cosine of its angle to upright.",
        "h = Σ c l");
    plumb_explain_product(step, "ankle joint above the floor", link[PLUMB_LINK_ANKLE].up_m, 1.0);
    rise(step, &link[PLUMB_LINK_SHANK]);
    rise(step, &link[PLUMB_LINK_THIGH]);
    return finish(s, e, "h", plumb_explain_position(s)->pose.hip_height_m);
}

PlumbStatus plumb_explain_hip_room(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    PlumbExplainSubject start = *s;
    start.at_end = false;
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(&start, link);
    plumb_explain_symbol(e, "q", "hip joint above the lowest hips of the start window");
    PlumbExplainStep *const step =
        links_step(e, "From the window's lower end up to the hip joint",
                   "The hip is as high as ankle, shank and thigh rise; what the window asks for at "
                   "least is taken off. Below 0 the hips are expected to rise by as much before "
                   "the bar does.",
                   "q = Σ c l");
    plumb_explain_product(step, "ankle joint above the floor", link[PLUMB_LINK_ANKLE].up_m, 1.0);
    rise(step, &link[PLUMB_LINK_SHANK]);
    rise(step, &link[PLUMB_LINK_THIGH]);
    plumb_explain_product(step, "less the window's lower end", s->answer->window.low, -1.0);
    e->drawn.kind = PLUMB_EXPLAIN_hip_height;
    plumb_explain_note(e, "What sets the window's lower end is worked out as window_low.");
    return finish(s, e, "q", s->answer->start.pose.hip_height_m - s->answer->window.low);
}

PlumbStatus plumb_explain_standing_off(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    PlumbExplainSubject standing = *s;
    standing.at_end = true;
    const PlumbVec3 *const at = plumb_explain_position(&standing)->point;
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(&standing, link);
    plumb_explain_symbol(e, "d", "bar ahead of the balance point; below 0 it stands behind it");
    PlumbExplainStep *const step =
        links_step(e, "From the balance point to the bar, standing",
                   "Each link adds what it spans forward, up to the bar's seat; the place on the "
                   "foot over which the balance is asked for is taken off.",
                   "d = Σ c l");
    for (int i = PLUMB_LINK_ANKLE; i <= PLUMB_LINK_SEAT_BACK; i++) {
        plumb_explain_product(step, link[i].words, link[i].length_m, link[i].forward);
    }
    plumb_explain_product(step, "less the heel, ahead of mid-foot", at[PLUMB_PT_heel].x, -1.0);
    plumb_explain_product(step, "less the balance, along the foot",
                          at[PLUMB_PT_toe].x - at[PLUMB_PT_heel].x, -s->answer->setup.balance_frac);
    return finish(s, e, "d", s->answer->standing_bar_off_m);
}

PlumbStatus plumb_explain_crease(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbBody *const body = &s->lifter->body;
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(s, link);
    plumb_explain_symbol(e, "k", "hip crease above the top of the knee; below 0 it lies below");
    PlumbExplainStep *const step = links_step(
        e, "From the top of the knee to the crease of the hip",
        "The crease lies above the hip joint and the knee's top above the knee joint; between the "
        "two joints the thigh rises.",
        "k = Σ c l");
    rise(step, &link[PLUMB_LINK_THIGH]);
    plumb_explain_product(step, "hip crease above its joint", body->hip_crease_above_joint_m, 1.0);
    plumb_explain_product(step, "less top of the knee above its joint",
                          body->knee_top_above_joint_m, -1.0);
    if (s->answer->setup.lift == PLUMB_DEADLIFT) { /* a squat's pose rests on both anyhow */
        plumb_explain_length(e, s->lifter, PLUMB_LEN_hip_crease_above_joint);
        plumb_explain_length(e, s->lifter, PLUMB_LEN_knee_top_above_joint);
    }
    return finish(s, e, "k", plumb_crease_above_knee_m(body, plumb_explain_position(s)));
}

PlumbStatus plumb_explain_shoulder_ahead(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbVec3 *const at = plumb_explain_position(s)->point;
    const bool pull = s->answer->setup.lift == PLUMB_DEADLIFT;
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(s, link);
    plumb_explain_symbol(e, "d", "shoulder joint ahead of the bar; below 0 it lies behind it");
    PlumbExplainStep *const step =
        links_step(e,
                   pull ? "From mid-foot to the shoulder, link by link, less the bar"
                        : "From the bar's seat back to the shoulder",
                   pull ? "Each link adds what it spans forward; the bar's own place is taken off."
                        : "The bar lies in a fixed place of the thorax, which leans.",
                   "d = Σ c l");
    for (int i = PLUMB_LINK_ANKLE; pull && i <= PLUMB_LINK_THORAX; i++) {
        plumb_explain_product(step, link[i].words, link[i].length_m, link[i].forward);
    }
    if (pull) {
        plumb_explain_product(step, "less bar, ahead of mid-foot", at[PLUMB_PT_bar].x, -1.0);
    }
    for (int i = PLUMB_LINK_SEAT_UP; !pull && i <= PLUMB_LINK_SEAT_BACK; i++) {
        plumb_explain_product(step, link[i].words, link[i].length_m, -link[i].forward);
    }
    return finish(s, e, "d", at[PLUMB_PT_shoulder].x - at[PLUMB_PT_bar].x);
}

PlumbStatus plumb_explain_bar_over(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbVec3 *const at = plumb_explain_position(s)->point;
    const bool pull = s->answer->setup.lift == PLUMB_DEADLIFT;
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(s, link);
    plumb_explain_symbol(e, "d", "bar ahead of mid-foot; below 0 it lies behind it");
    PlumbExplainStep *const step =
        links_step(e, "From mid-foot to the bar, link by link",
                   pull ? "Each link adds what it spans forward, the arms what they hang back or "
                          "reach ahead."
                        : "Each link adds what it spans forward, up to the bar's seat.",
                   "d = Σ c l");
    for (int i = PLUMB_LINK_ANKLE; i <= (pull ? PLUMB_LINK_THORAX : PLUMB_LINK_SEAT_BACK); i++) {
        plumb_explain_product(step, link[i].words, link[i].length_m, link[i].forward);
    }
    if (pull) {
        const PlumbVec3 arm = vec3_sub(at[PLUMB_PT_grip], at[PLUMB_PT_shoulder]);
        const double length = vec3_length(arm);
        plumb_explain_product(step, "arms, shoulder to hand, straight", length, arm.x / length);
    }
    return finish(s, e, "d", at[PLUMB_PT_bar].x);
}

PlumbStatus plumb_explain_beside(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPosition *const p = plumb_explain_position(s);
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    const bool toes = e->question.kind == PLUMB_EXPLAIN_toe_line;
    plumb_explain_symbol(e, toes ? "t" : "z",
                         toes ? "knee outside the line through ankle and toes; below 0 inside it"
                              : "knee outside the ankle, from the front");
    plumb_explain_triangle(e, &limb);
    PlumbExplainStep *const step = links_step(
        e, toes ? "Knee outside the toe line" : "Knee outside the ankle",
        toes ? "What lies along the line from ankle to hip and what lies off it, each by its share "
               "square to the foot."
             : "What lies along the line from ankle to hip and what lies off it, each by its share "
               "outwards.",
        toes ? "t = c1 a + c2 r" : "z = c1 a + c2 r");
    plumb_explain_limb_terms(
        step, &limb, limb.along_m, 1.0, 1.0,
        plumb_explain_direction(&limb, toes ? PLUMB_EXPLAIN_TOE_LINE : PLUMB_EXPLAIN_OUT));
    return finish(s, e, toes ? "t" : "z",
                  toes ? p->knee_to_toe_line_m
                       : p->point[PLUMB_PT_knee].z - p->point[PLUMB_PT_ankle].z);
}

/* How far along a link the place nearest to the bar lies, 0 to 1. */
static double nearest_step(PlumbExplanation *e, bool thigh, PlumbVec3 way, PlumbVec3 link)
{
    PlumbExplainStep *const step = plumb_explain_step(
        e, thigh ? "Nearest place on the thigh" : "Nearest place on the shin",
        "Seen from the side: how far along the joint line the bar stands square to it, kept "
        "between the two joints.",
        "k = (bx lx + by ly) / (lx^2 + ly^2),  0 to 1");
    plumb_explain_symbol(e, "bx, by", "bar from the lower joint: forward, up");
    plumb_explain_symbol(e, "lx, ly", "upper joint from the lower one: forward, up");
    plumb_explain_symbol(e, "k", "share of the joint line at which the nearest place lies");
    static const char *const symbol[] = {"bx", "by", "lx", "ly"};
    for (size_t i = 0; i < sizeof symbol / sizeof symbol[0]; i++) {
        plumb_explain_column(step, symbol[i], "m", 4);
    }
    plumb_explain_column(step, "k", "", 4);
    const double k =
        clamp((way.x * link.x + way.y * link.y) / (link.x * link.x + link.y * link.y), 0.0, 1.0);
    plumb_explain_figures(step, plumb_explain_term(step, thigh ? "thigh" : "shank"),
                          (const double[]){way.x, way.y, link.x, link.y, k});
    plumb_explain_sum(step, "k", "", 4);
    return k;
}

PlumbStatus plumb_explain_leg_gap(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPosition *const p = plumb_explain_position(s);
    const PlumbVec3 *const at = p->point;
    const PlumbBody *const body = &s->lifter->body;
    const double none = (double)NAN;
    PlumbRig rig;
    plumb_rig_build(s->lifter, &s->answer->setup, p->spine_rad, p->knees_out_rad, &rig);
    const PlumbClearance clear =
        plumb_rig_clearance(&rig, (PlumbVec2){at[PLUMB_PT_knee].x, at[PLUMB_PT_knee].y},
                            (PlumbVec2){at[PLUMB_PT_hip].x, at[PLUMB_PT_hip].y},
                            (PlumbVec2){at[PLUMB_PT_bar].x, at[PLUMB_PT_bar].y});
    const PlumbVec3 low = at[clear.thigh ? PLUMB_PT_knee : PLUMB_PT_ankle];
    const PlumbVec3 way = vec3_sub(at[PLUMB_PT_bar], low);
    const PlumbVec3 link = vec3_sub(at[clear.thigh ? PLUMB_PT_hip : PLUMB_PT_knee], low);
    plumb_explain_symbol(e, "G", "gap between leg and bar; below 0 one is in the other");
    const double k = nearest_step(e, clear.thigh, way, link);
    const PlumbVec3 off = vec3_along(way, -k, link);
    PlumbExplainStep *const step = plumb_explain_step(
        e, "From the joint line to the bar, less flesh and half of the bar",
        "The distance of the bar's centre from the joint line, less what stands ahead of that line "
        "and less the bar's radius.",
        clear.side >= 0.0 ? "G = sqrt(ox^2 + oy^2) - t - r" : "G = -sqrt(ox^2 + oy^2) - t - r");
    plumb_explain_symbol(e, "ox, oy", "bar from that place: bx - k lx, by - k ly");
    plumb_explain_symbol(e, "t, r", "front of the leg ahead of its joint line; radius of the bar");
    plumb_explain_column(step, "ox", "m", 4);
    plumb_explain_column(step, "oy", "m", 4);
    plumb_explain_column(step, "term", "m", 4);
    plumb_explain_figures(
        step,
        plumb_explain_term(step, clear.side >= 0.0 ? "bar ahead of the leg" : "bar behind the leg"),
        (const double[]){off.x, off.y, clear.side * hypot(off.x, off.y)});
    plumb_explain_figures(step,
                          plumb_explain_term(step, clear.thigh ? "less t, thigh" : "less t, shin"),
                          (const double[]){none, none,
                                           -(clear.thigh ? body->thigh_half_thickness_m
                                                         : body->shin_half_thickness_m)});
    plumb_explain_figures(step, plumb_explain_term(step, "less r, half of the bar"),
                          (const double[]){none, none, -rig.bar_radius});
    return finish(s, e, "G", p->clearance_m);
}
