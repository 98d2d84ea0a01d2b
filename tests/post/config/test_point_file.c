/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines from tables of points: where they are found, in which unit, what
 * they add to the digest, and what is wrong with them, by line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "base/units.h"
#include "job/job.h"
#include "post/config/neck_file.h"
#include "support/near.h"

#define TOP "((-60, 30), (357, 30.5))"

static void load_with(struct loaded *loaded, const char *folder, const char *unit, const char *top)
{
	write_changed(folder, unit, TOP, top, "");
	load(loaded, folder);
}

static void points_of_a_table(void **state)
{
	struct loaded l;

	scratch_write(*state, "side.csv",
		      "# traced from the template\nx, value\n-60, 30\n300, 30\n300, 86\n357, 86\n");
	load_with(&l, *state, "", "\"side.csv\"");
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(l.job.blank.top.count, 4);
	assert_near(l.job.blank.top.x_mm[1], 300, 0, "x before the step, mm");
	assert_near(l.job.blank.top.x_mm[2], 300, 0, "x behind the step, mm");
	assert_near(l.job.blank.top.value_mm[2], 86, 0, "height behind it, mm");
	/* the under side of an outline from a table lies flat too */
	assert_near(l.job.blank.bottom.x_mm[1], 357, 0, "bottom ends, mm");
}

/* In the unit of the file that names it, or in the one stated. */
static void units(void **state)
{
	struct loaded l;

	scratch_write(*state, "side.csv", "-2 1.2\n14 1.25\n");
	load_with(&l, *state, "", "{ file = \"side.csv\"; units = \"in\"; }");
	assert_int_equal(l.code, FAULT_NONE);
	assert_near(l.job.blank.top.x_mm[1], 355.6, 1e-9, "14 in, mm");
	assert_near(l.job.blank.top.value_mm[0], 30.48, 1e-9, "1.2 in, mm");
	load_with(&l, *state, "", "{ file = \"side.csv\"; }");
	assert_near(l.job.blank.top.x_mm[1], 14, 0, "14 mm");
	scratch_write(
		*state, "blank.cfg",
		"units = \"in\"; blank = { top = \"side.csv\"; half_width = ((-2, 1), (14, 1)); };");
	write_changed(*state, "",
		      "blank = { top = ((-60, 30), (357, 30.5)); half_width = ([-60, 38], "
		      "[357, 32]); };",
		      "", "@include \"blank.cfg\"\n");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_near(l.job.blank.top.x_mm[1], 355.6, 1e-9, "14 in of the included file, mm");
}

/* A path counts from the folder of the file that names it. */
static void found_from_the_file_that_names_it(void **state)
{
	struct loaded l;
	char path[SCRATCH_ROOM];

	assert_int_equal(mkdir(scratch_path(path, *state, "shop"), 0700), 0);
	scratch_write(*state, "shop/side.csv", "-60,30\n357,31\n");
	scratch_write(*state, "shop/blank.cfg",
		      "blank = { top = \"side.csv\"; half_width = ((-60, 38), (357, 32)); };");
	write_changed(*state, "",
		      "blank = { top = ((-60, 30), (357, 30.5)); half_width = ([-60, 38], "
		      "[357, 32]); };",
		      "", "@include \"shop/blank.cfg\"\n");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_near(l.job.blank.top.value_mm[1], 31, 0, "from shop/side.csv, mm");
}

/* One changed figure in the table is another digest; the table itself is not. */
static void table_belongs_to_the_digest(void **state)
{
	struct loaded first, again, other;

	scratch_write(*state, "side.csv", "-60,30\n357,31\n");
	load_with(&first, *state, "", "\"side.csv\"");
	load_with(&again, *state, "", "\"side.csv\"");
	scratch_write(*state, "side.csv", "-60,30\n357,32\n");
	load_with(&other, *state, "", "\"side.csv\"");
	assert_int_equal(strlen(first.job.digest), 64);
	assert_string_equal(first.job.digest, again.job.digest);
	assert_string_not_equal(first.job.digest, other.job.digest);
}

/* Exactly one fault, in that file and line, in these words. */
static void assert_refused(const char *folder, const char *top, const char *file, int line,
			   const char *words)
{
	struct loaded l;
	char path[SCRATCH_ROOM];

	load_with(&l, folder, "", top);
	assert_true(l.code != FAULT_NONE);
	assert_int_equal(l.faults.count, 1);
	assert_string_equal(l.faults.record[0].file, scratch_path(path, folder, file));
	assert_int_equal(l.faults.record[0].line, line);
	assert_non_null(strstr(l.faults.record[0].message, words));
}

static void spoiled_table(void **state, const char *table, int line, const char *words)
{
	scratch_write(*state, "side.csv", table);
	assert_refused(*state, "\"side.csv\"", "side.csv", line, words);
}

static void spoiled_tables(void **state)
{
	char many[16384], *end = many;

	spoiled_table(state, "-60,30\n\n357;x\n", 3, "\"x\"");
	spoiled_table(state, "-60,30\n357\n", 2, "1 value");
	spoiled_table(state, "-60,30\n100,30\n90,30\n357,30\n", 3, "before the point above it");
	spoiled_table(state, "-60,30\n9,30\n9,31\n9,32\n357,30\n", 4, "a step takes two");
	spoiled_table(state, "-60,30\n357,30\n357,31\n", 3, "begins or ends with a step");
	spoiled_table(state, "-60,30\n-60,31\n357,31\n", 2, "begins or ends with a step");
	spoiled_table(state, "-60,30\n3570,30\n", 2, "3000");
	spoiled_table(state, "# nothing\n", 0, "no numbers");
	spoiled_table(state, "-60,30\n", 1, "1 point;");
	for (int i = 0; i < 513; i++)
		end += snprintf(end, 16, "%d,30\n", i - 60);
	spoiled_table(state, many, 513, "513 points; an outline has 2 to 512");
}

static void what_names_no_table(void **state)
{
	scratch_write(*state, "side.csv", "-60,30\n357,31\n");
	assert_refused(*state, "\"none.csv\"", "neck.cfg", 27, "none.csv");
	assert_refused(*state, "\" \"", "neck.cfg", 27, "blank");
	assert_refused(*state, "\".\"", "neck.cfg", 27, "cannot be used");
	assert_refused(*state, "{ }", "neck.cfg", 27, "The file is missing");
	assert_refused(*state, "{ file = 5; }", "neck.cfg", 27, "text in quotes");
	assert_refused(*state, "{ file = \"side.csv\"; units = \"cm\"; }", "neck.cfg", 27,
		       "no units");
	assert_refused(*state, "{ file = \"side.csv\"; unit = \"mm\"; }", "neck.cfg", 27,
		       "no such setting");
}

/* What only the whole job shows is told where the points stand. */
static void later_faults_name_the_table(void **state)
{
	struct loaded l = { 0 };
	char path[SCRATCH_ROOM], table[SCRATCH_ROOM];

	scratch_write(*state, "side.csv", "# x and height\n-60,30\n356,31\n");
	write_changed(*state, "", TOP, "\"side.csv\"", "");
	assert_int_equal(config_load(&l.job, &l.places, scratch_path(path, *state, "neck.cfg"),
				     &l.faults),
			 FAULT_NONE);
	/* ends differ: told at the side, which stands in the neck file */
	assert_true(job_check(&l.job, &l.faults) != FAULT_NONE);
	config_place_faults(&l.places, &l.faults);
	assert_string_equal(l.faults.record[0].setting, "blank.half_width");
	assert_string_equal(l.faults.record[0].file, path);
	assert_int_equal(l.faults.record[0].line, 27);
	/* and of the top, where the table begins */
	l.faults.count = 0;
	l.job.blank.top.x_mm[0] = 400;
	assert_true(job_check(&l.job, &l.faults) != FAULT_NONE);
	config_place_faults(&l.places, &l.faults);
	assert_string_equal(l.faults.record[0].setting, "blank.top");
	assert_string_equal(l.faults.record[0].file, scratch_path(table, *state, "side.csv"));
	assert_int_equal(l.faults.record[0].line, 2);
	config_places_free(&l.places);
}

/* Tables count among the 32 files of a job. */
static void too_many_files(void **state)
{
	char name[32], more[2048] = "";
	struct loaded l;

	scratch_write(*state, "side.csv", "-60,30\n357,31\n");
	for (int i = 0; i < 29; i++) {
		(void)snprintf(name, sizeof name, "f%d.cfg", i);
		scratch_write(*state, name, i % 2 ? "// nothing\nmachines = ();" : "cutters = ();");
		(void)snprintf(more + strlen(more), sizeof more - strlen(more), "@include \"%s\"\n",
			       name);
		if (i == 15 || i == 28) {
			/* sixteen includes a file at most: the rest hang on the last */
			scratch_write(*state, i == 15 ? "more1.cfg" : "more2.cfg", more);
			more[0] = '\0';
		}
	}
	write_changed(*state, "", TOP, "\"side.csv\"",
		      "@include \"more1.cfg\"\n@include \"more2.cfg\"\n");
	load(&l, *state);
	assert_true(l.code != FAULT_NONE);
	bool told = false;
	for (size_t i = 0; i < l.faults.count; i++)
		told = told || (strstr(l.faults.record[i].message, "side.csv") &&
				strstr(l.faults.record[i].message, "at most 32 files"));
	assert_true(told);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		SCRATCH_TEST(points_of_a_table),
		SCRATCH_TEST(units),
		SCRATCH_TEST(found_from_the_file_that_names_it),
		SCRATCH_TEST(table_belongs_to_the_digest),
		SCRATCH_TEST(spoiled_tables),
		SCRATCH_TEST(what_names_no_table),
		SCRATCH_TEST(later_faults_name_the_table),
		SCRATCH_TEST(too_many_files),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
