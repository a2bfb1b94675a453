/* SPDX-License-Identifier: MIT */
/* What the window can do, as one table: keys, buttons and the page of keys are read from it. */
#ifndef PLUMBAR_VIEWER_COMMAND_H
#define PLUMBAR_VIEWER_COMMAND_H

#include "desk.h"

typedef enum PlumbCommandId {
    PLUMB_CMD_PAGE_DRAWING,
    PLUMB_CMD_PAGE_PATH,
    PLUMB_CMD_PAGE_COMPARE,
    PLUMB_CMD_PAGE_MAP,
    PLUMB_CMD_PAGE_TRACE,
    PLUMB_CMD_OPEN,
    PLUMB_CMD_SAVE,
    PLUMB_CMD_SAVE_AS,
    PLUMB_CMD_NEW,
    PLUMB_CMD_CARD,
    PLUMB_CMD_FILMING,
    PLUMB_CMD_LIFT,
    PLUMB_CMD_SETUP,
    PLUMB_CMD_NAME,
    PLUMB_CMD_PENCIL,
    PLUMB_CMD_SWAP,
    PLUMB_CMD_UNDO,
    PLUMB_CMD_REDO,
    PLUMB_CMD_UNITS,
    PLUMB_CMD_PAPER,
    PLUMB_CMD_LARGER,
    PLUMB_CMD_SMALLER,
    PLUMB_CMD_EXPORT,
    PLUMB_CMD_HANDOUT,
    PLUMB_CMD_SHARE,
    PLUMB_CMD_LOG,
    PLUMB_CMD_KEYS,
    PLUMB_CMD_QUIT,
    PLUMB_CMD_TRY,
    PLUMB_CMD_BODY,
    PLUMB_CMD_WORKING,
    PLUMB_CMD_PLAY,
    PLUMB_CMD_MAP_FIGURE,
    PLUMB_CMD_MAP_X,
    PLUMB_CMD_MAP_Y,
    PLUMB_CMD_TRACE_USE,
    PLUMB_CMD_TRACE_MIRROR,
    PLUMB_CMD_TRACE_FRONT,
    PLUMB_CMD_TRACE_AIR,
    PLUMB_CMD_TRACE_CAMERA,
    PLUMB_CMD_TRACE_LENGTH,
    PLUMB_CMD_TRACE_WHOLE,
    PLUMB_CMD_TRACE_ADD,
    PLUMB_CMD_TRACE_PLAY,
    PLUMB_CMD_TRACE_SLOW,
    PLUMB_CMD_TRACE_FOLLOW,
    PLUMB_CMD_TRACE_DOUBT,
    PLUMB_CMD_TRACE_CHART,
    PLUMB_CMD_TRACE_RATE,
    PLUMB_CMD_ANKLE,
    PLUMB_CMD_KNEE,
    PLUMB_CMD_HIP,
    PLUMB_CMD_BACK,
    PLUMB_CMD_SHOULDER,
    PLUMB_COMMAND_COUNT
} PlumbCommandId;

typedef struct PlumbCommand {
    int key; /* SDL keycode */
    unsigned mods;
    const char *keys;   /* as people write them */
    const char *button; /* "" where it has none */
    int rank;           /* of the button: the highest are left out first; 0 for none */
    const char *help;
    void (*run)(PlumbDesk *desk, int argument);
    int argument;
} PlumbCommand;

const PlumbCommand *plumb_command(PlumbCommandId id);
/* The word on its button just now: a button that switches says what is on. */
void plumb_command_words(const PlumbDesk *desk, PlumbCommandId id, PlumbText *text);
/* Whether it can do something now. */
bool plumb_command_open(const PlumbDesk *desk, PlumbCommandId id);
void plumb_command_run(PlumbDesk *desk, PlumbCommandId id);
/* PLUMB_COMMAND_COUNT where no command has this key. */
PlumbCommandId plumb_command_of_key(int key, unsigned mods);

#endif
