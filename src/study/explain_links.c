/* SPDX-License-Identifier: MIT */
/* The working of moment arms and of bar travel: link after link from the foot to the bar. */
#include "study/explain_parts.h"

#include <stddef.h>

/* The first link above each joint. */
static const int above[PLUMB_JOINT_COUNT] = {
    [PLUMB_JOINT_ankle] = PLUMB_LINK_SHANK,      [PLUMB_JOINT_knee] = PLUMB_LINK_THIGH,
    [PLUMB_JOINT_hip] = PLUMB_LINK_PELVIS,       [PLUMB_JOINT_back] = PLUMB_LINK_THORAX,
    [PLUMB_JOINT_shoulder] = PLUMB_LINK_SEAT_UP,
};

static PlumbVec2 seat_of(const PlumbBody *body, PlumbSeat seat)
{
    const PlumbVec2 seats[PLUMB_SEAT_COUNT] = {
        [PLUMB_HIGH_BAR] = {body->bar_high_up_m, body->bar_high_back_m},
        [PLUMB_LOW_BAR] = {body->bar_low_up_m, body->bar_low_back_m},
        [PLUMB_FRONT_BAR] = {body->bar_front_up_m, body->bar_front_back_m},
    };
    return seats[seat];
}

static PlumbExplainLink limb(const char *words, double length_m, PlumbVec3 from, PlumbVec3 to)
{
    return (PlumbExplainLink){words, length_m, (to.x - from.x) / length_m, to.y - from.y};
}

void plumb_explain_links(const PlumbExplainSubject *s, PlumbExplainLink link[PLUMB_LINKS])
{
    const PlumbBody *body = &s->lifter->body;
    const PlumbSetup *setup = &s->answer->setup;
    const PlumbPosition *p = plumb_explain_position(s);
    const PlumbVec3 *pt = p->point;
    const double lean = p->pose.thorax_lean_rad;
    const PlumbVec2 seat = seat_of(body, setup->seat);
    link[PLUMB_LINK_ANKLE] =
        (PlumbExplainLink){"heel to ankle joint, along the foot", body->heel_to_ankle_m,
                           cos(setup->toes_rad), pt[PLUMB_PT_ankle].y};
    link[PLUMB_LINK_FOOT] = (PlumbExplainLink){"half the foot, back", 0.5 * body->foot_length_m,
                                               -cos(setup->toes_rad), 0.0};
    link[PLUMB_LINK_SHANK] = limb("shank", body->shank_m, pt[PLUMB_PT_ankle], pt[PLUMB_PT_knee]);
    link[PLUMB_LINK_THIGH] = limb("thigh", body->thigh_m, pt[PLUMB_PT_knee], pt[PLUMB_PT_hip]);
    link[PLUMB_LINK_PELVIS] = limb("pelvis", body->pelvis_m, pt[PLUMB_PT_hip], pt[PLUMB_PT_lumbar]);
    link[PLUMB_LINK_THORAX] =
        limb("thorax", body->trunk_m - body->pelvis_m, pt[PLUMB_PT_lumbar], pt[PLUMB_PT_shoulder]);
    link[PLUMB_LINK_SEAT_UP] =
        (PlumbExplainLink){"bar's seat, along the thorax", seat.x, sin(lean), seat.x * cos(lean)};
    link[PLUMB_LINK_SEAT_BACK] =
        (PlumbExplainLink){"bar's seat, behind it", seat.y, -cos(lean), seat.y * sin(lean)};
}

/* Of a squat the links between joint and bar; of a pull the bar's own place less the links up to
 * the joint. */
static void arm_terms(const PlumbExplainSubject *s, PlumbJoint joint, PlumbExplainStep *step)
{
    const double sign = joint == PLUMB_JOINT_knee || joint == PLUMB_JOINT_shoulder ? -1.0 : 1.0;
    const bool pull = s->answer->setup.lift == PLUMB_DEADLIFT;
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(s, link);
    if (pull) {
        const double bar = plumb_explain_position(s)->point[PLUMB_PT_bar].x;
        plumb_explain_product(step, "bar, ahead of mid-foot", bar, sign);
        for (int i = 0; i < above[joint]; i++) {
            plumb_explain_product(step, link[i].words, link[i].length_m, -sign * link[i].forward);
        }
        return;
    }
    for (int i = above[joint]; i < PLUMB_LINKS; i++) {
        plumb_explain_product(step, link[i].words, link[i].length_m, sign * link[i].forward);
    }
}

PlumbStatus plumb_explain_arm(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbJoint joint = e->question.joint;
    const bool turned = joint == PLUMB_JOINT_knee || joint == PLUMB_JOINT_shoulder;
    plumb_explain_symbol(e, "d",
                         "moment arm of the bar: how far it lies ahead of the joint, or "
                         "behind a knee or shoulder, in the side view");
    plumb_explain_symbol(e, "xb", "place of the bar, ahead of mid-foot");
    plumb_explain_symbol(e, "x0", "place of the joint, ahead of mid-foot");
    plumb_explain_symbol(e, "l", "length of a link");
    plumb_explain_symbol(e, "c", "share of it that lies along the arm; below 0 it takes away");
    PlumbExplainStep *step = plumb_explain_step(
        e, "From the joint to the bar, link by link",
        "The weight of the bar acts straight down through its middle, so its lever about the "
        "joint is the level distance between the two; each link adds what it spans of it.",
        turned ? "d = x0 - xb = Σ c l" : "d = xb - x0 = Σ c l");
    plumb_explain_column(step, "l", "m", 4);
    plumb_explain_column(step, "c", "", 4);
    plumb_explain_column(step, "c l", "m", 4);
    arm_terms(s, joint, step);
    plumb_explain_sum(step, "d", "m", 4);
    plumb_explain_pose(e, s);
    plumb_explain_note(e, "The moment arm is that of the bar alone; the net moment also holds the "
                          "lifter's own weight.");
    e->quantity = PLUMB_Q_LENGTH;
    e->program = plumb_explain_position(s)->bar_arm_m[joint];
    return PLUMB_OK;
}

static void travel_term(PlumbExplainStep *step, const char *words, double end, double start)
{
    plumb_explain_figures(step, plumb_explain_term(step, words),
                          (const double[]){end, start, end - start});
}

PlumbStatus plumb_explain_travel(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const bool pull = s->answer->setup.lift == PLUMB_DEADLIFT;
    PlumbExplainSubject ends[2] = {*s, *s};
    ends[0].at_end = true;
    ends[1].at_end = false;
    PlumbExplainLink link[2][PLUMB_LINKS];
    double down[2]; /* of a pull's arms */
    for (int i = 0; i < 2; i++) {
        plumb_explain_links(&ends[i], link[i]);
        const PlumbVec3 *pt = plumb_explain_position(&ends[i])->point;
        down[i] = pt[PLUMB_PT_bar].y - pt[PLUMB_PT_shoulder].y;
    }
    plumb_explain_symbol(e, "T", "bar travel: height of the bar at the end less that at the start");
    plumb_explain_symbol(e, "h1, h0",
                         pull ? "rise of a link at the lockout and at the start; the arms go down"
                              : "rise of a link standing and in the hole");
    PlumbExplainStep *step = plumb_explain_step(
        e, "Height of the bar at both ends, link by link",
        "The bar is as high as the links from floor to bar rise; what each rises more at the end "
        "is its share of the travel.",
        "T = Σ (h1 - h0)");
    plumb_explain_column(step, "h1", "m", 4);
    plumb_explain_column(step, "h0", "m", 4);
    plumb_explain_column(step, "h1 - h0", "m", 4);
    travel_term(step, "ankle joint above the floor", link[0][PLUMB_LINK_ANKLE].up_m,
                link[1][PLUMB_LINK_ANKLE].up_m);
    for (int i = PLUMB_LINK_SHANK; i <= PLUMB_LINK_THORAX; i++) {
        travel_term(step, link[0][i].words, link[0][i].up_m, link[1][i].up_m);
    }
    if (pull) {
        travel_term(step, "arms, shoulder to bar", down[0], down[1]);
    } else {
        travel_term(step, link[0][PLUMB_LINK_SEAT_UP].words, link[0][PLUMB_LINK_SEAT_UP].up_m,
                    link[1][PLUMB_LINK_SEAT_UP].up_m);
        travel_term(step, link[0][PLUMB_LINK_SEAT_BACK].words, link[0][PLUMB_LINK_SEAT_BACK].up_m,
                    link[1][PLUMB_LINK_SEAT_BACK].up_m);
    }
    plumb_explain_sum(step, "T", "m", 4);
    plumb_explain_pose(e, s);
    if (pull) {
        plumb_explain_note(e, "At the start the bar lies half a disc above the floor, more on "
                              "blocks, less in a deficit.");
    }
    e->quantity = PLUMB_Q_LENGTH;
    e->program = s->answer->travel_m;
    return PLUMB_OK;
}
