/* SPDX-License-Identifier: MIT */
/* Figures on an axis, and round steps. */
#include "scene/axis.h"

#include <math.h>

double plumb_chart_place(const PlumbChartAxis *axis, double value)
{
    return axis->from_mm +
           (value - axis->low) / (axis->high - axis->low) * (axis->to_mm - axis->from_mm);
}

double plumb_chart_step(const PlumbChartAxis *axis, int wanted, int *decimals)
{
    const double rough = (axis->high - axis->low) / wanted;
    const double power = floor(log10(rough));
    const double ten = pow(10.0, power);
    const double lead = rough / ten;
    const double step = lead < 1.5 ? 1.0 : lead < 3.5 ? 2.0 : lead < 7.5 ? 5.0 : 10.0;
    *decimals = (int)fmin(fmax(0.0, step < 10.0 ? -power : -power - 1.0), 9.0);
    return step * ten;
}
