/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/progress.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "cli/progress_line.h"
#include "cli/terminal.h"

/* To the line's start and erase to its end: ECMA-48 8.3.41, EL. */
#define CLEAR_LINE "\r\033[K"

static const int ending[PROGRESS_SIGNALS] = { SIGINT, SIGTERM, SIGHUP, SIGQUIT };

/* Takes the line away, then lets the signal do what it does. It was reset to
 * that when this was called. Nothing but write and raise is called, which
 * POSIX 2.4.3 permits here. */
static void end_cleanly(int number)
{
	ssize_t written = write(STDERR_FILENO, CLEAR_LINE, sizeof CLEAR_LINE - 1);

	(void)written;
	(void)raise(number);
}

/* A signal that is ignored, as with nohup, stays so. */
static void catch_signals(struct progress *progress)
{
	struct sigaction action = { .sa_flags = (int)(SA_RESETHAND | SA_NODEFER) };

	action.sa_handler = end_cleanly;
	(void)sigemptyset(&action.sa_mask);
	for (size_t i = 0; i < PROGRESS_SIGNALS; i++) {
		(void)sigaction(ending[i], NULL, &progress->before[i]);
		if (progress->before[i].sa_handler == SIG_DFL)
			(void)sigaction(ending[i], &action, NULL);
	}
}

static void release_signals(const struct progress *progress)
{
	for (size_t i = 0; i < PROGRESS_SIGNALS; i++)
		(void)sigaction(ending[i], &progress->before[i], NULL);
}

static double seconds_since(const struct timespec *begin)
{
	struct timespec now;

	(void)clock_gettime(CLOCK_MONOTONIC, &now);
	return (double)(now.tv_sec - begin->tv_sec) + 1e-9 * (double)(now.tv_nsec - begin->tv_nsec);
}

void progress_begin(struct progress *progress, double whole)
{
	*progress = (struct progress){ .watched = terminal_watched(stderr),
				       .whole = whole,
				       .what = "" };
	(void)clock_gettime(CLOCK_MONOTONIC, &progress->begun);
}

/* One write for the whole line, so that no other can come between. */
static void draw(struct progress *progress, double share)
{
	char line[sizeof CLEAR_LINE + PROGRESS_LINE_ROOM] = CLEAR_LINE;

	if (!progress->watched || seconds_since(&progress->begun) < PROGRESS_PATIENCE_S)
		return;
	if (!progress->shown)
		catch_signals(progress);
	progress->shown = true;
	(void)progress_line(line + strlen(line), progress->what, share / progress->whole,
			    terminal_columns(stderr), terminal_utf8());
	(void)fputs(line, stderr);
	(void)fflush(stderr);
	(void)clock_gettime(CLOCK_MONOTONIC, &progress->drawn);
}

void progress_step(struct progress *progress, const char *what, double until)
{
	progress->what = what;
	progress->from = progress->to;
	progress->to = until;
	draw(progress, progress->from);
}

static void tell(void *context, double share)
{
	struct progress *progress = context;

	if (!progress->shown || seconds_since(&progress->drawn) >= PROGRESS_PAUSE_S)
		draw(progress, progress->from + (progress->to - progress->from) * share);
}

struct watch progress_watch(struct progress *progress)
{
	return (struct watch){ tell, progress };
}

void progress_end(struct progress *progress)
{
	if (!progress->shown)
		return;
	(void)fputs(CLEAR_LINE, stderr);
	(void)fflush(stderr);
	release_signals(progress);
	progress->shown = false;
}
