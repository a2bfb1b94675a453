/* SPDX-License-Identifier: MIT */
/* Root finding and minimising in one dimension, and small linear systems. */
#include "base/roots.h"

#include <float.h>
#include <math.h>

/* Next point of Brent's method between b (best) and c (other side): inverse quadratic or secant
 * where it falls well inside, else the middle. e is the step before last. */
static double root_step(double a, double b, double c, double fa, double fb, double fc, double tol,
                        double *d, double *e)
{
    const double half = 0.5 * (c - b);
    if (fabs(*e) < tol || fabs(fa) <= fabs(fb)) {
        *d = *e = half;
        return *d;
    }
    const double s = fb / fa;
    double p;
    double q;
    if (a == c) {
        p = 2.0 * half * s;
        q = 1.0 - s;
    } else {
        const double t = fa / fc;
        const double r = fb / fc;
        p = s * (2.0 * half * t * (t - r) - (b - a) * (r - 1.0));
        q = (t - 1.0) * (r - 1.0) * (s - 1.0);
    }
    q = p > 0.0 ? -q : q;
    p = fabs(p);
    if (2.0 * p < fmin(3.0 * half * q - fabs(tol * q), fabs(*e * q))) {
        *e = *d;
        *d = p / q;
    } else {
        *d = *e = half;
    }
    return *d;
}

/* f is undefined between a and b: closes in on the end of its domain next to a. */
static double domain_end(PlumbFunction f, void *context, double a, double b, double tolerance)
{
    for (int i = 0; i < 200 && fabs(b - a) > tolerance; i++) {
        const double middle = 0.5 * (a + b);
        if (isnan(f(middle, context))) {
            b = middle;
        } else {
            a = middle;
        }
    }
    return a;
}

double plumb_root_bracketed(PlumbFunction f, void *context, double a, double b, double fa,
                            double fb, double tolerance)
{
    const double start = a;
    double c = a;
    double fc = fa;
    double d = b - a;
    double e = d;
    for (int i = 0; i < 100; i++) {
        if (fabs(fc) < fabs(fb)) {
            a = b, b = c, c = a;
            fa = fb, fb = fc, fc = fa;
        }
        const double tol = 2.0 * DBL_EPSILON * fabs(b) + 0.5 * tolerance;
        if (fabs(c - b) <= 2.0 * tol || fb == 0.0) {
            return b;
        }
        const double step = root_step(a, b, c, fa, fb, fc, tol, &d, &e);
        a = b;
        fa = fb;
        b += fabs(step) > tol ? step : copysign(tol, c - b);
        fb = f(b, context);
        if (isnan(fb)) {
            return domain_end(f, context, start, b, tolerance);
        }
        if ((fb > 0.0) == (fc > 0.0)) {
            c = a;
            fc = fa;
            d = e = b - a;
        }
    }
    return b;
}

static double value_or_infinite(PlumbFunction f, void *context, double x)
{
    const double value = f(x, context);
    return isnan(value) ? (double)INFINITY : value;
}

double plumb_least_bracketed(PlumbFunction f, void *context, double a, double b, double tolerance,
                             double *least)
{
    const double golden = 0.3819660112501051; /* (3 - sqrt 5) / 2 */
    double x = a + golden * (b - a);
    double w = x;
    double v = x;
    double fx = value_or_infinite(f, context, x);
    double fw = fx;
    double fv = fx;
    double d = 0.0;
    double e = 0.0;
    for (int i = 0; i < 100; i++) {
        const double middle = 0.5 * (a + b);
        const double tol = 0.25 * tolerance + 1e-12 * fabs(x);
        if (fabs(x - middle) <= 2.0 * tol - 0.5 * (b - a)) {
            break;
        }
        const double r = (x - w) * (fx - fv);
        double q = (x - v) * (fx - fw);
        double p = (x - v) * q - (x - w) * r;
        q = 2.0 * (q - r);
        p = q > 0.0 ? -p : p;
        q = fabs(q);
        const bool parabola = isfinite(p) && isfinite(q) && fabs(e) > tol &&
                              fabs(p) < fabs(0.5 * q * e) && p > q * (a - x) && p < q * (b - x);
        e = parabola ? d : (x < middle ? b - x : a - x);
        d = parabola ? p / q : golden * e;
        const double u = x + (fabs(d) >= tol ? d : copysign(tol, d));
        const double fu = value_or_infinite(f, context, u);
        if (fu <= fx) {
            *(u < x ? &b : &a) = x;
            v = w, fv = fw, w = x, fw = fx, x = u, fx = fu;
        } else {
            *(u < x ? &a : &b) = u;
            if (fu <= fw || w == x) {
                v = w, fv = fw, w = u, fw = fu;
            } else if (fu <= fv || v == x || v == w) {
                v = u, fv = fu;
            }
        }
    }
    *least = fx;
    return x;
}

bool plumb_linear_solve(int count, double matrix[][PLUMB_LINEAR_MAX], double *rhs)
{
    for (int k = 0; k < count; k++) {
        int pivot = k;
        for (int i = k + 1; i < count; i++) {
            pivot = fabs(matrix[i][k]) > fabs(matrix[pivot][k]) ? i : pivot;
        }
        if (!(fabs(matrix[pivot][k]) > 1e-14)) {
            return false;
        }
        if (pivot != k) {
            for (int j = k; j < count; j++) {
                const double swap = matrix[k][j];
                matrix[k][j] = matrix[pivot][j];
                matrix[pivot][j] = swap;
            }
            const double swap = rhs[k];
            rhs[k] = rhs[pivot];
            rhs[pivot] = swap;
        }
        const double inverse = 1.0 / matrix[k][k];
        for (int i = k + 1; i < count; i++) {
            const double factor = matrix[i][k] * inverse;
            for (int j = k + 1; j < count; j++) {
                matrix[i][j] -= factor * matrix[k][j];
            }
            rhs[i] -= factor * rhs[k];
        }
    }
    for (int i = count - 1; i >= 0; i--) {
        for (int j = i + 1; j < count; j++) {
            rhs[i] -= matrix[i][j] * rhs[j];
        }
        rhs[i] /= matrix[i][i];
    }
    return true;
}
