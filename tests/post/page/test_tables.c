/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/tables.h"

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

#include "program/checklist.h"
#include "support/sample_result.h"
#include "support/sampled.h"

static size_t count_of(const char *text, const char *part)
{
	size_t count = 0;

	for (; (text = strstr(text, part)) != NULL; text += strlen(part))
		count++;
	return count;
}

/* Every element that is opened is closed, in order. */
static void assert_well_nested(const char *text)
{
	char open[32][16];
	size_t depth = 0;

	for (const char *at = text; (at = strchr(at, '<')) != NULL; at++) {
		bool closes = at[1] == '/';
		size_t size = strcspn(at + 1 + closes, " >");
		char name[16];
		assert_true(size > 0 && size < sizeof name);
		(void)snprintf(name, sizeof name, "%.*s", (int)size, at + 1 + closes);
		if (strcmp(name, "input") == 0)
			continue; /* has no end */
		if (closes) {
			assert_true(depth > 0);
			assert_string_equal(name, open[--depth]);
		} else {
			assert_true(depth < 32);
			memcpy(open[depth++], name, sizeof name);
		}
	}
	assert_int_equal(depth, 0);
}

/* Data cells and row heads of every body row add up to the columns. */
static void assert_rows_full(const char *text, size_t columns)
{
	const char *body = strstr(text, "<tbody>");
	size_t rows = 0;

	assert_non_null(body);
	for (const char *row = body; (row = strstr(row, "<tr")) != NULL; rows++) {
		const char *end = strstr(row, "</tr>");
		size_t cells = 0;
		assert_non_null(end);
		for (const char *at = row; at < end; at++) {
			if (strncmp(at, "<td", 3) == 0)
				cells++;
			if (strncmp(at, "<th ", 4) == 0)
				cells += strstr(at, "colspan=\"2\"") == at + 16 ? 2 : 1;
		}
		assert_int_equal(cells, columns);
		row = end;
	}
	assert_true(rows > 0);
}

/* Good for screen readers: one caption, every head with a scope. */
static void assert_table(const char *text, size_t columns)
{
	assert_well_nested(text);
	assert_memory_equal(text, "<table>", 7);
	assert_int_equal(count_of(text, "<table"), 1);
	assert_int_equal(count_of(text, "<caption>"), 1);
	assert_int_equal(count_of(text, "<th"), count_of(text, "scope=\"") + 1 /* <thead> */);
	assert_null(strstr(text, " id="));
	assert_rows_full(text, columns);
}

static void passes_count_through_all_programs(void **state)
{
	struct sampled *s = *state;
	struct markup out = { 0 };
	struct pass_figures *pass = &s->result.program[0].pass[1];

	*pass = (struct pass_figures){ .kind = PASS_LEVEL,
				       .level_mm = -3.25,
				       .deepest_bite_mm = 4.125,
				       .volume_mm3 = 23456.0,
				       .length_mm = 7890.0,
				       .idle_mm = 1230.0,
				       .minutes = 12.34,
				       .feed_mm_per_min = 3000.0,
				       .feed_cap = FEED_BY_POWER };
	tables_passes(&out, &s->result);
	assert_table(out.text, 11);
	/* four passes of the first program, one of the second, and two sums */
	assert_int_equal(count_of(out.text, "data-pass="), 5);
	assert_int_equal(count_of(out.text, "<tr class=\"sum\""), 2);
	assert_non_null(strstr(out.text, "<tr data-pass=\"5\"><th scope=\"row\">5</th>"));
	const char *row = strstr(out.text, "<tr data-pass=\"2\">");
	assert_non_null(row);
	static const char *const figures[] = { ">level lines<",
					       ">\xe2\x88\x92"
					       "3.25<",
					       ">4.12<",
					       ">3000<",
					       ">7.89<",
					       ">1.23<",
					       ">12.3<",
					       ">23.46<" };
	for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
		const char *at = strstr(row, figures[i]);
		assert_true(at && at < strstr(row, "</tr>"));
	}
	assert_non_null(strstr(row, feed_cap_name(FEED_BY_POWER)));
	markup_free(&out);
}

static void a_programs_row_sums_up(void **state)
{
	struct sampled *s = *state;
	struct program_figures program = s->result.program[0];
	struct pass_figures passes[] = { { .volume_mm3 = 1500.0, .deepest_bite_mm = 2.0 },
					 { .volume_mm3 = 2250.0, .deepest_bite_mm = 3.5 } };
	struct job_result result = { .program_count = 1, .program = &program };
	struct markup out = { 0 };

	program.pass = passes;
	program.pass_count = 2;
	program.cutting_length_mm = 40000.0;
	program.air_share = 0.25;
	program.minutes = 51.2;
	(void)snprintf(program.file, sizeof program.file, "<a&b>.nc");
	tables_passes(&out, &result);
	assert_table(out.text, 11);
	const char *row = strstr(out.text, "<tr class=\"sum\"");
	static const char *const figures[] = { "&lt;a&amp;b&gt;.nc, ball 6.00 mm; leaves ",
					       ">3.50<",
					       ">40.00<",
					       ">10.00<",
					       ">51.2<",
					       ">3.75<" };
	assert_non_null(row);
	for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
		assert_non_null(strstr(row, figures[i]));
	markup_free(&out);
}

static void stations_stand_in_both_units(void **state)
{
	struct sampled *s = *state;
	struct markup out = { 0 };

	s->result.station[2].roughed_mm = 25.4;
	s->result.station[2].finished_mm = 24.13;
	s->result.station[2].wood_over_channel_mm = NAN;
	tables_stations(&out, &s->job, &s->result);
	assert_table(out.text, 15);
	assert_int_equal(count_of(out.text, "<tr>"), 2 + s->result.station_count);
	assert_non_null(strstr(out.text, "<th scope=\"row\">nut</th>"));
	const char *row = strstr(out.text, "<th scope=\"row\">fret 5</th>");
	static const char *const figures[] = { ">25.40<", ">1.000<", ">24.13<",	      ">0.950<",
					       ">1.27<",  ">0.050<", ">\xe2\x80\x93<" };
	assert_non_null(row);
	for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
		row = strstr(row, figures[i]);
		assert_non_null(row);
	}
	assert_non_null(strstr(out.text, "wood and fretboard together"));
	markup_free(&out);
	s->job.neck.over_fretboard = false;
	tables_stations(&out, &s->job, &s->result);
	assert_null(strstr(out.text, "fretboard"));
	s->job.neck.over_fretboard = true;
	markup_free(&out);
}

static void zones_are_named_in_words(void **state)
{
	struct sampled *s = *state;
	struct markup out = { 0 };

	s->result.zone[ZONE_HEEL_CHEEKS] = (struct zone_figures){ 0.6, 0.6125, 0.75, 0.7, 1234.0 };
	tables_zones(&out, &s->result);
	assert_table(out.text, 6);
	const char *row = strstr(out.text, "<th scope=\"row\">heel cheeks</th>");
	assert_non_null(row);
	assert_non_null(strstr(row, "<td class=\"number\">0.600</td><td class=\"number\">0.61"));
	assert_non_null(strstr(row, ">12.3<")); /* cm2 */
	assert_non_null(strstr(out.text, "1.84 cm\xc2\xb3")); /* 1840 mm3 for the chisel */
	markup_free(&out);
}

static void places_for_the_chisel(void **state)
{
	struct sampled *s = *state;
	struct markup out = { 0 };

	tables_chisel(&out, &s->job, &s->result);
	assert_true(out.size == 0); /* nothing is left */
	sample_result_chisel(&s->result, &s->job);
	(void)snprintf(s->job.cutter[0].name, sizeof s->job.cutter[0].name, "<b>");
	tables_chisel(&out, &s->job, &s->result);
	assert_table(out.text, 9);
	assert_non_null(strstr(out.text, "<th scope=\"row\">heel cheek, bass side</th>"));
	assert_non_null(strstr(out.text, "mm of stickout instead of"));
	assert_null(strstr(out.text, "<b>"));
	markup_free(&out);
}

static void promises_are_all_told(void **state)
{
	struct sampled *s = *state;
	struct verdict kept = s->result.verdict, *verdict = &s->result.verdict;
	struct markup out = { 0 };

	tables_promises(&out, &s->result);
	assert_table(out.text, 4);
	assert_int_equal(count_of(out.text, "<td>kept</td>"), PROMISE_COUNT);
	markup_free(&out);
	verdict_figure(verdict, PROMISE_BITE, 5.5);
	verdict_break(verdict, PROMISE_BITE, 1, 93, "5.5 mm deep at <x>");
	verdict->promise[PROMISE_LOOSE].judged = false;
	tables_promises(&out, &s->result);
	assert_table(out.text, 4);
	assert_int_equal(count_of(out.text, "<td>kept</td>"), PROMISE_COUNT - 2);
	assert_non_null(strstr(out.text, "<td>broken: 5.5 mm deep at &lt;x&gt; (2-small-ball.ngc, "
					 "line 93)</td><td class=\"number\">5.500 mm</td>"
					 "<td class=\"number\">at most 1.000 mm</td>"));
	assert_non_null(strstr(out.text, "<td>not judged</td><td class=\"number\">\xe2\x80\x93"));
	*verdict = kept;
	markup_free(&out);
}

/* Every unit that a promise has is known to the table. */
static void figures_of_promises_have_their_unit(void **state)
{
	struct sampled *s = *state;
	struct verdict kept = s->result.verdict, *verdict = &s->result.verdict;
	struct markup out = { 0 };
	size_t with_unit = 0;

	for (int i = 0; i < PROMISE_COUNT; i++) {
		verdict->promise[i].worst = verdict->promise[i].limit = 0.125;
		with_unit += promise_text((enum promise)i)->unit[0] != '\0';
	}
	tables_promises(&out, &s->result);
	assert_int_equal(count_of(out.text, ">at least ") + count_of(out.text, ">at most "),
			 with_unit);
	assert_int_equal(count_of(out.text, "\xe2\x80\x93"), 2 * (PROMISE_COUNT - with_unit));
	assert_non_null(strstr(out.text, ">12.5 %</td><td class=\"number\">at most 12.5 %<"));
	assert_non_null(strstr(out.text, ">at least 0.125 mm<"));
	assert_non_null(strstr(out.text, ">at most 0.1 mm\xc2\xb2<"));
	*verdict = kept;
	markup_free(&out);
}

static void the_checklist_has_a_box_for_each_line(void **state)
{
	struct markup out = { 0 };
	size_t count;
	const char *const *lines = safety_checklist(&count);

	(void)state;
	tables_checklist(&out);
	assert_well_nested(out.text);
	assert_int_equal(count_of(out.text, "<li><label><input type=\"checkbox\">"), count);
	const char *at = out.text;
	for (size_t i = 0; i < count; i++) {
		struct markup line = { 0 };
		markup_escaped(&line, lines[i]);
		at = strstr(at, line.text);
		assert_non_null(at);
		markup_free(&line);
	}
	markup_free(&out);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(passes_count_through_all_programs),
		cmocka_unit_test(a_programs_row_sums_up),
		cmocka_unit_test(stations_stand_in_both_units),
		cmocka_unit_test(zones_are_named_in_words),
		cmocka_unit_test(places_for_the_chisel),
		cmocka_unit_test(promises_are_all_told),
		cmocka_unit_test(figures_of_promises_have_their_unit),
		cmocka_unit_test(the_checklist_has_a_box_for_each_line),
	};

	return cmocka_run_group_tests(tests, sampled_setup, sampled_teardown);
}
