/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_parts.h"

#include <math.h>

#include "model/fretboard.h"
#include "pictures/marks.h"
#include "pictures/pen.h"

double setup_at_x(const struct setup_view *view, double x_mm)
{
	return view->left + (x_mm - view->from_x) / view->per_mm;
}

double setup_at_up(const struct setup_view *view, double up_mm)
{
	return view->bottom - (up_mm - view->from_up) / view->per_mm;
}

static void to(struct canvas *canvas, const struct setup_view *view, double x_mm, double up_mm)
{
	cairo_line_to(canvas->pen, setup_at_x(view, x_mm), setup_at_up(view, up_mm));
}

static struct sheet_area rectangle(const struct setup_view *view, double x_from, double x_to,
				   double up_from, double up_to)
{
	return (struct sheet_area){ setup_at_x(view, x_from), setup_at_up(view, up_to),
				    setup_at_x(view, x_to), setup_at_up(view, up_from) };
}

static void add_rectangle(struct canvas *canvas, const struct sheet_area *r)
{
	cairo_rectangle(canvas->pen, r->left, r->top, r->right - r->left, r->bottom - r->top);
}

/* Strokes and fills the path, if a colour is given. */
static void finish(struct canvas *canvas, enum palette_name fill, enum line_kind line)
{
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(fill));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, line);
}

void setup_blank_plan(struct canvas *canvas, const struct setup_view *view)
{
	const struct blank *blank = &view->content->job->blank;
	const struct outline *plus = blank_side(blank, BLANK_PLUS);
	const struct outline *minus = blank_side(blank, BLANK_MINUS);

	for (size_t i = 0; i < plus->count; i++)
		to(canvas, view, plus->x_mm[i], plus->value_mm[i]);
	for (size_t i = minus->count; i-- > 0;)
		to(canvas, view, minus->x_mm[i], -minus->value_mm[i]);
	finish(canvas, PALETTE_PALE_WOOD, LINE_BLANK);
}

void setup_neck_plan(struct canvas *canvas, const struct setup_view *view)
{
	const struct neck_lines *lines = view->lines;

	for (size_t i = 0; i < lines->count; i++)
		to(canvas, view, lines->x_mm[i], lines->edge_mm[SIDE_PLUS][i]);
	for (size_t i = lines->count; i-- > 0;)
		to(canvas, view, lines->x_mm[i], -lines->edge_mm[SIDE_MINUS][i]);
	finish(canvas, PALETTE_LIGHT_WOOD, LINE_FINISHED);
}

void setup_blank_side(struct canvas *canvas, const struct setup_view *view)
{
	const struct blank *blank = &view->content->job->blank;

	for (size_t i = 0; i < blank->top.count; i++)
		to(canvas, view, blank->top.x_mm[i], blank->top.value_mm[i]);
	for (size_t i = blank->bottom.count; i-- > 0;)
		to(canvas, view, blank->bottom.x_mm[i], blank->bottom.value_mm[i]);
	finish(canvas, PALETTE_PALE_WOOD, LINE_BLANK);
}

void setup_neck_side(struct canvas *canvas, const struct setup_view *view)
{
	const struct profile_line *crest = &view->content->result->finished_side;
	const struct neck *neck = view->content->neck;

	for (size_t i = 0; i < crest->count; i++)
		if (isfinite(crest->z_mm[i]))
			to(canvas, view, crest->x_mm[i], crest->z_mm[i]);
	for (size_t i = crest->count; i-- > 0;)
		if (isfinite(crest->z_mm[i]))
			to(canvas, view, crest->x_mm[i], neck_base_mm(neck, crest->x_mm[i]));
	finish(canvas, PALETTE_LIGHT_WOOD, LINE_FINISHED);
}

void setup_riser(struct canvas *canvas, const struct setup_view *view, bool plan)
{
	const struct fixture *fixture = &view->content->job->fixture;
	double half = fixture->riser_width_mm / 2.0;

	if (!(fixture->riser_height_mm > 0.0))
		return;
	struct sheet_area r = rectangle(view, fixture->riser_from_mm, fixture->riser_to_mm,
					plan ? -half : setup_bed_mm(view->content->job),
					plan ? half : job_rest_mm(view->content->job));
	add_rectangle(canvas, &r);
	pen_stroke(canvas, plan ? LINE_HIDDEN : LINE_BOARD);
}

void setup_fretboard(struct canvas *canvas, const struct setup_view *view, bool plan)
{
	const struct job *job = view->content->job;
	struct fretboard board = fretboard_of(&job->neck, job->fixture.fretboard.overhang_mm);

	if (!job->fixture.fretboard.glued)
		return;
	to(canvas, view, board.x_from_mm, plan ? -board.half_from_mm : board.face_mm);
	to(canvas, view, board.x_to_mm, plan ? -board.half_to_mm : board.face_mm);
	to(canvas, view, board.x_to_mm, plan ? board.half_to_mm : 0.0);
	to(canvas, view, board.x_from_mm, plan ? board.half_from_mm : 0.0);
	cairo_close_path(canvas->pen);
	pen_stroke(canvas, plan ? LINE_HIDDEN : LINE_BOARD);
}

/* The bed's surface with slanting strokes under it. */
void setup_bed(struct canvas *canvas, const struct setup_view *view)
{
	double y = setup_at_up(view, setup_bed_mm(view->content->job));
	double left = setup_at_x(view, view->from_x), right = setup_at_x(view, view->to_x);

	int strokes = (int)((right - left) / SETUP_BED_MM);

	for (int i = 1; i <= strokes; i++) {
		double x = left + i * SETUP_BED_MM;
		cairo_move_to(canvas->pen, x, y);
		cairo_line_to(canvas->pen, x - SETUP_BED_MM * 0.7, y + SETUP_BED_MM * 0.7);
	}
	pen_stroke(canvas, LINE_SLANT);
	pen_line(canvas, left, y, right, y, LINE_STRAIGHT);
}

void setup_keep_outs(struct canvas *canvas, const struct setup_view *view,
		     struct setup_labels *labels, bool plan)
{
	const struct fixture *fixture = &view->content->job->fixture;
	double bed = setup_bed_mm(view->content->job);

	for (int words = 0; words < 2; words++)
		for (size_t i = 0; i < fixture->keep_out_count; i++) {
			const struct place *p = &fixture->keep_out[i];
			struct sheet_area r = rectangle(view, p->x_from_mm, p->x_to_mm,
							plan ? p->y_from_mm : bed,
							plan ? p->y_to_mm : p->top_mm);
			char text[SETUP_LABEL_ROOM];
			setup_label(text, true, i);
			if (words)
				setup_label_put(labels, canvas, &r, text);
			else if (plan && p->shape == PLACE_CYLINDER)
				marks_keep_out_round(canvas, r.left, r.top, r.right - r.left);
			else
				marks_keep_out(canvas, r.left, r.top, r.right - r.left,
					       r.bottom - r.top);
		}
}

void setup_holds(struct canvas *canvas, const struct setup_view *view, struct setup_labels *labels)
{
	const struct fixture *fixture = &view->content->job->fixture;

	for (size_t i = 0; i < fixture->hold_count; i++) {
		const struct place *p = &fixture->hold[i];
		struct sheet_area r =
			rectangle(view, p->x_from_mm, p->x_to_mm, p->y_from_mm, p->y_to_mm);
		char text[SETUP_LABEL_ROOM];
		setup_label(text, false, i);
		add_rectangle(canvas, &r);
		pen_stroke(canvas, LINE_HOLD);
		setup_label_put(labels, canvas, &r, text);
	}
}

void setup_moves_bounds(struct canvas *canvas, const struct setup_view *view, bool plan)
{
	struct setup_box moves = setup_moves_on_neck(view->content);
	struct sheet_area r = rectangle(view, moves.least.x, moves.most.x,
					plan ? moves.least.y : moves.least.z,
					plan ? moves.most.y : moves.most.z);

	add_rectangle(canvas, &r);
	pen_stroke(canvas, LINE_ALLOWANCE);
}
