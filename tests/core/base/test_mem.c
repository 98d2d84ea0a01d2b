/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes are checked before they reach the allocator. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/mem.h"

static void arrays_are_zeroed(void **state)
{
	(void)state;
	unsigned char *bytes = mem_array(1000, 7);

	assert_non_null(bytes);
	for (size_t i = 0; i < 7000; i++)
		assert_int_equal(bytes[i], 0);
	free(bytes);
}

static void empty_array_is_a_pointer(void **state)
{
	(void)state;
	void *array = mem_array(0, sizeof(double));

	assert_non_null(array);
	free(array);
}

/* Each product wraps round to a small number. */
static void overflow_is_refused(void **state)
{
	(void)state;
	assert_null(mem_array(SIZE_MAX, 2));
	assert_null(mem_array(SIZE_MAX / 8 + 1, 8));
	assert_null(mem_array(SIZE_MAX / 2 + 2, 2));
	assert_null(mem_array(2, SIZE_MAX / 2 + 2));
}

static void growing_keeps_items(void **state)
{
	(void)state;
	size_t capacity = 0, moves = 0;
	int *item = NULL;

	for (size_t count = 0; count < 5000; count++) {
		size_t before = capacity;
		int *grown = mem_grow(item, &capacity, count + 1, sizeof *item);
		assert_non_null(grown);
		assert_true(capacity >= count + 1);
		moves += capacity != before;
		item = grown;
		item[count] = (int)count;
	}
	for (size_t i = 0; i < 5000; i++)
		assert_int_equal(item[i], i);
	/* doubling: few reallocations, so that appending stays cheap */
	assert_true(moves <= 10);
	free(item);
}

static void room_enough_stays_put(void **state)
{
	(void)state;
	size_t capacity = 0;
	double *array = mem_grow(NULL, &capacity, 1, sizeof *array);

	assert_non_null(array);
	size_t first = capacity;
	assert_ptr_equal(mem_grow(array, &capacity, first, sizeof *array), array);
	assert_int_equal(capacity, first);
	free(array);
}

static void first_growth_meets_need(void **state)
{
	(void)state;
	size_t capacity = 0;
	char *array = mem_grow(NULL, &capacity, 100000, 1);

	assert_non_null(array);
	assert_true(capacity >= 100000);
	array[99999] = 1;
	free(array);
}

static void refused_growth_changes_nothing(void **state)
{
	(void)state;
	size_t capacity = 0;
	double *array = mem_grow(NULL, &capacity, 10, sizeof *array);

	assert_non_null(array);
	size_t first = capacity;
	array[9] = 4.5;
	assert_null(mem_grow(array, &capacity, SIZE_MAX, sizeof *array));
	assert_null(mem_grow(array, &capacity, SIZE_MAX / 2 + 2, 1));
	assert_null(mem_grow(array, &capacity, SIZE_MAX / 4, sizeof *array));
	assert_int_equal(capacity, first);
	assert_true(array[9] == 4.5);
	free(array);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(arrays_are_zeroed),
		cmocka_unit_test(empty_array_is_a_pointer),
		cmocka_unit_test(overflow_is_refused),
		cmocka_unit_test(growing_keeps_items),
		cmocka_unit_test(room_enough_stays_put),
		cmocka_unit_test(first_growth_meets_need),
		cmocka_unit_test(refused_growth_changes_nothing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
