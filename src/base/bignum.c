/* SPDX-License-Identifier: MIT */
/* Schoolbook arithmetic on long whole numbers, limb by limb. */
#include "base/bignum.h"

#include <assert.h>

static void trim(PlumbBig *big)
{
    while (big->used > 0 && big->limb[big->used - 1] == 0) {
        big->used--;
    }
}

PlumbBig plumb_big(uint64_t value)
{
    PlumbBig big = {.used = 2, .limb = {(uint32_t)value, (uint32_t)(value >> 32)}};
    trim(&big);
    return big;
}

void plumb_big_multiply_add(PlumbBig *big, uint32_t factor, uint32_t add)
{
    uint64_t carry = add;
    for (int i = 0; i < big->used; i++) {
        carry += (uint64_t)big->limb[i] * factor;
        big->limb[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry != 0) {
        assert(big->used < PLUMB_BIG_LIMBS);
        big->limb[big->used++] = (uint32_t)carry;
    }
}

void plumb_big_times_ten_to(PlumbBig *big, int power)
{
    for (; power >= 9; power -= 9) {
        plumb_big_multiply_add(big, 1000000000u, 0);
    }
    for (; power > 0; power--) {
        plumb_big_multiply_add(big, 10u, 0);
    }
}

uint32_t plumb_big_divide(PlumbBig *big, uint32_t divisor)
{
    uint64_t rest = 0;
    for (int i = big->used - 1; i >= 0; i--) {
        rest = rest << 32 | big->limb[i];
        big->limb[i] = (uint32_t)(rest / divisor);
        rest %= divisor;
    }
    trim(big);
    return (uint32_t)rest;
}

void plumb_big_shift_left(PlumbBig *big, int bits)
{
    const int limbs = bits / 32;
    const unsigned part = (unsigned)(bits % 32);
    if (big->used == 0) {
        return;
    }
    assert(big->used + limbs + 1 <= PLUMB_BIG_LIMBS);
    big->limb[big->used] = 0;
    for (int i = big->used; i >= 0; i--) {
        uint64_t pair = (uint64_t)big->limb[i] << 32;
        if (i > 0) {
            pair |= big->limb[i - 1];
        }
        big->limb[i + limbs] = (uint32_t)(pair << part >> 32);
    }
    for (int i = 0; i < limbs; i++) {
        big->limb[i] = 0;
    }
    big->used += limbs + 1;
    trim(big);
}

void plumb_big_shift_right(PlumbBig *big, int bits)
{
    const int limbs = bits / 32;
    const unsigned part = (unsigned)(bits % 32);
    if (limbs >= big->used) {
        big->used = 0;
        return;
    }
    for (int i = 0; i + limbs < big->used; i++) {
        uint64_t pair = big->limb[i + limbs];
        if (i + limbs + 1 < big->used) {
            pair |= (uint64_t)big->limb[i + limbs + 1] << 32;
        }
        big->limb[i] = (uint32_t)(pair >> part);
    }
    big->used -= limbs;
    trim(big);
}

bool plumb_big_bit(const PlumbBig *big, int index)
{
    return index / 32 < big->used && (big->limb[index / 32] >> (index % 32) & 1u) != 0;
}

int plumb_big_bit_count(const PlumbBig *big)
{
    if (big->used == 0) {
        return 0;
    }
    int count = (big->used - 1) * 32;
    for (uint32_t top = big->limb[big->used - 1]; top != 0; top >>= 1) {
        count++;
    }
    return count;
}

int plumb_big_compare(const PlumbBig *a, const PlumbBig *b)
{
    if (a->used != b->used) {
        return a->used - b->used;
    }
    for (int i = a->used - 1; i >= 0; i--) {
        if (a->limb[i] != b->limb[i]) {
            return a->limb[i] < b->limb[i] ? -1 : 1;
        }
    }
    return 0;
}

void plumb_big_subtract(PlumbBig *a, const PlumbBig *b)
{
    uint64_t borrow = 0;
    for (int i = 0; i < a->used; i++) {
        const uint64_t take = borrow + (i < b->used ? b->limb[i] : 0u);
        borrow = a->limb[i] < take ? 1 : 0;
        a->limb[i] = (uint32_t)(a->limb[i] - take);
    }
    assert(borrow == 0);
    trim(a);
}
