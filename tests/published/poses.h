/* SPDX-License-Identifier: MIT */
/* Squats whose legs stand as a study describes them, in balance as the set-up says. */
#ifndef PLUMBAR_TESTS_PUBLISHED_POSES_H
#define PLUMBAR_TESTS_PUBLISHED_POSES_H

#include <plumbar/plumbar.h>

/* The squat with this shin (from upright) and thigh (above level, hip above knee); false where
 * there is none, *position is then of no use. */
bool legs_given(const PlumbLifter *lifter, const PlumbSetup *setup, double shin_rad,
                double thigh_rad, PlumbPosition *position);

/* The squat whose knee stands on the vertical through the toes and that meets a third constraint:
 * depth or knee bend. */
bool knee_at_toes(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbConstraint third,
                  PlumbPosition *position);

#endif
