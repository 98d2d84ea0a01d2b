/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/terminal.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* To the line's start and erase to its end: ECMA-48 8.3.41, EL. */
#define CLEAR_LINE "\r\033[K"

static bool is_terminal(FILE *stream)
{
	const char *kind = getenv("TERM");

	return isatty(fileno(stream)) && !(kind && strcmp(kind, "dumb") == 0);
}

bool terminal_colour(FILE *stream)
{
	const char *no_colour = getenv("NO_COLOR");

	return is_terminal(stream) && !(no_colour && no_colour[0] != '\0');
}

struct terminal_progress terminal_progress_begin(FILE *stream)
{
	struct terminal_progress progress = { .stream = is_terminal(stream) ? stream : NULL };

	(void)clock_gettime(CLOCK_MONOTONIC, &progress.begin);
	return progress;
}

static double seconds_since(const struct timespec *begin)
{
	struct timespec now;

	(void)clock_gettime(CLOCK_MONOTONIC, &now);
	return (double)(now.tv_sec - begin->tv_sec) + 1e-9 * (double)(now.tv_nsec - begin->tv_nsec);
}

void terminal_progress_step(struct terminal_progress *progress, const char *what)
{
	if (!progress->stream || seconds_since(&progress->begin) < TERMINAL_PATIENCE_S)
		return;
	(void)fprintf(progress->stream, CLEAR_LINE "neckhew: %s ...", what);
	(void)fflush(progress->stream);
	progress->shown = true;
}

void terminal_progress_end(struct terminal_progress *progress)
{
	if (!progress->shown)
		return;
	(void)fputs(CLEAR_LINE, progress->stream);
	(void)fflush(progress->stream);
	progress->shown = false;
}
