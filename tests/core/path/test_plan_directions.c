/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole plans whose job asks for lines across, one way or down the slope: that
 * they are so, that they are proven, what they leave, and that a plan made for
 * another wish is refused. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/tol.h"
#include "stock/visits.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/sample_job.h"

/* Ramps of this job sink by tan 8 degrees = 0.14 per mm. */
#define RAMP_LEAST 0.07

/* Sides that differ, a volute, a heel: the short neck. */
static struct job job_of(struct cutting whole)
{
	struct job job = sample_short_job();

	for (size_t i = 0; i < job.neck.station_count; i++)
		job.neck.station[i].treble =
			(struct section_spec){ .family = SECTION_U, .fullness = 2.6 };
	job.neck.peghead.volute_height_mm = 1.0;
	job.neck.peghead.volute_length_mm = 9.0;
	job.fixture.work_zero_mm = vec3_make(-3.25, 0.0, 20.0);
	for (int i = 0; i < STRETCH_COUNT; i++)
		job.cutting[i] = whole;
	return job;
}

/* What the moves that take wood do, mm. Moves along the neck count as lines where
 * they go farther along than across; those that sink like a ramp are left out. */
struct tally {
	double up_left, down_left, up_right, down_right; /* toward +x or -x at +y or -y */
	double steep_up; /* the most that is cut up a slope on end */
	double on_right, on_left; /* exactly across: by where three quarters of the wood stood */
	double along, across; /* all of the surface lines' */
};

static void count_across(struct tally *tally, double length, const struct taken *taken)
{
	double all = taken->left_mm3 + taken->right_mm3;

	if (fmax(taken->left_mm3, taken->right_mm3) < 0.4 * length)
		return; /* scraps of less than 0.4 mm2 in section */
	if (taken->right_mm3 >= 0.75 * all)
		tally->on_right += length;
	else if (taken->left_mm3 >= 0.75 * all)
		tally->on_left += length;
}

static void count_move(struct tally *tally, struct vec3 a, struct vec3 b, const struct taken *taken,
		       double *rise)
{
	double dx = b.x - a.x, dy = b.y - a.y, dz = b.z - a.z, plan = hypot(dx, dy);

	if (fabs(dx) < 1e-6 && dz > -RAMP_LEAST * plan)
		count_across(tally, fabs(dy), taken);
	*rise = fabs(dx) >= fabs(dy) && dz > 0.11 * fabs(dx) ? *rise + dz : 0.0;
	tally->steep_up = fmax(tally->steep_up, fabs(dx) > 1e-6 ? *rise : 0.0);
	if (fabs(dx) < fabs(dy) || dz < -RAMP_LEAST * plan)
		return;
	if (a.y + b.y > -1e-6)
		*(dx > 0.0 ? &tally->up_left : &tally->down_left) += fabs(dx);
	else
		*(dx > 0.0 ? &tally->up_right : &tally->down_right) += fabs(dx);
}

static struct tally tallied(const struct job *job, const struct plan *plan)
{
	double radius = cutter_radius_mm(&job->cutter[0]), rise = 0.0;
	struct tally tally = { 0 };
	struct stock stock;
	struct visits visits;
	struct swath swath = { 0 };
	struct vec3 at = { 0 };
	int pass = -1;

	assert_int_equal(stock_build(&stock, &job->blank, job->carve.cell_mm, NULL), FAULT_NONE);
	assert_int_equal(visits_build(&visits, &stock, radius, NULL), FAULT_NONE);
	for (size_t i = 0; i < plan->motions.count; i++) {
		const struct motion *motion = &plan->motions.item[i];
		struct vec3 to = vec3_add(motion->to, job->fixture.work_zero_mm);
		pass = motion->kind == MOTION_PASS ? motion->pass : pass;
		if (motion->kind == MOTION_CUT) {
			assert_int_equal(stock_sweep(&stock, at, to, radius, &swath, NULL), 0);
			struct taken taken = visits_note(&visits, &stock, &swath, at, to);
			if (taken.deepest_mm > 0.05)
				count_move(&tally, at, to, &taken, &rise);
			if (plan->pass[pass].kind == PASS_SURFACE) {
				tally.along += fabs(to.x - at.x);
				tally.across += fabs(to.y - at.y);
			}
		} else {
			rise = 0.0;
		}
		at = motion_moves(motion) ? to : at;
	}
	swath_free(&swath);
	visits_free(&visits);
	stock_free(&stock);
	return tally;
}

/* Plans and proves; the tally of its moves. */
static struct tally proven_and_tallied(const struct job *job)
{
	struct planned planned;

	planned_make(&planned, job);
	struct verdict verdict = planned_judged(&planned, job, NULL);
	assert_proven(&verdict);
	struct tally tally = tallied(job, &planned.plan[0]);
	planned_free(&planned);
	return tally;
}

/* Seen from above, x up the page, +y on the left: climb goes around the neck
 * clockwise. Against it go only the ends of lines, a few mm of metres. */
static void one_way_is_one_way(void **state)
{
	(void)state;

	for (int way = CUT_CLIMB; way <= CUT_CONVENTIONAL; way++) {
		struct job job = job_of((struct cutting){ .way = (enum cut_way)way });
		struct tally t = proven_and_tallied(&job);
		bool climb = way == CUT_CLIMB;
		double with = climb ? t.up_left + t.down_right : t.down_left + t.up_right;
		double against = climb ? t.down_left + t.up_right : t.up_left + t.down_right;
		assert_true(with > 2000.0);
		assert_between(against, 0.0, 0.002 * with, "against the way, mm");
	}
}

/* The same job without a wish goes both ways on both sides, and up slopes. */
static void no_wish_no_way(void **state)
{
	(void)state;
	struct job job = job_of((struct cutting){ 0 });
	struct tally t = proven_and_tallied(&job);
	double most = fmax(t.up_left + t.down_right, t.down_left + t.up_right);

	assert_true(fmin(t.up_left + t.down_right, t.down_left + t.up_right) > most / 4.0);
	assert_true(t.steep_up > 5.0);
	assert_true(t.along > 5.0 * t.across);
}

static void downhill_never_goes_up(void **state)
{
	(void)state;

	for (int way = CUT_BOTH_WAYS; way <= CUT_CONVENTIONAL; way++) {
		struct job job = job_of((struct cutting){ 0, (enum cut_way)way, CUT_DOWNHILL });
		struct tally t = proven_and_tallied(&job);
		assert_between(t.steep_up, 0.0, 0.3, "cut up a slope on end, mm");
	}
}

/* Stock of each zone stays between what is asked for and a scallop more; 0.05
 * for columns that stand between facets and chords. */
static void assert_scallops(const struct planned *planned, const struct verdict *verdict,
			    const struct proof_record *record)
{
	struct job_result result;

	planned_measured(&result, planned, verdict, record);
	for (int z = 0; z < ZONE_COUNT; z++) {
		const struct zone_figures *zone = &result.zone[z];
		if (z == ZONE_SIDES && isnan(zone->least_mm))
			continue;
		assert_between(zone->least_mm, zone->allowance_mm - TOL_PROOF_MM, INFINITY,
			       "least stock, mm");
		assert_between(zone->most_mm, zone->allowance_mm,
			       zone->allowance_mm + planned->job.carve.scallop_limit_mm + 0.05,
			       "most stock, mm");
	}
	job_result_free(&result);
}

static void crosswise_lines_keep_the_scallop_limit(void **state)
{
	(void)state;

	for (int i = 0; i < 2; i++) {
		struct job job = job_of((struct cutting){ .lines = CUT_CROSSWISE });
		struct planned planned;
		struct proof_record record;
		/* all of it, or only where it is steep along */
		if (i == 1)
			job.cutting[STRETCH_SHAFT].lines = job.cutting[STRETCH_HEEL].lines =
				CUT_LENGTHWISE;
		job.carve.cell_mm = 0.3;
		planned_make(&planned, &job);
		struct verdict verdict = planned_judged(&planned, &job, &record);
		assert_proven(&verdict);
		assert_scallops(&planned, &verdict, &record);
		struct tally t = tallied(&job, &planned.plan[0]);
		assert_true(i == 1 || t.across > 3.0 * t.along);
		proof_record_free(&record);
		planned_free(&planned);
	}
}

/* Seen from above the spindle turns clockwise: on climb cuts the wood is on the
 * right. The first line of a level has it on both sides. */
static void crosswise_climb_has_the_wood_on_its_right(void **state)
{
	(void)state;

	for (int way = CUT_CLIMB; way <= CUT_CONVENTIONAL; way++) {
		struct job job =
			job_of((struct cutting){ CUT_CROSSWISE, (enum cut_way)way, CUT_ANY_GRAIN });
		struct tally t = proven_and_tallied(&job);
		double with = way == CUT_CLIMB ? t.on_right : t.on_left;
		double against = way == CUT_CLIMB ? t.on_left : t.on_right;
		assert_true(with > 1000.0);
		assert_between(against, 0.0, 0.005 * with, "against the way, mm");
	}
}

/* Climb stays climb: each side of the mirrored neck is cut as the other side was. */
static void mirrored_necks_have_mirrored_ways(void **state)
{
	(void)state;
	struct job job = job_of((struct cutting){ .way = CUT_CLIMB }), mirrored = job;

	for (size_t i = 0; i < job.neck.station_count; i++) {
		mirrored.neck.station[i].bass = job.neck.station[i].treble;
		mirrored.neck.station[i].treble = job.neck.station[i].bass;
	}
	struct tally a = proven_and_tallied(&job), b = proven_and_tallied(&mirrored);
	/* lines are dealt with symmetrically but for the centre line's own */
	assert_near(a.up_left, b.down_right, 0.08 * a.up_left, "left of one, mm");
	assert_near(a.down_right, b.up_left, 0.08 * a.down_right, "right of one, mm");
	assert_true(fabs(a.up_left - a.down_right) > 0.0);
}

/* A plan for one wish, judged by another: refused for this alone. */
static void another_wish_is_refused(void **state)
{
	(void)state;
	static const struct {
		struct cutting made, asked;
	} cases[] = {
		{ { 0, CUT_CLIMB, 0 }, { 0, CUT_CONVENTIONAL, 0 } },
		{ { 0, CUT_BOTH_WAYS, 0 }, { 0, CUT_CLIMB, 0 } },
		{ { 0, CUT_BOTH_WAYS, CUT_ANY_GRAIN }, { 0, CUT_BOTH_WAYS, CUT_DOWNHILL } },
		{ { 0, CUT_CLIMB, CUT_ANY_GRAIN }, { 0, CUT_BOTH_WAYS, CUT_DOWNHILL } },
		{ { CUT_CROSSWISE, CUT_CLIMB, 0 }, { CUT_CROSSWISE, CUT_CONVENTIONAL, 0 } },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct job made = job_of(cases[i].made), asked = job_of(cases[i].asked);
		struct planned planned;
		planned_make(&planned, &made);
		struct verdict verdict = planned_judged(&planned, &asked, NULL);
		assert_false(verdict.proven);
		for (int p = 0; p < PROMISE_COUNT; p++)
			assert_int_equal(verdict.promise[p].kept, p != PROMISE_DIRECTION);
		assert_true(verdict.promise[PROMISE_DIRECTION].block > 0);
		planned_free(&planned);
	}
}

/* Passes know what they are made of. */
static void passes_know_why(void **state)
{
	(void)state;
	struct job job = job_of((struct cutting){ 0, CUT_CLIMB, CUT_ANY_GRAIN });
	struct planned planned;
	double ridge = 0.85 * 0.1; /* lines are planned for 85 % of the limit of 0.1 */

	job.cutting[STRETCH_NOSE] = (struct cutting){ CUT_CROSSWISE, 0, CUT_ANY_GRAIN };
	job.cutting[STRETCH_PEGHEAD].grain = CUT_DOWNHILL;
	planned_make(&planned, &job);
	const struct plan *plan = &planned.plan[0];
	for (size_t i = 0; i < plan->pass_count; i++) {
		const struct pass_why *why = &plan->pass[i].why;
		bool level = plan->pass[i].kind == PASS_LEVEL;
		assert_int_equal(why->step_cap, level ? STEP_BY_CUTTER : STEP_BY_SCALLOP);
		/* s = 2 sqrt(2 R h - h^2) for R = 4 */
		assert_near(why->stepover_mm, level ? 4.0 : 2.0 * sqrt(8.0 * ridge - ridge * ridge),
			    1e-9, "lines apart, mm");
		assert_false(why->leftovers);
		assert_true(plan->pass[i].kind != PASS_CONTOUR ||
			    (why->lengthwise && !why->crosswise));
	}
	const struct pass_why *last = &plan->pass[plan->pass_count - 1].why;
	assert_int_equal(plan->pass[plan->pass_count - 1].kind, PASS_SURFACE);
	assert_int_equal(last->level_cap, LEVEL_BY_SURFACE);
	assert_true(last->lengthwise && last->crosswise);
	assert_int_equal(last->ways, 1U << CUT_CLIMB | 1U << CUT_BOTH_WAYS);
	assert_int_equal(last->downhill, 1U << STRETCH_PEGHEAD);
	planned_free(&planned);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(one_way_is_one_way),
		cmocka_unit_test(no_wish_no_way),
		cmocka_unit_test(downhill_never_goes_up),
		cmocka_unit_test(crosswise_lines_keep_the_scallop_limit),
		cmocka_unit_test(crosswise_climb_has_the_wood_on_its_right),
		cmocka_unit_test(mirrored_necks_have_mirrored_ways),
		cmocka_unit_test(another_wish_is_refused),
		cmocka_unit_test(passes_know_why),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
