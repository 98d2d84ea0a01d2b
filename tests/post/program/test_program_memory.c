/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writer and reader when memory runs out: each request refused in turn. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "program/read.h"
#include "program/write.h"
#include "support/memory.h"

#define MOVES 200

static struct motion_list many_moves(void)
{
	struct motion_list list = { 0 };

	for (int i = 0; i < MOVES; i++)
		assert_int_equal(motion_list_add(&list,
						 &(struct motion){ .kind = MOTION_RAPID,
								   .to = { i, 0.0, 0.0 },
								   .known = KNOWN_ALL },
						 NULL),
				 FAULT_NONE);
	assert_int_equal(motion_list_add(&list, &(struct motion){ .kind = MOTION_END }, NULL),
			 FAULT_NONE);
	return list;
}

/* Growing by doubling from 16: a handful of requests, each the last for once. */
static void writer_out_of_memory(void **state)
{
	(void)state;
	const struct machine machine = { .decimals = 3 };
	struct motion_list list = many_moves();
	size_t refusals = 0;

	for (;; refusals++) {
		struct program_text text = { 0 };
		struct fault_list faults = { 0 };
		memory_refuse_after(refusals);
		const enum fault fault = program_write(&text, &list, NULL, &machine, &faults);
		if (memory_serve_all() <= refusals) {
			assert_int_equal(fault, FAULT_NONE);
			program_text_free(&text);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
		assert_null(text.bytes);
		assert_int_equal(text.capacity, 0);
	}
	assert_true(refusals >= 5);
	motion_list_free(&list);
}

/* Returns where the next text goes. */
static char *append(char *at, const char *text)
{
	while (*text)
		*at++ = *text++;
	return at;
}

static void reader_out_of_memory(void **state)
{
	(void)state;
	const struct machine machine = { .decimals = 3 };
	static const char head[] = "G21\nG17 G90 G94\n", line[] = "G0 X1\n", end[] = "M2\n";
	char text[sizeof head + MOVES * sizeof line + sizeof end], *at = text;
	size_t refusals = 0;

	at = append(at, head);
	for (int i = 0; i < MOVES; i++)
		at = append(at, line);
	at = append(at, end);
	for (;; refusals++) {
		struct motion_list list = { 0 };
		struct fault_list faults = { 0 };
		struct read_fault first;
		memory_refuse_after(refusals);
		const enum fault fault = program_read(&list, text, (size_t)(at - text), "part.nc",
						      &machine, &first, &faults);
		if (memory_serve_all() <= refusals) {
			assert_int_equal(fault, FAULT_NONE);
			assert_int_equal(list.count, MOVES + 1);
			motion_list_free(&list);
			break;
		}
		/* no fault of the text: no block is to blame */
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(first.block, 0);
		assert_int_equal(faults.count, 1);
		assert_int_equal(faults.record[0].code, FAULT_MEMORY);
		assert_null(list.item);
	}
	assert_true(refusals >= 4);
}

static void freeing_nothing(void **state)
{
	(void)state;
	struct program_text text = { 0 };

	program_text_free(NULL);
	program_text_free(&text);
	assert_null(text.bytes);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(writer_out_of_memory),
		cmocka_unit_test(reader_out_of_memory),
		cmocka_unit_test(freeing_nothing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
