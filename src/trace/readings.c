/* SPDX-License-Identifier: MIT */
/* The figures of a still: the same as of a solved pose, with their spread.
 *
 * Spread by first order: var = g' C g, g the figure's slope by the unknowns (central differences),
 * C their covariance. */
#include "trace/fit.h"

#include "base/vec.h"

#include <stddef.h>

enum {
    READ_FIRST = PLUMB_ANGLE_COUNT,
    OWN_ALL = PLUMB_TRACE_SHARED + PLUMB_TRACE_OWN,
    SLACK = PLUMB_READING_COUNT, /* of a press, behind the readings: how far the arm is from
                                    straight, m */
    READ_ALL
};

static const struct {
    const char *name;
    const char *text;
    PlumbQuantity quantity;
} rows[] = {
#define X(name, text, quantity) {#name, text, quantity},
    PLUMB_READING_LIST(X)
#undef X
};

const char *plumb_reading_name(PlumbReading reading)
{
    return (int)reading < READ_FIRST ? plumb_angle_name((PlumbAngle)reading)
                                     : rows[(int)reading - READ_FIRST].name;
}

const char *plumb_reading_text(PlumbReading reading)
{
    return (int)reading < READ_FIRST ? plumb_angle_text((PlumbAngle)reading)
                                     : rows[(int)reading - READ_FIRST].text;
}

PlumbQuantity plumb_reading_quantity(PlumbReading reading)
{
    return (int)reading < READ_FIRST ? PLUMB_Q_ANGLE : rows[(int)reading - READ_FIRST].quantity;
}

const char *plumb_reading_unit(PlumbQuantity quantity)
{
    return quantity == PLUMB_Q_ANGLE      ? "_rad"
           : quantity == PLUMB_Q_MOMENT   ? "_n_m"
           : quantity == PLUMB_Q_FRACTION ? "_frac"
                                          : "_m";
}

bool plumb_reading_applies(PlumbReading reading, PlumbLift lift)
{
    const bool of_press = reading >= PLUMB_READ_bar_from_shoulder;
    if (lift == PLUMB_BENCH) {
        return of_press || reading == PLUMB_READ_bar_height || reading == PLUMB_READ_grip;
    }
    if (of_press) {
        return false;
    }
    if (reading == PLUMB_READ_depth) {
        return lift == PLUMB_SQUAT;
    }
    return lift == PLUMB_DEADLIFT ||
           (reading != PLUMB_READ_leg_gap && reading != PLUMB_READ_shoulder_arm &&
            reading != PLUMB_READ_shoulder_moment &&
            (int)reading != (int)PLUMB_ANG_shoulder_flexion);
}

static double length_reading(PlumbReading reading, const PlumbLifter *lifter,
                             const PlumbPosition *position)
{
    const PlumbVec3 *const point = position->point;
    const PlumbBody *const body = &lifter->body;
    if (reading == PLUMB_READ_bar_over) {
        return point[PLUMB_PT_bar].x;
    }
    if (reading == PLUMB_READ_bar_height) {
        return point[PLUMB_PT_bar].y;
    }
    if (reading == PLUMB_READ_hip_height) {
        return position->pose.hip_height_m;
    }
    if (reading == PLUMB_READ_shoulder_ahead) {
        return point[PLUMB_PT_shoulder].x - point[PLUMB_PT_bar].x;
    }
    if (reading == PLUMB_READ_leg_gap) {
        return position->clearance_m;
    }
    if (reading == PLUMB_READ_depth) {
        return point[PLUMB_PT_knee].y + body->knee_top_above_joint_m - point[PLUMB_PT_hip].y -
               body->hip_crease_above_joint_m;
    }
    if (reading == PLUMB_READ_toe_line) {
        return position->knee_to_toe_line_m;
    }
    return point[PLUMB_PT_knee].z - point[PLUMB_PT_ankle].z;
}

double plumb_reading_value(PlumbReading reading, const PlumbLifter *lifter, const PlumbSetup *setup,
                           const PlumbPosition *position)
{
    if (!plumb_reading_applies(reading, setup->lift)) {
        return (double)NAN;
    }
    if ((int)reading < READ_FIRST) {
        return position->angle_rad[reading];
    }
    if (reading == PLUMB_READ_balance) {
        return position->balance_frac;
    }
    if (reading >= PLUMB_READ_ankle_arm && reading <= PLUMB_READ_shoulder_arm) {
        return position->bar_arm_m[reading - PLUMB_READ_ankle_arm];
    }
    if (reading >= PLUMB_READ_ankle_moment && reading <= PLUMB_READ_shoulder_moment) {
        return position->moment_both_n_m[reading - PLUMB_READ_ankle_moment];
    }
    const double set[] = {setup->stance_m, setup->toes_rad, setup->knees_out_rad, setup->grip_m,
                          setup->spine_rad};
    return reading >= PLUMB_READ_stance ? set[reading - PLUMB_READ_stance]
                                        : length_reading(reading, lifter, position);
}

double plumb_press_reading_value(PlumbReading reading, const PlumbSetup *setup,
                                 const PlumbPressPosition *p)
{
    const PlumbVec3 bar = p->point[PLUMB_PRESS_bar];
    const double of_press[] = {
        bar.x - p->point[PLUMB_PRESS_shoulder].x,
        bar.y - p->point[PLUMB_PRESS_shoulder].y,
        p->angle_rad[PLUMB_PRESS_ANG_abduction],
        p->angle_rad[PLUMB_PRESS_ANG_elbow_flexion],
        p->angle_rad[PLUMB_PRESS_ANG_forearm_front],
        p->angle_rad[PLUMB_PRESS_ANG_forearm_side],
        p->angle_rad[PLUMB_PRESS_ANG_shoulder_external_rotation],
        p->elbow_off_bar_m,
        p->elbow_off_hand_m,
        p->elbow_below_rule_m,
        p->bar_arm_m[PLUMB_PRESS_ARM_shoulder_frontal],
        p->bar_arm_m[PLUMB_PRESS_ARM_elbow],
        p->moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction],
        p->moment_n_m[PLUMB_PRESS_JOINT_shoulder_flexion],
        p->moment_n_m[PLUMB_PRESS_JOINT_elbow_extension],
    };
    _Static_assert(sizeof of_press / sizeof of_press[0] ==
                       PLUMB_READING_COUNT - PLUMB_READ_bar_from_shoulder,
                   "a figure each");
    return reading >= PLUMB_READ_bar_from_shoulder
               ? of_press[reading - PLUMB_READ_bar_from_shoulder]
           : reading == PLUMB_READ_bar_height ? bar.y
           : reading == PLUMB_READ_grip       ? setup->grip_m
                                              : (double)NAN;
}

static void read_all(const FitFigure *figure, double value[READ_ALL])
{
    value[SLACK] = plumb_fit_press_slack_m(figure);
    const bool press = figure->setup.lift == PLUMB_BENCH;
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        const PlumbReading reading = (PlumbReading)i;
        value[i] = press ? plumb_press_reading_value(reading, &figure->setup, &figure->press)
                         : plumb_reading_value(reading, &figure->lifter, &figure->setup,
                                               &figure->position);
    }
}

/* Slopes of all readings by the unknowns of a still; work->factor holds them row by row. */
static void slopes_of(const Fit *fit, int still)
{
    static const double h = 1e-3;
    double *const theta = fit->work->theta;
    for (int k = 0; k < OWN_ALL; k++) {
        double *const unknown = &theta[fit_index(fit, still, k)];
        const double here = *unknown;
        double up[READ_ALL];
        double down[READ_ALL];
        FitFigure figure;
        *unknown = here + h;
        plumb_fit_figure(fit, theta, still, true, &figure);
        read_all(&figure, up);
        *unknown = here - h;
        plumb_fit_figure(fit, theta, still, true, &figure);
        read_all(&figure, down);
        *unknown = here;
        for (int i = 0; i < READ_ALL; i++) {
            fit->work->factor[i][k] = 0.5 * (up[i] - down[i]) / h;
        }
    }
}

static double spread_of(const Fit *fit, int still, const double slope[])
{
    double variance = 0.0;
    for (int a = 0; a < OWN_ALL; a++) {
        const double *const row = fit->work->normal[fit_index(fit, still, a)];
        double sum = 0.0;
        for (int b = 0; b < OWN_ALL; b++) {
            sum += row[fit_index(fit, still, b)] * slope[b];
        }
        variance += slope[a] * sum;
    }
    return sqrt(fmax(variance, 0.0));
}

static double unknown_sd(const Fit *fit, int still, int own)
{
    const int at = fit_index(fit, still, PLUMB_TRACE_SHARED + own);
    return fit->own[fit_camera(fit, still)][own].sd * sqrt(fit->work->normal[at][at]);
}

static bool marked(const PlumbMarks *marks, int still, PlumbLandmark landmark)
{
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == still && marks->mark[i].name.landmark == landmark) {
            return true;
        }
    }
    return false;
}

/* What the marks of a still leave open. */
static unsigned unseen_of(const Fit *fit, int still)
{
    const PlumbTraceAsk *const ask = fit->ask;
    const PlumbMarks *const marks = ask->marks;
    const bool front = fit->front[still];
    const bool disc = marked(marks, still, PLUMB_MARK_disc);
    bool both[2] = {false, false};
    for (int i = 0; i < marks->count; i++) {
        const PlumbMarkName name = marks->mark[i].name;
        if (marks->mark[i].still == still &&
            (name.landmark == PLUMB_MARK_disc || name.landmark == PLUMB_MARK_disc_centre)) {
            both[name.near] = true;
        }
    }
    const bool scaled =
        disc || (both[0] && both[1]) ||
        (ask->scale_length_m[still] > 0.0 && marked(marks, still, PLUMB_MARK_scale));
    const bool press = ask->setup->lift == PLUMB_BENCH;
    const bool stands = !press;
    const bool open[PLUMB_UNSEEN_COUNT] = {
        [PLUMB_UNSEEN_stance] = stands && !front && fit->still_count == 1,
        [PLUMB_UNSEEN_yaw] = !front && !(both[0] && both[1]),
        [PLUMB_UNSEEN_scale] = !scaled,
        [PLUMB_UNSEEN_distance] = !(ask->distance_m[still] > 0.0),
        [PLUMB_UNSEEN_size] = !(ask->size_px[still].x > 0.0),
        [PLUMB_UNSEEN_foot] = stands && !front && !marked(marks, still, PLUMB_MARK_heel) &&
                              !marked(marks, still, PLUMB_MARK_toe),
        [PLUMB_UNSEEN_level] = !marked(marks, still, PLUMB_MARK_plumb),
        [PLUMB_UNSEEN_hip] = stands && !marked(marks, still, PLUMB_MARK_hip),
        [PLUMB_UNSEEN_shoulder] = !front && !marked(marks, still, PLUMB_MARK_shoulder),
        [PLUMB_UNSEEN_knee] = stands && !marked(marks, still, PLUMB_MARK_knee),
        [PLUMB_UNSEEN_side] = stands && front,
        [PLUMB_UNSEEN_grip] = press && !front && fit->still_count == 1,
        [PLUMB_UNSEEN_elbow] = press && !marked(marks, still, PLUMB_MARK_elbow),
        [PLUMB_UNSEEN_along] = press && front,
    };
    unsigned bits = 0;
    for (int i = 0; i < PLUMB_UNSEEN_COUNT; i++) {
        bits |= open[i] ? 1U << i : 0U;
    }
    return bits;
}

/* Of arms that are straight or nearly so the bend goes with the root of what they are short of it:
 * its slope has no end, and first order says nothing. There the spread is what the slack's own
 * spread bends an arm by, and how far that moves the elbow. */
static void spread_straight(const FitFigure *figure, double slack_sd_m, double sd[])
{
    static const double sure_sd = 1.96;
    const PlumbBody *const body = &figure->lifter.body;
    const double upper = body->upper_arm_m;
    const double lower = body->forearm_m + body->wrist_to_grip_palm_m;
    const double most = sqrt(2.0 * sure_sd * slack_sd_m * (upper + lower) / (upper * lower));
    if (figure->press.angle_rad[PLUMB_PRESS_ANG_elbow_flexion] > 1.5 * most) {
        return;
    }
    const double bend = most / sure_sd;
    const double of_upper = bend * lower / (upper + lower);
    const double of_lower = bend * upper / (upper + lower);
    const struct {
        PlumbReading reading;
        double sd;
    } least[] = {{PLUMB_READ_elbow_flexion, bend},
                 {PLUMB_READ_upper_arm, of_upper},
                 {PLUMB_READ_forearm_front, of_lower},
                 {PLUMB_READ_forearm_side, of_lower},
                 {PLUMB_READ_elbow_off_bar, of_upper * upper},
                 {PLUMB_READ_elbow_off_hand, of_upper * upper},
                 {PLUMB_READ_elbow_below_rule, of_upper * upper},
                 {PLUMB_READ_elbow_arm, of_upper * upper}};
    for (size_t i = 0; i < sizeof least / sizeof least[0]; i++) {
        sd[least[i].reading] = fmax(sd[least[i].reading], least[i].sd);
    }
}

static void tell_still(const Fit *fit, int still, PlumbTraced *traced)
{
    PlumbTraceWork *const w = fit->work;
    FitFigure figure;
    plumb_fit_figure(fit, w->theta, still, true, &figure);
    traced->front = fit->front[still];
    traced->camera = figure.camera;
    traced->setup = figure.setup;
    traced->position = figure.position;
    traced->press = figure.press;
    traced->distance_sd_m = unknown_sd(fit, still, FIT_DISTANCE);
    traced->yaw_sd_rad = unknown_sd(fit, still, FIT_YAW);
    traced->unseen = unseen_of(fit, still);
    traced->mark_count = 0;
    for (int i = 0; i < fit->ask->marks->count; i++) {
        traced->mark_count += fit->ask->marks->mark[i].still == still;
    }
    const int count = plumb_fit_residuals(fit, w->theta, still, w->residual);
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += w->residual[i] * w->residual[i];
    }
    traced->misfit = sqrt(sum / count);
    double value[READ_ALL];
    read_all(&figure, value);
    slopes_of(fit, still);
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        traced->value[i] = value[i];
        traced->sd[i] =
            isfinite(traced->value[i]) ? spread_of(fit, still, w->factor[i]) : (double)NAN;
    }
    if (figure.setup.lift == PLUMB_BENCH) {
        spread_straight(&figure, spread_of(fit, still, w->factor[SLACK]), traced->sd);
    }
}

/* Lengths are mean + root theta: their covariance is root C root'. */
static void tell_body(const Fit *fit, PlumbTrace *trace)
{
    enum { N = PLUMB_LENGTH_COUNT };
    const PlumbTraceWork *const w = fit->work;
    double half[N][N];
    plumb_fit_lengths(fit, w->theta, trace->body.mean_m);
    for (int i = 0; i < N; i++) {
        for (int j = 0; j < N; j++) {
            half[i][j] = 0.0;
            for (int k = 0; k <= i; k++) {
                half[i][j] += w->root_m[i][k] * w->normal[k][j];
            }
        }
    }
    for (int i = 0; i < N; i++) {
        for (int j = 0; j < N; j++) {
            double sum = 0.0;
            for (int k = 0; k <= j; k++) {
                sum += half[i][k] * w->root_m[j][k];
            }
            trace->body.cov_m2[i][j] = sum;
        }
    }
}

void plumb_fit_tell(const Fit *fit, PlumbTrace *trace)
{
    FitFigure figure;
    plumb_fit_figure(fit, fit->work->theta, 0, true, &figure);
    tell_body(fit, trace);
    trace->lifter = figure.lifter;
    PlumbBody *const body = &trace->lifter.body;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        body->length_sd_m[i] = sqrt(fmax(trace->body.cov_m2[i][i], 0.0));
    }
    body->parts_sum_m =
        body->ankle_height_m + body->shank_m + body->thigh_m + body->trunk_m + body->head_neck_m;
    trace->still_count = fit->still_count;
    for (int still = 0; still < fit->still_count; still++) {
        tell_still(fit, still, &trace->still[still]);
    }
}
