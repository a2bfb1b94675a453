/* SPDX-License-Identifier: MIT */
/* Any bytes as a picture: its head is measured without a read past the end, and small ones are
 * unpacked. */
#include <plumbar/photo.h>

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { SMALL = 1 << 20 };
    unsigned char *const bytes = malloc(size > 0 ? size : 1);
    PlumbPhotoHead head;
    PlumbError error;
    if (bytes == NULL) {
        return 0;
    }
    if (size > 0) {
        memcpy(bytes, data, size);
    }
    if (plumb_photo_head(bytes, size, &head, &error) == PLUMB_OK) {
        if (head.width_px < 1 || head.height_px < 1 || head.width_px > PLUMB_PHOTO_SIDE_MAX) {
            abort();
        }
        PlumbPhoto photo;
        if ((long)head.width_px * head.height_px < SMALL &&
            plumb_photo_unpack(bytes, size, &photo, &error) == PLUMB_OK) {
            plumb_photo_free(&photo);
        }
    }
    free(bytes);
    return 0;
}
