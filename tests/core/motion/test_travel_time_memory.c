/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times asked for when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "motion/travel_time.h"
#include "support/memory.h"
#include "support/moves.h"

static enum fault ask(void *context, struct fault_list *faults)
{
	struct machine machine = moves_machine(6000.0, 6000.0, 500.0, 0.02);
	double seconds[2];

	return travel_times(seconds, context, &machine, faults);
}

static void every_refusal_is_reported(void **state)
{
	(void)state;
	struct motion_list list = { 0 };

	moves_rapid(&list, 0.0, 0.0, 0.0);
	moves_cut(&list, 10.0, 0.0, 0.0, 3000.0);
	assert_true(memory_refuse_in_turn(ask, &list) > 0);
	motion_list_free(&list);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(every_refusal_is_reported) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
