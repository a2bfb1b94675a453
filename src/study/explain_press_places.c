/* SPDX-License-Identifier: MIT */
/* The working of a press's places: touch, grip, straight arms, elbow, and how the upper arm turns.
 */
#include "study/explain_limb.h"

#include "solve/press.h"

#include <stddef.h>

static PlumbExplainStep *products(PlumbExplanation *e, const char *title, const char *words,
                                  const char *equation)
{
    plumb_explain_symbol(e, "l, c", "a length, and how much it counts; below 0 it takes away");
    PlumbExplainStep *const step = plumb_explain_step(e, title, words, equation);
    plumb_explain_column(step, "l", "m", 4);
    plumb_explain_column(step, "c", "", 4);
    plumb_explain_column(step, "c l", "m", 4);
    return step;
}

static PlumbStatus finish(const PlumbExplainSubject *s, PlumbExplanation *e, PlumbQuantity quantity,
                          double program)
{
    plumb_explain_pose(e, s);
    e->quantity = quantity;
    e->program = program;
    return PLUMB_OK;
}

/* Nearer to the neck the upper arm, its elbow under the bar, would stand further off the trunk. */
static void flare_number(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const bool given = s->press->setup.elbows_given;
    plumb_explain_symbol(e, "l1, F", "upper arm, and how far from the trunk it may stand");
    plumb_explain_number(e, "F, upper arm from the trunk at most",
                         plumb_press_flare_rad(s->lifter, &s->press->setup), "rad",
                         given ? "given" : "default",
                         given ? NULL : plumb_source_find("limits.csv", "press_abduction"), NULL);
}

PlumbStatus plumb_explain_touch(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPressAnswer *const press = s->press;
    const bool automatic = press->setup.lead == PLUMB_LEAD_AUTO && press->low_effort.exists;
    plumb_explain_symbol(e, "t", "touch: the bar from the shoulders' line toward the feet");
    PlumbExplainStep *const step =
        automatic ? products(e, "Middle of the low-effort range",
                             "Nothing asks for a touch, so the middle of the range is taken in "
                             "which the summed effort is within 5 % of its least.",
                             "t = (low + high) / 2")
                  : products(e, "As the set-up has it", "The set-up says where the bar touches.",
                             "t = l");
    if (automatic) {
        const bool flared = press->low_effort.low_end == PLUMB_END_upper_arm_flared;
        plumb_explain_product(step, flared ? "low end, l1 cos F" : "low end of the range",
                              press->low_effort.low, 0.5);
        plumb_explain_product(step, "high end of the range", press->low_effort.high, 0.5);
        plumb_explain_note(e, "The ends are found by trying touches: there the summed effort has "
                              "grown by 5 %, or a limit is met.");
        if (flared) {
            flare_number(s, e);
        }
    } else {
        plumb_explain_product(step, "touch", press->setup.touch_m, 1.0);
    }
    plumb_explain_sum(step, "t", "m", 4);
    return finish(s, e, PLUMB_Q_LENGTH, press->setup.touch_m);
}

PlumbStatus plumb_explain_grip_share(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const double grip = s->press->setup.grip_m;
    const double breadth = plumb_press_shoulder_breadth_m(s->lifter);
    plumb_explain_symbol(e, "q", "grip as a share of the shoulders' breadth");
    plumb_explain_symbol(e, "w", "grip, between the forefingers");
    plumb_explain_symbol(e, "b", "distance between the two shoulder joints");
    PlumbExplainStep *const step =
        plumb_explain_step(e, "Grip over shoulders",
                           "How wide the hands are for this pair of shoulders.", "q = w / b");
    plumb_explain_column(step, "w", "m", 4);
    plumb_explain_column(step, "b", "m", 4);
    plumb_explain_column(step, "q", "", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "grip"),
                          (const double[]){grip, breadth, grip / breadth});
    plumb_explain_sum(step, "q", "", 4);
    return finish(s, e, PLUMB_Q_SHARE, grip / breadth);
}

PlumbStatus plumb_explain_lockout_height(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    plumb_explain_straight_arm(s, e);
    const PlumbVec3 *const at = s->press->lockout.point;
    return finish(s, e, PLUMB_Q_LENGTH, at[PLUMB_PRESS_bar].y - at[PLUMB_PRESS_shoulder].y);
}

PlumbStatus plumb_explain_elbow_off_hand(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    plumb_explain_symbol(e, "d", "elbow outside the hand, from the head end");
    plumb_explain_triangle(e, &limb);
    PlumbExplainStep *const step =
        products(e, "Elbow outside the hand",
                 "From the hand back to the elbow: what is left of the line, and what the elbow "
                 "lies off it, each by its share outwards.",
                 "d = c1 (D - a) + c2 r");
    plumb_explain_limb_terms(step, &limb, limb.distance_m - limb.along_m, -1.0, 1.0,
                             vec3(0.0, 0.0, 1.0));
    plumb_explain_sum(step, "d", "m", 4);
    return finish(s, e, PLUMB_Q_LENGTH, plumb_explain_press(s)->elbow_off_hand_m);
}

PlumbStatus plumb_explain_elbow_below_rule(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbBody *const body = &s->lifter->body;
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    plumb_explain_symbol(e, "d", "underside of the elbow below the top of the shoulder");
    plumb_explain_triangle(e, &limb);
    PlumbExplainStep *const step =
        products(e, "From the elbow's underside up to the shoulder's top",
                 "The rule compares what can be seen: the top of the shoulder above its joint, the "
                 "underside of the elbow below its own; between the joints lies the upper arm.",
                 "d = s + k + c1 a + c2 r");
    plumb_explain_product(step, "s, top of the shoulder above its joint",
                          body->shoulder_top_above_joint_m, 1.0);
    plumb_explain_product(step, "k, underside of the elbow below its joint",
                          body->elbow_half_thickness_m, 1.0);
    plumb_explain_limb_terms(step, &limb, limb.along_m, -1.0, -1.0, vec3(0.0, 1.0, 0.0));
    plumb_explain_sum(step, "d", "m", 4);
    plumb_explain_length(e, s->lifter, PLUMB_LEN_shoulder_top_above_joint);
    plumb_explain_length(e, s->lifter, PLUMB_LEN_elbow_half_thickness);
    return finish(s, e, PLUMB_Q_LENGTH, plumb_explain_press(s)->elbow_below_rule_m);
}

/* The elbow below the hand in the head end's view: as far out as the hand, and on two circles in
 * the side view. */
PlumbStatus plumb_explain_elbows_upright(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    PlumbExplainSubject touch = *s;
    touch.at_end = false;
    const PlumbExplainLimb limb = plumb_explain_limb(&touch);
    const PlumbVec3 way = vec3_sub(limb.to, limb.from);
    const double p = sqrt(fmax(0.0, limb.first_m * limb.first_m - way.z * way.z));
    const double d = hypot(way.x, way.y);
    const double a = (p * p - limb.second_m * limb.second_m + d * d) / (2.0 * d);
    const double r = sqrt(fmax(0.0, p * p - a * a));
    /* Of the two crossings the one toward the feet. */
    const double x = (a * way.x + r * way.y) / d;
    const double y = (a * way.y - r * way.x) / d;
    plumb_explain_symbol(e, "gx, gy, gz", "hand from the shoulder: toward the feet, up, outwards");
    plumb_explain_symbol(e, "l1, l2", "upper arm; forearm with the hand up to the bar");
    plumb_explain_symbol(e, "p, D", "in the side view: upper arm; line from shoulder to hand");
    plumb_explain_symbol(e, "a, r", "elbow along that line from the shoulder, and off it");
    plumb_explain_symbol(e, "x, y", "elbow from the shoulder: toward the feet, up");
    plumb_explain_symbol(e, "A", "upper arm from the trunk: 0 along it toward the feet");
    PlumbExplainStep *step = plumb_explain_step(
        e, "The elbow below the hand, in the side view",
        "An upright forearm stands as far out as the hand, gz. What is left of the upper arm in "
        "the side view is p, and the forearm is l2: two links over the line from shoulder to hand.",
        "p = sqrt(l1^2 - gz^2),  D = sqrt(gx^2 + gy^2),  a = (p^2 - l2^2 + D^2) / (2 D)");
    static const char *const symbol[] = {"gx", "gy", "gz", "l1", "l2", "p", "D", "a"};
    for (size_t i = 0; i < sizeof symbol / sizeof symbol[0]; i++) {
        plumb_explain_column(step, symbol[i], "m", 4);
    }
    plumb_explain_figures(
        step, plumb_explain_term(step, "arm"),
        (const double[]){way.x, way.y, way.z, limb.first_m, limb.second_m, p, d, a});
    plumb_explain_sum(step, "a", "m", 4);
    step = plumb_explain_step(
        e, "Upper arm from the trunk",
        "Of the two places of the elbow the one toward the feet; what the upper arm reaches across "
        "the "
        "trunk's line against what it reaches along it.",
        "r = sqrt(p^2 - a^2),  x = (a gx + r gy) / D,  y = (a gy - r gx) / D,  A = atan2(sqrt(y^2 "
        "+ gz^2), x)");
    plumb_explain_column(step, "r", "m", 4);
    plumb_explain_column(step, "x", "m", 4);
    plumb_explain_column(step, "y", "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "upper arm"),
                          (const double[]){r, x, y, atan2(hypot(y, way.z), x)});
    plumb_explain_sum(step, "A", "rad", 4);
    return finish(s, e, PLUMB_Q_ANGLE, s->press->elbows_upright_rad);
}

PlumbStatus plumb_explain_abduction_step(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPress press = plumb_press_begin(s->lifter, &s->press->setup);
    const double from = s->press->abduction_step_frac;
    const double to = from + plumb_press_step_window(s->press->travel_m);
    const double angle[2] = {plumb_press_abduction(&press, from),
                             plumb_press_abduction(&press, to)};
    const double sign = angle[1] >= angle[0] ? 1.0 : -1.0;
    plumb_explain_symbol(e, "A", "largest turn of the upper arm in a centimetre of rise");
    plumb_explain_symbol(e, "k", "share of the bar's rise where the centimetre begins, or ends");
    plumb_explain_symbol(e, "b", "upper arm from the trunk there");
    plumb_explain_symbol(e, "c", "how it counts: the later angle less the earlier, or the reverse");
    PlumbExplainStep *const step = plumb_explain_step(
        e, "The centimetre in which the upper arm turns most",
        "The upper arm's angle to the trunk at both ends of that centimetre; of all centimetres of "
        "the rise it is the one with the largest difference.",
        "A = Σ c b");
    plumb_explain_column(step, "k", "", 4);
    plumb_explain_column(step, "b", "rad", 4);
    plumb_explain_column(step, "c", "", 0);
    plumb_explain_column(step, "c b", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "where it begins"),
                          (const double[]){from, angle[0], -sign, -sign * angle[0]});
    plumb_explain_figures(step, plumb_explain_term(step, "where it ends"),
                          (const double[]){to, angle[1], sign, sign * angle[1]});
    plumb_explain_sum(step, "A", "rad", 4);
    plumb_explain_number(e, "bar travel", s->press->travel_m, "m", "solved pose", NULL, NULL);
    plumb_explain_note(e, "The upper arm's angle at one place is explained on its own as "
                          "abduction.");
    return finish(s, e, PLUMB_Q_ANGLE, s->press->abduction_step_rad);
}

/* Σ of the products of two directions' parts. */
static double scalar(PlumbExplanation *e, const char *title, const char *words,
                     const char *equation, const char *symbol, const char *of, PlumbVec3 direction,
                     PlumbVec3 forearm)
{
    static const char *const part[] = {"toward the feet", "up", "outwards"};
    const double unit[] = {direction.x, direction.y, direction.z};
    const double arm[] = {forearm.x, forearm.y, forearm.z};
    PlumbExplainStep *const step = plumb_explain_step(e, title, words, equation);
    plumb_explain_column(step, of, "", 4);
    plumb_explain_column(step, "forearm", "m", 4);
    plumb_explain_column(step, "product", "m", 4);
    for (int i = 0; i < 3; i++) {
        plumb_explain_figures(step, plumb_explain_term(step, part[i]),
                              (const double[]){unit[i], arm[i], unit[i] * arm[i]});
    }
    plumb_explain_sum(step, symbol, "m", 4);
    return step->result;
}

/* The forearm against where it would point if the upper arm had been swung from the trunk's side to
 * where it is without turning about its length: the front, brought along by the shortest swing of
 * (1, 0, 0) to the upper arm m. */
PlumbStatus plumb_explain_rotation(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const double straight_m = 1e-9;
    const PlumbPressPosition *const p = plumb_explain_press(s);
    const PlumbVec3 m =
        vec3_unit(vec3_sub(p->point[PLUMB_PRESS_elbow], p->point[PLUMB_PRESS_shoulder]));
    const PlumbVec3 forearm = vec3_sub(p->point[PLUMB_PRESS_grip], p->point[PLUMB_PRESS_elbow]);
    const PlumbVec3 neutral = vec3(-m.y, m.x + m.z * m.z / (1.0 + m.x), -m.y * m.z / (1.0 + m.x));
    plumb_explain_symbol(e, "A",
                         "shoulder external rotation: how the upper arm is turned about "
                         "its own length");
    plumb_explain_symbol(e, "m", "direction of the upper arm: (mx, my, mz)");
    plumb_explain_symbol(e, "n0", "where an unturned forearm would point: swung up from the side");
    plumb_explain_symbol(e, "n1", "square to it and to the upper arm: m × n0");
    const double c = scalar(
        e, "Forearm along the unturned direction",
        "Hanging at the side, unturned, a bent elbow lets the forearm point to the front; swung "
        "with the upper arm that direction becomes n0.",
        "c = n0 · forearm,  n0 = (-my, mx + mz^2/(1 + mx), -my mz/(1 + mx))", "c", "n0", neutral,
        forearm);
    const double q =
        scalar(e, "Forearm across it", "How far the forearm is turned away from n0.",
               "q = n1 · forearm,  n1 = m × n0", "q", "n1", vec3_cross(m, neutral), forearm);
    PlumbExplainStep *const step =
        plumb_explain_step(e, "Rotation of the shoulder",
                           "What lies across against what lies along.", "A = atan2(q, c)");
    plumb_explain_column(step, "q", "m", 4);
    plumb_explain_column(step, "c", "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "forearm"),
                          (const double[]){q, c, hypot(q, c) < straight_m ? 0.0 : atan2(q, c)});
    plumb_explain_sum(step, "A", "rad", 4);
    plumb_explain_number(e, "mx, toward the feet", m.x, "", "solved pose", NULL, NULL);
    plumb_explain_number(e, "my, up", m.y, "", "solved pose", NULL, NULL);
    plumb_explain_number(e, "mz, outwards", m.z, "", "solved pose", NULL, NULL);
    return finish(s, e, PLUMB_Q_ANGLE, p->angle_rad[PLUMB_PRESS_ANG_shoulder_external_rotation]);
}
