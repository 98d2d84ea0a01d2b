/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Solids made when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "mesh/finished_solid.h"
#include "mesh/height_solid.h"
#include "support/memory.h"
#include "support/sample_result.h"

static void forget(void *context, const struct mesh_point corner[3])
{
	(void)context;
	(void)corner;
}

static const struct triangle_sink sink = { forget, NULL };
static const struct vec3 zero = { 0.0, 0.0, 0.0 };

/* Every early request, then ever fewer of the thousands for rows. */
static size_t next_grants(size_t grants)
{
	return grants < 40 ? grants + 1 : grants + grants / 4;
}

static void the_finished_neck_tells_every_refusal(void **state)
{
	(void)state;
	struct job job;
	struct neck *neck;

	sample_job(&job);
	assert_int_equal(neck_build(&neck, &job.neck, NULL), FAULT_NONE);
	for (size_t grants = 0;; grants = next_grants(grants)) {
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault fault = finished_solid(&sink, neck, zero, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			assert_true(grants > 100);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
	}
	neck_free(neck);
}

static void standing_wood_tells_every_refusal(void **state)
{
	(void)state;
	enum { SIDE = 20 };
	static float top_z[SIDE * SIDE], bottom_z[SIDE * SIDE];
	struct column_map top = { SIDE, SIDE, 0.0, 0.0, 0.5, top_z };
	struct column_map bottom = { SIDE, SIDE, 0.0, 0.0, 0.5, bottom_z };
	size_t grants = 0;

	for (size_t i = 0; i < (size_t)SIDE * SIDE; i++)
		top_z[i] = 10.0f;
	for (;; grants++) {
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault fault = height_solid(&sink, &top, &bottom, 1, zero, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
	}
	assert_int_equal(grants, 3);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_finished_neck_tells_every_refusal),
		cmocka_unit_test(standing_wood_tells_every_refusal),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
