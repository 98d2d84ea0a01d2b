/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contour gauges measured on rendered pages against the neck: widths, heights,
 * areas and sides. Lengths mm. */
#include "papers/gauges.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "papers/gauge_list.h"
#include "support/near.h"
#include "support/paper_sample.h"
#include "support/rendered.h"
#include "support/scratch.h"

/* Half the promise of 0.1 mm over 200 mm would do; this is all of it. */
#define OFF_MM 0.1
/* Share of the section's area. */
#define AREA_OFF 0.002

struct drawn {
	struct paper_sample sample;
	struct gauge_list list;
	char pdf[SCRATCH_ROOM];
};

static void draw(struct drawn *drawn, const char *folder, const struct job *job,
		 enum paper_size size)
{
	paper_sample_make(&drawn->sample, job);
	assert_int_equal(gauge_list_build(&drawn->list, &drawn->sample.content, NULL), FAULT_NONE);
	gauge_list_lay(&drawn->list, paper_sample_area(size, false));
	(void)scratch_path(drawn->pdf, folder, "gauges.pdf");
	paper_sample_draw(&drawn->sample, drawn->pdf, size, false, gauges_draw);
}

static void drop(struct drawn *drawn)
{
	gauge_list_free(&drawn->list);
	paper_sample_free(&drawn->sample);
}

/* Half-breadth of the finished section at height z. */
static double half_at(const struct neck *neck, enum neck_side side, double x, double z)
{
	return neck_half_breadth_mm(neck, side, x, z / neck_crest_mm(neck, x));
}

/* From a place in the opening, off the dotted centre line, outward. */
static double measured_half(const struct rendered *page, const struct gauge *gauge,
			    enum neck_side side, double z)
{
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, start = gauge->centre_mm + sign * 1.0;
	double y = gauge->face_mm - z;

	return 1.0 + rendered_first_stroke(page, start, y, start + sign * 60.0, y);
}

static double measured_height(const struct rendered *page, const struct gauge *gauge, double y)
{
	double x = gauge->centre_mm + y, from = gauge->face_mm - 2.0;

	return 2.0 + rendered_first_stroke(page, x, from, x, from - 100.0);
}

static void check_finished(const struct rendered *page, const struct gauge *gauge,
			   const struct neck *neck)
{
	for (int side = 0; side < SIDE_COUNT; side++)
		for (double z = 0.3; z < 0.8 * gauge->crest_mm; z += 2.7)
			assert_near(measured_half(page, gauge, (enum neck_side)side, z),
				    half_at(neck, (enum neck_side)side, gauge->x_mm, z), OFF_MM,
				    "from the centre line, mm");
	for (double y = -8.0; y <= 8.0; y += 3.2)
		assert_near(measured_height(page, gauge, y), neck_height_mm(neck, gauge->x_mm, y),
			    OFF_MM, "height, mm");
}

/* On every page each finished gauge's opening is the neck's section. */
static void openings_are_the_necks_sections(void **state)
{
	struct job job = sample_steel_job();
	struct drawn drawn;

	draw(&drawn, *state, &job, PAPER_A4);
	for (size_t page = 1; page <= drawn.list.page_count; page++) {
		struct rendered image;
		rendered_page(&image, *state, drawn.pdf, (int)page);
		for (size_t i = 0; i < drawn.list.count; i += 2)
			if (drawn.list.item[i].page == page)
				check_finished(&image, &drawn.list.item[i],
					       drawn.sample.model.neck);
		rendered_free(&image);
	}
	drop(&drawn);
}

/* The roughed opening is wider and higher by what the zones ask for: on the
 * crest the back's stock, near the gluing face the sides'. */
static void roughed_openings_have_their_stock(void **state)
{
	struct job job = sample_steel_job();
	struct rendered image;
	struct drawn drawn;

	draw(&drawn, *state, &job, PAPER_LETTER);
	rendered_page(&image, *state, drawn.pdf, 1);
	for (size_t i = 0; i + 1 < drawn.list.count; i += 2) {
		const struct gauge *finished = &drawn.list.item[i], *roughed = finished + 1;
		if (roughed->page != 1 || finished->x_mm <= 2.0 || finished->x_mm > 280.0)
			continue;
		assert_true(roughed->roughed && !finished->roughed);
		assert_near(measured_height(&image, roughed, 0.8) -
				    measured_height(&image, finished, 0.8),
			    job.neck.allowance.back_mm, OFF_MM, "stock on the crest, mm");
		for (int side = 0; side < SIDE_COUNT; side++)
			assert_near(measured_half(&image, roughed, (enum neck_side)side, 0.3) -
					    measured_half(&image, finished, (enum neck_side)side,
							  0.3),
				    job.neck.allowance.sides_mm, OFF_MM, "stock on a side, mm");
	}
	rendered_free(&image);
	drop(&drawn);
}

struct flood {
	const struct rendered *page;
	int x0, y0, width, height; /* the part of the page that is looked at */
	unsigned char *in; /* 1: reached from within the opening, or between such */
	int *stack;
};

static bool dark(const struct flood *flood, int x, int y)
{
	return rendered_ink(flood->page, flood->x0 + x, flood->y0 + y) > 0.5;
}

static bool inside(const struct flood *flood, int x, int y)
{
	return x >= 0 && y >= 0 && x < flood->width && y < flood->height &&
	       flood->in[y * flood->width + x];
}

static void flood_from(struct flood *flood, int x, int y)
{
	int depth = 0;

	flood->stack[depth++] = y * flood->width + x;
	flood->in[y * flood->width + x] = 1;
	while (depth > 0) {
		static const int step[4][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
		int at = flood->stack[--depth];
		for (int i = 0; i < 4; i++) {
			int nx = at % flood->width + step[i][0],
			    ny = at / flood->width + step[i][1];
			/* the opening must be closed: the flood never meets the edge */
			assert_true(nx >= 0 && ny >= 0 && nx < flood->width && ny < flood->height);
			if (inside(flood, nx, ny) || dark(flood, nx, ny))
				continue;
			flood->in[ny * flood->width + nx] = 1;
			flood->stack[depth++] = ny * flood->width + nx;
		}
	}
}

/* The dotted centre line lies between what was reached. */
static void fill_rows(struct flood *flood)
{
	for (int y = 0; y < flood->height; y++) {
		unsigned char *row = flood->in + y * flood->width;
		int first = 0, last = flood->width - 1;
		while (first < flood->width && !row[first])
			first++;
		while (last > first && !row[last])
			last--;
		for (int x = first; x < last; x++)
			row[x] = 1;
	}
}

/* Pixels inside the outline, and half of those of its line: the line's middle
 * counts. The line is less than three pixels wide. */
static double area_pixels(const struct flood *flood)
{
	double area = 0.0;

	for (int y = 0; y < flood->height; y++)
		for (int x = 0; x < flood->width; x++) {
			bool near = false;
			if (inside(flood, x, y)) {
				area += 1.0;
				continue;
			}
			for (int dy = -2; dy <= 2 && dark(flood, x, y); dy++)
				for (int dx = -2; dx <= 2; dx++)
					near = near || inside(flood, x + dx, y + dy);
			area += near ? 0.5 : 0.0;
		}
	return area;
}

static double opening_area_mm2(const struct rendered *page, const struct gauge *gauge)
{
	double half = gauge->half_mm + 3.0, top = gauge->face_mm - gauge->crest_mm - 3.0;
	double height = gauge->crest_mm + gauge->board_mm + 6.0, scale = RENDERED_PIXELS_PER_MM;
	struct flood flood = { .page = page,
			       .x0 = (int)((gauge->centre_mm - half) * scale),
			       .y0 = (int)(top * scale),
			       .width = (int)(2.0 * half * scale),
			       .height = (int)(height * scale) };
	size_t pixels = (size_t)flood.width * (size_t)flood.height;

	flood.in = calloc(pixels, 1);
	flood.stack = calloc(pixels, sizeof(int));
	assert_true(flood.in && flood.stack);
	flood_from(&flood, (int)((half + 1.5) * scale),
		   (int)((gauge->face_mm - 3.0) * scale) - flood.y0);
	fill_rows(&flood);
	double area = area_pixels(&flood) / (scale * scale);
	free(flood.in);
	free(flood.stack);
	return area;
}

/* Integral of the half-breadths over the height, both sides: Simpson's rule on
 * fine steps. */
static double section_area_mm2(const struct neck *neck, double x)
{
	double height = neck_crest_mm(neck, x), sum = 0.0;
	const int steps = 20000;

	for (int i = 0; i <= steps; i++) {
		double v = (double)i / steps, weight = i == 0 || i == steps ? 1.0
						       : i % 2		    ? 4.0
									    : 2.0;
		for (int side = 0; side < SIDE_COUNT; side++)
			sum += weight * neck_half_breadth_mm(neck, (enum neck_side)side, x, v);
	}
	return sum * height / (3.0 * steps);
}

static void check_areas(const char *folder, const struct job *job)
{
	struct rendered image;
	struct drawn drawn;
	int checked = 0;

	draw(&drawn, folder, job, PAPER_A4);
	const struct neck *neck = drawn.sample.model.neck;
	rendered_page(&image, folder, drawn.pdf, 1);
	for (size_t i = 0; i < drawn.list.count; i += 2) {
		const struct gauge *gauge = &drawn.list.item[i];
		if (gauge->page != 1)
			continue;
		double section = section_area_mm2(neck, gauge->x_mm);
		double board = gauge->board_mm * neck_fretboard_width_mm(neck, gauge->x_mm);
		double area = opening_area_mm2(&image, gauge);
		assert_near(area - (gauge->board_mm > 0.0 ? board : 0.0), section,
			    AREA_OFF * section, "area of the section, mm2");
		checked++;
	}
	assert_true(checked >= 4);
	rendered_free(&image);
	drop(&drawn);
}

static void areas_are_the_surfaces_own(void **state)
{
	struct job job = sample_steel_job();

	check_areas(*state, &job);
	job.neck.over_fretboard = false;
	for (size_t i = 0; i < job.neck.station_count; i++) {
		job.neck.station[i].thickness_mm -= job.neck.fretboard_thickness_mm;
		job.neck.station[i].bass.family = SECTION_U;
	}
	check_areas(*state, &job);
}

/* Mean x of a word where it is written upward, as it is on the cards; mm. */
static double upright_word_at(const char *boxes, const char *word)
{
	double x0, y0, x1, y1, sum = 0.0;
	char found[32];
	int count = 0;

	for (const char *at = boxes; (at = strstr(at, "<word ")) != NULL; at++) {
		if (sscanf(at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%31[a-z]",
			   &x0, &y0, &x1, &y1, found) != 5)
			continue;
		if (strcmp(found, word) != 0 || x1 - x0 > y1 - y0)
			continue;
		sum += x0 * 25.4 / 72.0;
		count++;
	}
	assert_true(count > 0);
	return sum / count;
}

/* A full bass side on either hand: what the paper calls bass is where the
 * opening is fuller, and the mirrored neck has it on the other side. */
static void sides_are_named_right(void **state)
{
	for (int hand = 0; hand < 2; hand++) {
		struct job job = sample_steel_job();
		struct rendered image;
		struct drawn drawn;
		job.neck.hand = hand == 0 ? HAND_RIGHT : HAND_LEFT;
		for (size_t i = 0; i < job.neck.station_count; i++)
			job.neck.station[i].bass = (struct section_spec){ .family = SECTION_U };
		draw(&drawn, *state, &job, PAPER_A4);
		rendered_page(&image, *state, drawn.pdf, 1);
		const struct gauge *gauge = &drawn.list.item[0];
		check_finished(&image, gauge, drawn.sample.model.neck);
		double z = 0.8 * gauge->crest_mm;
		double plus = measured_half(&image, gauge, SIDE_PLUS, z);
		double minus = measured_half(&image, gauge, SIDE_MINUS, z);
		assert_true(fabs(plus - minus) > 1.0);
		char *boxes = rendered_tool(*state, "pdftotext", "-bbox", drawn.pdf);
		double bass = upright_word_at(boxes, "bass");
		double treble = upright_word_at(boxes, "treble");
		assert_true((bass > treble) == (plus > minus));
		assert_non_null(strstr(boxes, "looking"));
		free(boxes);
		char *text = rendered_tool(*state, "pdftotext", "-raw", drawn.pdf);
		for (char *at = text; *at; at++) /* the remark may break anywhere */
			*at = *at == '\n' ? ' ' : *at;
		assert_non_null(strstr(text, hand == 0 ? "bass side at the right"
						       : "treble side at the right"));
		free(text);
		rendered_free(&image);
		drop(&drawn);
	}
}

/* Stations, frets 1, 5, 9 and the heel, each once, in the order of x; pairs. */
static void every_place_has_its_pair(void **state)
{
	struct job job = sample_steel_job();
	struct paper_sample sample;
	struct gauge_list list;
	static const char *const names[] = { "nut",    "fret 1",  "fret 5",
					     "fret 9", "fret 11", "heel begins" };

	(void)state;
	paper_sample_make(&sample, &job);
	assert_int_equal(gauge_list_build(&list, &sample.content, NULL), FAULT_NONE);
	assert_int_equal(list.count, 2 * sizeof names / sizeof names[0]);
	for (size_t i = 0; i < list.count; i++) {
		assert_string_equal(list.item[i].name, names[i / 2]);
		assert_int_equal(list.item[i].roughed, i % 2 == 1);
		if (i > 0)
			assert_true(list.item[i].x_mm >= list.item[i - 1].x_mm);
	}
	gauge_list_free(&list);
	paper_sample_free(&sample);
	/* a station at fret 5 is not repeated */
	job.neck.station[1].fret = 5.0;
	paper_sample_make(&sample, &job);
	assert_int_equal(gauge_list_build(&list, &sample.content, NULL), FAULT_NONE);
	assert_int_equal(list.count, 2 * 5);
	gauge_list_free(&list);
	paper_sample_free(&sample);
}

/* Cards lie on the page and none on another; those too large are counted. */
static void cards_lie_apart(void **state)
{
	const struct sheet_area tall = { 10.0, 30.0, 190.0, 270.0 };
	const struct sheet_area narrow = { 10.0, 30.0, 100.0, 270.0 };
	const struct sheet_area tiny = { 10.0, 30.0, 60.0, 270.0 };
	struct job job = sample_steel_job();
	struct paper_sample sample;
	struct gauge_list list;

	(void)state;
	paper_sample_make(&sample, &job);
	assert_int_equal(gauge_list_build(&list, &sample.content, NULL), FAULT_NONE);
	for (int i = 0; i < 2; i++) {
		struct sheet_area area = i == 0 ? tall : narrow;
		gauge_list_lay(&list, area);
		assert_int_equal(list.left_out, 0);
		for (size_t k = 0; k < list.count; k++) {
			const struct gauge *a = &list.item[k];
			double half = a->half_mm + GAUGE_CHEEK_MM;
			double top = a->face_mm - a->crest_mm - GAUGE_ROOF_MM;
			assert_between(a->centre_mm - half, area.left, area.right, "left, mm");
			assert_between(a->centre_mm + half, area.left, area.right, "right, mm");
			assert_between(top, area.top - 1e-9, area.bottom, "top, mm");
			assert_between(a->face_mm + a->board_mm, area.top, area.bottom + 1e-9,
				       "bottom, mm");
			for (size_t m = 0; m < k; m++) {
				const struct gauge *b = &list.item[m];
				bool beside = fabs(a->centre_mm - b->centre_mm) >
					      half + b->half_mm + GAUGE_CHEEK_MM;
				bool below = b->face_mm + b->board_mm < top;
				assert_true(a->page != b->page || beside || below);
			}
		}
	}
	gauge_list_lay(&list, tiny);
	assert_int_equal(list.left_out, list.count);
	assert_int_equal(list.page_count, 1);
	gauge_list_free(&list);
	gauge_list_free(NULL);
	paper_sample_free(&sample);
}

#define ON_FILES(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ON_FILES(openings_are_the_necks_sections),
		ON_FILES(roughed_openings_have_their_stock),
		ON_FILES(areas_are_the_surfaces_own),
		ON_FILES(sides_are_named_right),
		cmocka_unit_test(every_place_has_its_pair),
		cmocka_unit_test(cards_lie_apart),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
