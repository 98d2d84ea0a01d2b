/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/heel_drawing.h"

#include <math.h>
#include <stdio.h>

#include "pictures/scale.h"

/* Numbers of places nearer to each other than this would cover each other. */
#define NUMBERS_APART_MM 6.0

/* What is drawn, and how its mm lie in the drawing. */
struct view {
	struct canvas *canvas;
	double x_mm, y_mm; /* where (from, 0) lies */
	double from_mm;
};

static double at_x(const struct view *view, double along_mm)
{
	return view->x_mm + along_mm - view->from_mm;
}

static double at_y(const struct view *view, double across_mm)
{
	return view->y_mm - across_mm;
}

/* From one curve to the other and back: a closed outline. */
static void trace_between(const struct view *view, const struct curve_points *upper,
			  const struct curve_points *lower)
{
	struct canvas *canvas = view->canvas;

	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < upper->count; i++)
		cairo_line_to(canvas->pen, at_x(view, upper->x_mm[i]),
			      at_y(view, upper->value_mm[i]));
	for (size_t i = lower->count; i-- > 0;)
		cairo_line_to(canvas->pen, at_x(view, lower->x_mm[i]),
			      at_y(view, -lower->value_mm[i]));
	cairo_close_path(canvas->pen);
	pen_stroke(canvas, LINE_CUT);
}

static void draw_hollow_line(const struct view *view, const struct hollow_line *line, double text_x)
{
	struct canvas *canvas = view->canvas;
	char text[64], mm[NUMBER_MAX];

	if (line->count < 2)
		return;
	cairo_new_path(canvas->pen);
	for (size_t i = line->count; i-- > 0;)
		cairo_line_to(canvas->pen, at_x(view, line->x_mm[i]), at_y(view, line->low_mm[i]));
	for (size_t i = 0; i < line->count; i++)
		cairo_line_to(canvas->pen, at_x(view, line->x_mm[i]), at_y(view, line->high_mm[i]));
	pen_stroke(canvas, LINE_HIDDEN);
	size_t last = line->count - 1;
	(void)snprintf(text, sizeof text, "%s mm", scale_number(mm, line->depth_mm, 2));
	pen_text(canvas, text_x, at_y(view, line->high_mm[last]) + 0.9, TEXT_SMALL, ANCHOR_LEFT,
		 text);
	pen_text(canvas, text_x, at_y(view, line->low_mm[last]) + 0.9, TEXT_SMALL, ANCHOR_LEFT,
		 text);
}

/* Rim, half depth and deepest place; the figures stand outside at the body. */
static void draw_hollow(const struct view *view, const struct heel_template *heel)
{
	const struct hollow *hollow = &heel->hollow;
	double x = at_x(view, hollow->deepest_x_mm), y = at_y(view, hollow->deepest_z_mm);
	double text_x = at_x(view, heel_template_end_mm(heel)) + 1.0;
	char text[64], mm[NUMBER_MAX];

	if (hollow->deepest_mm <= 0.0)
		return;
	for (int i = 0; i < HOLLOW_LEVEL_COUNT; i++)
		draw_hollow_line(view, &hollow->line[i], text_x);
	pen_line(view->canvas, x - 1.5, y, x + 1.5, y, LINE_TICK);
	pen_line(view->canvas, x, y - 1.5, x, y + 1.5, LINE_TICK);
	(void)snprintf(text, sizeof text, "%s mm", scale_number(mm, hollow->deepest_mm, 2));
	pen_text(view->canvas, text_x, y - 0.6, TEXT_SMALL, ANCHOR_LEFT, text);
	pen_text(view->canvas, text_x, y + 2.6, TEXT_SMALL, ANCHOR_LEFT, "hollow");
}

/* The joint's box in one view, from one value to another across. */
static void draw_joint(const struct view *view, const struct heel_template *heel, double from_mm,
		       double to_mm, const char *name)
{
	const struct joint_box *joint = &heel->joint;
	double left = at_x(view, joint->x_from_mm), right = at_x(view, joint->x_to_mm);
	double low = at_y(view, from_mm), high = at_y(view, to_mm), edge = right - 1.2;

	if (!heel->joint_name)
		return;
	pen_line(view->canvas, left, high, right, high, LINE_HIDDEN);
	pen_line(view->canvas, right, high, right, low, LINE_HIDDEN);
	pen_line(view->canvas, left, low, right, low, LINE_HIDDEN);
	if (name)
		pen_text_upward(view->canvas, edge, (low + high) / 2.0, TEXT_SMALL, name);
}

/* A dotted line across a view at each of its places but its end, which is a line
 * already, with the number above. */
static void draw_places(const struct view *view, double to_mm, size_t count,
			const struct corner *corner, size_t first_number, const double *top_mm,
			const double *bottom_mm)
{
	for (size_t i = 0; i < count; i++) {
		double x = at_x(view, corner[i].along_mm), top = at_y(view, top_mm[i]);
		double next = i + 1 < count ? corner[i + 1].along_mm - corner[i].along_mm : 0.0;
		double aside = next > 0.0 && next < NUMBERS_APART_MM ? -1.0 : 0.0;
		if (corner[i].along_mm < to_mm)
			pen_line(view->canvas, x, top, x, at_y(view, bottom_mm[i]), LINE_STATION);
		corners_number(view->canvas, x, top, aside, -1.0, first_number + i);
	}
}

static void draw_side(struct canvas *canvas, const struct heel_template *heel)
{
	const struct view view = { canvas, 0.0, 0.0, heel->from_mm };
	double end_x[] = { heel->from_mm, heel->to_mm }, end_z[] = { 0.0, 0.0 };
	const struct curve_points base = { 2, end_x, end_z };
	double top[HEEL_CORNERS_MAX], bottom[HEEL_CORNERS_MAX] = { 0 };

	for (size_t i = 0; i < heel->side_count; i++)
		top[i] = heel->side[i].across_mm;
	draw_places(&view, heel->to_mm, heel->side_count, heel->side, 1, top, bottom);
	draw_hollow(&view, heel);
	draw_joint(&view, heel, heel->joint.z_from_mm, heel->joint.z_to_mm, heel->joint_name);
	trace_between(&view, &heel->crest, &base);
	pen_text(canvas, at_x(&view, heel->from_mm) + 2.0, at_y(&view, 1.2), TEXT_SMALL,
		 ANCHOR_LEFT, "gluing face");
}

/* Value of a curve at x; the places are among its points. */
static double value_at(const struct curve_points *curve, double x_mm)
{
	size_t i = 0;

	while (i + 1 < curve->count && curve->x_mm[i] < x_mm)
		i++;
	return curve->value_mm[i];
}

static void draw_plan(struct canvas *canvas, const struct heel_template *heel)
{
	const struct view view = { canvas, heel->plan_x_mm, heel->plan_y_mm, heel->from_mm };
	double top[HEEL_CORNERS_MAX], bottom[HEEL_CORNERS_MAX], half = heel->half_width_mm;

	for (size_t i = 0; i < heel->plan_count; i++) {
		bool cap = heel->block && i >= 2;
		double x = heel->plan[i].along_mm;
		top[i] = value_at(&(cap ? heel->cap : heel->edge)[SIDE_PLUS], x);
		bottom[i] = -value_at(&(cap ? heel->cap : heel->edge)[SIDE_MINUS], x);
	}
	draw_places(&view, heel->to_mm, heel->plan_count, heel->plan, heel->side_count + 1, top,
		    bottom);
	pen_line(canvas, at_x(&view, heel->from_mm) - 4.0, at_y(&view, 0.0),
		 at_x(&view, heel_template_end_mm(heel)) + 4.0, at_y(&view, 0.0), LINE_CENTRE);
	draw_joint(&view, heel, heel->joint.y_from_mm, heel->joint.y_to_mm, NULL);
	trace_between(&view, &heel->edge[SIDE_PLUS], &heel->edge[SIDE_MINUS]);
	if (heel->block)
		trace_between(&view, &heel->cap[SIDE_PLUS], &heel->cap[SIDE_MINUS]);
	pen_text_upward(canvas, at_x(&view, heel->from_mm) - 1.6, at_y(&view, half / 2.0),
			TEXT_SMALL, heel->plus_side);
	pen_text_upward(canvas, at_x(&view, heel->from_mm) - 1.6, at_y(&view, -half / 2.0),
			TEXT_SMALL, heel->minus_side);
}

static struct corner_table side_table(const struct heel_template *heel)
{
	return (struct corner_table){ heel->side_count, heel->side, 1, "height", 1 };
}

static struct corner_table plan_table(const struct heel_template *heel)
{
	return (struct corner_table){ heel->plan_count, heel->plan, heel->side_count + 1, "width",
				      1 };
}

static double table_top_mm(const struct heel_template *heel)
{
	return fmax(0.0, heel->plan_y_mm + heel->half_width_mm) + HEEL_TABLE_GAP_MM;
}

static void draw_heel(struct canvas *canvas, const void *context)
{
	const struct heel_template *heel = context;
	const struct corner_table side = side_table(heel), plan = plan_table(heel);
	double top = table_top_mm(heel);

	draw_side(canvas, heel);
	draw_plan(canvas, heel);
	corners_table(canvas, 0.0, top, &side);
	corners_table(canvas, corners_table_width_mm(&side) + 8.0, top, &plan);
}

struct tile_drawing heel_drawing(const struct heel_template *heel)
{
	const struct corner_table side = side_table(heel), plan = plan_table(heel);
	double length = heel_template_end_mm(heel) - heel->from_mm;
	double tables = corners_table_width_mm(&side) + 8.0 + corners_table_width_mm(&plan);

	return (struct tile_drawing){
		.title = heel->block   ? "Heel cheek and cap"
			 : heel->tenon ? "Heel tenon"
				       : "Heel slab",
		.remark = heel->remark,
		.left_mm = -HEEL_EDGE_MM,
		.top_mm = -heel->height_mm - HEEL_EDGE_MM,
		.right_mm = fmax(heel->plan_x_mm + length, tables) + HEEL_EDGE_MM,
		.bottom_mm = table_top_mm(heel) +
			     fmax(corners_table_height_mm(&side), corners_table_height_mm(&plan)),
		.draw = draw_heel,
		.context = heel,
	};
}
