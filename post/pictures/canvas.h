/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet to draw on, kept in memory and saved in one go as PNG, SVG or PDF.
 * The unit is the printed millimetre, origin top left, y down. The same drawing
 * gives the same bytes, in whatever order sheets are drawn. PNG and SVG lie on
 * bench paper; a PDF has pages for the printer and leaves the ground to it. */
#ifndef NECKHEW_PICTURES_CANVAS_H
#define NECKHEW_PICTURES_CANVAS_H

#include <cairo.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "pictures/palette.h"

/* Pixels per printed mm of a PNG and of maps inside an SVG: 152 per inch, so
 * that 7 pt text is 15 pixels high. */
#define CANVAS_PIXELS_PER_MM 6

/* Every sheet is this wide: 1620 pixels, and a landscape A4 page with margins. */
#define CANVAS_WIDTH_MM 270.0
#define CANVAS_MARGIN_MM 12.0

enum canvas_kind { CANVAS_PNG, CANVAS_SVG, CANVAS_PDF };

/* Must stay where it is between opening and closing. */
struct canvas {
	enum canvas_kind kind;
	double width_mm, height_mm; /* of the sheet, of each page of a PDF */
	cairo_surface_t *surface;
	cairo_t *pen; /* draws in mm */
	unsigned char *bytes; /* the file's content as it grows */
	size_t size, capacity;
	bool lost; /* memory ran out for some of them */
};

/* Opens a blank sheet as PNG or SVG. FAULT_MEMORY when there is no room for it. Close it
 * with canvas_close in either case. */
enum fault canvas_open(struct canvas *canvas, enum canvas_kind kind, double height_mm,
		       struct fault_list *faults);

/* Opens a PDF with one blank page of that size, true to scale; letters come
 * with the file. `title` is what a viewer shows above it. FAULT_MEMORY as above.
 * The file bears no date. */
enum fault canvas_open_paper(struct canvas *canvas, double width_mm, double height_mm,
			     const char *title, struct fault_list *faults);

/* Ends a page of a PDF; what is drawn next stands on a further one. */
void canvas_next_page(struct canvas *canvas);

/* Ends the drawing and writes it to `path`. FAULT_FILE with that name when
 * drawing or writing failed, FAULT_MEMORY when memory ran out: then whatever
 * stood at `path` is as it was. Nothing can be drawn afterwards. */
enum fault canvas_save(struct canvas *canvas, const char *path, struct fault_list *faults);

/* Releases everything; NULL and a closed canvas are accepted. */
void canvas_close(struct canvas *canvas);

/* Sets the colour of what is drawn next. */
void canvas_colour(struct canvas *canvas, struct colour colour);

/* The nearest place on the pixel grid, mm: images put there stay sharp. */
double canvas_snap_mm(double place_mm);

#endif
