/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/along.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"
#include "support/sample_result.h"

struct sample {
	struct job job;
	struct neck *neck;
	struct along along;
};

static int set_up(void **state)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	sample_job(&s->job);
	s->neck = sample_neck_built(&s->job.neck);
	assert_int_equal(along_make(&s->along, &s->job, s->neck, NULL), FAULT_NONE);
	*state = s;
	return 0;
}

static int tear_down(void **state)
{
	struct sample *s = *state;

	along_free(&s->along);
	along_free(NULL);
	neck_free(s->neck);
	free(s);
	return 0;
}

static double at(const struct along *along, enum along_line line, size_t i)
{
	return along->value_mm[line][i];
}

/* First place at x; fails when there is none. */
static size_t place_of(const struct along *along, double x_mm)
{
	for (size_t i = 0; i < along->count; i++)
		if (fabs(at(along, ALONG_X, i) - x_mm) < 1e-9)
			return i;
	fail_msg("no place at x = %g mm", x_mm);
	return 0;
}

static void places_never_fall_back_and_lie_close(void **state)
{
	struct sample *s = *state;
	const struct along *a = &s->along;

	assert_near(at(a, ALONG_X, 0), -75.0, 1e-9, "the blank's end toward the peghead, mm");
	/* fret 20 of 645.16 mm: L (1 - 2^(-20/12)) lies beyond the blank */
	assert_near(at(a, ALONG_X, a->count - 1), 645.16 * (1.0 - pow(2.0, -20.0 / 12.0)), 1e-6,
		    "the last fret, mm");
	for (size_t i = 1; i < a->count; i++)
		assert_between(at(a, ALONG_X, i) - at(a, ALONG_X, i - 1), 0.0, ALONG_STEP_MM,
			       "from one place to the next, mm");
}

static void every_corner_of_the_blank_is_a_place(void **state)
{
	struct sample *s = *state;
	const struct outline *top = &s->job.blank.top;

	for (size_t i = 0; i < top->count; i++)
		(void)place_of(&s->along, top->x_mm[i]);
}

/* The blank of the sample jumps from 26 to 90 mm at x = 285. */
static void a_step_has_both_its_sides(void **state)
{
	struct sample *s = *state;
	size_t i = place_of(&s->along, 285.0);

	assert_near(at(&s->along, ALONG_X, i + 1), 285.0, 1e-9, "the same place again, mm");
	assert_near(at(&s->along, ALONG_BLANK_TOP, i), 26.0, 1e-6, "before the step, mm");
	assert_near(at(&s->along, ALONG_BLANK_TOP, i + 1), 90.0, 1e-6, "behind the step, mm");
	assert_true(at(&s->along, ALONG_X, i + 2) > 285.0);
}

/* Lines are told only where they are, on both sides of where they begin. */
static void lines_begin_and_end_where_they_should(void **state)
{
	struct sample *s = *state;
	const struct along *a = &s->along;
	size_t start = place_of(a, neck_from_mm(s->neck)), end = place_of(a, neck_to_mm(s->neck));
	size_t nut = place_of(a, 0.0), channel = place_of(a, 340.0);

	assert_true(isnan(at(a, ALONG_CREST, start)));
	assert_true(isnan(at(a, ALONG_EDGE_PLUS, start)));
	assert_true(isfinite(at(a, ALONG_CREST, start + 1)));
	assert_true(isfinite(at(a, ALONG_BASE, end)));
	assert_true(isnan(at(a, ALONG_BASE, end + 1)));
	assert_true(isnan(at(a, ALONG_FRETBOARD_HALF, nut)));
	assert_near(at(a, ALONG_FRETBOARD_HALF, nut + 1), 43.7 / 2.0, 1e-5, "half a nut, mm");
	assert_near(at(a, ALONG_CHANNEL_FLOOR, channel), 10.0, 1e-9, "the channel's depth, mm");
	assert_true(isnan(at(a, ALONG_CHANNEL_FLOOR, channel + 1)));
	assert_true(isnan(at(a, ALONG_CHANNEL_FLOOR, place_of(a, 2.0))));
	assert_true(isnan(at(a, ALONG_BLANK_TOP, a->count - 1))); /* behind the blank */
	assert_true(isnan(at(a, ALONG_FRETBOARD_HALF, a->count - 1)));
}

/* Drawn straight from place to place, no line is further off than a thin pen
 * line: the crest and the edges, asked at places of the test's own. */
static void straight_between_places_is_near_enough(void **state)
{
	struct sample *s = *state;
	const struct along *a = &s->along;
	double worst_mm = 0.0;

	for (size_t i = 0; i + 1 < a->count; i++)
		for (int k = 1; k < 8; k++) {
			double from = at(a, ALONG_X, i), to = at(a, ALONG_X, i + 1);
			double share = k / 8.0, x = from + (to - from) * share;
			if (to - from < 1e-6 || isnan(at(a, ALONG_CREST, i)) ||
			    isnan(at(a, ALONG_CREST, i + 1)))
				continue;
			double crest = (1.0 - share) * at(a, ALONG_CREST, i) +
				       share * at(a, ALONG_CREST, i + 1);
			double edge = (1.0 - share) * at(a, ALONG_EDGE_MINUS, i) +
				      share * at(a, ALONG_EDGE_MINUS, i + 1);
			worst_mm = fmax(worst_mm, fabs(crest - neck_crest_mm(s->neck, x)));
			worst_mm =
				fmax(worst_mm, fabs(edge - neck_half_breadth_mm(s->neck, SIDE_MINUS,
										x, 0.0)));
		}
	print_message("largest departure %.4f mm\n", worst_mm);
	assert_between(worst_mm, 0.0, ALONG_HAIR_MM, "departure of a line between places, mm");
}

static void keys_are_different_and_end_in_the_unit(void **state)
{
	(void)state;
	for (int i = 0; i < ALONG_LINES; i++) {
		const char *key = along_key((enum along_line)i);
		assert_string_equal(key + strlen(key) - 3, "_mm");
		for (int k = 0; k < i; k++)
			assert_string_not_equal(key, along_key((enum along_line)k));
	}
}

static void without_a_channel_there_is_no_floor(void **state)
{
	struct job job;
	struct along along;

	(void)state;
	sample_job(&job);
	job.neck.channel = (struct channel_spec){ 0 };
	struct neck *neck = sample_neck_built(&job.neck);
	assert_int_equal(along_make(&along, &job, neck, NULL), FAULT_NONE);
	for (size_t i = 0; i < along.count; i++)
		assert_true(isnan(at(&along, ALONG_CHANNEL_FLOOR, i)));
	along_free(&along);
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(places_never_fall_back_and_lie_close),
		cmocka_unit_test(every_corner_of_the_blank_is_a_place),
		cmocka_unit_test(a_step_has_both_its_sides),
		cmocka_unit_test(lines_begin_and_end_where_they_should),
		cmocka_unit_test(straight_between_places_is_near_enough),
		cmocka_unit_test(keys_are_different_and_end_in_the_unit),
		cmocka_unit_test(without_a_channel_there_is_no_floor),
	};

	return cmocka_run_group_tests(tests, set_up, tear_down);
}
