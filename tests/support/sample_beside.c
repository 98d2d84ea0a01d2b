/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sample_beside.h"

static struct tab_figures tab(double x_mm, double side)
{
	return (struct tab_figures){ .tab = { .x_mm = x_mm,
					      .width_mm = 8.25,
					      .side = side,
					      .inner_mm = 24.5,
					      .outer_mm = 44.0,
					      .height_mm = 3.13 },
				     .least_height_mm = 3.12,
				     .least_width_mm = 8.2 };
}

void sample_beside(struct job_result *result)
{
	result->beside = (struct beside_figures){
		.channel_mm = 16.5,
		.rail_from_mm = { -31.5, -30.5 },
		.rail_to_mm = { 355.5, 356.5 },
		.rail_top_mm = 86.3,
		.tab_count = 2,
		.tab = { tab(61.5, -1.0), tab(258.75, 1.0) },
		.cove = { 5.87, 4.63 },
		.cove_x_mm = 301.5,
		.cove_side = 1,
		.cove_mm3 = 5432.1,
		.skin_mm = 0.75,
	};
	for (size_t i = 0; i < result->station_count; i++)
		for (int side = 0; side < 2; side++)
			result->station[i].cove[side] =
				(struct cove_figures){ 3.0 + 0.25 * (double)i + 0.5 * side,
						       2.0 + 0.125 * (double)i };
}
