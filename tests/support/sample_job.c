/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sample_job.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "base/units.h"

static struct machine bench_gantry(void)
{
	return (struct machine){
		.name = "bench gantry",
		.travel_mm = { 620, 420, 140 },
		.feed_limit_mm_per_min = { 3000, 3000, 1200 },
		.rapid_mm_per_min = { 4000, 4000, 1500 },
		.acceleration_mm_per_s2 = { 300, 300, 200 },
		.corner_deviation_mm = 0.02,
		.spindle_least_rpm = 6000,
		.spindle_most_rpm = 24000,
		.spindle_power_w = 300,
		.spindle_start_s = 4,
		.program_unit = UNIT_MM,
		.decimals = 3,
	};
}

static struct wood mahogany(void)
{
	return (struct wood){ .name = "mahogany",
			      .class = WOOD_MEDIUM,
			      .density_kg_per_m3 = 543,
			      .cutting_energy_j_per_cm3 = 40,
			      .shrinkage_tangential_percent = 4.1,
			      .shrinkage_radial_percent = 3.0 };
}

static struct neck_spec steel_spec(void)
{
	const struct section_spec round = { .family = SECTION_C };
	const struct section_spec full = { .family = SECTION_C, .fullness = 2.4 };

	return (struct neck_spec){
		.name = "Steel string, 14 frets to the body",
		.scale_length_mm = 645.16,
		.fret_count = 20,
		.joint_fret = 14,
		.nut_width_mm = 43.7,
		.width_fret = 14,
		.width_mm = 54.8,
		.fretboard_thickness_mm = 6,
		.over_fretboard = true,
		.station_count = 2,
		.station = { { 0, 21, round, round }, { 11, 24, full, full } },
		.heel = { .kind = HEEL_BLOCK,
			  .height_mm = 82,
			  .cap_length_mm = 16,
			  .cap_width_front_mm = 20,
			  .cap_width_back_mm = 24,
			  .hollow_mm = 1,
			  .nose_radius_mm = 15,
			  .nose_angle_rad = 75.0 * PI / 180.0 },
		.peghead = { .angle_rad = 14.0 * PI / 180.0,
			     .thickness_mm = 15,
			     .width_mm = 70,
			     .transition_mm = 38,
			     .length_mm = 45,
			     .flare_mm = 22 },
		.channel = { 6.35, 9.5, 0, 357, 3 },
		.allowance = { 1.0, 0.6, 1.0, 1.0, 4.0 },
	};
}

struct job sample_steel_job(void)
{
	return (struct job){
		.neck = steel_spec(),
		.blank = { .top = { 5, { -190, -18, 300, 300, 357.77 }, { 66.9, 24, 24, 86, 86 } },
			   .bottom = { 3, { -190, 0, 357.77 }, { 47.3, 0, 0 } },
			   .half_width = { 4,
					   { -190, -52, -36, 357.77 },
					   { 38.5, 38.5, 25.5, 31 } } },
		.machine = bench_gantry(),
		.cutter_count = 1,
		.cutter[0] = { .name = "ball 12.7, long reach",
			       .ball_diameter_mm = 12.7,
			       .flute_length_mm = 50,
			       .shank_diameter_mm = 12.7,
			       .stickout_mm = 102,
			       .holder_diameter_mm = 42,
			       .holder_length_mm = 40,
			       .flutes = 2,
			       .chip_load_mm = 0.12,
			       .depth_limit_mm = 5,
			       .stepover_limit_mm = 5,
			       .ramp_angle_rad = 8.0 * PI / 180.0,
			       .plunge_feed_mm_per_min = 800,
			       .spindle_rpm = 14000 },
		.wood = mahogany(),
		.fixture = { .riser_height_mm = 14,
			     .riser_width_mm = 37,
			     .riser_from_mm = 2,
			     .riser_to_mm = 355,
			     .bed_clearance_mm = 1,
			     .keep_out_clearance_mm = 2,
			     .keep_out_count = 1,
			     .keep_out = { { "peghead clamp", -190, -120, -60, 60, 95, PLACE_BOX } },
			     .hold_count = 2,
			     .hold = { { "tape", 4, 353, -17, 17, 0, PLACE_BOX },
				       { "peghead clamp", -185, -125, -30, 30, 0, PLACE_BOX } } },
		.carve = { .from_mm = -55,
			   .to_mm = 357.77,
			   .scallop_limit_mm = 0.05,
			   .clearance_mm = 3,
			   .cell_mm = 0.2 },
	};
}

/* 155 (1 - 2^(-14/12)) = 85.96: the joint. */
static struct neck_spec short_spec(void)
{
	const struct section_spec round = { .family = SECTION_C };

	return (struct neck_spec){
		.name = "Short",
		.scale_length_mm = 155,
		.fret_count = 16,
		.joint_fret = 14,
		.nut_width_mm = 26,
		.width_fret = 14,
		.width_mm = 30,
		.fretboard_thickness_mm = 3,
		.over_fretboard = true,
		.station_count = 2,
		.station = { { 0, 14, round, round }, { 5, 15, round, round } },
		.heel = { .kind = HEEL_BLOCK,
			  .height_mm = 26,
			  .cap_length_mm = 9,
			  .cap_width_front_mm = 12,
			  .cap_width_back_mm = 14,
			  .hollow_mm = 0.5,
			  .nose_radius_mm = 6,
			  .nose_angle_rad = 65.0 * PI / 180.0 },
		.peghead = { .angle_rad = 10.0 * PI / 180.0,
			     .thickness_mm = 10,
			     .width_mm = 34,
			     .transition_mm = 14,
			     .length_mm = 12,
			     .flare_mm = 8 },
		.channel = { 4, 5, 0, 80, 2 },
		.allowance = { 1.0, 0.6, 0.8, 0.9, 3.0 },
	};
}

struct job sample_short_job(void)
{
	return (struct job){
		.neck = short_spec(),
		.blank = { .top = { 4, { -40, 48, 48, 85.9 }, { 20, 20, 29, 29 } },
			   .bottom = { 3, { -40, 0, 85.9 }, { 7, 0, 0 } },
			   .half_width = { 2, { -40, 85.9 }, { 20, 20 } } },
		.machine = bench_gantry(),
		.cutter_count = 1,
		.cutter[0] = { .name = "ball 8",
			       .ball_diameter_mm = 8,
			       .flute_length_mm = 30,
			       .shank_diameter_mm = 8,
			       .stickout_mm = 45,
			       .holder_diameter_mm = 20,
			       .holder_length_mm = 25,
			       .flutes = 2,
			       .chip_load_mm = 0.1,
			       .depth_limit_mm = 4,
			       .stepover_limit_mm = 4,
			       .ramp_angle_rad = 8.0 * PI / 180.0,
			       .plunge_feed_mm_per_min = 600,
			       .spindle_rpm = 16000 },
		.wood = mahogany(),
		.fixture = { .riser_height_mm = 10,
			     .riser_width_mm = 20,
			     .riser_from_mm = 2,
			     .riser_to_mm = 84,
			     .bed_clearance_mm = 1,
			     .keep_out_clearance_mm = 1,
			     .keep_out_count = 1,
			     .keep_out = { { "clamp", -40, -34, -30, 30, 32, PLACE_BOX } },
			     .hold_count = 1,
			     .hold = { { "tape", 4, 82, -9, 9, 0, PLACE_BOX } } },
		.carve = { .from_mm = -20,
			   .to_mm = 85.9,
			   .scallop_limit_mm = 0.1,
			   .clearance_mm = 2,
			   .cell_mm = 0.4 },
	};
}

struct job sample_terrace_job(void)
{
	struct job job = sample_short_job();

	job.neck.heel.height_mm = 58.0;
	job.neck.heel.nose_angle_rad = units_rad_from_deg(80.0);
	job.blank.top.value_mm[2] = job.blank.top.value_mm[3] = 61.0;
	job.blank.half_width.value_mm[0] = job.blank.half_width.value_mm[1] = 50.0;
	job.carve.waste = (struct waste_spec){
		.kind = WASTE_RAILS, .channel_mm = 17.0, .tab_width_mm = 6.0, .tab_height_mm = 2.5
	};
	job.carve.cell_mm = 0.5;
	job.cutter[0].stickout_mm = job.cutter[0].flute_length_mm = 28.0;
	return job;
}

struct job sample_board_job(void)
{
	struct job job = sample_short_job();

	job.blank = (struct blank){ .top = { 2, { 0, 60 }, { 20, 20 } },
				    .bottom = { 2, { 0, 60 }, { 0, 0 } },
				    .half_width = { 2, { 0, 60 }, { 20, 20 } } };
	job.cutter[0].ball_diameter_mm = job.cutter[0].shank_diameter_mm = 6;
	job.fixture.riser_from_mm = 2;
	job.fixture.riser_to_mm = 58;
	job.fixture.keep_out_count = 0;
	job.fixture.hold[0] = (struct place){ "screws", 45, 58, -9, 9, 0, PLACE_BOX };
	job.carve.from_mm = 0;
	job.carve.to_mm = 60;
	job.carve.cell_mm = 0.2;
	return job;
}

void sample_model_make(struct sample_model *out, const struct neck_spec *spec)
{
	struct fault_list faults = { 0 };

	*out = (struct sample_model){ 0 };
	if (neck_build(&out->neck, spec, &faults) != FAULT_NONE)
		fail_msg("%s: %s", faults.record[0].setting, faults.record[0].message);
	assert_int_equal(facets_build(&out->facets, out->neck, TOL_FACET_MM, NULL), FAULT_NONE);
	assert_int_equal(facet_tree_build(&out->tree, &out->facets, NULL), FAULT_NONE);
}

void sample_model_free(struct sample_model *model)
{
	facet_tree_free(&model->tree);
	facets_free(&model->facets);
	neck_free(model->neck);
}

struct vec3 sample_surface_point(const struct neck *neck, enum neck_side side, double x_mm,
				 double v)
{
	double b = neck_half_breadth_mm(neck, side, x_mm, v), base = neck_base_mm(neck, x_mm);

	return vec3_make(x_mm, side == SIDE_PLUS ? b : -b,
			 base + v * (neck_crest_mm(neck, x_mm) - base));
}

struct neck *sample_neck_built(const struct neck_spec *spec)
{
	struct fault_list faults = { 0 };
	struct neck *neck = NULL;

	if (neck_build(&neck, spec, &faults) != FAULT_NONE)
		fail_msg("%s: %s", faults.record[0].setting, faults.record[0].message);
	return neck;
}
