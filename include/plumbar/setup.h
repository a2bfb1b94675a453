/* SPDX-License-Identifier: MIT */
/* A set-up: what can be chosen for one lift. One table of settings drives defaults, ranges, files,
 * commands, rulers and help; its rows are those of anthropometry/settings.csv. */
#ifndef PLUMBAR_SETUP_H
#define PLUMBAR_SETUP_H

#include <plumbar/format.h>
#include <plumbar/lifter.h>
#include <plumbar/sources.h>

#include <stdbool.h>
#include <stddef.h>

typedef enum PlumbLift { PLUMB_DEADLIFT, PLUMB_SQUAT, PLUMB_BENCH, PLUMB_LIFT_COUNT } PlumbLift;

typedef enum PlumbStyle { PLUMB_CONVENTIONAL, PLUMB_SUMO, PLUMB_STYLE_COUNT } PlumbStyle;

typedef enum PlumbSeat {
    PLUMB_HIGH_BAR,
    PLUMB_LOW_BAR,
    PLUMB_FRONT_BAR,
    PLUMB_SEAT_COUNT
} PlumbSeat;

/* What is given and so leads; the rest follows from the balance. */
typedef enum PlumbLead {
    PLUMB_LEAD_BALANCE,            /* deadlift (default) */
    PLUMB_LEAD_HIP_HEIGHT,         /* deadlift */
    PLUMB_LEAD_BACK_ANGLE,         /* deadlift and squat */
    PLUMB_LEAD_SHIN_ANGLE,         /* squat */
    PLUMB_LEAD_AUTO,               /* all (default of squat and press): middle of the low-effort
                                      range */
    PLUMB_LEAD_HEIGHT_AND_BALANCE, /* deadlift: hip height and balance, the shin may leave the bar
                                    */
    PLUMB_LEAD_TOUCH,              /* bench press */
    PLUMB_LEAD_COUNT
} PlumbLead;

/* Every setting, SI. Fields that a lift does not use keep their defaults. */
typedef struct PlumbSetup {
    PlumbLift lift;
    PlumbStyle style; /* a preset of stance, toes, grip; kept for the title only */
    PlumbSeat seat;   /* squat: key `bar` */
    PlumbLead lead;
    bool knees_over_toes;     /* knees_out = over_toes: solved, knees_out_rad then ignored */
    bool hip_height_relative; /* hip_height_m is a difference from the balance-led start */
    bool elbows_given;        /* bench press: elbows_rad is asked for; else elbow under the bar */
    bool grip_by_build;       /* bench press: no grip was asked for, see plumb_press_default_grip */
    double stance_m;
    double toes_rad;
    double knees_out_rad;
    double grip_m;
    double load_kg;
    double depth_m;
    double bar_over_m;
    double heel_lift_m;
    double ball_lift_m;
    double deficit_m;
    double blocks_m;
    double spine_rad;
    double balance_frac;
    double hip_height_m;
    double back_angle_rad;
    double shin_angle_rad;
    double path_exponent;
    double shoulder_ahead_max_frac; /* of stature */
    double feet_push_frac;          /* sideways push of a foot / its vertical force, outward + */
    double bench_height_m;          /* padded surface above the floor */
    double arch_m;                  /* chest raised by the arch */
    double touch_m;                 /* bar at the chest, from the shoulders toward the feet */
    double elbows_rad;              /* upper arm from the trunk's line at the touch */
    double lockout_over_m;          /* bar from above the shoulders toward the feet at lockout */
    double hands_push_frac;         /* sideways push of a hand / its vertical force, outward + */
    double rep_time_s;              /* of the way up, for a lift in motion */
} PlumbSetup;

/* Identifiers of the settings, in the order of anthropometry/settings.csv. */
#define PLUMB_SETTING_LIST(X)                                                                      \
    X(style)                                                                                       \
    X(stance)                                                                                      \
    X(toes)                                                                                        \
    X(knees_out)                                                                                   \
    X(grip)                                                                                        \
    X(load)                                                                                        \
    X(bar)                                                                                         \
    X(depth)                                                                                       \
    X(bar_over)                                                                                    \
    X(heel_lift)                                                                                   \
    X(ball_lift)                                                                                   \
    X(deficit)                                                                                     \
    X(blocks)                                                                                      \
    X(spine)                                                                                       \
    X(balance)                                                                                     \
    X(hip_height)                                                                                  \
    X(back_angle)                                                                                  \
    X(shin_angle)                                                                                  \
    X(auto)                                                                                        \
    X(path_exponent)                                                                               \
    X(shoulder_ahead_max)                                                                          \
    X(feet_push)                                                                                   \
    X(bench_height)                                                                                \
    X(arch)                                                                                        \
    X(touch)                                                                                       \
    X(elbows)                                                                                      \
    X(lockout_over)                                                                                \
    X(hands_push)                                                                                  \
    X(rep_time)

typedef enum PlumbSettingId {
#define X(name) PLUMB_SET_##name,
    PLUMB_SETTING_LIST(X)
#undef X
        PLUMB_SETTING_COUNT
} PlumbSettingId;

/* One row of the table. Numbers SI. default_si is per lift; NaN where there is none. */
typedef struct PlumbSetting {
    PlumbSettingId id;
    const char *key;      /* in files and on the command line */
    const char *json_key; /* key with its SI unit: "stance_m" */
    const char *meaning;  /* one sentence */
    PlumbQuantity quantity;
    bool lifts[PLUMB_LIFT_COUNT];
    bool leads[PLUMB_LIFT_COUNT];
    double default_si[PLUMB_LIFT_COUNT];
    double min_si;
    double max_si;
    double step_si;
    size_t offset;      /* of the double within PlumbSetup; (size_t)-1 for words */
    const char *status; /* what the default of the deadlift rests on, or of the lift that has one */
    const char *source; /* citation */
} PlumbSetting;

/* The row of a setting; never NULL for a valid id. */
const PlumbSetting *plumb_setting(PlumbSettingId id);
/* The row whose key is key[length], NULL where none is. */
const PlumbSetting *plumb_setting_find(const char *key, size_t length);
/* The key nearest to a misspelt one among those of the lift, NULL where none is near; "did you
 * mean". */
const char *plumb_setting_nearest(const char *key, size_t length, PlumbLift lift);

/* Defaults of a lift: conventional deadlift led by balance 0.40; high-bar squat and bench press led
 * by auto, the elbows of the press under the bar. */
PlumbSetup plumb_setup_default(PlumbLift lift);
/* Appends ", heel lift 19 mm, deficit 4.0 cm": what differs from the lift's defaults, apart from
 * load and grip, stance and toes (of a press arch and elbows), and what leads, which are told
 * anyway. */
void plumb_setup_rest_text(PlumbText *text, const PlumbSetup *setup, PlumbUnits units);

/* Sets style, stance, toes and grip to a style's preset (deadlift). */
void plumb_setup_style(PlumbSetup *setup, PlumbStyle style);
/* Sets the bar seat (squat); where grip still holds the default of the old seat, it becomes the
 * default of the new one. */
void plumb_setup_seat(PlumbSetup *setup, PlumbSeat seat);

/* Collects entries for a set-up, so that order does not matter, a preset never overwrites an
 * explicit setting, and a key given twice or two leads that collide are errors. */
typedef struct PlumbSetupEntry {
    PlumbSetup setup;
    bool given[PLUMB_SETTING_COUNT];
} PlumbSetupEntry;

/* Starts from the defaults of the lift, or from an existing set-up whose own entries may be
 * overridden once. heel_m, ball_m: the lifter's shoes. */
PlumbSetupEntry plumb_setup_entry(PlumbLift lift, double heel_m, double ball_m);
/* A further layer over *base: its settings count as defaults. A lead given in this layer replaces
 * base's. */
PlumbSetupEntry plumb_setup_entry_over(const PlumbSetupEntry *base);
/* Adds key[..] = value[..] as text with units. PLUMB_BAD_INPUT (unknown key with the nearest one,
 * not a setting of this lift, twice, out of range, unitless, unknown word); *entry then unchanged.
 */
PlumbStatus plumb_setup_entry_add(PlumbSetupEntry *entry, const char *key, const char *value,
                                  PlumbError *error);
/* Closes the collection: leads that collide, deficit with blocks, a relative hip height. Writes
 * *setup; untouched on failure. */
PlumbStatus plumb_setup_entry_close(const PlumbSetupEntry *entry, PlumbSetup *setup,
                                    PlumbError *error);

/* Value of a numeric setting, SI; NaN for words. */
double plumb_setup_get(const PlumbSetup *setup, PlumbSettingId id);
/* Sets a numeric setting, clipped to its range; a lead's key also makes it lead. false for words
 * and non-finite values. */
bool plumb_setup_set(PlumbSetup *setup, PlumbSettingId id, double value_si);
/* PLUMB_BAD_INPUT naming the field where a number is not finite or out of its range, or settings
 * collide. Every solver call assumes a set-up that passed. */
PlumbStatus plumb_setup_check(const PlumbSetup *setup, PlumbError *error);

/* The setting that leads: its row; for PLUMB_LEAD_HEIGHT_AND_BALANCE that of hip_height. */
PlumbSettingId plumb_setup_lead_setting(const PlumbSetup *setup);

/* The row of anthropometry/ from which a numeric setting has its value: of settings.csv, or where
 * the lift's default rests on something else, of defaults.csv, seats.csv or styles.csv. NULL where
 * the value is not a default, so that somebody gave it, and for words and other lifts' settings. */
const PlumbSourceRow *plumb_setup_default_row(const PlumbSetup *setup, PlumbSettingId id);

/* Whether any figure of the set-up's lift depends on a length of the body; of a squat's bar only
 * the seat that is used. */
bool plumb_setup_uses_length(const PlumbSetup *setup, PlumbLength length);

/* Words; static strings ("deadlift", "sumo", "high", "hip_height"). */
const char *plumb_lift_name(PlumbLift lift);
const char *plumb_lift_text(PlumbLift lift); /* in sentences: "bench press" */
const char *plumb_style_name(PlumbStyle style);
const char *plumb_seat_name(PlumbSeat seat);
const char *plumb_lead_name(PlumbLead lead);
/* The lift named word[length]; false where none is. */
bool plumb_lift_find(const char *word, size_t length, PlumbLift *lift);

#endif
