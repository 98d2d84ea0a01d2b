/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages of a PDF rendered to grey pixels by poppler's tools, and what is
 * measured on them. Places are mm from the page's upper left corner. */
#ifndef NECKHEW_TESTS_SUPPORT_RENDERED_H
#define NECKHEW_TESTS_SUPPORT_RENDERED_H

#include <stdbool.h>
#include <stddef.h>

#define RENDERED_DPI 300
#define RENDERED_PIXELS_PER_MM (RENDERED_DPI / 25.4)

struct rendered {
	int width, height;
	unsigned char *grey; /* row by row; 0 black, 255 white */
	void *bytes; /* what to free */
};

/* Renders one page, from 1, using `folder` for its files. Fails the test when
 * that cannot be done. Release with rendered_free. */
void rendered_page(struct rendered *out, const char *folder, const char *pdf, int page);
void rendered_free(struct rendered *image);

/* What a tool prints, such as "pdfinfo" with the file as its argument; to be
 * freed with free(). Fails the test when the tool does not end well. `option` may
 * be NULL. */
char *rendered_tool(const char *folder, const char *tool, const char *option, const char *pdf);

/* Darkness of a pixel: 0 paper, 1 ink or darker. Outside the page 0. */
double rendered_ink(const struct rendered *image, int x, int y);

/* Middles of the dark strokes that the straight line from (x0, y0) to (x1, y1)
 * crosses, mm from its beginning, at most `room` of them. The line runs along
 * rows or columns. Returns how many there are. A stroke is as many pixels on
 * end as are more than a third ink; its middle is weighted with the ink. One
 * that the line ends in is none. */
size_t rendered_strokes(const struct rendered *image, double x0, double y0, double x1, double y1,
			size_t room, double *at_mm);

/* The first such stroke, mm from the beginning; fails the test when there is
 * none. */
double rendered_first_stroke(const struct rendered *image, double x0, double y0, double x1,
			     double y1);

/* Length of the longest dark run in the row (or column) through a place on the
 * page, mm, and where it begins. */
double rendered_longest_run(const struct rendered *image, bool upright, double at_mm,
			    double *from_mm);

#endif
