/* SPDX-License-Identifier: MIT */
/* Pixels as luma and halved chroma, full range, and back: by ITU-R BT.601 (as JFIF has it), back
 * also by BT.709. A grey pixel keeps its level exactly. */
#include "io/frames_source.h"

static uint8_t level(int value)
{
    return (uint8_t)(value < 0 ? 0 : value > 255 ? 255 : value);
}

/* Sums of red, green and blue over the one to four pixels of a chroma sample. */
static int sum_square(const uint32_t *pixel, int width, int height, int x, int y, int sum[3])
{
    int count = 0;
    for (int v = y; v < y + 2 && v < height; v++) {
        for (int u = x; u < x + 2 && u < width; u++) {
            const uint32_t p = pixel[(size_t)v * (size_t)width + (size_t)u];
            sum[0] += (int)(p >> 16 & 255);
            sum[1] += (int)(p >> 8 & 255);
            sum[2] += (int)(p & 255);
            count++;
        }
    }
    return count;
}

/* Weights in 65536ths. */
void plumb_planes_from_pixels(const uint32_t *pixel, int width_px, int height_px, uint8_t *planes)
{
    const size_t count = (size_t)width_px * (size_t)height_px;
    for (size_t i = 0; i < count; i++) {
        const uint32_t p = pixel[i];
        planes[i] = (uint8_t)((19595 * (p >> 16 & 255) + 38470 * (p >> 8 & 255) + 7471 * (p & 255) +
                               32768) >>
                              16);
    }
    uint8_t *cb = planes + count;
    uint8_t *cr = cb + film_chroma_bytes(width_px, height_px);
    for (int y = 0; y < height_px; y += 2) {
        for (int x = 0; x < width_px; x += 2) {
            int s[3] = {0, 0, 0};
            const int n = sum_square(pixel, width_px, height_px, x, y, s);
            *cb++ = level(128 + (-11059 * s[0] - 21709 * s[1] + 32768 * s[2]) / n / 65536);
            *cr++ = level(128 + (32768 * s[0] - 27439 * s[1] - 5329 * s[2]) / n / 65536);
        }
    }
}

/* What chroma adds to red, green and blue, 65536ths. */
typedef struct Matrix {
    int red_cr;
    int green_cb;
    int green_cr;
    int blue_cb;
} Matrix;

void plumb_planes_to_pixels(const uint8_t *planes, int width_px, int height_px, bool hd,
                            uint32_t *pixel)
{
    static const Matrix by_601 = {91881, -22554, -46802, 116130};
    static const Matrix by_709 = {103206, -12276, -30679, 121609};
    const Matrix *const m = hd ? &by_709 : &by_601;
    const uint8_t *const cb = planes + (size_t)width_px * (size_t)height_px;
    const uint8_t *const cr = cb + film_chroma_bytes(width_px, height_px);
    const size_t half = (size_t)((width_px + 1) / 2);
    for (size_t y = 0; y < (size_t)height_px; y++) {
        for (size_t x = 0; x < (size_t)width_px; x++) {
            const int luma = *planes++;
            const int b = cb[y / 2 * half + x / 2] - 128;
            const int r = cr[y / 2 * half + x / 2] - 128;
            *pixel++ = (uint32_t)level(luma + m->red_cr * r / 65536) << 16 |
                       (uint32_t)level(luma + (m->green_cb * b + m->green_cr * r) / 65536) << 8 |
                       level(luma + m->blue_cb * b / 65536);
        }
    }
}
