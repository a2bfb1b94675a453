/* SPDX-License-Identifier: MIT */
/* Files that are part of the program; made at build time. */
#ifndef PLUMBAR_REPORT_EMBEDDED_H
#define PLUMBAR_REPORT_EMBEDDED_H

#include <stddef.h>

extern const unsigned char plumb_embedded_drills[]; /* anthropometry/drills.csv */
extern const size_t plumb_embedded_drills_size;
extern const unsigned char plumb_embedded_page[]; /* page/page.html */
extern const size_t plumb_embedded_page_size;
extern const unsigned char plumb_embedded_style[]; /* page/page.css */
extern const size_t plumb_embedded_style_size;
extern const unsigned char plumb_embedded_script[]; /* page/page.js */
extern const size_t plumb_embedded_script_size;
extern const unsigned char plumb_embedded_module[]; /* WebAssembly; size 0: built without */
extern const size_t plumb_embedded_module_size;

#endif
