/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sampled.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/sample_job.h"

struct sampled *sampled_make(double cell_mm, size_t passes)
{
	struct sampled *sampled = calloc(1, sizeof *sampled);

	assert_non_null(sampled);
	sample_job(&sampled->job);
	sampled->neck = sample_neck_built(&sampled->job.neck);
	sample_result(&sampled->result, sampled->neck, &sampled->job, cell_mm, passes);
	verdict_start(&sampled->result.verdict);
	for (int i = 0; i < PROMISE_COUNT; i++)
		verdict_judged(&sampled->result.verdict, (enum promise)i, 1.0);
	verdict_close(&sampled->result.verdict);
	return sampled;
}

void sampled_drop(struct sampled *sampled)
{
	sample_result_free(&sampled->result);
	neck_free(sampled->neck);
	free(sampled);
}

int sampled_setup(void **state)
{
	*state = sampled_make(4.0, 5);
	return 0;
}

int sampled_teardown(void **state)
{
	sampled_drop(*state);
	return 0;
}
