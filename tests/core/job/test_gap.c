/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cutters against the room under the spindle: just enough, and a little less. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "job/gap.h"
#include "support/near.h"
#include "support/sample_job.h"

/* A blank to 86, a clamp to 95, riser 14, clearance 3: everything ends 109 above
 * the bed and rapids pass at 112. The ball's tip comes to 6.35 + 0.6 + 0.2 below
 * the gluing face, 6.85 above the bed. */
static struct job tall(double stickout, double overall, double gap, double travel)
{
	struct job job = sample_steel_job();

	job.blank.margin_mm = 0;
	job.fixture.riser_height_mm = 14;
	job.fixture.keep_out_count = 1;
	job.fixture.keep_out[0].top_mm = 95;
	job.carve.clearance_mm = 3;
	job.neck.allowance.sides_mm = 0.6;
	job.cutter[0].ball_diameter_mm = 12.7;
	job.cutter[0].stickout_mm = stickout;
	job.cutter[0].overall_length_mm = overall;
	job.machine.z_gap_mm = gap;
	job.machine.travel_mm[AXIS_Z] = travel;
	return job;
}

static void heights(void **state)
{
	(void)state;
	struct job job = tall(102, 0, 240, 180);
	struct gap_heights h = gap_heights_of(&job, &job.cutter[0]);

	assert_true(h.known);
	assert_near(h.highest_mm, 109, 1e-9, "clamp over the bed, mm");
	assert_near(h.tip_safe_mm, 112, 1e-9, "rapids, mm");
	assert_near(h.face_safe_mm, 214, 1e-9, "holder, mm");
	assert_near(h.tip_lowest_mm, 6.85, 1e-9, "deepest cut, mm");
	assert_near(h.face_lowest_mm, 108.85, 1e-9, "holder then, mm");
	assert_near(h.face_most_mm, 240, 1e-9, "z at its top, mm");
	assert_near(h.face_least_mm, 60, 1e-9, "z at its lowest, mm");
	assert_near(h.overall_mm, 127, 1e-9, "25 mm in the collet, mm");
	assert_near(h.change_mm, 236, 1e-9, "to change it, mm");
	/* 240 - 109 - 25 */
	assert_near(h.longest_mm, 106, 1e-9, "longest, mm");
	job.machine.z_gap_mm = 0;
	h = gap_heights_of(&job, &job.cutter[0]);
	assert_false(h.known);
	assert_true(isnan(h.longest_mm) && isnan(h.face_most_mm));
}

struct gap_case {
	double stickout, overall, gap, travel;
	const char *setting, *words; /* NULL: accepted */
};

static void just_enough_and_a_little_less(void **state)
{
	static const struct gap_case cases[] = {
		{ 102, 110, 219, 180, NULL, NULL }, /* 109 + 110 to change it */
		{ 102, 110, 218.9, 180, "cutter.overall_length", "leaves 109.9 mm" },
		{ 102, 103, 214, 180, NULL, NULL }, /* 112 + 102 to pass over */
		{ 102, 103, 213.9, 180, "cutter.stickout", "may stick out 101.9 mm" },
		{ 50, 60, 200, 143.15, NULL, NULL }, /* 56.85 above the bed */
		{ 50, 60, 200, 143.0, "cutter.stickout", "at least 50.1 mm" },
		{ 102, 0, 236, 180, NULL, NULL },
		{ 102, 0, 235.9, 180, "cutter.overall_length", "127.0 mm long" },
		{ 290, 0, 0, 180, NULL, NULL }, /* nothing known, nothing asked */
	};

	(void)state;
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		const struct gap_case *c = &cases[i];
		struct job job = tall(c->stickout, c->overall, c->gap, c->travel);
		struct fault_list faults = { 0 };
		enum fault code = gap_check(&job, &faults);
		if (!c->setting) {
			assert_int_equal(code, FAULT_NONE);
			continue;
		}
		assert_int_equal(code, FAULT_SETTING);
		assert_int_equal(faults.count, 1);
		assert_string_equal(faults.record[0].setting, c->setting);
		if (!strstr(faults.record[0].message, c->words))
			fail_msg("\"%s\" is not in: %s", c->words, faults.record[0].message);
	}
}

/* A machine that parks beside the neck changes cutters over the bed; parked over
 * the shaft, over its 24 mm of wood and the riser. */
static void changed_where_it_parks(void **state)
{
	(void)state;
	struct job job = tall(102, 0, 220, 180);

	assert_int_equal(gap_check(&job, NULL), FAULT_SETTING); /* 109 + 127 */
	job.machine.parks = true;
	job.machine.park_x_mm = 150;
	job.machine.park_y_mm = 200;
	assert_near(gap_heights_of(&job, &job.cutter[0]).change_mm, 127, 1e-9, "beside it, mm");
	/* only lifting limits it then: 220 - 112 */
	assert_near(gap_heights_of(&job, &job.cutter[0]).longest_mm, 108, 1e-9, "longest, mm");
	assert_int_equal(gap_check(&job, NULL), FAULT_NONE);
	job.machine.park_y_mm = 0;
	assert_near(gap_heights_of(&job, &job.cutter[0]).change_mm, 127 + 38, 1e-9,
		    "over the shaft, mm");
	job.machine.park_x_mm = 350;
	assert_near(gap_heights_of(&job, &job.cutter[0]).change_mm, 127 + 100, 1e-9,
		    "over the heel, mm");
	job.fixture.work_zero_mm.x = -200;
	assert_near(gap_heights_of(&job, &job.cutter[0]).change_mm, 127 + 38, 1e-9,
		    "counted from the zero, mm");
}

/* Of two cutters the second is named by its own place. */
static void later_cutters_too(void **state)
{
	(void)state;
	struct job job = tall(102, 110, 219, 180);
	struct fault_list faults = { 0 };

	job.cutter_count = 2;
	job.cutter[1] = job.cutter[0];
	job.cutter[1].stickout_mm = 108;
	assert_int_equal(gap_check(&job, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].setting, "use.then[0].stickout");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(heights),
		cmocka_unit_test(just_enough_and_a_little_less),
		cmocka_unit_test(changed_where_it_parks),
		cmocka_unit_test(later_cutters_too),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
