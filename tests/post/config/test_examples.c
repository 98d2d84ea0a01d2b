/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The examples and the shop's files that come with the program. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/mem.h"
#include "config/read.h"
#include "model/neck.h"
#include "support/near.h"
#include "support/scratch.h"

struct example {
	struct job job;
	struct neck *neck;
};

/* Reads and builds an example; fails the test unless all of it is good. */
static void open_example(struct example *example, const char *path)
{
	struct config_places places = { 0 };
	struct fault_list faults = { 0 };

	enum fault code = config_load(&example->job, &places, path, &faults);
	if (!code)
		code = neck_build(&example->neck, &example->job.neck, &faults);
	if (!code)
		code = job_check(&example->job, &faults);
	config_places_free(&places);
	if (code)
		fail_msg("%s: %s", faults.record[0].setting, faults.record[0].message);
}

/* What every example keeps: no station of its own bends the crest. */
static void check_straight(const struct example *example)
{
	const struct neck *neck = example->neck;
	double from = neck_fret_x_mm(neck, example->job.neck.station[0].fret);
	double to = fmin(neck_fret_x_mm(neck, 11), neck_heel_start_mm(neck));

	assert_near(neck_crest_straightness_mm(neck, from, to), 0, 0.01, "crest, mm");
	assert_true(neck_least_wood_over_channel_mm(neck, &to) >=
		    example->job.neck.channel.least_wood_mm);
}

static void steel_string(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/steel-string/neck.cfg");
	check_straight(&e);
	/* common practice: finished 21 and 24 mm, fret 14 by equal temperament */
	assert_near(neck_stated_thickness_mm(e.neck, 0), 21, 1e-9, "at the nut, mm");
	assert_near(neck_stated_thickness_mm(e.neck, neck_fret_x_mm(e.neck, 11)), 24, 1e-9,
		    "at the 11th fret, mm");
	assert_near(neck_to_mm(e.neck), 357.773891502, 1e-6, "body joint, mm");
	assert_near(neck_asymmetry_mm(e.neck), 0, 1e-9, "sides, mm");
	assert_near(neck_fretboard_width_mm(e.neck, neck_fret_x_mm(e.neck, 11)), 53.112990, 1e-5,
		    "width at the 11th fret, mm");
	neck_free(e.neck);
}

static void small_body(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/small-body/neck.cfg");
	check_straight(&e);
	assert_near(e.job.neck.scale_length_mm, 628.65, 1e-9, "24.75 in, mm");
	assert_near(e.job.cutter[0].ball_diameter_mm, 12.7, 0, "cutter stated in mm");
	assert_int_equal(e.job.machine.program_unit, UNIT_INCH);
	assert_near(neck_to_mm(e.neck), 314.325, 1e-6, "body joint, mm");
	assert_true(neck_asymmetry_mm(e.neck) > 0.05);
	neck_free(e.neck);
}

static void traced(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/traced/neck.cfg");
	assert_int_equal(e.job.neck.hand, HAND_LEFT);
	for (size_t i = 0; i < e.job.neck.station_count; i++) {
		assert_int_equal(e.job.neck.station[i].bass.family, SECTION_MEASURED);
		assert_int_equal(e.job.neck.station[i].treble.family, SECTION_MEASURED);
	}
	assert_true(neck_asymmetry_mm(e.neck) > 1.0);
	neck_free(e.neck);
}

static void tall_heel(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/tall-heel/neck.cfg");
	check_straight(&e);
	assert_near(e.job.neck.heel.height_mm, 92, 0, "heel, mm");
	assert_near(e.job.cutter[0].stickout_mm, 50, 0, "stickout, mm");
	assert_near(e.job.cutter[0].overall_length_mm, 75, 0, "whole cutter, mm");
	assert_int_equal(e.job.cutter[0].part_count, 2);
	assert_near(e.job.cutter[0].part[1].diameter_mm, 104, 0, "spindle's body, mm");
	assert_near(e.job.cutter[0].part[1].length_mm, 150, 0, "its length, mm");
	assert_near(e.job.machine.z_gap_mm, 235, 0, "under the spindle, mm");
	neck_free(e.neck);
}

static void bolt_on(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/bolt-on/neck.cfg");
	check_straight(&e);
	assert_int_equal(e.job.neck.heel.kind, HEEL_FLAT);
	assert_near(neck_crest_mm(e.neck, neck_to_mm(e.neck) - 1), 19, 1e-9, "slab, mm");
	neck_free(e.neck);
}

static void set_neck(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/set-neck/neck.cfg");
	check_straight(&e);
	assert_int_equal(e.job.neck.heel.kind, HEEL_SET);
	/* 628.65 (1 - 2^(-16/12)) = 379.17: the joint; the tenon is 70 long */
	assert_near(neck_to_mm(e.neck), 379.17 + 70.0, 5e-3, "end of the tenon, mm");
	assert_near(neck_crest_mm(e.neck, 400), 32, 1e-9, "depth of the tenon, mm");
	assert_near(neck_half_breadth_mm(e.neck, SIDE_PLUS, 440, 0.5), 21, 1e-6, "tenon, mm");
	neck_free(e.neck);
}

static void two_balls(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/two-balls/neck.cfg");
	assert_int_equal(e.job.cutter_count, 2);
	assert_near(e.job.cutter[0].ball_diameter_mm, 12.7, 0, "first ball, mm");
	assert_near(e.job.cutter[1].ball_diameter_mm, 6.0, 0, "second ball, mm");
	assert_near(neck_to_mm(e.neck), 310.0, 1e-6, "body joint, half of 620 mm at fret 12");
	neck_free(e.neck);
}

static void glued_fretboard(void **state)
{
	struct example e = { 0 };

	(void)state;
	open_example(&e, "examples/glued-fretboard/neck.cfg");
	check_straight(&e);
	assert_near(job_rest_mm(&e.job), -7.2, 1e-12, "6 of board on 1.2 of frets, mm");
	assert_near(job_bed_mm(&e.job), -17.2, 1e-12, "bed, mm");
	assert_int_equal(e.job.fixture.keep_out[1].shape, PLACE_CYLINDER);
	/* 628.65 (1 - 2^(-16/12)) + 75, the heel's end; on the bed */
	assert_near(e.job.fixture.work_zero_mm.x, 628.65 * (1.0 - exp2(-16.0 / 12.0)) + 75.0, 1e-9,
		    "zero, mm");
	assert_near(e.job.fixture.work_zero_mm.z, -17.2, 1e-12, "zero, mm");
	neck_free(e.neck);
}

/* Writes the steel-string example with other choices and includes that lead
 * back to the shop's files. */
static void write_choice(const char *folder, const char *machine, const char *cutter,
			 const char *wood)
{
	char here[SCRATCH_ROOM], head[4096], *whole;
	char *text = scratch_read("examples/steel-string", "neck.cfg");

	assert_non_null(text);
	assert_non_null(getcwd(here, sizeof here));
	const char *rest = strstr(text, "\nneck = {");
	assert_non_null(rest);
	(void)snprintf(head, sizeof head,
		       "@include \"%s/configs/machines.cfg\"\n@include \"%s/configs/cutters.cfg\"\n"
		       "@include \"%s/configs/woods.cfg\"\n"
		       "use = { machine = \"%s\"; cutter = \"%s\"; wood = \"%s\"; };\n",
		       here, here, here, machine, cutter, wood);
	whole = mem_array(strlen(head) + strlen(rest) + 1, 1);
	assert_non_null(whole);
	(void)sprintf(whole, "%s%s", head, rest);
	scratch_write(folder, "neck.cfg", whole);
	free(whole);
	free(text);
}

/* Every machine, cutter and wood of the shop's files can be chosen, and suits
 * the others. */
static void the_shop_is_in_order(void **state)
{
	static const char *const cutters[] = { "ball 6", "ball 6, long reach", "ball 12",
					       "ball 12.7", "ball 12.7, long reach" };
	static const double balls_mm[] = { 6, 6, 12, 12.7, 12.7 };
	static const char *const woods[] = { "sugar maple", "black cherry", "black walnut",
					     "mahogany", "Spanish cedar" };
	static const char *const machines[] = { "bench gantry 300 W", "cabinet router 1500 W" };

	for (int i = 0; i < 10; i++) {
		struct example e = { 0 };
		char path[SCRATCH_ROOM];
		write_choice(*state, machines[i % 2], cutters[i / 2], woods[i / 2]);
		open_example(&e, scratch_path(path, *state, "neck.cfg"));
		assert_near(e.job.cutter[0].ball_diameter_mm, balls_mm[i / 2], 0, "ball, mm");
		assert_string_equal(e.job.wood.name, woods[i / 2]);
		assert_string_equal(e.job.machine.name, machines[i % 2]);
		/* below this a cutter rubs and burns (rule of thumb, from memory) */
		assert_between(e.job.cutter[0].chip_load_mm, 0.05, 0.25, "chip load, mm");
		neck_free(e.neck);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(steel_string),
		cmocka_unit_test(small_body),
		cmocka_unit_test(bolt_on),
		cmocka_unit_test(tall_heel),
		cmocka_unit_test(set_neck),
		cmocka_unit_test(two_balls),
		cmocka_unit_test(traced),
		cmocka_unit_test(glued_fretboard),
		cmocka_unit_test_setup_teardown(the_shop_is_in_order, scratch_make, scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
