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
FIGURE(bar_from, value[PLUMB_READ_bar_from_shoulder])
FIGURE(bar_above, value[PLUMB_READ_bar_above_shoulder])
FIGURE(upper_arm, value[PLUMB_READ_upper_arm])
FIGURE(elbow_flexion, value[PLUMB_READ_elbow_flexion])
FIGURE(forearm_front, value[PLUMB_READ_forearm_front])
FIGURE(forearm_side, value[PLUMB_READ_forearm_side])
FIGURE(elbow_off_bar, value[PLUMB_READ_elbow_off_bar])
FIGURE(elbow_off_hand, value[PLUMB_READ_elbow_off_hand])
FIGURE(elbow_below_rule, value[PLUMB_READ_elbow_below_rule])
#undef FIGURE

static double known(const PlumbSeriesFrame *frame)
{
    return frame->known ? 1.0 : 0.0;
}

static double elbow_seen(const PlumbSeriesFrame *frame)
{
    return frame->elbow_seen ? 1.0 : 0.0;
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

static const Column press[] = {
    {"known", known},
    {"misfit", misfit},
    {"elbow_seen", elbow_seen},
    {"bar_height_m", bar_height},
    {"bar_speed_m_s", bar_speed},
    {"bar_above_shoulder_m", bar_above},
    {"upper_arm_rad", upper_arm},
    {"elbow_flexion_rad", elbow_flexion},
    {"elbow_below_rule_m", elbow_below_rule},
    {"elbow_off_bar_m", elbow_off_bar},
    {"bar_from_shoulder_m", bar_from},
    {"forearm_side_rad", forearm_side},
};

static const Column press_end[] = {
    {"known", known},
    {"misfit", misfit},
    {"elbow_seen", elbow_seen},
    {"bar_height_m", bar_height},
    {"bar_speed_m_s", bar_speed},
    {"bar_above_shoulder_m", bar_above},
    {"upper_arm_rad", upper_arm},
    {"elbow_flexion_rad", elbow_flexion},
    {"elbow_below_rule_m", elbow_below_rule},
    {"elbow_off_bar_m", elbow_off_bar},
    {"elbow_off_hand_m", elbow_off_hand},
    {"forearm_front_rad", forearm_front},
};

/* Those of the lift and the view. */
static const Column *columns_of(const PlumbSeries *series, int *count)
{
    const bool lying = series->lift == PLUMB_BENCH;
    *count = (int)(lying           ? sizeof press / sizeof press[0]
                   : series->front ? sizeof front / sizeof front[0]
                                   : sizeof side / sizeof side[0]);
    return lying ? (series->end_view ? press_end : press) : series->front ? front : side;
}

int plumb_film_columns(const PlumbSeries *series)
{
    int count;
    columns_of(series, &count);
    return count;
}

const char *plumb_film_column_name(const PlumbSeries *series, int column)
{
    int count;
    return columns_of(series, &count)[column].name;
}

double plumb_film_column_value(const PlumbSeries *series, int column, int frame)
{
    int count;
    return columns_of(series, &count)[column].figure(&series->frame[frame]);
}
