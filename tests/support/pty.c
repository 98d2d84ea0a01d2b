/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* posix_openpt, TIOCSWINSZ */
#endif
#include "support/pty.h"

#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <cmocka.h>

struct pty pty_open(unsigned short columns)
{
	struct pty pty = { .watcher = posix_openpt(O_RDWR | O_NOCTTY) };
	struct winsize size = { .ws_row = 24, .ws_col = columns };

	assert_true(pty.watcher >= 0);
	assert_int_equal(grantpt(pty.watcher), 0);
	assert_int_equal(unlockpt(pty.watcher), 0);
	pty.terminal = open(ptsname(pty.watcher), O_RDWR | O_NOCTTY);
	assert_true(pty.terminal >= 0);
	assert_int_equal(ioctl(pty.terminal, TIOCSWINSZ, &size), 0);
	return pty;
}

void pty_hand_over(struct pty *pty)
{
	(void)close(pty->terminal);
	pty->terminal = -1;
}

/* Appends one portion; 0 at the end, which a terminal tells by an error. */
static size_t take(const struct pty *pty, char *to, size_t size)
{
	size_t used = strlen(to);
	ssize_t got = read(pty->watcher, to + used, size - used - 1);

	to[used + (got > 0 ? (size_t)got : 0)] = '\0';
	return got > 0 ? (size_t)got : 0;
}

void pty_wait_for(const struct pty *pty, const char *text, char *to, size_t size)
{
	to[0] = '\0';
	while (!strstr(to, text))
		if (take(pty, to, size) == 0)
			fail_msg("\"%s\" was never shown, but \"%s\"", text, to);
}

void pty_rest(struct pty *pty, char *to, size_t size)
{
	while (take(pty, to, size) > 0)
		;
	(void)close(pty->watcher);
	pty->watcher = -1;
}
