/* SPDX-License-Identifier: MIT */
/* The working of one length of the body: from the table, from a spread, from a tape, or measured.
 */
#include "study/explain_parts.h"

#include "body/fraction.h"
#include "tables.h"

#include <stddef.h>

enum { TAPE_ROWS = sizeof plumb_table_tape / sizeof plumb_table_tape[0], KEY_SIZE = 64 };

static void spaced(PlumbText *text, const char *name)
{
    for (const char *c = name; *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
}

static PlumbExplainStep *begin(PlumbExplanation *e, const char *title, const char *words)
{
    plumb_explain_symbol(e, "l", "the length");
    plumb_explain_symbol(e, "p", "what it is taken from: stature, a longer part, or a tape");
    plumb_explain_symbol(e, "k", "how much of that it is");
    PlumbExplainStep *step = plumb_explain_step(e, title, words, "l = Σ k p");
    plumb_explain_column(step, "p", "m", 4);
    plumb_explain_column(step, "k", "", 4);
    plumb_explain_column(step, "k p", "m", 4);
    return step;
}

static const char *whole_words(PlumbOf of)
{
    static const char *const words[] = {[PLUMB_OF_STATURE] = "stature",
                                        [PLUMB_OF_FOOT] = "foot length",
                                        [PLUMB_OF_TRUNK] = "trunk"};
    return words[of];
}

static double whole_of(const PlumbBody *body, PlumbOf of)
{
    return of == PLUMB_OF_STATURE ? body->stature_m
           : of == PLUMB_OF_FOOT  ? body->foot_length_m
                                  : body->trunk_m;
}

/* The table's fraction, a difference of two rows where the length lies between two heights. */
static PlumbExplainStep *from_table(const PlumbExplainSubject *s, PlumbExplanation *e,
                                    const char *title)
{
    const PlumbBody *body = &s->lifter->body;
    const PlumbLength length = e->question.length;
    const PlumbFraction fraction = plumb_fraction(body->sex, body->length_table, length);
    const PlumbFractionRows rows = plumb_fraction_rows(body->sex, body->length_table, length);
    const double whole = whole_of(body, fraction.of);
    PlumbExplainStep *step =
        begin(e, title,
              "People of one height differ, but on average each length is a fixed share of it (or "
              "of a longer part); a length between two heights is their difference.");
    char words[PLUMB_EXPLAIN_NAME];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, whole_words(fraction.of));
    if (rows.plus[0] != '\0') {
        plumb_text_string(&text, "; k: ");
        spaced(&text, rows.plus);
    }
    plumb_explain_product(step, words, whole, rows.plus_frac);
    if (rows.minus[0] != '\0') {
        text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, "less ");
        spaced(&text, rows.minus);
        plumb_explain_product(step, words, whole, -rows.minus_frac);
    }
    plumb_explain_number(e, whole_words(fraction.of), whole, "m",
                         fraction.of == PLUMB_OF_STATURE ? "given" : "this body", NULL, NULL);
    plumb_explain_length(e, s->lifter, length);
    return step;
}

static void from_spread(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbBody *body = &s->lifter->body;
    const PlumbLength length = e->question.length;
    const PlumbFraction fraction = plumb_fraction(body->sex, body->length_table, length);
    PlumbExplainStep *step = from_table(s, e, "The table's mean and so many standard deviations");
    plumb_explain_product(step, "standard deviations asked for, times theirs",
                          whole_of(body, fraction.of),
                          s->spec->measure[length].value * fraction.sd);
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, plumb_sex_name(body->sex));
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, plumb_length_name(length));
    /* Lengths without a row of their own in spreads.csv vary as lengths.csv says. */
    const PlumbSourceRow *const spread = plumb_source_find("spreads.csv", key);
    const PlumbSourceRow *const own =
        plumb_source_find("lengths.csv", plumb_fraction_rows(body->sex, PLUMB_SURVEY, length).plus);
    plumb_explain_number(e, "standard deviation, share of the whole", fraction.sd, "", "table",
                         spread != NULL ? spread : own, NULL);
    plumb_explain_number(e, "standard deviations asked for", s->spec->measure[length].value, "",
                         "given", NULL, NULL);
}

/* Bones of the arm, which a tape of the whole arm leaves alone where they are known. */
static const PlumbLength bones[] = {PLUMB_LEN_upper_arm, PLUMB_LEN_forearm};

static bool is_whole_arm(PlumbTape tape)
{
    return tape == PLUMB_TAPE_span || tape == PLUMB_TAPE_floor_to_fingertips;
}

/* The row of tape.csv that made the length: a tape of its own first, then the span, then the
 * fingertips; NULL where none is given. */
static const PlumbTapeRow *row_of(const PlumbBodySpec *spec, PlumbLength length)
{
    const PlumbTapeRow *found = NULL;
    for (int i = 0; i < TAPE_ROWS; i++) {
        const PlumbTapeRow *row = &plumb_table_tape[i];
        if (row->length != length || spec->tape[row->tape].kind == PLUMB_MEASURE_NONE) {
            continue;
        }
        const bool better =
            found == NULL || (is_whole_arm(found->tape) && !is_whole_arm(row->tape)) ||
            (found->tape == PLUMB_TAPE_floor_to_fingertips && row->tape == PLUMB_TAPE_span);
        found = better ? row : found;
    }
    return found;
}

static double mean_of(const PlumbBodySpec *spec, PlumbLength length)
{
    return plumb_fraction_of_stature(spec->sex, length).mean;
}

/* Whether a bone was known before this tape of the whole arm was read. */
static bool known_before(const PlumbBodySpec *spec, PlumbLength bone, PlumbTape tape)
{
    if (spec->measure[bone].kind != PLUMB_MEASURE_NONE) {
        return true;
    }
    const PlumbTapeRow *row = row_of(spec, bone);
    return row != NULL && row->tape != tape;
}

static const PlumbDimension dimensions[PLUMB_TAPE_COUNT] = {
    [PLUMB_TAPE_sitting_height] = PLUMB_DIMENSION_sitting_height,
    [PLUMB_TAPE_buttock_to_knee] = PLUMB_DIMENSION_buttock_to_knee,
    [PLUMB_TAPE_knee_height_sitting] = PLUMB_DIMENSION_knee_height_sitting,
    [PLUMB_TAPE_span] = PLUMB_DIMENSION_span,
    [PLUMB_TAPE_shoulder_to_elbow] = PLUMB_DIMENSION_shoulder_to_elbow,
    [PLUMB_TAPE_elbow_to_wrist] = PLUMB_DIMENSION_elbow_to_wrist,
    [PLUMB_TAPE_floor_to_fingertips] = PLUMB_DIMENSION_floor_to_fingertips,
};

static void tape_numbers(const PlumbExplainSubject *s, PlumbExplanation *e, const PlumbTapeRow *row)
{
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, plumb_tape_name(row->tape));
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, plumb_length_name(row->length));
    char measured[KEY_SIZE];
    PlumbText name = plumb_text_begin(measured, sizeof measured);
    plumb_text_string(&name, plumb_sex_name(s->spec->sex));
    plumb_text_char(&name, ' ');
    plumb_text_string(&name, plumb_tape_name(row->tape));
    plumb_explain_number(e, plumb_tape_text(row->tape), s->spec->tape[row->tape].value, "m",
                         "taped", plumb_source_find("tape.csv", key),
                         plumb_source_find("survey.csv", measured));
    plumb_explain_length(e, s->lifter, row->length);
    const PlumbFractionRows rows = plumb_fraction_rows(s->spec->sex, PLUMB_SURVEY, row->length);
    plumb_explain_number(e, "mean of the length / stature", mean_of(s->spec, row->length), "",
                         "table", plumb_source_find(rows.file, rows.plus),
                         plumb_source_find(rows.file, rows.minus));
    if (row->tape == PLUMB_TAPE_foot || row->tape == PLUMB_TAPE_heel_to_ankle_bone) {
        return; /* the length itself is taped */
    }
    const PlumbDimensionRow *const dimension = plumb_table_dimension[s->spec->sex];
    plumb_explain_number(e, "mean of the measure / stature", dimension[dimensions[row->tape]].ratio,
                         "", "table", plumb_source_find("survey.csv", measured), NULL);
    if (row->tape == PLUMB_TAPE_span) {
        text = plumb_text_begin(key, sizeof key);
        plumb_text_string(&text, plumb_sex_name(s->spec->sex));
        plumb_text_string(&text, " biacromial_breadth");
        plumb_explain_number(e, "breadth of the shoulders / stature",
                             dimension[PLUMB_DIMENSION_biacromial_breadth].ratio, "", "table",
                             plumb_source_find("survey.csv", key), NULL);
    }
}

/* A tape of the length itself, by the ratio of the survey's means. */
static void direct_terms(const PlumbExplainSubject *s, PlumbExplainStep *step,
                         const PlumbTapeRow *row)
{
    const PlumbBodySpec *spec = s->spec;
    const double taped = spec->tape[row->tape].value;
    if (row->tape == PLUMB_TAPE_foot || row->tape == PLUMB_TAPE_heel_to_ankle_bone) {
        plumb_explain_product(step, "taped", taped, 1.0);
        return;
    }
    const bool holds_ankle = row->tape == PLUMB_TAPE_knee_height_sitting;
    const double mean =
        mean_of(spec, row->length) + (holds_ankle ? mean_of(spec, PLUMB_LEN_ankle_height) : 0.0);
    plumb_explain_product(step, "taped; k: mean length / mean measure", taped,
                          mean / plumb_table_dimension[spec->sex][dimensions[row->tape]].ratio);
    if (holds_ankle) {
        plumb_explain_product(step, "less ankle height", s->lifter->body.ankle_height_m, -1.0);
    }
}

/* A tape of the whole arm: what is known of it is taken off, the rest shared out by the means. */
static void arm_terms(const PlumbExplainSubject *s, PlumbExplainStep *step, const PlumbTapeRow *row)
{
    const PlumbBodySpec *spec = s->spec;
    const PlumbBody *body = &s->lifter->body;
    const PlumbDimensionRow *dimension = plumb_table_dimension[spec->sex];
    const bool span = row->tape == PLUMB_TAPE_span;
    const double breadth = dimension[PLUMB_DIMENSION_biacromial_breadth].ratio;
    const double shoulder_m = body->ankle_height_m + body->shank_m + body->thigh_m + body->trunk_m;
    double rest_frac = span ? 0.5 * (dimension[PLUMB_DIMENSION_span].ratio - breadth)
                            : 1.0 - mean_of(spec, PLUMB_LEN_head_neck) -
                                  dimension[PLUMB_DIMENSION_floor_to_fingertips].ratio;
    const bool known[2] = {known_before(spec, bones[0], row->tape),
                           known_before(spec, bones[1], row->tape)};
    const bool all = known[0] && known[1];
    for (int i = 0; i < 2; i++) {
        rest_frac -= known[i] && !all ? mean_of(spec, bones[i]) : 0.0;
    }
    const double k = mean_of(spec, row->length) / rest_frac;
    const double taped = spec->tape[row->tape].value;
    if (span) {
        plumb_explain_product(step, "span; k: half of the length's share of the arm", taped,
                              0.5 * k);
        plumb_explain_product(step, "less breadth of the shoulders", breadth * spec->stature_m,
                              -0.5 * k);
    } else {
        plumb_explain_product(step, "shoulder's height; k: the length's share of the arm",
                              shoulder_m, k);
        plumb_explain_product(step, "less floor to fingertips", taped, -k);
    }
    for (int i = 0; i < 2; i++) {
        if (known[i] && !all) {
            plumb_explain_product(step, i == 0 ? "less upper arm, known" : "less forearm, known",
                                  body->length_m[bones[i]], -k);
        }
    }
}

static void from_tape(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbTapeRow *row = row_of(s->spec, e->question.length);
    if (row == NULL) {
        return; /* cannot be: the basis says that a tape made it */
    }
    PlumbExplainStep *step =
        begin(e, "Converted from a tape",
              "What can be taped on the skin is not the length between joint centres; over many "
              "people the two go together, and the ratio of their means converts one into the "
              "other.");
    if (is_whole_arm(row->tape)) {
        arm_terms(s, step, row);
    } else {
        direct_terms(s, step, row);
    }
    tape_numbers(s, e, row);
}

PlumbStatus plumb_explain_body_length(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbLength length = e->question.length;
    const PlumbBasis basis = s->lifter->body.length_basis[length];
    if (basis == PLUMB_BASIS_MEASURED) {
        PlumbExplainStep *step = begin(e, "Measured", "The lifter file or command gave it.");
        plumb_explain_product(step, "measured", s->spec->measure[length].value, 1.0);
        plumb_explain_length(e, s->lifter, length);
    } else if (basis == PLUMB_BASIS_TAPED) {
        from_tape(s, e);
    } else if (basis == PLUMB_BASIS_SPREAD) {
        from_spread(s, e);
    } else {
        from_table(s, e, "The table's share");
    }
    plumb_explain_sum(&e->step[0], "l", "m", 4);
    e->quantity = PLUMB_Q_LENGTH;
    e->program = s->lifter->body.length_m[length];
    return PLUMB_OK;
}
