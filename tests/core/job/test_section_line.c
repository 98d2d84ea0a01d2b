/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines of sections against closed forms, against the neck's own queries and
 * against the wood that a proven program leaves. Lengths mm. */
#include "job/section_line.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/tol.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/sample_job.h"

/* What facets, waterlines and chords may put between a line and its formula. */
#define LINE_OFF_MM (TOL_FACET_MM + TOL_SECTION_MM + SECTION_LINE_CHORD_MM)

/* Wood may stand this far under the line, mm: what the proof lets pass, across a
 * back that leans by up to 45 degrees, and the line's own share. */
#define BELOW_MM (TOL_PROOF_MM * 1.4143 + LINE_OFF_MM)

/* A shaft whose section is the same everywhere: half a circle of radius 15. */
static struct neck_spec round_spec(double sides_mm, double back_mm)
{
	struct neck_spec spec = sample_short_job().neck;

	spec.nut_width_mm = spec.width_mm = 30.0;
	spec.over_fretboard = false;
	for (size_t i = 0; i < spec.station_count; i++)
		spec.station[i].thickness_mm = 15.0;
	spec.allowance.sides_mm = sides_mm;
	spec.allowance.back_mm = spec.allowance.transitions_mm = back_mm;
	return spec;
}

/* Distance of a point from the chords of a line. */
static double off_line(const struct section_line *line, double y, double z)
{
	double least = INFINITY;

	for (size_t i = 0; i + 1 < line->count; i++) {
		const struct section_point *a = &line->point[i], *b = a + 1;
		double dy = b->y_mm - a->y_mm, dz = b->z_mm - a->z_mm;
		double length2 = dy * dy + dz * dz;
		double t = length2 > 0.0 ? ((y - a->y_mm) * dy + (z - a->z_mm) * dz) / length2
					 : 0.0;
		t = fmin(fmax(t, 0.0), 1.0);
		least = fmin(least, hypot(y - a->y_mm - t * dy, z - a->z_mm - t * dz));
	}
	return least;
}

/* z of a line over y, whose points fall in y: the bass is at +y. */
static double height_of(const struct section_line *line, double y)
{
	size_t i = 0;

	while (i + 2 < line->count && line->point[i + 1].y_mm > y)
		i++;
	const struct section_point *a = &line->point[i], *b = a + 1;
	return a->z_mm + (b->z_mm - a->z_mm) * (y - a->y_mm) / (b->y_mm - a->y_mm);
}

/* The model of a neck and its grown line at x = 20 mm. */
static void grow(struct sample_model *model, struct section_line *line,
		 const struct neck_spec *spec)
{
	sample_model_make(model, spec);
	assert_int_equal(section_line_grown(line, &model->facets, model->neck, 20.0, NULL),
			 FAULT_NONE);
}

/* A circle grown by a is a circle; points and chords keep to it. */
static void a_round_back_grows_to_a_circle(void **state)
{
	struct neck_spec spec = round_spec(0.9, 0.9);
	struct sample_model model;
	struct section_line line;

	(void)state;
	grow(&model, &line, &spec);
	assert_near(line.point[0].y_mm, 15.9, LINE_OFF_MM, "half-width, mm");
	assert_near(line.point[0].z_mm, 0.0, 0.0, "it begins on the gluing face, mm");
	assert_near(line.point[line.count - 1].y_mm, -15.9, LINE_OFF_MM, "half-width, mm");
	for (size_t i = 1; i + 1 < line.count; i++) {
		const struct section_point *a = &line.point[i - 1], *b = &line.point[i];
		assert_near(hypot(b->y_mm, b->z_mm), 15.9, LINE_OFF_MM, "radius, mm");
		assert_near(hypot((a->y_mm + b->y_mm) / 2.0, (a->z_mm + b->z_mm) / 2.0), 15.9,
			    LINE_OFF_MM, "radius in the middle of a chord, mm");
	}
	section_line_free(&line);
	sample_model_free(&model);
}

/* Two allowances that meet on the circle at height 3: each keeps its circle
 * away from there. */
static void each_zone_has_its_own_stock(void **state)
{
	struct neck_spec spec = round_spec(1.0, 1.2);
	struct sample_model model;
	struct section_line line;

	(void)state;
	grow(&model, &line, &spec);
	for (int degree = 15; degree <= 165; degree++) {
		double angle = degree * acos(-1.0) / 180.0;
		assert_near(off_line(&line, 16.2 * cos(angle), 16.2 * sin(angle)), 0.0, LINE_OFF_MM,
			    "from the back's circle, mm");
	}
	for (int degree = 1; degree <= 5; degree++) {
		double angle = degree * acos(-1.0) / 180.0;
		assert_near(off_line(&line, 16.0 * cos(angle), 16.0 * sin(angle)), 0.0, LINE_OFF_MM,
			    "from the sides' circle, mm");
	}
	section_line_free(&line);
	sample_model_free(&model);
}

/* Much less stock below: the ball on the joint overhangs it, and from above
 * nothing gets under there. The joint is as sharp as facets are high. */
static void an_overhang_falls_straight_down(void **state)
{
	struct neck_spec spec = round_spec(0.4, 1.2);
	struct sample_model model;
	struct section_line line;
	double out = sqrt(225.0 - 9.0) + 1.2;

	(void)state;
	grow(&model, &line, &spec);
	assert_near(line.point[0].y_mm, out, 0.1, "half-width, mm");
	assert_near(line.point[1].y_mm, line.point[0].y_mm, 1e-9, "straight down, mm");
	assert_near(line.point[1].z_mm, 3.0, 0.5, "from the joint, mm");
	section_line_free(&line);
	sample_model_free(&model);
}

/* The slab of a flat heel has upright sides and a level back: the grown line
 * is a wall, a quarter circle and a level. */
static void upright_sides_grow_to_walls(void **state)
{
	struct neck_spec spec = round_spec(0.5, 0.5);
	struct sample_model model;
	struct section_line line;

	(void)state;
	spec.heel = (struct heel_spec){ .kind = HEEL_FLAT,
					.height_mm = 15.0,
					.slab_length_mm = 24.0,
					.beyond_joint_mm = 0.0,
					.ease_length_mm = 10.0 };
	spec.allowance.heel_cheeks_mm = 0.8;
	sample_model_make(&model, &spec);
	double x = neck_to_mm(model.neck) - 10.0, half = 15.0;
	assert_int_equal(section_line_grown(&line, &model.facets, model.neck, x, NULL), FAULT_NONE);
	assert_near(line.point[1].y_mm, half + 0.8, LINE_OFF_MM, "the wall, mm");
	assert_near(line.point[1].z_mm, 15.0, 0.05, "the wall's top, mm");
	for (int degree = 0; degree <= 90; degree += 5) {
		double angle = degree * acos(-1.0) / 180.0;
		double y = half + 0.8 * cos(angle), z = 15.0 + 0.8 * sin(angle);
		assert_near(off_line(&line, y, z), 0.0, LINE_OFF_MM, "rounding, mm");
	}
	assert_near(off_line(&line, 0.0, 15.8), 0.0, LINE_OFF_MM, "the level, mm");
	section_line_free(&line);
	sample_model_free(&model);
}

/* Left-handed necks are right-handed ones in a mirror, bass edge first. */
static void both_hands_begin_at_the_bass(void **state)
{
	struct neck_spec spec = round_spec(0.6, 1.0);
	struct section_line line[2][2];

	(void)state;
	spec.station[0].bass.family = spec.station[1].bass.family = SECTION_U;
	for (int hand = 0; hand < 2; hand++) {
		struct sample_model model;
		spec.hand = hand == 0 ? HAND_RIGHT : HAND_LEFT;
		sample_model_make(&model, &spec);
		assert_int_equal(section_line_finished(&line[hand][0], model.neck, 20.0, NULL), 0);
		assert_int_equal(section_line_grown(&line[hand][1], &model.facets, model.neck, 20.0,
						    NULL),
				 0);
		sample_model_free(&model);
	}
	for (int grown = 0; grown < 2; grown++) {
		const struct section_line *right = &line[0][grown], *left = &line[1][grown];
		assert_true(right->point[0].y_mm > 10.0);
		assert_true(left->point[0].y_mm < -10.0);
		for (size_t i = 0; i < right->count; i += 7)
			assert_near(off_line(left, -right->point[i].y_mm, right->point[i].z_mm),
				    0.0, 0.012, "from the mirrored line, mm");
		/* the bass is the full side: at 45 degrees it stands farther out */
		assert_true(off_line(right, 13.0, 13.0) < off_line(right, -13.0, 13.0) - 0.5);
	}
	for (int i = 0; i < 4; i++)
		section_line_free(&line[i / 2][i % 2]);
	section_line_free(NULL);
}

static void the_finished_line_is_the_necks_section(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct neck *neck = sample_neck_built(&spec);
	struct section_line line;
	size_t levels;

	(void)state;
	const double *level = neck_levels(neck, &levels);
	assert_int_equal(section_line_finished(&line, neck, 100.0, NULL), FAULT_NONE);
	assert_int_equal(line.count, 2 * levels);
	for (size_t i = 0; i < levels; i++) {
		assert_near(line.point[i].y_mm,
			    neck_half_breadth_mm(neck, SIDE_PLUS, 100.0, level[i]), 1e-9, "mm");
		assert_near(line.point[i].z_mm, level[i] * neck_crest_mm(neck, 100.0), 1e-9, "mm");
	}
	section_line_free(&line);
	neck_free(neck);
}

static void no_line_where_there_is_no_neck(void **state)
{
	struct neck_spec spec = round_spec(0.6, 1.0);
	struct fault_list faults = { 0 };
	struct sample_model model;
	struct section_line line;

	(void)state;
	sample_model_make(&model, &spec);
	assert_int_equal(section_line_grown(&line, &model.facets, model.neck, 500.0, &faults),
			 FAULT_INTERNAL);
	assert_int_equal(faults.count, 1);
	section_line_free(&line);
	sample_model_free(&model);
}

/* What the machine leaves stands on the grown line, with no more than scallops
 * over it: on the back, where lines run lengthwise and columns see it steeply. */
static void a_proven_program_leaves_this_line(void **state)
{
	struct job job = sample_short_job();
	struct proof_record record;
	struct planned planned;
	int checked = 0;

	(void)state;
	planned_make(&planned, &job);
	struct verdict verdict = planned_judged(&planned, &job, &record);
	assert_proven(&verdict);
	const struct stock *stock = &record.stock;
	for (double place = 5.0; place < 45.0; place += 10.0) {
		size_t ix = (size_t)llround((place - stock->x0_mm) / stock->cell_mm);
		double x = stock->x0_mm + (double)ix * stock->cell_mm;
		struct section_line line;
		assert_int_equal(section_line_grown(&line, &planned.model.facets,
						    planned.model.neck, x, NULL),
				 0);
		for (size_t iy = 0; iy < stock->ny; iy++) {
			double y = stock->y0_mm + (double)iy * stock->cell_mm;
			double z = (double)stock->top[iy * stock->nx + ix];
			if (fabs(y) > 9.0)
				continue;
			double off = off_line(&line, y, z);
			assert_true(off <= job.carve.scallop_limit_mm + 0.02);
			assert_true(z >= height_of(&line, y) - BELOW_MM);
			checked++;
		}
		section_line_free(&line);
	}
	assert_true(checked > 150);
	proof_record_free(&record);
	planned_free(&planned);
}

/* With its stock on, nothing between nut and peghead is wider than the nut and
 * its own stock on both sides. Within the stock's reach of the peghead its flare
 * counts too: by the step's 10 t^3. */
static void no_flare_before_the_peghead(void **state)
{
	struct neck_spec spec = sample_short_job().neck;
	struct sample_model model;

	(void)state;
	spec.peghead.volute_height_mm = 2.0;
	spec.peghead.volute_length_mm = 12.0;
	sample_model_make(&model, &spec);
	double most = fmax(spec.allowance.transitions_mm, spec.allowance.sides_mm);
	double opens = spec.peghead.width_mm / 2.0 - spec.nut_width_mm / 2.0;
	for (double x = -spec.peghead.transition_mm; x <= 0.0; x += 0.25) {
		struct section_line line;
		double near = fmax(0.0, most - x - spec.peghead.transition_mm);
		double flare = opens * 10.0 * pow(near / spec.peghead.flare_mm, 3);
		assert_int_equal(section_line_grown(&line, &model.facets, model.neck, x, NULL),
				 FAULT_NONE);
		for (size_t i = 0; i < line.count; i++)
			assert_between(fabs(line.point[i].y_mm), 0.0,
				       spec.nut_width_mm / 2.0 + most + flare + LINE_OFF_MM,
				       "half-breadth with stock, mm");
		section_line_free(&line);
	}
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(no_flare_before_the_peghead),
		cmocka_unit_test(a_round_back_grows_to_a_circle),
		cmocka_unit_test(each_zone_has_its_own_stock),
		cmocka_unit_test(an_overhang_falls_straight_down),
		cmocka_unit_test(upright_sides_grow_to_walls),
		cmocka_unit_test(both_hands_begin_at_the_bass),
		cmocka_unit_test(the_finished_line_is_the_necks_section),
		cmocka_unit_test(no_line_where_there_is_no_neck),
		cmocka_unit_test(a_proven_program_leaves_this_line),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
