# SPDX-License-Identifier: MIT
# What the comparisons need beside cmocka: the table of published results, and libraries that solve
# the same problems by other means. Tests run without those libraries on stored values.

add_executable(published published/print.c)
target_link_libraries(published PRIVATE published_cases)
target_link_libraries(test_published PRIVATE published_cases)
