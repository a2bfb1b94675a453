/* SPDX-License-Identifier: MIT */
/* Help texts, made from the tables of commands, options, settings and measures. */
#ifndef PLUMBAR_CLI_HELP_H
#define PLUMBAR_CLI_HELP_H

#include "args.h"
#include "output.h"

/* The whole program: commands and common options. */
void plumb_help_program(PlumbCliOutput *out);
/* One command: use, options, keys, an example. */
void plumb_help_command(const PlumbCliCommand *command, PlumbCliOutput *out);

#endif
