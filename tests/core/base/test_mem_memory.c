/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The allocator's own refusal comes through unchanged. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/mem.h"
#include "support/memory.h"

static void array_refused(void **state)
{
	(void)state;
	memory_refuse_after(0);
	void *array = mem_array(10, 8);
	assert_int_equal(memory_serve_all(), 1);
	assert_null(array);
}

static void growth_refused(void **state)
{
	(void)state;
	size_t capacity = 0;
	int *array = mem_grow(NULL, &capacity, 1, sizeof *array);

	assert_non_null(array);
	size_t first = capacity;
	array[0] = 7;
	memory_refuse_after(0);
	int *grown = mem_grow(array, &capacity, first + 1, sizeof *array);
	assert_int_equal(memory_serve_all(), 1);
	assert_null(grown);
	assert_int_equal(capacity, first);
	assert_int_equal(array[0], 7);
	free(array);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(array_refused),
		cmocka_unit_test(growth_refused),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
