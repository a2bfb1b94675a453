/* SPDX-License-Identifier: MIT */
/* Which rows of the tables, and which words of the lifter, the numbers of a working come from. */
#include "study/explain_parts.h"

#include "body/fraction.h"

#include <stddef.h>
#include <string.h>

enum { KEY_SIZE = 64 };

void plumb_explain_gravity(PlumbExplanation *e)
{
    plumb_explain_number(e, "g, standard gravity", PLUMB_GRAVITY, "m/s2", "published",
                         plumb_source_find("constants.csv", "gravity"), NULL);
}

static const PlumbSegmentId segments[PLUMB_MASS_COUNT] = {
    [PLUMB_MASS_foot] = PLUMB_SEG_foot,           [PLUMB_MASS_shank] = PLUMB_SEG_shank,
    [PLUMB_MASS_thigh] = PLUMB_SEG_thigh,         [PLUMB_MASS_pelvis] = PLUMB_SEG_pelvis,
    [PLUMB_MASS_thorax] = PLUMB_SEG_thorax,       [PLUMB_MASS_head] = PLUMB_SEG_head,
    [PLUMB_MASS_upper_arm] = PLUMB_SEG_upper_arm, [PLUMB_MASS_forearm] = PLUMB_SEG_forearm,
    [PLUMB_MASS_hand] = PLUMB_SEG_hand,
};

static const PlumbSourceRow *mass_row(const PlumbBody *body, PlumbSegmentId segment)
{
    if (body->mass_table == PLUMB_CLASSIC) {
        return plumb_source_find("classic_masses.csv", plumb_segment_name(segment));
    }
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, plumb_sex_name(body->sex));
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, plumb_segment_name(segment));
    return plumb_source_find("masses.csv", key);
}

void plumb_explain_masses(PlumbExplanation *e, const PlumbLifter *lifter, PlumbMass first,
                          PlumbMass last)
{
    const PlumbBody *body = &lifter->body;
    plumb_explain_number(e, "body mass", body->mass_kg, "kg", "given", NULL, NULL);
    for (int i = (int)first; i <= (int)last && i < PLUMB_MASS_bar; i++) {
        const PlumbMass mass = (PlumbMass)i;
        const PlumbSegmentId segment = segments[mass];
        char words[PLUMB_EXPLAIN_NAME];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, plumb_mass_text(mass));
        plumb_text_string(&text, plumb_mass_count(mass) == 2 ? ", share of body mass, each"
                                                             : ", share of body mass");
        plumb_explain_number(e, words, body->segment[segment].mass_frac, "",
                             plumb_table_name(body->mass_table), mass_row(body, segment), NULL);
    }
}

void plumb_explain_length(PlumbExplanation *e, const PlumbLifter *lifter, PlumbLength length)
{
    const PlumbBody *body = &lifter->body;
    const PlumbBasis basis = body->length_basis[length];
    const bool table = basis != PLUMB_BASIS_MEASURED && basis != PLUMB_BASIS_TAPED;
    const PlumbFractionRows rows = plumb_fraction_rows(body->sex, body->length_table, length);
    char words[PLUMB_EXPLAIN_NAME];
    PlumbText text = plumb_text_begin(words, sizeof words);
    for (const char *c = plumb_length_name(length); *c != '\0'; c++) {
        plumb_text_char(&text, *c == '_' ? ' ' : *c);
    }
    plumb_explain_number(e, words, body->length_m[length], "m", plumb_basis_text(basis),
                         table ? plumb_source_find(rows.file, rows.plus) : NULL,
                         table ? plumb_source_find(rows.file, rows.minus) : NULL);
}

static const PlumbLength of_both[] = {PLUMB_LEN_foot_length,
                                      PLUMB_LEN_heel_to_ankle,
                                      PLUMB_LEN_ankle_height,
                                      PLUMB_LEN_shank,
                                      PLUMB_LEN_thigh,
                                      PLUMB_LEN_hip_joint_spacing,
                                      PLUMB_LEN_trunk,
                                      PLUMB_LEN_pelvis,
                                      PLUMB_LEN_upper_arm,
                                      PLUMB_LEN_forearm,
                                      PLUMB_LEN_shoulder_joint_spacing,
                                      PLUMB_LEN_forefinger_to_grip_centre};
static const PlumbLength of_pull[] = {PLUMB_LEN_wrist_to_grip_fingers, PLUMB_LEN_shoulder_drop,
                                      PLUMB_LEN_shin_half_thickness,
                                      PLUMB_LEN_thigh_half_thickness};
static const PlumbLength of_squat[] = {
    PLUMB_LEN_wrist_to_grip_palm, PLUMB_LEN_hip_crease_above_joint, PLUMB_LEN_knee_top_above_joint};
static const PlumbLength of_press[] = {PLUMB_LEN_upper_arm,
                                       PLUMB_LEN_forearm,
                                       PLUMB_LEN_wrist_to_grip_palm,
                                       PLUMB_LEN_forefinger_to_grip_centre,
                                       PLUMB_LEN_chest_depth,
                                       PLUMB_LEN_shoulder_half_depth,
                                       PLUMB_LEN_shoulder_joint_spacing};
static const PlumbLength of_seat[PLUMB_SEAT_COUNT][2] = {
    [PLUMB_HIGH_BAR] = {PLUMB_LEN_bar_high_up, PLUMB_LEN_bar_high_back},
    [PLUMB_LOW_BAR] = {PLUMB_LEN_bar_low_up, PLUMB_LEN_bar_low_back},
    [PLUMB_FRONT_BAR] = {PLUMB_LEN_bar_front_up, PLUMB_LEN_bar_front_back},
};

#define COUNT_OF(list) (sizeof(list) / sizeof(list)[0])

static void add_lengths(PlumbExplanation *e, const PlumbLifter *lifter, const PlumbLength *list,
                        size_t count)
{
    for (size_t i = 0; i < count; i++) {
        plumb_explain_length(e, lifter, list[i]);
    }
}

static const char *si_unit(PlumbQuantity quantity)
{
    switch (quantity) {
    case PLUMB_Q_LENGTH:
    case PLUMB_Q_SMALL:
    case PLUMB_Q_STATURE:
        return "m";
    case PLUMB_Q_ANGLE:
        return "rad";
    case PLUMB_Q_MASS:
        return "kg";
    case PLUMB_Q_MOMENT:
        return "N m";
    case PLUMB_Q_TIME:
        return "s";
    case PLUMB_Q_ENERGY:
        return "J";
    case PLUMB_Q_FRACTION:
    case PLUMB_Q_SHARE:
    case PLUMB_Q_NUMBER:
    case PLUMB_Q_WORD:
    case PLUMB_QUANTITY_COUNT:
        break;
    }
    return "";
}

/* The same of a press: shoes move nothing, elbows count where they are asked for, the path's
 * exponent where it is the path that is asked about. */
static bool bears_on_press(const PlumbExplainSubject *s, const PlumbSetting *row)
{
    const PlumbSetup *setup = plumb_explain_setup(s);
    static const bool always[PLUMB_SETTING_COUNT] = {
        [PLUMB_SET_grip] = true,         [PLUMB_SET_load] = true,
        [PLUMB_SET_bench_height] = true, [PLUMB_SET_arch] = true,
        [PLUMB_SET_lockout_over] = true, [PLUMB_SET_hands_push] = true,
        [PLUMB_SET_path_exponent] = true};
    return always[row->id] || (row->id == PLUMB_SET_touch && setup->lead == PLUMB_LEAD_TOUCH) ||
           (row->id == PLUMB_SET_elbows && setup->elbows_given);
}

/* Whether a setting bears on the position: of the lift, a number, and a lead only where it leads.
 */
static bool bears(const PlumbExplainSubject *s, const PlumbSetting *row)
{
    const PlumbSetup *setup = plumb_explain_setup(s);
    if (s->press != NULL) {
        return bears_on_press(s, row);
    }
    const bool of_motion = row->id == PLUMB_SET_rep_time || row->id == PLUMB_SET_path_exponent;
    const bool leads = row->leads[setup->lift] && row->id != PLUMB_SET_balance;
    if (row->offset == (size_t)-1 || !row->lifts[setup->lift] ||
        row->id == PLUMB_SET_shoulder_ahead_max || (of_motion && s->motion == NULL)) {
        return false;
    }
    return !leads || plumb_setup_lead_setting(setup) == row->id;
}

static void add_settings(PlumbExplanation *e, const PlumbExplainSubject *s)
{
    const PlumbSetup *setup = plumb_explain_setup(s);
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *row = plumb_setting((PlumbSettingId)i);
        if (!bears(s, row)) {
            continue;
        }
        const PlumbSourceRow *const rests = plumb_setup_default_row(setup, row->id);
        char words[PLUMB_EXPLAIN_NAME];
        PlumbText text = plumb_text_begin(words, sizeof words);
        for (const char *c = row->key; *c != '\0'; c++) {
            plumb_text_char(&text, *c == '_' ? ' ' : *c);
        }
        plumb_text_string(&text, " (setting)");
        plumb_explain_number(e, words, plumb_setup_get(setup, row->id), si_unit(row->quantity),
                             rests == NULL                            ? "given"
                             : strcmp(rests->file, "styles.csv") == 0 ? "preset of the style"
                                                                      : "default",
                             rests, NULL);
    }
}

/* The usual bar and discs are those of the rules; a lifter's own are given. */
static void add_equipment(PlumbExplanation *e, const PlumbLifter *lifter, bool disc)
{
    const PlumbEquipment *const own = &lifter->equipment;
    const PlumbEquipment usual = plumb_lifter_default(&lifter->body).equipment;
    const double value = disc ? own->disc_diameter_m : own->shaft_diameter_m;
    const bool rule = fabs(value - (disc ? usual.disc_diameter_m : usual.shaft_diameter_m)) < 1e-12;
    plumb_explain_number(
        e, disc ? "disc diameter" : "bar diameter", value, "m", rule ? "equipment" : "given",
        rule ? plumb_source_find("equipment.csv", disc ? "disc_diameter" : "shaft_diameter") : NULL,
        NULL);
}

void plumb_explain_pose(PlumbExplanation *e, const PlumbExplainSubject *subject)
{
    const PlumbSetup *setup = plumb_explain_setup(subject);
    const PlumbLifter *lifter = subject->lifter;
    plumb_explain_number(e, "stature", lifter->body.stature_m, "m", "given", NULL, NULL);
    if (subject->press != NULL) {
        add_lengths(e, lifter, of_press, COUNT_OF(of_press));
        if (setup->lead == PLUMB_LEAD_AUTO) {
            plumb_explain_number(e, "touch, middle of the low-effort range", setup->touch_m, "m",
                                 "solved pose", NULL, NULL);
        }
        add_equipment(e, lifter, false);
        add_settings(e, subject);
        plumb_explain_note(e,
                           "Places are those of the arm that the program solved from the lengths "
                           "and settings below: x from the shoulders toward the feet, y up, z "
                           "from the middle outwards.");
        return;
    }
    add_lengths(e, lifter, of_both, COUNT_OF(of_both));
    if (setup->heel_lift_m != setup->ball_lift_m) {
        plumb_explain_length(e, lifter, PLUMB_LEN_ball_of_foot); /* a slope's length */
    }
    if (setup->lift == PLUMB_DEADLIFT) {
        add_lengths(e, lifter, of_pull, COUNT_OF(of_pull));
        add_equipment(e, lifter, true);
        add_equipment(e, lifter, false);
    } else {
        add_lengths(e, lifter, of_squat, COUNT_OF(of_squat));
        add_lengths(e, lifter, of_seat[setup->seat], 2);
    }
    add_settings(e, subject);
    plumb_explain_note(e, "Places are those of the pose that the program solved from the lengths "
                          "and settings below; mid-foot is half of the foot's length.");
}
