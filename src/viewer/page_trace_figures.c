/* SPDX-License-Identifier: MIT */
/* Which figures of a picture the Trace page lists, in which order, what it calls them, and from
 * which end of the bench it is seen. */
#include "page_trace.h"

#include <string.h>

/* In the order of importance; a lift and a view show their own. Without a name: as everywhere. */
static const struct {
    int reading;
    const char *name;
} ROWS[] = {
    {PLUMB_READ_bar_over, "bar off mid-foot"},
    {PLUMB_READ_bar_from_shoulder, "bar from shoulder"},
    {PLUMB_READ_upper_arm, "upper arm to trunk"},
    {PLUMB_READ_stance, NULL},
    {PLUMB_READ_balance, "balance"},
    {PLUMB_READ_grip, "grip"},
    {PLUMB_READ_elbow_off_bar, "elbow from under bar"},
    {PLUMB_READ_elbow_off_hand, "elbow outside hand"},
    {PLUMB_READ_forearm_side, "forearm, side"},
    {PLUMB_READ_forearm_front, "forearm, head end"},
    {PLUMB_READ_elbow_flexion, NULL},
    {PLUMB_READ_bar_above_shoulder, "bar above shoulder"},
    {PLUMB_READ_elbow_below_rule, "elbow below rule"},
    {PLUMB_READ_front_arm, "shoulder arm, head end"},
    {PLUMB_READ_elbow_arm, "elbow arm"},
    {PLUMB_READ_adduction_moment, "shoulder adduction"},
    {PLUMB_READ_flexion_moment, "shoulder flexion"},
    {PLUMB_READ_elbow_moment, "elbow extension"},
    {PLUMB_READ_shoulder_rotation, "shoulder turned out"},
    {PLUMB_ANG_back, NULL},
    {PLUMB_READ_hip_height, "hip height"},
    {PLUMB_ANG_shin, NULL},
    {PLUMB_READ_depth, "depth below the knee"},
    {PLUMB_READ_shoulder_ahead, NULL},
    {PLUMB_READ_hip_arm, "hip arm"},
    {PLUMB_READ_back_arm, "back arm"},
    {PLUMB_READ_knee_arm, "knee arm"},
    {PLUMB_ANG_thigh, NULL},
    {PLUMB_READ_leg_gap, NULL},
    {PLUMB_ANG_knee_flexion, NULL},
    {PLUMB_READ_spine, NULL},
    {PLUMB_READ_hip_moment, "hip moment"},
    {PLUMB_READ_back_moment, "back moment"},
    {PLUMB_READ_knee_moment, "knee moment"},
    {PLUMB_ANG_ankle_dorsiflexion, NULL},
    {PLUMB_READ_bar_height, NULL},
    {PLUMB_READ_ankle_arm, "ankle arm"},
    {PLUMB_READ_shoulder_arm, "shoulder arm"},
    {PLUMB_READ_ankle_moment, "ankle moment"},
    {PLUMB_READ_shoulder_moment, "shoulder moment"},
    {PLUMB_READ_knee_outside, "knee outside the ankle"},
    {PLUMB_ANG_frontal_shin, NULL},
};
_Static_assert(sizeof ROWS / sizeof ROWS[0] == PLUMB_TRACE_FIGURES, "as many as there is room for");

int plumb_trace_figures(const PlumbStills *stills, int still, int reading[PLUMB_TRACE_FIGURES])
{
    int count = 0;
    for (int i = 0; i < PLUMB_TRACE_FIGURES; i++) {
        if (plumb_stills_shows(stills, still, (PlumbReading)ROWS[i].reading)) {
            reading[count++] = ROWS[i].reading;
        }
    }
    return count;
}

const char *plumb_trace_end_words(const PlumbTraced *traced)
{
    if (traced->setup.lift != PLUMB_BENCH || !traced->front) {
        return "";
    }
    return strcmp(plumb_traced_view(traced), "head") == 0
               ? " It is seen from the head end, as right and left are marked."
               : " It is seen from the foot end, as right and left are marked.";
}

const char *plumb_trace_figure_name(int reading)
{
    for (int i = 0; i < PLUMB_TRACE_FIGURES; i++) {
        if (ROWS[i].reading == reading && ROWS[i].name != NULL) {
            return ROWS[i].name;
        }
    }
    return plumb_reading_text((PlumbReading)reading);
}
