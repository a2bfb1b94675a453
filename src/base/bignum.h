/* SPDX-License-Identifier: MIT */
/* Whole numbers long enough to hold any double's decimal digits exactly; only for reading and
 * writing numbers. */
#ifndef PLUMBAR_BASE_BIGNUM_H
#define PLUMBAR_BASE_BIGNUM_H

#include <stdbool.h>
#include <stdint.h>

/* 1664 bits: the greatest double times 1e15 takes 1074, a reader's 1e400 with 40 digits 1462. */
enum { PLUMB_BIG_LIMBS = 52 };

/* Little-endian limbs; used holds how many count, 0 for the number zero. */
typedef struct PlumbBig {
    int used;
    uint32_t limb[PLUMB_BIG_LIMBS];
} PlumbBig;

PlumbBig plumb_big(uint64_t value);
/* *big = *big * factor + add. */
void plumb_big_multiply_add(PlumbBig *big, uint32_t factor, uint32_t add);
/* *big = *big * 10^power, power >= 0. */
void plumb_big_times_ten_to(PlumbBig *big, int power);
/* *big = *big / divisor, rounded down; returns the rest. */
uint32_t plumb_big_divide(PlumbBig *big, uint32_t divisor);
void plumb_big_shift_left(PlumbBig *big, int bits);
void plumb_big_shift_right(PlumbBig *big, int bits);
/* Bit number `index` counted from 0. */
bool plumb_big_bit(const PlumbBig *big, int index);
/* Bits without leading zeros; 0 for zero. */
int plumb_big_bit_count(const PlumbBig *big);
/* Below, at or above zero as a is below, equal to or above b. */
int plumb_big_compare(const PlumbBig *a, const PlumbBig *b);
/* *a -= *b, where *a >= *b. */
void plumb_big_subtract(PlumbBig *a, const PlumbBig *b);

#endif
