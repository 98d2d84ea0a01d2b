/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gauges, templates and blank asked for when memory runs out, at every single
 * request of what is gathered, and of the file as it grows. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "papers/blank_outline.h"
#include "papers/gauges.h"
#include "papers/sheet.h"
#include "papers/templates.h"
#include "support/memory.h"
#include "support/paper_sample.h"

typedef enum fault draw_of(struct sheet *sheet, const struct paper_content *content,
			   struct fault_list *faults);

/* Draws and saves to a place where nothing can be: all is good when the file
 * alone is refused. */
static enum fault draw_once(draw_of *draw, const struct paper_content *content,
			    struct fault_list *faults)
{
	const struct paper *paper = paper_of(PAPER_A4);
	struct canvas canvas;
	struct sheet sheet = { .canvas = &canvas,
			       .paper = paper,
			       .words = { "Short", "" },
			       .title = "",
			       .remark = "",
			       .true_scale = true };
	enum fault code =
		canvas_open_paper(&canvas, paper->height_mm, paper->width_mm, "Short", faults);

	if (code == FAULT_NONE)
		code = draw(&sheet, content, faults);
	if (code == FAULT_NONE)
		code = canvas_save(&canvas, "/nonexistent/paper.pdf", faults);
	canvas_close(&canvas);
	return code;
}

static void every_refusal_is_reported(draw_of *draw)
{
	struct job job = sample_short_job();
	struct paper_sample sample;
	size_t grants = 0;

	paper_sample_make(&sample, &job);
	for (;; grants++) {
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault code = draw_once(draw, &sample.content, &faults);
		bool done = memory_serve_all() <= grants;
		assert_int_equal(code, done ? FAULT_FILE : FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
		if (done)
			break;
	}
	assert_true(grants > 10);
	paper_sample_free(&sample);
}

static void gauges_report_every_refusal(void **state)
{
	(void)state;
	every_refusal_is_reported(gauges_draw);
}

static void templates_report_every_refusal(void **state)
{
	(void)state;
	every_refusal_is_reported(templates_draw);
}

static void the_blank_reports_every_refusal(void **state)
{
	(void)state;
	every_refusal_is_reported(blank_outline_draw);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(gauges_report_every_refusal),
		cmocka_unit_test(templates_report_every_refusal),
		cmocka_unit_test(the_blank_reports_every_refusal),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
