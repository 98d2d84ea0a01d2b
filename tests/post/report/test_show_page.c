/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/show_page.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/sample_result.h"
#include "support/sampled.h"
#include "support/scratch.h"
#include "support/terminal_text.h"

#define MARGIN 8

struct sample {
	struct sampled *of;
	struct show_page page;
};

/* Two programs: three passes and the last one. */
static int set_up(void **state)
{
	struct sample *sample = calloc(1, sizeof *sample);

	assert_non_null(sample);
	sample->of = sampled_make(2.0, 4);
	sample->page = (struct show_page){ .job = &sample->of->job,
					   .neck = sample->of->neck,
					   .result = &sample->of->result,
					   .passes_known = true,
					   .columns = 80 };
	*state = sample;
	return 0;
}

static int tear_down(void **state)
{
	struct sample *sample = *state;

	sampled_drop(sample->of);
	free(sample);
	return 0;
}

static char *printed(const struct sample *sample)
{
	FILE *out = tmpfile();

	assert_non_null(out);
	assert_int_equal(show_page_print(out, &sample->page, NULL), FAULT_NONE);
	return scratch_text(out);
}

static void clear_cuts(struct sample *sample)
{
	for (size_t i = 0; i < sample->of->result.cut_count; i++) {
		struct column_map *cut = &sample->of->result.cut[i];
		memset(cut->value, 0, cut->nx * cut->ny * sizeof *cut->value);
	}
}

/* Pass `pass`, from 0, cuts this deep over all of x 100..120, y 10..16. */
static void cut_patch(struct sample *sample, size_t pass, float depth_mm)
{
	struct column_map *cut = &sample->of->result.cut[pass];

	for (size_t i = 0; i < cut->nx * cut->ny; i++) {
		double x = cut->x0_mm + (double)(i % cut->nx) * cut->cell_mm;
		double y = cut->y0_mm + (double)(i / cut->nx) * cut->cell_mm;
		if (x > 100.0 && x < 120.0 && y > 10.0 && y < 16.0)
			cut->value[i] = depth_mm;
	}
}

/* Of the map's lines alone: how often a letter stands there. */
static size_t count_cells(const char *text, char letter)
{
	const char *at = strstr(text, "\nbass ");
	size_t found = 0;

	assert_non_null(at);
	for (at++; strncmp(at, "y, mm", 5) != 0; at = strchr(at, '\n') + 1)
		for (size_t i = MARGIN; i < strcspn(at, "\n"); i++)
			found += at[i] == letter;
	return found;
}

static void a_pass_shows_its_own_cut(void **state)
{
	struct sample *sample = *state;

	clear_cuts(sample);
	cut_patch(sample, 1, 4.0F);
	sample->of->result.program[0].pass[1] = (struct pass_figures){ .kind = PASS_LEVEL,
								       .level_mm = 33.333,
								       .deepest_bite_mm = 3.5,
								       .volume_mm3 = 480.0,
								       .minutes = 2.25 };
	sample->page.pass = 2;
	char *text = printed(sample);
	assert_non_null(strstr(text, "\nCUT DEPTH  pass 2 of 4, level lines\n"));
	assert_non_null(
		strstr(text, "  Level Z 33.33 mm, deepest bite 3.50 mm, 0.48 cm3 of wood, "));
	assert_true(count_cells(text, '#') > 0);
	free(text);
	sample->page.pass = 3;
	text = printed(sample);
	assert_non_null(strstr(text, "\n  Nothing is cut.\n"));
	assert_null(strstr(text, "\nbass "));
	free(text);
}

/* 3 and 5 mm at one place are 8 mm there. */
static void all_passes_add_up(void **state)
{
	struct sample *sample = *state;

	clear_cuts(sample);
	cut_patch(sample, 0, 3.0F);
	cut_patch(sample, 3, 5.0F);
	char *text = printed(sample);
	assert_non_null(strstr(text, "\nCUT DEPTH  all 4 passes together\n"));
	assert_non_null(strstr(text, "  . left alone  : 0 to 1  + to 2  X to 4  # to 8 mm\n"));
	assert_true(count_cells(text, '#') > 0);
	assert_int_equal(count_cells(text, 'X'), 0);
	assert_non_null(strstr(text, "--pass N"));
	free(text);
}

static void programs_without_passes_are_shown_one_by_one(void **state)
{
	struct sample *sample = *state;

	clear_cuts(sample);
	cut_patch(sample, 2, 1.0F);
	cut_patch(sample, 3, 5.0F);
	sample->page.passes_known = false;
	char *text = printed(sample);
	const char *second = strstr(text, "\nCUT DEPTH  program 2-small-ball.ngc\n");
	assert_non_null(strstr(text, "\nCUT DEPTH  program 1-roughing.ngc\n"));
	assert_non_null(second);
	assert_non_null(strstr(text, "# to 1 mm\n"));
	assert_non_null(strstr(second, "# to 5 mm\n"));
	assert_true(count_cells(text, '#') > 0);
	assert_int_equal(count_cells(text, '#'), count_cells(second, '#'));
	assert_null(strstr(text, "--pass"));
	free(text);
}

static void stock_shows_what_is_left(void **state)
{
	struct sample *sample = *state;

	sample->page.stock = true;
	char *text = printed(sample);
	/* half the largest allowance, 1 mm, a shade */
	assert_non_null(strstr(text, "  . none  : 0 to 0.5  + to 1  X to 1.5  # over 1.5 mm\n"));
	assert_non_null(strstr(text, "  heel_cheeks "));
	assert_true(count_cells(text, 'X') > 0);
	assert_int_equal(count_cells(text, '.'), 0);
	free(text);
	sample_result_dent(&sample->of->result, 150.0, 0.0, 8.0, 5.0);
	text = printed(sample);
	assert_true(count_cells(text, '.') > 0);
	free(text);
}

/* The treble side is up on a left-handed neck. */
static void sides_follow_the_hand(void **state)
{
	struct sample *sample = *state;

	sample->of->job.neck.hand = HAND_LEFT;
	char *text = printed(sample);
	const char *treble = strstr(text, "\ntreble "), *bass = strstr(text, "\nbass ");
	assert_true(treble && bass && treble < bass);
	free(text);
}

static void what_is_not_proven_is_said_first(void **state)
{
	struct sample *sample = *state;
	struct verdict *verdict = &sample->of->result.verdict;

	verdict->proven = false;
	verdict->promise[PROMISE_BITE] = (struct promise_result){ .judged = true, .block = 7 };
	(void)snprintf(verdict->promise[PROMISE_BITE].why,
		       sizeof verdict->promise[PROMISE_BITE].why, "A bite of 9.000 mm.");
	char *text = printed(sample);
	assert_memory_equal(text, "NOT PROVEN: do not run it.\n", 27);
	assert_non_null(strstr(text, "A bite of 9.000 mm."));
	free(text);
}

static void a_pass_that_is_not_there_is_told(void **state)
{
	struct sample *sample = *state;
	struct fault_list faults = { 0 };
	FILE *out = tmpfile();

	assert_non_null(out);
	sample->page.pass = 5;
	assert_int_equal(show_page_print(out, &sample->page, &faults), FAULT_USAGE);
	assert_string_equal(faults.record[0].message,
			    "There is no pass 5; the passes are numbered from 1 to 4.");
	char *text = scratch_text(out);
	assert_string_equal(text, "");
	free(text);
}

/* The zones' table is 60 wide; all else keeps to any width. */
static void long_names_many_stations_and_large_figures_fit(void **state)
{
	struct sample *sample = *state;
	struct neck_spec *spec = &sample->of->job.neck;

	memset(spec->name, 'N', sizeof spec->name - 1);
	memset(sample->of->result.program[0].file, 'f',
	       sizeof sample->of->result.program[0].file - 1);
	for (spec->station_count = 0; spec->station_count < NECK_STATIONS_MAX;
	     spec->station_count++)
		spec->station[spec->station_count] =
			(struct station_spec){ .fret = (double)spec->station_count / 2.0 + 0.123456,
					       .thickness_mm = 20.0 };
	for (size_t i = 0; i < sample->of->result.program[0].pass_count; i++)
		sample->of->result.program[0].pass[i].volume_mm3 = 1e300;
	for (int columns = 40; columns <= 400; columns += 20)
		for (int kind = 0; kind < 4; kind++) {
			sample->page.columns = columns;
			sample->page.pass = kind == 1;
			sample->page.passes_known = kind < 2;
			sample->page.stock = kind == 3;
			sample->page.utf8 = kind % 2;
			sample->page.colour = kind / 2;
			char *text = printed(sample);
			assert_within_columns(text, kind == 3 && columns < 60 ? 60 : columns);
			free(text);
		}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define WITH_SAMPLE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
		WITH_SAMPLE(a_pass_shows_its_own_cut),
		WITH_SAMPLE(all_passes_add_up),
		WITH_SAMPLE(programs_without_passes_are_shown_one_by_one),
		WITH_SAMPLE(stock_shows_what_is_left),
		WITH_SAMPLE(sides_follow_the_hand),
		WITH_SAMPLE(what_is_not_proven_is_said_first),
		WITH_SAMPLE(a_pass_that_is_not_there_is_told),
		WITH_SAMPLE(long_names_many_stations_and_large_figures_fit),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
