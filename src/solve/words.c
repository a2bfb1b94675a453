/* SPDX-License-Identifier: MIT */
/* Findings in plain words: what was met, the figure, and the limit. */
#include <plumbar/solve.h>

#include <math.h>

/* A sentence is a pattern: {v} the value, {a} its size without a sign, {l} the limit, {d} the
 * detail in words. {c} and {f} are 1 cm and 5 cm of the bar's rise. */
typedef struct Sentence {
    const char *pattern;
    const char *other; /* where is_other() says so; NULL: the same */
} Sentence;

static const Sentence sentences[PLUMB_FINDING_COUNT] = {
    [PLUMB_FIND_no_pose] = {"No pose meets the request: {d} misses by {a} in the nearest one.",
                            "No pose meets the request ({d}), and none near it was found."},
    [PLUMB_FIND_shoulder_behind_bar] =
        {"The shoulder is {a} behind the bar: the hips tend to rise before the bar does.", NULL},
    [PLUMB_FIND_shoulder_far_ahead] =
        {"The shoulder is {a} ahead of the bar; a little ahead is usual, {l} at most here.", NULL},
    [PLUMB_FIND_back_near_level] = {"The back is {v} above level, less than {l}.",
                                    "The back is {a} below level; {l} above it is the least here."},
    [PLUMB_FIND_bar_off_mid_foot] = {"The bar is {a} ahead of mid-foot.",
                                     "The bar is {a} behind mid-foot."},
    [PLUMB_FIND_balance_toward_heel] =
        {"The balance is at {v} of the foot, toward the heel (below {l}).",
         "The balance is at {v} of the foot, behind the heel: the lifter would tip over backward."},
    [PLUMB_FIND_balance_toward_toes] =
        {"The balance is at {v} of the foot, toward the toes (above {l}).",
         "The balance is at {v} of the foot, ahead of the toes: the lifter would tip forward."},
    [PLUMB_FIND_shin_through_bar] =
        {"The shin would stand {a} into the bar: the knees push it forward.", NULL},
    [PLUMB_FIND_gap_to_bar] = {"There is a gap of {a} between the leg and the bar.", NULL},
    [PLUMB_FIND_joint_past_limit] = {"{d} would be {v}, past its limit of {l}.", NULL},
    [PLUMB_FIND_depth_not_reached] = {"The hip crease is {a} above the top of the knee.",
                                      "The hip crease is {a} above the top of the knee."},
    [PLUMB_FIND_hands_off_knurling] =
        {"The hands reach {v} from edge to edge, beyond the end of the knurling at {l}.",
         "The forefingers are {v} apart, on the smooth middle of the bar: the knurling starts at "
         "{l}."},
    [PLUMB_FIND_hands_past_rings] = {"The forefingers are {v} apart, past the ring marks at {l}.",
                                     NULL},
    [PLUMB_FIND_arm_cannot_reach] =
        {"With the forefingers {v} apart the arm cannot reach the bar in this seat.", NULL},
    [PLUMB_FIND_knees_inside_ankles] =
        {"Seen from the front the knees stand {a} inside the ankles.", NULL},
    [PLUMB_FIND_hips_rise_first] =
        {"Expect the hips to rise {a} before the bar leaves the floor: {d}.", NULL},
    [PLUMB_FIND_bar_off_balance_standing] =
        {"Standing upright the bar is {a} ahead of the balance point.",
         "Standing upright the bar is {a} behind the balance point."},
    [PLUMB_FIND_knees_over_toes_not_met] =
        {"No turn of the knees within 30° in and 45° out puts them over the toes; they stay {a} "
         "outside the line through the toes.",
         "No turn of the knees within 30° in and 45° out puts them over the toes; they stay {a} "
         "inside the line through the toes."},
    [PLUMB_FIND_press_no_pose] = {"The arms cannot span {d}: they miss it by {a}.", NULL},
    [PLUMB_FIND_grip_over_rule] = {"The forefingers are {v} apart; the rules allow {l} at most.",
                                   NULL},
    [PLUMB_FIND_elbow_above_rule] =
        {"At the touch the undersides of the elbows stay {a} above the tops of the shoulders: the "
         "rule on depth is not met.",
         NULL},
    [PLUMB_FIND_elbows_not_met] =
        {"Elbows at {l} cannot be had with this grip and touch; the nearest is {v}.", NULL},
    [PLUMB_FIND_elbow_not_under_bar] =
        {"No place of the elbow lies under the bar at the touch: it stays {a} toward the feet.",
         "No place of the elbow lies under the bar at the touch: it stays {a} toward the head."},
    [PLUMB_FIND_elbows_flare_outside] =
        {"With the elbows under the bar they stand far outside the hands: the forearm leans {a} "
         "seen from the head end. Elbows at {l} would keep it upright.",
         "With the elbows under the bar they stand far outside the hands: the forearm leans {a} "
         "seen from the head end. Elbows at {l} would keep it upright."},
    [PLUMB_FIND_forearm_not_upright] =
        {"Seen from the head end the forearm leans {a} at the touch, the hand outside the elbow.",
         "Seen from the head end the forearm leans {a} at the touch, the elbow outside the hand."},
    [PLUMB_FIND_elbow_path_jumps] =
        {"The elbows jump {d}: within {c} of the bar's rise the upper arm's angle to the trunk "
         "changes by {a}.",
         NULL},
    [PLUMB_FIND_elbows_flare_suddenly] =
        {"The elbows flare suddenly {d}, not smoothly: by {a} within {c} of the bar's rise.", NULL},
    [PLUMB_FIND_touch_near_neck] =
        {"The bar touches {a} from the line through the shoulders, near the throat. The model "
         "counts moments only; practice touches lower on the chest.",
         "The bar touches {a} on the head's side of the shoulders, over the throat. The model "
         "counts moments only; practice touches lower on the chest."},
    [PLUMB_FIND_bar_off_shoulder_lockout] =
        {"At lockout the bar is {a} from above the shoulders, toward the feet.",
         "At lockout the bar is {a} from above the shoulders, toward the head."},
    [PLUMB_FIND_hips_before_bar] =
        {"The hips rise {a} before the bar leaves the floor (more than {l}).", NULL},
    [PLUMB_FIND_hips_rise_faster] =
        {"Over the bar's first {f} the hips rise {v} times as far as the bar (more than {l}).",
         NULL},
    [PLUMB_FIND_back_drops] = {"On the way up the back's angle first falls by {a} (more than {l}).",
                               NULL},
    [PLUMB_FIND_bar_path_wide] = {"On the way up the bar moves {a} to and fro (more than {l}).",
                                  NULL},
    [PLUMB_FIND_knees_go_back] =
        {"The knees go back by {a} before the bar leaves the floor (more than {l}).", NULL},
    [PLUMB_FIND_bar_slips] = {"The bar moves {a} along the back during the lift (more than {l}).",
                              NULL},
    [PLUMB_FIND_knees_come_in] = {"On the way up the knees come in: their distance over that of "
                                  "the ankles is {v} less than the straightening of the legs "
                                  "makes it (more than {l}).",
                                  NULL},
    [PLUMB_FIND_shins_lean_in] = {"Seen from the front the shins lean inward by {a} where the way "
                                  "up begins (more than {l}).",
                                  NULL},
    [PLUMB_FIND_touch_high] =
        {"The bar touches {a} from the line through the shoulders (nearer than {l}), near the "
         "throat.",
         "The bar touches {a} on the head's side of the shoulders, over the throat."},
    [PLUMB_FIND_upper_arm_turns] = {"The elbows jump {d}: within {t} of the bar's rise the upper "
                                    "arm turns by {a} against the trunk (more than {l}).",
                                    NULL},
    [PLUMB_FIND_elbow_off_bar] =
        {"At the touch the elbow is {a} from under the bar, toward the feet (more than {l}).",
         "At the touch the elbow is {a} from under the bar, toward the head (more than {l})."},
};

static const char *const limit_words[PLUMB_LIMIT_COUNT] = {
    [PLUMB_LIMIT_ankle_dorsiflexion] = "The ankle's dorsiflexion",
    [PLUMB_LIMIT_knee_flexion] = "The knee's flexion",
    [PLUMB_LIMIT_hip_flexion] = "The hip's flexion",
    [PLUMB_LIMIT_hip_extension] = "The hip's extension",
    [PLUMB_LIMIT_hip_abduction] = "The hip's abduction",
    [PLUMB_LIMIT_hip_external_rotation] = "The hip's external rotation",
    [PLUMB_LIMIT_hip_internal_rotation] = "The hip's internal rotation",
    [PLUMB_LIMIT_shoulder_flexion] = "The shoulder's flexion",
    [PLUMB_LIMIT_shoulder_external_rotation] = "The shoulder's external rotation",
    [PLUMB_LIMIT_elbow_flexion] = "The elbow's flexion",
    [PLUMB_LIMIT_press_abduction] = "The upper arm from the trunk",
};

static const char *const path_words[3] = {"off the chest", "on the way",
                                          "just before the arms are straight"};

static const char *detail_text(const PlumbFinding *finding)
{
    switch (finding->id) {
    case PLUMB_FIND_no_pose:
        return plumb_constraint_text((PlumbConstraintId)finding->detail);
    case PLUMB_FIND_joint_past_limit:
        return limit_words[finding->detail];
    case PLUMB_FIND_hips_rise_first:
        return plumb_end_text((PlumbEnd)finding->detail);
    case PLUMB_FIND_elbow_path_jumps:
    case PLUMB_FIND_elbows_flare_suddenly:
    case PLUMB_FIND_upper_arm_turns:
        return path_words[finding->detail];
    case PLUMB_FIND_press_no_pose:
        return finding->detail != 0 ? "the way to the lockout" : "the way to the touch";
    case PLUMB_FIND_hands_off_knurling:
    case PLUMB_FIND_shoulder_behind_bar:
    case PLUMB_FIND_shoulder_far_ahead:
    case PLUMB_FIND_back_near_level:
    case PLUMB_FIND_bar_off_mid_foot:
    case PLUMB_FIND_balance_toward_heel:
    case PLUMB_FIND_balance_toward_toes:
    case PLUMB_FIND_shin_through_bar:
    case PLUMB_FIND_gap_to_bar:
    case PLUMB_FIND_depth_not_reached:
    case PLUMB_FIND_hands_past_rings:
    case PLUMB_FIND_arm_cannot_reach:
    case PLUMB_FIND_knees_inside_ankles:
    case PLUMB_FIND_bar_off_balance_standing:
    case PLUMB_FIND_knees_over_toes_not_met:
    case PLUMB_FIND_grip_over_rule:
    case PLUMB_FIND_elbow_above_rule:
    case PLUMB_FIND_elbows_not_met:
    case PLUMB_FIND_elbow_not_under_bar:
    case PLUMB_FIND_elbows_flare_outside:
    case PLUMB_FIND_forearm_not_upright:
    case PLUMB_FIND_touch_near_neck:
    case PLUMB_FIND_bar_off_shoulder_lockout:
    case PLUMB_FIND_hips_before_bar:
    case PLUMB_FIND_hips_rise_faster:
    case PLUMB_FIND_back_drops:
    case PLUMB_FIND_bar_path_wide:
    case PLUMB_FIND_knees_go_back:
    case PLUMB_FIND_bar_slips:
    case PLUMB_FIND_knees_come_in:
    case PLUMB_FIND_shins_lean_in:
    case PLUMB_FIND_touch_high:
    case PLUMB_FIND_elbow_off_bar:
    case PLUMB_FINDING_COUNT:
        break;
    }
    return "";
}

void plumb_miss_text(PlumbText *text, double miss_si, PlumbQuantity quantity, PlumbUnits units)
{
    const double factor = plumb_quantity_factor(quantity, units);
    const double step = pow(10.0, -plumb_quantity_decimals(quantity, units)) / factor;
    const bool small = fabs(miss_si) < 0.5 * step;
    plumb_text_string(text, small ? "less than " : "");
    plumb_text_quantity(text, small ? step : fabs(miss_si), quantity, units);
}

static void append_field(PlumbText *text, char field, const PlumbFinding *finding, PlumbUnits units)
{
    switch (field) {
    case 'v':
        plumb_text_quantity(text, finding->value, finding->quantity, units);
        break;
    case 'a':
        if (finding->id == PLUMB_FIND_no_pose) {
            plumb_miss_text(text, finding->value, finding->quantity, units);
        } else {
            plumb_text_quantity(text, fabs(finding->value), finding->quantity, units);
        }
        break;
    case 'c': /* the rise over which the elbow's turn is counted */
        plumb_text_said(text, 0.01, PLUMB_Q_LENGTH, units);
        break;
    case 't': /* the same of a film, whose frames are further apart */
        plumb_text_said(text, PLUMB_TURN_RISE_M, PLUMB_Q_LENGTH, units);
        break;
    case 'f': /* the rise over which hips and bar are compared */
        plumb_text_said(text, 0.05, PLUMB_Q_LENGTH, units);
        break;
    case 'l':
        plumb_text_quantity(text, finding->limit, finding->quantity, units);
        break;
    default:
        plumb_text_string(text, detail_text(finding));
        break;
    }
}

/* Below zero for most; no near pose, hands inside the knurling, balance ahead of the foot. */
static bool is_other(const PlumbFinding *finding)
{
    switch ((int)finding->id) {
    case PLUMB_FIND_no_pose:
        return !isfinite(finding->value);
    case PLUMB_FIND_hands_off_knurling:
        return finding->detail == 0;
    case PLUMB_FIND_balance_toward_toes:
        return finding->value > 1.0;
    default:
        return finding->value < 0.0;
    }
}

void plumb_finding_text(PlumbText *text, const PlumbFinding *finding, PlumbUnits units)
{
    const Sentence *sentence = &sentences[finding->id];
    const bool other = is_other(finding);
    const char *p = other && sentence->other != NULL ? sentence->other : sentence->pattern;
    for (; *p != '\0'; p++) {
        if (p[0] == '{' && p[1] != '\0' && p[2] == '}') {
            append_field(text, p[1], finding, units);
            p += 2;
        } else {
            plumb_text_char(text, *p);
        }
    }
}
