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

/* What could not be done changes nothing. */
static enum fault ask(void *context, struct fault_list *faults)
{
	struct rounding round[SIDE_COUNT], before[SIDE_COUNT];

	memset(round, 0x5a, sizeof round);
	memcpy(before, round, sizeof round);
	enum fault fault = rounding_at(round, context, 100.0, faults);
	if (fault != FAULT_NONE)
		assert_memory_equal(round, before, sizeof round);
	return fault;
}

static void every_refusal_is_reported_and_changes_nothing(void **state)
{
	struct job job = sample_steel_job();
	struct neck *neck = sample_neck_built(&job.neck);

	(void)state;
	assert_true(memory_refuse_in_turn(ask, neck) >= 3);
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_refusal_is_reported_and_changes_nothing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
