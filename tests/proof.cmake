# SPDX-License-Identifier: MIT
# What the comparisons need beside cmocka: the table of published results, and libraries that solve
# the same problems by other means. Tests run without those libraries on stored values.

add_library(published_cases STATIC published/poses.c published/squat.c
    published/deadlift.c published/bench.c published/table.c ../anthropometry/table.c)
target_include_directories(published_cases PUBLIC ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(published_cases PUBLIC plumb_solve ${CSV_LIBRARY})
add_executable(published published/print.c)
target_link_libraries(published PRIVATE published_cases)
target_link_libraries(test_published PRIVATE published_cases)
