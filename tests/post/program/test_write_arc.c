/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs of moves written as arcs, and when they are not. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "program/write.h"
#include "support/moves.h"

#define PREAMBLE "G21\nG17\nG90\nG94\nG40\nG49\nG54\n"

/* A quarter of a circle of 10 mm about (0, 0) or, upright, about x = 0, z = 0,
 * counterclockwise as arcs count, by way of two corners. */
static struct motion_list quarter(enum arc_plane plane)
{
	struct motion_list list = { 0 };
	const double a[] = { 10.0, 8.0, 6.0, 0.0 }, b[] = { 0.0, 6.0, 8.0, 10.0 };

	for (int i = 0; i < 4; i++) {
		double x = plane == PLANE_XY ? a[i] : b[i], z = plane == PLANE_XY ? 5.0 : a[i];
		double y = plane == PLANE_XY ? b[i] : 5.0;
		if (i == 0)
			moves_rapid(&list, x, y, z);
		else
			moves_cut(&list, x, y, z, 900.0);
	}
	list.item[1].arc = (struct motion_arc){ .moves = 3,
						.plane = plane,
						.centre = plane == PLANE_XY
								  ? vec3_make(0.0, 0.0, 5.0)
								  : vec3_make(0.0, 5.0, 0.0) };
	moves_cut(&list, 0.0, 0.0, 20.0, 900.0);
	moves_still(&list, MOTION_END);
	return list;
}

static void expect(struct motion_list *list, const struct abilities *reads, const char *expected)
{
	const struct machine machine = { .decimals = 3, .reads = *reads };
	struct program_text text = { 0 };

	assert_int_equal(program_write(&text, list, NULL, &machine, NULL), FAULT_NONE);
	assert_string_equal(text.bytes, expected);
	program_text_free(&text);
	motion_list_free(list);
}

#define FLAT_START PREAMBLE "G0 X10.000 Y0.000 Z5.000\n"
#define FLAT_MOVES "G1 X8.000 Y6.000 F900.0\nG1 X6.000 Y8.000\nG1 X0.000 Y10.000\n"
#define FLAT_END "G1 Y0.000 Z20.000\nM2\n"

static void flat_arcs(void **state)
{
	(void)state;
	const struct abilities xy = { .arcs = ARCS_XY }, none = { .arcs = ARCS_NONE };
	struct motion_list list = quarter(PLANE_XY);

	expect(&list, &xy, FLAT_START "G3 X0.000 Y10.000 I-10.000 J0.000 F900.0\n" FLAT_END);
	list = quarter(PLANE_XY);
	list.item[1].arc.clockwise = true;
	expect(&list, &xy, FLAT_START "G2 X0.000 Y10.000 I-10.000 J0.000 F900.0\n" FLAT_END);
	list = quarter(PLANE_XY);
	expect(&list, &none, FLAT_START FLAT_MOVES FLAT_END);
}

#define UPRIGHT_START PREAMBLE "G0 X0.000 Y5.000 Z10.000\n"

static void upright_arcs(void **state)
{
	(void)state;
	const struct abilities both = { .arcs = ARCS_XY_XZ }, xy = { .arcs = ARCS_XY };
	struct motion_list list = quarter(PLANE_XZ);

	expect(&list, &both,
	       UPRIGHT_START "G18\nG3 X10.000 Z0.000 I0.000 K-10.000 F900.0\n"
			     "G1 X0.000 Y0.000 Z20.000\nM2\n");
	list = quarter(PLANE_XZ);
	expect(&list, &xy,
	       UPRIGHT_START "G1 X6.000 Z8.000 F900.0\nG1 X8.000 Z6.000\nG1 X10.000 Z0.000\n"
			     "G1 X0.000 Y0.000 Z20.000\nM2\n");
}

/* What cannot be an arc in this program is written move by move. */
static void falls_back(void **state)
{
	(void)state;
	const struct abilities narrow = { .arcs = ARCS_XY, .longest_line = 32 };
	const struct abilities xy = { .arcs = ARCS_XY };
	struct motion_list list = quarter(PLANE_XY);

	expect(&list, &narrow, FLAT_START FLAT_MOVES FLAT_END); /* 33 characters */
	list = quarter(PLANE_XY);
	list.item[1].arc.centre.x = 0.006; /* radii 9.994 and 10.000 */
	expect(&list, &xy, FLAT_START FLAT_MOVES FLAT_END);
	list = quarter(PLANE_XY);
	list.item[1].arc.moves = 9; /* more than there are */
	expect(&list, &xy, FLAT_START FLAT_MOVES FLAT_END);
	list = quarter(PLANE_XY);
	list.item[1].arc.centre.y = NAN;
	expect(&list, &xy, FLAT_START FLAT_MOVES FLAT_END);
}

/* Back in the flat plane it is stated again. */
static void plane_is_stated(void **state)
{
	(void)state;
	const struct abilities both = { .arcs = ARCS_XY_XZ };
	struct motion_list list = quarter(PLANE_XZ), more = quarter(PLANE_XY);

	list.count -= 2;
	for (size_t i = 0; i < more.count; i++)
		assert_int_equal(motion_list_add(&list, &more.item[i], NULL), FAULT_NONE);
	motion_list_free(&more);
	expect(&list, &both,
	       UPRIGHT_START "G18\nG3 X10.000 Z0.000 I0.000 K-10.000 F900.0\n"
			     "G0 Y0.000 Z5.000\n"
			     "G17\nG3 X0.000 Y10.000 I-10.000 J0.000\n" FLAT_END);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(flat_arcs),
		cmocka_unit_test(upright_arcs),
		cmocka_unit_test(falls_back),
		cmocka_unit_test(plane_is_stated),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
