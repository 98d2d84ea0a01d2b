/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each line must pass through a program comment and onto paper unchanged. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "program/checklist.h"

static void lines_fit_a_comment(void **state)
{
	(void)state;
	size_t count = 0;
	const char *const *line = safety_checklist(&count);

	assert_true(count > 0);
	for (size_t i = 0; i < count; i++) {
		size_t length = strlen(line[i]);
		assert_in_range(length, 1, SAFETY_LINE_MAX);
		assert_true(line[i][0] != ' ' && line[i][length - 1] != ' ');
		for (const char *c = line[i]; *c; c++) {
			assert_in_range(*c, ' ', '~');
			assert_true(*c != '(' && *c != ')');
		}
	}
}

static void lines_are_distinct(void **state)
{
	(void)state;
	size_t count = 0;
	const char *const *line = safety_checklist(&count);

	for (size_t i = 0; i < count; i++)
		for (size_t k = 0; k < i; k++)
			assert_string_not_equal(line[i], line[k]);
}

/* The subjects a wood router's checklist cannot do without. */
static void subjects_are_covered(void **state)
{
	(void)state;
	static const char *const subjects[] = { "manual",      "held fast", "stickout",
						"Zero",	       "Dry run",   "Dust",
						"Eye",	       "ear",	    "gloves",
						"Stop button", "fire",	    "Nobody leaves" };
	size_t count = 0;
	const char *const *line = safety_checklist(&count);

	for (size_t i = 0; i < sizeof subjects / sizeof *subjects; i++) {
		size_t k = 0;
		while (k < count && !strstr(line[k], subjects[i]))
			k++;
		if (k == count)
			fail_msg("no line speaks of: %s", subjects[i]);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lines_fit_a_comment),
		cmocka_unit_test(lines_are_distinct),
		cmocka_unit_test(subjects_are_covered),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
