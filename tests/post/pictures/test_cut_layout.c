/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where maps go: every pass has a place, none lies on another or off the sheet,
 * and what a pass touches is inside what its map shows. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pictures/cut_layout.h"
#include "pictures/pen.h"
#include "support/near.h"
#include "support/seed.h"

#define PASSES_MOST 80

struct sample {
	struct map_extent touched[PASSES_MOST];
	struct program_figures program[3];
	struct cut_passes passes;
};

static const struct map_extent blank = { -190.0, 358.0, -38.0, 38.0 };

static void make(struct sample *s, size_t first, size_t second, size_t third)
{
	s->program[0].pass_count = first;
	s->program[1].pass_count = second;
	s->program[2].pass_count = third;
	s->passes = (struct cut_passes){ 3, s->program, first + second + third, s->touched, blank };
}

static void touch(struct sample *s, size_t pass, double from, double to)
{
	s->touched[pass] = (struct map_extent){ from, to, -20.0, 20.0 };
}

/* Bottom of a map on paper. */
static double bottom_of(const struct cut_layout *l, const struct cut_place *place)
{
	return place->top_mm + cut_layout_caption_mm() +
	       (place->part.y_to_mm - place->part.y_from_mm) * l->scale;
}

static void check_places(const struct sample *s)
{
	struct cut_layout l = cut_layout_of(&s->passes);
	struct cut_cursor at = cut_layout_start();
	struct cut_place place, before = { 0 };
	double heading;
	size_t count = 0, headings = 0;

	while (cut_layout_next(&l, &s->passes, &at, &place, &heading)) {
		double width = (place.part.x_to_mm - place.part.x_from_mm) * l.scale;
		headings += isnan(heading) ? 0 : 1;
		assert_true(place.left_mm >= CANVAS_MARGIN_MM - 1e-9);
		assert_true(place.left_mm + width <= CANVAS_WIDTH_MM - CANVAS_MARGIN_MM + 0.02);
		assert_true(bottom_of(&l, &place) < l.height_mm - PEN_FOOT_HEIGHT_MM);
		const struct map_extent *t = &s->touched[count];
		if (!map_extent_is_none(t)) {
			assert_true(place.part.x_from_mm <= t->x_from_mm);
			assert_true(place.part.x_to_mm >= t->x_to_mm);
		}
		if (count > 0 && place.top_mm == before.top_mm)
			assert_true(place.left_mm >= before.left_mm + 30.0);
		else if (count > 0)
			assert_true(place.top_mm > bottom_of(&l, &before));
		before = place;
		count++;
	}
	assert_int_equal(count, s->passes.cut_count);
	size_t programs = 0;
	for (size_t p = 0; p < 3; p++)
		programs += s->program[p].pass_count > 0;
	assert_int_equal(headings, programs);
}

static void every_pass_has_its_place(void **state)
{
	(void)state;
	static struct sample s;
	gsl_rng *rng = seed_rng("places of maps");

	for (unsigned long round = 0; round < 300; round++) {
		seed_nth(rng, round);
		make(&s, seed_whole(rng, 0, 40), seed_whole(rng, 0, 3), seed_whole(rng, 0, 20));
		for (size_t i = 0; i < s.passes.cut_count; i++) {
			double a = seed_between(rng, -180.0, 300.0);
			touch(&s, i, a, a + seed_between(rng, 1.0, 350.0 - a));
			if (seed_whole(rng, 0, 8) == 0)
				s.touched[i] = map_extent_none();
		}
		check_places(&s);
	}
	gsl_rng_free(rng);
}

/* Passes on the heel alone share one part, so that they can be compared, and
 * leave the room to the others. */
static void short_passes_share_a_part(void **state)
{
	(void)state;
	static struct sample s;
	struct cut_cursor at = cut_layout_start();
	struct cut_place place[4];
	double heading;

	make(&s, 4, 0, 0);
	touch(&s, 0, 300.0, 350.0);
	touch(&s, 1, 320.0, 357.0);
	touch(&s, 2, -50.0, 357.0);
	touch(&s, 3, -40.0, 300.0);
	struct cut_layout l = cut_layout_of(&s.passes);
	assert_near(l.common.x_from_mm, -56.0, 1e-9, "what all passes touch and air, mm");
	assert_near(l.common.x_to_mm, 358.0, 1e-9, "no further than the blank, mm");
	for (int i = 0; i < 4; i++)
		assert_true(cut_layout_next(&l, &s.passes, &at, &place[i], &heading));
	assert_false(place[0].whole || place[1].whole);
	assert_true(place[2].whole && place[3].whole);
	assert_near(place[0].part.x_from_mm, 290.0, 1e-9, "the part begins on a ten, mm");
	assert_near(place[1].part.x_from_mm, 290.0, 1e-9, "and is the other's too, mm");
	assert_near(place[0].top_mm, place[1].top_mm, 1e-9, "both in one row, mm");
}

/* A sheet grows no taller than an upright A4 page as long as there is a choice. */
static void columns_grow_with_the_passes(void **state)
{
	(void)state;
	static struct sample s;
	int before = 1;

	for (size_t n = 1; n <= PASSES_MOST; n++) {
		make(&s, n, 0, 0);
		for (size_t i = 0; i < n; i++)
			touch(&s, i, -55.0, 358.0);
		struct cut_layout l = cut_layout_of(&s.passes);
		assert_true(l.columns >= before && l.columns <= 4);
		assert_true(l.height_mm <= CUT_LAYOUT_HEIGHT_MM || l.columns == 4);
		before = l.columns;
	}
	assert_int_equal(before, 4);
}

static void no_pass_needs_no_place(void **state)
{
	(void)state;
	const struct cut_passes none = { .blank = map_extent_none() };
	struct cut_layout l = cut_layout_of(&none);
	struct cut_cursor at = cut_layout_start();
	struct cut_place place;
	double heading;

	assert_false(cut_layout_next(&l, &none, &at, &place, &heading));
	assert_between(l.height_mm, 40.0, 80.0, "height of an empty sheet, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_pass_has_its_place),
		cmocka_unit_test(short_passes_share_a_part),
		cmocka_unit_test(columns_grow_with_the_passes),
		cmocka_unit_test(no_pass_needs_no_place),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
