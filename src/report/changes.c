/* SPDX-License-Identifier: MIT */
/* What differs between two set-ups, and whether it may be asked of an athlete. */
#include <plumbar/report.h>

#include <math.h>

/* Differences that nobody can take on, and that come from rounding, are none. */
static const double LENGTH_LEAST_M = 0.001;
static const double ANGLE_LEAST_RAD = 0.0035;
static const double OTHER_LEAST = 1e-6;

static double least(PlumbQuantity quantity)
{
    switch (quantity) {
    case PLUMB_Q_LENGTH:
    case PLUMB_Q_SMALL:
    case PLUMB_Q_STATURE:
        return LENGTH_LEAST_M;
    case PLUMB_Q_ANGLE:
        return ANGLE_LEAST_RAD;
    case PLUMB_Q_MASS:
    case PLUMB_Q_MOMENT:
    case PLUMB_Q_FRACTION:
    case PLUMB_Q_SHARE:
    case PLUMB_Q_TIME:
    case PLUMB_Q_ENERGY:
    case PLUMB_Q_NUMBER:
    case PLUMB_Q_WORD:
    case PLUMB_QUANTITY_COUNT:
        break;
    }
    return OTHER_LEAST;
}

/* What leads shows in the hips of a pull, the shins of a squat and the touch of a press. */
static double lead_value(const PlumbSolved *solved, PlumbSettingId *id)
{
    switch (solved->lift) {
    case PLUMB_SQUAT:
        *id = PLUMB_SET_shin_angle;
        return solved->pose.start.angle_rad[PLUMB_ANG_shin];
    case PLUMB_BENCH:
        *id = PLUMB_SET_touch;
        return solved->press.setup.touch_m;
    case PLUMB_DEADLIFT:
    case PLUMB_LIFT_COUNT:
        break;
    }
    *id = PLUMB_SET_hip_height;
    return solved->pose.start.point[PLUMB_PT_hip].y;
}

static PlumbChange lead_change(const PlumbSolved *before, const PlumbSolved *after)
{
    PlumbChange change = {.lead = true};
    change.before_si = lead_value(before, &change.id);
    change.after_si = lead_value(after, &change.id);
    return change;
}

/* Whether both are led by the same quantity at the same value. */
static bool same_lead(const PlumbSetup *a, const PlumbSetup *b)
{
    if (a->lead != b->lead) {
        return false;
    }
    if (a->lead == PLUMB_LEAD_AUTO) {
        return a->lift != PLUMB_BENCH; /* a touch is something that is done, wherever it is from */
    }
    const PlumbSettingId id = plumb_setup_lead_setting(a);
    const bool same = fabs(plumb_setup_get(a, id) - plumb_setup_get(b, id)) < OTHER_LEAST;
    return same && (a->lead != PLUMB_LEAD_HEIGHT_AND_BALANCE ||
                    fabs(a->balance_frac - b->balance_frac) < OTHER_LEAST);
}

/* Elbows that are asked for against others, or against elbows under the bar; false where nothing
 * else is asked for than before. */
static bool elbows_change(const PlumbSolved *before, const PlumbSolved *after, PlumbChange *change)
{
    const PlumbPressAnswer *const a = &before->press;
    const PlumbPressAnswer *const b = &after->press;
    if (after->lift != PLUMB_BENCH || (!a->setup.elbows_given && !b->setup.elbows_given)) {
        return false;
    }
    const bool both = a->setup.elbows_given && b->setup.elbows_given;
    *change = (PlumbChange){
        .id = PLUMB_SET_elbows,
        .before_si = both ? a->setup.elbows_rad : a->touch.angle_rad[PLUMB_PRESS_ANG_abduction],
        .after_si = both ? b->setup.elbows_rad : b->touch.angle_rad[PLUMB_PRESS_ANG_abduction],
    };
    return fabs(change->after_si - change->before_si) >= ANGLE_LEAST_RAD;
}

/* Knees over the toes against a turn of their own are told by the turn that each pose has. */
static bool knees_change(const PlumbSolved *before, const PlumbSolved *after, PlumbChange *change)
{
    const PlumbSetup *const a = plumb_solved_setup(before);
    const PlumbSetup *const b = plumb_solved_setup(after);
    if (after->lift == PLUMB_BENCH || (!a->knees_over_toes && !b->knees_over_toes) ||
        a->knees_over_toes == b->knees_over_toes) {
        return false;
    }
    *change = (PlumbChange){.id = PLUMB_SET_knees_out,
                            .before_si = before->pose.start.knees_out_rad,
                            .after_si = after->pose.start.knees_out_rad};
    return fabs(change->after_si - change->before_si) >= ANGLE_LEAST_RAD;
}

int plumb_changes_find(const PlumbSolved *before, const PlumbSolved *after, PlumbChange *change)
{
    const PlumbSetup *const a = plumb_solved_setup(before);
    const PlumbSetup *const b = plumb_solved_setup(after);
    int count = 0;
    if (a->seat != b->seat) {
        change[count++] =
            (PlumbChange){.id = PLUMB_SET_bar, .before_si = a->seat, .after_si = b->seat};
    }
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        const double was = plumb_setup_get(a, row->id);
        const double is = plumb_setup_get(b, row->id);
        if (row->id == PLUMB_SET_elbows) {
            count += elbows_change(before, after, &change[count]) ? 1 : 0;
            continue;
        }
        if (row->id == PLUMB_SET_knees_out && (a->knees_over_toes || b->knees_over_toes)) {
            count += knees_change(before, after, &change[count]) ? 1 : 0;
            continue;
        }
        const bool told = row->lifts[b->lift] && !row->leads[b->lift];
        if (told && isfinite(was) && isfinite(is) && fabs(is - was) >= least(row->quantity)) {
            change[count++] = (PlumbChange){.id = row->id, .before_si = was, .after_si = is};
        }
    }
    if (!same_lead(a, b)) {
        const PlumbChange lead = lead_change(before, after);
        const PlumbQuantity quantity = plumb_setting(lead.id)->quantity;
        if (fabs(lead.after_si - lead.before_si) >= least(quantity)) {
            change[count++] = lead;
        }
    }
    return count;
}

/* The word of a setting in sentences: underscores are spaces. */
static void name_of(PlumbText *text, const PlumbChange *change)
{
    for (const char *c = plumb_setting(change->id)->key; *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
}

static PlumbStatus refuse(PlumbError *error, const PlumbChange *change, const char *why)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, "the proposed set-up ");
    plumb_text_string(&text, why);
    return plumb_error_set(error, PLUMB_BAD_INPUT, plumb_setting(change->id)->key, message);
}

static PlumbStatus check_one(const PlumbChange *change, PlumbError *error)
{
    const bool more = change->after_si > change->before_si;
    if (change->id == PLUMB_SET_load) {
        return refuse(error, change,
                      "has another load; a handout never changes the load: give both set-ups the "
                      "same");
    }
    if (change->id == PLUMB_SET_spine && more) {
        return refuse(error, change,
                      "bends the back further; a handout never asks for a rounder back");
    }
    if (change->id == PLUMB_SET_depth && !more) {
        return refuse(error, change, "is less deep; a handout never cuts the depth");
    }
    if (change->id == PLUMB_SET_path_exponent || change->id == PLUMB_SET_shoulder_ahead_max ||
        change->id == PLUMB_SET_feet_push || change->id == PLUMB_SET_hands_push) {
        return refuse(error, change,
                      "differs in a setting of the model that no athlete can change; give both the "
                      "same");
    }
    return PLUMB_OK;
}

static PlumbStatus refuse_number(const PlumbChange *change, int count, PlumbError *error)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, "the proposed set-up changes ");
    plumb_text_integer(&text, count);
    plumb_text_string(&text, " things: ");
    for (int i = 0; i < count; i++) {
        plumb_text_string(&text, i == 0 ? "" : i + 1 < count ? ", " : " and ");
        name_of(&text, &change[i]);
    }
    plumb_text_string(&text, "; an athlete works on two at most: propose two of them first");
    return plumb_error_set(error, PLUMB_BAD_INPUT, "--proposed", message);
}

/* What stands in the way of a pose. */
static const char *unmet(const PlumbSolved *solved)
{
    if (solved->lift != PLUMB_BENCH) {
        return plumb_constraint_text(solved->pose.failed);
    }
    return solved->press.at_lockout ? "the lockout" : "the touch";
}

static PlumbStatus refuse_no_pose(const PlumbSolved *solved, const char *which, PlumbError *error)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, "no pose holds the ");
    plumb_text_string(&text, which);
    plumb_text_string(&text, " set-up (");
    plumb_text_string(&text, unmet(solved));
    plumb_text_string(&text, solved->lift == PLUMB_BENCH ? " is out of the arms' reach"
                                                         : " cannot be met");
    plumb_text_string(&text, "); plumbar setup says what stands in the way");
    return plumb_error_set(error, PLUMB_BAD_INPUT, which, message);
}

PlumbStatus plumb_changes_held(const PlumbSolved *before, const PlumbSolved *after,
                               PlumbError *error)
{
    if (plumb_solved_outcome(before) == PLUMB_NO_POSE) {
        return refuse_no_pose(before, "present", error);
    }
    return plumb_solved_outcome(after) == PLUMB_NO_POSE ? refuse_no_pose(after, "proposed", error)
                                                        : PLUMB_OK;
}

PlumbStatus plumb_changes_check(const PlumbSolved *before, const PlumbSolved *after,
                                PlumbError *error)
{
    const PlumbStatus held = plumb_changes_held(before, after, error);
    if (held != PLUMB_OK) {
        return held;
    }
    PlumbChange change[PLUMB_SETTING_COUNT];
    const int count = plumb_changes_find(before, after, change);
    for (int i = 0; i < count; i++) {
        const PlumbStatus status = check_one(&change[i], error);
        if (status != PLUMB_OK) {
            return status;
        }
    }
    if (count == 0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "--proposed",
                               "the proposed set-up is the present one; nothing would change");
    }
    return count > PLUMB_HANDOUT_CHANGES ? refuse_number(change, count, error) : PLUMB_OK;
}
