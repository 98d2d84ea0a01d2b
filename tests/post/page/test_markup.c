/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/markup.h"

#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/seed.h"

static void assert_escaped(const char *text, const char *expected)
{
	struct markup out = { 0 };

	markup_escaped(&out, text);
	assert_int_equal(markup_fault(&out, NULL), FAULT_NONE);
	assert_string_equal(out.text ? out.text : "", expected);
	assert_int_equal(out.size, strlen(expected));
	markup_free(&out);
}

static void what_means_something_to_a_browser_is_escaped(void **state)
{
	(void)state;
	assert_escaped("Ash & Elm", "Ash &amp; Elm");
	assert_escaped("<script>alert(1)</script>", "&lt;script&gt;alert(1)&lt;/script&gt;");
	assert_escaped("\" onload='x'", "&quot; onload=&#39;x&#39;");
	assert_escaped("&lt;", "&amp;lt;");
	assert_escaped("-->", "--&gt;");
	assert_escaped("", "");
}

static void good_text_stays(void **state)
{
	(void)state;
	assert_escaped("Z\xc3\xbcrich \xe2\x80\x93 1\xc2\xbd \xf0\x9f\x8e\xb8",
		       "Z\xc3\xbcrich \xe2\x80\x93 1\xc2\xbd \xf0\x9f\x8e\xb8");
	assert_escaped("two\nlines", "two\nlines");
	assert_escaped("{{title}}", "{{title}}"); /* the template searches nothing put in */
}

static void control_characters_become_question_marks(void **state)
{
	(void)state;
	assert_escaped("a\tb\rc\033[31m\x7f", "a?b?c?[31m?");
	assert_escaped("\xc2\x85\xc2\x9f\xc2\xa0", "??\xc2\xa0"); /* U+0085, U+009F; U+00A0 stays */
	assert_escaped("a\xe2\x80\xae"
		       "b",
		       "a?b"); /* U+202E turns the order */
	assert_escaped("\xe2\x81\xa6\xe2\x81\xa9\xe2\x80\xa8", "???");
	assert_escaped("\xe2\x80\xa7\xe2\x80\xaf\xe2\x81\xa5\xe2\x81\xaa",
		       "\xe2\x80\xa7\xe2\x80\xaf\xe2\x81\xa5\xe2\x81\xaa"); /* their neighbours */
}

/* Cases of RFC 3629: each broken byte becomes one question mark, and what
 * follows it is read anew, so that nothing can be swallowed. */
static void broken_utf8_becomes_question_marks(void **state)
{
	(void)state;
	assert_escaped("\xff<", "?&lt;");
	assert_escaped("\xc3<", "?&lt;"); /* cut short before a tag */
	assert_escaped("\xe2\x80<", "??&lt;");
	assert_escaped("\xf0\x9f\x8e\"", "???&quot;");
	assert_escaped("\xc0\xbc", "??"); /* "<" written too long */
	assert_escaped("\xe0\x80\xbc", "???");
	assert_escaped("\xf0\x80\x80\xbc", "????");
	assert_escaped("\xed\xa0\x80", "???"); /* a surrogate */
	assert_escaped("\xf4\x90\x80\x80", "????"); /* beyond U+10FFFF */
	assert_escaped("\xf5\x80\x80\x80", "????");
	assert_escaped("\x80\xbf", "??");
	assert_escaped("abc\xe2\x80", "abc??"); /* the text ends within */
	assert_escaped("\xf4\x8f\xbf\xbf\xed\x9f\xbf", "\xf4\x8f\xbf\xbf\xed\x9f\xbf");
}

/* Whatever bytes come in, none that means something goes out bare. */
static void no_bytes_get_through(void **state)
{
	gsl_rng *rng = seed_rng("no_bytes_get_through");
	static const char pool[] = "<>\"'&\xc3\xe2\x80\xaeqx";

	(void)state;
	for (unsigned long n = 0; n < 2000; n++) {
		char text[33] = "";
		seed_nth(rng, n);
		size_t size = seed_whole(rng, 0, sizeof text - 1);
		for (size_t i = 0; i < size; i++)
			text[i] = n % 2 ? (char)seed_whole(rng, 1, 255)
					: pool[seed_whole(rng, 0, sizeof pool - 2)];
		struct markup out = { 0 };
		markup_text(&out, "");
		markup_escaped(&out, text);
		assert_null(strpbrk(out.text, "<>\"'"));
		for (const char *at = out.text; (at = strchr(at, '&')) != NULL; at++)
			assert_true(strncmp(at, "&amp;", 5) == 0 || strncmp(at, "&lt;", 4) == 0 ||
				    strncmp(at, "&gt;", 4) == 0 || strncmp(at, "&quot;", 6) == 0 ||
				    strncmp(at, "&#39;", 5) == 0);
		markup_free(&out);
	}
	gsl_rng_free(rng);
}

static void json_cannot_end_its_element(void **state)
{
	struct markup out = { 0 };

	(void)state;
	markup_json(&out, "{\"a\":\"</script><!--\",\"b\":\"<<\"}");
	assert_string_equal(out.text, "{\"a\":\"\\u003c/script>\\u003c!--\","
				      "\"b\":\"\\u003c\\u003c\"}");
	markup_free(&out);
}

static void assert_number(double value, int decimals, const char *expected)
{
	struct markup out = { 0 };

	markup_number(&out, value, decimals);
	assert_string_equal(out.text, expected);
	markup_free(&out);
}

static void numbers_are_written_alike_everywhere(void **state)
{
	(void)state;
	for (int round = 0; round < 2; round++) {
		assert_number(1.005, 1, "1.0");
		assert_number(-7.25, 2,
			      "\xe2\x88\x92"
			      "7.25");
		assert_number(-0.004, 2, "0.00"); /* no minus before nothing */
		assert_number(3000.0, 0, "3000");
		assert_number(NAN, 2, "\xe2\x80\x93");
		assert_number(-INFINITY, 2, "\xe2\x80\x93");
		/* a decimal comma, where the system has such a locale */
		if (round == 0 && !setlocale(LC_ALL, "de_DE.UTF-8"))
			print_message("no locale with a comma on this system\n");
	}
	(void)setlocale(LC_ALL, "C");
}

static void the_longest_number_has_room(void **state)
{
	struct markup out = { 0 };

	(void)state;
	markup_number(&out, -1.7976931348623157e308, 2);
	assert_int_equal(out.size, 3 + 309 + 3); /* minus sign, digits, decimals */
	markup_free(&out);
}

static void bytes_may_be_any(void **state)
{
	struct markup out = { 0 };

	(void)state;
	markup_bytes(&out, "a\0b", 3);
	markup_bytes(&out, NULL, 0);
	assert_int_equal(out.size, 3);
	assert_memory_equal(out.text, "a\0b", 4);
	markup_bytes(&out, "x", SIZE_MAX - 2); /* more than there can be */
	struct fault_list faults = { 0 };
	assert_int_equal(markup_fault(&out, &faults), FAULT_MEMORY);
	assert_int_equal(faults.count, 1);
	markup_text(&out, "more"); /* nothing is added any more */
	assert_int_equal(out.size, 3);
	markup_free(&out);
	markup_free(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_means_something_to_a_browser_is_escaped),
		cmocka_unit_test(good_text_stays),
		cmocka_unit_test(control_characters_become_question_marks),
		cmocka_unit_test(broken_utf8_becomes_question_marks),
		cmocka_unit_test(no_bytes_get_through),
		cmocka_unit_test(json_cannot_end_its_element),
		cmocka_unit_test(numbers_are_written_alike_everywhere),
		cmocka_unit_test(the_longest_number_has_room),
		cmocka_unit_test(bytes_may_be_any),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
