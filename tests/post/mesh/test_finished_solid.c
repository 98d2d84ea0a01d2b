/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/finished_solid.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/any_outline.h"
#include "support/near.h"
#include "support/sample_result.h"
#include "support/seed.h"
#include "support/solid.h"

/* Rounding to single precision at the far end of a neck, mm. */
#define ROUNDING_MM 6e-5

static void collect(void *context, const struct mesh_point corner[3])
{
	const float as_array[3][3] = { { corner[0].x, corner[0].y, corner[0].z },
				       { corner[1].x, corner[1].y, corner[1].z },
				       { corner[2].x, corner[2].y, corner[2].z } };

	solid_add(context, as_array);
}

static struct neck *build(const struct neck_spec *spec)
{
	struct neck *neck;
	struct fault_list faults = { 0 };
	enum fault fault = neck_build(&neck, spec, &faults);

	if (fault)
		fail_msg("%s", faults.record[0].message);
	return neck;
}

static struct solid solid_of(const struct neck *neck, struct vec3 zero)
{
	struct solid solid = { 0 };
	const struct triangle_sink sink = { collect, &solid };

	assert_int_equal(finished_solid(&sink, neck, zero, NULL), FAULT_NONE);
	return solid;
}

/* Area of a section by the trapezoid rule over the waterlines, which is what
 * the section is; mm2. */
static double section_area(const struct neck *neck, double x)
{
	size_t count;
	const double *level = neck_levels(neck, &count);
	double height = neck_crest_mm(neck, x) - neck_base_mm(neck, x), sum = 0.0;

	for (size_t i = 0; i + 1 < count; i++)
		for (int side = 0; side < SIDE_COUNT; side++)
			sum += (level[i + 1] - level[i]) *
			       (neck_half_breadth_mm(neck, (enum neck_side)side, x, level[i]) +
				neck_half_breadth_mm(neck, (enum neck_side)side, x, level[i + 1]));
	return sum * height / 2.0;
}

/* Simpson's rule between knots: sections are polynomials there. */
static double neck_volume(const struct neck *neck)
{
	size_t count;
	const double *knot = neck_knots(neck, &count);
	double sum = 0.0;

	for (size_t i = 0; i + 1 < count; i++) {
		double middle = (knot[i] + knot[i + 1]) / 2.0;
		sum += (knot[i + 1] - knot[i]) / 6.0 *
		       (section_area(neck, knot[i]) + 4.0 * section_area(neck, middle) +
			section_area(neck, knot[i + 1]));
	}
	return sum;
}

/* How far a point of the mesh lies off the surface: no more than the lesser of
 * its distances along y and along z. Points of the flat faces lie on them. */
static double off_surface(const struct neck *neck, struct vec3 p)
{
	double x = fmin(fmax(p.x, neck_from_mm(neck)), neck_to_mm(neck));
	double base = neck_base_mm(neck, x), crest = neck_crest_mm(neck, x);
	double v = fmin(fmax((p.z - base) / (crest - base), 0.0), 1.0);
	enum neck_side side = p.y < 0.0 ? SIDE_MINUS : SIDE_PLUS;
	double along_y = fabs(fabs(p.y) - neck_half_breadth_mm(neck, side, x, v));
	double along_z = fabs(p.z - neck_height_mm(neck, x, p.y));

	return fmin(along_y, along_z);
}

/* Faces that are not the back: under side and ends, by the facing of their
 * normal. */
static bool is_flat_face(const struct neck *neck, const struct vec3 p[3])
{
	struct vec3 normal = vec3_cross(vec3_sub(p[1], p[0]), vec3_sub(p[2], p[0]));
	bool under = true, end = true;

	for (int i = 0; i < 3; i++) {
		under = under && fabs(p[i].z - neck_base_mm(neck, p[i].x)) < 1e-3;
		end = end && fabs(normal.x) > 0.999 * vec3_length(normal);
	}
	return end || under;
}

static void assert_on_surface(const struct neck *neck, const struct solid *solid, struct vec3 zero,
			      const gsl_rng *rng)
{
	double worst = 0.0;

	for (size_t i = 0; i < solid->count; i++) {
		struct vec3 p[3];
		for (int k = 0; k < 3; k++) {
			const float *corner = solid->item[i].corner[k];
			p[k] = vec3_add(zero, vec3_make((double)corner[0], (double)corner[1],
							(double)corner[2]));
		}
		if (is_flat_face(neck, p))
			continue;
		for (int tries = 0; tries < 2; tries++) {
			double a = seed_between(rng, 0.0, 1.0), b = seed_between(rng, 0.0, 1.0 - a);
			struct vec3 q = vec3_between(p[0], p[1], a);
			q = vec3_add(q, vec3_scale(vec3_sub(p[2], p[0]), b));
			worst = fmax(worst, off_surface(neck, q));
		}
	}
	assert_between(worst, 0.0, FINISHED_CHORD_MM + ROUNDING_MM, "mesh off the surface, mm");
}

static void check_neck(const struct neck_spec *spec, struct vec3 zero, const gsl_rng *rng)
{
	struct neck *neck = build(spec);
	struct solid solid = solid_of(neck, zero);
	struct vec3 least, most;
	double volume = neck_volume(neck);

	solid_assert_closed(&solid);
	/* a mean departure of half a micrometre over some 50000 mm2 of surface */
	assert_near(solid_volume_mm3(&solid), volume, 25.0, "volume of the neck, mm3");
	solid_bounds(&solid, &least, &most);
	assert_near(least.x + zero.x, neck_from_mm(neck), ROUNDING_MM, "its beginning, mm");
	assert_near(most.x + zero.x, neck_to_mm(neck), ROUNDING_MM, "its end, mm");
	assert_near(least.z + zero.z, 0.0, ROUNDING_MM, "its gluing face, mm");
	assert_on_surface(neck, &solid, zero, rng);
	solid_free(&solid);
	neck_free(neck);
}

static void set_sections(struct neck_spec *spec, struct section_spec bass,
			 struct section_spec treble)
{
	for (size_t i = 0; i < spec->station_count; i++) {
		spec->station[i].bass = bass;
		spec->station[i].treble = treble;
	}
}

static void every_family_is_closed_and_true(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("every_family_is_closed_and_true");
	struct job job;

	sample_job(&job);
	for (int family = 0; family < SECTION_FAMILY_COUNT; family++) {
		struct section_spec section = { .family = (enum section_family)family,
						.outline = outline_of(2.3, 0.0, 9) };
		set_sections(&job.neck, section, section);
		check_neck(&job.neck, vec3_make(3.7, -1.3, 26.0), rng);
	}
	gsl_rng_free(rng);
}

static void a_lopsided_left_handed_neck_is_closed_and_true(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("a_lopsided_left_handed_neck_is_closed_and_true");
	struct job job;

	sample_job(&job);
	job.neck.hand = HAND_LEFT;
	set_sections(&job.neck, (struct section_spec){ .family = SECTION_V, .apex_radius_mm = 5.0 },
		     (struct section_spec){ .family = SECTION_D });
	check_neck(&job.neck, vec3_make(0.0, 0.0, 0.0), rng);
	gsl_rng_free(rng);
}

static void a_flat_heel_and_a_volute_are_closed_and_true(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("a_flat_heel_and_a_volute_are_closed_and_true");
	struct job job;

	sample_job(&job);
	job.neck.heel = (struct heel_spec){ .kind = HEEL_FLAT,
					    .height_mm = 25.0,
					    .slab_length_mm = 60.0,
					    .beyond_joint_mm = 40.0,
					    .ease_length_mm = 25.0 };
	job.neck.peghead.volute_height_mm = 3.0;
	job.neck.peghead.volute_length_mm = 25.0;
	check_neck(&job.neck, vec3_make(100.0, 0.0, 0.0), rng);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_family_is_closed_and_true),
		cmocka_unit_test(a_lopsided_left_handed_neck_is_closed_and_true),
		cmocka_unit_test(a_flat_heel_and_a_volute_are_closed_and_true),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
