/* SPDX-License-Identifier: MIT */
/* Bench presses read from rendered films whose truth is known. */
#include "film_press_read.h"
#include "support.h"

static FilmRead film;

static void look(double yaw_rad, const FilmPressFault *fault)
{
    const FilmPress press = film_press(fault);
    FilmScene scene = film_press_scene(&press, yaw_rad);
    PlumbError error;
    film_press_follow(&film, &scene, &press, 0.5);
    const double px_per_m = scene.camera.focal_px / scene.camera.distance_m;
    if (film_fit(&film, &press.lifter, &press.answer.setup, fmax(0.5 / px_per_m, 0.005), &error) !=
        PLUMB_OK) {
        printf("%s: %s\n", error.field, error.message);
        film_read_free(&film);
        return;
    }
    FilmPressTruth t;
    film_press_truth(&scene, &press.lifter.body, 0.03, &t);
    printf("TRUTH touch %.3f off %.3f lock %.3f touch_m %.4f lockout_m %.4f turn %.3f at %.2f fore %.3f below %.3f\n",
           t.touch_s, t.off_s, t.lockout_s, t.touch_m, t.lockout_m, t.turn_rad, t.turn_frac,
           t.forearm_rad, t.elbow_below_m);
    const PlumbSeries *const s = &film.series;
    printf("yaw %.0f: misfit %.2f unknown %d/%d keys %d slide %.4f noise bar %.4f arm %.2f deg\n",
           yaw_rad * 57.2958, s->misfit, s->unknown_count, s->frame_count, s->key_count, s->slide_m,
           s->bar_noise_m, s->angle_noise_rad * 57.2958);
    for (int e = 0; e < PLUMB_EVENT_COUNT; e++) {
        printf("  %s %.3f", plumb_event_name((PlumbEvent)e), s->event_s[e]);
    }
    printf("  truth begin %.3f end %.3f\n", film_press_begin_s(&press), film_press_end_s(&press));
    printf("  cam D %.2f along %.3f h %.2f yaw %.2f pitch %.2f roll %.2f conv %d; true D %.2f h %.2f pitch %.2f\n", s->trace.still[0].camera.distance_m, s->trace.still[0].camera.along_m, s->trace.still[0].camera.height_m, s->trace.still[0].camera.yaw_rad*57.3, s->trace.still[0].camera.pitch_rad*57.3, s->trace.still[0].camera.roll_rad*57.3, s->trace.converged, scene.camera.distance_m, scene.camera.height_m, scene.camera.pitch_rad*57.3);
    for (int k = 0; k < s->key_count; k++) {
        const PlumbTraced *q = &s->trace.still[k];
        PlumbPosition p;
        film_press_at(&press, s->frame[s->key[k]].time_s, &p);
        printf("  key %d misfit %.2f marks %d bar x %.3f (%.3f) above %.3f (%.3f) arm %.1f (%.1f) sd %.1f swing %.1f\n", s->key[k], q->misfit, q->mark_count, q->value[PLUMB_READ_bar_from_shoulder], p.point[PLUMB_PT_bar].x-p.point[PLUMB_PT_shoulder].x,q->value[PLUMB_READ_bar_above_shoulder], p.point[PLUMB_PT_bar].y-p.point[PLUMB_PT_shoulder].y, q->value[PLUMB_READ_upper_arm]*57.3, film_press_abduction(&p)*57.3, q->sd[PLUMB_READ_upper_arm]*57.3, q->position.pose.thorax_lean_rad*57.3);
    }
    printf("  upper %.3f (%.3f) fore %.3f (%.3f) spacing %.3f (%.3f) grip %.3f (%.3f)\n", s->trace.lifter.body.upper_arm_m, press.lifter.body.upper_arm_m, s->trace.lifter.body.forearm_m, press.lifter.body.forearm_m, s->trace.lifter.body.shoulder_joint_spacing_m, press.lifter.body.shoulder_joint_spacing_m, s->trace.still[0].setup.grip_m, press.answer.setup.grip_m);
    double path = 0.0;
    double arm = 0.0;
    int count = 0;
    for (int i = 0; i < s->frame_count; i++) {
        PlumbPosition p;
        film_press_at(&press, s->frame[i].time_s, &p);
        const double a = film_press_abduction(&p);
        const PlumbVec3 b = vec3_sub(p.point[PLUMB_PT_bar], p.point[PLUMB_PT_shoulder]);
        const double dx = s->frame[i].value[PLUMB_READ_bar_from_shoulder] - b.x;
        const double dy = s->frame[i].value[PLUMB_READ_bar_above_shoulder] - b.y;
        path = fmax(path, hypot(dx, dy));
        arm = fmax(arm, fabs(s->frame[i].value[PLUMB_READ_upper_arm] - a));
        count++;
        if (i % 6 == 0 && getenv("V") != NULL) {
            printf("   t %.2f known %d elbow %d dx %.1f dy %.1f mm arm %.1f truth %.1f\n",
                   s->frame[i].time_s, s->frame[i].known, s->frame[i].elbow_seen, 1000 * dx,
                   1000 * dy, s->frame[i].value[PLUMB_READ_upper_arm] * 57.2958, a * 57.2958);
        }
    }
    printf("  worst path %.1f mm, arm %.1f deg\n", 1000 * path, arm * 57.2958);
    double limit[PLUMB_FILM_LIMIT_COUNT];
    PlumbFilmFinding f[PLUMB_FILM_LIMIT_COUNT];
    plumb_film_limits_default(PLUMB_BENCH, limit);
    const int n = plumb_film_findings(s, limit, f);
    for (int i = 0; i < n; i++) {
        printf("  %-20s %8.4f sd %.4f verdict %d frame %d\n", plumb_film_limit_name(f[i].limit),
               f[i].what.value, f[i].sd, (int)f[i].verdict, f[i].frame);
    }
    film_read_free(&film);
}

int main(void)
{
    const FilmPressFault none = {0};
    look(FILM_PRESS_RIGHT_RAD, &none);
    look(FILM_PRESS_HEAD_RAD, &none);
    look(FILM_PRESS_FEET_RAD, &none);
    const FilmPressFault jump = {.jump_rad = 0.35, .jump_from_m = 0.03, .jump_over_m = 0.02};
    look(FILM_PRESS_HEAD_RAD, &jump);
    const FilmPressFault high = {.touch_m = -0.08};
    look(FILM_PRESS_RIGHT_RAD, &high);
    return 0;
}
