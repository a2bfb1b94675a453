/* SPDX-License-Identifier: MIT */
/* SHA-256 and base64, written from their standards. */
#include "report/digest.h"

#include <stdint.h>
#include <string.h>

enum { BLOCK = 64, ROUNDS = 64 };

/* First 32 bits of the fractional parts of the cube roots of the first 64 primes. */
static const uint32_t round_constant[ROUNDS] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

static uint32_t turn(uint32_t x, unsigned n)
{
    return x >> n | x << (32 - n);
}

static void schedule(const unsigned char block[BLOCK], uint32_t w[ROUNDS])
{
    for (int i = 0; i < 16; i++) {
        w[i] = (uint32_t)block[4 * i] << 24 | (uint32_t)block[4 * i + 1] << 16 |
               (uint32_t)block[4 * i + 2] << 8 | block[4 * i + 3];
    }
    for (int i = 16; i < ROUNDS; i++) {
        const uint32_t a = turn(w[i - 15], 7) ^ turn(w[i - 15], 18) ^ w[i - 15] >> 3;
        const uint32_t b = turn(w[i - 2], 17) ^ turn(w[i - 2], 19) ^ w[i - 2] >> 10;
        w[i] = w[i - 16] + a + w[i - 7] + b;
    }
}

static void take_block(uint32_t hash[8], const unsigned char block[BLOCK])
{
    uint32_t w[ROUNDS];
    uint32_t v[8];
    schedule(block, w);
    memcpy(v, hash, sizeof v);
    for (int i = 0; i < ROUNDS; i++) {
        const uint32_t s1 = turn(v[4], 6) ^ turn(v[4], 11) ^ turn(v[4], 25);
        const uint32_t choice = (v[4] & v[5]) ^ (~v[4] & v[6]);
        const uint32_t t1 = v[7] + s1 + choice + round_constant[i] + w[i];
        const uint32_t s0 = turn(v[0], 2) ^ turn(v[0], 13) ^ turn(v[0], 22);
        const uint32_t most = (v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]);
        memmove(v + 1, v, 7 * sizeof v[0]);
        v[4] += t1;
        v[0] = t1 + s0 + most;
    }
    for (int i = 0; i < 8; i++) {
        hash[i] += v[i];
    }
}

void plumb_sha256(const unsigned char *bytes, size_t length,
                  unsigned char digest[PLUMB_SHA256_SIZE])
{
    uint32_t hash[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                        0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
    size_t at = 0;
    for (; length - at >= BLOCK; at += BLOCK) {
        take_block(hash, bytes + at);
    }
    unsigned char last[2 * BLOCK] = {0};
    const size_t rest = length - at;
    if (rest > 0) {
        memcpy(last, bytes + at, rest);
    }
    last[rest] = 0x80;
    const size_t size = rest < BLOCK - 8 ? BLOCK : 2 * BLOCK;
    const uint64_t bits = (uint64_t)length * 8;
    for (unsigned i = 0; i < 8; i++) {
        last[size - 1 - i] = (unsigned char)(bits >> (8 * i) & 0xff);
    }
    for (size_t i = 0; i < size; i += BLOCK) {
        take_block(hash, last + i);
    }
    for (unsigned i = 0; i < PLUMB_SHA256_SIZE; i++) {
        digest[i] = (unsigned char)(hash[i / 4] >> (24 - 8 * (i % 4)) & 0xff);
    }
}

void plumb_base64(PlumbBuffer *out, const unsigned char *bytes, size_t length)
{
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    for (size_t i = 0; i < length; i += 3) {
        const size_t count = length - i < 3 ? length - i : 3;
        unsigned long group = (unsigned long)bytes[i] << 16;
        group |= count > 1 ? (unsigned long)bytes[i + 1] << 8 : 0;
        group |= count > 2 ? bytes[i + 2] : 0;
        char four[4];
        for (size_t k = 0; k < 4; k++) {
            four[k] = k <= count ? letters[group >> (18 - 6 * k) & 63] : '=';
        }
        plumb_buffer_add(out, four, 4);
    }
}
