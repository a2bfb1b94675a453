/* SPDX-License-Identifier: MIT */
/* The pinhole camera: projection, and the ray of a pixel against a plane.
 *
 * About the vertical axis at (along, 0): u = (x - along) cos a - z sin a to the picture's right,
 * w = (x - along) sin a + z cos a toward the camera, so that the level distance to the lens is
 * D - w; v = y - h upwards. Pitch t, looking down: depth = (D - w) cos t - v sin t,
 * up = v cos t + (D - w) sin t. Then (u, up) f / depth, turned by the roll. */
#include <plumbar/camera.h>

#include "base/vec.h"

#include <stddef.h>

static const double least_depth_m = 0.05;

PlumbVec2 plumb_camera_project(const PlumbCamera *camera, PlumbVec3 point_m, double *depth_m)
{
    const double x = point_m.x - camera->along_m;
    const double sa = sin(camera->yaw_rad);
    const double ca = cos(camera->yaw_rad);
    const double u = x * ca - point_m.z * sa;
    const double level = camera->distance_m - x * sa - point_m.z * ca;
    const double v = point_m.y - camera->height_m;
    const double st = sin(camera->pitch_rad);
    const double ct = cos(camera->pitch_rad);
    const double depth = fmax(level * ct - v * st, least_depth_m);
    const double right_px = camera->focal_px * u / depth;
    const double up_px = camera->focal_px * (v * ct + level * st) / depth;
    const double sr = sin(camera->roll_rad);
    const double cr = cos(camera->roll_rad);
    if (depth_m != NULL) {
        *depth_m = depth;
    }
    const PlumbVec2 pixel = {camera->centre_x_px + right_px * cr + up_px * sr,
                             camera->centre_y_px - up_px * cr + right_px * sr};
    return pixel;
}

PlumbVec3 plumb_camera_meet(const PlumbCamera *camera, PlumbVec2 pixel, double z_m, double *depth_m)
{
    const double dx = (pixel.x - camera->centre_x_px) / camera->focal_px;
    const double dy = (pixel.y - camera->centre_y_px) / camera->focal_px;
    const double sr = sin(camera->roll_rad);
    const double cr = cos(camera->roll_rad);
    const double right = dx * cr + dy * sr;
    const double up = dx * sr - dy * cr;
    const double st = sin(camera->pitch_rad);
    const double ct = cos(camera->pitch_rad);
    /* The ray's direction for one metre of depth: right, forward (level), up. */
    const double forward = ct + up * st;
    const double rise = up * ct - st;
    const double sa = sin(camera->yaw_rad);
    const double ca = cos(camera->yaw_rad);
    /* World: x = along + u cos a + w sin a, z = -u sin a + w cos a, w = D - forward s. */
    const double z_slope = -right * sa - forward * ca;
    const double s = (z_m - camera->distance_m * ca) / z_slope;
    const double u = right * s;
    const double w = camera->distance_m - forward * s;
    if (depth_m != NULL) {
        *depth_m = s;
    }
    return vec3(camera->along_m + u * ca + w * sa, camera->height_m + rise * s, z_m);
}
