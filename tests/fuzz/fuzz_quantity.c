/* SPDX-License-Identifier: MIT */
/* Any bytes as a quantity. The first byte chooses what is measured, the rest is the text. What is
 * read must be finite, what is refused must say why and leave the value alone. */
#include <plumbar/quantity.h>

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 1) {
        return 0;
    }
    const PlumbQuantity quantity = (PlumbQuantity)(data[0] % PLUMB_Q_WORD);
    const size_t length = size - 1;
    char *text = malloc(length > 0 ? length : 1); /* exact, so that a read past the end is seen */
    if (text == NULL) {
        return 0;
    }
    memcpy(text, data + 1, length);
    double value = -1234.5;
    PlumbError error = {.status = PLUMB_OK};
    const PlumbStatus status = plumb_quantity_read(text, length, quantity, &value, &error);
    const bool read = status == PLUMB_OK && isfinite(value);
    const bool refused = status == PLUMB_BAD_INPUT && value <= -1234.5 && value >= -1234.5 &&
                         error.message[0] != '\0' && strlen(error.message) < PLUMB_MESSAGE_SIZE;
    free(text);
    if (!read && !refused) {
        abort();
    }
    return 0;
}
