/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Clamps, screws and joints beside the cut and in its way. The short neck is 26
 * to 30 wide; with 0.6 of stock a ball of 8 finishes its sides with its middle
 * 4.6 outside them, and clamps are kept 1 mm away. */
#include "job/blocked.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/neck_check.h"
#include "support/sample_job.h"

/* Half the short neck's width at x. */
static double half_at(double x)
{
	return 13.0 + 2.0 * x / (155.0 * (1.0 - exp2(-14.0 / 12.0)));
}

static struct job with_place(struct place place)
{
	struct job job = sample_short_job();

	job.fixture.keep_out[job.fixture.keep_out_count++] = place;
	return job;
}

static void assert_blocked(const struct job *job, const char *setting, const char *name,
			   const char *side)
{
	struct fault_list faults = { 0 };

	assert_int_equal(blocked_check(job, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, setting);
	if (!strstr(faults.record[0].message, name) || !strstr(faults.record[0].message, side))
		fail_msg("%s", faults.record[0].message);
	assert_int_equal(job_check(job, NULL), FAULT_SETTING);
}

/* The ball beside the neck at x = 40 reaches out to the side, its stock, its
 * width and the clearance: 13.93 + 0.6 + 8 + 1. */
static void a_clamp_beside_the_cut(void **state)
{
	(void)state;
	double from = half_at(40) + 0.6 + 8.0 + 1.0;
	struct job job = with_place((struct place){ "side clamp", 20, 40, 0, 60, 30, PLACE_BOX });
	struct place *clamp = &job.fixture.keep_out[1];

	clamp->y_from_mm = from + 0.01;
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
	clamp->y_from_mm = from - 1.0;
	assert_blocked(&job, "fixture.keep_out[1]", "\"side clamp\"", "the bass side");
	job.neck.hand = HAND_LEFT;
	assert_blocked(&job, "fixture.keep_out[1]", "\"side clamp\"", "the treble side");
	/* lower than the ball goes beside the neck: no hindrance */
	clamp->top_mm = -6.0;
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
}

/* The same, on the other side, by a post: its square would be too near. */
static void a_screw_beside_the_cut(void **state)
{
	(void)state;
	double middle = half_at(30) + 0.6 + 8.0 + 1.0 + 5.0;
	struct job job = with_place((struct place){ "screw", 25, 35, 0, 0, 15, PLACE_CYLINDER });
	struct place *screw = &job.fixture.keep_out[1];

	/* the neck widens by 0.023 a mm, so nearest past its middle by that share of 5 */
	screw->y_from_mm = -middle - 5.0 - 0.02;
	screw->y_to_mm = -middle + 5.0 - 0.02;
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
	screw->y_from_mm += 1.5;
	screw->y_to_mm += 1.5;
	assert_blocked(&job, "fixture.keep_out[1]", "\"screw\"", "the treble side");
}

/* High enough, and the holder, 20 wide, meets it 45 over the tip. */
static void a_tall_post_in_the_holders_way(void **state)
{
	(void)state;
	double far = half_at(40) + 0.6 + 4.0 + 10.0 + 1.0;
	struct job job = with_place((struct place){ "tall clamp", 20, 40, 0, 80, 60, PLACE_BOX });
	struct place *clamp = &job.fixture.keep_out[1];

	clamp->y_from_mm = far + 0.01;
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
	clamp->y_from_mm = far - 1.0;
	assert_blocked(&job, "fixture.keep_out[1]", "\"tall clamp\"", "the bass side");
	clamp->top_mm = 36.0; /* the holder stays above 45 - 4.8 */
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
}

/* What one cutter cannot reach another may. */
static void a_smaller_ball_gets_by(void **state)
{
	(void)state;
	double from = half_at(40) + 0.6 + 8.0 + 1.0;
	struct job job = with_place((struct place){ "side clamp", 20, 40, 0, 60, 30, PLACE_BOX });

	job.fixture.keep_out[1].y_from_mm = from - 1.0;
	job.cutter_count = 2;
	job.cutter[1] = job.cutter[0];
	job.cutter[1].ball_diameter_mm = job.cutter[1].shank_diameter_mm = 6;
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
}

/* Far away nothing is built and nothing asked. */
static void far_away(void **state)
{
	(void)state;
	struct job job = with_place((struct place){ "far", 20, 40, 90, 120, 300, PLACE_BOX });

	job.neck.scale_length_mm = -1; /* no such neck can be built */
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
}

/* The heel's end: a joint within the finished heel hinders nobody, one that
 * stands out of its cheeks keeps the ball off them. */
static void joints(void **state)
{
	(void)state;
	struct job job = sample_short_job();

	job.neck.heel.joint = (struct joint_spec){ JOINT_TENON, 12, 10, 0, 20 };
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
	job.neck.heel.joint.width_mm = 29;
	job.neck.heel.joint.top_mm = 25;
	assert_blocked(&job, "heel.joint", "tenon", "both sides");
}

/* The board goes on straight where a set heel's sides close in to its tenon. */
static void a_tenon_under_a_glued_fretboard(void **state)
{
	(void)state;
	struct job job = sample_short_job();

	job.fixture.keep_out_count = 0;
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 20, 0 };
	job.neck.heel = (struct heel_spec){ .kind = HEEL_SET,
					    .height_mm = 16,
					    .beyond_joint_mm = 30,
					    .ease_length_mm = 25,
					    .tenon_width_mm = 16,
					    .shoulder_length_mm = 8 };
	job.carve.to_mm = 110;
	assert_int_equal(neck_check(&job.neck, NULL), FAULT_NONE);
	struct fault_list faults = { 0 };
	assert_int_equal(blocked_check(&job, &faults), FAULT_SETTING);
	assert_string_equal(faults.record[0].setting, "fixture.fretboard");
	assert_non_null(strstr(faults.record[0].message, "on both sides"));
	job.neck.heel.tenon_width_mm = 31; /* as wide as the board there */
	job.fixture.fretboard.glued = false;
	assert_int_equal(blocked_check(&job, NULL), FAULT_NONE);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_clamp_beside_the_cut),
		cmocka_unit_test(a_screw_beside_the_cut),
		cmocka_unit_test(a_tall_post_in_the_holders_way),
		cmocka_unit_test(a_smaller_ball_gets_by),
		cmocka_unit_test(far_away),
		cmocka_unit_test(joints),
		cmocka_unit_test(a_tenon_under_a_glued_fretboard),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
