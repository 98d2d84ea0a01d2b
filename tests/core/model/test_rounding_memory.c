/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facet lines when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/rounding.h"
#include "support/memory.h"
#include "support/sample_job.h"

static void every_refusal_is_reported_and_changes_nothing(void **state)
{
	struct job job = sample_steel_job();
	struct neck *neck = sample_neck_built(&job.neck);
	size_t grants = 0;

	(void)state;
	for (;; grants++) {
		struct fault_list faults = { 0 };
		struct rounding round[SIDE_COUNT], before[SIDE_COUNT];
		memset(round, 0x5a, sizeof round);
		memcpy(before, round, sizeof round);
		memory_refuse_after(grants);
		enum fault code = rounding_at(round, neck, 100.0, &faults);
		bool done = memory_serve_all() <= grants;
		assert_int_equal(code, done ? FAULT_NONE : FAULT_MEMORY);
		assert_int_equal(faults.count, done ? 0 : 1);
		if (done)
			break;
		assert_memory_equal(round, before, sizeof round);
	}
	assert_true(grants >= 3);
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_refusal_is_reported_and_changes_nothing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
