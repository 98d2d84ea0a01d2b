/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The peghead side of random necks, on the continuous surface: each waterline
 * is a cubic between its knots, whose largest value is found by its slope's
 * roots. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "model/neck.h"
#include "model/neck_private.h"
#include "model/taper.h"
#include "support/any_job.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define NECKS 40
/* Slopes at knots are differences over a tiny step; this is their noise. */
#define NOISE_MM 1e-6

/* Largest value on [0, 1] of the cubic with these values and slopes (per piece)
 * at its ends. */
static double cubic_most(double y0, double m0, double y1, double m1)
{
	/* y = y0 + m0 t + c t^2 + d t^3 */
	double c = 3.0 * (y1 - y0) - 2.0 * m0 - m1, d = 2.0 * (y0 - y1) + m0 + m1;
	double root = 4.0 * c * c - 12.0 * d * m0, most = fmax(y0, y1);

	for (int sign = -1; sign <= 1 && root >= 0.0; sign += 2) {
		double t = fabs(d) > 1e-12 ? (-2.0 * c + sign * sqrt(root)) / (6.0 * d)
					   : -m0 / (2.0 * c);
		if (t > 0.0 && t < 1.0)
			most = fmax(most, y0 + t * (m0 + t * (c + t * d)));
	}
	return most;
}

static void cubic_most_is_right(void **state)
{
	(void)state;
	/* t (1 - t) has 1/4 in the middle; 4 t (1 - t)^2 has 16/27 at 1/3 */
	assert_near(cubic_most(0, 1, 0, -1), 0.25, 1e-12, "parabola");
	assert_near(cubic_most(0, 4, 0, 0), 16.0 / 27.0, 1e-12, "cubic");
	assert_near(cubic_most(1, 0, 3, 0), 3.0, 0.0, "rising");
}

/* Widest half-breadth of any waterline between two x that are knots. */
static double widest(const struct neck_table *table, double from_mm, double to_mm)
{
	double most = 0.0;

	for (size_t k = 0; k + 1 < table->knot_count; k++) {
		double width = table->knot[k + 1] - table->knot[k];
		if (table->knot[k] < from_mm - 1e-9 || table->knot[k + 1] > to_mm + 1e-9)
			continue;
		for (int side = 0; side < SIDE_COUNT; side++)
			for (size_t v = 0; v < table->level_count; v++) {
				size_t a = k * table->level_count + v, b = a + table->level_count;
				most = fmax(most, cubic_most(table->breadth[side][a],
							     width * table->breadth_out[side][a],
							     table->breadth[side][b],
							     width * table->breadth_in[side][b]));
			}
	}
	return most;
}

static struct neck *any_neck(struct job *job, const gsl_rng *rng)
{
	struct neck *neck = NULL;

	for (int draw = 0; draw < 100; draw++) {
		any_job(job, rng);
		if (neck_build(&neck, &job->neck, NULL) == FAULT_NONE)
			return neck;
	}
	fail_msg("of 100 random designs none made a neck");
	return NULL;
}

static void nothing_is_wider_than_the_nut(void **state)
{
	gsl_rng *rng = seed_rng("nothing_is_wider_than_the_nut");

	(void)state;
	for (int n = 0; n < NECKS; n++) {
		struct job job;
		struct neck *neck = any_neck(&job, rng);
		const struct peghead_spec *peghead = &job.neck.peghead;
		double nut = taper_wood_half_width_mm(&job.neck, 0.0);
		double begins = -peghead->transition_mm, open = begins - peghead->flare_mm;
		assert_between(widest(&neck->table, begins, 0.0), nut - NOISE_MM, nut + NOISE_MM,
			       "widest before the peghead");
		assert_near(widest(&neck->table, open, begins), peghead->width_mm / 2.0, NOISE_MM,
			    "the flare goes no farther than the peghead");
		/* half way the quintic step has half the flare */
		assert_near(neck_half_breadth_mm(neck, SIDE_PLUS, (open + begins) / 2.0, 0.5),
			    (nut + peghead->width_mm / 2.0) / 2.0, 1e-4, "flare");
		neck_free(neck);
	}
	gsl_rng_free(rng);
}

/* The closed forms of thickness, angle, transition and volute. */
static void side_view_is_as_stated(void **state)
{
	gsl_rng *rng = seed_rng("side_view_is_as_stated");

	(void)state;
	for (int n = 0; n < NECKS; n++) {
		struct job job;
		struct neck *neck = any_neck(&job, rng);
		const struct peghead_spec *p = &job.neck.peghead;
		double tangent = tan(p->angle_rad), length = p->transition_mm;
		for (double x = neck_from_mm(neck); x <= -length; x += 5.0)
			assert_near((neck_crest_mm(neck, x) - neck_base_mm(neck, x)) *
					    cos(p->angle_rad),
				    p->thickness_mm, 1e-6, "thickness square to the face");
		assert_near(neck_base_mm(neck, -length), length * tangent, 1e-9, "angle");
		double nut = neck_crest_mm(neck, 0.0);
		double grow = (neck_crest_mm(neck, 1e-3) - nut) / 1e-3;
		double back = p->thickness_mm / cos(p->angle_rad) + length * tangent;
		/* quintic half way: the mean and 5/32 of the slopes' difference */
		double plain = (back + nut) / 2.0 + length * (-tangent - grow) * 5.0 / 32.0;
		assert_near(neck_crest_mm(neck, -length / 2.0), plain + p->volute_height_mm, 2e-3,
			    "middle of the transition");
		neck_free(neck);
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(cubic_most_is_right),
		cmocka_unit_test(nothing_is_wider_than_the_nut),
		cmocka_unit_test(side_view_is_as_stated),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
