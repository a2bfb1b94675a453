/* SPDX-License-Identifier: MIT */
/* Everything public of the library's floors 0 to 3 in one include. */
#ifndef PLUMBAR_PLUMBAR_H
#define PLUMBAR_PLUMBAR_H

#include <plumbar/body.h>
#include <plumbar/dynamics.h>
#include <plumbar/format.h>
#include <plumbar/lifter.h>
#include <plumbar/pose.h>
#include <plumbar/quantity.h>
#include <plumbar/setup.h>
#include <plumbar/solve.h>
#include <plumbar/sources.h>
#include <plumbar/status.h>
#include <plumbar/vec.h>

#endif
