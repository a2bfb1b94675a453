/* SPDX-License-Identifier: MIT */
/* A lifter's own start in words and as JSON, wherever it came from. */
#ifndef PLUMBAR_CLI_OWN_START_H
#define PLUMBAR_CLI_OWN_START_H

#include "json_out.h"
#include "output.h"

#include <plumbar/start.h>

/* The heading and where the start lies. */
void plumb_print_own_start(const PlumbOwnStart *own, PlumbUnits units, PlumbCliOutput *out);
/* The object `own_start` in json. */
void plumb_json_own_start(PlumbJson json, const PlumbOwnStart *own);

#endif
