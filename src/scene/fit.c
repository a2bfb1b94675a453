/* SPDX-License-Identifier: MIT */
/* The orthographic projections from the model's space to paper, and back. */
#include <plumbar/scene.h>

#include <cglm/cam.h>
#include <cglm/mat4.h>

static const double MM_PER_M = 1000.0;

/* A camera far out on one axis that looks at the origin, y up: x to the right of the side view is
 * the model's x, x to the right of the front view is the lifter's left. The box of the projection
 * is one metre either way, so that its units are metres. */
static PlumbVec2 project(const float eye_m[3], PlumbVec3 point_m)
{
    vec3 eye = {eye_m[0], eye_m[1], eye_m[2]};
    vec3 centre = {0.0f, 0.0f, 0.0f};
    vec3 up = {0.0f, 1.0f, 0.0f};
    mat4 view;
    mat4 box;
    mat4 camera;
    glm_lookat(eye, centre, up, view);
    glm_ortho(-1.0f, 1.0f, -1.0f, 1.0f, 0.0f, 20.0f, box);
    glm_mat4_mul(box, view, camera);
    vec4 point = {(float)point_m.x, (float)point_m.y, (float)point_m.z, 1.0f};
    vec4 seen;
    glm_mat4_mulv(camera, point, seen);
    return (PlumbVec2){(double)seen[0], (double)seen[1]};
}

static PlumbVec2 to_paper(PlumbVec2 origin_mm, double scale_n, PlumbVec2 seen_m)
{
    const double mm = MM_PER_M / scale_n;
    return (PlumbVec2){origin_mm.x + mm * seen_m.x, origin_mm.y - mm * seen_m.y};
}

PlumbVec2 plumb_fit_side(const PlumbFit *fit, PlumbVec3 point_m)
{
    static const float EYE_M[3] = {0.0f, 0.0f, 10.0f};
    return to_paper(fit->side_origin_mm, fit->scale_n, project(EYE_M, point_m));
}

PlumbVec2 plumb_fit_front(const PlumbFit *fit, PlumbVec3 point_m)
{
    static const float EYE_M[3] = {10.0f, 0.0f, 0.0f};
    return to_paper(fit->front_origin_mm, fit->scale_n, project(EYE_M, point_m));
}

PlumbVec3 plumb_fit_side_back(const PlumbFit *fit, PlumbVec2 at_mm)
{
    const double m = fit->scale_n / MM_PER_M;
    return (PlumbVec3){m * (at_mm.x - fit->side_origin_mm.x), m * (fit->side_origin_mm.y - at_mm.y),
                       0.0};
}

PlumbVec3 plumb_fit_front_back(const PlumbFit *fit, PlumbVec2 at_mm)
{
    const double m = fit->scale_n / MM_PER_M;
    return (PlumbVec3){0.0, m * (fit->front_origin_mm.y - at_mm.y),
                       m * (fit->front_origin_mm.x - at_mm.x)};
}
