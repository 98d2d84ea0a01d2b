/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/sheet.h"

#include <stdio.h>
#include <string.h>

/* From the margin: base line of the title, of the remark's first line, and
 * where the content begins, mm. */
#define TITLE_MM 5.5
#define REMARK_MM 11.0
#define HEAD_MM (REMARK_MM + (SHEET_REMARK_LINES - 1) * SHEET_LEADING_MM + 4.0)
/* Kept for the last line and, above it and at the right edge, the bars, mm. */
#define FOOT_MM 6.0
#define BAR_ROOM_MM 12.0

#define BAR_MM 100.0
#define BAR_INCH 4
#define LONG_TICK_MM 2.4
#define SHORT_TICK_MM 1.3

#define PARAGRAPH_ROOM 512

struct sheet_area sheet_area(const struct sheet *sheet)
{
	double margin = sheet->paper->margin_mm, bars = sheet->true_scale ? BAR_ROOM_MM : 0.0;

	return (struct sheet_area){
		.left = margin,
		.top = margin + HEAD_MM,
		.right = sheet->canvas->width_mm - margin - bars,
		.bottom = sheet->canvas->height_mm - margin - FOOT_MM - bars,
	};
}

/* Bytes of the next line: whole words as far as they fit, at least one. */
static size_t line_length(struct canvas *canvas, enum text_kind kind, double width_mm,
			  const char *text)
{
	char line[PARAGRAPH_ROOM];
	size_t length = 0;

	for (;;) {
		size_t next = length + strspn(text + length, " ");
		next += strcspn(text + next, " ");
		if (next == length || next >= sizeof line)
			return length > 0 ? length : next;
		memcpy(line, text, next);
		line[next] = '\0';
		if (length > 0 && pen_text_width_mm(canvas, kind, line) > width_mm)
			return length;
		length = next;
	}
}

double sheet_paragraph(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		       double width_mm, int most, const char *text)
{
	text += strspn(text, " ");
	for (int i = 0; i < most && *text; i++) {
		char line[PARAGRAPH_ROOM] = "";
		size_t length = i + 1 < most ? line_length(canvas, kind, width_mm, text)
					     : strlen(text);
		memcpy(line, text, length < sizeof line ? length : sizeof line - 1);
		pen_text_fit(canvas, x_mm, y_mm, kind, width_mm, line);
		y_mm += SHEET_LEADING_MM;
		text += length;
		text += strspn(text, " ");
	}
	return y_mm;
}

/* A bar from (0, 0) along x: millimetres above the line, inches below a second
 * one. Ticks stand square to it, so their middles are the ends. */
static void draw_bar(struct canvas *canvas)
{
	const double inch_y = 1.0;

	pen_line(canvas, 0.0, 0.0, BAR_MM, 0.0, LINE_CUT);
	for (int i = 0; i <= 10; i++) {
		double x = BAR_MM * i / 10.0, long_one = i % 5 == 0;
		pen_line(canvas, x, 0.0, x, -(long_one ? LONG_TICK_MM : SHORT_TICK_MM), LINE_CUT);
	}
	pen_line(canvas, 0.0, inch_y, BAR_INCH * MM_PER_INCH, inch_y, LINE_CUT);
	for (int i = 0; i <= BAR_INCH * 4; i++) {
		double x = MM_PER_INCH * i / 4.0, long_one = i % 4 == 0;
		pen_line(canvas, x, inch_y, x, inch_y + (long_one ? LONG_TICK_MM : SHORT_TICK_MM),
			 LINE_CUT);
	}
	pen_text(canvas, 1.2, -1.8, TEXT_SMALL, ANCHOR_LEFT, "100 mm");
	pen_text(canvas, 1.2, inch_y + 3.7, TEXT_SMALL, ANCHOR_LEFT, "4 in");
}

/* One bar across at the foot with its words, one up along the right edge. */
static void draw_bars(const struct sheet *sheet)
{
	struct canvas *canvas = sheet->canvas;
	struct sheet_area area = sheet_area(sheet);
	double across_y = area.bottom + 6.0, words_x = area.left + BAR_INCH * MM_PER_INCH + 5.0;

	cairo_save(canvas->pen);
	cairo_translate(canvas->pen, area.left, across_y);
	draw_bar(canvas);
	cairo_restore(canvas->pen);
	cairo_save(canvas->pen);
	cairo_translate(canvas->pen, area.right + 6.5, area.bottom);
	cairo_rotate(canvas->pen, -PI / 2.0);
	draw_bar(canvas);
	cairo_restore(canvas->pen);
	const char *const words[] = { "Print at 100 %, no fitting to page;",
				      "measure this bar and the upright one:" };
	for (int i = 0; i < 2; i++)
		pen_text_fit(canvas, words_x, across_y - 2.4 + i * SHEET_LEADING_MM, TEXT_STRONG,
			     area.right - words_x, words[i]);
	pen_text_fit(canvas, words_x, across_y - 2.4 + 2.0 * SHEET_LEADING_MM, TEXT_SMALL,
		     area.right - words_x, "100 mm and 4 in between the middles of the end marks.");
}

static void draw_foot(const struct sheet *sheet)
{
	struct canvas *canvas = sheet->canvas;
	double left = sheet->paper->margin_mm, right = canvas->width_mm - left;
	double foot = canvas->height_mm - sheet->paper->margin_mm;
	char text[128] = "";

	if (sheet->words.digest && sheet->words.digest[0])
		(void)snprintf(text, sizeof text, "inputs %.16s  \xc2\xb7  ", sheet->words.digest);
	size_t length = strlen(text);
	(void)snprintf(text + length, sizeof text - length, "page %zu of %zu", sheet->page,
		       sheet->page_count);
	double width = pen_text_width_mm(canvas, TEXT_SMALL, text);
	pen_line(canvas, left, foot - 3.6, right, foot - 3.6, LINE_RULE);
	pen_text_fit(canvas, left, foot, TEXT_SMALL, right - left - width - 6.0, sheet->words.neck);
	pen_text(canvas, right, foot, TEXT_SMALL, ANCHOR_RIGHT, text);
}

struct sheet_area sheet_begin(struct sheet *sheet)
{
	struct canvas *canvas = sheet->canvas;
	double margin = sheet->paper->margin_mm, width = canvas->width_mm - 2.0 * margin;

	width -= sheet->head_keep_mm;
	if (sheet->page++ > 0)
		canvas_next_page(canvas);
	pen_text_fit(canvas, margin, margin + TITLE_MM, TEXT_TITLE, width, sheet->title);
	(void)sheet_paragraph(canvas, margin, margin + REMARK_MM, TEXT_BODY, width,
			      SHEET_REMARK_LINES, sheet->remark);
	if (sheet->true_scale)
		draw_bars(sheet);
	draw_foot(sheet);
	return sheet_area(sheet);
}
