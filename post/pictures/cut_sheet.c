/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/cut_sheet.h"

#include <math.h>
#include <stdio.h>

#include "pictures/map.h"
#include "pictures/plan_parts.h"
#include "pictures/ruler.h"
#include "pictures/scale.h"

#define CAPTION_LINE_MM 3.6
#define TICK_STEP_MM 100.0
#define RULER_ROOM_MM 44.0

struct cut_passes cut_sheet_passes(const struct cut_sheet *sheet)
{
	struct cut_passes passes = { sheet->program_count, sheet->program, sheet->cut_count,
				     sheet->touched, map_extent_none() };

	if (sheet->blank)
		map_extent_add(&passes.blank, sheet->blank);
	for (size_t i = 0; !sheet->blank && i < sheet->cut_count; i++)
		map_extent_add(&passes.blank, &sheet->cut[i]);
	return passes;
}

double cut_sheet_height_mm(const struct cut_sheet *sheet)
{
	struct cut_passes passes = cut_sheet_passes(sheet);

	return cut_layout_of(&passes).height_mm;
}

static double deepest_bite_mm(const struct cut_sheet *sheet)
{
	double most = 0.0;

	for (size_t p = 0; p < sheet->program_count; p++)
		for (size_t i = 0; i < sheet->program[p].pass_count; i++)
			most = fmax(most, sheet->program[p].pass[i].deepest_bite_mm);
	return most;
}

struct cut_range cut_sheet_range(const struct cut_sheet *sheet)
{
	double most = NAN, bite = deepest_bite_mm(sheet);

	for (size_t i = 0; i < sheet->cut_count; i++)
		most = fmax(most, map_most(&sheet->cut[i]));
	double wanted = bite > 0.0 ? fmin(most, bite) : most;
	if (!(wanted > 0.0))
		return (struct cut_range){ 1.0, false };
	double full = scale_ceiling(wanted, scale_step(wanted, 10));
	return (struct cut_range){ full, most > full };
}

static void draw_caption(struct canvas *canvas, double x, double y, size_t number,
			 const struct pass_figures *pass)
{
	char text[96], level[NUMBER_MAX], minutes[NUMBER_MAX];
	double base = y + CAPTION_LINE_MM - 0.9;

	(void)snprintf(text, sizeof text, "%zu", number);
	pen_text(canvas, x, base, TEXT_STRONG, ANCHOR_LEFT, text);
	double after = x + pen_text_width_mm(canvas, TEXT_STRONG, text) + 1.6;
	pen_text(canvas, after, base, TEXT_BODY, ANCHOR_LEFT, pass_kind_name(pass->kind));
	(void)snprintf(text, sizeof text, "z %s mm  \xc2\xb7  %s min",
		       scale_number(level, pass->level_mm, 2),
		       scale_number(minutes, pass->minutes, 1));
	pen_text(canvas, x, base + CAPTION_LINE_MM, TEXT_SMALL, ANCHOR_LEFT, text);
}

/* Bare ticks every 100 mm, the nut's twice as long. */
static void draw_ticks(struct canvas *canvas, const struct map_view *view, double y)
{
	int first = (int)ceil(view->part.x_from_mm / TICK_STEP_MM);
	int last = (int)floor(view->part.x_to_mm / TICK_STEP_MM);

	pen_line(canvas, view->left_mm, y, view->left_mm + map_view_width_mm(view), y, LINE_TICK);
	for (int i = first; i <= last; i++) {
		double at = map_view_x_mm(view, i * TICK_STEP_MM);
		pen_line(canvas, at, y, at, y + (i == 0 ? 2.0 : 1.0), LINE_TICK);
	}
}

/* What is under a map: an axis, or for a part its two ends in words. */
static void draw_under(struct canvas *canvas, const struct cut_layout *l,
		       const struct map_view *view, bool whole)
{
	double y = view->top_mm + map_view_height_mm(view) + 0.4;
	char text[2 * NUMBER_MAX + 16], from[NUMBER_MAX], to[NUMBER_MAX];

	if (whole && cut_layout_has_axes(l)) {
		double span = view->part.x_to_mm - view->part.x_from_mm;
		struct map_axis axis = {
			view->part.x_from_mm, view->part.x_to_mm,
			view->left_mm,	      view->left_mm + map_view_width_mm(view),
			scale_step(span, 12), "x from the nut, mm"
		};
		scale_axis_below(canvas, &axis, y);
		return;
	}
	draw_ticks(canvas, view, y);
	if (whole)
		return;
	(void)snprintf(text, sizeof text, "x %s to %s mm",
		       scale_number(from, view->part.x_from_mm, 0),
		       scale_number(to, view->part.x_to_mm, 0));
	pen_text(canvas, view->left_mm, y + 3.4, TEXT_SMALL, ANCHOR_LEFT, text);
}

struct map_view cut_sheet_view(const struct cut_layout *layout, const struct cut_place *place)
{
	return (struct map_view){ place->part, canvas_snap_mm(place->left_mm),
				  canvas_snap_mm(place->top_mm + cut_layout_caption_mm()),
				  layout->scale };
}

struct drawing {
	struct canvas *canvas;
	const struct cut_sheet *sheet;
	struct cut_layout layout;
	struct cut_range range;
};

static enum fault draw_pass(const struct drawing *d, const struct cut_place *place, size_t pass,
			    const struct pass_figures *figures, struct fault_list *faults)
{
	const struct map_look look = { .pick = MAP_PICK_MOST,
				       .full = d->range.full_mm,
				       .pale_zero = true,
				       .there = d->sheet->blank };
	struct map_view view = cut_sheet_view(&d->layout, place);
	enum fault code = map_draw(d->canvas, &d->sheet->cut[pass], &view, &look, faults);

	if (d->sheet->lines)
		plan_parts_outline(d->canvas, &view, d->sheet->lines, d->sheet->flats_from_mm);
	draw_caption(d->canvas, view.left_mm, place->top_mm, pass + 1, figures);
	draw_under(d->canvas, &d->layout, &view, place->whole);
	return code;
}

static void draw_heading(struct canvas *canvas, const struct program_figures *program, double y)
{
	char text[192], ball[NUMBER_MAX], minutes[NUMBER_MAX];

	(void)snprintf(text, sizeof text, "%s  \xc2\xb7  ball %s mm  \xc2\xb7  %s min",
		       program->file, scale_number(ball, program->ball_diameter_mm, 2),
		       scale_number(minutes, program->minutes, 1));
	pen_text_fit(canvas, CANVAS_MARGIN_MM, y + 3.6, TEXT_HEADING,
		     CANVAS_WIDTH_MM - 2.0 * CANVAS_MARGIN_MM, text);
}

static void draw_key(struct canvas *canvas, const struct cut_layout *l, double y,
		     struct cut_range range)
{
	double bar = 92.0, x = CANVAS_MARGIN_MM, right = x + bar + 22.0;

	scale_colour_bar(canvas, x, y, bar, range.full_mm, range.beyond,
			 "depth removed by the pass, mm");
	pen_swatch(canvas, right, y, 7.0, 3.6, palette_colour(PALETTE_PALE_WOOD));
	pen_text(canvas, right + 9.0, y + 2.7, TEXT_SMALL, ANCHOR_LEFT,
		 "wood this pass leaves alone");
	pen_line(canvas, right, y + 6.7, right + 7.0, y + 6.7, LINE_OUTLINE);
	pen_text(canvas, right + 9.0, y + 7.6, TEXT_SMALL, ANCHOR_LEFT,
		 "the finished neck and the flat of its heel");
	if (!cut_layout_has_axes(l))
		pen_text(canvas, right, y + 12.4, TEXT_SMALL, ANCHOR_LEFT,
			 "ticks every 100 mm along x, the long one at the nut");
	ruler_draw(canvas, CANVAS_WIDTH_MM - CANVAS_MARGIN_MM, y - 0.4, l->scale, RULER_ROOM_MM);
}

static void draw_title(struct canvas *canvas, const struct cut_sheet *sheet)
{
	char remark[160], minutes[NUMBER_MAX];
	double sum = 0.0;

	for (size_t p = 0; p < sheet->program_count; p++)
		sum += sheet->program[p].minutes;
	(void)snprintf(remark, sizeof remark,
		       "%zu pass%s in %zu program%s, %s min in all. Every map is seen from above, "
		       "on the neck's back; z is the program's.",
		       sheet->cut_count, sheet->cut_count == 1 ? "" : "es", sheet->program_count,
		       sheet->program_count == 1 ? "" : "s", scale_number(minutes, sum, 1));
	pen_title_block(canvas, &sheet->words, "Cut depth, pass by pass", remark);
}

enum fault cut_sheet_draw(struct canvas *canvas, const struct cut_sheet *sheet,
			  struct fault_list *faults)
{
	struct cut_passes passes = cut_sheet_passes(sheet);
	struct drawing d = { canvas, sheet, cut_layout_of(&passes), cut_sheet_range(sheet) };
	struct cut_cursor at = cut_layout_start();
	struct cut_place place;
	enum fault code = FAULT_NONE;
	size_t count = 0;
	double heading;

	for (size_t p = 0; p < sheet->program_count; p++)
		count += sheet->program[p].pass_count;
	if (count != sheet->cut_count)
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "There are %zu passes but %zu maps of their cuts.", count,
				 sheet->cut_count);
	draw_title(canvas, sheet);
	draw_key(canvas, &d.layout, PEN_TITLE_HEIGHT_MM, d.range);
	while (code == FAULT_NONE && cut_layout_next(&d.layout, &passes, &at, &place, &heading)) {
		const struct program_figures *program = &sheet->program[at.program];
		if (!isnan(heading))
			draw_heading(canvas, program, heading);
		code = draw_pass(&d, &place, at.pass - 1, &program->pass[at.in_program - 1],
				 faults);
	}
	return code;
}
