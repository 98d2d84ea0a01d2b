/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What examples/tall-heel leaves for the chisel, from outside: the area as the
 * rows of job.json tell it, the wood over it as the meshes in the output folder
 * have it. Nothing of the product measures here. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <jansson.h>
#include <cmocka.h>

#include "cli/roughing.h"
#include "config/read.h"
#include "mesh/solids.h"
#include "report/job_json.h"
#include "support/near.h"
#include "support/scratch.h"
#include "support/solid.h"

/* Rays per cell of the map, along and across. */
#define RAYS 5
/* Rays stand this much off the middle of their squares, so that none meets the
 * edge of a triangle, mm. */
#define ASIDE_MM 0.00371

/* A lattice of rays over the whole area; `inside` tells which belong to it. */
struct rays {
	size_t nx, ny;
	double x0, y0, pitch;
	bool *inside;
	double *wood; /* length of each ray within the solid looked at */
};

static double number(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);

	assert_true(json_is_number(value));
	return json_number_value(value);
}

static void widen(double *least, double *most, double value)
{
	*least = fmin(*least, value);
	*most = fmax(*most, value);
}

/* Lays rays over the rows, in the program's coordinates. */
static struct rays lay_rays(const json_t *left, const json_t *zero)
{
	const json_t *rows = json_object_get(left, "rows");
	double cell = number(left, "cell_mm"), zx = json_number_value(json_array_get(zero, 0));
	double zy = json_number_value(json_array_get(zero, 1));
	double x0 = INFINITY, x1 = -INFINITY, y0 = INFINITY, y1 = -INFINITY;
	struct rays rays = { .pitch = cell / RAYS };
	size_t r, k;
	json_t *row, *stretch;

	json_array_foreach(rows, r, row)
	{
		widen(&y0, &y1, number(row, "y_mm"));
		json_array_foreach(json_object_get(row, "x_mm"), k, stretch)
		{
			widen(&x0, &x1, json_number_value(json_array_get(stretch, 0)));
			widen(&x0, &x1, json_number_value(json_array_get(stretch, 1)));
		}
	}
	rays.nx = (size_t)lround((x1 - x0) / rays.pitch);
	rays.ny = (size_t)lround((y1 - y0 + cell) / rays.pitch);
	rays.x0 = x0 - zx + rays.pitch / 2.0 + ASIDE_MM;
	rays.y0 = y0 - cell / 2.0 - zy + rays.pitch / 2.0 + ASIDE_MM;
	rays.inside = calloc(rays.nx * rays.ny, sizeof *rays.inside);
	rays.wood = calloc(rays.nx * rays.ny, sizeof *rays.wood);
	assert_non_null(rays.inside);
	assert_non_null(rays.wood);
	json_array_foreach(rows, r, row)
	{
		size_t iy = (size_t)lround((number(row, "y_mm") - y0) / rays.pitch);
		json_array_foreach(json_object_get(row, "x_mm"), k, stretch)
		{
			double from = json_number_value(json_array_get(stretch, 0));
			double to = json_number_value(json_array_get(stretch, 1));
			size_t first = (size_t)lround((from - x0) / rays.pitch);
			size_t end = (size_t)lround((to - x0) / rays.pitch);
			for (size_t y = iy; y < iy + RAYS; y++)
				for (size_t x = first; x < end; x++)
					rays.inside[y * rays.nx + x] = true;
		}
	}
	return rays;
}

static double side_of(const float a[3], const float b[3], double x, double y)
{
	return ((double)b[0] - (double)a[0]) * (y - (double)a[1]) -
	       ((double)b[1] - (double)a[1]) * (x - (double)a[0]);
}

static size_t index_from(double value, double origin, double pitch)
{
	double i = ceil((value - origin) / pitch);

	return i <= 0.0 ? 0 : (size_t)i;
}

/* Adds one triangle to all rays that pass through it: a face that looks up ends
 * wood above, one that looks down begins it below. */
static void add_triangle(struct rays *rays, const struct solid_triangle *t)
{
	const float *a = t->corner[0], *b = t->corner[1], *c = t->corner[2];
	double area = side_of(a, b, (double)c[0], (double)c[1]);
	double x0 = fmin((double)a[0], fmin((double)b[0], (double)c[0]));
	double x1 = fmax((double)a[0], fmax((double)b[0], (double)c[0]));
	double y0 = fmin((double)a[1], fmin((double)b[1], (double)c[1]));
	double y1 = fmax((double)a[1], fmax((double)b[1], (double)c[1]));
	double sign = area > 0.0 ? 1.0 : -1.0;

	if (area == 0.0)
		return; /* upright */
	for (size_t iy = index_from(y0, rays->y0, rays->pitch); iy < rays->ny; iy++) {
		double y = rays->y0 + (double)iy * rays->pitch;
		if (y > y1)
			break;
		for (size_t ix = index_from(x0, rays->x0, rays->pitch); ix < rays->nx; ix++) {
			double x = rays->x0 + (double)ix * rays->pitch;
			if (x > x1)
				break;
			double wa = side_of(b, c, x, y) / area, wb = side_of(c, a, x, y) / area;
			double wc = 1.0 - wa - wb;
			if (wa < 0.0 || wb < 0.0 || wc < 0.0)
				continue;
			double z = wa * (double)a[2] + wb * (double)b[2] + wc * (double)c[2];
			rays->wood[iy * rays->nx + ix] += sign * z;
		}
	}
}

/* Volume of a mesh over the area, mm3. */
static double volume_over(struct rays *rays, const char *folder, const char *name)
{
	char path[SCRATCH_ROOM];
	struct solid solid = { 0 };
	double sum = 0.0;

	solid_read(&solid, scratch_path(path, folder, name));
	for (size_t i = 0; i < rays->nx * rays->ny; i++)
		rays->wood[i] = 0.0;
	for (size_t i = 0; i < solid.count; i++)
		add_triangle(rays, &solid.item[i]);
	for (size_t i = 0; i < rays->nx * rays->ny; i++) {
		assert_true(rays->wood[i] > -1e-3); /* closed: no ray ends inside */
		sum += rays->inside[i] ? rays->wood[i] : 0.0;
	}
	solid_free(&solid);
	return sum * rays->pitch * rays->pitch;
}

/* Plans, writes, proves and measures the example; leaves job.json and the
 * meshes in the folder. */
static void rough(const char *folder)
{
	struct roughing *work = calloc(1, sizeof *work);
	struct config_places places = { 0 };
	struct job_result result = { 0 };
	struct fault_list faults = { 0 };
	struct progress unseen = { 0 };
	char path[SCRATCH_ROOM];

	assert_non_null(work);
	assert_int_equal(config_load(&work->job, &places, "examples/tall-heel/neck.cfg", &faults),
			 FAULT_NONE);
	assert_int_equal(neck_build(&work->neck, &work->job.neck, &faults), FAULT_NONE);
	assert_int_equal(job_check(&work->job, &faults), FAULT_NONE);
	assert_int_equal(roughing_look(work, &unseen, &faults), FAULT_NONE);
	assert_int_equal(roughing_measure(work, &result, &faults), FAULT_NONE);
	assert_int_equal(solids_write_finished(scratch_path(path, folder, "finished.stl"),
					       work->neck, work->job.fixture.work_zero_mm, &faults),
			 FAULT_NONE);
	assert_int_equal(solids_write_roughed(scratch_path(path, folder, "roughed.stl"),
					      &work->job.blank, &result.roughed,
					      &result.blank_bottom, work->job.fixture.work_zero_mm,
					      &faults),
			 FAULT_NONE);
	assert_int_equal(job_json_write(scratch_path(path, folder, "job.json"), &work->job,
					work->neck, &result, &faults),
			 FAULT_NONE);
	job_result_free(&result);
	roughing_free(work);
	config_places_free(&places);
	free(work);
}

static void assert_proof(const json_t *root)
{
	const json_t *proof = json_object_get(root, "proof");
	const json_t *promises = json_object_get(proof, "promises");
	const json_t *holder = json_object_get(promises, "holder");

	assert_true(json_is_true(json_object_get(proof, "proven")));
	assert_true(json_is_true(json_object_get(holder, "judged")));
	assert_true(json_is_true(json_object_get(holder, "kept")));
	assert_true(number(holder, "worst") >= 0.0);
}

/* "At most allowance + scallop + 0.05 on reachable surface". */
static void assert_zones(const json_t *root)
{
	static const char *const keys[] = { "back", "sides", "heel_cheeks", "transitions" };
	const json_t *zones = json_object_get(root, "hand_finish_stock");
	double scallop = number(json_object_get(root, "inputs"), "scallop_limit_mm");

	for (size_t i = 0; i < 4; i++) {
		const json_t *zone = json_object_get(zones, keys[i]);
		double asked = number(zone, "allowance_mm");
		assert_true(number(zone, "least_mm") >= asked - 0.01);
		assert_true(number(zone, "most_mm") <= asked + scallop + 0.05);
	}
}

static double sum_of(const json_t *places, const char *key)
{
	double sum = 0.0;
	size_t i;
	json_t *place;

	json_array_foreach(places, i, place) sum += number(place, key);
	return sum;
}

static void heel_taller_than_the_cutter_reaches(void **state)
{
	const char *folder = *state;
	char path[SCRATCH_ROOM];

	rough(folder);
	json_t *root = json_load_file(scratch_path(path, folder, "job.json"), 0, NULL);
	assert_non_null(root);
	assert_proof(root);
	assert_zones(root);
	const json_t *left = json_object_get(root, "left_for_the_chisel");
	const json_t *places = json_object_get(left, "places");
	const json_t *meshes = json_object_get(root, "meshes");
	struct rays rays =
		lay_rays(left, json_object_get(json_object_get(root, "frame"), "work_zero_mm"));
	size_t inside = 0;
	for (size_t i = 0; i < rays.nx * rays.ny; i++)
		inside += rays.inside[i];
	double area = (double)inside * rays.pitch * rays.pitch;
	double wood =
		volume_over(&rays, folder, json_string_value(json_object_get(meshes, "roughed"))) -
		volume_over(&rays, folder, json_string_value(json_object_get(meshes, "finished")));
	double said = number(left, "over_finished_mm3");
	assert_true(wood > 10000.0); /* a heel's nose and two cheeks */
	print_message("meshes %.1f mm3, job.json %.1f mm3, %.2f %%\n", wood, said,
		      100.0 * (said / wood - 1.0));
	assert_near(said, wood, 0.02 * wood, "wood left for the chisel, mm3");
	assert_near(number(left, "area_mm2"), area, 0.02 * area, "its area, mm2");
	assert_true(number(left, "over_allowance_mm3") < said);
	assert_near(number(root, "left_for_the_chisel_mm3"), number(left, "over_allowance_mm3"),
		    0.1, "told twice, mm3");
	assert_near(sum_of(places, "over_finished_mm3"), said, 0.01 * said, "its places, mm3");
	json_decref(root);
	free(rays.inside);
	free(rays.wood);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(heel_taller_than_the_cutter_reaches, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
