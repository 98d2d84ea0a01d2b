/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "motion/motion.h"

#include <stdlib.h>

#include "base/mem.h"

enum fault motion_list_add(struct motion_list *list, const struct motion *motion,
			   struct fault_list *faults)
{
	struct motion *grown =
		mem_grow(list->item, &list->capacity, list->count + 1, sizeof *grown);
	if (!grown)
		return fault_no_memory(faults, "the list of moves");
	list->item = grown;
	list->item[list->count++] = *motion;
	return FAULT_NONE;
}

void motion_list_free(struct motion_list *list)
{
	if (!list)
		return;
	free(list->item);
	*list = (struct motion_list){ 0 };
}
