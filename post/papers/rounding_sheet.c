/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/rounding_sheet.h"

#include <math.h>
#include <stdio.h>

#include "model/rounding.h"
#include "papers/flow.h"
#include "papers/places.h"
#include "papers/rounding_drawing.h"
#include "papers/rounding_stock.h"
#include "pictures/scale.h"
#include "report/words.h"

#define DRAWING_WIDTH_MM 117.0 /* left of the small table */
#define LEGEND_MM 5.0

static const char remark[] =
	"Straight facets that end on the finished section. All figures are for the finished "
	"section: plane to the lines and nothing is cut into. Mark: distance from the corner "
	"(arris) that the facet takes off, the same on both faces beside it.";

static const char *const steps[] = {
	"At every place, set a gauge to the mark, run it along both faces from the corner, and "
	"join the points along the neck with a batten.",
	"Plane the first facet down to both lines; its width must then be that of the table.",
	"Mark the two second facets from the corners that the first has left, and plane them.",
	"The same with the four third facets, with spokeshave or rasp. \"None\": leave that "
	"facet out.",
	"Scrape off what stands between the facets, no more than \"left after 3rd\", and check "
	"with the card gauge.",
	"Off the router the corners are gone already: then \"router left\" says how much to take "
	"to reach a facet's line, square to it; the widths hold as soon as you are there.",
};

/* Rows of the table: stage by stage, from the side to the back. */
static const int row_facet[ROUNDING_FACETS] = { 3, 1, 5, 0, 2, 4, 6 };

struct block {
	const struct paper_content *content;
	const struct place_figures *place;
	struct rounding side[SIDE_COUNT];
};

enum facet_column {
	FACET_MARK,
	FACET_MARK_IN,
	FACET_WIDTH,
	FACET_DEPTH,
	FACET_STOCK,
	FACET_FIGURES
};

static void facet_name(const struct rounding_facet *facet, char out[FLOW_CELL_ROOM])
{
	static const char *const ordinal[] = { "", "1st", "2nd", "3rd" };
	char degrees[NUMBER_MAX];
	double angle = units_deg_from_rad(facet->angle_rad);

	(void)snprintf(out, FLOW_CELL_ROOM, "%s, %s\xc2\xb0", ordinal[facet->stage],
		       scale_number(degrees, angle, facet->stage > 2 ? 2 : facet->stage - 1));
}

static void facet_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct block *block = context;
	enum neck_side side = column <= FACET_FIGURES ? SIDE_MINUS : SIDE_PLUS;
	const struct rounding_facet *facet = &block->side[side].facet[row_facet[row]];

	if (column == 0) {
		facet_name(facet, out);
		return;
	}
	enum facet_column figure = (enum facet_column)((column - 1) % FACET_FIGURES);
	if (facet->none) {
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", figure == FACET_MARK ? "none" : "");
		return;
	}
	switch (figure) {
	case FACET_MARK:
		flow_mm(out, facet->mark_mm);
		break;
	case FACET_MARK_IN:
		flow_inch(out, facet->mark_mm);
		break;
	case FACET_WIDTH:
		flow_mm(out, facet->width_mm);
		break;
	case FACET_DEPTH:
		flow_mm(out, facet->depth_mm);
		break;
	default:
		flow_mm(out, rounding_stock_at_mm(&block->content->result->stock,
						  block->place->at.x_mm, facet->touch.y_mm, side));
	}
}

#define FACET_COLUMNS (1 + 2 * FACET_FIGURES)

static void put_facets(struct flow *flow, const struct block *block)
{
	static const struct flow_column figures[FACET_FIGURES] = {
		{ .head = "mark", .unit = "mm", .width_mm = 15.0 },
		{ .head = "mark", .unit = "in", .width_mm = 15.0 },
		{ .head = "width", .unit = "mm", .width_mm = 15.0 },
		{ .head = "depth", .unit = "mm", .width_mm = 15.0 },
		{ .head = "router left", .unit = "mm", .width_mm = 20.0 },
	};
	struct flow_column column[FACET_COLUMNS] = { { .head = "facet",
						       .unit = "0\xc2\xb0 side, 90\xc2\xb0 back",
						       .width_mm = 29.0,
						       .words = true } };

	for (int side = 0; side < SIDE_COUNT; side++)
		for (int i = 0; i < FACET_FIGURES; i++) {
			column[1 + side * FACET_FIGURES + i] = figures[i];
			column[1 + side * FACET_FIGURES + i].group = words_side(
				neck_spec_of(block->content->neck), (enum neck_side)side);
		}
	const struct flow_table table = { FACET_COLUMNS, column, ROUNDING_FACETS, facet_cell,
					  block };
	flow_table(flow, &table);
}

enum summary_row {
	SUMMARY_BACK,
	SUMMARY_BACK_IN,
	SUMMARY_SIDE,
	SUMMARY_SIDE_IN,
	SUMMARY_LEFT_1,
	SUMMARY_LEFT_2,
	SUMMARY_LEFT_3,
	SUMMARY_ROUTER,
	SUMMARY_ROWS
};

static void summary_figure(const struct block *block, size_t row, enum neck_side side,
			   char out[FLOW_CELL_ROOM])
{
	const struct rounding *rounding = &block->side[side];
	const struct rounding_facet *first = &rounding->facet[row_facet[0]];
	const struct column_map *stock = &block->content->result->stock;
	char least[NUMBER_MAX], most[NUMBER_MAX];

	switch ((enum summary_row)row) {
	case SUMMARY_BACK:
		flow_mm(out, first->high.y_mm);
		break;
	case SUMMARY_BACK_IN:
		flow_inch(out, first->high.y_mm);
		break;
	case SUMMARY_SIDE:
		flow_mm(out, first->low.z_mm);
		break;
	case SUMMARY_SIDE_IN:
		flow_inch(out, first->low.z_mm);
		break;
	case SUMMARY_LEFT_1:
	case SUMMARY_LEFT_2:
	case SUMMARY_LEFT_3:
		flow_mm(out, rounding->left_mm[1 + row - SUMMARY_LEFT_1]);
		break;
	default:
		scale_number(least, rounding_stock_least_mm(stock, block->place->at.x_mm, side), 2);
		scale_number(most, rounding_stock_most_mm(stock, block->place->at.x_mm, side), 2);
		(void)snprintf(out, FLOW_CELL_ROOM, "%s to %s", least, most);
	}
}

static void summary_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	static const char *const names[SUMMARY_ROWS] = {
		"centre to 1st, mm",  "same, in",
		"face to 1st, mm",    "same, in",
		"left after 1st, mm", "left after 2nd, mm",
		"left after 3rd, mm", "router left all, mm",
	};

	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", names[row]);
	else
		summary_figure(context, row, column == 1 ? SIDE_MINUS : SIDE_PLUS, out);
}

/* Right of the drawing; returns where it ends. */
static double put_summary(struct flow *flow, const struct block *block)
{
	bool right = neck_spec_of(block->content->neck)->hand == HAND_RIGHT;
	double left = flow->area.left;
	const struct flow_column column[] = {
		{ .head = "mark and check", .width_mm = 32.0, .words = true },
		{ .head = right ? "treble" : "bass", .width_mm = 20.0 },
		{ .head = right ? "bass" : "treble", .width_mm = 20.0 },
	};
	const struct flow_table table = { 3, column, SUMMARY_ROWS, summary_cell, block };

	flow->area.left += DRAWING_WIDTH_MM;
	flow_table(flow, &table);
	flow->area.left = left;
	return flow->y_mm;
}

/* Enlarged as far as a round figure fits. */
static double scale_of(const struct block *block)
{
	static const double scales[] = { 2.5, 2.0, 1.5, 1.25, 1.0, 0.75 };
	struct rounding_drawing drawing = { block->content, 0.0, block->side, 0.0 };

	for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++) {
		drawing.scale = scales[i];
		if (rounding_drawing_width_mm(&drawing) <= DRAWING_WIDTH_MM)
			return scales[i];
	}
	return 0.5;
}

/* Height of a block, so that it stays on one page: heading, drawing or summary,
 * table. */
static double block_height_mm(double drawing_mm)
{
	const struct flow_table summary = { .row_count = SUMMARY_ROWS };
	const struct flow_column grouped = { .group = "" };
	const struct flow_table facets = { 1, &grouped, ROUNDING_FACETS, NULL, NULL };

	return fmax(drawing_mm, flow_table_height_mm(&summary)) + flow_table_height_mm(&facets);
}

static enum fault put_block(struct flow *flow, struct block *block, struct fault_list *faults)
{
	double x = block->place->at.x_mm, top;
	char name[PLACES_NAME_ROOM], text[240], number[3][NUMBER_MAX];
	enum fault fault = rounding_at(block->side, block->content->neck, x, faults);

	if (fault != FAULT_NONE)
		return fault;
	struct rounding_drawing drawing = { block->content, x, block->side, scale_of(block) };
	places_name(name, block->place->at.fret);
	(void)snprintf(text, sizeof text, "%s, x %s mm: rectangle %s mm high, drawn %s to 1", name,
		       scale_number(number[0], x, 2),
		       scale_number(number[1], block->side[0].height_mm, 2),
		       scale_number(number[2], drawing.scale, 2));
	flow_heading(flow, text, block_height_mm(rounding_drawing_height_mm(&drawing)));
	top = flow->y_mm;
	fault = rounding_drawing_put(flow->sheet->canvas, &drawing, flow->area.left, top, faults);
	flow->y_mm = fmax(put_summary(flow, block), top + rounding_drawing_height_mm(&drawing));
	put_facets(flow, block);
	return fault;
}

static enum fault draw_pages(struct flow *flow, const struct paper_content *content,
			     struct fault_list *faults)
{
	struct place_figures place[PLACES_MAX];
	size_t count = places_of(place, content);
	enum fault fault = FAULT_NONE;

	flow_steps(flow, 2, sizeof steps / sizeof steps[0], steps);
	rounding_drawing_legend(flow->sheet->canvas, flow->area.left,
				flow_take(flow, LEGEND_MM) + LEGEND_MM / 2.0);
	for (size_t i = 0; i < count && fault == FAULT_NONE; i++) {
		struct block block = { .content = content, .place = &place[i] };
		fault = put_block(flow, &block, faults);
	}
	return fault;
}

enum fault rounding_sheet_draw(struct sheet *sheet, const struct paper_content *content,
			       struct fault_list *faults)
{
	sheet->title = "Facet lines for rounding by hand";
	sheet->remark = remark;
	return flow_draw(sheet, content, draw_pages, faults);
}
