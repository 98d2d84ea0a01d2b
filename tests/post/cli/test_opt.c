/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cli/opt.h"

#define WORDS_MAX 12
#define TOLD_MAX 2048

static const struct opt_row rows[] = {
	{ "json", 'j', OPT_FLAG, NULL, "print JSON" },
	{ "output", 'o', OPT_VALUE, "DIR", "the folder to write" },
	{ "replace", 0, OPT_FLAG, NULL,
	  "renew a folder that is there already, and say so at such length that the line must be "
	  "broken somewhere" },
};
static const struct opt_command command = { "try", "FILE...", "Tries things.", 1, 3, 3, rows };

struct tried {
	struct opt_values values;
	enum opt_outcome outcome;
	char store[WORDS_MAX][64];
	char *argv[WORDS_MAX + 1];
	char out[TOLD_MAX], errors[TOLD_MAX];
};

static void read_back(FILE *stream, char *to)
{
	rewind(stream);
	to[fread(to, 1, TOLD_MAX - 1, stream)] = '\0';
	(void)fclose(stream);
}

/* Reads a command line of words with blanks between them. */
static void try(struct tried *tried, const char *line)
{
	int argc = 0;

	memset(tried, 0, sizeof *tried);
	for (const char *at = line; *at;) {
		size_t length = strcspn(at, " ");
		assert_true(argc < WORDS_MAX && length < sizeof tried->store[0]);
		memcpy(tried->store[argc], at, length);
		tried->argv[argc] = tried->store[argc];
		argc++;
		at += length + (at[length] == ' ');
	}
	FILE *out = tmpfile(), *errors = tmpfile();
	assert_non_null(out);
	assert_non_null(errors);
	tried->outcome = opt_read(&tried->values, &command, argc, tried->argv, out, errors);
	read_back(out, tried->out);
	read_back(errors, tried->errors);
}

static void assert_refused(const char *line, const char *words)
{
	struct tried tried;

	try(&tried, line);
	assert_int_equal(tried.outcome, OPT_REFUSED);
	if (!strstr(tried.errors, words))
		print_message("%s", tried.errors);
	assert_non_null(strstr(tried.errors, words));
	assert_non_null(strstr(tried.errors, "neckhew try --help"));
	assert_string_equal(tried.out, "");
}

static void arguments_alone(void **state)
{
	(void)state;
	struct tried t;

	try(&t, "try a b -");
	assert_int_equal(t.outcome, OPT_GOOD);
	assert_int_equal(t.values.count, 3);
	assert_string_equal(t.values.argument[0], "a");
	assert_string_equal(t.values.argument[2], "-");
	assert_false(t.values.given[0]);
	assert_null(t.values.text[1]);
}

static void long_and_short_options(void **state)
{
	(void)state;
	static const char *const lines[] = {
		"try --json --output=d a", "try a -j --output d", "try -jod a",
		"try -j a -o d",	   "try -o d -j a",	  "try -od a --json"
	};

	for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
		struct tried t;
		try(&t, lines[i]);
		assert_int_equal(t.outcome, OPT_GOOD);
		assert_true(t.values.given[0]);
		assert_true(t.values.given[1]);
		assert_false(t.values.given[2]);
		assert_string_equal(t.values.text[1], "d");
		assert_int_equal(t.values.count, 1);
		assert_string_equal(t.values.argument[0], "a");
	}
}

static void values_may_look_like_anything(void **state)
{
	(void)state;
	struct tried t;

	try(&t, "try --output --json a");
	assert_string_equal(t.values.text[1], "--json");
	assert_false(t.values.given[0]);
	try(&t, "try --output= a");
	assert_string_equal(t.values.text[1], "");
	try(&t, "try --output=x=y a");
	assert_string_equal(t.values.text[1], "x=y");
}

static void dashes_end_the_options(void **state)
{
	(void)state;
	struct tried t;

	try(&t, "try -j -- -o --json --");
	assert_int_equal(t.outcome, OPT_GOOD);
	assert_int_equal(t.values.count, 3);
	assert_string_equal(t.values.argument[0], "-o");
	assert_string_equal(t.values.argument[1], "--json");
	assert_string_equal(t.values.argument[2], "--");
	assert_false(t.values.given[1]);
}

static void refusals(void **state)
{
	(void)state;
	assert_refused("try --jsn a", "no option \"--jsn\"; the nearest is --json");
	assert_refused("try --out a", "the nearest is --output");
	assert_refused("try --hlep a", "the nearest is --help");
	assert_refused("try --JSON a", "the nearest is --json");
	assert_refused("try -x a", "no option \"-x\"");
	assert_refused("try -jx a", "no option \"-x\"");
	assert_refused("try --json=1 a", "--json takes no value");
	assert_refused("try a --output", "--output needs a value");
	assert_refused("try a -o", "--output needs a value");
	assert_refused("try -o d --output e a", "--output is given twice");
	assert_refused("try", "an argument is missing: FILE...");
	assert_refused("try -j", "an argument is missing");
	assert_refused("try a b c d", "one argument too many: \"d\"");
	assert_refused("try --\x1b[31m a", "no option \"--?[31m\"");
}

static void help_wins(void **state)
{
	(void)state;
	static const char *const lines[] = { "try --help", "try -h", "try a -jh", "try -j --help" };

	for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
		struct tried t;
		try(&t, lines[i]);
		assert_int_equal(t.outcome, OPT_HELP);
		assert_string_equal(t.errors, "");
		assert_non_null(strstr(t.out, "Usage: neckhew try [OPTION...] FILE...\n"));
		assert_non_null(strstr(t.out, "\n  -o --output DIR         the folder to write\n"));
		assert_non_null(strstr(t.out, "\n     --replace            renew a folder"));
		assert_non_null(strstr(t.out, "\n  -h --help               print this\n"));
		for (const char *at = t.out; *at; at += strcspn(at, "\n") + 1)
			assert_true(strcspn(at, "\n") <= 80);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(arguments_alone),
		cmocka_unit_test(long_and_short_options),
		cmocka_unit_test(values_may_look_like_anything),
		cmocka_unit_test(dashes_end_the_options),
		cmocka_unit_test(refusals),
		cmocka_unit_test(help_wins),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
