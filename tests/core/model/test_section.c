/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Section families against the superellipse's closed forms: area
 * 4ab G(1+1/n)^2 / G(1+2/n), the ellipse's perimeter 4aE(e) and curvatures of
 * the Lame curve (any text on it); the figures were worked out with 40
 * digits. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/section.h"
#include "support/near.h"
#include "support/seed.h"

/* A neck's back: half as wide and as high as this. */
#define HALF_WIDTH 22.0
#define HEIGHT 20.0

static struct section made(struct section_spec spec)
{
	struct section section;

	assert_int_equal(section_make(&section, &spec, HALF_WIDTH, HEIGHT, "s", NULL), FAULT_NONE);
	return section;
}

static struct section superellipse(double n)
{
	return made((struct section_spec){ n <= 2.5 ? SECTION_C : SECTION_U, n, 0.0, 0.0, { 0 } });
}

/* Area of both halves by Simpson's rule over u with v = 1 - u^3, which takes
 * the steep end at the crest. */
static double area_mm2(const struct section *section)
{
	const int pieces = 20000;
	double sum = 0.0;

	for (int i = 0; i <= pieces; i++) {
		double u = (double)i / pieces;
		double weight = i == 0 || i == pieces ? 1.0 : (i % 2 ? 4.0 : 2.0);
		sum += weight * section_share(section, 1.0 - u * u * u) * 3.0 * u * u;
	}
	return 2.0 * HALF_WIDTH * HEIGHT * sum / (3.0 * pieces);
}

static void areas(void **state)
{
	(void)state;
	static const struct {
		double n, area_mm2;
	} cases[] = {
		{ 2.0, 691.150384 }, { 2.5, 743.805780 }, { 3.0, 777.321050 }, { 4.0, 815.792858 }
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct section section = superellipse(cases[i].n);
		assert_near(area_mm2(&section), cases[i].area_mm2, 2e-6, "area, mm2");
	}
	/* a flat part takes its rectangle, the rest is the superellipse's */
	struct section flat = made((struct section_spec){ SECTION_D, 2.5, 0.3, 0.0, { 0 } });
	assert_near(area_mm2(&flat), 0.3 * 2.0 * HALF_WIDTH * HEIGHT + 0.7 * 743.805780, 2e-6,
		    "area, mm2");
}

/* Sampled evenly in angle; along v alone the crest would be missed. */
static double quarter_perimeter_mm(double n)
{
	const int pieces = 20000;
	double sum = 0.0, b = HALF_WIDTH, z = 0.0;

	for (int i = 1; i <= pieces; i++) {
		double v = pow(sin(PI / 2.0 * i / pieces), 2.0 / n);
		double next_b = HALF_WIDTH * section_superellipse(v, n), next_z = HEIGHT * v;
		sum += hypot(next_b - b, next_z - z);
		b = next_b;
		z = next_z;
	}
	return sum;
}

static void perimeters(void **state)
{
	(void)state;
	static const struct {
		double n, length_mm;
	} cases[] = { { 1.0, 29.732137 },
		      { 2.0, 33.005425 },
		      { 2.5, 34.384990 },
		      { 3.0, 35.423448 },
		      { 4.0, 36.852014 } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(quarter_perimeter_mm(cases[i].n), cases[i].length_mm, 3e-6,
			    "quarter of the perimeter, mm");
	assert_between(quarter_perimeter_mm(60.0), 41.0, 42.0, "toward a rectangle's 42 mm");
}

/* Radius of the circle through three points of b(v). */
static double radius_through(double n, double a, double v, double step)
{
	double b[3], z[3];

	for (int i = 0; i < 3; i++) {
		double at = v + (i - 1) * step;
		z[i] = a * at;
		b[i] = a * section_superellipse(at, n);
	}
	double p = hypot(b[1] - b[0], z[1] - z[0]), q = hypot(b[2] - b[1], z[2] - z[1]);
	double r = hypot(b[2] - b[0], z[2] - z[0]);
	double area2 = fabs((b[1] - b[0]) * (z[2] - z[0]) - (b[2] - b[0]) * (z[1] - z[0]));
	return p * q * r / (2.0 * area2);
}

/* k = (n - 1) 2^(1/n) / (sqrt(2) a) on the diagonal. */
static void curvature_on_the_diagonal(void **state)
{
	(void)state;
	static const struct {
		double n, radius_mm;
	} cases[] = { { 1.5, 39.199544 },
		      { 2.0, 22.0 },
		      { 2.5, 15.719344 },
		      { 3.0, 12.347083 },
		      { 4.0, 8.720852 } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(radius_through(cases[i].n, 22.0, exp2(-1.0 / cases[i].n), 1e-3),
			    cases[i].radius_mm, 2e-4, "radius on the diagonal, mm");
}

/* a^2 / b = 24.2 for the ellipse. */
static void curvature_on_the_crest(void **state)
{
	(void)state;
	struct section section = superellipse(2.0);
	double down = 1e-7, b = HALF_WIDTH * section_share(&section, 1.0 - down);

	assert_near(b * b / (2.0 * HEIGHT * down), 24.2, 1e-4, "radius on the crest, mm");
}

static void apex_radius_of_a_ridge(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("apex_radius_of_a_ridge");

	for (int i = 0; i < 500; i++) {
		double w = seed_between(rng, 15.0, 35.0), h = seed_between(rng, 8.0, 30.0);
		double most = 0.45 * w * w / h;
		double radius = seed_between(rng, 0.02 * most, 0.999 * most), down = 1e-8;
		struct section_spec spec = { .family = SECTION_V, .apex_radius_mm = radius };
		struct section section;
		assert_int_equal(section_make(&section, &spec, w, h, "s", NULL), FAULT_NONE);
		double b = w * section_share(&section, 1.0 - down);
		assert_near(b * b / (2.0 * h * down) / radius, 1.0, 2e-5, "apex radius, share");
	}
	gsl_rng_free(rng);
}

/* The smaller the apex the straighter the flanks. */
static void flanks_of_a_ridge(void **state)
{
	(void)state;
	struct section sharp =
		made((struct section_spec){ .family = SECTION_V, .apex_radius_mm = 0.01 });

	for (int i = 0; i <= 9; i++)
		assert_near(section_share(&sharp, i / 10.0), 1.0 - i / 10.0, 2e-3,
			    "straight flank, share");
}

static struct section_spec any_section(const gsl_rng *rng)
{
	struct section_spec spec = { .family = (enum section_family)seed_whole(rng, 0, 3) };

	spec.flat_share = seed_between(rng, 0.01, 0.8);
	spec.apex_radius_mm = seed_between(rng, 0.2, 10.8);
	spec.fullness = spec.family == SECTION_C   ? seed_between(rng, 2.0, 2.5)
			: spec.family == SECTION_U ? seed_between(rng, 2.4, 5.0)
						   : seed_between(rng, 2.0, 3.0);
	return spec;
}

/* From 1 at the gluing face down to 0, or a D's flat, at the crest; never
 * wider further up, never hollow. */
static void shapes(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("shapes");

	for (int i = 0; i < 200; i++) {
		struct section_spec spec = any_section(rng);
		struct section section = made(spec);
		const int steps = 500;
		double end = spec.family == SECTION_D ? spec.flat_share : 0.0;
		assert_near(section_share(&section, 0.0), 1.0, 1e-12, "share at the gluing face");
		assert_near(section_share(&section, 1.0), end, 1e-12, "share at the crest");
		double before = 1.0, fall = -1e-12;
		for (int k = 1; k <= steps; k++) {
			double share = section_share(&section, (double)k / steps);
			assert_true(share <= before + 1e-15);
			assert_true(before - share >= fall - 1e-12);
			fall = before - share;
			before = share;
		}
	}
	gsl_rng_free(rng);
}

static void usual_figures(void **state)
{
	(void)state;
	static const struct section_spec usual[][2] = {
		{ { SECTION_C, 0, 0, 0, { 0 } }, { SECTION_C, 2.0, 0, 0, { 0 } } },
		{ { SECTION_U, 0, 0, 0, { 0 } }, { SECTION_U, 3.0, 0, 0, { 0 } } },
		{ { SECTION_D, 0, 0, 0, { 0 } }, { SECTION_D, 2.5, 0.25, 0, { 0 } } },
		{ { SECTION_V, 0, 0, 0, { 0 } }, { SECTION_V, 0, 0, 6.0, { 0 } } },
	};

	for (size_t i = 0; i < 4; i++) {
		struct section a = made(usual[i][0]), b = made(usual[i][1]);
		for (int k = 0; k <= 20; k++)
			assert_near(section_share(&a, k / 20.0), section_share(&b, k / 20.0), 0.0,
				    "share");
	}
}

static void names(void **state)
{
	(void)state;
	static const char *const name[] = { "C", "U", "D", "V", "measured" };

	for (int i = 0; i < SECTION_FAMILY_COUNT; i++)
		assert_string_equal(section_family_name((enum section_family)i), name[i]);
	assert_string_equal(section_family_name(SECTION_FAMILY_COUNT), "?");
}

static void figures_out_of_range(void **state)
{
	(void)state;
	static const struct {
		struct section_spec spec;
		const char *words;
	} cases[] = {
		{ { SECTION_C, 1.99, 0, 0, { 0 } }, "A C section's fullness is 1.99" },
		{ { SECTION_C, 2.51, 0, 0, { 0 } }, "2 to 2.5" },
		{ { SECTION_U, 2.39, 0, 0, { 0 } }, "2.4 to 5" },
		{ { SECTION_U, 5.01, 0, 0, { 0 } }, "A U section's" },
		{ { SECTION_D, 1.99, 0, 0, { 0 } }, "2 to 3" },
		{ { SECTION_D, 3.01, 0, 0, { 0 } }, "A D section's fullness" },
		{ { SECTION_D, 2.5, 0.81, 0, { 0 } }, "flat share is 0.81" },
		/* 0.45 x 22^2 / 20 = 10.89 */
		{ { SECTION_V, 0, 0, 10.9, { 0 } }, "up to 10.89 mm" },
		{ { SECTION_FAMILY_COUNT, 0, 0, 0, { 0 } }, "no such section shape" },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct fault_list faults = { 0 };
		struct section section;
		assert_int_equal(section_make(&section, &cases[i].spec, HALF_WIDTH, HEIGHT,
					      "stations[1]", &faults),
				 FAULT_SETTING);
		assert_int_equal(faults.count, 1);
		assert_string_equal(faults.record[0].setting, "stations[1]");
		assert_non_null(strstr(faults.record[0].message, cases[i].words));
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(areas),
		cmocka_unit_test(perimeters),
		cmocka_unit_test(curvature_on_the_diagonal),
		cmocka_unit_test(curvature_on_the_crest),
		cmocka_unit_test(apex_radius_of_a_ridge),
		cmocka_unit_test(flanks_of_a_ridge),
		cmocka_unit_test(shapes),
		cmocka_unit_test(usual_figures),
		cmocka_unit_test(names),
		cmocka_unit_test(figures_out_of_range),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
