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
	job.fixture.keep_out[0] = (struct place){ "clamp", 0, 20, -5, 5, 9 };
	obstacles_make(&obstacles, &job, &job.cutter[0]);
	return obstacles;
}

static void made_from_the_fixture(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct obstacles obstacles;

	obstacles_make(&obstacles, &job, &job.cutter[0]);
	assert_int_equal(obstacles.count, 2);
	assert_string_equal(obstacles.box[0].name, "clamp");
	assert_string_equal(obstacles.box[1].name, "riser");
	assert_near(obstacles.box[1].top_mm, 0.0, 0.0, "the riser carries the gluing face, mm");
	assert_near(obstacles.box[1].y_to_mm, 10.0, 0.0, "half the riser, mm");
	assert_near(obstacles.radius_mm, 4.0, 0.0, "ball, mm");
	job.fixture.riser_height_mm = 0;
	obstacles_make(&obstacles, &job, &job.cutter[0]);
	assert_int_equal(obstacles.count, 1);
}

static double ball_at(const struct obstacles *obstacles, double x, double y)
{
	return obstacles_ball_mm(obstacles, x, y, x, y);
}

static double tool_at(const struct obstacles *obstacles, double x, double y)
{
	return obstacles_tool_mm(obstacles, x, y, x, y);
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

	two.box[1] = (struct place){ "screw", 19, 22, -1, 1, 14 };
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
	nearer.box[0].x_from_mm -= 2e-4;
	nearer.box[0].x_to_mm += 2e-4;
	nearer.box[0].y_from_mm -= 2e-4;
	nearer.box[0].y_to_mm += 2e-4;
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
		double line_ball = obstacles_ball_mm(&clamp, x0, y0, x1, y1);
		double line_tool = obstacles_tool_mm(&clamp, x0, y0, x1, y1);
		assert_true(line_ball >= ball && line_tool >= tool);
		met += isfinite(ball);
		/* between two of the points the line may come nearer still */
		double step = hypot(x1 - x0, y1 - y0) / 400.0;
		for (int k = 0; k < 400; k++) {
			double x = x0 + (x1 - x0) * (k + 0.5) / 400;
			double y = y0 + (y1 - y0) * (k + 0.5) / 400;
			struct obstacles grown = nearer;
			grown.box[0].x_from_mm -= step;
			grown.box[0].x_to_mm += step;
			grown.box[0].y_from_mm -= step;
			grown.box[0].y_to_mm += step;
			ball_most = fmax(ball_most, ball_at(&grown, x, y));
			tool_most = fmax(tool_most, tool_at(&grown, x, y));
		}
		assert_true(line_ball <= ball_most && line_tool <= tool_most);
	}
	assert_true(met > 300);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(made_from_the_fixture),
		cmocka_unit_test(ball_over_and_beside),
		cmocka_unit_test(shank_and_holder_over_and_beside),
		cmocka_unit_test(the_highest_of_several),
		cmocka_unit_test(along_a_line),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
