/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole neck file for the tests of the reader, and how they load it with one
 * thing changed. Included after the standard headers and cmocka. */
#ifndef NECKHEW_TESTS_NECK_FILE_H
#define NECKHEW_TESTS_NECK_FILE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "config/read.h"
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

#define SCRATCH_TEST(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

#endif
