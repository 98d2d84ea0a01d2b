/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/finishing_sheet.h"

#include <math.h>
#include <stdio.h>

#include "model/straight_edge.h"
#include "papers/beside_part.h"
#include "papers/chisel_part.h"
#include "papers/flow.h"
#include "papers/heel_part.h"
#include "papers/light.h"
#include "papers/places.h"
#include "pictures/scale.h"
#include "report/words.h"

static const char remark[] =
	"For the bench: what comes off the machine, what it is to become, and how to see that it "
	"has. Measured on the simulated wood after the last program; write what your caliper says "
	"beside it.";

static const char *const steps[] = {
	"Caliper every place before the first stroke and write it down. If all readings are off "
	"by one figure, the zero was; take that into account before you carve.",
	"True the centre line first, at the places of the table, with plane or spokeshave; then "
	"the straight edge along it.",
	"Carve the sides to the fretboard's edges, or to the lines of the plan template.",
	"Round between centre and sides, by the facet lines and the gauges: first where a gauge "
	"stands, then in between by eye and straight edge.",
	"Fair the heel and the peghead's transition last, when the shaft beside them is right.",
	"Leave a tenth of a millimetre for scraper and paper, and stop where wood over the "
	"channel comes near its least.",
	"Wet the wood once, let it dry, sand what has risen, and caliper again.",
};

struct thickness {
	size_t count;
	struct place_figures place[PLACES_MAX];
};

enum thickness_column {
	THICKNESS_PLACE,
	THICKNESS_X,
	THICKNESS_NOW,
	THICKNESS_NOW_IN,
	THICKNESS_FINAL,
	THICKNESS_FINAL_IN,
	THICKNESS_CARVE,
	THICKNESS_CARVE_IN,
	THICKNESS_OVER,
	THICKNESS_OVER_IN,
	THICKNESS_READ,
	THICKNESS_READ_AFTER,
	THICKNESS_COLUMNS
};

static void thickness_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct thickness *thickness = context;
	const struct station_figures *at = &thickness->place[row].at;
	double carve_mm = at->roughed_mm - at->finished_mm;

	switch ((enum thickness_column)column) {
	case THICKNESS_PLACE:
		places_name(out, at->fret);
		break;
	case THICKNESS_X:
		flow_mm(out, at->x_mm);
		break;
	case THICKNESS_NOW:
		flow_mm(out, at->roughed_mm);
		break;
	case THICKNESS_NOW_IN:
		flow_inch(out, at->roughed_mm);
		break;
	case THICKNESS_FINAL:
		flow_mm(out, at->finished_mm);
		break;
	case THICKNESS_FINAL_IN:
		flow_inch(out, at->finished_mm);
		break;
	case THICKNESS_CARVE:
		flow_mm(out, carve_mm);
		break;
	case THICKNESS_CARVE_IN:
		flow_inch(out, carve_mm);
		break;
	case THICKNESS_OVER:
		flow_mm(out, at->wood_over_channel_mm);
		break;
	case THICKNESS_OVER_IN:
		flow_inch(out, at->wood_over_channel_mm);
		break;
	default:
		break;
	}
}

static void put_thickness(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[THICKNESS_COLUMNS] = {
		{ .head = "place", .width_mm = 23.0, .words = true },
		{ .head = "x, mm", .width_mm = 14.0 },
		{ .group = "off the machine", .head = "mm", .width_mm = 13.5 },
		{ .group = "off the machine", .head = "in", .width_mm = 12.5 },
		{ .group = "finished", .head = "mm", .width_mm = 13.5 },
		{ .group = "finished", .head = "in", .width_mm = 12.5 },
		{ .group = "to carve", .head = "mm", .width_mm = 13.0 },
		{ .group = "to carve", .head = "in", .width_mm = 12.5 },
		{ .group = "over channel", .head = "mm", .width_mm = 13.0 },
		{ .group = "over channel", .head = "in", .width_mm = 12.5 },
		{ .group = "your caliper", .head = "now", .width_mm = 24.0, .write = true },
		{ .group = "your caliper", .head = "at the end", .width_mm = 24.0, .write = true },
	};
	struct thickness thickness;
	char text[400];

	thickness.count = places_of(thickness.place, content);
	const struct flow_table table = { THICKNESS_COLUMNS, column, thickness.count,
					  thickness_cell, &thickness };
	(void)snprintf(text, sizeof text, "Thickness on the centre line, %s",
		       content->job->neck.over_fretboard ? "wood and fretboard together"
							 : "the wood alone");
	flow_heading(flow, text, 30.0);
	flow_table(flow, &table);
}

static void zone_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	static const char *const names[ZONE_COUNT] = {
		[ZONE_BACK] = "back",
		[ZONE_SIDES] = "sides by the fretboard",
		[ZONE_HEEL_CHEEKS] = "heel",
		[ZONE_TRANSITIONS] = "transitions and peghead",
	};
	const struct zone_figures *zone = &((const struct job_result *)context)->zone[row];
	const double value[] = { zone->allowance_mm, zone->least_mm, zone->most_mm, zone->mean_mm };

	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", names[row]);
	else if (column % 2 == 1)
		flow_mm(out, value[(column - 1) / 2]);
	else
		flow_inch(out, value[(column - 1) / 2]);
}

static void put_zones(struct flow *flow, const struct job_result *result)
{
	static const struct flow_column column[] = {
		{ .head = "zone", .width_mm = 42.0, .words = true },
		{ .group = "asked", .head = "mm", .width_mm = 16.0 },
		{ .group = "asked", .head = "in", .width_mm = 16.0 },
		{ .group = "least", .head = "mm", .width_mm = 16.0 },
		{ .group = "least", .head = "in", .width_mm = 16.0 },
		{ .group = "most", .head = "mm", .width_mm = 16.0 },
		{ .group = "most", .head = "in", .width_mm = 16.0 },
		{ .group = "mean", .head = "mm", .width_mm = 16.0 },
		{ .group = "mean", .head = "in", .width_mm = 16.0 },
	};
	const struct flow_table table = { 9, column, ZONE_COUNT, zone_cell, result };

	flow_heading(flow, "Stock left for the hand, square to the surface",
		     flow_table_height_mm(&table));
	flow_table(flow, &table);
}

struct lights {
	struct light line[LIGHT_LINES];
	const struct neck_spec *spec;
};

static void light_words(char out[FLOW_CELL_ROOM], const struct light *light)
{
	char most[NUMBER_MAX], at[NUMBER_MAX];

	if (light->most_mm < LIGHT_NONE_MM) {
		(void)snprintf(out, FLOW_CELL_ROOM, "no light anywhere");
		return;
	}
	(void)snprintf(out, FLOW_CELL_ROOM, "%s by %s mm, most at x %s mm",
		       light->most_signed_mm > 0.0 ? "light in between, hollow"
						   : "light at the ends, proud",
		       scale_number(most, light->most_mm, 2),
		       scale_number(at, light->most_at_mm, 0));
}

static void light_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct lights *lights = context;

	if (column == 0 && row == LIGHT_CENTRE)
		(void)snprintf(out, FLOW_CELL_ROOM, "centre line");
	else if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "edge, %s",
			       words_side(lights->spec,
					  row == LIGHT_MINUS_EDGE ? SIDE_MINUS : SIDE_PLUS));
	else if (column <= LIGHT_PLACES)
		flow_mm(out, lights->line[row].gap_mm[column - 1]);
	else
		light_words(out, &lights->line[row]);
}

/* Gaps are told at round shares of the way, named by their x. */
static void put_light(struct flow *flow, const struct neck *neck)
{
	const struct straight_edge edge = straight_edge_of(neck);
	char head[LIGHT_PLACES][32], text[320], from[NUMBER_MAX], to[NUMBER_MAX];
	struct flow_column column[LIGHT_PLACES + 2] = {
		{ .head = "straight edge on", .width_mm = 42.0, .words = true }
	};
	struct lights lights = { .spec = neck_spec_of(neck) };

	for (int i = 0; i < LIGHT_LINES; i++)
		lights.line[i] = light_under(neck, (enum light_line)i, edge.from_mm, edge.to_mm);
	for (int i = 0; i < LIGHT_PLACES; i++) {
		double share = (double)(i + 1) / (LIGHT_PLACES + 1);
		(void)snprintf(head[i], sizeof head[i], "x %s",
			       scale_number(from,
					    edge.from_mm + share * (edge.to_mm - edge.from_mm), 0));
		column[i + 1] = (struct flow_column){ .group = "gap, mm",
						      .head = head[i],
						      .width_mm = 15.0 };
	}
	column[LIGHT_PLACES + 1] = (struct flow_column){ .head = "where light shows",
							 .width_mm = 95.0,
							 .words = true };
	const struct flow_table table = { LIGHT_PLACES + 2, column, LIGHT_LINES, light_cell,
					  &lights };
	flow_heading(flow, "Where the straight edge shows light",
		     flow_table_height_mm(&table) + 2.0 * SHEET_LEADING_MM);
	(void)snprintf(text, sizeof text,
		       "Laid from x %s to %s mm along the finished neck, touching at both ends. "
		       "A gap above 0 is light between the ends; below 0 the wood stands proud and "
		       "the straight edge rocks.",
		       scale_number(from, edge.from_mm, 1), scale_number(to, edge.to_mm, 1));
	flow_text(flow, TEXT_SMALL, 2, text);
	flow_table(flow, &table);
}

/* The least wood over the channel, wherever it is. */
static void put_channel(struct flow *flow, const struct paper_content *content)
{
	const struct channel_spec *channel = &content->job->neck.channel;
	double at_mm = 0.0, least = neck_least_wood_over_channel_mm(content->neck, &at_mm);
	char text[720], mm[FLOW_CELL_ROOM], asked[FLOW_CELL_ROOM], at[NUMBER_MAX];

	if (isnan(least))
		return;
	flow_both(mm, least);
	flow_both(asked, channel->least_wood_mm);
	(void)snprintf(text, sizeof text,
		       "Finished wood over the truss-rod channel: least %s, at x %s mm; never less "
		       "than %s.",
		       mm, scale_number(at, at_mm, 1), asked);
	flow_text(flow, TEXT_BODY, 2, text);
}

static enum fault draw_pages(struct flow *flow, const struct paper_content *content,
			     struct fault_list *faults)
{
	(void)faults;
	put_thickness(flow, content);
	put_channel(flow, content);
	put_zones(flow, content->result);
	beside_part_finishing(flow, content);
	chisel_part(flow, content);
	put_light(flow, content->neck);
	heel_part(flow, content->neck);
	flow_heading(flow, "Order of work", 11.0 * SHEET_LEADING_MM);
	flow_steps(flow, 2, sizeof steps / sizeof steps[0], steps);
	flow_notes(flow);
	return FAULT_NONE;
}

enum fault finishing_sheet_draw(struct sheet *sheet, const struct paper_content *content,
				struct fault_list *faults)
{
	sheet->title = "Finishing sheet";
	sheet->remark = remark;
	return flow_draw(sheet, content, draw_pages, faults);
}
