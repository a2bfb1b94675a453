/* SPDX-License-Identifier: MIT */
/* Names and texts of lengths, segments, tapes, joints and motions. */
#include "body/fraction.h"

#include "tables.h"

#include <assert.h>

const char *plumb_length_name(PlumbLength length)
{
    static const char *const name[PLUMB_LENGTH_COUNT] = {
#define X(id, text) [PLUMB_LEN_##id] = #id,
        PLUMB_LENGTH_LIST(X)
#undef X
    };
    assert((unsigned)length < PLUMB_LENGTH_COUNT);
    return name[length];
}

const char *plumb_length_text(PlumbLength length)
{
    static const char *const text[PLUMB_LENGTH_COUNT] = {
#define X(id, words) [PLUMB_LEN_##id] = words,
        PLUMB_LENGTH_LIST(X)
#undef X
    };
    assert((unsigned)length < PLUMB_LENGTH_COUNT);
    return text[length];
}

const char *plumb_length_source(PlumbLength length, PlumbTable table)
{
    /* Sources do not differ between the sexes. */
    return plumb_fraction(PLUMB_MALE, table, length).source;
}

const char *plumb_basis_text(PlumbBasis basis)
{
    static const char *const text[PLUMB_BASIS_COUNT] = {
#define X(id, words) [PLUMB_BASIS_##id] = words,
        PLUMB_BASIS_LIST(X)
#undef X
    };
    assert((unsigned)basis < PLUMB_BASIS_COUNT);
    return text[basis];
}

const char *plumb_segment_name(PlumbSegmentId segment)
{
    static const char *const name[PLUMB_SEGMENT_COUNT] = {
#define X(id) [PLUMB_SEG_##id] = #id,
        PLUMB_SEGMENT_LIST(X)
#undef X
    };
    assert((unsigned)segment < PLUMB_SEGMENT_COUNT);
    return name[segment];
}

const char *plumb_tape_name(PlumbTape tape)
{
    static const char *const name[PLUMB_TAPE_COUNT] = {
#define X(id, text) [PLUMB_TAPE_##id] = #id,
        PLUMB_TAPE_LIST(X)
#undef X
    };
    assert((unsigned)tape < PLUMB_TAPE_COUNT);
    return name[tape];
}

const char *plumb_tape_text(PlumbTape tape)
{
    static const char *const text[PLUMB_TAPE_COUNT] = {
#define X(id, words) [PLUMB_TAPE_##id] = words,
        PLUMB_TAPE_LIST(X)
#undef X
    };
    assert((unsigned)tape < PLUMB_TAPE_COUNT);
    return text[tape];
}

const char *plumb_sex_name(PlumbSex sex)
{
    assert((unsigned)sex < PLUMB_SEX_COUNT);
    return sex == PLUMB_FEMALE ? "female" : "male";
}

const char *plumb_table_name(PlumbTable table)
{
    assert((unsigned)table < PLUMB_TABLE_COUNT);
    return table == PLUMB_CLASSIC ? "classic" : "survey";
}

const char *plumb_joint_name(PlumbJoint joint)
{
    static const char *const name[PLUMB_JOINT_COUNT] = {
#define X(id) [PLUMB_JOINT_##id] = #id,
        PLUMB_JOINT_LIST(X)
#undef X
    };
    assert((unsigned)joint < PLUMB_JOINT_COUNT);
    return name[joint];
}

const char *plumb_limit_name(PlumbLimit limit)
{
    static const char *const name[PLUMB_LIMIT_COUNT] = {
#define X(id) [PLUMB_LIMIT_##id] = #id,
        PLUMB_LIMIT_LIST(X)
#undef X
    };
    assert((unsigned)limit < PLUMB_LIMIT_COUNT);
    return name[limit];
}

const char *plumb_limit_source(PlumbLimit limit)
{
    assert((unsigned)limit < PLUMB_LIMIT_COUNT);
    return plumb_table_limit[limit].source;
}

double plumb_limit_sd_rad(PlumbLimit limit)
{
    assert((unsigned)limit < PLUMB_LIMIT_COUNT);
    return plumb_table_limit[limit].sd_rad;
}
