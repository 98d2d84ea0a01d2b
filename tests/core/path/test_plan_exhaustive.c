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
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "path/tabs.h"
#include "support/any_job.h"
#include "support/planned.h"
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

/* Measures proven plans; returns how many zones have too little or too much stock. */
static int zones_off(unsigned long n, const struct planned *planned, const struct verdict *verdict,
		     const struct proof_record *record)
{
	struct job_result result;

	planned_measured(&result, planned, verdict, record);
	int off = thin_zones(n, &result) + thick_zones(n, &planned->job, &result);
	(void)printf("  left for the chisel %.0f mm3 on %.0f mm2 in %zu places\n",
		     result.chisel.over_finished_mm3, result.chisel.area_mm2,
		     result.chisel.place_count);
	job_result_free(&result);
	return off;
}

/* Returns how many promises and zones the plans fail. */
static int judged(unsigned long n, struct planned *planned)
{
	struct proof_record record;
	struct verdict verdict = planned_judged(planned, &planned->job, &record);
	char words[40];
	int failures = 1;

	(void)snprintf(words, sizeof words, "neck %lu", n);
	if (verdict.proven)
		failures = zones_off(n, planned, &verdict, &record);
	else
		print_broken(words, &verdict);
	proof_record_free(&record);
	return failures;
}

/* Plans all cutters. A later cutter that finds nothing to cut is taken out, as
 * the builder is told to do. */
static bool all_planned(unsigned long n, struct planned *planned)
{
	size_t count = 0;

	while (count < planned->job.cutter_count) {
		struct fault_list faults = { 0 };
		struct plan *plan = &planned->plan[count];
		enum fault fault = plan_make(plan, &planned->model.facets, planned->model.neck,
					     &planned->job, count, count > 0 ? plan - 1 : NULL,
					     NULL, &faults);
		if (fault == FAULT_PLAN && count > 0 &&
		    strcmp(faults.record[0].setting, "use.then") == 0) {
			plan_free(plan);
			planned->job.cutter_count = count;
		} else if (fault != FAULT_NONE) {
			print_error("neck %lu: no plan: %s: %s\n", n, faults.record[0].setting,
				    faults.record[0].message);
			return false;
		} else {
			count++;
		}
	}
	return true;
}

static bool tabbed(unsigned long n, struct planned *planned)
{
	struct fault_list faults = { 0 };

	if (tabs_choose(&planned->job, &planned->model.facets, planned->model.neck, &faults) ==
	    FAULT_NONE)
		return true;
	print_error("neck %lu: no tabs: %s: %s\n", n, faults.record[0].setting,
		    faults.record[0].message);
	return false;
}

static int planned_and_judged(unsigned long n, const struct job *job)
{
	struct planned planned = { .job = *job };
	int failures = 1;

	sample_model_make(&planned.model, &planned.job.neck);
	if (tabbed(n, &planned) && all_planned(n, &planned))
		failures = judged(n, &planned);
	planned_free(&planned);
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
