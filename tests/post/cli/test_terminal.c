/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* setenv, fdopen */
#endif
#include "cli/terminal.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <unistd.h>

#include <cmocka.h>

#include "support/pty.h"

/* NULL takes the name out of the environment. */
static void put(const char *name, const char *value)
{
	assert_int_equal(value ? setenv(name, value, 1) : unsetenv(name), 0);
}

static FILE *stream_of(const struct pty *pty)
{
	FILE *stream = fdopen(pty->terminal, "w");

	assert_non_null(stream);
	return stream;
}

static void colours_are_for_terminals_that_want_them(void **state)
{
	(void)state;
	struct pty pty = pty_open(80);
	FILE *terminal = stream_of(&pty), *file = tmpfile();

	assert_non_null(file);
	put("TERM", "xterm-256color");
	put("NO_COLOR", NULL);
	assert_true(terminal_watched(terminal));
	assert_true(terminal_colour(terminal));
	assert_false(terminal_watched(file));
	assert_false(terminal_colour(file));
	put("NO_COLOR", "");
	assert_true(terminal_colour(terminal));
	put("NO_COLOR", "1");
	assert_false(terminal_colour(terminal));
	assert_true(terminal_watched(terminal));
	put("NO_COLOR", NULL);
	put("TERM", "dumb");
	assert_false(terminal_colour(terminal));
	assert_false(terminal_watched(terminal));
	(void)fclose(file);
	(void)fclose(terminal);
	(void)close(pty.watcher);
}

static void assert_utf8(const char *all, const char *type, const char *lang, int expected)
{
	put("LC_ALL", all);
	put("LC_CTYPE", type);
	put("LANG", lang);
	if (terminal_utf8() != expected)
		fail_msg("LC_ALL=%s LC_CTYPE=%s LANG=%s: %d", all ? all : "", type ? type : "",
			 lang ? lang : "", !expected);
}

static void the_first_locale_named_decides_on_letters(void **state)
{
	(void)state;
	assert_utf8(NULL, NULL, NULL, 0);
	assert_utf8(NULL, NULL, "C", 0);
	assert_utf8(NULL, NULL, "C.UTF-8", 1);
	assert_utf8(NULL, NULL, "de_DE.utf8", 1);
	assert_utf8(NULL, NULL, "de_DE.UTF-8@euro", 1);
	assert_utf8(NULL, NULL, "de_DE.ISO-8859-15@UTF-8", 0);
	assert_utf8(NULL, NULL, "en_GB", 0);
	assert_utf8(NULL, NULL, "en_GB.UTF-80", 0);
	assert_utf8("", "", "en_GB.UTF-8", 1);
	assert_utf8("C", NULL, "en_GB.UTF-8", 0);
	assert_utf8(NULL, "en_GB.UTF-8", "C", 1);
	assert_utf8("POSIX", "en_GB.UTF-8", "en_GB.UTF-8", 0);
}

static void assert_columns(unsigned short of_terminal, const char *asked, int expected, int page)
{
	struct pty pty = pty_open(of_terminal);
	FILE *terminal = stream_of(&pty);

	put("COLUMNS", asked);
	assert_int_equal(terminal_columns(terminal), expected);
	assert_int_equal(terminal_page_columns(terminal), page);
	(void)fclose(terminal);
	(void)close(pty.watcher);
}

static void the_width_is_what_the_terminal_says(void **state)
{
	(void)state;
	FILE *file = tmpfile();

	assert_columns(132, NULL, 132, 132);
	assert_columns(0, NULL, 80, 80);
	assert_columns(20, NULL, 20, 40);
	assert_columns(1000, NULL, 1000, 400);
	assert_columns(132, "100", 132, 100);
	assert_columns(132, "39", 132, 40);
	assert_columns(132, "99999999999999999999", 132, 400);
	assert_columns(132, "0", 132, 132);
	assert_columns(132, "-5", 132, 132);
	assert_columns(132, "100x", 132, 132);
	assert_columns(132, "", 132, 132);
	assert_non_null(file);
	put("COLUMNS", NULL);
	assert_int_equal(terminal_columns(file), 80);
	assert_int_equal(terminal_page_columns(file), 80);
	(void)fclose(file);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(colours_are_for_terminals_that_want_them),
		cmocka_unit_test(the_first_locale_named_decides_on_letters),
		cmocka_unit_test(the_width_is_what_the_terminal_says),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
