/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/left.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"

/* Stock above this is not told apart, mm. */
#define STOCK_AMPLE_MM 0.5
/* Columns are looked at in a lattice about this far apart, mm. */
#define LOOK_MM 0.5
/* Tops are kept as single-precision figures; at a heel's height they resolve
 * this, mm. */
#define TOP_GRAIN_MM 2e-5

/* Stock beyond the allowance over one column; negative inside the neck. */
static double kept_over(const struct neck *neck, const struct facet_tree *tree, struct vec3 top)
{
	double height = neck_height_mm(neck, top.x, top.y);

	if (top.z < height)
		return top.z - height;
	return facet_tree_clearance_mm(tree, top, STOCK_AMPLE_MM);
}

/* The thinnest place of a row of columns. */
struct thinnest {
	double kept_mm;
	size_t ix;
};

static struct thinnest thinnest_of_row(const struct stock *stock, size_t iy, size_t stride,
				       const struct neck *neck, const struct facet_tree *tree)
{
	struct thinnest thinnest = { STOCK_AMPLE_MM, 0 };

	for (size_t ix = 0; ix < stock->nx; ix += stride) {
		size_t i = iy * stock->nx + ix;
		struct vec3 top = vec3_make(stock_x(stock, ix), stock_y(stock, iy), stock->top[i]);
		bool wood = stock->top[i] > stock->bottom[i];
		if (!wood && !isfinite(neck_height_mm(neck, top.x, top.y)))
			continue;
		double kept_mm = kept_over(neck, tree, top);
		if (kept_mm < thinnest.kept_mm)
			thinnest = (struct thinnest){ kept_mm, ix };
	}
	return thinnest;
}

static enum fault judge_stock(struct verdict *verdict, const struct stock *stock, double stray_mm,
			      const struct job *job, const struct neck *neck,
			      const struct facet_tree *tree, struct fault_list *faults)
{
	size_t stride = (size_t)larger(1.0, floor(LOOK_MM / stock->cell_mm + 0.5));
	size_t rows = (stock->ny + stride - 1) / stride, worst = 0;
	struct thinnest *row = mem_array(rows, sizeof *row);
	struct vec3 zero = job->fixture.work_zero_mm;

	if (!row)
		return fault_no_memory(faults, "the wood that is left");
	verdict_judged(verdict, PROMISE_STOCK, -TOL_PROOF_MM);
#pragma omp parallel for schedule(dynamic)
	for (long k = 0; k < (long)rows; k++)
		row[k] = thinnest_of_row(stock, (size_t)k * stride, stride, neck, tree);
	for (size_t k = 1; k < rows; k++)
		if (row[k].kept_mm < row[worst].kept_mm)
			worst = k;
	double least = row[worst].kept_mm - stray_mm;
	verdict_figure(verdict, PROMISE_STOCK, least);
	if (least < -TOL_PROOF_MM - TOP_GRAIN_MM)
		verdict_break(verdict, PROMISE_STOCK, 0, 0,
			      "The hand-finish stock is %.3f mm too thin near X %.1f Y %.1f.",
			      -least, stock_x(stock, row[worst].ix) - zero.x,
			      stock_y(stock, worst * stride) - zero.y);
	free(row);
	return FAULT_NONE;
}

static void judge_channel(struct verdict *verdict, const struct stock *stock, double stray_mm,
			  const struct job *job)
{
	const struct channel_spec *channel = &job->neck.channel;
	double least = INFINITY, at = 0.0;

	verdict_judged(verdict, PROMISE_CHANNEL, channel->least_wood_mm);
	if (channel->width_mm <= 0.0)
		return;
	size_t ix1 = stock_ix(stock, channel->to_mm);
	size_t iy1 = stock_iy(stock, channel->width_mm / 2.0);
	for (size_t iy = stock_iy(stock, -channel->width_mm / 2.0); iy <= iy1; iy++)
		for (size_t ix = stock_ix(stock, channel->from_mm); ix <= ix1; ix++) {
			double x = stock_x(stock, ix);
			double wood = stock->top[iy * stock->nx + ix] - channel->depth_mm;
			if (x < channel->from_mm || x > channel->to_mm || wood >= least)
				continue;
			least = wood;
			at = x;
		}
	if (!isfinite(least))
		return;
	least -= stray_mm;
	verdict_figure(verdict, PROMISE_CHANNEL, least);
	if (least < channel->least_wood_mm)
		verdict_break(verdict, PROMISE_CHANNEL, 0, 0,
			      "Only %.3f mm of wood would stay over the channel, %.1f mm from the "
			      "nut; %.3f mm are asked for.",
			      least, at, channel->least_wood_mm);
}

enum fault left_judge(struct verdict *verdict, const struct stock *stock, double stray_mm,
		      const struct job *job, const struct neck *neck, const struct facet_tree *tree,
		      struct fault_list *faults)
{
	struct stock least = *stock;

	least.top = mem_array(stock->nx * stock->ny, sizeof(float));
	if (!least.top)
		return fault_no_memory(faults, "the wood that is left");
	stock_confine(least.top, stock, &job->blank, STOCK_LEAST);
	enum fault fault = judge_stock(verdict, &least, stray_mm, job, neck, tree, faults);
	judge_channel(verdict, &least, stray_mm, job);
	free(least.top);
	return fault;
}
