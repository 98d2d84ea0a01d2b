/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tip height of a ball dropped on known shapes. The closed forms are general
 * geometry and were checked against dropping the ball on dense points. Shapes
 * without flat faces stand as small patches of fine facets around the contact;
 * their chords are shorter than the tolerances. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "path/drop.h"
#include "support/near.h"
#include "support/seed.h"

static struct facet triangle(struct vec3 a, struct vec3 b, struct vec3 c)
{
	return (struct facet){ .p = { a, b, c } };
}

static double drop_on(const struct facet *facets, size_t count, double radius, double grown,
		      double x, double y)
{
	double best = -INFINITY;

	for (size_t i = 0; i < count; i++)
		best = fmax(best, drop_on_facet_mm(&facets[i], radius, grown, x, y));
	return best;
}

/* A surface over the plane; NAN where there is none. */
struct shape {
	double (*z)(const struct shape *shape, double x, double y);
	double p, k, a; /* its own figures */
};

static struct vec3 shape_point(const struct shape *shape, double x, double y)
{
	return vec3_make(x, y, shape->z(shape, x, y));
}

/* Highest centre of the ball over a lattice of points around (cx, cy), and
 * where its contact is. */
static void find_contact(const struct shape *shape, double grown, double x, double y, double *cx,
			 double *cy, double half)
{
	double best = -INFINITY, around_x = *cx, around_y = *cy;

	for (int i = -60; i <= 60; i++)
		for (int k = -60; k <= 60; k++) {
			double px = around_x + half * i / 60.0, py = around_y + half * k / 60.0;
			double left = grown * grown - (px - x) * (px - x) - (py - y) * (py - y);
			double centre = left > 0.0 ? shape->z(shape, px, py) + sqrt(left) : NAN;
			if (centre > best) {
				best = centre;
				*cx = px;
				*cy = py;
			}
		}
}

/* Facets over a square of 0.4 mm around the contact, 0.01 mm wide. */
static double drop_on_shape(const struct shape *shape, double radius, double grown, double x,
			    double y)
{
	double cx = x, cy = y, best = -INFINITY, step = 0.01;

	find_contact(shape, grown, x, y, &cx, &cy, grown);
	find_contact(shape, grown, x, y, &cx, &cy, grown / 20.0);
	find_contact(shape, grown, x, y, &cx, &cy, grown / 400.0);
	for (int i = -20; i < 20; i++)
		for (int k = -20; k < 20; k++) {
			double x0 = cx + step * i, y0 = cy + step * k;
			struct vec3 a = shape_point(shape, x0, y0);
			struct vec3 b = shape_point(shape, x0 + step, y0);
			struct vec3 c = shape_point(shape, x0 + step, y0 + step);
			struct vec3 d = shape_point(shape, x0, y0 + step);
			const struct facet pair[2] = { triangle(a, b, c), triangle(a, c, d) };
			if (isfinite(a.z + b.z + c.z + d.z))
				best = fmax(best, drop_on(pair, 2, radius, grown, x, y));
		}
	return best;
}

/* z = p x + k y + a */
static double plane_z(const struct shape *shape, double x, double y)
{
	return shape->p * x + shape->k * y + shape->a;
}

static double plane_tip(double p, double q, double z0, double r, double x, double y)
{
	const struct shape plane = { plane_z, p, q, z0 };
	struct facet facet = triangle(shape_point(&plane, -90, -80), shape_point(&plane, 90, -80),
				      shape_point(&plane, 10, 160));

	return drop_on_facet_mm(&facet, r, r, x, y);
}

static void plane(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("plane");

	assert_near(plane_tip(tan(PI / 6.0), 0, 0, 3, 10, 0), 6.237604, 5e-7, "30 degrees, mm");
	assert_near(plane_tip(0.3, 0.4, 0, 3, 0, 0), 0.354102, 5e-7, "p 0.3 q 0.4, mm");
	for (int i = 0; i < 1000; i++) {
		double p = seed_between(rng, -2, 2), q = seed_between(rng, -2, 2);
		double r = seed_between(rng, 1, 8), x = seed_between(rng, -9, 9);
		assert_near(plane_tip(p, q, 5, r, x, 2 * x),
			    p * x + q * 2 * x + 5 + r * (sqrt(1 + p * p + q * q) - 1), 1e-9, "mm");
	}
	gsl_rng_free(rng);
}

static double cylinder_z(const struct shape *shape, double x, double y)
{
	double p = shape->p + shape->k * y; /* a cone when k is not 0 */

	return sqrt(p * p - x * x);
}

static void cylinder(void **state)
{
	(void)state;
	static const double cases[][3] = { { 3, 5, 21.494897 },	    { 3, 10, 19.912878 },
					   { 3, 20, 12.0 },	    { 3, 24, 4.0 },
					   { 6.35, 10, 20.177768 }, { 6.35, 20, 13.742847 },
					   { 6.35, 28, -1.908998 } };
	const struct shape shape = { cylinder_z, 22, 0, 0 };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(drop_on_shape(&shape, cases[i][0], cases[i][0], cases[i][1], 0.3),
			    cases[i][2], 2e-5, "zc + sqrt((p + R)^2 - x^2) - R, mm");
}

static double trough_z(const struct shape *shape, double x, double y)
{
	(void)y;
	return -sqrt(shape->p * shape->p - x * x);
}

static void trough(void **state)
{
	(void)state;
	static const double cases[][2] = {
		{ 0, -10.0 }, { 2, -9.708204 }, { 5, -7.898979 }, { 6.9, -4.178983 }
	};
	const struct shape shape = { trough_z, 10, 0, 0 };
	/* narrower than the ball: it rests on both rims */
	const struct facet rims[2] = {
		triangle(vec3_make(-2, -50, 0), vec3_make(-2, 50, 0), vec3_make(-9, 0, 0)),
		triangle(vec3_make(2, -50, 0), vec3_make(2, 50, 0), vec3_make(9, 0, 0))
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(drop_on_shape(&shape, 3, 3, cases[i][0], 0), cases[i][1], 1e-4,
			    "zc - sqrt((p - R)^2 - x^2) - R, mm");
	assert_near(drop_on(rims, 2, 3, 3, 0, 0), -0.763932, 5e-7, "zc + sqrt(R^2 - p^2) - R");
}

static double sphere_z(const struct shape *shape, double x, double y)
{
	return sqrt(shape->p * shape->p - x * x - y * y);
}

static double torus_z(const struct shape *shape, double x, double y)
{
	double off = hypot(x, y) - shape->a;

	return sqrt(shape->p * shape->p - off * off);
}

/* x^2 / a^2 + z^2 / p^2 = 1 */
static double ellipse_z(const struct shape *shape, double x, double y)
{
	(void)y;
	return shape->p * sqrt(1.0 - x * x / (shape->a * shape->a));
}

static void round_shapes(void **state)
{
	(void)state;
	const struct shape sphere = { sphere_z, 20, 0, 0 }, torus = { torus_z, 10, 0, 50 };
	const struct shape ellipse = { ellipse_z, 20, 0, 22 };

	assert_near(drop_on_shape(&sphere, 3, 3, 6, 0), 19.203603, 2e-5, "sphere r 6, mm");
	assert_near(drop_on_shape(&sphere, 3, 3, 0, -12), 16.621417, 2e-5, "sphere r 12, mm");
	assert_near(drop_on_shape(&torus, 3, 3, 55, 0), 9.0, 2e-5, "torus, mm");
	assert_near(drop_on_shape(&torus, 3, 3, 33, 44), 9.0, 2e-5, "torus, turned, mm");
	assert_near(drop_on_shape(&ellipse, 3, 3, 12.394218, 0), 16.976851, 2e-5, "t 60, mm");
	assert_near(drop_on_shape(&ellipse, 3, 3, 17.574368, 0), 13.361956, 2e-5, "t 45, mm");
	assert_near(drop_on_shape(&ellipse, 3, 3, 21.585009, 0), 8.608322, 3e-5, "t 30, mm");
}

static void taper(void **state)
{
	(void)state;
	const struct shape slight = { cylinder_z, 22, 0.01, 0 },
			   strong = { cylinder_z, 22, 0.1, 0 };

	assert_near(drop_on_shape(&slight, 3, 3, 5, 100), 22.514854, 2e-5, "k 0.01, mm");
	assert_near(drop_on_shape(&strong, 3, 3, 5, 10), 22.529949, 2e-5, "k 0.1, mm");
}

/* The edge of an upright face: p is its rise along y. */
static struct facet edge(double height, double p)
{
	return triangle(vec3_make(0, -50, height - 50 * p), vec3_make(0, 50, height + 50 * p),
			vec3_make(0, 0, height - 60));
}

static void sharp_edges(void **state)
{
	(void)state;
	static const double cases[][3] = { { 3, 1, -0.171573 },
					   { 3, -2, -0.763932 },
					   { 3, 2.9, -2.231885 },
					   { 6.35, 2, -0.323185 },
					   { 6.35, -4, -1.418215 } };
	struct facet level = edge(7, 0), rising = edge(0, 0.2);

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(drop_on_facet_mm(&level, cases[i][0], cases[i][0], cases[i][1], 4),
			    7 + cases[i][2], 5e-7, "h + sqrt(R^2 - x^2) - R, mm");
	assert_true(drop_on_facet_mm(&level, 3, 3, 3.0001, 0) < -1e300);
	assert_near(drop_on_facet_mm(&rising, 3, 3, 2, 5), 0.280351, 5e-7, "rising edge, mm");
	/* beyond its end the edge is a point */
	assert_near(drop_on_facet_mm(&level, 3, 3, 0.6, 50.8), 7 + sqrt(8) - 3, 1e-12, "point, mm");
}

static void roof_and_groove(void **state)
{
	(void)state;
	double t = tan(PI / 6.0);
	static const double cases[][2] = { { 1, -0.171573 }, { 1.5, -0.401924 }, { 4, -1.845299 } };
	struct vec3 front = vec3_make(0, -99, 0), back = vec3_make(0, 99, 0);
	const struct facet roof[2] = { triangle(front, back, vec3_make(90, 0, -90 * t)),
				       triangle(front, back, vec3_make(-90, 0, -90 * t)) };
	const struct facet groove[2] = { triangle(front, back, vec3_make(90, 0, 90 * t)),
					 triangle(front, back, vec3_make(-90, 0, 90 * t)) };
	const struct facet steep[2] = { triangle(front, back, vec3_make(90, 0, 90)),
					triangle(front, back, vec3_make(-90, 0, 90)) };

	for (size_t i = 0; i < 3; i++) {
		assert_near(drop_on(roof, 2, 3, 3, cases[i][0], 1), cases[i][1], 5e-7, "roof, mm");
		assert_near(drop_on(roof, 2, 3, 3, -cases[i][0], 1), cases[i][1], 5e-7, "roof, mm");
	}
	assert_near(drop_on(groove, 2, 3, 3, 0, 0), 0.464102, 5e-7, "groove 30 degrees, mm");
	assert_near(drop_on(steep, 2, 3, 3, 0, 0), 1.242641, 5e-7, "groove 45 degrees, mm");
}

static void wall(void **state)
{
	(void)state;
	const struct facet scene[3] = {
		triangle(vec3_make(0, -99, 10), vec3_make(0, 99, 10), vec3_make(99, 0, 10)),
		triangle(vec3_make(0, -99, 10), vec3_make(0, 99, 10), vec3_make(0, 0, -99)),
		triangle(vec3_make(0, -99, 0), vec3_make(0, 99, 0), vec3_make(-99, 0, 0))
	};
	static const double cases[][2] = { { -1, 9.828427 }, { -2, 9.236068 }, { -2.999, 7.077453 },
					   { -3.0001, 0 },   { -9, 0 },	       { 0, 10 },
					   { 5, 10 } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(drop_on(scene, 3, 3, 3, cases[i][0], 0), cases[i][1], 5e-7, "wall, mm");
}

static struct vec3 any_point(const gsl_rng *rng, double size)
{
	double x = seed_between(rng, -size, size), y = seed_between(rng, -size, size);

	return vec3_make(x, y, seed_between(rng, -size, size));
}

/* Stock along the normal makes the ball fat: tip(R, t) = drop(R + t) + t. */
static void fat_ball(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("fat_ball");
	const struct shape cyl = { cylinder_z, 22, 0, 0 };
	double steep = tan(PI / 3.0);

	assert_near(drop_on_shape(&cyl, 3, 4, 5, 0), 22.514702, 2e-5, "p 22 t 1 R 3 x 5, mm");
	const struct shape flank = { plane_z, steep, 0, 0 }, half = { plane_z, 1, 0, 0 };
	assert_near(drop_on_shape(&flank, 3, 4, 0, 0) - drop_on_shape(&flank, 3, 3, 0, 0), 2.0,
		    1e-9, "upright stock on a 60 degree flank, mm");
	assert_near(drop_on_shape(&half, 3, 4, 0, 0) - drop_on_shape(&half, 3, 3, 0, 0), 1.414214,
		    5e-7, "upright stock on a 45 degree flank, mm");
	for (int i = 0; i < 5000; i++) {
		struct facet facet =
			triangle(any_point(rng, 6), any_point(rng, 6), any_point(rng, 6));
		double r = seed_between(rng, 1, 6), t = seed_between(rng, 0, 2);
		double x = seed_between(rng, -9, 9), y = seed_between(rng, -9, 9);
		double thin = drop_on_facet_mm(&facet, r, r + t, x, y);
		double fat = drop_on_facet_mm(&facet, r + t, r + t, x, y) + t;
		if (isfinite(fat) || isfinite(thin))
			assert_near(thin, fat, 1e-12, "tip, mm");
	}
	gsl_rng_free(rng);
}

/* Highest centre over points of a triangle a 40th of its sides apart; *off gets
 * the contact's distance in plan. */
static double sampled(const struct facet *facet, double grown, double x, double y, double *off)
{
	double best = -INFINITY;

	for (int i = 0; i <= 40; i++)
		for (int k = 0; k <= 40 - i; k++) {
			struct vec3 a = vec3_between(facet->p[0], facet->p[1], i / 40.0);
			struct vec3 p = vec3_add(a, vec3_scale(vec3_sub(facet->p[2], facet->p[0]),
							       k / 40.0));
			double plan = hypot(p.x - x, p.y - y);
			if (plan >= grown || p.z + sqrt(grown * grown - plan * plan) <= best)
				continue;
			best = p.z + sqrt(grown * grown - plan * plan);
			*off = plan;
		}
	return best;
}

/* Never below what its points forbid, nor much above: the contact lies at most
 * half a step from a sample. */
static void any_facet_against_its_points(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("any_facet_against_its_points");
	int close = 0;

	for (int i = 0; i < 3000; i++) {
		struct facet facet =
			triangle(any_point(rng, 2), any_point(rng, 2), any_point(rng, 2));
		double r = seed_between(rng, 1, 6), grown = r + seed_between(rng, 0, 1), off = 0;
		double x = seed_between(rng, -4, 4), y = seed_between(rng, -4, 4);
		double tip = drop_on_facet_mm(&facet, r, grown, x, y);
		double least = sampled(&facet, grown, x, y, &off) - r;
		assert_true(!isnan(tip) && tip >= least - 1e-12);
		/* near the ball's rim a step aside changes much */
		if (off > 0.8 * grown || !isfinite(least))
			continue;
		assert_between(tip - least, -1e-12, 0.03, "above the best sample, mm");
		close++;
	}
	assert_true(close > 1000);
	gsl_rng_free(rng);
}

/* A facet upright or seen edge-on has no face to rest on, but edges. */
static void degenerate_facets(void **state)
{
	(void)state;
	struct vec3 a = vec3_make(0, 0, 0), b = vec3_make(4, 0, 1), c = vec3_make(2, 0, 5);
	struct facet upright = triangle(a, b, c), pole = triangle(a, b, a);

	pole.p[1] = vec3_make(0, 0, 3);
	pole.p[2] = vec3_make(0, 0, 8);
	assert_near(drop_on_facet_mm(&upright, 3, 3, 2, 0), 5.0, 1e-12, "on the corner, mm");
	assert_near(drop_on_facet_mm(&upright, 3, 3, 2, 1), 5 + sqrt(8) - 3, 1e-12, "beside, mm");
	/* an upright needle is a point at its top */
	assert_near(drop_on_facet_mm(&pole, 3, 3, 1, 0), 8 + sqrt(8) - 3, 1e-12, "needle, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(plane),
		cmocka_unit_test(cylinder),
		cmocka_unit_test(trough),
		cmocka_unit_test(round_shapes),
		cmocka_unit_test(taper),
		cmocka_unit_test(sharp_edges),
		cmocka_unit_test(roof_and_groove),
		cmocka_unit_test(wall),
		cmocka_unit_test(fat_ball),
		cmocka_unit_test(any_facet_against_its_points),
		cmocka_unit_test(degenerate_facets),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
