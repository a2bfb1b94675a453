/* SPDX-License-Identifier: MIT */
/* plumbar path bench --time: the press in motion, in words, as JSON, as CSV. */
#include "command.h"
#include "motion_out.h"
#include "press_out.h"
#include "report.h"

#include <plumbar/press_motion.h>
#include <plumbar/scene.h>

enum { LINE_SIZE = 512 };

typedef struct Motion {
    PlumbCliMotion base;
    PlumbPressAnswer answer;
    PlumbPressMotionFacts facts;
} Motion;

static const Motion *motion_of(const PlumbCliMotion *base)
{
    return (const Motion *)base;
}

static const PlumbPressMotionPoint *point_of(const PlumbCliMotion *base, int instant)
{
    return (const PlumbPressMotionPoint *)base->point + instant;
}

static void print_instants(const PlumbCliMotion *base, PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("rrrrrrr", units);
    plumb_table_head(&table, "time", PLUMB_Q_TIME);
    plumb_table_head(&table, "bar height", PLUMB_Q_LENGTH);
    plumb_table_text(&table, "bar speed [m/s]");
    plumb_table_head(&table, "upper arm", PLUMB_Q_ANGLE);
    plumb_table_head(&table, "adduction", PLUMB_Q_MOMENT);
    plumb_table_head(&table, "flexion", PLUMB_Q_MOMENT);
    plumb_table_head(&table, "elbow", PLUMB_Q_MOMENT);
    for (int i = 0; i < base->count; i++) {
        const PlumbPressMotionPoint *const p = point_of(base, i);
        plumb_table_bare(&table, p->t_s, PLUMB_Q_TIME);
        plumb_table_bare(&table, p->position.point[PLUMB_PRESS_bar].y, PLUMB_Q_LENGTH);
        plumb_motion_bare(&table, p->bar_speed_m_s, 3);
        plumb_table_bare(&table, p->position.angle_rad[PLUMB_PRESS_ANG_abduction], PLUMB_Q_ANGLE);
        for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
            plumb_table_bare(&table, p->moment_n_m[j], PLUMB_Q_MOMENT);
        }
    }
    plumb_table_end(&table, 2, out);
    plumb_print_wrapped(out, "  Net moments of each arm, with what it takes to move arm and bar.",
                        2);
}

static PlumbCliPace pace_of(const PlumbPressMotionFacts *facts)
{
    return (PlumbCliPace){facts->rep_time_s, facts->mean_bar_speed_m_s, facts->peak_bar_speed_m_s,
                          facts->peak_power_w};
}

static void peaks_of(const PlumbPressMotionFacts *facts, PlumbCliPeak peak[PLUMB_PRESS_JOINT_COUNT])
{
    for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
        peak[j] = (PlumbCliPeak){
            plumb_press_joint_name((PlumbPressJoint)j), plumb_press_joint_text((PlumbPressJoint)j),
            facts->peak_moment_n_m[j], facts->peak_t_s[j], facts->peak_static_moment_n_m[j]};
    }
}

static void print_facts(const Motion *motion, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbCliPace pace = pace_of(&motion->facts);
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_motion_speed_words(&text, &pace);
    plumb_text_string(&text, "; both arms give ");
    plumb_text_fixed(&text, pace.peak_power_w, 0);
    plumb_text_string(&text, " W at most, ");
    plumb_text_quantity(&text, point_of(&motion->base, motion->base.count - 1)->energy_j,
                        PLUMB_Q_ENERGY, units);
    plumb_text_string(&text, " in all.");
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 0);
}

static void print_text(const PlumbCliMotion *base, PlumbUnits units, PlumbCliOutput *out)
{
    const Motion *const motion = motion_of(base);
    const PlumbPressReport report = {base->request, &motion->answer, units, NULL};
    plumb_press_report_head(&report, out);
    if (base->count > 0) {
        char head[LINE_SIZE];
        PlumbText text = plumb_text_begin(head, sizeof head);
        plumb_text_string(&text, "In motion, from the touch to the lockout in ");
        plumb_text_quantity(&text, motion->facts.rep_time_s, PLUMB_Q_TIME, units);
        plumb_print_heading(out, head);
        print_instants(base, units, out);
        PlumbCliPeak peak[PLUMB_PRESS_JOINT_COUNT];
        peaks_of(&motion->facts, peak);
        plumb_motion_print_peaks(peak, PLUMB_PRESS_JOINT_COUNT, units, out);
        print_facts(motion, units, out);
        plumb_output_string(out, "\n");
        plumb_print_wrapped(out,
                            "The time law is a minimum of jerk (Flash & Hogan 1985) of the elbow's "
                            "straightening along the path, which is a model and not a measurement; "
                            "the default time fits the mean bar speed of a heaviest lift.",
                            0);
    }
    plumb_print_findings(motion->answer.finding, motion->answer.finding_count, units, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void put_joints(PlumbJson json, const char *key, const double value[PLUMB_PRESS_JOINT_COUNT])
{
    const PlumbJson object = plumb_json_object(json, key);
    for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
        plumb_json_number(object, plumb_press_joint_name((PlumbPressJoint)j), value[j]);
    }
}

static void put_facts(PlumbJson json, const PlumbPressMotionFacts *facts)
{
    const PlumbJson object = plumb_json_object(json, "motion_facts");
    const PlumbCliPace pace = pace_of(facts);
    PlumbCliPeak peak[PLUMB_PRESS_JOINT_COUNT];
    peaks_of(facts, peak);
    plumb_motion_json_pace(object, &pace);
    plumb_motion_json_peaks(object, peak, PLUMB_PRESS_JOINT_COUNT, "");
}

static void put_instant(PlumbJson json, const PlumbPressMotionPoint *point)
{
    const PlumbJson object = plumb_json_object(json, "motion");
    plumb_json_number(object, "t_s", point->t_s);
    plumb_json_number(object, "bar_speed_m_s", point->bar_speed_m_s);
    plumb_json_number(object, "bar_acceleration_m_s2", point->bar_acceleration_m_s2);
    put_joints(object, "moments_n_m", point->moment_n_m);
    plumb_json_number(object, "power_w", point->power_w);
    plumb_json_number(object, "energy_j", point->energy_j);
}

static void put_json(const PlumbCliMotion *base, int instant, const PlumbJsonFrame *frame,
                     PlumbJson json)
{
    const Motion *const motion = motion_of(base);
    const PlumbPressMotionPoint *const point = point_of(base, instant);
    const bool moves = base->count > 0;
    plumb_press_json(json, &base->request->lifter, &motion->answer, frame,
                     moves ? &point->position : NULL);
    if (moves) {
        put_instant(json, point);
        put_facts(json, &motion->facts);
    }
}

static void csv_head(PlumbCsv *csv)
{
    static const char *const names[] = {"t_s",
                                        "rise_frac",
                                        "outcome",
                                        "bar_speed_m_s",
                                        "power_w",
                                        "energy_j",
                                        "bar_acceleration_m_s2"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        plumb_csv_text(csv, names[i]);
    }
    for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
        plumb_motion_csv_moment(csv, "", plumb_press_joint_name((PlumbPressJoint)j));
    }
    plumb_press_csv_position_head(csv);
}

static void csv_row(const PlumbCliMotion *base, int instant, PlumbCsv *csv)
{
    const PlumbPressMotionPoint *const p = point_of(base, instant);
    plumb_csv_number(csv, p->t_s);
    plumb_csv_number(csv, p->position.rise_frac);
    plumb_csv_text(csv, plumb_outcome_name(motion_of(base)->answer.outcome));
    plumb_csv_number(csv, p->bar_speed_m_s);
    plumb_csv_number(csv, p->power_w);
    plumb_csv_number(csv, p->energy_j);
    plumb_csv_number(csv, p->bar_acceleration_m_s2);
    for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
        plumb_csv_number(csv, p->moment_n_m[j]);
    }
    plumb_press_csv_position(csv, &p->position);
}

static PlumbStatus solve(const PlumbCliArgs *args, PlumbCliMotion *base, PlumbCliFault *fault)
{
    Motion *const motion = (Motion *)base;
    const PlumbCliRequest *const request = base->request;
    plumb_press_solve(&request->lifter, &request->setup, &motion->answer);
    if (motion->answer.outcome == PLUMB_NO_POSE) {
        return PLUMB_OK; /* an answer all the same */
    }
    fault->path[0] = '\0';
    const PlumbStatus status =
        plumb_press_motion_solve(&request->lifter, &motion->answer, request->setup.rep_time_s,
                                 args->points, base->point, &motion->facts, &fault->error);
    base->count = status == PLUMB_OK ? args->points : 0;
    base->held = true; /* or there is no motion */
    return status;
}

PlumbCliExit plumb_press_motion_run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                    PlumbCliFault *fault)
{
    static const PlumbCliMotionForm form = {.point_size = sizeof(PlumbPressMotionPoint),
                                            .solve = solve,
                                            .text = print_text,
                                            .json = put_json,
                                            .csv_head = csv_head,
                                            .csv_row = csv_row};
    Motion motion = {.base = {.request = request}};
    return plumb_motion_run(args, &form, &motion.base, fault);
}
