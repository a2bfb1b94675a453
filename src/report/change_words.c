/* SPDX-License-Identifier: MIT */
/* A change as a sentence that an athlete understands who never saw the program. */
#include <plumbar/report.h>

#include <math.h>
#include <stddef.h>

/* {n} the new figure, {o} the old one, {d} the size of the difference; {c} what can be seen of the
 * hips. Each as a request (more, less), and as what has happened. */
typedef struct Sentence {
    const char *more;
    const char *less;
    const char *past_more;
    const char *past_less;
} Sentence;

static const Sentence sentences[PLUMB_SETTING_COUNT] = {
    [PLUMB_SET_stance] =
        {"Stand wider: {n} from the middle of one ankle to the middle of the other, {d} more than "
         "now.",
         "Stand narrower: {n} from the middle of one ankle to the middle of the other, {d} less "
         "than now.",
         "The stance is wider: {n} from ankle to ankle, {d} more.",
         "The stance is narrower: {n} from ankle to ankle, {d} less."},
    [PLUMB_SET_toes] = {"Turn each foot further out: {n} from straight ahead instead of {o}.",
                        "Turn each foot further in: {n} from straight ahead instead of {o}.",
                        "Each foot is turned out further: {n} instead of {o}.",
                        "Each foot is turned out less: {n} instead of {o}."},
    [PLUMB_SET_knees_out] =
        {"Push each knee {d} further out, away from the other, and keep it there.",
         "Let each knee come {d} further in, so that it points along its foot.",
         "Each knee points {d} further out.", "Each knee points {d} further in."},
    [PLUMB_SET_grip] = {"Take a wider grip: {n} between your forefingers, {d} more than now.",
                        "Take a narrower grip: {n} between your forefingers, {d} less than now.",
                        "The grip is wider: {n} between the forefingers, {d} more.",
                        "The grip is narrower: {n} between the forefingers, {d} less."},
    [PLUMB_SET_load] = {"", "", "The bar is {d} heavier: {n} instead of {o}.",
                        "The bar is {d} lighter: {n} instead of {o}."},
    [PLUMB_SET_depth] = {"Go {d} deeper than now, with the same hold in your back.", "",
                         "The squat is {d} deeper.", "The squat is {d} less deep."},
    [PLUMB_SET_bar_over] = {"Stand {d} further back from the bar before you take hold of it.",
                            "Stand {d} closer to the bar before you take hold of it.",
                            "The bar starts {d} further ahead of the middle of the foot.",
                            "The bar starts {d} further back over the foot."},
    [PLUMB_SET_heel_lift] = {"Lift in shoes with higher heels: {n} instead of {o}.",
                             "Lift in flatter shoes: a heel of {n} instead of {o}.",
                             "The heels of the shoes are higher: {n} instead of {o}.",
                             "The heels of the shoes are lower: {n} instead of {o}."},
    [PLUMB_SET_ball_lift] =
        {"Lift in shoes with a thicker sole under the ball of the foot: {n} instead of {o}.",
         "Lift in shoes with a thinner sole under the ball of the foot: {n} instead of {o}.",
         "The soles are thicker under the ball of the foot: {n} instead of {o}.",
         "The soles are thinner under the ball of the foot: {n} instead of {o}."},
    [PLUMB_SET_deficit] = {"Stand on a platform of {n} instead of {o}.",
                           "Stand on a lower platform: {n} instead of {o}.",
                           "The platform is higher: {n} instead of {o}.",
                           "The platform is lower: {n} instead of {o}."},
    [PLUMB_SET_blocks] = {"Pull from blocks of {n} instead of {o}.",
                          "Pull from lower blocks: {n} instead of {o}.",
                          "The blocks are higher: {n} instead of {o}.",
                          "The blocks are lower: {n} instead of {o}."},
    [PLUMB_SET_spine] = {"", "Hold your lower back flatter than now, by about {d}.",
                         "The lower back is bent {d} further.", "The lower back is {d} flatter."},
    [PLUMB_SET_hip_height] = {"Start with your hips {d} higher, so that {c}.",
                              "Start with your hips {d} lower, so that {c}.",
                              "The hips start {d} higher: {c}.", "The hips start {d} lower: {c}."},
    [PLUMB_SET_shin_angle] =
        {"At the bottom, let your knees come further forward: the shins lean {n} from upright "
         "instead of {o}.",
         "At the bottom, keep your knees further back: the shins lean {n} from upright instead of "
         "{o}.",
         "At the bottom the shins lean further forward: {n} instead of {o}.",
         "At the bottom the shins stand more upright: {n} instead of {o}."},
    [PLUMB_SET_touch] =
        {"Let the bar touch lower on your chest: {n} toward the feet from the line through your "
         "shoulders, {d} lower than now.",
         "Let the bar touch higher on your chest: {n} toward the feet from the line through your "
         "shoulders, {d} higher than now.",
         "The bar touches {d} lower on the chest: {n} from the line through the shoulders.",
         "The bar touches {d} higher on the chest: {n} from the line through the shoulders."},
    [PLUMB_SET_arch] = {"Raise your chest by {n} instead of {o}: shoulder blades pulled together "
                        "and down, seat on the bench.",
                        "Lie flatter: the chest raised by {n} instead of {o}, shoulder blades "
                        "still together.",
                        "The chest is raised {d} more: {n} instead of {o}.",
                        "The chest is raised {d} less: {n} instead of {o}."},
    [PLUMB_SET_elbows] = {"Let your elbows go further out: when the bar touches, the upper arms "
                          "stand {n} from your trunk instead of {o}.",
                          "Keep your elbows closer in: when the bar touches, the upper arms stand "
                          "{n} from your trunk instead of {o}.",
                          "The elbows go further out: {n} from the trunk instead of {o}.",
                          "The elbows stay closer in: {n} from the trunk instead of {o}."},
    [PLUMB_SET_lockout_over] =
        {"Finish each repetition with the bar {d} nearer to your feet than now.",
         "Finish each repetition with the bar {d} nearer to your head than now.",
         "The bar ends {d} nearer to the feet.", "The bar ends {d} nearer to the head."},
    [PLUMB_SET_bench_height] = {"Press on a higher bench: {n} instead of {o}.",
                                "Press on a lower bench: {n} instead of {o}.",
                                "The bench is higher: {n} instead of {o}.",
                                "The bench is lower: {n} instead of {o}."},
};

static const char *const seat_request[PLUMB_SEAT_COUNT] = {
    [PLUMB_HIGH_BAR] = "Carry the bar higher: on top of the muscle between neck and shoulders.",
    [PLUMB_LOW_BAR] = ("Carry the bar lower: below the ridge of the shoulder blades, hands pulled "
                       "in to hold it there."),
    [PLUMB_FRONT_BAR] = "Carry the bar in front: on the shoulders, elbows high.",
};

static const char *const seat_past[PLUMB_SEAT_COUNT] = {
    [PLUMB_HIGH_BAR] = "The bar lies higher, on top of the muscle between neck and shoulders.",
    [PLUMB_LOW_BAR] = "The bar lies lower, below the ridge of the shoulder blades.",
    [PLUMB_FRONT_BAR] = "The bar lies in front, on the shoulders.",
};

/* A person takes on half a centimetre or half an inch, a quarter of an inch of sole, a degree; what
 * is rounded to that is "about". 0: as it is. */
static double grain_si(PlumbQuantity quantity, PlumbUnits units)
{
    static const double degree = 0.017453292519943295;
    const double inch = 0.0254;
    const bool metric = units == PLUMB_METRIC;
    return quantity == PLUMB_Q_LENGTH  ? (metric ? 0.005 : 0.5 * inch)
           : quantity == PLUMB_Q_SMALL ? (metric ? 0.001 : 0.25 * inch)
           : quantity == PLUMB_Q_ANGLE ? degree
                                       : 0.0;
}

/* "55 cm", "about 17.5 in": the exact figure stands in the table. */
static void say(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units)
{
    const double grain = grain_si(quantity, units);
    const double round_si = grain > 0.0 ? grain * round(value_si / grain) : value_si;
    if (round_si == 0.0) {
        plumb_text_said(text, value_si, quantity, units);
        return;
    }
    double digit = 0.5 / plumb_quantity_factor(quantity, units);
    for (int i = 0; i < plumb_quantity_decimals(quantity, units); i++) {
        digit *= 0.1;
    }
    plumb_text_string(text, fabs(value_si - round_si) > digit ? "about " : "");
    plumb_text_said(text, round_si, quantity, units);
}

/* "the crease of the hip stands 12 cm above the top of your knee" */
static void crease_words(PlumbText *text, const PlumbSolved *after, const PlumbBody *body,
                         bool past, PlumbUnits units)
{
    const PlumbPosition *const start = &after->pose.start;
    const double above = start->point[PLUMB_PT_hip].y + body->hip_crease_above_joint_m -
                         start->point[PLUMB_PT_knee].y - body->knee_top_above_joint_m;
    plumb_text_string(text, "the crease of the hip stands ");
    say(text, fabs(above), PLUMB_Q_LENGTH, units);
    plumb_text_string(text, above >= 0.0 ? " above" : " below");
    plumb_text_string(text, past ? " the top of the knee" : " the top of your knee");
}

static void append_field(PlumbText *text, char field, const PlumbChange *change,
                         const PlumbSolved *after, const PlumbBody *body, bool past,
                         PlumbUnits units)
{
    const PlumbQuantity quantity = plumb_setting(change->id)->quantity;
    switch (field) {
    case 'n':
        say(text, change->after_si, quantity, units);
        break;
    case 'o':
        say(text, change->before_si, quantity, units);
        break;
    case 'd':
        say(text, fabs(change->after_si - change->before_si), quantity, units);
        break;
    default:
        crease_words(text, after, body, past, units);
        break;
    }
}

/* A setting that has no sentence of its own: its name and both figures. */
static void plain(PlumbText *text, const PlumbChange *change, PlumbUnits units)
{
    for (const char *c = plumb_setting(change->id)->key; *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
    plumb_text_string(text, ": ");
    plumb_text_quantity(text, change->after_si, plumb_setting(change->id)->quantity, units);
    plumb_text_string(text, " instead of ");
    plumb_text_quantity(text, change->before_si, plumb_setting(change->id)->quantity, units);
    plumb_text_string(text, ".");
}

void plumb_change_text(PlumbText *text, const PlumbChange *change, const PlumbSolved *after,
                       const PlumbBody *body, bool past, PlumbUnits units)
{
    if (change->id == PLUMB_SET_bar) {
        plumb_text_string(text, (past ? seat_past : seat_request)[plumb_solved_setup(after)->seat]);
        return;
    }
    const Sentence *const sentence = &sentences[change->id];
    const bool more = change->after_si > change->before_si;
    const char *p = past ? (more ? sentence->past_more : sentence->past_less)
                         : (more ? sentence->more : sentence->less);
    if (p == NULL || *p == '\0') {
        plain(text, change, units);
        return;
    }
    for (; *p != '\0'; p++) {
        if (p[0] == '{' && p[1] != '\0' && p[2] == '}') {
            append_field(text, p[1], change, after, body, past, units);
            p += 2;
        } else {
            plumb_text_char(text, *p);
        }
    }
}
