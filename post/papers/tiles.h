/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drawing in its true size that may be larger than a page: it is laid over as
 * many pages as it takes. Neighbours show the same strip TILES_OVERLAP_MM wide
 * with the same lettered crosses in it, so that one can be glued on the other. */
#ifndef NECKHEW_PAPERS_TILES_H
#define NECKHEW_PAPERS_TILES_H

#include <stddef.h>

#include "papers/sheet.h"

#define TILES_OVERLAP_MM 16.0

struct tile_drawing {
	const char *title, *remark;
	/* Its extent in its own mm, x to the right, y down. */
	double left_mm, top_mm, right_mm, bottom_mm;
	/* Draws all of it in its own mm; what lies off the page is clipped. */
	void (*draw)(struct canvas *canvas, const void *context);
	const void *context;
	size_t marks_before; /* of earlier drawings in the file: letters go on */
};

/* How a drawing lies on pages, all showing equally much: the page of column c
 * and row r, counted from 0, shows `width` x `height` mm of it from left + c
 * step_x and top + r step_y on, with that corner at (page_left, page_top). */
struct tile_layout {
	size_t columns, rows;
	double width_mm, height_mm, step_x_mm, step_y_mm;
	double page_left_mm, page_top_mm;
};

struct tile_layout tiles_layout(const struct tile_drawing *drawing, struct sheet_area area);

/* Length of a drawing so wide that is shown on its first page alone, mm. */
double tiles_first_width_mm(double width_mm, struct sheet_area area);

/* Pages it takes on this sheet. */
size_t tiles_page_count(const struct sheet *sheet, const struct tile_drawing *drawing);

/* Draws it, row by row, on that many pages. The sheet's title and remark are the
 * drawing's meanwhile, and empty afterwards. */
void tiles_draw(struct sheet *sheet, const struct tile_drawing *drawing);

/* A cross in the middle of a strip that two pages share, two to each seam. */
struct tile_mark {
	double x_mm, y_mm; /* in the drawing's mm */
	char letter[8];
};

size_t tiles_mark_count(const struct tile_layout *layout);

/* Mark i of the drawing; each has a letter of its own. */
struct tile_mark tiles_mark(const struct tile_layout *layout, const struct tile_drawing *drawing,
			    size_t i);

#endif
