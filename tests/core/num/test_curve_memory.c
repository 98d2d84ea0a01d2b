/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Curves asked for when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "num/curve.h"
#include "support/memory.h"

/* A curve that came to nothing is empty. */
static enum fault make(void *context, struct fault_list *faults)
{
	const double x[] = { 0.0, 1.0, 2.0 }, y[] = { 0.0, 1.0, 4.0 };
	struct curve curve;
	enum fault fault = curve_steffen(&curve, 3, x, y, faults);

	(void)context;
	if (fault == FAULT_NONE) {
		curve_free(&curve);
		return FAULT_NONE;
	}
	assert_null(curve.x);
	assert_null(curve.y);
	assert_null(curve.slope);
	return fault;
}

static void every_refusal_is_reported(void **state)
{
	(void)state;
	assert_true(memory_refuse_in_turn(make, NULL) > 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(every_refusal_is_reported) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
