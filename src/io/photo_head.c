/* SPDX-License-Identifier: MIT */
/* Kind and size of a picture from its first bytes.
 *
 * PNG (ISO/IEC 15948): signature, then the chunk IHDR with width and height. JPEG (ITU-T T.81):
 * markers FF xx with a length each, until a frame header (SOF) that holds height and width; before
 * it the segment APP1 (E1) may hold an EXIF block. */
#include <plumbar/photo.h>

#include "io/photo_turn.h"

#include <string.h>

static unsigned two(const unsigned char *at)
{
    return (unsigned)at[0] << 8 | at[1];
}

static bool png_head(const unsigned char *data, size_t length, PlumbPhotoHead *head)
{
    static const unsigned char signature[16] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n',
                                                0,    0,   0,   13,  'I',  'H',  'D',  'R'};
    if (length < 33 || memcmp(data, signature, sizeof signature) != 0) {
        return false;
    }
    const unsigned long width = (unsigned long)two(data + 16) << 16 | two(data + 18);
    const unsigned long height = (unsigned long)two(data + 20) << 16 | two(data + 22);
    const unsigned long most = 0x7fffffffUL;
    head->kind = PLUMB_PHOTO_PNG;
    head->turn = 1;
    head->width_px = (int)(width < most ? width : most);
    head->height_px = (int)(height < most ? height : most);
    return true;
}

/* Frame headers are C0 to CF without the tables C4, C8 and CC. */
static bool is_frame(unsigned char marker)
{
    return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
}

static bool jpeg_head(const unsigned char *data, size_t length, PlumbPhotoHead *head)
{
    if (length < 4 || data[0] != 0xff || data[1] != 0xd8 || data[2] != 0xff) {
        return false;
    }
    head->turn = 1;
    for (size_t at = 2; at + 9 < length;) {
        if (data[at] != 0xff) {
            return false;
        }
        const unsigned char marker = data[at + 1];
        if (marker == 0xff) {
            at++; /* filling */
            continue;
        }
        if (is_frame(marker)) {
            const bool exchanged = plumb_turn_exchanges(head->turn);
            const int height = (int)two(data + at + 5);
            const int width = (int)two(data + at + 7);
            head->kind = PLUMB_PHOTO_JPEG;
            head->height_px = exchanged ? width : height;
            head->width_px = exchanged ? height : width;
            return true;
        }
        const unsigned size = two(data + at + 2);
        if (size < 2 || marker == 0xd9 || marker == 0xda) {
            return false;
        }
        if (marker == 0xe1 && head->turn == 1 && at + 2 + size <= length) {
            head->turn = plumb_turn_read(data + at + 4, size - 2);
        }
        at += 2 + size;
    }
    return false;
}

PlumbStatus plumb_photo_head(const void *bytes, size_t length, PlumbPhotoHead *head,
                             PlumbError *error)
{
    PlumbPhotoHead read;
    if (!png_head(bytes, length, &read) && !jpeg_head(bytes, length, &read)) {
        return plumb_error_set(error, PLUMB_UNSUPPORTED, "picture",
                               "is neither a PNG nor a JPEG, or it is cut short; export it as one");
    }
    if (read.width_px < 1 || read.height_px < 1) {
        return plumb_error_set(error, PLUMB_UNSUPPORTED, "picture", "says that it has no pixels");
    }
    if (read.width_px > PLUMB_PHOTO_SIDE_MAX || read.height_px > PLUMB_PHOTO_SIDE_MAX ||
        (long long)read.width_px * read.height_px > PLUMB_PHOTO_PIXELS_MAX) {
        return plumb_error_set(error, PLUMB_TOO_LARGE, "picture",
                               "is larger than 16384 px a side or 60 million pixels; scale it down "
                               "and mark it anew");
    }
    *head = read;
    return PLUMB_OK;
}
