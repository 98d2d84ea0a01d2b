/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Joined columns of what is left for the chisel, place by place. */
#ifndef NECKHEW_JOB_CHISEL_PLACES_H
#define NECKHEW_JOB_CHISEL_PLACES_H

#include <stdbool.h>

#include "base/fault.h"
#include "job/result.h"

/* One column of the map. */
struct chisel_column {
	bool left; /* the rest counts only if true */
	enum stock_zone zone;
	int side; /* as in struct chisel_place */
	double area_mm2; /* of the blank, in plan, that it stands for */
	double over_allowance_mm, over_finished_mm; /* straight down */
	double thick_mm; /* the shortest way from its top to the finished surface */
};

/* Fills place and place_count from the columns of chisel->map. Columns join
 * over edges and corners; what is smaller than a square millimetre is no place. */
enum fault chisel_places_find(struct chisel *chisel, const struct chisel_column *column,
			      struct fault_list *faults);

#endif
