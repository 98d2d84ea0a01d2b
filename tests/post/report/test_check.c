/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of a neck file, as a table and as JSON. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jansson.h>
#include <cmocka.h>

#include "report/check_figures.h"
#include "report/check_json.h"
#include "report/check_table.h"
#include "support/near.h"
#include "support/sample_result.h"

#define TABLE_MAX 16384

static struct neck *build(struct job *job)
{
	struct neck *neck = NULL;

	sample_job(job);
	assert_int_equal(neck_build(&neck, &job->neck, NULL), FAULT_NONE);
	return neck;
}

static void print_table(char *to, const struct job *job, const struct neck *neck)
{
	FILE *stream = tmpfile();

	assert_non_null(stream);
	check_table_print(stream, job, neck);
	rewind(stream);
	to[fread(to, 1, TABLE_MAX - 1, stream)] = '\0';
	(void)fclose(stream);
}

static void the_table_fits_a_terminal(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck = build(&job);
	char text[TABLE_MAX];

	print_table(text, &job, neck);
	for (const char *at = text; *at; at += strcspn(at, "\n") + 1)
		assert_true(strcspn(at, "\n") <= 80);
	neck_free(neck);
}

/* Columns of the longest line; a code point takes one. */
static int widest(const char *text)
{
	int used = 0, most = 0;

	for (; *text != '\0'; text++) {
		used = *text == '\n' ? 0 : used + (((unsigned char)*text & 0xc0) != 0x80);
		most = used > most ? used : most;
	}
	return most;
}

/* The longest names, every station there may be with frets between frets, two
 * shapes at each, and the longest neck. */
static void odd_necks_fit_a_terminal(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck = build(&job);
	struct neck_spec *spec = &job.neck;
	char text[TABLE_MAX];

	neck_free(neck);
	spec->scale_length_mm = 1100.0;
	spec->fret_count = 36;
	spec->station_count = NECK_STATIONS_MAX;
	for (size_t i = 0; i < spec->station_count; i++) {
		spec->station[i] =
			(struct station_spec){ .fret = (double)i / 2.0, .thickness_mm = 21.0 };
		spec->station[i].bass.family = SECTION_V;
		spec->station[i].treble.family = SECTION_C;
	}
	spec->station[0].fret = 0.123456;
	memset(spec->name, 'N', sizeof spec->name - 1);
	memset(job.machine.name, 'M', sizeof job.machine.name - 1);
	memset(job.cutter[0].name, 'K', sizeof job.cutter[0].name - 1);
	memset(job.wood.name, 'W', sizeof job.wood.name - 1);
	struct fault_list faults = { 0 };
	if (neck_build(&neck, spec, &faults) != FAULT_NONE)
		fail_msg("%s: %s", faults.record[0].setting, faults.record[0].message);
	print_table(text, &job, neck);
	assert_non_null(strstr(text, "V/C\n"));
	assert_non_null(strstr(text, "\n  11.5 "));
	assert_in_range(widest(text), 60, 80);
	neck_free(neck);
}

static void the_table_has_the_figures(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck = build(&job);
	char text[TABLE_MAX];

	print_table(text, &job, neck);
	/* 645.16 (1 - 2^(-14/12)) mm, and in inches */
	assert_non_null(strstr(text, "  14                  357.774    14.0856"));
	assert_non_null(strstr(text, "body joint\n"));
	assert_non_null(strstr(text, "STATIONS           finished with fretboard"));
	assert_non_null(strstr(text, "  nut          0.000     21.000     0.8268     15.000"));
	assert_non_null(strstr(text, "HEEL  block"));
	assert_non_null(strstr(text, "least wood over the rod channel"));
	neck_free(neck);
}

static void a_neck_without_a_channel_says_so(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck = NULL;
	char text[TABLE_MAX];

	sample_job(&job);
	job.neck.channel = (struct channel_spec){ 0 };
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	print_table(text, &job, neck);
	assert_non_null(strstr(text, "no rod channel\n"));
	neck_free(neck);
}

static void figures_follow_from_the_neck(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck = build(&job);
	struct check_figures figures = check_figures_of(neck);

	assert_near(figures.straight.from_mm, 0, 0, "first station, mm");
	assert_between(figures.straight.to_mm, 250, 303.4, "11th fret or heel, mm");
	assert_near(figures.asymmetry_mm, 0, 1e-9, "sides, mm");
	assert_between(figures.channel_least_mm, job.neck.channel.least_wood_mm, 10, "wood, mm");
	assert_near(figures.channel_least_mm,
		    neck_wood_over_channel_mm(neck, figures.channel_least_at_mm), 1e-9,
		    "the least is where it is said to be, mm");
	neck_free(neck);
}

static void json_says_the_same(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck = build(&job);
	char *text = NULL, *again = NULL;

	assert_int_equal(check_json_text(&text, &job, neck, NULL), FAULT_NONE);
	assert_int_equal(check_json_text(&again, &job, neck, NULL), FAULT_NONE);
	assert_string_equal(text, again);
	json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
	assert_non_null(root);
	json_t *frets = json_object_get(root, "frets");
	assert_int_equal(json_array_size(frets), 21);
	assert_near(json_number_value(json_object_get(json_array_get(frets, 12), "x_mm")), 322.58,
		    1e-4, "12th fret, mm");
	json_t *stations = json_object_get(root, "stations");
	assert_int_equal(json_array_size(stations), 5);
	assert_near(json_number_value(json_object_get(json_array_get(stations, 0), "thickness_mm")),
		    21, 1e-4, "at the nut, mm");
	json_t *checks = json_object_get(root, "checks");
	assert_near(json_number_value(json_object_get(checks, "channel_least_mm")),
		    check_figures_of(neck).channel_least_mm, 1e-4, "wood, mm");
	assert_string_equal(json_string_value(json_object_get(root, "digest")), job.digest);
	json_decref(root);
	free(text);
	free(again);
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_table_fits_a_terminal),
		cmocka_unit_test(odd_necks_fit_a_terminal),
		cmocka_unit_test(the_table_has_the_figures),
		cmocka_unit_test(a_neck_without_a_channel_says_so),
		cmocka_unit_test(figures_follow_from_the_neck),
		cmocka_unit_test(json_says_the_same),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
