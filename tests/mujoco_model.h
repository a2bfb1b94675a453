/* SPDX-License-Identifier: MIT */
/* A MuJoCo model from its text, and stored answers against the live ones. */
#ifndef PLUMBAR_TESTS_MUJOCO_MODEL_H
#define PLUMBAR_TESTS_MUJOCO_MODEL_H

#include "support.h"

#include "compare.h"

#include <mujoco/mujoco.h>

#include <stdlib.h>
#include <string.h>

/* The library's own way to read a model from memory; the caller deletes it. */
static inline mjModel *mujoco_load(const char *xml)
{
    static const char NAME[] = "model.xml";
    mjVFS *files = malloc(sizeof *files); /* large */
    assert_non_null(files);
    mj_defaultVFS(files);
    const size_t length = strlen(xml);
    assert_int_equal(mj_makeEmptyFileVFS(files, NAME, (int)length), 0);
    memcpy(files->filedata[mj_findFileVFS(files, NAME)], xml, length);
    char error[512] = "";
    mjModel *model = mj_loadXML(NAME, files, error, sizeof error);
    mj_deleteVFS(files);
    free(files);
    if (model == NULL) {
        fail_msg("%s", error);
    }
    return model;
}

/* The answers kept in a file of tests/data are those computed now, in the first columns. */
static inline void assert_stored(const char *path, int rows, int columns,
                                 double stored[][COMPARE_COLUMNS], double answer[][COMPARE_COLUMNS],
                                 double tolerance)
{
    assert_int_equal(compare_read(path, rows, stored), rows);
    for (int i = 0; i < rows; i++) {
        for (int k = 0; k < columns; k++) {
            assert_near(stored[i][k], answer[i][k], tolerance);
        }
    }
}

#endif
