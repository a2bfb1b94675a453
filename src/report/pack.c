/* SPDX-License-Identifier: MIT */
/* One walk over all fields, which writes them or reads them. */
#include "report/pack.h"

#include <stdint.h>
#include <string.h>

/* First in the bytes: another layout has another number. */
static const double LAYOUT = 20260001.0;

typedef struct Walk {
    unsigned char *to;         /* NULL: reading */
    const unsigned char *from; /* NULL: writing */
    size_t size;
    size_t at;
    bool failed;
} Walk;

static void byte(Walk *walk, unsigned char *value)
{
    if (walk->failed || walk->at >= walk->size) {
        walk->failed = true;
        return;
    }
    if (walk->to != NULL) {
        walk->to[walk->at] = *value;
    } else {
        *value = walk->from[walk->at];
    }
    walk->at++;
}

static void real(Walk *walk, double *value)
{
    uint64_t bits = 0;
    memcpy(&bits, value, sizeof bits);
    uint64_t read = 0;
    for (unsigned i = 0; i < 8; i++) {
        unsigned char part = (unsigned char)(bits >> (8 * i) & 0xff);
        byte(walk, &part);
        read |= (uint64_t)part << (8 * i);
    }
    memcpy(value, &read, sizeof read);
}

static void reals(Walk *walk, double *value, int count)
{
    for (int i = 0; i < count; i++) {
        real(walk, &value[i]);
    }
}

/* An enumeration, a flag or a set of bits: 0 to most. */
static int whole(Walk *walk, int value, int most)
{
    double as_real = value;
    real(walk, &as_real);
    if (!(as_real >= 0.0 && as_real <= most)) {
        walk->failed = true;
        return 0;
    }
    return (int)as_real;
}

static bool flag(Walk *walk, bool value)
{
    return whole(walk, value ? 1 : 0, 1) != 0;
}

static void words(Walk *walk, char text[PLUMB_SHARE_NAME_SIZE])
{
    const int length = whole(walk, (int)strlen(text), PLUMB_SHARE_NAME_SIZE - 1);
    for (int i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        byte(walk, &c);
        text[i] = (char)c;
    }
    text[length] = '\0';
}

static void walk_body(Walk *walk, PlumbBody *body)
{
    body->sex = (PlumbSex)whole(walk, (int)body->sex, PLUMB_SEX_COUNT - 1);
    real(walk, &body->stature_m);
    real(walk, &body->mass_kg);
    real(walk, &body->age_years);
    body->length_table = (PlumbTable)whole(walk, (int)body->length_table, PLUMB_TABLE_COUNT - 1);
    body->mass_table = (PlumbTable)whole(walk, (int)body->mass_table, PLUMB_TABLE_COUNT - 1);
    reals(walk, body->length_m, PLUMB_LENGTH_COUNT);
    reals(walk, body->length_sd_m, PLUMB_LENGTH_COUNT);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        body->length_basis[i] =
            (PlumbBasis)whole(walk, (int)body->length_basis[i], PLUMB_BASIS_COUNT - 1);
    }
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        real(walk, &body->segment[i].mass_frac);
        real(walk, &body->segment[i].com_frac);
        real(walk, &body->segment[i].rg_frac);
    }
    real(walk, &body->parts_sum_m);
    body->extrapolated = (unsigned)whole(walk, (int)body->extrapolated, 1 << 16);
    body->has_radii = flag(walk, body->has_radii);
}

static void walk_lifter(Walk *walk, PlumbLifter *lifter)
{
    PlumbEquipment *const gear = &lifter->equipment;
    walk_body(walk, &lifter->body);
    reals(walk, lifter->limit_rad, PLUMB_LIMIT_COUNT);
    for (int i = 0; i < PLUMB_LIMIT_COUNT; i++) {
        lifter->limit_entered[i] = flag(walk, lifter->limit_entered[i]);
    }
    reals(walk, lifter->strength, PLUMB_JOINT_COUNT);
    lifter->strength_entered = flag(walk, lifter->strength_entered);
    real(walk, &gear->bar_mass_kg);
    real(walk, &gear->shaft_diameter_m);
    real(walk, &gear->ring_spacing_m);
    real(walk, &gear->knurl_start_m);
    real(walk, &gear->knurl_stop_m);
    real(walk, &gear->disc_diameter_m);
}

/* Numbers by the table of settings, so that a new one needs nothing here. */
static void walk_setup(Walk *walk, PlumbSetup *setup)
{
    setup->lift = (PlumbLift)whole(walk, (int)setup->lift, PLUMB_LIFT_COUNT - 1);
    setup->style = (PlumbStyle)whole(walk, (int)setup->style, PLUMB_STYLE_COUNT - 1);
    setup->seat = (PlumbSeat)whole(walk, (int)setup->seat, PLUMB_SEAT_COUNT - 1);
    setup->lead = (PlumbLead)whole(walk, (int)setup->lead, PLUMB_LEAD_COUNT - 1);
    setup->knees_over_toes = flag(walk, setup->knees_over_toes);
    setup->hip_height_relative = flag(walk, setup->hip_height_relative);
    setup->elbows_given = flag(walk, setup->elbows_given);
    setup->grip_by_build = flag(walk, setup->grip_by_build);
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        if (row->offset != (size_t)-1) {
            double value = 0.0;
            memcpy(&value, (const char *)setup + row->offset, sizeof value);
            real(walk, &value);
            memcpy((char *)setup + row->offset, &value, sizeof value);
        }
    }
}

static void walk_shared(Walk *walk, PlumbShared *shared)
{
    double layout = LAYOUT;
    real(walk, &layout);
    walk->failed = walk->failed || layout < LAYOUT || layout > LAYOUT;
    walk_lifter(walk, &shared->lifter);
    walk_setup(walk, &shared->setup);
    shared->has_pencil = flag(walk, shared->has_pencil);
    walk_setup(walk, &shared->pencil);
    words(walk, shared->name);
    words(walk, shared->setup_name);
    words(walk, shared->pencil_name);
    words(walk, shared->date);
    shared->units = (PlumbUnits)whole(walk, (int)shared->units, PLUMB_POUNDS_INCHES);
}

size_t plumb_shared_write(const PlumbShared *shared, unsigned char *bytes, size_t size)
{
    PlumbShared copy = *shared;
    Walk walk = {.to = bytes, .size = size};
    walk_shared(&walk, &copy);
    return walk.failed ? 0 : walk.at;
}

bool plumb_shared_read(const unsigned char *bytes, size_t length, PlumbShared *shared)
{
    PlumbShared read = {.has_pencil = false};
    Walk walk = {.from = bytes, .size = length};
    walk_shared(&walk, &read);
    if (walk.failed || walk.at != length) {
        return false;
    }
    *shared = read;
    return true;
}
