/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Neck, blank and fixture that do not fit each other: what job_check says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job/job.h"
#include "support/near.h"
#include "support/refusal.h"
#include "support/sample_job.h"

/* Cells of 0.2 mm: shank and holder keep 0.5 + 0.3 mm from a rail; ball 12.7 and
 * shank 12.7 need 6.35 + 7.15 and half a millimetre to move. */
static void rails_need_room_and_wood(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	assert_near(job_least_channel_mm(&job), 14.0, 1e-9, "least channel, mm");
	assert_near(job_channel_mm(&job), 17.5, 1e-9, "usual channel, mm");
	job.carve.waste.kind = WASTE_RAILS;
	assert_job_refused(&job, "carve.waste", "too narrow for rails");
	job.carve.waste.channel_mm = 13.9;
	/* the nut's half of 21.85, stock of 1, the channel and a rail of 6 */
	for (size_t i = 0; i < job.blank.half_width.count; i++)
		job.blank.half_width.value_mm[i] = 60.0;
	assert_job_refused(&job, "carve.channel", "need 14 mm");
	job.carve.waste.channel_mm = 14.0;
	assert_job_good(&job);
}

static void neck_must_fit_the_blank(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.blank.top.value_mm[3] = job.blank.top.value_mm[4] = 82.9;
	assert_job_refused(&job, "blank.top", "82.90 mm");
	job.blank.top.value_mm[3] = job.blank.top.value_mm[4] = 83.0;
	assert_job_good(&job);
	job = sample_steel_job();
	job.blank.half_width.value_mm[2] = 22.3; /* nut: 21.85 + 0.6 */
	assert_job_refused(&job, "blank.half_width", "half-width");
	job = sample_steel_job();
	job.blank.half_width.value_mm[3] = 27.9; /* joint: 27.4 + 0.6 */
	assert_job_refused(&job, "blank.half_width", "28.00 mm");
	job = sample_steel_job();
	/* a peghead bottom left without its slope is more wood, not less */
	job.blank.bottom.value_mm[0] = 0;
	assert_job_good(&job);
	job.blank.bottom.value_mm[0] = 60;
	assert_job_refused(&job, "blank.bottom", "above the neck's under side");
}

/* The neck must fit into the blank sawn as small as its margin allows: the heel
 * needs 82 + 1 = 83 mm of the 84 there are. */
static void neck_must_fit_the_least_blank(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	for (size_t i = 0; i < job.blank.half_width.count; i++)
		job.blank.half_width.value_mm[i] += 10;
	job.machine.travel_mm[AXIS_Y] = 500;
	job.machine.travel_mm[AXIS_Z] = 500;
	job.blank.top.value_mm[3] = job.blank.top.value_mm[4] = 84.0;
	job.blank.margin_mm = 1.0;
	assert_job_good(&job);
	job.blank.margin_mm = 1.2;
	assert_job_refused(&job, "blank.top", "the margin of 1.20 mm allows");
	assert_job_refused(&job, "blank.top", "82.80 mm");
	assert_job_refused(&job, "blank.top", "83.00 mm, 0.20 mm more");
}

/* The step of the heel's block may stand that much farther back too. */
static void margin_moves_the_step(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	for (size_t i = 0; i < job.blank.half_width.count; i++)
		job.blank.half_width.value_mm[i] += 10;
	job.machine.travel_mm[AXIS_Y] = 500;
	while (job_check(&job, NULL) == FAULT_NONE)
		job.blank.top.x_mm[2] = job.blank.top.x_mm[3] += 0.5;
	job.blank.top.x_mm[2] = job.blank.top.x_mm[3] -= 1.5;
	assert_job_good(&job);
	job.blank.margin_mm = 2.0;
	assert_job_refused(&job, "blank.top", "does not fit");
}

/* Each side for itself. */
static void sides_must_hold_the_neck(void **state)
{
	(void)state;
	static const char *const setting[] = { "blank.minus_side", "blank.plus_side" };
	static const char *const word[] = { "at -y", "at +y" };

	for (int k = 0; k < BLANK_SIDES; k++) {
		struct job job = sample_steel_job();
		job.blank.side[BLANK_MINUS] = job.blank.side[BLANK_PLUS] = job.blank.half_width;
		job.blank.half_width.count = 0;
		assert_job_good(&job);
		job.blank.side[k].value_mm[3] = 27.9; /* joint: 27.4 + 0.6 */
		assert_job_refused(&job, setting[k], "28.00 mm");
		assert_job_refused(&job, setting[k], word[k]);
	}
}

static void step_must_stand_before_the_nose(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.blank.top.x_mm[2] = job.blank.top.x_mm[3] = 330;
	assert_job_refused(&job, "blank.top", "x = 33");
}

static void place_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.fixture.keep_out[0].x_to_mm = -190;
	assert_job_refused(&job, "fixture.keep_out[0].x_to", "not beyond its beginning");
	job = sample_steel_job();
	job.fixture.hold[0].y_to_mm = -18;
	assert_job_refused(&job, "fixture.hold[0].y_to", "\"tape\"");
	job = sample_steel_job();
	job.fixture.keep_out[0].x_to_mm = -50;
	assert_job_refused(&job, "fixture.keep_out[0]", "stands on the neck");
	assert_job_refused(&job, "fixture.keep_out[0]", "across the centre line");
	/* beside the shaft's edges, but on the peghead's flare */
	job.fixture.keep_out[0].y_from_mm = 30;
	assert_job_refused(&job, "fixture.keep_out[0]", "in the way of the cut");
	job.fixture.keep_out[0].x_to_mm = -70;
	assert_job_good(&job);
	job = sample_steel_job();
	job.fixture.hold[0].x_from_mm = 400;
	job.fixture.hold[0].x_to_mm = 410;
	assert_job_refused(&job, "fixture.hold[0]", "holds nothing");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(rails_need_room_and_wood),
		cmocka_unit_test(neck_must_fit_the_blank),
		cmocka_unit_test(neck_must_fit_the_least_blank),
		cmocka_unit_test(margin_moves_the_step),
		cmocka_unit_test(sides_must_hold_the_neck),
		cmocka_unit_test(step_must_stand_before_the_nose),
		cmocka_unit_test(place_faults),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
