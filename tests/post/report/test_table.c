/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/table.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/sampled.h"
#include "support/scratch.h"
#include "support/terminal_text.h"

#define WIDEST 80

static char *table_of(const struct sampled *sample, bool colour)
{
	FILE *out = tmpfile();

	assert_non_null(out);
	assert_int_equal(table_print(out, &sample->job, &sample->result, colour, NULL), FAULT_NONE);
	return scratch_text(out);
}

static void figures_stand_in_their_columns(void **state)
{
	struct sampled *sample = *state;
	struct job_result *result = &sample->result;

	result->program[1].pass[0] = (struct pass_figures){ PASS_SURFACE,
							    2.5,
							    1.234,
							    45678.0,
							    98765.4,
							    120.0,
							    41.16,
							    2400.0,
							    FEED_BY_POWER,
							    { .stepover_mm = 1.854,
							      .step_cap = STEP_BY_SCALLOP,
							      .scallop_limit_mm = 0.08,
							      .lengthwise = true,
							      .ways = 1U << CUT_CLIMB } };
	result->program[1].cutting_length_mm = 98765.4;
	result->program[1].minutes = 43.21;
	free(result->station[1].centre.standing_mm);
	result->station[1] = (struct station_figures){ .fret = 1.0,
						       .x_mm = 36.21,
						       .blank_mm = 32.0,
						       .roughed_mm = 22.0,
						       .finished_mm = 21.0 };
	result->zone[ZONE_HEEL_CHEEKS] = (struct zone_figures){ 0.6, 0.591, 0.742, 0.655, 10291.0 };
	char *text = table_of(sample, false);
	assert_line(text,
		    "  no  kind             level  depth  apart    feed  length     time   volume");
	assert_line(
		text,
		"   1  surface lines     2.50   1.23   1.85    2400   98.77     41.2    45.68 p");
	assert_line(
		text,
		"      why 1: Surface lines, lengthwise climb; 1.85 mm apart keep ridges under");
	assert_line(text, "          0.08 mm.");
	assert_line(text, "      p: feed held back by spindle power");
	assert_null(strstr(text, "axis feed limit"));
	assert_line(text,
		    "      whole program        -      -      -       -   98.77     43.2    45.68");
	assert_line(text,
		    "  1          36.21   32.00    22.00  0.866    21.00  0.827     1.00  0.039");
	assert_line(text, "  heel_cheeks     0.600    0.591    0.742    0.655    102.9");
	assert_line(text, "  left for the chisel     1.84 cm3");
	assert_line(text, "  proven: 16 of 16 promises kept.");
	assert_line(
		text,
		"  Top and sides of the blank lie exactly on their outlines; volumes are those of");
	assert_non_null(strstr(text, "of wood and fretboard together"));
	assert_non_null(strstr(text, "\n  nut "));
	assert_non_null(strstr(text, "\n  13.5 "));
	assert_non_null(strstr(text, "1-roughing.ngc"));
	assert_within_columns(text, WIDEST);
	free(text);
	sample->job.neck.over_fretboard = false;
	text = table_of(sample, false);
	assert_non_null(strstr(text, "THICKNESS  of the wood\n"));
	free(text);
}

static void a_broken_promise_is_told_with_its_place(void **state)
{
	struct sampled *sample = *state;
	struct verdict *verdict = &sample->result.verdict;

	verdict->proven = false;
	verdict->promise[PROMISE_RAPID] = (struct promise_result){
		.judged = true,
		.worst = -1.25,
		.limit = 0.2,
		.program = 1,
		.block = 815,
		.why = "A rapid passes 1.250 mm below the top of wood that "
		       "no pass before it has taken away."
	};
	verdict->promise[PROMISE_LOOSE].judged = false;
	char *text = table_of(sample, false);
	assert_non_null(strstr(text, "\n  broken  "));
	assert_non_null(strstr(text, "2-small-ball.ngc,"));
	assert_non_null(strstr(text, "815"));
	assert_non_null(strstr(text, "-1.25"));
	assert_line(text, "  NOT PROVEN: 14 of 16 promises kept, 1 not judged. Do not run it.");
	assert_within_columns(text, WIDEST);
	free(text);
}

static void colour_is_asked_for_and_says_nothing_alone(void **state)
{
	char *plain = table_of(*state, false), *colour = table_of(*state, true);

	assert_null(strchr(plain, '\033'));
	assert_non_null(strstr(colour, "\033[32m  proven\033[0m"));
	terminal_text_plain(colour);
	assert_string_equal(colour, plain);
	free(plain);
	free(colour);
}

static void feeds_held_back_are_marked(void **state)
{
	struct sampled *sample = *state;

	sample->result.program[0].pass[0].feed_cap = FEED_BY_WORD;
	char *text = table_of(sample, false);
	assert_non_null(strstr(text, " w\n"));
	assert_non_null(strstr(text, "w: feed held back by largest feed the control reads\n"));
	free(text);
}

static void odd_figures_and_names_stay_within_the_columns(void **state)
{
	struct sampled *sample = *state;
	static const double odd[] = { NAN, INFINITY, -INFINITY, 1e300, -1e300, 1e7, -123456.789 };

	memset(sample->job.neck.name, 'N', sizeof sample->job.neck.name - 1);
	sample->job.neck.name[3] = '\033';
	memset(sample->result.program[0].file, 'f', sizeof sample->result.program[0].file - 1);
	for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
		double x = odd[i];
		sample->result.program[0].blocks = 2147483647;
		sample->result.program[0].ball_diameter_mm = 123456.789;
		sample->result.program[0].pass[0] =
			(struct pass_figures){ PASS_LEVEL,
					       x,
					       x,
					       x,
					       x,
					       x,
					       x,
					       x,
					       FEED_BY_AXIS,
					       { .stepover_mm = x,
						 .drop_mm = x,
						 .step_cap = STEP_BY_DEPTH,
						 .level_cap = LEVEL_BY_DEPTH,
						 .lengthwise = true,
						 .crosswise = true,
						 .leftovers = true,
						 .ways = 7,
						 .downhill = 15 } };
		free(sample->result.station[0].centre.standing_mm);
		sample->result.station[0] = (struct station_figures){ .fret = 0.123456789,
								      .x_mm = x,
								      .blank_mm = x,
								      .roughed_mm = x,
								      .finished_mm = x,
								      .width_mm = x,
								      .wood_over_channel_mm = x };
		sample->result.zone[0] = (struct zone_figures){ x, x, x, x, x };
		sample->result.unreachable_mm3 = x;
		char *text = table_of(sample, false);
		assert_within_columns(text, WIDEST);
		assert_null(strchr(text, '\033'));
		free(text);
	}
}

/* Every station there may be, and a proof that breaks in all its
 * promises with the longest sentences. */
static void many_of_everything_stay_within_the_columns(void **state)
{
	struct sampled *sample = *state;
	struct job_result *result = &sample->result;
	struct station_figures stations[NECK_STATIONS_MAX], *kept = result->station;
	size_t kept_count = result->station_count;

	for (size_t i = 0; i < NECK_STATIONS_MAX; i++)
		stations[i] = (struct station_figures){ .fret = (double)i + 0.5,
							.x_mm = 1100.0,
							.blank_mm = 120.5,
							.roughed_mm = 120.25,
							.finished_mm = 119.125 };
	result->station = stations;
	result->station_count = NECK_STATIONS_MAX;
	for (int i = 0; i < PROMISE_COUNT; i++) {
		struct promise_result *promise = &result->verdict.promise[i];
		*promise = (struct promise_result){
			.judged = true, .worst = -1.23456e-300, .limit = 1e300, .block = 2147483647
		};
		memset(promise->why, i % 2 ? 'x' : ' ', sizeof promise->why - 1);
	}
	result->verdict.proven = false;
	char *text = table_of(sample, true);
	assert_within_columns(text, WIDEST);
	assert_non_null(strstr(text, "  23.5     1100.00  120.50   120.25  4.734"));
	assert_non_null(strstr(text, "NOT PROVEN"));
	free(text);
	result->station = kept;
	result->station_count = kept_count;
}

static void an_output_that_takes_nothing_is_told(void **state)
{
	struct sampled *sample = *state;
	struct fault_list faults = { 0 };
	FILE *full = fopen("/dev/full", "w");

	if (!full)
		skip();
	assert_int_equal(table_print(full, &sample->job, &sample->result, false, &faults),
			 FAULT_FILE);
	assert_non_null(strstr(faults.record[0].message, "No space left on device"));
	(void)fclose(full);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define WITH_SAMPLE(test) cmocka_unit_test_setup_teardown(test, sampled_setup, sampled_teardown)
		WITH_SAMPLE(figures_stand_in_their_columns),
		WITH_SAMPLE(a_broken_promise_is_told_with_its_place),
		WITH_SAMPLE(colour_is_asked_for_and_says_nothing_alone),
		WITH_SAMPLE(feeds_held_back_are_marked),
		WITH_SAMPLE(odd_figures_and_names_stay_within_the_columns),
		WITH_SAMPLE(many_of_everything_stay_within_the_columns),
		WITH_SAMPLE(an_output_that_takes_nothing_is_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
