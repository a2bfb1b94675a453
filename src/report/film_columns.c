/* SPDX-License-Identifier: MIT */
/* The figures of a film's frames as columns of a table. */
#include <plumbar/film_reading.h>

typedef double (*Figure)(const PlumbSeriesFrame *frame);

#define FIGURE(name, place)                                                                        \
    static double name(const PlumbSeriesFrame *frame)                                              \
    {                                                                                              \
        return frame->place;                                                                       \
    }
FIGURE(misfit, misfit)
FIGURE(bar_x, bar_m.x)
FIGURE(bar_height, bar_m.y)
FIGURE(bar_speed, bar_speed_m_s)
FIGURE(hip_x, pose.hip_x_m)
FIGURE(hip_height, pose.hip_height_m)
FIGURE(hip_speed, hip_speed_m_s)
FIGURE(knee_x, knee_x_m)
FIGURE(knee_height, knee_height_m)
FIGURE(balance, value[PLUMB_READ_balance])
FIGURE(shoulder_ahead, value[PLUMB_READ_shoulder_ahead])
FIGURE(depth, value[PLUMB_READ_depth])
FIGURE(back, value[PLUMB_ANG_back])
FIGURE(thorax, value[PLUMB_ANG_thorax])
FIGURE(shin, value[PLUMB_ANG_shin])
FIGURE(thigh, value[PLUMB_ANG_thigh])
FIGURE(knee_flexion, value[PLUMB_ANG_knee_flexion])
FIGURE(hip_flexion, value[PLUMB_ANG_hip_flexion])
FIGURE(hip_arm, value[PLUMB_READ_hip_arm])
FIGURE(knee_spread, spread_frac)
FIGURE(shin_lean, shin_rad)
FIGURE(rise, rise_px)
#undef FIGURE

static double known(const PlumbSeriesFrame *frame)
{
    return frame->known ? 1.0 : 0.0;
}

typedef struct Column {
    const char *name;
    Figure figure;
} Column;

static const Column side[] = {
    {"known", known},
    {"misfit", misfit},
    {"bar_x_m", bar_x},
    {"bar_height_m", bar_height},
    {"bar_speed_m_s", bar_speed},
    {"hip_x_m", hip_x},
    {"hip_height_m", hip_height},
    {"hip_speed_m_s", hip_speed},
    {"knee_x_m", knee_x},
    {"knee_height_m", knee_height},
    {"balance_frac", balance},
    {"shoulder_ahead_m", shoulder_ahead},
    {"depth_m", depth},
    {"back_rad", back},
    {"thorax_rad", thorax},
    {"shin_rad", shin},
    {"thigh_rad", thigh},
    {"knee_flexion_rad", knee_flexion},
    {"hip_flexion_rad", hip_flexion},
    {"hip_arm_m", hip_arm},
};

static const Column front[] = {
    {"known", known},
    {"knee_spread_frac", knee_spread},
    {"shin_rad", shin_lean},
    {"rise_px", rise},
};

int plumb_film_columns(const PlumbSeries *series)
{
    return series->front ? (int)(sizeof front / sizeof front[0])
                         : (int)(sizeof side / sizeof side[0]);
}

const char *plumb_film_column_name(const PlumbSeries *series, int column)
{
    return series->front ? front[column].name : side[column].name;
}

double plumb_film_column_value(const PlumbSeries *series, int column, int frame)
{
    const Column *const of = series->front ? front : side;
    return of[column].figure(&series->frame[frame]);
}
