/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "config/scan.h"

struct scanned {
	char text[2048];
	struct scan_result result;
	struct fault_list faults;
	enum fault code;
};

static void scan(struct scanned *scanned, const char *text)
{
	memset(scanned, 0, sizeof *scanned);
	(void)snprintf(scanned->text, sizeof scanned->text, "%s", text);
	scanned->code = scan_settings(scanned->text, strlen(scanned->text), "a.cfg",
				      &scanned->result, &scanned->faults);
}

/* Checks that the text is refused at that line in these words. */
static void assert_refused(const char *text, int line, const char *words)
{
	struct scanned scanned;

	scan(&scanned, text);
	assert_int_equal(scanned.code, FAULT_SETTING);
	assert_int_equal(scanned.faults.count, 1);
	assert_int_equal(scanned.faults.record[0].line, line);
	assert_string_equal(scanned.faults.record[0].file, "a.cfg");
	assert_non_null(strstr(scanned.faults.record[0].message, words));
}

static void assert_good(const char *text)
{
	struct scanned scanned;

	scan(&scanned, text);
	assert_int_equal(scanned.code, FAULT_NONE);
	assert_int_equal(scanned.faults.count, 0);
}

static void includes_are_listed_and_blanked(void **state)
{
	(void)state;
	struct scanned s;

	const char before[] =
		"a = 1;\n@include \"x/y.cfg\"\n  @include\t\"z.cfg\" # more\nb = 2;\n";
	scan(&s, before);
	assert_int_equal(s.code, FAULT_NONE);
	assert_int_equal(s.result.count, 2);
	assert_string_equal(s.result.include[0].path, "x/y.cfg");
	assert_int_equal(s.result.include[0].line, 2);
	assert_string_equal(s.result.include[1].path, "z.cfg");
	assert_int_equal(s.result.include[1].line, 3);
	assert_null(strstr(s.text, "@include"));
	assert_string_equal(strstr(s.text, "# more"), "# more\nb = 2;\n");
	assert_int_equal(strlen(s.text), sizeof before - 1);
}

static void includes_in_comments_and_texts_are_none(void **state)
{
	(void)state;
	struct scanned s;

	scan(&s,
	     "# @include \"a\"\n// @include \"b\"\n/*\n@include \"c\"\n*/\nn = \"@include\";\n");
	assert_int_equal(s.code, FAULT_NONE);
	assert_int_equal(s.result.count, 0);
	/* nothing is left that another reader could take for one */
	assert_null(strstr(s.text, "\n@include"));
	assert_non_null(strstr(s.text, "n = \"@include\";"));
}

static void malformed_includes(void **state)
{
	(void)state;
	assert_refused("\n@include x.cfg\n", 2, "written @include");
	assert_refused("@include \"x.cfg\n", 1, "written @include");
	assert_refused("@include \"\"\n", 1, "written @include");
	assert_refused("@include \"a\\b\"\n", 1, "written @include");
	assert_refused("@include \"a\tb\"\n", 1, "written @include");
	assert_refused("@include", 1, "written @include");
	assert_refused("@inc \"a\"", 1, "written @include");
	assert_refused("g = {\n@include \"x.cfg\"\n}\n", 2, "outside all groups");
}

static void too_many_or_too_long_includes(void **state)
{
	(void)state;
	char text[600] = "";

	for (int i = 0; i < SCAN_INCLUDES_MAX; i++)
		strcat(text, "@include \"a\"\n");
	assert_good(text);
	strcat(text, "@include \"a\"\n");
	assert_refused(text, SCAN_INCLUDES_MAX + 1, "at most 16");
	memset(text, 0, sizeof text);
	strcpy(text, "@include \"");
	memset(text + 10, 'p', SCAN_INCLUDE_PATH_MAX);
	strcat(text, "\"");
	assert_refused(text, 1, "at most 255");
}

static void texts_end_on_their_line(void **state)
{
	(void)state;
	assert_good("a = \"x \\\" y\"; b = \"\";\n");
	assert_refused("a = 1;\nb = \"x\n\";", 2, "must end on the line");
	assert_refused("a = \"x", 1, "must end on the line");
	assert_refused("a = \"x\\", 1, "must end on the line");
	assert_refused("a = \"x\\\n\";", 1, "must end on the line");
}

static void comments_end(void **state)
{
	(void)state;
	struct scanned s;

	assert_refused("a = 1;\n/* b\nc\n", 2, "has no end");
	assert_refused("/*/", 1, "has no end");
	scan(&s, "/* \" { @include */ a = 1; /**/\n");
	assert_int_equal(s.code, FAULT_NONE);
	assert_string_equal(s.text, "                   a = 1;     \n");
}

static void nesting(void **state)
{
	(void)state;
	assert_good("a = ((((((((1))))))));");
	assert_refused("a =\n(((((((((1)))))))));", 2, "more than 8 deep");
	assert_refused("a = {[({[({[(", 1, "more than 8 deep");
	assert_good("\"((((((((((\" # ((((((((((\n");
	assert_good(")))}}}]]]");
}

static void bytes_that_are_no_text(void **state)
{
	(void)state;
	struct scanned s;
	char nul[] = "a = 1;\nb\0 = 2;";

	assert_refused("a = 1;\n\x01", 2, "control character");
	assert_refused("a = \"\x1b\";", 1, "control character");
	assert_refused("\x7f", 1, "control character");
	memset(&s, 0, sizeof s);
	assert_int_equal(scan_settings(nul, sizeof nul - 1, "a.cfg", &s.result, &s.faults),
			 FAULT_SETTING);
	assert_int_equal(s.faults.record[0].line, 2);
	scan(&s, "\xEF\xBB\xBF"
		 "a = 1;\r\nb\t= 2;\r\n");
	assert_int_equal(s.code, FAULT_NONE);
	assert_string_equal(s.text, "   a = 1; \nb\t= 2; \n");
}

/* The parser keeps whole numbers in 32 bits and would wrap longer ones. */
static void long_whole_numbers(void **state)
{
	(void)state;
	assert_good("a = 999999999; b = -999999999; c = 0.12345678901234; d = .12345678901234;");
	assert_good("a = 1.5e10; b2222222222222 = 1; c = 38L;");
	assert_refused("a = 1;\nb = 4294967321;", 2, "more than 9 digits");
	assert_refused("a = -1000000000;", 1, "more than 9 digits");
	assert_refused("a = 12345678901234567890L;", 1, "more than 9 digits");
	assert_refused("a = 0x10;", 1, "decimal digits");
	assert_refused("a = 0XFFFFFFFFFF;", 1, "decimal digits");
}

static void empty_text(void **state)
{
	(void)state;
	assert_good("");
	assert_good("\n\n# nothing");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(includes_are_listed_and_blanked),
		cmocka_unit_test(includes_in_comments_and_texts_are_none),
		cmocka_unit_test(malformed_includes),
		cmocka_unit_test(too_many_or_too_long_includes),
		cmocka_unit_test(texts_end_on_their_line),
		cmocka_unit_test(comments_end),
		cmocka_unit_test(nesting),
		cmocka_unit_test(bytes_that_are_no_text),
		cmocka_unit_test(long_whole_numbers),
		cmocka_unit_test(empty_text),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
