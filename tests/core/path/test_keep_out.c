/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans around what stands about the neck: every move of them is looked at by a
 * rule written out here, and the proof refuses what the planner would not do. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/refusal.h"

/* The short neck in a wide blank, with a clamp or a screw in the waste that a
 * straight way across would go through. */
static struct job wide_job(void)
{
	struct job job = sample_short_job();

	job.carve.scallop_limit_mm = 0.3; /* fewer lines: quicker to plan */
	job.blank.half_width.value_mm[0] = job.blank.half_width.value_mm[1] = 42;
	job.fixture.keep_out_count = 1;
	job.fixture.keep_out[0] = (struct place){ "side clamp", 30, 46, 26, 60, 34, PLACE_BOX };
	job.fixture.hold_count = 2;
	job.fixture.hold[1] = (struct place){ "side clamp", 32, 44, 28, 42, 0, PLACE_BOX };
	return job;
}

static struct job screw_job(void)
{
	struct job job = wide_job();

	job.fixture.keep_out[0] = (struct place){ "screw", 34, 42, 26, 34, 24, PLACE_CYLINDER };
	job.fixture.hold[1] = (struct place){ "screw", 36, 40, 28, 32, 0, PLACE_BOX };
	return job;
}

/* Planned as only a job that passes its check is. */
static void plan_checked(struct planned *out, const struct job *job)
{
	assert_job_good(job);
	planned_make(out, job);
}

static void assert_moves_proven(struct planned *planned, struct motion_list *moves)
{
	struct verdict verdict = planned_moves_judged(planned, &planned->job, moves, NULL);

	assert_proven(&verdict);
}

/* Distance of the ball, its tip at p, from a box or a post. */
static double ball_off(const struct place *place, double radius, struct vec3 p)
{
	double dx = fmax(fmax(place->x_from_mm - p.x, p.x - place->x_to_mm), 0.0);
	double dy = fmax(fmax(place->y_from_mm - p.y, p.y - place->y_to_mm), 0.0);
	double plan = hypot(dx, dy);

	if (place->shape == PLACE_CYLINDER)
		plan = fmax(hypot(p.x - (place->x_from_mm + place->x_to_mm) / 2.0,
				  p.y - (place->y_from_mm + place->y_to_mm) / 2.0) -
				    (place->x_to_mm - place->x_from_mm) / 2.0,
			    0.0);
	return hypot(plan, fmax(p.z + radius - place->top_mm, 0.0)) - radius;
}

/* The ball's least distance from the job's keep-out over all moves, looked at
 * every 0.05 mm, and the item at which it first comes nearer than asked. */
static double least_off(const struct planned *out, const struct job *job, size_t *first)
{
	const struct motion_list *moves = &out->plan[0].motions;
	double least = INFINITY;

	*first = 0;
	for (size_t i = 1; i < moves->count; i++) {
		const struct motion *motion = &moves->item[i];
		size_t before = i - 1;
		while (before > 0 && !motion_moves(&moves->item[before]))
			before--;
		if (!motion_moves(motion) || moves->item[before].known != KNOWN_ALL ||
		    !motion_moves(&moves->item[before]))
			continue;
		struct vec3 a = moves->item[before].to, b = motion->to;
		int steps = 1 + (int)(vec3_distance(a, b) / 0.05);
		for (int k = 0; k <= steps; k++) {
			struct vec3 p = vec3_between(a, b, (double)k / steps);
			p = vec3_add(p, job->fixture.work_zero_mm);
			double off = ball_off(&job->fixture.keep_out[0],
					      cutter_radius_mm(&job->cutter[0]), p);
			if (off < job->fixture.keep_out_clearance_mm - TOL_PROOF_MM && *first == 0)
				*first = i;
			least = fmin(least, off);
		}
	}
	return least;
}

/* Planned with it no move comes near; planned without it some go right through,
 * and the proof names it and the first block that does. */
static void assert_goes_around(const struct job *job)
{
	struct planned around, through;
	struct job bare = *job;
	size_t first;

	plan_checked(&around, job);
	assert_moves_proven(&around, &around.plan[0].motions);
	assert_between(least_off(&around, job, &first), 1.0 - TOL_PROOF_MM, 1.2,
		       "as near as allowed, no nearer, mm");
	assert_int_equal(first, 0);
	assert_moves_proven(&around, &around.plan[0].dry_run);
	bare.fixture.keep_out_count = 0;
	plan_checked(&through, &bare);
	assert_moves_proven(&through, &through.plan[0].motions);
	assert_true(least_off(&through, job, &first) < -1.0);
	struct verdict verdict = planned_judged(&through, job, NULL);
	const struct promise_result *result = &verdict.promise[PROMISE_KEEP_OUT];
	assert_false(verdict.proven);
	assert_false(result->kept);
	assert_int_equal(result->block, (int)first + 1);
	assert_non_null(strstr(result->why, job->fixture.keep_out[0].name));
	planned_free(&through);
	planned_free(&around);
}

static void around_a_clamp(void **state)
{
	(void)state;
	struct job job = wide_job();

	assert_goes_around(&job);
}

static void around_a_screw(void **state)
{
	(void)state;
	struct job job = screw_job();

	assert_goes_around(&job);
}

/* Lifted over, not through: some rapid crosses the clamp in plan, above it. */
static void links_go_over(void **state)
{
	(void)state;
	struct job job = wide_job();
	const struct place *clamp = &job.fixture.keep_out[0];
	struct planned out;
	int over = 0;

	plan_checked(&out, &job);
	for (size_t i = 1; i < out.plan[0].motions.count; i++) {
		struct vec3 a = out.plan[0].motions.item[i - 1].to,
			    b = out.plan[0].motions.item[i].to;
		if (out.plan[0].motions.item[i].kind != MOTION_RAPID ||
		    out.plan[0].motions.item[i - 1].known != KNOWN_ALL)
			continue;
		bool crosses = fmin(a.x, b.x) < clamp->x_from_mm &&
			       fmax(a.x, b.x) > clamp->x_to_mm && fmin(a.y, b.y) > clamp->y_from_mm;
		if (!crosses)
			continue;
		over++;
		assert_true(fmin(a.z, b.z) >= clamp->top_mm + 1.0);
	}
	assert_true(over > 0);
	planned_free(&out);
}

/* A clearance larger than what rapids keep above wood is kept over clamps too. */
static void safe_height_keeps_the_larger_clearance(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct planned out;

	job.carve.scallop_limit_mm = 0.3;
	job.fixture.keep_out[0] = (struct place){ "clamp", -40, -34, -30, 30, 40, PLACE_BOX };
	job.fixture.keep_out_clearance_mm = 5.0;
	job.fixture.riser_width_mm = 14;
	job.carve.clearance_mm = 1.0;
	plan_checked(&out, &job);
	assert_between(out.plan[0].dry_run.item[0].to.z, 45.0, 45.01, "5 over the clamp, mm");
	assert_moves_proven(&out, &out.plan[0].motions);
	assert_moves_proven(&out, &out.plan[0].dry_run);
	planned_free(&out);
}

static struct job glued_job(void)
{
	struct job job = sample_short_job();

	job.carve.scallop_limit_mm = 0.3;
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 12.0, 0.4 };
	job.fixture.riser_height_mm = 8; /* and 3.4 of board and shim */
	job.neck.side_margin_mm = 0.1;
	return job;
}

/* Inserts a way behind the neck's end, where only the board reaches: down
 * beside it and toward it at a height, to `y_mm`, and back. Returns its item. */
static size_t add_way(struct motion_list *moves, double x_mm, double y_mm, double z_mm)
{
	struct motion_list with = { 0 };
	size_t at = 0;

	for (size_t i = 0; i < moves->count; i++) {
		if (moves->item[i].kind == MOTION_SPINDLE_OFF) {
			struct vec3 high = moves->item[i - 1].to;
			const struct vec3 way[] = { { x_mm, 40, high.z },
						    { x_mm, 40, z_mm },
						    { x_mm, y_mm, z_mm },
						    { x_mm, 40, z_mm },
						    { x_mm, 40, high.z } };
			for (size_t k = 0; k < 5; k++) {
				struct motion motion = { .kind = k == 0 || k == 4 ? MOTION_RAPID
										  : MOTION_CUT,
							 .to = way[k],
							 .known = KNOWN_ALL,
							 .pass = -1 };
				if (motion.kind == MOTION_CUT)
					motion.feed_mm_per_min = 500;
				if (k == 2)
					at = with.count;
				moves_add(&with, motion);
			}
		}
		moves_add(&with, moves->item[i]);
	}
	motion_list_free(moves);
	*moves = with;
	return at;
}

/* Everything but keeping out is kept, and that names the thing and the block. */
static void assert_refused_for(struct planned *out, const char *name, size_t item)
{
	struct verdict verdict = planned_judged(out, &out->job, NULL);

	for (int i = 0; i < PROMISE_COUNT; i++)
		if (i != PROMISE_KEEP_OUT && !verdict.promise[i].kept)
			fail_msg("%s: %s", promise_text((enum promise)i)->key,
				 verdict.promise[i].why);
	assert_false(verdict.promise[PROMISE_KEEP_OUT].kept);
	assert_int_equal(verdict.promise[PROMISE_KEEP_OUT].block, (int)item + 1);
	assert_non_null(strstr(verdict.promise[PROMISE_KEEP_OUT].why, name));
}

static void beside_a_glued_fretboard(void **state)
{
	(void)state;
	struct job job = glued_job();
	struct planned out;

	plan_checked(&out, &job);
	struct verdict verdict = planned_judged(&out, &job, NULL);
	assert_proven(&verdict);
	/* 0.6 of stock less 0.1 that the wood is narrower */
	assert_between(verdict.fretboard_mm, 0.48, 0.53, "as near as the sides ask, mm");
	/* behind the neck's end, 85.96, the board is half as wide as 13 + 2 x / 85.96;
	 * 4 of ball, 0.3 of clearance */
	double half = 13.0 + 2.0 * 97.0 / 85.96;
	size_t item = add_way(&out.plan[0].motions, 97.0, half + 4.0 + 0.35, -5.0);
	assert_moves_proven(&out, &out.plan[0].motions);
	out.plan[0].motions.item[item].to.y = half + 4.0 + 0.27;
	assert_refused_for(&out, "fretboard", item);
	planned_free(&out);
}

/* Without the board the same job goes lower and nearer: its moves are refused
 * where the board is. */
static void a_board_that_was_not_planned_for(void **state)
{
	(void)state;
	struct job job = glued_job(), bare = job;
	struct planned out;

	bare.fixture.fretboard.glued = false;
	bare.neck.allowance.sides_mm = 0.2; /* no board to mind */
	plan_checked(&out, &bare);
	assert_moves_proven(&out, &out.plan[0].motions);
	job.neck = bare.neck;
	assert_int_equal(job_check(&job, NULL), FAULT_SETTING);
	struct verdict verdict = planned_judged(&out, &job, NULL);
	assert_false(verdict.promise[PROMISE_KEEP_OUT].kept);
	assert_non_null(strstr(verdict.promise[PROMISE_KEEP_OUT].why, "fretboard"));
	assert_between(verdict.fretboard_mm, 0.08, 0.13, "0.2 less 0.1, mm");
	planned_free(&out);
}

static void the_joint_is_not_cut(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct planned out;

	job.carve.scallop_limit_mm = 0.3;
	job.neck.heel.joint = (struct joint_spec){ JOINT_BOLT, 12, 10, 0, 20 };
	plan_checked(&out, &job);
	assert_moves_proven(&out, &out.plan[0].motions);
	/* behind the end and beside it: the ball, 4, touches y = 5 at y = 9 */
	size_t item = add_way(&out.plan[0].motions, 93.0, 9.005, 10.0);
	assert_moves_proven(&out, &out.plan[0].motions);
	out.plan[0].motions.item[item].to.y = 8.95;
	assert_refused_for(&out, "bolts", item);
	planned_free(&out);
}

/* A joint wider than the finished heel's cap pushes the ball off it: the planner
 * keeps out even where job_check would have refused the job. */
static void a_joint_in_the_way_is_still_kept(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct planned out;

	job.carve.scallop_limit_mm = 0.3;
	job.neck.heel.joint = (struct joint_spec){ JOINT_TENON, 12, 29, 0, 25 };
	assert_int_equal(job_check(&job, NULL), FAULT_SETTING);
	planned_make(&out, &job);
	assert_moves_proven(&out, &out.plan[0].motions);
	planned_free(&out);
	/* planned as if it were not there, it is cut into */
	job.neck.heel.joint.kind = JOINT_NONE;
	plan_checked(&out, &job);
	job.neck.heel.joint.kind = JOINT_TENON;
	struct verdict verdict = planned_judged(&out, &job, NULL);
	assert_false(verdict.promise[PROMISE_KEEP_OUT].kept);
	assert_non_null(strstr(verdict.promise[PROMISE_KEEP_OUT].why, "tenon"));
	planned_free(&out);
}

/* Wherever zero is, the tool goes the same way over the neck. */
static void zero_moves_the_figures_alone(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct planned at_nut, at_end;

	job.carve.scallop_limit_mm = 0.3;
	plan_checked(&at_nut, &job);
	/* the blank's end and the bed: 85.9 and 10 below the face */
	job.fixture.work_zero_mm = vec3_make(85.9, 0.0, -10.0);
	plan_checked(&at_end, &job);
	assert_moves_proven(&at_nut, &at_nut.plan[0].motions);
	assert_moves_proven(&at_end, &at_end.plan[0].motions);
	assert_int_equal(at_nut.plan[0].motions.count, at_end.plan[0].motions.count);
	for (size_t i = 0; i < at_nut.plan[0].motions.count; i++) {
		const struct motion *a = &at_nut.plan[0].motions.item[i];
		const struct motion *b = &at_end.plan[0].motions.item[i];
		if (!motion_moves(a))
			continue;
		struct vec3 p = vec3_add(b->to, job.fixture.work_zero_mm);
		/* two steps each way: x decides y, and both decide z */
		assert_near(vec3_distance(a->to, p), 0.0, 0.0035,
			    "the same place but for steps of the figures, mm");
	}
	planned_free(&at_end);
	planned_free(&at_nut);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(around_a_clamp),
		cmocka_unit_test(around_a_screw),
		cmocka_unit_test(links_go_over),
		cmocka_unit_test(safe_height_keeps_the_larger_clearance),
		cmocka_unit_test(beside_a_glued_fretboard),
		cmocka_unit_test(a_board_that_was_not_planned_for),
		cmocka_unit_test(the_joint_is_not_cut),
		cmocka_unit_test(a_joint_in_the_way_is_still_kept),
		cmocka_unit_test(zero_moves_the_figures_alone),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
