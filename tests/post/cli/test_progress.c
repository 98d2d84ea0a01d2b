/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bar as somebody at a terminal sees it: each case works in a process of
 * its own whose standard error is that terminal. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* fork, kill, nanosleep, setenv */
#endif
#include "cli/progress.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/pty.h"

#define SHOWN_ROOM 65536
#define CLEAR "\r\033[K"
#define FAULT "a fault is told"

static void rest_ms(long ms)
{
	struct timespec pause = { ms / 1000, ms % 1000 * 1000000 };

	(void)nanosleep(&pause, NULL);
}

/* Tells rising shares for so long, every 5 ms. */
static void work_ms(struct progress *progress, int ms)
{
	struct watch watch = progress_watch(progress);

	for (int at = 0; at < ms; at += 5) {
		watch_tell(&watch, (double)at / ms);
		rest_ms(5);
	}
	watch_tell(&watch, 1.0);
}

static void short_work(void)
{
	struct progress progress;

	progress_begin(&progress, 1.0);
	progress_step(&progress, "planning", 0.5);
	work_ms(&progress, 100);
	progress_step(&progress, "proving", 1.0);
	progress_end(&progress);
	(void)fputs(FAULT, stderr);
}

static void long_work(void)
{
	struct progress progress;

	progress_begin(&progress, 0.8);
	progress_step(&progress, "planning", 0.4);
	work_ms(&progress, 1500);
	progress_step(&progress, "proving", 0.8);
	work_ms(&progress, 500);
	progress_end(&progress);
	(void)fputs(FAULT, stderr);
}

static void endless_work(void)
{
	struct progress progress;

	progress_begin(&progress, 1.0);
	progress_step(&progress, "planning", 1.0);
	for (;;)
		work_ms(&progress, 2000);
}

static void deaf_work(void)
{
	(void)signal(SIGINT, SIG_IGN);
	endless_work();
}

/* Starts the work on a terminal of that kind. */
static pid_t start(struct pty *pty, const char *term, void (*work)(void))
{
	pid_t child = fork();

	assert_true(child >= 0);
	if (child == 0) {
		(void)setenv("TERM", term, 1);
		(void)setenv("LC_ALL", "C", 1);
		(void)dup2(pty->terminal, STDERR_FILENO);
		(void)close(pty->terminal);
		(void)close(pty->watcher);
		work();
		_exit(0);
	}
	pty_hand_over(pty);
	return child;
}

/* All that work which ends by itself shows; to be freed. */
static char *shown_by(const char *term, unsigned short columns, void (*work)(void))
{
	struct pty pty = pty_open(columns);
	pid_t child = start(&pty, term, work);
	char *shown = calloc(SHOWN_ROOM, 1);
	int status;

	assert_non_null(shown);
	pty_rest(&pty, shown, SHOWN_ROOM);
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
	return shown;
}

static void short_work_shows_nothing(void **state)
{
	(void)state;
	char *shown = shown_by("xterm", 80, short_work);

	assert_string_equal(shown, FAULT);
	free(shown);
}

static void nobody_watches_a_dumb_terminal(void **state)
{
	(void)state;
	char *shown = shown_by("dumb", 80, long_work);

	assert_string_equal(shown, FAULT);
	free(shown);
}

/* Every line begins by taking away the one before, and the last is taken away
 * before anything else is said. */
static void long_work_shows_one_line_that_rises_and_goes(void **state)
{
	(void)state;
	char *shown = shown_by("xterm", 60, long_work), *at = shown;
	int lines = 0, percent = 0;

	while (strncmp(at, CLEAR "neckhew: ", strlen(CLEAR "neckhew: ")) == 0) {
		char *figure = strchr(at, ']');
		char *next = at + strlen(CLEAR) + strcspn(at + strlen(CLEAR), "\r");
		assert_true(figure && figure < next && *next == '\r');
		assert_true(next - at - (long)strlen(CLEAR) < 60);
		int now = atoi(figure + 1);
		assert_true(now >= percent && now <= 100);
		percent = now;
		lines++;
		at = next;
	}
	assert_string_equal(at, CLEAR FAULT);
	/* after the patience no more than one line for each pause, the first, and
	 * one for each step; a slow machine makes work longer, so the work's own
	 * 5 ms bound it, not the clock */
	assert_between(lines, 4, 400 / 5, "lines shown");
	assert_null(strchr(shown, '\n'));
	assert_non_null(strstr(shown, "planning"));
	assert_non_null(strstr(shown, "proving"));
	free(shown);
}

static void assert_ends_cleanly_by(int signal_number)
{
	struct pty pty = pty_open(80);
	pid_t child = start(&pty, "xterm", endless_work);
	char *shown = calloc(SHOWN_ROOM, 1);
	int status;

	assert_non_null(shown);
	pty_wait_for(&pty, "planning", shown, SHOWN_ROOM);
	assert_int_equal(kill(child, signal_number), 0);
	pty_rest(&pty, shown, SHOWN_ROOM);
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFSIGNALED(status));
	assert_int_equal(WTERMSIG(status), signal_number);
	assert_true(strlen(shown) > strlen(CLEAR));
	assert_string_equal(shown + strlen(shown) - strlen(CLEAR), CLEAR);
	free(shown);
}

static void whoever_ends_it_finds_a_clean_line(void **state)
{
	(void)state;
	assert_ends_cleanly_by(SIGINT);
	assert_ends_cleanly_by(SIGTERM);
}

static void a_signal_that_was_ignored_stays_so(void **state)
{
	(void)state;
	struct pty pty = pty_open(80);
	pid_t child = start(&pty, "xterm", deaf_work);
	char *shown = calloc(SHOWN_ROOM, 1);
	int status;

	assert_non_null(shown);
	pty_wait_for(&pty, "planning", shown, SHOWN_ROOM);
	assert_int_equal(kill(child, SIGINT), 0);
	rest_ms(300);
	assert_int_equal(waitpid(child, &status, WNOHANG), 0);
	assert_int_equal(kill(child, SIGKILL), 0);
	pty_rest(&pty, shown, SHOWN_ROOM);
	assert_int_equal(waitpid(child, &status, 0), child);
	free(shown);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(short_work_shows_nothing),
		cmocka_unit_test(nobody_watches_a_dumb_terminal),
		cmocka_unit_test(long_work_shows_one_line_that_rises_and_goes),
		cmocka_unit_test(whoever_ends_it_finds_a_clean_line),
		cmocka_unit_test(a_signal_that_was_ignored_stays_so),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
