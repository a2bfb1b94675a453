/* SPDX-License-Identifier: MIT */
/* Base64, and SHA-256 in it as a content security policy names a script. */
#ifndef PLUMBAR_REPORT_DIGEST_H
#define PLUMBAR_REPORT_DIGEST_H

#include "draw/buffer.h"

/* Appends bytes[length] in base64 (RFC 4648), padded. */
void plumb_base64(PlumbBuffer *out, const unsigned char *bytes, size_t length);

enum { PLUMB_SHA256_SIZE = 32 };

/* SHA-256 (FIPS 180-4) of bytes[length]. */
void plumb_sha256(const unsigned char *bytes, size_t length,
                  unsigned char digest[PLUMB_SHA256_SIZE]);

#endif
