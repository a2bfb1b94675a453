/* SPDX-License-Identifier: MIT */
/* Files of marks: what is read, what is refused and where, which bytes stay; pictures' heads. */
#include "support.h"

#include <plumbar/film_marks.h>
#include <plumbar/marks_file.h>
#include <plumbar/photo.h>

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char plain[] = "# my marks\r\n"
                            "picture,time,landmark,x,y,sigma,note\r\n"
                            "a.jpg,,heel,100.50,900,,\"left, shoe\"\r\n"
                            "\r\n"
                            "a.jpg,0.5,toe,300,901.25,2,\r\n"
                            "a.jpg,,disc,410,700,,\r\n"
                            "a.jpg,,disc,510,800,,\r\n"
                            "b.jpg,,right_knee,10,20,,\xc3\xa9\r\n";

static PlumbMarks marks;

static PlumbStatus parse(const char *text, PlumbError *error)
{
    const PlumbMarksMap map = plumb_marks_map_default();
    return plumb_marks_parse(text, strlen(text), &map, &marks, error);
}

static void marks__are_read(void **state)
{
    PlumbError error;
    (void)state;
    assert_int_equal(parse(plain, &error), PLUMB_OK);
    assert_int_equal(marks.count, 5);
    assert_int_equal(marks.still_count, 2);
    assert_string_equal(marks.picture[1], "b.jpg");
    assert_near(marks.mark[0].x_px, 100.5, 0.0);
    assert_true(isnan(marks.mark[0].sigma_px));
    assert_near(marks.mark[1].sigma_px, 2.0, 0.0);
    assert_near(marks.mark[1].time_s, 0.5, 0.0);
    assert_int_equal(marks.mark[1].line, 5);
    assert_false(plumb_marks_front(&marks, 0));
    assert_true(plumb_marks_front(&marks, 1));
}

static void columns__can_be_called_otherwise(void **state)
{
    static const char other[] = "\xef\xbb\xbfpoint;ignored\n";
    static const char text[] = "frame,point,px_x,px_y\n7,hip,1e2,-3.5\n";
    PlumbMarksMap map;
    PlumbError error;
    (void)state;
    assert_int_equal(plumb_marks_map_read("landmark=point,x=px_x,y=px_y", &map, &error), PLUMB_OK);
    assert_int_equal(plumb_marks_parse(text, strlen(text), &map, &marks, &error), PLUMB_OK);
    assert_int_equal(marks.mark[0].name.landmark, PLUMB_MARK_hip);
    assert_near(marks.mark[0].x_px, 100.0, 0.0);
    assert_near(marks.mark[0].y_px, -3.5, 0.0);
    assert_int_equal(plumb_marks_parse(other, strlen(other), &map, &marks, &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_marks_map_read("landmarks=point", &map, &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_marks_map_read("x=", &map, &error), PLUMB_BAD_INPUT);
}

static void bad_files__are_refused_with_a_place(void **state)
{
    static const struct {
        const char *text;
        int line;
        int column;
        const char *field;
        const char *has;
    } rows[] = {
        {"", 1, 1, "marks", "empty"},
        {"landmark,x\nhip,1\n", 1, 1, "y", "no column"},
        {"landmark,x,y,x\nhip,1,2,3\n", 1, 2, "x", "two columns"},
        {"landmark,x,y\n\n# c\nhipp,1,2\n", 4, 1, "landmark", "did you mean hip?"},
        {"landmark,x,y\nhip,one,2\n", 2, 2, "x", "\"one\""},
        {"landmark,x,y\nhip,nan,2\n", 2, 2, "x", "\"nan\""},
        {"landmark,x,y\nhip,1,\n", 2, 3, "y", "number"},
        {"landmark,x,y\nhip,1,2e9\n", 2, 3, "y", "outside"},
        {"landmark,x,y,sigma\nhip,1,2,0\n", 2, 4, "sigma", "0.01"},
        {"landmark,x,y\nhip,1,2\nhip,3,4\n", 3, 1, "landmark", "twice"},
        {"landmark,x,y\nhip,1,2,3\n", 2, 1, "marks", "more cells"},
        {"landmark,x,y\n\"hip,1,2\n", 2, 1, "marks", "quotes"},
        {"landmark,x,y\ndistance_m,5 m,\n", 2, 2, "x", "takes 1.5 to 50 m"},
        {"landmark,x,y\ndistance_m,0.5,\n", 2, 2, "x", "takes 1.5 to 50 m"},
        {"landmark,x,y\nscale_m,,\n", 2, 2, "x", "takes 0.05 to 5 m"},
        {"landmark,x,y\nfacing,up,\n", 2, 2, "x", "right or left"},
        {"landmark,x,y\nfloor,1,\n", 2, 2, "x", "takes yes"},
        {"landmark,x,y\nfloor,no,\n\nfloor,yes,\n", 4, 1, "landmark", "told twice"},
        {"landmark,x,y\ndistance,5,\n", 2, 1, "landmark", "did you mean distance_m?"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PlumbError error = {.status = PLUMB_OK};
        assert_int_equal(parse(rows[i].text, &error), PLUMB_BAD_INPUT);
        assert_int_equal(error.line, rows[i].line);
        assert_int_equal(error.column, rows[i].column);
        assert_string_equal(error.field, rows[i].field);
        assert_non_null(strstr(error.message, rows[i].has));
    }
}

static void saving__keeps_every_other_byte(void **state)
{
    const PlumbMarksMap map = plumb_marks_map_default();
    PlumbError error;
    char *text;
    size_t length;
    (void)state;
    assert_int_equal(parse(plain, &error), PLUMB_OK);
    assert_int_equal(plumb_marks_text(&marks, plain, strlen(plain), &map, &text, &length, &error),
                     PLUMB_OK);
    assert_int_equal(length, strlen(plain));
    assert_memory_equal(text, plain, length);
    free(text);
    marks.mark[0].x_px = 101.5; /* moved */
    marks.mark[2] = marks.mark[4];
    marks.count = 3; /* both discs gone, a new one */
    marks.mark[marks.count++] = (PlumbMark){.name = {PLUMB_MARK_hip, PLUMB_FAR, false},
                                            .x_px = 5.0,
                                            .y_px = 6.125,
                                            .sigma_px = (double)NAN,
                                            .time_s = (double)NAN};
    assert_int_equal(plumb_marks_text(&marks, plain, strlen(plain), &map, &text, &length, &error),
                     PLUMB_OK);
    assert_string_equal(text, "# my marks\r\n"
                              "picture,time,landmark,x,y,sigma,note\r\n"
                              "a.jpg,,heel,101.5,900,,\"left, shoe\"\r\n"
                              "\r\n"
                              "a.jpg,0.5,toe,300,901.25,2,\r\n"
                              "b.jpg,,right_knee,10,20,,\xc3\xa9\r\n"
                              "a.jpg,,far_hip,5,6.125,,\n");
    free(text);
}

static void saving__makes_a_new_file_and_goes_over_an_old_one(void **state)
{
    char path[] = "/tmp/plumbar-marks-XXXXXX";
    const PlumbMarksMap map = plumb_marks_map_default();
    PlumbError error;
    char *text;
    size_t length;
    (void)state;
    const int handle = mkstemp(path);
    assert_true(handle >= 0);
    close(handle);
    memset(&marks, 0, sizeof marks);
    assert_int_equal(plumb_marks_picture(&marks, "c, d.png", 8), 0);
    marks.mark[marks.count++] = (PlumbMark){.name = {PLUMB_MARK_knee, PLUMB_NEAR, false},
                                            .x_px = 12.0,
                                            .y_px = 0.5,
                                            .sigma_px = (double)NAN,
                                            .time_s = (double)NAN};
    assert_int_equal(plumb_marks_save(path, &marks, &map, &error), PLUMB_OK);
    assert_int_equal(plumb_file_read_whole(path, 4096, &text, &length, &error), PLUMB_OK);
    assert_string_equal(text, "picture,time,landmark,x,y,sigma\n\"c, d.png\",,knee,12,0.5,\n");
    assert_int_equal(plumb_marks_parse(text, length, &map, &marks, &error), PLUMB_OK);
    free(text);
    assert_int_equal(plumb_marks_save(path, &marks, &map, &error), PLUMB_OK);
    assert_int_equal(plumb_file_read_whole(path, 4096, &text, &length, &error), PLUMB_OK);
    assert_int_equal(length,
                     strlen("picture,time,landmark,x,y,sigma\n\"c, d.png\",,knee,12,0.5,\n"));
    free(text);
    unlink(path);
}

static const char telling[] = "picture,time,landmark,x,y,sigma,note\r\n"
                              ",,distance_m,5,,,by tape\r\n"
                              "a.jpg,,heel,100,900,,\r\n"
                              "b.jpg,,heel,100,900,,\r\n"
                              "b.jpg,,distance_m,4.50,,,\xc3\xa9\r\n"
                              "b.jpg,,floor,no,,,\r\n"
                              "b.jpg,,facing,left,,,\r\n"
                              "c.jpg,,scale_m,0.914,,,\r\n";

/* A row without a picture is of all that have none of their own; one of a picture without marks
 * brings the picture. */
static void told__is_read(void **state)
{
    PlumbError error;
    (void)state;
    assert_int_equal(parse(telling, &error), PLUMB_OK);
    assert_int_equal(marks.count, 2);
    assert_int_equal(marks.still_count, 3);
    assert_near(marks.told[0][PLUMB_TOLD_distance_m], 5.0, 0.0);
    assert_near(marks.told[1][PLUMB_TOLD_distance_m], 4.5, 0.0);
    assert_near(marks.told[2][PLUMB_TOLD_distance_m], 5.0, 0.0);
    assert_near(marks.told[1][PLUMB_TOLD_floor], -1.0, 0.0);
    assert_near(marks.told[1][PLUMB_TOLD_facing], -1.0, 0.0);
    assert_near(marks.told[0][PLUMB_TOLD_facing], 0.0, 0.0);
    assert_near(marks.told[2][PLUMB_TOLD_scale_m], 0.914, 0.0);
}

/* Saves `telling` with marks as they are now and compares. */
static void assert_saved(const char *expected)
{
    const PlumbMarksMap map = plumb_marks_map_default();
    PlumbError error;
    char *text;
    size_t length;
    assert_int_equal(
        plumb_marks_text(&marks, telling, strlen(telling), &map, &text, &length, &error), PLUMB_OK);
    assert_string_equal(text, expected);
    free(text);
}

static void told__is_saved_and_keeps_every_other_byte(void **state)
{
    PlumbError error;
    (void)state;
    assert_int_equal(parse(telling, &error), PLUMB_OK);
    assert_saved(telling);
    /* The pictures that share a row agree on another value; b's own is told no more. */
    marks.told[0][PLUMB_TOLD_distance_m] = 6.25;
    marks.told[2][PLUMB_TOLD_distance_m] = 6.25;
    marks.told[1][PLUMB_TOLD_floor] = 0.0;
    marks.told[1][PLUMB_TOLD_facing] = 1.0;
    assert_saved("picture,time,landmark,x,y,sigma,note\r\n"
                 ",,distance_m,6.25,,,by tape\r\n"
                 "a.jpg,,heel,100,900,,\r\n"
                 "b.jpg,,heel,100,900,,\r\n"
                 "b.jpg,,distance_m,4.50,,,\xc3\xa9\r\n"
                 "b.jpg,,facing,right,,,\r\n"
                 "c.jpg,,scale_m,0.914,,,\r\n");
    /* They no longer agree: each has a row of its own. */
    marks.told[2][PLUMB_TOLD_distance_m] = 7.0;
    marks.told[2][PLUMB_TOLD_scale_m] = 0.0;
    assert_saved("picture,time,landmark,x,y,sigma,note\r\n"
                 "a.jpg,,heel,100,900,,\r\n"
                 "b.jpg,,heel,100,900,,\r\n"
                 "b.jpg,,distance_m,4.50,,,\xc3\xa9\r\n"
                 "b.jpg,,facing,right,,,\r\n"
                 "a.jpg,,distance_m,6.25,,,\n"
                 "c.jpg,,distance_m,7,,,\n");
}

/* A film is one picture: what is told of it has no frame. */
static void told__of_a_film_is_read_and_saved(void **state)
{
    static const char text[] = "frame,landmark,x,y\n,distance_m,5,\n0,hip,1,2\n,floor,no,\n";
    static PlumbFilmMarks film;
    const PlumbMarksMap map = plumb_film_map_default();
    const double time_s[] = {0.0, 0.04};
    PlumbError error = {.status = PLUMB_OK};
    char *saved;
    size_t length;
    (void)state;
    assert_int_equal(plumb_film_marks_parse(text, strlen(text), &map, &film, &error), PLUMB_OK);
    assert_int_equal(plumb_film_marks_place(&film, time_s, 2, &error), PLUMB_OK);
    assert_near(film.told[PLUMB_TOLD_distance_m], 5.0, 0.0);
    assert_near(film.told[PLUMB_TOLD_floor], -1.0, 0.0);
    film.mark[0].time_s = (double)NAN;
    film.told[PLUMB_TOLD_distance_m] = 0.0;
    film.told[PLUMB_TOLD_facing] = -1.0;
    assert_int_equal(
        plumb_film_marks_text(&film, text, strlen(text), &map, &saved, &length, &error), PLUMB_OK);
    assert_string_equal(saved, "frame,landmark,x,y\n0,hip,1,2\n,floor,no,\n,facing,left,\n");
    free(saved);
    static const char framed[] = "frame,landmark,x,y\n3,distance_m,5,\n";
    assert_int_equal(plumb_film_marks_parse(framed, strlen(framed), &map, &film, &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(error.line, 2);
    assert_non_null(strstr(error.message, "whole film"));
}

static void heads_of_pictures__are_measured(void **state)
{
    static const unsigned char png[33] = {0x89, 'P',  'N', 'G', '\r', '\n', 0x1a, '\n', 0,
                                          0,    0,    13,  'I', 'H',  'D',  'R',  0,    0,
                                          7,    0x80, 0,   0,   4,    0x38, 8,    2};
    static const unsigned char jpeg[] = {0xff, 0xd8, 0xff, 0xe0, 0,    4, 1,    2,
                                         0xff, 0xff, 0xc0, 0,    17,   8, 0x04, 0x38,
                                         0x07, 0x80, 3,    1,    0x22, 0, 2};
    unsigned char huge[33];
    PlumbPhotoHead head;
    PlumbError error;
    (void)state;
    assert_int_equal(plumb_photo_head(png, sizeof png, &head, &error), PLUMB_OK);
    assert_int_equal(head.kind, PLUMB_PHOTO_PNG);
    assert_int_equal(head.width_px, 1920);
    assert_int_equal(head.height_px, 1080);
    assert_int_equal(plumb_photo_head(jpeg, sizeof jpeg, &head, &error), PLUMB_OK);
    assert_int_equal(head.kind, PLUMB_PHOTO_JPEG);
    assert_int_equal(head.width_px, 1920);
    assert_int_equal(head.height_px, 1080);
    for (size_t cut = 0; cut < sizeof jpeg - 5; cut++) {
        assert_int_equal(plumb_photo_head(jpeg, cut < 18 ? cut : 18, &head, &error),
                         PLUMB_UNSUPPORTED);
    }
    memcpy(huge, png, sizeof huge);
    huge[16] = 0x7f;
    assert_int_equal(plumb_photo_head(huge, sizeof huge, &head, &error), PLUMB_TOO_LARGE);
    memset(huge + 16, 0, 4);
    assert_int_equal(plumb_photo_head(huge, sizeof huge, &head, &error), PLUMB_UNSUPPORTED);
    assert_int_equal(plumb_photo_head("GIF89a", 6, &head, &error), PLUMB_UNSUPPORTED);
}

/* The head is right and the rest is not there. */
static void damaged_pictures__are_refused(void **state)
{
    static const unsigned char png[33] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n', 0,
                                          0,    0,   13,  'I', 'H',  'D',  'R',  0,    0,
                                          0,    8,   0,   0,   0,    8,    8,    2};
    PlumbPhoto photo = {.pixel = NULL};
    PlumbError error;
    (void)state;
    assert_int_equal(plumb_photo_unpack(png, sizeof png, &photo, &error), PLUMB_UNSUPPORTED);
    assert_null(photo.pixel);
}

static void pictures__are_unpacked(void **state)
{
    PlumbPhoto photo;
    PlumbError error;
    char *bytes;
    size_t length;
    (void)state;
    if (!plumb_photo_supported()) {
        skip();
    }
    assert_int_equal(plumb_file_read_whole(PLUMB_SOURCE_DIR "/examples/squat.png",
                                           PLUMB_PHOTO_MAX_BYTES, &bytes, &length, &error),
                     PLUMB_OK);
    assert_int_equal(plumb_photo_unpack(bytes, length, &photo, &error), PLUMB_OK);
    PlumbPhotoHead head;
    assert_int_equal(plumb_photo_head(bytes, length, &head, &error), PLUMB_OK);
    assert_int_equal(photo.width_px, head.width_px);
    /* The paper is warm off-white at the corner, x in front of the colour is empty. */
    assert_true((photo.pixel[0] >> 16 & 0xff) > 0xf0);
    assert_true((photo.pixel[0] & 0xff) > 0xd0);
    plumb_photo_free(&photo);
    free(bytes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(marks__are_read),
        cmocka_unit_test(columns__can_be_called_otherwise),
        cmocka_unit_test(bad_files__are_refused_with_a_place),
        cmocka_unit_test(saving__keeps_every_other_byte),
        cmocka_unit_test(saving__makes_a_new_file_and_goes_over_an_old_one),
        cmocka_unit_test(told__is_read),
        cmocka_unit_test(told__is_saved_and_keeps_every_other_byte),
        cmocka_unit_test(told__of_a_film_is_read_and_saved),
        cmocka_unit_test(heads_of_pictures__are_measured),
        cmocka_unit_test(damaged_pictures__are_refused),
        cmocka_unit_test(pictures__are_unpacked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
