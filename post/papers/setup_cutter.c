/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_cutter.h"

#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "papers/flow.h"
#include "pictures/marks.h"
#include "pictures/scale.h"

#define CAPTION_MM 5.0
#define BELOW_MM 6.0
#define WORDS_MM 44.0 /* left of the cutter */
#define NAME_LINES_MM 7.2 /* a name with its diameter below */
#define LENGTH_LINES_MM 10.5 /* a name with its length in mm and in inches */
#define PART_DRAWN_MM 25.0
#define SPAN_MM 13.0 /* from one line of lengths to the next */

struct cutter_frame {
	double axis, tip; /* of the paper */
	double per_mm; /* mm of the cutter for each mm on paper */
	double half; /* widest half-width on paper */
	double words_end, lengths_end; /* above here names and lengths are free to stand */
};

static double up(const struct cutter_frame *frame, double height_mm)
{
	return frame->tip - height_mm / frame->per_mm;
}

static void put_body(struct canvas *canvas, const struct cutter_frame *frame, double diameter_mm,
		     double from_mm, double to_mm, enum palette_name fill)
{
	double half = diameter_mm / 2.0 / frame->per_mm;

	cairo_rectangle(canvas->pen, frame->axis - half, up(frame, to_mm), 2.0 * half,
			(to_mm - from_mm) / frame->per_mm);
	canvas_colour(canvas, palette_colour(fill));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_STRAIGHT);
}

/* The cutting part: a ball with its cylinder above. */
static void put_flutes(struct canvas *canvas, const struct cutter_frame *frame,
		       const struct cutter *cutter)
{
	double radius = cutter_radius_mm(cutter) / frame->per_mm;
	double ball_y = frame->tip - radius, top = up(frame, cutter->flute_length_mm);

	cairo_move_to(canvas->pen, frame->axis - radius, top);
	cairo_line_to(canvas->pen, frame->axis - radius, ball_y);
	cairo_arc_negative(canvas->pen, frame->axis, ball_y, radius, PI, 0.0);
	cairo_line_to(canvas->pen, frame->axis + radius, top);
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(PALETTE_RULE));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_FINISHED);
}

/* A height from the tip beside the cutter, at the nth place on the right. */
static void put_length(struct canvas *canvas, struct cutter_frame *frame, int place, double from_mm,
		       double to_mm, const char *name)
{
	double x = frame->axis + frame->half + 4.0 + place * SPAN_MM;
	double middle = (up(frame, from_mm) + up(frame, to_mm)) / 2.0;
	double y = place == 0 ? middle : fmin(middle, frame->lengths_end - LENGTH_LINES_MM);
	char text[FLOW_CELL_ROOM], inch[FLOW_CELL_ROOM];

	frame->lengths_end = place == 0 ? frame->lengths_end : y;
	marks_span(canvas, x, up(frame, from_mm), x, up(frame, to_mm), LINE_TICK);
	flow_mm(text, to_mm - from_mm);
	flow_inch(inch, to_mm - from_mm);
	pen_text(canvas, x + 1.6, y - 2.6, TEXT_SMALL, ANCHOR_LEFT, name);
	pen_text(canvas, x + 1.6, y + 0.9, TEXT_STRONG, ANCHOR_LEFT, text);
	pen_text(canvas, x + 1.6, y + 4.4, TEXT_SMALL, ANCHOR_LEFT, inch);
}

/* A diameter with a leader from the left; to be put from the tip upward, for
 * each keeps above the last. */
static void put_diameter(struct canvas *canvas, struct cutter_frame *frame, double left,
			 double diameter_mm, double at_mm, const char *name)
{
	double edge = frame->axis - diameter_mm / 2.0 / frame->per_mm, at = up(frame, at_mm);
	double y = fmin(at, frame->words_end - NAME_LINES_MM);
	char text[2 * FLOW_CELL_ROOM], both[FLOW_CELL_ROOM];

	flow_both(both, diameter_mm);
	(void)snprintf(text, sizeof text, "\xc3\x98 %s", both);
	pen_text(canvas, left, y - 1.0, TEXT_SMALL, ANCHOR_LEFT, name);
	pen_text(canvas, left, y + 2.7, TEXT_STRONG, ANCHOR_LEFT, text);
	pen_line(canvas, left + pen_text_width_mm(canvas, TEXT_STRONG, text) + 1.0, y + 1.8, edge,
		 at + 1.8, LINE_TICK);
	frame->words_end = y;
}

/* Of a part above the holder so much is drawn. */
static double drawn_mm(const struct holder_part *part)
{
	return fmin(part->length_mm, PART_DRAWN_MM);
}

/* Tip to the upper end of all that is drawn, and the widest of it. */
static double tool_length_mm(const struct cutter *cutter)
{
	double long_mm = cutter->stickout_mm + cutter->holder_length_mm;

	for (size_t i = 0; i < cutter->part_count; i++)
		long_mm += drawn_mm(&cutter->part[i]);
	return long_mm;
}

static double tool_width_mm(const struct cutter *cutter)
{
	double wide_mm = fmax(cutter->holder_diameter_mm,
			      fmax(cutter->ball_diameter_mm, cutter->shank_diameter_mm));

	for (size_t i = 0; i < cutter->part_count; i++)
		wide_mm = fmax(wide_mm, cutter->part[i].diameter_mm);
	return wide_mm;
}

/* What stands above the holder, each with its diameter. */
static void put_parts(struct canvas *canvas, struct cutter_frame *frame,
		      const struct cutter *cutter, double left)
{
	double from = cutter->stickout_mm + cutter->holder_length_mm;

	for (size_t i = 0; i < cutter->part_count; i++) {
		const struct holder_part *part = &cutter->part[i];
		double to = from + drawn_mm(part);
		char name[64], number[NUMBER_MAX];
		(void)snprintf(name, sizeof name, "%s, %s mm long",
			       i == 0 ? "above the holder" : "above that",
			       scale_number(number, part->length_mm, 1));
		put_body(canvas, frame, part->diameter_mm, from, to, PALETTE_PALE_WOOD);
		put_diameter(canvas, frame, left, part->diameter_mm, (from + to) / 2.0, name);
		from = to;
	}
}

static struct cutter_frame frame_of(const struct cutter *cutter, const struct sheet_area *area)
{
	static const double scales[] = { 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0 };
	double long_mm = tool_length_mm(cutter), wide_mm = tool_width_mm(cutter);
	double high = area->bottom - area->top - CAPTION_MM - BELOW_MM;
	double wide = area->right - area->left - WORDS_MM - 4.0 - 2.0 * SPAN_MM - 4.0;
	struct cutter_frame frame = { .per_mm = 10.0 };

	for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++) {
		if (long_mm / scales[i] > high || wide_mm / scales[i] > wide)
			continue;
		frame.per_mm = scales[i];
		break;
	}
	frame.half = wide_mm / 2.0 / frame.per_mm;
	frame.axis = area->left + WORDS_MM + frame.half;
	frame.words_end = frame.lengths_end = area->bottom + NAME_LINES_MM + LENGTH_LINES_MM;
	double names = cutter->part_count > 0 ? 3.0 + (double)cutter->part_count : 0.0;
	frame.tip = area->top + CAPTION_MM + fmax(long_mm / frame.per_mm, names * NAME_LINES_MM);
	return frame;
}

static void put_scale(struct canvas *canvas, const struct cutter_frame *frame,
		      const struct sheet_area *area)
{
	char text[64], number[NUMBER_MAX];

	if (frame->per_mm < 1.0)
		(void)snprintf(text, sizeof text, "Drawn %s : 1",
			       scale_number(number, 1.0 / frame->per_mm, 0));
	else
		(void)snprintf(text, sizeof text, "Drawn 1 : %s",
			       scale_number(number, frame->per_mm,
					    frame->per_mm == round(frame->per_mm) ? 0 : 1));
	pen_text(canvas, area->left, area->top + 2.6, TEXT_SMALL, ANCHOR_LEFT, text);
}

void setup_cutter_put(struct canvas *canvas, const struct cutter *cutter,
		      const struct sheet_area *area)
{
	struct cutter_frame frame = frame_of(cutter, area);
	double stickout = cutter->stickout_mm, holder = stickout + cutter->holder_length_mm;

	put_scale(canvas, &frame, area);
	put_body(canvas, &frame, cutter->shank_diameter_mm, cutter->flute_length_mm, stickout,
		 PALETTE_PALE_WOOD);
	put_flutes(canvas, &frame, cutter);
	put_body(canvas, &frame, cutter->holder_diameter_mm, stickout, holder, PALETTE_WOOD);
	put_diameter(canvas, &frame, area->left, cutter->ball_diameter_mm, cutter_radius_mm(cutter),
		     "ball");
	put_diameter(canvas, &frame, area->left, cutter->shank_diameter_mm,
		     (cutter->flute_length_mm + stickout) / 2.0, "shank");
	put_diameter(canvas, &frame, area->left, cutter->holder_diameter_mm,
		     (stickout + holder) / 2.0, "holder");
	put_parts(canvas, &frame, cutter, area->left);
	put_length(canvas, &frame, 0, 0.0, cutter->flute_length_mm, "flutes");
	put_length(canvas, &frame, 1, 0.0, stickout, "stickout");
	put_length(canvas, &frame, 1, stickout, holder, "holder");
}
