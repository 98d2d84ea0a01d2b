/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Content put down page after page: nothing lost, nothing over the edge, heads
 * repeated, pages counted before they are drawn. */
#include "bench_sample.h"

#include "papers/flow.h"
#include "support/near.h"

#define ROWS 137

static void row_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	(void)context;
	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "row%zu", row);
	else
		flow_both(out, 25.4 * (double)row);
}

static const struct flow_column columns[] = {
	{ .head = "Name", .width_mm = 40.0, .words = true },
	{ .group = "Group", .head = "Length", .unit = "both", .width_mm = 60.0 },
};

static enum fault draw_rows(struct flow *flow, const struct paper_content *content,
			    struct fault_list *faults)
{
	const struct flow_table table = { 2, columns, ROWS, row_cell, NULL };

	(void)content;
	(void)faults;
	flow_heading(flow, "Heading", 20.0);
	flow_table(flow, &table);
	return FAULT_NONE;
}

static enum fault draw_long(struct sheet *sheet, const struct paper_content *content,
			    struct fault_list *faults)
{
	return flow_draw(sheet, content, draw_rows, faults);
}

static struct bench_sample sample_with_neck(void)
{
	struct bench_sample sample = { .job = bench_job() };

	return sample;
}

static void a_long_table_loses_no_row(void **state)
{
	struct bench_sample sample = sample_with_neck();
	char *text = bench_text(&sample, *state, PAPER_A4, false, draw_long);
	const char *at = text;
	size_t pages = bench_pages(text), heads = 0;

	assert_true(pages >= 3);
	for (size_t i = 0; i < ROWS; i++) {
		char row[96];
		(void)snprintf(row, sizeof row, "row%zu %.2f mm (%.3f in)", i, 25.4 * (double)i,
			       (double)i);
		at = strstr(at, row);
		assert_non_null(at);
	}
	for (at = text; (at = strstr(at, "Name Length")); at++)
		heads++;
	assert_int_equal(heads, pages);
	for (size_t page = 1; page <= pages; page++) {
		char words[48];
		(void)snprintf(words, sizeof words, "page %zu of %zu", page, pages);
		assert_has(text, words);
	}
	free(text);
}

static void nothing_stands_in_the_margin(void **state)
{
	struct bench_sample sample = sample_with_neck();
	char pdf[SCRATCH_ROOM];

	for (int size = 0; size < PAPER_COUNT; size++)
		for (int lying = 0; lying < 2; lying++) {
			bench_write(&sample, scratch_path(pdf, *state, "long.pdf"),
				    (enum paper_size)size, lying, draw_long);
			assert_within_page(*state, pdf, 2,
					   paper_of((enum paper_size)size)->margin_mm);
		}
}

static enum fault draw_heading_low(struct flow *flow, const struct paper_content *content,
				   struct fault_list *faults)
{
	(void)content;
	(void)faults;
	double height = flow->area.bottom - flow->area.top;
	assert_near(flow_take(flow, height - 25.0), flow->area.top, 1e-9, "first part's top, mm");
	flow_heading(flow, "Second page", 30.0);
	assert_int_equal(flow->sheet->page, 2);
	double top = flow_take(flow, 10.0);
	assert_between(top, flow->area.top, flow->area.top + 12.0, "under the heading, mm");
	flow_need(flow, height);
	assert_int_equal(flow->sheet->page, 3);
	flow_need(flow, 2.0 * height); /* more than any page has: no empty page */
	assert_int_equal(flow->sheet->page, 3);
	flow_notes(flow);
	assert_true(flow->y_mm <= flow->area.bottom);
	return FAULT_NONE;
}

static enum fault draw_low(struct sheet *sheet, const struct paper_content *content,
			   struct fault_list *faults)
{
	return flow_draw(sheet, content, draw_heading_low, faults);
}

static void a_heading_stays_with_what_follows(void **state)
{
	struct bench_sample sample = sample_with_neck();
	char *text = bench_text(&sample, *state, PAPER_LETTER, false, draw_low);

	const char *second = strchr(text, '\f');
	assert_non_null(second);
	assert_has(second, "Second page");
	free(text);
}

static enum fault draw_fault(struct flow *flow, const struct paper_content *content,
			     struct fault_list *faults)
{
	(void)flow;
	(void)content;
	return fault_add(faults, FAULT_GEOMETRY, NULL, 0, NULL, "No.");
}

static enum fault draw_refused(struct sheet *sheet, const struct paper_content *content,
			       struct fault_list *faults)
{
	return flow_draw(sheet, content, draw_fault, faults);
}

static void a_fault_is_passed_on_once(void **state)
{
	struct bench_sample sample = sample_with_neck();
	struct fault_list faults = { 0 };
	struct canvas canvas;

	(void)state;
	assert_int_equal(bench_draw_on(&canvas, &sample, PAPER_A4, false, draw_refused, &faults),
			 FAULT_GEOMETRY);
	assert_int_equal(faults.count, 1);
	canvas_close(&canvas);
}

static void lengths_are_written_in_both_units(void **state)
{
	char text[FLOW_CELL_ROOM];

	(void)state;
	flow_both(text, 25.4);
	assert_string_equal(text, "25.40 mm (1.000 in)");
	flow_inch(text, 12.7);
	assert_string_equal(text, "0.500");
	flow_mm(text, -0.0);
	assert_string_equal(text, "0.00");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(a_long_table_loses_no_row, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(nothing_stands_in_the_margin, scratch_make,
						scratch_remove),
		cmocka_unit_test_setup_teardown(a_heading_stays_with_what_follows, scratch_make,
						scratch_remove),
		cmocka_unit_test(a_fault_is_passed_on_once),
		cmocka_unit_test(lengths_are_written_in_both_units),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
