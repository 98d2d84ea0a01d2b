/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A neck file read when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "config/read.h"
#include "support/memory.h"

static void every_refusal_is_reported(void **state)
{
	(void)state;
	static const struct job zero;
	size_t grants = 0;

	for (;; grants++) {
		struct job job;
		struct config_places places = { 0 };
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault code =
			config_load(&job, &places, "examples/steel-string/neck.cfg", &faults);
		size_t requests = memory_serve_all();
		config_places_free(&places);
		if (requests <= grants) {
			assert_int_equal(code, FAULT_NONE);
			assert_int_equal(faults.count, 0);
			break;
		}
		assert_int_equal(code, FAULT_MEMORY);
		assert_true(faults.count > 0);
		assert_int_equal(faults.record[0].code, FAULT_MEMORY);
		assert_memory_equal(&job, &zero, sizeof zero);
	}
	assert_true(grants > 10);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(every_refusal_is_reported) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
