/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole job with a result for the sheets of the bench, and their text as it
 * can be read off the PDF. Included after the standard headers and cmocka. */
#ifndef NECKHEW_TESTS_BENCH_SAMPLE_H
#define NECKHEW_TESTS_BENCH_SAMPLE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "papers/sheet.h"
#include "support/rendered.h"
#include "support/sample_result.h"
#include "support/scratch.h"

struct bench_sample {
	struct job job;
	struct neck *neck;
	struct job_result result;
	struct paper_content content; /* points at the above: the sample must stay put */
};

typedef enum fault bench_draw(struct sheet *sheet, const struct paper_content *content,
			      struct fault_list *faults);

/* The sample job on a machine, held by a clamp and tape. */
static inline struct job bench_job(void)
{
	struct job job;

	sample_job(&job);
	(void)snprintf(job.machine.name, sizeof job.machine.name, "shop router");
	(void)snprintf(job.wood.name, sizeof job.wood.name, "walnut");
	job.cutter_count = 1;
	(void)snprintf(job.cutter[0].name, sizeof job.cutter[0].name, "ball 12, long");
	job.machine.travel_mm[AXIS_X] = 700.0;
	job.machine.travel_mm[AXIS_Y] = 410.0;
	job.machine.travel_mm[AXIS_Z] = 150.0;
	job.cutter[0].ball_diameter_mm = 12.0;
	job.cutter[0].shank_diameter_mm = 11.0;
	job.cutter[0].flute_length_mm = 47.0;
	job.cutter[0].stickout_mm = 95.0;
	job.cutter[0].holder_diameter_mm = 43.0;
	job.cutter[0].holder_length_mm = 38.0;
	job.cutter[0].flutes = 2;
	job.cutter[0].spindle_rpm = 15500.0;
	job.cutter[0].plunge_feed_mm_per_min = 640.0;
	job.fixture.riser_height_mm = 18.0;
	job.fixture.riser_width_mm = 36.0;
	job.fixture.riser_from_mm = 5.0;
	job.fixture.riser_to_mm = 370.0;
	job.fixture.keep_out_count = job.fixture.hold_count = 1;
	job.fixture.keep_out[0] =
		(struct place){ "toe clamp", -75.0, -40.0, -55.0, 55.0, 61.0, PLACE_BOX };
	job.fixture.hold[0] = (struct place){ "tape", 8.0, 365.0, -16.0, 16.0, 0.0, PLACE_BOX };
	return job;
}

static inline void bench_sample_make(struct bench_sample *out, const struct job *job)
{
	out->job = *job;
	assert_int_equal(neck_build(&out->neck, &out->job.neck, NULL), FAULT_NONE);
	sample_result(&out->result, out->neck, &out->job, 0.5, 3);
	for (size_t i = 0; i < out->result.program_count; i++) {
		struct program_figures *program = &out->result.program[i];
		program->least = vec3_make(-71.5, -41.25 - (double)i, -9.5);
		program->most = vec3_make(374.25, 41.25, 97.75 + (double)i);
		program->blocks = 4321;
		for (size_t p = 0; p < program->pass_count; p++)
			program->pass[p].feed_mm_per_min = 2750.0 - 100.0 * (double)p;
	}
	out->content = (struct paper_content){ &out->job, out->neck, NULL, &out->result };
}

static inline void bench_sample_free(struct bench_sample *sample)
{
	sample_result_free(&sample->result);
	neck_free(sample->neck);
}

/* Forgets the stations from the nth on. */
static inline void bench_keep_stations(struct bench_sample *sample, size_t count)
{
	for (size_t i = count; i < sample->result.station_count; i++)
		free(sample->result.station[i].centre.standing_mm);
	sample->result.station_count = count;
}

/* Draws one sheet into a canvas that it opens; close it in either case. */
static inline enum fault bench_draw_on(struct canvas *canvas, const struct bench_sample *sample,
				       enum paper_size size, bool lying, bench_draw *draw,
				       struct fault_list *faults)
{
	const struct paper *paper = paper_of(size);
	struct sheet sheet = { .canvas = canvas,
			       .paper = paper,
			       .words = { sample->job.neck.name, sample->job.digest },
			       .title = "Sample",
			       .remark = "",
			       .page_count = 1 };
	enum fault code = canvas_open_paper(canvas, lying ? paper->height_mm : paper->width_mm,
					    lying ? paper->width_mm : paper->height_mm, "Sample",
					    faults);

	if (code == FAULT_NONE)
		code = draw(&sheet, &sample->content, faults);
	if (code == FAULT_NONE)
		assert_int_equal(sheet.page, sheet.page_count);
	return code;
}

static inline void bench_write(const struct bench_sample *sample, const char *pdf,
			       enum paper_size size, bool lying, bench_draw *draw)
{
	struct canvas canvas;

	assert_int_equal(bench_draw_on(&canvas, sample, size, lying, draw, NULL), FAULT_NONE);
	assert_int_equal(canvas_save(&canvas, pdf, NULL), FAULT_NONE);
	canvas_close(&canvas);
}

/* Runs of blanks become one, so that texts can be looked for; pages and lines
 * stay apart. */
static inline void bench_squeeze(char *text)
{
	char *to = text;

	for (const char *from = text; *from; from++)
		if (*from != ' ' || (from[1] != ' ' && from[1] != '\n'))
			*to++ = *from;
	*to = '\0';
}

/* The words of a written sheet, line by line as they stand on the page; to be
 * freed with free(). */
static inline char *bench_text(const struct bench_sample *sample, const char *folder,
			       enum paper_size size, bool lying, bench_draw *draw)
{
	char pdf[SCRATCH_ROOM];

	bench_write(sample, scratch_path(pdf, folder, "sheet.pdf"), size, lying, draw);
	char *text = rendered_tool(folder, "pdftotext", "-layout", pdf);
	bench_squeeze(text);
	return text;
}

/* Fails the test unless the text has it. */
static inline void assert_has(const char *text, const char *words)
{
	if (!strstr(text, words))
		fail_msg("\"%s\" is not on the sheet:\n%s", words, text);
}

/* Pages of a text: each ends with a form feed. */
static inline size_t bench_pages(const char *text)
{
	size_t pages = 0;

	for (; *text; text++)
		pages += *text == '\f';
	return pages;
}

/* Nothing may be drawn nearer to the page's edges than its margin. */
static inline void assert_within_page(const char *folder, const char *pdf, size_t pages,
				      double margin_mm)
{
	for (size_t page = 1; page <= pages; page++) {
		struct rendered image;
		rendered_page(&image, folder, pdf, (int)page);
		int edge = (int)((margin_mm - 0.5) * RENDERED_PIXELS_PER_MM);
		for (int y = 0; y < image.height; y++)
			for (int x = 0; x < image.width; x++) {
				bool inside = x >= edge && y >= edge && x < image.width - edge &&
					      y < image.height - edge;
				if (!inside && rendered_ink(&image, x, y) > 0.1)
					fail_msg("page %zu has ink at pixel %d, %d", page, x, y);
			}
		rendered_free(&image);
	}
}

/* A job as full as can be: 24 stations, 16 keep-outs and 16 holding places with
 * long names. */
static inline struct job bench_full_job(void)
{
	struct job job = bench_job();

	job.neck.station_count = NECK_STATIONS_MAX;
	for (size_t i = 0; i < NECK_STATIONS_MAX; i++) {
		job.neck.station[i] = job.neck.station[0];
		job.neck.station[i].fret = (double)i * 0.46;
		job.neck.station[i].thickness_mm = 21.0 + 0.1 * (double)i;
	}
	job.fixture.keep_out_count = job.fixture.hold_count = FIXTURE_PLACES_MAX;
	for (size_t i = 0; i < FIXTURE_PLACES_MAX; i++) {
		struct place *place = &job.fixture.keep_out[i];
		double x = -75.0 + 28.0 * (double)i;
		*place = (struct place){ "", x, x + 8.0, 40.0, 48.0, 20.0 + (double)i, PLACE_BOX };
		(void)snprintf(place->name, sizeof place->name,
			       "screw number %zu with a name that goes on and on", i + 1);
		job.fixture.hold[i] = *place;
		job.fixture.hold[i].y_from_mm = -12.0;
		job.fixture.hold[i].y_to_mm = 12.0;
	}
	return job;
}

/* The sample's result with 24 stations and 8 programs. */
static inline void bench_fill_result(struct bench_sample *sample)
{
	struct job_result *result = &sample->result;
	struct station_figures *station = calloc(NECK_STATIONS_MAX, sizeof *station);
	struct program_figures *program = calloc(8, sizeof *program);

	assert_true(station && program);
	for (size_t i = 0; i < NECK_STATIONS_MAX; i++) {
		double x = neck_fret_x_mm(sample->neck, sample->job.neck.station[i].fret);
		double finished = neck_stated_thickness_mm(sample->neck, x);
		station[i] = (struct station_figures){ .fret = sample->job.neck.station[i].fret,
						       .x_mm = x,
						       .roughed_mm = finished + 1.0,
						       .finished_mm = finished };
	}
	for (size_t i = 0; i < 8; i++) {
		program[i] = result->program[0];
		program[i].pass = NULL;
		program[i].pass_count = 0;
		(void)snprintf(program[i].file, sizeof program[i].file, "part-%zu.nc", i + 1);
	}
	for (size_t i = 0; i < result->program_count; i++)
		free(result->program[i].pass);
	bench_keep_stations(sample, 0);
	free(result->program);
	free(result->station);
	result->program = program;
	result->program_count = 8;
	result->station = station;
	result->station_count = NECK_STATIONS_MAX;
}

/* A name to break a sheet with: control characters, bytes that are no UTF-8,
 * markup, and no end. */
static inline void bench_hostile(char *name, size_t room)
{
	static const char piece[] = "\x01\xff\xc3(%s%n) </a>\\ \n\t";

	for (size_t i = 0; i + 1 < room; i++)
		name[i] = piece[i % (sizeof piece - 1)];
	name[room - 1] = '\0';
}

/* As much on every sheet as there can be, under a hostile name. */
static inline void bench_full_sample_make(struct bench_sample *out)
{
	struct job job = bench_full_job();

	bench_hostile(job.neck.name, sizeof job.neck.name);
	bench_sample_make(out, &job);
	bench_fill_result(out);
}

#endif
