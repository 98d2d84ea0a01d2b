/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/refusal.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

void assert_job_refused(const struct job *job, const char *setting, const char *words)
{
	struct fault_list faults = { 0 };

	assert_int_equal(job_check(job, &faults), FAULT_SETTING);
	for (size_t i = 0; i < faults.count; i++)
		if (faults.count != 1)
			print_message("%s: %s\n", faults.record[i].setting,
				      faults.record[i].message);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, setting);
	if (!strstr(faults.record[0].message, words))
		print_message("%s\n", faults.record[0].message);
	assert_non_null(strstr(faults.record[0].message, words));
	assert_string_equal(faults.record[0].file, "");
	/* the code alone can be asked for too */
	assert_int_equal(job_check(job, NULL), FAULT_SETTING);
}
