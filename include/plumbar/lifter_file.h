/* SPDX-License-Identifier: MIT */
/* The lifter file: YAML that holds one lifter and named set-ups, read strictly and saved so that
 * every byte that need not change stays. */
#ifndef PLUMBAR_LIFTER_FILE_H
#define PLUMBAR_LIFTER_FILE_H

#include <plumbar/file.h>
#include <plumbar/lifter.h>
#include <plumbar/setup.h>
#include <plumbar/status.h>
#include <plumbar/strength.h>

#include <stdbool.h>
#include <stddef.h>

enum {
    PLUMB_LIFTER_FILE_MAX_BYTES = 1 << 20,
    PLUMB_LIFTER_NAME_SIZE = 96, /* bytes with the NUL: names of lifters and set-ups */
    PLUMB_LIFTER_NOTE_SIZE = 512,
    PLUMB_LUNGE_SIZE = 32
};

/* The dimensions of the gym's equipment, in the order of PlumbEquipment's doubles. */
#define PLUMB_EQUIPMENT_LIST(X)                                                                    \
    X(bar_mass, "equipment.bar", "mass")                                                           \
    X(bar_shaft, "equipment.bar", "shaft")                                                         \
    X(bar_rings, "equipment.bar", "rings")                                                         \
    X(bar_knurl_start, "equipment.bar", "knurl_start")                                             \
    X(bar_knurl_stop, "equipment.bar", "knurl_stop")                                               \
    X(disc_diameter, "equipment.discs", "diameter")

typedef enum PlumbEquipmentId {
#define X(name, section, key) PLUMB_EQUIP_##name,
    PLUMB_EQUIPMENT_LIST(X)
#undef X
        PLUMB_EQUIPMENT_COUNT
} PlumbEquipmentId;

/* All that a lifter file, or a command line without one, says about the lifter. A flat value. */
typedef struct PlumbLifterRecord {
    char name[PLUMB_LIFTER_NAME_SIZE]; /* "" where none is given */
    char note[PLUMB_LIFTER_NOTE_SIZE];
    PlumbBodySpec spec;
    bool sex_given;
    bool stature_given;
    bool mass_given;
    double heel_m; /* shoes: heel_lift, ball_lift */
    double ball_m;
    double limit_rad[PLUMB_LIMIT_COUNT];
    bool limit_given[PLUMB_LIMIT_COUNT];
    double strength[PLUMB_JOINT_COUNT]; /* multipliers, 1 where not given */
    bool strength_given[PLUMB_JOINT_COUNT];
    PlumbBest best[PLUMB_LIFT_COUNT]; /* strength.best: sets the joints that have no multiplier */
    bool best_given[PLUMB_LIFT_COUNT];
    char lunge[PLUMB_LUNGE_SIZE];            /* limits.lunge as written, "" where none is given */
    double equipment[PLUMB_EQUIPMENT_COUNT]; /* SI */
    bool equipment_given[PLUMB_EQUIPMENT_COUNT];
} PlumbLifterRecord;

/* One key that a record takes. Strings are static. */
typedef struct PlumbLifterField {
    const char *section; /* "lifter", "measures", "shoes", "limits", "strength", "equipment.bar" */
    const char *key;
    const char *meaning;
    const char *example; /* a value that reads: "44 cm" */
} PlumbLifterField;

/* The keys in the order of a written file. false past the last; *field then untouched. */
bool plumb_lifter_field(size_t index, PlumbLifterField *field);

/* Nothing given; both tables the survey, strength 1. */
PlumbLifterRecord plumb_lifter_record(void);

/* Sets one key from text with units. key is "stature", "thigh", "ankle_dorsiflexion", or with its
 * section where the bare key is not one of `lifter`, `measures`, `limits`, `shoes`: "strength.hip",
 * "equipment.bar.mass". A later value replaces an earlier one.
 * PLUMB_BAD_INPUT: unknown key (with the nearest), wrong or missing unit, out of range; *record is
 * then untouched. error->field is the dotted key. What a body can have is checked with the whole
 * body, by plumb_lifter_record_lifter. */
PlumbStatus plumb_lifter_record_set(PlumbLifterRecord *record, const char *key, const char *value,
                                    PlumbError *error);
/* Whether key is one that plumb_lifter_record_set knows. */
bool plumb_lifter_record_has_key(const char *key);

/* Builds the lifter. PLUMB_BAD_INPUT where sex, stature or mass is not given (the message says
 * which), or the body is impossible; *lifter is then untouched. error->field is the dotted key. */
PlumbStatus plumb_lifter_record_lifter(const PlumbLifterRecord *record, PlumbLifter *lifter,
                                       PlumbError *error);

/* A named set-up of a file. */
typedef struct PlumbFileSetup {
    char name[PLUMB_LIFTER_NAME_SIZE];
    char note[PLUMB_LIFTER_NOTE_SIZE];
    PlumbLift lift;
    PlumbSetupEntry entry; /* over the lifter's shoes; closes without error */
    int line;              /* of its name */
} PlumbFileSetup;

enum { PLUMB_LOG_DATE_SIZE = 11, PLUMB_LOG_FINDINGS_SIZE = 256 };

/* A dated entry of a file's log: what was lifted that day, and how. */
typedef struct PlumbLogEntry {
    char date[PLUMB_LOG_DATE_SIZE]; /* "2026-01-31" */
    PlumbLift lift;
    char setup_name[PLUMB_LIFTER_NAME_SIZE]; /* "" where none is named */
    /* The settings of that day; where the entry has none, those that the named set-up has now. The
     * load is the entry's own where it gives one. */
    PlumbSetup setup;
    bool settings_given;
    char findings[PLUMB_LOG_FINDINGS_SIZE]; /* what was seen, as names or in words */
    char note[PLUMB_LIFTER_NOTE_SIZE];
    int line;
} PlumbLogEntry;

/* Whether text is a day of the calendar, "2026-01-31". */
bool plumb_date_is(const char *text);

/* A file in memory. Read its fields freely; change it only through the functions below. */
typedef struct PlumbLifterFile {
    char *path;  /* as given, for messages and saving; may be "" */
    char *bytes; /* the text as it would be saved */
    size_t length;
    bool changed; /* bytes differ from what was read or last saved */
    PlumbLifterRecord record;
    PlumbFileSetup *setup;
    size_t setup_count;
    PlumbLogEntry *log; /* in the order of the file */
    size_t log_count;
} PlumbLifterFile;

/* Reads a file whole. *file is heap memory that plumb_lifter_file_free gives back; untouched on
 * failure. error has line and column (characters from 1) and the dotted field; the path is not part
 * of the message. Everything is checked: keys, values, the body, every set-up. */
PlumbStatus plumb_lifter_file_read(const char *path, PlumbLifterFile **file, PlumbError *error);

/* The same from memory. path is kept for saving; NULL counts as "". bytes are copied. */
PlumbStatus plumb_lifter_file_parse(const char *bytes, size_t length, const char *path,
                                    PlumbLifterFile **file, PlumbError *error);

/* NULL is allowed. */
void plumb_lifter_file_free(PlumbLifterFile *file);

/* The lifter that the file describes. */
PlumbStatus plumb_lifter_file_lifter(const PlumbLifterFile *file, PlumbLifter *lifter,
                                     PlumbError *error);

/* The set-up called name; NULL where none is, with error naming the nearest and listing all. */
const PlumbFileSetup *plumb_lifter_file_setup(const PlumbLifterFile *file, const char *name,
                                              PlumbError *error);

/* Where the value of a dotted key stands, counted from 1; false where the file does not have it. */
bool plumb_lifter_file_place(const PlumbLifterFile *file, const char *field, int *line,
                             int *column);

/* Changes or adds one value of the lifter: section as in PlumbLifterField. Only the bytes of the
 * value change; a missing key is added at the end of its section, a missing section at the end of
 * the file. The result is read again: on failure (PLUMB_BAD_INPUT) *file is as before. */
PlumbStatus plumb_lifter_file_set(PlumbLifterFile *file, const char *section, const char *key,
                                  const char *value, PlumbError *error);

/* Removes one value of the lifter with its line; one that is not there is no error. On failure
 * (PLUMB_BAD_INPUT: what is left is no lifter) *file is as before. */
PlumbStatus plumb_lifter_file_unset(PlumbLifterFile *file, const char *section, const char *key,
                                    PlumbError *error);

/* As plumb_lifter_file_set, for a key (a setting, or "note") of a named set-up that exists. */
PlumbStatus plumb_lifter_file_set_setup(PlumbLifterFile *file, const char *setup_name,
                                        const char *key, const char *value, PlumbError *error);

/* Removes a key of a named set-up with its line; a key that is not there is no error. */
PlumbStatus plumb_lifter_file_unset_setup(PlumbLifterFile *file, const char *setup_name,
                                          const char *key, PlumbError *error);

/* Adds a set-up at the end of `setups`, with those settings that differ from the lift's defaults
 * for this lifter's shoes. PLUMB_BAD_INPUT where the name is taken, empty, too long, or holds a
 * control character. */
PlumbStatus plumb_lifter_file_add_setup(PlumbLifterFile *file, const char *name,
                                        const PlumbSetup *setup, PlumbError *error);

/* Adds an entry at the end of `log`, with its settings as they differ from the lift's defaults for
 * this lifter's shoes. PLUMB_BAD_INPUT: no day, words that are too long or hold control characters;
 * PLUMB_UNSUPPORTED where the log is written so that it must be changed by hand. */
PlumbStatus plumb_lifter_file_add_log(PlumbLifterFile *file, const PlumbLogEntry *entry,
                                      PlumbError *error);

/* The last entry of this day and lift; NULL where none is, with error listing the days. */
const PlumbLogEntry *plumb_lifter_file_log(const PlumbLifterFile *file, const char *date,
                                           PlumbLift lift, PlumbError *error);

/* Writes bytes to path (NULL: the file's own), whole or not at all; `changed` is then false. */
PlumbStatus plumb_lifter_file_save(PlumbLifterFile *file, const char *path, PlumbError *error);

/* The commented text of a new file for `plumbar new`: name may be "". What record gives stands as
 * values, the rest as comments that show how. *text is heap memory of the caller with a NUL after
 * *length bytes. PLUMB_BAD_INPUT where sex, stature or mass is missing. The text reads back to the
 * same record. */
PlumbStatus plumb_lifter_file_new_text(const PlumbLifterRecord *record, char **text, size_t *length,
                                       PlumbError *error);

/* Writes a set-up as `key: value` lines would hold it: the text with units of one setting, short
 * enough to read, exact enough to give the same figures ("32 cm", "26.8 deg"). false where the
 * setting is at the default of its lift and shoes. */
bool plumb_setting_text(const PlumbSetup *setup, PlumbSettingId id, double heel_m, double ball_m,
                        PlumbText *text);

#endif
