/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fret positions and the fretboard's edges. Source: twelve-tone equal
 * temperament, x = L (1 - 2^(-n/12)), any acoustics text (from memory); the
 * figures were worked out with 40 digits. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/neck.h"
#include "model/taper.h"
#include "support/near.h"

/* 17.817..., the figure by which luthiers divide what is left of the string. */
#define FRET_DIVISOR 17.817153745105777

static const struct {
	double scale_mm, fret, x_mm;
} table[] = {
	{ 628.65, 1, 35.283413333 },   { 628.65, 11, 295.634262866 }, { 628.65, 12, 314.325 },
	{ 628.65, 14, 348.618260421 }, { 628.65, 20, 430.637657996 }, { 645.16, 1, 36.210048430 },
	{ 645.16, 11, 303.398395022 }, { 645.16, 12, 322.580 },	      { 645.16, 14, 357.773891502 },
	{ 645.16, 20, 441.947333862 }, { 647.7, 1, 36.352607676 },    { 647.7, 11, 304.592876892 },
	{ 647.7, 12, 323.850 },	       { 647.7, 14, 359.182450130 },  { 647.7, 20, 443.687283996 },
};

#define TABLE_COUNT (sizeof table / sizeof *table)

static void equal_temperament(void **state)
{
	(void)state;
	for (size_t i = 0; i < TABLE_COUNT; i++)
		assert_near(taper_fret_x_mm(table[i].scale_mm, table[i].fret), table[i].x_mm, 6e-10,
			    "fret from the nut, mm");
	assert_near(taper_fret_x_mm(645.16, 0.0), 0.0, 0.0, "fret 0 is the nut");
	assert_near(taper_fret_x_mm(645.16, 24.0), 0.75 * 645.16, 1e-12, "two octaves");
}

/* Each fret takes the same share of the string that is left. */
static void divisor_rule(void **state)
{
	(void)state;
	for (int fret = 1; fret <= 24; fret++) {
		double before = taper_fret_x_mm(628.65, fret - 1);
		assert_near(taper_fret_x_mm(628.65, fret) - before,
			    (628.65 - before) / FRET_DIVISOR, 1e-11, "step to the next fret, mm");
	}
	/* the old rule of 18 lands short of the octave */
	double left_mm = 628.65 * pow(17.0 / 18.0, 12.0);
	assert_near(taper_fret_x_mm(628.65, 12.0) - (628.65 - left_mm), 2.286, 5e-4,
		    "what the rule of 18 misses at fret 12, mm");
}

/* Half a fret up and half a fret up again is a fret. */
static void between_frets(void **state)
{
	(void)state;
	for (int quarter = 0; quarter < 88; quarter++) {
		double fret = quarter / 4.0;
		double left = 1.0 - taper_fret_x_mm(1.0, fret);
		double half = 1.0 - taper_fret_x_mm(1.0, 0.5);
		assert_near(1.0 - taper_fret_x_mm(1.0, fret + 0.5), left * half, 1e-15,
			    "string left, of 1");
	}
}

static struct neck_spec spec_of_scale(double scale_length_mm)
{
	const struct section_spec section = { .family = SECTION_C };

	return (struct neck_spec){
		.name = "fret test",
		.scale_length_mm = scale_length_mm,
		.fret_count = 20,
		.joint_fret = 14,
		.nut_width_mm = 43.7,
		.width_fret = 14,
		.width_mm = 54.8,
		.fretboard_thickness_mm = 6.0,
		.over_fretboard = true,
		.station_count = 2,
		.station = { { .fret = 1, .thickness_mm = 21, .bass = section, .treble = section },
			     { .fret = 9,
			       .thickness_mm = 23.5,
			       .bass = section,
			       .treble = section } },
		.heel = { .kind = HEEL_BLOCK,
			  .height_mm = 80,
			  .cap_length_mm = 15,
			  .cap_width_front_mm = 25,
			  .cap_width_back_mm = 28,
			  .hollow_mm = 1,
			  .nose_radius_mm = 25,
			  .nose_angle_rad = units_rad_from_deg(75) },
		.peghead = { .angle_rad = units_rad_from_deg(14),
			     .thickness_mm = 15,
			     .width_mm = 70,
			     .transition_mm = 25,
			     .length_mm = 30,
			     .flare_mm = 20 },
		.allowance = { .back_mm = 1,
			       .sides_mm = 0.5,
			       .heel_cheeks_mm = 1,
			       .transitions_mm = 1,
			       .side_height_mm = 3 },
	};
}

static void neck_knows_its_frets(void **state)
{
	(void)state;
	for (size_t i = 0; i < TABLE_COUNT; i++) {
		struct neck_spec spec = spec_of_scale(table[i].scale_mm);
		struct neck *neck = NULL;
		assert_int_equal(neck_build(&neck, &spec, NULL), FAULT_NONE);
		assert_near(neck_fret_x_mm(neck, table[i].fret), table[i].x_mm, 6e-10,
			    "fret from the nut, mm");
		neck_free(neck);
	}
}

static void widths_at_frets(void **state)
{
	(void)state;
	struct neck_spec spec = spec_of_scale(645.16);
	double x11 = taper_fret_x_mm(645.16, 11), x12 = taper_fret_x_mm(645.16, 12);

	spec.side_margin_mm = 0.3;
	assert_near(taper_fretboard_width_mm(&spec, 0.0), 43.7, 1e-12, "at the nut, mm");
	assert_near(taper_fretboard_width_mm(&spec, x11), 53.112990, 5e-7, "at fret 11, mm");
	assert_near(taper_fretboard_width_mm(&spec, x12), 53.708103, 5e-7, "at fret 12, mm");
	assert_near(taper_fretboard_width_mm(&spec, taper_fret_x_mm(645.16, 14)), 54.8, 1e-12,
		    "where it was stated, mm");
	assert_near(taper_fretboard_width_mm(&spec, -10.0), 43.7, 0.0, "in front of the nut, mm");
	assert_near(taper_wood_half_width_mm(&spec, x11), 53.112990 / 2.0 - 0.3, 3e-7,
		    "half the wood at fret 11, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(equal_temperament), cmocka_unit_test(divisor_rule),
		cmocka_unit_test(between_frets),     cmocka_unit_test(neck_knows_its_frets),
		cmocka_unit_test(widths_at_frets),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
