/* SPDX-License-Identifier: MIT */
/* Landmarks as the fit sees them, marked or hidden; what a picture leaves open, in words; where on
 * its way a press is; and the set-up that starts where the picture does. */
#include "trace/fit.h"

#include "base/vec.h"

#include <stddef.h>

static const struct {
    const char *name;
    const char *text;
} rows[PLUMB_UNSEEN_COUNT] = {
#define X(name, text) {#name, text},
    PLUMB_UNSEEN_LIST(X)
#undef X
};

const char *plumb_unseen_name(PlumbUnseen unseen)
{
    return rows[unseen].name;
}

const char *plumb_unseen_text(PlumbUnseen unseen)
{
    return rows[unseen].text;
}

PlumbVec3 plumb_trace_place(const PlumbTraceAsk *ask, const PlumbTraced *still, PlumbMarkName name)
{
    return plumb_fit_place(&still->position, name, ask->disc_z_m,
                           0.5 * ask->lifter->equipment.disc_diameter_m);
}

PlumbVec2 plumb_trace_pixel(const PlumbTraceAsk *ask, const PlumbTraced *still, PlumbMarkName name)
{
    return plumb_camera_project(&still->camera, plumb_trace_place(ask, still, name), NULL);
}

PlumbVec2 plumb_trace_rim(const PlumbTraceAsk *ask, const PlumbTraced *still, PlumbNear near,
                          double turn_rad)
{
    const double radius = 0.5 * ask->lifter->equipment.disc_diameter_m;
    const PlumbMarkName centre = {PLUMB_MARK_disc_centre, near, false};
    PlumbVec3 p = plumb_trace_place(ask, still, centre);
    p.x += radius * sin(turn_rad);
    p.y += radius * cos(turn_rad);
    return plumb_camera_project(&still->camera, p, NULL);
}

/* Yaw of a camera that stands square to its view. */
static double square_rad(const PlumbTraced *still)
{
    const bool head = still->setup.lift == PLUMB_BENCH && sin(still->camera.yaw_rad) < 0.0;
    return !still->front ? 0.0 : head ? -0.5 * PLUMB_PI : 0.5 * PLUMB_PI;
}

const char *plumb_traced_view(const PlumbTraced *still)
{
    return !still->front                      ? "side"
           : still->setup.lift != PLUMB_BENCH ? "front"
           : square_rad(still) < 0.0          ? "head"
                                              : "foot";
}

double plumb_traced_turn_rad(const PlumbTraced *still)
{
    return still->camera.yaw_rad - square_rad(still);
}

static bool straight(const PlumbTraced *still)
{
    static const double bend_rad = 20.0 * PLUMB_PI / 180.0;
    return still->press.angle_rad[PLUMB_PRESS_ANG_elbow_flexion] < bend_rad;
}

PlumbPressStage plumb_trace_press_stage(const PlumbLifter *lifter, const PlumbTraced *still)
{
    static const double above_chest_m = 0.05;
    PlumbSetup setup = still->setup;
    PlumbPressAnswer model;
    plumb_setup_set(&setup, PLUMB_SET_touch, 0.0); /* a chest's height does not depend on it */
    setup.lead = PLUMB_LEAD_TOUCH;
    plumb_press_quick(lifter, &setup, &model);
    const double chest_m =
        model.touch.point[PLUMB_PRESS_bar].y - model.touch.point[PLUMB_PRESS_shoulder].y;
    return straight(still) ? PLUMB_PRESS_AT_LOCKOUT
           : still->value[PLUMB_READ_bar_above_shoulder] < chest_m + above_chest_m
               ? PLUMB_PRESS_AT_TOUCH
               : PLUMB_PRESS_ON_THE_WAY;
}

bool plumb_trace_press_placed(const PlumbTraced *still)
{
    static const double most_m = 0.05;
    return !still->front && still->sd[PLUMB_READ_bar_from_shoulder] < most_m;
}

/* The bar's place of a press where it is read: at the touch, or over straight arms. */
static void lead_press(const PlumbTraced *still, PlumbSetup *setup)
{
    const double along = still->value[PLUMB_READ_bar_from_shoulder];
    if (straight(still)) {
        plumb_setup_set(setup, PLUMB_SET_lockout_over, along);
    } else {
        plumb_setup_set(setup, PLUMB_SET_touch, along);
        setup->lead = PLUMB_LEAD_TOUCH;
    }
}

/* The start of a press as the view shows it. */
static PlumbSetup start_press(const PlumbTraced *still)
{
    static const double elbows_sd_rad = 15.0 * PLUMB_PI / 180.0;
    PlumbSetup setup = still->setup;
    plumb_setup_set(&setup, PLUMB_SET_grip, still->setup.grip_m);
    if (plumb_trace_press_placed(still)) {
        lead_press(still, &setup);
    } else if (still->front && !straight(still) &&
               still->sd[PLUMB_READ_upper_arm] < elbows_sd_rad) {
        plumb_setup_set(&setup, PLUMB_SET_elbows, still->value[PLUMB_READ_upper_arm]);
    }
    return setup;
}

PlumbSetup plumb_trace_setup(const PlumbTraced *still)
{
    if (still->setup.lift == PLUMB_BENCH) {
        return start_press(still);
    }
    static const PlumbSettingId read[] = {PLUMB_SET_stance, PLUMB_SET_toes, PLUMB_SET_knees_out,
                                          PLUMB_SET_grip, PLUMB_SET_spine};
    PlumbSetup setup = still->setup;
    for (size_t i = 0; i < sizeof read / sizeof read[0]; i++) {
        plumb_setup_set(&setup, read[i], plumb_setup_get(&still->setup, read[i])); /* clipped */
    }
    if (setup.lift == PLUMB_SQUAT) {
        plumb_setup_set(&setup, PLUMB_SET_depth, still->value[PLUMB_READ_depth]);
        plumb_setup_set(&setup, PLUMB_SET_balance, still->value[PLUMB_READ_balance]);
        plumb_setup_set(&setup, PLUMB_SET_shin_angle, still->position.angle_rad[PLUMB_ANG_shin]);
        setup.lead = PLUMB_LEAD_SHIN_ANGLE;
        return setup;
    }
    plumb_setup_set(&setup, PLUMB_SET_bar_over, still->value[PLUMB_READ_bar_over]);
    plumb_setup_set(&setup, PLUMB_SET_balance, still->value[PLUMB_READ_balance]);
    plumb_setup_set(&setup, PLUMB_SET_hip_height, still->value[PLUMB_READ_hip_height]);
    setup.hip_height_relative = false;
    setup.lead = PLUMB_LEAD_HEIGHT_AND_BALANCE;
    return setup;
}

PlumbSetup plumb_trace_model(const PlumbTraced *still, const PlumbSetup *asked, bool led)
{
    PlumbSetup setup = *asked;
    if (asked->lift == PLUMB_BENCH) {
        plumb_setup_set(&setup, PLUMB_SET_grip, still->setup.grip_m);
        if (led) {
            lead_press(still, &setup);
        }
        return setup;
    }
    plumb_setup_set(&setup, PLUMB_SET_stance, still->setup.stance_m);
    plumb_setup_set(&setup, PLUMB_SET_toes, still->setup.toes_rad);
    plumb_setup_set(&setup, PLUMB_SET_grip, still->setup.grip_m);
    plumb_setup_set(&setup, PLUMB_SET_spine, still->setup.spine_rad);
    if (!led) {
        return setup;
    }
    if (asked->lead == PLUMB_LEAD_BACK_ANGLE) {
        plumb_setup_set(&setup, PLUMB_SET_back_angle, still->value[PLUMB_ANG_back]);
    } else if (setup.lift == PLUMB_SQUAT) {
        plumb_setup_set(&setup, PLUMB_SET_shin_angle, still->value[PLUMB_ANG_shin]);
    } else {
        plumb_setup_set(&setup, PLUMB_SET_balance, still->value[PLUMB_READ_balance]);
        plumb_setup_set(&setup, PLUMB_SET_hip_height, still->value[PLUMB_READ_hip_height]);
        setup.hip_height_relative = false;
        if (asked->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE) {
            setup.lead = PLUMB_LEAD_HEIGHT_AND_BALANCE;
        }
    }
    return setup;
}
