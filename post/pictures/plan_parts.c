/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/plan_parts.h"

#include <math.h>
#include <stdbool.h>

#include "pictures/marks.h"
#include "pictures/scale.h"

#define FRET_STROKE_MM 1.3 /* on paper: a fret lies underneath, its ends show */
#define RAIL_STEP_MM 4.0 /* of a rail's edge, on the neck */
#define STRAIGHT_INSIDE_MM 2.4 /* on paper, clear of the frets' ends */

/* Adds (x, y) of the neck to the path. */
static void to(struct canvas *canvas, const struct map_view *view, double x_mm, double y_mm)
{
	cairo_line_to(canvas->pen, map_view_x_mm(view, x_mm), map_view_y_mm(view, y_mm));
}

static void add_blank(struct canvas *canvas, const struct map_view *view, const struct blank *blank)
{
	const struct outline *plus = blank_side(blank, BLANK_PLUS);
	const struct outline *minus = blank_side(blank, BLANK_MINUS);

	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < plus->count; i++)
		to(canvas, view, plus->x_mm[i], plus->value_mm[i]);
	for (size_t i = minus->count; i-- > 0;)
		to(canvas, view, minus->x_mm[i], -minus->value_mm[i]);
	cairo_close_path(canvas->pen);
}

static void add_edges(struct canvas *canvas, const struct map_view *view,
		      const struct neck_lines *lines)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < lines->count; i++)
		to(canvas, view, lines->x_mm[i], lines->edge_mm[SIDE_PLUS][i]);
	for (size_t i = lines->count; i-- > 0;)
		to(canvas, view, lines->x_mm[i], -lines->edge_mm[SIDE_MINUS][i]);
	cairo_close_path(canvas->pen);
}

/* Adds the flats from x on to the path, each as a closed outline. */
static void add_flats(struct canvas *canvas, const struct map_view *view,
		      const struct neck_lines *lines, double from_mm)
{
	size_t first = 0;

	cairo_new_path(canvas->pen);
	for (size_t i = 0; i <= lines->count; i++) {
		bool flat = i < lines->count && lines->x_mm[i] >= from_mm &&
			    lines->flat_mm[SIDE_MINUS][i] > 0.0 &&
			    lines->flat_mm[SIDE_PLUS][i] > 0.0;
		if (flat)
			continue;
		cairo_new_sub_path(canvas->pen);
		for (size_t k = first; k < i; k++)
			to(canvas, view, lines->x_mm[k], lines->flat_mm[SIDE_PLUS][k]);
		for (size_t k = i; k-- > first;)
			to(canvas, view, lines->x_mm[k], -lines->flat_mm[SIDE_MINUS][k]);
		if (i > first)
			cairo_close_path(canvas->pen);
		first = i + 1;
	}
}

/* The neck's edge on one side at x. */
static double edge_at(const struct neck_lines *lines, int side, double x)
{
	size_t i = 1;

	while (i + 1 < lines->count && lines->x_mm[i] < x)
		i++;
	double run = lines->x_mm[i] - lines->x_mm[i - 1];
	double share = run > 0.0 ? fmin(fmax((x - lines->x_mm[i - 1]) / run, 0.0), 1.0) : 0.0;
	return lines->edge_mm[side][i - 1] +
	       share * (lines->edge_mm[side][i] - lines->edge_mm[side][i - 1]);
}

/* What stays beside the neck: a rail from its channel out to the blank's side, as
 * wood that stands, and the tabs across the channel. */
static void draw_rail(struct canvas *canvas, const struct map_view *view,
		      const struct plan_view *plan, int side)
{
	const struct beside_figures *beside = plan->lanes.beside;
	const struct outline *wood = blank_side(&plan->job->blank, (enum blank_side)side);
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, off = beside->channel_mm;
	double from = beside->rail_from_mm[side], end = beside->rail_to_mm[side];

	off += job_most_stock_mm(plan->job);
	for (int k = 0; from + k * RAIL_STEP_MM < end; k++) {
		double x = from + k * RAIL_STEP_MM;
		to(canvas, view, x, sign * (edge_at(plan->lines, side, x) + off));
	}
	to(canvas, view, end, sign * (edge_at(plan->lines, side, end) + off));
	to(canvas, view, end, sign * outline_value_mm(wood, end));
	for (size_t i = wood->count; i-- > 0;)
		if (wood->x_mm[i] > from && wood->x_mm[i] < end)
			to(canvas, view, wood->x_mm[i], sign * wood->value_mm[i]);
	to(canvas, view, from, sign * outline_value_mm(wood, from));
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(PALETTE_LIGHT_WOOD));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_ROUGHED);
}

static void draw_tab(struct canvas *canvas, const struct map_view *view, const struct tab *tab)
{
	double near = tab->side * tab->inner_mm, far = tab->side * tab->outer_mm;
	double left = map_view_x_mm(view, tab->x_mm - tab->width_mm / 2.0);
	double top = map_view_y_mm(view, fmax(near, far));

	cairo_rectangle(canvas->pen, left, top, tab->width_mm * view->scale,
			fabs(far - near) * view->scale);
	canvas_colour(canvas, palette_colour(PALETTE_LIGHT_WOOD));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_ROUGHED);
}

static void draw_beside(struct canvas *canvas, const struct map_view *view,
			const struct plan_view *plan)
{
	const struct beside_figures *beside = plan->lanes.beside;

	for (int side = 0; beside && side < 2; side++)
		if (beside->channel_mm > 0.0 && isfinite(beside->rail_from_mm[side]))
			draw_rail(canvas, view, plan, side);
	for (size_t i = 0; beside && i < beside->tab_count; i++)
		draw_tab(canvas, view, &beside->tab[i].tab);
}

void plan_parts_wood(struct canvas *canvas, const struct map_view *view,
		     const struct plan_view *plan)
{
	add_blank(canvas, view, &plan->job->blank);
	canvas_colour(canvas, palette_colour(PALETTE_PALE_WOOD));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_BLANK);
	draw_beside(canvas, view, plan);
	add_edges(canvas, view, plan->lines);
	canvas_colour(canvas, palette_colour(PALETTE_WOOD));
	cairo_fill(canvas->pen);
	add_flats(canvas, view, plan->lines, -INFINITY);
	canvas_colour(canvas, palette_colour(PALETTE_LIGHT_WOOD));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_OUTLINE);
	add_edges(canvas, view, plan->lines);
	pen_stroke(canvas, LINE_FINISHED);
}

/* The board's edge at x: straight between nut and last fret. */
static double board_half_mm(const struct plan_view *plan, double x)
{
	double end = plan->fret_x_mm[plan->fret_count];
	double share = end > 0.0 ? x / end : 0.0;

	return (plan->board_nut_mm + share * (plan->board_end_mm - plan->board_nut_mm)) / 2.0;
}

static void draw_fret(struct canvas *canvas, const struct map_view *view,
		      const struct plan_view *plan, size_t fret)
{
	double x_mm = plan->fret_x_mm[fret], half = board_half_mm(plan, x_mm);
	double x = map_view_x_mm(view, x_mm);

	for (int sign = -1; sign <= 1; sign += 2) {
		double y = map_view_y_mm(view, sign * half);
		double in = fret == 0 ? map_view_y_mm(view, 0.0) : y + sign * FRET_STROKE_MM;
		pen_line(canvas, x, y, x, in, LINE_BOARD);
	}
}

void plan_parts_board(struct canvas *canvas, const struct map_view *view,
		      const struct plan_view *plan, double base)
{
	double end = fmin(plan->fret_x_mm[plan->fret_count], view->part.x_to_mm);
	double em = pen_text_size_mm(TEXT_SMALL), free_from = -INFINITY;
	char text[NUMBER_MAX];

	for (int sign = -1; sign <= 1; sign += 2) {
		to(canvas, view, 0.0, sign * board_half_mm(plan, 0.0));
		to(canvas, view, end, sign * board_half_mm(plan, end));
		pen_stroke(canvas, LINE_BOARD);
	}
	for (size_t fret = 0; fret <= plan->fret_count; fret++) {
		double x = map_view_x_mm(view, plan->fret_x_mm[fret]);
		if (plan->fret_x_mm[fret] > end + 0.01)
			break;
		draw_fret(canvas, view, plan, fret);
		double half =
			pen_text_width_mm(canvas, TEXT_SMALL, scale_fret(text, (double)fret)) / 2.0;
		if (x - half < free_from)
			continue;
		pen_text(canvas, x, base, TEXT_SMALL, ANCHOR_MIDDLE, text);
		free_from = x + half + 0.3 * em;
	}
	pen_text(canvas, CANVAS_MARGIN_MM, base, TEXT_SMALL, ANCHOR_LEFT, "fret");
}

static void draw_channel(struct canvas *canvas, const struct map_view *view,
			 const struct channel_spec *channel)
{
	double half = channel->width_mm / 2.0;

	if (!(channel->width_mm > 0.0))
		return;
	to(canvas, view, channel->from_mm, half);
	to(canvas, view, channel->to_mm, half);
	to(canvas, view, channel->to_mm, -half);
	to(canvas, view, channel->from_mm, -half);
	cairo_close_path(canvas->pen);
	pen_stroke(canvas, LINE_HIDDEN);
}

void plan_parts_places(struct canvas *canvas, const struct map_view *view,
		       const struct plan_view *plan)
{
	const struct fixture *fixture = &plan->job->fixture;

	for (size_t i = 0; i < fixture->keep_out_count + fixture->hold_count; i++) {
		bool out = i < fixture->keep_out_count;
		const struct place *p = out ? &fixture->keep_out[i]
					    : &fixture->hold[i - fixture->keep_out_count];
		double left = map_view_x_mm(view, p->x_from_mm);
		double top = map_view_y_mm(view, p->y_to_mm);
		double width = (p->x_to_mm - p->x_from_mm) * view->scale;
		double height = (p->y_to_mm - p->y_from_mm) * view->scale;
		if (out && p->shape == PLACE_CYLINDER) {
			marks_keep_out_round(canvas, left, top, width);
			continue;
		}
		if (out) {
			marks_keep_out(canvas, left, top, width, height);
			continue;
		}
		cairo_rectangle(canvas->pen, left, top, width, height);
		pen_stroke(canvas, LINE_HOLD);
	}
	marks_zero(canvas, map_view_x_mm(view, fixture->work_zero_mm.x),
		   map_view_y_mm(view, fixture->work_zero_mm.y));
}

/* Lines on which a straight edge is laid: the centre, and along the edges just
 * inside of them, where they can be told from the edges. */
static void draw_straight(struct canvas *canvas, const struct map_view *view,
			  const struct plan_view *plan)
{
	const struct straight_edge *s = plan->lanes.straight;
	double from = map_view_x_mm(view, s->from_mm), end = map_view_x_mm(view, s->to_mm);

	for (int sign = -1; sign <= 1; sign++) {
		double a = sign * board_half_mm(plan, s->from_mm);
		double b = sign * board_half_mm(plan, s->to_mm), in = sign * STRAIGHT_INSIDE_MM;
		marks_span(canvas, from, map_view_y_mm(view, a) + in, end,
			   map_view_y_mm(view, b) + in, LINE_STRAIGHT);
	}
}

static void draw_heel(struct canvas *canvas, const struct map_view *view,
		      const struct plan_view *plan)
{
	const struct neck_marks *m = plan->lanes.marks;
	const double places[] = { m->heel_start_mm, m->heel_proper_mm, m->joint_mm };

	for (size_t i = 0; i < 3; i++) {
		double x = map_view_x_mm(view, places[i]), half = board_half_mm(plan, places[i]);
		pen_line(canvas, x, map_view_y_mm(view, half), x, map_view_y_mm(view, -half),
			 LINE_FRAME);
	}
}

void plan_parts_marks(struct canvas *canvas, const struct map_view *view,
		      const struct plan_view *plan)
{
	draw_channel(canvas, view, &plan->job->neck.channel);
	draw_heel(canvas, view, plan);
	draw_straight(canvas, view, plan);
}

void plan_parts_outline(struct canvas *canvas, const struct map_view *view,
			const struct neck_lines *lines, double flats_from_mm)
{
	cairo_save(canvas->pen);
	cairo_rectangle(canvas->pen, view->left_mm, view->top_mm, map_view_width_mm(view),
			map_view_height_mm(view));
	cairo_clip(canvas->pen);
	add_edges(canvas, view, lines);
	pen_stroke(canvas, LINE_OUTLINE);
	add_flats(canvas, view, lines, flats_from_mm);
	pen_stroke(canvas, LINE_OUTLINE);
	cairo_restore(canvas->pen);
}
