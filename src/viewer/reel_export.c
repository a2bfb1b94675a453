/* SPDX-License-Identifier: MIT */
/* A film as a file: chart and key frames as the command draws them, and its series as CSV. */
#include "reel.h"

#include "export.h"
#include "page_trace.h"

#include <math.h>
#include <stdlib.h>

bool plumb_reel_written(const PlumbDesk *desk)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    return desk->page == PLUMB_PAGE_TRACE && reel != NULL && reel->fitted;
}

bool plumb_reel_export(PlumbDesk *desk, const char *path)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    PlumbError error = {0};
    PlumbReelFile *const file = calloc(1, sizeof *file);
    bool begun = false;
    if (file == NULL) {
        plumb_error_set(&error, PLUMB_OUT_OF_MEMORY, "export", "out of memory");
    } else if (!plumb_picture_find(path, &file->kind)) {
        plumb_error_set(&error, PLUMB_BAD_INPUT, "export",
                        "the name has to end in .pdf, .svg, .png or .csv");
    } else if (reel->reading || reel->drawing) {
        plumb_error_set(&error, PLUMB_BAD_INPUT, "export",
                        "the film is being worked on; once that has ended it can be");
    } else {
        PlumbText text = plumb_text_begin(file->path, sizeof file->path);
        plumb_text_string(&text, path);
        text = plumb_text_begin(file->name, sizeof file->name);
        plumb_text_string(&text, plumb_trace_picture(desk));
        text = plumb_text_begin(file->day, sizeof file->day);
        plumb_text_string(&text, desk->options->date);
        file->pages.units = desk->units;
        file->pages.paper = PLUMB_LIGHT_PAPER;
        begun = plumb_reel_draw(reel, file);
        plumb_error_set(&error, PLUMB_OUT_OF_MEMORY, "export", "out of memory");
    }
    if (begun) {
        plumb_desk_say(desk, false, "");
    } else {
        plumb_export_say(desk, path, false, error.status, &error);
    }
    free(file);
    return begun;
}

void plumb_reel_tell_export(PlumbDesk *desk)
{
    PlumbReel *const reel = desk->tracing->reel;
    const PlumbReelFile *const file = reel->file;
    if (file == NULL) {
        return;
    }
    if (file->written || file->status != PLUMB_OK) {
        plumb_export_say(desk, file->path, file->replaced, file->status, &file->error);
    } else {
        plumb_desk_say(desk, false, "Stopped: nothing was written.");
    }
    free(reel->file);
    reel->file = NULL;
}

void plumb_reel_csv(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbSeries *const series = &desk->tracing->reel->read->series;
    const int columns = plumb_film_columns(series);
    plumb_text_string(text, "frame,time_s");
    for (int i = 0; i < columns; i++) {
        plumb_text_char(text, ',');
        plumb_text_string(text, plumb_film_column_name(series, i));
    }
    plumb_text_char(text, '\n');
    for (int f = 0; f < series->frame_count; f++) {
        plumb_text_integer(text, f);
        plumb_text_char(text, ',');
        plumb_text_fixed(text, series->frame[f].time_s, 6);
        for (int i = 0; i < columns; i++) {
            const double value = plumb_film_column_value(series, i, f);
            plumb_text_char(text, ',');
            if (isfinite(value)) {
                plumb_text_fixed(text, value, 6);
            }
        }
        plumb_text_char(text, '\n');
    }
}
