/* SPDX-License-Identifier: MIT */
/* Camera, pose and body fitted to marks: least squares with priors, and the covariance there.
 *
 * Unknowns are counted in the standard deviations of their priors, so that the most likely ones
 * have the least  |r(theta)|² + |theta|²,  r the misses of the marks in their standard errors, and
 * at that place the covariance is  (J'J + 1)⁻¹,  J = dr/dtheta  (Gauss & Newton's form of the
 * Hessian). Steps are those of Levenberg and Marquardt: the matrix's diagonal is raised until the
 * sum falls. */
#include "trace/fit.h"

#include "base/vec.h"

#include <stddef.h>

enum { STEPS_MAX = 400, TRIES_MAX = 12 };

static const double step_forward = 1e-5;
static const double step_central = 1e-3;
static const double small_step = 1e-7;

/* Sum of squares at theta. */
static double sum_at(const Fit *fit, const double *theta)
{
    double sum = 0.0;
    for (int i = 0; i < fit_count(fit); i++) {
        sum += theta[i] * theta[i];
    }
    for (int still = 0; still < fit->still_count; still++) {
        double *const residual = fit->work->residual;
        const int rows = plumb_fit_residuals(fit, theta, still, residual);
        for (int i = 0; i < rows; i++) {
            sum += residual[i] * residual[i];
        }
    }
    return sum;
}

/* Columns of J for one still: forward differences from residual, or central ones. */
static void fill_columns(const Fit *fit, int still, bool central, int rows)
{
    PlumbTraceWork *const w = fit->work;
    const double h = central ? step_central : step_forward;
    for (int k = 0; k < PLUMB_TRACE_SHARED + PLUMB_TRACE_OWN; k++) {
        double *const unknown = &w->theta[fit_index(fit, still, k)];
        const double here = *unknown;
        double *const column = w->column[k];
        if (fit->held[fit_index(fit, still, k)]) {
            for (int i = 0; i < rows; i++) {
                column[i] = 0.0;
            }
            continue;
        }
        *unknown = here + h;
        plumb_fit_residuals(fit, w->theta, still, column);
        if (central) {
            double low[PLUMB_TRACE_ROWS];
            *unknown = here - h;
            plumb_fit_residuals(fit, w->theta, still, low);
            for (int i = 0; i < rows; i++) {
                column[i] = 0.5 * (column[i] - low[i]) / h;
            }
        } else {
            for (int i = 0; i < rows; i++) {
                column[i] = (column[i] - w->residual[i]) / h;
            }
        }
        *unknown = here;
    }
}

/* Normal matrix J'J + 1 and gradient J'r + theta; returns the sum of squares. */
static double fill_normal(const Fit *fit, bool central)
{
    PlumbTraceWork *const w = fit->work;
    const int count = fit_count(fit);
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < count; j++) {
            w->normal[i][j] = i == j ? 1.0 : 0.0;
        }
        w->gradient[i] = fit->held[i] ? 0.0 : w->theta[i];
        sum += w->theta[i] * w->theta[i];
    }
    for (int still = 0; still < fit->still_count; still++) {
        const int rows = plumb_fit_residuals(fit, w->theta, still, w->residual);
        fill_columns(fit, still, central, rows);
        for (int i = 0; i < rows; i++) {
            sum += w->residual[i] * w->residual[i];
        }
        for (int k = 0; k < PLUMB_TRACE_SHARED + PLUMB_TRACE_OWN; k++) {
            const int a = fit_index(fit, still, k);
            for (int i = 0; i < rows; i++) {
                w->gradient[a] += w->column[k][i] * w->residual[i];
            }
            for (int m = 0; m <= k; m++) {
                double product = 0.0;
                for (int i = 0; i < rows; i++) {
                    product += w->column[k][i] * w->column[m][i];
                }
                w->normal[a][fit_index(fit, still, m)] += product;
            }
        }
    }
    return sum;
}

/* Cholesky's factor of normal with its diagonal times (1 + damping); lower triangles. */
static void factorise(PlumbTraceWork *w, int count, double damping)
{
    for (int i = 0; i < count; i++) {
        for (int j = 0; j <= i; j++) {
            double value = w->normal[i][j] * (i == j ? 1.0 + damping : 1.0);
            for (int k = 0; k < j; k++) {
                value -= w->factor[i][k] * w->factor[j][k];
            }
            /* The matrix is at least the unit matrix. */
            w->factor[i][j] = i == j ? sqrt(fmax(value, 0.5)) : value / w->factor[j][j];
        }
    }
}

/* Solves factor factor' x = rhs in place. */
static void substitute(const PlumbTraceWork *w, int count, double *x)
{
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < i; k++) {
            x[i] -= w->factor[i][k] * x[k];
        }
        x[i] /= w->factor[i][i];
    }
    for (int i = count - 1; i >= 0; i--) {
        for (int k = i + 1; k < count; k++) {
            x[i] -= w->factor[k][i] * x[k];
        }
        x[i] /= w->factor[i][i];
    }
}

/* One damped step from theta; false where none lowers the sum. *length is its largest part. */
static bool step_down(const Fit *fit, double sum, double *damping, double *length)
{
    PlumbTraceWork *const w = fit->work;
    const int count = fit_count(fit);
    for (int tries = 0; tries < TRIES_MAX; tries++) {
        factorise(w, count, *damping);
        *length = 0.0;
        for (int i = 0; i < count; i++) {
            w->step[i] = -w->gradient[i];
        }
        substitute(w, count, w->step);
        for (int i = 0; i < count; i++) {
            w->trial[i] = w->theta[i] + w->step[i];
            *length = fmax(*length, fabs(w->step[i]));
        }
        if (sum_at(fit, w->trial) < sum) {
            for (int i = 0; i < count; i++) {
                w->theta[i] = w->trial[i];
            }
            *damping *= 0.1;
            return true;
        }
        if (*length < small_step) {
            return false;
        }
        *damping = *damping < 1e-6 ? 1e-4 : *damping * 10.0;
    }
    return false;
}

double plumb_fit_descend(const Fit *fit, int *steps, bool *converged)
{
    double damping = 1e-3;
    double sum = fill_normal(fit, false);
    *converged = false;
    for (*steps = 0; *steps < STEPS_MAX; ++*steps) {
        double length;
        if (!step_down(fit, sum, &damping, &length)) {
            /* Rounding is all that is left, or the sum has no lower place near. */
            *converged = true;
            return sum;
        }
        const double before = sum;
        sum = fill_normal(fit, false);
        if (length < 1e-5 || before - sum < 1e-6 * (1.0 + before)) {
            *converged = true;
            return sum;
        }
    }
    return sum;
}

/* Moves an unknown toward a place by a share of the way that is left. */
static void draw_near(const FitPrior *own, double *theta, int k, double from, double to,
                      double share)
{
    theta[k] += share * (to - from) / own[k].sd;
}

/* Bends the legs, of a press the arms, that a fit has left straight: a knee between straight bones
 * cannot tell by its slope that it should be elsewhere, so that a step too far stays there. False
 * where none is. */
static bool bend(const Fit *fit, double share)
{
    static const double straight_rad = 2.0 * PLUMB_PI / 180.0;
    const bool press = fit->ask->setup->lift == PLUMB_BENCH;
    bool any = false;
    for (int still = 0; still < fit->still_count; still++) {
        const FitPrior *const own = fit->own[still];
        double *const theta = fit->work->theta + PLUMB_TRACE_SHARED + still * PLUMB_TRACE_OWN;
        FitFigure figure;
        plumb_fit_figure(fit, fit->work->theta, still, false, &figure);
        const PlumbVec3 *const point = figure.position.point;
        const PlumbVec3 ankle = point[PLUMB_PT_ankle];
        const PlumbVec3 bar = point[PLUMB_PT_bar];
        const PlumbPose pose = figure.position.pose;
        const double flexion = press ? figure.press.angle_rad[PLUMB_PRESS_ANG_elbow_flexion]
                                     : figure.position.angle_rad[PLUMB_ANG_knee_flexion];
        if (flexion >= straight_rad) {
            continue;
        }
        any = true;
        if (press) {
            draw_near(own, theta, FIT_BAR_X, bar.x, point[PLUMB_PT_shoulder].x, 1.0 - share);
            draw_near(own, theta, FIT_BAR_Y, bar.y, point[PLUMB_PT_shoulder].y, 1.0 - share);
        } else {
            draw_near(own, theta, FIT_HIP_X, pose.hip_x_m, ankle.x, 1.0 - share);
            draw_near(own, theta, FIT_HIP_Y, pose.hip_height_m, ankle.y, 1.0 - share);
        }
    }
    return any;
}

/* As descend; where it ends in straight limbs, again from bent ones, and the best is kept. */
static double descend_bent(const Fit *fit, int *steps, bool *converged)
{
    static const double shares[] = {0.97, 0.9}; /* of a limb's length: a bend of 28 or 52 degrees */
    double kept[PLUMB_TRACE_UNKNOWNS];
    double sum = plumb_fit_descend(fit, steps, converged);
    for (size_t k = 0; k < sizeof shares / sizeof shares[0]; k++) {
        int more;
        bool held;
        for (int i = 0; i < fit_count(fit); i++) {
            kept[i] = fit->work->theta[i];
        }
        if (!bend(fit, shares[k])) {
            return sum;
        }
        const double bent = plumb_fit_descend(fit, &more, &held);
        *steps += more;
        if (bent < sum) {
            sum = bent;
            *converged = held;
        } else {
            for (int i = 0; i < fit_count(fit); i++) {
                fit->work->theta[i] = kept[i];
            }
        }
    }
    return sum;
}

/* Misses that are larger than chance: a sum above this for each row says that another place of the
 * unknowns may fit better. */
static bool fits_well(const Fit *fit, double sum)
{
    return sum < 3.0 * fit->ask->marks->count;
}

/* From the lift's start; where that fits badly from other guesses too, and the best is kept. */
double plumb_fit_search(Fit *fit, int *steps, bool *converged)
{
    static const struct {
        bool end;
        double yaw_rad;
    } guesses[] = {{false, 0.0}, {false, 0.25}, {false, -0.25}, {true, 0.0}};
    PlumbAnswer answer;
    if (fit->ask->setup->lift == PLUMB_BENCH) {
        plumb_fit_press_ends(fit->ask->lifter, fit->ask->setup, &answer);
    } else {
        plumb_answer_quick(fit->ask->lifter, fit->ask->setup, &answer);
    }
    double best = (double)INFINITY;
    double kept[PLUMB_TRACE_UNKNOWNS] = {0.0};
    Fit kept_fit = *fit;
    const bool press = fit->ask->setup->lift == PLUMB_BENCH;
    for (size_t k = 0; k < sizeof guesses / sizeof guesses[0]; k++) {
        /* Arms that point away from their place may fit the marks of a press as well: all are
         * tried. */
        if ((guesses[k].end && !answer.end_held) || (fits_well(fit, best) && !press)) {
            continue;
        }
        int taken;
        bool down;
        plumb_fit_begin(fit, &answer, guesses[k].end, guesses[k].yaw_rad);
        const double sum = descend_bent(fit, &taken, &down);
        if (sum < best) {
            best = sum;
            kept_fit = *fit;
            *steps = taken;
            *converged = down;
            for (int i = 0; i < fit_count(fit); i++) {
                kept[i] = fit->work->theta[i];
            }
        }
    }
    *fit = kept_fit;
    for (int i = 0; i < fit_count(fit); i++) {
        fit->work->theta[i] = kept[i];
    }
    return best;
}

const char plumb_disc_on_edge[] =
    "from the end of the bench a disc is seen on edge: mark its middle, right_disc_centre and "
    "left_disc_centre";

static PlumbStatus check(const PlumbTraceAsk *ask, PlumbError *error)
{
    const bool press = ask->setup->lift == PLUMB_BENCH;
    int count[PLUMB_STILLS_MAX] = {0};
    int told[PLUMB_STILLS_MAX] = {0};
    for (int i = 0; i < ask->marks->count; i++) {
        const PlumbMark *const mark = &ask->marks->mark[i];
        const PlumbLandmark landmark = mark->name.landmark;
        count[mark->still]++;
        /* Of a press only arms and bar are read. */
        told[mark->still] += !press || (landmark > PLUMB_MARK_hip && landmark < PLUMB_MARK_scale);
        if (press && mark->name.front && landmark == PLUMB_MARK_disc) {
            plumb_error_set(error, PLUMB_BAD_INPUT, "landmark", plumb_disc_on_edge);
            if (error != NULL) {
                error->line = mark->line;
            }
            return PLUMB_BAD_INPUT;
        }
    }
    for (int i = 0; i < ask->marks->still_count; i++) {
        if (count[i] > PLUMB_STILL_MARKS_MAX) {
            return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                                   "at most 60 marks on one picture");
        }
        if (told[i] < 3 && press) {
            return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                                   "a picture of a press needs three marks or more of arm and bar: "
                                   "shoulder, elbow, wrist, and three to five points of the disc's "
                                   "rim");
        }
        if (count[i] < 3) {
            return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                                   "a picture needs three marks or more: heel, toe, knee, hip, "
                                   "shoulder, and three to five points of the disc's rim");
        }
    }
    return ask->marks->still_count > 0
               ? PLUMB_OK
               : plumb_error_set(error, PLUMB_BAD_INPUT, "marks", "no mark is given");
}

/* The inverse of the normal matrix, by columns. */
void plumb_fit_covariance(const Fit *fit)
{
    PlumbTraceWork *const w = fit->work;
    const int count = fit_count(fit);
    fill_normal(fit, true);
    factorise(w, count, 0.0);
    for (int j = 0; j < count; j++) {
        for (int i = 0; i < count; i++) {
            w->step[i] = i == j ? 1.0 : 0.0;
        }
        substitute(w, count, w->step);
        for (int i = 0; i < count; i++) {
            w->normal[i][j] = w->step[i];
        }
    }
}

PlumbStatus plumb_trace_stills(const PlumbTraceAsk *ask, PlumbTraceWork *work, PlumbTrace *trace,
                               PlumbError *error)
{
    if (check(ask, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    Fit fit = {.ask = ask, .work = work};
    plumb_fit_search(&fit, &trace->step_count, &trace->converged);
    plumb_fit_covariance(&fit);
    plumb_fit_tell(&fit, trace);
    return PLUMB_OK;
}

PlumbTraceAsk plumb_trace_ask(const PlumbLifter *lifter, const PlumbSetup *setup,
                              const PlumbTraceBody *body, const PlumbMarks *marks)
{
    PlumbTraceAsk ask = {
        .lifter = lifter,
        .setup = setup,
        .body = body,
        .marks = marks,
        .disc_z_m = 0.70,
        .joint_sigma_m = 0.02,
        .disc_sigma_px = 3.0,
        .reach_sd_m = 0.02,
        .gap_sd_m = 0.03,
        .stand_sd_frac = 0.15,
    };
    for (int i = 0; i < PLUMB_STILLS_MAX; i++) {
        ask.on_floor[i] = setup->lift == PLUMB_DEADLIFT;
    }
    return ask;
}
