/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rails beside a short neck: where they stand, and how ball, shank and holder
 * come to rest on them. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "path/rails.h"
#include "support/near.h"
#include "support/sample_job.h"

/* Wood 20 mm high up to x = 48 and 29 mm behind it. */
static struct job wide_job(double half_mm)
{
	struct job job = sample_short_job();

	job.blank.half_width.value_mm[0] = job.blank.half_width.value_mm[1] = half_mm;
	job.carve.waste = (struct waste_spec){ .kind = WASTE_RAILS, .channel_mm = 12.0 };
	return job;
}

static void build(struct rails *rails, const struct job *job)
{
	struct neck *neck = sample_neck_built(&job->neck);

	assert_int_equal(rails_build(rails, neck, job, NULL), FAULT_NONE);
	neck_free(neck);
}

/* Half-width of the wood: from 13 mm at the nut to 15 at fret 14, straight (the
 * fret lies 85.96 mm from it); then 1 mm of stock and the channel. */
static double edge_at(double x)
{
	return 13.0 + 2.0 * fmax(x, 0.0) / 85.96 + 1.0 + 12.0;
}

static void rails_begin_beyond_the_channel(void **state)
{
	(void)state;
	struct job job = wide_job(45.0);
	struct rails rails;

	build(&rails, &job);
	for (double x = 5.0; x < 80.0; x += 5.0) {
		double e = edge_at(x);
		assert_between(rails_distance_mm(&rails, x, e - 0.1), 0.05, 0.16, "inside, mm");
		assert_near(rails_distance_mm(&rails, x, e + 0.1), 0.0, 0.0, "on it, mm");
		assert_near(rails_distance_mm(&rails, x, -e - 0.1), 0.0, 0.0, "other side, mm");
		/* the edge leans by 2 in 85.96: the distance is shorter by its cosine */
		assert_near(rails_distance_mm(&rails, x, 0.0), e * cos(atan(2.0 / 85.96)), 0.1,
			    "from the centre line, mm");
	}
	assert_true(rails.standing >= 2);
	rails_free(&rails);
	job.carve.waste.kind = WASTE_CLEARED;
	build(&rails, &job);
	assert_int_equal(rails.count, 0);
	assert_true(isinf(rails_distance_mm(&rails, 20.0, 40.0)));
	rails_free(&rails);
}

/* A ball of 4 mm over wood 20 mm high: on its top, on its edge, beside it. */
static void the_ball_keeps_off(void **state)
{
	(void)state;
	struct job job = wide_job(45.0);
	struct rails rails;
	double x = 20.0, e = edge_at(x);

	build(&rails, &job);
	assert_near(rails_ball_mm(&rails, 4.0, x, e + 3.0), 20.0, 1e-9, "on top, mm");
	for (double d = 0.5; d < 4.0; d += 0.5)
		assert_near(rails_ball_mm(&rails, 4.0, x, e - d / cos(atan(2.0 / 85.96))),
			    20.0 - 4.0 + sqrt(16.0 - d * d), 0.05, "over its edge, mm");
	assert_true(isinf(rails_ball_mm(&rails, 4.0, x, e - 4.1)));
	assert_near(rails_ball_mm(&rails, 4.0, 60.0, 40.0), 29.0, 1e-9, "on the block, mm");
	rails_free(&rails);
}

/* The shank begins 10 mm above the tip and keeps its room; the holder 14 mm. */
static void shank_and_holder_keep_room(void **state)
{
	(void)state;
	struct job job = wide_job(45.0);
	struct cutter *cutter = &job.cutter[0];
	struct rails rails;
	double x = 20.0, e = edge_at(x);

	cutter->flute_length_mm = 10.0;
	cutter->stickout_mm = 14.0;
	build(&rails, &job);
	double room = job_rail_room_mm(&job), shank = cutter->shank_diameter_mm / 2.0;
	double holder = cutter->holder_diameter_mm / 2.0;
	assert_near(rails_tool_mm(&rails, cutter, x, e - shank - room + 0.1), 20.0 + room - 10.0,
		    1e-9, "tip for the shank, mm");
	assert_near(rails_tool_mm(&rails, cutter, x, e - shank - room - 0.1), 20.0 + room - 14.0,
		    1e-9, "tip for the holder, mm");
	assert_true(isinf(rails_tool_mm(&rails, cutter, 5.0, e - holder - room - 1.5)));
	rails_free(&rails);
}

static void lines_beside_rails_keep_their_distance(void **state)
{
	(void)state;
	struct job job = wide_job(45.0);
	struct rails rails;

	build(&rails, &job);
	for (double off = 2.0; off < 9.0; off += 2.5)
		for (double x = job.carve.from_mm; x <= job.carve.to_mm; x += 3.7) {
			double y = rails_beside_mm(&rails, x, off);
			assert_near(rails_distance_mm(&rails, x, y), off, 1e-6, "distance, mm");
			assert_near(rails_beside_mm(&rails, x + 0.01, off), y, 0.03,
				    "a hundredth on, mm");
		}
	rails_free(&rails);
}

/* 26.5 mm of wood beside the nut leave 0.5 mm for a rail, and 34 of them leave
 * 8; one side may have a rail and the other none. */
static void wood_too_narrow_has_none(void **state)
{
	(void)state;
	struct job job = wide_job(26.5);
	struct rails rails;

	build(&rails, &job);
	assert_int_equal(rails.standing, 0);
	rails_free(&rails);
	job.blank.side[BLANK_PLUS] = job.blank.side[BLANK_MINUS] = job.blank.half_width;
	job.blank.side[BLANK_PLUS].value_mm[0] = job.blank.side[BLANK_PLUS].value_mm[1] = 36.0;
	job.blank.half_width.count = 0;
	build(&rails, &job);
	assert_true(rails.standing > 0);
	assert_near(rails_distance_mm(&rails, 20.0, 30.0), 0.0, 0.0, "on the rail, mm");
	assert_true(isinf(rails_distance_mm(&rails, 20.0, -30.0)));
	rails_free(&rails);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(rails_begin_beyond_the_channel),
		cmocka_unit_test(the_ball_keeps_off),
		cmocka_unit_test(shank_and_holder_keep_room),
		cmocka_unit_test(lines_beside_rails_keep_their_distance),
		cmocka_unit_test(wood_too_narrow_has_none),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
