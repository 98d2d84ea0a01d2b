/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines against the neck they were taken from. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pictures/neck_lines.h"
#include "support/near.h"
#include "support/sample_job.h"

/* Value of a drawn curve at x: straight between its points. */
static double drawn_at(const struct neck_lines *lines, const double *y_mm, double x_mm)
{
	size_t i = 1;

	while (i + 1 < lines->count && lines->x_mm[i] < x_mm)
		i++;
	double share = (x_mm - lines->x_mm[i - 1]) / (lines->x_mm[i] - lines->x_mm[i - 1]);
	return y_mm[i - 1] + share * (y_mm[i] - y_mm[i - 1]);
}

static void check_neck(const struct neck_spec *spec)
{
	struct neck *neck = sample_neck_built(spec);
	struct neck_lines lines;
	double from = neck_from_mm(neck), to = neck_to_mm(neck);

	assert_int_equal(neck_lines_build(&lines, neck, NULL), FAULT_NONE);
	assert_near(lines.x_mm[0], from, 1e-9, "the outline begins with the neck, mm");
	assert_near(lines.x_mm[lines.count - 1], to, 1e-9, "and ends with it, mm");
	assert_in_range(lines.count, 10, 600);
	for (int i = 0; i <= 2000; i++) {
		double x = from + (to - from) * i / 2000.0;
		for (int side = 0; side < SIDE_COUNT; side++)
			assert_near(drawn_at(&lines, lines.edge_mm[side], x),
				    neck_half_breadth_mm(neck, (enum neck_side)side, x, 0.0), 0.02,
				    "drawn edge against the neck's, mm");
	}
	neck_lines_free(&lines);
	neck_free(neck);
}

static void edges_follow_the_neck(void **state)
{
	(void)state;
	struct job steel = sample_steel_job(), small = sample_short_job();

	check_neck(&steel.neck);
	check_neck(&small.neck);
}

/* The page and the sheet say so. */
static void the_gluing_face_is_the_greatest_width(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct neck *neck = sample_neck_built(&job.neck);
	size_t count;
	const double *levels = neck_levels(neck, &count);

	double from = neck_from_mm(neck), length = neck_to_mm(neck) - from;
	for (int k = 0; k <= 120; k++)
		for (size_t i = 0; i < count; i++) {
			double x = from + length * k / 120.0;
			assert_true(neck_half_breadth_mm(neck, SIDE_PLUS, x, levels[i]) <=
				    neck_half_breadth_mm(neck, SIDE_PLUS, x, 0.0) + 1e-9);
		}
	neck_free(neck);
}

/* Cap and peghead are flat, the shaft is not. */
static void flats_are_where_the_neck_is_flat(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct neck *neck = sample_neck_built(&job.neck);
	struct neck_lines lines;

	assert_int_equal(neck_lines_build(&lines, neck, NULL), FAULT_NONE);
	assert_near(drawn_at(&lines, lines.flat_mm[SIDE_PLUS], neck_from_mm(neck)), 35.0, 0.02,
		    "half of a 70 mm wide peghead, mm");
	assert_near(drawn_at(&lines, lines.flat_mm[SIDE_PLUS], neck_to_mm(neck)), 12.0, 0.02,
		    "half of a cap 24 mm wide at the joint, mm");
	assert_near(drawn_at(&lines, lines.flat_mm[SIDE_PLUS], 150.0), 0.0, 0.0,
		    "a round shaft has no flat, mm");
	neck_lines_free(&lines);
	neck_free(neck);
}

static void marks_are_the_necks(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct neck *neck = sample_neck_built(&job.neck);
	struct neck_marks marks = neck_marks_of(neck);

	assert_near(marks.joint_mm, 357.774, 0.001,
		    "fret 14 of a 645.16 mm scale: L (1 - 2^(-14/12)), mm");
	assert_near(marks.heel_proper_mm, marks.joint_mm - 16.0, 1e-6,
		    "a cap 16 mm long ends at the joint, mm");
	assert_true(marks.heel_start_mm < marks.heel_proper_mm);
	assert_string_equal(marks.heel_proper_name, "cap front");
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(edges_follow_the_neck),
		cmocka_unit_test(the_gluing_face_is_the_greatest_width),
		cmocka_unit_test(flats_are_where_the_neck_is_flat),
		cmocka_unit_test(marks_are_the_necks),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
