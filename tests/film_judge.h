/* SPDX-License-Identifier: MIT */
/* What a film was told to show, held against the truth: every figure, found where it is there,
 * silent where it is not. */
#ifndef PLUMBAR_TESTS_FILM_JUDGE_H
#define PLUMBAR_TESTS_FILM_JUDGE_H

#include "film_fault.h"
#include "film_read.h"

#define FILM_BIT(name) (1U << PLUMB_FILM_##name##_limit)

/* How a table writes a question. */
static inline void film_judge_print(const PlumbFilmFinding *f, double truth)
{
    static const char *const verdicts[] = {"clear", "unsure", "found", "not seen"};
    const double unit = f->what.quantity == PLUMB_Q_ANGLE    ? 180.0 / PLUMB_PI
                        : f->what.quantity == PLUMB_Q_LENGTH ? 1000.0
                                                             : 1.0;
    printf("    %-18s %8.2f  truth %8.2f ± %.2f  %s\n", plumb_film_limit_name(f->limit),
           unit * f->what.value, unit * truth, unit * f->sd, verdicts[f->verdict]);
}

/* Whether every figure of a film that was read is within `within` of the truth (0: within 2.5 of
 * the spread that the film tells), `found` is remarked, and nothing is that is not there; prints
 * them all. A question that the film leaves open misses where it is one of `found`. */
static inline bool film_judge(const FilmRead *read, const FilmTruth *truth, const double *within,
                              unsigned found)
{
    double limit[PLUMB_FILM_LIMIT_COUNT];
    PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT];
    plumb_film_limits_default(read->series.lift, limit);
    const int count = plumb_film_findings(&read->series, limit, finding);
    unsigned left = found;
    bool right = true;
    for (int i = 0; i < count; i++) {
        const PlumbFilmFinding *const f = &finding[i];
        const double is = truth->figure[f->limit];
        const bool there =
            f->limit == PLUMB_FILM_depth_limit ? is < f->what.limit : is > f->what.limit;
        const bool remarked = f->verdict == PLUMB_FILM_BEYOND;
        const bool seen = f->verdict != PLUMB_FILM_NOT_SEEN;
        const double least = within[f->limit] > 0.0 ? within[f->limit] : 2.5 * f->sd;
        const bool near = !seen || fabs(f->what.value - is) < least;
        film_judge_print(f, is);
        if (!near || (remarked && !there) || ((found & 1U << f->limit) != 0 && !remarked)) {
            printf("      misses what is asked of it\n");
            right = false;
        }
        left &= ~(1U << f->limit);
    }
    fflush(stdout);
    return right && left == 0;
}

#endif
