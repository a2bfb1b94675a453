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
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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

/* PLUMB_LONG=1 in the environment asks for the long run, where a test has one. */
static inline bool is_long(void)
{
    const char *const asked = getenv("PLUMB_LONG");
    return asked != NULL && strcmp(asked, "1") == 0;
}

/* How many of so many random cases to run. PLUMB_CASES_FRAC=0.25 in the environment asks for a
 * quarter, where another run has them all; without it all are run. */
static inline int cases_of(int all)
{
    const char *const asked = getenv("PLUMB_CASES_FRAC");
    const double frac = asked != NULL ? strtod(asked, NULL) : 1.0;
    return frac > 0.0 && frac < 1.0 ? (int)ceil(frac * all) : all;
}

/* Whether case i of all (from 0) is one of the cases_of them, which lie evenly among all. */
static inline bool case_asked(int i, int all)
{
    const int asked = cases_of(all);
    return (i + 1) * asked / all > i * asked / all;
}

#endif
