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

static enum fault make(void *context, struct fault_list *faults)
{
	struct trace_point point[POINTS];
	struct trace_section section;
	struct trace_ask ask = { 0 };

	(void)context;
	fill(point);
	return trace_section_make(&section, point, POINTS, &ask, faults);
}

static void every_refusal_is_told(void **state)
{
	(void)state;
	assert_true(memory_refuse_in_turn(make, NULL) > 10);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(every_refusal_is_told) };

	(void)gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
