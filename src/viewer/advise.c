/* SPDX-License-Identifier: MIT */
/* Options with reasons, never one verdict: the ranking is the study's. */
#include "advise.h"

#include "hands.h"
#include "ruler.h"

#include <math.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

/* The goals of an answer in their order: warnings, notes, aims; false past the last. */
static bool goal_at(const PlumbPosed *posed, int index, PlumbGoal *goal)
{
    static const PlumbSeverity ORDER[2] = {PLUMB_WARNING, PLUMB_NOTE};
    const PlumbLift lift = posed->setup.lift;
    int count = 0;
    const PlumbFinding *const finding = plumb_solved_findings(&posed->solved, &count);
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < count; i++) {
            if (finding[i].severity == ORDER[pass] && index-- == 0) {
                *goal = plumb_goal_of_finding(&finding[i], lift);
                return true;
            }
        }
    }
    for (int i = 0; i < PLUMB_AIM_COUNT; i++) {
        if (plumb_goal_of_aim((PlumbAim)i, lift, goal) && index-- == 0) {
            return true;
        }
    }
    return false;
}

static void rank(PlumbDesk *desk, const PlumbGoal *goal)
{
    PlumbTry *const try = &desk->try_first;
    try->on = true;
    plumb_advice_rank(&desk->now.lifter, plumb_desk_setup(desk), goal, desk->units, try->option,
                      &try->advice);
    plumb_tried_begin(desk);
    plumb_desk_say(desk, false, "");
    if (try->advice.worth_count > 0) {
        plumb_desk_focus(desk, PLUMB_WIDGET_OPTION, 0);
    }
}

void plumb_advise_aim(PlumbDesk *desk, PlumbAim aim)
{
    const PlumbPosed *const posed = plumb_desk_inked(desk);
    PlumbGoal goal;
    for (int i = 0; goal_at(posed, i, &goal); i++) {
        if (goal.aim == aim) {
            desk->try_first.index = i;
            rank(desk, &goal);
            return;
        }
    }
}

void plumb_advise_next(PlumbDesk *desk)
{
    PlumbTry *const try = &desk->try_first;
    const PlumbPosed *const posed = plumb_desk_inked(desk);
    PlumbGoal goal;
    try->index = try->on ? try->index + 1 : 0;
    if (!goal_at(posed, try->index, &goal)) {
        try->index = 0;
        if (!goal_at(posed, 0, &goal)) {
            return;
        }
    }
    rank(desk, &goal);
}

void plumb_advise_take(PlumbDesk *desk, int index)
{
    const PlumbTry *const try = &desk->try_first;
    if (!try->on || index < 0 || index >= try->advice.worth_count) {
        return;
    }
    const PlumbOption option = try->option[index];
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_option_text(&text, &option, desk->units);
    plumb_text_string(&text, ". Pencilled is what was; X swaps, Ctrl+Z takes it back.");
    plumb_desk_keep(desk, 0);
    PlumbSheet *const now = &desk->now;
    now->pencilled = true;
    now->pencil = *plumb_desk_setup(desk);
    now->pencil_lifter = now->lifter;
    now->pencil_record = now->record;
    memcpy(now->pencil_name, now->setup_name[now->lift], sizeof now->pencil_name);
    now->setup[now->lift] = option.setup;
    plumb_desk_touch(desk);
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)option.setting);
    plumb_hand_reveal(desk, option.setting);
    plumb_desk_say(desk, false, words);
}

void plumb_advise_show(PlumbDesk *desk, PlumbFindingId id)
{
    const PlumbFamily *const family = plumb_desk_family(desk);
    int count = 0;
    const PlumbFinding *const finding =
        plumb_solved_findings(&plumb_desk_inked(desk)->solved, &count);
    PlumbSettingId setting[PLUMB_SETTING_COUNT];
    for (int i = 0; i < count; i++) {
        if (finding[i].id != id) {
            continue;
        }
        if (finding[i].point < PLUMB_POINT_COUNT) {
            plumb_desk_select(desk, family->arm_at(finding[i].point));
        }
        if (plumb_finding_settings(id, desk->now.lift, setting) > 0) {
            plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)setting[0]);
            plumb_hand_reveal(desk, setting[0]);
        }
        desk->dirty = true;
        return;
    }
}

/* How the list was judged. */
static void judged_words(const PlumbTried *tried, PlumbText *text)
{
    if (tried->settled) {
        plumb_text_string(text, ", tried on ");
        plumb_text_integer(text, tried->count);
        plumb_text_string(text, " bodies");
    } else if (tried->count > 0) {
        plumb_text_string(text, ", at a first look");
    }
}

static void goal_words(const PlumbTry *try, const PlumbTried *tried, PlumbText *text)
{
    const PlumbGoal *const goal = &try->advice.goal;
    plumb_text_string(text, "Try first, for ");
    if (goal->aim != PLUMB_AIM_COUNT) {
        plumb_text_string(text, plumb_aim_text(goal->aim));
    } else {
        plumb_text_string(text, "the finding on ");
        plumb_text_string(text, plumb_goal_text(goal));
    }
    judged_words(tried, text);
    plumb_text_string(text, try->advice.worth_count > 0
                                ? " (Enter takes one, T the next aim):"
                                : ": nothing worth trying was found; leave it. T: the next aim.");
}

static void option_words(const PlumbDesk *desk, const PlumbOption *option, PlumbText *text)
{
    const PlumbGoal *const goal = &desk->try_first.advice.goal;
    plumb_option_text(text, option, desk->units);
    if (goal->form != PLUMB_GOAL_GONE && isfinite(option->gain)) {
        plumb_text_string(text, "; ");
        plumb_text_quantity(text, option->gain, plumb_goal_quantity(goal), desk->units);
        plumb_text_string(text, " better");
    }
    plumb_text_string(text, ". ");
    plumb_text_string(text, plumb_option_reason(option, goal));
}

double plumb_advise_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbTry *const try = &desk->try_first;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double pitch = PLUMB_LINE_PITCH * size;
    const double bottom = rect.y_mm + rect.height_mm;
    char words[PLUMB_DESK_MESSAGE_SIZE];
    double y = rect.y_mm;
    if (!try->on) {
        return 0.0;
    }
    PlumbText text = plumb_text_begin(words, sizeof words);
    goal_words(try, &desk->tried, &text);
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm, &y, rect.width_mm, size, 3, words);
    y += 0.3 * size;
    for (int i = 0; i < try->advice.worth_count; i++) {
        const int most = (int)floor((bottom - y) / pitch);
        if (most < 1) {
            break;
        }
        text = plumb_text_begin(words, sizeof words);
        option_words(desk, &try->option[i], &text);
        const double from = y;
        plumb_board_wrap(board, PLUMB_ROLE_quiet, NONE, rect.x_mm + 2.0, &y, rect.width_mm - 2.0,
                         size, most < 3 ? most : 3, words);
        const PlumbRect box = {rect.x_mm - 1.0, from - 0.1 * size, rect.width_mm + 2.0,
                               y - from + 0.3 * size};
        plumb_desk_widget(desk, PLUMB_WIDGET_OPTION, i, box, true);
        if (plumb_desk_has_focus(desk, PLUMB_WIDGET_OPTION, i)) {
            plumb_focus_ring(board, box);
        }
        y += 0.5 * size;
    }
    return fmin(y, bottom) - rect.y_mm;
}
