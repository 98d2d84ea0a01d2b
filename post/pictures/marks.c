/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/marks.h"

#include <math.h>

#include "base/units.h"

#define ZERO_MM 1.7 /* radius of the ring */
#define SLANT_MM 2.2 /* between slanting lines, along x */
#define BAR_MM 0.9 /* half length of an end bar */

static void quarter(struct canvas *canvas, double x, double y, double from_rad)
{
	cairo_move_to(canvas->pen, x, y);
	cairo_arc(canvas->pen, x, y, ZERO_MM, from_rad, from_rad + PI / 2.0);
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(PALETTE_INK));
	cairo_fill(canvas->pen);
}

void marks_zero(struct canvas *canvas, double x_mm, double y_mm)
{
	const double arm = 1.9 * ZERO_MM;

	cairo_new_path(canvas->pen);
	cairo_arc(canvas->pen, x_mm, y_mm, ZERO_MM, 0.0, 2.0 * PI);
	canvas_colour(canvas, palette_colour(PALETTE_PAPER));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_TICK);
	quarter(canvas, x_mm, y_mm, 0.0);
	quarter(canvas, x_mm, y_mm, PI);
	pen_line(canvas, x_mm - arm, y_mm, x_mm + arm, y_mm, LINE_TICK);
	pen_line(canvas, x_mm, y_mm - arm, x_mm, y_mm + arm, LINE_TICK);
}

/* Slanting lines over a rectangle, within whatever path is there, which they use
 * up. */
static void slants_inside(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
			  double height_mm, double apart_mm)
{
	int lines = (int)((width_mm + height_mm) / apart_mm);

	cairo_save(canvas->pen);
	cairo_clip(canvas->pen);
	for (int i = 1; i <= lines; i++) {
		cairo_move_to(canvas->pen, x_mm + i * apart_mm, y_mm);
		cairo_line_to(canvas->pen, x_mm + i * apart_mm - height_mm, y_mm + height_mm);
	}
	pen_stroke(canvas, LINE_SLANT);
	cairo_restore(canvas->pen);
}

void marks_slants(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
		  double height_mm, double apart_mm)
{
	cairo_rectangle(canvas->pen, x_mm, y_mm, width_mm, height_mm);
	slants_inside(canvas, x_mm, y_mm, width_mm, height_mm, apart_mm);
}

void marks_keep_out(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
		    double height_mm)
{
	marks_slants(canvas, x_mm, y_mm, width_mm, height_mm, SLANT_MM);
	cairo_rectangle(canvas->pen, x_mm, y_mm, width_mm, height_mm);
	pen_stroke(canvas, LINE_FRAME);
}

void marks_keep_out_round(struct canvas *canvas, double x_mm, double y_mm, double diameter_mm)
{
	double radius = diameter_mm / 2.0;

	for (int pass = 0; pass < 2; pass++) {
		cairo_new_path(canvas->pen);
		cairo_arc(canvas->pen, x_mm + radius, y_mm + radius, radius, 0.0, 2.0 * PI);
		cairo_close_path(canvas->pen);
		if (pass == 0)
			slants_inside(canvas, x_mm, y_mm, diameter_mm, diameter_mm, SLANT_MM);
		else
			pen_stroke(canvas, LINE_FRAME);
	}
}

void marks_span(struct canvas *canvas, double x1, double y1, double x2, double y2,
		enum line_kind kind)
{
	double length = hypot(x2 - x1, y2 - y1);
	double ax = length > 0.0 ? -(y2 - y1) / length * BAR_MM : 0.0;
	double ay = length > 0.0 ? (x2 - x1) / length * BAR_MM : BAR_MM;

	pen_line(canvas, x1, y1, x2, y2, kind);
	pen_line(canvas, x1 - ax, y1 - ay, x1 + ax, y1 + ay, LINE_TICK);
	pen_line(canvas, x2 - ax, y2 - ay, x2 + ax, y2 + ay, LINE_TICK);
}
