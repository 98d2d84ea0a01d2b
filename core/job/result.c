/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/result.h"

#include <stdlib.h>

static void free_line(struct profile_line *line)
{
	free(line->x_mm);
	free(line->z_mm);
}

void job_result_free(struct job_result *result)
{
	if (!result)
		return;
	for (size_t i = 0; result->program && i < result->program_count; i++)
		free(result->program[i].pass);
	free(result->program);
	for (size_t i = 0; result->station && i < result->station_count; i++)
		free(result->station[i].centre.standing_mm);
	free(result->station);
	for (size_t i = 0; result->cut && i < result->cut_count; i++)
		free(result->cut[i].value);
	free(result->cut);
	free(result->chisel.map.value);
	free(result->chisel.place);
	free(result->stickout);
	free(result->stock.value);
	free(result->roughed.value);
	free(result->finished.value);
	free(result->blank_top.value);
	free(result->blank_bottom.value);
	free_line(&result->finished_side);
	free_line(&result->roughed_side);
	free_line(&result->blank_side);
	*result = (struct job_result){ 0 };
}
