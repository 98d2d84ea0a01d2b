/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/terminal_text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* The end of a colour that begins here. */
static const char *colour_end(const char *text)
{
	const char *end = strchr(text, 'm');

	assert_non_null(end);
	return end;
}

void assert_within_columns(const char *text, int columns)
{
	int used = 0;

	for (; *text != '\0'; text++) {
		if (*text == '\033') {
			text = colour_end(text);
			continue;
		}
		used = *text == '\n' ? 0 : used + (((unsigned char)*text & 0xc0) != 0x80);
		if (used > columns)
			fail_msg("wider than %d columns: %.80s", columns, text - used);
	}
}

void assert_line(const char *text, const char *line)
{
	size_t length = strlen(line);

	for (const char *at = text; at; at = strchr(at, '\n')) {
		at += *at == '\n';
		if (strncmp(at, line, length) == 0 && at[length] == '\n')
			return;
	}
	fail_msg("no line \"%s\" in:\n%s", line, text);
}

void terminal_text_plain(char *text)
{
	char *to = text;

	for (const char *from = text; *from != '\0'; from++) {
		if (*from == '\033')
			from = colour_end(from);
		else
			*to++ = *from;
	}
	*to = '\0';
}
