/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What somebody who waits for the plan and the proof is told. */
#include "base/watch.h"

#include <math.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "path/plan.h"
#include "proof/proof.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/sample_job.h"

struct waiting {
	pthread_t self;
	size_t count;
	double last;
	bool fell, outside, stranger;
};

static void note(void *context, double share)
{
	struct waiting *waiting = context;

	waiting->stranger |= !pthread_equal(pthread_self(), waiting->self);
	waiting->outside |= !(share >= 0.0 && share <= 1.0);
	waiting->fell |= share < waiting->last;
	waiting->last = share;
	waiting->count++;
}

static void assert_waited_well(const struct waiting *waiting, size_t least)
{
	assert_false(waiting->stranger);
	assert_false(waiting->outside);
	assert_false(waiting->fell);
	assert_true(waiting->count >= least);
	assert_near(waiting->last, 1.0, 0.0, "all is done at the end");
}

static void nobody_need_wait(void **state)
{
	(void)state;
	struct waiting waiting = { .self = pthread_self() };
	struct watch watch = { note, &waiting };

	watch_tell(NULL, 0.5);
	watch_tell(&watch, 0.25);
	assert_int_equal(waiting.count, 1);
	assert_near(waiting.last, 0.25, 0.0, "share told");
}

static void assert_same_moves(const struct motion_list *a, const struct motion_list *b)
{
	assert_int_equal(a->count, b->count);
	for (size_t i = 0; i < a->count; i++) {
		assert_int_equal(a->item[i].kind, b->item[i].kind);
		assert_memory_equal(&a->item[i].to, &b->item[i].to, sizeof a->item[i].to);
	}
}

static void a_plan_tells_and_is_the_same(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;
	struct plan plan, watched;
	struct waiting waiting = { .self = pthread_self() };
	const struct watch watch = { note, &waiting };

	sample_model_make(&model, &job.neck);
	assert_int_equal(plan_make(&plan, &model.facets, model.neck, &job, 0, NULL, NULL, NULL),
			 FAULT_NONE);
	assert_int_equal(plan_make(&watched, &model.facets, model.neck, &job, 0, NULL, &watch,
				   NULL),
			 FAULT_NONE);
	assert_same_moves(&plan.motions, &watched.motions);
	/* the blank is 29 mm tall, a bite at most 4: more levels than 5 */
	assert_waited_well(&waiting, 6);
	plan_free(&plan);
	plan_free(&watched);
	sample_model_free(&model);
}

/* The plan, numbered as if read from a text, run twice on one blank. */
static void a_proof_tells_over_all_programs_and_is_the_same(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;
	struct plan plan;
	struct verdict verdict, watched;
	struct proof_record record;
	struct waiting waiting = { .self = pthread_self() };
	const struct watch watch = { note, &waiting };

	sample_model_make(&model, &job.neck);
	assert_int_equal(plan_make(&plan, &model.facets, model.neck, &job, 0, NULL, NULL, NULL),
			 FAULT_NONE);
	moves_number(&plan.motions);
	const struct proof_program programs[2] = { { .file = "a", .motions = &plan.motions },
						   { .file = "b", .motions = &plan.motions } };
	assert_int_equal(proof_judge(&verdict, &record, &job, model.neck, &model.facets, programs,
				     2, NULL, NULL),
			 FAULT_NONE);
	proof_record_free(&record);
	assert_int_equal(proof_judge(&watched, &record, &job, model.neck, &model.facets, programs,
				     2, &watch, NULL),
			 FAULT_NONE);
	proof_record_free(&record);
	assert_waited_well(&waiting, 10);
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *a = &verdict.promise[i], *b = &watched.promise[i];
		assert_int_equal(a->kept, b->kept);
		assert_true(a->worst == b->worst || (isnan(a->worst) && isnan(b->worst)));
		assert_int_equal(a->block, b->block);
	}
	plan_free(&plan);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(nobody_need_wait),
		cmocka_unit_test(a_plan_tells_and_is_the_same),
		cmocka_unit_test(a_proof_tells_over_all_programs_and_is_the_same),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
