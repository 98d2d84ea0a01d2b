/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/tiles.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

/* Where the two marks of a seam lie on its length. */
#define MARK_SHARE 0.12
#define MARK_ARM_MM 4.0
#define MARK_RING_MM 1.8
/* Room for the key at the right of the head, mm. */
#define KEY_WIDTH_MM 52.0
#define KEY_HEIGHT_MM 15.0
#define KEY_GAP_MM 6.0

#define REMARK_ROOM 512

/* So many pieces, each `most` long at most, that overlap. */
static size_t pieces(double length_mm, double most_mm)
{
	if (length_mm <= most_mm)
		return 1;
	return 1 + (size_t)ceil((length_mm - most_mm) / (most_mm - TILES_OVERLAP_MM));
}

static double piece_mm(double length_mm, size_t count)
{
	return (length_mm + (double)(count - 1) * TILES_OVERLAP_MM) / (double)count;
}

struct tile_layout tiles_layout(const struct tile_drawing *drawing, struct sheet_area area)
{
	double width = drawing->right_mm - drawing->left_mm;
	double height = drawing->bottom_mm - drawing->top_mm;
	struct tile_layout layout = { .columns = pieces(width, area.right - area.left),
				      .rows = pieces(height, area.bottom - area.top) };

	layout.width_mm = piece_mm(width, layout.columns);
	layout.height_mm = piece_mm(height, layout.rows);
	layout.step_x_mm = layout.width_mm - TILES_OVERLAP_MM;
	layout.step_y_mm = layout.height_mm - TILES_OVERLAP_MM;
	layout.page_left_mm = (area.left + area.right - layout.width_mm) / 2.0;
	layout.page_top_mm = (area.top + area.bottom - layout.height_mm) / 2.0;
	return layout;
}

double tiles_first_width_mm(double width_mm, struct sheet_area area)
{
	size_t columns = pieces(width_mm, area.right - area.left);
	double piece = piece_mm(width_mm, columns);

	return columns > 1 ? piece - TILES_OVERLAP_MM : piece;
}

size_t tiles_page_count(const struct sheet *sheet, const struct tile_drawing *drawing)
{
	struct tile_layout layout = tiles_layout(drawing, sheet_area(sheet));

	return layout.columns * layout.rows;
}

size_t tiles_mark_count(const struct tile_layout *layout)
{
	return 2 * ((layout->columns - 1) * layout->rows + (layout->rows - 1) * layout->columns);
}

struct tile_mark tiles_mark(const struct tile_layout *layout, const struct tile_drawing *drawing,
			    size_t i)
{
	struct tile_mark mark = { drawing->left_mm, drawing->top_mm, "" };
	size_t beside = 2 * (layout->columns - 1) * layout->rows, seam = i / 2;
	double share = i % 2 == 0 ? MARK_SHARE : 1.0 - MARK_SHARE;

	if (i < beside) {
		size_t c = seam % (layout->columns - 1), r = seam / (layout->columns - 1);
		mark.x_mm += (double)(c + 1) * layout->step_x_mm + TILES_OVERLAP_MM / 2.0;
		mark.y_mm += (double)r * layout->step_y_mm + share * layout->height_mm;
	} else {
		seam -= beside / 2;
		size_t c = seam % layout->columns, r = seam / layout->columns;
		mark.x_mm += (double)c * layout->step_x_mm + share * layout->width_mm;
		mark.y_mm += (double)(r + 1) * layout->step_y_mm + TILES_OVERLAP_MM / 2.0;
	}
	size_t number = drawing->marks_before + i;
	(void)snprintf(mark.letter, sizeof mark.letter, "%c", 'A' + (int)(number % 26));
	if (number >= 26)
		(void)snprintf(mark.letter + 1, sizeof mark.letter - 1, "%d",
			       (int)(number / 26 % 1000));
	return mark;
}

static void draw_mark(struct canvas *canvas, const struct tile_mark *mark)
{
	double x = mark->x_mm, y = mark->y_mm;

	cairo_arc(canvas->pen, x, y, MARK_RING_MM, 0.0, 2.0 * PI);
	pen_stroke(canvas, LINE_TICK);
	pen_line(canvas, x - MARK_ARM_MM, y, x + MARK_ARM_MM, y, LINE_CUT);
	pen_line(canvas, x, y - MARK_ARM_MM, x, y + MARK_ARM_MM, LINE_CUT);
	pen_text(canvas, x + MARK_RING_MM + 0.4, y - 1.0, TEXT_STRONG, ANCHOR_LEFT, mark->letter);
}

/* Where a page is cut (dashed) and where the next one's edge will lie. */
static void draw_seams(struct canvas *canvas, const struct tile_layout *layout, size_t c, size_t r)
{
	double left = layout->page_left_mm, right = left + layout->width_mm;
	double top = layout->page_top_mm, bottom = top + layout->height_mm;

	if (c > 0)
		pen_line(canvas, left, top, left, bottom, LINE_BLANK);
	if (r > 0)
		pen_line(canvas, left, top, right, top, LINE_BLANK);
	if (c + 1 < layout->columns)
		pen_line(canvas, right - TILES_OVERLAP_MM, top, right - TILES_OVERLAP_MM, bottom,
			 LINE_RULE);
	if (r + 1 < layout->rows)
		pen_line(canvas, left, bottom - TILES_OVERLAP_MM, right, bottom - TILES_OVERLAP_MM,
			 LINE_RULE);
}

/* Small picture of how the pages lie, this one filled. */
static void draw_key(const struct sheet *sheet, const struct tile_layout *layout, size_t first,
		     size_t c, size_t r)
{
	struct canvas *canvas = sheet->canvas;
	double scale =
		fmin((KEY_WIDTH_MM - KEY_GAP_MM) / ((double)layout->columns * layout->width_mm),
		     KEY_HEIGHT_MM / ((double)layout->rows * layout->height_mm));
	double width = scale * layout->width_mm, height = scale * layout->height_mm;
	double left = canvas->width_mm - sheet->paper->margin_mm - (double)layout->columns * width;
	double top = sheet->paper->margin_mm;

	for (size_t i = 0; i < layout->columns * layout->rows; i++) {
		size_t column = i % layout->columns, row = i / layout->columns;
		double x = left + (double)column * width, y = top + (double)row * height;
		char number[24];
		if (column == c && row == r)
			pen_swatch(canvas, x, y, width, height, palette_colour(PALETTE_LIGHT_WOOD));
		cairo_rectangle(canvas->pen, x, y, width, height);
		pen_stroke(canvas, LINE_FRAME);
		(void)snprintf(number, sizeof number, "%zu", first + i);
		pen_text(canvas, x + width / 2.0, y + height / 2.0 + 1.0, TEXT_SMALL, ANCHOR_MIDDLE,
			 number);
	}
}

static void draw_tile(struct sheet *sheet, const struct tile_drawing *drawing,
		      const struct tile_layout *layout, size_t c, size_t r)
{
	struct canvas *canvas = sheet->canvas;

	cairo_save(canvas->pen);
	cairo_rectangle(canvas->pen, layout->page_left_mm, layout->page_top_mm, layout->width_mm,
			layout->height_mm);
	cairo_clip(canvas->pen);
	cairo_translate(canvas->pen,
			layout->page_left_mm - drawing->left_mm - (double)c * layout->step_x_mm,
			layout->page_top_mm - drawing->top_mm - (double)r * layout->step_y_mm);
	drawing->draw(canvas, drawing->context);
	for (size_t i = 0; i < tiles_mark_count(layout); i++) {
		struct tile_mark mark = tiles_mark(layout, drawing, i);
		draw_mark(canvas, &mark);
	}
	cairo_restore(canvas->pen);
	draw_seams(canvas, layout, c, r);
}

void tiles_draw(struct sheet *sheet, const struct tile_drawing *drawing)
{
	struct tile_layout layout = tiles_layout(drawing, sheet_area(sheet));
	size_t first = sheet->page + 1;
	bool many = layout.columns * layout.rows > 1;
	char remark[REMARK_ROOM];

	(void)snprintf(
		remark, sizeof remark, "%s%s", drawing->remark,
		many ? " Cut the dashed edges, lay each page on the one before, cross on the "
		       "cross of the same letter, and glue."
		     : "");
	sheet->title = drawing->title;
	sheet->remark = remark;
	sheet->head_keep_mm = many ? KEY_WIDTH_MM : 0.0;
	for (size_t r = 0; r < layout.rows; r++)
		for (size_t c = 0; c < layout.columns; c++) {
			(void)sheet_begin(sheet);
			draw_tile(sheet, drawing, &layout, c, r);
			if (many)
				draw_key(sheet, &layout, first, c, r);
		}
	sheet->title = sheet->remark = "";
	sheet->head_keep_mm = 0.0;
}
