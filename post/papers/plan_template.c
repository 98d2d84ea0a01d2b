/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/plan_template.h"

#include <math.h>
#include <stdio.h>

#include "model/joint.h"
#include "pictures/scale.h"
#include "report/words.h"

/* Around the outline, with the frets' numbers below it, mm. */
#define FRET_ROOM_MM 5.0
#define TABLE_GAP_MM 4.0

/* Paper: x as on the neck, y = -across. */

static enum fault sample(struct plan_template *plan, struct fault_list *faults)
{
	static curve_of *const edge[SIDE_COUNT] = { curves_minus_edge_mm, curves_plus_edge_mm };
	static curve_of *const cap[SIDE_COUNT] = { curves_minus_crest_mm, curves_plus_crest_mm };
	const struct neck *neck = plan->neck;
	bool block = neck_spec_of(neck)->heel.kind == HEEL_BLOCK;
	double to = neck_to_mm(neck);
	enum fault fault = FAULT_NONE;

	for (int side = 0; side < SIDE_COUNT && !fault; side++) {
		fault = curves_sample(&plan->edge[side], neck, neck_from_mm(neck), to, edge[side],
				      faults);
		if (!fault && block)
			fault = curves_sample(&plan->cap[side], neck, neck_heel_proper_mm(neck), to,
					      cap[side], faults);
	}
	return fault;
}

/* Where the drawing ends: the neck's joint belongs to it. */
static double end_mm(const struct neck *neck)
{
	struct joint_box box;

	return joint_keep_out(&box, neck_spec_of(neck)) ? box.x_to_mm : neck_to_mm(neck);
}

static double width_at(const struct neck *neck, double x_mm)
{
	return neck_half_breadth_mm(neck, SIDE_MINUS, x_mm, 0.0) +
	       neck_half_breadth_mm(neck, SIDE_PLUS, x_mm, 0.0);
}

static void add_place(struct plan_template *plan, const char *name, double x_mm)
{
	plan->place_count =
		corners_add(plan->place, plan->place_count, name, x_mm, width_at(plan->neck, x_mm));
}

static void find_places(struct plan_template *plan)
{
	const struct neck *neck = plan->neck;
	const struct neck_spec *spec = neck_spec_of(neck);
	double joint = neck_fret_x_mm(neck, spec->joint_fret), proper = neck_heel_proper_mm(neck);
	double transition = spec->peghead.transition_mm;

	add_place(plan, "model ends", neck_from_mm(neck));
	add_place(plan, "flare ends", -transition - spec->peghead.flare_mm);
	add_place(plan, "peghead begins", -transition);
	add_place(plan, "nut's front edge", 0.0);
	add_place(plan, "shaft ends", neck_heel_start_mm(neck));
	add_place(plan, words_heel_place(neck), proper);
	add_place(plan, "body joint", joint);
	add_place(plan, "neck's end", neck_to_mm(neck));
}

static void write_remark(struct plan_template *plan)
{
	double angle = neck_spec_of(plan->neck)->peghead.angle_rad;
	char degrees[NUMBER_MAX], share[NUMBER_MAX], rest[160] = "";

	if (angle > 0.0)
		(void)snprintf(rest, sizeof rest,
			       " The peghead leans %s\xc2\xb0: along its face, lengths are %s "
			       "times those shown.",
			       scale_number(degrees, units_deg_from_rad(angle), 1),
			       scale_number(share, 1.0 / cos(angle), 4));
	(void)snprintf(
		plan->remark, sizeof plan->remark,
		"Finished edges seen from the back; cut along the middle of the thin outline. "
		"Widths are those of the wood at the gluing face.%s",
		rest);
}

enum fault plan_template_build(struct plan_template *out, const struct paper_content *content,
			       struct sheet_area area, struct fault_list *faults)
{
	double length = end_mm(content->neck) - neck_from_mm(content->neck);
	bool right = neck_spec_of(content->neck)->hand == HAND_RIGHT;

	*out = (struct plan_template){ .neck = content->neck,
				       .minus_side = right ? "treble" : "bass",
				       .plus_side = right ? "bass" : "treble" };
	enum fault fault = sample(out, faults);
	if (fault)
		return fault;
	for (size_t i = 0; i < out->edge[SIDE_PLUS].count; i++)
		out->half_width_mm =
			fmax(out->half_width_mm, fmax(out->edge[SIDE_PLUS].value_mm[i],
						      out->edge[SIDE_MINUS].value_mm[i]));
	find_places(out);
	out->table = (struct corner_table){ out->place_count, out->place, 1, "width", 1 };
	corners_table_fit(&out->table, tiles_first_width_mm(length + 2.0 * CORNERS_REACH_MM, area) -
					       CORNERS_REACH_MM);
	write_remark(out);
	return FAULT_NONE;
}

void plan_template_free(struct plan_template *plan)
{
	if (!plan)
		return;
	for (int side = 0; side < SIDE_COUNT; side++) {
		curves_free(&plan->edge[side]);
		curves_free(&plan->cap[side]);
	}
}

static void trace_pair(struct canvas *canvas, const struct curve_points pair[SIDE_COUNT],
		       enum line_kind line)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < pair[SIDE_PLUS].count; i++)
		cairo_line_to(canvas->pen, pair[SIDE_PLUS].x_mm[i], -pair[SIDE_PLUS].value_mm[i]);
	for (size_t i = pair[SIDE_MINUS].count; i-- > 0;)
		cairo_line_to(canvas->pen, pair[SIDE_MINUS].x_mm[i], pair[SIDE_MINUS].value_mm[i]);
	cairo_close_path(canvas->pen);
	pen_stroke(canvas, line);
}

/* A line across the wood at x. */
static void draw_across(struct canvas *canvas, const struct neck *neck, double x_mm,
			enum line_kind line)
{
	pen_line(canvas, x_mm, -curves_plus_edge_mm(neck, x_mm), x_mm,
		 curves_minus_edge_mm(neck, x_mm), line);
}

static void draw_frets(struct canvas *canvas, const struct plan_template *plan)
{
	const struct neck *neck = plan->neck;

	for (int fret = 1; fret <= neck_spec_of(neck)->fret_count; fret++) {
		double x = neck_fret_x_mm(neck, fret);
		char number[NUMBER_MAX];
		if (x > neck_to_mm(neck))
			break;
		draw_across(canvas, neck, x, LINE_FRAME);
		pen_text(canvas, x, curves_minus_edge_mm(neck, x) + 3.6, TEXT_SMALL, ANCHOR_MIDDLE,
			 scale_fret(number, fret));
	}
}

static void draw_channel(struct canvas *canvas, const struct plan_template *plan)
{
	const struct channel_spec *channel = &neck_spec_of(plan->neck)->channel;

	if (channel->width_mm <= 0.0)
		return;
	cairo_rectangle(canvas->pen, channel->from_mm, -channel->width_mm / 2.0,
			channel->to_mm - channel->from_mm, channel->width_mm);
	pen_stroke(canvas, LINE_HIDDEN);
}

static void draw_joint(struct canvas *canvas, const struct plan_template *plan)
{
	struct joint_box box;

	if (!joint_keep_out(&box, neck_spec_of(plan->neck)))
		return;
	cairo_rectangle(canvas->pen, box.x_from_mm, -box.y_to_mm, box.x_to_mm - box.x_from_mm,
			box.y_to_mm - box.y_from_mm);
	pen_stroke(canvas, LINE_HIDDEN);
}

static void draw_places(struct canvas *canvas, const struct plan_template *plan)
{
	for (size_t i = 0; i < plan->place_count; i++) {
		double x = plan->place[i].along_mm;
		if (i > 0 && i + 1 < plan->place_count) /* the ends are lines already */
			draw_across(canvas, plan->neck, x, x == 0.0 ? LINE_TICK : LINE_STATION);
		corners_number(canvas, x, -curves_plus_edge_mm(plan->neck, x), 0.0, -1.0, i + 1);
	}
}

static void draw_sides(struct canvas *canvas, const struct plan_template *plan)
{
	double x = neck_from_mm(plan->neck) - 1.6, half = plan->half_width_mm / 2.0;

	pen_text_upward(canvas, x, -half, TEXT_SMALL, plan->plus_side);
	pen_text_upward(canvas, x, half, TEXT_SMALL, plan->minus_side);
}

static void draw_plan(struct canvas *canvas, const void *context)
{
	const struct plan_template *plan = context;
	double from = neck_from_mm(plan->neck);

	pen_line(canvas, from - 5.0, 0.0, end_mm(plan->neck) + 5.0, 0.0, LINE_CENTRE);
	draw_channel(canvas, plan);
	draw_joint(canvas, plan);
	draw_frets(canvas, plan);
	draw_places(canvas, plan);
	if (plan->cap[SIDE_PLUS].count > 0)
		trace_pair(canvas, plan->cap, LINE_HIDDEN);
	trace_pair(canvas, plan->edge, LINE_CUT);
	draw_sides(canvas, plan);
	corners_table(canvas, from, plan->half_width_mm + FRET_ROOM_MM + TABLE_GAP_MM,
		      &plan->table);
}

struct tile_drawing plan_template_drawing(const struct plan_template *plan)
{
	return (struct tile_drawing){
		.title = "Plan of the neck",
		.remark = plan->remark,
		.left_mm = neck_from_mm(plan->neck) - CORNERS_REACH_MM,
		.top_mm = -plan->half_width_mm - CORNERS_REACH_MM,
		.right_mm = end_mm(plan->neck) + CORNERS_REACH_MM,
		.bottom_mm = plan->half_width_mm + FRET_ROOM_MM + TABLE_GAP_MM +
			     corners_table_height_mm(&plan->table),
		.draw = draw_plan,
		.context = plan,
	};
}
