/* SPDX-License-Identifier: MIT */
/* What a film's events and findings say, for the command and the window. */
#include <plumbar/film_reading.h>

#include <plumbar/advice.h>

#include <math.h>

int plumb_film_next_event(const PlumbSeries *series, int last)
{
    const double last_s = last < 0 ? -(double)INFINITY : series->event_s[last];
    int best = -1;
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        const double t = series->event_s[i];
        const bool after = t > last_s || (t == last_s && i > last);
        if (series->event_frame[i] >= 0 && after && (best < 0 || t < series->event_s[best])) {
            best = i;
        }
    }
    return best;
}

void plumb_film_finding_text(PlumbText *text, const PlumbFilmReading *reading, int finding,
                             PlumbUnits units)
{
    const PlumbFilmFinding *const found = &reading->finding[finding];
    PlumbSettingId setting[PLUMB_SETTING_COUNT];
    const int count = plumb_finding_settings(found->what.id, reading->series.lift, setting);
    plumb_finding_text(text, &found->what, units);
    plumb_text_string(text, " (± ");
    plumb_text_quantity(text, found->sd, found->what.quantity, units);
    plumb_text_string(text, ", at ");
    plumb_text_fixed(text, reading->time_s[found->frame], 2);
    plumb_text_string(text, " s, frame ");
    plumb_text_integer(text, found->frame);
    plumb_text_string(text, ".)");
    for (int i = 0; i < count; i++) {
        plumb_text_string(text, i == 0 ? " Settings that bear on it: " : ", ");
        plumb_text_string(text, plumb_setting(setting[i])->key);
    }
    plumb_text_string(text, count > 0 ? "." : "");
}

const char *plumb_film_view(const PlumbSeries *series)
{
    return series->front ? "front" : plumb_traced_view(&series->trace.still[0]);
}
