/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Room to bed, riser and clamps in closed forms and against places along the
 * way. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "proof/tool_room.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

/* Ball 6, shank 8 from 12 up, holder 30 from 40 up, clearance 1; a clamp over
 * [0, 20] x [-5, 5], 9 high; the bed is far below. */
static struct job clamp_job(void)
{
	struct job job = sample_board_job();

	job.cutter[0].shank_diameter_mm = 8;
	job.cutter[0].flute_length_mm = 12;
	job.cutter[0].holder_diameter_mm = 30;
	job.cutter[0].stickout_mm = 40;
	job.fixture.riser_height_mm = 0;
	job.fixture.bed_clearance_mm = -500;
	job.fixture.keep_out_clearance_mm = 1;
	job.fixture.keep_out_count = 1;
	job.fixture.keep_out[0] = (struct place){ "clamp", 0, 20, -5, 5, 9, PLACE_BOX };
	return job;
}

static struct tool_room at(const struct job *job, double x, double y, double z)
{
	return tool_room_of_move(job, &job->cutter[0], vec3_make(x, y, z), vec3_make(x, y, z));
}

static void ball_over_and_beside(void **state)
{
	(void)state;
	struct job job = clamp_job();

	assert_near(at(&job, 10, 0, 10.5).room_mm, 0.5, 2e-4, "over, mm");
	assert_string_equal(at(&job, 10, 0, 10.5).from, "clamp");
	/* the middle of the ball level with the clamp's top */
	assert_near(at(&job, -6, 0, 6).room_mm, 6.0 - 3.0 - 1.0, 2e-4, "beside, mm");
	/* off the edge: 3-4-5; the shank, 8 wide, stays 4 - 4 beside */
	assert_near(at(&job, -3, 0, 10).room_mm, 1.0, 2e-4, "off its edge, mm");
	/* inside: nothing can be nearer than touching */
	assert_near(at(&job, 10, 0, 0).room_mm, -4.0, 2e-4, "in the clamp, mm");
}

static void discs_over_and_beside(void **state)
{
	(void)state;
	struct job job = clamp_job();

	/* holder 40 over the tip: beside the clamp once it is lower than its top */
	assert_near(at(&job, -17, 0, -40).room_mm, 17.0 - 15.0 - 1.0, 2e-4, "beside, mm");
	assert_near(at(&job, -12, 0, -29.5).room_mm, 1.5 - 1.0, 2e-4, "over, mm");
	assert_near(at(&job, -12, 0, -40).room_mm, -3.0 - 1.0, 2e-4, "holder in it, mm");
	/* shank 12 over the tip */
	assert_near(at(&job, -4.5, 0, -3.2).room_mm, fmax(-0.2, 0.5) - 1.0, 2e-4, "beside, mm");
}

/* What stands on the holder: 60 wide from 65 over the tip. */
static void parts_above_the_holder(void **state)
{
	(void)state;
	struct job job = clamp_job();

	job.cutter[0].holder_length_mm = 25;
	job.cutter[0].part_count = 2;
	job.cutter[0].part[0] = (struct holder_part){ 60, 10 };
	job.cutter[0].part[1] = (struct holder_part){ 80, 100 };
	assert_near(at(&job, -33, 0, -60).room_mm, 33.0 - 30.0 - 1.0, 2e-4, "beside, mm");
	assert_near(at(&job, -28, 0, -54).room_mm, 2.0 - 1.0, 2e-4, "over, mm");
	assert_near(at(&job, -28, 0, -60).room_mm, -2.0 - 1.0, 2e-4, "in it, mm");
	assert_near(at(&job, -38, 0, -67).room_mm, -1.0 - 1.0, 2e-4,
		    "the last one's face on it, mm");
}

/* A clearance larger than the ball is kept as well: 12.5 high over a clamp of 9,
 * 3.5 are there of 5 asked for. Boxes farther than the clearance are not told
 * apart from ample room. */
static void clearance_larger_than_the_ball(void **state)
{
	(void)state;
	struct job job = clamp_job();

	job.cutter[0].ball_diameter_mm = job.cutter[0].shank_diameter_mm = 3;
	job.fixture.keep_out_clearance_mm = 5;
	assert_near(at(&job, 10, 0, 12.5).room_mm, 3.5 - 5.0, 2e-4, "over, mm");
	assert_near(at(&job, 10, 0, 13.9).room_mm, 4.9 - 5.0, 2e-4, "over, mm");
	assert_near(at(&job, 10, 0, 14.5).room_mm, 5.5 - 5.0, 2e-4, "over, mm");
	assert_near(at(&job, -6, 0, 5).room_mm, 6.0 - 1.5 - 5.0, 2e-4, "beside, mm");
	/* shank and holder ask for it too: 12 and 40 over the tip */
	job.cutter[0].shank_diameter_mm = 8;
	assert_near(at(&job, -6, 0, 0.5).room_mm, 3.5 - 5.0, 2e-4, "shank over, mm");
	assert_near(at(&job, -16, 0, -27).room_mm, 4.0 - 5.0, 2e-4, "holder over, mm");
}

static void bed_and_riser(void **state)
{
	(void)state;
	struct job job = clamp_job();

	job.fixture.keep_out_count = 0;
	job.fixture.riser_height_mm = 14;
	job.fixture.riser_width_mm = 20;
	job.fixture.riser_from_mm = 0;
	job.fixture.riser_to_mm = 50;
	job.fixture.bed_clearance_mm = 2;
	/* the tip keeps 2 above a bed 14 below the gluing face */
	struct tool_room room = at(&job, 25, 60, -11.5);
	assert_near(room.room_mm, 0.5, 1e-12, "above the bed, mm");
	assert_string_equal(room.from, "bed");
	/* beside the riser, which reaches up to the gluing face */
	room = at(&job, 25, 15, -6);
	assert_near(room.room_mm, 5.0 - 3.0 - 1.0, 2e-4, "beside the riser, mm");
	assert_string_equal(room.from, "riser");
	assert_near(at(&job, 25, 0, 1.25).room_mm, 0.25, 2e-4, "over the riser, mm");
	job.fixture.riser_height_mm = 0;
	assert_near(at(&job, 25, 15, 1).room_mm, 1.0 - 2.0, 1e-12, "no riser: the bed, mm");
}

static void nothing_near(void **state)
{
	(void)state;
	struct job job = clamp_job();

	/* the bed counts always */
	assert_near(at(&job, 10, 0, 60).room_mm, 560.0, 1e-9, "far above, mm");
	assert_string_equal(at(&job, 10, 0, 60).from, "bed");
}

/* Written out once more: the least of ball, shank and holder at one place. */
static double room_at(const struct job *job, struct vec3 tip)
{
	const struct place *box = &job->fixture.keep_out[0];
	double dx = fmax(fmax(box->x_from_mm - tip.x, tip.x - box->x_to_mm), 0.0);
	double dy = fmax(fmax(box->y_from_mm - tip.y, tip.y - box->y_to_mm), 0.0);
	double plan = hypot(dx, dy);
	double ball = hypot(plan, fmax(tip.z + 3.0 - box->top_mm, 0.0)) - 3.0;
	double shank = fmax(tip.z + 12.0 - box->top_mm, plan - 4.0);
	double holder = fmax(tip.z + 40.0 - box->top_mm, plan - 15.0);

	return fmin(ball, fmin(shank, holder)) - 1.0;
}

/* Along a move: never more than any place of it leaves, and for level moves,
 * where height and plan do not trade, no less than the nearest place. */
static void along_a_move(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("along_a_move");
	struct job job = clamp_job();
	int near = 0;

	for (int i = 0; i < 3000; i++) {
		struct vec3 a = vec3_make(seed_between(rng, -25, 45), seed_between(rng, -25, 25),
					  seed_between(rng, -45, 14));
		struct vec3 b = vec3_make(seed_between(rng, -25, 45), seed_between(rng, -25, 25),
					  seed_whole(rng, 0, 1) ? a.z : seed_between(rng, -45, 14));
		double least = INFINITY, step = vec3_distance(a, b) / 300.0;
		for (int k = 0; k <= 300; k++)
			least = fmin(least, room_at(&job, vec3_between(a, b, k / 300.0)));
		double room = tool_room_of_move(&job, &job.cutter[0], a, b).room_mm;
		/* ample room is not told apart: a radius is the least of it */
		if (least > 2.9)
			continue;
		assert_true(room <= least + 1e-9);
		if (a.z == b.z)
			assert_true(room >= least - step - 2e-4);
		near += least < 0.0;
	}
	assert_true(near > 500);
	gsl_rng_free(rng);
}

/* A post of radius 4 at (50, 20), 12 high. Ball 6, clearance 1. */
static void beside_a_cylinder(void **state)
{
	(void)state;
	struct job job = clamp_job();

	job.fixture.keep_out[0] = (struct place){ "screw", 46, 54, 16, 24, 12, PLACE_CYLINDER };
	job.cutter[0].shank_diameter_mm = 6;
	/* 10 from the axis along 3-4-5 */
	assert_near(at(&job, 56, 28, 0).room_mm, 10.0 - 4.0 - 3.0 - 1.0, 2e-4, "beside, mm");
	assert_string_equal(at(&job, 56, 28, 0).from, "screw");
	assert_near(at(&job, 51, 20, 13.5).room_mm, 0.5, 2e-4, "over, mm");
	/* off its rim: the ball's middle 3 out and 4 up */
	job.cutter[0].flute_length_mm = 30;
	assert_near(at(&job, 57, 20, 13).room_mm, 5.0 - 3.0 - 1.0, 2e-4, "off its rim, mm");
	/* a move that passes it between places that are both clear */
	struct tool_room room =
		tool_room_of_move(&job, &job.cutter[0], vec3_make(20, 26, 3), vec3_make(80, 26, 3));
	assert_near(room.room_mm, 6.0 - 4.0 - 3.0 - 1.0, 4e-4, "past it, mm");
	assert_true(at(&job, 20, 26, 3).room_mm > 20.0 && at(&job, 80, 26, 3).room_mm > 20.0);
}

static struct job glued_job(void)
{
	struct job job = clamp_job();

	job.fixture.keep_out_count = 0;
	job.neck = sample_short_job().neck; /* 26 wide at the nut, 30 at 85.96; 3 thick */
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 5.0, 0.5 };
	job.cutter[0].shank_diameter_mm = 6;
	job.cutter[0].flute_length_mm = job.cutter[0].stickout_mm = 60;
	return job;
}

static void beside_a_fretboard(void **state)
{
	(void)state;
	struct job job = glued_job();
	double slope = 2.0 / (155.0 * (1.0 - exp2(-14.0 / 12.0))), lean = hypot(1.0, slope);
	double x = 40.0, side = 13.0 + slope * x;

	/* 5 off the straight side, below the gluing face */
	struct tool_room room = at(&job, x - 5.0 * slope / lean, side + 5.0 / lean, -5.0);
	assert_near(room.room_mm, 5.0 - 3.0 - 0.3, 2e-4, "beside it, mm");
	assert_near(room.fretboard_mm, 2.0, 2e-4, "its own figure, mm");
	assert_string_equal(room.from, "fretboard");
	/* 3 out and 4 up from its edge */
	room = at(&job, x - 3.0 * slope / lean, -side - 3.0 / lean, 1.0);
	assert_near(room.fretboard_mm, 2.0, 2e-4, "over its edge, mm");
	assert_near(at(&job, -4.0, 0.0, -3.0).fretboard_mm, 1.0, 2e-4, "before the nut, mm");
	double end = 155.0 * (1.0 - exp2(-16.0 / 12.0)) + 5.0;
	assert_near(at(&job, end + 3.5, 0.0, -3.0).fretboard_mm, 0.5, 2e-4, "past its end, mm");
	/* under its face is no way through: what holds the tool is above */
	assert_near(at(&job, x, 0.0, -30.0).room_mm, -3.3, 2e-4, "under it, mm");
	/* far above it nobody asks */
	assert_true(isinf(at(&job, x, 0.0, 40.0).fretboard_mm));
	job.fixture.fretboard.glued = false;
	assert_true(isinf(at(&job, x, 0.0, -3.0).fretboard_mm));
}

/* The bed and the riser lie under the board's face and the shim: 3.5 lower. */
static void riser_and_bed_lie_under_the_fretboard(void **state)
{
	(void)state;
	struct job job = glued_job();

	job.fixture.riser_height_mm = 10;
	job.fixture.riser_width_mm = 20;
	job.fixture.riser_from_mm = -60;
	job.fixture.riser_to_mm = -20;
	job.fixture.bed_clearance_mm = 2;
	assert_near(at(&job, 200, 60, -11.0).room_mm, 0.5, 1e-12, "above the bed, mm");
	assert_string_equal(at(&job, 200, 60, -11.0).from, "bed");
	assert_near(at(&job, -40, 0, -2.0).room_mm, 1.5 - 1.0, 2e-4, "over the riser, mm");
	assert_string_equal(at(&job, -40, 0, -2.0).from, "riser");
}

static void the_joint_asks_for_no_clearance(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.fixture.keep_out_count = 0;
	job.fixture.riser_height_mm = 0;
	job.fixture.bed_clearance_mm = -500;
	job.neck.heel.joint = (struct joint_spec){ JOINT_DOVETAIL, 18, 20, 2, 70 };
	/* its end face at 357.774, ball 6.35: touching, then 0.2 inside */
	assert_near(at(&job, 357.773891502 - 6.35, 0, 20).room_mm, 0.0, 2e-4, "touching, mm");
	assert_near(at(&job, 357.773891502 - 6.15, 0, 20).room_mm, -0.2, 2e-4, "inside, mm");
	assert_string_equal(at(&job, 357.773891502 - 6.15, 0, 20).from, "dovetail");
	assert_near(at(&job, 365, 0, 70.4).room_mm, 0.4, 2e-4, "over it, mm");
}

/* The same written out another way: the board cut into thin slices across. */
static double sliced_distance(const struct job *job, struct vec3 p)
{
	double x14 = 155.0 * (1.0 - exp2(-14.0 / 12.0));
	double end = 155.0 * (1.0 - exp2(-16.0 / 12.0)) + job->fixture.fretboard.overhang_mm;
	double best = INFINITY;

	for (int i = 0; i <= 4000; i++) {
		double x = end * i / 4000.0, half = 13.0 + 2.0 * x / x14;
		best = fmin(best, hypot(p.x - x, fmax(fabs(p.y) - half, 0.0)));
	}
	return hypot(best, fmax(p.z, 0.0));
}

static void fretboard_against_slices(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("fretboard_against_slices");
	struct job job = glued_job();
	int near = 0;

	for (int i = 0; i < 300; i++) {
		struct vec3 tip = vec3_make(seed_between(rng, -15, 120), seed_between(rng, -25, 25),
					    seed_between(rng, -10, 5));
		double far = sliced_distance(&job, vec3_add(tip, vec3_make(0, 0, 3.0))) - 3.0;
		double room = at(&job, tip.x, tip.y, tip.z).fretboard_mm;
		if (far > 3.0)
			continue;
		near++;
		/* slices 0.026 apart miss less than that, squared, over the distance */
		assert_near(room, far, 0.014, "distance, mm");
	}
	assert_true(near > 100);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(ball_over_and_beside),
		cmocka_unit_test(discs_over_and_beside),
		cmocka_unit_test(parts_above_the_holder),
		cmocka_unit_test(clearance_larger_than_the_ball),
		cmocka_unit_test(bed_and_riser),
		cmocka_unit_test(nothing_near),
		cmocka_unit_test(along_a_move),
		cmocka_unit_test(beside_a_cylinder),
		cmocka_unit_test(beside_a_fretboard),
		cmocka_unit_test(riser_and_bed_lie_under_the_fretboard),
		cmocka_unit_test(the_joint_asks_for_no_clearance),
		cmocka_unit_test(fretboard_against_slices),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
