/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/solids.h"

#include <math.h>

#include "mesh/blank_solid.h"
#include "mesh/finished_solid.h"
#include "mesh/height_solid.h"
#include "mesh/stl.h"
#include "mesh/to_edge.h"

/* Rounds up what division of decimal cells rounded down: 0.5 / 0.1 is 5. */
#define STRIDE_SLACK 1e-9

enum fault solids_write_finished(const char *path, const struct neck *neck,
				 struct vec3 work_zero_mm, struct fault_list *faults)
{
	struct stl_file file;
	enum fault fault = stl_begin(&file, path, "finished neck, program coordinates, mm", faults);

	if (fault)
		return fault;
	struct triangle_sink sink = stl_sink(&file);
	fault = finished_solid(&sink, neck, work_zero_mm, faults);
	enum fault end = stl_end(&file, faults);
	return fault ? fault : end;
}

enum fault solids_write_blank(const char *path, const struct blank *blank, struct vec3 work_zero_mm,
			      struct fault_list *faults)
{
	struct stl_file file;
	enum fault fault = stl_begin(&file, path, "blank, program coordinates, mm", faults);

	if (fault)
		return fault;
	struct triangle_sink sink = stl_sink(&file);
	fault = blank_solid(&sink, blank, work_zero_mm, faults);
	enum fault end = stl_end(&file, faults);
	return fault ? fault : end;
}

static void count_triangle(void *context, const struct mesh_point corner[3])
{
	size_t *count = context;

	(void)corner;
	(*count)++;
}

enum fault solids_roughed_stride(size_t *stride, const struct column_map *top,
				 const struct column_map *bottom, size_t most_bytes,
				 struct fault_list *faults)
{
	size_t count, widest = top->nx > top->ny ? top->nx : top->ny;
	double columns = floor(SOLIDS_CELL_MM / top->cell_mm + STRIDE_SLACK);
	const struct triangle_sink counter = { count_triangle, &count };

	/* written so that a cell of NAN or 0 also ends at a valid stride */
	*stride = columns >= 1.0 && columns < (double)widest ? (size_t)columns : 1;
	for (;; (*stride)++) {
		count = 0;
		enum fault fault = height_solid(&counter, top, bottom, *stride,
						vec3_make(0.0, 0.0, 0.0), faults);
		if (fault || *stride >= widest ||
		    STL_HEADER_BYTES + 4 + count * STL_TRIANGLE_BYTES <= most_bytes)
			return fault;
	}
}

enum fault solids_write_roughed(const char *path, const struct blank *blank,
				const struct column_map *top, const struct column_map *bottom,
				struct vec3 work_zero_mm, struct fault_list *faults)
{
	struct stl_file file;
	size_t stride;
	enum fault fault = solids_roughed_stride(&stride, top, bottom, SOLIDS_MOST_BYTES, faults);

	if (!fault)
		fault = stl_begin(&file, path, "roughed wood, program coordinates, mm", faults);
	if (fault)
		return fault;
	struct triangle_sink sink = stl_sink(&file);
	struct to_edge edge = { &sink, blank, work_zero_mm, top->cell_mm * (double)stride };
	struct triangle_sink to_edge = to_edge_sink(&edge);
	fault = height_solid(blank ? &to_edge : &sink, top, bottom, stride, work_zero_mm, faults);
	enum fault end = stl_end(&file, faults);
	return fault ? fault : end;
}
