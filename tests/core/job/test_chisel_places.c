/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Joined columns, drawn as letters. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "job/chisel_places.h"
#include "support/near.h"

#define NX 12
#define NY 6

/* y grows downward here: n is the nose, p and m the cheeks at +y and -y. */
static const char drawn[NY][NX + 1] = {
	"mm......nn..", /* */
	"mm.....nn...", /* joined by its corner */
	".....n......", /* too far from the others */
	"..pp........", /* */
	"..pppnn.....", /* touches another zone */
	"p...........", /* a speck */
};

static void places_are_joined_and_measured(void **state)
{
	(void)state;
	struct chisel_column column[NX * NY] = { 0 };
	struct chisel chisel = { .map = { NX, NY, 100.0, -2.0, 2.0, NULL } };

	for (size_t i = 0; i < NX * NY; i++) {
		char letter = drawn[i / NX][i % NX];
		column[i] = (struct chisel_column){
			.left = letter != '.',
			.zone = letter == 'n' ? ZONE_TRANSITIONS : ZONE_HEEL_CHEEKS,
			.side = letter == 'p'	? 1
				: letter == 'm' ? -1
						: 0,
			.area_mm2 = letter == '.' ? 0.0 : 4.0,
			.over_finished_mm = 3.0,
			.over_allowance_mm = 2.0,
			.thick_mm = i == 4 * NX + 3 ? 7.5 : 1.0,
		};
	}
	column[5 * NX].area_mm2 = 0.5;
	assert_int_equal(chisel_places_find(&chisel, column, NULL), FAULT_NONE);
	/* p of 5, m of 4, n of 4, n of 2, n of 1; the speck is left out */
	assert_int_equal(chisel.place_count, 5);
	const struct chisel_place *p = &chisel.place[0];
	assert_int_equal(p->zone, ZONE_HEEL_CHEEKS);
	assert_int_equal(p->side, 1);
	assert_near(p->area_mm2, 20.0, 1e-9, "five columns, mm2");
	assert_near(p->over_finished_mm3, 60.0, 1e-9, "mm3");
	assert_near(p->over_allowance_mm3, 40.0, 1e-9, "mm3");
	assert_near(p->x_from_mm, 103.0, 1e-9, "from, mm");
	assert_near(p->x_to_mm, 109.0, 1e-9, "to, mm");
	assert_near(p->y_from_mm, 3.0, 1e-9, "from, mm");
	assert_near(p->y_to_mm, 7.0, 1e-9, "to, mm");
	assert_near(p->thickest_mm, 7.5, 1e-9, "thickest, mm");
	assert_near(p->thickest_x_mm, 106.0, 1e-9, "where, mm");
	assert_near(p->thickest_y_mm, 6.0, 1e-9, "where, mm");
	assert_int_equal(chisel.place[1].side, -1);
	assert_near(chisel.place[2].area_mm2, 16.0, 1e-9, "over a corner, mm2");
	assert_near(chisel.place[4].area_mm2, 4.0, 1e-9, "one column, mm2");
	free(chisel.place);
}

static void nothing_left_is_no_place(void **state)
{
	(void)state;
	struct chisel_column column[NX * NY] = { 0 };
	struct chisel chisel = { .map = { NX, NY, 0.0, 0.0, 1.0, NULL } };

	assert_int_equal(chisel_places_find(&chisel, column, NULL), FAULT_NONE);
	assert_int_equal(chisel.place_count, 0);
	free(chisel.place);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(places_are_joined_and_measured),
		cmocka_unit_test(nothing_left_is_no_place),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
