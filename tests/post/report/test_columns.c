/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/columns.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/seed.h"

/* What a call prints, in a string to be freed. */
#define PRINTED(call)                             \
	char *text = NULL;                        \
	size_t size = 0;                          \
	FILE *out = open_memstream(&text, &size); \
	assert_non_null(out);                     \
	call;                                     \
	assert_int_equal(fclose(out), 0)

static void assert_number(int width, int decimals, double value, const char *expected)
{
	PRINTED(columns_number(out, width, decimals, value));
	assert_string_equal(text, expected);
	free(text);
}

static void numbers_keep_to_their_columns(void **state)
{
	(void)state;
	assert_number(8, 3, 21.7536, "   21.754");
	assert_number(8, 3, -0.5, "   -0.500");
	assert_number(6, 3, 123.4567, " 123.46");
	assert_number(6, 3, 12345.67, "  12346");
	assert_number(6, 3, 123456.0, " 123456");
	assert_number(6, 3, 1234567.0, "     >>");
	assert_number(6, 3, -1234567.0, "     <<");
	assert_number(4, 0, 1e300, "   >>");
	assert_number(5, 1, NAN, "     -");
	assert_number(5, 1, INFINITY, "     -");
}

static void assert_text(int width, int fill, const char *given, const char *expected)
{
	PRINTED(columns_text(out, width, fill, given));
	assert_string_equal(text, expected);
	free(text);
}

static void text_is_cut_filled_and_harmless(void **state)
{
	(void)state;
	assert_text(5, 1, "abc", "abc  ");
	assert_text(5, 0, "abc", "abc");
	assert_text(5, 1, "abcdefg", "abcde");
	assert_text(3, 1, "h\xc3\xaatre", "h\xc3\xaat");
	assert_text(9, 0, "a\033[31mb\n", "a?[31mb?");
	assert_text(9, 0, "\x7f\x01", "??");
	/* C1 control characters, broken and overlong forms, surrogates (RFC 3629) */
	assert_text(9, 0,
		    "\xc2\x9b"
		    "1m",
		    "??1m");
	assert_text(9, 0, "\xc3", "?");
	assert_text(9, 0, "\xe2\x82", "??");
	assert_text(9, 0, "\xc0\xaf", "??");
	assert_text(9, 0, "\xe0\x80\xaf", "???");
	assert_text(9, 0, "\xed\xa0\x80", "???");
	assert_text(9, 0, "\xf4\x90\x80\x80", "????");
	assert_text(9, 0, "\xf0\x9d\x84\x9e!", "\xf0\x9d\x84\x9e!");
	assert_text(9, 0, "\xe2\x82\xac", "\xe2\x82\xac");
	assert_text(9, 0, "\xff\xfe", "??");
}

static void paragraphs_break_at_spaces(void **state)
{
	(void)state;
	PRINTED((void)fputs("0123456789", out); columns_paragraph(
			out, 10, 4,
			"This sentence is long enough to need a second line, which stands under an indent."));
	assert_string_equal(text, "0123456789This sentence is long enough to need a second line, "
				  "which stands under\n    an indent.\n");
	free(text);
}

/* Whatever words of whatever length: no line is wider, no letter is lost. */
static void random_paragraphs_lose_nothing(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("random_paragraphs_lose_nothing");

	for (int round = 0; round < 500; round++) {
		char given[600];
		size_t length = seed_whole(rng, 0, sizeof given - 1), letters = 0, printed = 0;
		for (size_t i = 0; i < length; i++)
			given[i] = seed_whole(rng, 0, 9) < 2 ? ' ' : 'x';
		given[length] = '\0';
		int indent = (int)seed_whole(rng, 0, 30);
		PRINTED(columns_paragraph(out, indent, indent, given));
		for (size_t i = 0; i < length; i++)
			letters += given[i] == 'x';
		for (size_t i = 0; i < size; i++)
			printed += text[i] == 'x';
		assert_int_equal(printed, letters);
		int at = indent; /* as the caller's line went before */
		for (size_t i = 0; i < size; i++) {
			at = text[i] == '\n' ? 0 : at + 1;
			assert_true(at <= COLUMNS_MOST);
		}
		free(text);
	}
	gsl_rng_free(rng);
}

/* Narrower lines, down to no more than the indent and a letter. */
static void narrow_paragraphs_keep_their_width(void **state)
{
	static const char given[] = "Each character shows the deepest cut in 6.5 x 6.5 mm.";

	(void)state;
	for (int most = 10; most <= COLUMNS_MOST; most++) {
		int at = 0, letters = 0;
		PRINTED(columns_wrapped(out, most, 0, 2, given));
		for (size_t i = 0; i < size; i++) {
			at = text[i] == '\n' ? 0 : at + 1;
			assert_true(at <= most);
			letters += text[i] != '\n' && text[i] != ' ';
		}
		assert_int_equal(letters, 43);
		free(text);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(numbers_keep_to_their_columns),
		cmocka_unit_test(text_is_cut_filled_and_harmless),
		cmocka_unit_test(paragraphs_break_at_spaces),
		cmocka_unit_test(random_paragraphs_lose_nothing),
		cmocka_unit_test(narrow_paragraphs_keep_their_width),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
