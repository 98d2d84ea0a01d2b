/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures asked for when memory runs out: refused at every single request of
 * what is asked of the neck, of a map, its marks and its contours. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pictures/gather.h"
#include "pictures/map.h"
#include "pictures/neck_lines.h"
#include "pictures/pictures.h"
#include "pictures/stock_map.h"
#include "support/memory.h"
#include "support/sample_result.h"

struct sample {
	struct job job;
	struct neck *neck;
	struct job_result result;
};

static int make_sample(void **state)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	sample_job(&s->job);
	assert_int_equal(neck_build(&s->neck, &s->job.neck, NULL), FAULT_NONE);
	sample_result(&s->result, s->neck, &s->job, 2.0, 3);
	*state = s;
	return 0;
}

static int drop_sample(void **state)
{
	struct sample *s = *state;

	sample_result_free(&s->result);
	neck_free(s->neck);
	free(s);
	return 0;
}

static enum fault gather_once(void *context, struct fault_list *faults)
{
	const struct sample *s = context;
	struct gathered g;
	enum fault fault = gather(&g, &s->result, s->neck, &s->job, faults);

	gathered_free(&g);
	return fault;
}

static void gathering_reports_every_refusal(void **state)
{
	assert_true(memory_refuse_in_turn(gather_once, *state) > 10);
}

static enum fault build_lines(void *context, struct fault_list *faults)
{
	const struct sample *s = context;
	struct neck_lines lines;
	enum fault fault = neck_lines_build(&lines, s->neck, faults);

	neck_lines_free(&lines);
	return fault;
}

static void neck_lines_report_every_refusal(void **state)
{
	assert_int_equal(memory_refuse_in_turn(build_lines, *state), 5);
	neck_lines_free(NULL);
}

/* Plan, side view and sections draw what was gathered and ask for nothing: a
 * whole album with one refusal after the gathering ends in FAULT_MEMORY or, when
 * it strikes nobody, in pictures. */
static void pictures_report_a_refusal_at_any_time(void **state)
{
	struct sample *s = *state;
	char folder[] = "/nonexistent";

	for (size_t grants = 0; grants < 12; grants++) {
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault code = pictures_write(folder, &s->result, s->neck, &s->job, &faults);
		(void)memory_serve_all();
		assert_int_equal(code, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
	}
}

static void the_stock_map_reports_every_refusal(void **state)
{
	struct sample *s = *state;
	struct gathered g;
	size_t grants = 0;

	assert_int_equal(gather(&g, &s->result, s->neck, &s->job, NULL), FAULT_NONE);
	const struct stock_map map = { .words = { "Sample", "" },
				       .stock = &s->result.stock,
				       .allowance = &g.allowance,
				       .zone = s->result.zone,
				       .station_count = s->result.station_count,
				       .station = s->result.station,
				       .plus_side = "bass",
				       .chisel = &s->result.chisel,
				       .lines = &g.lines };
	for (;; grants++) {
		struct fault_list faults = { 0 };
		struct canvas canvas;
		assert_int_equal(canvas_open(&canvas, CANVAS_PNG, stock_map_height_mm(&map), NULL),
				 FAULT_NONE);
		memory_refuse_after(grants);
		enum fault code = stock_map_draw(&canvas, &map, &faults);
		bool done = memory_serve_all() <= grants;
		canvas_close(&canvas);
		assert_int_equal(code, done ? FAULT_NONE : FAULT_MEMORY);
		assert_int_equal(faults.count, done ? 0 : 1);
		if (done)
			break;
	}
	assert_true(grants > 10);
	gathered_free(&g);
}

/* The bytes of a file grow in our hands, the drawing in cairo's. */
static void saving_reports_every_refusal(void **state)
{
	(void)state;
	for (int kind = CANVAS_PNG; kind <= CANVAS_SVG; kind++) {
		size_t grants = 0;
		for (;; grants++) {
			struct fault_list faults = { 0 };
			struct canvas canvas;
			assert_int_equal(canvas_open(&canvas, (enum canvas_kind)kind, 50.0, NULL),
					 FAULT_NONE);
			memory_refuse_after(grants);
			enum fault code = canvas_save(&canvas, "/nonexistent/sheet", &faults);
			bool done = memory_serve_all() <= grants;
			canvas_close(&canvas);
			assert_int_equal(code, done ? FAULT_FILE : FAULT_MEMORY);
			if (done)
				break;
		}
		assert_true(grants > 0);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(gathering_reports_every_refusal),
		cmocka_unit_test(neck_lines_report_every_refusal),
		cmocka_unit_test(pictures_report_a_refusal_at_any_time),
		cmocka_unit_test(the_stock_map_reports_every_refusal),
		cmocka_unit_test(saving_reports_every_refusal),
	};

	return cmocka_run_group_tests(tests, make_sample, drop_sample);
}
