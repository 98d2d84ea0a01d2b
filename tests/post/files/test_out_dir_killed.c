/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outputs of runs that are killed at any moment. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* kill, nanosleep */
#endif
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#include "support/output.h"
#include "support/scratch.h"
#include "support/seed.h"

#define KILLS 60
#define SPAN_FIRST_US 10000UL
#define SPAN_LEAST_US 500UL
#define SPAN_MOST_US 2000000UL

/* Runs an output_make in a child and kills it after so many microseconds. */
static void kill_after(const char *target, bool replace, char mark, unsigned long microseconds)
{
	struct timespec pause = { (time_t)(microseconds / 1000000),
				  (long)(microseconds % 1000000) * 1000 };
	pid_t child = fork();
	int status;

	assert_true(child >= 0);
	if (child == 0)
		_exit(output_make(target, replace, mark, NULL) == FAULT_NONE ? 0 : 1);
	(void)nanosleep(&pause, NULL);
	(void)kill(child, SIGKILL);
	assert_int_equal(waitpid(child, &status, 0), child);
	/* it either fell to the signal or had ended well before */
	assert_true(WIFSIGNALED(status) || WEXITSTATUS(status) == 0);
}

/* Microseconds within which the next kill falls. They follow the disk, whose
 * speed may change from one moment to the next, so that about as many kills
 * come before the end of the work as after it. */
static unsigned long next_span(unsigned long span, bool was_done)
{
	unsigned long next = was_done ? span - span / 4 : span + span / 4;

	return next < SPAN_LEAST_US ? SPAN_LEAST_US : next > SPAN_MOST_US ? SPAN_MOST_US : next;
}

static void a_kill_leaves_nothing_or_the_whole(void **state)
{
	char target[SCRATCH_ROOM], name[16];
	gsl_rng *rng = seed_rng("a_kill_leaves_nothing_or_the_whole");
	unsigned long span = SPAN_FIRST_US;
	int whole = 0;

	for (int i = 0; i < KILLS; i++) {
		(void)snprintf(name, sizeof name, "killed-%d", i);
		scratch_path(target, *state, name);
		kill_after(target, false, 'k', i == 0 ? 0 : seed_whole(rng, 0, span));
		char mark = output_mark(target);
		assert_true(mark == '\0' || mark == 'k');
		whole += mark != '\0';
		span = next_span(span, mark != '\0');
	}
	print_message("killed: %d whole, %d nothing\n", whole, KILLS - whole);
	assert_true(whole < KILLS);
	/* a run an hour later clears what the killed ones left */
	output_age(*state, 3600);
	assert_int_equal(output_make(scratch_path(target, *state, "later"), false, 'l', NULL),
			 FAULT_NONE);
	assert_int_equal(scratch_count(*state), whole + 1);
	gsl_rng_free(rng);
}

static void a_kill_leaves_the_old_or_the_new(void **state)
{
	char target[SCRATCH_ROOM];
	gsl_rng *rng = seed_rng("a_kill_leaves_the_old_or_the_new");
	unsigned long span = SPAN_FIRST_US;
	char mark = 'a';
	int renewed = 0;

	scratch_path(target, *state, "renewed");
	assert_int_equal(output_make(target, false, mark, NULL), FAULT_NONE);
	for (int i = 0; i < KILLS; i++) {
		char next = (char)(mark == 'z' ? 'a' : mark + 1);
		kill_after(target, true, next, i == 0 ? 0 : seed_whole(rng, 0, span));
		char now = output_mark(target);
		assert_true(now == mark || now == next);
		renewed += now == next;
		span = next_span(span, now == next);
		mark = now;
	}
	print_message("killed: %d renewed, %d as before\n", renewed, KILLS - renewed);
	assert_true(renewed < KILLS);
	/* whatever the killed runs left, old outputs put aside among it */
	output_age(*state, 3600);
	assert_int_equal(output_make(target, true, 'A', NULL), FAULT_NONE);
	assert_int_equal(output_mark(target), 'A');
	assert_int_equal(scratch_count(*state), 1);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		IN_SCRATCH(a_kill_leaves_nothing_or_the_whole),
		IN_SCRATCH(a_kill_leaves_the_old_or_the_new),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
