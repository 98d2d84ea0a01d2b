/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every example neck on every machine of the shop, its programs in mm and in
 * inches: planned, written in the form the machine reads, read back, proven.
 * Columns of the simulated wood and ridges are coarse and bites deep, so that all
 * of it takes no minute. The paths are relative to the top folder, where the
 * tests are run. */
#include "cli/roughing.h"

#include <dirent.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "cli/load.h"
#include "program/write.h"
#include "support/near.h"
#include "support/scratch.h"

#define CELL_MM 1.2
#define SCALLOP_MM 0.9
/* with which a second cutter still finds something to do */
#define FINER_SCALLOP_MM 0.5
#define DEEPER 2.0
#define MACHINES_FILE "configs/machines.cfg"
#define MACHINES 6

#define FIRST_EXAMPLE "examples/steel-string/neck.cfg"

/* A name in quotes behind `before`, from `at` on; where it ends in *next. */
static bool next_name(char name[MACHINE_NAME_MAX], const char *at, const char *before,
		      const char **next)
{
	const char *from = strstr(at, before);

	if (!from)
		return false;
	from += strlen(before);
	*next = strchr(from, '"');
	assert_non_null(*next);
	(void)snprintf(name, MACHINE_NAME_MAX, "%.*s", (int)(*next - from), from);
	return true;
}

static void load(struct job *job, const char *path)
{
	struct fault_list faults = { 0 };
	struct neck *neck = NULL;

	if (load_job(job, &neck, path, &faults))
		fail_msg("%s: %s: %s", path, faults.record[0].setting, faults.record[0].message);
	neck_free(neck);
}

/* The first example as a job file in the scratch folder, for another machine. */
static void load_machine(struct machine *machine, const char *folder, const char *name)
{
	char *const text = scratch_read("examples/steel-string", "neck.cfg");
	char here[SCRATCH_ROOM], path[SCRATCH_ROOM], file[16384], shop[SCRATCH_ROOM + 16];
	char was[MACHINE_NAME_MAX];
	const char *end = NULL, *at = text;
	size_t size = 0;
	struct job job;

	assert_non_null(text);
	assert_non_null(getcwd(here, sizeof here));
	(void)snprintf(shop, sizeof shop, "%s/configs/", here);
	for (const char *up; (up = strstr(at, "../../configs/")); at = up + 14)
		size += (size_t)snprintf(file + size, sizeof file - size, "%.*s%s", (int)(up - at),
					 at, shop);
	assert_true(next_name(was, at, "machine = \"", &end));
	size += (size_t)snprintf(file + size, sizeof file - size, "%.*s%s%s",
				 (int)(end - at) - (int)strlen(was), at, name, end);
	assert_true(size < sizeof file);
	scratch_write(folder, "job.cfg", file);
	load(&job, scratch_path(path, folder, "job.cfg"));
	assert_string_equal(job.machine.name, name);
	*machine = job.machine;
	free(text);
}

static size_t load_machines(struct machine machine[MACHINES], const char *folder)
{
	char *const text = scratch_read("configs", "machines.cfg");
	char name[MACHINE_NAME_MAX];
	size_t count = 0;

	assert_non_null(text);
	for (const char *at = text; next_name(name, at, "\tname = \"", &at); count++) {
		assert_true(count < MACHINES);
		load_machine(&machine[count], folder, name);
	}
	free(text);
	return count;
}

static void assert_proven(const struct judgement *judgement, const char *what)
{
	const int broken = verdict_first_broken(&judgement->verdict);

	if (judgement->verdict.proven)
		return;
	assert_true(broken >= 0);
	const struct promise_result *result = &judgement->verdict.promise[broken];
	fail_msg("%s, line %d: %s", what, result->block, result->why);
}

static void prove_dry_run(const struct roughing *work, const char *what)
{
	struct program_text text = { 0 };
	struct judgement judgement;

	assert_int_equal(program_write(&text, &work->plan[0].dry_run, NULL, &work->job.machine,
				       NULL),
			 FAULT_NONE);
	const struct judge_text program = { text.bytes, text.size, { .name = "dry" } };
	assert_int_equal(judge_texts(&judgement, &program, 1, &work->job, work->neck, &work->facets,
				     NULL, NULL),
			 FAULT_NONE);
	assert_proven(&judgement, what);
	judge_free(&judgement);
	program_text_free(&text);
}

/* The job on that machine, in that unit. */
static void prove(const struct job *example, const struct machine *machine, enum length_unit unit)
{
	struct roughing work = { .job = *example };
	struct progress progress = { 0 };
	struct fault_list faults = { 0 };
	char what[256];

	work.job.machine = *machine;
	if (machine->program_unit != unit) {
		work.job.machine.program_unit = unit;
		work.job.machine.decimals = unit == UNIT_INCH ? 4 : 3;
	}
	work.job.carve.cell_mm = CELL_MM;
	work.job.carve.scallop_limit_mm = work.job.cutter_count > 1 ? FINER_SCALLOP_MM : SCALLOP_MM;
	for (size_t i = 0; i < work.job.cutter_count; i++)
		work.job.cutter[i].depth_limit_mm *= DEEPER;
	(void)snprintf(what, sizeof what, "%.60s, %.63s, %s", example->neck.name, machine->name,
		       unit == UNIT_INCH ? "inch" : "mm");
	print_message("%s\n", what);
	if (job_check(&work.job, &faults) || neck_build(&work.neck, &work.job.neck, &faults) ||
	    roughing_look(&work, &progress, &faults))
		fail_msg("%s: %s: %s", what, faults.record[0].setting, faults.record[0].message);
	assert_proven(&work.judgement, what);
	prove_dry_run(&work, what);
	roughing_free(&work);
}

static void every_example_on_every_machine(void **state)
{
	struct machine machine[MACHINES];
	int examples = 0;

	assert_int_equal(load_machines(machine, *state), MACHINES);
	DIR *folder = opendir("examples");
	assert_non_null(folder);
	for (const struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
		char path[SCRATCH_ROOM];
		struct job example;
		if (entry->d_name[0] == '.')
			continue;
		(void)snprintf(path, sizeof path, "examples/%.80s/neck.cfg", entry->d_name);
		load(&example, path);
		for (size_t k = 0; k < MACHINES; k++) {
			prove(&example, &machine[k], UNIT_MM);
			prove(&example, &machine[k], UNIT_INCH);
		}
		examples++;
	}
	(void)closedir(folder);
	assert_true(examples >= 3);
}

/* Between them the shop's machines have, and lack, each of the abilities. */
static void machines_differ(void **state)
{
	struct machine machine[MACHINES];
	int arcs = 0, upright = 0, numbers = 0, marks = 0, hand = 0, inch = 0, parks = 0;
	int short_lines = 0, semicolons = 0, silent = 0, whole_feeds = 0;
	double least_w = INFINITY, most_w = 0.0;

	assert_int_equal(load_machines(machine, *state), MACHINES);
	for (size_t i = 0; i < MACHINES; i++) {
		const struct abilities *reads = &machine[i].reads;
		arcs += reads->arcs != ARCS_NONE;
		upright += reads->arcs == ARCS_XY_XZ;
		numbers += reads->number_step > 0;
		marks += reads->percent_lines;
		hand += reads->spindle == SPINDLE_BY_HAND;
		inch += machine[i].program_unit == UNIT_INCH;
		parks += machine[i].parks;
		short_lines += reads->longest_line < 100;
		semicolons += reads->comments == COMMENTS_SEMICOLON;
		silent += reads->comments == COMMENTS_NONE;
		whole_feeds += reads->feed_decimals_stated && reads->feed_decimals == 0;
		least_w = fmin(least_w, machine[i].spindle_power_w);
		most_w = fmax(most_w, machine[i].spindle_power_w);
	}
	const int some[] = { arcs,  upright,	 numbers,    marks,  hand,	 inch,
			     parks, short_lines, semicolons, silent, whole_feeds };
	for (size_t i = 0; i < sizeof some / sizeof *some; i++)
		assert_in_range(some[i], 1, MACHINES - 1);
	assert_near(least_w, 300.0, 0.0, "weakest spindle, W");
	assert_near(most_w, 2000.0, 0.0, "strongest spindle, W");
}

static void expect_refusal(const struct job *job, const char *setting, const char *word)
{
	struct fault_list faults = { 0 };

	assert_int_equal(job_check(job, &faults), FAULT_SETTING);
	assert_string_equal(faults.record[0].setting, setting);
	assert_non_null(strstr(faults.record[0].message, word));
}

/* A machine that cannot hold the job is refused by the setting's name. */
static void too_small_a_machine(void **state)
{
	struct machine machine[MACHINES];
	struct job job;

	assert_int_equal(load_machines(machine, *state), MACHINES);
	load(&job, FIRST_EXAMPLE);
	job.machine.travel_mm[AXIS_X] = 400.0;
	expect_refusal(&job, "machine.travel", "travel along x; the machine has 400.0 mm");
	load(&job, FIRST_EXAMPLE);
	job.machine.parks = true;
	job.machine.park_x_mm = 700.0;
	expect_refusal(&job, "machine.travel", "travel along x with the parking place");
	load(&job, FIRST_EXAMPLE);
	job.machine.parks = true;
	job.machine.park_y_mm = NAN;
	expect_refusal(&job, "machine.park_y", "both park_x and park_y");
	load(&job, FIRST_EXAMPLE);
	job.cutter[0].plunge_feed_mm_per_min = 60.0;
	job.machine.program_unit = UNIT_INCH;
	job.machine.decimals = 4;
	job.machine.reads.feed_decimals_stated = true;
	expect_refusal(&job, "machine.feed_decimals", "too coarse");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(every_example_on_every_machine, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(machines_differ, scratch_make, scratch_remove),
		cmocka_unit_test_setup_teardown(too_small_a_machine, scratch_make, scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
