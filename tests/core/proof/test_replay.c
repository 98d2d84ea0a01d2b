/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short programs on a flat board 60 x 40 x 20 mm, cut with a 6 mm ball: bites,
 * volumes and rules in closed forms. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "proof/replay.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/sample_job.h"

/* What became of one program. */
struct outcome {
	struct verdict verdict;
	struct proof_record record;
};

/* The board is all shaft. */
static const struct stretches stretches = { { 0, 1000, 2000 } };

/* Replays the list, which is used up. */
static struct outcome replayed(const struct job *job, struct motion_list list, size_t passes,
			       const int *first_block)
{
	struct outcome out;
	struct replay *replay;
	const struct proof_program program = { .file = "board",
					       .motions = &list,
					       .pass_count = passes,
					       .pass_first_block = first_block };

	moves_number(&list);
	verdict_start(&out.verdict);
	assert_int_equal(replay_start(&replay, &out.record, job, &stretches, 1, NULL), FAULT_NONE);
	assert_int_equal(replay_program(replay, &out.verdict, &program, 0, NULL, NULL, NULL),
			 FAULT_NONE);
	replay_free(replay);
	motion_list_free(&list);
	return out;
}

/* Exactly these promises are broken: 0-terminated pairs of promise + 1 and
 * block. */
static void assert_broken(struct outcome *out, const int *expected)
{
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &out->verdict.promise[i];
		int block = 0;
		for (const int *e = expected; *e; e += 2)
			block = *e == i + 1 ? e[1] : block;
		if (result->judged && !result->kept && result->block != block)
			fail_msg("block %d: %s", result->block, result->why);
		assert_int_equal(block != 0, result->judged && !result->kept);
	}
	proof_record_free(&out->record);
}

#define KEPT ((const int[]){ 0 })
#define BROKEN(promise, block) ((const int[]){ (promise) + 1, (block), 0 })

/* Over (x, y), then down to z at the plunge feed: blocks 1 to 3. */
static struct motion_list entered(double x, double y, double z)
{
	struct motion_list list = { 0 };

	moves_rapid(&list, x, y, 80);
	moves_rapid(&list, x, y, 70);
	moves_cut(&list, x, y, z, 600);
	return list;
}

/* Section of a slot 1 deep by a ball of 3: R^2 q - (R - a) sqrt(a (2R - a)) =
 * 3.097482 mm2; both ends together a cap pi a^2 (3R - a) / 3. */
static void slot_of_known_depth(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = entered(10, 0, 19);

	moves_cut(&list, 50, 0, 19, 1500);
	struct outcome out = replayed(&job, list, 0, NULL);
	const struct pass_record *pass = &out.record.program[0].pass[0];
	assert_near(out.verdict.promise[PROMISE_BITE].worst, 1.0, 1e-5, "bite, mm");
	assert_near(pass->deepest_bite_mm, 1.0, 1e-5, "bite, mm");
	assert_near(pass->volume_mm3, 3.097482 * 40.0 + PI * 8.0 / 3.0, 1.0, "volume, mm3");
	assert_near(pass->length_mm, 51.0 + 40.0, 1e-9, "cutting length, mm");
	assert_near(pass->fastest_mm_per_min, 1500, 0.0, "feed, mm/min");
	assert_near(out.record.program[0].rapid_mm, 10.0, 1e-9, "rapids, mm");
	assert_broken(&out, KEPT);
}

static void idle_way(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = entered(10, 0, 19);

	moves_cut(&list, 50, 0, 19, 1500);
	moves_cut(&list, 10, 0, 19, 1500); /* back in the same slot */
	moves_cut(&list, 10, 0, 22, 1500);
	moves_cut(&list, 10, 13, 23.5, 1500); /* above the wood */
	moves_cut(&list, 40, 13, 19.5, 1500);
	struct outcome out = replayed(&job, list, 0, NULL);
	const struct program_record *program = &out.record.program[0];
	double over = hypot(13, 1.5);
	assert_near(program->idle_mm, 40.0 + 3.0 + over, 1e-9, "idle, mm");
	assert_near(program->pass[0].idle_mm, program->idle_mm, 1e-9, "idle, mm");
	assert_near(program->cutting_mm, 51 + 40 + 40 + 3 + over + hypot(30, 4), 1e-9, "cut, mm");
	assert_broken(&out, KEPT);
}

/* A visit takes what all its moves take; a rapid ends it. */
static void bites_of_one_visit_add_up(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = entered(10, 0, 17);

	moves_cut(&list, 12, 0, 17, 1500);
	moves_cut(&list, 12, 0, 15.5, 600); /* 3 and 1.5 at once: 4.5 of 4 */
	struct outcome out = replayed(&job, list, 0, NULL);
	assert_near(out.verdict.promise[PROMISE_BITE].worst, 4.5, 1e-5, "bite, mm");
	assert_broken(&out, BROKEN(PROMISE_BITE, 5));
	list = entered(10, 0, 17);
	moves_cut(&list, 12, 0, 17, 1500);
	moves_rapid(&list, 12, 0, 23);
	moves_cut(&list, 12, 0, 15.5, 600);
	out = replayed(&job, list, 0, NULL);
	assert_near(out.verdict.promise[PROMISE_BITE].worst, 3.0, 1e-5, "bite, mm");
	assert_broken(&out, KEPT);
}

static void bite_beyond_the_limit(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = entered(-5, 0, 15.95);

	moves_cut(&list, 20, 0, 15.95, 1500);
	struct outcome out = replayed(&job, list, 0, NULL);
	assert_broken(&out, BROKEN(PROMISE_BITE, 4));
	/* 0.02 mm of slack for a program's decimals */
	list = entered(-5, 0, 15.985);
	moves_cut(&list, 20, 0, 15.985, 1500);
	out = replayed(&job, list, 0, NULL);
	assert_broken(&out, KEPT);
}

static void rapids_and_wood(void **state)
{
	(void)state;
	static const struct {
		double from[3], to[3];
		int block; /* that breaks; 0 none */
	} cases[] = {
		{ { -5, 0, 15 }, { 65, 0, 15 }, 2 }, /* through the board */
		{ { -5, 0, 20.15 }, { 65, 0, 20.15 }, 2 }, /* too near above */
		{ { -5, 0, 20.21 }, { 65, 0, 20.21 }, 0 },
		{ { -5, 0, 15 }, { -1.5, 0, 15 }, 2 }, /* touches with its side */
		{ { -5, 0, 15 }, { -5, 19, 15 }, 0 }, /* clear beside */
		{ { 30, 0, 40 }, { 30, 0, 15 }, 2 }, /* down into it */
		{ { 30, 0, 15 }, { 30, 0, 40 }, 0 }, /* straight up is free */
		{ { 30, 0, 15 }, { 30.01, 0, 40 }, 2 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct job job = sample_board_job();
		struct motion_list list = { 0 };
		const double *a = cases[i].from, *b = cases[i].to;
		moves_rapid(&list, a[0], a[1], a[2]);
		moves_rapid(&list, b[0], b[1], b[2]);
		struct outcome out = replayed(&job, list, 0, NULL);
		if (cases[i].block)
			assert_broken(&out, BROKEN(PROMISE_RAPID, cases[i].block));
		else
			assert_broken(&out, KEPT);
	}
}

/* Where the wood is gone a rapid may pass: a channel as wide as two balls. */
static void rapid_through_what_was_cut(void **state)
{
	(void)state;
	struct job job = sample_board_job();

	for (int cut = 0; cut < 2; cut++) {
		struct motion_list list = entered(-5, -3, 17);
		if (cut) {
			for (double y = -3; y <= 3.1; y += 0.5) {
				moves_cut(&list, -5, y, 17, 1500);
				moves_cut(&list, 65, y, 17, 1500);
				moves_cut(&list, -5, y, 17, 1500);
			}
		}
		moves_rapid(&list, -5, 0, 19);
		moves_rapid(&list, 65, 0, 19);
		int block = (int)list.count;
		struct outcome out = replayed(&job, list, 0, NULL);
		if (cut)
			assert_broken(&out, KEPT);
		else
			assert_broken(&out, BROKEN(PROMISE_RAPID, block));
	}
}

/* A step 60 high behind x = 30. */
static struct job step_job(void)
{
	struct job job = sample_board_job();

	job.blank.top = (struct outline){ 4, { 0, 30, 30, 60 }, { 20, 20, 60, 60 } };
	return job;
}

/* The holder, 20 wide and 30 over the tip, meets the step from x = 20 on. */
static void holder_against_a_step(void **state)
{
	(void)state;
	struct job job = step_job();

	job.cutter[0].stickout_mm = 30;
	job.cutter[0].flute_length_mm = 29;
	struct motion_list list = entered(-10, 0, 19);
	moves_cut(&list, 19.5, 0, 19, 1500);
	struct outcome out = replayed(&job, list, 0, NULL);
	assert_broken(&out, KEPT);
	list = entered(-10, 0, 19);
	moves_cut(&list, 19.5, 0, 19, 1500);
	moves_cut(&list, 20.5, 0, 19, 1500);
	out = replayed(&job, list, 0, NULL);
	assert_near(out.verdict.promise[PROMISE_HOLDER].worst, 49.0 - 60.0, 1e-4, "room, mm");
	assert_broken(&out, BROKEN(PROMISE_HOLDER, 5));
}

/* On a slim holder 35 over the tip stands a spindle 44 wide: it meets the step
 * from x = 8 on, in a cut and in a rapid. */
static void spindle_against_a_step(void **state)
{
	(void)state;
	struct job job = step_job();
	struct cutter *cutter = &job.cutter[0];

	cutter->stickout_mm = 30;
	cutter->flute_length_mm = 29;
	cutter->holder_diameter_mm = 10;
	cutter->holder_length_mm = 5;
	cutter->part_count = 1;
	cutter->part[0] = (struct holder_part){ 44, 100 };
	struct motion_list list = entered(-10, 0, 19);
	moves_cut(&list, 7.5, 0, 19, 1500);
	struct outcome out = replayed(&job, list, 0, NULL);
	assert_broken(&out, KEPT);
	list = entered(-10, 0, 19);
	moves_cut(&list, 7.5, 0, 19, 1500);
	moves_cut(&list, 8.5, 0, 19, 1500);
	out = replayed(&job, list, 0, NULL);
	assert_near(out.verdict.promise[PROMISE_HOLDER].worst, 54.0 - 60.0, 1e-4, "room, mm");
	assert_broken(&out, BROKEN(PROMISE_HOLDER, 5));
	list = entered(-10, 0, 21);
	moves_rapid(&list, 8.5, 0, 21);
	out = replayed(&job, list, 0, NULL);
	assert_broken(&out, BROKEN(PROMISE_RAPID, 4));
}

/* A shank of 12 over 15 of flutes meets it from x = 24 on; wood taller than the
 * flutes must not be cut at all. */
static void shank_and_flutes(void **state)
{
	(void)state;
	struct job job = step_job();

	job.cutter[0].shank_diameter_mm = 12;
	job.cutter[0].flute_length_mm = 15;
	job.cutter[0].stickout_mm = 90;
	struct motion_list list = entered(-10, 0, 19);
	moves_cut(&list, 23.5, 0, 19, 1500);
	moves_cut(&list, 24.5, 0, 19, 1500);
	struct outcome out = replayed(&job, list, 0, NULL);
	assert_near(out.verdict.promise[PROMISE_SHANK].worst, 34.0 - 60.0, 1e-4, "room, mm");
	assert_broken(&out, BROKEN(PROMISE_SHANK, 5));
	job = sample_board_job();
	job.cutter[0].flute_length_mm = 3.5;
	list = entered(-10, 0, 16.2);
	moves_cut(&list, 10, 0, 16.2, 1500);
	out = replayed(&job, list, 0, NULL);
	assert_near(out.verdict.promise[PROMISE_SHANK].worst, -0.3, 1e-5, "room, mm");
	assert_broken(&out, BROKEN(PROMISE_SHANK, 4));
}

static void plunges(void **state)
{
	(void)state;
	static const struct {
		double x, z, feed; /* one move from (10, 0, 20) */
		int broken;
	} cases[] = {
		{ 10, 18, 600, 0 },	  { 10, 18, 620, 1 },
		{ 10, 19.95, 1200, 0 }, /* brushes only */
		{ 10 + 20, 18, 2900, 0 }, /* 5.7 degrees, a ramp: the cutter's is 8 */
		{ 10 + 4, 18, 1300, 0 }, /* 26.6 degrees: 581 down */
		{ 10 + 4, 18, 1400, 1 }, /* 626 down */
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct job job = sample_board_job();
		struct motion_list list = entered(10, 0, 20);
		moves_cut(&list, cases[i].x, 0, cases[i].z, cases[i].feed);
		struct outcome out = replayed(&job, list, 0, NULL);
		if (cases[i].broken)
			assert_broken(&out, BROKEN(PROMISE_PLUNGE, 4));
		else
			assert_broken(&out, KEPT);
	}
}

/* Figures go to the pass a block belongs to, in program coordinates. */
static void passes_and_their_maps(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = entered(10, 0, 19);
	static const int first[] = { 3, 5 };

	job.fixture.work_zero_mm = vec3_make(1, 2, 3);
	moves_cut(&list, 50, 0, 19, 1500);
	moves_cut(&list, 50, 0, 17.5, 600);
	moves_cut(&list, 10, 0, 17.5, 1500);
	for (size_t i = 0; i < list.count; i++)
		list.item[i].to = vec3_sub(list.item[i].to, job.fixture.work_zero_mm);
	struct outcome out = replayed(&job, list, 2, first);
	const struct program_record *program = &out.record.program[0];
	assert_int_equal(program->pass_count, 2);
	assert_near(program->pass[0].length_mm, 91.0, 1e-9, "first pass, mm");
	assert_near(program->pass[1].length_mm, 41.5, 1e-9, "second pass, mm");
	assert_near(program->pass[2].length_mm, 0.0, 0.0, "before the first, mm");
	assert_null(program->pass[2].cut);
	const struct stock *stock = &out.record.stock;
	size_t iy = stock_iy(stock, 0) / RECORD_STRIDE, ix = stock_ix(stock, 30) / RECORD_STRIDE;
	size_t at = iy * out.record.cut_nx + ix;
	/* the slot's floor rises beside its middle, where the column may stand */
	double y = stock_y(stock, iy * RECORD_STRIDE),
	       radius = job.cutter[0].ball_diameter_mm / 2.0;
	double rise = radius - sqrt(radius * radius - y * y);
	assert_near((double)program->pass[0].cut[at], 1.0 - rise, 1e-5, "first pass took, mm");
	assert_near((double)program->pass[1].cut[at], 1.5, 1e-5, "second pass took, mm");
	at = stock_iy(stock, 10) / RECORD_STRIDE * out.record.cut_nx + ix;
	assert_near((double)program->pass[0].cut[at], 0.0, 0.0, "beside the slot, mm");
	assert_near(program->least.z, 14.5, 1e-9, "lowest, program coordinates, mm");
	assert_near(program->most.x, 49.0, 1e-9, "farthest, program coordinates, mm");
	assert_broken(&out, KEPT);
}

/* What was cut is looked at for loose pieces at the end, if not before. */
static void board_cut_in_two(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list list = entered(20, -25, 16.5);

	for (int level = 0; level < 7; level++) {
		double z = 16.5 - 3.0 * level;
		moves_cut(&list, 20, 25, z, 1500);
		moves_rapid(&list, 20, 25, 23);
		moves_rapid(&list, 20, -25, 23);
		moves_cut(&list, 20, -25, z - 3.0, 600);
	}
	int last = (int)list.count;
	struct outcome out = replayed(&job, list, 0, NULL);
	assert_broken(&out, BROKEN(PROMISE_LOOSE, last));
}

/* A second program finds the wood as the first left it. */
static void second_program_goes_on(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct motion_list first = entered(10, 0, 17), second = entered(10, 0, 14);
	struct replay *replay;
	struct proof_record record;
	struct verdict verdict;

	moves_cut(&first, 50, 0, 17, 1500);
	moves_cut(&second, 50, 0, 14, 1500);
	moves_number(&first);
	moves_number(&second);
	const struct proof_program programs[2] = { { .motions = &first }, { .motions = &second } };
	verdict_start(&verdict);
	assert_int_equal(replay_start(&replay, &record, &job, &stretches, 2, NULL), FAULT_NONE);
	for (int i = 0; i < 2; i++)
		assert_int_equal(
			replay_program(replay, &verdict, &programs[i], i, NULL, NULL, NULL), 0);
	assert_near(verdict.promise[PROMISE_BITE].worst, 3.0, 1e-5, "bite of each, mm");
	assert_near(record.program[1].pass[0].deepest_bite_mm, 3.0, 1e-5, "bite, mm");
	replay_free(replay);
	proof_record_free(&record);
	motion_list_free(&first);
	motion_list_free(&second);
	replay_free(NULL);
	proof_record_free(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(slot_of_known_depth),
		cmocka_unit_test(idle_way),
		cmocka_unit_test(bites_of_one_visit_add_up),
		cmocka_unit_test(bite_beyond_the_limit),
		cmocka_unit_test(rapids_and_wood),
		cmocka_unit_test(rapid_through_what_was_cut),
		cmocka_unit_test(holder_against_a_step),
		cmocka_unit_test(spindle_against_a_step),
		cmocka_unit_test(shank_and_flutes),
		cmocka_unit_test(plunges),
		cmocka_unit_test(passes_and_their_maps),
		cmocka_unit_test(board_cut_in_two),
		cmocka_unit_test(second_program_goes_on),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
