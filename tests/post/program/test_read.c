/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts to moves: modal state, order of execution within a block (NIST IR 6556,
 * table 8), beginning and end. Single lines: test_block.c. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "program/lex.h"
#include "program/read.h"
#include "support/near.h"
#include "support/seed.h"

#define STATE "G21\nG17 G90 G94 F100 S1000\n"
#define STATE_LINES 2

/* A control that reads block numbers and as many decimals as there are, and one that
 * wants its programs between % lines. */
static const struct machine control = { .decimals = LEX_DIGITS_MAX, .reads = { .number_step = 1 } };
static const struct machine marked = { .decimals = LEX_DIGITS_MAX,
				       .reads = { .percent_lines = true } };

/* "" for a text accepted, else "block: sentence". */
static void judge(char told[256], const char *text, size_t size)
{
	struct motion_list list = { 0 };
	struct fault_list faults = { 0 };
	struct read_fault first;

	told[0] = '\0';
	const size_t blank = size > 0 ? strspn(text, " \t\r\n") : 0;
	const bool percent = blank < size && text[blank] == '%';
	const enum fault fault = program_read(&list, text, size, "part.nc",
					      percent ? &marked : &control, &first, &faults);
	if (fault) {
		(void)snprintf(told, 256, "%d: %s", first.block, first.why);
		assert_int_equal(fault, FAULT_PROGRAM);
		assert_null(list.item);
		assert_int_equal(list.count, 0);
		assert_int_equal(faults.count, 1);
		assert_int_equal(faults.record[0].code, FAULT_PROGRAM);
		assert_int_equal(faults.record[0].line, first.block);
		assert_string_equal(faults.record[0].file, "part.nc");
		assert_string_equal(faults.record[0].message, first.why);
	} else {
		assert_int_equal(first.block, 0);
		assert_int_equal(faults.count, 0);
		assert_true(list.count > 0);
		assert_int_equal(list.item[list.count - 1].kind, MOTION_END);
	}
	motion_list_free(&list);
}

static struct motion_list read_good(const char *text)
{
	struct motion_list list = { 0 };
	struct read_fault first;

	if (program_read(&list, text, strlen(text), NULL, &control, &first, NULL))
		fail_msg("block %d: %s", first.block, first.why);
	return list;
}

/* What must have been said before: one thing left out at a time. */
static void unstated_states(void **state)
{
	(void)state;
	static const struct {
		const char *text, *told;
	} cases[] = {
		{ "G17 G90 G94\nG0 X1\nM2", "2: Motion is refused: the units" },
		{ "G21\nG90 G94\nG0 X1\nM2", "3: Motion is refused: the plane" },
		{ "G21\nG17 G94\nG0 X1\nM2", "3: Motion is refused: absolute" },
		{ "G21\nG17 G90\nG0 X1\nM2", "3: Motion is refused: the feed mode" },
		{ "G21\nG17 G90 G94\nX1\nM2", "3: The axis words are refused: neither" },
		{ "G21\nG17 G90 G94\nG1 X1\nM2", "3: G1 is refused: no feed" },
		{ "G21\nG17 G90 G94\nF0\nG1 X1\nM2", "4: G1 is refused: no feed" },
		{ "F100\nG21\nM2", "1: F is refused: the units" },
		{ "G21 G94 F100\nM2", "1: F is refused: the units" },
		{ "G21\nF100\nG94\nM2", "2: F is refused: the feed mode" },
		{ "M3\nM2", "1: The spindle has no speed" },
		{ "S0 M3\nM2", "1: The spindle has no speed" },
		{ "S100 M3\nS0\nM2", "2: The spindle has no speed" },
		{ "G21\nG20\nM2", "2: G20 is refused: a program has one unit" },
		{ STATE "G0 X1\nG20\nM2", "4: G20 is refused: the units are stated before" },
		{ STATE "G0 X1\nG54\nM2", "4: G54 is refused" },
	};
	char told[256];

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		judge(told, cases[i].text, strlen(cases[i].text));
		if (strncmp(told, cases[i].told, strlen(cases[i].told)) != 0)
			fail_msg("%s: got \"%s\", expected \"%s\"", cases[i].text, told,
				 cases[i].told);
	}
}

static void accepted_states(void **state)
{
	(void)state;
	static const char *const texts[] = {
		"M2",
		"M30",
		"m 3 0",
		"G21\nG17 G90 G94 F100\nG1 X1\nM2",
		"G20\nF1 G94 G17 G90 G1 X1\nM2",
		"G17 G90 G94\nG21 G0 X1\nM2", /* units take effect before motion */
		"G21\nG21\nM2",
		"G17 G21 G90\nM2",
		STATE "G40 G49 G54\nG0 X1\nG40 G49 G54\nM2", /* restating changes nothing */
		STATE "G54 G0 X1\nG0 X2\nG54 X3\nM2",
		"\n\n \t\nM2\n\n \t\n",
		"%\nM2\n%\n",
		"\n \t\n % \nM2\n % \n \n",
		"%\r\nM2\r\n%",
		"(a)\r\nM2\r\n\r\n",
	};
	char told[256];

	for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
		judge(told, texts[i], strlen(texts[i]));
		if (told[0])
			fail_msg("%s is refused: %s", texts[i], told);
	}
}

static void beginning_and_end(void **state)
{
	(void)state;
	static const struct {
		const char *text, *told;
	} cases[] = {
		{ "", "1: The file is empty" },
		{ "\n", "1: The program has no end" },
		{ "G21\nG17", "2: The program has no end" },
		{ "G21\nG17\n", "2: The program has no end" },
		{ "M2\nG21", "2: Something stands after the end" },
		{ "M2\n\n(a)", "3: Something stands after the end" },
		{ "M2\nM2", "2: Something stands after the end" },
		{ "M2\n%", "2: Something stands after the end" },
		{ "%\nM2", "2: The % line that opens" },
		{ "%\n%", "2: The character % is refused" },
		{ "%\nM2\n%\n%", "4: Something stands after the end" },
		{ "%\nM2\n%\nM2", "4: Something stands after the end" },
		{ "% G21\nM2\n%", "1: The program does not begin with a %" },
		{ "(a)\n%\nM2\n%", "2: The character % is refused" },
		{ "M2\r", "1: The byte 0x0d is refused" },
		{ "G21\rM2\n", "1: The byte 0x0d is refused" },
		{ "G21\r\r\nM2\n", "1: The byte 0x0d is refused" },
		{ "\xef\xbb\xbfM2\n", "1: The byte 0xef is refused" },
	};
	char told[256];

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		judge(told, cases[i].text, strlen(cases[i].text));
		if (strncmp(told, cases[i].told, strlen(cases[i].told)) != 0)
			fail_msg("%s: got \"%s\", expected \"%s\"", cases[i].text, told,
				 cases[i].told);
	}
}

static void too_large_a_file(void **state)
{
	(void)state;
	const size_t size = ((size_t)256 << 20) + 1;
	char *text = calloc(size, 1), told[256];

	assert_non_null(text);
	judge(told, text, size);
	assert_non_null(strstr(told, "too large"));
	free(text);
}

static void motions_mm(void **state)
{
	(void)state;
	struct motion_list list = read_good("G21\nG17\nG90\nG94\n"
					    "S18000 M3\n"
					    "G4 P2.5\n"
					    "G0 Z50\n"
					    "X-12.5\n"
					    "Y7\n"
					    "G1 Z-1.25 F600\n"
					    "X10 F1800.5\n"
					    "(note)\n"
					    "G0 Z50\n"
					    "M5\n"
					    "M30\n");
	static const struct motion expected[] = {
		{ .kind = MOTION_SPINDLE_ON, .spindle_rpm = 18000, .block = 5 },
		{ .kind = MOTION_DWELL, .dwell_s = 2.5, .block = 6 },
		{ .kind = MOTION_RAPID, .to = { 0, 0, 50 }, .known = KNOWN_Z, .block = 7 },
		{ .kind = MOTION_RAPID,
		  .to = { -12.5, 0, 50 },
		  .known = KNOWN_X | KNOWN_Z,
		  .block = 8 },
		{ .kind = MOTION_RAPID, .to = { -12.5, 7, 50 }, .known = KNOWN_ALL, .block = 9 },
		{ .kind = MOTION_CUT,
		  .to = { -12.5, 7, -1.25 },
		  .known = KNOWN_ALL,
		  .feed_mm_per_min = 600,
		  .block = 10 },
		{ .kind = MOTION_CUT,
		  .to = { 10, 7, -1.25 },
		  .known = KNOWN_ALL,
		  .feed_mm_per_min = 1800.5,
		  .block = 11 },
		{ .kind = MOTION_RAPID, .to = { 10, 7, 50 }, .known = KNOWN_ALL, .block = 13 },
		{ .kind = MOTION_SPINDLE_OFF, .block = 14 },
		{ .kind = MOTION_END, .block = 15 },
	};

	assert_int_equal(list.count, sizeof expected / sizeof *expected);
	for (size_t i = 0; i < list.count; i++) {
		const struct motion *a = &list.item[i], *b = &expected[i];
		assert_int_equal(a->kind, b->kind);
		assert_int_equal(a->known, b->known);
		assert_int_equal(a->block, b->block);
		assert_int_equal(a->pass, -1);
		assert_near(vec3_distance(a->to, b->to), 0.0, 0.0, "place, mm");
		assert_near(a->feed_mm_per_min, b->feed_mm_per_min, 0.0, "feed, mm/min");
		assert_near(a->spindle_rpm, b->spindle_rpm, 0.0, "speed, rpm");
		assert_near(a->dwell_s, b->dwell_s, 0.0, "dwell, s");
	}
	motion_list_free(&list);
}

static void motions_inch(void **state)
{
	(void)state;
	struct motion_list list = read_good("G20\nG17 G90 G94\nG1 X1 Y-.5 Z0.0625 F70.866\nM2\n");

	assert_int_equal(list.count, 2);
	assert_near(list.item[0].to.x, 25.4, 1e-14, "x, mm: 1 in is 25.4 mm");
	assert_near(list.item[0].to.y, -12.7, 1e-14, "y, mm");
	assert_near(list.item[0].to.z, 1.5875, 1e-14, "z, mm");
	assert_near(list.item[0].feed_mm_per_min, 1799.9964, 1e-9, "feed, mm/min");
	motion_list_free(&list);
}

/* What one line does, as letters in order: R rapid, C cut, S spindle on, s off,
 * D dwell, E end. */
static void order_of_execution(void **state)
{
	(void)state;
	static const struct {
		const char *line, *order;
	} cases[] = {
		{ "M5 G0 Z50", "sR" }, /* off before the retract: the proof shall see it */
		{ "G0 Z50 M5", "sR" },
		{ "M3 S18000 G4 P3", "SD" },
		{ "G4 P3 M3 S18000", "SD" },
		{ "M2 G0 Z50", "RE" },
		{ "G0 Z50 M30 M5", "sRE" },
		{ "X1 G4 P1 M3", "SDC" },
		{ "G90 G17 G94 X1", "C" },
		{ "S1000", "" }, /* not running, and no change */
		{ "M3", "S" },
		{ "M5", "s" },
		{ "S500 M5", "s" },
		{ "F50", "" },
		{ "N5", "" },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		char text[256], order[8] = "";
		(void)snprintf(text, sizeof text, STATE "G1 X9\n%s\n%s", cases[i].line,
			       strstr(cases[i].order, "E") ? "" : "M2\n");
		struct motion_list list = read_good(text);
		size_t size = 0;
		for (size_t at = 0; at < list.count; at++)
			if (list.item[at].block == STATE_LINES + 2)
				order[size++] = "RCSsDPE"[list.item[at].kind];
		assert_string_equal(order, cases[i].order);
		motion_list_free(&list);
	}
}

/* The feed of a line holds for its own motion, wherever it stands. */
static void feed_before_motion(void **state)
{
	(void)state;
	struct motion_list list = read_good(STATE "G1 X1\nX2 F300\nF400 X3\nF500\nX4\n"
						  "G0 X5\nG1 X6\nM2\n");
	const double feeds[] = { 100.0, 300.0, 400.0, 500.0, 0.0, 500.0 };

	for (size_t i = 0; i < sizeof feeds / sizeof *feeds; i++)
		assert_near(list.item[i].feed_mm_per_min, feeds[i], 0.0, "feed, mm/min");
	motion_list_free(&list);
}

/* A new speed while running is a new start; the same speed is not. */
static void speed_while_running(void **state)
{
	(void)state;
	struct motion_list list = read_good("S1000\nM3\nS1000\nS2000\nM5\nS3000\nM3\nM2\n");
	static const struct {
		enum motion_kind kind;
		double rpm;
		int block;
	} expected[] = {
		{ MOTION_SPINDLE_ON, 1000.0, 2 }, { MOTION_SPINDLE_ON, 2000.0, 4 },
		{ MOTION_SPINDLE_OFF, 0.0, 5 },	  { MOTION_SPINDLE_ON, 3000.0, 7 },
		{ MOTION_END, 0.0, 8 },
	};

	assert_int_equal(list.count, sizeof expected / sizeof *expected);
	for (size_t i = 0; i < list.count; i++) {
		assert_int_equal(list.item[i].kind, expected[i].kind);
		assert_int_equal(list.item[i].block, expected[i].block);
		assert_near(list.item[i].spindle_rpm, expected[i].rpm, 0.0, "speed, rpm");
	}
	motion_list_free(&list);
}

/* A list may be used again; what it held is replaced. */
static void list_used_again(void **state)
{
	(void)state;
	struct motion_list list = read_good("S1000 M3\nM5\nM2\n");

	assert_int_equal(list.count, 3);
	assert_int_equal(program_read(&list, "M5\nM2\n", 6, NULL, &control, NULL, NULL),
			 FAULT_NONE);
	assert_int_equal(list.count, 2);
	assert_int_equal(program_read(&list, "M5\n", 3, NULL, &control, NULL, NULL), FAULT_PROGRAM);
	assert_int_equal(list.count, 0);
	assert_null(list.item);
}

/* Any bytes at all: refused in good order, or a program with sound moves. The
 * sanitizers watch. */
static void spoiled_programs(void **state)
{
	(void)state;
	static const char good[] = "(head)\nG21\nG17\nG90\nG94\nS18000 M3\nG4 P3\nG0 Z50.000\n"
				   "G0 X-12.500 Y7.000\nG1 Z-1.250 F600.0\nG1 X10.000 F1800.0\n"
				   "G0 Z50.000\nM5\nM2\n";
	static const char spice[] = "GMXYZFSPN0123456789.-+ \n\r\t()%;/#[]\x80";
	gsl_rng *rng = seed_rng("spoiled_programs");
	int accepted = 0;

	for (int i = 0; i < 50000; i++) {
		char text[sizeof good];
		const size_t size = seed_whole(rng, 0, 19) ? sizeof good - 1
							   : seed_whole(rng, 0, sizeof good - 1);
		struct motion_list list = { 0 };
		struct read_fault first;
		memcpy(text, good, sizeof good);
		for (unsigned long edits = seed_whole(rng, 1, 3); edits > 0; edits--)
			text[seed_whole(rng, 0, sizeof good - 2)] =
				spice[seed_whole(rng, 0, sizeof spice - 2)];
		const enum fault fault =
			program_read(&list, text, size, NULL, &control, &first, NULL);
		if (fault) {
			assert_int_equal(fault, FAULT_PROGRAM);
			assert_true(first.block >= 1 && first.why[0] != '\0');
		}
		accepted += !fault;
		for (size_t at = 0; at < list.count; at++) {
			const struct motion *motion = &list.item[at];
			assert_true(motion->kind != MOTION_CUT || motion->feed_mm_per_min > 0.0);
			assert_true(!motion_moves(motion) || motion->known);
			assert_true(vec3_length(motion->to) < 1e8);
		}
		motion_list_free(&list);
	}
	assert_between(accepted, 1000.0, 45000.0, "spoiled programs accepted of 50000");
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(unstated_states),     cmocka_unit_test(accepted_states),
		cmocka_unit_test(beginning_and_end),   cmocka_unit_test(too_large_a_file),
		cmocka_unit_test(motions_mm),	       cmocka_unit_test(motions_inch),
		cmocka_unit_test(order_of_execution),  cmocka_unit_test(feed_before_motion),
		cmocka_unit_test(speed_while_running), cmocka_unit_test(list_used_again),
		cmocka_unit_test(spoiled_programs),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
