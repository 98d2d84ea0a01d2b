/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tracing when memory runs out. */
#include <gsl/gsl_errno.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "support/memory.h"
#include "trace/trace.h"

#define POINTS 40

static void fill(struct trace_point point[POINTS])
{
	for (int i = 0; i < POINTS; i++) {
		double a = PI * i / (POINTS - 1.0);
		point[i] = (struct trace_point){ .y_mm = 22.0 * cos(a), .z_mm = 17.0 * sin(a) };
	}
}

static void every_refusal_is_told(void **state)
{
	(void)state;
	size_t grants = 0;

	for (;; grants++) {
		struct trace_point point[POINTS];
		struct trace_section section;
		struct trace_ask ask = { 0 };
		struct fault_list faults = { 0 };
		fill(point);
		memory_refuse_after(grants);
		enum fault fault = trace_section_make(&section, point, POINTS, &ask, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
	}
	assert_true(grants > 10);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(every_refusal_is_told) };

	(void)gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
