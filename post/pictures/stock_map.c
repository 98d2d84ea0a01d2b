/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/stock_map.h"

#include <math.h>
#include <stdio.h>

#include "base/tol.h"
#include "pictures/chisel_marks.h"
#include "pictures/contour.h"
#include "pictures/map.h"
#include "pictures/plan_parts.h"
#include "pictures/ruler.h"
#include "pictures/scale.h"
#include "pictures/stock_marks.h"

#define ROWS 2 /* the neck in two halves, so that a millimetre can be seen */
#define LEFT_MM 27.0
#define STATION_MM 7.0 /* fret numbers above a row */
#define AXIS_MM 12.0
#define FOOT_MM 36.0 /* colour bar and zone table */
#define CONTOUR_BLOCK_MM 2.0 /* averaged over so much, wider than any stepover */
#define RULER_TOP_MM 8.5 /* beside the title */
#define RULER_ROOM_MM 60.0
#define RANGE_FACTOR 2.0 /* stock beyond so many allowances shares the last colour */

struct layout {
	struct map_extent part; /* everything there is */
	double half_mm; /* length of one row on the neck */
	double width_mm, scale, row_mm;
	double full;
	bool beyond; /* some columns have more than `full` */
};

static void set_range(struct layout *l, const struct stock_map *map)
{
	double most = map_most(map->stock), allowance = 0.0;

	for (int z = 0; z < ZONE_COUNT; z++)
		if (map->zone[z].area_mm2 > 0.0)
			allowance = fmax(allowance, map->zone[z].allowance_mm);
	double cap = allowance > 0.0 ? RANGE_FACTOR * allowance : INFINITY;
	double wanted = most > 0.0 ? fmin(most, cap) : 1.0;
	l->full = scale_ceiling(wanted, scale_step(wanted, 10));
	l->beyond = most > l->full;
}

static struct layout layout_of(const struct stock_map *map)
{
	struct layout l = { .part = map_extent_none() };

	map_extent_add(&l.part, map->stock);
	if (map_extent_is_none(&l.part))
		l.part = (struct map_extent){ 0.0, 100.0, -10.0, 10.0 };
	l.half_mm = (l.part.x_to_mm - l.part.x_from_mm) / ROWS;
	l.width_mm = CANVAS_WIDTH_MM - LEFT_MM - CANVAS_MARGIN_MM;
	l.scale = l.width_mm / l.half_mm;
	l.row_mm = STATION_MM + (l.part.y_to_mm - l.part.y_from_mm) * l.scale + AXIS_MM;
	set_range(&l, map);
	return l;
}

double stock_map_height_mm(const struct stock_map *map)
{
	return PEN_TITLE_HEIGHT_MM + ROWS * layout_of(map).row_mm + FOOT_MM + PEN_FOOT_HEIGHT_MM;
}

static struct map_view view_of(const struct layout *l, int row)
{
	struct map_view view = { l->part, canvas_snap_mm(LEFT_MM),
				 canvas_snap_mm(PEN_TITLE_HEIGHT_MM + row * l->row_mm + STATION_MM),
				 l->scale };

	view.part.x_from_mm = l->part.x_from_mm + row * l->half_mm;
	view.part.x_to_mm = view.part.x_from_mm + l->half_mm;
	return view;
}

struct map_view stock_map_view(const struct stock_map *map, int row)
{
	struct layout l = layout_of(map);

	return view_of(&l, row);
}

double stock_map_full_mm(const struct stock_map *map)
{
	return layout_of(map).full;
}

static void draw_stations(struct canvas *canvas, const struct stock_map *map,
			  const struct map_view *view)
{
	double free_from = -INFINITY;
	char text[NUMBER_MAX], shown[NUMBER_MAX + 8];

	for (size_t i = 0; i < map->station_count; i++) {
		double x_mm = map->station[i].x_mm;
		if (x_mm < view->part.x_from_mm || x_mm > view->part.x_to_mm)
			continue;
		double x = map_view_x_mm(view, x_mm);
		(void)snprintf(shown, sizeof shown, "%s%s",
			       map->station[i].fret == 0.0 ? "" : "fret ",
			       scale_fret(text, map->station[i].fret));
		double half = pen_text_width_mm(canvas, TEXT_SMALL, shown) / 2.0;
		pen_line(canvas, x, view->top_mm - 2.6, x, view->top_mm + map_view_height_mm(view),
			 LINE_STATION);
		if (x - half < free_from)
			continue;
		pen_text(canvas, x, view->top_mm - 3.4, TEXT_SMALL, ANCHOR_MIDDLE, shown);
		free_from = x + half + 1.0;
	}
}

static void draw_axes(struct canvas *canvas, const struct stock_map *map,
		      const struct map_view *view)
{
	char label[64];
	double under = view->top_mm + map_view_height_mm(view) + 0.8;
	struct map_axis along = { view->part.x_from_mm,
				  view->part.x_to_mm,
				  view->left_mm,
				  view->left_mm + map_view_width_mm(view),
				  scale_step(view->part.x_to_mm - view->part.x_from_mm, 14),
				  "x from the nut, mm" };

	(void)snprintf(label, sizeof label, "y across, mm (+ %s)", map->plus_side);
	struct map_axis across = { view->part.y_from_mm,
				   view->part.y_to_mm,
				   view->top_mm + map_view_height_mm(view),
				   view->top_mm,
				   scale_step(view->part.y_to_mm - view->part.y_from_mm, 8),
				   label };
	scale_axis_below(canvas, &along, under);
	scale_axis_left(canvas, &across, view->left_mm - 0.8);
}

static const char *zone_name(enum stock_zone zone)
{
	switch (zone) {
	case ZONE_BACK:
		return "back";
	case ZONE_SIDES:
		return "sides";
	case ZONE_HEEL_CHEEKS:
		return "heel cheeks";
	case ZONE_TRANSITIONS:
		return "transitions";
	case ZONE_COUNT:
		break;
	}
	return "";
}

static void draw_table(struct canvas *canvas, const struct stock_map *map, double x, double y)
{
	static const char *const heads[] = { "zone", "allowed", "least",
					     "mean", "most",	"area, cm\xc2\xb2" };
	static const double ends[] = { 0.0, 38.0, 54.0, 70.0, 86.0, 106.0 };
	const double line = 4.2;
	char text[NUMBER_MAX];

	for (size_t c = 0; c < 6; c++)
		pen_text(canvas, x + ends[c], y, TEXT_SMALL, c == 0 ? ANCHOR_LEFT : ANCHOR_RIGHT,
			 heads[c]);
	pen_line(canvas, x, y + 1.2, x + ends[5], y + 1.2, LINE_RULE);
	for (int z = 0; z < ZONE_COUNT; z++) {
		const struct zone_figures *f = &map->zone[z];
		bool none = !(f->area_mm2 > 0.0);
		const double figures[] = { f->allowance_mm, none ? NAN : f->least_mm,
					   none ? NAN : f->mean_mm, none ? NAN : f->most_mm };
		y += line;
		pen_text(canvas, x, y, TEXT_BODY, ANCHOR_LEFT, zone_name((enum stock_zone)z));
		for (size_t c = 0; c < 4; c++)
			pen_text(canvas, x + ends[c + 1], y, TEXT_BODY, ANCHOR_RIGHT,
				 scale_number(text, figures[c], 2));
		pen_text(canvas, x + ends[5], y, TEXT_BODY, ANCHOR_RIGHT,
			 scale_number(text, f->area_mm2 / 100.0, 0));
	}
	pen_text(canvas, x, y + line + 0.6, TEXT_SMALL, ANCHOR_LEFT,
		 "Figures in mm along the surface normal, where the cutter reaches.");
}

static void draw_chisel_legend(struct canvas *canvas, const struct chisel *chisel, double x,
			       double y)
{
	char text[160], stock[NUMBER_MAX], all[NUMBER_MAX];

	chisel_marks_swatch(canvas, x, y - 1.8, 8.0, 3.6);
	if (chisel->area_mm2 > 0.0)
		(void)snprintf(text, sizeof text,
			       "left for the chisel: %s cm\xc2\xb3 over the stock, %s over the "
			       "finished surface",
			       scale_number(stock, chisel->over_allowance_mm3 / 1000.0, 1),
			       scale_number(all, chisel->over_finished_mm3 / 1000.0, 1));
	else
		(void)snprintf(text, sizeof text, "left for the chisel: nothing");
	pen_text(canvas, x + 10.0, y + 0.9, TEXT_SMALL, ANCHOR_LEFT, text);
}

static void draw_legend(struct canvas *canvas, const struct stock_map *map, const struct layout *l,
			double step, double y)
{
	double x = CANVAS_MARGIN_MM, bar = 100.0;
	struct short_stock shortfall = stock_marks_measure(map->stock, map->allowance);
	char text[160], area[NUMBER_MAX], worst[NUMBER_MAX], number[NUMBER_MAX];

	scale_colour_bar(canvas, x, y, bar, l->full, l->beyond, "stock left for the hand, mm");
	y += SCALE_BAR_HEIGHT_MM + 3.0;
	pen_line(canvas, x, y, x + 8.0, y, LINE_CONTOUR);
	(void)snprintf(text, sizeof text, "contour lines every %s mm, furrows averaged out",
		       scale_number(number, step, scale_decimals(step)));
	pen_text(canvas, x + 10.0, y + 0.9, TEXT_SMALL, ANCHOR_LEFT, text);
	y += 5.0;
	stock_marks_swatch(canvas, x, y - 1.8, 8.0, 3.6);
	if (shortfall.area_mm2 > 0.0)
		(void)snprintf(text, sizeof text,
			       "less than allowed: %s mm\xc2\xb2, at worst %s mm short (ringed)",
			       scale_number(area, shortfall.area_mm2, 1),
			       scale_number(worst, shortfall.worst_mm, 2));
	else
		(void)snprintf(text, sizeof text, "less than allowed: nowhere");
	pen_text(canvas, x + 10.0, y + 0.9, TEXT_SMALL, ANCHOR_LEFT, text);
	draw_chisel_legend(canvas, map->chisel, x, y + 5.0);
}

static enum fault draw_row(struct canvas *canvas, const struct stock_map *map,
			   const struct layout *l, const struct column_map *smooth, double step,
			   int row, struct fault_list *faults)
{
	const struct map_look look = { .pick = MAP_PICK_LEAST,
				       .full = l->full,
				       .least = map->allowance,
				       .slack = TOL_PROOF_MM };
	struct map_view view = view_of(l, row);
	enum fault code = map_draw(canvas, map->stock, &view, &look, faults);
	if (code == FAULT_NONE)
		code = stock_marks_contours(canvas, smooth, &view, step, l->full, faults);
	chisel_marks_draw(canvas, &view, &map->chisel->map);
	if (map->lines)
		plan_parts_outline(canvas, &view, map->lines, map->flats_from_mm);
	if (code == FAULT_NONE)
		code = stock_marks_rings(canvas, map->stock, map->allowance, &view, faults);
	draw_stations(canvas, map, &view);
	draw_axes(canvas, map, &view);
	return code;
}

/* No contour lines where the chisel's hatching lies: its edge would cut their
 * figures in two. */
static void leave_out(struct column_map *smooth, const struct column_map *chisel)
{
	for (size_t i = 0; chisel->value && i < smooth->nx * smooth->ny; i++) {
		size_t row = i / smooth->nx;
		double x = smooth->x0_mm + (double)(i % smooth->nx) * smooth->cell_mm;
		double y = smooth->y0_mm + (double)row * smooth->cell_mm;
		double ix = round((x - chisel->x0_mm) / chisel->cell_mm);
		double iy = round((y - chisel->y0_mm) / chisel->cell_mm);
		if (ix < 0.0 || iy < 0.0 || ix >= (double)chisel->nx || iy >= (double)chisel->ny)
			continue;
		if (isfinite(chisel->value[(size_t)iy * chisel->nx + (size_t)ix]))
			smooth->value[i] = NAN;
	}
}

enum fault stock_map_draw(struct canvas *canvas, const struct stock_map *map,
			  struct fault_list *faults)
{
	struct layout l = layout_of(map);
	double step = scale_step(l.full, 6);
	double block = fmax(1.0, round(CONTOUR_BLOCK_MM / map->stock->cell_mm));
	struct column_map smooth = { 0 };
	enum fault code = contour_smooth(&smooth, map->stock, (size_t)block, 1.5 * l.full, faults);

	if (code == FAULT_NONE)
		leave_out(&smooth, &map->chisel->map);
	pen_title_block(
		canvas, &map->words, "Stock left for the hand",
		"What roughing leaves above the finished surface, measured square to it. Seen "
		"from above on the back; the lower row continues the upper one.");
	for (int row = 0; row < ROWS && code == FAULT_NONE; row++)
		code = draw_row(canvas, map, &l, &smooth, step, row, faults);
	double foot = PEN_TITLE_HEIGHT_MM + ROWS * l.row_mm + 3.0;
	ruler_draw(canvas, CANVAS_WIDTH_MM - CANVAS_MARGIN_MM, RULER_TOP_MM, l.scale,
		   RULER_ROOM_MM);
	draw_legend(canvas, map, &l, step, foot);
	draw_table(canvas, map, CANVAS_WIDTH_MM - CANVAS_MARGIN_MM - 106.0, foot + 2.4);
	contour_map_free(&smooth);
	return code;
}
