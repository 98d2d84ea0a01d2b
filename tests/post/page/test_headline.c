/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/headline.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* A verdict with every promise kept. */
static struct verdict proven(void)
{
	struct verdict verdict;

	verdict_start(&verdict);
	for (int i = 0; i < PROMISE_COUNT; i++)
		verdict_judged(&verdict, (enum promise)i, 1.0);
	verdict_close(&verdict);
	return verdict;
}

static void assert_verdict(const struct job_result *result, const char *expected)
{
	struct markup out = { 0 };

	headline_verdict(&out, result);
	assert_string_equal(out.text, expected);
	markup_free(&out);
}

static void the_blank_is_told(void **state)
{
	struct job job = { .blank.margin_mm = 0.508 };

	(void)state;
	for (int exact = 0; exact < 2; exact++) {
		struct markup out = { 0 };
		job.blank.margin_mm = exact ? 0.0 : 0.508;
		headline_blank(&out, &job);
		assert_string_equal(
			out.text,
			exact ? "as drawn; sawn exactly on its outline"
			      : "as drawn; sawn within 0.51 mm (0.020 in) of its outline");
		markup_free(&out);
	}
}

static void the_verdict_is_one_line(void **state)
{
	struct job_result result = { .verdict = proven() };
	char expected[400];

	(void)state;
	(void)snprintf(expected, sizeof expected, "proven: %d of %d promises kept", PROMISE_COUNT,
		       PROMISE_COUNT);
	assert_verdict(&result, expected);
	verdict_break(&result.verdict, PROMISE_BITE, 0, 90, "5 mm > 4 mm <here>");
	verdict_break(&result.verdict, PROMISE_RAPID, 0, 40, "a rapid at x 3");
	verdict_close(&result.verdict);
	/* the earlier block comes first, whatever the order of promises */
	(void)snprintf(expected, sizeof expected, "NOT PROVEN, do not run it. %s: a rapid at x 3",
		       promise_text(PROMISE_RAPID)->sentence);
	assert_verdict(&result, expected);
}

static void what_breaks_is_escaped(void **state)
{
	struct job_result result = { .verdict = proven() };
	struct markup out = { 0 };

	(void)state;
	verdict_break(&result.verdict, PROMISE_BITE, 0, 90, "5 mm > 4 mm <here>");
	verdict_close(&result.verdict);
	headline_verdict(&out, &result);
	assert_non_null(strstr(out.text, "5 mm &gt; 4 mm &lt;here&gt;"));
	assert_non_null(strstr(out.text, "cutter&#39;s limit"));
	assert_null(strpbrk(out.text, "<>'\""));
	markup_free(&out);
}

static void what_nobody_judged_is_not_proven(void **state)
{
	struct job_result result = { 0 };
	struct markup out = { 0 };

	(void)state;
	verdict_start(&result.verdict);
	verdict_close(&result.verdict);
	headline_verdict(&out, &result);
	assert_memory_equal(out.text, "NOT PROVEN", 10);
	markup_free(&out);
}

static void assert_stock(const struct job_result *result, const char *least, const char *most)
{
	struct markup out = { 0 };

	headline_least_stock(&out, result);
	assert_string_equal(out.text, least);
	markup_free(&out);
	headline_most_stock(&out, result);
	assert_string_equal(out.text, most);
	markup_free(&out);
}

/* Rounded to the side on which nobody is promised too much. */
static void stock_is_the_worst_of_all_zones(void **state)
{
	struct job_result result = { .zone = { { .least_mm = 1.003, .most_mm = 1.058 },
					       { .least_mm = 0.599, .most_mm = 0.71 },
					       { .least_mm = NAN, .most_mm = NAN },
					       { .least_mm = 0.999, .most_mm = 1.081 } } };

	(void)state;
	assert_stock(&result, "0.59", "1.09");
	result.zone[1].least_mm = 0.6;
	result.zone[3].most_mm = 1.08;
	assert_stock(&result, "0.60", "1.08");
	for (int i = 0; i < ZONE_COUNT; i++)
		result.zone[i] = (struct zone_figures){ .least_mm = NAN, .most_mm = NAN };
	assert_stock(&result, "\xe2\x80\x93", "\xe2\x80\x93");
}

static void minutes_are_of_all_programs(void **state)
{
	struct program_figures programs[] = { { .minutes = 95.3 }, { .minutes = 22.4 } };
	struct job_result result = { .program_count = 2, .program = programs };
	struct markup out = { 0 };

	(void)state;
	headline_minutes(&out, &result);
	assert_string_equal(out.text, "118");
	markup_free(&out);
}

static void cutter_and_hand_are_named(void **state)
{
	struct job job = {
		.cutter_count = 1,
		.cutter[0] = { .name = "6 mm \"long\" <ball>", .ball_diameter_mm = 6.35 },
	};
	struct neck_spec neck = { .hand = HAND_RIGHT };
	struct markup out = { 0 };

	(void)state;
	headline_cutters(&out, &job);
	assert_string_equal(out.text, "6 mm &quot;long&quot; &lt;ball&gt;, ball 6.35 mm");
	markup_free(&out);
	headline_hand(&out, &neck);
	assert_string_equal(out.text, "right-handed, face down, bass side at +y");
	markup_free(&out);
	neck.hand = HAND_LEFT;
	headline_hand(&out, &neck);
	assert_string_equal(out.text, "left-handed, face down, treble side at +y");
	markup_free(&out);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_verdict_is_one_line),
		cmocka_unit_test(the_blank_is_told),
		cmocka_unit_test(what_breaks_is_escaped),
		cmocka_unit_test(what_nobody_judged_is_not_proven),
		cmocka_unit_test(stock_is_the_worst_of_all_zones),
		cmocka_unit_test(minutes_are_of_all_programs),
		cmocka_unit_test(cutter_and_hand_are_named),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
