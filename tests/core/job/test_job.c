/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "job/job.h"
#include "support/near.h"
#include "support/refusal.h"
#include "support/sample_job.h"

static void good_job_passes(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	assert_job_good(&job);
}

static void machine_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.machine.decimals = 2;
	assert_job_refused(&job, "machine.decimals", "steps of 0.01 mm");
	job = sample_steel_job();
	job.machine.program_unit = UNIT_INCH;
	assert_job_refused(&job, "machine.decimals", "0.0254 mm");
	job.machine.decimals = 4;
	assert_job_good(&job);
	job = sample_steel_job();
	job.machine.spindle_least_rpm = 14001;
	assert_job_refused(&job, "cutter.spindle_rpm", "wants 14000 rpm");
	job = sample_steel_job();
	job.machine.spindle_most_rpm = 13999;
	assert_job_refused(&job, "cutter.spindle_rpm", "6000 to 13999 rpm");
}

static void ability_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.machine.reads.feed_decimals_stated = true; /* none: whole mm and inches */
	job.cutter[0].plunge_feed_mm_per_min = 100;
	assert_job_good(&job);
	job.machine.program_unit = UNIT_INCH;
	job.machine.decimals = 4;
	assert_job_refused(&job, "machine.feed_decimals", "steps of 25.4 mm/min are too coarse");
	job = sample_steel_job();
	job.machine.parks = true;
	job.machine.park_x_mm = 357;
	job.machine.park_y_mm = 370;
	assert_job_good(&job);
	job.machine.park_y_mm = 390; /* from -38.5 - 6.35 on */
	assert_job_refused(&job, "machine.travel",
			   "434.9 mm of travel along y with the parking place");
	job.machine.park_y_mm = NAN;
	assert_job_refused(&job, "machine.park_y", "both park_x and park_y");
	job.machine.park_y_mm = 0;
	job.machine.park_x_mm = NAN;
	assert_job_refused(&job, "machine.park_x", "both park_x and park_y");
}

static void spindle_range_upside_down(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct fault_list faults = { 0 };

	job.machine.spindle_least_rpm = 25000;
	assert_int_equal(job_check(&job, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 2);
	assert_string_equal(faults.record[0].setting, "machine.spindle_least_rpm");
	assert_string_equal(faults.record[1].setting, "cutter.spindle_rpm");
}

static void cutter_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.cutter[0].holder_diameter_mm = 12.6;
	assert_job_refused(&job, "cutter.holder_diameter", "thinner than the shank");
	job = sample_steel_job();
	job.cutter[0].stickout_mm = 49;
	assert_job_refused(&job, "cutter.stickout", "sit on the flutes");
	job = sample_steel_job();
	job.cutter[0].flute_length_mm = 6;
	assert_job_refused(&job, "cutter.flute_length", "do not cover the ball");
	job = sample_steel_job();
	job.cutter[0].depth_limit_mm = 51;
	assert_job_refused(&job, "cutter.depth_limit", "deeper than the flutes");
	job = sample_steel_job();
	job.cutter[0].stepover_limit_mm = 12.8;
	assert_job_refused(&job, "cutter.stepover_limit", "leave wood between them");
}

static void riser_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	/* half the nut's 43.7, stock of 0.6 and 2 of clearance: 40.9 */
	job.fixture.riser_width_mm = 41;
	assert_job_refused(&job, "fixture.riser_width", "may be 40.9");
	job.fixture.riser_from_mm = 150;
	assert_job_good(&job);
	job = sample_steel_job();
	/* half the ball, 6.35, and 1 of clearance */
	job.carve.cove_limit_mm = 0.0;
	job.fixture.riser_height_mm = 7.3;
	assert_job_refused(&job, "fixture.riser_height", "takes a riser of 7.35 mm");
	job.fixture.riser_height_mm = 7.36;
	assert_job_good(&job);
	job.fixture.riser_height_mm = 5.0;
	job.carve.cove_limit_mm = 2.3;
	assert_job_refused(&job, "fixture.riser_height", "cove 2.35 mm high");
	job.carve.cove_limit_mm = 2.4;
	assert_job_good(&job);
	job = sample_steel_job();
	job.fixture.riser_to_mm = 2;
	assert_job_refused(&job, "fixture.riser_to", "before it begins");
	job = sample_steel_job();
	job.fixture.riser_width_mm = 0;
	assert_job_refused(&job, "fixture.riser_width", "needs a width");
}

static void blank_on_the_bed_needs_no_riser(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.fixture.riser_height_mm = 0;
	job.fixture.riser_width_mm = 0;
	job.fixture.riser_from_mm = job.fixture.riser_to_mm = 0;
	job.carve.cove_limit_mm = 100.0;
	assert_job_good(&job);
	assert_near(job_cove_mm(&job), 7.35, 1e-9, "cove without a riser, mm");
	job.carve.cove_limit_mm = 0.0;
	assert_job_refused(&job, "fixture.riser_height", "cove 7.35 mm high");
}

static void carve_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.carve.from_mm = 360;
	assert_job_refused(&job, "carve.to", "before it begins");
	job = sample_steel_job();
	job.carve.scallop_limit_mm = 6.35;
	assert_job_refused(&job, "carve.scallop_limit", "half the ball");
	job = sample_steel_job();
	job.carve.from_mm = -84;
	assert_job_refused(&job, "carve.from", "reach to -83.00 mm");
	job = sample_steel_job();
	job.carve.to_mm = 358;
	assert_job_refused(&job, "carve.to", "357.77");
}

/* 0, or wide enough to hold: 4 mm. */
static void tabs_are_wide_enough_or_none(void **state)
{
	(void)state;
	static const double refused_mm[] = { 0.1, 3.0, 3.999 };
	static const double good_mm[] = { 0.0, 4.0, 8.0, 60.0 };
	struct job job = sample_steel_job();

	for (size_t i = 0; i < sizeof refused_mm / sizeof *refused_mm; i++) {
		job.carve.waste.tab_width_mm = refused_mm[i];
		assert_job_refused(&job, "carve.tab_width", "at least 4 mm");
	}
	for (size_t i = 0; i < sizeof good_mm / sizeof *good_mm; i++) {
		job.carve.waste.tab_width_mm = good_mm[i];
		assert_job_good(&job);
	}
}

static void travel_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.machine.travel_mm[AXIS_X] = 412;
	assert_job_refused(&job, "machine.travel", "412.8 mm of travel along x");
	job = sample_steel_job();
	/* twice the widest 38.5 within the range and half a ball */
	job.machine.travel_mm[AXIS_Y] = 89;
	assert_job_refused(&job, "machine.travel", "89.7 mm of travel along y");
	job = sample_steel_job();
	/* 86 + 3 + 6.35 + 0.6 */
	job.machine.travel_mm[AXIS_Z] = 95.9;
	assert_job_refused(&job, "machine.travel", "96.0 mm of travel along z");
	job.machine.travel_mm[AXIS_Z] = 95.96;
	assert_job_good(&job);
}

/* The most wood counts for what must pass over it: 86 + 0.5 and so on. */
static void margin_needs_travel(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.blank.margin_mm = 0.5;
	job.machine.travel_mm[AXIS_Z] = 96.4;
	assert_job_refused(&job, "machine.travel", "96.5 mm of travel along z");
	job.machine.travel_mm[AXIS_Z] = 96.46;
	assert_job_good(&job);
	job.fixture.keep_out_count = 0;
	assert_near(job_highest_mm(&job), 86.5, 1e-12, "highest wood there may be, mm");
	job.machine.travel_mm[AXIS_Y] = 90.6;
	assert_job_refused(&job, "machine.travel", "90.7 mm of travel along y");
}

static void blank_must_lie_on_the_riser(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.blank.bottom.value_mm[1] = -0.5;
	assert_job_refused(&job, "blank.bottom", "below the gluing face");
	job = sample_steel_job();
	job.blank.bottom.value_mm[0] = -14.5;
	assert_job_refused(&job, "blank.bottom", "into the bed");
}

static void faults_of_the_blank_are_passed_on(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.blank.top.x_mm[1] = -191;
	assert_job_refused(&job, "blank.top", "precedes it");
}

static void impossible_neck_is_left_to_the_model(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.neck.station[1].fret = 0;
	assert_job_good(&job);
}

static void every_fault_is_told(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct fault_list faults = { 0 };
	const char *const settings[] = { "machine.decimals", "cutter.stickout",
					 "fixture.riser_width", "machine.travel", "blank.top" };

	job.machine.decimals = 1;
	job.cutter[0].stickout_mm = 20;
	job.fixture.riser_width_mm = 60;
	job.machine.travel_mm[AXIS_X] = 300;
	job.blank.top.value_mm[4] = 40;
	assert_int_equal(job_check(&job, &faults), FAULT_SETTING);
	assert_int_equal(faults.count, 5);
	for (size_t i = 0; i < 5; i++)
		assert_string_equal(faults.record[i].setting, settings[i]);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(good_job_passes),
		cmocka_unit_test(machine_faults),
		cmocka_unit_test(ability_faults),
		cmocka_unit_test(spindle_range_upside_down),
		cmocka_unit_test(cutter_faults),
		cmocka_unit_test(riser_faults),
		cmocka_unit_test(blank_on_the_bed_needs_no_riser),
		cmocka_unit_test(carve_faults),
		cmocka_unit_test(tabs_are_wide_enough_or_none),
		cmocka_unit_test(travel_faults),
		cmocka_unit_test(margin_needs_travel),
		cmocka_unit_test(blank_must_lie_on_the_riser),
		cmocka_unit_test(faults_of_the_blank_are_passed_on),
		cmocka_unit_test(impossible_neck_is_left_to_the_model),
		cmocka_unit_test(every_fault_is_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
