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

static enum fault ask_rails(void *context, struct fault_list *faults)
{
	struct asked *asked = context;
	struct rails rails;
	enum fault fault = rails_build(&rails, asked->model.neck, &asked->job, faults);

	rails_free(&rails);
	return fault;
}

static enum fault ask_pieces(void *context, struct fault_list *faults)
{
	struct asked *asked = context;
	struct pieces pieces;
	enum fault fault = pieces_find(&pieces, &asked->stock, &asked->job.fixture, 0.8, faults);

	pieces_free(&pieces);
	return fault;
}

static enum fault ask_held(void *context, struct fault_list *faults)
{
	struct asked *asked = context;

	return held_look(&asked->job, &asked->stock, faults);
}

static enum fault ask_tabs(void *context, struct fault_list *faults)
{
	struct asked *asked = context;

	return tabs_choose(&asked->job, &asked->model.facets, asked->model.neck, faults);
}

/* Nothing leaks either (the sanitizers look). */
static void assert_every_refusal_is_reported(memory_work *ask)
{
	struct asked asked = { .job = island_job() };

	sample_model_make(&asked.model, &asked.job.neck);
	assert_int_equal(stock_build(&asked.stock, &asked.job.blank, 1.0, NULL), FAULT_NONE);
	assert_true(memory_refuse_in_turn(ask, &asked) > 0);
	stock_free(&asked.stock);
	sample_model_free(&asked.model);
}

static void rails(void **state)
{
	(void)state;
	assert_every_refusal_is_reported(ask_rails);
}

static void pieces(void **state)
{
	(void)state;
	assert_every_refusal_is_reported(ask_pieces);
	assert_every_refusal_is_reported(ask_held);
}

static void tabs(void **state)
{
	(void)state;
	assert_every_refusal_is_reported(ask_tabs);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(rails), cmocka_unit_test(pieces),
					    cmocka_unit_test(tabs) };

	return cmocka_run_group_tests(tests, NULL, NULL);
}
