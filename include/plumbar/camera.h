/* SPDX-License-Identifier: MIT */
/* A pinhole camera: where a point of the model's space falls in a picture, and the ray of a mark.
 */
#ifndef PLUMBAR_CAMERA_H
#define PLUMBAR_CAMERA_H

#include <plumbar/vec.h>

/* The camera looks level along -z, the lifter's right side towards it, when all angles are zero.
 * At yaw 90 degrees it looks along -x, at the lifter's front. */
typedef struct PlumbCamera {
    double focal_px;   /* focal length in pixels */
    double distance_m; /* from the vertical axis that it is turned about to the lens, level */
    double along_m;    /* place of that axis: its x; from the front its z is 0 too */
    double height_m;   /* of the lens above the floor */
    double yaw_rad; /* positive: the camera stands ahead of the lifter's side and sees the chest */
    double pitch_rad;   /* positive: it looks down */
    double roll_rad;    /* positive: the picture's content is turned clockwise */
    double centre_x_px; /* where the optical axis meets the picture */
    double centre_y_px;
} PlumbCamera;

/* Pixels, x right, y down. depth_m (may be NULL) is the distance along the optical axis; a point
 * behind the lens is projected as if it stood 5 cm before it. */
PlumbVec2 plumb_camera_project(const PlumbCamera *camera, PlumbVec3 point_m, double *depth_m);

/* Where the ray of a pixel meets the plane of constant z; depth_m as above. */
PlumbVec3 plumb_camera_meet(const PlumbCamera *camera, PlumbVec2 pixel, double z_m,
                            double *depth_m);

#endif
