/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job/job.h"
#include "program/file_names.h"

static void one_program_needs_no_number(void **state)
{
	(void)state;
	char name[PROGRAM_FILE_ROOM];

	assert_string_equal(program_roughing_file(name, 0, 1), "rough.nc");
}

static void several_are_numbered_in_their_order(void **state)
{
	(void)state;
	char name[PROGRAM_FILE_ROOM];

	assert_string_equal(program_roughing_file(name, 0, 2), "rough-1.nc");
	assert_string_equal(program_roughing_file(name, JOB_CUTTERS_MAX - 1, JOB_CUTTERS_MAX),
			    "rough-4.nc");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(one_program_needs_no_number),
		cmocka_unit_test(several_are_numbered_in_their_order),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
