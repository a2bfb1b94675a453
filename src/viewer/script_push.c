/* SPDX-License-Identifier: MIT */
/* Events of a script, put into the queue that hands fill. */
#include "script_push.h"

#include <string.h>

bool plumb_script_show(PlumbStage *stage, PlumbError *error)
{
    plumb_stage_take_all(stage);
    return plumb_stage_frame(stage, error);
}

void plumb_push_button(Uint32 type, Uint8 button, int x, int y, int clicks)
{
    SDL_Event event;
    memset(&event, 0, sizeof event);
    event.type = type;
    event.button.button = button;
    event.button.clicks = (Uint8)clicks;
    event.button.x = x;
    event.button.y = y;
    SDL_PushEvent(&event);
}

void plumb_push_motion(int x, int y)
{
    SDL_Event event;
    memset(&event, 0, sizeof event);
    event.type = SDL_MOUSEMOTION;
    event.motion.x = x;
    event.motion.y = y;
    SDL_PushEvent(&event);
}

bool plumb_script_press(PlumbStage *stage, int x, int y, int clicks, PlumbError *error)
{
    plumb_push_button(SDL_MOUSEBUTTONDOWN, SDL_BUTTON_LEFT, x, y, clicks);
    return plumb_script_show(stage, error);
}

bool plumb_script_move(PlumbStage *stage, int x, int y, PlumbError *error)
{
    plumb_push_motion(x, y);
    return plumb_script_show(stage, error);
}

bool plumb_script_release(PlumbStage *stage, int x, int y, PlumbError *error)
{
    plumb_push_button(SDL_MOUSEBUTTONUP, SDL_BUTTON_LEFT, x, y, 1);
    return plumb_script_show(stage, error);
}

void plumb_push_key(SDL_Keycode key, Uint16 mod, Uint8 repeat, bool up)
{
    SDL_Event event;
    memset(&event, 0, sizeof event);
    event.type = up ? SDL_KEYUP : SDL_KEYDOWN;
    event.key.keysym.sym = key;
    event.key.keysym.mod = mod;
    event.key.repeat = repeat;
    SDL_PushEvent(&event);
}
