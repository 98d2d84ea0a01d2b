/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_drawing.h"

#include <math.h>
#include <stdio.h>

#include "papers/setup_labels.h"
#include "papers/setup_parts.h"
#include "pictures/marks.h"
#include "pictures/ruler.h"
#include "pictures/scale.h"
#include "report/words.h"

#define LEFT_MM 15.0 /* upright axis */
#define RIGHT_MM 3.0
#define LEGEND_MM 7.0
#define CAPTION_MM 9.5 /* and labels above the view */
#define AXIS_MM 12.0
#define ARROW_MM 16.0
#define HEAD_MM 2.0
#define AXIS_PARTS 12
#define RULER_ROOM_MM 110.0

/* An arrow from (x, y) on paper; its words stand beyond the head. */
static void put_arrow(struct canvas *canvas, double x, double y, double length, bool upward,
		      const char *words)
{
	double tip_x = x + (upward ? 0.0 : length), tip_y = y - (upward ? length : 0.0);
	double wing = HEAD_MM * 0.4;

	pen_line(canvas, x, y, tip_x, tip_y, LINE_STRAIGHT);
	cairo_move_to(canvas->pen, tip_x, tip_y);
	cairo_line_to(canvas->pen, tip_x - (upward ? wing : HEAD_MM),
		      tip_y + (upward ? HEAD_MM : wing));
	cairo_line_to(canvas->pen, tip_x + (upward ? wing : -HEAD_MM),
		      tip_y + (upward ? HEAD_MM : -wing));
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(PALETTE_INK));
	cairo_fill(canvas->pen);
	pen_text_on_map(canvas, tip_x + (upward ? 1.2 : 1.5), tip_y + (upward ? 1.6 : 0.9),
			TEXT_STRONG, ANCHOR_LEFT, words);
}

static void put_zero(struct canvas *canvas, const struct setup_view *view, bool plan)
{
	const struct job *job = view->content->job;
	struct vec3 zero = job->fixture.work_zero_mm;
	double x = setup_at_x(view, zero.x), y = setup_at_up(view, plan ? zero.y : zero.z);
	char words[64];

	(void)snprintf(words, sizeof words, "y: %s", words_side(&job->neck, SIDE_PLUS));
	double room = y - setup_at_up(view, view->to_up);

	put_arrow(canvas, x, y, ARROW_MM, false, "x: toward the body");
	put_arrow(canvas, x, y, fmin(fmax(room, ARROW_MM / 2.0), ARROW_MM), true,
		  plan ? words : "z: up");
	marks_zero(canvas, x, y);
}

static void put_axes(struct canvas *canvas, const struct setup_view *view, bool plan)
{
	struct vec3 zero = view->content->job->fixture.work_zero_mm;
	double up_zero = plan ? zero.y : zero.z;
	double width = view->to_x - view->from_x, height = view->to_up - view->from_up;
	const struct map_axis across = {
		view->from_x - zero.x,		view->to_x - zero.x,
		setup_at_x(view, view->from_x), setup_at_x(view, view->to_x),
		scale_step(width, AXIS_PARTS),	"x from program zero, mm"
	};
	const struct map_axis up = { view->from_up - up_zero,
				     view->to_up - up_zero,
				     setup_at_up(view, view->from_up),
				     setup_at_up(view, view->to_up),
				     scale_step(height, 5),
				     plan ? "y, mm" : "z, mm" };

	scale_axis_below(canvas, &across, view->bottom + (plan ? 1.0 : 1.0 + SETUP_BED_MM));
	scale_axis_left(canvas, &up, view->left - 1.0);
}

static void put_caption(struct canvas *canvas, const struct setup_view *view, const char *name)
{
	char text[160], number[NUMBER_MAX];
	double per_mm = view->per_mm;

	(void)snprintf(text, sizeof text, "%s, 1 : %s", name,
		       scale_number(number, per_mm, per_mm == round(per_mm) ? 0 : 1));
	pen_text(canvas, view->left - LEFT_MM, setup_at_up(view, view->to_up) - 4.6, TEXT_HEADING,
		 ANCHOR_LEFT, text);
}

static void put_plan(struct canvas *canvas, const struct setup_view *view)
{
	struct setup_labels labels = { 0 };

	put_caption(canvas, view, "From above");
	setup_blank_plan(canvas, view);
	setup_neck_plan(canvas, view);
	setup_riser(canvas, view, true);
	setup_fretboard(canvas, view, true);
	setup_moves_bounds(canvas, view, true);
	setup_keep_outs(canvas, view, &labels, true);
	setup_holds(canvas, view, &labels);
	put_zero(canvas, view, true);
	put_axes(canvas, view, true);
}

static void put_side(struct canvas *canvas, const struct setup_view *view)
{
	struct setup_labels labels = { 0 };
	struct setup_box moves = setup_moves_on_neck(view->content);
	char text[96], number[NUMBER_MAX], inch[NUMBER_MAX];
	double safe = moves.most.z - view->content->job->fixture.work_zero_mm.z;

	/* x runs to the right, so the eye is at -y. */
	(void)snprintf(text, sizeof text, "From the %s",
		       words_side(&view->content->job->neck, SIDE_MINUS));
	put_caption(canvas, view, text);
	setup_bed(canvas, view);
	setup_riser(canvas, view, false);
	setup_blank_side(canvas, view);
	setup_neck_side(canvas, view);
	setup_fretboard(canvas, view, false);
	setup_moves_bounds(canvas, view, false);
	setup_keep_outs(canvas, view, &labels, false);
	(void)snprintf(text, sizeof text, "safe height z %s mm (%s in)",
		       scale_number(number, safe, 2),
		       scale_number(inch, units_inch_from_mm(safe), 3));
	pen_text(canvas, setup_at_x(view, moves.most.x), setup_at_up(view, moves.most.z) - 1.0,
		 TEXT_SMALL, ANCHOR_RIGHT, text);
	put_zero(canvas, view, false);
	put_axes(canvas, view, false);
}

static void put_legend(struct canvas *canvas, double x, double y)
{
	static const struct {
		enum line_kind line;
		const char *text;
	} items[] = {
		{ LINE_BLANK, "blank" },
		{ LINE_FINISHED, "finished neck" },
		{ LINE_HIDDEN, "riser underneath" },
		{ LINE_HOLD, "H held down" },
		{ LINE_ALLOWANCE, "bounds of the tip's moves" },
	};

	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
		pen_line(canvas, x, y, x + 9.0, y, items[i].line);
		pen_text(canvas, x + 10.5, y + 0.9, TEXT_BODY, ANCHOR_LEFT, items[i].text);
		x += 10.5 + pen_text_width_mm(canvas, TEXT_BODY, items[i].text) + 5.0;
	}
	marks_keep_out(canvas, x, y - 1.6, 8.0, 3.2);
	pen_text(canvas, x + 9.5, y + 0.9, TEXT_BODY, ANCHOR_LEFT, "K keep out");
	x += 9.5 + pen_text_width_mm(canvas, TEXT_BODY, "K keep out") + 8.0;
	marks_zero(canvas, x, y);
	pen_text(canvas, x + 4.5, y + 0.9, TEXT_BODY, ANCHOR_LEFT, "program zero");
}

struct setup_drawing setup_drawing_of(const struct paper_content *content,
				      const struct neck_lines *lines, double width_mm,
				      double height_mm)
{
	static const double scales[] = { 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0 };
	struct setup_drawing drawing = { content, lines, setup_extent(content), 20.0 };
	struct vec3 size = vec3_sub(drawing.extent.most, drawing.extent.least);
	double wide = width_mm - LEFT_MM - RIGHT_MM;
	double high = height_mm - LEGEND_MM - 2.0 * (CAPTION_MM + AXIS_MM) - SETUP_BED_MM -
		      RULER_HEIGHT_MM;

	for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++) {
		if (size.x / scales[i] > wide || (size.y + size.z) / scales[i] > high)
			continue;
		drawing.per_mm = scales[i];
		break;
	}
	return drawing;
}

void setup_drawing_put(struct canvas *canvas, const struct setup_drawing *drawing,
		       const struct sheet_area *area)
{
	struct vec3 least = drawing->extent.least, most = drawing->extent.most;
	struct setup_view view = { .content = drawing->content,
				   .lines = drawing->lines,
				   .per_mm = drawing->per_mm,
				   .left = area->left + LEFT_MM,
				   .from_x = least.x,
				   .to_x = most.x,
				   .from_up = least.y,
				   .to_up = most.y };

	put_legend(canvas, area->left, area->top + LEGEND_MM / 2.0);
	view.bottom = area->top + LEGEND_MM + CAPTION_MM + (most.y - least.y) / drawing->per_mm;
	put_plan(canvas, &view);
	view.bottom += AXIS_MM + CAPTION_MM + (most.z - least.z) / drawing->per_mm;
	view.from_up = least.z;
	view.to_up = most.z;
	put_side(canvas, &view);
	ruler_draw(canvas, setup_at_x(&view, most.x), view.bottom + SETUP_BED_MM + AXIS_MM,
		   1.0 / drawing->per_mm, RULER_ROOM_MM);
}
