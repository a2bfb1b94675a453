/* SPDX-License-Identifier: MIT */
/* Help texts, made from the tables of commands, options, settings and measures. */
#include "help.h"

#include "text_out.h"

#include <plumbar/lifter_file.h>

#include <math.h>
#include <string.h>

enum { CELL_SIZE = 160, KEY_WIDTH = 27 };

static void options_table(unsigned taken, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("ll", PLUMB_METRIC);
    for (int i = 0; i < PLUMB_OPT_COUNT; i++) {
        const PlumbCliOption *const option = &plumb_cli_options[i];
        if ((taken >> i & 1U) == 0) {
            continue;
        }
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_text_string(&text, option->short_name);
        plumb_text_string(&text, option->short_name[0] != '\0' ? ", " : "");
        plumb_text_string(&text, option->name);
        plumb_text_string(&text, option->value[0] != '\0' ? " " : "");
        plumb_text_string(&text, option->value);
        plumb_table_text(&table, cell);
        plumb_table_text(&table, option->meaning);
    }
    plumb_print_heading(out, "Options");
    plumb_table_end(&table, 2, out);
}

void plumb_help_program(PlumbCliOutput *out)
{
    plumb_output_string(out, "plumbar " PLUMB_VERSION
                             ": squat, deadlift and bench press positions for one lifter's "
                             "build\n\n"
                             "Use: plumbar COMMAND ...\n");
    PlumbCliTable table = plumb_table_begin("ll", PLUMB_METRIC);
    for (int i = 0; i < plumb_cli_command_count; i++) {
        plumb_table_text(&table, plumb_cli_commands[i].name);
        plumb_table_text(&table, plumb_cli_commands[i].summary);
    }
    plumb_table_text(&table, "help COMMAND");
    plumb_table_text(&table, "how a command is used, with an example");
    plumb_print_heading(out, "Commands");
    plumb_table_end(&table, 2, out);
    plumb_output_string(out,
                        "\nA lifter comes out of a FILE or out of words: sex=, stature= and mass= "
                        "are\nenough. Quantities carry their unit: 178cm, \"5 ft 10 in\", 35deg, "
                        "440lb.\n"
                        "\nExit codes: 0 answered, 1 no pose meets the request (the answer says "
                        "why),\n2 bad input, 3 could not read or write, 130 stopped by Ctrl+C.\n"
                        "\nExample\n  plumbar setup deadlift sex=male stature=178cm mass=85kg "
                        "load=180kg\n");
}

/* The default of a setting as a person writes it; "" where it has none. */
static void default_text(PlumbText *text, const PlumbSetting *row, PlumbLift lift)
{
    if (row->id == PLUMB_SET_grip && lift == PLUMB_BENCH) {
        plumb_text_string(text, "by the build");
    } else if (row->offset != (size_t)-1 && isfinite(row->default_si[lift])) {
        plumb_text_quantity(text, row->default_si[lift], row->quantity, PLUMB_METRIC);
    }
}

/* "(deadlift 32 cm, squat 45 cm)": which lifts take the setting and what they start from. */
static void defaults(PlumbText *text, const PlumbSetting *row)
{
    int count = 0;
    plumb_text_string(text, " (");
    for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
        if (!row->lifts[i]) {
            continue;
        }
        char value[CELL_SIZE];
        PlumbText figure = plumb_text_begin(value, sizeof value);
        default_text(&figure, row, (PlumbLift)i);
        plumb_text_string(text, count > 0 ? ", " : "");
        plumb_text_string(text, plumb_lift_name((PlumbLift)i));
        plumb_text_string(text, row->leads[i] ? " lead" : "");
        plumb_text_string(text, value[0] != '\0' ? " " : "");
        plumb_text_string(text, value);
        count++;
    }
    plumb_text_string(text, ")");
}

static void print_key(PlumbCliOutput *out, const char *key, const char *meaning)
{
    char line[2 * PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  ");
    plumb_text_string(&text, key);
    for (size_t width = strlen(key); width < KEY_WIDTH; width++) {
        plumb_text_char(&text, ' ');
    }
    plumb_text_string(&text, meaning);
    plumb_print_wrapped(out, line, KEY_WIDTH + 2);
}

static void settings_list(PlumbCliOutput *out)
{
    plumb_print_heading(out, "Settings (at most one lead, or hip_height with balance)");
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        char meaning[PLUMB_MESSAGE_SIZE];
        PlumbText text = plumb_text_begin(meaning, sizeof meaning);
        plumb_text_string(&text, row->meaning);
        defaults(&text, row);
        print_key(out, row->key, meaning);
    }
}

/* Sections whose keys stand without them on a command line. */
static bool is_bare(const char *section)
{
    static const char *const bare[] = {"lifter", "measures", "shoes", "limits"};
    for (size_t i = 0; i < sizeof bare / sizeof bare[0]; i++) {
        if (strcmp(bare[i], section) == 0) {
            return true;
        }
    }
    return false;
}

static void lifter_list(PlumbCliOutput *out)
{
    plumb_print_heading(out, "Keys of the lifter (and an example of each)");
    PlumbLifterField field;
    for (size_t i = 0; plumb_lifter_field(i, &field); i++) {
        char key[CELL_SIZE];
        PlumbText text = plumb_text_begin(key, sizeof key);
        if (!is_bare(field.section)) {
            plumb_text_string(&text, field.section);
            plumb_text_char(&text, '.');
        }
        plumb_text_string(&text, field.key);
        char meaning[PLUMB_MESSAGE_SIZE];
        PlumbText words = plumb_text_begin(meaning, sizeof meaning);
        plumb_text_string(&words, field.meaning);
        plumb_text_string(&words, " (");
        plumb_text_string(&words, field.example);
        plumb_text_string(&words, ")");
        print_key(out, key, meaning);
    }
}

void plumb_help_command(const PlumbCliCommand *command, PlumbCliOutput *out)
{
    char line[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Use: plumbar ");
    plumb_text_string(&text, command->name);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, command->synopsis);
    plumb_print_wrapped(out, line, 4);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, command->details, 0);
    plumb_print_heading(out, "Example");
    plumb_output_string(out, "  ");
    plumb_output_string(out, command->example);
    plumb_output_string(out, "\n");
    options_table(command->options, out);
    const bool measures = strcmp(command->name, "new") == 0 || strcmp(command->name, "body") == 0;
    if (measures) {
        lifter_list(out);
    } else if (strcmp(command->name, "sources") != 0) {
        settings_list(out);
        plumb_output_string(out, "\nKeys of the lifter: see plumbar help body\n");
    }
}
