/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/chisel_places.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Smaller than this is a speck, mm2. */
#define SPECK_MM2 1.0

struct spot {
	size_t ix, iy;
};

struct search {
	struct chisel *chisel;
	const struct chisel_column *column;
	bool *done;
	struct spot *stack; /* columns whose neighbours are still to be looked at */
	size_t depth, capacity; /* of the list of places */
};

static void add_column(struct chisel_place *place, const struct column_map *map,
		       const struct chisel_column *column, struct spot at)
{
	double half = map->cell_mm / 2.0, area = column->area_mm2;
	double x = map->x0_mm + (double)at.ix * map->cell_mm;
	double y = map->y0_mm + (double)at.iy * map->cell_mm;

	place->x_from_mm = smaller(place->x_from_mm, x - half);
	place->x_to_mm = larger(place->x_to_mm, x + half);
	place->y_from_mm = smaller(place->y_from_mm, y - half);
	place->y_to_mm = larger(place->y_to_mm, y + half);
	place->area_mm2 += area;
	place->over_allowance_mm3 += column->over_allowance_mm * area;
	place->over_finished_mm3 += column->over_finished_mm * area;
	if (column->thick_mm <= place->thickest_mm)
		return;
	place->thickest_mm = column->thick_mm;
	place->thickest_x_mm = x;
	place->thickest_y_mm = y;
}

static bool belongs(const struct search *search, const struct chisel_place *place, size_t i)
{
	const struct chisel_column *column = &search->column[i];

	return !search->done[i] && column->left && column->zone == place->zone &&
	       column->side == place->side;
}

/* Puts the neighbours of a column that belong to the place on the stack. Each
 * column comes there once. */
static void push_neighbours(struct search *search, const struct chisel_place *place, struct spot at)
{
	size_t nx = search->chisel->map.nx, ny = search->chisel->map.ny;

	for (size_t iy = at.iy > 0 ? at.iy - 1 : 0; iy <= at.iy + 1 && iy < ny; iy++)
		for (size_t ix = at.ix > 0 ? at.ix - 1 : 0; ix <= at.ix + 1 && ix < nx; ix++) {
			size_t k = iy * nx + ix;
			if (!belongs(search, place, k))
				continue;
			search->done[k] = true;
			search->stack[search->depth++] = (struct spot){ ix, iy };
		}
}

static struct chisel_place grow_from(struct search *search, struct spot first)
{
	const struct column_map *map = &search->chisel->map;
	size_t i = first.iy * map->nx + first.ix;
	struct chisel_place place = { .zone = search->column[i].zone,
				      .side = search->column[i].side,
				      .x_from_mm = INFINITY,
				      .x_to_mm = -INFINITY,
				      .y_from_mm = INFINITY,
				      .y_to_mm = -INFINITY };

	search->done[i] = true;
	search->stack[search->depth++] = first;
	while (search->depth > 0) {
		struct spot at = search->stack[--search->depth];
		add_column(&place, map, &search->column[at.iy * map->nx + at.ix], at);
		push_neighbours(search, &place, at);
	}
	return place;
}

static enum fault keep_place(struct search *search, const struct chisel_place *place,
			     struct fault_list *faults)
{
	struct chisel *chisel = search->chisel;

	if (place->area_mm2 < SPECK_MM2)
		return FAULT_NONE;
	struct chisel_place *grown =
		mem_grow(chisel->place, &search->capacity, chisel->place_count + 1, sizeof *grown);
	if (!grown)
		return fault_no_memory(faults, "what is left for the chisel");
	chisel->place = grown;
	chisel->place[chisel->place_count++] = *place;
	return FAULT_NONE;
}

/* Largest first; alike ones from the nut on, then across. */
static int compare(const void *a, const void *b)
{
	const struct chisel_place *p = a, *q = b;

	if (p->over_finished_mm3 != q->over_finished_mm3)
		return p->over_finished_mm3 > q->over_finished_mm3 ? -1 : 1;
	if (p->x_from_mm != q->x_from_mm)
		return p->x_from_mm < q->x_from_mm ? -1 : 1;
	return (p->y_from_mm > q->y_from_mm) - (p->y_from_mm < q->y_from_mm);
}

static enum fault find_all(struct search *search, struct fault_list *faults)
{
	const struct column_map *map = &search->chisel->map;
	enum fault fault = FAULT_NONE;

	if (!search->done || !search->stack)
		return fault_no_memory(faults, "what is left for the chisel");
	for (size_t iy = 0; iy < map->ny && fault == FAULT_NONE; iy++)
		for (size_t ix = 0; ix < map->nx && fault == FAULT_NONE; ix++) {
			size_t i = iy * map->nx + ix;
			if (search->done[i] || !search->column[i].left)
				continue;
			struct chisel_place place = grow_from(search, (struct spot){ ix, iy });
			fault = keep_place(search, &place, faults);
		}
	return fault;
}

enum fault chisel_places_find(struct chisel *chisel, const struct chisel_column *column,
			      struct fault_list *faults)
{
	size_t count = chisel->map.nx * chisel->map.ny;
	struct search search = { .chisel = chisel,
				 .column = column,
				 .done = mem_array(count, sizeof *search.done),
				 .stack = mem_array(count, sizeof *search.stack) };
	enum fault fault = find_all(&search, faults);

	if (fault == FAULT_NONE && chisel->place_count > 1)
		qsort(chisel->place, chisel->place_count, sizeof *chisel->place, compare);
	free(search.done);
	free(search.stack);
	return fault;
}
