/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/flow.h"

#include <stdio.h>
#include <string.h>

#include "pictures/scale.h"

#define HEADING_MM 8.5 /* taken by a heading, its base line 2.5 above the end */
#define HEADING_FOOT_MM 2.5
#define RISE_MM 3.0 /* base line of body letters below the top of their line */
#define AFTER_MM 2.0
#define STEP_INDENT_MM 6.0
#define ROW_MM 4.7
#define WRITE_ROW_MM 6.4 /* room for a pencil */
#define ROW_FOOT_MM 1.4 /* from a row's base line to its rule */
#define CELL_GAP_MM 1.2
#define NOTE_MM 8.0 /* between lines to write on */

enum fault flow_draw(struct sheet *sheet, const struct paper_content *content,
		     enum fault (*draw)(struct flow *flow, const struct paper_content *content,
					struct fault_list *faults),
		     struct fault_list *faults)
{
	struct canvas scratch;
	struct sheet counted = *sheet;
	enum fault code = canvas_open_paper(&scratch, sheet->canvas->width_mm,
					    sheet->canvas->height_mm, sheet->title, faults);

	counted.canvas = &scratch;
	if (code == FAULT_NONE) {
		struct flow flow = { .sheet = &counted };
		flow.area = sheet_begin(&counted);
		flow.y_mm = flow.area.top;
		code = draw(&flow, content, faults);
	}
	if (code == FAULT_NONE) {
		/* Only its end tells whether all of it found room. */
		cairo_surface_finish(scratch.surface);
		if (scratch.lost || cairo_surface_status(scratch.surface) != CAIRO_STATUS_SUCCESS)
			code = fault_no_memory(faults, "a paper");
	}
	canvas_close(&scratch);
	if (code != FAULT_NONE)
		return code;
	struct flow flow = { .sheet = sheet };
	sheet->page_count = counted.page;
	flow.area = sheet_begin(sheet);
	flow.y_mm = flow.area.top;
	return draw(&flow, content, faults);
}

double flow_width_mm(const struct flow *flow)
{
	return flow->area.right - flow->area.left;
}

void flow_need(struct flow *flow, double height_mm)
{
	if (flow->y_mm + height_mm <= flow->area.bottom || flow->y_mm <= flow->area.top)
		return;
	flow->area = sheet_begin(flow->sheet);
	flow->y_mm = flow->area.top;
}

double flow_take(struct flow *flow, double height_mm)
{
	flow_need(flow, height_mm);
	double top = flow->y_mm;
	flow->y_mm += height_mm;
	return top;
}

void flow_heading(struct flow *flow, const char *text, double keep_mm)
{
	flow_need(flow, HEADING_MM + keep_mm);
	double top = flow_take(flow, HEADING_MM);
	pen_text_fit(flow->sheet->canvas, flow->area.left, top + HEADING_MM - HEADING_FOOT_MM,
		     TEXT_HEADING, flow_width_mm(flow), text);
}

/* Room is asked for as if all lines were used, and only those are taken that
 * were. */
static void put_lines(struct flow *flow, double indent_mm, enum text_kind kind, int most,
		      const char *text)
{
	flow_need(flow, most * SHEET_LEADING_MM);
	flow->y_mm = sheet_paragraph(flow->sheet->canvas, flow->area.left + indent_mm,
				     flow->y_mm + RISE_MM, kind, flow_width_mm(flow) - indent_mm,
				     most, text) -
		     RISE_MM;
}

void flow_text(struct flow *flow, enum text_kind kind, int most, const char *text)
{
	put_lines(flow, 0.0, kind, most, text);
	flow->y_mm += AFTER_MM;
}

void flow_steps(struct flow *flow, int most, size_t count, const char *const *text)
{
	for (size_t i = 0; i < count; i++) {
		char number[NUMBER_MAX];
		flow_need(flow, most * SHEET_LEADING_MM);
		pen_text(flow->sheet->canvas, flow->area.left + STEP_INDENT_MM - 2.0,
			 flow->y_mm + RISE_MM, TEXT_STRONG, ANCHOR_RIGHT,
			 scale_number(number, (double)(i + 1), 0));
		put_lines(flow, STEP_INDENT_MM, TEXT_BODY, most, text[i]);
		flow->y_mm += 0.6;
	}
	flow->y_mm += AFTER_MM;
}

void flow_notes(struct flow *flow)
{
	double left = flow->area.left, right = flow->area.right;

	if (flow->area.bottom - flow->y_mm < HEADING_MM + 2.0 * NOTE_MM)
		return;
	flow_heading(flow, "Notes", NOTE_MM);
	while (flow->y_mm + NOTE_MM <= flow->area.bottom) {
		double y = flow_take(flow, NOTE_MM) + NOTE_MM;
		pen_line(flow->sheet->canvas, left, y, right, y, LINE_RULE);
	}
}

static double row_height_mm(const struct flow_table *table)
{
	for (size_t c = 0; c < table->column_count; c++)
		if (table->column[c].write)
			return WRITE_ROW_MM;
	return ROW_MM;
}

static bool has_groups(const struct flow_table *table)
{
	for (size_t c = 0; c < table->column_count; c++)
		if (table->column[c].group)
			return true;
	return false;
}

static bool has_units(const struct flow_table *table)
{
	for (size_t c = 0; c < table->column_count; c++)
		if (table->column[c].unit)
			return true;
	return false;
}

static double head_height_mm(const struct flow_table *table)
{
	int lines = 1 + has_groups(table) + has_units(table);

	return lines * SHEET_LEADING_MM + AFTER_MM;
}

double flow_table_height_mm(const struct flow_table *table)
{
	return head_height_mm(table) + (double)table->row_count * row_height_mm(table) +
	       2.0 * AFTER_MM;
}

static double table_width_mm(const struct flow_table *table)
{
	double width = 0.0;

	for (size_t c = 0; c < table->column_count; c++)
		width += table->column[c].width_mm;
	return width;
}

static void put_cell(struct flow *flow, const struct flow_column *column, double x, double y,
		     enum text_kind kind, const char *text)
{
	/* Words behind a figure keep away from it. */
	double in = x > flow->area.left + 0.1 ? 2.0 * CELL_GAP_MM : 0.0;

	if (column->words)
		pen_text_fit(flow->sheet->canvas, x + in, y, kind,
			     column->width_mm - in - CELL_GAP_MM, text);
	else
		pen_text(flow->sheet->canvas, x + column->width_mm - CELL_GAP_MM, y, kind,
			 ANCHOR_RIGHT, text);
}

static void put_groups(struct flow *flow, const struct flow_table *table, double y)
{
	double x = flow->area.left;

	for (size_t c = 0; c < table->column_count;) {
		const char *group = table->column[c].group;
		double from = x;
		do
			x += table->column[c++].width_mm;
		while (c < table->column_count && group && table->column[c].group &&
		       strcmp(table->column[c].group, group) == 0);
		if (!group)
			continue;
		pen_text(flow->sheet->canvas, (from + CELL_GAP_MM + x) / 2.0, y, TEXT_STRONG,
			 ANCHOR_MIDDLE, group);
		pen_line(flow->sheet->canvas, from + 2.0 * CELL_GAP_MM, y + 1.0, x - CELL_GAP_MM,
			 y + 1.0, LINE_RULE);
	}
}

static void put_head(struct flow *flow, const struct flow_table *table)
{
	double top = flow_take(flow, head_height_mm(table)), x = flow->area.left;
	double base = top + RISE_MM, foot = flow->y_mm - 0.8;

	if (has_groups(table)) {
		put_groups(flow, table, base);
		base += SHEET_LEADING_MM + 0.4;
	}
	for (size_t c = 0; c < table->column_count; c++) {
		const struct flow_column *column = &table->column[c];
		put_cell(flow, column, x, base, TEXT_STRONG, column->head);
		if (column->unit)
			put_cell(flow, column, x, base + SHEET_LEADING_MM - 0.4, TEXT_SMALL,
				 column->unit);
		x += column->width_mm;
	}
	pen_line(flow->sheet->canvas, flow->area.left, foot, x, foot, LINE_FRAME);
}

static void put_row(struct flow *flow, const struct flow_table *table, size_t row)
{
	double height = row_height_mm(table), top = flow_take(flow, height), x = flow->area.left;
	double base = top + height - ROW_FOOT_MM;

	for (size_t c = 0; c < table->column_count; c++) {
		const struct flow_column *column = &table->column[c];
		char text[FLOW_CELL_ROOM] = "";
		if (column->write) {
			cairo_rectangle(flow->sheet->canvas->pen, x + CELL_GAP_MM, top + 0.6,
					column->width_mm - CELL_GAP_MM, height - 1.2);
			pen_stroke(flow->sheet->canvas, LINE_FRAME);
		} else {
			table->cell(table->context, row, c, text);
			put_cell(flow, column, x, base, c == 0 ? TEXT_STRONG : TEXT_BODY, text);
		}
		x += column->width_mm;
	}
	if (!table->column[0].write)
		pen_line(flow->sheet->canvas, flow->area.left, top + height, x, top + height,
			 LINE_RULE);
}

void flow_table(struct flow *flow, const struct flow_table *table)
{
	double row_mm = row_height_mm(table);

	if (table_width_mm(table) <= 0.0)
		return;
	flow_need(flow, head_height_mm(table) + row_mm);
	put_head(flow, table);
	for (size_t row = 0; row < table->row_count; row++) {
		if (flow->y_mm + row_mm > flow->area.bottom) {
			flow_need(flow, row_mm);
			put_head(flow, table);
		}
		put_row(flow, table, row);
	}
	flow->y_mm += 2.0 * AFTER_MM;
}

void flow_mm(char out[FLOW_CELL_ROOM], double length_mm)
{
	char number[NUMBER_MAX];

	(void)snprintf(out, FLOW_CELL_ROOM, "%s", scale_number(number, length_mm, 2));
}

void flow_inch(char out[FLOW_CELL_ROOM], double length_mm)
{
	char number[NUMBER_MAX];

	(void)snprintf(out, FLOW_CELL_ROOM, "%s",
		       scale_number(number, units_inch_from_mm(length_mm), 3));
}

void flow_number(char out[FLOW_CELL_ROOM], double value, int decimals)
{
	char number[NUMBER_MAX];

	(void)snprintf(out, FLOW_CELL_ROOM, "%s", scale_number(number, value, decimals));
}

void flow_both(char out[FLOW_CELL_ROOM], double length_mm)
{
	char mm[NUMBER_MAX], inch[NUMBER_MAX];

	(void)snprintf(out, FLOW_CELL_ROOM, "%s mm (%s in)", scale_number(mm, length_mm, 2),
		       scale_number(inch, units_inch_from_mm(length_mm), 3));
}
