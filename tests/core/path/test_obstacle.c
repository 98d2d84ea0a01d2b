/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Clamps and riser against closed forms and against points along the way. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "path/obstacle.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

/* Ball 6, shank 8 from 12 up, holder 30 from 40 up, clearance 1; a clamp over
 * [0, 20] x [-5, 5], 9 high. */
static struct obstacles one_clamp(void)
{
	struct job job = sample_board_job();
	struct obstacles obstacles;

	job.cutter[0].shank_diameter_mm = 8;
	job.cutter[0].flute_length_mm = 12;
	job.cutter[0].holder_diameter_mm = 30;
	job.cutter[0].stickout_mm = 40;
	job.fixture.riser_height_mm = 0;
	job.fixture.keep_out_clearance_mm = 1;
	job.fixture.keep_out_count = 1;
	job.fixture.keep_out[0] = (struct place){ "clamp", 0, 20, -5, 5, 9, PLACE_BOX };
	obstacles_make(&obstacles, &job, &job.cutter[0], 0.0);
	return obstacles;
}

static void made_from_the_fixture(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct obstacles obstacles;

	obstacles_make(&obstacles, &job, &job.cutter[0], 0.0);
	assert_int_equal(obstacles.count, 2);
	assert_int_equal(obstacles.item[0].part, OBSTACLE_STANDS);
	assert_int_equal(obstacles.item[1].part, OBSTACLE_RISER);
	assert_near(obstacles.item[1].top_mm, 0.0, 0.0, "the riser carries the gluing face, mm");
	assert_near(obstacles.item[1].y_to_mm, 10.0, 0.0, "half the riser, mm");
	assert_near(obstacles.radius_mm, 4.0, 0.0, "ball, mm");
	job.fixture.riser_height_mm = 0;
	obstacles_make(&obstacles, &job, &job.cutter[0], 0.0);
	assert_int_equal(obstacles.count, 1);
}

static double ball_at(const struct obstacles *obstacles, double x, double y)
{
	return obstacles_ball_mm(obstacles, OBSTACLES_ALL, x, y, x, y);
}

static double tool_at(const struct obstacles *obstacles, double x, double y)
{
	return obstacles_tool_mm(obstacles, OBSTACLES_ALL, x, y, x, y);
}

static void ball_over_and_beside(void **state)
{
	(void)state;
	struct obstacles clamp = one_clamp();

	/* over it the tip keeps the clearance; beside it the ball leans on the
	 * edge grown by the clearance: top + sqrt((R + c)^2 - d^2) - R */
	assert_near(ball_at(&clamp, 10, 0), 10.0, 1e-12, "over, mm");
	assert_near(ball_at(&clamp, 0, 5), 10.0, 1e-12, "over its corner, mm");
	assert_near(ball_at(&clamp, 10, 7), 9.0 + sqrt(12) - 3.0, 1e-12, "2 mm beside, mm");
	assert_near(ball_at(&clamp, -3.9, 0), 9.0 + sqrt(16 - 15.21) - 3.0, 1e-12, "3.9 mm, mm");
	assert_near(ball_at(&clamp, 22, 7), 9.0 + sqrt(8) - 3.0, 1e-12, "off its corner, mm");
	assert_true(ball_at(&clamp, 24.0, 0) < -1e300);
	assert_true(ball_at(&clamp, 10, -9.0) < -1e300);
}

static void shank_and_holder_over_and_beside(void **state)
{
	(void)state;
	struct obstacles clamp = one_clamp();

	/* as far as 5 mm the shank, 9 + 1 - 12; as far as 16 the holder, 9 + 1 - 40 */
	assert_near(tool_at(&clamp, 10, 0), -2.0, 1e-12, "over, mm");
	assert_near(tool_at(&clamp, 10, 9.99), -2.0, 1e-12, "shank beside, mm");
	assert_near(tool_at(&clamp, 10, 10.01), -30.0, 1e-12, "holder beside, mm");
	assert_near(tool_at(&clamp, -15.99, 0), -30.0, 1e-12, "holder beside, mm");
	assert_true(tool_at(&clamp, -16.0, 0) < -1e300);
}

static void the_highest_of_several(void **state)
{
	(void)state;
	struct obstacles two = one_clamp();

	two.item[1] = (struct obstacle){ .x_from_mm = 19,
					 .x_to_mm = 22,
					 .y_from_mm = -1,
					 .y_to_mm = 1,
					 .top_mm = 14,
					 .clearance_mm = 1 };
	two.count = 2;
	assert_near(ball_at(&two, 20, 0), 15.0, 1e-12, "over the screw, mm");
	assert_near(ball_at(&two, 5, 0), 10.0, 1e-12, "over the clamp, mm");
}

/* Along a line: what the worst of its points asks, and no more than the search
 * may have missed. */
static void along_a_line(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("along_a_line");
	struct obstacles clamp = one_clamp(), nearer = clamp;
	int met = 0;

	/* the search may take 2e-4 mm off the distance */
	nearer.item[0].x_from_mm -= 2e-4;
	nearer.item[0].x_to_mm += 2e-4;
	nearer.item[0].y_from_mm -= 2e-4;
	nearer.item[0].y_to_mm += 2e-4;
	for (int i = 0; i < 2000; i++) {
		double x0 = seed_between(rng, -30, 50), y0 = seed_between(rng, -30, 30);
		double x1 = seed_between(rng, -30, 50), y1 = seed_between(rng, -30, 30);
		double ball = -INFINITY, tool = -INFINITY, ball_most = -INFINITY,
		       tool_most = -INFINITY;
		for (int k = 0; k <= 400; k++) {
			double x = x0 + (x1 - x0) * k / 400, y = y0 + (y1 - y0) * k / 400;
			ball = fmax(ball, ball_at(&clamp, x, y));
			tool = fmax(tool, tool_at(&clamp, x, y));
		}
		double line_ball = obstacles_ball_mm(&clamp, OBSTACLES_ALL, x0, y0, x1, y1);
		double line_tool = obstacles_tool_mm(&clamp, OBSTACLES_ALL, x0, y0, x1, y1);
		assert_true(line_ball >= ball && line_tool >= tool);
		met += isfinite(ball);
		/* between two of the points the line may come nearer still */
		double step = hypot(x1 - x0, y1 - y0) / 400.0;
		for (int k = 0; k < 400; k++) {
			double x = x0 + (x1 - x0) * (k + 0.5) / 400;
			double y = y0 + (y1 - y0) * (k + 0.5) / 400;
			struct obstacles grown = nearer;
			grown.item[0].x_from_mm -= step;
			grown.item[0].x_to_mm += step;
			grown.item[0].y_from_mm -= step;
			grown.item[0].y_to_mm += step;
			ball_most = fmax(ball_most, ball_at(&grown, x, y));
			tool_most = fmax(tool_most, tool_at(&grown, x, y));
		}
		assert_true(line_ball <= ball_most && line_tool <= tool_most);
	}
	assert_true(met > 300);
	gsl_rng_free(rng);
}

/* A post of radius 4 at (50, 20), 12 high: d from its axis less 4. */
static void a_cylinder_is_round(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct obstacles obstacles;

	job.fixture.riser_height_mm = 0;
	job.fixture.keep_out_clearance_mm = 1;
	job.fixture.keep_out_count = 1;
	job.fixture.keep_out[0] = (struct place){ "screw", 46, 54, 16, 24, 12, PLACE_CYLINDER };
	obstacles_make(&obstacles, &job, &job.cutter[0], 0.0);
	assert_near(ball_at(&obstacles, 50, 20), 13.0, 1e-12, "over its axis, mm");
	assert_near(ball_at(&obstacles, 53.9, 20), 13.0, 1e-12, "over its rim, mm");
	/* ball 3, clearance 1: the square's corner at (54, 24) is 5.657 from the
	 * axis, so 1.657 off the post: 12 + sqrt(16 - 1.657^2) - 3 */
	double off = sqrt(32.0) - 4.0;
	assert_near(ball_at(&obstacles, 54, 24), 9.0 + sqrt(16.0 - off * off), 1e-9,
		    "at the square's corner, mm");
	/* 8.01 from the axis: free, although only 4.8 from the square's corner */
	assert_true(ball_at(&obstacles, 50 + 8.01 * 0.6, 20 + 8.01 * 0.8) < -1e300);
	assert_true(ball_at(&obstacles, 50 + 7.99 * 0.6, 20 + 7.99 * 0.8) > 8.9);
	/* a line passes it at 6 from the axis, 2 off the post */
	assert_near(obstacles_ball_mm(&obstacles, OBSTACLES_ALL, 20, 26, 90, 26), 9.0 + sqrt(12.0),
		    1e-3, "line beside it, mm");
	assert_true(obstacles_ball_mm(&obstacles, OBSTACLES_OF_WORK, 20, 26, 90, 26) < -1e300);
}

/* The short job's board: 26 wide at the nut, 30 at fret 14 (85.96 mm), straight
 * on to fret 16 and 5 mm beyond. */
static void a_fretboard_tapers(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct obstacles obstacles;
	double x16 = 155.0 * (1.0 - exp2(-16.0 / 12.0)), end = x16 + 5.0;
	double x14 = 155.0 * (1.0 - exp2(-14.0 / 12.0)), slope = 2.0 / x14;
	double lean = hypot(1.0, slope);

	job.fixture.keep_out_count = 0;
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 5.0, 0.0 };
	obstacles_make(&obstacles, &job, &job.cutter[0], 0.0);
	assert_int_equal(obstacles.count, 2);
	assert_int_equal(obstacles.item[1].part, OBSTACLE_FRETBOARD);
	assert_near(obstacles.item[0].top_mm, -3.0, 1e-12, "the riser carries its face, mm");
	obstacles.item[0] = obstacles.item[1];
	obstacles.count = 1;
	/* ball 4, clearance 0.3; 2 mm off the side, square to it */
	double x = 40.0, side = 13.0 + slope * x;
	assert_near(ball_at(&obstacles, x - 2.0 * slope / lean, side + 2.0 / lean),
		    sqrt(4.3 * 4.3 - 4.0) - 4.0, 1e-9, "beside it, mm");
	assert_near(ball_at(&obstacles, x - 2.0 * slope / lean, -side - 2.0 / lean),
		    sqrt(4.3 * 4.3 - 4.0) - 4.0, 1e-9, "on the other side, mm");
	assert_near(ball_at(&obstacles, x, side - 0.001), 0.3, 1e-9, "over its edge, mm");
	assert_near(ball_at(&obstacles, -3.0, 12.9), sqrt(4.3 * 4.3 - 9.0) - 4.0, 1e-9,
		    "off the nut end, mm");
	assert_near(ball_at(&obstacles, end + 3.0, 0.0), sqrt(4.3 * 4.3 - 9.0) - 4.0, 1e-9,
		    "off its own end, mm");
	/* a corner: 3-4 beyond both, 5 away: free; 2.4-3.2: 4 away */
	assert_true(ball_at(&obstacles, -3.0, 13.0 + 4.0) < -1e300);
	assert_near(ball_at(&obstacles, -2.4, 13.0 + 3.2), sqrt(4.3 * 4.3 - 16.0) - 4.0, 1e-9,
		    "off its corner, mm");
	/* where the wider end's corner is nearer than the ends' line */
	double half = 13.0 + slope * end;
	assert_near(ball_at(&obstacles, end + 2.4, half + 3.2), sqrt(4.3 * 4.3 - 16.0) - 4.0, 1e-9,
		    "off its far corner, mm");
}

static void the_joint_stands_out_of_the_end(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct obstacles obstacles;

	job.neck.heel.joint = (struct joint_spec){ JOINT_TENON, 18, 20, 2, 70 };
	obstacles_make(&obstacles, &job, &job.cutter[0], 0.004);
	assert_int_equal(obstacles.count, 3);
	const struct obstacle *joint = &obstacles.item[2];
	assert_int_equal(joint->part, OBSTACLE_JOINT);
	assert_near(joint->x_from_mm, 357.773891502, 1e-8, "from the body joint, mm");
	assert_near(joint->top_mm, 70.0, 0.0, "top, mm");
	assert_near(joint->clearance_mm, 0.004, 0.0, "only the margin, mm");
	assert_near(obstacles.item[0].clearance_mm, 2.004, 0.0, "clamp, mm");
	assert_near(obstacles.item[1].clearance_mm, 2.0, 0.0, "riser, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(made_from_the_fixture),
		cmocka_unit_test(ball_over_and_beside),
		cmocka_unit_test(shank_and_holder_over_and_beside),
		cmocka_unit_test(the_highest_of_several),
		cmocka_unit_test(along_a_line),
		cmocka_unit_test(a_cylinder_is_round),
		cmocka_unit_test(a_fretboard_tapers),
		cmocka_unit_test(the_joint_stands_out_of_the_end),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
