/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/runs.h"

#include <stdlib.h>

#include "base/mem.h"

struct track *runs_add(struct runs *runs)
{
	struct track *grown = mem_grow(runs->run, &runs->capacity, runs->count + 1, sizeof *grown);

	if (!grown)
		return NULL;
	runs->run = grown;
	runs->run[runs->count] = (struct track){ 0 };
	return &runs->run[runs->count++];
}

enum fault runs_take(struct runs *to, struct runs *from, struct fault_list *faults)
{
	for (size_t i = 0; i < from->count; i++) {
		struct track *place = runs_add(to);
		if (!place)
			return fault_no_memory(faults, "a pass");
		*place = from->run[i];
		from->run[i] = (struct track){ 0 };
	}
	from->count = 0;
	return FAULT_NONE;
}

void runs_free(struct runs *runs)
{
	if (!runs)
		return;
	for (size_t i = 0; i < runs->count; i++)
		track_free(&runs->run[i]);
	free(runs->run);
	*runs = (struct runs){ 0 };
}
