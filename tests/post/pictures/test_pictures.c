/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole pictures of a real neck with a result made by formula. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "files/text_file.h"
#include "pictures/gather.h"
#include "pictures/pictures.h"
#include "pictures/stock_marks.h"
#include "support/near.h"
#include "support/sample_result.h"
#include "support/scratch.h"

#define SIZE_MOST (16u << 20)
#define SVG_MOST 1500000u /* a page shows four of them */

struct sample {
	void *folder; /* scratch_make's */
	struct job job;
	struct neck *neck;
	struct job_result result;
};

static struct sample *make_sample(double cell_mm, size_t passes)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	assert_int_equal(scratch_make(&s->folder), 0);
	sample_job(&s->job);
	assert_int_equal(neck_build(&s->neck, &s->job.neck, NULL), FAULT_NONE);
	sample_result(&s->result, s->neck, &s->job, cell_mm, passes);
	return s;
}

static int make_coarse(void **state)
{
	*state = make_sample(1.0, 7);
	return 0;
}

static int make_fine(void **state)
{
	*state = make_sample(0.25, 60);
	return 0;
}

static int drop_sample(void **state)
{
	struct sample *s = *state;
	int failed = scratch_remove(&s->folder);

	sample_result_free(&s->result);
	neck_free(s->neck);
	free(s);
	return failed;
}

static enum fault write_all(struct sample *s, struct fault_list *faults)
{
	return pictures_write(s->folder, &s->result, s->neck, &s->job, faults);
}

static void read_back(const struct sample *s, const char *name, const char *ending, char **bytes,
		      size_t *size)
{
	char file[64], path[SCRATCH_ROOM];

	(void)snprintf(file, sizeof file, "%s.%s", name, ending);
	(void)scratch_path(path, s->folder, file);
	assert_int_equal(text_file_read(bytes, size, path, SIZE_MOST, NULL), FAULT_NONE);
}

static unsigned big_endian(const char *at)
{
	const unsigned char *b = (const unsigned char *)at;

	return (unsigned)b[0] << 24 | (unsigned)b[1] << 16 | (unsigned)b[2] << 8 | b[3];
}

/* Signature, size and end of a PNG. Source: ISO/IEC 15948, 5.2, 11.2.2. */
static void check_png(const char *bytes, size_t size)
{
	assert_true(size > 1000);
	assert_memory_equal(bytes, "\x89PNG\r\n\x1a\n", 8);
	assert_memory_equal(bytes + 12, "IHDR", 4);
	assert_int_equal(big_endian(bytes + 16), 1620);
	assert_in_range(big_endian(bytes + 20), 500, 4000);
	assert_memory_equal(bytes + size - 8, "IEND", 4);
}

static void all_pictures_are_there_and_small(void **state)
{
	struct sample *s = *state;

	assert_int_equal(write_all(s, NULL), FAULT_NONE);
	for (size_t i = 0; pictures_names()[i]; i++) {
		char *bytes;
		size_t size;
		read_back(s, pictures_names()[i], "png", &bytes, &size);
		check_png(bytes, size);
		free(bytes);
		read_back(s, pictures_names()[i], "svg", &bytes, &size);
		assert_in_range(size, 1000, SVG_MOST);
		assert_memory_equal(bytes, "<?xml", 5);
		assert_memory_equal(bytes + size - 7, "</svg>\n", 7);
		free(bytes);
	}
}

static void same_result_same_bytes(void **state)
{
	struct sample *s = *state;
	static const char *const endings[] = { "png", "svg" };

	for (size_t i = 0; pictures_names()[i]; i++)
		for (size_t e = 0; e < 2; e++) {
			char *first, *second;
			size_t first_size, second_size;
			assert_int_equal(write_all(s, NULL), FAULT_NONE);
			read_back(s, pictures_names()[i], endings[e], &first, &first_size);
			assert_int_equal(write_all(s, NULL), FAULT_NONE);
			read_back(s, pictures_names()[i], endings[e], &second, &second_size);
			assert_int_equal(first_size, second_size);
			assert_memory_equal(first, second, first_size);
			free(first);
			free(second);
		}
}

static void a_folder_that_is_none_is_a_fault(void **state)
{
	struct sample *s = *state;
	struct fault_list faults = { 0 };

	assert_int_equal(pictures_write("/nonexistent", &s->result, s->neck, &s->job, &faults),
			 FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].file, "/nonexistent/cut-depth.png");
	char long_name[5000];
	memset(long_name, 'a', sizeof long_name - 1);
	long_name[sizeof long_name - 1] = '\0';
	assert_int_equal(pictures_write(long_name, &s->result, s->neck, &s->job, NULL), FAULT_FILE);
}

/* A folder stands where the picture should go: refused whoever runs this. */
static void a_taken_name_is_a_fault(void **state)
{
	struct sample *s = *state;
	struct fault_list faults = { 0 };
	char path[SCRATCH_ROOM];

	(void)unlink(scratch_path(path, s->folder, "side-view.svg"));
	assert_int_equal(mkdir(path, 0700), 0);
	assert_int_equal(write_all(s, &faults), FAULT_FILE);
	assert_string_equal(faults.record[0].file, path);
	assert_int_equal(rmdir(path), 0);
}

static void a_read_only_folder_is_a_fault(void **state)
{
	struct sample *s = *state;

	if (geteuid() == 0)
		skip(); /* the superuser may write anywhere */
	assert_int_equal(chmod(s->folder, 0500), 0);
	enum fault code = write_all(s, NULL);
	assert_int_equal(chmod(s->folder, 0700), 0);
	assert_int_equal(code, FAULT_FILE);
}

static void maps_of_different_grids_are_refused(void **state)
{
	struct sample *s = *state;
	struct fault_list faults = { 0 };

	s->result.stock.cell_mm *= 2.0;
	assert_int_equal(write_all(s, &faults), FAULT_INTERNAL);
	s->result.stock.cell_mm /= 2.0;
	s->result.blank_top.nx -= 1;
	assert_int_equal(write_all(s, &faults), FAULT_INTERNAL);
	s->result.blank_top.nx += 1;
	assert_int_equal(write_all(s, NULL), FAULT_NONE);
}

static void gathered_figures_are_the_necks(void **state)
{
	struct sample *s = *state;
	const struct allowance_spec *a = &s->job.neck.allowance;
	struct gathered g;

	assert_int_equal(gather(&g, &s->result, s->neck, &s->job, NULL), FAULT_NONE);
	/* x = 100 on the centre line is back; near the gluing face it is side */
	const struct column_map *map = &g.allowance;
	size_t ix = (size_t)((100.0 - map->x0_mm) / map->cell_mm);
	size_t centre = (map->ny / 2) * map->nx + ix, edge = 0;
	assert_near((double)map->value[centre], a->back_mm, 1e-6, "allowance of the back, mm");
	for (size_t iy = 0; iy < map->ny && edge == 0; iy++)
		if (!isnan(map->value[iy * map->nx + ix]))
			edge = iy * map->nx + ix;
	assert_near((double)map->value[edge], a->sides_mm, 1e-6, "allowance of the sides, mm");
	assert_true(isnan(map->value[ix])); /* beside the neck */
	assert_int_equal(g.fret_count, 20);
	assert_near(g.fret_x_mm[11], 303.398395022, 1e-6,
		    "fret 11 of a 645.16 mm scale by equal temperament, mm");
	assert_int_equal(g.panel_count, s->result.station_count);
	assert_near(g.panel[0].board_width_mm, 43.7, 1e-6, "width at the nut, mm");
	assert_near(g.panel[4].blank_top_mm, 90.0, 1e-9, "blank at the heel, mm");
	assert_string_equal(g.plus_side, "bass");
	gathered_free(&g);
	gathered_free(NULL);
}

static void missing_stock_is_measured(void **state)
{
	struct sample *s = *state;
	struct gathered g;

	assert_int_equal(gather(&g, &s->result, s->neck, &s->job, NULL), FAULT_NONE);
	struct short_stock none = stock_marks_measure(&s->result.stock, &g.allowance);
	assert_near(none.area_mm2, 0.0, 0.0, "area that lacks stock, mm2");
	sample_result_dent(&s->result, 150.0, 3.0, 4.0, 0.5);
	struct short_stock some = stock_marks_measure(&s->result.stock, &g.allowance);
	assert_near(some.area_mm2, 3.14159265 * 16.0, 6.0, "area of the dent, mm2");
	assert_between(some.worst_mm, 0.35, 0.5 + 1e-6, "depth less the furrow's height, mm");
	assert_between(hypot(some.x_mm - 150.0, some.y_mm - 3.0), 0.0, 4.0, "place, mm");
	sample_result_dent(&s->result, 150.0, 3.0, 4.0, -0.5);
	gathered_free(&g);
}

int main(void)
{
	const struct CMUnitTest coarse[] = {
		cmocka_unit_test(same_result_same_bytes),
		cmocka_unit_test(a_folder_that_is_none_is_a_fault),
		cmocka_unit_test(a_taken_name_is_a_fault),
		cmocka_unit_test(a_read_only_folder_is_a_fault),
		cmocka_unit_test(maps_of_different_grids_are_refused),
		cmocka_unit_test(gathered_figures_are_the_necks),
		cmocka_unit_test(missing_stock_is_measured),
	};
	const struct CMUnitTest fine[] = {
		cmocka_unit_test(all_pictures_are_there_and_small),
	};
	int failed = cmocka_run_group_tests(coarse, make_coarse, drop_sample);

	return failed + cmocka_run_group_tests(fine, make_fine, drop_sample);
}
