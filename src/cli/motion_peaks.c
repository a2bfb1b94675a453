/* SPDX-License-Identifier: MIT */
/* What a way up in motion tells of any lift: peaks against rest, speeds, power. */
#include "motion_out.h"

enum { CELL_SIZE = 64 };

void plumb_motion_bare(PlumbCliTable *table, double value, int decimals)
{
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_fixed(&text, value, decimals);
    plumb_table_text(table, cell);
}

void plumb_motion_print_peaks(const PlumbCliPeak *peak, int count, PlumbUnits units,
                              PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrrrr", units);
    plumb_table_text(&table, "joint");
    plumb_table_text(&table, "peak in motion");
    plumb_table_text(&table, "at t [s]");
    plumb_table_text(&table, "peak at rest");
    plumb_table_text(&table, "motion adds");
    for (int i = 0; i < count; i++) {
        plumb_table_text(&table, peak[i].words);
        plumb_table_value(&table, peak[i].moving_n_m, PLUMB_Q_MOMENT);
        plumb_motion_bare(&table, peak[i].t_s, 2);
        plumb_table_value(&table, peak[i].rest_n_m, PLUMB_Q_MOMENT);
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_text_signed(&text, 100.0 * (peak[i].moving_n_m / peak[i].rest_n_m - 1.0), 1);
        plumb_text_string(&text, " %");
        plumb_table_text(&table, cell);
    }
    plumb_print_heading(out, "Peaks against the same poses at rest, among the instants shown");
    plumb_table_end(&table, 2, out);
}

void plumb_motion_speed_words(PlumbText *text, const PlumbCliPace *pace)
{
    plumb_text_string(text, "Bar speed ");
    plumb_text_fixed(text, pace->mean_bar_speed_m_s, 3);
    plumb_text_string(text, " m/s on average, ");
    plumb_text_fixed(text, pace->peak_bar_speed_m_s, 3);
    plumb_text_string(text, " m/s at most");
}

void plumb_motion_json_pace(PlumbJson object, const PlumbCliPace *pace)
{
    plumb_json_number(object, "rep_time_s", pace->rep_time_s);
    plumb_json_number(object, "mean_bar_speed_m_s", pace->mean_bar_speed_m_s);
    plumb_json_number(object, "peak_bar_speed_m_s", pace->peak_bar_speed_m_s);
    plumb_json_number(object, "peak_power_w", pace->peak_power_w);
}

static PlumbJson begin(PlumbJson object, const char *before, const char *each, const char *unit)
{
    char key[CELL_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, before);
    plumb_text_string(&text, each);
    plumb_text_string(&text, unit);
    return plumb_json_object(object, key);
}

void plumb_motion_json_peaks(PlumbJson object, const PlumbCliPeak *peak, int count,
                             const char *each)
{
    const PlumbJson moving = begin(object, "peak_moments", each, "_n_m");
    const PlumbJson rest = begin(object, "peak_static_moments", each, "_n_m");
    const PlumbJson at = begin(object, "peak_t", "", "_s");
    for (int i = 0; i < count; i++) {
        plumb_json_number(moving, peak[i].key, peak[i].moving_n_m);
        plumb_json_number(rest, peak[i].key, peak[i].rest_n_m);
        plumb_json_number(at, peak[i].key, peak[i].t_s);
    }
}

void plumb_motion_csv_moment(PlumbCsv *csv, const char *each, const char *joint)
{
    char name[96];
    PlumbText text = plumb_text_begin(name, sizeof name);
    plumb_text_string(&text, "motion_moment");
    plumb_text_string(&text, each);
    plumb_text_char(&text, '_');
    plumb_text_string(&text, joint);
    plumb_text_string(&text, "_n_m");
    plumb_csv_text(csv, name);
}
