/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/blank_outline.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "papers/corners.h"
#include "papers/curves.h"
#include "papers/tiles.h"
#include "report/words.h"

#define CORNERS_MAX (2 * BLANK_POINTS_MAX)
/* Between drawing and table, mm. */
#define TABLE_GAP_MM 4.0

/* One closed outline and what is drawn in it. Paper y is -across. */
struct outline_sheet {
	size_t count;
	struct corner corner[CORNERS_MAX]; /* round the outline, as it is sawn */
	struct corner_table table;
	double least_mm, most_mm; /* of what is drawn across */
	bool centre; /* draw the line across 0 */
	struct curve_points upper, lower; /* the finished neck */
	double lower_sign; /* of its values, drawn across */
};

static void trace(struct canvas *canvas, const struct outline_sheet *sheet)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < sheet->count; i++)
		cairo_line_to(canvas->pen, sheet->corner[i].along_mm, -sheet->corner[i].across_mm);
	cairo_close_path(canvas->pen);
	pen_stroke(canvas, LINE_CUT);
}

static void trace_curve(struct canvas *canvas, const struct curve_points *curve, double sign)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < curve->count; i++)
		cairo_line_to(canvas->pen, curve->x_mm[i], -sign * curve->value_mm[i]);
	pen_stroke(canvas, LINE_STATION);
}

/* Unit normal to the left of the way from a to b, on paper's axes with y up:
 * the outline runs clockwise there, so it points outward. */
static void add_outward(const struct corner *a, const struct corner *b, double *dx, double *dy)
{
	double x = b->along_mm - a->along_mm, y = b->across_mm - a->across_mm;
	double length = hypot(x, y);

	if (length <= 0.0)
		return;
	*dx += -y / length;
	*dy += x / length;
}

static void number_corners(struct canvas *canvas, const struct outline_sheet *sheet)
{
	for (size_t i = 0; i < sheet->count; i++) {
		const struct corner *at = &sheet->corner[i];
		double dx = 0.0, dy = 0.0;
		add_outward(&sheet->corner[(i + sheet->count - 1) % sheet->count], at, &dx, &dy);
		add_outward(at, &sheet->corner[(i + 1) % sheet->count], &dx, &dy);
		corners_number(canvas, at->along_mm, -at->across_mm, dx, -dy, i + 1);
	}
}

/* x of the end toward the body. */
static double end_mm(const struct outline_sheet *sheet)
{
	double to = sheet->corner[0].along_mm;

	for (size_t i = 0; i < sheet->count; i++)
		to = fmax(to, sheet->corner[i].along_mm);
	return to;
}

static void draw_outline(struct canvas *canvas, const void *context)
{
	const struct outline_sheet *sheet = context;
	double from = sheet->corner[0].along_mm;

	trace_curve(canvas, &sheet->upper, 1.0);
	trace_curve(canvas, &sheet->lower, sheet->lower_sign);
	/* a corner at the nut has its number below */
	pen_line(canvas, 0.0, -sheet->most_mm - CORNERS_REACH_MM, 0.0, -sheet->least_mm + 1.5,
		 LINE_CENTRE);
	if (sheet->centre)
		pen_line(canvas, from, 0.0, end_mm(sheet), 0.0, LINE_CENTRE);
	pen_text(canvas, 1.0, -sheet->most_mm - CORNERS_REACH_MM + 3.0, TEXT_SMALL, ANCHOR_LEFT,
		 "nut");
	trace(canvas, sheet);
	number_corners(canvas, sheet);
	corners_table(canvas, from, -sheet->least_mm + CORNERS_REACH_MM + TABLE_GAP_MM,
		      &sheet->table);
}

static void finish_table(struct outline_sheet *sheet, const char *head, struct sheet_area area)
{
	double length = end_mm(sheet) - sheet->corner[0].along_mm;

	sheet->table = (struct corner_table){ sheet->count, sheet->corner, 1, head, 1 };
	corners_table_fit(&sheet->table,
			  tiles_first_width_mm(length + 2.0 * CORNERS_REACH_MM, area) -
				  CORNERS_REACH_MM);
	sheet->least_mm = INFINITY;
	sheet->most_mm = -INFINITY;
	for (size_t i = 0; i < sheet->count; i++) {
		sheet->least_mm = fmin(sheet->least_mm, sheet->corner[i].across_mm);
		sheet->most_mm = fmax(sheet->most_mm, sheet->corner[i].across_mm);
	}
}

static void add_corners(struct outline_sheet *sheet, const struct outline *outline, bool back,
			double sign)
{
	for (size_t i = 0; i < outline->count; i++) {
		size_t k = back ? outline->count - 1 - i : i;
		sheet->corner[sheet->count++] =
			(struct corner){ "", outline->x_mm[k], sign * outline->value_mm[k] };
	}
}

static struct tile_drawing drawing_of(const struct outline_sheet *sheet, const char *title,
				      const char *remark)
{
	double from = sheet->corner[0].along_mm;

	return (struct tile_drawing){
		.title = title,
		.remark = remark,
		.left_mm = from - CORNERS_REACH_MM,
		.right_mm = end_mm(sheet) + CORNERS_REACH_MM,
		.top_mm = -sheet->most_mm - CORNERS_REACH_MM,
		.bottom_mm = -sheet->least_mm + CORNERS_REACH_MM + TABLE_GAP_MM +
			     corners_table_height_mm(&sheet->table),
		.draw = draw_outline,
		.context = sheet,
	};
}

static enum fault make_side(struct outline_sheet *out, const struct paper_content *content,
			    struct sheet_area area, struct fault_list *faults)
{
	const struct blank *blank = &content->job->blank;
	const struct neck *neck = content->neck;

	add_corners(out, &blank->top, false, 1.0);
	add_corners(out, &blank->bottom, true, 1.0);
	finish_table(out, "height", area);
	out->lower_sign = 1.0;
	enum fault fault = curves_sample(&out->upper, neck, neck_from_mm(neck), neck_to_mm(neck),
					 neck_crest_mm, faults);
	if (!fault)
		fault = curves_sample(&out->lower, neck, neck_from_mm(neck), neck_to_mm(neck),
				      neck_base_mm, faults);
	return fault;
}

static enum fault make_plan(struct outline_sheet *out, const struct paper_content *content,
			    struct sheet_area area, struct fault_list *faults)
{
	const struct blank *blank = &content->job->blank;
	const struct neck *neck = content->neck;

	add_corners(out, blank_side(blank, BLANK_PLUS), false, 1.0);
	add_corners(out, blank_side(blank, BLANK_MINUS), true, -1.0);
	finish_table(out, "off centre", area);
	out->lower_sign = -1.0;
	out->centre = true;
	enum fault fault = curves_sample(&out->upper, neck, neck_from_mm(neck), neck_to_mm(neck),
					 curves_plus_edge_mm, faults);
	if (!fault)
		fault = curves_sample(&out->lower, neck, neck_from_mm(neck), neck_to_mm(neck),
				      curves_minus_edge_mm, faults);
	return fault;
}

enum fault blank_outline_draw(struct sheet *sheet, const struct paper_content *content,
			      struct fault_list *faults)
{
	struct outline_sheet side = { 0 }, plan = { 0 };
	enum fault fault = make_side(&side, content, sheet_area(sheet), faults);

	if (!fault)
		fault = make_plan(&plan, content, sheet_area(sheet), faults);
	if (!fault) {
		char remark[280], plan_remark[280], margin[WORDS_MARGIN_ROOM];
		words_margin(margin, content->job);
		(void)snprintf(remark, sizeof remark,
			       "What to saw, seen from the %s, back up, %s the line; the under "
			       "side is planed to it, the ends not short. Dots: the finished neck. "
			       "Heights count from the gluing face.",
			       words_side(neck_spec_of(content->neck), SIDE_MINUS), margin);
		(void)snprintf(plan_remark, sizeof plan_remark,
			       "What to saw, seen from the back, %s the line; the ends not "
			       "short. Dots: the finished neck's edges.",
			       margin);
		struct tile_drawing side_drawing = drawing_of(&side, "Blank, side", remark);
		struct tile_drawing plan_drawing = drawing_of(&plan, "Blank, plan", plan_remark);
		struct tile_layout layout = tiles_layout(&side_drawing, sheet_area(sheet));
		plan_drawing.marks_before = tiles_mark_count(&layout);
		sheet->page_count = tiles_page_count(sheet, &side_drawing) +
				    tiles_page_count(sheet, &plan_drawing);
		tiles_draw(sheet, &side_drawing);
		tiles_draw(sheet, &plan_drawing);
	}
	curves_free(&side.upper);
	curves_free(&side.lower);
	curves_free(&plan.upper);
	curves_free(&plan.lower);
	return fault;
}
