/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows on standard error how far long work is: on a terminal only, and only
 * when the work lasts. */
#ifndef NECKHEW_CLI_PROGRESS_H
#define NECKHEW_CLI_PROGRESS_H

#include <signal.h>
#include <stdbool.h>
#include <time.h>

#include "base/watch.h"

/* Work takes this long before it is worth a line, s. */
#define PROGRESS_PATIENCE_S 1.0
/* The line is written again after this long and not before, s. */
#define PROGRESS_PAUSE_S 0.1

/* Signals that end the program and must not leave half a line behind. */
#define PROGRESS_SIGNALS 4

struct progress {
	bool watched; /* nothing is ever shown when nobody watches */
	bool shown;
	struct timespec begun, drawn;
	double whole; /* the work's steps end here */
	const char *what; /* the step at work */
	double from, to; /* where on the way from 0 to `whole` it begins and ends */
	struct sigaction before[PROGRESS_SIGNALS]; /* while shown */
};

/* Starts the clock for steps of which the last ends at `whole`. */
void progress_begin(struct progress *progress, double whole);

/* `what` is done next, and when it is done so much of `whole` will be. The
 * text must live as long as the step. */
void progress_step(struct progress *progress, const char *what, double until);

/* A watch that shows shares of the step at work; valid as long as *progress. */
struct watch progress_watch(struct progress *progress);

/* Takes the line away; to be called before anything else is printed. */
void progress_end(struct progress *progress);

#endif
