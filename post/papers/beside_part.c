/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/beside_part.h"

#include <math.h>
#include <stdio.h>

#include "pictures/scale.h"
#include "report/words.h"

#define CM3_PER_MM3 1e-3

static const char *side_words(const struct paper_content *content, bool plus)
{
	return words_side(&content->job->neck, plus ? SIDE_PLUS : SIDE_MINUS);
}

static void tab_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct paper_content *content = context;
	const struct tab_figures *figures = &content->result->beside.tab[row];
	const struct tab *tab = &figures->tab;
	const double length[] = { tab->x_mm, tab->width_mm, tab->height_mm,
				  tab->outer_mm - tab->inner_mm };

	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", side_words(content, tab->side > 0.0));
	else if (column % 2 == 1)
		flow_mm(out, length[(column - 1) / 2]);
	else
		flow_inch(out, length[(column - 1) / 2]);
}

static void put_tabs(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[] = {
		{ .head = "tab on the", .width_mm = 28.0, .words = true },
		{ .group = "x from the nut", .head = "mm", .width_mm = 18.0 },
		{ .group = "x from the nut", .head = "in", .width_mm = 18.0 },
		{ .group = "wide", .head = "mm", .width_mm = 15.0 },
		{ .group = "wide", .head = "in", .width_mm = 15.0 },
		{ .group = "thick", .head = "mm", .width_mm = 15.0 },
		{ .group = "thick", .head = "in", .width_mm = 15.0 },
		{ .group = "long", .head = "mm", .width_mm = 15.0 },
		{ .group = "long", .head = "in", .width_mm = 15.0 },
	};
	const struct flow_table table = { 9, column, content->result->beside.tab_count, tab_cell,
					  content };

	flow_table(flow, &table);
}

void beside_part_setup(struct flow *flow, const struct paper_content *content)
{
	const struct beside_figures *beside = &content->result->beside;
	char text[640], channel[FLOW_CELL_ROOM], top[FLOW_CELL_ROOM];

	if (!(beside->channel_mm > 0.0) && beside->tab_count == 0)
		return;
	flow_heading(flow, "What stays beside the neck", 4.0 * SHEET_LEADING_MM);
	if (beside->channel_mm > 0.0) {
		flow_both(channel, beside->channel_mm);
		flow_both(top, beside->rail_top_mm);
		(void)snprintf(text, sizeof text,
			       "Rails: the blank beyond a channel of %s stays as it is, up to %s "
			       "over the gluing face. Clamps and screws may hold it there.",
			       channel, top);
		flow_text(flow, TEXT_BODY, 2, text);
	}
	if (beside->tab_count > 0) {
		flow_text(flow, TEXT_BODY, 2,
			  "Tabs hold to the neck what nothing else holds. They are all that does: "
			  "do not lift the work by it.");
		put_tabs(flow, content);
	}
}

static void cove_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct paper_content *content = context;
	const struct station_figures *station = &content->result->station[row];
	char name[WORDS_FRET_ROOM];

	words_fret(name, station->fret);
	if (column == 0) {
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", name);
		return;
	}
	const struct cove_figures *cove = &station->cove[(column - 1) / 4];
	double length = (column - 1) % 4 < 2 ? cove->height_mm : cove->width_mm;
	if (column % 2 == 1)
		flow_mm(out, length);
	else
		flow_inch(out, length);
}

/* The side names are heads of groups; the flow only borrows them. */
static void put_coves(struct flow *flow, const struct paper_content *content)
{
	char group[4][48];
	struct flow_column column[9] = { { .head = "station", .width_mm = 24.0, .words = true } };

	for (int i = 0; i < 4; i++)
		(void)snprintf(group[i], sizeof group[i], "%s, %s", side_words(content, i >= 2),
			       i % 2 == 0 ? "high" : "wide");
	for (int i = 0; i < 8; i++)
		column[i + 1] = (struct flow_column){ .group = group[i / 2],
						      .head = i % 2 == 0 ? "mm" : "in",
						      .width_mm = 16.0 };
	const struct flow_table table = { 9, column, content->result->station_count, cove_cell,
					  content };

	flow_table(flow, &table);
}

static void put_cove_words(struct flow *flow, const struct paper_content *content)
{
	const struct beside_figures *beside = &content->result->beside;
	char text[720], high[FLOW_CELL_ROOM], wide[FLOW_CELL_ROOM], x[NUMBER_MAX],
		volume[NUMBER_MAX];

	flow_both(high, beside->cove.height_mm);
	flow_both(wide, beside->cove.width_mm);
	(void)snprintf(
		text, sizeof text,
		"The bed lies too near for the ball to pass the gluing face. Saw or plane the "
		"coves off down to the lines of the plan template: tallest %s, %s wide, at x "
		"%s mm on the %s; %s cm3 in all.",
		high, wide, scale_number(x, beside->cove_x_mm, 1),
		side_words(content, beside->cove_side == SIDE_PLUS),
		scale_number(volume, beside->cove_mm3 * CM3_PER_MM3, 2));
	flow_text(flow, TEXT_BODY, 3, text);
	if (!(beside->skin_mm > 0.0))
		return;
	flow_both(high, beside->skin_mm);
	(void)snprintf(
		text, sizeof text,
		"A skin of %s stays beside the neck wherever the ball went; cut it off first.",
		high);
	flow_text(flow, TEXT_BODY, 2, text);
}

void beside_part_finishing(struct flow *flow, const struct paper_content *content)
{
	const struct beside_figures *beside = &content->result->beside;

	if (beside->tab_count > 0) {
		flow_heading(flow, "Tabs to saw off", 5.0 * SHEET_LEADING_MM);
		flow_text(flow, TEXT_BODY, 2,
			  "Before anything else, with the neck still held: saw each tab a little "
			  "outside the neck and pare what stands to the line.");
		put_tabs(flow, content);
	}
	if (beside->cove.height_mm > 0.0) {
		flow_heading(flow, "Coves at the edges", 8.0 * SHEET_LEADING_MM);
		put_cove_words(flow, content);
		put_coves(flow, content);
	}
}
