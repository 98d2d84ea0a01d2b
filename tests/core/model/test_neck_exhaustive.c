/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must hold on any neck that is accepted, looked at on random ones. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/neck.h"
#include "model/neck_check.h"
#include "support/any_outline.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define NECKS 60
#define PLACES 60
/* Slopes at knots are differences over a tiny step; this is their noise, mm. */
#define NOISE_MM 1e-5

static struct section_spec any_section(const gsl_rng *rng)
{
	struct section_spec spec = { .family = (enum section_family)seed_whole(rng, 0, 4) };

	spec.flat_share = seed_between(rng, 0.01, 0.8);
	spec.apex_radius_mm = seed_between(rng, 0.5, 8.0);
	spec.fullness = spec.family == SECTION_C   ? seed_between(rng, 2.0, 2.5)
			: spec.family == SECTION_U ? seed_between(rng, 2.4, 5.0)
						   : seed_between(rng, 2.0, 3.0);
	spec.outline = any_outline(rng);
	return spec;
}

/* Sections that change never, once, or at every station; wood that grows
 * toward the heel or, one time in four, thins as it may. */
static void any_stations(struct neck_spec *spec, const gsl_rng *rng)
{
	double fret = seed_whole(rng, 0, 1) ? 0.0 : seed_between(rng, 0.0, 1.0);
	double last = spec->heel.kind == HEEL_BLOCK ? 9.0 : 10.5;
	double thickness_mm = seed_between(rng, 19.0, 22.0);
	bool changing = seed_whole(rng, 0, 1) == 1, thinning = seed_whole(rng, 0, 3) == 0;
	size_t change = seed_whole(rng, 1, 6);

	spec->station_count = 0;
	while (fret < last && spec->station_count < 8) {
		size_t i = spec->station_count++;
		struct station_spec *station = &spec->station[i];
		if (i > 0)
			*station = spec->station[i - 1];
		if (i == 0 || i == change || changing) {
			station->bass = any_section(rng);
			station->treble = seed_whole(rng, 0, 1) ? station->bass : any_section(rng);
		}
		station->fret = fret;
		station->thickness_mm = thickness_mm;
		thickness_mm += seed_between(rng, thinning ? -3.0 : 0.0, 1.2);
		fret += seed_between(rng, 1.0, 5.0);
	}
}

static struct neck_spec any_spec(const gsl_rng *rng)
{
	struct neck_spec spec = sample_steel_job().neck;

	spec.hand = seed_whole(rng, 0, 1) ? HAND_LEFT : HAND_RIGHT;
	spec.scale_length_mm = seed_between(rng, 560.0, 690.0);
	spec.nut_width_mm = seed_between(rng, 38.0, 53.0);
	spec.width_mm = spec.nut_width_mm + seed_between(rng, 0.0, 14.0);
	spec.side_margin_mm = seed_between(rng, 0.0, 0.5);
	spec.heel.height_mm = seed_between(rng, 60.0, 100.0);
	spec.heel.cap_length_mm = seed_between(rng, 10.0, 20.0);
	spec.heel.cap_width_front_mm = seed_between(rng, 16.0, 26.0);
	spec.heel.cap_width_back_mm = spec.heel.cap_width_front_mm + seed_between(rng, 0.0, 4.0);
	spec.heel.hollow_mm = seed_between(rng, 0.0, 1.0);
	spec.heel.nose_radius_mm = seed_between(rng, 8.0, 18.0);
	spec.heel.nose_angle_rad = units_rad_from_deg(seed_between(rng, 60.0, 84.0));
	spec.heel.cap_plan = (enum cap_plan)seed_whole(rng, 0, CAP_PLAN_COUNT - 1);
	spec.heel.cap_curve_mm = seed_whole(rng, 0, 1) ? seed_between(rng, 2.0, 18.0) : 0.0;
	spec.heel.hollow_rim_mm = seed_whole(rng, 0, 1) ? seed_between(rng, 0.0, 8.0) : 0.0;
	if (seed_whole(rng, 0, 3) == 0)
		spec.heel =
			(struct heel_spec){ .kind = HEEL_SET,
					    .height_mm = seed_between(rng, 15.0, 45.0),
					    .beyond_joint_mm = seed_between(rng, 40.0, 80.0),
					    .ease_length_mm = seed_between(rng, 10.0, 60.0),
					    .tenon_width_mm = seed_between(rng, 30.0, 50.0),
					    .shoulder_length_mm = seed_between(rng, 2.0, 40.0) };
	else if (seed_whole(rng, 0, 2) == 0)
		spec.heel = (struct heel_spec){ .kind = HEEL_FLAT,
						.height_mm = seed_between(rng, 15.0, 28.0),
						.slab_length_mm = seed_between(rng, 60.0, 80.0),
						.beyond_joint_mm = seed_between(rng, 55.0, 70.0),
						.ease_length_mm = seed_between(rng, 10.0, 40.0) };
	spec.peghead.angle_rad = units_rad_from_deg(seed_between(rng, 0.0, 20.0));
	spec.peghead.thickness_mm = seed_between(rng, 12.0, 18.0);
	spec.peghead.transition_mm = seed_between(rng, 20.0, 50.0);
	spec.peghead.width_mm = spec.nut_width_mm + seed_between(rng, 0.0, 30.0);
	spec.peghead.volute_height_mm = seed_whole(rng, 0, 1) ? seed_between(rng, 0.5, 4.0) : 0.0;
	spec.peghead.volute_length_mm = spec.peghead.transition_mm * seed_between(rng, 0.4, 1.0);
	spec.channel.width_mm = 0.0;
	any_stations(&spec, rng);
	return spec;
}

/* A neck of random figures; those that fit no neck are drawn again. */
static struct neck *any_neck(const gsl_rng *rng)
{
	struct neck *neck = NULL;

	for (int tries = 0; tries < 100; tries++) {
		struct neck_spec spec = any_spec(rng);
		if (neck_build(&neck, &spec, NULL) == FAULT_NONE)
			return neck;
	}
	fail_msg("of 100 random designs none made a neck");
	return NULL;
}

/* Half-breadths never grow with the height. */
static void check_place(const struct neck *neck, double x)
{
	size_t levels;
	const double *level = neck_levels(neck, &levels);

	assert_true(isfinite(neck_crest_mm(neck, x)) && isfinite(neck_base_mm(neck, x)));
	bool shaft = x >= 0.0 && x <= neck_heel_start_mm(neck);
	assert_true(neck_crest_mm(neck, x) - neck_base_mm(neck, x) >=
		    (shaft ? NECK_LEAST_WOOD_MM - NOISE_MM : 2.0));
	for (int side = 0; side < SIDE_COUNT; side++) {
		double before = INFINITY;
		for (size_t i = 0; i < levels; i++) {
			double b = neck_half_breadth_mm(neck, (enum neck_side)side, x, level[i]);
			if (!(b >= -NOISE_MM))
				fail_msg("at x = %.6f the half-breadth is %.3g mm at v = %.9f", x,
					 b, level[i]);
			if (b > before + NOISE_MM)
				fail_msg("at x = %.6f the half-breadth grows from %.9f to %.9f mm "
					 "at v = %.6f",
					 x, before, b, level[i]);
			before = b;
		}
	}
}

/* The height over a place leads back to the place. */
static void check_query(const struct neck *neck, const gsl_rng *rng, double x)
{
	enum neck_side side = seed_whole(rng, 0, 1) ? SIDE_PLUS : SIDE_MINUS;
	double sign = side == SIDE_PLUS ? 1.0 : -1.0;
	double edge = neck_half_breadth_mm(neck, side, x, 0.0);
	double b = edge * seed_between(rng, 0.0, 0.9999), base = neck_base_mm(neck, x);
	double z = neck_height_mm(neck, x, sign * b);
	double v = (z - base) / (neck_crest_mm(neck, x) - base);

	assert_between(v, -1e-12, 1.0 + 1e-12, "height fraction");
	if (v < 1.0 - 1e-12)
		assert_near(neck_half_breadth_mm(neck, side, x, v), b, 1e-7, "half-breadth, mm");
	else
		assert_true(b <= neck_half_breadth_mm(neck, side, x, 1.0) + NOISE_MM);
	assert_true(neck_height_mm(neck, x, sign * (edge + 1e-6)) < -1e300);
	struct vec3 normal = neck_normal(neck, x, sign * b);
	assert_near(vec3_length(normal), 1.0, 1e-12, "length of the normal");
	assert_true(normal.z > -0.05);
}

static void any_neck_is_sound(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("any_neck_is_sound");

	for (int n = 0; n < NECKS; n++) {
		struct neck *neck = any_neck(rng);
		double from = neck_from_mm(neck), to = neck_to_mm(neck);
		size_t knots;
		const double *knot = neck_knots(neck, &knots);
		for (size_t k = 0; k + 1 < knots; k++) {
			assert_true(knot[k + 1] > knot[k]);
			check_place(neck, (knot[k] + knot[k + 1]) / 2.0);
		}
		for (int i = 0; i < PLACES; i++) {
			double x = seed_between(rng, from, to);
			check_place(neck, x);
			check_query(neck, rng, x);
		}
		assert_true(neck_height_mm(neck, from - 1e-6, 0.0) < -1e300);
		assert_true(neck_height_mm(neck, to + 1e-6, 0.0) < -1e300);
		neck_free(neck);
	}
	gsl_rng_free(rng);
}

/* Stations are met, whatever lies between them. */
static void any_station_is_met(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("any_station_is_met");

	for (int n = 0; n < NECKS; n++) {
		struct neck *neck = any_neck(rng);
		const struct neck_spec *spec = neck_spec_of(neck);
		for (size_t i = 0; i < spec->station_count; i++)
			assert_near(neck_stated_thickness_mm(
					    neck, neck_fret_x_mm(neck, spec->station[i].fret)),
				    spec->station[i].thickness_mm, 1e-9, "thickness, mm");
		neck_free(neck);
	}
	gsl_rng_free(rng);
}

/* A shaft that goes on thinning behind its last station is refused when it runs
 * out of wood before the heel, and else has enough of it all along. */
static void thinning_shafts(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("thinning_shafts");
	int refused = 0, held = 0;

	for (int n = 0; n < 2 * NECKS; n++) {
		struct neck_spec spec = any_spec(rng);
		struct neck *neck = NULL;
		double steep_mm = seed_between(rng, 0.0, 6.0);
		for (size_t i = 0; i < spec.station_count; i++)
			spec.station[i].thickness_mm = 22.0 - steep_mm * (double)i;
		enum fault fault = neck_build(&neck, &spec, NULL);
		if (fault != FAULT_NONE) {
			assert_int_equal(fault, FAULT_GEOMETRY);
			assert_null(neck);
			refused++;
			continue;
		}
		for (double x = 0.0; x < neck_to_mm(neck); x += 1.0)
			check_place(neck, x);
		neck_free(neck);
		held++;
	}
	assert_true(refused > 5 && held > 5);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(any_neck_is_sound),
		cmocka_unit_test(any_station_is_met),
		cmocka_unit_test(thinning_shafts),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
