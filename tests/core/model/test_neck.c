/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished neck by its builder's figures. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "base/units.h"
#include "model/neck.h"
#include "model/section.h"
#include "model/taper.h"
#include "support/near.h"
#include "support/sample_job.h"

static struct neck_spec steel(void)
{
	return sample_steel_job().neck;
}

static void straight_edges_and_crest(void **state)
{
	(void)state;
	struct neck_spec spec = steel();
	struct neck *neck = sample_neck_built(&spec);
	double x11 = neck_fret_x_mm(neck, 11);

	assert_between(neck_crest_straightness_mm(neck, 0.0, x11), 0.0, 1e-6, "crest, mm");
	for (int side = 0; side < SIDE_COUNT; side++)
		assert_between(neck_edge_straightness_mm(neck, (enum neck_side)side, 0.0,
							 neck_to_mm(neck)),
			       0.0, 1e-6, "edge from the nut on, mm");
	/* a query that can see a bend: the nose is one */
	assert_true(neck_crest_straightness_mm(neck, 0.0, neck_to_mm(neck)) > 20.0);
	neck_free(neck);
}

static void thickness_and_width_at_stations(void **state)
{
	(void)state;
	struct neck_spec spec = steel();
	struct neck *neck = sample_neck_built(&spec);
	double x11 = neck_fret_x_mm(neck, 11);

	assert_near(neck_stated_thickness_mm(neck, 0.0), 21.0, 1e-9, "at the nut, mm");
	assert_near(neck_stated_thickness_mm(neck, x11), 24.0, 1e-9, "at the 11th fret, mm");
	assert_near(neck_crest_mm(neck, x11), 18.0, 1e-9, "wood at the 11th fret, mm");
	/* straight edges from 43.7 at the nut to 54.8 at the 14th fret */
	assert_near(2.0 * neck_half_breadth_mm(neck, SIDE_PLUS, x11, 0.0), 53.112990, 1e-6,
		    "width at the 11th fret, mm");
	assert_near(neck_fretboard_width_mm(neck, x11), 53.112990, 1e-6, "fretboard, mm");
	assert_near(neck_to_mm(neck), 357.773891502, 1e-6, "body joint, mm");
	assert_near(neck_from_mm(neck), -83.0, 1e-9, "end of the modelled peghead, mm");
	neck_free(neck);
}

static double distance_to_outline(const double *y, const double *z, size_t count, double py,
				  double pz)
{
	double least = INFINITY;

	for (size_t i = 0; i + 1 < count; i++) {
		double dy = y[i + 1] - y[i], dz = z[i + 1] - z[i], length2 = dy * dy + dz * dz;
		double t = length2 > 0.0 ? ((py - y[i]) * dy + (pz - z[i]) * dz) / length2 : 0.0;
		t = fmin(fmax(t, 0.0), 1.0);
		least = fmin(least, hypot(py - y[i] - t * dy, pz - z[i] - t * dz));
	}
	return least;
}

/* The outline of a station lies within TOL_SECTION_MM of its family. */
static void sections_follow_their_families(void **state)
{
	(void)state;
	static const struct section_spec sections[] = {
		{ SECTION_C, 2.0, 0, 0, { 0 } },   { SECTION_U, 3.5, 0, 0, { 0 } },
		{ SECTION_D, 2.5, 0.4, 0, { 0 } }, { SECTION_V, 0, 0, 4.0, { 0 } },
		{ SECTION_U, 5.0, 0, 0, { 0 } },
	};

	for (size_t s = 0; s < sizeof sections / sizeof *sections; s++) {
		struct neck_spec spec = steel();
		struct section section;
		size_t count;
		double *y, *z, half = 43.7 / 2.0;
		spec.station[0].bass = spec.station[0].treble = sections[s];
		spec.station[1].bass = spec.station[1].treble = sections[s];
		struct neck *neck = sample_neck_built(&spec);
		assert_int_equal(section_make(&section, &sections[s], half, 15.0, "", NULL), 0);
		assert_int_equal(neck_section(neck, 0.0, &count, &y, &z, NULL), FAULT_NONE);
		for (int i = 0; i <= 2000; i++) {
			double v = sin(PI / 2.0 * i / 2000.0);
			double off = distance_to_outline(
				y, z, count, half * section_share(&section, v), 15.0 * v);
			assert_between(off, 0.0, TOL_SECTION_MM, "outline off its formula, mm");
		}
		free(y);
		free(z);
		neck_free(neck);
	}
}

/* Bass edge first, over the crest, to the treble edge. */
static void section_outline_runs_from_bass_to_treble(void **state)
{
	(void)state;
	for (int hand = 0; hand < 2; hand++) {
		struct neck_spec spec = steel();
		size_t count, levels;
		double *y, *z, sign = hand == 0 ? 1.0 : -1.0;
		spec.hand = hand == 0 ? HAND_RIGHT : HAND_LEFT;
		struct neck *neck = sample_neck_built(&spec);
		(void)neck_levels(neck, &levels);
		assert_int_equal(neck_section(neck, 100.0, &count, &y, &z, NULL), FAULT_NONE);
		assert_int_equal(count, 2 * levels);
		assert_near(y[0], sign * taper_wood_half_width_mm(&spec, 100.0), 1e-9, "bass, mm");
		assert_near(y[count - 1], -y[0], 1e-9, "treble edge, mm");
		assert_near(z[0], 0.0, 0.0, "gluing face, mm");
		assert_near(z[count - 1], 0.0, 0.0, "gluing face, mm");
		assert_near(z[count / 2], neck_crest_mm(neck, 100.0), 1e-12, "crest, mm");
		free(y);
		free(z);
		neck_free(neck);
	}
}

/* Nothing wider than the nut up to the peghead proper, which then opens. */
static void no_flare_before_the_peghead(void **state)
{
	(void)state;
	struct neck_spec spec = steel();
	spec.peghead.volute_height_mm = 3;
	spec.peghead.volute_length_mm = 30;
	struct neck *neck = sample_neck_built(&spec);

	for (int side = 0; side < SIDE_COUNT; side++)
		for (double x = -38.0; x <= 0.0; x += 0.1)
			for (double v = 0.0; v <= 1.0; v += 0.05)
				assert_between(neck_half_breadth_mm(neck, (enum neck_side)side, x,
								    v),
					       0.0, 43.7 / 2.0 + 1e-6, "half-breadth, mm");
	assert_true(neck_half_breadth_mm(neck, SIDE_PLUS, -45.0, 0.0) > 43.7 / 2.0 + 1.0);
	assert_near(neck_half_breadth_mm(neck, SIDE_PLUS, -60.0, 0.5), 35.0, 1e-6, "peghead, mm");
	neck_free(neck);
}

/* Flush with the fretboard below and the cap above, 1 mm hollow in between
 * (common practice, no source). */
static void heel_cheeks(void **state)
{
	(void)state;
	struct neck_spec spec = steel();
	struct neck *neck = sample_neck_built(&spec);
	double proper = neck_heel_proper_mm(neck), to = neck_to_mm(neck);

	/* behind 0.6 of the cap's length its front is round no more */
	for (double x = proper + 9.6; x <= to; x += 0.1) {
		double cap = 0.5 * (20.0 + 4.0 * (x - proper - 9.6) / 6.4);
		double wood = taper_wood_half_width_mm(&spec, x);
		for (int side = 0; side < SIDE_COUNT; side++) {
			enum neck_side s = (enum neck_side)side;
			assert_near(neck_half_breadth_mm(neck, s, x, 0.0), wood, 1e-6, "edge, mm");
			assert_near(neck_half_breadth_mm(neck, s, x, 1.0), cap, 1e-5, "cap, mm");
			assert_near((wood + cap) / 2.0 - neck_half_breadth_mm(neck, s, x, 0.5), 1.0,
				    1e-6, "hollow at mid height, mm");
		}
	}
	assert_near(neck_crest_mm(neck, to), 82.0, 1e-9, "cap, mm");
	neck_free(neck);
}

static struct neck_spec asymmetric(void)
{
	struct neck_spec spec = steel();

	for (size_t i = 0; i < spec.station_count; i++) {
		spec.station[i].bass = (struct section_spec){ .family = SECTION_U };
		spec.station[i].treble =
			(struct section_spec){ .family = SECTION_V, .apex_radius_mm = 5 };
	}
	return spec;
}

static void symmetry_and_mirror(void **state)
{
	(void)state;
	struct neck_spec spec = steel(), uneven = asymmetric(), mirrored = uneven;
	mirrored.hand = HAND_LEFT;
	struct neck *even = sample_neck_built(&spec), *right = sample_neck_built(&uneven),
		    *left = sample_neck_built(&mirrored);

	assert_near(neck_asymmetry_mm(even), 0.0, 0.0, "symmetric design, mm");
	assert_true(neck_asymmetry_mm(right) > 2.0);
	assert_near(neck_asymmetry_mm(left), neck_asymmetry_mm(right), 0.0, "mirror, mm");
	/* the fuller side is the bass: at +y right-handed, face down */
	assert_true(neck_half_breadth_mm(right, SIDE_PLUS, 100.0, 0.5) >
		    neck_half_breadth_mm(right, SIDE_MINUS, 100.0, 0.5) + 2.0);
	for (double x = -80.0; x < 357.0; x += 1.7) {
		for (double v = 0.0; v <= 1.0; v += 0.0625)
			assert_near(neck_half_breadth_mm(left, SIDE_MINUS, x, v),
				    neck_half_breadth_mm(right, SIDE_PLUS, x, v), 0.0, "mirror");
		assert_near(neck_height_mm(left, x, -9.0), neck_height_mm(right, x, 9.0), 0.0,
			    "mirrored height, mm");
	}
	neck_free(even);
	neck_free(right);
	neck_free(left);
}

/* 5/8 in of wood, 15.9, over a channel 10 deep leaves 5.9; one millimetre cut
 * too far leaves 4.9 (common practice, no source). Over the channel's width an
 * ellipse falls to h sqrt(1 - (w / 2a)^2). */
static void wood_over_the_channel(void **state)
{
	(void)state;
	struct neck_spec spec = steel();
	double at = NAN, half = 43.7 / 2.0;

	spec.over_fretboard = false;
	spec.station[0].thickness_mm = 15.9;
	spec.station[1].thickness_mm = 19.1;
	spec.channel = (struct channel_spec){ 0.02, 10, 5, 300, 3 };
	struct neck *neck = sample_neck_built(&spec);
	assert_near(neck_wood_over_channel_mm(neck, 5.0) - (3.2 * 5.0 / 303.398395), 5.9, 2e-3,
		    "under a narrow channel, mm");
	assert_true(isnan(neck_wood_over_channel_mm(neck, 4.99)));
	assert_true(isnan(neck_wood_over_channel_mm(neck, 300.01)));
	neck_free(neck);
	spec.station[0].thickness_mm = 14.9;
	spec.channel = (struct channel_spec){ 6, 10, 0, 300, 3 };
	neck = sample_neck_built(&spec);
	assert_near(neck_wood_over_channel_mm(neck, 0.0),
		    14.9 * sqrt(1.0 - 9.0 / (half * half)) - 10.0, 3e-3, "over its edge, mm");
	assert_near(neck_least_wood_over_channel_mm(neck, &at),
		    neck_wood_over_channel_mm(neck, 0.0), 0.0, "the least, mm");
	assert_near(at, 0.0, 0.0, "at the nut");
	neck_free(neck);
	spec.channel.width_mm = 0;
	neck = sample_neck_built(&spec);
	assert_true(isnan(neck_least_wood_over_channel_mm(neck, &at)));
	neck_free(neck);
}

static void zones_and_allowances(void **state)
{
	(void)state;
	struct neck_spec spec = steel();
	spec.allowance = (struct allowance_spec){ 1.0, 0.6, 0.8, 1.2, 4.0 };
	struct neck *neck = sample_neck_built(&spec);
	double start = neck_heel_start_mm(neck), proper = neck_heel_proper_mm(neck);

	assert_int_equal(neck_zone(neck, -1.0, 0.0), ZONE_TRANSITIONS);
	assert_int_equal(neck_zone(neck, 100.0, 0.9), ZONE_BACK);
	assert_int_equal(neck_zone(neck, 100.0, 3.9 / neck_crest_mm(neck, 100.0)), ZONE_SIDES);
	assert_int_equal(neck_zone(neck, 100.0, 4.1 / neck_crest_mm(neck, 100.0)), ZONE_BACK);
	assert_int_equal(neck_zone(neck, start + 5.0, 0.9), ZONE_TRANSITIONS);
	assert_int_equal(neck_zone(neck, start + 5.0, 0.01), ZONE_SIDES);
	assert_int_equal(neck_zone(neck, proper + 0.1, 0.5), ZONE_HEEL_CHEEKS);
	assert_near(neck_allowance_mm(neck, ZONE_BACK), 1.0, 0.0, "back, mm");
	assert_near(neck_allowance_mm(neck, ZONE_SIDES), 0.6, 0.0, "sides, mm");
	assert_near(neck_allowance_mm(neck, ZONE_HEEL_CHEEKS), 0.8, 0.0, "heel cheeks, mm");
	assert_near(neck_allowance_mm(neck, ZONE_TRANSITIONS), 1.2, 0.0, "transitions, mm");
	neck_free(neck);
}

static void assert_refused(const struct neck_spec *spec, enum fault code, const char *setting)
{
	struct fault_list faults = { 0 };
	struct neck *neck = NULL;

	assert_int_equal(neck_build(&neck, spec, &faults), code);
	assert_null(neck);
	assert_true(faults.count >= 1);
	assert_string_equal(faults.record[0].setting, setting);
	assert_int_equal(faults.record[0].code, code);
}

static void channel_faults(void **state)
{
	(void)state;
	struct neck_spec spec = steel();

	spec.channel.depth_mm = 0;
	assert_refused(&spec, FAULT_SETTING, "channel.depth");
	spec = steel();
	spec.channel.to_mm = -1;
	assert_refused(&spec, FAULT_GEOMETRY, "channel.to");
	spec = steel();
	spec.channel.to_mm = 359;
	assert_refused(&spec, FAULT_GEOMETRY, "channel.to");
	spec = steel();
	spec.channel.least_wood_mm = 5.5; /* 5.34 are left at the nut */
	assert_refused(&spec, FAULT_GEOMETRY, "channel.depth");
	spec.channel.least_wood_mm = 5.3;
	neck_free(sample_neck_built(&spec));
	/* at 14 of 15 mm an ellipse is 43.7 sqrt(1 - (14/15)^2) = 15.7 wide */
	spec.channel = (struct channel_spec){ 12, 14, 0, 357, 0 };
	assert_refused(&spec, FAULT_GEOMETRY, "channel.width");
	spec = steel();
	spec.channel.depth_mm = 15.5; /* through the back */
	assert_refused(&spec, FAULT_GEOMETRY, "channel.width");
}

/* Every single figure that no neck can have. */
static void figures_out_of_range(void **state)
{
	(void)state;
	static const struct {
		size_t place;
		double value;
		const char *setting;
		enum fault code;
	} cases[] = {
#define FIGURE(member) offsetof(struct neck_spec, member)
		{ FIGURE(scale_length_mm), 0, "neck.scale_length", FAULT_SETTING },
		{ FIGURE(nut_width_mm), -43, "neck.nut_width", FAULT_SETTING },
		{ FIGURE(width_mm), NAN, "neck.width", FAULT_SETTING },
		{ FIGURE(width_fret), 0, "neck.width_fret", FAULT_SETTING },
		{ FIGURE(joint_fret), INFINITY, "neck.joint_fret", FAULT_SETTING },
		{ FIGURE(joint_fret), 21, "neck.joint_fret", FAULT_GEOMETRY },
		{ FIGURE(side_margin_mm), 17, "neck.width", FAULT_GEOMETRY },
		{ FIGURE(station[0].thickness_mm), 8.9, "stations[0].thickness", FAULT_GEOMETRY },
		{ FIGURE(station[1].thickness_mm), NAN, "stations[1].thickness", FAULT_GEOMETRY },
		{ FIGURE(station[1].fret), 0, "stations[1].fret", FAULT_SETTING },
		{ FIGURE(station[0].fret), -1, "stations[0].fret", FAULT_SETTING },
		{ FIGURE(station[0].fret), 2, "stations[0].fret", FAULT_SETTING },
		{ FIGURE(station[1].treble.fullness), 2.6, "stations[1].shape", FAULT_SETTING },
		{ FIGURE(heel.height_mm), 0, "heel.height", FAULT_SETTING },
		{ FIGURE(heel.height_mm), 25, "heel.nose_radius", FAULT_GEOMETRY },
		{ FIGURE(heel.cap_length_mm), 0, "heel.cap_length", FAULT_SETTING },
		{ FIGURE(heel.cap_width_front_mm), 0, "heel.cap_width_front", FAULT_SETTING },
		{ FIGURE(heel.cap_width_back_mm), 53, "heel.hollow", FAULT_GEOMETRY },
		{ FIGURE(heel.hollow_mm), -0.1, "heel.hollow", FAULT_SETTING },
		{ FIGURE(heel.hollow_mm), 4, "heel.hollow", FAULT_GEOMETRY },
		{ FIGURE(heel.nose_radius_mm), 0, "heel.nose_radius", FAULT_SETTING },
		{ FIGURE(heel.nose_radius_mm), 25, "heel", FAULT_GEOMETRY },
		{ FIGURE(heel.nose_angle_rad), 1.5, "heel.nose_angle_deg", FAULT_SETTING },
		{ FIGURE(heel.nose_angle_rad), 0.3, "heel.nose_angle_deg", FAULT_SETTING },
		{ FIGURE(peghead.angle_rad), 0.5, "peghead.angle_deg", FAULT_SETTING },
		{ FIGURE(peghead.angle_rad), -0.1, "peghead.angle_deg", FAULT_SETTING },
		{ FIGURE(peghead.thickness_mm), 0, "peghead.thickness", FAULT_SETTING },
		{ FIGURE(peghead.width_mm), 43, "peghead.width", FAULT_GEOMETRY },
		{ FIGURE(peghead.transition_mm), 0, "peghead.transition", FAULT_SETTING },
		{ FIGURE(peghead.length_mm), 0, "peghead.length", FAULT_SETTING },
		{ FIGURE(peghead.flare_mm), 46, "peghead.flare", FAULT_GEOMETRY },
		{ FIGURE(peghead.volute_height_mm), 3, "peghead.volute_length", FAULT_GEOMETRY },
		{ FIGURE(allowance.back_mm), -0.1, "allowance.back", FAULT_SETTING },
		{ FIGURE(allowance.sides_mm), NAN, "allowance.sides", FAULT_SETTING },
		{ FIGURE(allowance.heel_cheeks_mm), -1, "allowance.heel_cheeks", FAULT_SETTING },
		{ FIGURE(allowance.transitions_mm), INFINITY, "allowance.transitions",
		  FAULT_SETTING },
		{ FIGURE(allowance.side_height_mm), -1, "allowance.side_height", FAULT_SETTING },
#undef FIGURE
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct neck_spec spec = steel();
		memcpy((char *)&spec + cases[i].place, &cases[i].value, sizeof(double));
		assert_refused(&spec, cases[i].code, cases[i].setting);
	}
}

static void counts_out_of_range(void **state)
{
	(void)state;
	struct neck_spec spec = steel();

	spec.station_count = 1;
	assert_refused(&spec, FAULT_SETTING, "stations");
	spec.station_count = NECK_STATIONS_MAX + 1;
	assert_refused(&spec, FAULT_SETTING, "stations");
	spec = steel();
	spec.heel.kind = HEEL_FLAT;
	assert_refused(&spec, FAULT_SETTING, "heel.slab_length");
	neck_free(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(straight_edges_and_crest),
		cmocka_unit_test(thickness_and_width_at_stations),
		cmocka_unit_test(sections_follow_their_families),
		cmocka_unit_test(section_outline_runs_from_bass_to_treble),
		cmocka_unit_test(no_flare_before_the_peghead),
		cmocka_unit_test(heel_cheeks),
		cmocka_unit_test(symmetry_and_mirror),
		cmocka_unit_test(wood_over_the_channel),
		cmocka_unit_test(zones_and_allowances),
		cmocka_unit_test(channel_faults),
		cmocka_unit_test(figures_out_of_range),
		cmocka_unit_test(counts_out_of_range),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
