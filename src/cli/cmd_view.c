/* SPDX-License-Identifier: MIT */
/* plumbar view: the window, where the program was built with it. */
#include "command.h"

PlumbCliExit plumb_cli_view(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    (void)args;
    return plumb_fault_exit(plumb_fault_set(
        fault, PLUMB_UNSUPPORTED, "view",
        "this program was built without the window; build it with -DPLUMB_VIEWER=ON and SDL2, or "
        "use plumbar draw"));
}
