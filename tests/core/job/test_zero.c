/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Program zero in words, place by place. */
#include "job/zero.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"

static void assert_place(const struct job *job, double x_mm, double z_mm)
{
	struct vec3 place = zero_place(job);

	assert_near(place.x, x_mm, 1e-8, "along, mm");
	assert_near(place.y, 0.0, 0.0, "on the centre line, mm");
	assert_near(place.z, z_mm, 1e-12, "height, mm");
}

static void every_word_is_a_place(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	job.fixture.zero = (struct zero_spec){ true, ZERO_NUT, ZERO_GLUING_FACE, 0 };
	assert_place(&job, 0.0, 0.0);
	job.fixture.zero = (struct zero_spec){ true, ZERO_HEEL, ZERO_BED, 0 };
	assert_place(&job, 357.773891502, -14.0);
	job.fixture.zero = (struct zero_spec){ true, ZERO_BLANK_END, ZERO_BLANK_TOP, 100 };
	assert_place(&job, 357.77, 24.0);
	job.fixture.zero.top_at_mm = 350;
	assert_place(&job, 357.77, 86.0);
	/* halfway down the sawn peghead: 66.9 at -190, 24 at -18 */
	job.fixture.zero.top_at_mm = -104;
	assert_place(&job, 357.77, 45.45);
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 0, 1.5 };
	job.fixture.zero = (struct zero_spec){ true, ZERO_NUT, ZERO_FRETBOARD_FACE, 0 };
	assert_place(&job, 0.0, -6.0);
	job.fixture.zero.height = ZERO_BED;
	assert_place(&job, 0.0, -6.0 - 1.5 - 14.0);
	assert_int_equal(zero_check(&job, NULL), FAULT_NONE);
}

static void words_that_mean_nothing(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct fault_list faults = { 0 };

	assert_int_equal(zero_check(&job, NULL), FAULT_NONE);
	job.fixture.zero = (struct zero_spec){ true, ZERO_NUT, ZERO_FRETBOARD_FACE, 0 };
	assert_int_equal(zero_check(&job, &faults), FAULT_SETTING);
	assert_string_equal(faults.record[0].setting, "fixture.zero.height");
	job.fixture.zero = (struct zero_spec){ true, ZERO_NUT, ZERO_BLANK_TOP, 358 };
	faults = (struct fault_list){ 0 };
	assert_int_equal(zero_check(&job, &faults), FAULT_SETTING);
	assert_string_equal(faults.record[0].setting, "fixture.zero.top_at");
	assert_non_null(strstr(faults.record[0].message, "between -190.00 and 357.77 mm"));
	job.fixture.zero.top_at_mm = -190;
	assert_int_equal(zero_check(&job, NULL), FAULT_NONE);
	/* job_check passes it on */
	job.fixture.zero.top_at_mm = 358;
	assert_int_equal(job_check(&job, NULL), FAULT_SETTING);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_word_is_a_place),
		cmocka_unit_test(words_that_mean_nothing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
