/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/chisel_part.h"

#include <stdio.h>

#include "pictures/scale.h"
#include "report/words.h"

/* More places than this are specks beside the largest. */
#define PLACES_SHOWN 14
#define CM2_PER_MM2 1e-2
#define CM3_PER_MM3 1e-3

enum place_column {
	PLACE_NAME,
	PLACE_X_FROM,
	PLACE_X_TO,
	PLACE_Y_FROM,
	PLACE_Y_TO,
	PLACE_THICK,
	PLACE_THICK_IN,
	PLACE_AREA,
	PLACE_VOLUME,
	PLACE_COLUMNS
};

static void place_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct paper_content *content = context;
	const struct chisel_place *place = &content->result->chisel.place[row];
	const double figures[PLACE_COLUMNS] = {
		[PLACE_X_FROM] = place->x_from_mm,
		[PLACE_X_TO] = place->x_to_mm,
		[PLACE_Y_FROM] = place->y_from_mm,
		[PLACE_Y_TO] = place->y_to_mm,
		[PLACE_THICK] = place->thickest_mm,
		[PLACE_AREA] = place->area_mm2 * CM2_PER_MM2,
		[PLACE_VOLUME] = place->over_finished_mm3 * CM3_PER_MM3,
	};

	if (column == PLACE_NAME)
		words_chisel_place(out, &content->job->neck, place);
	else if (column == PLACE_THICK_IN)
		flow_inch(out, place->thickest_mm);
	else
		flow_number(out, figures[column], 1);
}

void chisel_part(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[PLACE_COLUMNS] = {
		{ .head = "place", .width_mm = 48.0, .words = true },
		{ .group = "x, mm", .head = "from", .width_mm = 17.0 },
		{ .group = "x, mm", .head = "to", .width_mm = 17.0 },
		{ .group = "y, mm", .head = "from", .width_mm = 18.0 },
		{ .group = "y, mm", .head = "to", .width_mm = 18.0 },
		{ .group = "thickest", .head = "mm", .width_mm = 13.0 },
		{ .group = "thickest", .head = "in", .width_mm = 13.0 },
		{ .head = "cm\xc2\xb2", .width_mm = 13.0 },
		{ .head = "cm\xc2\xb3", .width_mm = 13.0 },
	};
	size_t count = content->result->chisel.place_count;
	const struct flow_table table = { PLACE_COLUMNS, column,
					  count < PLACES_SHOWN ? count : PLACES_SHOWN, place_cell,
					  content };

	if (count == 0)
		return;
	flow_heading(flow, "Left for the chisel, where shank or holder kept the cutter away", 30.0);
	flow_table(flow, &table);
	chisel_part_words(flow, content);
}

void chisel_part_words(struct flow *flow, const struct paper_content *content)
{
	const struct chisel *chisel = &content->result->chisel;
	char text[200], stickout[WORDS_STICKOUT_ROOM], all[NUMBER_MAX], stock[NUMBER_MAX];

	if (chisel->place_count == 0)
		return;
	(void)snprintf(
		text, sizeof text,
		"Left for the chisel: %s cm\xc2\xb3 over the finished surface, %s of them over "
		"the stock for the hand.",
		scale_number(all, chisel->over_finished_mm3 * CM3_PER_MM3, 1),
		scale_number(stock, chisel->over_allowance_mm3 * CM3_PER_MM3, 1));
	flow_text(flow, TEXT_BODY, 2, text);
	words_stickout(stickout, content->job, content->result);
	flow_text(flow, TEXT_BODY, 3, stickout);
}
