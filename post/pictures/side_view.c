/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/side_view.h"

#include <math.h>
#include <stdio.h>

#include "pictures/scale.h"
#include "pictures/station_table.h"

#define LEFT_MM 30.0
#define PLOT_HEIGHT_MM 92.0 /* the drawing is at most so tall */
#define LEGEND_MM 8.0
#define FRETS_MM 6.0 /* fret figures under the fretboard */
#define AXIS_MM 12.0

/* Millimetres of the neck on paper: x and z may differ, which is then said. */
struct frame {
	double x_from, x_to, z_from, z_to; /* mm on the neck */
	double left, top, right, bottom; /* mm on paper */
	double exaggeration;
};

static void widen(double *from, double *to, size_t count, const double *values)
{
	for (size_t i = 0; i < count; i++) {
		*from = fmin(*from, values[i]);
		*to = fmax(*to, values[i]);
	}
}

/* The largest of a few plain factors with which the drawing is not too tall. */
static double exaggeration_of(double height_mm)
{
	static const double factors[] = { 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.0 };

	for (size_t i = 0; i < sizeof factors / sizeof factors[0]; i++)
		if (height_mm * factors[i] <= PLOT_HEIGHT_MM)
			return factors[i];
	return 1.0;
}

static struct frame frame_of(const struct side_view *view)
{
	const struct profile_line *lines[] = { view->finished, view->roughed, view->blank_top,
					       view->underside, view->blank_bottom };
	struct frame f = { INFINITY,
			   -INFINITY,
			   -view->fretboard_thickness_mm,
			   0.0,
			   .left = LEFT_MM,
			   .top = PEN_TITLE_HEIGHT_MM + LEGEND_MM,
			   .right = CANVAS_WIDTH_MM - CANVAS_MARGIN_MM };

	for (size_t i = 0; i < 5; i++) {
		widen(&f.x_from, &f.x_to, lines[i]->count, lines[i]->x_mm);
		widen(&f.z_from, &f.z_to, lines[i]->count, lines[i]->z_mm);
	}
	f.z_from -= 1.0;
	f.z_to += 2.0;
	double scale = (f.right - f.left) / (f.x_to - f.x_from);
	double height = (f.z_to - f.z_from) * scale;
	f.exaggeration = exaggeration_of(height);
	f.bottom = f.top + height * f.exaggeration;
	return f;
}

static double at_x(const struct frame *f, double x_mm)
{
	return f->left + (x_mm - f->x_from) / (f->x_to - f->x_from) * (f->right - f->left);
}

static double at_z(const struct frame *f, double z_mm)
{
	return f->bottom - (z_mm - f->z_from) / (f->z_to - f->z_from) * (f->bottom - f->top);
}

double side_view_height_mm(const struct side_view *view)
{
	return frame_of(view).bottom + FRETS_MM + AXIS_MM + STATION_TABLE_HEIGHT_MM +
	       PEN_FOOT_HEIGHT_MM;
}

/* Adds a line to the path, lifting the pen over gaps. */
static void add_line(struct canvas *canvas, const struct frame *f, const struct profile_line *line)
{
	bool down = false;

	for (size_t i = 0; i < line->count; i++) {
		if (isnan(line->z_mm[i])) {
			down = false;
			continue;
		}
		double x = at_x(f, line->x_mm[i]), z = at_z(f, line->z_mm[i]);
		if (down)
			cairo_line_to(canvas->pen, x, z);
		else
			cairo_move_to(canvas->pen, x, z);
		down = true;
	}
}

/* Fills between a line and the one under it. */
static void fill_between(struct canvas *canvas, const struct frame *f,
			 const struct profile_line *over, const struct profile_line *under,
			 enum palette_name colour)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < over->count; i++)
		if (!isnan(over->z_mm[i]))
			cairo_line_to(canvas->pen, at_x(f, over->x_mm[i]), at_z(f, over->z_mm[i]));
	for (size_t i = under->count; i-- > 0;)
		if (!isnan(under->z_mm[i]))
			cairo_line_to(canvas->pen, at_x(f, under->x_mm[i]),
				      at_z(f, under->z_mm[i]));
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(colour));
	cairo_fill(canvas->pen);
}

static void draw_wood(struct canvas *canvas, const struct frame *f, const struct side_view *view)
{
	fill_between(canvas, f, view->blank_top, view->blank_bottom, PALETTE_PALE_WOOD);
	fill_between(canvas, f, view->roughed, view->blank_bottom, PALETTE_LIGHT_WOOD);
	fill_between(canvas, f, view->finished, view->underside, PALETTE_WOOD);
	add_line(canvas, f, view->blank_top);
	add_line(canvas, f, view->blank_bottom);
	pen_stroke(canvas, LINE_BLANK);
	add_line(canvas, f, view->roughed);
	pen_stroke(canvas, LINE_ROUGHED);
	add_line(canvas, f, view->underside);
	add_line(canvas, f, view->finished);
	pen_stroke(canvas, LINE_FINISHED);
}

/* Where the drawn fretboard ends: at the last fret or at the picture's edge. */
static double board_end_mm(const struct frame *f, const struct side_view *view)
{
	return fmin(view->fret_x_mm[view->fret_count], f->x_to);
}

static void draw_fretboard(struct canvas *canvas, const struct frame *f,
			   const struct side_view *view)
{
	double top = at_z(f, 0.0), bottom = at_z(f, -view->fretboard_thickness_mm);
	double left = at_x(f, view->fret_x_mm[0]), right = at_x(f, board_end_mm(f, view));
	double em = pen_text_size_mm(TEXT_SMALL), free_from = -INFINITY;
	char text[NUMBER_MAX];

	/* Without a line at its end: how far the board runs on is not known here. */
	cairo_rectangle(canvas->pen, left, top, right - left, bottom - top);
	canvas_colour(canvas, palette_colour(PALETTE_PAPER));
	cairo_fill(canvas->pen);
	pen_line(canvas, left, top, right, top, LINE_BOARD);
	pen_line(canvas, left, bottom, right, bottom, LINE_BOARD);
	for (size_t fret = 0; fret <= view->fret_count; fret++) {
		double x = at_x(f, view->fret_x_mm[fret]);
		if (x > right + 0.01)
			break;
		pen_line(canvas, x, top, x, bottom, LINE_BOARD);
		scale_fret(text, (double)fret);
		double half = pen_text_width_mm(canvas, TEXT_SMALL, text) / 2.0;
		if (x - half < free_from)
			continue;
		pen_text(canvas, x, f->bottom + 1.3 * em, TEXT_SMALL, ANCHOR_MIDDLE, text);
		free_from = x + half + 0.3 * em;
	}
	pen_text(canvas, left - 3.5, f->bottom + 1.3 * em, TEXT_SMALL, ANCHOR_RIGHT, "fret");
}

static void draw_axes(struct canvas *canvas, const struct frame *f)
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
			       scale_step(f->z_to - f->z_from, 10),
			       "z above the gluing face, mm" };

	scale_axis_below(canvas, &along, f->bottom + FRETS_MM);
	scale_axis_left(canvas, &up, f->left - 2.0);
}

/* Faint level lines behind everything. */
static void draw_grid(struct canvas *canvas, const struct frame *f)
{
	double step = scale_step(f->z_to - f->z_from, 10);

	int last = (int)floor(f->z_to / step);

	for (int i = (int)ceil(f->z_from / step); i <= last; i++)
		pen_line(canvas, f->left, at_z(f, i * step), f->right, at_z(f, i * step),
			 LINE_RULE);
}

struct legend_item {
	enum line_kind line;
	enum palette_name ground;
	const char *text;
};

static void draw_legend(struct canvas *canvas, double y)
{
	static const struct legend_item items[] = {
		{ LINE_FINISHED, PALETTE_WOOD, "finished" },
		{ LINE_ROUGHED, PALETTE_LIGHT_WOOD, "roughed" },
		{ LINE_BLANK, PALETTE_PALE_WOOD, "blank" },
		{ LINE_BOARD, PALETTE_PAPER, "fretboard" },
		{ LINE_STATION, PALETTE_PAPER, "station" },
	};
	double x = LEFT_MM;

	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
		canvas_colour(canvas, palette_colour(items[i].ground));
		cairo_rectangle(canvas->pen, x, y, 9.0, 2.6);
		cairo_fill(canvas->pen);
		pen_line(canvas, x, y, x + 9.0, y, items[i].line);
		pen_text(canvas, x + 11.0, y + 2.2, TEXT_BODY, ANCHOR_LEFT, items[i].text);
		x += 11.0 + pen_text_width_mm(canvas, TEXT_BODY, items[i].text) + 8.0;
	}
}

static void draw_title(struct canvas *canvas, const struct frame *f, const struct side_view *view)
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

static void draw_stations(struct canvas *canvas, const struct frame *f,
			  const struct side_view *view, double table_top)
{
	for (size_t i = 0; i < view->station_count; i++) {
		double x = at_x(f, view->station[i].x_mm);
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
	struct frame f = frame_of(view);
	draw_title(canvas, &f, view);
	draw_legend(canvas, PEN_TITLE_HEIGHT_MM);
	draw_grid(canvas, &f);
	draw_wood(canvas, &f, view);
	draw_fretboard(canvas, &f, view);
	draw_axes(canvas, &f);
	draw_stations(canvas, &f, view, f.bottom + FRETS_MM + AXIS_MM);
	return FAULT_NONE;
}
