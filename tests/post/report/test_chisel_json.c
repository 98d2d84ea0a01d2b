/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is left for the chisel, in job.json, in the table and in words. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "report/chisel_json.h"
#include "report/table.h"
#include "report/words.h"
#include "support/near.h"
#include "support/sample_result.h"
#include "support/sampled.h"
#include "support/scratch.h"

static int set_up(void **state)
{
	struct sampled *sampled = sampled_make(1.0, 4);

	sample_result_chisel(&sampled->result, &sampled->job);
	*state = sampled;
	return 0;
}

static int tear_down(void **state)
{
	sampled_drop(*state);
	return 0;
}

static double number(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);

	assert_true(json_is_number(value));
	return json_number_value(value);
}

/* The rows tell the map again: every column is in one stretch, and none else. */
static void rows_are_the_map(void **state)
{
	const struct sampled *s = *state;
	const struct column_map *map = &s->result.chisel.map;
	json_t *rows = chisel_rows_json(&s->result.chisel), *row, *stretch;
	double area = 0.0;
	size_t r, k, left = 0;

	assert_non_null(rows);
	json_array_foreach(rows, r, row)
	{
		size_t iy = (size_t)lround((number(row, "y_mm") - map->y0_mm) / map->cell_mm);
		json_array_foreach(json_object_get(row, "x_mm"), k, stretch)
		{
			double from = json_number_value(json_array_get(stretch, 0));
			double to = json_number_value(json_array_get(stretch, 1));
			area += (to - from) * map->cell_mm;
			for (double x = from + map->cell_mm / 2.0; x < to; x += map->cell_mm) {
				size_t ix = (size_t)lround((x - map->x0_mm) / map->cell_mm);
				assert_true(isfinite(map->value[iy * map->nx + ix]));
			}
		}
	}
	for (size_t i = 0; i < map->nx * map->ny; i++)
		left += isfinite(map->value[i]) ? 1 : 0;
	assert_true(left > 100);
	assert_near(area, (double)left * map->cell_mm * map->cell_mm, 1e-6, "area, mm2");
	json_decref(rows);
}

static void places_and_stickouts(void **state)
{
	struct sampled *s = *state;
	json_t *left = chisel_json(&s->job, &s->result.chisel);
	json_t *stickouts = stickouts_json(&s->job, &s->result);
	const json_t *first = json_array_get(json_object_get(left, "places"), 0);
	const json_t *second = json_array_get(json_object_get(left, "places"), 1);

	/* right-handed: +y is the bass side */
	assert_string_equal(json_string_value(json_object_get(first, "side")), "treble");
	assert_string_equal(json_string_value(json_object_get(second, "side")), "bass");
	assert_string_equal(json_string_value(json_object_get(second, "name")),
			    "heel cheek, bass side");
	assert_string_equal(json_string_value(json_object_get(second, "zone")), "heel_cheeks");
	assert_near(number(second, "thickest_mm"), 5.25, 1e-9, "mm");
	assert_near(number(left, "over_finished_mm3"), 5.0 * number(left, "area_mm2"), 0.2, "mm3");
	const json_t *stickout = json_array_get(stickouts, 0);
	assert_near(number(stickout, "finishes_mm"), number(stickout, "stickout_mm") + 30.0, 1e-9,
		    "mm");
	assert_true(json_is_null(json_object_get(stickout, "longest_mm")));
	json_decref(left);
	json_decref(stickouts);
}

/* Nothing left: no rows, no places, no sentence. */
static void nothing_left(void **state)
{
	struct sampled *plain = sampled_make(2.0, 4);
	char text[WORDS_STICKOUT_ROOM];
	json_t *left = chisel_json(&plain->job, &plain->result.chisel);

	(void)state;
	assert_int_equal(json_array_size(json_object_get(left, "rows")), 0);
	assert_int_equal(json_array_size(json_object_get(left, "places")), 0);
	words_stickout(text, &plain->job, &plain->result);
	assert_string_equal(text, "");
	json_decref(left);
	sampled_drop(plain);
}

static void assert_words(const struct sampled *s, const char *part)
{
	char text[WORDS_STICKOUT_ROOM];

	words_stickout(text, &s->job, &s->result);
	if (!strstr(text, part))
		fail_msg("\"%s\" is not in: %s", part, text);
}

static void sentences_about_stickout(void **state)
{
	struct sampled *s = *state;
	struct stickout_figures *figures = &s->result.stickout[0];

	*figures = (struct stickout_figures){ 50.0, 86.0, NAN };
	assert_words(s, "With 86 mm of stickout instead of 50 mm the cutter \"");
	assert_words(s, "not known: state machine.z_gap.");
	figures->longest_mm = 78.04;
	assert_words(s, "But this machine can lift and change cutters that stick out 78 mm at "
			"most.");
	figures->longest_mm = 86.0;
	assert_words(s, " The machine can lift and change cutters that stick out up to 86 mm.");
	figures->finishes_mm = NAN;
	assert_words(s, "a shank is in the way");
}

static void table_lists_the_places(void **state)
{
	struct sampled *s = *state;
	FILE *out = tmpfile();

	assert_non_null(out);
	assert_int_equal(table_print(out, &s->job, &s->result, false, NULL), FAULT_NONE);
	char *text = scratch_text(out);
	const char *part = strstr(text, "LEFT FOR THE CHISEL");
	assert_non_null(part);
	assert_non_null(strstr(part, "heel cheek, treble side"));
	assert_non_null(strstr(part, "  -24.0 -12.0   5.2"));
	for (const char *line = text; *line; line += strcspn(line, "\n") + 1)
		assert_true(strcspn(line, "\n") <= 80);
	free(text);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(rows_are_the_map, set_up, tear_down),
		cmocka_unit_test_setup_teardown(places_and_stickouts, set_up, tear_down),
		cmocka_unit_test(nothing_left),
		cmocka_unit_test_setup_teardown(sentences_about_stickout, set_up, tear_down),
		cmocka_unit_test_setup_teardown(table_lists_the_places, set_up, tear_down),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
