/* SPDX-License-Identifier: MIT */
/* Which figure is worked out, and its strip in the place of the views. */
#include "working.h"

#include "compose.h"
#include "pages.h"

#include "scene/press.h"
#include "scene/table.h"

#include <plumbar/underlay.h>

#include <math.h>
#include <stdlib.h>

static const double least_width_mm = 84.0;
static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

/* Figures of the table; of joints one each, that of the selected. Those of most use come first. */
static const PlumbExplainKind STAND[] = {PLUMB_EXPLAIN_travel,
                                         PLUMB_EXPLAIN_balance,
                                         PLUMB_EXPLAIN_arm,
                                         PLUMB_EXPLAIN_moment,
                                         PLUMB_EXPLAIN_effort,
                                         PLUMB_EXPLAIN_back_angle,
                                         PLUMB_EXPLAIN_hip_height,
                                         PLUMB_EXPLAIN_crease_above_knee,
                                         PLUMB_EXPLAIN_shoulder_ahead,
                                         PLUMB_EXPLAIN_shin_angle,
                                         PLUMB_EXPLAIN_thigh_angle,
                                         PLUMB_EXPLAIN_knee_flexion,
                                         PLUMB_EXPLAIN_dorsiflexion,
                                         PLUMB_EXPLAIN_hip_flexion,
                                         PLUMB_EXPLAIN_hip_abduction,
                                         PLUMB_EXPLAIN_hip_rotation,
                                         PLUMB_EXPLAIN_frontal_shin,
                                         PLUMB_EXPLAIN_toe_line,
                                         PLUMB_EXPLAIN_hip_frontal,
                                         PLUMB_EXPLAIN_summed_effort,
                                         PLUMB_EXPLAIN_window_low,
                                         PLUMB_EXPLAIN_window_high,
                                         PLUMB_EXPLAIN_range_low,
                                         PLUMB_EXPLAIN_range_high};
static const PlumbExplainKind PRESS[] = {
    PLUMB_EXPLAIN_travel,         PLUMB_EXPLAIN_path_length,    PLUMB_EXPLAIN_press_arm,
    PLUMB_EXPLAIN_press_moment,   PLUMB_EXPLAIN_press_effort,   PLUMB_EXPLAIN_touch,
    PLUMB_EXPLAIN_grip_share,     PLUMB_EXPLAIN_elbow_off_hand, PLUMB_EXPLAIN_elbow_below_rule,
    PLUMB_EXPLAIN_abduction_step, PLUMB_EXPLAIN_abduction,      PLUMB_EXPLAIN_elbow_flexion,
    PLUMB_EXPLAIN_forearm_front,  PLUMB_EXPLAIN_forearm_side,   PLUMB_EXPLAIN_shoulder_rotation,
    PLUMB_EXPLAIN_elbows_upright, PLUMB_EXPLAIN_lockout_height, PLUMB_EXPLAIN_summed_effort,
    PLUMB_EXPLAIN_window_low,     PLUMB_EXPLAIN_window_high,    PLUMB_EXPLAIN_range_low,
    PLUMB_EXPLAIN_range_high};
enum { MOMENT_PLACE = 3 }; /* in both lists */
enum { STAND_COUNT = sizeof STAND / sizeof STAND[0], PRESS_COUNT = sizeof PRESS / sizeof PRESS[0] };

struct PlumbWorked *plumb_worked_create(void)
{
    PlumbWorked *const worked = calloc(1, sizeof *worked);
    if (worked != NULL) {
        worked->kind = PLUMB_EXPLAIN_moment;
    }
    return worked;
}

void plumb_worked_destroy(struct PlumbWorked *worked)
{
    free(worked);
}

bool plumb_working_shown(const PlumbDesk *desk)
{
    return desk->worked->on &&
           (desk->page == PLUMB_PAGE_DRAWING || desk->page == PLUMB_PAGE_PATH ||
            (desk->page == PLUMB_PAGE_COMPARE && plumb_desk_pencil_shown(desk)));
}

/* The set-up that is worked out: on the Compare page either, else what is inked. */
static bool of_pencil(const PlumbDesk *desk)
{
    return desk->worked->pencilled && desk->page == PLUMB_PAGE_COMPARE &&
           plumb_desk_pencil_shown(desk);
}

static const PlumbPosed *posed_of(const PlumbDesk *desk)
{
    return of_pencil(desk) ? &desk->pencil : plumb_desk_inked(desk);
}

/* The kind that the other family of lifts has for the figure of a joint; every other as it is. */
static PlumbExplainKind counterpart(PlumbExplainKind kind)
{
    const int other = (int)PLUMB_EXPLAIN_press_moment - (int)PLUMB_EXPLAIN_moment;
    return kind <= PLUMB_EXPLAIN_effort ? (PlumbExplainKind)((int)kind + other)
           : kind >= PLUMB_EXPLAIN_press_moment && kind <= PLUMB_EXPLAIN_press_effort
               ? (PlumbExplainKind)((int)kind - other)
               : kind;
}

/* Where the chosen kind stands among those of the lift on the drawing; what the lift does not have
 * becomes the moment. */
static int place_of(const PlumbDesk *desk)
{
    const bool press = desk->now.lift == PLUMB_BENCH;
    const PlumbExplainKind *const kinds = press ? PRESS : STAND;
    const int count = press ? (int)PRESS_COUNT : (int)STAND_COUNT;
    const PlumbExplainKind kind = desk->worked->kind;
    for (int i = 0; i < count; i++) {
        if (kinds[i] == kind || kinds[i] == counterpart(kind)) {
            return i;
        }
    }
    return MOMENT_PLACE;
}

PlumbQuestion plumb_working_question(const PlumbDesk *desk)
{
    const bool press = desk->now.lift == PLUMB_BENCH;
    const int arm = plumb_desk_arm(desk);
    PlumbQuestion question = {.kind = (press ? PRESS : STAND)[place_of(desk)]};
    if (press) {
        question.press = question.kind == PLUMB_EXPLAIN_press_arm
                             ? (int)plumb_press_arm_of((PlumbPressJoint)arm)
                             : arm;
    } else {
        question.joint = (PlumbJoint)arm;
    }
    return question;
}

/* From the top; another figure is another page. Without a pose there is nothing to work out. */
static void show(PlumbDesk *desk, bool wanted)
{
    const bool figures = desk->page == PLUMB_PAGE_DRAWING || desk->page == PLUMB_PAGE_PATH ||
                         desk->page == PLUMB_PAGE_COMPARE;
    desk->page = figures ? desk->page : PLUMB_PAGE_DRAWING;
    plumb_desk_settle(desk);
    const bool on = wanted && posed_of(desk)->outcome != PLUMB_NO_POSE;
    desk->worked->on = on;
    desk->worked->top_mm = 0.0;
    desk->refit = true;
    desk->dirty = true;
    plumb_desk_say(desk, wanted && !on,
                   on       ? (desk->page == PLUMB_PAGE_PATH
                                   ? "E or Escape goes back. The scrubber, or a click: another pose or "
                                     "figure. Ctrl+E exports."
                                   : "E or Escape goes back. Arrows in the table, or a click: another "
                                     "figure. Ctrl+E exports.")
                   : wanted ? "No working: no pose meets the request."
                            : "");
}

void plumb_working_toggle(PlumbDesk *desk)
{
    desk->worked->peak = false;
    show(desk, !plumb_working_shown(desk));
}

PlumbTag plumb_working_tag(const PlumbDesk *desk, int line)
{
    const bool press = desk->now.lift == PLUMB_BENCH;
    const int arm = plumb_desk_arm(desk);
    const PlumbQuestion moment = {press ? PLUMB_EXPLAIN_press_moment : PLUMB_EXPLAIN_moment,
                                  press ? PLUMB_JOINT_ankle : (PlumbJoint)arm,
                                  PLUMB_LEN_ankle_height, press ? arm : 0};
    const PlumbQuestion angle = {.kind =
                                     press ? PLUMB_EXPLAIN_abduction : PLUMB_EXPLAIN_back_angle};
    return line == 0   ? plumb_table_working(moment)
           : line == 1 ? plumb_table_working(angle)
           : line == 3 ? (PlumbTag){PLUMB_TAG_WORKING,
                                    plumb_question_count() + plumb_question_index(moment)}
                       : NONE;
}

PlumbTag plumb_working_figure(const PlumbDesk *desk, int figure, bool pencilled)
{
    PlumbQuestion question;
    if (!plumb_question_of_output(desk->now.lift, figure, &question)) {
        return NONE;
    }
    return (PlumbTag){PLUMB_TAG_WORKING, plumb_question_index(question) +
                                             (pencilled ? 2 * plumb_question_count() : 0)};
}

/* Chooses a figure of the table, and its joint with it. */
static void choose(PlumbDesk *desk, PlumbQuestion question)
{
    desk->worked->kind = question.kind;
    if (question.kind <= PLUMB_EXPLAIN_effort) {
        plumb_desk_select(desk, (int)question.joint);
    } else if (question.kind == PLUMB_EXPLAIN_press_arm) {
        for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
            if ((int)plumb_press_arm_of((PlumbPressJoint)i) == question.press) {
                plumb_desk_select(desk, i);
            }
        }
    } else if (question.kind == PLUMB_EXPLAIN_press_moment ||
               question.kind == PLUMB_EXPLAIN_press_effort) {
        plumb_desk_select(desk, question.press);
    }
}

/* The notes have one place for both ends of an interval: the first click shows the low one, the
 * next the high one, which the one after that leaves. */
static bool turn_over(PlumbDesk *desk, PlumbExplainKind kind)
{
    if (kind != PLUMB_EXPLAIN_window_low && kind != PLUMB_EXPLAIN_range_low) {
        return false;
    }
    const bool shown = plumb_working_shown(desk);
    const PlumbExplainKind now = desk->worked->kind;
    const PlumbExplainKind high =
        kind == PLUMB_EXPLAIN_window_low ? PLUMB_EXPLAIN_window_high : PLUMB_EXPLAIN_range_high;
    const bool leave = shown && now == high;
    desk->worked->kind = shown && now == kind ? high : kind;
    show(desk, !leave);
    if (!leave && desk->worked->on) {
        plumb_desk_say(desk, false,
                       desk->worked->kind == high
                           ? "The upper end. A click on the note again, E or Escape goes back."
                           : "The lower end; another click shows the upper one. E or Escape goes "
                             "back. Ctrl+E exports.");
    }
    return true;
}

void plumb_working_press(PlumbDesk *desk, int index)
{
    const int of = index / plumb_question_count();
    const PlumbQuestion question = plumb_question(index % plumb_question_count());
    PlumbWorked *const worked = desk->worked;
    const bool again =
        plumb_working_shown(desk) && worked->peak == (of == 1) && worked->pencilled == (of == 2) &&
        plumb_question_index(plumb_working_question(desk)) == plumb_question_index(question);
    worked->peak = of == 1;
    worked->pencilled = of == 2;
    if (of == 0 && turn_over(desk, question.kind)) {
        return;
    }
    choose(desk, question);
    show(desk, !again);
}

void plumb_working_row(PlumbDesk *desk, int step)
{
    const PlumbFamily *const family = plumb_desk_family(desk);
    const int now = plumb_question_index(plumb_working_question(desk));
    PlumbQuestion row[PLUMB_COMPARE_MAX];
    int count = 0;
    int at = 0;
    for (int i = 0; i < family->compare_count; i++) {
        if (plumb_lift_output_applies(desk->now.lift, family->compare[i].figure) &&
            plumb_question_of_output(desk->now.lift, family->compare[i].figure, &row[count])) {
            at = plumb_question_index(row[count]) == now ? count : at;
            count++;
        }
    }
    if (count > 0) {
        choose(desk, row[(at + step + count) % count]);
    }
    desk->worked->top_mm = 0.0;
    desk->dirty = true;
}

void plumb_working_column(PlumbDesk *desk, bool pencilled)
{
    desk->worked->pencilled = pencilled;
    desk->worked->top_mm = 0.0;
    desk->dirty = true;
}

void plumb_working_step(PlumbDesk *desk, int step)
{
    const bool press = desk->now.lift == PLUMB_BENCH;
    const int count = press ? (int)PRESS_COUNT : (int)STAND_COUNT;
    desk->worked->kind = (press ? PRESS : STAND)[(place_of(desk) + step + count) % count];
    desk->worked->top_mm = 0.0;
    desk->dirty = true;
}

bool plumb_working_scroll(PlumbDesk *desk, double by_mm)
{
    PlumbWorked *const worked = desk->worked;
    if (!plumb_working_shown(desk)) {
        return false;
    }
    worked->top_mm = fmax(0.0, fmin(worked->top_mm + by_mm, worked->most_mm));
    desk->dirty = true;
    return true;
}

bool plumb_working_turn(PlumbDesk *desk, int pages)
{
    return plumb_working_scroll(desk, pages * desk->worked->page_mm);
}

static PlumbStatus in_motion(PlumbDesk *desk, double t_s, PlumbError *error)
{
    PlumbWorked *const worked = desk->worked;
    const PlumbStatus status =
        plumb_motion_at(&desk->now.lifter, &plumb_desk_inked(desk)->solved.pose,
                        desk->way.motion.rep_time_s, t_s, &worked->instant, error);
    if (status == PLUMB_OK && !worked->instant.held) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "path", "the path has no pose here");
    }
    worked->subject.motion = &worked->instant;
    return status;
}

/* On the Path page: the ends as the answer has them; between them in motion what differs there,
 * where the page shows motion, and else at rest. */
static PlumbStatus at_scrubber(PlumbDesk *desk, PlumbExplainKind kind, PlumbError *error)
{
    PlumbExplainSubject *const subject = &desk->worked->subject;
    const PlumbWay *const way = &desk->way;
    const int here = plumb_path_here(desk);
    const bool moves =
        way->moved && (kind == PLUMB_EXPLAIN_moment || kind == PLUMB_EXPLAIN_balance);
    if (here < 0 || !way->step[here].held) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "path", "the path has no pose here");
    }
    const bool end = kind >= PLUMB_EXPLAIN_window_low && kind <= PLUMB_EXPLAIN_range_high;
    if (end || kind == PLUMB_EXPLAIN_travel || kind == PLUMB_EXPLAIN_path_length) {
        return PLUMB_OK;
    }
    if (moves && desk->worked->peak) {
        return in_motion(desk, way->motion.peak_t_s[plumb_desk_arm(desk)], error);
    }
    if (here == 0 || here == way->count - 1) {
        subject->at_end = (here == 0) == (desk->now.lift == PLUMB_SQUAT);
        return PLUMB_OK;
    }
    if (moves) {
        return in_motion(desk, plumb_path_time_s(desk, way->step[here].u), error);
    }
    plumb_path_pose(desk);
    subject->on_way = true;
    subject->answer = subject->answer != NULL ? &desk->on_way.solved.pose : NULL;
    subject->press = subject->press != NULL ? &desk->on_way.solved.press : NULL;
    return PLUMB_OK;
}

/* The lifter's name; on the Compare page after which of the two set-ups it is. */
static void write_name(const PlumbDesk *desk)
{
    PlumbWorked *const worked = desk->worked;
    const PlumbSheet *const now = &desk->now;
    const bool pencil = of_pencil(desk);
    PlumbText text = plumb_text_begin(worked->name, sizeof worked->name);
    const char *const name = pencil ? now->pencil_record.name : now->record.name;
    if (desk->page == PLUMB_PAGE_COMPARE) {
        plumb_text_string(&text, pencil ? "pencilled" : "inked");
        plumb_text_string(&text, name[0] != '\0' ? ": " : "");
    }
    plumb_text_string(&text, name);
}

/* Works the chosen figure out. */
static PlumbStatus work_out(PlumbDesk *desk, PlumbWorking *working, PlumbError *error)
{
    PlumbWorked *const worked = desk->worked;
    const PlumbPosed *const posed = posed_of(desk);
    const PlumbQuestion question = plumb_working_question(desk);
    const bool press = desk->now.lift == PLUMB_BENCH;
    const bool pencil = of_pencil(desk);
    const PlumbSheet *const now = &desk->now;
    worked->subject =
        (PlumbExplainSubject){.spec = pencil ? &now->pencil_record.spec : &now->record.spec,
                              .lifter = pencil ? &now->pencil_lifter : &now->lifter};
    worked->subject.answer = press ? NULL : &posed->solved.pose;
    worked->subject.press = press ? &posed->solved.press : NULL;
    const PlumbStatus status =
        desk->page == PLUMB_PAGE_PATH ? at_scrubber(desk, question.kind, error) : PLUMB_OK;
    if (status != PLUMB_OK) {
        return status;
    }
    worked->subject = plumb_explain_place(&worked->subject, question, &worked->room);
    write_name(desk);
    *working = (PlumbWorking){.subject = &worked->subject,
                              .explanation = &worked->explanation,
                              .name = worked->name,
                              .date = desk->options->date,
                              .units = desk->units,
                              .text_width = plumb_font_width,
                              .text_user = desk->font};
    return plumb_explain(&worked->subject, question, &worked->explanation, error);
}

/* Below what is shown: that there is more, over paper of its own. */
static void draw_more(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbWorked *const worked = desk->worked;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbPen paper = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_paper};
    const bool above = worked->top_mm > 0.05;
    const bool below = worked->top_mm < worked->most_mm - 0.05;
    plumb_scene_rect(board->scene, paper, NONE, rect);
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE,
                     (PlumbVec2){rect.x_mm + 0.5 * rect.width_mm,
                                 rect.y_mm + 0.5 * rect.height_mm + 0.36 * size},
                     size, PLUMB_MIDDLE,
                     above && below ? "more above and below"
                     : below        ? "more below: Page Down, wheel"
                                    : "more above: Page Up, wheel");
}

void plumb_working_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    PlumbWorked *const worked = desk->worked;
    PlumbWorking working;
    PlumbError error = {0};
    if (work_out(desk, &working, &error) != PLUMB_OK) {
        const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
        double y = rect.y_mm + 2.0;
        char words[PLUMB_MESSAGE_SIZE + 16];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, "No working: ");
        plumb_text_string(&text, error.message);
        plumb_text_char(&text, '.');
        worked->most_mm = 0.0;
        plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm + 2.0, &y, rect.width_mm - 4.0,
                         size, (int)fmax(1.0, rect.height_mm / (PLUMB_LINE_PITCH * size) - 1.0),
                         words);
        return;
    }
    /* Composed at the size of paper and enlarged whole, so that nothing in it can come apart. */
    const double scale = fmin(desk->text_scale, rect.width_mm / least_width_mm);
    const double length =
        scale * plumb_compose_working_strip(&worked->scene, &working, rect.width_mm / scale,
                                            rect.height_mm / scale);
    const double strip = 1.8 * plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const bool more = length > rect.height_mm;
    PlumbRect room = rect;
    room.height_mm -= more ? strip : 0.0;
    worked->most_mm = more ? length - room.height_mm : 0.0;
    worked->page_mm = 0.85 * room.height_mm;
    worked->top_mm = fmin(worked->top_mm, worked->most_mm);
    plumb_scene_append(board->scene, &worked->scene, scale,
                       (PlumbVec2){rect.x_mm, rect.y_mm - worked->top_mm}, room);
    if (more) {
        draw_more(desk, board,
                  (PlumbRect){rect.x_mm, rect.y_mm + room.height_mm, rect.width_mm, strip});
    }
}

void plumb_working_mark(const PlumbDesk *desk, const PlumbBoard *board, int first_item)
{
    const int index = plumb_question_index(plumb_working_question(desk)) +
                      (of_pencil(desk) ? 2 * plumb_question_count() : 0);
    for (int i = first_item; i < board->scene->item_count; i++) {
        const PlumbItem *const item = &board->scene->item[i];
        if (item->tag.kind == PLUMB_TAG_WORKING && item->tag.id == index) {
            const PlumbPen pen = {PLUMB_ROLE_select, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
            const PlumbRect box = item->box_mm;
            plumb_scene_rect(board->scene, pen, NONE,
                             (PlumbRect){box.x_mm - 0.6, box.y_mm - 0.3, box.width_mm + 1.2,
                                         box.height_mm + 0.6});
            return;
        }
    }
}

PlumbStatus plumb_working_file(PlumbDesk *desk, const char *path, PlumbBytes *bytes,
                               PlumbError *error)
{
    PlumbWorking working;
    PlumbPictureKind kind = PLUMB_PICTURE_PDF;
    if (!plumb_picture_find(path, &kind)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "export",
                               "the name of a working has to end in .pdf, .svg or .png");
    }
    const PlumbStatus status = work_out(desk, &working, error);
    if (status != PLUMB_OK) {
        return status;
    }
    plumb_compose_working(&desk->worked->scene, &working);
    return plumb_underlay_file(&desk->worked->scene, kind, PLUMB_LIGHT_PAPER, NULL,
                               desk->options->date, bytes, error);
}
