/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/stock_marks.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"
#include "base/units.h"
#include "pictures/contour.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

#define TILE_MM 10.0
#define RING_MM 2.2 /* radius on paper */
#define FIGURE_LINE_MM 30.0 /* a contour shorter than this on paper has no figure */
#define FIGURES_MAX 96 /* more would only crowd the map */

/* How much column i lacks, mm; 0 when it has enough or nothing is known. */
static double lack(const struct column_map *stock, const struct column_map *allowance, size_t i)
{
	double missing = (double)allowance->value[i] - (double)stock->value[i];

	return missing > TOL_PROOF_MM ? missing : 0.0;
}

static double column_x_mm(const struct column_map *map, size_t i)
{
	return map->x0_mm + (double)(i % map->nx) * map->cell_mm;
}

static double column_y_mm(const struct column_map *map, size_t i)
{
	size_t iy = i / map->nx;

	return map->y0_mm + (double)iy * map->cell_mm;
}

struct short_stock stock_marks_measure(const struct column_map *stock,
				       const struct column_map *allowance)
{
	struct short_stock found = { 0 };
	size_t count = 0;

	for (size_t i = 0; i < stock->nx * stock->ny; i++) {
		double missing = lack(stock, allowance, i);
		if (missing > 0.0)
			count++;
		if (missing > found.worst_mm) {
			found.worst_mm = missing;
			found.x_mm = column_x_mm(stock, i);
			found.y_mm = column_y_mm(stock, i);
		}
	}
	found.area_mm2 = (double)count * stock->cell_mm * stock->cell_mm;
	return found;
}

static void ring(struct canvas *canvas, const struct map_view *view, double x_mm, double y_mm)
{
	double x = map_view_x_mm(view, x_mm), y = map_view_y_mm(view, y_mm);

	if (x_mm < view->part.x_from_mm || x_mm >= view->part.x_to_mm)
		return;
	cairo_new_path(canvas->pen);
	cairo_arc(canvas->pen, x, y, RING_MM, 0.0, 2.0 * PI);
	cairo_set_dash(canvas->pen, NULL, 0, 0.0);
	cairo_set_line_width(canvas->pen, 1.1);
	canvas_colour(canvas, palette_colour(PALETTE_PAPER));
	cairo_stroke_preserve(canvas->pen);
	pen_stroke(canvas, LINE_FINISHED);
}

struct worst {
	double missing;
	size_t column;
};

/* The worst column of every tile; the caller frees the array. */
static struct worst *worst_by_tile(const struct column_map *stock,
				   const struct column_map *allowance, size_t tile, size_t tiles_x,
				   size_t tiles_y)
{
	struct worst *worst = mem_array(tiles_x * tiles_y, sizeof *worst);

	for (size_t i = 0; worst && i < stock->nx * stock->ny; i++) {
		double missing = lack(stock, allowance, i);
		struct worst *here = &worst[i / stock->nx / tile * tiles_x + i % stock->nx / tile];
		if (missing > here->missing)
			*here = (struct worst){ missing, i };
	}
	return worst;
}

enum fault stock_marks_rings(struct canvas *canvas, const struct column_map *stock,
			     const struct column_map *allowance, const struct map_view *view,
			     struct fault_list *faults)
{
	size_t tile = (size_t)fmax(1.0, round(TILE_MM / stock->cell_mm));
	size_t tiles_x = stock->nx / tile + 1, tiles_y = stock->ny / tile + 1;
	struct worst *worst = worst_by_tile(stock, allowance, tile, tiles_x, tiles_y);

	if (!worst)
		return fault_no_memory(faults, "the marks of a map");
	for (size_t t = 0; t < tiles_x * tiles_y; t++)
		if (worst[t].missing > 0.0)
			ring(canvas, view, column_x_mm(stock, worst[t].column),
			     column_y_mm(stock, worst[t].column));
	free(worst);
	return FAULT_NONE;
}

struct figure {
	double x, y; /* middle of its base line on paper, mm */
};

struct contours {
	struct canvas *canvas;
	const struct map_view *view;
	double level;
	char text[NUMBER_MAX];
	struct figure figure[FIGURES_MAX];
	size_t figure_count;
};

static bool has_room(const struct contours *c, double x, double y, double width)
{
	double em = pen_text_size_mm(TEXT_SMALL);
	double left = c->view->left_mm, right = left + map_view_width_mm(c->view);

	if (c->figure_count == FIGURES_MAX || x - width < left || x + width > right)
		return false;
	for (size_t i = 0; i < c->figure_count; i++)
		if (fabs(c->figure[i].x - x) < 2.0 * width && fabs(c->figure[i].y - y) < 1.5 * em)
			return false;
	return true;
}

/* Writes the level on the line, as near to its middle as there is room. */
static void write_figure(struct contours *c, size_t count, const double *x_mm, const double *y_mm)
{
	double em = pen_text_size_mm(TEXT_SMALL);
	double width = pen_text_width_mm(c->canvas, TEXT_SMALL, c->text);

	for (size_t k = 0; k < count; k++) {
		size_t i = count / 2 + (k % 2 ? (k + 1) / 2 : 0) - (k % 2 ? 0 : k / 2);
		if (i >= count)
			continue;
		double x = map_view_x_mm(c->view, x_mm[i]);
		double y = map_view_y_mm(c->view, y_mm[i]) + 0.36 * em;
		if (!has_room(c, x, y, width))
			continue;
		pen_text_on_map(c->canvas, x, y, TEXT_SMALL, ANCHOR_MIDDLE, c->text);
		c->figure[c->figure_count++] = (struct figure){ x, y };
		return;
	}
}

static void draw_contour(void *context, size_t count, const double *x_mm, const double *y_mm)
{
	struct contours *c = context;

	for (size_t i = 0; i < count; i++)
		cairo_line_to(c->canvas->pen, map_view_x_mm(c->view, x_mm[i]),
			      map_view_y_mm(c->view, y_mm[i]));
	pen_stroke(c->canvas, LINE_CONTOUR);
}

static void figure_contour(void *context, size_t count, const double *x_mm, const double *y_mm)
{
	struct contours *c = context;
	double length = 0.0;

	for (size_t i = 1; i < count; i++)
		length += hypot(x_mm[i] - x_mm[i - 1], y_mm[i] - y_mm[i - 1]);
	if (length * c->view->scale >= FIGURE_LINE_MM)
		write_figure(c, count, x_mm, y_mm);
}

enum fault stock_marks_contours(struct canvas *canvas, const struct column_map *smooth,
				const struct map_view *view, double step, double full,
				struct fault_list *faults)
{
	static contour_line *const turns[] = { draw_contour, figure_contour };
	struct contours c = { .canvas = canvas, .view = view };
	enum fault code = FAULT_NONE;

	cairo_save(canvas->pen);
	cairo_rectangle(canvas->pen, view->left_mm, view->top_mm, map_view_width_mm(view),
			map_view_height_mm(view));
	cairo_clip(canvas->pen);
	/* All lines first: figures stand above every one of them. */
	for (size_t turn = 0; turn < 2; turn++)
		for (int k = 1; k * step < full * (1.0 + 1e-9) && code == FAULT_NONE; k++) {
			c.level = k * step;
			scale_number(c.text, c.level, scale_decimals(step));
			code = contour_trace(smooth, c.level, turns[turn], &c, faults);
		}
	cairo_restore(canvas->pen);
	return code;
}

void stock_marks_swatch(struct canvas *canvas, double x_mm, double y_mm, double width_mm,
			double height_mm)
{
	const double stripe = 3.0 * 1.41421356 / (2.0 * CANVAS_PIXELS_PER_MM);

	pen_swatch(canvas, x_mm, y_mm, width_mm, height_mm, palette_colour(PALETTE_PAPER));
	cairo_save(canvas->pen);
	cairo_rectangle(canvas->pen, x_mm, y_mm, width_mm, height_mm);
	cairo_clip(canvas->pen);
	int stripes = (int)((width_mm + height_mm) / (2.0 * stripe * 1.41421356)) + 1;
	for (int i = 0; i < stripes; i++) {
		double x = x_mm + i * 2.0 * stripe * 1.41421356;
		cairo_move_to(canvas->pen, x, y_mm);
		cairo_line_to(canvas->pen, x - height_mm, y_mm + height_mm);
	}
	canvas_colour(canvas, palette_colour(PALETTE_INK));
	cairo_set_dash(canvas->pen, NULL, 0, 0.0);
	cairo_set_line_width(canvas->pen, stripe);
	cairo_stroke(canvas->pen);
	cairo_restore(canvas->pen);
}
