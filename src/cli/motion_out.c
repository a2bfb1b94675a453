/* SPDX-License-Identifier: MIT */
/* plumbar path --time: the way up in motion as text, JSON and CSV. */
#include "motion_out.h"

#include "command.h"
#include "report.h"
#include "text_out.h"

#include <plumbar/dynamics.h>
#include <plumbar/scene.h>

#include <math.h>

/* The way up of a deadlift or a squat. */
typedef struct Motion {
    PlumbCliMotion base;
    PlumbAnswer answer;
    PlumbMotionFacts facts;
} Motion;

static const Motion *motion_of(const PlumbCliMotion *base)
{
    return (const Motion *)base;
}

static const PlumbMotionPoint *point_of(const PlumbCliMotion *base, int instant)
{
    return (const PlumbMotionPoint *)base->point + instant;
}

static const PlumbJoint shown[] = {PLUMB_JOINT_hip, PLUMB_JOINT_back, PLUMB_JOINT_knee,
                                   PLUMB_JOINT_ankle};
enum { SHOWN = sizeof shown / sizeof shown[0] };

static void print_instants(const PlumbCliMotion *base, PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("rrrrrrrrrr", units);
    plumb_table_text(&table, "t [s]");
    plumb_table_head(&table, "bar height", PLUMB_Q_LENGTH);
    plumb_table_text(&table, "bar speed [m/s]");
    plumb_table_text(&table, "pressure");
    for (int i = 0; i < SHOWN; i++) {
        plumb_table_head(&table, plumb_joint_name(shown[i]), PLUMB_Q_MOMENT);
    }
    plumb_table_text(&table, "floor [N]");
    plumb_table_text(&table, "power [W]");
    for (int i = 0; i < base->count; i++) {
        const PlumbMotionPoint *const point = point_of(base, i);
        plumb_motion_bare(&table, point->t_s, 2);
        if (!point->held) {
            plumb_table_text(&table, "no pose");
            plumb_table_row_end(&table);
            continue;
        }
        plumb_table_bare(&table, point->position.point[PLUMB_PT_bar].y, PLUMB_Q_LENGTH);
        plumb_motion_bare(&table, point->bar_speed_m_s, 3);
        plumb_motion_bare(&table, point->pressure_frac, 3);
        for (int k = 0; k < SHOWN; k++) {
            plumb_table_bare(&table, point->moment_both_n_m[shown[k]], PLUMB_Q_MOMENT);
        }
        plumb_motion_bare(&table, point->ground_force_n, 0);
        plumb_motion_bare(&table, point->power_w, 0);
    }
    plumb_table_end(&table, 2, out);
}

static PlumbCliPace pace_of(const PlumbMotionFacts *facts)
{
    return (PlumbCliPace){facts->rep_time_s, facts->mean_bar_speed_m_s, facts->peak_bar_speed_m_s,
                          facts->peak_power_w};
}

static void peaks_of(const PlumbMotionFacts *facts, PlumbCliPeak peak[PLUMB_JOINT_COUNT])
{
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        const char *const name = plumb_joint_name((PlumbJoint)i);
        peak[i] = (PlumbCliPeak){name, name, facts->peak_moment_n_m[i], facts->peak_t_s[i],
                                 facts->peak_static_moment_n_m[i]};
    }
}

static void print_facts(const Motion *motion, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbMotionFacts *const facts = &motion->facts;
    char line[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    const PlumbCliPace pace = pace_of(facts);
    plumb_motion_speed_words(&text, &pace);
    plumb_text_string(&text, "; centre of pressure ");
    plumb_text_fixed(&text, facts->pressure_low_frac, 3);
    plumb_text_string(&text, " to ");
    plumb_text_fixed(&text, facts->pressure_high_frac, 3);
    plumb_text_string(&text, " of the foot; power up to ");
    plumb_text_fixed(&text, facts->peak_power_w, 0);
    plumb_text_string(&text, " W; work ");
    plumb_text_quantity(&text, point_of(&motion->base, motion->base.count - 1)->energy_j,
                        PLUMB_Q_ENERGY, units);
    plumb_text_string(&text, ".");
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 0);
}

/* What the reader must know about the path before believing an acceleration. */
static const char *path_words(PlumbLift lift)
{
    return lift == PLUMB_DEADLIFT
               ? "The time law is a minimum of jerk (Flash & Hogan 1985) along the path, which is "
                 "a model and not a measurement. A pull's path has a corner where the part of the "
                 "leg nearest to the bar changes, and its acceleration steps where the bar passes "
                 "the knee: moments may jump there. Balance is that of the pose at rest; in motion "
                 "the centre of pressure takes its place."
               : "The time law is a minimum of jerk (Flash & Hogan 1985) along the path, which is "
                 "a model and not a measurement. Balance is that of the pose at rest; in motion "
                 "the centre of pressure takes its place.";
}

static void print_text(const PlumbCliMotion *base, PlumbUnits units, PlumbCliOutput *out)
{
    const Motion *const motion = motion_of(base);
    const PlumbAnswer *const answer = &motion->answer;
    const PlumbReport report = {base->request, &base->request->lifter, answer, units, NULL};
    plumb_report_head(&report, out);
    if (base->count == 0) {
        plumb_output_string(out, "\nThere is no way up: ");
        plumb_output_string(out, answer->outcome == PLUMB_NO_POSE ? "nothing to start from\n"
                                                                  : "nowhere to end\n");
        plumb_report_findings(&report, out);
        return;
    }
    char head[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(head, sizeof head);
    plumb_text_string(&text, answer->setup.lift == PLUMB_DEADLIFT
                                 ? "In motion, from the floor to the lockout in "
                                 : "In motion, from the hole to standing in ");
    plumb_text_quantity(&text, motion->facts.rep_time_s, PLUMB_Q_TIME, units);
    plumb_print_heading(out, head);
    print_instants(base, units, out);
    plumb_output_string(out, "  Net moments of both sides together, with what it takes to move "
                             "body and bar.\n  Pressure: place of the floor's force along the "
                             "foot, 0 heel, 1 toe tip.\n");
    PlumbCliPeak peak[PLUMB_JOINT_COUNT];
    peaks_of(&motion->facts, peak);
    plumb_motion_print_peaks(peak, PLUMB_JOINT_COUNT, units, out);
    print_facts(motion, units, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, path_words(answer->setup.lift), 0);
    plumb_report_findings(&report, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void put_joints(PlumbJson json, const char *key, const double value[PLUMB_JOINT_COUNT])
{
    const PlumbJson object = plumb_json_object(json, key);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        plumb_json_number(object, plumb_joint_name((PlumbJoint)i), value[i]);
    }
}

static void put_facts(PlumbJson json, const PlumbMotionFacts *facts)
{
    const PlumbJson object = plumb_json_object(json, "motion_facts");
    plumb_json_bool(object, "held", facts->held);
    const PlumbCliPace pace = pace_of(facts);
    plumb_motion_json_pace(object, &pace);
    plumb_json_number(object, "pressure_low_frac", facts->pressure_low_frac);
    plumb_json_number(object, "pressure_high_frac", facts->pressure_high_frac);
    PlumbCliPeak peak[PLUMB_JOINT_COUNT];
    peaks_of(facts, peak);
    plumb_motion_json_peaks(object, peak, PLUMB_JOINT_COUNT, "_both");
}

static void put_instant(PlumbJson json, const PlumbMotionPoint *point)
{
    const PlumbJson object = plumb_json_object(json, "motion");
    plumb_json_number(object, "t_s", point->t_s);
    plumb_json_number(object, "bar_speed_m_s", point->bar_speed_m_s);
    plumb_json_number(object, "bar_acceleration_m_s2", point->bar_acceleration_m_s2);
    put_joints(object, "moments_both_n_m", point->moment_both_n_m);
    plumb_json_number(object, "ground_force_n", point->ground_force_n);
    plumb_json_number(object, "pressure_frac", point->pressure_frac);
    plumb_json_number(object, "power_w", point->power_w);
    plumb_json_number(object, "energy_j", point->energy_j);
}

static void put_json(const PlumbCliMotion *base, int instant, const PlumbJsonFrame *frame,
                     PlumbJson json)
{
    const Motion *const motion = motion_of(base);
    const PlumbMotionPoint *const point = point_of(base, instant);
    /* Whether the shin pushes the bar is a matter of the path's steps in u. */
    const PlumbPathPoint at = {point->u, point->held, point->position, (double)NAN};
    plumb_json_answer(json, &motion->answer, frame, base->count > 0 ? &at : NULL);
    if (base->count > 0) {
        put_instant(json, point);
        put_facts(json, &motion->facts);
    }
}

static void csv_head(PlumbCsv *csv)
{
    static const char *const names[] = {
        "t_s",     "u_frac",        "outcome",        "bar_height_m", "bar_speed_m_s",
        "power_w", "pressure_frac", "ground_force_n", "energy_j",     "bar_acceleration_m_s2"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        plumb_csv_text(csv, names[i]);
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        plumb_motion_csv_moment(csv, "_both", plumb_joint_name((PlumbJoint)i));
    }
    plumb_csv_position_head(csv);
}

static void csv_row(const PlumbCliMotion *base, int instant, PlumbCsv *csv)
{
    const PlumbAnswer *const answer = &motion_of(base)->answer;
    const PlumbMotionPoint *const point = point_of(base, instant);
    plumb_csv_number(csv, point->t_s);
    plumb_csv_number(csv, point->u);
    plumb_csv_text(csv, plumb_outcome_name(point->held ? answer->outcome : PLUMB_NO_POSE));
    plumb_csv_number(csv, point->position.point[PLUMB_PT_bar].y);
    plumb_csv_number(csv, point->bar_speed_m_s);
    plumb_csv_number(csv, point->power_w);
    plumb_csv_number(csv, point->pressure_frac);
    plumb_csv_number(csv, point->ground_force_n);
    plumb_csv_number(csv, point->energy_j);
    plumb_csv_number(csv, point->bar_acceleration_m_s2);
    for (int k = 0; k < PLUMB_JOINT_COUNT; k++) {
        plumb_csv_number(csv, point->moment_both_n_m[k]);
    }
    plumb_csv_position(csv, &point->position, answer->setup.lift);
}

static PlumbStatus solve(const PlumbCliArgs *args, PlumbCliMotion *base, PlumbCliFault *fault)
{
    Motion *const motion = (Motion *)base;
    const PlumbCliRequest *const request = base->request;
    plumb_answer_solve(&request->lifter, &request->setup, &motion->answer);
    if (motion->answer.outcome == PLUMB_NO_POSE || !motion->answer.end_held) {
        return PLUMB_OK; /* an answer all the same */
    }
    fault->path[0] = '\0';
    const PlumbStatus status =
        plumb_motion_solve(&request->lifter, &motion->answer, request->setup.rep_time_s,
                           args->points, base->point, &motion->facts, &fault->error);
    base->count = status == PLUMB_OK ? args->points : 0;
    base->held = motion->facts.held;
    return status;
}

PlumbCliExit plumb_cli_motion(const PlumbCliArgs *args, const PlumbCliRequest *request,
                              PlumbCliFault *fault)
{
    static const PlumbCliMotionForm form = {.point_size = sizeof(PlumbMotionPoint),
                                            .solve = solve,
                                            .text = print_text,
                                            .json = put_json,
                                            .csv_head = csv_head,
                                            .csv_row = csv_row};
    Motion motion = {.base = {.request = request}};
    return plumb_motion_run(args, &form, &motion.base, fault);
}
