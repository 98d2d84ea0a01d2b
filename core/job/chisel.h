/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From columns marked as kept from every cutter to the map, volumes and places
 * that are left for the chisel. */
#ifndef NECKHEW_JOB_CHISEL_H
#define NECKHEW_JOB_CHISEL_H

#include <stdbool.h>

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facet_tree.h"
#include "model/neck.h"
#include "stock/stock.h"

struct chisel_ask {
	const struct job *job;
	const struct neck *neck;
	const struct facets *facets;
	const struct facet_tree *tree; /* over the facets */
	const struct stock *stock; /* as it stands after the last program */
};

/* `left`: one mark for each column of `grid`, whose columns are also columns of
 * the stock. Each column stands for one cell of the grid, cut off at the blank's
 * outline or drawn out to it; volumes are sums over columns, heights are exact.
 * Release with the job_result it belongs to. */
enum fault chisel_measure(struct chisel *out, const struct chisel_ask *ask,
			  const struct column_map *grid, const bool *left,
			  struct fault_list *faults);

#endif
