/* SPDX-License-Identifier: MIT */
/* Bytes that grow, numbers and text as every writer needs them. */
#include "draw/buffer.h"

#include <plumbar/format.h>

#include <stdlib.h>
#include <string.h>

void plumb_buffer_add(PlumbBuffer *buffer, const void *data, size_t length)
{
    if (buffer->failed || length == 0) {
        return;
    }
    if (length > buffer->capacity - buffer->length) {
        const size_t need = buffer->length + length;
        const size_t capacity = need < 16384 ? 32768 : need * 2;
        unsigned char *grown = realloc(buffer->data, capacity);
        if (grown == NULL) {
            buffer->failed = true;
            return;
        }
        buffer->data = grown;
        buffer->capacity = capacity;
    }
    memcpy(buffer->data + buffer->length, data, length);
    buffer->length += length;
}

void plumb_buffer_string(PlumbBuffer *buffer, const char *string)
{
    plumb_buffer_add(buffer, string, strlen(string));
}

void plumb_buffer_number(PlumbBuffer *buffer, double value)
{
    char digits[64];
    PlumbText text = plumb_text_begin(digits, sizeof digits);
    plumb_text_fixed(&text, value, 3);
    size_t length = text.length;
    while (length > 1 && digits[length - 1] == '0') {
        length--;
    }
    if (length > 1 && digits[length - 1] == '.') {
        length--;
    }
    plumb_buffer_add(buffer, digits, length);
}

PlumbStatus plumb_buffer_finish(PlumbBuffer *buffer, PlumbBytes *bytes, PlumbError *error)
{
    if (buffer->failed) {
        free(buffer->data);
        *buffer = (PlumbBuffer){0};
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "drawing",
                               "memory ran out while the drawing was written; close other programs "
                               "or ask for a smaller picture");
    }
    *bytes = (PlumbBytes){buffer->data, buffer->length};
    *buffer = (PlumbBuffer){0};
    return PLUMB_OK;
}

void plumb_bytes_free(PlumbBytes *bytes)
{
    free(bytes->data);
    *bytes = (PlumbBytes){0};
}

/* Bytes of the character at text[0..length), 0 where it is not valid UTF-8 (RFC 3629) or is a
 * control character or one that XML does not allow. */
static size_t character_length(const unsigned char *text, size_t length)
{
    const unsigned char first = text[0];
    if (first < 0x80) {
        return first >= 0x20 && first != 0x7f ? 1 : 0;
    }
    const size_t count = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    if (first < 0xc2 || first > 0xf4 || count > length) {
        return 0;
    }
    unsigned long code = first & (0xffU >> (count + 1));
    for (size_t i = 1; i < count; i++) {
        if ((text[i] & 0xc0) != 0x80) {
            return 0;
        }
        code = code << 6 | (text[i] & 0x3fU);
    }
    const bool overlong = (count == 3 && code < 0x800) || (count == 4 && code < 0x10000);
    const bool forbidden = code < 0xa0 || (code >= 0xd800 && code <= 0xdfff) || code == 0xfffe ||
                           code == 0xffff || code > 0x10ffff;
    return overlong || forbidden ? 0 : count;
}

size_t plumb_utf8_clean(char clean[PLUMB_CLEAN_SIZE], const char *text, size_t length)
{
    static const char UNKNOWN[] = "\xef\xbf\xbd";
    size_t out = 0;
    for (size_t in = 0; in < length;) {
        const size_t count = character_length((const unsigned char *)text + in, length - in);
        const char *from = count > 0 ? text + in : UNKNOWN;
        const size_t take = count > 0 ? count : sizeof UNKNOWN - 1;
        if (out + take >= PLUMB_CLEAN_SIZE) {
            break;
        }
        memcpy(clean + out, from, take);
        out += take;
        in += count > 0 ? count : 1;
    }
    clean[out] = '\0';
    return out;
}
