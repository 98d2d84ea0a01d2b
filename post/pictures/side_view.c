/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/side_view.h"

#include <math.h>
#include <stdio.h>

#include "pictures/marks.h"
#include "pictures/ruler.h"
#include "pictures/scale.h"
#include "pictures/side_frame.h"
#include "pictures/side_parts.h"
#include "pictures/station_table.h"

#define FRETS_MM 6.0 /* fret figures under the fretboard */
#define AXIS_MM 13.0
#define RULER_ROOM_MM 40.0
#define UPRIGHT_MM 9.5 /* room for the scale bar of heights */

static void draw_axes(struct canvas *canvas, const struct side_frame *f)
{
	struct map_axis along = { f->x_from,
				  f->x_to,
				  f->left,
				  f->right,
				  scale_step(f->x_to - f->x_from, 14),
				  "x from the nut, mm" };
	struct map_axis up = { f->z_from,
			       f->z_to,
			       f->bottom,
			       f->top,
			       scale_step(f->z_to - f->z_from, 14),
			       "z above the gluing face, mm" };

	scale_axis_below(canvas, &along, f->bottom + FRETS_MM);
	scale_axis_left(canvas, &up, f->left - 2.0);
}

/* Faint level lines behind everything. */
static void draw_grid(struct canvas *canvas, const struct side_frame *f)
{
	double step = scale_step(f->z_to - f->z_from, 14);

	int last = (int)floor(f->z_to / step);

	for (int i = (int)ceil(f->z_from / step); i <= last; i++)
		pen_line(canvas, f->left, side_frame_z(f, i * step), f->right,
			 side_frame_z(f, i * step), LINE_RULE);
}

double side_view_height_mm(const struct side_view *view)
{
	return side_frame_of(view).bottom + FRETS_MM + AXIS_MM + STATION_TABLE_HEIGHT_MM +
	       lanes_height_mm(&view->lanes) + 2.0 + PEN_FOOT_HEIGHT_MM;
}

struct legend_item {
	enum line_kind line;
	enum palette_name ground;
	const char *text;
};

/* One bar for lengths; another for heights where these have their own scale. */
static void draw_rulers(struct canvas *canvas, const struct side_frame *f, double y)
{
	double scale = side_frame_scale(f), end = CANVAS_WIDTH_MM - CANVAS_MARGIN_MM;
	bool both = f->exaggeration != 1.0;

	ruler_draw(canvas, both ? end - 36.0 : end, y, scale, RULER_ROOM_MM);
	if (both)
		ruler_draw_upright(canvas, end - 27.0, y + UPRIGHT_MM, scale * f->exaggeration,
				   UPRIGHT_MM);
}

static void draw_legend(struct canvas *canvas, const struct side_frame *f, double y)
{
	static const struct legend_item items[] = {
		{ LINE_FINISHED, PALETTE_WOOD, "finished" },
		{ LINE_ROUGHED, PALETTE_LIGHT_WOOD, "roughed" },
		{ LINE_BLANK, PALETTE_PALE_WOOD, "blank as drawn" },
		{ LINE_BOARD, PALETTE_PAPER, "fretboard" },
		{ LINE_STATION, PALETTE_PAPER, "station" },
	};
	double x = CANVAS_MARGIN_MM;

	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
		canvas_colour(canvas, palette_colour(items[i].ground));
		cairo_rectangle(canvas->pen, x, y, 9.0, 2.6);
		cairo_fill(canvas->pen);
		pen_line(canvas, x, y, x + 9.0, y, items[i].line);
		pen_text(canvas, x + 10.5, y + 2.2, TEXT_BODY, ANCHOR_LEFT, items[i].text);
		x += 10.5 + pen_text_width_mm(canvas, TEXT_BODY, items[i].text) + 5.0;
	}
	marks_zero(canvas, x + 2.5, y + 1.3);
	pen_text(canvas, x + 7.0, y + 2.2, TEXT_BODY, ANCHOR_LEFT, "program zero");
	draw_rulers(canvas, f, y - 2.0);
}

static void draw_title(struct canvas *canvas, const struct side_frame *f,
		       const struct side_view *view)
{
	char remark[200], factor[NUMBER_MAX];

	if (f->exaggeration == 1.0)
		(void)snprintf(
			remark, sizeof remark,
			"On the centre line, as it lies on the machine: back up, body end to "
			"the right. Heights and lengths to one scale.");
	else
		(void)snprintf(
			remark, sizeof remark,
			"On the centre line, as it lies on the machine: back up, body end to "
			"the right. Heights are drawn %s times as large as lengths.",
			scale_number(factor, f->exaggeration,
				     f->exaggeration == round(f->exaggeration) ? 0 : 1));
	pen_title_block(canvas, &view->words, "Side view", remark);
}

static void draw_stations(struct canvas *canvas, const struct side_frame *f,
			  const struct side_view *view, double table_top)
{
	for (size_t i = 0; i < view->station_count; i++) {
		double x = side_frame_x(f, view->station[i].x_mm);
		pen_line(canvas, x, f->top, x, f->bottom, LINE_STATION);
	}
	struct station_table table = {
		.station_count = view->station_count,
		.station = view->station,
		.over_fretboard = view->over_fretboard,
		.x_from_mm = f->x_from,
		.x_to_mm = f->x_to,
		.left_mm = f->left,
		.right_mm = f->right,
	};
	station_table_draw(canvas, &table, table_top);
}

enum fault side_view_draw(struct canvas *canvas, const struct side_view *view,
			  struct fault_list *faults)
{
	if (view->finished->count == 0 || view->roughed->count == 0 ||
	    view->blank_top->count == 0 || view->blank_bottom->count == 0)
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "A line of the side view has no points.");
	struct side_frame f = side_frame_of(view);
	draw_title(canvas, &f, view);
	draw_legend(canvas, &f, PEN_TITLE_HEIGHT_MM);
	draw_grid(canvas, &f);
	side_parts_wood(canvas, &f, view);
	side_parts_board(canvas, &f, view);
	side_parts_marks(canvas, &f, view);
	draw_axes(canvas, &f);
	draw_stations(canvas, &f, view, f.bottom + FRETS_MM + AXIS_MM);
	struct map_axis along = { f.x_from, f.x_to, f.left, f.right, 1.0, "" };
	lanes_draw(canvas, &view->lanes, &along,
		   f.bottom + FRETS_MM + AXIS_MM + STATION_TABLE_HEIGHT_MM);
	return FAULT_NONE;
}
