/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where rules of the neck meet or run out: the corner at the nut, shafts that
 * thin behind the last station, sections that follow each other closely, and
 * figures that are no numbers. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/neck.h"
#include "model/neck_check.h"
#include "model/taper.h"
#include "support/near.h"
#include "support/sample_job.h"

static struct neck_spec steel(void)
{
	return sample_steel_job().neck;
}

/* The width has a corner at the nut: level in front of it, straight to the
 * second stated width behind it. No smoothing may reach past the corner. */
static void edges_are_straight_from_the_nut(void **state)
{
	(void)state;
	struct neck_spec spec = steel();
	struct neck *neck = sample_neck_built(&spec);

	for (int side = 0; side < SIDE_COUNT; side++) {
		enum neck_side s = (enum neck_side)side;
		assert_between(neck_edge_straightness_mm(neck, s, 0.0, 200.0), 0.0, 1e-6,
			       "edge from the nut to 200 mm, mm");
		for (double x = 0.0; x < 14.0; x += 0.125)
			assert_near(neck_half_breadth_mm(neck, s, x, 0.0),
				    taper_wood_half_width_mm(&spec, x), 1e-7, "half-width, mm");
	}
	neck_free(neck);
}

/* Stations at the frets 0, 4 and 5 with these thicknesses over the fretboard. */
static struct neck_spec thinning(double nut_mm, double fret4_mm, double fret5_mm)
{
	const double fret[] = { 0, 4, 5 }, thick_mm[] = { nut_mm, fret4_mm, fret5_mm };
	struct neck_spec spec = steel();

	spec.station_count = 3;
	for (int i = 0; i < 3; i++) {
		spec.station[i] = spec.station[0];
		spec.station[i].fret = fret[i];
		spec.station[i].thickness_mm = thick_mm[i];
	}
	spec.channel.width_mm = 0;
	return spec;
}

/* Behind its last station a shaft goes on as it ended. Where that leads to too
 * little wood before the heel begins, the design is refused; where it does not,
 * enough wood stands everywhere. */
static void thinning_shaft_keeps_its_wood(void **state)
{
	(void)state;
	int refused = 0, accepted = 0;

	for (double fret5 = 24.0; fret5 >= 17.0; fret5 -= 0.25) {
		struct neck_spec spec = thinning(24, 24, fret5);
		struct fault_list faults = { 0 };
		struct neck *neck = NULL;
		double least = INFINITY;
		if (neck_build(&neck, &spec, &faults) != FAULT_NONE) {
			assert_string_equal(faults.record[0].setting, "stations");
			assert_int_equal(faults.record[0].code, FAULT_GEOMETRY);
			refused++;
			continue;
		}
		/* once refused, a thinner one is refused as well */
		assert_int_equal(refused, 0);
		accepted++;
		for (double x = 0; x < neck_to_mm(neck); x += 0.25)
			least = fmin(least, neck_crest_mm(neck, x) - neck_base_mm(neck, x));
		assert_between(least, NECK_LEAST_WOOD_MM, 18.0, "least wood, mm");
		neck_free(neck);
	}
	assert_true(refused > 5 && accepted > 3);
}

/* What the half-breadth grows by from one level to the next higher one, the
 * most of it anywhere on the shaft. */
static double worst_growth_mm(const struct neck *neck)
{
	double worst = 0.0;
	size_t levels;
	const double *level = neck_levels(neck, &levels);

	for (double x = 0; x < neck_heel_start_mm(neck); x += 0.5)
		for (size_t i = 1; i < levels; i++)
			for (int side = 0; side < SIDE_COUNT; side++) {
				enum neck_side s = (enum neck_side)side;
				double above = neck_half_breadth_mm(neck, s, x, level[i]);
				double below = neck_half_breadth_mm(neck, s, x, level[i - 1]);
				worst = fmax(worst, above - below);
			}
	return worst;
}

/* Waterlines of three or more different sections in a row do not cross: the
 * section would fold under itself there. */
static void sections_in_a_row_do_not_fold(void **state)
{
	(void)state;
	static const double fret[] = { 0, 3, 5, 7, 9 };
	static const struct section_spec rows[][5] = {
		{ { SECTION_D, 2.1, 0.6, 0, { 0 } },
		  { SECTION_D, 2.0, 0.1, 0, { 0 } },
		  { SECTION_U, 3.0, 0, 0, { 0 } },
		  { SECTION_U, 3.0, 0, 0, { 0 } },
		  { SECTION_U, 3.0, 0, 0, { 0 } } },
		{ { SECTION_V, 0, 0, 3, { 0 } },
		  { SECTION_U, 5.0, 0, 0, { 0 } },
		  { SECTION_V, 0, 0, 3, { 0 } },
		  { SECTION_D, 2.0, 0.8, 0, { 0 } },
		  { SECTION_C, 2.0, 0, 0, { 0 } } },
	};

	for (size_t r = 0; r < sizeof rows / sizeof *rows; r++)
		for (size_t count = 3; count <= 5; count++) {
			struct neck_spec spec = steel();
			spec.station_count = count;
			for (size_t i = 0; i < count; i++) {
				spec.station[i].fret = fret[i];
				spec.station[i].thickness_mm = 21.0 + 0.5 * (double)i;
				spec.station[i].bass = rows[r][i];
				spec.station[i].treble = rows[r][i > 0 ? i - 1 : 1];
			}
			struct neck *neck = sample_neck_built(&spec);
			assert_between(worst_growth_mm(neck), 0.0, 1e-5, "growth upward, mm");
			neck_free(neck);
		}
}

/* Whatever figure is no number, it is refused, even where no rule compares it
 * with another. */
static void figures_that_are_no_numbers(void **state)
{
	(void)state;
	static const struct {
		size_t place;
		const char *name;
	} figures[] = {
#define FIGURE(member) { offsetof(struct neck_spec, member), #member }
		FIGURE(scale_length_mm),
		FIGURE(joint_fret),
		FIGURE(nut_width_mm),
		FIGURE(width_fret),
		FIGURE(width_mm),
		FIGURE(fretboard_thickness_mm),
		FIGURE(side_margin_mm),
		FIGURE(station[0].fret),
		FIGURE(station[0].thickness_mm),
		FIGURE(station[1].thickness_mm),
		FIGURE(station[0].bass.fullness),
		FIGURE(station[0].bass.flat_share),
		FIGURE(station[1].treble.apex_radius_mm),
		FIGURE(heel.height_mm),
		FIGURE(heel.cap_length_mm),
		FIGURE(heel.cap_width_front_mm),
		FIGURE(heel.cap_width_back_mm),
		FIGURE(heel.hollow_mm),
		FIGURE(heel.nose_radius_mm),
		FIGURE(heel.nose_angle_rad),
		FIGURE(peghead.angle_rad),
		FIGURE(peghead.thickness_mm),
		FIGURE(peghead.width_mm),
		FIGURE(peghead.transition_mm),
		FIGURE(peghead.length_mm),
		FIGURE(peghead.flare_mm),
		FIGURE(peghead.volute_height_mm),
		FIGURE(channel.width_mm),
		FIGURE(channel.depth_mm),
		FIGURE(channel.from_mm),
		FIGURE(channel.to_mm),
		FIGURE(channel.least_wood_mm),
		FIGURE(allowance.back_mm),
		FIGURE(allowance.sides_mm),
		FIGURE(allowance.heel_cheeks_mm),
		FIGURE(allowance.transitions_mm),
		FIGURE(allowance.side_height_mm),
#undef FIGURE
	};
	static const double values[] = { NAN, -INFINITY };

	for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
		for (size_t v = 0; v < sizeof values / sizeof *values; v++) {
			struct neck_spec spec = steel();
			struct fault_list faults = { 0 };
			struct neck *neck = NULL;
			memcpy((char *)&spec + figures[i].place, &values[v], sizeof(double));
			if (neck_build(&neck, &spec, &faults) == FAULT_NONE)
				fail_msg("%s = %g is accepted", figures[i].name, values[v]);
			assert_null(neck);
			assert_true(faults.count >= 1);
		}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(edges_are_straight_from_the_nut),
		cmocka_unit_test(thinning_shaft_keeps_its_wood),
		cmocka_unit_test(sections_in_a_row_do_not_fold),
		cmocka_unit_test(figures_that_are_no_numbers),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
