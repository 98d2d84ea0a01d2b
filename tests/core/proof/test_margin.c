/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blank's margin: a program planned and proven with it keeps its promises
 * on every real blank within it; one planned without it is refused. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/moves.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/real_blank.h"
#include "support/seed.h"

#define MARGIN_MM 0.7
#define REAL_BLANKS 12
/* The columns of a longer blank stand elsewhere: its figures may differ by what
 * a scallop rises within a column of 0.4 mm, mm. */
#define GRID_MM 0.05

/* The short neck, its sides each by itself. */
static struct job short_job(double margin_mm)
{
	struct job job = sample_short_job();

	job.carve.scallop_limit_mm = 0.3; /* fewer lines: quicker to judge */
	job.blank.half_width.count = 0;
	job.blank.side[BLANK_MINUS] = (struct outline){ 2, { -40, 85.9 }, { 20, 18.5 } };
	job.blank.side[BLANK_PLUS] =
		(struct outline){ 4, { -40, -19, -19, 85.9 }, { 21, 21, 18.5, 20 } };
	job.blank.margin_mm = margin_mm;
	return job;
}

/* Planned once for all tests, with a margin. */
static int plan_once(void **state)
{
	static struct planned planned;
	struct job job = short_job(MARGIN_MM);

	planned_make(&planned, &job);
	*state = &planned;
	return 0;
}

static int free_plan(void **state)
{
	planned_free(*state);
	return 0;
}

static void planned_with_its_margin(void **state)
{
	struct planned *planned = *state;
	struct verdict verdict = planned_judged(planned, &planned->job, NULL);

	assert_proven(&verdict);
}

/* On no real blank is any promise worse kept than the proof said. */
static void every_real_blank_keeps_the_promises(void **state)
{
	struct planned *planned = *state;
	static const enum promise worse_with_more[] = { PROMISE_BITE, PROMISE_PLUNGE };
	static const enum promise worse_with_less[] = { PROMISE_RAPID, PROMISE_SHANK,
							PROMISE_HOLDER, PROMISE_CHANNEL,
							PROMISE_STOCK };
	struct verdict told = planned_judged(planned, &planned->job, NULL);
	gsl_rng *rng = seed_rng("every_real_blank_keeps_the_promises");

	for (unsigned long n = 0; n < REAL_BLANKS; n++) {
		struct job real = planned->job;
		seed_nth(rng, n);
		real_blank(&real.blank, &planned->job.blank, rng);
		struct verdict verdict = planned_judged(planned, &real, NULL);
		assert_proven(&verdict);
		for (size_t i = 0; i < sizeof worse_with_more / sizeof worse_with_more[0]; i++)
			assert_true(verdict.promise[worse_with_more[i]].worst <=
				    told.promise[worse_with_more[i]].worst + GRID_MM);
		for (size_t i = 0; i < sizeof worse_with_less / sizeof worse_with_less[0]; i++)
			assert_true(verdict.promise[worse_with_less[i]].worst >=
				    told.promise[worse_with_less[i]].worst - GRID_MM);
	}
	gsl_rng_free(rng);
}

/* The figures are those of the blank as drawn: what was cut and what is left of
 * it make it whole again. */
static void volumes_of_the_drawn_blank(void **state)
{
	struct planned *planned = *state;
	struct job drawn = planned->job;
	struct proof_record record;
	struct stock whole;
	double before = 0.0, left = 0.0, cut = 0.0, cell = planned->job.carve.cell_mm;

	(void)planned_judged(planned, &planned->job, &record);
	drawn.blank.margin_mm = 0.0;
	assert_int_equal(stock_build(&whole, &drawn.blank, cell, NULL), FAULT_NONE);
	for (size_t i = 0; i < whole.nx * whole.ny; i++)
		before += (double)whole.top[i] - whole.bottom[i];
	for (size_t i = 0; i < record.stock.nx * record.stock.ny; i++)
		left += (double)record.stock.top[i] - record.stock.bottom[i];
	for (size_t i = 0; i <= record.program[0].pass_count; i++)
		cut += record.program[0].pass[i].volume_mm3;
	assert_true(cut > 1000.0);
	/* the two grids lie a little apart: half a column at each side and end */
	assert_near(cut + left * cell * cell, before * cell * cell,
		    cell * (2.0 * 126.0 + 4.0 * 20.0) * 25.0 / 2.0, "volume, mm3");
	assert_near((double)record.stock.top[stock_iy(&record.stock, 0) * record.stock.nx +
					     stock_ix(&record.stock, -39)],
		    20.0, 1e-5, "uncut wood as drawn, mm");
	stock_free(&whole);
	proof_record_free(&record);
}

/* Planned for a blank sawn to the line, but this one may be higher and wider:
 * the proof takes the margin from the job and refuses. */
static void planned_without_the_margin(void **state)
{
	(void)state;
	struct job drawn = short_job(0.0), job = short_job(1.2);
	struct planned planned;

	planned_make(&planned, &drawn);
	struct verdict good = planned_judged(&planned, &drawn, NULL);
	assert_proven(&good);
	struct verdict verdict = planned_judged(&planned, &job, NULL);
	assert_false(verdict.proven);
	assert_false(verdict.promise[PROMISE_BITE].kept);
	/* 1.2 mm more of height, and at the sides wood where there was none */
	assert_between(verdict.promise[PROMISE_BITE].worst, good.promise[PROMISE_BITE].worst + 0.2,
		       good.promise[PROMISE_BITE].worst + 2.4, "bite, mm");
	planned_free(&planned);
}

/* So is a rapid that clears the wood as drawn by less than the margin. */
static void rapid_within_the_margin(void **state)
{
	struct planned *planned = *state;
	static const double over_mm[2] = { 0.5, 1.0 };

	for (int k = 0; k < 2; k++) {
		struct motion_list list = { 0 };
		struct job job = planned->job;
		moves_add(&list,
			  (struct motion){ .kind = MOTION_SPINDLE_ON, .spindle_rpm = 16000 });
		moves_add(&list, (struct motion){ .kind = MOTION_RAPID,
						  .to = { 0, 0, 40 },
						  .known = KNOWN_Z });
		moves_rapid(&list, 0, 0, 40);
		moves_rapid(&list, 0, 0, 20.0 + over_mm[k]);
		moves_rapid(&list, 0, 0, 40);
		struct verdict verdict = planned_moves_judged(planned, &job, &list, NULL);
		assert_int_equal(verdict.promise[PROMISE_RAPID].kept, k == 1);
		assert_near(verdict.promise[PROMISE_RAPID].worst, over_mm[k] - MARGIN_MM, 1e-5,
			    "room over the most wood, mm");
		motion_list_free(&list);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(planned_with_its_margin),
		cmocka_unit_test(every_real_blank_keeps_the_promises),
		cmocka_unit_test(volumes_of_the_drawn_blank),
		cmocka_unit_test(planned_without_the_margin),
		cmocka_unit_test(rapid_within_the_margin),
	};

	return cmocka_run_group_tests(tests, plan_once, free_plan);
}
