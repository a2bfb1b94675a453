/* SPDX-License-Identifier: MIT */
/* What a film of a press must tell, from its motion alone. */
#include "film_press.h"

#include "base/vec.h"

enum { SAMPLES = 6001 };

static const double moves_m = 0.005; /* what counts as a motion */
static const double same_m = 1e-9;

/* A motion as figures over time. */
typedef struct Course {
    double time[SAMPLES];
    double bar[SAMPLES]; /* height */
    double turn[SAMPLES];
    int low;  /* the touch: the middle of the lowest samples, */
    int from; /* the last of them, */
    int top;  /* the first of the highest after them */
} Course;

static void sample(const FilmScene *scene, Course *c)
{
    for (int i = 0; i < SAMPLES; i++) {
        PlumbPosition p;
        c->time[i] = scene->length_s * i / (SAMPLES - 1);
        scene->at(scene->motion, c->time[i], &p);
        c->bar[i] = p.point[PLUMB_PT_bar].y;
        c->turn[i] = film_press_abduction(&p);
    }
}

static void find_way_up(Course *c)
{
    int first = 0;
    for (int i = 0; i < SAMPLES; i++) {
        first = c->bar[i] < c->bar[first] - same_m ? i : first;
    }
    c->from = first;
    while (c->from + 1 < SAMPLES && c->bar[c->from + 1] <= c->bar[first] + same_m) {
        c->from++;
    }
    c->low = (first + c->from) / 2;
    c->top = c->from;
    for (int i = c->from; i < SAMPLES; i++) {
        c->top = c->bar[i] > c->bar[c->top] + same_m ? i : c->top;
    }
}

/* The time at which the bar, on its way up, passes a height. */
static double passes(const Course *c, double height_m)
{
    int i = c->from;
    while (i < c->top && c->bar[i] < height_m) {
        i++;
    }
    if (i == c->from) {
        return c->time[i];
    }
    const double share = (height_m - c->bar[i - 1]) / (c->bar[i] - c->bar[i - 1]);
    return c->time[i - 1] + share * (c->time[i] - c->time[i - 1]);
}

/* From every sample of the way up on, over just so much rise. */
static void find_turn(const Course *c, double within_m, FilmPressTruth *truth)
{
    int end = c->from;
    truth->turn_rad = 0.0;
    truth->turn_frac = 0.0;
    for (int i = c->from; i <= c->top; i++) {
        const double height = c->bar[i] + within_m;
        while (end <= c->top && c->bar[end] < height) {
            end++;
        }
        if (end > c->top) {
            return;
        }
        const double share = (height - c->bar[end - 1]) / (c->bar[end] - c->bar[end - 1]);
        const double turn =
            c->turn[end - 1] + share * (c->turn[end] - c->turn[end - 1]) - c->turn[i];
        if (fabs(turn) > fabs(truth->turn_rad)) {
            truth->turn_rad = turn;
            truth->turn_frac = (c->bar[i] - c->bar[c->from]) / truth->rise_m;
        }
    }
}

void film_press_truth(const FilmScene *scene, const PlumbBody *body, double rise_within_m,
                      FilmPressTruth *truth)
{
    static Course course;
    PlumbPosition touch;
    PlumbPosition lockout;
    sample(scene, &course);
    find_way_up(&course);
    scene->at(scene->motion, course.time[course.low], &touch);
    scene->at(scene->motion, course.time[course.top], &lockout);
    const PlumbVec3 shoulder = touch.point[PLUMB_PT_shoulder];
    const PlumbVec3 elbow = touch.point[PLUMB_PT_elbow];
    const PlumbVec3 fore = vec3_sub(touch.point[PLUMB_PT_grip], elbow);
    const double low_m = course.bar[course.low];
    const double top_m = course.bar[course.top];
    truth->touch_s = course.time[course.low];
    truth->off_s = passes(&course, low_m + moves_m);
    truth->lockout_s = passes(&course, top_m - moves_m);
    truth->rise_m = top_m - low_m;
    truth->touch_m = touch.point[PLUMB_PT_bar].x - shoulder.x;
    truth->lockout_m = lockout.point[PLUMB_PT_bar].x - lockout.point[PLUMB_PT_shoulder].x;
    truth->touch_abduction_rad = course.turn[course.low];
    truth->lockout_abduction_rad = course.turn[course.top];
    truth->forearm_rad = atan2(fore.z, fore.y);
    truth->elbow_below_m =
        shoulder.y + body->shoulder_top_above_joint_m - elbow.y + body->elbow_half_thickness_m;
    find_turn(&course, rise_within_m, truth);
}
