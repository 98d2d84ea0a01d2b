/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Neck file to job: values, units, defaults, and every kind of fault. */
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
#include "config/read.h"
#include "support/near.h"
#include "support/scratch.h"

#define TEXT_ROOM 8192

/* A whole job in one file, one setting a line so that lines can be named. */
static const char whole[] =
	"neck = {\n" /* line 1 */
	"name = \"Plain\";\n"
	"scale_length = 645.16;\n"
	"frets = 20;\n"
	"joint_fret = 14;\n"
	"nut_width = 43.7;\n"
	"width_fret = 14;\n"
	"width = 54.8;\n"
	"fretboard_thickness = 6;\n"
	"thickness_over_fretboard = true;\n"
	"};\n"
	"stations = (\n" /* line 12 */
	"{ fret = \"nut\"; thickness = 21; },\n"
	"{ fret = 11; thickness = 24; shape = \"D\"; fullness = 2.4; flat_share = 0.3;\n"
	"  bass = { shape = \"C\"; }; treble = { fullness = 2.8; }; }\n"
	");\n"
	"heel = {\n" /* line 17 */
	"kind = \"block\";\n"
	"height = 82;\n"
	"cap_length = 16;\n"
	"cap_width_front = 20;\n"
	"cap_width_back = 24;\n"
	"nose_radius = 15;\n"
	"nose_angle_deg = 75;\n"
	"};\n"
	"peghead = { angle_deg = 14; thickness = 15; width = 70; transition = 38; };\n"
	"blank = { top = ((-60, 30), (357, 30.5)); half_width = ([-60, 38], [357, 32]); };\n"
	"fixture = { riser_height = 14; riser_width = 37; riser_from = 2; riser_to = 355;\n"
	"hold = ({ name = \"tape\"; x_from = 4; x_to = 353; y_from = -17; y_to = 17; }); };\n"
	"carve = { from = -55; to = 357; };\n" /* line 30 */
	"machine = { name = \"m\"; travel = (600, 400, 140); feed_limit = (3000, 3000, 1200);\n"
	"rapid = (4000, 4000, 1500); acceleration = (300, 300, 200); spindle_least_rpm = 6000;\n"
	"spindle_most_rpm = 24000; spindle_power_w = 300; program_units = \"mm\"; decimals = 3; };\n"
	"cutter = { name = \"c\"; ball_diameter = 12.7; flute_length = 50; shank_diameter = 12;\n"
	"stickout = 100; holder_diameter = 42; holder_length = 40; flutes = 2;\n"
	"chip_load = { soft = 0.14; medium = 0.12; hard = 0.10; }; depth_limit = 5;\n"
	"stepover_limit = 5; plunge_feed = 800; spindle_rpm = 14000; };\n"
	"wood = { name = \"w\"; class = \"medium\"; density_kg_m3 = 543; cutting_energy_j_cm3 = 40;\n"
	"shrinkage_tangential_percent = 4.1; shrinkage_radial_percent = 3; };\n"; /* line 39 */

struct loaded {
	struct job job;
	struct config_places places;
	struct fault_list faults;
	enum fault code;
	char path[SCRATCH_ROOM];
};

static void load(struct loaded *loaded, const char *folder)
{
	memset(loaded, 0, sizeof *loaded);
	loaded->code = config_load(&loaded->job, &loaded->places,
				   scratch_path(loaded->path, folder, "neck.cfg"), &loaded->faults);
	for (size_t i = 0; i < loaded->faults.count; i++)
		print_message("%s:%d: %s: %s\n", loaded->faults.record[i].file,
			      loaded->faults.record[i].line, loaded->faults.record[i].setting,
			      loaded->faults.record[i].message);
	config_places_free(&loaded->places);
}

/* Writes `whole` with its first `old` replaced by `new`, and `more` behind it;
 * `unit` goes in front, on no line of its own. */
static void write_changed(const char *folder, const char *unit, const char *old, const char *new,
			  const char *more)
{
	char text[TEXT_ROOM];
	const char *at = strstr(whole, old);

	assert_non_null(at);
	int size = snprintf(text, sizeof text, "%s%.*s%s%s%s", unit, (int)(at - whole), whole, new,
			    at + strlen(old), more);
	assert_in_range(size, 1, TEXT_ROOM - 1);
	scratch_write(folder, "neck.cfg", text);
}

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

static void values_reach_the_job(void **state)
{
	struct loaded l;

	scratch_write(*state, "neck.cfg", whole);
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	const struct neck_spec *neck = &l.job.neck;
	assert_string_equal(neck->name, "Plain");
	assert_near(neck->scale_length_mm, 645.16, 0, "scale, mm");
	assert_int_equal(neck->fret_count, 20);
	assert_near(neck->joint_fret, 14, 0, "joint, fret");
	assert_near(neck->width_mm, 54.8, 0, "width, mm");
	assert_true(neck->over_fretboard);
	assert_int_equal(neck->heel.kind, HEEL_BLOCK);
	assert_near(neck->heel.nose_angle_rad, 75 * PI / 180, 1e-15, "nose angle, rad");
	assert_near(l.job.machine.travel_mm[AXIS_Y], 400, 0, "travel, mm");
	assert_near(l.job.machine.acceleration_mm_per_s2[AXIS_Z], 200, 0, "mm/s2");
	assert_int_equal(l.job.machine.decimals, 3);
	assert_string_equal(l.job.wood.name, "w");
	assert_int_equal(l.job.wood.class, WOOD_MEDIUM);
	assert_near(l.job.cutter.chip_load_mm, 0.12, 0, "chip load of the wood, mm");
	assert_near(l.job.blank.top.value_mm[1], 30.5, 0, "blank top, mm");
	assert_near(l.job.blank.half_width.x_mm[1], 357, 0, "blank end, mm");
	assert_int_equal(l.job.fixture.hold_count, 1);
	assert_near(l.job.fixture.hold[0].y_from_mm, -17, 0, "hold, mm");
	assert_int_equal(strlen(l.job.digest), 64);
}

static void defaults_fill_the_rest(void **state)
{
	struct loaded l;

	scratch_write(*state, "neck.cfg", whole);
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(l.job.neck.hand, HAND_RIGHT);
	assert_near(l.job.neck.side_margin_mm, 0, 0, "side margin, mm");
	assert_near(l.job.neck.heel.hollow_mm, 1, 0, "hollow, mm");
	assert_near(l.job.neck.allowance.sides_mm, 0.6, 0, "sides, mm");
	assert_near(l.job.neck.channel.width_mm, 0, 0, "no channel, mm");
	assert_near(l.job.neck.peghead.flare_mm, 20, 0, "flare, mm");
	assert_near(l.job.cutter.ramp_angle_rad, 8 * PI / 180, 1e-15, "ramp, rad");
	assert_near(l.job.carve.cell_mm, 0.2, 0, "cell, mm");
	assert_near(l.job.fixture.work_zero_mm.z, 0, 0, "zero, mm");
	assert_int_equal(l.job.blank.bottom.count, 2);
	assert_near(l.job.blank.bottom.x_mm[0], -60, 0, "bottom begins, mm");
	assert_near(l.job.blank.bottom.x_mm[1], 357, 0, "bottom ends, mm");
	assert_near(l.job.blank.bottom.value_mm[1], 0, 0, "bottom, mm");
}

static void sides_inherit_from_their_station(void **state)
{
	struct loaded l;

	scratch_write(*state, "neck.cfg", whole);
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(l.job.neck.station_count, 2);
	const struct station_spec *nut = &l.job.neck.station[0], *far = &l.job.neck.station[1];
	assert_near(nut->fret, 0, 0, "the nut's fret");
	assert_int_equal(nut->bass.family, SECTION_C);
	assert_near(nut->treble.fullness, 0, 0, "asks for the usual");
	assert_int_equal(far->bass.family, SECTION_C);
	assert_near(far->bass.fullness, 2.4, 0, "bass as the station");
	assert_int_equal(far->treble.family, SECTION_D);
	assert_near(far->treble.fullness, 2.8, 0, "treble's own");
	assert_near(far->treble.flat_share, 0.3, 0, "treble as the station");
	assert_near(far->treble.apex_radius_mm, 0, 0, "asks for the usual");
}

static void flat_heel(void **state)
{
	struct loaded l;
	const char old[] = "height = 82;\ncap_length = 16;\ncap_width_front = 20;\n"
			   "cap_width_back = 24;\nnose_radius = 15;\nnose_angle_deg = 75;\n";
	char text[TEXT_ROOM], *kind;

	write_changed(*state, "", old,
		      "height = 19; slab_length = 80; beyond_joint = 60; ease_length = 45;\n", "");
	char *made = scratch_read(*state, "neck.cfg");
	assert_non_null(made);
	kind = strstr(made, "\"block\"");
	(void)snprintf(text, sizeof text, "%.*s\"flat\"%s", (int)(kind - made), made, kind + 7);
	free(made);
	scratch_write(*state, "neck.cfg", text);
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(l.job.neck.heel.kind, HEEL_FLAT);
	assert_near(l.job.neck.heel.beyond_joint_mm, 60, 0, "beyond joint, mm");
	assert_near(l.job.neck.heel.cap_length_mm, 0, 0, "no cap, mm");
}

static void each_file_has_its_own_unit(void **state)
{
	struct loaded l;

	scratch_write(*state, "more.cfg", "allowance = { back = 1.5; };\n");
	write_changed(*state, "", "carve =", "@include \"more.cfg\"\ncarve =", "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_near(l.job.neck.allowance.back_mm, 1.5, 0, "mm beside mm");
	scratch_write(*state, "more.cfg", "units = \"in\"; allowance = { back = 0.0625; };\n");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_near(l.job.neck.allowance.back_mm, 1.5875, 1e-15, "inches beside mm");
	assert_near(l.job.neck.nut_width_mm, 43.7, 0, "the neck file stays mm");
	assert_near(l.job.neck.allowance.sides_mm, 0.6, 0, "defaults are mm always");
}

static void inches_convert_lengths_and_feeds_only(void **state)
{
	struct loaded l;

	scratch_write(*state, "shop.cfg",
		      "units = \"in\";\nmachines = ({ name = \"inch\"; travel = (25, 16, 6);\n"
		      "feed_limit = (100, 100, 50); rapid = (200, 200, 80);\n"
		      "acceleration = (15, 15, 10); spindle_least_rpm = 6000;\n"
		      "spindle_most_rpm = 24000; spindle_power_w = 300;\n"
		      "program_units = \"in\"; decimals = 4; });\n");
	write_changed(*state, "", "machine = {", "@include \"shop.cfg\"\nmachines = ({", "");
	char *text = scratch_read(*state, "neck.cfg");
	assert_non_null(text);
	char *end = strstr(text, "decimals = 3; };");
	memcpy(end, "decimals = 3; })", 16);
	char both[TEXT_ROOM];
	(void)snprintf(both, sizeof both, "%s\nuse = { machine = \"inch\"; };\n", text);
	free(text);
	scratch_write(*state, "neck.cfg", both);
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	/* 100 in/min = 2540 mm/min: 1 in = 25.4 mm exactly (1959 agreement) */
	assert_near(l.job.machine.travel_mm[AXIS_X], 635, 0, "25 in, mm");
	assert_near(l.job.machine.feed_limit_mm_per_min[AXIS_X], 2540, 0, "feed, mm/min");
	assert_near(l.job.machine.acceleration_mm_per_s2[AXIS_X], 381, 1e-12, "mm/s2");
	assert_near(l.job.machine.spindle_power_w, 300, 0, "power, W");
	assert_int_equal(l.job.machine.program_unit, UNIT_INCH);
	assert_int_equal(l.job.machine.decimals, 4);
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
	assert_refused(*state, "\"block\"", "1", 18, "heel.kind", "\"block\" or \"flat\"");
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

static void lists_and_points(void **state)
{
	assert_refused(*state, "((-60, 30), (357, 30.5))", "((-60, 30))", 27, "blank.top",
		       "a list ( ) of 1; allowed is a list ((x, value), ...) of 2 to 64");
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
	assert_near(l.job.cutter.chip_load_mm, 0.10, 0, "chip load in hard wood, mm");
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

static void places_are_told(void **state)
{
	struct job job;
	struct config_places places = { 0 };
	struct fault_list faults = { 0 };
	char path[SCRATCH_ROOM];

	scratch_write(*state, "neck.cfg", whole);
	assert_int_equal(config_load(&job, &places, scratch_path(path, *state, "neck.cfg"),
				     &faults),
			 FAULT_NONE);
	(void)fault_add(&faults, FAULT_GEOMETRY, NULL, 0, "stations[1].thickness", "x");
	(void)fault_add(&faults, FAULT_GEOMETRY, NULL, 0, "heel.hollow", "x");
	(void)fault_add(&faults, FAULT_GEOMETRY, NULL, 0, "cutter.chip_load", "x");
	(void)fault_add(&faults, FAULT_GEOMETRY, NULL, 0, "channel.depth", "x");
	config_place_faults(&places, &faults);
	const int lines[] = { 14, 17, 36, 0 };
	for (size_t i = 0; i < 4; i++) {
		assert_string_equal(faults.record[i].file, path);
		assert_int_equal(faults.record[i].line, lines[i]);
	}
	config_places_free(&places);
}

#define SCRATCH_TEST(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		SCRATCH_TEST(values_reach_the_job),
		SCRATCH_TEST(defaults_fill_the_rest),
		SCRATCH_TEST(sides_inherit_from_their_station),
		SCRATCH_TEST(flat_heel),
		SCRATCH_TEST(each_file_has_its_own_unit),
		SCRATCH_TEST(inches_convert_lengths_and_feeds_only),
		SCRATCH_TEST(unknown_settings),
		SCRATCH_TEST(wrong_kinds),
		SCRATCH_TEST(out_of_range),
		SCRATCH_TEST(limits_are_shown_in_the_files_unit),
		SCRATCH_TEST(missing_settings),
		SCRATCH_TEST(settings_of_the_other_heel),
		SCRATCH_TEST(lists_and_points),
		SCRATCH_TEST(long_texts_and_lists),
		SCRATCH_TEST(names_are_looked_up),
		SCRATCH_TEST(lists_grow_from_file_to_file),
		SCRATCH_TEST(groups_stand_once),
		SCRATCH_TEST(wrong_unit),
		SCRATCH_TEST(all_faults_at_once),
		SCRATCH_TEST(places_are_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
