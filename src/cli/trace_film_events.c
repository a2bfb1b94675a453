/* SPDX-License-Identifier: MIT */
/* The events of a film as a table: when, and the figures that its lift and view show. */
#include "report.h"
#include "trace_film.h"

static void put_time(PlumbText *text, double t_s)
{
    plumb_text_fixed(text, t_s, 2);
    plumb_text_string(text, " s");
}

/* A column of the events behind time and frame. */
typedef struct EventColumn {
    const char *head;
    int reading; /* -1: the bar's speed, -2: the knees' spread */
} EventColumn;

enum { SPEED = -1, KNEES = -2, COLUMNS_MOST = 6 };

static const EventColumn side_columns[] = {
    {"bar", PLUMB_READ_bar_height}, {"bar, fore", PLUMB_READ_bar_over},
    {"hip", PLUMB_READ_hip_height}, {"back angle", PLUMB_ANG_back},
    {"bar speed", SPEED},           {NULL, 0},
};
static const EventColumn front_columns[] = {{"knees over ankles", KNEES}, {NULL, 0}};
static const EventColumn press_columns[] = {
    {"bar above", PLUMB_READ_bar_above_shoulder},
    {"toward feet", PLUMB_READ_bar_from_shoulder},
    {"upper arm", PLUMB_READ_upper_arm},
    {"elbow off bar", PLUMB_READ_elbow_off_bar},
    {"bar speed", SPEED},
    {NULL, 0},
};
static const EventColumn press_end_columns[] = {
    {"bar above", PLUMB_READ_bar_above_shoulder},
    {"upper arm", PLUMB_READ_upper_arm},
    {"forearm lean", PLUMB_READ_forearm_front},
    {"elbow outside", PLUMB_READ_elbow_off_hand},
    {"bar speed", SPEED},
    {NULL, 0},
};

/* Of a press what rests on an elbow that was not seen is in brackets. */
static void cell_event(PlumbCliTable *table, const PlumbSeriesFrame *frame, bool press, int reading,
                       PlumbUnits units)
{
    char cell[PLUMB_CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (reading == KNEES) {
        plumb_table_value(table, frame->spread_frac, PLUMB_Q_NUMBER);
        return;
    }
    if (reading == SPEED) {
        plumb_text_fixed(&text, frame->bar_speed_m_s, 2);
        plumb_text_string(&text, " m/s");
        plumb_table_text(table, cell);
        return;
    }
    const PlumbQuantity quantity = plumb_reading_quantity((PlumbReading)reading);
    const double value = reading == PLUMB_READ_bar_height   ? frame->bar_m.y
                         : reading == PLUMB_READ_bar_over   ? frame->bar_m.x
                         : reading == PLUMB_READ_hip_height ? frame->pose.hip_height_m
                                                            : frame->value[reading];
    const bool guessed = press && !frame->elbow_seen && reading >= PLUMB_READ_upper_arm;
    if (!guessed) {
        plumb_table_value(table, value, quantity);
        return;
    }
    plumb_text_string(&text, "(");
    plumb_text_quantity(&text, value, quantity, units);
    plumb_text_string(&text, ")");
    plumb_table_text(table, cell);
}

void plumb_film_events(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out)
{
    static const char *const layouts[] = {[1] = "lrrr", [5] = "lrrrrrrr"};
    const PlumbSeries *const series = &film->read->series;
    const bool press = series->lift == PLUMB_BENCH;
    const EventColumn *const column = press ? (series->end_view ? press_end_columns : press_columns)
                                      : series->front ? front_columns
                                                      : side_columns;
    int count = 0;
    bool guessed = false;
    while (column[count].head != NULL) {
        count++;
    }
    PlumbCliTable table = plumb_table_begin(layouts[count], units);
    plumb_print_heading(out, "Events");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "time");
    plumb_table_text(&table, "frame");
    for (int i = 0; i < count; i++) {
        plumb_table_text(&table, column[i].head);
    }
    for (int i = plumb_film_next_event(series, -1); i >= 0; i = plumb_film_next_event(series, i)) {
        const PlumbSeriesFrame *const frame = &series->frame[series->event_frame[i]];
        char cell[PLUMB_CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        put_time(&text, series->event_s[i]);
        plumb_table_text(&table, plumb_event_text((PlumbEvent)i, series->lift));
        plumb_table_text(&table, cell);
        text = plumb_text_begin(cell, sizeof cell);
        plumb_text_integer(&text, series->event_frame[i]);
        plumb_table_text(&table, cell);
        for (int k = 0; k < count; k++) {
            cell_event(&table, frame, press, column[k].reading, units);
        }
        guessed = guessed || (press && !frame->elbow_seen);
    }
    plumb_table_end(&table, 2, out);
    if (guessed) {
        plumb_output_string(out, "  In brackets: the elbow was not seen, and is held to be near "
                                 "under the bar.\n");
    }
}
