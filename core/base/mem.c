/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/mem.h"

#include <stdint.h>
#include <stdlib.h>

void *mem_array(size_t count, size_t size)
{
	if (count == 0)
		count = 1;
	if (size != 0 && count > SIZE_MAX / size)
		return NULL;
	return calloc(count, size);
}

void *mem_grow(void *array, size_t *capacity, size_t need, size_t size)
{
	if (array && need <= *capacity)
		return array;
	size_t wanted = *capacity < 16 ? 16 : *capacity;
	while (wanted < need) {
		if (wanted > SIZE_MAX / 2)
			return NULL;
		wanted *= 2;
	}
	if (size != 0 && wanted > SIZE_MAX / size)
		return NULL;
	void *grown = realloc(array, wanted * size);
	if (grown)
		*capacity = wanted;
	return grown;
}
