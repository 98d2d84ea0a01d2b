/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Single blocks amid a sound program: which words are permitted, and why others
 * are not. Among them the lines that the interpreter of NIST IR 6556 was tried
 * on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "program/lex.h"
#include "program/read.h"
#include "support/near.h"

#define STATE "G21\nG17 G90 G94 F100 S1000\n"
#define STATE_LINES 2

/* A control that reads block numbers and as many decimals as there are. */
static const struct machine control = { .decimals = LEX_DIGITS_MAX, .reads = { .number_step = 1 } };

/* "" for a line accepted after all states have been stated and G1 is active,
 * else "block: sentence". */
static void judge_line(char told[256], const char *line)
{
	char text[1024];
	struct motion_list list = { 0 };
	struct read_fault first;
	const int size = snprintf(text, sizeof text, STATE "G1 X9\n%s\nM2\n", line);

	assert_between(size, 0.0, sizeof text - 1.0, "characters of the test's text");
	told[0] = '\0';
	if (program_read(&list, text, (size_t)size, NULL, &control, &first, NULL))
		(void)snprintf(told, 256, "%d: %s", first.block, first.why);
	motion_list_free(&list);
}

/* Lines of the interpreter's list, and more of their kind. */
static void accepted_lines(void **state)
{
	(void)state;
	static const char *const lines[] = {
		"N99999 G1 X1",
		"N00009 G1 X1",
		"n0",
		"g1x+0. 12 34y 7",
		"X1",
		"G1 X1 Y2 Z3 F5 S7",
		"X1 G1 F5",
		"M3 S1000",
		"S1000M3",
		"G4 P3",
		"G4 P0",
		"G4 P.5 X1",
		"G90 G17 G94 G0 X5",
		"G01 X1",
		"G00X1",
		"G1.0 X1",
		"M03",
		"M05",
		"m5",
		"S0",
		"F0",
		"(a)(b)",
		"(MSG, load tool)",
		"G1 (to) X1 (here)",
		"M3 G4 P2 G0 Z50",
		"M5 G0 Z50",
		"",
	};
	char told[256];

	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
		judge_line(told, lines[i]);
		if (told[0])
			fail_msg("%s is refused: %s", lines[i], told);
	}
}

static const struct {
	const char *line, *word; /* of the sentence */
} refused[] = {
	{ "N100000 G1 X1", "N100000 is refused: a line number is" },
	{ "G1 N10 X1", "N10 is refused: a line number stands first" },
	{ "(a) N10 G1 X1", "stands first" },
	{ "N1 N2 X1", "stands first" },
	{ "N-1", "one to five digits" },
	{ "N1.5", "one to five digits" },
	{ "N1.", "one to five digits" },
	/* leading zeros pass the interpreter, not the rule of five digits */
	{ "N000009 G1 X1", "one to five digits" },
	{ "G1 X.", "no number" },
	{ "G1 X1e3", "exponent" },
	{ "G1 X1.2.3", "two points" },
	{ "G1 X1 ; note", ";" },
	{ "O100", "subprograms" },
	{ "E1", "E1" },
	{ "U1", "axes" },
	{ "A1", "axes" },
	/* the interpreter takes T1.00005; tool words are none of ours */
	{ "T1.00005", "tool" },
	{ "T1.001", "tool" },
	{ "G1.55 X1", "not among" },
	{ "G0.99999 X1", "not among" },
	{ "G1.00005 X1", "not among" },
	{ "M2.99999", "not among" },
	{ "G-1 X1", "not among" },
	{ "/G1 X1", "delete" },
	{ " /G1 X1", "delete" },
	{ "G1 X1 (a (b))", "nested" },
	{ "G1 X1 (a", "not closed" },
	{ "G1 X1 a)", "no number" },
	{ "G1", "G1 is refused: it needs an axis" },
	{ "G0", "G0 is refused: it needs an axis" },
	{ "X1 X2", "X2 is refused: its letter stands twice" },
	{ "G0 G1 X1", "G1 is refused: the block already" },
	{ "G1 G1 X1", "group" },
	{ "G20 G21", "group" },
	{ "G17 G17", "group" },
	{ "M3 M5", "M5 is refused: the block already" },
	{ "M2 M30", "group" },
	{ "M7 M8", "coolant" },
	{ "M8", "coolant" },
	{ "M3 M3 M3 M3 M3", "group" },
	{ "G2 X20.002 Y0 I10 J0", "arcs" },
	{ "G3 X20 Y0 R10", "arcs" },
	{ "X1 I1", "arcs" },
	{ "G1 X1 R2", "R2" },
	{ "G0 X1 P3", "P3 is refused: no G4" },
	{ "G1 G92 X0", "zero" },
	{ "G92.1", "zero" },
	{ "G4", "P word" },
	{ "G4 X1", "P word" },
	{ "G4 P-1", "P-1 is refused: a dwell is not negative" },
	{ "F-1", "negative" },
	{ "S-1", "negative" },
	{ "G93", "inverse" },
	{ "G91", "incremental" },
	{ "G18", "XY" },
	{ "G19", "XY" },
	{ "G28 X0", "stored" },
	{ "G38.2 Z0", "probing" },
	{ "G41", "compensation" },
	{ "G43 H1", "offsets" },
	{ "G53 X1", "machine coordinates" },
	{ "G55", "G54" },
	{ "G59.3", "G54" },
	{ "G64", "path" },
	{ "G80", "cycles" },
	{ "G81 X1 Z-1 R1", "cycles" },
	{ "G98", "cycles" },
	{ "G10 L2 P1 X0", "settings" },
	{ "G5 X1", "not among" },
	{ "M0", "stops" },
	{ "M1", "stops" },
	{ "M60", "stops" },
	{ "M4", "clockwise" },
	{ "M6 T1", "tool" },
	{ "M48", "overrides" },
	{ "M98", "not among" },
	{ "D1", "offsets" },
	{ "L1", "letter" },
	{ "Q1", "letter" },
	{ "#1=5", "parameters" },
	{ "G1 X#1", "parameters" },
	{ "G1 X[1+1]", "expressions" },
	{ "%", "%" },
	{ "G20", "before any motion" },
	{ "G21", "before any motion" },
	{ "G54", "G54 is refused: it is stated before" },
	{ "G40", "G40 is refused: it is stated before" },
	{ "G49", "G49 is refused: it is stated before" },
	{ "F0 X1", "no feed" },
	{ "S0 M3", "speed" },
};

static void refused_lines(void **state)
{
	(void)state;
	char told[256];

	for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
		judge_line(told, refused[i].line);
		if (!strstr(told, refused[i].word))
			fail_msg("%s: got \"%s\", expected \"%s\"", refused[i].line, told,
				 refused[i].word);
		assert_int_equal(strtol(told, NULL, 10), STATE_LINES + 2);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(accepted_lines),
		cmocka_unit_test(refused_lines),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
