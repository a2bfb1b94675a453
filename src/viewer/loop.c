/* SPDX-License-Identifier: MIT */
/* Events become hands; the loop sleeps while nothing happens. */
#include "stage.h"

#include "book.h"
#include "hands.h"
#include "journal.h"
#include "page_trace.h"
#include "pages.h"
#include "work.h"

#include <stdio.h>
#include <string.h>

static const double idle_work_s = 0.006;

static PlumbVec2 to_mm(const PlumbStage *stage, int x, int y)
{
    return (PlumbVec2){x / stage->px_per_mm, y / stage->px_per_mm};
}

static unsigned mods_of(SDL_Keymod mod)
{
    return ((mod & KMOD_SHIFT) != 0 ? (unsigned)PLUMB_MOD_SHIFT : 0U) |
           ((mod & KMOD_CTRL) != 0 ? (unsigned)PLUMB_MOD_CTRL : 0U);
}

static void flush_motion(PlumbStage *stage)
{
    if (stage->motion) {
        stage->motion = false;
        plumb_hand_move(stage->desk, stage->motion_mm);
    }
}

static void take_window(PlumbStage *stage, const SDL_WindowEvent *event)
{
    switch (event->event) {
    case SDL_WINDOWEVENT_FOCUS_GAINED:
        plumb_book_watch(stage->desk);
        break;
    case SDL_WINDOWEVENT_EXPOSED:
    case SDL_WINDOWEVENT_SIZE_CHANGED:
    case SDL_WINDOWEVENT_SHOWN:
    case SDL_WINDOWEVENT_RESTORED:
        stage->desk->dirty = true;
        stage->desk->repaint = true;
        break;
    default:
        break;
    }
}

static void take_wheel(PlumbStage *stage, const SDL_MouseWheelEvent *event)
{
    const int notches = event->direction == SDL_MOUSEWHEEL_FLIPPED ? -event->y : event->y;
    if (notches != 0) {
        plumb_hand_wheel(stage->desk, to_mm(stage, event->mouseX, event->mouseY), notches);
    }
}

/* A press means what the person sees: the last frame's widgets, answers to what was changed since.
 */
static void take_button(PlumbStage *stage, const SDL_MouseButtonEvent *event)
{
    const PlumbVec2 at_mm = to_mm(stage, event->x, event->y);
    if (event->button != SDL_BUTTON_LEFT) {
        plumb_trace_pan(stage->desk, at_mm, event->type == SDL_MOUSEBUTTONDOWN);
        return;
    }
    if (event->type == SDL_MOUSEBUTTONDOWN) {
        plumb_desk_settle(stage->desk);
        plumb_hand_press(stage->desk, at_mm, event->clicks);
    } else {
        plumb_hand_release(stage->desk, at_mm);
    }
}

/* How long to sleep, in milliseconds: until the journal is due, or for ever. */
static int sleep_ms(PlumbDesk *desk)
{
    const double left_s = plumb_journal_tend(desk);
    return left_s < 0.0 ? -1 : 1 + (int)(1e3 * left_s);
}

static void take(PlumbStage *stage, const SDL_Event *event)
{
    PlumbDesk *const desk = stage->desk;
    if (event->type == SDL_MOUSEMOTION) {
        stage->motion = true;
        stage->motion_mm = to_mm(stage, event->motion.x, event->motion.y);
        return;
    }
    flush_motion(stage);
    switch (event->type) {
    case SDL_QUIT:
        desk->quit = true;
        break;
    case SDL_WINDOWEVENT:
        take_window(stage, &event->window);
        break;
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
        take_button(stage, &event->button);
        break;
    case SDL_MOUSEWHEEL:
        plumb_desk_settle(desk);
        take_wheel(stage, &event->wheel);
        break;
    case SDL_KEYDOWN:
        plumb_desk_settle(desk);
        plumb_hand_key(desk, event->key.keysym.sym, mods_of((SDL_Keymod)event->key.keysym.mod),
                       event->key.repeat != 0);
        break;
    case SDL_KEYUP:
        plumb_hand_key_up(desk);
        break;
    case SDL_DROPFILE:
        if (event->drop.file != NULL && !desk->drag.on) {
            plumb_book_open(desk, event->drop.file);
        }
        SDL_free(event->drop.file);
        break;
    case SDL_TEXTINPUT:
        plumb_hand_text(desk, event->text.text);
        break;
    default:
        break;
    }
}

void plumb_stage_take_all(PlumbStage *stage)
{
    SDL_Event event;
    while (!stage->desk->quit && SDL_PollEvent(&event) != 0) {
        take(stage, &event);
    }
    flush_motion(stage);
}

bool plumb_stage_run(PlumbStage *stage, PlumbError *error)
{
    PlumbDesk *const desk = stage->desk;
    while (!desk->quit) {
        if (!plumb_stage_frame(stage, error)) {
            return false;
        }
        SDL_Event event;
        const bool waiting = SDL_PollEvent(&event) != 0;
        const bool more_to_do = !waiting && (plumb_work(desk, idle_work_s, desk->drag.on) ||
                                             plumb_pages_work(desk, idle_work_s) || desk->dirty);
        if (waiting || (!more_to_do && SDL_WaitEventTimeout(&event, sleep_ms(desk)) != 0)) {
            take(stage, &event);
            plumb_stage_take_all(stage);
        }
    }
    return true;
}

void plumb_stage_print_state(PlumbStage *stage, bool always)
{
    if (!stage->states) {
        return;
    }
    char line[PLUMB_STATE_LINE_SIZE];
    plumb_state_line(stage->desk, line, sizeof line);
    if (always || strcmp(line, stage->line) != 0) {
        memcpy(stage->line, line, sizeof line);
        puts(line);
        fflush(stdout);
    }
}
