/* SPDX-License-Identifier: MIT */
/* The figure that unknowns make, and how far the marks are from it. */
#include "trace/fit.h"

#include "base/vec.h"
#include "body/segments.h"

static const double least_length_m = 0.001;
static const double least_distance_m = 1.0;
static const double stand_mean_frac = 0.45;
static const double bone_sd_m = 0.005;
static const double flesh_sd_m = 0.01;
static const double round_m = 0.002;

void plumb_fit_lengths(const Fit *fit, const double *theta, double length_m[PLUMB_LENGTH_COUNT])
{
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const double *const root = fit->work->root_m[i];
        double length = fit->ask->body->mean_m[i];
        for (int k = 0; k <= i; k++) {
            length += root[k] * theta[k];
        }
        /* Only what can lie on either side of its joint may be negative. */
        const bool any = fit->ask->body->mean_m[i] < 0.0 || i == PLUMB_LEN_shoulder_drop ||
                         (i >= PLUMB_LEN_bar_high_up && i <= PLUMB_LEN_bar_front_back);
        length_m[i] = any ? length : fmax(length, least_length_m);
    }
}

static PlumbCamera camera_of(const Fit *fit, const double *theta, int still)
{
    const int camera = fit_camera(fit, still);
    const FitPrior *const prior = fit->own[camera];
    const double *const own = theta + PLUMB_TRACE_SHARED + camera * PLUMB_TRACE_OWN;
    return (PlumbCamera){
        .focal_px = exp(fit_value(&prior[FIT_FOCAL], own[FIT_FOCAL])),
        .distance_m = fmax(fit_value(&prior[FIT_DISTANCE], own[FIT_DISTANCE]), least_distance_m),
        .along_m = fit_value(&prior[FIT_ALONG], own[FIT_ALONG]),
        .height_m = fit_value(&prior[FIT_HEIGHT], own[FIT_HEIGHT]),
        .yaw_rad = fit_value(&prior[FIT_YAW], own[FIT_YAW]),
        .pitch_rad = fit_value(&prior[FIT_PITCH], own[FIT_PITCH]),
        .roll_rad = fit_value(&prior[FIT_ROLL], own[FIT_ROLL]),
        .centre_x_px = fit->centre_px[camera].x,
        .centre_y_px = fit->centre_px[camera].y,
    };
}

/* The bar, and the hands with it, along the thorax from where it lies by the lengths. */
static void slip_bar(PlumbPosition *position, double slip_m)
{
    for (int i = PLUMB_PT_wrist; i <= PLUMB_PT_bar; i++) {
        position->point[i].x += slip_m * sin(position->pose.thorax_lean_rad);
        position->point[i].y += slip_m * cos(position->pose.thorax_lean_rad);
    }
}

void plumb_fit_figure(const Fit *fit, const double *theta, int still, bool masses,
                      FitFigure *figure)
{
    const double *const own = theta + PLUMB_TRACE_SHARED + still * PLUMB_TRACE_OWN;
    const FitPrior *const prior = fit->own[still];
    figure->lifter = *fit->ask->lifter;
    plumb_fit_lengths(fit, theta, figure->lifter.body.length_m);
    if (masses) {
        plumb_body_segments(&figure->lifter.body);
    }
    PlumbSetup *const setup = &figure->setup;
    *setup = *fit->ask->setup;
    setup->knees_over_toes = false;
    setup->stance_m = fit_value(&fit->shared[0], theta[FIT_STANCE]);
    setup->toes_rad = fit_value(&fit->shared[1], theta[FIT_TOES]);
    setup->knees_out_rad = fit_value(&fit->shared[2], theta[FIT_KNEES_OUT]);
    setup->grip_m = fit_value(&fit->shared[3], theta[FIT_GRIP]);
    setup->spine_rad = fit_value(&prior[FIT_SPINE], own[FIT_SPINE]);
    figure->camera = camera_of(fit, theta, still);
    figure->slip_m = 0.0;
    if (setup->lift == PLUMB_BENCH) {
        plumb_fit_press_figure(prior, own, figure);
        return;
    }
    const PlumbPose pose = {fit_value(&prior[FIT_HIP_X], own[FIT_HIP_X]),
                            fit_value(&prior[FIT_HIP_Y], own[FIT_HIP_Y]),
                            fit_value(&prior[FIT_LEAN], own[FIT_LEAN])};
    plumb_position_describe(&figure->lifter, setup, pose, setup->spine_rad, setup->knees_out_rad,
                            fit_value(&prior[FIT_BAR_X], own[FIT_BAR_X]),
                            fit_value(&prior[FIT_BAR_Y], own[FIT_BAR_Y]), -1.0, &figure->position);
    if (setup->lift == PLUMB_SQUAT && fit->ask->slip_sd_m > 0.0) {
        figure->slip_m = fit_value(&prior[FIT_SLIP], own[FIT_SLIP]);
        slip_bar(&figure->position, figure->slip_m);
    }
}

PlumbVec3 plumb_fit_place(const PlumbPosition *position, PlumbMarkName name, double disc_z_m,
                          double disc_radius_m)
{
    static const PlumbPoint point[] = {
        [PLUMB_MARK_heel] = PLUMB_PT_heel,       [PLUMB_MARK_toe] = PLUMB_PT_toe,
        [PLUMB_MARK_ankle] = PLUMB_PT_ankle,     [PLUMB_MARK_knee] = PLUMB_PT_knee,
        [PLUMB_MARK_hip] = PLUMB_PT_hip,         [PLUMB_MARK_shoulder] = PLUMB_PT_shoulder,
        [PLUMB_MARK_elbow] = PLUMB_PT_elbow,     [PLUMB_MARK_wrist] = PLUMB_PT_wrist,
        [PLUMB_MARK_bar] = PLUMB_PT_grip,        [PLUMB_MARK_disc] = PLUMB_PT_bar,
        [PLUMB_MARK_disc_centre] = PLUMB_PT_bar, [PLUMB_MARK_scale] = PLUMB_PT_bar,
        [PLUMB_MARK_plumb] = PLUMB_PT_bar,
    };
    PlumbVec3 p = position->point[point[name.landmark]];
    if (name.landmark == PLUMB_MARK_disc || name.landmark == PLUMB_MARK_disc_centre) {
        p.z = disc_z_m;
        p.y += name.landmark == PLUMB_MARK_disc ? disc_radius_m : 0.0;
    }
    p.z = name.near == PLUMB_NEAR ? p.z : -p.z;
    return p;
}

double plumb_fit_sigma_px(const PlumbTraceAsk *ask, const PlumbMark *mark, double px_per_m)
{
    const PlumbLandmark landmark = mark->name.landmark;
    if (mark->sigma_px > 0.0) {
        return mark->sigma_px;
    }
    const bool hard = landmark == PLUMB_MARK_disc || landmark == PLUMB_MARK_disc_centre ||
                      landmark == PLUMB_MARK_scale || landmark == PLUMB_MARK_plumb;
    return hard ? ask->disc_sigma_px : ask->joint_sigma_m * px_per_m;
}

/* A rim point says that its ray meets the disc's plane one radius from the bar: one row. */
static double rim_miss_px(const PlumbTraceAsk *ask, const FitFigure *figure, const PlumbMark *mark)
{
    const double z = mark->name.near == PLUMB_NEAR ? ask->disc_z_m : -ask->disc_z_m;
    double depth;
    const PlumbVec2 pixel = {mark->x_px, mark->y_px};
    const PlumbVec3 p = plumb_camera_meet(&figure->camera, pixel, z, &depth);
    const PlumbVec3 bar = figure->position.point[PLUMB_PT_bar];
    const double radius = 0.5 * figure->lifter.equipment.disc_diameter_m;
    return (hypot(p.x - bar.x, p.y - bar.y) - radius) * figure->camera.focal_px / depth;
}

/* Two ends of a known length say how far apart their rays meet its plane. */
static double scale_miss(const PlumbTraceAsk *ask, const FitFigure *figure, const PlumbMark *first,
                         const PlumbMark *second)
{
    const double length_m = ask->scale_length_m[first->still];
    double depth;
    const PlumbVec2 a = {first->x_px, first->y_px};
    const PlumbVec2 b = {second->x_px, second->y_px};
    const PlumbVec3 p = plumb_camera_meet(&figure->camera, a, ask->scale_z_m, &depth);
    const PlumbVec3 q = plumb_camera_meet(&figure->camera, b, ask->scale_z_m, &depth);
    const double sigma =
        hypot(plumb_fit_sigma_px(ask, first, 1.0), plumb_fit_sigma_px(ask, second, 1.0));
    return (hypot(p.x - q.x, p.y - q.y) - length_m) * figure->camera.focal_px / depth / sigma;
}

/* Two points of something upright: whatever its depth, in the picture before the roll a plumb line
 * through (X, Y) runs along (X sin t, f cos t + Y sin t), t the pitch. The miss is how far the
 * second point is beside the line through the first. */
static double plumb_miss(const PlumbTraceAsk *ask, const FitFigure *figure, const PlumbMark *first,
                         const PlumbMark *second)
{
    const PlumbCamera *const c = &figure->camera;
    const double cr = cos(c->roll_rad);
    const double sr = sin(c->roll_rad);
    const double middle_x = 0.5 * (first->x_px + second->x_px) - c->centre_x_px;
    const double middle_y = 0.5 * (first->y_px + second->y_px) - c->centre_y_px;
    const double dx = second->x_px - first->x_px;
    const double dy = second->y_px - first->y_px;
    const double st = sin(c->pitch_rad);
    const double along_x = (middle_x * cr + middle_y * sr) * st;
    const double along_y = c->focal_px * cos(c->pitch_rad) + (middle_x * sr - middle_y * cr) * st;
    const double right = dx * cr + dy * sr;
    const double up = dx * sr - dy * cr;
    const double sigma =
        hypot(plumb_fit_sigma_px(ask, first, 1.0), plumb_fit_sigma_px(ask, second, 1.0));
    return (right * along_y - up * along_x) / hypot(along_x, along_y) / sigma;
}

/* The arms of a pull hang straight: shoulder and hand are an arm's length apart. */
static double reach_miss(const PlumbTraceAsk *ask, const FitFigure *figure)
{
    const PlumbBody *const body = &figure->lifter.body;
    const PlumbVec3 *const point = figure->position.point;
    const double arm =
        body->shoulder_drop_m + body->upper_arm_m + body->forearm_m + body->wrist_to_grip_fingers_m;
    return (vec3_length(vec3_sub(point[PLUMB_PT_shoulder], point[PLUMB_PT_grip])) - arm) /
           ask->reach_sd_m;
}

static int mark_rows(const Fit *fit, const FitFigure *figure, const PlumbMark *mark,
                     double px_per_m, double *row)
{
    const PlumbTraceAsk *const ask = fit->ask;
    const double sigma = plumb_fit_sigma_px(ask, mark, px_per_m);
    if (ask->setup->lift == PLUMB_BENCH && mark->name.landmark <= PLUMB_MARK_hip) {
        return 0; /* what lies on the bench and stands on the floor tells nothing of the arms */
    }
    if (mark->name.landmark == PLUMB_MARK_disc) {
        row[0] = rim_miss_px(ask, figure, mark) / sigma;
        return 1;
    }
    const PlumbVec3 place = plumb_fit_place(&figure->position, mark->name, ask->disc_z_m, 0.0);
    const PlumbVec2 pixel = plumb_camera_project(&figure->camera, place, NULL);
    row[0] = (pixel.x - mark->x_px) / sigma;
    row[1] = (pixel.y - mark->y_px) / sigma;
    return 2;
}

/* max(0, x), rounded within 2 mm so that steps do not swing about its corner. */
static double over(double x_m)
{
    return 0.5 * (x_m + sqrt(x_m * x_m + round_m * round_m));
}

/* What is known without a mark: arms and balance; that a leg is no longer than its bones, that no
 * bar passes through it and that a bar on the floor is pulled from near it. */
static int belief_rows(const PlumbTraceAsk *ask, const FitFigure *figure, int still, double *row)
{
    const PlumbVec3 *const point = figure->position.point;
    const PlumbBody *const body = &figure->lifter.body;
    const double leg = vec3_length(vec3_sub(point[PLUMB_PT_hip], point[PLUMB_PT_ankle]));
    int rows = 0;
    if (ask->setup->lift == PLUMB_BENCH) {
        row[0] = over(figure->short_m) / bone_sd_m;
        return 1;
    }
    row[rows++] = over(leg - body->shank_m - body->thigh_m) / bone_sd_m;
    if (ask->straight_sd_m[still] > 0.0) {
        row[rows++] = over(body->shank_m + body->thigh_m - leg) / ask->straight_sd_m[still];
    }
    if (ask->setup->lift == PLUMB_DEADLIFT) {
        row[rows++] = over(-figure->position.clearance_m) / flesh_sd_m;
        if (ask->on_floor[still] && ask->gap_sd_m > 0.0) {
            row[rows++] = over(figure->position.clearance_m) / ask->gap_sd_m;
        }
    }
    if (ask->setup->lift == PLUMB_DEADLIFT && ask->reach_sd_m > 0.0) {
        row[rows++] = reach_miss(ask, figure);
    }
    if (ask->stand_sd_frac > 0.0) {
        row[rows++] = (figure->position.balance_frac - stand_mean_frac) / ask->stand_sd_frac;
    }
    return rows;
}

int plumb_fit_residuals(const Fit *fit, const double *theta, int still, double *residual)
{
    const PlumbTraceAsk *const ask = fit->ask;
    const PlumbMark *scale = NULL; /* the first of two, until its second comes */
    const PlumbMark *plumb = NULL;
    FitFigure figure;
    plumb_fit_figure(fit, theta, still, false, &figure);
    /* The scale of the first guess, so that a mark's error does not depend on the fit. */
    const FitPrior *const camera = fit->own[fit_camera(fit, still)];
    const double px_per_m = exp(camera[FIT_FOCAL].mean) / camera[FIT_DISTANCE].mean;
    int rows = 0;
    for (int i = 0; i < ask->marks->count; i++) {
        const PlumbMark *const mark = &ask->marks->mark[i];
        if (mark->still != still) {
            continue;
        }
        if (mark->name.landmark == PLUMB_MARK_scale) {
            if (scale != NULL && ask->scale_length_m[still] > 0.0) {
                residual[rows++] = scale_miss(ask, &figure, scale, mark);
            }
            scale = scale == NULL ? mark : NULL;
        } else if (mark->name.landmark == PLUMB_MARK_plumb) {
            if (plumb != NULL) {
                residual[rows++] = plumb_miss(ask, &figure, plumb, mark);
            }
            plumb = plumb == NULL ? mark : NULL;
        } else {
            rows += mark_rows(fit, &figure, mark, px_per_m, residual + rows);
        }
    }
    return rows + belief_rows(ask, &figure, still, residual + rows);
}
