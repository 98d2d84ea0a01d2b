/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A terminal that a test looks at: what a program on it prints can be read. */
#ifndef NECKHEW_TESTS_SUPPORT_PTY_H
#define NECKHEW_TESTS_SUPPORT_PTY_H

#include <stddef.h>

struct pty {
	int watcher; /* reads what is shown */
	int terminal; /* what the program takes for its terminal */
};

/* A terminal this many columns wide; 0 when it does not say. Fails the test when
 * there is none to be had. */
struct pty pty_open(unsigned short columns);

/* Closes the terminal's end here, so that pty_text finds an end. */
void pty_hand_over(struct pty *pty);

/* Waits until `text` was shown and keeps what came so far, NUL-terminated, in
 * `to`; fails the test when the terminal is closed before. */
void pty_wait_for(const struct pty *pty, const char *text, char *to, size_t size);

/* Appends to `to` what is shown until the last user of the terminal ends, and
 * closes the watcher. */
void pty_rest(struct pty *pty, char *to, size_t size);

#endif
