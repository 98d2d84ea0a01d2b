/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one door to memory: sizes are checked for overflow before they reach
 * the allocator. Tests make chosen calls fail by wrapping the allocator at
 * link time, so no switch for that is needed here. */
#ifndef NECKHEW_BASE_MEM_H
#define NECKHEW_BASE_MEM_H

#include <stddef.h>

/* `count` zeroed items of `size` bytes, or NULL (also when count x size
 * overflows). count 0 gives a valid pointer. Free with free(). */
void *mem_array(size_t count, size_t size);

/* Makes room for at least `need` items in a growing array: reallocates to the
 * next capacity when needed and writes it to *capacity. Returns the array's
 * new place, or NULL with the old array untouched. */
void *mem_grow(void *array, size_t *capacity, size_t need, size_t size);

#endif
