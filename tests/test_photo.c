/* SPDX-License-Identifier: MIT */
/* Pictures turned as their EXIF block says: all eight ways, in both orders of bytes. */
#include "support.h"

#include <plumbar/photo.h>

#include <stdlib.h>
#include <string.h>

enum { WIDTH = 16, HEIGHT = 8, MOST = 4096 };

/* Four quarters of different grey: 0.9, 0.6 above 0.35, 0.1. */
static const double quarter[4] = {0.9, 0.6, 0.35, 0.1};

static char *plain;
static size_t plain_length;

/* The file with an EXIF block behind its first marker; returns its length. */
static size_t with_turn(int turn, bool low_first, unsigned char bytes[MOST])
{
    static const unsigned char high[] = {
        0xff, 0xe1, 0, 42, 'E', 'x', 'i', 'f', 0, 0, 'M', 'M',  0,    42, 0, 0, 0, 8, 0, 2, 1,
        0,    0,    3, 0,  0,   0,   1,   0,   9, 0, 0,   0x01, 0x12, 0,  3, 0, 0, 0, 1, 0, 0};
    static const unsigned char low[] = {
        0xff, 0xe1, 0, 42, 'E', 'x', 'i', 'f', 0, 0, 'I', 'I',  42,   0, 8, 0, 0, 0, 2, 0, 0,
        1,    3,    0, 1,  0,   0,   0,   9,   0, 0, 0,   0x12, 0x01, 3, 0, 1, 0, 0, 0, 0, 0};
    size_t length = 2;
    memcpy(bytes, plain, 2);
    memcpy(bytes + 2, low_first ? low : high, sizeof high);
    bytes[2 + sizeof high - (low_first ? 2 : 1)] = (unsigned char)turn;
    length += sizeof high;
    bytes[length++] = 0; /* the rest of the entry */
    bytes[length++] = 0;
    memcpy(bytes + length, plain + 2, plain_length - 2);
    return length + plain_length - 2;
}

/* Which of the quarters stands in a corner of the picture: 0 left, 1 right; below 2 more. */
static int quarter_at(const PlumbPhoto *photo, int corner)
{
    const int x = (corner & 1) != 0 ? photo->width_px - 3 : 2;
    const int y = corner > 1 ? photo->height_px - 3 : 2;
    const double grey = (double)(photo->pixel[y * photo->width_px + x] & 0xff) / 255.0;
    for (int i = 0; i < 4; i++) {
        if (grey > quarter[i] - 0.08 && grey < quarter[i] + 0.08) { /* they are 0.25 apart */
            return i;
        }
    }
    return -1;
}

static void pictures__are_turned_as_their_file_says(void **state)
{
    /* The quarters that a person sees: above left and right, below left and right. The table of
     * the standard: row 0 of what is stored is the visual top, top, bottom, bottom, left, right,
     * right, left; column 0 the left, right, right, left, top, top, bottom, bottom. */
    static const int seen[9][4] = {{0, 1, 2, 3}, {0, 1, 2, 3}, {1, 0, 3, 2},
                                   {3, 2, 1, 0}, {2, 3, 0, 1}, {0, 2, 1, 3},
                                   {2, 0, 3, 1}, {3, 1, 2, 0}, {1, 3, 0, 2}};
    unsigned char bytes[MOST];
    (void)state;
    for (int k = 0; k <= 18; k++) {
        const int turn = k % 9; /* 0 is no turn at all */
        const size_t length = with_turn(turn, k > 9, bytes);
        PlumbPhotoHead head;
        PlumbPhoto photo;
        assert_int_equal(plumb_photo_head(bytes, length, &head, NULL), PLUMB_OK);
        assert_int_equal(head.turn, turn == 0 ? 1 : turn);
        assert_int_equal(head.width_px, turn > 4 ? HEIGHT : WIDTH);
        assert_int_equal(head.height_px, turn > 4 ? WIDTH : HEIGHT);
        if (!plumb_photo_supported()) {
            continue;
        }
        assert_int_equal(plumb_photo_unpack(bytes, length, &photo, NULL), PLUMB_OK);
        assert_int_equal(photo.width_px, head.width_px);
        for (int corner = 0; corner < 4; corner++) {
            assert_int_equal(quarter_at(&photo, corner), seen[turn][corner]);
        }
        plumb_photo_free(&photo);
    }
}

/* Blocks that lie about their length or say nothing: the picture is taken as it is stored. */
static void blocks__that_are_damaged_turn_nothing(void **state)
{
    unsigned char bytes[MOST];
    (void)state;
    for (size_t at = 6; at < 38; at++) {
        const size_t length = with_turn(6, false, bytes);
        bytes[2 + at] = 0xee;
        PlumbPhotoHead head;
        assert_int_equal(plumb_photo_head(bytes, length, &head, NULL), PLUMB_OK);
        assert_true(head.turn == 1 || head.turn == 6);
    }
    const size_t length = with_turn(6, true, bytes);
    bytes[3 + 2] = 12; /* the segment ends within the block: what follows is no marker */
    PlumbPhotoHead head;
    assert_int_equal(plumb_photo_head(bytes, length, &head, NULL), PLUMB_UNSUPPORTED);
}

static int read_plain(void **state)
{
    (void)state;
    return plumb_file_read_whole(PLUMB_TEST_DATA "/quarters.jpg", MOST - 64, &plain, &plain_length,
                                 NULL) == PLUMB_OK
               ? 0
               : 1;
}

static int free_plain(void **state)
{
    (void)state;
    free(plain);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pictures__are_turned_as_their_file_says),
        cmocka_unit_test(blocks__that_are_damaged_turn_nothing),
    };
    return cmocka_run_group_tests(tests, read_plain, free_plain);
}
