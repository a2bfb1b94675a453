/* SPDX-License-Identifier: MIT */
/* The drawing in words, for who cannot see it. */
#ifndef PLUMBAR_SCENE_DESCRIBE_H
#define PLUMBAR_SCENE_DESCRIBE_H

#include <plumbar/scene.h>

/* Sets the scene's title and description. */
void plumb_scene_describe(PlumbScene *scene, const PlumbDrawing *drawing);

#endif
