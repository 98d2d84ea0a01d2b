/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What programs leave, on hand-made maps along the crest of a shaft, where the
 * surface is so level that thickness and volume have closed forms. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job/program_left.h"
#include "support/near.h"
#include "support/sample_job.h"

#define COLUMNS 5
#define CELL_MM 2.0
#define FROM_MM 20.0
#define STOCK_MM 1.0 /* on the back of the short job */

/* Columns along the centre line of the shaft. */
struct scene {
	struct job job;
	struct sample_model model;
	float finished[COLUMNS], blank[COLUMNS], cut[2][COLUMNS];
	struct column_map maps[2];
	struct program_figures program[2];
	struct job_result result;
};

static void lay_maps(struct scene *scene)
{
	const struct column_map map = {
		.nx = COLUMNS, .ny = 1, .x0_mm = FROM_MM, .y0_mm = 0.0, .cell_mm = CELL_MM
	};
	struct job_result *result = &scene->result;

	result->finished = result->blank_top = scene->maps[0] = scene->maps[1] = map;
	result->finished.value = scene->finished;
	result->blank_top.value = scene->blank;
	scene->maps[0].value = scene->cut[0];
	scene->maps[1].value = scene->cut[1];
	result->cut = scene->maps;
	result->cut_count = result->program_count = 2;
	result->program = scene->program;
	scene->program[0].pass_count = scene->program[1].pass_count = 1;
}

/* The blank stands `over_mm` over the stock at the middle column and just on it
 * elsewhere. */
static void make_scene(struct scene *scene, double over_mm)
{
	*scene = (struct scene){ .job = sample_short_job() };
	sample_model_make(&scene->model, &scene->job.neck);
	for (int i = 0; i < COLUMNS; i++) {
		double crest = neck_crest_mm(scene->model.neck, FROM_MM + i * CELL_MM);
		scene->finished[i] = (float)crest;
		scene->blank[i] = (float)(crest + STOCK_MM + (i == 2 ? over_mm : 0.0));
	}
	lay_maps(scene);
}

static void each_program_leaves_what_stands(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, 2.0);
	scene.cut[0][2] = 0.5F;
	scene.cut[1][2] = 1.5F;
	assert_int_equal(program_left_measure(&scene.result, &scene.job, &scene.model.facets, NULL),
			 FAULT_NONE);
	/* the crest rises 1 mm over some 40: level to a thousandth */
	assert_near(scene.program[0].left_most_mm, 1.5, 0.01, "thickest after the first, mm");
	assert_near(scene.program[0].left_mm3, 1.5 * CELL_MM * CELL_MM, 0.1, "volume, mm3");
	assert_near(scene.program[1].left_most_mm, 0.0, 0.01, "thickest after the second, mm");
	assert_near(scene.program[1].left_mm3, 0.0, 0.05, "volume, mm3");
	sample_model_free(&scene.model);
}

/* Nothing counts beyond the carved range or where the blank has no wood. */
static void only_the_carved_neck_counts(void **state)
{
	(void)state;
	struct scene scene;

	make_scene(&scene, 2.0);
	scene.job.carve.to_mm = FROM_MM + CELL_MM;
	assert_int_equal(program_left_measure(&scene.result, &scene.job, &scene.model.facets, NULL),
			 FAULT_NONE);
	assert_near(scene.program[0].left_most_mm, 0.0, 0.01, "beyond the range, mm");
	sample_model_free(&scene.model);

	make_scene(&scene, 2.0);
	scene.blank[2] = NAN;
	assert_int_equal(program_left_measure(&scene.result, &scene.job, &scene.model.facets, NULL),
			 FAULT_NONE);
	assert_near(scene.program[0].left_most_mm, 0.0, 0.01, "no wood, mm");
	sample_model_free(&scene.model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_program_leaves_what_stands),
		cmocka_unit_test(only_the_carved_neck_counts),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
