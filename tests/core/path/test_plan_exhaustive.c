/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random jobs that pass their checks: each is planned, its plan proven, and
 * what it leaves measured. NECKHEW_NECKS=n in the environment asks for n of
 * them instead of the usual few. The nth of a run is the first of a run whose
 * seed is n higher (n from 0). */
#include <errno.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "job/measure.h"
#include "path/plan.h"
#include "path/tabs.h"
#include "proof/proof.h"
#include "support/any_job.h"
#include "support/sample_job.h"
#include "support/seed.h"

#define USUAL_NECKS 6
#define DRAWS_MAX 300
/* More than allowance and scallop by this at most, mm. The examples keep 0.05;
 * in the fillet before a random heel the lines leave up to 0.1. */
#define OVER_MM 0.10

static unsigned long necks_asked(void)
{
	const char *text = getenv("NECKHEW_NECKS");
	char *end = NULL;

	if (!text || !*text)
		return USUAL_NECKS;
	errno = 0;
	unsigned long necks = strtoul(text, &end, 10);
	if (errno != 0 || *end != '\0' || *text < '0' || *text > '9' || necks == 0)
		fail_msg("NECKHEW_NECKS is no number of necks: %s", text);
	return necks;
}

/* Jobs that do not fit together are drawn again. */
static void valid_job(struct job *job, const gsl_rng *rng)
{
	for (int draw = 0; draw < DRAWS_MAX; draw++) {
		struct neck *neck = NULL;
		any_job(job, rng);
		enum fault fault = job_check(job, NULL);
		if (fault == FAULT_NONE)
			fault = neck_build(&neck, &job->neck, NULL);
		neck_free(neck);
		if (fault == FAULT_NONE)
			return;
	}
	fail_msg("of %d random jobs none was valid", DRAWS_MAX);
}

static void print_broken(unsigned long n, const struct verdict *verdict)
{
	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &verdict->promise[i];
		if (result->judged && !result->kept)
			print_error("neck %lu: %s broken at block %d, %.4f against %.4f: %s\n", n,
				    promise_text((enum promise)i)->key, result->block,
				    result->worst, result->limit, result->why);
		else if (!result->judged)
			print_error("neck %lu: %s not judged\n", n,
				    promise_text((enum promise)i)->key);
	}
}

/* Zones with less hand-finish stock anywhere than the allowance. Upright sides
 * may be so narrow in plan that no column stands on them. */
static int thin_zones(unsigned long n, const struct job_result *result)
{
	int thin = 0;

	for (int i = 0; i < ZONE_COUNT; i++) {
		const struct zone_figures *zone = &result->zone[i];
		if (zone->least_mm >= zone->allowance_mm - TOL_PROOF_MM ||
		    (i == ZONE_SIDES && isnan(zone->least_mm)))
			continue;
		print_error("neck %lu: %.4f mm of stock left in zone %d, %.4f asked for\n", n,
			    zone->least_mm, i, zone->allowance_mm);
		thin++;
	}
	return thin;
}

/* Zones with more stock somewhere on reachable surface than allowance, scallop
 * and what a plan may lose between its lines. */
static int thick_zones(unsigned long n, const struct job *job, const struct job_result *result)
{
	int thick = 0;
	double below_mm = job_most_radius_mm(job) + job->neck.allowance.sides_mm +
			  job->fixture.bed_clearance_mm;

	/* a ball that the bed keeps from passing the edge leaves a cove there */
	if (-job_bed_mm(job) < below_mm)
		return 0;
	for (int i = 0; i < ZONE_COUNT; i++) {
		const struct zone_figures *zone = &result->zone[i];
		double most = zone->allowance_mm + job->carve.scallop_limit_mm + OVER_MM;
		if (!(zone->most_mm > most))
			continue;
		print_error("neck %lu: %.4f mm of stock left in zone %d, %.4f are the most\n", n,
			    zone->most_mm, i, most);
		thick++;
	}
	return thick;
}

/* Programs of one job, planned. */
struct plans {
	size_t count;
	struct plan plan[JOB_CUTTERS_MAX];
};

/* What the planner knows of a plan's passes. */
struct pass_lists {
	enum pass_kind *kind;
	enum feed_cap *cap;
	double *level_mm;
};

static struct pass_lists list_passes(const struct plan *plan)
{
	struct pass_lists lists = { calloc(plan->pass_count, sizeof *lists.kind),
				    calloc(plan->pass_count, sizeof *lists.cap),
				    calloc(plan->pass_count, sizeof *lists.level_mm) };

	assert_true(lists.kind && lists.cap && lists.level_mm);
	for (size_t i = 0; i < plan->pass_count; i++) {
		lists.kind[i] = plan->pass[i].kind;
		lists.cap[i] = plan->pass[i].feed.cap;
		lists.level_mm[i] = plan->pass[i].level_mm;
	}
	return lists;
}

/* Measures proven plans; returns how many zones have too little or too much stock. */
static int measured(unsigned long n, const struct job *job, const struct sample_model *model,
		    const struct plans *plans, const struct verdict *verdict,
		    const struct proof_record *record)
{
	struct pass_lists lists[JOB_CUTTERS_MAX];
	struct measure_program program[JOB_CUTTERS_MAX];
	struct job_result result;

	for (size_t i = 0; i < plans->count; i++) {
		lists[i] = list_passes(&plans->plan[i]);
		program[i] = (struct measure_program){ .file = "neck.nc",
						       .cutter = i,
						       .blocks = 1,
						       .kind = lists[i].kind,
						       .level_mm = lists[i].level_mm,
						       .feed_cap = lists[i].cap };
	}
	assert_int_equal(measure_job(&result, job, model->neck, &model->facets, verdict, record,
				     program, NULL),
			 FAULT_NONE);
	int off = thin_zones(n, &result) + thick_zones(n, job, &result);
	(void)printf("  left for the chisel %.0f mm3 on %.0f mm2 in %zu places\n",
		     result.chisel.over_finished_mm3, result.chisel.area_mm2,
		     result.chisel.place_count);
	job_result_free(&result);
	for (size_t i = 0; i < plans->count; i++) {
		free(lists[i].kind);
		free(lists[i].cap);
		free(lists[i].level_mm);
	}
	return off;
}

/* Each motion is a block; returns the first blocks of the passes. */
static int *number_blocks(struct plan *plan)
{
	int *first = calloc(plan->pass_count, sizeof *first);
	size_t count = 0;

	assert_non_null(first);
	for (size_t i = 0; i < plan->motions.count; i++) {
		plan->motions.item[i].block = (int)i + 1;
		if (plan->motions.item[i].kind == MOTION_PASS)
			first[count++] = (int)i + 1;
	}
	assert_int_equal(count, plan->pass_count);
	return first;
}

/* Returns how many promises and zones the plans fail. */
static int judged(unsigned long n, const struct job *job, const struct sample_model *model,
		  struct plans *plans)
{
	struct proof_program program[JOB_CUTTERS_MAX];
	int *first[JOB_CUTTERS_MAX], failures = 1;
	struct proof_record record;
	struct verdict verdict;

	for (size_t i = 0; i < plans->count; i++) {
		first[i] = number_blocks(&plans->plan[i]);
		program[i] = (struct proof_program){ .file = "neck.nc",
						     .cutter = i,
						     .motions = &plans->plan[i].motions,
						     .pass_count = plans->plan[i].pass_count,
						     .pass_first_block = first[i] };
	}
	assert_int_equal(proof_judge(&verdict, &record, job, model->neck, &model->facets, program,
				     plans->count, NULL, NULL),
			 FAULT_NONE);
	if (verdict.proven)
		failures = measured(n, job, model, plans, &verdict, &record);
	else
		print_broken(n, &verdict);
	proof_record_free(&record);
	for (size_t i = 0; i < plans->count; i++)
		free(first[i]);
	return failures;
}

/* Plans all cutters. A later cutter that finds nothing to cut is taken out, as
 * the builder is told to do. */
static bool planned(unsigned long n, struct job *job, const struct sample_model *model,
		    struct plans *plans)
{
	while (plans->count < job->cutter_count) {
		struct fault_list faults = { 0 };
		size_t i = plans->count;
		struct plan *plan = &plans->plan[i];
		enum fault fault = plan_make(plan, &model->facets, model->neck, job, i,
					     i > 0 ? plan - 1 : NULL, NULL, &faults);
		if (fault == FAULT_PLAN && i > 0 &&
		    strcmp(faults.record[0].setting, "use.then") == 0) {
			plan_free(plan);
			job->cutter_count = i;
		} else if (fault != FAULT_NONE) {
			print_error("neck %lu: no plan: %s: %s\n", n, faults.record[0].setting,
				    faults.record[0].message);
			return false;
		} else {
			plans->count++;
		}
	}
	return true;
}

static bool tabbed(unsigned long n, struct job *job, const struct sample_model *model)
{
	struct fault_list faults = { 0 };

	if (tabs_choose(job, &model->facets, model->neck, &faults) == FAULT_NONE)
		return true;
	print_error("neck %lu: no tabs: %s: %s\n", n, faults.record[0].setting,
		    faults.record[0].message);
	return false;
}

static int planned_and_judged(unsigned long n, struct job *job)
{
	struct sample_model model;
	struct plans plans = { 0 };
	int failures = 1;

	sample_model_make(&model, &job->neck);
	if (tabbed(n, job, &model) && planned(n, job, &model, &plans))
		failures = judged(n, job, &model, &plans);
	for (size_t i = 0; i < JOB_CUTTERS_MAX; i++)
		plan_free(&plans.plan[i]);
	sample_model_free(&model);
	return failures;
}

static void any_valid_job_is_proven(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("any_valid_job_is_proven");
	unsigned long necks = necks_asked(), failed = 0;

	for (unsigned long n = 0; n < necks; n++) {
		struct job job;
		seed_nth(rng, n);
		valid_job(&job, rng);
		if (planned_and_judged(n, &job) > 0) {
			any_job_print(&job);
			failed++;
		}
	}
	gsl_rng_free(rng);
	if (failed > 0)
		fail_msg("%lu of %lu necks failed", failed, necks);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(any_valid_job_is_proven) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
