/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/names.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void stations_are_named_by_their_fret(void **state)
{
	char name[NAMES_ROOM];

	(void)state;
	names_station(name, 0.0);
	assert_string_equal(name, "nut");
	names_station(name, 11.0);
	assert_string_equal(name, "fret 11");
	names_station(name, 13.5);
	assert_string_equal(name, "fret 13.5");
}

static void zones_are_words(void **state)
{
	char name[NAMES_ROOM];

	(void)state;
	names_zone(name, ZONE_HEEL_CHEEKS);
	assert_string_equal(name, "heel cheeks");
	for (int i = 0; i < ZONE_COUNT; i++) {
		names_zone(name, (enum stock_zone)i);
		assert_true(name[0] != '\0');
		assert_null(strchr(name, '_'));
	}
	names_zone(name, ZONE_COUNT);
	assert_string_equal(name, "");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(stations_are_named_by_their_fret),
		cmocka_unit_test(zones_are_words),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
