/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Section lines asked for when memory runs out, at every single request. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job/section_line.h"
#include "support/memory.h"
#include "support/sample_job.h"

static enum fault ask_grown(void *context, struct fault_list *faults)
{
	const struct sample_model *model = context;
	struct section_line line;
	enum fault fault = section_line_grown(&line, &model->facets, model->neck, 20.0, faults);

	section_line_free(&line);
	return fault;
}

static enum fault ask_finished(void *context, struct fault_list *faults)
{
	const struct sample_model *model = context;
	struct section_line line;
	enum fault fault = section_line_finished(&line, model->neck, 20.0, faults);

	section_line_free(&line);
	return fault;
}

static void every_refusal_is_reported(void **state)
{
	struct neck_spec spec = sample_short_job().neck;
	struct sample_model model;

	(void)state;
	sample_model_make(&model, &spec);
	assert_true(memory_refuse_in_turn(ask_finished, &model) >= 3);
	assert_true(memory_refuse_in_turn(ask_grown, &model) >= 3);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_refusal_is_reported),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
