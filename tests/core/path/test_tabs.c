/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tabs for what would come loose beside a short neck, and plans that keep them
 * and the rails. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "path/held.h"
#include "path/tabs.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/sample_job.h"

/* A board wide enough for rails of 8 mm and more; the tape holds the neck. The
 * uncut end under the clamp joins the rails to it. */
static struct job rails_job(void)
{
	struct job job = sample_short_job();

	job.blank.half_width.value_mm[0] = job.blank.half_width.value_mm[1] = 45.0;
	job.carve.waste = (struct waste_spec){
		.kind = WASTE_RAILS, .channel_mm = 13.0, .tab_width_mm = 6.0, .tab_height_mm = 2.5
	};
	return job;
}

/* The same with the peghead's end sawn narrow: nothing joins the rails. */
static struct job island_job(void)
{
	struct job job = rails_job();

	job.blank.half_width = (struct outline){ 4, { -40, -8, -7, 85.9 }, { 20, 20, 45, 45 } };
	return job;
}

static enum fault choose(struct job *job, struct fault_list *faults)
{
	struct sample_model model;

	sample_model_make(&model, &job->neck);
	enum fault fault = tabs_choose(job, &model.facets, model.neck, faults);
	sample_model_free(&model);
	return fault;
}

static void what_is_held_needs_no_tabs(void **state)
{
	(void)state;
	struct job job = rails_job();

	assert_int_equal(choose(&job, NULL), FAULT_NONE);
	assert_int_equal(job.tabs.count, 0);
	job.carve.waste.kind = WASTE_CLEARED;
	assert_int_equal(choose(&job, NULL), FAULT_NONE);
	assert_int_equal(job.tabs.count, 0);
	/* a screw in each rail is as good */
	job = island_job();
	job.fixture.hold[1] = (struct place){ "screw", 30, 34, 38, 42, 0, PLACE_BOX };
	job.fixture.hold[2] = (struct place){ "screw", 30, 34, -42, -38, 0, PLACE_BOX };
	job.fixture.hold_count = 3;
	assert_int_equal(choose(&job, NULL), FAULT_NONE);
	assert_int_equal(job.tabs.count, 0);
}

/* Two to a rail: the shaft's straight part is about 30 mm long here. */
static void loose_rails_get_tabs_beside_the_shaft(void **state)
{
	(void)state;
	struct job job = island_job();
	struct neck *neck = sample_neck_built(&job.neck);
	int per_side[2] = { 0, 0 };

	assert_int_equal(choose(&job, NULL), FAULT_NONE);
	assert_between((double)job.tabs.count, 2.0, 4.0, "tabs");
	for (size_t i = 0; i < job.tabs.count; i++) {
		const struct tab *tab = &job.tabs.tab[i];
		per_side[tab->side > 0.0]++;
		assert_near(tab->width_mm, 6.0, 0.0, "width, mm");
		assert_near(tab->height_mm, 2.5, 0.0, "height, mm");
		assert_near(tab->base_mm, 0.0, 0.0, "under side, mm");
		assert_between(tab->x_mm - 3.0, 0.0, neck_heel_start_mm(neck) - 6.0, "x, mm");
		/* where there is wood enough to hold it, near the edge */
		assert_between(neck_height_mm(neck, tab->x_mm, tab->side * tab->inner_mm), 0.8, 1.0,
			       "at the neck, mm");
		/* across the channel, and into the rail */
		assert_between(tab->outer_mm - tab->inner_mm, 14.0, 18.0, "length, mm");
	}
	assert_int_equal(per_side[0], per_side[1]);
	neck_free(neck);
}

/* A side that is rounder leaves its edge thinner: its tabs begin farther in. */
static void uneven_sides_have_tabs_where_each_is_thick_enough(void **state)
{
	(void)state;
	struct job job = island_job();
	double inner_mm[2] = { 0.0, 0.0 };

	for (size_t i = 0; i < job.neck.station_count; i++)
		job.neck.station[i].treble =
			(struct section_spec){ .family = SECTION_V, .apex_radius_mm = 4 };
	struct neck *neck = sample_neck_built(&job.neck);
	assert_int_equal(choose(&job, NULL), FAULT_NONE);
	for (size_t i = 0; i < job.tabs.count; i++) {
		const struct tab *tab = &job.tabs.tab[i];
		inner_mm[tab->side > 0.0] = tab->inner_mm;
		assert_between(neck_height_mm(neck, tab->x_mm, tab->side * tab->inner_mm), 0.8, 1.0,
			       "at the neck, mm");
	}
	assert_between(inner_mm[0], 5.0, inner_mm[1] - 0.2, "treble side's, mm");
	neck_free(neck);
}

/* Low rods across the channels, which the ball spares with the wood under them:
 * 2.2 mm of it are no bridge to count on, 5 mm are. */
static void rails_on_a_narrow_bridge_get_tabs(void **state)
{
	(void)state;
	static const double width_mm[] = { 0.2, 3.0 };

	for (int i = 0; i < 2; i++) {
		struct job job = island_job();
		double to_mm = 26.0 + width_mm[i];
		job.fixture.keep_out[1] = (struct place){ "rod", 26, to_mm, 10, 45, 5, PLACE_BOX };
		job.fixture.keep_out[2] =
			(struct place){ "rod", 26, to_mm, -45, -10, 5, PLACE_BOX };
		job.fixture.keep_out_count = 3;
		assert_int_equal(choose(&job, NULL), FAULT_NONE);
		assert_int_equal(job.tabs.count > 0, i == 0);
	}
}

static void assert_refused(struct job *job, const char *setting, const char *words)
{
	struct fault_list faults = { 0 };

	assert_int_equal(choose(job, &faults), FAULT_PLAN);
	assert_string_equal(faults.record[0].setting, setting);
	if (!strstr(faults.record[0].message, words))
		fail_msg("no \"%s\" in: %s", words, faults.record[0].message);
}

/* The narrowest tabs that a job may ask for are counted on; narrower ones would not
 * be, which is why a job may not ask for them. */
static void the_narrowest_tabs_hold(void **state)
{
	(void)state;
	struct job job = island_job();

	job.carve.waste.tab_width_mm = TAB_LEAST_WIDTH_MM;
	assert_int_equal(choose(&job, NULL), FAULT_NONE);
	assert_between((double)job.tabs.count, 2.0, 4.0, "tabs");
	job = island_job();
	job.carve.waste.tab_width_mm = TAB_LEAST_WIDTH_MM - 1.0;
	assert_refused(&job, "fixture.hold", "would come loose");
}

/* Tabs ruled out, and a piece that stands beside the heel alone. */
static void what_no_tab_can_hold_is_refused_with_its_place(void **state)
{
	(void)state;
	struct job job = island_job();

	job.carve.waste.tab_width_mm = 0.0;
	assert_refused(&job, "carve.tab_width", "side would come loose, from x = -");
	job = rails_job();
	job.blank.half_width = (struct outline){ 4, { -40, 55, 56, 85.9 }, { 20, 20, 45, 45 } };
	assert_refused(&job, "fixture.hold", "would come loose, from x = 5");
}

static double top_at(const struct stock *stock, double x, double y)
{
	return (double)stock->top[stock_iy(stock, y) * stock->nx + stock_ix(stock, x)];
}

/* Rails stand, the channel is cut through, the tabs are as thick as asked. */
static void assert_standing(const struct stock *stock, const struct job *job)
{
	for (int side = -1; side <= 1; side += 2) {
		assert_near(top_at(stock, 20.0, side * 40.0), 20.0, 1e-6, "rail, mm");
		assert_near(top_at(stock, 70.0, side * 40.0), 29.0, 1e-6, "rail by the heel, mm");
	}
	for (size_t i = 0; i < job->tabs.count; i++) {
		const struct tab *tab = &job->tabs.tab[i];
		double y = tab->side * (tab->inner_mm + 7.0);
		assert_between(top_at(stock, tab->x_mm, y), 2.499, 3.6, "tab, mm");
		assert_near(top_at(stock, tab->x_mm + 12.0, y), 0.0, 1e-6, "beside it, mm");
	}
}

static void rails_and_tabs_are_planned_and_proven(void **state)
{
	(void)state;
	for (int i = 0; i < 2; i++) {
		struct job job = i == 0 ? rails_job() : island_job();
		struct planned planned;
		assert_int_equal(choose(&job, NULL), FAULT_NONE);
		assert_int_equal(job.tabs.count > 0, i);
		planned_make(&planned, &job);
		assert_standing(&planned.plan[0].left, &job);
		struct verdict verdict = planned_judged(&planned, &job, NULL);
		assert_proven(&verdict);
		planned_free(&planned);
	}
}

/* Without its tabs the island comes loose: the planner refuses it by its own
 * look at the wood. */
static void a_plan_that_would_lose_a_piece_is_refused(void **state)
{
	(void)state;
	struct fault_list faults = { 0 };
	struct job job = island_job();
	struct sample_model model;
	struct plan plan;

	sample_model_make(&model, &job.neck);
	assert_int_equal(plan_make(&plan, &model.facets, model.neck, &job, 0, NULL, NULL, &faults),
			 FAULT_PLAN);
	assert_non_null(strstr(faults.record[0].message, "would come loose"));
	plan_free(&plan);
	sample_model_free(&model);
}

/* A plan that clears all waste breaks a job of rails. */
static void rails_cleared_away_are_refused(void **state)
{
	(void)state;
	struct job job = rails_job();
	struct planned planned;

	job.carve.waste.kind = WASTE_CLEARED;
	planned_make(&planned, &job);
	assert_near(top_at(&planned.plan[0].left, 20.0, 40.0), 0.0, 1e-6, "cleared, mm");
	struct verdict cleared = planned_judged(&planned, &job, NULL);
	assert_proven(&cleared);
	job.carve.waste.kind = WASTE_RAILS;
	struct verdict verdict = planned_judged(&planned, &job, NULL);
	assert_false(verdict.proven);
	planned_free(&planned);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_held_needs_no_tabs),
		cmocka_unit_test(loose_rails_get_tabs_beside_the_shaft),
		cmocka_unit_test(uneven_sides_have_tabs_where_each_is_thick_enough),
		cmocka_unit_test(rails_on_a_narrow_bridge_get_tabs),
		cmocka_unit_test(the_narrowest_tabs_hold),
		cmocka_unit_test(what_no_tab_can_hold_is_refused_with_its_place),
		cmocka_unit_test(rails_and_tabs_are_planned_and_proven),
		cmocka_unit_test(a_plan_that_would_lose_a_piece_is_refused),
		cmocka_unit_test(rails_cleared_away_are_refused),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
