/* SPDX-License-Identifier: MIT */
/* plumbar path --time: the way up in motion. */
#ifndef PLUMBAR_CLI_MOTION_OUT_H
#define PLUMBAR_CLI_MOTION_OUT_H

#include "request.h"

/* Solves the request, lets it move over its rep_time, and prints what args ask for. */
PlumbCliExit plumb_cli_motion(const PlumbCliArgs *args, const PlumbCliRequest *request,
                              PlumbCliFault *fault);

#endif
