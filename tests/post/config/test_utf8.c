/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sequences after RFC 3629, sections 3 and 4. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "config/utf8.h"

static void names(void **state)
{
	(void)state;
	assert_true(utf8_is_name("Parlour No. 3"));
	assert_true(utf8_is_name("Nu\xC3\x9F"
				 "baum"));
	assert_true(utf8_is_name("\xE6\xA1\x83")); /* three bytes */
	assert_true(utf8_is_name("\xF0\x9F\x8E\xB8")); /* four */
	assert_true(utf8_is_name("\xC2\xA0x")); /* first one behind the controls */
}

static void blanks_are_no_name(void **state)
{
	(void)state;
	assert_false(utf8_is_name(""));
	assert_false(utf8_is_name("   "));
}

static void control_characters(void **state)
{
	(void)state;
	assert_false(utf8_is_name("a\nb"));
	assert_false(utf8_is_name("a\x1b[31m"));
	assert_false(utf8_is_name("a\x7f"));
	assert_false(utf8_is_name("a\xC2\x9B")); /* U+009B */
	assert_false(utf8_is_name("a\xE2\x80\xAE")); /* U+202E turns the line */
	assert_false(utf8_is_name("a\xE2\x80\xA8")); /* U+2028 breaks it */
	assert_false(utf8_is_name("a\xE2\x81\xA6")); /* U+2066 */
	assert_true(utf8_is_name("a\xE2\x80\xA7")); /* U+2027, a point */
}

static void malformed(void **state)
{
	(void)state;
	assert_false(utf8_is_name("\x80"));
	assert_false(utf8_is_name("\xC3")); /* cut short */
	assert_false(utf8_is_name("\xE6\xA1"));
	assert_false(utf8_is_name("\xC3("));
	assert_false(utf8_is_name("\xC0\xAF")); /* longer than needed */
	assert_false(utf8_is_name("\xE0\x80\xAF"));
	assert_false(utf8_is_name("\xF0\x80\x80\xAF"));
	assert_false(utf8_is_name("\xED\xA0\x80")); /* half of a pair */
	assert_false(utf8_is_name("\xF4\x90\x80\x80")); /* beyond U+10FFFF */
	assert_false(utf8_is_name("\xFF"));
}

static void plain_text(void **state)
{
	(void)state;
	char text[8];

	utf8_make_plain(text, sizeof text, "ball 6");
	assert_string_equal(text, "ball 6");
	utf8_make_plain(text, sizeof text, "a\x1b\xC3\n");
	assert_string_equal(text, "a???");
	utf8_make_plain(text, sizeof text, "0123456");
	assert_string_equal(text, "0123456");
	utf8_make_plain(text, sizeof text, "01234567");
	assert_string_equal(text, "0123...");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(names),
		cmocka_unit_test(blanks_are_no_name),
		cmocka_unit_test(control_characters),
		cmocka_unit_test(malformed),
		cmocka_unit_test(plain_text),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
