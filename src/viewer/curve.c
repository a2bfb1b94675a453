/* SPDX-License-Identifier: MIT */
/* Curves over a setting's range, one solve at a time. */
#include "curve.h"

#include <math.h>
#include <string.h>

enum { END_TRIES = 7, SEED_TRIES = 9 };

double plumb_curve_at(PlumbSettingId id, int index)
{
    const PlumbSetting *const setting =
        (plumb_body_is(id) ? plumb_body_row(id) : plumb_setting(id));
    return setting->min_si + (setting->max_si - setting->min_si) * index / (PLUMB_CURVE_POINTS - 1);
}

/* What else than the setting decides the curve: the set-up with the setting at its least, led by it
 * where it can lead, and without the values of leads that then say nothing. */
static PlumbSetup key_of(PlumbSettingId id, const PlumbSetup *setup)
{
    const PlumbSetup plain = plumb_setup_default(setup->lift);
    PlumbSetup key = *setup;
    if (!plumb_body_is(id)) {
        plumb_setup_set(&key, id, plumb_setting(id)->min_si);
    }
    const bool pair = key.lead == PLUMB_LEAD_HEIGHT_AND_BALANCE;
    if (!(key.lead == PLUMB_LEAD_HIP_HEIGHT || pair)) {
        key.hip_height_m = plain.hip_height_m;
        key.hip_height_relative = false;
    }
    if (setup->lift == PLUMB_DEADLIFT && key.lead != PLUMB_LEAD_BALANCE && !pair) {
        key.balance_frac = plain.balance_frac;
    }
    if (key.lead != PLUMB_LEAD_BACK_ANGLE) {
        key.back_angle_rad = plain.back_angle_rad;
    }
    if (key.lead != PLUMB_LEAD_SHIN_ANGLE) {
        key.shin_angle_rad = plain.shin_angle_rad;
    }
    if (key.lead != PLUMB_LEAD_TOUCH) {
        key.touch_m = plain.touch_m;
    }
    if (!key.elbows_given) {
        key.elbows_rad = plain.elbows_rad;
    }
    return key;
}

static bool same_setup(const PlumbSetup *a, const PlumbSetup *b)
{
    if (a->lift != b->lift || a->seat != b->seat || a->lead != b->lead ||
        a->knees_over_toes != b->knees_over_toes ||
        a->hip_height_relative != b->hip_height_relative || a->elbows_given != b->elbows_given) {
        return false;
    }
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const double x = plumb_setup_get(a, (PlumbSettingId)i);
        const double y = plumb_setup_get(b, (PlumbSettingId)i);
        if (!(isnan(x) && isnan(y)) && !(fabs(x - y) <= 0.0)) {
            return false;
        }
    }
    return true;
}

void plumb_curve_forget(PlumbCurve *curve)
{
    curve->begun = false;
    curve->shown = false;
}

void plumb_curve_aim(PlumbCurve *curve, PlumbSettingId id, const PlumbSetup *setup)
{
    const PlumbSetup key = key_of(id, setup);
    if (curve->begun && same_setup(&key, &curve->key)) {
        return;
    }
    const PlumbSetting *const setting =
        (plumb_body_is(id) ? plumb_body_row(id) : plumb_setting(id));
    curve->hint_first = curve->shown ? curve->pass.first : 0;
    curve->hint_last = curve->shown ? curve->pass.last : PLUMB_CURVE_POINTS - 1;
    curve->begun = true;
    curve->key = key;
    curve->phase = PLUMB_CURVE_SEED;
    curve->seed_tries = 0;
    curve->end_tries = 0;
    curve->making.first = 0;
    curve->making.last = -1;
    curve->making.low = setting->min_si;
    curve->making.high = setting->max_si;
    curve->making.low_ends = false;
    curve->making.high_ends = false;
}

static bool solve_at(const PlumbCurve *curve, PlumbSettingId id, PlumbCurveOf of, double value,
                     PlumbCurvePoint *point, int *reason)
{
    PlumbSetup setup = curve->key;
    PlumbPosed answer;
    PlumbLifter other;
    const PlumbLifter *lifter = of.lifter;
    if (plumb_body_is(id)) {
        PlumbLifterRecord record = *of.record;
        if (plumb_body_change(&record, &other, id, value, NULL) != PLUMB_OK) {
            *reason = PLUMB_REASON_NO_BODY;
            return false;
        }
        lifter = &other;
    } else {
        plumb_setup_set(&setup, id, value);
    }
    plumb_family(setup.lift)->solve(lifter, &setup, true, &answer);
    *reason = answer.reason;
    if (answer.outcome == PLUMB_NO_POSE) {
        return false;
    }
    point->travel_m = answer.travel_m;
    memcpy(point->arm_m, answer.arm_m, sizeof point->arm_m);
    return true;
}

/* Tries the present value first, then places spread over the range. */
static void seed(PlumbCurve *curve, PlumbSettingId id, PlumbCurveOf of, double value)
{
    const PlumbSetting *const setting =
        (plumb_body_is(id) ? plumb_body_row(id) : plumb_setting(id));
    const double span = setting->max_si - setting->min_si;
    const int spread = (curve->seed_tries * 8) % PLUMB_CURVE_POINTS;
    int index = spread;
    if (curve->seed_tries == 0 && isfinite(value)) {
        index = (int)lround((value - setting->min_si) / span * (PLUMB_CURVE_POINTS - 1));
        index = index < 0 ? 0 : index;
        index = index >= PLUMB_CURVE_POINTS ? PLUMB_CURVE_POINTS - 1 : index;
    }
    PlumbCurvePass *const pass = &curve->making;
    if (solve_at(curve, id, of, plumb_curve_at(id, index), &pass->point[index],
                 &pass->low_reason)) {
        pass->first = index;
        pass->last = index;
        curve->phase = PLUMB_CURVE_UP;
        return;
    }
    curve->seed_tries++;
    if (curve->seed_tries > SEED_TRIES) {
        curve->phase = PLUMB_CURVE_DONE;
        pass->first = 0;
        pass->last = -1;
        pass->high_reason = pass->low_reason;
        curve->pass = *pass;
        curve->shown = true;
    }
}

static void go_up(PlumbCurve *curve, PlumbSettingId id, PlumbCurveOf of, int most)
{
    PlumbCurvePass *const pass = &curve->making;
    const PlumbCurvePhase after =
        curve->phase == PLUMB_CURVE_UP ? PLUMB_CURVE_DOWN : PLUMB_CURVE_DOWN_ON;
    if (pass->high_ends || pass->last >= most) {
        curve->phase = after;
        return;
    }
    const int next = pass->last + 1;
    if (solve_at(curve, id, of, plumb_curve_at(id, next), &pass->point[next], &pass->high_reason)) {
        pass->last = next;
        return;
    }
    pass->high_ends = true;
    pass->high = plumb_curve_at(id, pass->last);
    curve->phase = after;
}

static void go_down(PlumbCurve *curve, PlumbSettingId id, PlumbCurveOf of, int least)
{
    PlumbCurvePass *const pass = &curve->making;
    const bool rough = curve->phase == PLUMB_CURVE_DOWN;
    if (!pass->low_ends && pass->first > least) {
        const int next = pass->first - 1;
        if (solve_at(curve, id, of, plumb_curve_at(id, next), &pass->point[next],
                     &pass->low_reason)) {
            pass->first = next;
            return;
        }
        pass->low_ends = true;
        pass->low = plumb_curve_at(id, pass->first);
    }
    curve->phase = rough ? PLUMB_CURVE_UP_ON : PLUMB_CURVE_HIGH_END;
}

/* Halves the step between the last point that holds and the first that does not. */
static void find_end(PlumbCurve *curve, PlumbSettingId id, PlumbCurveOf of, bool high)
{
    PlumbCurvePass *const pass = &curve->making;
    double *const end = high ? &pass->high : &pass->low;
    if (!(high ? pass->high_ends : pass->low_ends) || curve->end_tries >= END_TRIES) {
        curve->phase = high ? PLUMB_CURVE_LOW_END : PLUMB_CURVE_DONE;
        curve->end_tries = 0;
        return;
    }
    if (curve->end_tries == 0) {
        curve->bad =
            high ? plumb_curve_at(id, pass->last + 1) : plumb_curve_at(id, pass->first - 1);
    }
    curve->end_tries++;
    PlumbCurvePoint point;
    const double middle = 0.5 * (*end + curve->bad);
    if (solve_at(curve, id, of, middle, &point, high ? &pass->high_reason : &pass->low_reason)) {
        *end = middle;
    } else {
        curve->bad = middle;
    }
}

/* The rough pass keeps the ends of the last one where it did not meet them. */
static void show_rough(PlumbCurve *curve)
{
    const PlumbCurvePass last = curve->pass;
    const bool had = curve->shown;
    curve->pass = curve->making;
    curve->shown = true;
    if (had && last.high_ends && !curve->making.high_ends) {
        curve->pass.high_ends = true;
        curve->pass.high = last.high;
        curve->pass.high_reason = last.high_reason;
    }
    if (had && last.low_ends && !curve->making.low_ends) {
        curve->pass.low_ends = true;
        curve->pass.low = last.low;
        curve->pass.low_reason = last.low_reason;
    }
}

void plumb_curve_step(PlumbCurve *curve, PlumbSettingId id, PlumbCurveOf of, double value)
{
    switch (curve->phase) {
    case PLUMB_CURVE_SEED:
        seed(curve, id, of, value);
        break;
    case PLUMB_CURVE_UP:
        go_up(curve, id, of, curve->hint_last);
        break;
    case PLUMB_CURVE_DOWN:
        go_down(curve, id, of, curve->hint_first);
        if (curve->phase == PLUMB_CURVE_UP_ON) {
            show_rough(curve);
        }
        break;
    case PLUMB_CURVE_UP_ON:
        go_up(curve, id, of, PLUMB_CURVE_POINTS - 1);
        break;
    case PLUMB_CURVE_DOWN_ON:
        go_down(curve, id, of, 0);
        break;
    case PLUMB_CURVE_HIGH_END:
        find_end(curve, id, of, true);
        break;
    case PLUMB_CURVE_LOW_END:
        find_end(curve, id, of, false);
        break;
    case PLUMB_CURVE_DONE:
        return;
    }
    if (curve->phase == PLUMB_CURVE_DONE) {
        curve->pass = curve->making;
        curve->shown = true;
    }
}

bool plumb_curve_done(const PlumbCurve *curve, bool rough)
{
    return curve->begun &&
           (rough ? curve->phase >= PLUMB_CURVE_UP_ON : curve->phase == PLUMB_CURVE_DONE);
}
