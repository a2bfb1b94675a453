/* SPDX-License-Identifier: MIT */
/* One change of a lifter file's text, kept only where the result reads and holds what it should. */
#ifndef PLUMBAR_IO_LIFTER_EDIT_H
#define PLUMBAR_IO_LIFTER_EDIT_H

#include "io/yaml_edit.h"

#include <plumbar/lifter_file.h>

/* Whether the changed file holds what was wanted. */
typedef bool (*PlumbEditCheck)(const PlumbLifterFile *next, const void *user);

/* Makes the change and reads the result; *file is as before where it does not read, or where check
 * (NULL: none) says that it does not hold what it should: PLUMB_UNSUPPORTED at `field`. */
PlumbStatus plumb_edit_apply(PlumbLifterFile *file, const PlumbYamlChange *change,
                             PlumbEditCheck check, const void *user, const char *field,
                             PlumbError *error);

#endif
