/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a builder measures: stations first, the usual frets besides. */
#include "bench_sample.h"

#include <math.h>

#include "papers/places.h"
#include "support/near.h"

static void stations_are_kept_and_frets_added(void **state)
{
	/* the sample's stations are nut, 1, 5, 9 and more */
	static const double frets[] = { 0.0, 1.0, 5.0, 9.0 };
	struct job job = bench_job();
	struct bench_sample sample;
	struct place_figures place[PLACES_MAX];

	(void)state;
	bench_sample_make(&sample, &job);
	bench_keep_stations(&sample, 4);
	size_t count = places_of(place, &sample.content);
	assert_int_equal(count, 5);
	for (size_t i = 0; i < 4; i++) {
		assert_near(place[i].at.fret, frets[i], 0.0, "fret");
		assert_false(place[i].added);
		assert_memory_equal(&place[i].at, &sample.result.station[i], sizeof place[i].at);
	}
	assert_true(isnan(place[4].at.fret) && place[4].added);
	assert_near(place[4].at.x_mm, neck_heel_start_mm(sample.neck), 1e-9, "heel begins, mm");
	bench_sample_free(&sample);
}

static void added_places_are_measured_on_the_wood(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	struct place_figures place[PLACES_MAX];

	(void)state;
	bench_sample_make(&sample, &job);
	sample.result.station[0].fret = 3.0;
	sample.result.station[0].x_mm = neck_fret_x_mm(sample.neck, 3.0);
	bench_keep_stations(&sample, 1);
	/* a slope in x and y: the centre line's row and straight between columns */
	struct column_map *map = &sample.result.roughed;
	for (size_t i = 0; i < map->nx * map->ny; i++) {
		double x = map->x0_mm + (double)(i % map->nx) * map->cell_mm;
		double y = map->y0_mm + (double)(i / map->nx) * map->cell_mm;
		map->value[i] = (float)(20.0 + 0.01 * x + 0.5 * fabs(y));
	}
	size_t count = places_of(place, &sample.content);
	assert_int_equal(count, 6); /* nut, 1, 3, 5, 9, heel begins */
	for (size_t i = 0; i < count; i++) {
		double x = place[i].at.x_mm;
		if (i > 0)
			assert_true(x > place[i - 1].at.x_mm);
		if (!place[i].added)
			continue;
		/* the sample's caliper spans the board, 6 mm; half a column off centre */
		assert_near(place[i].at.roughed_mm, 26.0 + 0.01 * x, 0.26, "roughed, mm");
		assert_near(place[i].at.roughed_mm - place[0].at.roughed_mm, 0.01 * x, 1e-4,
			    "roughed along the neck, mm");
		assert_near(place[i].at.finished_mm, neck_crest_mm(sample.neck, x) + 6.0, 1e-9,
			    "finished, mm");
	}
	bench_sample_free(&sample);
}

static void places_without_wood_say_so(void **state)
{
	struct job job = bench_job();
	struct bench_sample sample;
	struct place_figures place[PLACES_MAX];

	(void)state;
	bench_sample_make(&sample, &job);
	bench_keep_stations(&sample, 0);
	sample.result.roughed.x0_mm = 1000.0;
	size_t count = places_of(place, &sample.content);
	assert_int_equal(count, 5);
	for (size_t i = 0; i < count; i++)
		assert_true(isnan(place[i].at.roughed_mm));
	bench_sample_free(&sample);
}

static void names_are_plain(void **state)
{
	char name[PLACES_NAME_ROOM];

	(void)state;
	places_name(name, 0.0);
	assert_string_equal(name, "nut");
	places_name(name, 13.5);
	assert_string_equal(name, "fret 13.5");
	places_name(name, NAN);
	assert_string_equal(name, "heel begins");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(stations_are_kept_and_frets_added),
		cmocka_unit_test(added_places_are_measured_on_the_wood),
		cmocka_unit_test(places_without_wood_say_so),
		cmocka_unit_test(names_are_plain),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
