/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/plan_table.h"

#include "base/units.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

#define LINE_STEP_MM 4.2
#define HEAD_MM 9.0
#define NOTE_MM 6.0
#define FIRST_MM 44.0 /* right end of the first figure, from the margin */
#define PAIR_MM 44.0 /* from pair to pair of mm and inches */
#define INCH_MM 17.0 /* from mm to inches */
#define COLUMNS 5

double plan_table_height_mm(size_t row_count)
{
	return HEAD_MM + (double)row_count * LINE_STEP_MM + NOTE_MM;
}

static double end_of(size_t column)
{
	return CANVAS_MARGIN_MM + FIRST_MM + (double)column * PAIR_MM;
}

static void draw_heads(struct canvas *canvas, double y)
{
	static const char *const heads[COLUMNS] = { "x from the nut", "fretboard",
						    "at the gluing face", "flat on the back",
						    "blank" };

	pen_text(canvas, CANVAS_MARGIN_MM, y + 4.2, TEXT_SMALL, ANCHOR_LEFT, "place");
	for (size_t c = 0; c < COLUMNS; c++) {
		pen_text(canvas, end_of(c) + INCH_MM, y, TEXT_SMALL, ANCHOR_RIGHT, heads[c]);
		pen_text(canvas, end_of(c), y + 4.2, TEXT_SMALL, ANCHOR_RIGHT, "mm");
		pen_text(canvas, end_of(c) + INCH_MM, y + 4.2, TEXT_SMALL, ANCHOR_RIGHT, "in");
	}
	pen_line(canvas, CANVAS_MARGIN_MM, y + 5.4, CANVAS_WIDTH_MM - CANVAS_MARGIN_MM, y + 5.4,
		 LINE_RULE);
}

static void draw_row(struct canvas *canvas, const struct plan_row *row, double y)
{
	const double figures[COLUMNS] = { row->x_mm, row->board_mm, row->edge_mm, row->flat_mm,
					  row->blank_mm };
	char text[NUMBER_MAX];

	pen_text(canvas, CANVAS_MARGIN_MM, y, TEXT_STRONG, ANCHOR_LEFT, row->name);
	for (size_t c = 0; c < COLUMNS; c++) {
		pen_text(canvas, end_of(c), y, TEXT_BODY, ANCHOR_RIGHT,
			 scale_number(text, figures[c], 2));
		pen_text(canvas, end_of(c) + INCH_MM, y, TEXT_BODY, ANCHOR_RIGHT,
			 scale_number(text, units_inch_from_mm(figures[c]), 3));
	}
}

void plan_table_draw(struct canvas *canvas, size_t row_count, const struct plan_row *row,
		     double y_mm)
{
	double y = y_mm + 3.0;

	draw_heads(canvas, y);
	y += HEAD_MM;
	for (size_t i = 0; i < row_count; i++)
		draw_row(canvas, &row[i], y + (double)i * LINE_STEP_MM);
	pen_text(
		canvas, CANVAS_MARGIN_MM, y + (double)row_count * LINE_STEP_MM + 1.0, TEXT_SMALL,
		ANCHOR_LEFT,
		"Full widths, both sides together. The finished neck is widest at the gluing face; "
		"in front of the nut that is the peghead's face.");
}
