/* SPDX-License-Identifier: MIT */
/* Stills of known lifters read back: figures against the truth under each condition, and whether
 * the intervals hold it as often as they say. PLUMB_LONG=1 takes a thousand lifters. */
#include "support.h"

#include "still.h"

enum { LIFTERS = 80, LIFTERS_COVERED = 300, LIFTERS_LONG = 1000 };

static int lifters(int usual)
{
    const char *const asked = getenv("PLUMB_LONG");
    return asked != NULL && asked[0] == '1' ? LIFTERS_LONG : usual;
}

/* What is held against the truth; angles in degrees, lengths in mm. */
typedef enum Held {
    HELD_BACK,
    HELD_SHIN,
    HELD_THIGH,
    HELD_KNEE,
    HELD_BAR_OVER,
    HELD_BALANCE,
    HELD_HIP_ARM,
    HELD_THIGH_LENGTH,
    HELD_TRUNK_LENGTH,
    HELD_KNEE_SEEN, /* as the side view has it, without what points at the camera */
    HELD_COUNT
} Held;

enum { HELD_READINGS = HELD_HIP_ARM + 1 };

/* Those that are figures with a spread of their own, and their unit in SI. */
static const struct {
    int reading;
    double per_si;
} held_reading[HELD_READINGS] = {
    {PLUMB_ANG_back, 180.0 / PLUMB_PI},  {PLUMB_ANG_shin, 180.0 / PLUMB_PI},
    {PLUMB_ANG_thigh, 180.0 / PLUMB_PI}, {PLUMB_ANG_knee_flexion, 180.0 / PLUMB_PI},
    {PLUMB_READ_bar_over, 1000.0},       {PLUMB_READ_balance, 1.0},
    {PLUMB_READ_hip_arm, 1000.0}};

static const char *const held_names[HELD_COUNT] = {
    "back°",   "shin°",  "thigh°",     "knee°",      "bar mm",
    "balance", "arm mm", "l.thigh mm", "l.trunk mm", "side knee°"};

typedef struct Result {
    double middle[HELD_COUNT];
    double high[HELD_COUNT];          /* 95th percentile */
    double allowed[HELD_READINGS];    /* median that marks and beliefs allow */
    double efficiency[HELD_READINGS]; /* median of errors, each as a share of what is allowed */
    double misfit;
    int missed; /* did not converge */
} Result;

/* Half of normal errors are below this share of their standard deviation. */
static const double median_of_normal = 0.6745;

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double miss(const Shot *shot, const PlumbTrace *trace, int reading)
{
    return fabs(trace->still[0].value[reading] - shot->truth.value[reading]);
}

/* Knee flexion as the side view has it: shin and thigh without what points at the camera. */
static double side_knee_rad(const PlumbPosition *position)
{
    const PlumbVec3 ankle = position->point[PLUMB_PT_ankle];
    const PlumbVec3 knee = position->point[PLUMB_PT_knee];
    const PlumbVec3 hip = position->point[PLUMB_PT_hip];
    return atan2(knee.x - ankle.x, knee.y - ankle.y) - atan2(hip.x - knee.x, hip.y - knee.y);
}

static void hold(const Shot *shot, const PlumbTrace *trace, double error[HELD_COUNT])
{
    const double deg = 180.0 / PLUMB_PI;
    const double mm = 1000.0;
    for (int k = 0; k < HELD_READINGS; k++) {
        error[k] = held_reading[k].per_si * miss(shot, trace, held_reading[k].reading);
    }
    error[HELD_THIGH_LENGTH] =
        mm * fabs(trace->lifter.body.thigh_m - shot->truth.lifter.body.thigh_m);
    error[HELD_TRUNK_LENGTH] =
        mm * fabs(trace->lifter.body.trunk_m - shot->truth.lifter.body.trunk_m);
    error[HELD_KNEE_SEEN] =
        deg * fabs(side_knee_rad(&trace->still[0].position) - side_knee_rad(&shot->truth.position));
}

static Result measure(const Condition *c)
{
    static double error[HELD_COUNT][LIFTERS_LONG];
    static double allowed[HELD_READINGS][LIFTERS_LONG];
    static double share[HELD_READINGS][LIFTERS_LONG];
    static Shot shot;
    static PlumbTrace trace;
    static PlumbTraceWork work;
    const int count = lifters(LIFTERS);
    Result result = {.missed = 0};
    for (int i = 0; i < count; i++) {
        double one[HELD_COUNT];
        PlumbError why;
        shot_take(&shot, c, (uint64_t)i);
        assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &why), PLUMB_OK);
        result.missed += !trace.converged;
        result.misfit += trace.still[0].misfit / count;
        hold(&shot, &trace, one);
        for (int k = 0; k < HELD_COUNT; k++) {
            error[k][i] = one[k];
        }
        for (int k = 0; k < HELD_READINGS; k++) {
            allowed[k][i] = median_of_normal * held_reading[k].per_si *
                            trace.still[0].sd[held_reading[k].reading];
            share[k][i] = one[k] / allowed[k][i];
        }
    }
    for (int k = 0; k < HELD_COUNT; k++) {
        qsort(error[k], (size_t)count, sizeof error[k][0], by_size);
        result.middle[k] = error[k][count / 2];
        result.high[k] = error[k][(count * 95) / 100];
    }
    for (int k = 0; k < HELD_READINGS; k++) {
        qsort(allowed[k], (size_t)count, sizeof allowed[k][0], by_size);
        qsort(share[k], (size_t)count, sizeof share[k][0], by_size);
        result.allowed[k] = allowed[k][count / 2];
        result.efficiency[k] = share[k][count / 2];
    }
    return result;
}

static void print(const Condition *c, const Result *r)
{
    printf("  %-34s", c->name);
    for (int k = 0; k < HELD_COUNT; k++) {
        const int digits = k == HELD_BALANCE ? 3 : 1;
        printf("  %5.*f/%5.*f", digits, r->middle[k], digits, r->high[k]);
    }
    printf("  misfit %.2f, %d not converged\n  %-34s", r->misfit, r->missed, "    allowed");
    for (int k = 0; k < HELD_READINGS; k++) {
        printf("  %5.*f x%4.2f", k == HELD_BALANCE ? 3 : 1, r->allowed[k], r->efficiency[k]);
    }
    printf("\n");
}

/* What the medians must keep: angles of back, of shin and thigh, and of the knee; bar over
 * mid-foot; balance. The aims are one degree, 8 mm and 0.02 at a pixel, 4 degrees at 2.5 cm.
 * Squats, and pulls whose foot and ankle are seen, meet them but for the knee: that its bend in
 * space is more than the side view has of it shows only from the front. Where the disc hides foot
 * and ankle, shin, knee, bar and balance are worse, as much as `allowed` says. */
typedef struct Most {
    double back_deg;
    double leg_deg;
    double knee_deg;
    double bar_mm;
    double balance;
} Most;

typedef struct Case {
    Condition condition;
    Most most;
} Case;

#define NOT ((double)INFINITY) /* the foot is hidden: printed only */
static const Case cases[] = {
    {{"pull 5 m 0° 1 px, lens low, post", PLUMB_DEADLIFT, 5.0, 0.0, 0.0, 1.0, true, true, false,
      0.3, true, false, false},
     {1.0, 2.5, 2.7, 11.0, 0.035}},
    {{"pull 5 m 5° 1 px, lens low, post", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, false,
      0.3, true, false, false},
     {1.0, 2.5, 3.1, 9.0, 0.035}},
    {{"pull 5 m 20° 1 px, lens low, post", PLUMB_DEADLIFT, 5.0, 20.0, 0.0, 1.0, true, true, false,
      0.3, true, false, false},
     {1.0, 2.5, 2.9, 11.0, 0.04}},
    {{"pull 5 m 5° 1 px, lens low", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, false, 0.3,
      false, false, false},
     {1.6, 3.0, 3.4, 10.0, 0.045}},
    {{"pull 5 m 5° 1 px, low, post, one disc", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, false, true,
      false, 0.3, true, false, false},
     {1.0, 2.5, 3.5, 12.0, 0.04}},
    {{"pull 5 m 5° 1 px, lens 1.0 m, post", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, false,
      1.0, true, false, false},
     {1.0, 3.8, 4.4, NOT, NOT}},
    {{"pull 5 m 5° 1 px, lens 1.6 m, post", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, false,
      1.6, true, false, false},
     {1.0, 3.8, 4.4, NOT, NOT}},
    {{"pull 5 m 5° 1 px, low, post, front", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, true,
      0.3, true, false, false},
     {1.0, 2.5, 2.9, 8.0, 0.03}},
    {{"pull 3 m 5° 1 px, lens low, post", PLUMB_DEADLIFT, 3.0, 5.0, 0.0, 1.0, true, true, false,
      0.3, true, false, false},
     {1.0, 4.2, 4.4, 16.0, 0.06}},
    {{"pull 8 m 5° 1 px, lens low, post", PLUMB_DEADLIFT, 8.0, 5.0, 0.0, 1.0, true, true, false,
      0.3, true, false, false},
     {1.2, 2.5, 3.0, 8.0, 0.03}},
    {{"pull 5 m 5° 2.5 cm, lens low, post", PLUMB_DEADLIFT, 5.0, 5.0, 0.025, 0.0, true, true, false,
      0.3, true, false, false},
     {4.0, 5.0, 6.2, 20.0, 0.07}},
    {{"pull, nothing told, 2.5 cm, one disc", PLUMB_DEADLIFT, (double)NAN, (double)NAN, 0.025, 0.0,
      false, false, false, (double)NAN, false, false, false},
     {4.0, 5.0, 7.5, 25.0, 0.1}},
    {{"pull 5 m 0° 1 px, nothing hid, post", PLUMB_DEADLIFT, 5.0, 0.0, 0.0, 1.0, true, true, false,
      0.3, true, true, false},
     {1.0, 1.0, 1.7, 8.0, 0.02}},
    {{"pull 5 m 5° 1 px, nothing hid, post", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, false,
      0.3, true, true, false},
     {1.0, 1.0, 1.9, 8.0, 0.02}},
    {{"pull 5 m 20° 1 px, nothing hid, post", PLUMB_DEADLIFT, 5.0, 20.0, 0.0, 1.0, true, true,
      false, 0.3, true, true, false},
     {1.0, 1.6, 2.8, 8.0, 0.025}},
    {{"pull 5 m 5° 2.5 cm, nothing hid", PLUMB_DEADLIFT, 5.0, 5.0, 0.025, 0.0, true, true, false,
      0.3, true, true, false},
     {4.0, 4.0, 5.2, 16.0, 0.06}},
    {{"pull 5 m 5° 1 px, nothing hid, front", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, true,
      0.3, true, true, false},
     {1.0, 1.0, 1.0, 8.0, 0.02}},
    {{"pull 5 m 5° 1 px, lens at bar, post", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, false,
      0.0, true, false, false},
     {1.0, 2.7, 3.1, 9.0, 0.038}},
    {{"pull 5 m 20° 1 px, low, far foot", PLUMB_DEADLIFT, 5.0, 20.0, 0.0, 1.0, true, true, false,
      0.3, true, false, true},
     {1.0, 1.7, 2.4, 8.0, 0.02}},
    {{"pull 5 m 5° 1 px, 1.6 m, far foot", PLUMB_DEADLIFT, 5.0, 5.0, 0.0, 1.0, true, true, false,
      1.6, true, false, true},
     {1.0, 3.8, 4.3, NOT, NOT}},
    {{"squat 5 m 5° 1 px, post, front", PLUMB_SQUAT, 5.0, 5.0, 0.0, 1.0, true, true, true,
      (double)NAN, true, false, false},
     {1.2, 1.0, 1.0, 8.0, 0.02}},
    {{"squat 5 m 5° 1 px, post, far foot", PLUMB_SQUAT, 5.0, 5.0, 0.0, 1.0, true, true, false,
      (double)NAN, true, false, true},
     {1.2, 1.0, 1.1, 8.0, 0.02}},
    {{"squat 5 m 0° 1 px, post", PLUMB_SQUAT, 5.0, 0.0, 0.0, 1.0, true, true, false, (double)NAN,
      true, false, false},
     {1.2, 1.0, 1.5, 8.0, 0.02}},
    {{"squat 5 m 5° 1 px, post", PLUMB_SQUAT, 5.0, 5.0, 0.0, 1.0, true, true, false, (double)NAN,
      true, false, false},
     {1.2, 1.0, 1.4, 8.0, 0.02}},
    {{"squat 5 m 20° 1 px, post", PLUMB_SQUAT, 5.0, 20.0, 0.0, 1.0, true, true, false, (double)NAN,
      true, false, false},
     {1.0, 1.2, 1.7, 8.0, 0.03}},
    {{"squat 5 m 5° 1 px", PLUMB_SQUAT, 5.0, 5.0, 0.0, 1.0, true, true, false, (double)NAN, false,
      false, false},
     {1.5, 1.5, 1.4, 15.0, 0.05}},
    {{"squat 5 m 5° 2.5 cm, post", PLUMB_SQUAT, 5.0, 5.0, 0.025, 0.0, true, true, false,
      (double)NAN, true, false, false},
     {3.0, 4.5, 4.0, 16.0, 0.06}},
    {{"squat, nothing told, 2.5 cm, one disc", PLUMB_SQUAT, (double)NAN, (double)NAN, 0.025, 0.0,
      false, false, false, (double)NAN, false, false, false},
     {5.0, 5.0, 4.6, 28.0, 0.095}},
};

enum { CASES = sizeof cases / sizeof cases[0] };

/* A median of eighty normal errors strays by 13 % of itself, three times that is allowed; and where
 * the ankle is hidden the spread, of first order, is a tenth too small. All medians together stray
 * by some 5 %. */
static const double efficient_most = 1.5;
static const double efficient_mean = 1.15;

static void stills__are_read_back(void **state)
{
    double efficiency = 0.0;
    const int asked = cases_of(CASES);
    (void)state;
    printf("median / 95th percentile of the errors, %d lifters each; allowed: the median that the "
           "information of marks and beliefs leaves\n  %-34s",
           lifters(LIFTERS), "");
    for (int k = 0; k < HELD_COUNT; k++) {
        printf("  %11s", held_names[k]);
    }
    printf("\n");
    for (int i = 0; i < CASES; i++) {
        if (!case_asked(i, CASES)) {
            continue;
        }
        const Most *const most = &cases[i].most;
        const Result r = measure(&cases[i].condition);
        print(&cases[i].condition, &r);
        assert_true(r.middle[HELD_BACK] <= most->back_deg);
        assert_true(r.middle[HELD_SHIN] <= most->leg_deg);
        assert_true(r.middle[HELD_THIGH] <= most->leg_deg);
        assert_true(r.middle[HELD_KNEE] <= most->knee_deg);
        assert_true(r.middle[HELD_BAR_OVER] <= most->bar_mm);
        assert_true(r.middle[HELD_BALANCE] <= most->balance);
        if (cases[i].condition.bare && cases[i].condition.yaw_deg <= 5.0 &&
            cases[i].condition.error_px > 0.0) {
            assert_true(r.middle[HELD_KNEE_SEEN] <= 1.0);
        }
        for (int k = 0; k < HELD_READINGS; k++) {
            assert_true(r.efficiency[k] <= efficient_most);
            efficiency += r.efficiency[k] / (asked * HELD_READINGS);
        }
        assert_true(r.missed <= 1 + lifters(LIFTERS) / 50);
    }
    printf("  all medians are %.2f of what is allowed\n", efficiency);
    assert_true(efficiency <= efficient_mean);
}

/* Figures whose intervals are counted. */
static const int counted[] = {PLUMB_ANG_back,         PLUMB_ANG_shin,      PLUMB_ANG_thigh,
                              PLUMB_ANG_knee_flexion, PLUMB_READ_balance,  PLUMB_READ_bar_over,
                              PLUMB_READ_hip_arm,     PLUMB_READ_knee_arm, PLUMB_READ_hip_height,
                              PLUMB_READ_hip_moment};

enum { COUNTED = sizeof counted / sizeof counted[0] };

/* Shares of lifters whose truth the 95 % interval holds, over pictures as people take them. */
static void intervals__hold_the_truth(void **state)
{
    static const Condition taken[] = {
        {"pull, 1 px", PLUMB_DEADLIFT, (double)NAN, (double)NAN, 0.0, 1.0, true, false, false,
         (double)NAN, false, false, false},
        {"pull, 2.5 cm", PLUMB_DEADLIFT, (double)NAN, (double)NAN, 0.025, 0.0, false, false, false,
         (double)NAN, false, false, false},
        {"squat, 1 px", PLUMB_SQUAT, (double)NAN, (double)NAN, 0.0, 1.0, true, false, false,
         (double)NAN, false, false, false},
        {"squat, 2.5 cm", PLUMB_SQUAT, (double)NAN, (double)NAN, 0.025, 0.0, false, false, false,
         (double)NAN, false, false, false},
    };
    static Shot shot;
    static PlumbTrace trace;
    static PlumbTraceWork work;
    const int count = lifters(cases_of(LIFTERS_COVERED));
    (void)state;
    printf("share of %d lifters whose truth the 95 %% interval holds\n  %-14s", count, "");
    for (int k = 0; k < COUNTED; k++) {
        printf(" %14s", plumb_reading_name((PlumbReading)counted[k]));
    }
    for (size_t c = 0; c < sizeof taken / sizeof taken[0]; c++) {
        int held[COUNTED] = {0};
        for (int i = 0; i < count; i++) {
            PlumbError why;
            shot_take(&shot, &taken[c], (uint64_t)(10000 + i));
            assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &why), PLUMB_OK);
            for (int k = 0; k < COUNTED; k++) {
                held[k] += miss(&shot, &trace, counted[k]) <= 1.96 * trace.still[0].sd[counted[k]];
            }
        }
        printf("\n  %-14s", taken[c].name);
        /* 93 to 97 %, and twice the standard error of a share of so many lifters. */
        const double error = 200.0 * sqrt(0.95 * 0.05 / count);
        int all = 0;
        for (int k = 0; k < COUNTED; k++) {
            const double one = 100.0 * held[k] / count;
            printf(" %12.1f %%", one);
            assert_true(one >= 93.0 - error && one <= 97.0 + error);
            all += held[k];
        }
        const double share = 100.0 * all / count / COUNTED;
        printf("   together %.1f %%", share);
        assert_true(share >= 93.0 && share <= 97.0);
    }
    printf("\n");
}

/* Whether the truth itself is beyond the threshold that a finding speaks of. */
static bool is_true(const Shot *one, const PlumbStillFinding *finding)
{
    const double *const value = one->truth.value;
    const double limit = finding->what.limit;
    switch ((int)finding->what.id) {
    case PLUMB_FIND_bar_off_mid_foot:
        return fabs(value[PLUMB_READ_bar_over]) > limit;
    case PLUMB_FIND_balance_toward_heel:
        return value[PLUMB_READ_balance] < limit;
    case PLUMB_FIND_balance_toward_toes:
        return value[PLUMB_READ_balance] > limit;
    case PLUMB_FIND_shoulder_behind_bar:
        return value[PLUMB_READ_shoulder_ahead] < limit;
    case PLUMB_FIND_shoulder_far_ahead:
        return value[PLUMB_READ_shoulder_ahead] > limit;
    case PLUMB_FIND_back_near_level:
        return value[PLUMB_ANG_back] < limit;
    case PLUMB_FIND_gap_to_bar:
        return value[PLUMB_READ_leg_gap] > limit;
    case PLUMB_FIND_depth_not_reached:
        return value[PLUMB_READ_depth] < limit;
    case PLUMB_FIND_joint_past_limit:
        return true; /* not counted: which angle it is of depends on the limit */
    default:
        return false;
    }
}

/* A lift that is inside a threshold is remarked as outside it in less than one of thirty. */
static void findings__are_silent_on_clean_lifts(void **state)
{
    static const Condition taken[] = {
        {"pull", PLUMB_DEADLIFT, (double)NAN, (double)NAN, 0.0, 1.0, true, false, false,
         (double)NAN, false, false, false},
        {"squat", PLUMB_SQUAT, (double)NAN, (double)NAN, 0.025, 0.0, false, false, false,
         (double)NAN, false, false, false},
    };
    static Shot shot;
    static PlumbTrace trace;
    static PlumbTraceWork work;
    const int count = lifters(cases_of(LIFTERS_COVERED));
    (void)state;
    for (size_t c = 0; c < sizeof taken / sizeof taken[0]; c++) {
        int wrong = 0;
        int right = 0;
        for (int i = 0; i < count; i++) {
            PlumbError why;
            double limit[PLUMB_STILL_LIMIT_COUNT];
            PlumbStillFinding finding[PLUMB_FINDING_MAX];
            shot_take(&shot, &taken[c], (uint64_t)(20000 + i));
            assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &why), PLUMB_OK);
            plumb_still_limits_default(&shot.known, &shot.told, limit);
            const int found = plumb_still_findings(&trace, 0, NULL, limit, finding);
            for (int k = 0; k < found; k++) {
                wrong += !is_true(&shot, &finding[k]);
                right += is_true(&shot, &finding[k]);
            }
        }
        printf("  %s: %d findings that hold, %d that do not, in %d stills\n", taken[c].name, right,
               wrong, count);
        assert_true(30 * wrong <= count);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stills__are_read_back),
        cmocka_unit_test(intervals__hold_the_truth),
        cmocka_unit_test(findings__are_silent_on_clean_lifts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
