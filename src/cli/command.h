/* SPDX-License-Identifier: MIT */
/* The functions that run each command; rows of the table in commands.c. */
#ifndef PLUMBAR_CLI_COMMAND_H
#define PLUMBAR_CLI_COMMAND_H

#include "args.h"
#include "output.h"

PlumbCliExit plumb_cli_new(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_body(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_setup(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_path(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_vary(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_effects(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_try(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_compare(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_styles(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_draw(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_population(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_handout(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_share(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_sources(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_explain(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_log(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_trace(const PlumbCliArgs *args, PlumbCliFault *fault);
PlumbCliExit plumb_cli_view(const PlumbCliArgs *args, PlumbCliFault *fault);

/* Closes the output: `answered` where all was written, else the exit code of the failure. */
PlumbCliExit plumb_cli_finish(PlumbCliOutput *out, PlumbCliExit answered, PlumbCliFault *fault);

#endif
