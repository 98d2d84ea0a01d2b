/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines to words: the number and comment rules of NIST IR 6556, sections 3.2
 * and 3.3, with the lines that the report's own interpreter was tried on. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "program/lex.h"
#include "support/seed.h"

#define WHY_SIZE 160

static const struct abilities plain = { 0 };

/* "X=1.5 Y=2" for a line, or the sentence of refusal after a "!". */
static void tell(char *out, size_t out_size, const char *text, size_t size)
{
	struct lex_line line;
	char why[WHY_SIZE];
	size_t used = 0;

	out[0] = '\0';
	if (!lex_line(&line, text, size, &plain, why, sizeof why)) {
		(void)snprintf(out, out_size, "!%s", why);
		return;
	}
	for (size_t i = 0; i < line.count; i++)
		used += (size_t)snprintf(out + used, out_size - used, "%s%c=%.10g", i ? " " : "",
					 line.word[i].letter, line.word[i].value);
}

static void lines_to_words(void **state)
{
	(void)state;
	static const struct {
		const char *line, *words;
	} cases[] = {
		{ "", "" },
		{ " \t ", "" },
		{ "G1 X1", "G=1 X=1" },
		{ "g1x1f100", "G=1 X=1 F=100" },
		{ "g1x+0. 12 34y 7", "G=1 X=0.1234 Y=7" },
		{ "X.5 Y5. Z+5 F-0.5", "X=0.5 Y=5 Z=5 F=-0.5" },
		{ "X - 1 . 5", "X=-1.5" },
		{ "X-0", "X=0" },
		{ "X-0.000", "X=0" },
		{ "G01 X0000000000000000000000001", "G=1 X=1" },
		{ "N99999 G1 X1", "N=99999 G=1 X=1" },
		{ "(a)(b)", "" },
		{ "(a) G1 (b % ; # [ / !) X1 (c)", "G=1 X=1" },
		{ "X1(a)Y2", "X=1 Y=2" },
		{ "(tab\tinside)", "" },
		{ "()", "" },
		{ "(MSG, load tool)", "" },
		{ "X1000000 Y-1000000", "X=1000000 Y=-1000000" },
		/* other letters are words too: the block refuses them */
		{ "O100", "O=100" },
		{ "G1 X1e3", "G=1 X=1 E=3" },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		char told[512];
		tell(told, sizeof told, cases[i].line, strlen(cases[i].line));
		assert_string_equal(told, cases[i].words);
	}
}

static void refused_lines(void **state)
{
	(void)state;
	static const struct {
		const char *line, *word; /* of the sentence */
	} cases[] = {
		{ "G1 X.", "no number" },
		{ "G1 X", "no number" },
		{ "G1 X-", "no number" },
		{ "G1 X--1", "no number" },
		{ "XY1", "no number" },
		{ "X(a)1", "no number" },
		{ "Xnan", "no number" },
		{ "X+inf", "no number" },
		{ "G1 X1.2.3", "two points" },
		{ "X1..", "two points" },
		{ "G1 X1 ; note", "; is refused" },
		{ "X1,5", ", is refused" },
		{ "X1 2-3", "- is refused" },
		{ "*12", "* is refused" },
		{ "#1=5", "# is refused: parameters" },
		{ "X#1", "# is refused: parameters" },
		{ "X[1+2]", "[ is refused: expressions" },
		{ "X1]", "] is refused: expressions" },
		{ "/G1 X1", "/ is refused" },
		{ " /G1 X1", "/ is refused" },
		{ "G1 X1 %", "% is refused" },
		{ "G1 X1 (a (b))", "not nested" },
		{ "G1 X1 (a", "not closed" },
		{ "G1 X1 a)", "no number" },
		{ "G1 X1)", ") is refused" },
		{ "G1 X1\r", "0x0d is refused: a carriage return" },
		{ "G1\rX1", "0x0d is refused: a carriage return" },
		{ "(a\rb)", "0x0d is refused: a carriage return" },
		{ "(caf\xc3\xa9)", "0xc3 is refused" },
		{ "X1\xa0", "0xa0 is refused" },
		{ "(bell\a)", "0x07 is refused" },
		{ "(del\x7f)", "0x7f is refused" },
		{ "X1000000.001", "beyond a million" },
		{ "X-1000001", "beyond a million" },
		{ "X0.1234567890123456789", "too many digits" },
		{ "X0.0000000000000000001", "too many digits" },
		{ "X12345678901234567890", "too many digits" },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		char told[512];
		tell(told, sizeof told, cases[i].line, strlen(cases[i].line));
		if (told[0] != '!' || !strstr(told, cases[i].word))
			fail_msg("%s: got \"%s\", expected \"%s\"", cases[i].line, told,
				 cases[i].word);
	}
}

static void nul_is_refused(void **state)
{
	(void)state;
	char told[512];

	tell(told, sizeof told, "G1\0X1", 5);
	assert_non_null(strstr(told, "0x00 is refused"));
	tell(told, sizeof told, "(a\0b)", 5);
	assert_non_null(strstr(told, "0x00 is refused"));
}

/* The report's own interpreter took 253 characters and refused 254. */
static void line_length(void **state)
{
	(void)state;
	char text[LEX_LINE_MAX + 2], told[4096];

	memset(text, ' ', sizeof text);
	text[0] = 'X';
	text[LEX_LINE_MAX - 1] = '1';
	tell(told, sizeof told, text, LEX_LINE_MAX);
	assert_string_equal(told, "X=1");
	tell(told, sizeof told, text, LEX_LINE_MAX + 1);
	assert_non_null(strstr(told, "too long"));
}

/* As many words as a line can hold: the space for them must do. */
static void most_words(void **state)
{
	(void)state;
	char text[LEX_LINE_MAX], why[WHY_SIZE];
	struct lex_line line;

	for (size_t i = 0; i < sizeof text; i++)
		text[i] = i % 2 ? '7' : 'G';
	assert_true(lex_line(&line, text, sizeof text - 1, &plain, why, sizeof why));
	assert_int_equal(line.count, (LEX_LINE_MAX - 1) / 2);
	assert_true(line.count <= LEX_WORDS_MAX);
}

static void details_of_words(void **state)
{
	(void)state;
	struct lex_line line;
	char why[WHY_SIZE], name[LEX_NAME_SIZE];
	const char *text = "n0 07 x+5 y 1\t. 25  z5.";

	assert_true(lex_line(&line, text, strlen(text), &plain, why, sizeof why));
	assert_false(line.comment_first);
	assert_int_equal(line.count, 4);
	assert_true(line.word[0].plain);
	assert_int_equal(line.word[0].digits, 3);
	assert_false(line.word[1].plain);
	assert_false(line.word[2].plain);
	lex_name(name, &line.word[2]);
	assert_string_equal(name, "y 1 . 25");
	assert_true(lex_line(&line, "(a)X1", 5, &plain, why, sizeof why));
	assert_true(line.comment_first);
	assert_true(lex_line(&line, "X1(a)Y1", 7, &plain, why, sizeof why));
	assert_false(line.comment_first);
	assert_true(lex_line(&line, "X0.12345678901234567", 20, &plain, why, sizeof why));
	assert_true(
		lex_line(&line, "X00000000000000000000000000000001", 33, &plain, why, sizeof why));
	lex_name(name, &line.word[0]);
	assert_string_equal(name, "X0000000000000000000000");
}

/* The library's reading is the nearest double. With no more than 15 digits
 * both operands of the one division are exact, so the answer is the same. */
static void decimals_within_one_ulp(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("decimals_within_one_ulp");

	for (int i = 0; i < 200000; i++) {
		char text[64] = "X", why[WHY_SIZE];
		struct lex_line line;
		const int digits = (int)seed_whole(rng, 1, LEX_DIGITS_MAX);
		const int whole = (int)seed_whole(rng, 0, digits < 6 ? (unsigned)digits : 6);
		size_t size = 1;
		if (seed_whole(rng, 0, 1))
			text[size++] = '-';
		for (int digit = 0; digit < digits; digit++) {
			if (digit == whole)
				text[size++] = '.';
			text[size++] = (char)('0' + seed_whole(rng, 0, 9));
		}
		assert_true(lex_line(&line, text, size, &plain, why, sizeof why));
		const double exact = strtod(text + 1, NULL);
		const double value = line.word[0].value;
		if (digits <= 15)
			assert_true(value == exact);
		else
			assert_true(value == exact || value == nextafter(exact, INFINITY) ||
				    value == nextafter(exact, -INFINITY));
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lines_to_words),
		cmocka_unit_test(refused_lines),
		cmocka_unit_test(nul_is_refused),
		cmocka_unit_test(line_length),
		cmocka_unit_test(most_words),
		cmocka_unit_test(details_of_words),
		cmocka_unit_test(decimals_within_one_ulp),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
