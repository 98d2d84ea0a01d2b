/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What depends on whether somebody is watching: colours and a progress line. */
#ifndef NECKHEW_CLI_TERMINAL_H
#define NECKHEW_CLI_TERMINAL_H

#include <stdbool.h>
#include <stdio.h>
#include <time.h>

/* Are colours wanted on this stream? Only on a terminal that is not "dumb",
 * and not when the environment has a NO_COLOR that is not empty. */
bool terminal_colour(FILE *stream);

/* Work takes this long before it is worth a line, s. */
#define TERMINAL_PATIENCE_S 1.0

struct terminal_progress {
	FILE *stream; /* NULL when nobody watches */
	struct timespec begin;
	bool shown;
};

/* Starts the clock. Nothing will ever be shown unless `stream` is a terminal. */
struct terminal_progress terminal_progress_begin(FILE *stream);

/* Says what is done next, on one line written over again, once the work has
 * lasted TERMINAL_PATIENCE_S. */
void terminal_progress_step(struct terminal_progress *progress, const char *what);

/* Takes the line away. */
void terminal_progress_end(struct terminal_progress *progress);

#endif
