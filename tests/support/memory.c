/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/memory.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>

/* The linker offers each wrapped name under these two, and chose the spelling.
 * NOLINTBEGIN(bugprone-reserved-identifier,cert-dcl37-c,cert-dcl51-cpp) */
void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);

/* An allocator has no argument to carry these in. Atomic, because core may ask
 * for memory from several threads. */
static atomic_size_t requests;
static atomic_size_t refused = SIZE_MAX;

void memory_refuse_after(size_t grants)
{
	atomic_store(&requests, 0);
	atomic_store(&refused, grants);
}

size_t memory_serve_all(void)
{
	atomic_store(&refused, SIZE_MAX);
	return atomic_load(&requests);
}

static bool is_refused(void)
{
	return atomic_fetch_add(&requests, 1) == atomic_load(&refused);
}

void *__wrap_malloc(size_t size)
{
	return is_refused() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
	return is_refused() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size)
{
	return is_refused() ? NULL : __real_realloc(old, size);
}
/* NOLINTEND(bugprone-reserved-identifier,cert-dcl37-c,cert-dcl51-cpp) */
