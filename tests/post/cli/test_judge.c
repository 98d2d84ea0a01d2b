/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/judge.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"
#include "support/scratch.h"

/* A groove 2 mm deep along a board 20 mm tall. */
#define GROOVE                                                                  \
	"G21\nG17\nG90\nG94\nS16000 M3\nG4 P4\nG0 Z30.000\nG0 X10.000 Y0.000\n" \
	"G1 Z18.000 F600.0\nG1 X40.000 F1800.0\nG0 Z30.000\nM5\nM2\n"
#define GROOVE_LINES 13

struct bench {
	struct job job;
	struct sample_model model;
};

static void set_up(struct bench *bench)
{
	bench->job = sample_board_job();
	sample_model_make(&bench->model, &bench->job.neck);
}

static void judge_in_memory(struct judgement *out, const struct bench *bench, const char *text,
			    const struct judge_program *about)
{
	const struct judge_text program = { text, strlen(text), *about };

	assert_int_equal(judge_texts(out, &program, 1, &bench->job, bench->model.neck,
				     &bench->model.facets, NULL, NULL),
			 FAULT_NONE);
}

static void judge_on_disk(struct judgement *out, const struct bench *bench, const char *folder,
			  const char *text, struct judge_program about)
{
	char path[SCRATCH_ROOM];

	scratch_write(folder, "a.nc", text);
	about.path = scratch_path(path, folder, "a.nc");
	assert_int_equal(judge_programs(out, &about, 1, &bench->job, bench->model.neck,
					&bench->model.facets, NULL, NULL),
			 FAULT_NONE);
}

static void assert_same(const struct judgement *a, const struct judgement *b)
{
	assert_int_equal(a->blocks[0], b->blocks[0]);
	assert_int_equal(a->verdict.proven, b->verdict.proven);
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *x = &a->verdict.promise[i];
		const struct promise_result *y = &b->verdict.promise[i];
		assert_int_equal(x->judged, y->judged);
		assert_int_equal(x->kept, y->kept);
		assert_int_equal(x->block, y->block);
		assert_string_equal(x->why, y->why);
	}
	assert_int_equal(a->record.program_count, b->record.program_count);
}

static void a_text_is_judged_as_the_same_bytes_on_disk_are(void **state)
{
	static const int begin[1] = { 0 };
	static const struct judge_program about = { NULL, "groove", 0, 1, begin };
	struct bench bench;
	struct judgement memory, disk;

	set_up(&bench);
	judge_in_memory(&memory, &bench, GROOVE, &about);
	judge_on_disk(&disk, &bench, *state, GROOVE, about);
	assert_int_equal(memory.blocks[0], GROOVE_LINES);
	assert_same(&memory, &disk);
	assert_int_equal(memory.record.program_count, 1);
	assert_int_equal(memory.record.program[0].pass_count, 1);
	assert_near(memory.record.program[0].pass[0].deepest_bite_mm, 2.0, 1e-4, "20 less 18, mm");
	assert_near(disk.record.program[0].pass[0].deepest_bite_mm, 2.0, 1e-4, "20 less 18, mm");
	judge_free(&memory);
	judge_free(&disk);
	sample_model_free(&bench.model);
}

static void a_text_out_of_form_breaks_that_promise(void **state)
{
	static const struct judge_program about = { NULL, "arc", 0, 0, NULL };
	struct bench bench;
	struct judgement memory, disk;

	set_up(&bench);
	judge_in_memory(&memory, &bench, "G21\nG17\nG2 X1 Y1 R1\nM2\n", &about);
	judge_on_disk(&disk, &bench, *state, "G21\nG17\nG2 X1 Y1 R1\nM2\n", about);
	assert_same(&memory, &disk);
	assert_false(memory.verdict.proven);
	assert_false(memory.verdict.promise[PROMISE_FORM].kept);
	assert_int_equal(memory.verdict.promise[PROMISE_FORM].block, 3);
	assert_int_equal(memory.record.program_count, 0);
	judge_free(&memory);
	judge_free(&disk);
	sample_model_free(&bench.model);
}

static void a_file_that_is_not_there_is_a_fault(void **state)
{
	char path[SCRATCH_ROOM];
	const struct judge_program about = { scratch_path(path, *state, "none.nc"), "none", 0, 0,
					     NULL };
	struct bench bench;
	struct judgement judgement;

	set_up(&bench);
	assert_int_equal(judge_programs(&judgement, &about, 1, &bench.job, bench.model.neck,
					&bench.model.facets, NULL, NULL),
			 FAULT_FILE);
	judge_free(&judgement);
	sample_model_free(&bench.model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		IN_SCRATCH(a_text_is_judged_as_the_same_bytes_on_disk_are),
		IN_SCRATCH(a_text_out_of_form_breaks_that_promise),
		IN_SCRATCH(a_file_that_is_not_there_is_a_fault),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
