/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/refusal.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void print_faults(const struct fault_list *faults)
{
	for (size_t i = 0; i < faults->count; i++)
		print_error("%s: %s\n", faults->record[i].setting, faults->record[i].message);
}

void job_good_or_fail(const struct job *job, const char *file, int line)
{
	struct fault_list faults = { 0 };

	if (job_check(job, &faults) == FAULT_NONE && faults.count == 0 &&
	    job_check(job, NULL) == FAULT_NONE)
		return;
	print_faults(&faults);
	_fail(file, line);
}

void assert_job_refused(const struct job *job, const char *setting, const char *words)
{
	struct fault_list faults = { 0 };

	assert_int_equal(job_check(job, &faults), FAULT_SETTING);
	if (faults.count != 1)
		print_faults(&faults);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, setting);
	if (!strstr(faults.record[0].message, words))
		print_message("%s\n", faults.record[0].message);
	assert_non_null(strstr(faults.record[0].message, words));
	assert_string_equal(faults.record[0].file, "");
	/* the code alone can be asked for too */
	assert_int_equal(job_check(job, NULL), FAULT_SETTING);
}
