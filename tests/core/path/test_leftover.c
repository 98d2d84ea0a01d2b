/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a ball leaves in the hollow before a steep nose, where the next one finds
 * work, wherever the lattice happens to lie. */
#include "path/leftover.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "support/near.h"
#include "support/sample_bed.h"

/* The ball whose turn it is; in the hollow its tip turns from the shaft to the
 * nose at one place. */
#define SMALL_MM 6.0
/* Looked at on the nose and before it, near the centre line, mm. */
#define NOSE_FROM_MM 62.0
#define NOSE_TO_MM 74.0

/* The short job with a fillet so tight that neither ball fits into it. Scallops may
 * be 0.1 mm high. */
static struct job hollow_job(double ball_mm)
{
	struct job job = sample_short_job();

	job.neck.heel.nose_radius_mm = 3.0;
	job.neck.heel.nose_angle_rad = units_rad_from_deg(75.0);
	job.carve.cell_mm = 0.3;
	job.carve.from_mm = 50.0;
	job.cutter[0].ball_diameter_mm = job.cutter[0].shank_diameter_mm = ball_mm;
	return job;
}

/* Everything that a ball of that size takes from the nose. */
static void make_wood(struct sample_bed *big, double ball_mm)
{
	struct job job = hollow_job(ball_mm);

	sample_bed_make(big, &job);
	for (double x = NOSE_FROM_MM - ball_mm; x < NOSE_TO_MM + ball_mm; x += 0.1)
		for (double y = -3.0; y <= 3.0; y += 0.25)
			sample_bed_cut_at(big, x, y);
}

/* Looked at with the lattice moved along by `phase_mm`. */
static size_t places_marked(const struct stock *wood, double phase_mm)
{
	struct job job = hollow_job(SMALL_MM);
	struct sample_bed small;
	struct leftover left;
	size_t marked = 0;

	job.carve.from_mm += phase_mm;
	sample_bed_make(&small, &job);
	const struct profile *profile = &small.bench.profile;
	assert_int_equal(leftover_build(&left, small.bench.drop, profile, wood,
					small.bench.radius_mm, job.carve.scallop_limit_mm, NULL),
			 FAULT_NONE);
	for (size_t ix = profile_ix(profile, NOSE_FROM_MM); ix <= profile_ix(profile, NOSE_TO_MM);
	     ix++)
		marked += leftover_on_surface(&left, ix, 0.0);
	leftover_free(&left);
	sample_bed_free(&small);
	return marked;
}

/* Between two walls at 105 degrees a ball of radius R + d leaves, along the line
 * that halves their angle, d (1 / sin 52.5 - 1) = 0.26 d more than one of radius R
 * (geometry of circles): 0.06 mm for a ball of 6.5, which is no more than a
 * scallop, 0.20 for one of 7.5, 0.46 for one of 9.5. */
static void what_stands_in_a_hollow_is_found_at_every_phase(void **state)
{
	(void)state;
	static const double ball_mm[] = { 6.5, 7.5, 9.5 };

	for (size_t i = 0; i < sizeof ball_mm / sizeof *ball_mm; i++) {
		struct sample_bed big;
		make_wood(&big, ball_mm[i]);
		for (double phase = 0.125; phase < 1.0; phase += i == 1 ? 0.25 : 1.0)
			assert_int_equal(places_marked(&big.bench.stock, phase) > 0, i > 0);
		sample_bed_free(&big);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_stands_in_a_hollow_is_found_at_every_phase),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
