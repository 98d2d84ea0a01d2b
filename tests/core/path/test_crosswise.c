/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where crosswise lines lie on the short neck. */
#include "path/crosswise.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_bed.h"

static struct raster_lie *room(const struct sample_bed *bed, double step_mm)
{
	struct raster_lie *lines = calloc(crosswise_most(&bed->bench, step_mm), sizeof *lines);

	assert_non_null(lines);
	return lines;
}

static void level_lines_cover_their_stretches(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_bed bed;

	job.cutting[STRETCH_PEGHEAD].lines = job.cutting[STRETCH_NOSE].lines = CUT_CROSSWISE;
	job.cutting[STRETCH_HEEL].lines = CUT_CROSSWISE;
	sample_bed_make(&bed, &job);
	struct raster_lie *line = room(&bed, 3.0);
	size_t count = crosswise_level(line, &bed.bench, 3.0), jumps = 0;
	assert_near(line[0].at_mm, job.carve.from_mm, 1e-9, "first, mm");
	assert_near(line[count - 1].at_mm, job.carve.to_mm, 1e-9, "last, mm");
	for (size_t i = 1; i < count; i++) {
		double apart = line[i].at_mm - line[i - 1].at_mm;
		if (apart <= 3.0 + 1e-9)
			continue;
		jumps++;
		assert_near(line[i - 1].at_mm, 0.0, 1e-9, "end of the peghead, mm");
		assert_near(line[i].at_mm, neck_heel_start_mm(bed.model.neck), 1e-9, "nose, mm");
	}
	assert_int_equal(jumps, 1);
	free(line);
	sample_bed_free(&bed);
}

static void nobody_asks_no_lines(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_bed bed;

	sample_bed_make(&bed, &job);
	struct raster_lie *line = room(&bed, 3.0);
	assert_int_equal(crosswise_level(line, &bed.bench, 3.0), 0);
	assert_int_equal(crosswise_surface(line, &bed.bench, 1.0), 0);
	free(line);
	sample_bed_free(&bed);
}

/* Way of the tip over the surface from x0 to x1 at y. */
static double way_over(const struct sample_bed *bed, double y, double x0, double x1)
{
	size_t hint = 0;
	double sum = 0.0, last = drop_tip_mm(bed->bench.drop, x0, y, &hint);

	for (int i = 1; i <= 50; i++) {
		double x = x0 + (x1 - x0) * i / 50.0;
		double z = drop_tip_mm(bed->bench.drop, x, y, &hint);
		sum += hypot((x1 - x0) / 50.0, z - last);
		last = z;
	}
	return sum;
}

/* Two balls leave a ridge where they meet; the ball between them could go down to
 * its own lowest tip. The ridge over that is at most what lines so far apart
 * leave on a flat: R - sqrt(R^2 - s^2 / 4) (geometry of circles). Looked at in the
 * plane of x and z, where the section across is level. */
static void assert_ridge(const struct sample_bed *bed, double y, double x0, double x1,
			 double spacing)
{
	double r = bed->bench.radius_mm, flat = r - sqrt(r * r - spacing * spacing / 4.0);
	size_t hint = 0;
	double z0 = drop_tip_mm(bed->bench.drop, x0, y, &hint) + r;
	double z1 = drop_tip_mm(bed->bench.drop, x1, y, &hint) + r;
	double half = hypot(x1 - x0, z1 - z0) / 2.0, down = sqrt(r * r - half * half);
	/* where both circles meet, below the middle of their centres */
	double x = (x0 + x1) / 2.0 + down * (z1 - z0) / (2.0 * half);
	double z = (z0 + z1) / 2.0 - down * (x1 - x0) / (2.0 * half), least = INFINITY;

	for (int i = 0; i <= 40; i++) {
		double at = x0 + (x1 - x0) * i / 40.0;
		double centre = drop_tip_mm(bed->bench.drop, at, y, &hint) + r;
		least = fmin(least, hypot(x - at, z - centre));
	}
	/* how far the ridge reaches into the ball that would take it away */
	assert_between(r - least, -1e-3, 1.06 * flat, "ridge, mm");
}

/* On the steep nose, measured along the surface on the crest and beside it. */
static void surface_lines_keep_their_distance_on_slopes(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_bed bed;
	double spacing = 1.2, closest = spacing, most = 0.0;

	for (int i = 0; i < STRETCH_COUNT; i++)
		job.cutting[i].lines = CUT_CROSSWISE;
	sample_bed_make(&bed, &job);
	struct raster_lie *line = room(&bed, spacing);
	size_t count = crosswise_surface(line, &bed.bench, spacing);
	assert_near(line[0].at_mm, job.carve.from_mm, 1e-9, "first, mm");
	assert_near(line[count - 1].at_mm, job.carve.to_mm, 1e-9, "last, mm");
	for (size_t i = 1; i < count; i++) {
		double x0 = line[i - 1].at_mm, x1 = line[i].at_mm;
		if (i + 1 < count) /* the last step is what is left over */
			closest = fmin(closest, x1 - x0);
		assert_true(x1 > x0);
		for (double y = 0.0; y < 4.0; y += 1.5) {
			most = fmax(most, way_over(&bed, y, x0, x1));
			assert_ridge(&bed, y, x0, x1, spacing);
		}
	}
	assert_between(most, 0.9 * spacing, 1.02 * spacing, "widest on the surface, mm");
	/* 65 degrees of nose behind a hollow: cos 65 = 0.42 */
	assert_between(closest, 0.04 * spacing, 0.43 * spacing, "closest in plan, mm");
	free(line);
	sample_bed_free(&bed);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(level_lines_cover_their_stretches),
		cmocka_unit_test(nobody_asks_no_lines),
		cmocka_unit_test(surface_lines_keep_their_distance_on_slopes),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
