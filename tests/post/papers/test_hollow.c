/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cheeks' hollow against its closed form: 4 e v (1 - v) for a hollow e,
 * where the cap is open to its full width (docs/geometry.md). Lengths mm. */
#include "papers/hollow.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"

/* The waterlines' straight pieces against the formula, twice. */
#define OFF_MM 0.005

static void depth_follows_the_parabola(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct neck *neck = sample_neck_built(&spec);
	double x = neck_to_mm(neck) - 1.0;

	(void)state;
	for (int side = 0; side < SIDE_COUNT; side++)
		for (double v = 0.0; v <= 1.0; v += 0.05)
			assert_near(hollow_depth_mm(neck, (enum neck_side)side, x, v),
				    4.0 * spec.heel.hollow_mm * v * (1.0 - v), OFF_MM, "deep, mm");
	neck_free(neck);
}

static void lines_lie_at_their_depth(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct neck *neck = sample_neck_built(&spec);
	struct hollow hollow;

	(void)state;
	assert_int_equal(hollow_build(&hollow, neck, NULL), FAULT_NONE);
	assert_near(hollow.deepest_mm, spec.heel.hollow_mm, OFF_MM, "deepest, mm");
	assert_near(hollow.deepest_z_mm, spec.heel.height_mm / 2.0, 1.0, "at mid height, mm");
	assert_between(hollow.deepest_x_mm, neck_heel_proper_mm(neck), neck_to_mm(neck), "mm");
	for (int i = 0; i < HOLLOW_LEVEL_COUNT; i++) {
		const struct hollow_line *line = &hollow.line[i];
		double d = i == HOLLOW_RIM ? HOLLOW_RIM_MM : hollow.deepest_mm / 2.0;
		/* v = (1 -+ sqrt(1 - d / e)) / 2 at the body */
		double root = sqrt(1.0 - d / spec.heel.hollow_mm);
		size_t last = line->count - 1;
		assert_true(line->count > 10);
		assert_near(line->x_mm[last], neck_to_mm(neck), 1e-9, "up to the body, mm");
		assert_near(line->low_mm[last], spec.heel.height_mm * (1.0 - root) / 2.0, 0.3,
			    "lower line, mm");
		assert_near(line->high_mm[last], spec.heel.height_mm * (1.0 + root) / 2.0, 0.3,
			    "upper line, mm");
		for (size_t k = 0; k < line->count; k++) {
			double height = neck_crest_mm(neck, line->x_mm[k]);
			double low = line->low_mm[k] / height, high = line->high_mm[k] / height;
			assert_near(hollow_depth_mm(neck, SIDE_PLUS, line->x_mm[k], low), d, OFF_MM,
				    "deep, mm");
			assert_near(hollow_depth_mm(neck, SIDE_PLUS, line->x_mm[k], high), d,
				    OFF_MM, "deep, mm");
		}
	}
	hollow_free(&hollow);
	neck_free(neck);
}

static void flat_heels_and_full_cheeks_have_none(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct hollow hollow;

	(void)state;
	for (int i = 0; i < 2; i++) {
		spec.heel.hollow_mm = 0.0;
		if (i == 1)
			spec.heel = (struct heel_spec){ .kind = HEEL_FLAT,
							.height_mm = 19.0,
							.slab_length_mm = 60.0,
							.beyond_joint_mm = 60.0,
							.ease_length_mm = 40.0 };
		struct neck *neck = sample_neck_built(&spec);
		assert_int_equal(hollow_build(&hollow, neck, NULL), FAULT_NONE);
		assert_near(hollow.deepest_mm, 0.0, 0.0, "no hollow, mm");
		assert_int_equal(hollow.line[HOLLOW_RIM].count, 0);
		hollow_free(&hollow);
		neck_free(neck);
	}
	hollow_free(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(depth_follows_the_parabola),
		cmocka_unit_test(lines_lie_at_their_depth),
		cmocka_unit_test(flat_heels_and_full_cheeks_have_none),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
