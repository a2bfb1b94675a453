/* SPDX-License-Identifier: MIT */
/* What to try first: single changes of the size that a coach asks for, ranked for one aim or one
 * finding, each with its gain and its price. Options with reasons, never one verdict. */
#ifndef PLUMBAR_ADVICE_H
#define PLUMBAR_ADVICE_H

#include <plumbar/solved.h>

/* Aims: name in commands, words ("Aim: less bar travel"). */
#define PLUMB_AIM_LIST(X)                                                                          \
    X(less_travel, "less bar travel")                                                              \
    X(less_back_moment, "less moment on the back")                                                 \
    X(knees_back, "knees back, shins nearer to upright")                                           \
    X(level_hips, "hips that do not rise before the bar")                                          \
    X(bar_over_mid_foot, "the bar over mid-foot")                                                  \
    X(lower_effort, "lower summed effort")                                                         \
    X(less_shoulder_adduction, "less shoulder adduction moment")                                   \
    X(less_shoulder_flexion, "less shoulder flexion moment")                                       \
    X(less_elbow_moment, "less elbow moment")                                                      \
    X(upright_forearms, "forearms upright from the head end")                                      \
    X(elbows_in, "elbows nearer to the trunk")                                                     \
    X(knees_over_toes, "knees over the line of the toes")                                          \
    X(steady_elbows, "elbows that turn evenly on the way up")

typedef enum PlumbAim {
#define X(name, text) PLUMB_AIM_##name,
    PLUMB_AIM_LIST(X)
#undef X
        PLUMB_AIM_COUNT
} PlumbAim;

const char *plumb_aim_name(PlumbAim aim);
const char *plumb_aim_text(PlumbAim aim);
/* The aim called name[length]; false where none is. */
bool plumb_aim_find(const char *name, size_t length, PlumbAim *aim);
/* The finding called name[length]; false where none is. */
bool plumb_finding_find(const char *name, size_t length, PlumbFindingId *id);

/* How an aim is measured: an amount that is to become smaller, never below zero. */
typedef enum PlumbGoalForm {
    PLUMB_GOAL_LESS,   /* the figure itself */
    PLUMB_GOAL_NEAR,   /* its distance from zero */
    PLUMB_GOAL_ABOVE,  /* how far it is below `limit` */
    PLUMB_GOAL_BELOW,  /* how far it is above `limit` */
    PLUMB_GOAL_EXCESS, /* how far a finding is past its limit, 0 when it is gone */
    PLUMB_GOAL_GONE    /* 1 while a finding is there, 0 when it is gone */
} PlumbGoalForm;

typedef struct PlumbGoal {
    PlumbLift lift;
    PlumbGoalForm form;
    int output; /* in the lift's own list, as of plumb_solved_value */
    double limit;
    PlumbFindingId finding; /* PLUMB_FINDING_COUNT: an aim, not a finding */
    PlumbAim aim;           /* PLUMB_AIM_COUNT: a finding */
    PlumbFinding what;      /* of a finding */
} PlumbGoal;

/* false where the lift does not know the aim. */
bool plumb_goal_of_aim(PlumbAim aim, PlumbLift lift, PlumbGoal *goal);
/* The goal that removes a finding of an answer of the lift. */
PlumbGoal plumb_goal_of_finding(const PlumbFinding *finding, PlumbLift lift);
/* What is to become smaller; NaN where the answer has no such figure. */
double plumb_goal_amount(const PlumbGoal *goal, const PlumbSolved *solved);
PlumbQuantity plumb_goal_quantity(const PlumbGoal *goal);
/* Whether a figure of the answer measures the goal; false where its finding does. */
bool plumb_goal_of_figure(const PlumbGoal *goal);
/* The words of what is measured: "bar travel", "expected rise of the hips". */
const char *plumb_goal_text(const PlumbGoal *goal);

/* The one table of which settings bear on which finding, in the order in which a coach would try
 * them; pictures use it as well. Only settings that advice may move stand in it. Fills
 * setting[PLUMB_SETTING_COUNT], returns how many. */
int plumb_finding_settings(PlumbFindingId id, PlumbLift lift, PlumbSettingId *setting);

/* The aim that stands for a finding of a film in the model, which does not move by itself; false
 * where there is none for this lift. */
bool plumb_finding_aim(PlumbFindingId id, PlumbLift lift, PlumbAim *aim);

/* What is worth trying first where nobody asks for anything: the first warning of an answer away,
 * else less bar travel. */
PlumbGoal plumb_goal_first(const PlumbSolved *solved);

/* Whether advice may move a setting at all: never load, depth, blocks, deficit or spine; of a bench
 * press only grip, touch, arch and elbows. */
bool plumb_advice_may_move(PlumbSettingId id);
/* What a setting does to the figure's geometry, one sentence: seen from the side, or where frontal
 * is set from the front. */
const char *plumb_setting_reason(PlumbSettingId id, PlumbLift lift, bool frontal);

/* The other figures that a change is priced in, in their order of importance: an output of the
 * lift's own list. index: 0 to PLUMB_PRICE_COUNT - 1. */
enum { PLUMB_PRICE_COUNT = 9, PLUMB_OPTION_MAX = 32 };
int plumb_price_output(PlumbLift lift, int index);

/* One change, solved. */
typedef struct PlumbOption {
    PlumbSettingId setting;
    int change;      /* row of the table of changes */
    double from_si;  /* bar: the seat as a number; elbows that are not asked for: where they are */
    double to_si;    /* elbows under the bar: where they then are */
    double delta_si; /* size of the change, signed; 0 where it reaches a place of its own */
    bool first_step; /* the place is too far for one change: as much of the way as is asked at once
                      */
    double place_si; /* where the first step leads in the end; otherwise as to_si */
    double grip_from_m; /* a seat of the bar may take its own grip along */
    PlumbSetup setup;   /* the whole set-up with the change; nothing else differs */
    PlumbOutcome outcome;
    double gain;         /* of the goal's amount, positive is better; NaN where no pose is held */
    double gain_sd;      /* spread of the gain from lengths not known exactly: first order, each
                            length alone, until plumb_advice_settle (hold.h) draws it */
    bool worth;          /* gain above twice its spread, or as drawn, and at least least_worth */
    bool kept;           /* limits and rules are kept: no finding that was not there before */
    PlumbFinding broken; /* the first new finding where they are not */
    double price[PLUMB_PRICE_COUNT]; /* after less before */
} PlumbOption;

/* A ranking. */
typedef struct PlumbAdvice {
    PlumbGoal goal;
    double amount; /* before any change */
    int count; /* options, best first: those worth trying, then the rest, then the broken ones */
    int worth_count;
    double least_gain;  /* below it a gain of this quantity cannot be seen */
    double least_worth; /* below it a gain is not worth trying: of an aim what a person notices, of
                           a finding what can be seen */
} PlumbAdvice;

/* Ranks single changes for a goal into option[PLUMB_OPTION_MAX]. setup: as asked, of the goal's
 * lift. units: in pounds and inches the changes are whole and half inches. worth_count 0 means:
 * leave it. What is worth trying is judged to first order, for where no bodies can be drawn (hold.h
 * judges by drawn ones). Allocates nothing. */
void plumb_advice_rank(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbGoal *goal,
                       PlumbUnits units, PlumbOption *option, PlumbAdvice *advice);

/* The set-up of an option on another body: what is counted from the lifter's own pose is counted
 * from that body's. setup: as asked; own: plumb_solved_solve of setup on that body. */
PlumbSetup plumb_option_on(const PlumbOption *option, const PlumbSetup *setup,
                           const PlumbSolved *own);

/* Appends names of findings as people read them, "hips rise first, grip over rule"; words that are
 * no name of one stay as they are. */
void plumb_finding_names_text(PlumbText *text, const char *names);

/* Smallest difference of a lift's figure that is worth telling: 2 mm, half a degree, 1 % of a
 * moment and at least half a newton metre, 1 % of an effort, 0.005 of a balance. common practice,
 * no source. */
double plumb_least_difference(PlumbLift lift, int output, double value);

/* Smallest difference of a lift's figure that a person notices, and that a change is worth making
 * for: 1 cm, 2 degrees, 2.5 % of a moment and at least 2 newton metres, as much as the smallest
 * plates change a load, 2.5 % of an effort, 7.5 % of a sum of cubed efforts, 0.02 of a balance.
 * common practice, no source. */
double plumb_notable_difference(PlumbLift lift, int output, double value);

/* Why the option bears on the goal, one sentence. */
const char *plumb_option_reason(const PlumbOption *option, const PlumbGoal *goal);

/* Appends the option in plain words: "Stand 5 cm wider (32 cm to 37 cm)". */
void plumb_option_text(PlumbText *text, const PlumbOption *option, PlumbUnits units);
/* Appends where a first step leads, which option_text ends with: "a first step toward 37° with
 * the forearm upright". Only of an option that is one. */
void plumb_option_step_text(PlumbText *text, const PlumbOption *option, PlumbUnits units);

#endif
