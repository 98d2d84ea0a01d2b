/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rails, pieces, tabs and coves asked for when memory runs out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "path/held.h"
#include "path/rails.h"
#include "path/tabs.h"
#include "stock/pieces.h"
#include "support/memory.h"
#include "support/sample_job.h"

/* Rails that nothing joins but tabs. */
static struct job island_job(void)
{
	struct job job = sample_short_job();

	job.blank.half_width = (struct outline){ 4, { -40, -8, -7, 85.9 }, { 20, 20, 45, 45 } };
	job.carve.waste = (struct waste_spec){
		.kind = WASTE_RAILS, .channel_mm = 13.0, .tab_width_mm = 6.0, .tab_height_mm = 2.5
	};
	return job;
}

struct asked {
	struct job job;
	struct sample_model model;
	struct stock stock;
};

typedef enum fault (*question)(struct asked *asked, struct fault_list *faults);

static enum fault ask_rails(struct asked *asked, struct fault_list *faults)
{
	struct rails rails;
	enum fault fault = rails_build(&rails, asked->model.neck, &asked->job, faults);

	rails_free(&rails);
	return fault;
}

static enum fault ask_pieces(struct asked *asked, struct fault_list *faults)
{
	struct pieces pieces;
	enum fault fault = pieces_find(&pieces, &asked->stock, &asked->job.fixture, 0.8, faults);

	pieces_free(&pieces);
	return fault;
}

static enum fault ask_held(struct asked *asked, struct fault_list *faults)
{
	return held_look(&asked->job, &asked->stock, faults);
}

static enum fault ask_tabs(struct asked *asked, struct fault_list *faults)
{
	return tabs_choose(&asked->job, &asked->model.facets, asked->model.neck, faults);
}

/* Whatever is refused is reported as that and nothing else, and nothing leaks
 * (the sanitizers look). Only every `stride`-th request is refused. */
static void assert_every_refusal_is_reported(question ask, size_t stride)
{
	struct asked asked = { .job = island_job() };
	size_t grants = 0;

	sample_model_make(&asked.model, &asked.job.neck);
	assert_int_equal(stock_build(&asked.stock, &asked.job.blank, 1.0, NULL), FAULT_NONE);
	for (;; grants += stride) {
		struct fault_list faults = { 0 };
		memory_refuse_after(grants);
		enum fault fault = ask(&asked, &faults);
		if (memory_serve_all() <= grants) {
			assert_int_equal(fault, FAULT_NONE);
			break;
		}
		assert_int_equal(fault, FAULT_MEMORY);
		assert_int_equal(faults.count, 1);
	}
	assert_true(grants > 0);
	stock_free(&asked.stock);
	sample_model_free(&asked.model);
}

static void rails(void **state)
{
	(void)state;
	assert_every_refusal_is_reported(ask_rails, 1);
}

static void pieces(void **state)
{
	(void)state;
	assert_every_refusal_is_reported(ask_pieces, 1);
	assert_every_refusal_is_reported(ask_held, 1);
}

static void tabs(void **state)
{
	(void)state;
	assert_every_refusal_is_reported(ask_tabs, 1);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(rails), cmocka_unit_test(pieces),
					    cmocka_unit_test(tabs) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
