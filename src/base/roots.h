/* SPDX-License-Identifier: MIT */
/* Root finding and minimising in one dimension, and small linear systems; nothing is allocated. */
#ifndef PLUMB_BASE_ROOTS_H
#define PLUMB_BASE_ROOTS_H

#include <stdbool.h>

/* A function of one number with what it needs. NaN says "undefined here". */
typedef double (*PlumbFunction)(double x, void *context);

/* Root of f between a and b, where f(a) = fa and f(b) = fb have opposite signs (or one is zero),
 * to |interval| <= tolerance by Brent's method (R. P. Brent 1973, Algorithms for Minimization
 * Without Derivatives, ch. 4). Where f becomes NaN inside, bisects towards a. */
double plumb_root_bracketed(PlumbFunction f, void *context, double a, double b, double fa,
                            double fb, double tolerance);

/* Place of the least f on [a, b] for a unimodal f, to |interval| <= tolerance, by golden section
 * with parabolic steps (Brent 1973, ch. 5). NaN counts as infinite. */
double plumb_least_bracketed(PlumbFunction f, void *context, double a, double b, double tolerance,
                             double *least);

enum { PLUMB_LINEAR_MAX = 6 };

/* Solves matrix x = rhs for count <= PLUMB_LINEAR_MAX unknowns by elimination with row pivots; x
 * replaces rhs. matrix is row by row, stride PLUMB_LINEAR_MAX, and is destroyed. False where it is
 * singular to working precision. */
bool plumb_linear_solve(int count, double matrix[][PLUMB_LINEAR_MAX], double *rhs);

#endif
