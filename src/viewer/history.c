/* SPDX-License-Identifier: MIT */
/* Undo and redo: whole sheets, the oldest dropped. */
#include "desk.h"

#include <string.h>

static void push(PlumbSheet *stack, int *count, const PlumbSheet *sheet)
{
    if (*count == PLUMB_HISTORY_MAX) {
        memmove(stack, stack + 1, (PLUMB_HISTORY_MAX - 1) * sizeof *stack);
        (*count)--;
    }
    stack[(*count)++] = *sheet;
}

void plumb_desk_keep(PlumbDesk *desk, unsigned key)
{
    PlumbHistory *const history = &desk->history;
    if (key == 0 || key != history->key) {
        push(history->past, &history->past_count, &desk->now);
    }
    history->future_count = 0;
    history->key = key;
    desk->now.unsaved = true;
}

bool plumb_desk_undo(PlumbDesk *desk)
{
    PlumbHistory *const history = &desk->history;
    history->key = 0;
    if (history->past_count == 0) {
        return false;
    }
    push(history->future, &history->future_count, &desk->now);
    desk->now = history->past[--history->past_count];
    plumb_desk_touch(desk);
    return true;
}

bool plumb_desk_redo(PlumbDesk *desk)
{
    PlumbHistory *const history = &desk->history;
    history->key = 0;
    if (history->future_count == 0) {
        return false;
    }
    push(history->past, &history->past_count, &desk->now);
    desk->now = history->future[--history->future_count];
    plumb_desk_touch(desk);
    return true;
}
