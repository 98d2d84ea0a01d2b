/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/plan_view.h"

#include <math.h>
#include <stdio.h>

#include "pictures/chisel_marks.h"
#include "pictures/marks.h"
#include "pictures/plan_parts.h"
#include "pictures/ruler.h"
#include "pictures/scale.h"
#include "pictures/station_table.h"

#define LEFT_MM 30.0
#define LEGEND_MM 10.0
#define STATION_MM 9.0 /* names above the plan */
#define FRETS_MM 5.0
#define AXIS_MM 13.0
#define AIR_MM 3.0 /* on the neck, around what is drawn */
#define RULER_ROOM_MM 60.0
#define RULER_TOP_MM 8.5 /* beside the title */

static void widen_place(struct map_extent *part, const struct place *place)
{
	part->x_from_mm = fmin(part->x_from_mm, place->x_from_mm);
	part->x_to_mm = fmax(part->x_to_mm, place->x_to_mm);
	part->y_from_mm = fmin(part->y_from_mm, place->y_from_mm);
	part->y_to_mm = fmax(part->y_to_mm, place->y_to_mm);
}

static struct map_extent extent_of(const struct plan_view *plan)
{
	const struct blank *blank = &plan->job->blank;
	const struct fixture *fixture = &plan->job->fixture;
	const struct neck_lines *lines = plan->lines;
	double from = blank_from_mm(blank), to = blank_to_mm(blank);
	double half = blank_widest_mm(blank, from, to);
	struct map_extent part = { fmin(from, lines->x_mm[0]),
				   fmax(to, lines->x_mm[lines->count - 1]), -half, half };

	for (size_t i = 0; i < lines->count; i++) {
		part.y_from_mm = fmin(part.y_from_mm, -lines->edge_mm[SIDE_MINUS][i]);
		part.y_to_mm = fmax(part.y_to_mm, lines->edge_mm[SIDE_PLUS][i]);
	}
	for (size_t i = 0; i < fixture->hold_count; i++)
		widen_place(&part, &fixture->hold[i]);
	for (size_t i = 0; i < fixture->keep_out_count; i++)
		widen_place(&part, &fixture->keep_out[i]);
	part.y_from_mm -= AIR_MM;
	part.y_to_mm += AIR_MM;
	return part;
}

struct map_view plan_view_place(const struct plan_view *plan)
{
	struct map_extent part = extent_of(plan);
	double scale =
		(CANVAS_WIDTH_MM - LEFT_MM - CANVAS_MARGIN_MM) / (part.x_to_mm - part.x_from_mm);

	return (struct map_view){ part, canvas_snap_mm(LEFT_MM),
				  canvas_snap_mm(PEN_TITLE_HEIGHT_MM + LEGEND_MM + STATION_MM),
				  scale };
}

double plan_view_height_mm(const struct plan_view *plan)
{
	struct map_view view = plan_view_place(plan);

	return view.top_mm + map_view_height_mm(&view) + FRETS_MM + AXIS_MM +
	       lanes_height_mm(&plan->lanes) + 6.0 + plan_table_height_mm(plan->row_count) +
	       PEN_FOOT_HEIGHT_MM;
}

/* Names above the plan, moved apart where stations stand close. */
static void draw_stations(struct canvas *canvas, const struct map_view *view,
			  const struct plan_view *plan)
{
	double place[NECK_STATIONS_MAX], widest = 0.0;
	char text[NECK_STATIONS_MAX][NUMBER_MAX];
	size_t count = plan->station_count < NECK_STATIONS_MAX ? plan->station_count
							       : NECK_STATIONS_MAX;
	double bottom = view->top_mm + map_view_height_mm(view);

	for (size_t i = 0; i < count; i++) {
		scale_fret(text[i], plan->station[i].fret);
		place[i] = map_view_x_mm(view, plan->station[i].x_mm);
		widest = fmax(widest, pen_text_width_mm(canvas, TEXT_STRONG, text[i]));
	}
	station_table_spread(count, place, widest + 1.0, view->left_mm, CANVAS_WIDTH_MM - 6.0);
	for (size_t i = 0; i < count; i++) {
		double x = map_view_x_mm(view, plan->station[i].x_mm);
		pen_text(canvas, place[i], view->top_mm - 5.0, TEXT_STRONG, ANCHOR_MIDDLE, text[i]);
		pen_line(canvas, place[i], view->top_mm - 4.0, x, view->top_mm - 0.6, LINE_STATION);
		pen_line(canvas, x, view->top_mm - 0.6, x, bottom, LINE_STATION);
	}
	pen_text(canvas, CANVAS_MARGIN_MM, view->top_mm - 5.0, TEXT_SMALL, ANCHOR_LEFT, "station");
}

/* One entry of the legend; returns where the next one begins. */
static double legend_line(struct canvas *canvas, double x, double y, enum line_kind line,
			  const char *text)
{
	pen_line(canvas, x, y, x + 8.0, y, line);
	pen_text(canvas, x + 9.5, y + 0.9, TEXT_BODY, ANCHOR_LEFT, text);
	return x + 9.5 + pen_text_width_mm(canvas, TEXT_BODY, text) + 5.0;
}

static double legend_patch(struct canvas *canvas, double x, double y, enum palette_name colour,
			   const char *text)
{
	pen_swatch(canvas, x, y - 1.5, 8.0, 3.0, palette_colour(colour));
	pen_text(canvas, x + 9.5, y + 0.9, TEXT_BODY, ANCHOR_LEFT, text);
	return x + 9.5 + pen_text_width_mm(canvas, TEXT_BODY, text) + 5.0;
}

static double legend_chisel(struct canvas *canvas, double x, double y)
{
	static const char text[] = "left for the chisel";

	chisel_marks_swatch(canvas, x, y - 1.5, 8.0, 3.0);
	pen_text(canvas, x + 9.5, y + 0.9, TEXT_BODY, ANCHOR_LEFT, text);
	return x + 9.5 + pen_text_width_mm(canvas, TEXT_BODY, text) + 5.0;
}

static void draw_legend(struct canvas *canvas, const struct map_view *view,
			const struct chisel *chisel, double y)
{
	double x = CANVAS_MARGIN_MM;

	x = legend_line(canvas, x, y, LINE_FINISHED, "finished, at the gluing face");
	x = legend_patch(canvas, x, y, PALETTE_LIGHT_WOOD, "flat on the back");
	x = legend_line(canvas, x, y, LINE_BOARD, "ends of frets");
	x = legend_line(canvas, x, y, LINE_BLANK, "blank as drawn");
	if (chisel->area_mm2 > 0.0)
		x = legend_chisel(canvas, x, y);
	marks_zero(canvas, x + 2.5, y);
	pen_text(canvas, x + 7.0, y + 0.9, TEXT_BODY, ANCHOR_LEFT, "program zero");
	/* a legend with one entry more takes the ruler's place */
	ruler_draw(canvas, CANVAS_WIDTH_MM - CANVAS_MARGIN_MM,
		   chisel->area_mm2 > 0.0 ? RULER_TOP_MM : y - 3.2, view->scale, RULER_ROOM_MM);
}

static void draw_axes(struct canvas *canvas, const struct map_view *view,
		      const struct map_axis *along, const char *plus_side)
{
	char label[64];

	(void)snprintf(label, sizeof label, "y, mm (+ %s)", plus_side);
	struct map_axis across = { view->part.y_from_mm,
				   view->part.y_to_mm,
				   view->top_mm + map_view_height_mm(view),
				   view->top_mm,
				   scale_step(view->part.y_to_mm - view->part.y_from_mm, 6),
				   label };
	scale_axis_below(canvas, along, view->top_mm + map_view_height_mm(view) + FRETS_MM);
	scale_axis_left(canvas, &across, view->left_mm - 1.0);
}

void plan_view_draw(struct canvas *canvas, const struct plan_view *plan)
{
	struct map_view view = plan_view_place(plan);
	double bottom = view.top_mm + map_view_height_mm(&view);
	struct map_axis along = { view.part.x_from_mm,
				  view.part.x_to_mm,
				  view.left_mm,
				  view.left_mm + map_view_width_mm(&view),
				  scale_step(view.part.x_to_mm - view.part.x_from_mm, 14),
				  "x from the nut, mm" };

	pen_title_block(canvas, &plan->words, "Plan view",
			"From above, as it lies on the machine: back up, body end to the right. "
			"Lengths and widths to one scale.");
	draw_legend(canvas, &view, plan->chisel, PEN_TITLE_HEIGHT_MM + 2.0);
	plan_parts_wood(canvas, &view, plan);
	plan_parts_board(canvas, &view, plan, bottom + 1.2 * pen_text_size_mm(TEXT_SMALL));
	plan_parts_marks(canvas, &view, plan);
	chisel_marks_draw(canvas, &view, &plan->chisel->map);
	pen_line(canvas, view.left_mm, map_view_y_mm(&view, 0.0),
		 view.left_mm + map_view_width_mm(&view), map_view_y_mm(&view, 0.0), LINE_CENTRE);
	draw_stations(canvas, &view, plan);
	plan_parts_places(canvas, &view, plan);
	draw_axes(canvas, &view, &along, plan->lanes.plus_side);
	lanes_draw(canvas, &plan->lanes, &along, bottom + FRETS_MM + AXIS_MM);
	plan_table_draw(canvas, plan->row_count, plan->row,
			bottom + FRETS_MM + AXIS_MM + lanes_height_mm(&plan->lanes) + 6.0);
}
