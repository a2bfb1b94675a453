/* SPDX-License-Identifier: MIT */
/* Faults laid over the model's lift, and their figures from the motion itself. */
#include "film_fault.h"

#include "base/vec.h"

#include <stdio.h>
#include <stdlib.h>

FilmFault film_fault(const FilmLift *lift)
{
    return (FilmFault){lift,
                       (double)INFINITY,
                       (double)INFINITY,
                       (double)INFINITY,
                       (double)INFINITY,
                       {0.0, 0.0, 0.0},
                       0.0,
                       {0.0, 0.0}};
}

/* 0 before, 1 after, smooth between. */
static double step(double t, double from, double to)
{
    if (t >= to) {
        return 1.0;
    }
    const double u = t <= from ? 0.0 : (t - from) / (to - from);
    return u * u * (3.0 - 2.0 * u);
}

void film_fault_at(const void *fault, double t_s, PlumbPosition *position)
{
    const FilmFault *const f = fault;
    const FilmLift *const lift = f->lift;
    const double t = t_s - film_lift_begin_s(lift);
    const double full =
        step(t, f->grows_from_s, f->grown_s) * (1.0 - step(t, f->goes_from_s, f->gone_s));
    PlumbPosition p;
    film_lift_at(lift, t_s, &p);
    const bool squat = lift->answer.setup.lift == PLUMB_SQUAT;
    const PlumbVec2 bar = {full * f->bar_m.x, full * f->bar_m.y};
    const PlumbPose pose = {p.pose.hip_x_m + full * f->pose.hip_x_m,
                            p.pose.hip_height_m + full * f->pose.hip_height_m,
                            p.pose.thorax_lean_rad + full * f->pose.thorax_lean_rad};
    plumb_position_describe(&lift->lifter, &lift->answer.setup, pose, p.spine_rad,
                            p.knees_out_rad + full * f->knees_out_rad,
                            p.point[PLUMB_PT_bar].x + bar.x, p.point[PLUMB_PT_bar].y + bar.y, -1.0,
                            position);
    if (squat) { /* the bar lies on the thorax: it slips with the hands */
        const double s = sin(pose.thorax_lean_rad);
        const double c = cos(pose.thorax_lean_rad);
        for (int i = PLUMB_PT_wrist; i <= PLUMB_PT_bar; i++) {
            position->point[i].x += bar.y * s - bar.x * c;
            position->point[i].y += bar.y * c + bar.x * s;
        }
    }
}

PlumbPose film_hips_up(const FilmLift *lift, double t_s, double up_m)
{
    PlumbPosition p;
    film_lift_at(lift, film_lift_begin_s(lift) + t_s, &p);
    const PlumbVec3 trunk = vec3_sub(p.point[PLUMB_PT_shoulder], p.point[PLUMB_PT_hip]);
    const double long_m = hypot(trunk.x, trunk.y);
    const double before = atan2(trunk.y, trunk.x);
    const double after = asin((trunk.y - up_m) / long_m);
    return (PlumbPose){long_m * (cos(before) - cos(after)), up_m, before - after};
}

PlumbPose film_hips_low(const FilmLift *lift, double down_m)
{
    PlumbSetup setup = lift->answer.setup;
    PlumbAnswer answer;
    const PlumbPose from = lift->answer.start.pose;
    plumb_setup_set(&setup, PLUMB_SET_hip_height, from.hip_height_m - down_m);
    setup.hip_height_relative = false;
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    plumb_answer_quick(&lift->lifter, &setup, &answer);
    if (answer.outcome == PLUMB_NO_POSE) {
        fprintf(stderr, "no start with hips so low\n");
        exit(1);
    }
    const PlumbPose to = answer.start.pose;
    return (PlumbPose){to.hip_x_m - from.hip_x_m, to.hip_height_m - from.hip_height_m,
                       to.thorax_lean_rad - from.thorax_lean_rad};
}

/* ---- the truth */

enum { SAMPLES = 3001 };

static const double moves_m = 0.005; /* what counts as a motion */
static const double first_m = 0.05;

/* A motion as figures over time. */
typedef struct Course {
    double time[SAMPLES];
    PlumbVec2 bar[SAMPLES];
    PlumbVec2 knee[SAMPLES];
    double hip[SAMPLES];
    double back[SAMPLES];
    double slip[SAMPLES];
    double spread[SAMPLES];
    double shin[SAMPLES];
    int from; /* the way up: lift-off or turn, */
    int to;   /* lockout */
} Course;

static void sample(const FilmScene *scene, Course *c)
{
    for (int i = 0; i < SAMPLES; i++) {
        PlumbPosition p;
        c->time[i] = scene->length_s * i / (SAMPLES - 1);
        scene->at(scene->motion, c->time[i], &p);
        const PlumbVec3 bar = p.point[PLUMB_PT_bar];
        const PlumbVec3 knee = p.point[PLUMB_PT_knee];
        const PlumbVec3 ankle = p.point[PLUMB_PT_ankle];
        const PlumbVec3 shoulder = p.point[PLUMB_PT_shoulder];
        const double lean = p.pose.thorax_lean_rad;
        c->bar[i] = (PlumbVec2){bar.x, bar.y};
        c->knee[i] = (PlumbVec2){knee.x, knee.y};
        c->hip[i] = p.pose.hip_height_m;
        c->back[i] = p.angle_rad[PLUMB_ANG_back];
        c->slip[i] = (bar.x - shoulder.x) * sin(lean) + (bar.y - shoulder.y) * cos(lean);
        c->spread[i] = knee.z / ankle.z;
        c->shin[i] = atan2(knee.z - ankle.z, knee.y - ankle.y);
    }
}

static double bar_up(const Course *c, int i)
{
    return c->bar[i].y - c->bar[c->from].y;
}

/* Where the way up begins and ends; of a pull the bar is up by 5 mm where it begins. */
static void find_way_up(Course *c, bool squat)
{
    int top = 0;
    c->from = 0;
    for (int i = 0; i < SAMPLES; i++) {
        c->from = squat && c->bar[i].y < c->bar[c->from].y ? i : c->from;
    }
    for (int i = c->from; i < SAMPLES; i++) {
        top = c->bar[i].y > c->bar[top].y || i == c->from ? i : top;
    }
    while (!squat && c->bar[c->from].y < c->bar[0].y + moves_m) {
        c->from++;
    }
    c->to = c->from;
    while (c->bar[c->to].y < c->bar[top].y - moves_m) {
        c->to++;
    }
}

/* First sample at which the hip is 5 mm above its lowest place within half a second of lift-off. */
static int hip_moves(const Course *c)
{
    int low = c->from;
    for (int i = c->from; i >= 0 && c->time[i] > c->time[c->from] - 0.5; i--) {
        low = c->hip[i] <= c->hip[low] ? i : low;
    }
    int i = low;
    while (c->hip[i] < c->hip[low] + moves_m) {
        i++;
    }
    return i;
}

/* Of the knees' spread at the height of a sample of the way up, what is usual there: that of the
 * way down, or, where a lift has none, of the straight line between its ends. */
static double usual_spread(const Course *c, int i, bool squat)
{
    if (!squat) {
        const double share = bar_up(c, i) / bar_up(c, c->to);
        return c->spread[c->from] + share * (c->spread[c->to] - c->spread[c->from]);
    }
    int k = c->from;
    while (k > 0 && c->bar[k].y < c->bar[i].y) {
        k--;
    }
    return c->spread[k];
}

static double range(const double *x, int from, int to)
{
    double low = x[from];
    double high = x[from];
    for (int i = from; i <= to; i++) {
        low = fmin(low, x[i]);
        high = fmax(high, x[i]);
    }
    return high - low;
}

static void from_front(const Course *c, bool squat, double *figure)
{
    double in = 0.0;
    double lean = -(double)INFINITY;
    for (int i = c->from; i <= c->to; i++) {
        in = fmax(in, usual_spread(c, i, squat) - c->spread[i]);
        lean = bar_up(c, i) < 0.1 * bar_up(c, c->to) ? fmax(lean, -c->shin[i]) : lean;
    }
    figure[PLUMB_FILM_knee_spread_limit] = in;
    figure[PLUMB_FILM_shin_in_limit] = lean;
}

static void from_side(const Course *c, bool squat, double *figure)
{
    double ahead = -(double)INFINITY;
    double behind = (double)INFINITY;
    double least = c->back[c->from];
    bool passed = false;
    int first = c->from;
    for (int i = c->from; i <= c->to; i++) {
        ahead = fmax(ahead, c->bar[i].x);
        behind = fmin(behind, c->bar[i].x);
        passed = passed || (!squat && c->bar[i].y > c->knee[i].y);
        least = passed ? least : fmin(least, c->back[i]);
    }
    const double way = squat ? first_m : first_m - moves_m;
    while (bar_up(c, first) < way) {
        first++;
    }
    figure[PLUMB_FILM_rise_ratio_limit] = (c->hip[first] - c->hip[c->from]) / bar_up(c, first);
    figure[PLUMB_FILM_back_drop_limit] = c->back[c->from] - least;
    figure[PLUMB_FILM_bar_ahead_limit] = ahead;
    figure[PLUMB_FILM_path_width_limit] = ahead - behind;
    if (squat) {
        figure[PLUMB_FILM_slip_limit] = range(c->slip, 0, SAMPLES - 1);
    } else {
        const int moves = hip_moves(c);
        figure[PLUMB_FILM_hips_first_limit] = c->hip[c->from] - c->hip[moves] + moves_m;
        figure[PLUMB_FILM_knees_back_limit] = c->knee[moves].x - c->knee[c->from].x;
    }
}

void film_truth(const FilmScene *scene, const FilmLift *lift, FilmTruth *truth)
{
    static Course course;
    const bool squat = lift->answer.setup.lift == PLUMB_SQUAT;
    for (int i = 0; i < PLUMB_FILM_LIMIT_COUNT; i++) {
        truth->figure[i] = (double)NAN;
    }
    sample(scene, &course);
    find_way_up(&course, squat);
    truth->begin_s = course.time[course.from];
    if (film_from_front(scene)) {
        from_front(&course, squat, truth->figure);
        return;
    }
    from_side(&course, squat, truth->figure);
    if (squat) {
        PlumbPosition p;
        scene->at(scene->motion, truth->begin_s, &p);
        truth->figure[PLUMB_FILM_depth_limit] =
            plumb_reading_value(PLUMB_READ_depth, &lift->lifter, &lift->answer.setup, &p);
    }
}
