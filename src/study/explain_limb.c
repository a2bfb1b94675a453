/* SPDX-License-Identifier: MIT */
/* A two-link limb in a working: two sides and the way between their ends make a triangle. */
#include "study/explain_limb.h"

static const double STRAIGHT_M = 1e-9; /* nearer to the line the joint has no side */

PlumbExplainLimb plumb_explain_limb(const PlumbExplainSubject *s)
{
    const PlumbBody *const body = &s->lifter->body;
    PlumbExplainLimb limb = {.arm = s->press != NULL, .foot_axis = {1.0, 0.0, 0.0}};
    if (limb.arm) {
        const PlumbVec3 *const at = plumb_explain_press(s)->point;
        limb.from = at[PLUMB_PRESS_shoulder];
        limb.joint = at[PLUMB_PRESS_elbow];
        limb.to = at[PLUMB_PRESS_grip];
        limb.first_m = body->upper_arm_m;
        limb.second_m = body->forearm_m + body->wrist_to_grip_palm_m;
    } else {
        const PlumbVec3 *const at = plumb_explain_position(s)->point;
        limb.from = at[PLUMB_PT_ankle];
        limb.joint = at[PLUMB_PT_knee];
        limb.to = at[PLUMB_PT_hip];
        limb.first_m = body->shank_m;
        limb.second_m = body->thigh_m;
        limb.foot_axis = vec3_unit(vec3_sub(at[PLUMB_PT_toe], at[PLUMB_PT_heel]));
    }
    const PlumbVec3 way = vec3_sub(limb.to, limb.from);
    const PlumbVec3 link = vec3_sub(limb.joint, limb.from);
    limb.distance_m = vec3_length(way);
    limb.n = vec3_unit(way);
    limb.along_m = vec3_dot(link, limb.n);
    const PlumbVec3 off = vec3_along(link, -limb.along_m, limb.n);
    limb.off_m = vec3_length(off);
    if (limb.off_m < STRAIGHT_M) {
        limb.off_m = 0.0;
    } else {
        limb.e = vec3_unit(off);
    }
    return limb;
}

static void leg_numbers(PlumbExplanation *e, const PlumbExplainLimb *limb)
{
    plumb_explain_number(e, "ankle, ahead of mid-foot", limb->from.x, "m",
                         "lengths and settings below", NULL, NULL);
    plumb_explain_number(e, "ankle, above the floor", limb->from.y, "m",
                         "lengths and settings below", NULL, NULL);
    plumb_explain_number(e, "ankle, from the middle", limb->from.z, "m",
                         "lengths and settings below", NULL, NULL);
    plumb_explain_number(e, "hip, ahead of mid-foot", limb->to.x, "m", "solved pose", NULL, NULL);
    plumb_explain_number(e, "hip, above the floor", limb->to.y, "m", "solved pose", NULL, NULL);
    plumb_explain_number(e, "hip, from the middle", limb->to.z, "m", "lengths and settings below",
                         NULL, NULL);
}

void plumb_explain_triangle(PlumbExplanation *e, const PlumbExplainLimb *limb)
{
    const bool arm = limb->arm;
    const PlumbVec3 way = vec3_sub(limb->to, limb->from);
    plumb_explain_symbol(e, "dx, dy, dz",
                         arm ? "hand from the shoulder: toward the feet, up, outwards"
                             : "hip from the ankle, right leg: forward, up, outwards");
    plumb_explain_symbol(
        e, "l1, l2", arm ? "upper arm; forearm with the hand up to the bar" : "shank and thigh");
    plumb_explain_symbol(e, "D",
                         arm ? "length of the line from shoulder to hand"
                             : "length of the line from ankle to hip");
    plumb_explain_symbol(e, "a, r",
                         arm ? "elbow along that line from the shoulder, and off it"
                             : "knee along that line from the ankle, and off it");
    PlumbExplainStep *const step = plumb_explain_step(
        e,
        arm ? "Triangle of upper arm, forearm and the line from shoulder to hand"
            : "Triangle of shank, thigh and the line from ankle to hip",
        arm ? "Two links of known lengths span the way from shoulder to hand: so far along it and "
              "so far off it lies the elbow."
            : "Two links of known lengths span the way from ankle to hip: so far along it and so "
              "far off it lies the knee.",
        "D = sqrt(dx^2 + dy^2 + dz^2),  a = (l1^2 - l2^2 + D^2) / (2 D),  r = sqrt(l1^2 - a^2)");
    static const char *const symbol[] = {"dx", "dy", "dz", "l1", "l2", "D", "a", "r"};
    for (size_t i = 0; i < sizeof symbol / sizeof symbol[0]; i++) {
        plumb_explain_column(step, symbol[i], "m", 4);
    }
    plumb_explain_figures(step, plumb_explain_term(step, arm ? "arm" : "leg"),
                          (const double[]){way.x, way.y, way.z, limb->first_m, limb->second_m,
                                           limb->distance_m, limb->along_m, limb->off_m});
    plumb_explain_sum(step, "r", "m", 4);
    if (!arm) {
        leg_numbers(e, limb);
    }
    plumb_explain_symbol(
        e, "c1, c2",
        "share of the first and of the second that counts in a direction; below 0 it takes away");
    plumb_explain_note(e, arm ? "The elbow may turn about the line from shoulder to hand; which "
                                "way it points is what the set-up asks for."
                              : "The knee points where the foot points, turned by knees out: that "
                                "decides to which side of the line it lies.");
}

/* Parts of a link, of the lower and the upper one; of an arm the first is toward the feet. */
static const struct {
    const char *lower;
    const char *upper;
} symbols[PLUMB_EXPLAIN_AXIS_COUNT] = {
    [PLUMB_EXPLAIN_AHEAD] = {"x", "u"},   [PLUMB_EXPLAIN_UP] = {"y", "v"},
    [PLUMB_EXPLAIN_OUT] = {"z", "w"},     [PLUMB_EXPLAIN_FOOT] = {"f", ""},
    [PLUMB_EXPLAIN_TOE_LINE] = {"t", ""},
};

const char *plumb_explain_part_symbol(bool upper, PlumbExplainAxis axis)
{
    return upper ? symbols[axis].upper : symbols[axis].lower;
}

PlumbVec3 plumb_explain_direction(const PlumbExplainLimb *limb, PlumbExplainAxis axis)
{
    switch (axis) {
    case PLUMB_EXPLAIN_AHEAD:
        return vec3(1.0, 0.0, 0.0);
    case PLUMB_EXPLAIN_UP:
        return vec3(0.0, 1.0, 0.0);
    case PLUMB_EXPLAIN_FOOT:
        return limb->foot_axis;
    case PLUMB_EXPLAIN_TOE_LINE:
        return vec3(-limb->foot_axis.z, 0.0, limb->foot_axis.x);
    case PLUMB_EXPLAIN_OUT:
    case PLUMB_EXPLAIN_AXIS_COUNT:
        break;
    }
    return vec3(0.0, 0.0, 1.0);
}

static const char *part_words(const PlumbExplainLimb *limb, PlumbExplainAxis axis)
{
    return axis == PLUMB_EXPLAIN_UP     ? ", up"
           : axis == PLUMB_EXPLAIN_OUT  ? ", outwards"
           : axis == PLUMB_EXPLAIN_FOOT ? ", forward along the foot"
           : limb->arm                  ? ", toward the feet"
                                        : ", forward";
}

void plumb_explain_link_parts(PlumbExplanation *e, const PlumbExplainLimb *limb, bool upper,
                              const PlumbExplainAxis *axis, int count, double *value)
{
    const double along = upper ? limb->distance_m - limb->along_m : limb->along_m;
    const double sign = upper ? -1.0 : 1.0;
    PlumbExplainStep *const step = plumb_explain_step(
        e,
        limb->arm ? (upper ? "Hand from the elbow" : "Elbow from the shoulder")
                  : (upper ? "Hip from the knee" : "Knee from the ankle"),
        upper ? "In each direction: what is left of the line beyond the joint, less what the joint "
                "lies off it, each by its share in this direction."
              : "In each direction: what lies along the line and what lies off it, each by its "
                "share in this direction.",
        upper ? "part = c1 (D - a) + c2 r" : "part = c1 a + c2 r");
    plumb_explain_column(step, upper ? "D - a" : "a", "m", 4);
    plumb_explain_column(step, "c1", "", 4);
    plumb_explain_column(step, "r", "m", 4);
    plumb_explain_column(step, "c2", "", 4);
    plumb_explain_column(step, "part", "m", 4);
    for (int i = 0; i < count; i++) {
        const PlumbVec3 direction = plumb_explain_direction(limb, axis[i]);
        const double c1 = vec3_dot(limb->n, direction);
        const double c2 = sign * vec3_dot(limb->e, direction);
        char words[PLUMB_EXPLAIN_NAME];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, plumb_explain_part_symbol(upper, axis[i]));
        plumb_text_string(&text, part_words(limb, axis[i]));
        value[i] = c1 * along + c2 * limb->off_m;
        plumb_explain_figures(step, plumb_explain_term(step, words),
                              (const double[]){along, c1, limb->off_m, c2, value[i]});
    }
    plumb_explain_apart(step);
}

void plumb_explain_limb_terms(PlumbExplainStep *step, const PlumbExplainLimb *limb, double along_m,
                              double sign, double off_sign, PlumbVec3 direction)
{
    plumb_explain_product(
        step, limb->arm ? "along the line shoulder to hand" : "along the line ankle to hip",
        along_m, sign * vec3_dot(limb->n, direction));
    plumb_explain_product(step, limb->arm ? "off it, to the elbow" : "off it, to the knee",
                          limb->off_m, off_sign * vec3_dot(limb->e, direction));
}
