/* SPDX-License-Identifier: MIT */
/* One number for all that a picture shows, to tell whether it was unpacked alike. */
#ifndef PLUMB_FILM_HASH_H
#define PLUMB_FILM_HASH_H

#include <libavutil/frame.h>

#include <stdint.h>

uint64_t film_hash(const AVFrame *picture);

#endif
