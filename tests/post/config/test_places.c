/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "config/places.h"

static struct config_places some_places(void)
{
	struct config_places places = { .main_file = "neck.cfg" };
	static const struct {
		const char *setting, *file;
		int line;
	} all[] = {
		{ "heel", "neck.cfg", 10 },
		{ "heel.height", "neck.cfg", 12 },
		{ "stations[1]", "neck.cfg", 20 },
		{ "cutters[2]", "cutters.cfg", 30 },
		{ "cutters[2].flutes", "cutters.cfg", 33 },
		{ "cutters[21].flutes", "other.cfg", 99 },
	};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		assert_int_equal(config_places_add(&places, all[i].setting, all[i].file,
						   all[i].line, NULL),
				 FAULT_NONE);
	return places;
}

static void found_exactly(void **state)
{
	(void)state;
	struct config_places places = some_places();

	assert_int_equal(config_places_find(&places, "heel.height")->line, 12);
	assert_null(config_places_find(&places, "heel.hollow"));
	assert_null(config_places_find(&places, ""));
	config_places_free(&places);
	config_places_free(NULL);
}

static void found_around(void **state)
{
	(void)state;
	struct config_places places = some_places();

	assert_int_equal(config_places_around(&places, "heel.height")->line, 12);
	assert_int_equal(config_places_around(&places, "heel.hollow")->line, 10);
	assert_int_equal(config_places_around(&places, "stations[1].bass.shape")->line, 20);
	assert_null(config_places_around(&places, "stations[0].fret"));
	assert_null(config_places_around(&places, "peghead.width"));
	assert_null(config_places_around(&places, ""));
	config_places_free(&places);
}

static void aliases(void **state)
{
	(void)state;
	struct config_places places = some_places();

	assert_int_equal(config_places_alias(&places, "cutters[2]", "cutter", NULL), FAULT_NONE);
	assert_int_equal(config_places_find(&places, "cutter")->line, 30);
	assert_int_equal(config_places_find(&places, "cutter.flutes")->line, 33);
	assert_string_equal(config_places_find(&places, "cutter.flutes")->file, "cutters.cfg");
	/* the one it was said of stays, and its like-named neighbour is no part of it */
	assert_int_equal(config_places_find(&places, "cutters[2].flutes")->line, 33);
	assert_int_equal(places.count, 8);
	config_places_free(&places);
}

static void faults_get_their_place(void **state)
{
	(void)state;
	struct config_places places = some_places();
	struct fault_list faults = { 0 };

	(void)fault_add(&faults, FAULT_GEOMETRY, NULL, 0, "heel.hollow", "Too deep.");
	(void)fault_add(&faults, FAULT_GEOMETRY, NULL, 0, "peghead.width", "Too wide.");
	(void)fault_add(&faults, FAULT_GEOMETRY, "else.cfg", 5, "heel", "Known already.");
	(void)fault_add(&faults, FAULT_MEMORY, NULL, 0, NULL, "No memory.");
	config_place_faults(&places, &faults);
	assert_string_equal(faults.record[0].file, "neck.cfg");
	assert_int_equal(faults.record[0].line, 10);
	assert_string_equal(faults.record[1].file, "neck.cfg");
	assert_int_equal(faults.record[1].line, 0);
	assert_string_equal(faults.record[2].file, "else.cfg");
	assert_int_equal(faults.record[2].line, 5);
	assert_string_equal(faults.record[3].file, "");
	config_places_free(&places);
}

static void long_names_are_cut_not_spilt(void **state)
{
	(void)state;
	struct config_places places = { 0 };
	char name[2 * FAULT_FILE_MAX];

	memset(name, 'n', sizeof name - 1);
	name[sizeof name - 1] = '\0';
	assert_int_equal(config_places_add(&places, name, name, 1, NULL), FAULT_NONE);
	assert_int_equal(strlen(places.place[0].setting), FAULT_SETTING_MAX - 1);
	assert_int_equal(strlen(places.place[0].file), FAULT_FILE_MAX - 1);
	config_places_free(&places);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(found_exactly),
		cmocka_unit_test(found_around),
		cmocka_unit_test(aliases),
		cmocka_unit_test(faults_get_their_place),
		cmocka_unit_test(long_names_are_cut_not_spilt),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
