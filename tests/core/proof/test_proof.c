/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned neck is proven; each single spoiling breaks the promise meant and
 * names its block. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/sample_job.h"

/* The short neck, planned once for all tests. */
static int plan_once(void **state)
{
	static struct planned planned;
	struct job job = sample_short_job();

	job.carve.scallop_limit_mm = 0.3; /* fewer lines: quicker to judge */
	planned_make(&planned, &job);
	*state = &planned;
	return 0;
}

static int free_plan(void **state)
{
	planned_free(*state);
	return 0;
}

static struct motion_list copied(const struct planned *planned)
{
	struct motion_list list = { 0 };

	for (size_t i = 0; i < planned->plan[0].motions.count; i++)
		moves_add(&list, planned->plan[0].motions.item[i]);
	return list;
}

/* Judges the list as one program; uses it up. */
static struct verdict judged(const struct planned *planned, const struct job *job,
			     struct motion_list list)
{
	struct verdict verdict = planned_moves_judged(planned, job, &list, NULL);

	motion_list_free(&list);
	return verdict;
}

#define BIT(promise) (1u << (promise))

/* `must` are broken, `may` as well, nothing else; the first block named is
 * that of the first of `must`. */
static void assert_broken(const struct verdict *verdict, unsigned must, unsigned may, int block)
{
	unsigned broken = 0;

	for (int i = 0; i < PROMISE_COUNT; i++) {
		assert_true(verdict->promise[i].judged);
		if (verdict->promise[i].kept)
			continue;
		broken |= BIT(i);
		if (!(BIT(i) & (must | may)))
			fail_msg("%s, block %d: %s", promise_text((enum promise)i)->key,
				 verdict->promise[i].block, verdict->promise[i].why);
	}
	assert_int_equal(broken & must, must);
	assert_int_equal(verdict->proven, must == 0);
	if (!must)
		return;
	int first = verdict_first_broken(verdict);
	assert_true(first >= 0 && (BIT(first) & must) != 0);
	if (block >= 0)
		assert_int_equal(verdict->promise[first].block, block);
}

static void planned_neck_is_proven(void **state)
{
	struct planned *planned = *state;
	struct verdict verdict = judged(planned, &planned->job, copied(planned));

	assert_broken(&verdict, 0, 0, 0);
	assert_true(verdict_first_broken(&verdict) < 0);
	/* the planner comes as near as it may and no nearer */
	assert_between(verdict.promise[PROMISE_ALLOWANCE].worst, -TOL_PROOF_MM, 0.002, "mm");
	assert_between(verdict.promise[PROMISE_BITE].worst, 2.0, 4.02, "deepest bite, mm");
}

static double room_at(const struct planned *planned, struct vec3 tip)
{
	double radius = cutter_radius_mm(&planned->job.cutter[0]);

	tip.z += radius;
	return facet_tree_clearance_mm(&planned->model.tree, tip, 10.0) - radius;
}

/* A cut on top of the shaft that touches the stock's limit: how low it may go
 * is then plain to see. */
static size_t touching_cut(const struct planned *planned, size_t nth)
{
	const struct motion_list *list = &planned->plan[0].motions;

	for (size_t i = 1; i < list->count; i++) {
		struct vec3 p = list->item[i].to;
		if (list->item[i].kind == MOTION_CUT && list->item[i - 1].kind == MOTION_CUT &&
		    p.x > 8 && p.x < 55 && fabs(p.y) < 3 && room_at(planned, p) < 0.01 &&
		    nth-- == 0)
			return i;
	}
	fail_msg("no cut touches the allowed surface");
	return 0;
}

static void one_z_too_low(void **state)
{
	struct planned *planned = *state;

	for (size_t nth = 0; nth < 30; nth += 10) {
		struct motion_list list = copied(planned);
		size_t i = touching_cut(planned, nth);
		list.item[i].to.z -= room_at(planned, list.item[i].to) + 0.05;
		struct verdict verdict = judged(planned, &planned->job, list);
		/* the columns there are left too thin as well */
		assert_broken(&verdict, BIT(PROMISE_ALLOWANCE), BIT(PROMISE_STOCK), (int)i + 1);
		/* the first sample beyond the limit ends the search: its bound is
		 * not pursued any further */
		assert_between(verdict.promise[PROMISE_ALLOWANCE].worst, -0.1, -0.04, "mm");
	}
}

/* A whole stretch too low leaves its columns too thin: found on the wood as
 * well as on the way. */
static void stretch_too_low(void **state)
{
	struct planned *planned = *state;
	struct motion_list list = copied(planned);
	size_t first = touching_cut(planned, 0), i = first;

	for (; i < first + 20 && list.item[i].kind == MOTION_CUT; i++) {
		list.item[i].to.z -= 0.06;
		list.item[i].feed_mm_per_min = 300;
	}
	list.item[i].feed_mm_per_min = 300;
	struct verdict verdict = judged(planned, &planned->job, list);
	assert_broken(&verdict, BIT(PROMISE_ALLOWANCE) | BIT(PROMISE_STOCK), 0, (int)first + 1);
	assert_between(verdict.promise[PROMISE_STOCK].worst, -0.07, -0.03, "stock short, mm");
	assert_int_equal(verdict.promise[PROMISE_STOCK].block, 0);
}

/* As much as the tolerance is let pass, a little more is not. */
static void tolerance_of_the_certificate(void **state)
{
	struct planned *planned = *state;
	static const double low_mm[2] = { 0.004, 0.013 };

	for (int k = 0; k < 2; k++) {
		struct motion_list list = copied(planned);
		size_t i = touching_cut(planned, 0);
		list.item[i].to.z -= room_at(planned, list.item[i].to) + low_mm[k];
		struct verdict verdict = judged(planned, &planned->job, list);
		assert_int_equal(verdict.promise[PROMISE_ALLOWANCE].kept, k == 0);
	}
}

/* Replaces items [at, at + gone) by others. */
static void splice(struct motion_list *list, size_t at, size_t gone, const struct motion_list *in)
{
	struct motion_list out = { 0 };

	for (size_t i = 0; i < at; i++)
		moves_add(&out, list->item[i]);
	for (size_t i = 0; in && i < in->count; i++)
		moves_add(&out, in->item[i]);
	for (size_t i = at + gone; i < list->count; i++)
		moves_add(&out, list->item[i]);
	motion_list_free(list);
	*list = out;
}

static size_t first_of(const struct motion_list *list, enum motion_kind kind)
{
	size_t i = 0;

	while (i < list->count && list->item[i].kind != kind)
		i++;
	assert_true(i < list->count);
	return i;
}

/* The program with a detour right before its first pass: from the safe height
 * over to (x, y), down to z by a rapid (feed 0) or cutting, and back. The
 * detour's way down is the block returned. */
static int with_detour(struct motion_list *list, double x, double y, double z, double feed)
{
	size_t at = first_of(list, MOTION_PASS);
	struct vec3 home = list->item[at - 1].to;
	struct motion_list detour = { 0 };

	moves_rapid(&detour, x, y, home.z);
	if (feed > 0.0)
		moves_cut(&detour, x, y, z, feed);
	else
		moves_rapid(&detour, x, y, z);
	moves_rapid(&detour, x, y, home.z);
	moves_rapid(&detour, home.x, home.y, home.z);
	splice(list, at, 0, &detour);
	motion_list_free(&detour);
	return (int)at + 2;
}

static void detours(void **state)
{
	struct planned *planned = *state;
	/* beside the neck: 13 mm of wood, 0.6 of stock, a ball of 4 */
	static const struct {
		double x, y, z, feed;
		enum promise promise;
	} cases[] = {
		{ 20, 0, 18, 0, PROMISE_RAPID }, /* 2 mm into the blank */
		{ 20, 18.5, 14, 600, PROMISE_BITE }, /* 6 mm at once */
		{ 20, 18.5, 17.5, 1000, PROMISE_PLUNGE }, /* too fast straight down */
		{ 20, 18.5, 17.5, 1300, PROMISE_FEED }, /* faster than Z can */
		{ -37, 0, 32.5, 0, PROMISE_KEEP_OUT }, /* half a millimetre over the clamp */
		{ 60, 40, -9.5, 0, PROMISE_KEEP_OUT }, /* half a millimetre over the bed */
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct motion_list list = copied(planned);
		int block = with_detour(&list, cases[i].x, cases[i].y, cases[i].z, cases[i].feed);
		struct verdict verdict = judged(planned, &planned->job, list);
		unsigned may = cases[i].promise == PROMISE_FEED ? BIT(PROMISE_PLUNGE) : 0;
		assert_broken(&verdict, BIT(cases[i].promise), may, block);
	}
	struct motion_list far = copied(planned);
	int block = with_detour(&far, -540, 0, 40, 0);
	struct verdict verdict = judged(planned, &planned->job, far);
	assert_broken(&verdict, BIT(PROMISE_TRAVEL), 0, block - 1);
}

static void order_of_things(void **state)
{
	struct planned *planned = *state;
	struct motion_list list = copied(planned);

	splice(&list, first_of(&list, MOTION_SPINDLE_ON), 1, NULL);
	size_t cut = first_of(&list, MOTION_CUT);
	struct verdict verdict = judged(planned, &planned->job, list);
	assert_broken(&verdict, BIT(PROMISE_START), 0, (int)cut + 1);
	list = copied(planned);
	list.item[first_of(&list, MOTION_SPINDLE_ON)].spindle_rpm = 25000;
	verdict = judged(planned, &planned->job, list);
	assert_broken(&verdict, BIT(PROMISE_SPINDLE), 0, 1);
	list = copied(planned);
	splice(&list, first_of(&list, MOTION_SPINDLE_OFF), 1, NULL);
	int end = (int)list.count; /* one item is gone either way */
	verdict = judged(planned, &planned->job, list);
	assert_broken(&verdict, BIT(PROMISE_START), 0, end);
	list = copied(planned);
	splice(&list, first_of(&list, MOTION_END), 1, NULL);
	verdict = judged(planned, &planned->job, list);
	assert_broken(&verdict, BIT(PROMISE_START), 0, end);
}

/* The same program on a job that asks more. */
static void other_jobs(void **state)
{
	struct planned *planned = *state;
	struct job job = planned->job;

	job.neck.channel.least_wood_mm = 9;
	struct verdict verdict = judged(planned, &job, copied(planned));
	assert_broken(&verdict, BIT(PROMISE_CHANNEL), 0, 0);
	job = planned->job;
	job.cutter[0].depth_limit_mm = 2;
	verdict = judged(planned, &job, copied(planned));
	assert_broken(&verdict, BIT(PROMISE_BITE), 0, -1);
	assert_true(verdict.promise[PROMISE_BITE].block > 0);
	job = planned->job;
	job.fixture.keep_out_count = 0;
	job.cutter[0].holder_diameter_mm = 30;
	job.cutter[0].stickout_mm = 30.5; /* the holder comes down on the heel's cap */
	verdict = judged(planned, &job, copied(planned));
	assert_broken(&verdict, BIT(PROMISE_HOLDER), BIT(PROMISE_RAPID), -1);
	job = planned->job;
	job.cutter[0].flute_length_mm = 3.5;
	verdict = judged(planned, &job, copied(planned));
	assert_broken(&verdict, BIT(PROMISE_SHANK), 0, -1);
	job = planned->job;
	/* held by nothing but waste that is cut away */
	job.fixture.hold[0] = (struct place){ "waste", 20, 30, 18.5, 19.5, 0, PLACE_BOX };
	verdict = judged(planned, &job, copied(planned));
	assert_broken(&verdict, BIT(PROMISE_LOOSE), 0, -1);
}

/* A text that could not be read is not judged any further. */
static void refused_text(void **state)
{
	struct planned *planned = *state;
	struct proof_program programs[2] = {
		{ .file = "good.nc", .motions = &planned->plan[0].motions },
		{ .file = "bad.nc", .form_block = 7, .form_why = "It has two G words." },
	};
	struct proof_record record;
	struct verdict verdict;

	assert_int_equal(proof_judge(&verdict, &record, &planned->job, planned->model.neck,
				     &planned->model.facets, programs, 2, NULL, NULL),
			 FAULT_NONE);
	assert_false(verdict.proven);
	assert_int_equal(verdict_first_broken(&verdict), PROMISE_FORM);
	assert_int_equal(verdict.promise[PROMISE_FORM].program, 1);
	assert_int_equal(verdict.promise[PROMISE_FORM].block, 7);
	assert_string_equal(verdict.promise[PROMISE_FORM].why, "It has two G words.");
	assert_false(verdict.promise[PROMISE_ALLOWANCE].judged);
	proof_record_free(&record);
}

/* Program zero elsewhere: the same neck in other numbers. */
static void shifted_zero(void **state)
{
	struct planned *planned = *state;
	struct job job = planned->job;
	struct motion_list list = copied(planned);

	job.fixture.work_zero_mm = vec3_make(-12.5, 3.0, 20.0);
	for (size_t i = 0; i < list.count; i++)
		list.item[i].to = vec3_sub(list.item[i].to, job.fixture.work_zero_mm);
	struct verdict verdict = judged(planned, &job, list);
	assert_broken(&verdict, 0, 0, 0);
	/* and a zero set wrong by a tenth of a millimetre is found out */
	job.fixture.work_zero_mm = vec3_make(0, 0, -0.1);
	verdict = judged(planned, &job, copied(planned));
	assert_false(verdict.promise[PROMISE_ALLOWANCE].kept);
}

/* The true path may lie beside its straight pieces: that is charged everywhere. */
static void pieces_of_arcs(void **state)
{
	struct planned *planned = *state;
	struct verdict straight = judged(planned, &planned->job, copied(planned));

	for (int i = 0; i < 2; i++) {
		double stray = i == 0 ? 0.003 : 0.03;
		struct motion_list list = copied(planned);
		for (size_t k = 0; k < list.count; k++)
			if (list.item[k].kind == MOTION_CUT)
				list.item[k].stray_mm = stray;
		struct verdict bent = judged(planned, &planned->job, list);
		if (i == 0)
			assert_broken(&bent, 0, 0, 0);
		else
			assert_broken(&bent, BIT(PROMISE_ALLOWANCE) | BIT(PROMISE_STOCK),
				      BIT(PROMISE_BITE), -1);
		assert_near(bent.promise[PROMISE_STOCK].worst,
			    straight.promise[PROMISE_STOCK].worst - stray, 1e-9, "stock, mm");
		if (i == 0)
			assert_near(bent.promise[PROMISE_ALLOWANCE].worst,
				    straight.promise[PROMISE_ALLOWANCE].worst - stray, 0.0011,
				    "clearance, mm: to the certificate's grain");
	}
}

/* Up, over to the machine's parking place, and no further. */
static void parked_at_the_end(void **state)
{
	struct planned *planned = *state;
	struct job job = planned->job;
	struct planned parked;

	job.machine.parks = true;
	job.machine.park_x_mm = 12.5;
	job.machine.park_y_mm = 90.0;
	planned_make(&parked, &job);
	const struct motion_list *motions = &parked.plan[0].motions;
	const struct motion *park = &motions->item[motions->count - 3];
	assert_int_equal(park->kind, MOTION_RAPID);
	assert_near(park->to.x, 12.5, 1e-9, "x of the parking place, mm");
	assert_near(park->to.y, 90.0, 1e-9, "y of the parking place, mm");
	assert_near(park->to.z, park[-1].to.z, 0.0, "at the height it was lifted to, mm");
	struct verdict verdict = planned_judged(&parked, &job, NULL);
	assert_broken(&verdict, 0, 0, 0);
	/* a program that ends elsewhere is refused on this machine */
	verdict = judged(planned, &job, copied(planned));
	assert_broken(&verdict, BIT(PROMISE_START), 0, (int)planned->plan[0].motions.count);
	planned_free(&parked);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(planned_neck_is_proven),
		cmocka_unit_test(one_z_too_low),
		cmocka_unit_test(stretch_too_low),
		cmocka_unit_test(tolerance_of_the_certificate),
		cmocka_unit_test(detours),
		cmocka_unit_test(order_of_things),
		cmocka_unit_test(other_jobs),
		cmocka_unit_test(refused_text),
		cmocka_unit_test(shifted_zero),
		cmocka_unit_test(pieces_of_arcs),
		cmocka_unit_test(parked_at_the_end),
	};

	return cmocka_run_group_tests(tests, plan_once, free_plan);
}
