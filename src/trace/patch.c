/* SPDX-License-Identifier: MIT */
/* Frames in halving sizes, patches and their normalised cross-correlation.
 *
 * With w the patch less its mean at length 1 and I the picture under it, the correlation is
 *   sum w I / sqrt(sum I² - (sum I)² / n),
 * since w has no mean. */
#include "trace/patch.h"

#include "base/vec.h"

static const double flat_level = 1.5; /* standard deviation in levels that is only noise */

static int half_of(int size)
{
    return size > 1 ? size / 2 : 1;
}

size_t plumb_pyramid_bytes(int width_px, int height_px)
{
    size_t bytes = 0;
    for (int l = 1; l < PYRAMID_LEVELS; l++) {
        width_px = half_of(width_px);
        height_px = half_of(height_px);
        bytes += (size_t)width_px * (size_t)height_px;
    }
    return bytes;
}

/* Each pixel the mean of four. */
static void halve(const PlumbGray *from, uint8_t *to, int width, int height)
{
    const ptrdiff_t right = from->width_px > 1 ? 1 : 0;
    const ptrdiff_t below = from->height_px > 1 ? from->stride : 0;
    for (int y = 0; y < height; y++) {
        const uint8_t *const a = from->level + 2 * y * from->stride;
        const uint8_t *const b = a + below;
        uint8_t *const row = to + (ptrdiff_t)y * width;
        for (int x = 0; x < width; x++) {
            const ptrdiff_t i = 2 * (ptrdiff_t)x;
            row[x] = (uint8_t)((a[i] + a[i + right] + b[i] + b[i + right] + 2) >> 2);
        }
    }
}

void plumb_pyramid_build(const PlumbGray *frame, uint8_t *room, Pyramid *pyramid)
{
    pyramid->level[0] = *frame;
    for (int l = 1; l < PYRAMID_LEVELS; l++) {
        const PlumbGray *const above = &pyramid->level[l - 1];
        const int width = half_of(above->width_px);
        const int height = half_of(above->height_px);
        halve(above, room, width, height);
        pyramid->level[l] = (PlumbGray){width, height, width, room};
        room += (ptrdiff_t)width * height;
    }
}

static int held(int at, int size)
{
    return at < 0 ? 0 : at >= size ? size - 1 : at;
}

static double between(const PlumbGray *picture, double x, double y)
{
    const double fx = floor(x);
    const double fy = floor(y);
    const double u = x - fx;
    const double v = y - fy;
    const int x0 = held((int)fx, picture->width_px);
    const int x1 = held((int)fx + 1, picture->width_px);
    const uint8_t *const a = picture->level + held((int)fy, picture->height_px) * picture->stride;
    const uint8_t *const b =
        picture->level + held((int)fy + 1, picture->height_px) * picture->stride;
    return (1.0 - v) * ((1.0 - u) * a[x0] + u * a[x1]) + v * ((1.0 - u) * b[x0] + u * b[x1]);
}

void plumb_cutting_keep(Cutting *cutting, const PlumbGray *picture, PlumbVec2 at, int radius)
{
    const int reach = radius + 2;
    uint8_t *level = cutting->level;
    cutting->radius = radius;
    for (int dy = -reach; dy <= reach; dy++) {
        for (int dx = -reach; dx <= reach; dx++) {
            *level++ = (uint8_t)(between(picture, at.x + dx, at.y + dy) + 0.5);
        }
    }
}

bool plumb_cutting_patch(const Cutting *cutting, double turn_rad, Patch *patch)
{
    const int reach = cutting->radius + 2;
    const int side = 2 * reach + 1;
    const PlumbGray square = {side, side, side, cutting->level};
    return plumb_patch_take(patch, &square, (PlumbVec2){reach, reach}, cutting->radius, turn_rad);
}

bool plumb_patch_take(Patch *patch, const PlumbGray *picture, PlumbVec2 at, int radius,
                      double turn_rad)
{
    const int side = 2 * radius + 1;
    const double c = cos(turn_rad);
    const double s = sin(turn_rad);
    double sum = 0.0;
    double squares = 0.0;
    patch->radius = radius;
    patch->count = 0;
    for (int j = 0; j < side; j++) {
        const int dy = j - radius;
        const int half = (int)sqrt((double)(radius * radius + radius - dy * dy));
        patch->half[j] = half > radius ? radius : half;
        for (int dx = -patch->half[j]; dx <= patch->half[j]; dx++) {
            const double level = between(picture, at.x + c * dx + s * dy, at.y + c * dy - s * dx);
            patch->weight[j * side + radius + dx] = (float)level;
            patch->count++;
            sum += level;
            squares += level * level;
        }
    }
    const double mean = sum / patch->count;
    const double length = sqrt(fmax(squares - sum * mean, 0.0));
    if (length < flat_level * sqrt((double)patch->count)) {
        return false;
    }
    for (int j = 0; j < side; j++) {
        for (int dx = -patch->half[j]; dx <= patch->half[j]; dx++) {
            float *const weight = &patch->weight[j * side + radius + dx];
            *weight = (float)(((double)*weight - mean) / length);
        }
    }
    return true;
}

/* Sums of one row under the patch. */
typedef struct Sums {
    int sum;
    int squares;
    float product;
} Sums;

static void add_row(const uint8_t *level, const float *weight, int count, Sums *sums)
{
    int sum = 0;
    int squares = 0;
    float product = 0.0F;
    for (int i = 0; i < count; i++) {
        const int value = level[i];
        sum += value;
        squares += value * value;
        product += weight[i] * (float)value;
    }
    sums->sum += sum;
    sums->squares += squares;
    sums->product += product;
}

static void add_row_held(const uint8_t *row, int x, int width, const float *weight, int count,
                         Sums *sums)
{
    for (int i = 0; i < count; i++) {
        add_row(row + held(x + i, width), weight + i, 1, sums);
    }
}

double plumb_patch_score(const Patch *patch, const PlumbGray *picture, int x, int y)
{
    const int radius = patch->radius;
    const int side = 2 * radius + 1;
    const bool inside = x >= radius && x + radius < picture->width_px;
    Sums sums = {0, 0, 0.0F};
    for (int j = 0; j < side; j++) {
        const int half = patch->half[j];
        const uint8_t *const row =
            picture->level + held(y + j - radius, picture->height_px) * picture->stride;
        const float *const weight = patch->weight + j * side + radius - half;
        if (inside) {
            add_row(row + x - half, weight, 2 * half + 1, &sums);
        } else {
            add_row_held(row, x - half, picture->width_px, weight, 2 * half + 1, &sums);
        }
    }
    const double spread = sums.squares - (double)sums.sum * sums.sum / patch->count;
    return spread > flat_level * flat_level * patch->count ? (double)sums.product / sqrt(spread)
                                                           : 0.0;
}

double plumb_patch_search(const Patch *patch, const PlumbGray *picture, PlumbVec2 about, int reach,
                          PlumbVec2 *found)
{
    const int x = (int)lround(about.x);
    const int y = (int)lround(about.y);
    double best = -2.0;
    for (int dy = -reach; dy <= reach; dy++) {
        for (int dx = -reach; dx <= reach; dx++) {
            const double score = plumb_patch_score(patch, picture, x + dx, y + dy);
            if (score > best) {
                best = score;
                *found = (PlumbVec2){x + dx, y + dy};
            }
        }
    }
    return best;
}

/* Where a parabola through three values at -1, 0, 1 is highest. */
static double summit(double before, double here, double after)
{
    const double bend = before - 2.0 * here + after;
    const double at = bend < 0.0 ? 0.5 * (before - after) / bend : 0.0;
    return fmin(fmax(at, -0.5), 0.5);
}

double plumb_patch_climb(const Patch *patch, const PlumbGray *picture, PlumbVec2 from, int most,
                         PlumbVec2 *peak)
{
    int x = (int)lround(from.x);
    int y = (int)lround(from.y);
    double here = plumb_patch_score(patch, picture, x, y);
    double side[4]; /* left, right, above, below */
    for (int step = 0;; step++) {
        int best = -1;
        for (int k = 0; k < 4; k++) {
            static const int dx[] = {-1, 1, 0, 0};
            static const int dy[] = {0, 0, -1, 1};
            side[k] = plumb_patch_score(patch, picture, x + dx[k], y + dy[k]);
            if (side[k] > (best < 0 ? here : side[best])) {
                best = k;
            }
        }
        if (best < 0 || step == most) {
            break;
        }
        here = side[best];
        x += best == 0 ? -1 : best == 1 ? 1 : 0;
        y += best == 2 ? -1 : best == 3 ? 1 : 0;
    }
    *peak = (PlumbVec2){x + summit(side[0], here, side[1]), y + summit(side[2], here, side[3])};
    return here;
}
