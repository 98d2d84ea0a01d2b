/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commits on file systems that misbehave: renames that are unknown or refused,
 * in the place of the system's own. */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* renameat2 */
#endif
#include <errno.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "support/scratch.h"

/* How the next renames behave. The code under test calls the system by fixed
 * names, so what stands in for it has no argument to find this by. */
static struct {
	int exchange_error; /* errno of renameat2, 0 lets it through */
	unsigned failing; /* bit n: the nth call of renameat fails with EIO */
	unsigned calls; /* of renameat so far */
	const char *intruder; /* a file that appears just before the exchange */
} rules;

static int odd_renameat2(int from_fd, const char *from, int to_fd, const char *to, unsigned flags)
{
	if (rules.intruder) {
		FILE *file = fopen(rules.intruder, "w");
		assert_non_null(file);
		assert_int_equal(fclose(file), 0);
	}
	if (rules.exchange_error == 0)
		return renameat2(from_fd, from, to_fd, to, flags);
	errno = rules.exchange_error;
	return -1;
}

static int odd_renameat(int from_fd, const char *from, int to_fd, const char *to)
{
	if (!(rules.failing >> rules.calls++ & 1))
		return renameat(from_fd, from, to_fd, to);
	errno = EIO;
	return -1;
}

#define renameat2 odd_renameat2
#define renameat odd_renameat
#include "files/out_dir.c" /* NOLINT(bugprone-suspicious-include): a white-box test */
#undef renameat2
#undef renameat

static void set_rules(int exchange_error, unsigned failing)
{
	rules.exchange_error = exchange_error;
	rules.failing = failing;
	rules.calls = 0;
	rules.intruder = NULL;
}

static enum fault make_output(const char *target, const char *mark, struct fault_list *faults)
{
	struct out_dir out;
	char *pictures;
	enum fault fault = out_dir_begin(&out, target, true, faults);

	if (!fault) {
		scratch_write(out.hidden, "job.json", "{ \"generator\": \"neckhew\" }");
		scratch_write(out.hidden, "mark", mark);
		fault = out_dir_folder(&out, "pictures", &pictures, faults);
		assert_int_equal(fault, FAULT_NONE);
		scratch_write(pictures, "mark", mark);
		free(pictures);
		fault = out_dir_commit(&out, faults);
	}
	out_dir_close(&out);
	return fault;
}

static void assert_mark(const char *target, const char *mark)
{
	static const char *const names[] = { "mark", "pictures/mark" };

	for (size_t i = 0; i < 2; i++) {
		char *text = scratch_read(target, names[i]);
		assert_non_null(text);
		assert_string_equal(text, mark);
		free(text);
	}
}

static void two_renames_stand_in_for_an_unknown_exchange(void **state)
{
	static const int unknown[] = { ENOSYS, EINVAL };
	char target[SCRATCH_ROOM];

	for (size_t i = 0; i < 2; i++) {
		char name[16];
		(void)snprintf(name, sizeof name, "plain-%zu", i);
		scratch_path(target, *state, name);
		set_rules(unknown[i], 0);
		assert_int_equal(make_output(target, "old", NULL), FAULT_NONE);
		assert_int_equal(make_output(target, "new", NULL), FAULT_NONE);
		assert_int_equal(rules.calls, 3); /* one for the first, two for the second */
		assert_mark(target, "new");
		assert_int_equal(scratch_count(*state), (int)i + 1);
	}
}

/* Whether the first rename fails or the second, which is then undone. */
static void a_failed_swap_leaves_the_old_output(void **state)
{
	char target[SCRATCH_ROOM];
	struct fault_list faults = { 0 };

	scratch_path(target, *state, "out");
	set_rules(0, 0);
	assert_int_equal(make_output(target, "old", NULL), FAULT_NONE);
	set_rules(EIO, 0);
	assert_int_equal(make_output(target, "new", &faults), FAULT_FILE);
	assert_int_equal(rules.calls, 0); /* trouble is no lack of exchange */
	assert_mark(target, "old");
	set_rules(ENOSYS, 1);
	assert_int_equal(make_output(target, "new", &faults), FAULT_FILE);
	assert_mark(target, "old");
	set_rules(ENOSYS, 2);
	assert_int_equal(make_output(target, "new", &faults), FAULT_FILE);
	assert_int_equal(rules.calls, 3);
	assert_mark(target, "old");
	assert_int_equal(faults.count, 3);
	assert_int_equal(scratch_count(*state), 1);
}

static void nothing_is_lost_when_even_undoing_fails(void **state)
{
	char target[SCRATCH_ROOM], aside[SCRATCH_ROOM], name[64];
	struct fault_list faults = { 0 };

	scratch_path(target, *state, "out");
	set_rules(0, 0);
	assert_int_equal(make_output(target, "old", NULL), FAULT_NONE);
	set_rules(ENOSYS, 2 | 4);
	assert_int_equal(make_output(target, "new", &faults), FAULT_FILE);
	(void)snprintf(name, sizeof name, "out.replaced-%ld", (long)getpid());
	assert_mark(scratch_path(aside, *state, name), "old");
	assert_int_equal(scratch_count(*state), 1);
}

static void a_first_output_needs_one_rename(void **state)
{
	char target[SCRATCH_ROOM];
	struct fault_list faults = { 0 };

	scratch_path(target, *state, "out");
	set_rules(ENOSYS, 1);
	assert_int_equal(make_output(target, "new", &faults), FAULT_FILE);
	assert_int_equal(scratch_count(*state), 0);
	set_rules(EACCES, 0);
	assert_int_equal(make_output(target, "new", &faults), FAULT_FILE);
	assert_int_equal(scratch_count(*state), 0);
}

/* What is put into the old output after the last look before the exchange: it
 * is neither removed nor hidden, at whichever level it stands. */
static void an_intruder_of_the_last_moment_is_put_aside(void **state)
{
	static const char *const intruders[] = { "mine", "pictures/mine" };
	char name[64];

	(void)snprintf(name, sizeof name, "out.replaced-%ld", (long)getpid());
	for (size_t i = 0; i < 2; i++) {
		char target[SCRATCH_ROOM], aside[SCRATCH_ROOM], path[SCRATCH_ROOM];
		struct fault_list faults = { 0 };
		set_rules(0, 0);
		scratch_path(target, *state, "out");
		assert_int_equal(make_output(target, "old", NULL), FAULT_NONE);
		rules.intruder = scratch_path(path, target, intruders[i]);
		assert_int_equal(make_output(target, "new", &faults), FAULT_FILE);
		assert_int_equal(faults.count, 1);
		assert_non_null(strstr(faults.record[0].message, name));
		assert_mark(target, "new");
		assert_mark(scratch_path(aside, *state, name), "old");
		assert_int_equal(unlink(scratch_path(path, aside, intruders[i])), 0);
		assert_int_equal(folder_remove_at(AT_FDCWD, aside), 0);
	}
	assert_int_equal(scratch_count(*state), 1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		IN_SCRATCH(two_renames_stand_in_for_an_unknown_exchange),
		IN_SCRATCH(a_failed_swap_leaves_the_old_output),
		IN_SCRATCH(nothing_is_lost_when_even_undoing_fails),
		IN_SCRATCH(a_first_output_needs_one_rename),
		IN_SCRATCH(an_intruder_of_the_last_moment_is_put_aside),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
