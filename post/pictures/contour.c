/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/contour.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>

#include "base/mem.h"

static double block_mean(const struct column_map *map, size_t block, size_t bx, size_t by,
			 double ceiling)
{
	double sum = 0.0;
	size_t count = 0;

	for (size_t iy = by * block; iy < (by + 1) * block; iy++)
		for (size_t ix = bx * block; ix < (bx + 1) * block; ix++) {
			double value = (double)map->value[iy * map->nx + ix];
			if (isnan(value))
				continue;
			sum += fmin(value, ceiling);
			count++;
		}
	return 2 * count >= block * block ? sum / (double)count : NAN;
}

enum fault contour_smooth(struct column_map *out, const struct column_map *map, size_t block,
			  double ceiling, struct fault_list *faults)
{
	double shift = ((double)block - 1.0) / 2.0 * map->cell_mm;

	*out = (struct column_map){ .nx = map->nx / block,
				    .ny = map->ny / block,
				    .x0_mm = map->x0_mm + shift,
				    .y0_mm = map->y0_mm + shift,
				    .cell_mm = map->cell_mm * (double)block };
	out->value = mem_array(out->nx * out->ny, sizeof *out->value);
	if (!out->value)
		return fault_no_memory(faults, "contour lines");
	for (size_t by = 0; by < out->ny; by++)
		for (size_t bx = 0; bx < out->nx; bx++)
			out->value[by * out->nx + bx] =
				(float)block_mean(map, block, bx, by, ceiling);
	return FAULT_NONE;
}

void contour_map_free(struct column_map *map)
{
	if (!map)
		return;
	free(map->value);
	*map = (struct column_map){ 0 };
}

/* A grid edge is named by its lower column i: 2 i runs along x, 2 i + 1 along
 * y. A segment crosses a cell from one edge to another; an edge meets at most
 * two segments, one per neighbouring cell. */
struct segment {
	size_t edge[2];
	bool used;
};

#define NO_SEGMENT SIZE_MAX

struct tracer {
	const struct column_map *map;
	double level;
	struct segment *segment;
	size_t count, capacity;
	size_t *at_edge; /* two per edge */
	double *x, *y; /* of the line being followed */
};

static bool add_segment(struct tracer *t, size_t from, size_t to)
{
	struct segment *grown =
		mem_grow(t->segment, &t->capacity, t->count + 1, sizeof *t->segment);

	if (!grown)
		return false;
	t->segment = grown;
	t->segment[t->count] = (struct segment){ { from, to }, false };
	for (size_t side = 0; side < 2; side++) {
		size_t *slot = &t->at_edge[2 * t->segment[t->count].edge[side]];
		slot[slot[0] != NO_SEGMENT] = t->count;
	}
	t->count++;
	return true;
}

/* The segments of the cell whose lowest corner is (ix, iy). Edges in order:
 * bottom, right, top, left. */
static bool cell_segments(struct tracer *t, size_t ix, size_t iy)
{
	size_t nx = t->map->nx, i = iy * nx + ix;
	const float *v = t->map->value;
	const double corner[4] = { (double)v[i], (double)v[i + 1], (double)v[i + nx + 1],
				   (double)v[i + nx] };
	const size_t edge[4] = { 2 * i, 2 * (i + 1) + 1, 2 * (i + nx), 2 * i + 1 };
	size_t crossed[4], count = 0;
	double sum = corner[0] + corner[1] + corner[2] + corner[3];

	if (isnan(sum))
		return true;
	for (size_t k = 0; k < 4; k++)
		if ((corner[k] >= t->level) != (corner[(k + 1) % 4] >= t->level))
			crossed[count++] = edge[k];
	if (count == 2)
		return add_segment(t, crossed[0], crossed[1]);
	if (count < 4)
		return true;
	/* A saddle: corner 0 is cut off when the middle belongs to the others. */
	size_t shift = (corner[0] >= t->level) == (sum / 4.0 >= t->level) ? 0 : 1;
	return add_segment(t, crossed[shift], crossed[shift + 1]) &&
	       add_segment(t, crossed[shift + 2], crossed[(shift + 3) % 4]);
}

static void edge_point(const struct tracer *t, size_t edge, double *x, double *y)
{
	const struct column_map *map = t->map;
	size_t i = edge / 2, ix = i % map->nx, iy = i / map->nx;
	bool upright = edge % 2 == 1;
	double a = (double)map->value[i], b = (double)map->value[i + (upright ? map->nx : 1)];
	double share = (t->level - a) / (b - a);

	*x = map->x0_mm + ((double)ix + (upright ? 0.0 : share)) * map->cell_mm;
	*y = map->y0_mm + ((double)iy + (upright ? share : 0.0)) * map->cell_mm;
}

/* Walks from segment s through its side `out` to the line's end; returns the
 * number of edges met and writes the last one. Points are kept on request. */
static size_t walk(struct tracer *t, size_t s, size_t out, bool keep, size_t *last_segment,
		   size_t *last_side)
{
	size_t start = s, met = 0;

	for (;;) {
		size_t edge = t->segment[s].edge[out];
		if (keep) {
			t->segment[s].used = true;
			edge_point(t, edge, &t->x[met + 1], &t->y[met + 1]);
		}
		met++;
		*last_segment = s;
		*last_side = out;
		const size_t *pair = &t->at_edge[2 * edge];
		size_t next = pair[0] == s ? pair[1] : pair[0];
		if (next == NO_SEGMENT || next == start)
			return met;
		out = t->segment[next].edge[0] == edge ? 1 : 0;
		s = next;
	}
}

/* Finds an end of the line through segment s, then follows it to the other. */
static void follow(struct tracer *t, size_t s, contour_line *line, void *context)
{
	size_t end, side, ignored_segment, ignored_side;

	(void)walk(t, s, 0, false, &end, &side);
	edge_point(t, t->segment[end].edge[side], &t->x[0], &t->y[0]);
	size_t met = walk(t, end, 1 - side, true, &ignored_segment, &ignored_side);
	line(context, met + 1, t->x, t->y);
}

static bool trace_all(struct tracer *t, contour_line *line, void *context)
{
	const struct column_map *map = t->map;

	for (size_t iy = 0; iy + 1 < map->ny; iy++)
		for (size_t ix = 0; ix + 1 < map->nx; ix++)
			if (!cell_segments(t, ix, iy))
				return false;
	t->x = mem_array(t->count + 1, sizeof *t->x);
	t->y = mem_array(t->count + 1, sizeof *t->y);
	if (!t->x || !t->y)
		return false;
	for (size_t s = 0; s < t->count; s++)
		if (!t->segment[s].used)
			follow(t, s, line, context);
	return true;
}

enum fault contour_trace(const struct column_map *map, double level, contour_line *line,
			 void *context, struct fault_list *faults)
{
	size_t slots = 4 * map->nx * map->ny;
	struct tracer t = { .map = map, .level = level };
	bool good = false;

	t.at_edge = mem_array(slots, sizeof *t.at_edge);
	if (t.at_edge) {
		for (size_t i = 0; i < slots; i++)
			t.at_edge[i] = NO_SEGMENT;
		good = trace_all(&t, line, context);
	}
	free(t.y);
	free(t.x);
	free(t.at_edge);
	free(t.segment);
	return good ? FAULT_NONE : fault_no_memory(faults, "contour lines");
}
