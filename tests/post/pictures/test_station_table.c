/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pictures/station_table.h"
#include "support/near.h"
#include "support/seed.h"

static void far_places_stay(void **state)
{
	(void)state;
	double place[] = { 10.0, 30.0, 55.0 };

	station_table_spread(3, place, 12.0, 0.0, 100.0);
	assert_near(place[0], 10.0, 0.0, "first, mm");
	assert_near(place[1], 30.0, 0.0, "second, mm");
	assert_near(place[2], 55.0, 0.0, "third, mm");
	station_table_spread(0, NULL, 12.0, 0.0, 100.0);
}

static void close_places_part_within_bounds(void **state)
{
	(void)state;
	double place[] = { 93.0, 94.0, 99.0 };

	station_table_spread(3, place, 12.0, 0.0, 100.0);
	assert_near(place[2], 100.0, 1e-12, "last, mm");
	assert_near(place[1], 88.0, 1e-12, "second, mm");
	assert_near(place[0], 76.0, 1e-12, "first, mm");
}

static void random_places_never_touch(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("random_places_never_touch");

	for (int round = 0; round < 2000; round++) {
		double place[24], at = seed_between(rng, -20.0, 120.0);
		size_t count = seed_whole(rng, 1, 24);
		for (size_t i = 0; i < count; i++) {
			place[i] = at;
			at += seed_between(rng, 0.0, 10.0);
		}
		double gap = fmin(6.0, 100.0 / (double)(count > 1 ? count - 1 : 1));
		station_table_spread(count, place, 6.0, 0.0, 100.0);
		for (size_t i = 0; i < count; i++) {
			assert_between(place[i], -1e-9, 100.0 + 1e-9, "place, mm");
			if (i > 0)
				assert_between(place[i] - place[i - 1], gap - 1e-9, 200.0,
					       "distance, mm");
		}
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(far_places_stay),
		cmocka_unit_test(close_places_part_within_bounds),
		cmocka_unit_test(random_places_never_touch),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
