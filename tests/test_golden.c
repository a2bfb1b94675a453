/* SPDX-License-Identifier: MIT */
/* What each page of the window draws, held against kept drawings: the scene's numbers first, then
 * pixels on a coarse grid. tests/data/window holds them, one file a page; test_golden --remake
 * writes them anew from the present program. */
#include "scene_bench.h"

#ifdef PLUMB_HAS_VIEWER

#include "viewer/working.h"
#include "window_bench.h"

#include <cairo.h>

/* Kept figures have two decimals; half a tenth of a pixel more for another processor. */
#define SCENE_TOLERANCE_MM 0.03
/* Levels of 255: the grid's cells are means of a thousand pixels, of which a few on edges differ.
 */
#define PIXEL_TOLERANCE 3

enum { GRID_COLUMNS = 40, GRID_ROWS = 25, KEPT_SIZE = 1 << 17 };
/* Rows of the grid that the line on top may cover. */
enum { TOP_ROWS = 2 };

typedef struct Page {
    const char *name;
    PlumbLift lift;
    PlumbPage page;
    double width_px;
    double height_px;
    double text_scale;
    PlumbUnits units;
    PlumbPaper paper;
    bool pencil;
    bool body;
    PlumbCard card;
    bool keys;
    bool working;
    bool top;            /* the line on top too; the same on all pages */
    double hip_height_m; /* asked for; 0: the balance leads */
} Page;

#define DESKTOP .width_px = 1280.0, .height_px = 800.0, .text_scale = 1.0

static const Page PAGES[] = {
    {.name = "drawing", .lift = PLUMB_DEADLIFT, .page = PLUMB_PAGE_DRAWING, DESKTOP, .top = true},
    {.name = "drawing-squat",
     .lift = PLUMB_SQUAT,
     .page = PLUMB_PAGE_DRAWING,
     DESKTOP,
     .units = PLUMB_POUNDS_INCHES,
     .pencil = true},
    {.name = "drawing-no-pose",
     .lift = PLUMB_DEADLIFT,
     .page = PLUMB_PAGE_DRAWING,
     DESKTOP,
     .hip_height_m = 1.25},
    {.name = "drawing-small-body",
     .lift = PLUMB_DEADLIFT,
     .page = PLUMB_PAGE_DRAWING,
     .width_px = 1024.0,
     .height_px = 640.0,
     .text_scale = 1.0,
     .body = true},
    {.name = "path", .lift = PLUMB_DEADLIFT, .page = PLUMB_PAGE_PATH, DESKTOP},
    {.name = "compare",
     .lift = PLUMB_DEADLIFT,
     .page = PLUMB_PAGE_COMPARE,
     DESKTOP,
     .pencil = true},
    {.name = "compare-large",
     .lift = PLUMB_SQUAT,
     .page = PLUMB_PAGE_COMPARE,
     .width_px = 1280.0,
     .height_px = 800.0,
     .text_scale = 2.0,
     .pencil = true},
    {.name = "map",
     .lift = PLUMB_SQUAT,
     .page = PLUMB_PAGE_MAP,
     DESKTOP,
     .paper = PLUMB_DARK_PAPER},
    {.name = "drawing-press", .lift = PLUMB_BENCH, .page = PLUMB_PAGE_DRAWING, DESKTOP},
    {.name = "trace", .lift = PLUMB_DEADLIFT, .page = PLUMB_PAGE_TRACE, DESKTOP},
    {.name = "trace-press", .lift = PLUMB_BENCH, .page = PLUMB_PAGE_TRACE, DESKTOP},
    {.name = "keys", .lift = PLUMB_DEADLIFT, .page = PLUMB_PAGE_DRAWING, DESKTOP, .keys = true},
    {.name = "working",
     .lift = PLUMB_SQUAT,
     .page = PLUMB_PAGE_DRAWING,
     .width_px = 1024.0,
     .height_px = 640.0,
     .text_scale = 2.0,
     .working = true},
    {.name = "measuring-card",
     .lift = PLUMB_DEADLIFT,
     .page = PLUMB_PAGE_DRAWING,
     DESKTOP,
     .card = PLUMB_CARD_MEASURING},
    {.name = "filming-card",
     .lift = PLUMB_DEADLIFT,
     .page = PLUMB_PAGE_DRAWING,
     DESKTOP,
     .card = PLUMB_CARD_FILMING},
};
enum { PAGE_COUNT = sizeof PAGES / sizeof PAGES[0] };

static PlumbDesk *desk_of(const Page *page)
{
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.78, 85.0, 0.0, 0.0);
    PlumbSetup setup = plumb_setup_default(page->lift);
    if (page->hip_height_m > 0.0) {
        setup.lead = PLUMB_LEAD_HIP_HEIGHT;
        setup.hip_height_m = page->hip_height_m;
    }
    PlumbDesk *const desk = open_desk(&lifter, &setup, "");
    resize(desk, page->width_px, page->height_px, page->text_scale);
    desk->page = page->page;
    desk->units = page->units;
    desk->paper = page->paper;
    desk->body_shown = page->body;
    if (page->pencil) {
        plumb_desk_settle(desk);
        plumb_command_run(desk, PLUMB_CMD_PENCIL);
        desk->now.setup[page->lift].stance_m += 0.20;
        plumb_desk_touch(desk);
    }
    plumb_desk_say(desk, false, "");
    finish(desk);
    desk->keys_shown = page->keys;
    desk->worked->on = page->working;
    desk->card = page->card;
    frame(desk);
    return desk;
}

static char now[KEPT_SIZE];
static char kept[KEPT_SIZE];

/* What stands in one line of a kept drawing: a text by its place, or lines of one pen that follow
 * one another by the box around them, how many points they have and how long they are. */
typedef struct Mark {
    PlumbItemKind kind;
    PlumbPen pen;
    int count;
    double number[5];
    const char *text;
} Mark;

static double length_of(const PlumbScene *scene, const PlumbItem *item)
{
    double length = 0.0;
    for (int i = 1; i < item->count; i++) {
        const PlumbVec2 a = scene->point_mm[item->first + i - 1];
        const PlumbVec2 b = scene->point_mm[item->first + i];
        length += hypot(b.x - a.x, b.y - a.y);
    }
    return length;
}

static Mark mark_of(const PlumbScene *scene, const PlumbItem *item)
{
    Mark mark = {.kind = item->kind, .pen = item->pen, .count = 1, .text = ""};
    const PlumbRect box = item->box_mm;
    if (item->kind == PLUMB_ITEM_TEXT) {
        mark.text = plumb_scene_item_text(scene, item);
        mark.number[0] = item->at_mm.x;
        mark.number[1] = item->at_mm.y;
        mark.number[2] = item->size_mm;
        return mark;
    }
    mark.number[0] = box.x_mm;
    mark.number[1] = box.y_mm;
    mark.number[2] = box.x_mm + box.width_mm;
    mark.number[3] = box.y_mm + box.height_mm;
    if (item->kind == PLUMB_ITEM_PATH) {
        mark.count = item->count;
        mark.number[4] = length_of(scene, item);
    } else {
        mark.number[4] = item->kind == PLUMB_ITEM_ARC ? item->to_rad - item->from_rad : 0.0;
    }
    return mark;
}

static bool same_pen(const Mark *a, const Mark *b)
{
    return a->kind == PLUMB_ITEM_PATH && b->kind == PLUMB_ITEM_PATH &&
           a->pen.stroke == b->pen.stroke && a->pen.fill == b->pen.fill &&
           a->pen.dash == b->pen.dash && !(fabs(a->pen.weight_mm - b->pen.weight_mm) > 0.0);
}

static void join(Mark *to, const Mark *mark)
{
    to->number[0] = fmin(to->number[0], mark->number[0]);
    to->number[1] = fmin(to->number[1], mark->number[1]);
    to->number[2] = fmax(to->number[2], mark->number[2]);
    to->number[3] = fmax(to->number[3], mark->number[3]);
    to->number[4] += mark->number[4];
    to->count += mark->count;
}

static int add_line(char *to, int used, const Mark *mark)
{
    if (mark->kind == PLUMB_ITEM_TEXT) {
        used += snprintf(to + used, (size_t)(KEPT_SIZE - used), "text %s %.2f %.2f %.2f %s\n",
                         plumb_role_name(mark->pen.fill), mark->number[0], mark->number[1],
                         mark->number[2], mark->text);
    } else {
        static const char *const WORD[] = {"path", "circle", "arc"};
        used += snprintf(to + used, (size_t)(KEPT_SIZE - used),
                         "%s %s/%s/%d %d %.2f %.2f %.2f %.2f %.2f\n", WORD[mark->kind],
                         plumb_role_name(mark->pen.stroke), plumb_role_name(mark->pen.fill),
                         (int)mark->pen.dash, mark->count, mark->number[0], mark->number[1],
                         mark->number[2], mark->number[3], mark->number[4]);
    }
    assert_true(used < KEPT_SIZE);
    return used;
}

/* Items from first on, without those of skip (NULL: all). */
static int write_scene(const PlumbScene *scene, int first, const PlumbSlice *skip, int used)
{
    Mark last = {.kind = PLUMB_ITEM_TEXT, .text = NULL};
    for (int i = first; i < scene->item_count; i++) {
        if (skip != NULL && i >= skip->first && i < skip->first + skip->count) {
            continue;
        }
        const Mark mark = mark_of(scene, &scene->item[i]);
        if (last.text != NULL && same_pen(&last, &mark)) {
            join(&last, &mark);
            continue;
        }
        used = last.text != NULL ? add_line(now, used, &last) : used;
        last = mark;
    }
    return add_line(now, used, &last);
}

/* Mean brightness of the picture's cells, a line of two-digit hexadecimal numbers a row. */
static int write_grid(const PlumbDesk *desk, int first_row, char *to, int used)
{
    const int width = (int)lround(desk->width_mm * PLUMB_WINDOW_PX_PER_MM);
    const int height = (int)lround(desk->height_mm * PLUMB_WINDOW_PX_PER_MM);
    cairo_surface_t *const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    cairo_t *const cairo = cairo_create(surface);
    plumb_draw_cairo(cairo, desk->scene, desk->paper, desk->font, PLUMB_WINDOW_PX_PER_MM);
    cairo_surface_flush(surface);
    const unsigned char *const pixel = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int row = first_row; row < GRID_ROWS; row++) {
        used += snprintf(to + used, (size_t)(KEPT_SIZE - used), "grid ");
        for (int column = 0; column < GRID_COLUMNS; column++) {
            long sum = 0;
            long count = 0;
            for (int y = row * height / GRID_ROWS; y < (row + 1) * height / GRID_ROWS; y++) {
                const int end = (column + 1) * width / GRID_COLUMNS;
                for (int x = column * width / GRID_COLUMNS; x < end; x++) {
                    const unsigned char *const p = pixel + y * stride + 4 * x;
                    sum += p[0] + p[1] + p[2];
                    count += 3;
                }
            }
            used += snprintf(to + used, (size_t)(KEPT_SIZE - used), "%02lx", sum / count);
        }
        used += snprintf(to + used, (size_t)(KEPT_SIZE - used), "\n");
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return used;
}

static void path_of(const Page *page, char *path, size_t size)
{
    snprintf(path, size, "%s/window/%s.txt", PLUMB_TEST_DATA, page->name);
}

/* The slice of the line on top. */
static const PlumbSlice *top_of(const PlumbDesk *desk)
{
    const PlumbSlice *slice = desk->slices.slice;
    while (slice->rect.y_mm > 0.0 || slice->rect.height_mm > desk->layout.top.height_mm) {
        slice++;
    }
    return slice;
}

static void draw(const Page *page)
{
    PlumbDesk *const desk = desk_of(page);
    /* A card or the list of keys lies over a page that is kept already. */
    const bool over = page->keys || page->card != PLUMB_CARD_NONE;
    const int front = desk->slices.slice[desk->slices.count - 1].first;
    const PlumbSlice *const top = top_of(desk);
    const int used = write_scene(desk->scene, over ? front : 0, page->top || over ? NULL : top, 0);
    write_grid(desk, page->top ? 0 : TOP_ROWS, now, used);
    plumb_desk_destroy(desk);
}

/* One word of each line: the same, or two numbers that are near enough. */
static bool same_word(const char *a, const char *b)
{
    char *end_a = NULL;
    char *end_b = NULL;
    const double x = strtod(a, &end_a);
    const double y = strtod(b, &end_b);
    if (end_a != a && end_b != b && *end_a == '\0' && *end_b == '\0') {
        /* A total of lengths is off by the sum of what its lines are. */
        return fabs(x - y) <= fmax(SCENE_TOLERANCE_MM, 2e-4 * fabs(x));
    }
    return strcmp(a, b) == 0;
}

static bool same_line(char *a, char *b)
{
    char *save_a = NULL;
    char *save_b = NULL;
    char *word_a = strtok_r(a, " ", &save_a);
    char *word_b = strtok_r(b, " ", &save_b);
    while (word_a != NULL && word_b != NULL && same_word(word_a, word_b)) {
        word_a = strtok_r(NULL, " ", &save_a);
        word_b = strtok_r(NULL, " ", &save_b);
    }
    return word_a == NULL && word_b == NULL;
}

static int level(const char *two)
{
    const char digits[3] = {two[0], two[1], '\0'};
    return (int)strtol(digits, NULL, 16);
}

static bool same_grid(const char *a, const char *b)
{
    bool same = strlen(a) == strlen(b);
    for (size_t i = strlen("grid "); same && a[i] != '\0'; i += 2) {
        same = abs(level(a + i) - level(b + i)) <= PIXEL_TOLERANCE;
    }
    return same;
}

static void compare_page(const Page *page)
{
    char *save_a = NULL;
    char *save_b = NULL;
    char *a = strtok_r(now, "\n", &save_a);
    char *b = strtok_r(kept, "\n", &save_b);
    for (int line = 1; a != NULL || b != NULL; line++) {
        char was[512];
        char is[512];
        snprintf(is, sizeof is, "%s", a != NULL ? a : "nothing more");
        snprintf(was, sizeof was, "%s", b != NULL ? b : "nothing more");
        const bool same = a != NULL && b != NULL &&
                          (strncmp(a, "grid ", 5) == 0 ? same_grid(a, b) : same_line(a, b));
        if (!same) {
            fail_msg("%s, line %d\n  kept: %s\n  now:  %s\nIf the page is meant to have changed, "
                     "look at it and run test_golden --remake",
                     page->name, line, was, is);
        }
        a = strtok_r(NULL, "\n", &save_a);
        b = strtok_r(NULL, "\n", &save_b);
    }
}

static void page__is_as_kept(void **state)
{
    const Page *const page = *state;
    char path[512];
    path_of(page, path, sizeof path);
    FILE *const file = fopen(path, "r");
    assert_non_null(file);
    const size_t size = fread(kept, 1, sizeof kept - 1, file);
    kept[size] = '\0';
    fclose(file);
    draw(page);
    compare_page(page);
}

static int remake(void)
{
    for (int i = 0; i < PAGE_COUNT; i++) {
        char path[512];
        path_of(&PAGES[i], path, sizeof path);
        draw(&PAGES[i]);
        FILE *const file = fopen(path, "w");
        if (file == NULL || fputs(now, file) < 0 || fclose(file) != 0) {
            fprintf(stderr, "%s cannot be written\n", path);
            return 1;
        }
    }
    return 0;
}

static int finish_drawing(void **state)
{
    (void)state;
    plumb_draw_finish();
    return 0;
}

int main(int argc, char **argv)
{
    if (argc == 2 && strcmp(argv[1], "--remake") == 0) {
        return remake();
    }
    struct CMUnitTest tests[PAGE_COUNT];
    for (int i = 0; i < PAGE_COUNT; i++) {
        tests[i] = (struct CMUnitTest){.name = PAGES[i].name,
                                       .test_func = page__is_as_kept,
                                       .initial_state = (void *)(uintptr_t)&PAGES[i]};
    }
    return cmocka_run_group_tests_name("pages of the window", tests, NULL, finish_drawing);
}

#else

int main(void)
{
    return 0;
}

#endif
