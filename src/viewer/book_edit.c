/* SPDX-License-Identifier: MIT */
/* Sheet and lifter file, value by value, so that every byte that need not change stays. */
#include "book_edit.h"

#include "ruler.h"

#include <math.h>
#include <string.h>

enum { VALUE_SIZE = 64 };

PlumbStatus plumb_sheet_read(PlumbSheet *sheet, const PlumbLifterFile *file, PlumbError *error)
{
    PlumbLifter lifter;
    PlumbStatus status = plumb_lifter_file_lifter(file, &lifter, error);
    if (status != PLUMB_OK) {
        return status;
    }
    plumb_sheet_begin(sheet, &file->record, &lifter);
    for (size_t i = 0; i < file->setup_count && status == PLUMB_OK; i++) {
        PlumbSetup setup;
        status = plumb_setup_entry_close(&file->setup[i].entry, &setup, error);
        if (status == PLUMB_OK) {
            plumb_sheet_add(sheet, file->setup[i].name, &setup);
        }
    }
    if (status == PLUMB_OK && sheet->named_count > 0) {
        for (int i = sheet->named_count - 1; i >= 0; i--) {
            plumb_sheet_pick(sheet, i); /* the first stays on the drawing */
        }
    }
    return status;
}

static bool differs(double a, double b)
{
    return fabs(a - b) > 1e-9;
}

static void length_text(char value[VALUE_SIZE], double length_m)
{
    PlumbText text = plumb_text_begin(value, VALUE_SIZE);
    plumb_text_fixed(&text, 100.0 * length_m, 2);
    plumb_text_string(&text, " cm");
}

/* One measure as the sheet has it: unchanged, taken out with its line, or written. What is gone
 * goes first: a length that is now given itself collides with the tape that gave it. */
static PlumbStatus write_measure(PlumbLifterFile *file, const char *key, PlumbMeasure now,
                                 PlumbMeasure was, double length_m, bool taking_out,
                                 PlumbError *error)
{
    char value[VALUE_SIZE];
    const bool gone = now.kind == PLUMB_MEASURE_NONE;
    if ((now.kind == was.kind && !differs(now.value, was.value)) || gone != taking_out) {
        return PLUMB_OK;
    }
    if (gone) {
        return plumb_lifter_file_unset(file, "measures", key, error);
    }
    length_text(value, length_m);
    return plumb_lifter_file_set(file, "measures", key, value, error);
}

static PlumbStatus write_measures(const PlumbSheet *sheet, PlumbLifterFile *file, PlumbError *error)
{
    const PlumbBodySpec was = file->record.spec;
    const PlumbBodySpec *const now = &sheet->record.spec;
    PlumbStatus status = PLUMB_OK;
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < PLUMB_LENGTH_COUNT && status == PLUMB_OK; i++) {
            status =
                write_measure(file, plumb_length_name((PlumbLength)i), now->measure[i],
                              was.measure[i], sheet->lifter.body.length_m[i], pass == 0, error);
        }
        for (int i = 0; i < PLUMB_TAPE_COUNT && status == PLUMB_OK; i++) {
            status = write_measure(file, plumb_tape_name((PlumbTape)i), now->tape[i], was.tape[i],
                                   now->tape[i].value, pass == 0, error);
        }
    }
    return status;
}

static PlumbStatus write_lifter(const PlumbSheet *sheet, PlumbLifterFile *file, PlumbError *error)
{
    const PlumbBodySpec *const now = &sheet->record.spec;
    const PlumbBodySpec *const was = &file->record.spec;
    PlumbStatus status = PLUMB_OK;
    char value[VALUE_SIZE];
    if (now->sex != was->sex) {
        status = plumb_lifter_file_set(file, "lifter", "sex", plumb_sex_name(now->sex), error);
    }
    if (status == PLUMB_OK && differs(now->stature_m, was->stature_m)) {
        length_text(value, now->stature_m);
        status = plumb_lifter_file_set(file, "lifter", "stature", value, error);
    }
    if (status == PLUMB_OK && differs(now->mass_kg, was->mass_kg)) {
        PlumbText text = plumb_text_begin(value, sizeof value);
        plumb_text_fixed(&text, now->mass_kg, 2);
        plumb_text_string(&text, " kg");
        status = plumb_lifter_file_set(file, "lifter", "mass", value, error);
    }
    if (status == PLUMB_OK && strcmp(sheet->record.name, file->record.name) != 0) {
        status = plumb_lifter_file_set(file, "lifter", "name", sheet->record.name, error);
    }
    return status == PLUMB_OK ? write_measures(sheet, file, error) : status;
}

/* What a setting is written as, "" at its default. */
static void setting_words(const PlumbSheet *sheet, const PlumbSetup *setup, PlumbSettingId id,
                          char value[VALUE_SIZE])
{
    PlumbText text = plumb_text_begin(value, VALUE_SIZE);
    if (!plumb_setting(id)->lifts[setup->lift] ||
        !plumb_setting_text(setup, id, sheet->record.heel_m, sheet->record.ball_m, &text)) {
        value[0] = '\0';
    }
}

/* First all that changes is taken out, then written anew: leads that collide never meet. */
static PlumbStatus write_setup(const PlumbSheet *sheet, const PlumbNamed *named,
                               const PlumbSetup *was, PlumbLifterFile *file, PlumbError *error)
{
    PlumbStatus status = PLUMB_OK;
    char now[VALUE_SIZE];
    char old[VALUE_SIZE];
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < PLUMB_SETTING_COUNT && status == PLUMB_OK; i++) {
            const PlumbSettingId id = (PlumbSettingId)i;
            setting_words(sheet, &named->setup, id, now);
            setting_words(sheet, was, id, old);
            if (strcmp(now, old) == 0) {
                continue;
            }
            if (pass == 0 && now[0] == '\0') {
                status =
                    plumb_lifter_file_unset_setup(file, named->name, plumb_setting(id)->key, error);
            } else if (pass == 1 && now[0] != '\0') {
                status = plumb_lifter_file_set_setup(file, named->name, plumb_setting(id)->key, now,
                                                     error);
            }
        }
    }
    return status;
}

/* A set-up that the window has given a name needs one that is not taken. */
static void name_plain(PlumbSheet *sheet, const PlumbLifterFile *file)
{
    char *const name = sheet->setup_name[sheet->lift];
    for (int i = 1; name[0] == '\0' && i < 1000; i++) {
        char words[PLUMB_DESK_NAME_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, plumb_lift_name(sheet->lift));
        if (i > 1) {
            plumb_text_char(&text, ' ');
            plumb_text_integer(&text, i);
        }
        if (plumb_sheet_find(sheet, words) < 0 &&
            plumb_lifter_file_setup(file, words, NULL) == NULL &&
            plumb_sheet_add(sheet, words, &sheet->setup[sheet->lift])) {
            memcpy(name, words, sizeof words);
        }
    }
}

PlumbStatus plumb_sheet_write(PlumbSheet *sheet, PlumbLifterFile *file, PlumbError *error)
{
    PlumbStatus status = write_lifter(sheet, file, error);
    name_plain(sheet, file);
    plumb_sheet_gather(sheet);
    for (int i = 0; i < sheet->named_count && status == PLUMB_OK; i++) {
        const PlumbNamed *const named = &sheet->named[i];
        const PlumbFileSetup *const there = plumb_lifter_file_setup(file, named->name, NULL);
        PlumbSetup was;
        if (there == NULL) {
            status = plumb_lifter_file_add_setup(file, named->name, &named->setup, error);
        } else if (there->lift == named->setup.lift) {
            status = plumb_setup_entry_close(&there->entry, &was, error);
            status = status == PLUMB_OK ? write_setup(sheet, named, &was, file, error) : status;
        } else {
            status = plumb_error_set(error, PLUMB_BAD_INPUT, named->name,
                                     "the file has a set-up of this name for another lift; "
                                     "Ctrl+N keeps this one under another name");
        }
    }
    return status;
}
