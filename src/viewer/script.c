/* SPDX-License-Identifier: MIT */
/* The commands of a script. */
#include "script.h"

#include "book.h"
#include "page_trace.h"
#include "script_push.h"

#include "ruler.h"

#include <plumbar/quantity.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WORDS_MAX = 8, LINE_SIZE = 512, PATH_SIZE = 1024 };

typedef struct Line {
    char text[LINE_SIZE]; /* cut into words */
    char whole[LINE_SIZE];
    char *word[WORDS_MAX];
    int count;
    const char *rest; /* all behind the command, as it stands */
} Line;

typedef PlumbStatus (*Play)(PlumbStage *stage, const Line *line, PlumbError *error);

static PlumbStatus refuse(PlumbError *error, const char *command, const char *why)
{
    return plumb_error_set(error, PLUMB_BAD_INPUT, command, why);
}

/* Whole numbers in word[1..count]. */
static bool numbers(const Line *line, int count, int *value)
{
    if (line->count != count + 1) {
        return false;
    }
    for (int i = 0; i < count; i++) {
        double number = 0.0;
        const char *const word = line->word[i + 1];
        if (!plumb_number_read(word, strlen(word), &number) || fabs(number) > 100000.0) {
            return false;
        }
        value[i] = (int)lround(number);
    }
    return true;
}

static PlumbStatus shown(bool ok)
{
    return ok ? PLUMB_OK : PLUMB_UNSUPPORTED;
}

static PlumbStatus play_size(PlumbStage *stage, const Line *line, PlumbError *error)
{
    const char *const x = line->count == 2 ? strchr(line->word[1], 'x') : NULL;
    double width = 0.0;
    double height = 0.0;
    if (x == NULL || !plumb_number_read(line->word[1], (size_t)(x - line->word[1]), &width) ||
        !plumb_number_read(x + 1, strlen(x + 1), &height) || width < 1.0 || height < 1.0 ||
        width > 8192.0 || height > 8192.0) {
        return refuse(error, "size", "a size like 1280x800 is allowed");
    }
    SDL_SetWindowSize(stage->window, (int)width, (int)height);
    stage->desk->dirty = true;
    return shown(plumb_script_show(stage, error));
}

/* "ctrl+shift+Z", "Tab", "shift+Right". */
static bool read_key(const char *name, SDL_Keycode *key, Uint16 *mod)
{
    *mod = KMOD_NONE;
    for (;;) {
        if (strncmp(name, "ctrl+", 5) == 0) {
            *mod = (Uint16)(*mod | KMOD_LCTRL);
            name += 5;
        } else if (strncmp(name, "shift+", 6) == 0) {
            *mod = (Uint16)(*mod | KMOD_LSHIFT);
            name += 6;
        } else {
            break;
        }
    }
    *key = SDL_GetKeyFromName(name);
    return *key != SDLK_UNKNOWN;
}

static PlumbStatus play_key(PlumbStage *stage, const Line *line, PlumbError *error)
{
    SDL_Keycode key = SDLK_UNKNOWN;
    Uint16 mod = KMOD_NONE;
    double repeats = 0.0;
    if (line->count < 2 || line->count > 3 || !read_key(line->word[1], &key, &mod) ||
        (line->count == 3 && !plumb_number_read(line->word[2], strlen(line->word[2]), &repeats))) {
        return refuse(error, "key",
                      "a key like Tab, shift+Right or ctrl+Z is allowed, and how "
                      "often it repeats while held");
    }
    plumb_push_key(key, mod, 0, false);
    bool ok = plumb_script_show(stage, error);
    for (int i = 0; i < (int)repeats && ok; i++) {
        plumb_push_key(key, mod, 1, false);
        ok = plumb_script_show(stage, error);
    }
    plumb_push_key(key, mod, 0, true);
    return shown(ok && plumb_script_show(stage, error));
}

static PlumbStatus play_click(PlumbStage *stage, const Line *line, PlumbError *error)
{
    int at[2];
    const int clicks = strcmp(line->word[0], "click") == 0 ? 1 : 2;
    if (!numbers(line, 2, at)) {
        return refuse(error, line->word[0], "X Y in pixels are wanted");
    }
    for (int i = 1; i <= clicks; i++) {
        if (!plumb_script_press(stage, at[0], at[1], i, error) ||
            !plumb_script_release(stage, at[0], at[1], error)) {
            return PLUMB_UNSUPPORTED;
        }
    }
    return PLUMB_OK;
}

static PlumbStatus drag(PlumbStage *stage, const int at[4], int steps, PlumbError *error)
{
    bool ok = plumb_script_press(stage, at[0], at[1], 1, error);
    for (int i = 1; i <= steps && ok; i++) {
        ok = plumb_script_move(stage, at[0] + (at[2] - at[0]) * i / steps,
                               at[1] + (at[3] - at[1]) * i / steps, error);
    }
    return shown(ok && plumb_script_release(stage, at[2], at[3], error));
}

/* A place of the traced picture in the window. */
static void spot_of(const PlumbStage *stage, const int px[2], int at[2])
{
    const PlumbVec2 mm =
        plumb_picture_paper(&stage->desk->tracing->view, (PlumbVec2){(double)px[0], (double)px[1]});
    at[0] = (int)lround(mm.x * stage->px_per_mm);
    at[1] = (int)lround(mm.y * stage->px_per_mm);
}

/* spot X Y: a click on a pixel of the picture; carry X1 Y1 X2 Y2: a drag between two. */
static PlumbStatus play_spot(PlumbStage *stage, const Line *line, PlumbError *error)
{
    const bool carry = strcmp(line->word[0], "carry") == 0;
    int px[4];
    int at[4];
    if (!numbers(line, carry ? 4 : 2, px)) {
        return refuse(error, line->word[0], "pixels of the picture are wanted");
    }
    spot_of(stage, px, at);
    spot_of(stage, carry ? px + 2 : px, at + 2);
    return drag(stage, at, 2, error);
}

/* hover X Y: the pointer without a button. */
static PlumbStatus play_hover(PlumbStage *stage, const Line *line, PlumbError *error)
{
    int at[2];
    if (!numbers(line, 2, at)) {
        return refuse(error, "hover", "X Y in pixels are wanted");
    }
    return shown(plumb_script_move(stage, at[0], at[1], error));
}

/* pan X1 Y1 X2 Y2: a drag with the right button. */
static PlumbStatus play_pan(PlumbStage *stage, const Line *line, PlumbError *error)
{
    int at[4];
    if (!numbers(line, 4, at)) {
        return refuse(error, "pan", "X1 Y1 X2 Y2 are wanted");
    }
    plumb_push_button(SDL_MOUSEBUTTONDOWN, SDL_BUTTON_RIGHT, at[0], at[1], 1);
    plumb_push_motion(at[2], at[3]);
    plumb_push_button(SDL_MOUSEBUTTONUP, SDL_BUTTON_RIGHT, at[2], at[3], 1);
    return shown(plumb_script_show(stage, error));
}

static PlumbStatus play_drag(PlumbStage *stage, const Line *line, PlumbError *error)
{
    int at[5];
    if (!numbers(line, 5, at) || at[4] < 1) {
        return refuse(error, "drag", "X1 Y1 X2 Y2 STEPS are wanted");
    }
    return drag(stage, at, at[4], error);
}

/* Motion and release of one batch, as a quick hand sends them. */
static PlumbStatus play_flick(PlumbStage *stage, const Line *line, PlumbError *error)
{
    int at[4];
    if (!numbers(line, 4, at)) {
        return refuse(error, "flick", "X1 Y1 X2 Y2 are wanted");
    }
    plumb_push_button(SDL_MOUSEBUTTONDOWN, SDL_BUTTON_LEFT, at[0], at[1], 1);
    plumb_push_motion((at[0] + at[2]) / 2, (at[1] + at[3]) / 2);
    plumb_push_motion(at[2], at[3]);
    plumb_push_button(SDL_MOUSEBUTTONUP, SDL_BUTTON_LEFT, at[2], at[3], 1);
    return shown(plumb_script_show(stage, error));
}

static const PlumbRulerPlace *place_of(const PlumbStage *stage, const char *key)
{
    const PlumbSetting *const setting = plumb_ruler_find(key);
    for (int i = 0; setting != NULL && i < stage->desk->place_count; i++) {
        if (stage->desk->place[i].id == setting->id) {
            return &stage->desk->place[i];
        }
    }
    return NULL;
}

/* pull stance 45cm 10; press stance 45cm; move stance 45cm; release: a ruler's pointer, wherever
 * the layout puts it. */
static PlumbStatus play_pull(PlumbStage *stage, const Line *line, PlumbError *error)
{
    const char *const command = line->word[0];
    const PlumbRulerPlace *const place = line->count >= 3 ? place_of(stage, line->word[1]) : NULL;
    double to = 0.0;
    double steps = 1.0;
    if (place == NULL ||
        plumb_quantity_read(line->word[2], strlen(line->word[2]),
                            plumb_ruler_row(place->id)->quantity, &to, error) != PLUMB_OK ||
        (line->count == 4 && !plumb_number_read(line->word[3], strlen(line->word[3]), &steps))) {
        return refuse(error, command,
                      "a ruler in view, a value with its unit, and steps are "
                      "wanted");
    }
    const double value = plumb_ruler_value(stage->desk, place->id);
    const double scale = stage->px_per_mm;
    const int y = (int)lround(scale * (place->y_mm - 1.0));
    const int x0 = (int)lround(scale * plumb_ruler_place_mm(place, value));
    const int x1 = (int)lround(scale * plumb_ruler_place_mm(place, to));
    if (strcmp(command, "press") == 0) {
        return shown(plumb_script_press(stage, x1, y, 1, error));
    }
    if (strcmp(command, "move") == 0) {
        return shown(plumb_script_move(stage, x1, y, error));
    }
    const int at[4] = {x0, y, x1, y};
    return drag(stage, at, (int)fmax(steps, 1.0), error);
}

static PlumbStatus play_release(PlumbStage *stage, const Line *line, PlumbError *error)
{
    (void)line;
    const PlumbVec2 at = stage->desk->drag.at_mm;
    return shown(plumb_script_release(stage, (int)lround(at.x * stage->px_per_mm),
                                      (int)lround(at.y * stage->px_per_mm), error));
}

static PlumbStatus play_wheel(PlumbStage *stage, const Line *line, PlumbError *error)
{
    int at[3];
    if (!numbers(line, 3, at)) {
        return refuse(error, "wheel", "X Y NOTCHES are wanted");
    }
    SDL_Event event;
    memset(&event, 0, sizeof event);
    event.type = SDL_MOUSEWHEEL;
    event.wheel.mouseX = at[0];
    event.wheel.mouseY = at[1];
    event.wheel.y = at[2];
    SDL_PushEvent(&event);
    return shown(plumb_script_show(stage, error));
}

static PlumbStatus play_type(PlumbStage *stage, const Line *line, PlumbError *error)
{
    SDL_Event event;
    memset(&event, 0, sizeof event);
    event.type = SDL_TEXTINPUT;
    const size_t length = strlen(line->rest);
    if (length == 0 || length >= sizeof event.text.text) {
        return refuse(error, "type", "1 to 31 bytes of text are wanted");
    }
    memcpy(event.text.text, line->rest, length);
    SDL_PushEvent(&event);
    return shown(plumb_script_show(stage, error));
}

static PlumbStatus play_set(PlumbStage *stage, const Line *line, PlumbError *error)
{
    const char *const key = line->count >= 3 ? line->word[1] : "";
    const PlumbSetting *const setting = plumb_ruler_find(key);
    if (setting == NULL) {
        return refuse(error, "set", "a setting and its value are wanted");
    }
    const char *const value = strstr(line->rest, key) + strlen(key) + 1;
    if (!plumb_ruler_type(stage->desk, setting->id, value, error)) {
        return PLUMB_BAD_INPUT;
    }
    return shown(plumb_script_show(stage, error));
}

static PlumbStatus play_shot(PlumbStage *stage, const Line *line, PlumbError *error)
{
    char path[PATH_SIZE];
    PlumbText text = plumb_text_begin(path, sizeof path);
    const char *const folder = stage->desk->options->shot_folder;
    if (line->count != 2) {
        return refuse(error, "shot", "the name of a PNG is wanted");
    }
    if (folder != NULL) {
        plumb_text_string(&text, folder);
        plumb_text_char(&text, '/');
    }
    plumb_text_string(&text, line->word[1]);
    if (!plumb_stage_finish(stage, error)) {
        return PLUMB_UNSUPPORTED;
    }
    return plumb_stage_shot(stage, path, error);
}

/* state NAME: "at NAME", then the state, so that a reader finds the place. */
static PlumbStatus play_state(PlumbStage *stage, const Line *line, PlumbError *error)
{
    if (!plumb_script_show(stage, error)) {
        return PLUMB_UNSUPPORTED;
    }
    if (line->count > 1) {
        printf("at %s\n", line->word[1]);
    }
    plumb_stage_print_state(stage, true);
    return PLUMB_OK;
}

static PlumbStatus play_finish(PlumbStage *stage, const Line *line, PlumbError *error)
{
    (void)line;
    return shown(plumb_stage_finish(stage, error));
}

/* drop PATH: as a person drops a file on the window. */
static PlumbStatus play_drop(PlumbStage *stage, const Line *line, PlumbError *error)
{
    SDL_Event event;
    memset(&event, 0, sizeof event);
    event.type = SDL_DROPFILE;
    event.drop.file = SDL_strdup(line->rest);
    SDL_PushEvent(&event);
    return shown(plumb_script_show(stage, error));
}

/* wait MILLISECONDS. */
static PlumbStatus play_wait(PlumbStage *stage, const Line *line, PlumbError *error)
{
    int ms[1];
    if (!numbers(line, 1, ms) || ms[0] < 0) {
        return refuse(error, "wait", "milliseconds are wanted");
    }
    SDL_Delay((Uint32)ms[0]);
    return shown(plumb_script_show(stage, error));
}

/* The window comes to the front again. */
static PlumbStatus play_front(PlumbStage *stage, const Line *line, PlumbError *error)
{
    (void)line;
    stage->desk->watched_s = 0.0;
    SDL_Event event;
    memset(&event, 0, sizeof event);
    event.type = SDL_WINDOWEVENT;
    event.window.event = SDL_WINDOWEVENT_FOCUS_GAINED;
    SDL_PushEvent(&event);
    return shown(plumb_script_show(stage, error));
}

static PlumbStatus play_bench(PlumbStage *stage, const Line *line, PlumbError *error)
{
    const PlumbRulerPlace *const place = line->count == 3 ? place_of(stage, line->word[1]) : NULL;
    double steps = 0.0;
    if (place == NULL || !plumb_number_read(line->word[2], strlen(line->word[2]), &steps) ||
        steps < 1.0 || steps > 100000.0) {
        return refuse(error, "bench", "a ruler in view and a number of steps are wanted");
    }
    return plumb_bench(stage, place->id, (int)steps, error);
}

/* From here on the window is in a person's hands. */
static PlumbStatus play_hands(PlumbStage *stage, const Line *line, PlumbError *error)
{
    (void)line;
    plumb_stage_print_state(stage, true);
    return shown(plumb_stage_run(stage, error));
}

static const struct {
    const char *name;
    Play play;
} COMMANDS[] = {
    {"size", play_size},   {"key", play_key},         {"click", play_click},
    {"twice", play_click}, {"drag", play_drag},       {"flick", play_flick},
    {"pull", play_pull},   {"press", play_pull},      {"move", play_pull},
    {"wheel", play_wheel}, {"release", play_release}, {"type", play_type},
    {"set", play_set},     {"shot", play_shot},       {"state", play_state},
    {"drop", play_drop},   {"wait", play_wait},       {"front", play_front},
    {"spot", play_spot},   {"carry", play_spot},      {"hover", play_hover},
    {"pan", play_pan},     {"bench", play_bench},     {"finish", play_finish},
    {"hands", play_hands},
};

/* Splits at blanks; lines that are empty or start with # have no words. */
static bool split(const char *from, size_t length, Line *line)
{
    if (length >= sizeof line->text) {
        return false;
    }
    memcpy(line->text, from, length);
    line->text[length] = '\0';
    memcpy(line->whole, line->text, length + 1);
    const char *const space = strchr(line->whole, ' ');
    line->rest = space != NULL ? space + 1 : "";
    line->count = 0;
    char *save = NULL;
    for (char *word = strtok_r(line->text, " \t\r", &save); word != NULL && line->count < WORDS_MAX;
         word = strtok_r(NULL, " \t\r", &save)) {
        line->word[line->count++] = word;
    }
    if (line->count > 0 && line->word[0][0] == '#') {
        line->count = 0;
    }
    return true;
}

static PlumbStatus play_line(PlumbStage *stage, const Line *line, PlumbError *error)
{
    for (size_t i = 0; i < sizeof COMMANDS / sizeof COMMANDS[0]; i++) {
        if (strcmp(COMMANDS[i].name, line->word[0]) == 0) {
            return COMMANDS[i].play(stage, line, error);
        }
    }
    return refuse(error, line->word[0], "no such command of a script");
}

PlumbStatus plumb_script_play(PlumbStage *stage, const char *bytes, PlumbError *error)
{
    if (!plumb_script_show(stage, error)) {
        return PLUMB_UNSUPPORTED;
    }
    int number = 0;
    for (const char *at = bytes; *at != '\0' && !stage->desk->quit;) {
        const char *const end = at + strcspn(at, "\n");
        Line line;
        number++;
        PlumbStatus status = PLUMB_OK;
        if (!split(at, (size_t)(end - at), &line)) {
            status = refuse(error, "script", "the line is too long");
        } else if (line.count > 0) {
            status = play_line(stage, &line, error);
        }
        if (status != PLUMB_OK) {
            error->line = number;
            return error->status;
        }
        at = *end == '\n' ? end + 1 : end;
    }
    return PLUMB_OK;
}
