/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/mirror.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"

static struct job uneven_job(void)
{
	struct job job = sample_steel_job();

	job.fixture.keep_out[0] = (struct place){ "clamp", 10, 20, 30, 45, 12, PLACE_BOX };
	job.fixture.hold[1] = (struct place){ "tape", 10, 20, -17, 5, 0, PLACE_BOX };
	job.fixture.work_zero_mm = vec3_make(1.0, 2.0, 3.0);
	job.machine.parks = true;
	job.machine.park_y_mm = 55.0;
	job.blank.side[BLANK_PLUS].count = 2;
	job.tabs.count = 1;
	job.tabs.tab[0].side = 1.0;
	job.cutting[0].way = CUT_CLIMB;
	job.cutting[1].way = CUT_CONVENTIONAL;
	return job;
}

static void every_y_changes_its_sign(void **state)
{
	(void)state;
	struct job job = uneven_job(), other = mirror_job(&job);

	assert_int_equal(other.neck.hand, HAND_LEFT);
	assert_near(other.fixture.keep_out[0].y_from_mm, -45.0, 0, "clamp from, mm");
	assert_near(other.fixture.keep_out[0].y_to_mm, -30.0, 0, "clamp to, mm");
	assert_near(other.fixture.keep_out[0].x_from_mm, 10.0, 0, "x stays, mm");
	assert_near(other.fixture.hold[1].y_from_mm, -5.0, 0, "tape from, mm");
	assert_near(other.fixture.hold[1].y_to_mm, 17.0, 0, "tape to, mm");
	assert_near(other.fixture.work_zero_mm.y, -2.0, 0, "zero, mm");
	assert_near(other.fixture.work_zero_mm.z, 3.0, 0, "zero's height stays, mm");
	assert_near(other.machine.park_y_mm, -55.0, 0, "parking place, mm");
	assert_int_equal(other.blank.side[BLANK_MINUS].count, 2);
	assert_int_equal(other.blank.side[BLANK_PLUS].count, 0);
	assert_near(other.tabs.tab[0].side, -1.0, 0, "tab's side");
	assert_int_equal(other.cutting[0].way, CUT_CONVENTIONAL);
	assert_int_equal(other.cutting[1].way, CUT_CLIMB);
	assert_int_equal(other.cutting[2].way, CUT_BOTH_WAYS);
}

static void twice_is_the_job_itself(void **state)
{
	(void)state;
	struct job job = uneven_job(), once = mirror_job(&job), twice = mirror_job(&once);

	assert_memory_equal(&twice.fixture, &job.fixture, sizeof job.fixture);
	assert_memory_equal(&twice.blank, &job.blank, sizeof job.blank);
	assert_memory_equal(&twice.cutting, &job.cutting, sizeof job.cutting);
	assert_int_equal(twice.neck.hand, job.neck.hand);
}

static void arcs_turn_the_other_way_only_when_seen_from_above(void **state)
{
	(void)state;
	struct motion item[2] = {
		{ .kind = MOTION_CUT,
		  .to = { 1, 2, 3 },
		  .arc = { .moves = 2,
			   .plane = PLANE_XY,
			   .clockwise = true,
			   .centre = { 4, 5, 6 } } },
		{ .kind = MOTION_CUT,
		  .to = { 1, 0, 3 },
		  .arc = { .moves = 2, .plane = PLANE_XZ, .clockwise = true } },
	};
	struct plan plan = { .motions = { item, 2, 2 } };

	mirror_plan(&plan);
	assert_near(item[0].to.y, -2.0, 0, "y, mm");
	assert_near(item[0].arc.centre.y, -5.0, 0, "centre, mm");
	assert_false(item[0].arc.clockwise);
	assert_true(item[1].arc.clockwise);
	assert_false(signbit(item[1].to.y));
}

static void columns_change_sides(void **state)
{
	(void)state;
	struct job job = sample_board_job();
	struct stock stock, other;

	assert_int_equal(stock_build(&stock, &job.blank, 1.0, NULL), FAULT_NONE);
	for (size_t i = 0; i < stock.nx * stock.ny; i++)
		stock.top[i] = (float)i;
	assert_int_equal(mirror_stock(&other, &stock, NULL), FAULT_NONE);
	for (size_t iy = 0; iy < stock.ny; iy++)
		for (size_t ix = 0; ix < stock.nx; ix++)
			assert_true(other.top[iy * stock.nx + ix] ==
				    stock.top[(stock.ny - 1 - iy) * stock.nx + ix]);
	stock_free(&stock);
	stock_free(&other);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_y_changes_its_sign),
		cmocka_unit_test(twice_is_the_job_itself),
		cmocka_unit_test(arcs_turn_the_other_way_only_when_seen_from_above),
		cmocka_unit_test(columns_change_sides),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
