/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sample_bed.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

void sample_bed_make(struct sample_bed *out, const struct job *job)
{
	struct fault_list faults = { 0 };

	out->job = *job;
	sample_model_make(&out->model, &out->job.neck);
	if (bench_build(&out->bench, &out->model.facets, out->model.neck, &out->job, 0, NULL,
			&faults) != FAULT_NONE)
		fail_msg("%s: %s", faults.record[0].setting, faults.record[0].message);
}

void sample_bed_free(struct sample_bed *bed)
{
	bench_free(&bed->bench);
	sample_model_free(&bed->model);
}

int sample_bed_setup(void **state)
{
	static struct sample_bed bed;
	struct job job = sample_short_job();

	sample_bed_make(&bed, &job);
	*state = &bed;
	return 0;
}

int sample_bed_teardown(void **state)
{
	sample_bed_free(*state);
	return 0;
}

static void cut(struct bench *bench, struct vec3 from, struct vec3 to)
{
	assert_int_equal(stock_sweep(&bench->stock, from, to, bench->radius_mm, &bench->swath,
				     NULL),
			 FAULT_NONE);
}

void sample_bed_cut(struct sample_bed *bed, const struct runs *runs)
{
	for (size_t i = 0; i < runs->count; i++)
		for (size_t k = 1; k < runs->run[i].count; k++)
			cut(&bed->bench, runs->run[i].p[k - 1], runs->run[i].p[k]);
}

void sample_bed_cut_at(struct sample_bed *bed, double x_mm, double y_mm)
{
	size_t hint = 0;
	struct vec3 tip = { x_mm, y_mm, drop_tip_mm(bed->bench.drop, x_mm, y_mm, &hint) };

	cut(&bed->bench, tip, tip);
}
