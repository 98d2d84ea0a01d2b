/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The four stretches of a neck. */
#include "model/stretch.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"

/* Block heel: nut, foot of the nose, front of a cap 16 mm long that ends at the
 * joint of fret 14, x = 645.16 (1 - 2^(-14/12)) = 357.774. */
static void stretches_of_a_steel_string(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct neck *neck = sample_neck_built(&job.neck);
	struct stretches s = stretches_of(neck);

	assert_near(s.end_mm[STRETCH_PEGHEAD], 0.0, 0.0, "the nut, mm");
	assert_near(s.end_mm[STRETCH_SHAFT], neck_heel_start_mm(neck), 0.0, "the nose, mm");
	assert_near(s.end_mm[STRETCH_NOSE], 357.774 - 16.0, 0.001, "the cap's front, mm");
	assert_int_equal(stretch_at(&s, -300), STRETCH_PEGHEAD);
	assert_int_equal(stretch_at(&s, -0.001), STRETCH_PEGHEAD);
	assert_int_equal(stretch_at(&s, 0.0), STRETCH_SHAFT);
	assert_int_equal(stretch_at(&s, 200), STRETCH_SHAFT);
	assert_int_equal(stretch_at(&s, 335), STRETCH_NOSE);
	assert_int_equal(stretch_at(&s, 341.774), STRETCH_HEEL);
	assert_int_equal(stretch_at(&s, 1000), STRETCH_HEEL);
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(stretches_of_a_steel_string) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
