/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Neck file to job: values, units, defaults. */
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
	assert_near(l.job.cutter[0].chip_load_mm, 0.12, 0, "chip load of the wood, mm");
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
	assert_near(l.job.cutter[0].ramp_angle_rad, 8 * PI / 180, 1e-15, "ramp, rad");
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

static void measured_sides(void **state)
{
	struct loaded l;
	const char *const more = "shape = \"measured\"; outline = ((0, 1), (0.5, 0.9), "
				 "[0.8, 0.6], (1, 0));";

	write_changed(*state, "", "shape = \"D\";", more, "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	const struct station_spec *far = &l.job.neck.station[1];
	assert_int_equal(l.job.neck.station[0].bass.outline.count, 0);
	assert_int_equal(far->bass.family, SECTION_C);
	assert_int_equal(far->treble.family, SECTION_MEASURED);
	assert_int_equal(far->treble.outline.count, 4);
	assert_near(far->treble.outline.height[2], 0.8, 0, "height, share");
	assert_near(far->treble.outline.breadth[2], 0.6, 0, "half-width, share");
	assert_near(far->treble.outline.breadth[0], 1.0, 0, "a whole number is a share too");
	write_changed(*state, "", "bass = { shape = \"C\"; }",
		      "bass = { shape = \"measured\"; outline = ((0, 1), (0.1, 1), (0.6, 0.8), "
		      "(0.9, 0.3), (1, 0)); }",
		      "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	far = &l.job.neck.station[1];
	assert_int_equal(far->bass.outline.count, 5);
	assert_int_equal(far->treble.outline.count, 0);
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

static void a_joint_stands_in_the_heel(void **state)
{
	struct loaded l;

	write_changed(
		*state, "", "height = 82;",
		"height = 82; joint = { kind = \"tenon\"; length = 18; width = 20; top = 70; };",
		"");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(l.job.neck.heel.joint.kind, JOINT_TENON);
	assert_near(l.job.neck.heel.joint.length_mm, 18, 0, "length, mm");
	assert_near(l.job.neck.heel.joint.width_mm, 20, 0, "width, mm");
	assert_near(l.job.neck.heel.joint.bottom_mm, 0, 0, "bottom by default, mm");
	assert_near(l.job.neck.heel.joint.top_mm, 70, 0, "top, mm");
	scratch_write(*state, "neck.cfg", whole);
	load(&l, *state);
	assert_int_equal(l.job.neck.heel.joint.kind, JOINT_NONE);
}

static void keep_outs_are_boxes_or_cylinders(void **state)
{
	struct loaded l;

	write_changed(
		*state, "", "hold = (",
		"keep_out = ( { name = \"clamp\"; x_from = 1; x_to = 2; y_from = 30; y_to = 40; "
		"top = 9; }, { shape = \"cylinder\"; name = \"screw\"; x_centre = 100; "
		"y_centre = -40; diameter = 9; top = 12; }, { shape = \"box\"; name = \"b\"; "
		"x_from = 1; x_to = 2; y_from = 3; y_to = 4; top = 5; } ); hold = (",
		"");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(l.job.fixture.keep_out_count, 3);
	assert_int_equal(l.job.fixture.keep_out[0].shape, PLACE_BOX);
	assert_near(l.job.fixture.keep_out[0].y_to_mm, 40, 0, "box, mm");
	const struct place *screw = &l.job.fixture.keep_out[1];
	assert_int_equal(screw->shape, PLACE_CYLINDER);
	assert_string_equal(screw->name, "screw");
	assert_near(screw->x_from_mm, 95.5, 0, "from, mm");
	assert_near(screw->x_to_mm, 104.5, 0, "to, mm");
	assert_near(screw->y_from_mm, -44.5, 0, "from, mm");
	assert_near(screw->y_to_mm, -35.5, 0, "to, mm");
	assert_near(screw->top_mm, 12, 0, "top, mm");
	assert_int_equal(l.job.fixture.keep_out[2].shape, PLACE_BOX);
	assert_near(l.job.fixture.keep_out[2].top_mm, 5, 0, "top, mm");
	assert_false(l.job.fixture.fretboard.glued);
	assert_false(l.job.fixture.zero.by_words);
}

static void a_fretboard_may_be_on(void **state)
{
	struct loaded l;

	write_changed(*state, "", "hold = (",
		      "fretboard = { glued = true; overhang = 6; }; hold = (", "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_true(l.job.fixture.fretboard.glued);
	assert_near(l.job.fixture.fretboard.clearance_mm, 0.3, 0, "clearance by default, mm");
	assert_near(l.job.fixture.fretboard.overhang_mm, 6, 0, "overhang, mm");
	assert_near(l.job.fixture.fretboard.shim_mm, 0, 0, "no shim by default, mm");
}

static void zero_comes_in_figures_or_words(void **state)
{
	struct loaded l;

	write_changed(*state, "", "hold = (", "work_zero = (1, 2, 3); hold = (", "");
	load(&l, *state);
	assert_false(l.job.fixture.zero.by_words);
	assert_near(l.job.fixture.work_zero_mm.z, 3, 0, "as given, mm");
	write_changed(*state, "", "hold = (",
		      "zero = { height = \"bed\"; along = \"heel\"; }; hold = (", "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_true(l.job.fixture.zero.by_words);
	/* fret 14 of 645.16; a riser of 14 */
	assert_near(l.job.fixture.work_zero_mm.x, 357.773891502, 1e-8, "the joint, mm");
	assert_near(l.job.fixture.work_zero_mm.y, 0, 0, "centre line, mm");
	assert_near(l.job.fixture.work_zero_mm.z, -14, 0, "the bed, mm");
	write_changed(*state, "", "hold = (",
		      "zero = { height = \"blank top\"; top_at = 357; }; hold = (", "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_near(l.job.fixture.work_zero_mm.x, 0, 0, "the nut by default, mm");
	assert_near(l.job.fixture.work_zero_mm.z, 30.5, 1e-12, "the blank's top there, mm");
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

/* The neck file with a list of two cutters and a use that names both. */
static void write_two_cutters(const char *folder, const char *then)
{
	char both[2 * TEXT_ROOM], cutters[TEXT_ROOM];

	scratch_write(folder, "cutters.cfg",
		      "cutters = ({ name = \"large\"; ball_diameter = 12.7; flute_length = 50;\n"
		      "shank_diameter = 12; stickout = 100; holder_diameter = 42;\n"
		      "holder_length = 40; flutes = 2; depth_limit = 5; stepover_limit = 5;\n"
		      "chip_load = { soft = 0.14; medium = 0.12; hard = 0.10; };\n"
		      "plunge_feed = 800; spindle_rpm = 14000; },\n"
		      "{ name = \"small\"; ball_diameter = 6; flute_length = 30;\n"
		      "shank_diameter = 6; stickout = 60; holder_diameter = 20;\n"
		      "holder_length = 25; flutes = 2; depth_limit = 2; stepover_limit = 2.5;\n"
		      "chip_load = { soft = 0.08; medium = 0.07; hard = 0.06; };\n"
		      "plunge_feed = 400; spindle_rpm = 16000; });\n");
	const char *own = strstr(whole, "cutter = {"), *after = strstr(own, "wood = {");
	(void)snprintf(cutters, sizeof cutters,
		       "@include \"cutters.cfg\"\nuse = { cutter = \"large\"; %s };\n", then);
	(void)snprintf(both, sizeof both, "%.*s%s%s", (int)(own - whole), whole, cutters, after);
	scratch_write(folder, "neck.cfg", both);
}

static void later_cutters_follow(void **state)
{
	struct loaded l;

	write_two_cutters(*state, "then = ({ cutter = \"small\"; });");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_NONE);
	assert_int_equal(l.job.cutter_count, 2);
	assert_string_equal(l.job.cutter[0].name, "large");
	assert_string_equal(l.job.cutter[1].name, "small");
	assert_near(l.job.cutter[1].ball_diameter_mm, 6.0, 0, "ball, mm");
	assert_near(l.job.cutter[1].chip_load_mm, 0.07, 0, "chip load of the job's wood, mm");

	write_two_cutters(*state, "then = ({ cutter = \"smell\"; });");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_SETTING);
	assert_string_equal(l.faults.record[0].setting, "use.then[0].cutter");
	assert_non_null(strstr(l.faults.record[0].message, "\"small\""));
}

static void assert_cutting(const struct loaded *l, enum neck_stretch stretch, enum cut_lines lines,
			   enum cut_way way, enum cut_grain grain)
{
	const struct cutting *cutting = &l->job.cutting[stretch];

	assert_int_equal(l->code, FAULT_NONE);
	assert_int_equal(cutting->lines, lines);
	assert_int_equal(cutting->way, way);
	assert_int_equal(cutting->grain, grain);
}

/* What a stretch does not say the whole neck says, and the usual is both ways. */
static void stretches_inherit_from_the_whole_neck(void **state)
{
	struct loaded l;

	write_changed(*state, "", "carve =", "carve =", "");
	load(&l, *state);
	for (int i = 0; i < STRETCH_COUNT; i++)
		assert_cutting(&l, (enum neck_stretch)i, CUT_LENGTHWISE, CUT_BOTH_WAYS,
			       CUT_ANY_GRAIN);
	write_changed(
		*state, "", "carve =",
		"cutting = { way = \"climb\"; nose = { grain = \"downhill\"; way = \"both\"; };\n"
		"heel = { way = \"conventional\"; }; peghead = { lines = \"crosswise\"; };\n"
		"shaft = {}; };\ncarve =",
		"");
	load(&l, *state);
	assert_cutting(&l, STRETCH_PEGHEAD, CUT_CROSSWISE, CUT_CLIMB, CUT_ANY_GRAIN);
	assert_cutting(&l, STRETCH_SHAFT, CUT_LENGTHWISE, CUT_CLIMB, CUT_ANY_GRAIN);
	assert_cutting(&l, STRETCH_NOSE, CUT_LENGTHWISE, CUT_BOTH_WAYS, CUT_DOWNHILL);
	assert_cutting(&l, STRETCH_HEEL, CUT_LENGTHWISE, CUT_CONVENTIONAL, CUT_ANY_GRAIN);
	write_changed(*state, "",
		      "carve =", "cutting = { nose = { way = \"up\"; }; };\ncarve =", "");
	load(&l, *state);
	assert_int_equal(l.code, FAULT_SETTING);
	assert_string_equal(l.faults.record[0].setting, "cutting.nose.way");
	assert_non_null(strstr(l.faults.record[0].message, "\"conventional\""));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		SCRATCH_TEST(values_reach_the_job),
		SCRATCH_TEST(defaults_fill_the_rest),
		SCRATCH_TEST(sides_inherit_from_their_station),
		SCRATCH_TEST(measured_sides),
		SCRATCH_TEST(flat_heel),
		SCRATCH_TEST(a_joint_stands_in_the_heel),
		SCRATCH_TEST(keep_outs_are_boxes_or_cylinders),
		SCRATCH_TEST(a_fretboard_may_be_on),
		SCRATCH_TEST(zero_comes_in_figures_or_words),
		SCRATCH_TEST(each_file_has_its_own_unit),
		SCRATCH_TEST(inches_convert_lengths_and_feeds_only),
		SCRATCH_TEST(places_are_told),
		SCRATCH_TEST(later_cutters_follow),
		SCRATCH_TEST(stretches_inherit_from_the_whole_neck),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
