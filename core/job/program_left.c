/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/program_left.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "model/facet_tree.h"

/* A column's share counts with a slope of at most this, as in the figures of
 * the hand-finish stock. */
#define UPRIGHT_NORMAL_Z 0.1

struct left {
	double mm3, most_mm;
};

/* One column whose wood stands up to `top`. */
static struct left left_at(const struct facet_tree *tree, const struct facets *facets,
			   struct vec3 top, double area_mm2)
{
	struct left left = { 0.0, 0.0 };
	struct nearest nearest;

	if (!facet_tree_nearest(tree, top, &nearest))
		return left;
	double over = nearest.distance_mm - facets->item[nearest.facet].allowance_mm;
	if (over <= 0.0)
		return left;
	double rise = (top.z - nearest.point.z) / nearest.distance_mm;
	left.most_mm = over;
	left.mm3 = over * area_mm2 / larger(rise, UPRIGHT_NORMAL_Z);
	return left;
}

/* What stands on one row of the maps; rows are put together in their order,
 * whatever the number of threads. */
static struct left left_on_row(const struct job_result *result, const struct job *job,
			       const struct facet_tree *tree, const struct facets *facets,
			       const double *standing, size_t iy)
{
	const struct column_map *map = &result->finished;
	struct left row = { 0.0, 0.0 };

	for (size_t ix = 0; ix < map->nx; ix++) {
		size_t i = iy * map->nx + ix;
		double x = map->x0_mm + (double)ix * map->cell_mm;
		if (!isfinite(map->value[i]) || !isfinite(standing[i]) || x < job->carve.from_mm ||
		    x > job->carve.to_mm)
			continue;
		struct vec3 top = vec3_make(x, map->y0_mm + (double)iy * map->cell_mm, standing[i]);
		struct left one = left_at(tree, facets, top, map->cell_mm * map->cell_mm);
		row.mm3 += one.mm3;
		row.most_mm = larger(row.most_mm, one.most_mm);
	}
	return row;
}

static enum fault measure_one(struct program_figures *program, const struct job_result *result,
			      const struct job *job, const struct facet_tree *tree,
			      const struct facets *facets, const double *standing,
			      struct fault_list *faults)
{
	size_t rows = result->finished.ny;
	struct left *row = mem_array(rows, sizeof *row);

	if (!row)
		return fault_no_memory(faults, "what a program leaves");
#pragma omp parallel for schedule(dynamic)
	for (long iy = 0; iy < (long)rows; iy++)
		row[iy] = left_on_row(result, job, tree, facets, standing, (size_t)iy);
	for (size_t iy = 0; iy < rows; iy++) {
		program->left_mm3 += row[iy].mm3;
		program->left_most_mm = larger(program->left_most_mm, row[iy].most_mm);
	}
	free(row);
	return FAULT_NONE;
}

/* `standing` has room for what stands in each column; it goes down from program to
 * program. */
static enum fault measure_all(struct job_result *result, const struct job *job,
			      const struct facet_tree *tree, const struct facets *facets,
			      double *standing, struct fault_list *faults)
{
	size_t columns = result->finished.nx * result->finished.ny, cut = 0;
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < columns; i++)
		standing[i] = (double)result->blank_top.value[i];
	for (size_t p = 0; p < result->program_count && fault == FAULT_NONE; p++) {
		for (size_t k = 0; k < result->program[p].pass_count; k++, cut++)
			for (size_t i = 0; i < columns; i++)
				standing[i] -= (double)result->cut[cut].value[i];
		fault = measure_one(&result->program[p], result, job, tree, facets, standing,
				    faults);
	}
	return fault;
}

enum fault program_left_measure(struct job_result *result, const struct job *job,
				const struct facets *facets, struct fault_list *faults)
{
	double *standing = mem_array(result->finished.nx * result->finished.ny, sizeof *standing);
	struct facet_tree tree = { 0 };

	if (!standing)
		return fault_no_memory(faults, "what a program leaves");
	enum fault fault = facet_tree_build(&tree, facets, faults);
	if (fault == FAULT_NONE)
		fault = measure_all(result, job, &tree, facets, standing, faults);
	facet_tree_free(&tree);
	free(standing);
	return fault;
}
