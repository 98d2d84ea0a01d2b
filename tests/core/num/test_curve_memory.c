/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Curves asked for when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "num/curve.h"
#include "support/memory.h"

static void every_refusal_is_reported(void **state)
{
	(void)state;
	const double x[] = { 0.0, 1.0, 2.0 }, y[] = { 0.0, 1.0, 4.0 };
	size_t grants = 0;

	for (;; grants++) {
		struct fault_list faults = { 0 };
		struct curve curve;
		memory_refuse_after(grants);
		enum fault fault = curve_steffen(&curve, 3, x, y, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			curve_free(&curve);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
		assert_null(curve.x);
		assert_null(curve.y);
		assert_null(curve.slope);
	}
	assert_true(grants > 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(every_refusal_is_reported) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
