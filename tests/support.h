/* SPDX-License-Identifier: MIT */
/* The one include of every test: cmocka with what it needs, and comparisons of doubles. */
#ifndef PLUMBAR_TESTS_SUPPORT_H
#define PLUMBAR_TESTS_SUPPORT_H

/* clang-format off: cmocka.h needs these first */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>
/* clang-format on */

#include <math.h>
#include <stdio.h>

/* Fails where |got - want| > tolerance or either is not finite; prints both to 17 digits. */
#define assert_near(got, want, tolerance)                                                          \
    support_assert_near((got), (want), (tolerance), #got, __FILE__, __LINE__)

static inline void support_assert_near(double got, double want, double tolerance, const char *what,
                                       const char *file, int line)
{
    if (!(fabs(got - want) <= tolerance)) {
        print_error("%s: %.17g, expected %.17g within %g\n", what, got, want, tolerance);
        _fail(file, line);
    }
}

#endif
