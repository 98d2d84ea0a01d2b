/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/cut_sheet.h"

#include <math.h>
#include <stdio.h>

#include "pictures/map.h"
#include "pictures/scale.h"

#define GUTTER_MM 6.0
#define HEADING_MM 7.0 /* a program's line above its passes */
#define CAPTION_LINE_MM 3.6
#define ROW_GAP_MM 4.0
#define AXIS_MM 8.0 /* ticks, figures and label under a wide map */
#define TICKS_MM 2.0 /* ticks alone under a narrow one */
#define TICK_STEP_MM 100.0
#define KEY_MM (SCALE_BAR_HEIGHT_MM + 3.0)

/* Where everything goes; follows from the number of passes alone. */
struct layout {
	struct map_extent part; /* the same for every map */
	int columns;
	double panel_mm; /* width of one map */
	double scale;
	double caption_mm, row_mm;
	bool axes; /* figures under every map */
};

/* Few passes get large maps, sixty still fit side by side in four columns. */
static int column_count(size_t passes)
{
	return passes <= 3 ? 1 : passes <= 12 ? 2 : passes <= 36 ? 3 : 4;
}

static struct layout layout_of(const struct cut_sheet *sheet)
{
	struct layout l = { .part = map_extent_none(), .columns = column_count(sheet->cut_count) };

	for (size_t i = 0; i < sheet->cut_count; i++)
		map_extent_add(&l.part, &sheet->cut[i]);
	if (map_extent_is_none(&l.part))
		l.part = (struct map_extent){ 0.0, 1.0, 0.0, 0.1 };
	l.panel_mm = (CANVAS_WIDTH_MM - 2.0 * CANVAS_MARGIN_MM - (l.columns - 1) * GUTTER_MM) /
		     l.columns;
	l.scale = l.panel_mm / (l.part.x_to_mm - l.part.x_from_mm);
	l.axes = l.columns <= 2;
	l.caption_mm = (l.axes ? 1.0 : 2.0) * CAPTION_LINE_MM + 1.0;
	l.row_mm = l.caption_mm + (l.part.y_to_mm - l.part.y_from_mm) * l.scale +
		   (l.axes ? AXIS_MM : TICKS_MM) + ROW_GAP_MM;
	return l;
}

static size_t row_count(const struct layout *l, size_t passes)
{
	size_t columns = (size_t)l->columns;

	return (passes + columns - 1) / columns;
}

double cut_sheet_height_mm(const struct cut_sheet *sheet)
{
	struct layout l = layout_of(sheet);
	double height = PEN_TITLE_HEIGHT_MM + KEY_MM + PEN_FOOT_HEIGHT_MM;

	for (size_t p = 0; p < sheet->program_count; p++)
		height +=
			HEADING_MM + (double)row_count(&l, sheet->program[p].pass_count) * l.row_mm;
	return height;
}

/* Full of the common colour scale: the deepest cut, rounded up. */
static double full_of(const struct cut_sheet *sheet)
{
	double most = NAN;

	for (size_t i = 0; i < sheet->cut_count; i++)
		most = fmax(most, map_most(&sheet->cut[i]));
	if (!(most > 0.0))
		return 1.0;
	return scale_ceiling(most, scale_step(most, 10));
}

static void draw_caption(struct canvas *canvas, const struct layout *l, double x, double y,
			 size_t number, const struct pass_figures *pass)
{
	char text[96], level[NUMBER_MAX], minutes[NUMBER_MAX];
	double base = y + CAPTION_LINE_MM - 0.9;

	(void)snprintf(text, sizeof text, "%zu", number);
	pen_text(canvas, x, base, TEXT_STRONG, ANCHOR_LEFT, text);
	double after = x + pen_text_width_mm(canvas, TEXT_STRONG, text) + 1.6;
	pen_text_fit(canvas, after, base, TEXT_BODY, x + l->panel_mm - after,
		     pass_kind_name(pass->kind));
	(void)snprintf(text, sizeof text, "z %s mm  \xc2\xb7  %s min",
		       scale_number(level, pass->level_mm, 2),
		       scale_number(minutes, pass->minutes, 1));
	if (l->axes)
		pen_text(canvas, x + l->panel_mm, base, TEXT_SMALL, ANCHOR_RIGHT, text);
	else
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

static enum fault draw_pass(struct canvas *canvas, const struct layout *l, double x, double y,
			    double full, size_t number, const struct pass_figures *pass,
			    const struct column_map *map, struct fault_list *faults)
{
	const struct map_look look = { .pick = MAP_PICK_MOST, .full = full, .pale_zero = true };
	struct map_view view = { l->part, canvas_snap_mm(x), canvas_snap_mm(y + l->caption_mm),
				 l->scale };
	enum fault code = map_draw(canvas, map, &view, &look, faults);

	draw_caption(canvas, l, view.left_mm, y, number, pass);
	double under = view.top_mm + map_view_height_mm(&view) + 0.4;
	if (l->axes) {
		double span = l->part.x_to_mm - l->part.x_from_mm;
		struct map_axis axis = {
			l->part.x_from_mm,    l->part.x_to_mm,
			view.left_mm,	      view.left_mm + map_view_width_mm(&view),
			scale_step(span, 12), "x from the nut, mm"
		};
		scale_axis_below(canvas, &axis, under);
	} else {
		draw_ticks(canvas, &view, under);
	}
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

static void draw_key(struct canvas *canvas, const struct layout *l, double y, double full)
{
	double bar = 110.0, x = CANVAS_MARGIN_MM;
	double right = x + bar + 16.0;

	scale_colour_bar(canvas, x, y, bar, full, false, "depth removed by the pass, mm");
	pen_swatch(canvas, right, y, 7.0, 3.6, palette_colour(PALETTE_PALE_WOOD));
	pen_text(canvas, right + 9.0, y + 2.7, TEXT_SMALL, ANCHOR_LEFT,
		 "wood this pass leaves alone");
	pen_text(canvas, right, y + 7.6, TEXT_SMALL, ANCHOR_LEFT,
		 "equal scale along and across, body end to the right");
	if (!l->axes)
		pen_text(canvas, right, y + 11.2, TEXT_SMALL, ANCHOR_LEFT,
			 "ticks every 100 mm, the long one at the nut (x = 0)");
}

static void draw_title(struct canvas *canvas, const struct cut_sheet *sheet)
{
	char remark[160], minutes[NUMBER_MAX];
	double sum = 0.0;

	for (size_t p = 0; p < sheet->program_count; p++)
		sum += sheet->program[p].minutes;
	(void)snprintf(remark, sizeof remark,
		       "%zu pass%s in %zu program%s, %s min in all. Every map is seen from above, "
		       "on the neck's back.",
		       sheet->cut_count, sheet->cut_count == 1 ? "" : "es", sheet->program_count,
		       sheet->program_count == 1 ? "" : "s", scale_number(minutes, sum, 1));
	pen_title_block(canvas, &sheet->words, "Cut depth, pass by pass", remark);
}

static enum fault draw_program(struct canvas *canvas, const struct cut_sheet *sheet,
			       const struct layout *l, size_t program, size_t first, double top,
			       double full, struct fault_list *faults)
{
	const struct program_figures *figures = &sheet->program[program];

	draw_heading(canvas, figures, top);
	for (size_t i = 0; i < figures->pass_count; i++) {
		size_t column = i % (size_t)l->columns, row = i / (size_t)l->columns;
		double x = CANVAS_MARGIN_MM + (double)column * (l->panel_mm + GUTTER_MM);
		double y = top + HEADING_MM + (double)row * l->row_mm;
		enum fault code = draw_pass(canvas, l, x, y, full, first + i + 1, &figures->pass[i],
					    &sheet->cut[first + i], faults);
		if (code != FAULT_NONE)
			return code;
	}
	return FAULT_NONE;
}

enum fault cut_sheet_draw(struct canvas *canvas, const struct cut_sheet *sheet,
			  struct fault_list *faults)
{
	struct layout l = layout_of(sheet);
	double full = full_of(sheet), y = PEN_TITLE_HEIGHT_MM;
	size_t passes = 0;

	for (size_t p = 0; p < sheet->program_count; p++)
		passes += sheet->program[p].pass_count;
	if (passes != sheet->cut_count)
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "There are %zu passes but %zu maps of their cuts.", passes,
				 sheet->cut_count);
	draw_title(canvas, sheet);
	draw_key(canvas, &l, y, full);
	y += KEY_MM;
	size_t first = 0;
	for (size_t p = 0; p < sheet->program_count; p++) {
		enum fault code = draw_program(canvas, sheet, &l, p, first, y, full, faults);
		if (code != FAULT_NONE)
			return code;
		first += sheet->program[p].pass_count;
		y += HEADING_MM + (double)row_count(&l, sheet->program[p].pass_count) * l.row_mm;
	}
	return FAULT_NONE;
}
