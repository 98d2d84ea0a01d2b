/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/rounding_drawing.h"

#include <math.h>
#include <stdlib.h>

#include "report/words.h"

#define AROUND_MM 4.0 /* free on all sides, on paper */
#define WORDS_MM 5.0 /* under it */
/* Roughed wood farther out than this is not the neck's, mm. */
#define BESIDE_MM 1.5

/* Between the neck and paper. */
struct frame {
	double centre, face; /* of the paper: centre line, gluing face */
	double scale;
};

static const enum line_kind stage_lines[ROUNDING_STAGES + 1] = { LINE_BLANK, LINE_TICK, LINE_HIDDEN,
								 LINE_STATION };

double rounding_drawing_width_mm(const struct rounding_drawing *drawing)
{
	return 2.0 * AROUND_MM + (drawing->side[SIDE_MINUS].half_breadth_mm +
				  drawing->side[SIDE_PLUS].half_breadth_mm) *
					 drawing->scale;
}

double rounding_drawing_height_mm(const struct rounding_drawing *drawing)
{
	return 2.0 * AROUND_MM + WORDS_MM +
	       fmax(drawing->side[SIDE_MINUS].height_mm, drawing->side[SIDE_PLUS].height_mm) *
		       drawing->scale;
}

static void to(struct canvas *canvas, const struct frame *frame, double y_mm, double z_mm)
{
	cairo_line_to(canvas->pen, frame->centre + y_mm * frame->scale,
		      frame->face - z_mm * frame->scale);
}

static enum fault put_section(struct canvas *canvas, const struct frame *frame,
			      const struct rounding_drawing *drawing, struct fault_list *faults)
{
	const struct neck *neck = drawing->content->neck;
	double base = neck_base_mm(neck, drawing->x_mm);
	size_t count;
	double *y_mm, *z_mm;
	enum fault fault = neck_section(neck, drawing->x_mm, &count, &y_mm, &z_mm, faults);

	if (fault != FAULT_NONE)
		return fault;
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < count; i++)
		to(canvas, frame, y_mm[i], z_mm[i] - base);
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(PALETTE_LIGHT_WOOD));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_FINISHED);
	free(z_mm);
	free(y_mm);
	return FAULT_NONE;
}

/* The router's line at the nearest row of columns. */
static void put_roughed(struct canvas *canvas, const struct frame *frame,
			const struct rounding_drawing *drawing)
{
	const struct column_map *map = &drawing->content->result->roughed;
	double column = round((drawing->x_mm - map->x0_mm) / map->cell_mm);
	double base = neck_base_mm(drawing->content->neck, drawing->x_mm);

	if (!(column >= 0.0 && column < (double)map->nx))
		return;
	for (size_t iy = 0; iy < map->ny; iy++) {
		double y = map->y0_mm + (double)iy * map->cell_mm;
		double z = (double)map->value[iy * map->nx + (size_t)column] - base;
		const struct rounding *side = &drawing->side[y < 0.0 ? SIDE_MINUS : SIDE_PLUS];
		if (isfinite(z) && z > 0.0 && fabs(y) <= side->half_breadth_mm + BESIDE_MM)
			to(canvas, frame, y, z);
	}
	pen_stroke(canvas, LINE_ROUGHED);
}

static void put_side(struct canvas *canvas, const struct frame *frame,
		     const struct rounding *rounding, double sign)
{
	to(canvas, frame, sign * rounding->half_breadth_mm, 0.0);
	to(canvas, frame, sign * rounding->half_breadth_mm, rounding->height_mm);
	to(canvas, frame, 0.0, rounding->height_mm);
	pen_stroke(canvas, stage_lines[0]);
	for (int stage = ROUNDING_STAGES; stage >= 1; stage--) {
		for (int i = 0; i < ROUNDING_FACETS; i++) {
			const struct rounding_facet *facet = &rounding->facet[i];
			if (facet->stage != stage || facet->none)
				continue;
			cairo_new_sub_path(canvas->pen);
			to(canvas, frame, sign * facet->low.y_mm, facet->low.z_mm);
			to(canvas, frame, sign * facet->high.y_mm, facet->high.z_mm);
		}
		pen_stroke(canvas, stage_lines[stage]);
	}
}

static void put_words(struct canvas *canvas, const struct frame *frame,
		      const struct rounding_drawing *drawing)
{
	const struct neck_spec *spec = neck_spec_of(drawing->content->neck);
	double y = frame->face + 3.8;
	double left = frame->centre - drawing->side[SIDE_MINUS].half_breadth_mm * frame->scale;
	double right = frame->centre + drawing->side[SIDE_PLUS].half_breadth_mm * frame->scale;

	pen_text(canvas, left, y, TEXT_SMALL, ANCHOR_LEFT, words_side(spec, SIDE_MINUS));
	pen_text(canvas, frame->centre, y, TEXT_SMALL, ANCHOR_MIDDLE, "gluing face");
	pen_text(canvas, right, y, TEXT_SMALL, ANCHOR_RIGHT, words_side(spec, SIDE_PLUS));
}

enum fault rounding_drawing_put(struct canvas *canvas, const struct rounding_drawing *drawing,
				double left_mm, double top_mm, struct fault_list *faults)
{
	const struct frame frame = {
		.centre = left_mm + AROUND_MM +
			  drawing->side[SIDE_MINUS].half_breadth_mm * drawing->scale,
		.face = top_mm + rounding_drawing_height_mm(drawing) - AROUND_MM - WORDS_MM,
		.scale = drawing->scale
	};
	enum fault fault = put_section(canvas, &frame, drawing, faults);

	if (fault != FAULT_NONE)
		return fault;
	pen_line(canvas, frame.centre, frame.face, frame.centre, top_mm + AROUND_MM - 2.0,
		 LINE_CENTRE);
	put_roughed(canvas, &frame, drawing);
	put_side(canvas, &frame, &drawing->side[SIDE_MINUS], -1.0);
	put_side(canvas, &frame, &drawing->side[SIDE_PLUS], 1.0);
	put_words(canvas, &frame, drawing);
	return FAULT_NONE;
}

void rounding_drawing_legend(struct canvas *canvas, double left_mm, double y_mm)
{
	static const struct {
		enum line_kind line;
		const char *text;
	} items[] = {
		{ LINE_BLANK, "rectangle" },   { LINE_TICK, "1st facets" },
		{ LINE_HIDDEN, "2nd" },	       { LINE_STATION, "3rd" },
		{ LINE_FINISHED, "finished" }, { LINE_ROUGHED, "off the router" },
	};

	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
		pen_line(canvas, left_mm, y_mm, left_mm + 8.0, y_mm, items[i].line);
		pen_text(canvas, left_mm + 9.5, y_mm + 0.9, TEXT_BODY, ANCHOR_LEFT, items[i].text);
		left_mm += 9.5 + pen_text_width_mm(canvas, TEXT_BODY, items[i].text) + 6.0;
	}
}
