/* SPDX-License-Identifier: MIT */
/* What each file of anthropometry/ must hold and which array it becomes; part of the generator. */
#include "schema.h"

#include "body/rows.h"

#include <plumbar/setup.h>

#define WORDS(name, ...)                                                                           \
    static const Word name##_word[] = {__VA_ARGS__};                                               \
    static const WordList name = {sizeof name##_word / sizeof name##_word[0], name##_word}

#define X(name) {#name, "PLUMB_PROPORTION_" #name},
WORDS(proportions, PLUMB_PROPORTION_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_CLASSIC_" #name},
WORDS(classic_lengths, PLUMB_CLASSIC_LENGTH_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_SEG_" #name},
WORDS(segments, PLUMB_SEGMENT_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_SPREAD_" #name},
WORDS(spreads, PLUMB_SPREAD_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_DIMENSION_" #name},
WORDS(dimensions, PLUMB_DIMENSION_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_ACTION_" #name},
WORDS(actions, PLUMB_ACTION_LIST(X));
#undef X
#define X(name, text) {text, "PLUMB_AGE_" #name},
WORDS(ages, PLUMB_AGE_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_UPPER_" #name},
WORDS(upper_actions, PLUMB_UPPER_ACTION_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_HELD_" #name},
WORDS(held, PLUMB_HELD_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_LIMIT_" #name},
WORDS(limits, PLUMB_LIMIT_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_ITEM_" #name},
WORDS(items, PLUMB_ITEM_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_SAMPLING_" #name},
WORDS(samplings, PLUMB_SAMPLING_LIST(X));
#undef X
#define X(name) {#name, "PLUMB_SET_" #name},
WORDS(settings, PLUMB_SETTING_LIST(X));
#undef X
#define X(name, text) {#name, "PLUMB_TAPE_" #name},
WORDS(tapes, PLUMB_TAPE_LIST(X));
#undef X
#define X(name, text) {#name, "PLUMB_LEN_" #name},
WORDS(lengths, PLUMB_LENGTH_LIST(X));
#undef X
#define X(name, text) {text, "PLUMB_BASIS_" #name},
WORDS(bases, PLUMB_BASIS_LIST(X));
#undef X
WORDS(sexes, {"male", "PLUMB_MALE"}, {"female", "PLUMB_FEMALE"});
WORDS(styles, {"conventional", ""}, {"sumo", ""});
WORDS(seats, {"high", ""}, {"low", ""}, {"front", ""});
WORDS(ofs, {"stature", "PLUMB_OF_STATURE"}, {"foot", "PLUMB_OF_FOOT"}, {"trunk", "PLUMB_OF_TRUNK"});
WORDS(yes_no, {"yes", "true"}, {"no", "false"});
WORDS(used, {"no", "false"}, {"setting", "true"}, {"lead", "true"});
WORDS(leads, {"no", "false"}, {"setting", "false"}, {"lead", "true"});
WORDS(standings, {"published", "PLUMB_STANDING_PUBLISHED"}, {"rule", "PLUMB_STANDING_RULE"},
      {"memory", "PLUMB_STANDING_MEMORY"}, {"judgement", "PLUMB_STANDING_JUDGEMENT"});
WORDS(quantities, {"cm", "PLUMB_Q_LENGTH"}, {"mm", "PLUMB_Q_SMALL"}, {"deg", "PLUMB_Q_ANGLE"},
      {"kg", "PLUMB_Q_MASS"}, {"fraction", "PLUMB_Q_FRACTION"}, {"number", "PLUMB_Q_NUMBER"},
      {"s", "PLUMB_Q_TIME"}, {"word", "PLUMB_Q_WORD"});

static const double PI = 3.14159265358979323846;

const Unit schema_unit[] = {
    {"m", 1.0, 1.0, "_m"},    {"cm", 1.0, 100.0, "_m"},        {"mm", 1.0, 1000.0, "_m"},
    {"kg", 1.0, 1.0, "_kg"},  {"rad", 1.0, 1.0, "_rad"},       {"deg", PI, 180.0, "_rad"},
    {"number", 1.0, 1.0, ""}, {"fraction", 1.0, 1.0, "_frac"}, {"word", 1.0, 1.0, ""},
    {"s", 1.0, 1.0, "_s"},
};
const int schema_unit_count = sizeof schema_unit / sizeof schema_unit[0];

#define BASIS                                                                                      \
    {"basis", "", KIND_WORD, &bases},                                                              \
    {                                                                                              \
        "source", "", KIND_SOURCE, 0                                                               \
    }
#define STATUS                                                                                     \
    {"status", "", KIND_WORD, &standings},                                                         \
    {                                                                                              \
        "source", "", KIND_SOURCE, 0                                                               \
    }

/* An empty field name: the cell is checked and not carried over. */
const Schema schema_table[] = {
    {.file = "lengths.csv",
     .array = "plumb_table_proportion",
     .type = "PlumbProportionRow",
     .key = {{"length", &proportions}},
     .column = {{"length", "key", KIND_TEXT, 0},
                {"of", "of", KIND_WORD, &ofs},
                {"male", "mean[PLUMB_MALE]", KIND_NUMBER, 0},
                {"female", "mean[PLUMB_FEMALE]", KIND_NUMBER, 0},
                {"sd_male", "sd[PLUMB_MALE]", KIND_NUMBER, 0},
                {"sd_female", "sd[PLUMB_FEMALE]", KIND_NUMBER, 0},
                {"signed", "may_be_negative", KIND_WORD, &yes_no},
                {"basis", "basis", KIND_WORD, &bases},
                {"source", "source", KIND_SOURCE, 0},
                {"note", "note", KIND_TEXT, 0}}},
    {.file = "classic_lengths.csv",
     .array = "plumb_table_classic_length",
     .type = "PlumbClassicLengthRow",
     .key = {{"length", &classic_lengths}},
     .column = {{"length", "key", KIND_TEXT, 0},
                {"fraction", "fraction", KIND_NUMBER, 0},
                {"basis", "", KIND_WORD, &bases},
                {"source", "source", KIND_SOURCE, 0}}},
    {.file = "classic_masses.csv",
     .array = "plumb_table_classic_mass",
     .type = "PlumbClassicMassRow",
     .key = {{"segment", &segments}},
     .column = {{"mass_frac", "mass_frac", KIND_NUMBER, 0},
                {"com_from_proximal", "com_from_proximal_frac", KIND_NUMBER, 0},
                {"com_from_distal", "com_from_distal_frac", KIND_NUMBER, 0},
                {"rg_frac", "rg_frac", KIND_NUMBER_OR_NONE, 0},
                BASIS}},
    {.file = "masses.csv",
     .array = "plumb_table_mass",
     .type = "PlumbMassRow",
     .key = {{"sex", &sexes}, {"segment", &segments}},
     .column = {{"mass_frac", "mass_frac", KIND_NUMBER, 0},
                {"com_frac", "com_frac", KIND_NUMBER, 0},
                {"rg_frac", "rg_frac", KIND_NUMBER, 0},
                BASIS}},
    {.file = "spreads.csv",
     .array = "plumb_table_spread",
     .type = "PlumbSpreadRow",
     .key = {{"sex", &sexes}, {"length", &spreads}},
     .column = {{"sd", "sd", KIND_NUMBER, 0},
#define X(name) {"r_" #name, "r[PLUMB_SPREAD_" #name "]", KIND_NUMBER, 0},
                PLUMB_SPREAD_LIST(X)
#undef X
                    BASIS}},
    {.file = "survey.csv",
     .array = "plumb_table_dimension",
     .type = "PlumbDimensionRow",
     .key = {{"sex", &sexes}, {"dimension", &dimensions}},
     .column = {{"mean", "mean", KIND_IN_UNIT, 0},
                {"sd", "sd", KIND_IN_UNIT, 0},
                {"ratio", "ratio", KIND_NUMBER_OR_NONE, 0},
                {"ratio_sd", "ratio_sd", KIND_NUMBER_OR_NONE, 0},
                BASIS}},
    {.file = "tape.csv",
     .array = "plumb_table_tape",
     .type = "PlumbTapeRow",
     .column = {{"tape", "tape", KIND_WORD, &tapes},
                {"length", "length", KIND_WORD, &lengths},
                {"r_male", "r[PLUMB_MALE]", KIND_NUMBER_OR_NONE, 0},
                {"r_female", "r[PLUMB_FEMALE]", KIND_NUMBER_OR_NONE, 0},
                {"conversion_sd", "conversion_sd", KIND_NUMBER_OR_NONE, 0},
                BASIS}},
    {.file = "capacities.csv",
     .array = "plumb_table_capacity",
     .type = "PlumbCapacityRow",
     .key = {{"sex", &sexes}, {"action", &actions}, {"age", &ages}},
     .column = {{"c1", "c1", KIND_NUMBER, 0},
                {"c2", "c2", KIND_NUMBER, 0},
                {"c3", "c3", KIND_NUMBER, 0},
                {"c4", "c4", KIND_NUMBER, 0},
                {"c5", "c5", KIND_NUMBER, 0},
                {"c6", "c6", KIND_NUMBER, 0},
                {"c1_sd", "c1_sd", KIND_NUMBER, 0},
                {"c2_sd", "c2_sd", KIND_NUMBER, 0},
                {"c3_sd", "c3_sd", KIND_NUMBER, 0},
                STATUS}},
    {.file = "capacities_upper.csv",
     .array = "plumb_table_upper",
     .type = "PlumbUpperRow",
     .key = {{"action", &upper_actions}},
     .column = {{"tmax_n_m", "tmax_n_m", KIND_NUMBER, 0},
                {"centre_rad", "centre_rad", KIND_NUMBER, 0},
                {"width_rad", "width_rad", KIND_NUMBER, 0},
                {"person_mass_kg", "person_mass_kg", KIND_NUMBER, 0},
                {"person_stature_m", "person_stature_m", KIND_NUMBER, 0},
                STATUS}},
    {.file = "capacity_ranges.csv",
     .array = "plumb_table_held",
     .type = "PlumbHeldRow",
     .key = {{"joint", &held}},
     .column = {{"least", "least_rad", KIND_IN_UNIT, 0},
                {"greatest", "greatest_rad", KIND_IN_UNIT, 0},
                STATUS}},
    {.file = "limits.csv",
     .array = "plumb_table_limit",
     .type = "PlumbLimitRow",
     .key = {{"motion", &limits}},
     .column = {{"male", "limit_rad[PLUMB_MALE]", KIND_IN_UNIT, 0},
                {"female", "limit_rad[PLUMB_FEMALE]", KIND_IN_UNIT, 0},
                {"sd", "sd_rad", KIND_IN_UNIT, 0},
                {"status", "standing", KIND_WORD, &standings},
                {"source", "source", KIND_SOURCE, 0}}},
    {.file = "equipment.csv",
     .array = "plumb_table_item",
     .type = "PlumbItemRow",
     .key = {{"item", &items}},
     .column = {{"value", "value", KIND_IN_UNIT, 0},
                {"status", "standing", KIND_WORD, &standings},
                {"source", "source", KIND_SOURCE, 0}}},
    {.file = "sampling.csv",
     .array = "plumb_table_sampling",
     .type = "PlumbSamplingRow",
     .key = {{"quantity", &samplings}},
     .column = {{"male", "value[PLUMB_MALE]", KIND_IN_UNIT, 0},
                {"female", "value[PLUMB_FEMALE]", KIND_IN_UNIT, 0},
                {"status", "standing", KIND_WORD, &standings},
                {"source", "source", KIND_SOURCE, 0}}},
    {.file = "settings.csv",
     .output = OUTPUT_SETTINGS,
     .array = "plumb_table_setting",
     .type = "PlumbSetting",
     .ordered = true,
     .key = {{"setting", &settings}},
     .column = {{"setting", "id", KIND_WORD, &settings},
                {"setting", "key", KIND_TEXT, 0},
                {"setting", "json_key", KIND_JSON_KEY, 0},
                {"setting", "offset", KIND_OFFSET, 0},
                {"deadlift", "lifts[0]", KIND_WORD, &used},
                {"squat", "lifts[1]", KIND_WORD, &used},
                {"bench", "lifts[2]", KIND_WORD, &used},
                {"deadlift", "leads[0]", KIND_WORD, &leads},
                {"squat", "leads[1]", KIND_WORD, &leads},
                {"bench", "leads[2]", KIND_WORD, &leads},
                {"unit", "quantity", KIND_WORD, &quantities},
                {"default_deadlift", "default_si[0]", KIND_IN_UNIT, 0},
                {"default_squat", "default_si[1]", KIND_IN_UNIT, 0},
                {"default_bench", "default_si[2]", KIND_IN_UNIT, 0},
                {"least", "min_si", KIND_IN_UNIT, 0},
                {"most", "max_si", KIND_IN_UNIT, 0},
                {"step", "step_si", KIND_IN_UNIT, 0},
                {"status", "", KIND_WORD, &standings},
                {"status", "status", KIND_TEXT, 0},
                {"source", "source", KIND_SOURCE, 0},
                {"meaning", "meaning", KIND_TEXT, 0}}},
    {.file = "styles.csv",
     .array = "plumb_table_style",
     .type = "PlumbStyleRow",
     .key = {{"style", &styles}},
     .column = {{"style", "key", KIND_TEXT, 0},
                {"stance_cm", "stance_m", KIND_CM, 0},
                {"toes_deg", "toes_rad", KIND_DEG, 0},
                {"grip_cm", "grip_m", KIND_CM, 0},
                {"status", "", KIND_WORD, &standings},
                {"source", "source", KIND_SOURCE, 0}}},
    {.file = "seats.csv",
     .array = "plumb_table_seat",
     .type = "PlumbSeatRow",
     .key = {{"seat", &seats}},
     .column = {{"seat", "key", KIND_TEXT, 0}, {"grip_cm", "grip_m", KIND_CM, 0}, STATUS}},
};
const int schema_count = sizeof schema_table / sizeof schema_table[0];
