/* SPDX-License-Identifier: MIT */
/* The table of commands: names, help, options, and the functions that run them; and how each of
 * them ends. */
#include "command.h"

#include "base/words.h"

#include <plumbar/card.h>

#include <string.h>

#define FILMING_LINE(name, heading, words) " " words
#define FILMING_WORDS PLUMB_FILMING_LIST(FILMING_LINE)
#define FILMING_PRESS_WORDS PLUMB_FILMING_PRESS_LIST(FILMING_LINE)

#define BIT(option) (1U << (option))
#define FORMS                                                                                      \
    (BIT(PLUMB_OPT_HELP) | BIT(PLUMB_OPT_JSON) | BIT(PLUMB_OPT_CSV) | BIT(PLUMB_OPT_OUTPUT) |      \
     BIT(PLUMB_OPT_UNITS))
#define DRAWS (BIT(PLUMB_OPT_SAMPLES) | BIT(PLUMB_OPT_SEED) | BIT(PLUMB_OPT_THREADS))

const PlumbCliCommand plumb_cli_commands[] = {
    {"new", "FILE sex=.. stature=.. mass=.. [MEASURE=..]", "write a commented lifter file",
     "Writes a lifter file with what is given as values and the rest as comments that show how. An "
     "existing file is never overwritten.",
     "plumbar new lifter.yaml sex=female stature=\"5 ft 6 in\" mass=150lb", BIT(PLUMB_OPT_HELP),
     plumb_cli_new},
    {"body", "[FILE] [MEASURE=..]", "lengths, masses and percentiles of a lifter",
     "Lists every length with its spread, what it rests on and its percentile; the ratios that "
     "coaches argue from; the masses; and stature against the sum of the parts.",
     "plumbar body sex=male stature=178cm mass=85kg thigh=\"+1 sd\"", FORMS, plumb_cli_body},
    {"setup", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]", "one position in balance, in full",
     "Solves the start of a deadlift, the hole of a squat or the touch of a bench press, and its "
     "other end: what leads, "
     "figures, moments, efforts, window, findings. 2000 bodies that the lifter could have, by what "
     "was measured, say how sure each figure is and what to measure next. Exit code 1: no pose "
     "meets the request.",
     "plumbar setup deadlift sex=male stature=178cm mass=85kg load=180kg stance=36cm",
     FORMS | DRAWS, plumb_cli_setup},
    {"path", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]", "the lift from start to end",
     "Follows the pull from the floor to the lockout, the squat from standing to the hole, or the "
     "press from the touch to straight arms, in equal steps. Of pull and squat 400 bodies that the "
     "lifter could have say how sure each figure is. With --time "
     "the way up in motion: moments with inertia against those at rest, bar speed, power, and of "
     "pull and squat the centre of pressure.",
     "plumbar path squat sex=female stature=165cm mass=64kg bar=low --points 11",
     FORMS | DRAWS | BIT(PLUMB_OPT_POINTS) | BIT(PLUMB_OPT_TIME), plumb_cli_path},
    {"vary", "deadlift|squat|bench [FILE[:SET-UP]] KEY=FROM..TO/N [KEY=FROM..TO/N] [KEY=..]",
     "a table over one or two settings",
     "Solves the set-up for N values from FROM to TO; with two ranges for every pair of them. "
     "Settings, lengths, stature, mass and joint limits can vary. Points that have no pose stay "
     "in the answer. Exit code 1: no point holds. A bench press without a range: what its grip "
     "does, from the spacing of the shoulders to the rule.",
     "plumbar vary deadlift sex=male stature=178cm mass=85kg stance=30..80cm/6", FORMS,
     plumb_cli_vary},
    {"effects", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]", "what moves what",
     "Lists how much a figure changes for a small change of every setting and body length (1 cm, "
     "1 deg, 10 kg, 0.05 of the balance), largest first. --of names the figure, --of all makes a "
     "table. Where the two directions differ, the list says so and why.",
     "plumbar effects deadlift sex=male stature=178cm mass=85kg --of back_moment",
     FORMS | BIT(PLUMB_OPT_OF), plumb_cli_effects},
    {"try", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]",
     "what to try first, for an aim or a finding",
     "Ranks single changes of the size that a coach asks for, each with its gain, its price on the "
     "other figures and the reason; where a place is further than one change goes, a first step "
     "toward it. Aims: less_travel, less_back_moment, knees_back, level_hips, "
     "bar_over_mid_foot, lower_effort, knees_over_toes; of a bench press less_travel, "
     "lower_effort, "
     "less_shoulder_adduction, less_shoulder_flexion, less_elbow_moment, upright_forearms, "
     "elbows_in, steady_elbows; or the name of a finding that the set-up has, or a film. Without "
     "--for: the "
     "first warning, else less_travel. With hip_height, back_angle or --knee as the lifter's own "
     "start it says "
     "where that lies. Load, depth, blocks, deficit, spine and body stay; of a bench press only "
     "grip, touch, arch and elbows move. 300 to 1000 bodies that the lifter could have, each "
     "before "
     "and after, say how much each option gains and how often; where nothing gains what a person "
     "notices (1 cm, 2 degrees, 2.5 % of a moment), and more than its uncertainty, the answer is "
     "to leave it.",
     "plumbar try deadlift sex=male stature=178cm mass=85kg hip_height=52cm --for level_hips",
     FORMS | DRAWS | BIT(PLUMB_OPT_FOR) | BIT(PLUMB_OPT_KNEE), plumb_cli_try},
    {"compare", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..] --pencil WHAT",
     "two set-ups, or two lifters, figure by figure",
     "Solves the set-up and the pencilled one and lists every figure of both, the change, and how "
     "sure it is, by 1000 bodies that the lifter could have, each solved in both set-ups. A FILE "
     "alone as WHAT is another lifter in the same set-up; key=value words may "
     "change the lifter as well (stature, thigh ...).",
     "plumbar compare deadlift sex=male stature=178cm mass=85kg --pencil \"stance=60cm "
     "toes=30deg\"",
     FORMS | BIT(PLUMB_OPT_PENCIL) | DRAWS, plumb_cli_compare},
    {"styles", "deadlift|squat [FILE[:SET-UP]] [KEY=..]",
     "conventional and sumo, or high, low and front, side by side",
     "Solves one lifter at one load in every style with several stances and toes: travel, arms, "
     "moments, width of the window, shins from the front, what the hips need, limits that bind. "
     "In words: what this body's proportions favour, and how weakly or strongly. No score.",
     "plumbar styles deadlift sex=female stature=172cm mass=70kg thigh=\"+1 sd\" load=120kg", FORMS,
     plumb_cli_styles},
    {"draw", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]", "the drawing, as SVG, PDF or PNG",
     "Draws the sheet. The ending of the file decides the format; without -o, SVG goes to "
     "standard output, unless that is a terminal.",
     "plumbar draw deadlift sex=male stature=178cm mass=85kg -o pull.svg --pencil \"stance=60cm\"",
     BIT(PLUMB_OPT_HELP) | BIT(PLUMB_OPT_OUTPUT) | BIT(PLUMB_OPT_UNITS) | BIT(PLUMB_OPT_PAPER) |
         BIT(PLUMB_OPT_DARK) | BIT(PLUMB_OPT_PENCIL) | BIT(PLUMB_OPT_DATE) | DRAWS,
     plumb_cli_draw},
    {"population", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]",
     "where a lifter stands among many",
     "Solves the set-up for 10000 bodies drawn around the survey's means of the lifter's sex: "
     "percentiles of this lifter, what build does to back angle, travel and window (of a bench "
     "press to travel and the bar's arms), and which sayings hold in what share of bodies. --csv "
     "lists every body; -o with .svg, .pdf or .png "
     "draws. Ctrl+C stops and tells what was done by then, exit code 130.",
     "plumbar population deadlift sex=male stature=178cm mass=85kg --samples 500",
     FORMS | DRAWS | BIT(PLUMB_OPT_PAPER) | BIT(PLUMB_OPT_DARK) | BIT(PLUMB_OPT_DATE),
     plumb_cli_population},
    {"handout", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..] [--proposed WHAT]",
     "one page for the athlete, as PDF, PNG or SVG",
     "Draws the present set-up in pencil and the proposed one in ink, and says in plain words what "
     "to change, what it feels like, a drill and what to film next. Never more than two changes, "
     "and never a rounder back, less depth or another load. Without --proposed it takes the first "
     "that plumbar try would (--for names the aim), says so and why, and does so only where that "
     "gains what a person notices, and more than its uncertainty. With --since the page looks back "
     "instead: the set-up as it "
     "was on that day of the log against the present one. --still puts an "
     "annotated "
     "picture in the place of the front view, and what it shows leads the page. 400 bodies that "
     "the "
     "lifter could have "
     "say how sure each figure is.",
     "plumbar handout deadlift sex=male stature=178cm mass=85kg --proposed stance=45cm -o next.pdf",
     BIT(PLUMB_OPT_HELP) | BIT(PLUMB_OPT_OUTPUT) | BIT(PLUMB_OPT_UNITS) | BIT(PLUMB_OPT_PAPER) |
         BIT(PLUMB_OPT_DARK) | BIT(PLUMB_OPT_DATE) | BIT(PLUMB_OPT_SAMPLES) |
         BIT(PLUMB_OPT_PROPOSED) | BIT(PLUMB_OPT_NOTE) | BIT(PLUMB_OPT_DRILLS) |
         BIT(PLUMB_OPT_SINCE) | BIT(PLUMB_OPT_STUDENT) | BIT(PLUMB_OPT_STILL) |
         BIT(PLUMB_OPT_COLUMNS) | BIT(PLUMB_OPT_FOR),
     plumb_cli_handout},
    {"share", "deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]",
     "one HTML page with its rulers alive",
     "Writes a page that works offline, on a phone and on a desk: the drawing, the rulers and the "
     "figures, computed in the page itself. It asks nothing of a network. --pencil shows a second "
     "set-up in pencil.",
     "plumbar share squat sex=male stature=178cm mass=85kg -o squat.html --pencil bar=low",
     BIT(PLUMB_OPT_HELP) | BIT(PLUMB_OPT_OUTPUT) | BIT(PLUMB_OPT_UNITS) | BIT(PLUMB_OPT_PENCIL) |
         BIT(PLUMB_OPT_DATE),
     plumb_cli_share},
    {"explain", "QUANTITY deadlift|squat|bench [FILE[:SET-UP]] [KEY=..]",
     "the working of a figure, term by term",
     "Shows how a figure comes about: the equation in words and symbols, this lifter's numbers put "
     "in term by term, and the row and source of each. QUANTITY is a joint's moment, arm or effort "
     "(hip_moment, knee_arm, back_effort), knee_extension, knee_frontal, ankle_along_foot, "
     "hip_frontal, balance, travel, summed_effort; an angle: back_angle, shin_angle, thigh_angle, "
     "knee_flexion, dorsiflexion, hip_flexion, hip_abduction, hip_rotation, frontal_shin; a height "
     "or distance: hip_height, crease_above_knee, shoulder_ahead, leg_gap, toe_line, knee_outside, "
     "bar_over, hip_room, standing_off; an end of the window or the low-effort range: window_low, "
     "window_high, range_low, range_high; or a length of the body (thigh). Of a bench press: "
     "adduction_moment, "
     "flexion_moment, elbow_moment, side_arm, front_arm, elbow_arm, adduction_effort, "
     "flexion_effort, elbow_effort, summed_effort, travel, path_length, touch, grip_share, "
     "lockout_height, abduction_step, abduction, elbow_flexion, forearm_front, forearm_side, "
     "shoulder_angle, shoulder_rotation, elbow_off_hand, elbow_below_rule, elbows_upright and the "
     "ends. -o with .svg, .pdf or "
     ".png draws one page with the free body; --csv lists the terms of the last equation. --at end "
     "tells it of the lockout or of standing, --at peak and --at 1.2s of the way up in motion.",
     "plumbar explain hip_moment deadlift sex=male stature=178cm mass=85kg load=180kg",
     FORMS | BIT(PLUMB_OPT_PAPER) | BIT(PLUMB_OPT_DARK) | BIT(PLUMB_OPT_DATE) | BIT(PLUMB_OPT_AT),
     plumb_cli_explain},
    {"sources", "[WORD..]", "what every figure rests on",
     "Lists every row of the tables, every constant and every source, with what it rests on, and "
     "published results against this program's. WORD keeps the rows that have it in file, key, "
     "basis or source.",
     "plumbar sources memory",
     BIT(PLUMB_OPT_HELP) | BIT(PLUMB_OPT_JSON) | BIT(PLUMB_OPT_CSV) | BIT(PLUMB_OPT_OUTPUT),
     plumb_cli_sources},
    {"log", "[deadlift|squat|bench] FILE | FILE:SET-UP [KEY=..] --add",
     "what was lifted when, and how",
     "Lists the dated entries of a lifter file with the figures of each; -o with .svg, .pdf or "
     ".png "
     "draws them over the days. --add writes one more at the end of the file's log, with the "
     "settings of that day, and changes nothing else in it.",
     "plumbar log lifter.yaml",
     FORMS | BIT(PLUMB_OPT_PAPER) | BIT(PLUMB_OPT_DARK) | BIT(PLUMB_OPT_DATE) | BIT(PLUMB_OPT_ADD) |
         BIT(PLUMB_OPT_FINDINGS) | BIT(PLUMB_OPT_NOTE),
     plumb_cli_log},
    {"trace", "still|film [FILM] MARKS.csv [deadlift|squat|bench] [FILE[:SET-UP]] [KEY=..]",
     "a picture or a film of the lift, read and held against the model",
     "Fits camera, pose and lengths to marks on one or a few pictures, and tells every figure with "
     "its spread, what is beyond its threshold for sure, and what the picture leaves open. MARKS: "
     "columns picture,time,landmark,x,y,sigma (px from the top left); landmarks heel, toe, ankle, "
     "knee, hip, shoulder, elbow, wrist, bar (at the hand), disc (three to five points of the "
     "rim), "
     "disc_centre, plumb (two points of a post), scale (two ends of a known length); far_ before "
     "what is on the far side; right_ and left_ from the front, of a bench press from an end of "
     "the "
     "bench. A press is read by shoulder, elbow, wrist, bar, disc and disc_centre. Keys beside "
     "those of the set-up: "
     "facing=left|right, distance=5m, floor=no (the bar is in the air), size=1920x1080, "
     "disc_out=70cm, scale=1m, error=2cm, and thresholds such as bar_off_limit=3cm; rows "
     "distance_m, scale_m, facing and floor, with their value in column x, tell the same in the "
     "file. -o with .svg, "
     ".pdf or .png draws over the picture. A film is a video or a folder of frames (rate=30, a "
     "second); its marks have a column frame (from 0) or time (s) in place of picture, and a few "
     "frames are enough: the marks are followed between and beyond them, forward and backward, and "
     "those in doubt are told. It tells events, findings and all that was asked, with thresholds "
     "such as rise_ratio_limit=1.5; cutoff=6 smooths at 6 Hz; --csv writes every frame, -o draws "
     "the chart and the frames of the events with the figure over them. Filming "
     "card:" FILMING_WORDS " Of a bench press:" FILMING_PRESS_WORDS,
     "plumbar trace still pull.csv sex=male stature=178cm mass=85kg load=140kg distance=5m",
     BIT(PLUMB_OPT_HELP) | BIT(PLUMB_OPT_JSON) | BIT(PLUMB_OPT_CSV) | BIT(PLUMB_OPT_OUTPUT) |
         BIT(PLUMB_OPT_UNITS) | BIT(PLUMB_OPT_PAPER) | BIT(PLUMB_OPT_DARK) | BIT(PLUMB_OPT_DATE) |
         BIT(PLUMB_OPT_COLUMNS) | BIT(PLUMB_OPT_SAVE_BODY),
     plumb_cli_trace},
    {"view", "[deadlift|squat|bench] [FILE[:SET-UP]] [PICTURE|MARKS.csv] [KEY=..]",
     "the window with its rulers",
     "Opens the drawing with rulers to drag; with a PNG, a JPEG or a file of marks (.csv) the "
     "Trace "
     "page, where the picture of a real lift is marked and held against the model.",
     "plumbar view squat sex=male stature=178cm mass=85kg",
     BIT(PLUMB_OPT_HELP) | BIT(PLUMB_OPT_UNITS) | BIT(PLUMB_OPT_DARK) | BIT(PLUMB_OPT_PENCIL) |
         BIT(PLUMB_OPT_SCRIPT) | BIT(PLUMB_OPT_SHOTS) | BIT(PLUMB_OPT_SIZE) | BIT(PLUMB_OPT_TEXT) |
         BIT(PLUMB_OPT_DATE),
     plumb_cli_view},
};

const int plumb_cli_command_count = (int)(sizeof plumb_cli_commands / sizeof plumb_cli_commands[0]);

const PlumbCliCommand *plumb_command_find(const char *name, PlumbCliFault *fault)
{
    PlumbNearest search = plumb_nearest_begin(name, strlen(name));
    for (int i = 0; i < plumb_cli_command_count; i++) {
        if (strcmp(plumb_cli_commands[i].name, name) == 0) {
            return &plumb_cli_commands[i];
        }
        plumb_nearest_try(&search, plumb_cli_commands[i].name);
    }
    const char *const nearest = plumb_nearest_word(&search);
    if (nearest != NULL) {
        plumb_fault_bad(fault, name, "no such command; did you mean ", nearest, "?");
    } else {
        plumb_fault_bad(fault, name, "no such command; plumbar --help lists them", "", "");
    }
    return NULL;
}

PlumbCliExit plumb_cli_finish(PlumbCliOutput *out, PlumbCliExit answered, PlumbCliFault *fault)
{
    fault->path[0] = '\0';
    const PlumbStatus status = plumb_output_close(out, &fault->error);
    return status == PLUMB_OK ? answered : plumb_fault_exit(status);
}
