/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Programs in the form that each kind of control reads: whole texts compared. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "program/write.h"
#include "support/moves.h"
#include "support/near.h"

#define PREAMBLE "G21\nG17\nG90\nG94\nG40\nG49\nG54\n"

static struct motion_list small_program(void)
{
	struct motion_list list = { 0 };

	moves_add(&list, (struct motion){ .kind = MOTION_SPINDLE_ON, .spindle_rpm = 14000.0 });
	moves_rapid(&list, 0.0, 0.0, 50.0);
	moves_cut(&list, 100.0, -200.0, 1.5, 1234.5);
	moves_cut(&list, 101.0, -200.0, 1.5, 1234.5);
	moves_still(&list, MOTION_SPINDLE_OFF);
	moves_still(&list, MOTION_END);
	return list;
}

static void expect(const struct abilities *reads, const char *expected)
{
	const char *const line[] = { "Neck (plain)" };
	const struct program_head head = { .line_count = 1, .line = line };
	const struct machine machine = { .decimals = 3, .reads = *reads };
	struct motion_list list = small_program();
	struct program_text text = { 0 };

	assert_int_equal(program_write(&text, &list, &head, &machine, NULL), FAULT_NONE);
	assert_string_equal(text.bytes, expected);
	program_text_free(&text);
	motion_list_free(&list);
}

static void block_numbers(void **state)
{
	(void)state;
	const struct abilities reads = { .number_step = 10 };

	expect(&reads, "(- Neck plain)\n"
		       "N10 G21\nN20 G17\nN30 G90\nN40 G94\nN50 G40\nN60 G49\nN70 G54\n"
		       "N80 S14000 M3\n"
		       "N90 G0 X0.000 Y0.000 Z50.000\n"
		       "N100 G1 X100.000 Y-200.000 Z1.500 F1234.5\n"
		       "N110 G1 X101.000\n"
		       "N120 M5\n"
		       "N130 M2\n");
}

static void percent_lines(void **state)
{
	(void)state;
	const struct abilities reads = { .percent_lines = true };

	expect(&reads, "%\n(- Neck plain)\n" PREAMBLE "S14000 M3\n"
		       "G0 X0.000 Y0.000 Z50.000\n"
		       "G1 X100.000 Y-200.000 Z1.500 F1234.5\n"
		       "G1 X101.000\nM5\nM2\n%\n");
}

static void switched_by_hand(void **state)
{
	(void)state;
	struct abilities reads = { .spindle = SPINDLE_BY_HAND,
				   .comments = COMMENTS_SEMICOLON,
				   .feed_decimals_stated = true };

	expect(&reads, "; Neck plain\n" PREAMBLE "; switch the spindle on, 14000 rpm\nM0\n"
		       "G0 X0.000 Y0.000 Z50.000\n"
		       "G1 X100.000 Y-200.000 Z1.500 F1234\n"
		       "G1 X101.000\n; switch the spindle off\nM0\nM2\n");
	reads.comments = COMMENTS_NONE;
	expect(&reads, PREAMBLE "M0\nG0 X0.000 Y0.000 Z50.000\n"
				"G1 X100.000 Y-200.000 Z1.500 F1234\n"
				"G1 X101.000\nM0\nM2\n");
}

/* A feed that has no room in its block stands in one of its own above it; with
 * it the block has 36 characters. */
static void short_lines(void **state)
{
	(void)state;
	struct abilities reads = { .longest_line = 35,
				   .feed_decimals_stated = true,
				   .feed_decimals = 1 };

	expect(&reads, "(- Neck plain)\n" PREAMBLE "S14000 M3\n"
		       "G0 X0.000 Y0.000 Z50.000\n"
		       "F1234.5\n"
		       "G1 X100.000 Y-200.000 Z1.500\n"
		       "G1 X101.000\nM5\nM2\n");
	reads.longest_line = 36;
	expect(&reads, "(- Neck plain)\n" PREAMBLE "S14000 M3\n"
		       "G0 X0.000 Y0.000 Z50.000\n"
		       "G1 X100.000 Y-200.000 Z1.500 F1234.5\n"
		       "G1 X101.000\nM5\nM2\n");
}

static void too_short_a_line(void **state)
{
	(void)state;
	const struct machine machine = { .decimals = 3,
					 .reads = { .longest_line = 30, .number_step = 1 } };
	struct motion_list list = small_program();
	struct program_text text = { 0 };
	struct fault_list faults = { 0 };

	assert_int_equal(program_write(&text, &list, NULL, &machine, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, "machine.longest_line");
	assert_non_null(strstr(faults.record[0].message, "30 characters"));
	assert_null(text.bytes);
	motion_list_free(&list);
}

/* NIST IR 6556: five digits at most. */
static void numbers_begin_again(void **state)
{
	(void)state;
	const struct machine machine = { .decimals = 3, .reads = { .number_step = 1000 } };
	struct motion_list list = { 0 };
	struct program_text text = { 0 };

	for (int i = 0; i < 100; i++)
		moves_cut(&list, i, 0.0, 0.0, 100.0);
	moves_still(&list, MOTION_END);
	assert_int_equal(program_write(&text, &list, NULL, &machine, NULL), FAULT_NONE);
	assert_non_null(strstr(text.bytes, "\nN99000 G1 X91.000\nN1000 G1 X92.000\n"));
	program_text_free(&text);
	motion_list_free(&list);
}

static void feed_beyond_the_largest(void **state)
{
	(void)state;
	const struct machine machine = { .decimals = 3,
					 .reads = { .largest_feed_mm_per_min = 1234.0 } };
	struct motion_list list = small_program();
	struct program_text text = { 0 };
	struct fault_list faults = { 0 };

	assert_int_equal(program_write(&text, &list, NULL, &machine, &faults), FAULT_INTERNAL);
	assert_non_null(strstr(faults.record[0].message, "feed"));
	motion_list_free(&list);
}

static void comments_on_short_lines(void **state)
{
	(void)state;
	const char *const line[] = { "one two three four five six seven eight nine ten" };
	const struct program_head head = { .line_count = 1, .line = line };
	const struct machine machine = {
		.decimals = 3, .reads = { .longest_line = 30, .comments = COMMENTS_SEMICOLON }
	};
	struct motion_list list = { 0 };
	struct program_text text = { 0 };

	moves_still(&list, MOTION_END);
	assert_int_equal(program_write(&text, &list, &head, &machine, NULL), FAULT_NONE);
	assert_string_equal(text.bytes, "; one two three four five six\n"
					"; seven eight nine ten\n" PREAMBLE "M2\n");
	program_text_free(&text);
	motion_list_free(&list);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(block_numbers),
		cmocka_unit_test(percent_lines),
		cmocka_unit_test(switched_by_hand),
		cmocka_unit_test(short_lines),
		cmocka_unit_test(too_short_a_line),
		cmocka_unit_test(numbers_begin_again),
		cmocka_unit_test(feed_beyond_the_largest),
		cmocka_unit_test(comments_on_short_lines),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
