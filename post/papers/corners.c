/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/corners.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "base/units.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

#define RING_MM 2.2
#define NUMBER_OFF_MM 4.4
#define ROW_MM 3.9
#define HEAD_ROWS 2
#define NUMBER_COLUMN_MM 7.0
#define NAME_COLUMN_MM 26.0
#define FIGURE_COLUMN_MM 12.6
#define BLOCK_GAP_MM 6.0
#define FIGURE_COLUMNS 4

size_t corners_add(struct corner *list, size_t count, const char *name, double along_mm,
		   double across_mm)
{
	size_t at = count;

	for (size_t i = 0; i < count; i++)
		if (fabs(list[i].along_mm - along_mm) < CORNERS_NEAR_MM)
			return count;
	for (; at > 0 && list[at - 1].along_mm > along_mm; at--)
		list[at] = list[at - 1];
	list[at] = (struct corner){ name, along_mm, across_mm };
	return count + 1;
}

void corners_number(struct canvas *canvas, double x_mm, double y_mm, double dx, double dy,
		    size_t number)
{
	double length = hypot(dx, dy);
	char text[24];

	if (length > 0.0) {
		x_mm += NUMBER_OFF_MM * dx / length;
		y_mm += NUMBER_OFF_MM * dy / length;
	}
	(void)snprintf(text, sizeof text, "%zu", number);
	cairo_new_sub_path(canvas->pen);
	cairo_arc(canvas->pen, x_mm, y_mm, RING_MM, 0.0, 2.0 * PI);
	pen_stroke(canvas, LINE_FRAME);
	pen_text(canvas, x_mm, y_mm + 0.9, TEXT_SMALL, ANCHOR_MIDDLE, text);
}

static bool has_names(const struct corner_table *table)
{
	for (size_t i = 0; i < table->count; i++)
		if (table->corner[i].name[0])
			return true;
	return false;
}

static size_t rows_of(const struct corner_table *table)
{
	return (table->count + table->blocks - 1) / table->blocks;
}

static double block_width_mm(const struct corner_table *table)
{
	return NUMBER_COLUMN_MM + (has_names(table) ? NAME_COLUMN_MM : 0.0) +
	       FIGURE_COLUMNS * FIGURE_COLUMN_MM;
}

double corners_table_height_mm(const struct corner_table *table)
{
	return ROW_MM * (double)(HEAD_ROWS + rows_of(table)) + 2.0;
}

double corners_table_width_mm(const struct corner_table *table)
{
	return (double)table->blocks * (block_width_mm(table) + BLOCK_GAP_MM) - BLOCK_GAP_MM;
}

void corners_table_fit(struct corner_table *table, double width_mm)
{
	table->blocks = 2;
	if (corners_table_width_mm(table) > width_mm)
		table->blocks = 1;
}

/* Right edge of figure column i, from the block's left. */
static double figure_at(const struct corner_table *table, int i)
{
	return block_width_mm(table) - (FIGURE_COLUMNS - 1 - i) * FIGURE_COLUMN_MM;
}

static void draw_head(struct canvas *canvas, double x, double y, const struct corner_table *table)
{
	static const char *const units[FIGURE_COLUMNS] = { "mm", "in", "mm", "in" };

	pen_text(canvas, x + figure_at(table, 1), y + ROW_MM - 1.0, TEXT_SMALL, ANCHOR_RIGHT,
		 "from the nut");
	pen_text(canvas, x + figure_at(table, 3), y + ROW_MM - 1.0, TEXT_SMALL, ANCHOR_RIGHT,
		 table->across_head);
	for (int i = 0; i < FIGURE_COLUMNS; i++)
		pen_text(canvas, x + figure_at(table, i), y + 2.0 * ROW_MM - 1.0, TEXT_SMALL,
			 ANCHOR_RIGHT, units[i]);
	pen_line(canvas, x, y + HEAD_ROWS * ROW_MM, x + block_width_mm(table),
		 y + HEAD_ROWS * ROW_MM, LINE_RULE);
}

static void draw_figures(struct canvas *canvas, double x, double y, double length_mm)
{
	char text[NUMBER_MAX];

	if (isnan(length_mm))
		return;
	pen_text(canvas, x, y, TEXT_BODY, ANCHOR_RIGHT, scale_number(text, length_mm, 2));
	pen_text(canvas, x + FIGURE_COLUMN_MM, y, TEXT_BODY, ANCHOR_RIGHT,
		 scale_number(text, units_inch_from_mm(length_mm), 3));
}

void corners_table(struct canvas *canvas, double x_mm, double y_mm,
		   const struct corner_table *table)
{
	size_t rows = rows_of(table);

	for (size_t i = 0; i < table->count; i++) {
		size_t block = i / rows;
		double x = x_mm + (double)block * (block_width_mm(table) + BLOCK_GAP_MM);
		double y = y_mm + ROW_MM * (double)(HEAD_ROWS + 1 + i % rows);
		char number[24];
		if (i % rows == 0)
			draw_head(canvas, x, y_mm, table);
		(void)snprintf(number, sizeof number, "%zu", table->first_number + i);
		pen_text(canvas, x + NUMBER_COLUMN_MM - 3.0, y, TEXT_BODY, ANCHOR_RIGHT, number);
		pen_text_fit(canvas, x + NUMBER_COLUMN_MM, y, TEXT_BODY, NAME_COLUMN_MM,
			     table->corner[i].name);
		draw_figures(canvas, x + figure_at(table, 0), y, table->corner[i].along_mm);
		draw_figures(canvas, x + figure_at(table, 2), y, table->corner[i].across_mm);
	}
}
