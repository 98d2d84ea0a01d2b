/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/show_map.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "report/block_map.h"
#include "report/words.h"

/* A column cut less than this does not widen what is shown, mm. */
#define CUT_MM 0.005

/* Names along the neck: the stations, and every fret that finds room. */
struct names {
	size_t station_count, fret_count;
	struct block_mark *station, *fret;
};

static enum fault names_make(struct names *out, const struct show_page *page,
			     struct fault_list *faults)
{
	const struct neck_spec *spec = &page->job->neck;

	_Static_assert(BLOCK_MARK_ROOM >= WORDS_FRET_ROOM, "a fret's name has room");
	out->station_count = spec->station_count;
	out->fret_count = (size_t)spec->fret_count + 1;
	out->station = mem_array(out->station_count, sizeof *out->station);
	out->fret = mem_array(out->fret_count, sizeof *out->fret);
	if (!out->station || !out->fret)
		return fault_no_memory(faults, "a map in characters");
	for (size_t i = 0; i < out->station_count; i++) {
		out->station[i].x_mm = neck_fret_x_mm(page->neck, spec->station[i].fret);
		words_fret(out->station[i].text, spec->station[i].fret);
	}
	for (size_t i = 0; i < out->fret_count; i++) {
		out->fret[i].x_mm = neck_fret_x_mm(page->neck, (double)i);
		words_fret(out->fret[i].text, (double)i);
	}
	return FAULT_NONE;
}

static void names_free(struct names *names)
{
	free(names->station);
	free(names->fret);
}

static const char *side_name(const struct show_page *page, enum neck_side side)
{
	bool bass = (page->job->neck.hand == HAND_RIGHT) == (side == SIDE_PLUS);

	return bass ? "bass" : "treble";
}

/* The same part of the neck whatever is shown of it: all that is cut, and all
 * of the finished neck. */
static struct block_part part_of(const struct job_result *result)
{
	struct block_part part = block_part_none();

	for (size_t i = 0; i < result->cut_count; i++)
		block_part_add(&part, &result->cut[i], CUT_MM);
	block_part_add(&part, &result->finished, -INFINITY);
	return part;
}

/* What passes [first, first + count) cut together, with nothing where no blank
 * was. */
static enum fault sum_cuts(struct column_map *out, const struct job_result *result, size_t first,
			   size_t count, struct fault_list *faults)
{
	*out = result->blank_top;
	out->value = mem_array(out->nx * out->ny, sizeof *out->value);
	if (!out->value)
		return fault_no_memory(faults, "a map in characters");
	for (size_t k = first; k < first + count; k++) {
		const struct column_map *cut = &result->cut[k];
		if (cut->nx != out->nx || cut->ny != out->ny)
			return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
					 "The maps of blank and cuts differ in size.");
		for (size_t i = 0; i < out->nx * out->ny; i++)
			out->value[i] += cut->value[i];
	}
	for (size_t i = 0; i < out->nx * out->ny; i++)
		if (isnan(result->blank_top.value[i]) && !(out->value[i] > 0.0F))
			out->value[i] = NAN;
	return FAULT_NONE;
}

static double most_of(const struct column_map *map)
{
	double most = 0.0;

	for (size_t i = 0; i < map->nx * map->ny; i++)
		if ((double)map->value[i] > most)
			most = (double)map->value[i];
	return most;
}

/* Adds to the map what is the same for all maps of the page, and prints it. */
static enum fault print_map(FILE *out, const struct show_page *page, struct block_map *map,
			    struct fault_list *faults)
{
	struct names names = { 0 };
	enum fault fault = names_make(&names, page, faults);

	map->part = part_of(page->result);
	map->plus_side = side_name(page, SIDE_PLUS);
	map->minus_side = side_name(page, SIDE_MINUS);
	map->above = (struct block_marks){ "station", names.station_count, names.station };
	map->below = (struct block_marks){ "fret", names.fret_count, names.fret };
	map->columns = page->columns;
	map->utf8 = page->utf8;
	map->colour = page->colour;
	if (!fault)
		fault = block_map_print(out, map, faults);
	names_free(&names);
	return fault;
}

enum fault show_map_cuts(FILE *out, const struct show_page *page, size_t first, size_t count,
			 bool doubling, struct fault_list *faults)
{
	struct column_map sum = { 0 };
	struct block_map map = { .map = &sum,
				 .pick = BLOCK_PICK_MOST,
				 .shown = "the deepest cut",
				 .nothing = "left alone" };
	enum fault fault = sum_cuts(&sum, page->result, first, count, faults);
	double most = fault ? 0.0 : most_of(&sum);

	if (doubling)
		block_map_doubling(&map, most);
	else
		block_map_even(&map, most);
	if (!fault && most < CUT_MM)
		(void)fputs("  Nothing is cut.\n", out);
	else if (!fault)
		fault = print_map(out, page, &map, faults);
	free(sum.value);
	return fault;
}

enum fault show_map_stock(FILE *out, const struct show_page *page, struct fault_list *faults)
{
	struct block_map map = { .map = &page->result->stock,
				 .pick = BLOCK_PICK_LEAST,
				 .open = true,
				 .shown = "the least stock",
				 .nothing = "none" };
	double allowance = 0.0;

	for (int i = 0; i < ZONE_COUNT; i++)
		allowance = larger(allowance, page->result->zone[i].allowance_mm);
	block_map_even(&map, 2.0 * allowance);
	return print_map(out, page, &map, faults);
}
