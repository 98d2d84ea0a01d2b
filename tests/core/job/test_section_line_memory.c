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

static void every_refusal_is_reported(void **state)
{
	struct neck_spec spec = sample_short_job().neck;
	struct sample_model model;

	(void)state;
	sample_model_make(&model, &spec);
	for (int grown = 0; grown < 2; grown++) {
		size_t grants = 0;
		for (;; grants++) {
			struct fault_list faults = { 0 };
			struct section_line line;
			enum fault code;
			memory_refuse_after(grants);
			if (grown == 1)
				code = section_line_grown(&line, &model.facets, model.neck, 20.0,
							  &faults);
			else
				code = section_line_finished(&line, model.neck, 20.0, &faults);
			bool done = memory_serve_all() <= grants;
			section_line_free(&line);
			assert_int_equal(code, done ? FAULT_NONE : FAULT_MEMORY);
			assert_int_equal(faults.count, done ? 0 : 1);
			if (done)
				break;
		}
		assert_true(grants >= 3);
	}
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_refusal_is_reported),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
