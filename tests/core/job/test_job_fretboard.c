/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of a job whose fretboard is glued on, or whose joint is made. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "job/job.h"
#include "support/near.h"
#include "support/refusal.h"
#include "support/sample_job.h"

static void glued_fretboard_faults(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 5, 0 };
	assert_job_good(&job);
	job.fixture.fretboard.clearance_mm = 0.7;
	assert_job_refused(&job, "allowance.sides", "fixture.fretboard.clearance, 0.7 mm");
	job.fixture.fretboard.clearance_mm = 0.5;
	job.neck.side_margin_mm = 0.2;
	assert_job_refused(&job, "allowance.sides", "0.2 mm narrower per side");
	job.neck.side_margin_mm = 0.1;
	assert_job_good(&job);
	job.neck.allowance.heel_cheeks_mm = 0.5;
	assert_job_refused(&job, "allowance.heel_cheeks", "0.6 mm are needed");
	job = sample_steel_job();
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 5, 0 };
	job.neck.over_fretboard = false;
	job.neck.fretboard_thickness_mm = 0;
	job.neck.station[0].thickness_mm = 15;
	job.neck.station[1].thickness_mm = 18;
	assert_job_refused(&job, "neck.fretboard_thickness", "needs a thickness");
}

/* The riser's top and the bed lie lower by fretboard and shim. */
static void work_rests_on_the_fretboard(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	assert_near(job_rest_mm(&job), 0.0, 0.0, "on the gluing face, mm");
	assert_near(job_bed_mm(&job), -14.0, 0.0, "under the riser, mm");
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 5, 1.2 };
	assert_near(job_rest_mm(&job), -7.2, 1e-12, "6 of board, 1.2 of shim, mm");
	assert_near(job_bed_mm(&job), -21.2, 1e-12, "under the riser, mm");
	/* half the ball and the clearance are 7.35; the board and 0.1 of riser 7.3 */
	job.fixture.riser_height_mm = 0.1;
	assert_near(job_cove_mm(&job), 0.05, 1e-9, "cove, mm");
	job.fixture.riser_height_mm = 0.76;
	assert_near(job_cove_mm(&job), 0.0, 0.0, "no cove, mm");
	job.blank.bottom.value_mm[1] = -5;
	assert_job_good(&job);
	job.blank.bottom.value_mm[1] = -7.5;
	assert_job_refused(&job, "blank.bottom", "0.26 mm below the riser's top");
	job.blank.bottom.value_mm[1] = -8.2;
	job.fixture.riser_to_mm = job.fixture.riser_from_mm + 0.1;
	job.fixture.riser_from_mm = job.fixture.riser_to_mm - 0.05;
	job.fixture.riser_height_mm = 0.8;
	job.blank.bottom.value_mm[1] = -8.5;
	struct fault_list faults = { 0 };
	assert_int_equal(job_check(&job, &faults), FAULT_SETTING);
	assert_non_null(strstr(faults.record[0].message, "into the bed at -8.00 mm"));
}

static void carving_ends_before_the_joint(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.neck.heel.joint = (struct joint_spec){ JOINT_DOVETAIL, 18, 20, 0, 70 };
	assert_job_good(&job);
	job.carve.to_mm = 365;
	job.blank.top.x_mm[4] = job.blank.bottom.x_mm[2] = job.blank.half_width.x_mm[3] = 376;
	assert_job_refused(&job, "carve.to", "heel.joint: dovetail");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(glued_fretboard_faults),
		cmocka_unit_test(work_rests_on_the_fretboard),
		cmocka_unit_test(carving_ends_before_the_joint),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
