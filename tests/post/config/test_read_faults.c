/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Neck file to job: every kind of fault, with its place and its words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "post/config/neck_file.h"
#include "support/near.h"

/* Checks that the changed file has exactly one fault, at that line, setting
 * and in these words, and that the job then is all zero. */
static void assert_refused(const char *folder, const char *old, const char *new, int line,
			   const char *setting, const char *words)
{
	struct loaded loaded;
	static const struct job zero;

	write_changed(folder, "", old, new, "");
	load(&loaded, folder);
	assert_int_equal(loaded.code, FAULT_SETTING);
	assert_int_equal(loaded.faults.count, 1);
	assert_string_equal(loaded.faults.record[0].file, loaded.path);
	assert_int_equal(loaded.faults.record[0].line, line);
	assert_string_equal(loaded.faults.record[0].setting, setting);
	assert_non_null(strstr(loaded.faults.record[0].message, words));
	assert_memory_equal(&loaded.job, &zero, sizeof zero);
}

static void unknown_settings(void **state)
{
	assert_refused(*state, "frets = 20;", "frets = 20; handd = \"left\";", 4, "neck.handd",
		       "nearest known name is \"hand\"");
	/* told once, not again as something missing */
	assert_refused(*state, "frets = 20;", "fretts = 20;", 4, "neck.fretts",
		       "nearest known name is \"frets\"");
	assert_refused(*state, "frets = 20;", "frets = 20; hollow = 1;", 4, "neck.hollow",
		       "belongs in \"heel\"");
	assert_refused(*state, "carve =", "carv = 1;\ncarve =", 30, "carv", "\"carve\"");
	assert_refused(*state, "shape = \"C\";", "shap = \"C\";", 15, "stations[1].bass.shap",
		       "\"shape\"");
	assert_refused(*state, "soft = 0.14;", "soft = 0.14; sofd = 1;", 36,
		       "cutter.chip_load.sofd", "\"soft\"");
}

static void wrong_kinds(void **state)
{
	assert_refused(*state, "645.16", "\"645.16\"", 3, "neck.scale_length",
		       "the text \"645.16\"; allowed is a length from 300 to 1100 mm");
	assert_refused(*state, "frets = 20;", "frets = 20.0;", 4, "neck.frets",
		       "20, written with a point or an exponent; allowed is a whole number");
	assert_refused(*state, "frets = 20;", "frets = true;", 4, "neck.frets", "This is true");
	assert_refused(*state, "= true;", "= 1;", 10, "neck.thickness_over_fretboard",
		       "This is 1; allowed is true or false");
	assert_refused(*state, "\"Plain\"", "5", 2, "neck.name", "a text in quotes");
	assert_refused(*state, "\"Plain\"", "\" \"", 2, "neck.name", "blank");
	assert_refused(*state, "\"block\"", "\"blok\"", 18, "heel.kind", "nearest is \"block\"");
	assert_refused(*state, "\"block\"", "1", 18, "heel.kind", "\"block\", \"flat\" or \"set\"");
	assert_refused(*state, "carve = { from = -55; to = 357; };", "carve = 1;", 30, "carve",
		       "a group");
	assert_refused(*state, "(600, 400, 140)", "(600, 400)", 31, "machine.travel", "(x, y, z)");
	assert_refused(*state, "(600, 400, 140)", "600", 31, "machine.travel", "(x, y, z)");
	assert_refused(*state, "(600, 400, 140)", "(600, 400, \"x\")", 31, "machine.travel",
		       "the text \"x\"");
	assert_refused(*state, "fret = \"nut\"", "fret = \"not\"", 13, "stations[0].fret",
		       "\"nut\" or a fret number");
	assert_refused(*state, "joint_fret = 14", "joint_fret = \"nut\"", 5, "neck.joint_fret",
		       "a fret number from 5 to 30");
}

static void out_of_range(void **state)
{
	assert_refused(*state, "nut_width = 43.7", "nut_width = 4.37", 6, "neck.nut_width",
		       "This is 4.37 mm; allowed is a length from 20 to 120 mm.");
	assert_refused(*state, "nut_width = 43.7", "nut_width = 1e308", 6, "neck.nut_width",
		       "1e+308 mm");
	assert_refused(*state, "nut_width = 43.7", "nut_width = 1e999", 6, "neck.nut_width",
		       "inf mm");
	assert_refused(*state, "nut_width = 43.7", "nut_width = -1e999", 6, "neck.nut_width",
		       "-inf mm");
	assert_refused(*state, "frets = 20", "frets = 200L", 4, "neck.frets", "This is 200;");
	assert_refused(*state, "angle_deg = 14", "angle_deg = -14", 26, "peghead.angle_deg",
		       "from 0 to 25 degrees");
	assert_refused(*state, "to = 357; };", "to = 1500.1; };", 30, "carve.to", "1500.1 mm");
}

static void limits_are_shown_in_the_files_unit(void **state)
{
	struct loaded l;

	scratch_write(*state, "more.cfg", "units = \"in\";\nallowance = { back = 1.5; };\n");
	write_changed(*state, "", "carve =", "@include \"more.cfg\"\ncarve =", "");
	load(&l, *state);
	assert_int_equal(l.faults.count, 1);
	assert_string_equal(l.faults.record[0].message,
			    "This is 1.5 in; allowed is a length from 0 to 0.19685 in.");
}

static void missing_settings(void **state)
{
	assert_refused(*state, "nut_width = 43.7;", "", 1, "neck.nut_width",
		       "must be given: a length from 20 to 120 mm (fretboard width at the nut)");
	assert_refused(*state, "thickness = 24;", "", 14, "stations[1].thickness", "must be given");
	assert_refused(*state, "carve = { from = -55; to = 357; };", "", 0, "carve",
		       "must be given: a group");
	assert_refused(*state, "cap_length = 16;\n", "\n", 17, "heel.cap_length", "must be given");
	assert_refused(*state, "medium = 0.12;", "", 36, "cutter.chip_load.medium",
		       "must be given");
}

static void settings_of_the_other_heel(void **state)
{
	assert_refused(*state, "height = 82;", "height = 82; slab_length = 80;", 19,
		       "heel.slab_length", "belongs to kind = \"flat\" only");
}

static void joints_that_are_none(void **state)
{
	assert_refused(*state, "height = 82;",
		       "height = 82; joint = { kind = \"none\"; width = 20; };", 19,
		       "heel.joint.width",
		       "belongs to kind = \"dovetail\", \"tenon\" or \"bolt\" only");
	assert_refused(*state, "height = 82;",
		       "height = 82; joint = { length = 9; width = 20; top = 70; };", 19,
		       "heel.joint.kind", "must be given: \"none\", \"dovetail\"");
	assert_refused(*state, "height = 82;",
		       "height = 82; joint = { kind = \"tenon\"; length = 9; width = 20; };", 19,
		       "heel.joint.top", "must be given");
}

static void keep_outs_of_the_other_shape(void **state)
{
	assert_refused(
		*state, "hold = (",
		"keep_out = ({ name = \"s\"; x_from = 0; x_to = 1; y_from = 0; y_to = 1; top = 1; "
		"diameter = 9; }); hold = (",
		29, "fixture.keep_out[0].diameter", "belongs to shape = \"cylinder\" only");
	assert_refused(
		*state, "hold = (",
		"keep_out = ({ shape = \"cylinder\"; name = \"s\"; x_centre = 0; y_centre = 0; "
		"top = 1; }); hold = (",
		29, "fixture.keep_out[0].diameter", "must be given");
}

static void zero_is_stated_once(void **state)
{
	assert_refused(*state, "hold = (",
		       "zero = { height = \"bed\"; }; work_zero = (0, 0, 0); hold = (", 29,
		       "fixture.zero", "also fixture.work_zero");
	assert_refused(*state, "hold = (", "zero = { height = \"blank top\"; }; hold = (", 29,
		       "fixture.zero.top_at", "must be given");
	assert_refused(*state, "hold = (", "zero = { height = \"bed\"; top_at = 3; }; hold = (", 29,
		       "fixture.zero.top_at", "belongs to height = \"blank top\" only");
}

static void lists_and_points(void **state)
{
	assert_refused(*state, "((-60, 30), (357, 30.5))", "((-60, 30))", 27, "blank.top",
		       "a list ( ) of 1; allowed is a list ((x, value), ...) of 2 to 512");
	assert_refused(*state, "((-60, 30), (357, 30.5))", "((-60, 30), (357))", 27, "blank.top",
		       "Point 2");
	assert_refused(*state, "((-60, 30), (357, 30.5))", "((-60, 30), (357, \"x\"))", 27,
		       "blank.top", "Point 2");
	assert_refused(*state, "((-60, 30), (357, 30.5))", "((-60, 3e7), (357, 3))", 27,
		       "blank.top", "Point 1");
	assert_refused(*state, "((-60, 30), (357, 30.5))", "(5, 6)", 27, "blank.top", "Point 1");
	assert_refused(*state, "hold = ({", "hold = (5, {", 29, "fixture.hold[0]",
		       "must be a holding place");
	assert_refused(*state, "{ fret = \"nut\"; thickness = 21; },", "", 12, "stations",
		       "of 2 to 24 groups");
}

static void outlines_of_measured_sides(void **state)
{
	char text[TEXT_ROOM], *end = text;

	assert_refused(*state, "shape = \"D\";", "outline = ((0, 1), (0.5, 0.9), (1, 0));", 14,
		       "stations[1].outline",
		       "a list ( ) of 3; allowed is a list ((height, breadth), ...) of 4 to 33");
	assert_refused(*state, "shape = \"D\";",
		       "outline = ((0, 1), (0.5, 0.9),\n(0.7, 1.2), (1, 0));", 15,
		       "stations[1].outline", "Pair 3 of the list");
	assert_refused(*state, "shape = \"D\";", "outline = ((0, 1), (0.5), (0.7, 1), (1, 0));", 14,
		       "stations[1].outline", "Pair 2");
	assert_refused(*state, "shape = \"D\";",
		       "outline = ((0, 1), (0.5, \"x\"), (0.7, 1), (1, 0));", 14,
		       "stations[1].outline", "Pair 2");
	assert_refused(*state, "shape = \"D\";", "outline = (0, 1, 0.5, 0.9);", 14,
		       "stations[1].outline", "Pair 1");
	assert_refused(*state, "shape = \"D\";", "outline = 5;", 14, "stations[1].outline",
		       "allowed is a list");
	end += sprintf(end, "outline = ((0, 1)");
	for (int i = 1; i <= SECTION_POINTS_MAX; i++)
		end += sprintf(end, ", (%.3f, %.3f)", i / 40.0, 1.0 - i / 40.0);
	(void)sprintf(end, ");");
	assert_refused(*state, "shape = \"D\";", text, 14, "stations[1].outline", "of 34; allowed");
}

static void long_texts_and_lists(void **state)
{
	char text[TEXT_ROOM] = "\"", *end;

	memset(text + 1, 'n', 127);
	strcat(text, "\"");
	write_changed(*state, "", "\"Plain\"", text, "");
	struct loaded l;
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(strlen(l.job.neck.name), 127);
	strcpy(text + 128, "n\"");
	assert_refused(*state, "\"Plain\"", text, 2, "neck.name", "at most 127 bytes");
	end = text;
	for (int i = 0; i < NECK_STATIONS_MAX; i++)
		end += sprintf(end, "{ fret = %d.5; thickness = 21; },", i);
	(void)snprintf(end, 64, "{ fret = \"nut\"; thickness = 21; },");
	assert_refused(*state, "{ fret = \"nut\"; thickness = 21; },", text, 12, "stations",
		       "of 26; allowed");
}

static void names_are_looked_up(void **state)
{
	struct loaded l;
	const char woods[] = "woods = ({ name = \"oak\"; class = \"hard\"; density_kg_m3 = 700;\n"
			     "cutting_energy_j_cm3 = 55; shrinkage_tangential_percent = 9;\n"
			     "shrinkage_radial_percent = 5; });\n";
	const char old[] = "wood = { name = \"w\"; class = \"medium\"; density_kg_m3 = 543; "
			   "cutting_energy_j_cm3 = 40;\nshrinkage_tangential_percent = 4.1; "
			   "shrinkage_radial_percent = 3; };\n";

	/* a list of one needs no name */
	write_changed(*state, "", old, woods, "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_string_equal(l.job.wood.name, "oak");
	assert_near(l.job.cutter[0].chip_load_mm, 0.10, 0, "chip load in hard wood, mm");
	write_changed(*state, "", old, woods, "use = { wood = \"oka\"; };\n");
	load(&l, *state);
	assert_int_equal(l.faults.count, 1);
	assert_int_equal(l.faults.record[0].line, 41);
	assert_string_equal(l.faults.record[0].setting, "use.wood");
	assert_non_null(strstr(l.faults.record[0].message, "nearest known name is \"oak\""));
	write_changed(*state, "", old, "", "");
	load(&l, *state);
	assert_int_equal(l.faults.count, 1);
	assert_non_null(strstr(l.faults.record[0].message, "No wood is given"));
	write_changed(*state, "", "carve =", "carve =", woods);
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_string_equal(l.job.wood.name, "w");
	write_changed(*state, "", "carve =", "carve =", "use = { wood = \"w\"; };\n");
	load(&l, *state);
	assert_int_equal(l.faults.count, 1);
	assert_non_null(strstr(l.faults.record[0].message, "There is also a group \"wood\""));
}

static void lists_grow_from_file_to_file(void **state)
{
	struct loaded l;
	const char wood[] = "woods = ({ name = \"NAME\"; class = \"hard\"; density_kg_m3 = 700;\n"
			    "cutting_energy_j_cm3 = 55; shrinkage_tangential_percent = 9;\n"
			    "shrinkage_radial_percent = 5; });\n";
	const char *const files[] = { "a.cfg", "b.cfg", "c.cfg" };
	const char *const names[] = { "oak", "ash", "oak" };
	char text[512];

	for (int i = 0; i < 3; i++) {
		int before = (int)(strstr(wood, "NAME") - wood);
		(void)snprintf(text, sizeof text, "%.*s%s%s", before, wood, names[i],
			       wood + before + 4);
		scratch_write(*state, files[i], text);
	}
	const char more[] = "@include \"a.cfg\"\n@include \"b.cfg\"\n";
	const char old[] = "wood = { name = \"w\"; class = \"medium\"; density_kg_m3 = 543; "
			   "cutting_energy_j_cm3 = 40;\nshrinkage_tangential_percent = 4.1; "
			   "shrinkage_radial_percent = 3; };\n";
	write_changed(*state, "use = { wood = \"ash\"; };", old, "", more);
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_string_equal(l.job.wood.name, "ash");
	write_changed(*state, "", old, "", more);
	load(&l, *state);
	assert_int_equal(l.faults.count, 1);
	assert_non_null(strstr(l.faults.record[0].message, "Several woods are known"));
	(void)snprintf(text, sizeof text, "%s@include \"c.cfg\"\n", more);
	write_changed(*state, "use = { wood = \"ash\"; };", old, "", text);
	load(&l, *state);
	assert_int_equal(l.faults.count, 1);
	assert_string_equal(l.faults.record[0].setting, "woods[2].name");
	assert_non_null(strstr(l.faults.record[0].file, "c.cfg"));
	assert_int_equal(l.faults.record[0].line, 1);
}

static void groups_stand_once(void **state)
{
	struct loaded l;

	scratch_write(*state, "more.cfg", "\ncarve = { from = -50; to = 300; };\n");
	write_changed(*state, "", "carve =", "carve =", "@include \"more.cfg\"\n");
	load(&l, *state);
	assert_int_equal(l.faults.count, 1);
	assert_non_null(strstr(l.faults.record[0].file, "more.cfg"));
	assert_int_equal(l.faults.record[0].line, 2);
	assert_non_null(strstr(l.faults.record[0].message, "line 30, already"));
}

static void wrong_unit(void **state)
{
	assert_refused(*state, "neck = {", "units = \"inch\"; neck = {", 1, "units",
		       "\"mm\" or \"in\". The nearest is \"in\"");
}

static void all_faults_at_once(void **state)
{
	struct loaded l;

	scratch_write(*state, "neck.cfg",
		      "neck = { name = 5; frets = 1; foo = 1; };\nstations = ();\nheel = { };\n");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_SETTING);
	/* neck: 2 wrong, 1 unknown, 7 missing; stations; heel: kind, height;
	 * five groups missing; no machine, cutter, wood */
	assert_int_equal(l.faults.count, 10 + 1 + 2 + 4 + 3);
	assert_int_equal(l.faults.more, 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		SCRATCH_TEST(unknown_settings),
		SCRATCH_TEST(wrong_kinds),
		SCRATCH_TEST(out_of_range),
		SCRATCH_TEST(limits_are_shown_in_the_files_unit),
		SCRATCH_TEST(missing_settings),
		SCRATCH_TEST(settings_of_the_other_heel),
		SCRATCH_TEST(outlines_of_measured_sides),
		SCRATCH_TEST(joints_that_are_none),
		SCRATCH_TEST(keep_outs_of_the_other_shape),
		SCRATCH_TEST(zero_is_stated_once),
		SCRATCH_TEST(lists_and_points),
		SCRATCH_TEST(long_texts_and_lists),
		SCRATCH_TEST(names_are_looked_up),
		SCRATCH_TEST(lists_grow_from_file_to_file),
		SCRATCH_TEST(groups_stand_once),
		SCRATCH_TEST(wrong_unit),
		SCRATCH_TEST(all_faults_at_once),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
