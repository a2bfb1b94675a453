/* SPDX-License-Identifier: MIT */
/* What is believed before the marks are seen, and a first guess that a fit can start from.
 *
 * The spreads of set-up, camera and pose are judgements: a photographer stands square to the bar
 * within 5 degrees and holds the camera level within 2; people set the feet up within 5 cm of what
 * they say. The pose's are wide: marks decide. */
#include "trace/fit.h"

#include "base/vec.h"

static const double stance_sd_m = 0.05;
static const double grip_sd_m = 0.04;
static const double turn_sd_rad = 8.0 * PLUMB_PI / 180.0; /* toes, knees out, spine */
static const double yaw_sd_rad = 5.0 * PLUMB_PI / 180.0;
static const double yaw_open_sd_rad = 20.0 * PLUMB_PI / 180.0; /* both discs will tell */
static const double pitch_sd_rad = 8.0 * PLUMB_PI / 180.0;
static const double roll_sd_rad = 2.0 * PLUMB_PI / 180.0;
static const double distance_mean_m = 4.0;
static const double distance_sd_m = 1.5;
static const double distance_entered_sd_m = 0.15;
static const double height_mean_m = 1.0;
static const double height_sd_m = 0.4;
static const double pose_sd_m = 0.3;
static const double lean_sd_rad = 30.0 * PLUMB_PI / 180.0;
static const double floor_sd_m = 0.005; /* of a bar whose discs stand on the floor */
static const double roughness_m = 0.01; /* of the first scale */

/* Cholesky's root of the body's covariance; a length known exactly has a column of zeros. */
static void root_body(const PlumbTraceBody *body,
                      double root[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT])
{
    static const double share_lost = 1e-12; /* of the variance, to rounding */
    for (int j = 0; j < PLUMB_LENGTH_COUNT; j++) {
        double pivot = body->cov_m2[j][j];
        for (int k = 0; k < j; k++) {
            pivot -= root[j][k] * root[j][k];
        }
        const bool none = !(pivot > share_lost * fabs(body->cov_m2[j][j]) && pivot > 1e-18);
        for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
            double value = i < j || none ? 0.0 : body->cov_m2[i][j];
            for (int k = 0; k < j && i >= j && !none; k++) {
                value -= root[i][k] * root[j][k];
            }
            root[i][j] = none ? 0.0 : value / sqrt(pivot);
        }
    }
}

static bool both_discs(const PlumbMarks *marks, int still)
{
    bool seen[2] = {false, false};
    for (int i = 0; i < marks->count; i++) {
        const PlumbMark *const mark = &marks->mark[i];
        const bool disc =
            mark->name.landmark == PLUMB_MARK_disc || mark->name.landmark == PLUMB_MARK_disc_centre;
        if (mark->still == still && disc) {
            seen[mark->name.near] = true;
        }
    }
    return seen[PLUMB_NEAR] && seen[PLUMB_FAR];
}

/* Pixels in a metre of the near disc's rim; 0 where it is not marked. */
static double disc_scale(const PlumbTraceAsk *ask, int still)
{
    PlumbVec2 rim[PLUMB_STILL_MARKS_MAX];
    int count = 0;
    for (int i = 0; i < ask->marks->count && count < PLUMB_STILL_MARKS_MAX; i++) {
        const PlumbMark *const mark = &ask->marks->mark[i];
        if (mark->still == still && mark->name.landmark == PLUMB_MARK_disc &&
            mark->name.near == PLUMB_NEAR) {
            rim[count++] = (PlumbVec2){mark->x_px, mark->y_px};
        }
    }
    PlumbEllipse ellipse;
    return plumb_ellipse_fit(rim, count, &ellipse)
               ? ellipse.a_px / (0.5 * ask->lifter->equipment.disc_diameter_m)
               : 0.0;
}

/* Means and spreads of marks and of the points that they are of, across and upwards. */
typedef struct Spread {
    int count;
    double px[2];
    double m[2];
    double px2;
    double m2;
} Spread;

static Spread spread_of(const Fit *fit, int still, const PlumbPosition *position)
{
    const double turn = fit->own[still][FIT_YAW].mean < 0.0 ? -1.0 : 1.0; /* the head end */
    const PlumbMarks *const marks = fit->ask->marks;
    Spread s = {0};
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < marks->count; i++) {
            const PlumbMark *const mark = &marks->mark[i];
            if (mark->still != still || mark->name.landmark == PLUMB_MARK_scale ||
                mark->name.landmark == PLUMB_MARK_plumb) {
                continue;
            }
            const PlumbVec3 p = plumb_fit_place(position, mark->name, fit->ask->disc_z_m, 0.0);
            const double u = fit->front[still] ? -turn * p.z : p.x;
            if (pass == 0) {
                s.count++;
                s.px[0] += mark->x_px;
                s.px[1] -= mark->y_px;
                s.m[0] += u;
                s.m[1] += p.y;
                continue;
            }
            const double n = s.count;
            const double dx = mark->x_px - s.px[0] / n;
            const double dy = -mark->y_px - s.px[1] / n;
            s.px2 += dx * dx + dy * dy;
            s.m2 += (u - s.m[0] / n) * (u - s.m[0] / n) + (p.y - s.m[1] / n) * (p.y - s.m[1] / n);
        }
    }
    return s;
}

/* The camera that puts the middle of the figure onto the middle of the marks. */
static void guess_camera(Fit *fit, int still, const PlumbPosition *position)
{
    const PlumbTraceAsk *const ask = fit->ask;
    FitPrior *const own = fit->own[still];
    const double distance = own[FIT_DISTANCE].mean;
    const Spread s = spread_of(fit, still, position);
    const double disc = fit->front[still] ? 0.0 : disc_scale(ask, still);
    const double scale = sqrt(fmax(s.px2, 1.0) / fmax(s.m2, roughness_m));
    const double focal = disc > 0.0 ? disc * (distance - ask->disc_z_m) : scale * distance;
    const double n = s.count > 0 ? s.count : 1.0;
    const double across = s.px[0] / n - fit->centre_px[still].x;
    const double up = s.px[1] / n + fit->centre_px[still].y;
    double *const theta = fit->work->theta + PLUMB_TRACE_SHARED + still * PLUMB_TRACE_OWN;
    own[FIT_FOCAL] = (FitPrior){log(focal), 1.0};
    const double along = s.m[0] / n - across * distance / focal;
    if (fit->front[still]) {
        own[FIT_ALONG] = (FitPrior){0.0, 0.5};
    } else {
        theta[FIT_ALONG] = along / own[FIT_ALONG].sd;
    }
    const double pitch = up / focal - (s.m[1] / n - own[FIT_HEIGHT].mean) / distance;
    theta[FIT_PITCH] = clamp(pitch, -0.5, 0.5) / own[FIT_PITCH].sd;
}

static void believe_camera(Fit *fit, int still)
{
    const double entered = fit->ask->distance_m[still];
    FitPrior *const own = fit->own[still];
    const bool front = fit->front[still];
    own[FIT_DISTANCE] = entered > 0.0 ? (FitPrior){entered, distance_entered_sd_m}
                                      : (FitPrior){distance_mean_m, distance_sd_m};
    own[FIT_YAW] =
        (FitPrior){front ? 0.5 * PLUMB_PI : 0.0,
                   both_discs(fit->ask->marks, still) && !front ? yaw_open_sd_rad : yaw_sd_rad};
    own[FIT_PITCH] = (FitPrior){0.0, pitch_sd_rad};
    own[FIT_ROLL] = (FitPrior){0.0, roll_sd_rad};
    own[FIT_ALONG] = (FitPrior){0.0, 1.0};
    own[FIT_HEIGHT] = (FitPrior){height_mean_m, height_sd_m};
}

static void believe_pose(Fit *fit, int still, const PlumbPosition *model)
{
    const PlumbTraceAsk *const ask = fit->ask;
    FitPrior *const own = fit->own[still];
    own[FIT_HIP_X] = (FitPrior){model->pose.hip_x_m, pose_sd_m};
    own[FIT_HIP_Y] = (FitPrior){model->pose.hip_height_m, pose_sd_m};
    own[FIT_LEAN] = (FitPrior){model->pose.thorax_lean_rad, lean_sd_rad};
    own[FIT_SPINE] = (FitPrior){ask->setup->spine_rad, turn_sd_rad};
    own[FIT_BAR_X] = (FitPrior){model->point[PLUMB_PT_bar].x, pose_sd_m};
    own[FIT_BAR_Y] =
        (FitPrior){model->point[PLUMB_PT_bar].y, ask->on_floor[still] ? floor_sd_m : pose_sd_m};
    if (ask->setup->lift == PLUMB_SQUAT && ask->slip_sd_m > 0.0) {
        own[FIT_SLIP] = (FitPrior){0.0, ask->slip_sd_m};
    }
}

/* The middle of a still's marks: where the optical axis meets a picture of unknown size. */
static PlumbVec2 middle_px(const PlumbMarks *marks, int still)
{
    PlumbVec2 low = {(double)INFINITY, (double)INFINITY};
    PlumbVec2 high = {-(double)INFINITY, -(double)INFINITY};
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == still) {
            low.x = fmin(low.x, marks->mark[i].x_px);
            low.y = fmin(low.y, marks->mark[i].y_px);
            high.x = fmax(high.x, marks->mark[i].x_px);
            high.y = fmax(high.y, marks->mark[i].y_px);
        }
    }
    return (PlumbVec2){0.5 * (low.x + high.x), 0.5 * (low.y + high.y)};
}

/* Starts the pose at the lift's other end. */
static void guess_end(Fit *fit, int still, const PlumbPosition *end)
{
    const FitPrior *const own = fit->own[still];
    double *const theta = fit->work->theta + PLUMB_TRACE_SHARED + still * PLUMB_TRACE_OWN;
    const PlumbVec3 bar = end->point[PLUMB_PT_bar];
    theta[FIT_HIP_X] = (end->pose.hip_x_m - own[FIT_HIP_X].mean) / own[FIT_HIP_X].sd;
    theta[FIT_HIP_Y] = (end->pose.hip_height_m - own[FIT_HIP_Y].mean) / own[FIT_HIP_Y].sd;
    theta[FIT_LEAN] = (end->pose.thorax_lean_rad - own[FIT_LEAN].mean) / own[FIT_LEAN].sd;
    theta[FIT_BAR_X] = (bar.x - own[FIT_BAR_X].mean) / own[FIT_BAR_X].sd;
    if (fit->ask->setup->lift != PLUMB_SQUAT && !fit->ask->on_floor[still]) {
        theta[FIT_BAR_Y] = (bar.y - own[FIT_BAR_Y].mean) / own[FIT_BAR_Y].sd;
    }
}

void plumb_fit_begin(Fit *fit, const PlumbAnswer *answer, bool end, double yaw_rad)
{
    const PlumbTraceAsk *const ask = fit->ask;
    const PlumbSetup *const setup = ask->setup;
    root_body(ask->body, fit->work->root_m);
    fit->still_count = ask->marks->still_count;
    fit->shared[0] = (FitPrior){setup->stance_m, stance_sd_m};
    fit->shared[1] = (FitPrior){setup->toes_rad, turn_sd_rad};
    fit->shared[2] = (FitPrior){setup->knees_out_rad, turn_sd_rad};
    fit->shared[3] = (FitPrior){setup->grip_m, grip_sd_m};
    for (int i = 0; i < fit_count(fit); i++) {
        fit->work->theta[i] = 0.0;
    }
    for (int still = 0; still < fit->still_count; still++) {
        const PlumbVec2 size = ask->size_px[still];
        double *const own = fit->work->theta + PLUMB_TRACE_SHARED + still * PLUMB_TRACE_OWN;
        fit->front[still] = plumb_marks_front(ask->marks, still);
        fit->centre_px[still] =
            size.x > 0.0 ? (PlumbVec2){0.5 * size.x, 0.5 * size.y} : middle_px(ask->marks, still);
        believe_camera(fit, still);
        believe_pose(fit, still, &answer->start);
        if (setup->lift == PLUMB_BENCH) {
            plumb_fit_press_believe(fit, still);
        }
        guess_camera(fit, still, end ? &answer->end : &answer->start);
        own[FIT_YAW] = yaw_rad / fit->own[still][FIT_YAW].sd;
        if (end) {
            guess_end(fit, still, &answer->end);
        }
    }
}
