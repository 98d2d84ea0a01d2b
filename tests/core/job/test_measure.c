/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures of a planned and proven short neck against one another and against
 * the neck. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job/measure.h"
#include "support/near.h"
#include "support/planned.h"

/* The short neck planned, proven and measured once for all tests. */
struct measured {
	struct planned planned;
	struct proof_record record;
	struct job_result result;
};

static void measure_whole(struct measured *m, const struct job *job)
{
	planned_make(&m->planned, job);
	struct verdict verdict = planned_judged(&m->planned, job, &m->record);
	assert_proven(&verdict);
	planned_measured(&m->result, &m->planned, &verdict, &m->record);
}

static int measure_once(void **state)
{
	static struct measured m;
	struct job job = sample_short_job();

	measure_whole(&m, &job);
	*state = &m;
	return 0;
}

static int free_measured(void **state)
{
	struct measured *m = *state;

	job_result_free(&m->result);
	job_result_free(NULL);
	proof_record_free(&m->record);
	planned_free(&m->planned);
	return 0;
}

static void zones_keep_their_stock(void **state)
{
	const struct measured *m = *state;
	const double asked[ZONE_COUNT] = { 1.0, 0.6, 0.8, 0.9 };

	for (int zone = 0; zone < ZONE_COUNT; zone++) {
		const struct zone_figures *z = &m->result.zone[zone];
		assert_near(z->allowance_mm, asked[zone], 0.0, "asked, mm");
		assert_true(z->least_mm >= z->allowance_mm - 0.01);
		assert_true(z->least_mm <= z->mean_mm && z->mean_mm <= z->most_mm);
		assert_true(z->area_mm2 > 0.0);
	}
	/* on the shaft's back there is nothing but scallops on the stock */
	const struct zone_figures *back = &m->result.zone[ZONE_BACK];
	assert_true(back->most_mm <= 1.0 + m->planned.job.carve.scallop_limit_mm + 0.05);
	assert_near(m->result.unreachable_mm3, 0.0, 1e-9, "left for the chisel, mm3");
}

static void stations_are_what_a_caliper_reads(void **state)
{
	const struct measured *m = *state;
	const double finished[2] = { 14.0, 15.0 }, fret[2] = { 0.0, 5.0 };

	assert_int_equal(m->result.station_count, 2);
	for (size_t i = 0; i < 2; i++) {
		const struct station_figures *s = &m->result.station[i];
		double x = neck_fret_x_mm(m->planned.model.neck, fret[i]);
		assert_near(s->fret, fret[i], 0.0, "fret");
		assert_near(s->x_mm, x, 1e-9, "place, mm");
		assert_near(s->finished_mm, finished[i], 1e-9, "finished, mm");
		assert_near(s->blank_mm, 20.0 + 3.0, 1e-9, "blank and board, mm");
		/* stock of 1, at the nut where the transition's 0.9 begins */
		assert_between(s->roughed_mm - s->finished_mm, 0.89, 1.15, "to carve, mm");
		assert_near(s->width_mm, neck_fretboard_width_mm(m->planned.model.neck, x), 1e-6,
			    "mm");
		assert_near(s->wood_over_channel_mm,
			    neck_wood_over_channel_mm(m->planned.model.neck, x), 0.0,
			    "over the channel, mm");
	}
}

/* What the passes took is what the blank lost. */
static void volumes_add_up(void **state)
{
	const struct measured *m = *state;
	const struct program_figures *program = &m->result.program[0];
	const struct stock *stock = &m->record.stock;
	double taken = 0.0, lost = 0.0, cell = stock->cell_mm;
	struct stock whole;

	assert_int_equal(m->result.program_count, 1);
	assert_int_equal(program->pass_count, m->planned.plan[0].pass_count);
	for (size_t i = 0; i < program->pass_count; i++)
		taken += program->pass[i].volume_mm3;
	assert_int_equal(stock_build(&whole, &m->planned.job.blank, cell, NULL), FAULT_NONE);
	for (size_t i = 0; i < stock->nx * stock->ny; i++)
		lost += ((double)whole.top[i] - (double)stock->top[i]) * cell * cell;
	assert_true(lost > 1e4);
	assert_near(taken / lost, 1.0, 1e-4, "taken by the passes, share of the loss");
	stock_free(&whole);
}

static void program_figures_add_up(void **state)
{
	const struct measured *m = *state;
	const struct program_figures *program = &m->result.program[0];
	double length = 0.0, idle = 0.0, minutes = 0.0, cut = 0.0;
	struct vec3 at = { 0 };

	for (size_t i = 0; i < program->pass_count; i++) {
		const struct pass_figures *pass = &program->pass[i];
		assert_int_equal(pass->kind, m->planned.plan[0].pass[i].kind);
		assert_near(pass->level_mm, m->planned.plan[0].pass[i].level_mm, 0.0, "level, mm");
		assert_true(pass->idle_mm <= pass->length_mm && pass->minutes > 0.0);
		assert_true(pass->deepest_bite_mm <=
			    m->planned.job.cutter[0].depth_limit_mm + 0.02);
		assert_true(pass->feed_mm_per_min <=
			    m->planned.plan[0].pass[i].feed.mm_per_min + 1e-9);
		length += pass->length_mm;
		idle += pass->idle_mm;
		minutes += pass->minutes;
	}
	for (size_t i = 0; i < m->planned.plan[0].motions.count; i++) {
		const struct motion *motion = &m->planned.plan[0].motions.item[i];
		if (motion->kind == MOTION_CUT)
			cut += vec3_distance(at, motion->to);
		at = motion_moves(motion) ? motion->to : at;
	}
	assert_near(length, cut, 1e-6, "cutting length of the plan, mm");
	assert_near(program->cutting_length_mm, cut, 1e-6, "cutting length, mm");
	assert_near(program->air_share, idle / cut, 1e-9, "share that cuts nothing");
	/* the start, before the first pass, takes its time too */
	assert_between(program->minutes - minutes, 0.0, 0.5, "minutes");
	assert_int_equal(program->blocks, m->planned.plan[0].motions.count);
	assert_string_equal(program->file, "neck.nc");
	assert_near(program->ball_diameter_mm, 8.0, 0.0, "ball, mm");
	assert_true(program->least.z < 0.0 && program->most.z > 32.0);
}

static double at_place(const struct column_map *map, double x, double y)
{
	size_t ix = (size_t)((x - map->x0_mm) / map->cell_mm + 0.5);
	size_t iy = (size_t)((y - map->y0_mm) / map->cell_mm + 0.5);

	return (double)map->value[iy * map->nx + ix];
}

static void maps_tell_the_same(void **state)
{
	const struct measured *m = *state;
	const struct job_result *r = &m->result;

	assert_int_equal(r->cut_count, m->planned.plan[0].pass_count);
	for (double x = 2.0; x < 60.0; x += 3.2)
		for (double y = -8.0; y <= 8.0; y += 3.2) {
			double rough = at_place(&r->roughed, x, y);
			double finished = at_place(&r->finished, x, y);
			double stock = at_place(&r->stock, x, y);
			assert_true(rough > finished + 0.9);
			/* along the normal it is no more than straight up */
			assert_between(stock, 0.99, rough - finished + 0.2, "stock, mm");
			assert_near(at_place(&r->blank_bottom, x, y), 0.0, 1e-6, "bottom, mm");
			assert_near(at_place(&r->blank_top, x, y), x < 48.0 ? 20.0 : 29.0, 1e-6,
				    "blank, mm");
		}
	/* outside there is nothing to say */
	assert_true(isnan(at_place(&r->finished, 30.0, 18.0)));
	assert_true(isnan(at_place(&r->stock, 30.0, 18.0)));
}

/* Blank less cuts is the wood that stands, at every column of the maps. */
static void cuts_lead_from_blank_to_roughed(void **state)
{
	const struct measured *m = *state;
	const struct job_result *r = &m->result;
	const struct column_map *map = &r->blank_top;
	size_t compared = 0;

	for (size_t i = 0; i < map->nx * map->ny; i++) {
		double x = map->x0_mm + (double)(i % map->nx) * map->cell_mm;
		double y = map->y0_mm + (double)(i / map->nx) * map->cell_mm;
		double standing = (double)map->value[i], rough = at_place(&r->roughed, x, y);
		if (isnan(standing) || isnan(rough))
			continue;
		for (size_t p = 0; p < r->cut_count; p++) {
			assert_true(r->cut[p].value[i] >= 0.0f);
			standing -= (double)r->cut[p].value[i];
		}
		assert_near(standing, rough, 1e-4, "blank less cuts, mm");
		compared++;
	}
	assert_true(compared > 1000);
}

static void centre_columns_follow_the_passes(void **state)
{
	const struct measured *m = *state;
	const struct job_result *r = &m->result;

	for (size_t s = 0; s < r->station_count; s++) {
		const struct column_reading *c = &r->station[s].centre;
		double before = c->blank_mm;
		assert_near(c->x_mm, r->station[s].x_mm, r->blank_top.cell_mm / 2.0 + 1e-9, "x");
		assert_near(c->y_mm, 0.0, r->blank_top.cell_mm / 2.0 + 1e-9, "y");
		assert_int_equal(c->pass_count, r->cut_count);
		for (size_t p = 0; p < c->pass_count; p++) {
			assert_near(before - c->standing_mm[p],
				    at_place(&r->cut[p], c->x_mm, c->y_mm), 1e-6,
				    "taken by the pass, mm");
			before = c->standing_mm[p];
		}
		assert_near(before, at_place(&r->roughed, c->x_mm, c->y_mm), 1e-4, "left, mm");
		assert_near(c->finished_mm, neck_height_mm(m->planned.model.neck, c->x_mm, c->y_mm),
			    1e-4, "finished, mm");
	}
}

static void side_views(void **state)
{
	const struct measured *m = *state;
	const struct job_result *r = &m->result;

	assert_int_equal(r->blank_side.count, m->planned.job.blank.top.count);
	for (size_t i = 0; i < r->finished_side.count; i++)
		assert_near(r->finished_side.z_mm[i],
			    neck_crest_mm(m->planned.model.neck, r->finished_side.x_mm[i]), 0.0,
			    "mm");
	for (size_t i = 0; i < r->roughed_side.count; i++) {
		double x = r->roughed_side.x_mm[i], z = r->roughed_side.z_mm[i];
		if (x > 1.0 && x < 60.0)
			assert_between(z - neck_crest_mm(m->planned.model.neck, x), 0.99, 1.15,
				       "mm");
		if (x < -30.0)
			assert_near(z, 20.0, 1e-6, "uncut peghead, mm");
	}
}

/* Rails stand so tall that the shank must keep off them: what stays beside them goes
 * with them and is nobody's work with the chisel. */
static void wood_beside_rails_is_not_for_the_chisel(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct measured m;

	job.cutter[0].flute_length_mm = 14.0; /* rails are 20 and 26 mm tall */
	job.blank.half_width.value_mm[0] = job.blank.half_width.value_mm[1] = 45.0;
	job.carve.waste.kind = WASTE_RAILS;
	job.carve.scallop_limit_mm = 0.3; /* fewer lines: quicker */
	measure_whole(&m, &job);
	assert_int_equal(m.result.chisel.place_count, 0);
	assert_near(m.result.chisel.over_finished_mm3, 0.0, 0.0, "left for the chisel, mm3");
	void *measured = &m;
	assert_int_equal(free_measured(&measured), 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(zones_keep_their_stock),
		cmocka_unit_test(stations_are_what_a_caliper_reads),
		cmocka_unit_test(volumes_add_up),
		cmocka_unit_test(program_figures_add_up),
		cmocka_unit_test(maps_tell_the_same),
		cmocka_unit_test(cuts_lead_from_blank_to_roughed),
		cmocka_unit_test(centre_columns_follow_the_passes),
		cmocka_unit_test(side_views),
		cmocka_unit_test(wood_beside_rails_is_not_for_the_chisel),
	};

	return cmocka_run_group_tests(tests, measure_once, free_measured);
}
