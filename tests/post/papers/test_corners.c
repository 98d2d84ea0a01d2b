/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of numbered places, and the table of their figures. */
#include "papers/corners.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/rendered.h"
#include "support/scratch.h"

static void places_are_kept_in_order(void **state)
{
	struct corner list[4];
	size_t count = 0;

	(void)state;
	count = corners_add(list, count, "body", 300.0, 1.0);
	count = corners_add(list, count, "nut", 0.0, 2.0);
	count = corners_add(list, count, "heel", 250.0, 3.0);
	count = corners_add(list, count, "near the heel", 250.0 + 0.5 * CORNERS_NEAR_MM, 4.0);
	assert_int_equal(count, 3);
	assert_string_equal(list[0].name, "nut");
	assert_string_equal(list[1].name, "heel");
	assert_string_equal(list[2].name, "body");
	assert_near(list[1].across_mm, 3.0, 0.0, "its own figure, mm");
}

static void tables_take_the_room_they_say(void **state)
{
	const struct corner list[3] = { { "", 1.0, 2.0 }, { "", 3.0, 4.0 }, { "", 5.0, 6.0 } };
	struct corner_table table = { 3, list, 1, "height", 1 };

	(void)state;
	double one = corners_table_width_mm(&table), tall = corners_table_height_mm(&table);
	corners_table_fit(&table, 2.5 * one);
	assert_int_equal(table.blocks, 2);
	assert_true(corners_table_width_mm(&table) > 2.0 * one);
	assert_true(corners_table_height_mm(&table) < tall);
	corners_table_fit(&table, 1.5 * one);
	assert_int_equal(table.blocks, 1);
}

static void figures_are_told_in_mm_and_inches(void **state)
{
	const struct corner list[3] = { { "nut", 0.0, 43.7 },
					{ "heel", 306.49, 53.2 },
					{ "end", -83.0, NAN } };
	const struct corner_table table = { 3, list, 4, "width", 2 };
	static const char *const words[] = { "nut",
					     "heel",
					     "306.49",
					     "12.067",
					     "43.70",
					     "1.720",
					     "width",
					     "4",
					     "5",
					     "6",
					     "\xe2\x88\x92"
					     "83.00" };
	struct canvas canvas;
	char pdf[SCRATCH_ROOM];

	assert_int_equal(canvas_open_paper(&canvas, 210.0, 100.0, "Table", NULL), FAULT_NONE);
	corners_table(&canvas, 10.0, 10.0, &table);
	assert_int_equal(canvas_save(&canvas, scratch_path(pdf, *state, "table.pdf"), NULL),
			 FAULT_NONE);
	canvas_close(&canvas);
	char *text = rendered_tool(*state, "pdftotext", "-layout", pdf);
	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (!strstr(text, words[i]))
			fail_msg("\"%s\" is not told", words[i]);
	assert_null(strstr(text, "nan"));
	free(text);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(places_are_kept_in_order),
		cmocka_unit_test(tables_take_the_room_they_say),
		cmocka_unit_test_setup_teardown(figures_are_told_in_mm_and_inches, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
