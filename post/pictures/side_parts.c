/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/side_parts.h"

#include <math.h>

#include "pictures/marks.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

/* The line for the straight edge stands so far under the back, mm on paper: on
 * the back itself it could not be told from it. */
#define STRAIGHT_UNDER_MM 1.5

/* Adds a line to the path, lifting the pen over gaps. */
static void add_line(struct canvas *canvas, const struct side_frame *f,
		     const struct profile_line *line)
{
	bool down = false;

	for (size_t i = 0; i < line->count; i++) {
		if (isnan(line->z_mm[i])) {
			down = false;
			continue;
		}
		double x = side_frame_x(f, line->x_mm[i]), z = side_frame_z(f, line->z_mm[i]);
		if (down)
			cairo_line_to(canvas->pen, x, z);
		else
			cairo_move_to(canvas->pen, x, z);
		down = true;
	}
}

/* Fills between a line and the one under it. */
static void fill_between(struct canvas *canvas, const struct side_frame *f,
			 const struct profile_line *over, const struct profile_line *under,
			 enum palette_name colour)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < over->count; i++)
		if (!isnan(over->z_mm[i]))
			cairo_line_to(canvas->pen, side_frame_x(f, over->x_mm[i]),
				      side_frame_z(f, over->z_mm[i]));
	for (size_t i = under->count; i-- > 0;)
		if (!isnan(under->z_mm[i]))
			cairo_line_to(canvas->pen, side_frame_x(f, under->x_mm[i]),
				      side_frame_z(f, under->z_mm[i]));
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(colour));
	cairo_fill(canvas->pen);
}

void side_parts_wood(struct canvas *canvas, const struct side_frame *f,
		     const struct side_view *view)
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
static double board_end_mm(const struct side_frame *f, const struct side_view *view)
{
	return fmin(view->fret_x_mm[view->fret_count], f->x_to);
}

void side_parts_board(struct canvas *canvas, const struct side_frame *f,
		      const struct side_view *view)
{
	double top = side_frame_z(f, 0.0), bottom = side_frame_z(f, -view->fretboard_thickness_mm);
	double left = side_frame_x(f, view->fret_x_mm[0]),
	       right = side_frame_x(f, board_end_mm(f, view));
	double em = pen_text_size_mm(TEXT_SMALL), free_from = -INFINITY;
	char text[NUMBER_MAX];

	/* Without a line at its end: how far the board runs on is not known here. */
	cairo_rectangle(canvas->pen, left, top, right - left, bottom - top);
	canvas_colour(canvas, palette_colour(PALETTE_PAPER));
	cairo_fill(canvas->pen);
	pen_line(canvas, left, top, right, top, LINE_BOARD);
	pen_line(canvas, left, bottom, right, bottom, LINE_BOARD);
	for (size_t fret = 0; fret <= view->fret_count; fret++) {
		double x = side_frame_x(f, view->fret_x_mm[fret]);
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
	pen_text(canvas, CANVAS_MARGIN_MM, f->bottom + 1.3 * em, TEXT_SMALL, ANCHOR_LEFT, "fret");
}

static void draw_channel(struct canvas *canvas, const struct side_frame *f,
			 const struct channel_spec *channel)
{
	double left = side_frame_x(f, channel->from_mm), right = side_frame_x(f, channel->to_mm);
	double floor_z = side_frame_z(f, channel->depth_mm), face = side_frame_z(f, 0.0);

	if (!(channel->width_mm > 0.0))
		return;
	cairo_move_to(canvas->pen, left, face);
	cairo_line_to(canvas->pen, left, floor_z);
	cairo_line_to(canvas->pen, right, floor_z);
	cairo_line_to(canvas->pen, right, face);
	pen_stroke(canvas, LINE_HIDDEN);
}

static void draw_keep_outs(struct canvas *canvas, const struct side_frame *f,
			   const struct fixture *fixture)
{
	for (size_t i = 0; i < fixture->keep_out_count; i++) {
		const struct place *place = &fixture->keep_out[i];
		double left = side_frame_x(f, place->x_from_mm);
		double right = side_frame_x(f, place->x_to_mm);
		double top = side_frame_z(f, place->top_mm);
		marks_keep_out(canvas, left, top, right - left, f->bottom - top);
	}
}

void side_parts_marks(struct canvas *canvas, const struct side_frame *f,
		      const struct side_view *view)
{
	const struct straight_edge *s = view->lanes.straight;
	const struct vec3 *zero = &view->job->fixture.work_zero_mm;

	draw_channel(canvas, f, &view->job->neck.channel);
	marks_span(canvas, side_frame_x(f, s->from_mm),
		   side_frame_z(f, s->from_z_mm) + STRAIGHT_UNDER_MM, side_frame_x(f, s->to_mm),
		   side_frame_z(f, s->to_z_mm) + STRAIGHT_UNDER_MM, LINE_STRAIGHT);
	draw_keep_outs(canvas, f, &view->job->fixture);
	marks_zero(canvas, side_frame_x(f, zero->x), side_frame_z(f, zero->z));
}
