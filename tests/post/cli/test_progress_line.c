/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/progress_line.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* Code points, each of which takes one column. */
static int columns_of(const char *text)
{
	int columns = 0;

	for (; *text != '\0'; text++)
		columns += ((unsigned char)*text & 0xc0) != 0x80;
	return columns;
}

static int count(const char *text, char letter)
{
	int found = 0;

	for (; *text != '\0'; text++)
		found += *text == letter;
	return found;
}

static void a_line_says_what_and_how_far(void **state)
{
	(void)state;
	char line[PROGRESS_LINE_ROOM];

	/* 9 + 9 + 1 columns of words, 2 brackets, 20 cells, 6 columns of percent */
	assert_int_equal(progress_line(line, "proving", 0.5, 48, false), 47);
	assert_string_equal(line, "neckhew: proving   [##########..........]  50 %");
	/* without brackets two cells more: 22 x 0.25 are 5 and a half */
	assert_int_equal(progress_line(line, "proving", 0.25, 48, true), 47);
	assert_non_null(strstr(line, "neckhew: proving   \xe2\x96\x88"));
	assert_non_null(strstr(line, "\xe2\x96\x88\xe2\x96\x8c\xe2\x96\x91"));
	assert_non_null(strstr(line, "\xe2\x96\x91  25 %"));
}

/* On terminals of every width, with any share: the last column stays free. */
static void every_line_fits(void **state)
{
	static const double shares[] = { -1.0, 0.0, 0.004, 0.333, 0.999, 1.0, 7.0 };
	char line[PROGRESS_LINE_ROOM];

	(void)state;
	for (int columns = 0; columns <= 500; columns++)
		for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++)
			for (int utf8 = 0; utf8 < 2; utf8++) {
				int length =
					progress_line(line, "measuring", shares[i], columns, utf8);
				assert_int_equal(length, columns_of(line));
				assert_true(length < columns || length == 0);
				/* 18 of words, 6 of percent, and the free one */
				assert_true(columns < 25 || strchr(line, '%'));
				assert_true(strlen(line) < PROGRESS_LINE_ROOM);
			}
}

static void a_long_word_leaves_room_for_nothing_else(void **state)
{
	(void)state;
	char line[PROGRESS_LINE_ROOM];

	assert_true(progress_line(line, "drawing a very long list of things without end", 0.5, 60,
				  false) < 60);
	assert_null(strchr(line, '['));
	assert_true(strncmp(line, "neckhew: drawing a", 18) == 0);
}

static void the_bar_only_grows_and_is_full_at_the_end_alone(void **state)
{
	(void)state;
	char line[PROGRESS_LINE_ROOM];
	int before = 0;

	for (int i = 0; i <= 1000; i++) {
		(void)progress_line(line, "planning", i / 1000.0, 80, false);
		int full = count(line, '#'), empty = count(line, '.');
		assert_int_equal(full + empty, 40);
		assert_true(full >= before);
		assert_int_equal(empty == 0, i == 1000);
		assert_int_equal(strstr(line, "100 %") != NULL, i == 1000);
		before = full;
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_line_says_what_and_how_far),
		cmocka_unit_test(every_line_fits),
		cmocka_unit_test(a_long_word_leaves_room_for_nothing_else),
		cmocka_unit_test(the_bar_only_grows_and_is_full_at_the_end_alone),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
