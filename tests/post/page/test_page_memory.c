/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page asked for when memory runs out: refused at every single request in
 * turn, each time reported, and never half a page on disk. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "page/along.h"
#include "page/drawing.h"
#include "page/page.h"
#include "page/planes.h"
#include "page/template.h"
#include "support/memory.h"
#include "support/sampled.h"
#include "support/scratch.h"

struct sample {
	void *folder;
	struct sampled *page;
};

static int set_up(void **state)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	assert_int_equal(scratch_make(&s->folder), 0);
	s->page = sampled_make(4.0, 4);
	*state = s;
	return 0;
}

static int tear_down(void **state)
{
	struct sample *s = *state;
	int failed = scratch_remove(&s->folder);

	sampled_drop(s->page);
	free(s);
	return failed;
}

static enum fault pack(void *context, struct fault_list *faults)
{
	const struct sample *s = context;
	struct markup out = { 0 };
	double unit_mm;
	enum fault fault = planes_pack(&out, &unit_mm, &s->page->result, faults);

	markup_free(&out);
	return fault;
}

static enum fault make_lines(void *context, struct fault_list *faults)
{
	const struct sample *s = context;
	struct along along;
	enum fault fault = along_make(&along, &s->page->job, s->page->neck, faults);

	along_free(&along);
	return fault;
}

static enum fault draw(void *context, struct fault_list *faults)
{
	const struct sample *s = context;
	char *text;
	enum fault fault =
		drawing_text(&text, &s->page->job, s->page->neck, &s->page->result, 0.01, faults);

	assert_true(fault ? text == NULL : text != NULL);
	free(text);
	return fault;
}

static enum fault fill(void *context, struct fault_list *faults)
{
	static const struct template_slot slot = { "word", "a word of twenty bytes", 22 };
	struct markup out = { 0 };

	(void)context;
	enum fault fault = template_fill(&out, "<p>{{word}}</p>", 15, 1, &slot, faults);
	markup_free(&out);
	return fault;
}

static enum fault write_page(void *context, struct fault_list *faults)
{
	const struct sample *s = context;
	char path[SCRATCH_ROOM];
	int entries = scratch_count(s->folder);
	enum fault fault = page_write(scratch_path(path, s->folder, "page.html"), &s->page->job,
				      s->page->neck, &s->page->result, faults);

	if (fault)
		assert_int_equal(scratch_count(s->folder), entries);
	return fault;
}

static void packing_reports_every_refusal(void **state)
{
	assert_true(memory_refuse_in_turn(pack, *state) >= 6);
}

static void lines_report_every_refusal(void **state)
{
	assert_true(memory_refuse_in_turn(make_lines, *state) >= 11);
}

static void drawing_reports_every_refusal(void **state)
{
	assert_true(memory_refuse_in_turn(draw, *state) >= 12);
}

static void filling_reports_every_refusal(void **state)
{
	assert_true(memory_refuse_in_turn(fill, *state) >= 2);
}

static void the_page_reports_every_refusal(void **state)
{
	assert_true(memory_refuse_in_turn(write_page, *state) >= 60);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(packing_reports_every_refusal),
		cmocka_unit_test(lines_report_every_refusal),
		cmocka_unit_test(drawing_reports_every_refusal),
		cmocka_unit_test(filling_reports_every_refusal),
		cmocka_unit_test(the_page_reports_every_refusal),
	};

	return cmocka_run_group_tests(tests, set_up, tear_down);
}
