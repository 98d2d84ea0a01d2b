/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/chisel_places.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Smaller than this is a speck, mm2. */
#define SPECK_MM2 1.0

struct search {
	struct chisel *chisel;
	const struct chisel_column *column;
	bool *done;
	size_t *stack; /* columns whose neighbours are still to be looked at */
	size_t depth, capacity; /* of the list of places */
};

static void add_column(struct chisel_place *place, const struct column_map *map,
		       const struct chisel_column *column, size_t i)
{
	double half = map->cell_mm / 2.0, area = column->area_mm2;
	size_t iy = i / map->nx;
	double x = map->x0_mm + (double)(i % map->nx) * map->cell_mm;
	double y = map->y0_mm + (double)iy * map->cell_mm;

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

/* Puts the neighbours of column i that belong to the place on the stack. Each
 * column comes there once. */
static void push_neighbours(struct search *search, const struct chisel_place *place, size_t i)
{
	size_t nx = search->chisel->map.nx, ny = search->chisel->map.ny;
	size_t x0 = i % nx, y0 = i / nx;

	for (size_t y = y0 > 0 ? y0 - 1 : 0; y <= y0 + 1 && y < ny; y++)
		for (size_t x = x0 > 0 ? x0 - 1 : 0; x <= x0 + 1 && x < nx; x++) {
			size_t k = y * nx + x;
			if (!belongs(search, place, k))
				continue;
			search->done[k] = true;
			search->stack[search->depth++] = k;
		}
}

static struct chisel_place grow_from(struct search *search, size_t first)
{
	const struct chisel_column *column = search->column;
	struct chisel_place place = { .zone = column[first].zone,
				      .side = column[first].side,
				      .x_from_mm = INFINITY,
				      .x_to_mm = -INFINITY,
				      .y_from_mm = INFINITY,
				      .y_to_mm = -INFINITY };

	search->done[first] = true;
	search->stack[search->depth++] = first;
	while (search->depth > 0) {
		size_t i = search->stack[--search->depth];
		add_column(&place, &search->chisel->map, &column[i], i);
		push_neighbours(search, &place, i);
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

enum fault chisel_places_find(struct chisel *chisel, const struct chisel_column *column,
			      struct fault_list *faults)
{
	size_t count = chisel->map.nx * chisel->map.ny;
	struct search search = { .chisel = chisel,
				 .column = column,
				 .done = mem_array(count, sizeof *search.done),
				 .stack = mem_array(count, sizeof *search.stack) };
	enum fault fault = FAULT_NONE;

	if (!search.done || !search.stack)
		fault = fault_no_memory(faults, "what is left for the chisel");
	for (size_t i = 0; i < count && fault == FAULT_NONE; i++) {
		if (search.done[i] || !column[i].left)
			continue;
		struct chisel_place place = grow_from(&search, i);
		fault = keep_place(&search, &place, faults);
	}
	if (fault == FAULT_NONE && chisel->place_count > 1)
		qsort(chisel->place, chisel->place_count, sizeof *chisel->place, compare);
	free(search.done);
	free(search.stack);
	return fault;
}
