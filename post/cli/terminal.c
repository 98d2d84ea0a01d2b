/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/terminal.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/ioctl.h>
#include <unistd.h>

bool terminal_watched(FILE *stream)
{
	const char *kind = getenv("TERM");

	return isatty(fileno(stream)) && !(kind && strcmp(kind, "dumb") == 0);
}

bool terminal_colour(FILE *stream)
{
	const char *no_colour = getenv("NO_COLOR");

	return terminal_watched(stream) && !(no_colour && no_colour[0] != '\0');
}

/* The part of "de_DE.UTF-8@euro" between point and at sign. */
static bool names_utf8(const char *locale)
{
	const char *point = strchr(locale, '.');

	if (!point)
		return false;
	size_t length = strcspn(point + 1, "@");
	return (length == 5 && strncasecmp(point + 1, "UTF-8", length) == 0) ||
	       (length == 4 && strncasecmp(point + 1, "UTF8", length) == 0);
}

bool terminal_utf8(void)
{
	static const char *const names[] = { "LC_ALL", "LC_CTYPE", "LANG" };

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		const char *locale = getenv(names[i]);
		if (locale && locale[0] != '\0')
			return names_utf8(locale);
	}
	return false;
}

int terminal_columns(FILE *stream)
{
	struct winsize size = { 0 };

	if (!isatty(fileno(stream)) || ioctl(fileno(stream), TIOCGWINSZ, &size) != 0 ||
	    size.ws_col == 0)
		return TERMINAL_COLUMNS;
	return size.ws_col;
}

int terminal_page_columns(FILE *stream)
{
	const char *asked = getenv("COLUMNS");
	char *end = NULL;
	long columns = asked ? strtol(asked, &end, 10) : 0;

	if (columns <= 0 || *end != '\0')
		columns = terminal_columns(stream);
	if (columns < TERMINAL_COLUMNS_LEAST)
		return TERMINAL_COLUMNS_LEAST;
	return columns > TERMINAL_COLUMNS_MOST ? TERMINAL_COLUMNS_MOST : (int)columns;
}
