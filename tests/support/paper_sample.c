/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/paper_sample.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

void paper_sample_make(struct paper_sample *out, const struct job *job)
{
	const struct neck_spec *spec = &job->neck;

	*out = (struct paper_sample){ .job = *job };
	sample_model_make(&out->model, spec);
	out->result.station = calloc(spec->station_count, sizeof *out->result.station);
	assert_non_null(out->result.station);
	out->result.station_count = spec->station_count;
	for (size_t i = 0; i < spec->station_count; i++) {
		out->result.station[i].fret = spec->station[i].fret;
		out->result.station[i].x_mm =
			neck_fret_x_mm(out->model.neck, spec->station[i].fret);
	}
	out->content = (struct paper_content){ &out->job, out->model.neck, &out->model.facets,
					       &out->result };
}

void paper_sample_free(struct paper_sample *sample)
{
	free(sample->result.station);
	sample_model_free(&sample->model);
}

void paper_sample_draw(const struct paper_sample *sample, const char *pdf, enum paper_size size,
		       bool lying,
		       enum fault (*draw)(struct sheet *sheet, const struct paper_content *content,
					  struct fault_list *faults))
{
	const struct paper *paper = paper_of(size);
	struct canvas canvas;
	struct sheet sheet = { .canvas = &canvas,
			       .paper = paper,
			       .words = { sample->job.neck.name, "" },
			       .title = "Sample",
			       .remark = "",
			       .true_scale = true,
			       .page_count = 1 };

	assert_int_equal(canvas_open_paper(&canvas, lying ? paper->height_mm : paper->width_mm,
					   lying ? paper->width_mm : paper->height_mm, "Sample",
					   NULL),
			 FAULT_NONE);
	assert_int_equal(draw(&sheet, &sample->content, NULL), FAULT_NONE);
	assert_int_equal(sheet.page, sheet.page_count);
	assert_int_equal(canvas_save(&canvas, pdf, NULL), FAULT_NONE);
	canvas_close(&canvas);
}

struct sheet_area paper_sample_area(enum paper_size size, bool lying)
{
	const struct paper *paper = paper_of(size);
	struct canvas canvas = { .width_mm = lying ? paper->height_mm : paper->width_mm,
				 .height_mm = lying ? paper->width_mm : paper->height_mm };
	struct sheet sheet = { .canvas = &canvas, .paper = paper, .true_scale = true };

	return sheet_area(&sheet);
}
