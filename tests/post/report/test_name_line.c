/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/name_line.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/scratch.h"

static void assert_prints(const struct name_line *line, const char *expected)
{
	FILE *out = tmpfile();

	assert_non_null(out);
	name_line_print(out, line);
	char *text = scratch_text(out);
	assert_string_equal(text, expected);
	free(text);
}

static void names_stand_centred_and_apart(void **state)
{
	(void)state;
	struct name_line line;

	assert_int_equal(name_line_make(&line, 20, NULL), FAULT_NONE);
	assert_prints(&line, "\n");
	name_line_put(&line, 4, "nut");
	name_line_put(&line, 6, "1"); /* touches it */
	name_line_put(&line, 7, "2");
	name_line_put(&line, 8, "3");
	assert_prints(&line, "   nut 2\n");
	/* printed, it is empty again */
	name_line_put(&line, 4, "x");
	assert_prints(&line, "    x\n");
	name_line_free(&line);
}

static void names_at_the_ends_move_inwards_or_stay_out(void **state)
{
	(void)state;
	struct name_line line;

	assert_int_equal(name_line_make(&line, 10, NULL), FAULT_NONE);
	name_line_put(&line, 0, "abc");
	name_line_put(&line, 9, "xyz");
	name_line_put(&line, 10, "q");
	name_line_put(&line, 5, "a name too long");
	assert_prints(&line, "abc    xyz\n");
	name_line_put(&line, 0, "ten letter");
	assert_prints(&line, "ten letter\n");
	name_line_free(&line);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(names_stand_centred_and_apart),
		cmocka_unit_test(names_at_the_ends_move_inwards_or_stay_out),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
