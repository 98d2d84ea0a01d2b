/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/memory.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>

#include <cmocka.h>

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

size_t memory_refuse_in_turn(memory_work *work, void *context)
{
	for (size_t grants = 0;; grants++) {
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault fault = work(context, &faults);
		bool done = memory_serve_all() <= grants;
		assert_int_equal(fault, done ? FAULT_NONE : FAULT_MEMORY);
		assert_int_equal(faults.count, done ? 0 : 1);
		if (done)
			return grants;
	}
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
