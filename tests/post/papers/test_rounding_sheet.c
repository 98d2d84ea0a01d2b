/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The facet lines, read off the PDF and compared with model/rounding.h. */
#include "bench_sample.h"

#include <math.h>

#include "model/rounding.h"
#include "papers/rounding_sheet.h"
#include "support/near.h"

/* The stock on the two sides, so that a mix-up shows. */
static void set_stock(struct column_map *map, float minus, float plus)
{
	for (size_t i = 0; i < map->nx * map->ny; i++) {
		double y = map->y0_mm + (double)(i / map->nx) * map->cell_mm;
		if (!isnan(map->value[i]))
			map->value[i] = y < 0.0 ? minus : plus;
	}
}

static void facet_words(char *out, size_t room, const struct rounding_facet *f, double stock)
{
	if (f->none)
		(void)snprintf(out, room, "none");
	else
		(void)snprintf(out, room, "%.2f %.3f %.2f %.2f %.2f", f->mark_mm, f->mark_mm / 25.4,
			       f->width_mm, f->depth_mm, stock);
}

static void check_place(const char *text, const struct neck *neck, double x)
{
	static const char *const names[ROUNDING_FACETS] = {
		"3rd, 11.25\xc2\xb0", "2nd, 22.5\xc2\xb0", "3rd, 33.75\xc2\xb0", "1st, 45\xc2\xb0",
		"3rd, 56.25\xc2\xb0", "2nd, 67.5\xc2\xb0", "3rd, 78.75\xc2\xb0"
	};
	struct rounding side[SIDE_COUNT];
	char words[240], minus[100], plus[100];

	assert_int_equal(rounding_at(side, neck, x, NULL), FAULT_NONE);
	for (int i = 0; i < ROUNDING_FACETS; i++) {
		facet_words(minus, sizeof minus, &side[SIDE_MINUS].facet[i], 1.37);
		facet_words(plus, sizeof plus, &side[SIDE_PLUS].facet[i], 0.81);
		(void)snprintf(words, sizeof words, "%s %s %s", names[i], minus, plus);
		assert_has(text, words);
	}
	(void)snprintf(words, sizeof words, "centre to 1st, mm %.2f %.2f",
		       side[SIDE_MINUS].facet[3].high.y_mm, side[SIDE_PLUS].facet[3].high.y_mm);
	assert_has(text, words);
	(void)snprintf(words, sizeof words, "face to 1st, mm %.2f %.2f",
		       side[SIDE_MINUS].facet[3].low.z_mm, side[SIDE_PLUS].facet[3].low.z_mm);
	assert_has(text, words);
	(void)snprintf(words, sizeof words, "left after 3rd, mm %.2f %.2f",
		       side[SIDE_MINUS].left_mm[3], side[SIDE_PLUS].left_mm[3]);
	assert_has(text, words);
}

static void figures_are_those_of_the_facets(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;

	/* Uneven sides: a ridge on one, a flat on the other. */
	for (size_t i = 0; i < job.neck.station_count; i++) {
		job.neck.station[i].bass = (struct section_spec){ .family = SECTION_V };
		job.neck.station[i].treble = (struct section_spec){ .family = SECTION_D };
	}
	for (int hand = HAND_RIGHT; hand <= HAND_LEFT; hand++) {
		job.neck.hand = (enum neck_hand)hand;
		bench_sample_make(&sample, &job);
		set_stock(&sample.result.stock, 1.37f, 0.81f);
		char *text = bench_text(&sample, *state, PAPER_A4, false, rounding_sheet_draw);
		for (size_t i = 0; i < 5; i++)
			check_place(text, sample.neck, sample.result.station[i].x_mm);
		assert_has(text, "router left all, mm 1.37 to 1.37 0.81 to 0.81");
		assert_has(text, hand == HAND_RIGHT ? "mark and check treble bass"
						    : "mark and check bass treble");
		assert_has(text, "none");
		free(text);
		bench_sample_free(&sample);
	}
}

static void every_place_has_its_block_on_its_page(void **state)
{
	struct bench_sample sample;
	char pdf[SCRATCH_ROOM];

	bench_full_sample_make(&sample);
	for (int size = 0; size < PAPER_COUNT; size++) {
		char *text = bench_text(&sample, *state, (enum paper_size)size, false,
					rounding_sheet_draw);
		size_t blocks = 0, tables = 0;
		for (const char *at = text; (at = strstr(at, " mm high, drawn ")); at++)
			blocks++;
		for (const char *at = text; (at = strstr(at, "1st, 45")); at++)
			tables++;
		assert_true(blocks >= NECK_STATIONS_MAX);
		assert_int_equal(blocks, tables);
		assert_within_page(*state, scratch_path(pdf, *state, "sheet.pdf"), 3,
				   paper_of((enum paper_size)size)->margin_mm);
		free(text);
	}
	bench_sample_free(&sample);
}

/* On the first page the nut's section is drawn at the stated scale: its wood is
 * as wide on paper as the neck. */
static void the_section_is_drawn_to_its_scale(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	struct rendered page;
	char pdf[SCRATCH_ROOM];
	double scale = 0.0, widest = 0.0;

	bench_sample_make(&sample, &job);
	char *text = bench_text(&sample, *state, PAPER_A4, false, rounding_sheet_draw);
	const char *at = strstr(text, "mm high, drawn ");
	assert_non_null(at);
	assert_int_equal(sscanf(at, "mm high, drawn %lf to 1", &scale), 1);
	rendered_page(&page, *state, scratch_path(pdf, *state, "sheet.pdf"), 1);
	/* the longest stroke of ink that begins and ends left of the small table and
	 * is no rule of the large one is the gluing face */
	int left = (int)(12.0 * RENDERED_PIXELS_PER_MM);
	int right = (int)(126.0 * RENDERED_PIXELS_PER_MM);
	for (int y = 0; y < page.height; y++) {
		if (rendered_ink(&page, left, y) > 0.2)
			continue;
		for (int x = left, run = 0; x < right; x++) {
			run = rendered_ink(&page, x, y) > 0.8 ? run + 1 : 0;
			widest = fmax(widest, run / RENDERED_PIXELS_PER_MM);
		}
	}
	double width = 2.0 * neck_half_breadth_mm(sample.neck, SIDE_PLUS, 0.0, 0.0);
	/* a finished line is 0.5 mm wide and has round ends */
	assert_near(widest, width * scale + 0.5, 0.25, "gluing face on paper, mm");
	rendered_free(&page);
	free(text);
	bench_sample_free(&sample);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(figures_are_those_of_the_facets, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(every_place_has_its_block_on_its_page, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(the_section_is_drawn_to_its_scale, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
