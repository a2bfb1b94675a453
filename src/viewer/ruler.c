/* SPDX-License-Identifier: MIT */
/* Rulers in numbers: order, values that follow, steps, defaults, typed figures. */
#include "ruler.h"

#include <math.h>
#include <string.h>

/* First those that a coach reaches for; every other setting of the table follows by itself. */
static const PlumbSettingId FIRST[PLUMB_LIFT_COUNT][10] = {
    [PLUMB_DEADLIFT] = {PLUMB_SET_stance, PLUMB_SET_toes, PLUMB_SET_grip, PLUMB_SET_hip_height,
                        PLUMB_SET_load, PLUMB_SET_balance, PLUMB_SET_back_angle, PLUMB_SET_auto,
                        PLUMB_SET_style, PLUMB_SET_spine},
    [PLUMB_SQUAT] = {PLUMB_SET_stance, PLUMB_SET_toes, PLUMB_SET_bar, PLUMB_SET_depth,
                     PLUMB_SET_heel_lift, PLUMB_SET_shin_angle, PLUMB_SET_back_angle,
                     PLUMB_SET_auto, PLUMB_SET_load, PLUMB_SET_balance},
    [PLUMB_BENCH] = {PLUMB_SET_grip, PLUMB_SET_touch, PLUMB_SET_arch, PLUMB_SET_elbows,
                     PLUMB_SET_load, PLUMB_SET_auto, PLUMB_SET_lockout_over, PLUMB_SET_hands_push,
                     PLUMB_SET_path_exponent, PLUMB_SET_bench_height},
};
enum { FIRST_COUNT = 10 };

int plumb_rulers(PlumbLift lift, PlumbSettingId id[PLUMB_SETTING_COUNT])
{
    bool taken[PLUMB_SETTING_COUNT] = {false};
    int count = 0;
    for (int i = 0; i < FIRST_COUNT; i++) {
        id[count++] = FIRST[lift][i];
        taken[FIRST[lift][i]] = true;
    }
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        /* The shoe moves nothing of a press. */
        const bool shoe = i == PLUMB_SET_heel_lift || i == PLUMB_SET_ball_lift;
        if (!taken[i] && plumb_ruler_row((PlumbSettingId)i)->lifts[lift] &&
            !(shoe && lift == PLUMB_BENCH)) {
            id[count++] = (PlumbSettingId)i;
        }
    }
    return count;
}

int plumb_desk_rulers(const PlumbDesk *desk, PlumbSettingId id[PLUMB_SETTING_COUNT])
{
    if (!desk->body_shown) {
        return plumb_rulers(desk->now.lift, id);
    }
    int count = 0;
    for (int i = PLUMB_SETTING_COUNT; i < PLUMB_RULER_COUNT; i++) {
        const PlumbLength length = plumb_body_length((PlumbSettingId)i);
        if (length == PLUMB_LENGTH_COUNT ||
            plumb_setup_uses_length(plumb_desk_setup(desk), length)) {
            id[count++] = (PlumbSettingId)i;
        }
    }
    return count;
}

const PlumbSetting *plumb_ruler_row(PlumbSettingId id)
{
    return plumb_body_is(id) ? plumb_body_row(id) : plumb_setting(id);
}

const PlumbSetting *plumb_ruler_find(const char *key)
{
    for (int i = PLUMB_SETTING_COUNT; i < PLUMB_RULER_COUNT; i++) {
        if (strcmp(plumb_body_row((PlumbSettingId)i)->key, key) == 0) {
            return plumb_body_row((PlumbSettingId)i);
        }
    }
    return plumb_setting_find(key, strlen(key));
}

/* The key with blanks, unless a person would say something else. */
void plumb_ruler_name(PlumbSettingId id, PlumbText *text)
{
    const char *const words = id == PLUMB_SET_auto                 ? "what leads"
                              : id == PLUMB_SET_shoulder_ahead_max ? "shoulder ahead, most"
                                                                   : plumb_ruler_row(id)->key;
    for (const char *c = words; *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
}

PlumbSettingId plumb_ruler_first(PlumbLift lift)
{
    return FIRST[lift][0];
}

bool plumb_ruler_leads(const PlumbSetup *setup, PlumbSettingId id)
{
    const bool pair = setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE;
    return setup->lead != PLUMB_LEAD_AUTO &&
           (id == plumb_setup_lead_setting(setup) || (pair && id == PLUMB_SET_balance));
}

/* Knees over the toes, elbows under the bar: not given as a figure. */
static bool by_rule(const PlumbSetup *setup, PlumbSettingId id)
{
    return (id == PLUMB_SET_knees_out && setup->knees_over_toes) ||
           (id == PLUMB_SET_elbows && !setup->elbows_given);
}

static PlumbRulerRole role_in(const PlumbSetup *setup, PlumbSettingId id)
{
    if (by_rule(setup, id)) {
        return PLUMB_RULER_FOLLOWS;
    }
    if (id == PLUMB_SET_auto || !plumb_ruler_row(id)->leads[setup->lift]) {
        return PLUMB_RULER_SETS;
    }
    return plumb_ruler_leads(setup, id) ? PLUMB_RULER_LEADS : PLUMB_RULER_COULD_LEAD;
}

PlumbRulerRole plumb_ruler_role(const PlumbDesk *desk, PlumbSettingId id)
{
    return role_in(plumb_desk_setup(desk), id);
}

/* A relative hip height reads as the height that it came to. Right after the lift was switched its
 * answer is still to come: nothing is followed then. */
static double value_in(const PlumbSetup *setup, const PlumbPosed *posed, PlumbSettingId id)
{
    const PlumbRulerRole role = role_in(setup, id);
    const bool relative = id == PLUMB_SET_hip_height && setup->hip_height_relative;
    if (role != PLUMB_RULER_COULD_LEAD && role != PLUMB_RULER_FOLLOWS && !relative) {
        return plumb_setup_get(setup, id);
    }
    return posed->setup.lift == setup->lift ? plumb_family_of(posed)->followed(posed, id)
                                            : (double)NAN;
}

double plumb_ruler_value(const PlumbDesk *desk, PlumbSettingId id)
{
    if (plumb_body_is(id)) {
        return plumb_body_value(&desk->now.lifter.body, id);
    }
    return value_in(plumb_desk_setup(desk), plumb_desk_inked(desk), id);
}

double plumb_ruler_pencil_value(const PlumbDesk *desk, PlumbSettingId id)
{
    if (plumb_body_is(id)) {
        return plumb_desk_pencil_shown(desk) ? plumb_body_value(&desk->now.pencil_lifter.body, id)
                                             : (double)NAN;
    }
    return plumb_desk_pencil_shown(desk) ? value_in(&desk->now.pencil, &desk->pencil, id)
                                         : (double)NAN;
}

/* In inches and pounds the step is the nearest round one. */
double plumb_ruler_step(const PlumbDesk *desk, PlumbSettingId id)
{
    static const double ROUND[] = {0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0};
    const PlumbSetting *const setting = plumb_ruler_row(id);
    const double factor = plumb_quantity_factor(setting->quantity, desk->units);
    if (desk->units == PLUMB_METRIC ||
        fabs(factor - plumb_quantity_factor(setting->quantity, PLUMB_METRIC)) < 1e-12) {
        return setting->step_si;
    }
    const double wanted = setting->step_si * factor;
    double best = ROUND[0];
    for (size_t i = 1; i < sizeof ROUND / sizeof ROUND[0]; i++) {
        if (fabs(log(ROUND[i] / wanted)) < fabs(log(best / wanted))) {
            best = ROUND[i];
        }
    }
    return best / factor;
}

/* That the setting itself cannot be met says no more than that the range ends. */
void plumb_ruler_reason(PlumbSettingId id, int failed, PlumbText *text)
{
    const bool itself = (id == PLUMB_SET_hip_height && failed == (int)PLUMB_CON_hip_height) ||
                        (id == PLUMB_SET_back_angle && failed == (int)PLUMB_CON_back_angle) ||
                        (id == PLUMB_SET_shin_angle && failed == (int)PLUMB_CON_shin_angle) ||
                        (id == PLUMB_SET_balance && failed == (int)PLUMB_CON_balance);
    if (failed == PLUMB_REASON_NO_BODY) {
        plumb_text_string(text, "no such body");
    } else if (itself) {
        plumb_text_string(text, plumb_end_text(PLUMB_END_no_pose));
    } else {
        plumb_text_string(text, "no pose: ");
        plumb_text_string(text, plumb_reason_text(failed));
    }
}

/* The free quantity at one end of an interval, read on another ruler. */
static double translated(const PlumbDesk *desk, PlumbSettingId free, double value,
                         PlumbSettingId id)
{
    PlumbSetup setup = plumb_desk_inked(desk)->setup;
    PlumbPosed posed;
    plumb_setup_set(&setup, free, value);
    plumb_desk_family(desk)->solve(&desk->now.lifter, &setup, true, &posed);
    return posed.outcome == PLUMB_NO_POSE ? (double)NAN
                                          : plumb_desk_family(desk)->followed(&posed, id);
}

static void translate(const PlumbDesk *desk, PlumbSettingId free, PlumbInterval *interval,
                      PlumbSettingId id)
{
    if (interval->exists) {
        const double a = translated(desk, free, interval->low, id);
        const double b = translated(desk, free, interval->high, id);
        interval->exists = isfinite(a) && isfinite(b);
        interval->low = fmin(a, b);
        interval->high = fmax(a, b);
    }
}

bool plumb_ruler_intervals(const PlumbDesk *desk, PlumbSettingId id, PlumbInterval *window,
                           PlumbInterval *low_effort)
{
    const PlumbPosed *const posed = plumb_desk_inked(desk);
    const PlumbSettingId free = plumb_family_of(posed)->intervals(posed, window, low_effort);
    if (id == free) {
        return true;
    }
    if (plumb_ruler_role(desk, id) != PLUMB_RULER_LEADS ||
        posed->setup.lead == PLUMB_LEAD_HEIGHT_AND_BALANCE) {
        return false;
    }
    translate(desk, free, window, id);
    translate(desk, free, low_effort, id);
    return true;
}

double plumb_ruler_place_mm(const PlumbRulerPlace *place, double value_si)
{
    const PlumbSetting *const setting = plumb_ruler_row(place->id);
    const double share = (value_si - setting->min_si) / (setting->max_si - setting->min_si);
    return place->x0_mm + share * (place->x1_mm - place->x0_mm);
}

double plumb_ruler_value_at(const PlumbRulerPlace *place, double x_mm)
{
    const PlumbSetting *const setting = plumb_ruler_row(place->id);
    const double share = (x_mm - place->x0_mm) / (place->x1_mm - place->x0_mm);
    const double held = fmin(fmax(share, 0.0), 1.0);
    return setting->min_si + held * (setting->max_si - setting->min_si);
}
