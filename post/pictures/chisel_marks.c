/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/chisel_marks.h"

#include <math.h>
#include <stdbool.h>

#include "pictures/pen.h"

#define SLANT_MM 1.3 /* from line to line, along an edge */

static bool is_left(const struct column_map *map, size_t ix, size_t iy)
{
	return ix < map->nx && iy < map->ny && isfinite(map->value[iy * map->nx + ix]);
}

/* Where a column's cell begins on paper. */
static double cell_x(const struct map_view *view, const struct column_map *map, size_t ix)
{
	return map_view_x_mm(view, map->x0_mm + ((double)ix - 0.5) * map->cell_mm);
}

static double cell_y(const struct map_view *view, const struct column_map *map, size_t iy)
{
	return map_view_y_mm(view, map->y0_mm + ((double)iy - 0.5) * map->cell_mm);
}

/* A path of all stretches of columns; returns whether there are any. */
static bool trace_area(struct canvas *canvas, const struct map_view *view,
		       const struct column_map *map)
{
	bool any = false;

	cairo_new_path(canvas->pen);
	for (size_t iy = 0; iy < map->ny; iy++)
		for (size_t ix = 0; ix < map->nx; ix++) {
			size_t first = ix;
			while (is_left(map, ix, iy))
				ix++;
			if (ix == first)
				continue;
			double x = cell_x(view, map, first), y = cell_y(view, map, iy + 1);
			cairo_rectangle(canvas->pen, x, y, cell_x(view, map, ix) - x,
					cell_y(view, map, iy) - y);
			any = true;
		}
	return any;
}

/* A path of the edges between columns that are left and others. */
static void trace_edges(struct canvas *canvas, const struct map_view *view,
			const struct column_map *map)
{
	cairo_new_path(canvas->pen);
	for (size_t iy = 0; iy <= map->ny; iy++)
		for (size_t ix = 0; ix <= map->nx; ix++) {
			double x = cell_x(view, map, ix), y = cell_y(view, map, iy);
			bool here = is_left(map, ix, iy);
			if (here != is_left(map, ix - 1, iy)) {
				cairo_move_to(canvas->pen, x, y);
				cairo_line_to(canvas->pen, x, cell_y(view, map, iy + 1));
			}
			if (here != is_left(map, ix, iy - 1)) {
				cairo_move_to(canvas->pen, x, y);
				cairo_line_to(canvas->pen, cell_x(view, map, ix + 1), y);
			}
		}
}

/* Falling to the right, over a box of paper. */
static void hatch(struct canvas *canvas, double x, double y, double width, double height)
{
	int lines = (int)((width + height) / SLANT_MM);

	for (int i = 1; i <= lines; i++) {
		double at = x - height + i * SLANT_MM;
		cairo_move_to(canvas->pen, at, y);
		cairo_line_to(canvas->pen, at + height, y + height);
	}
	pen_stroke(canvas, LINE_SLANT);
}

void chisel_marks_draw(struct canvas *canvas, const struct map_view *view,
		       const struct column_map *map)
{
	double width = map_view_width_mm(view), height = map_view_height_mm(view);

	if (!map->value)
		return;
	cairo_save(canvas->pen);
	cairo_rectangle(canvas->pen, view->left_mm, view->top_mm, width, height);
	cairo_clip(canvas->pen);
	cairo_save(canvas->pen);
	if (trace_area(canvas, view, map)) {
		canvas_colour(canvas, palette_colour(PALETTE_PALE_WOOD));
		cairo_fill_preserve(canvas->pen);
		cairo_clip(canvas->pen);
		hatch(canvas, view->left_mm, view->top_mm, width, height);
	}
	cairo_restore(canvas->pen);
	trace_edges(canvas, view, map);
	pen_stroke(canvas, LINE_FRAME);
	cairo_restore(canvas->pen);
}

void chisel_marks_swatch(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
			 double height_mm)
{
	pen_swatch(canvas, x_mm, y_mm, width_mm, height_mm, palette_colour(PALETTE_PALE_WOOD));
	cairo_save(canvas->pen);
	cairo_rectangle(canvas->pen, x_mm, y_mm, width_mm, height_mm);
	cairo_clip(canvas->pen);
	hatch(canvas, x_mm, y_mm, width_mm, height_mm);
	cairo_restore(canvas->pen);
}
