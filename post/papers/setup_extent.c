/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_extent.h"

#include <math.h>

#include "model/fretboard.h"

double setup_bed_mm(const struct job *job)
{
	return job_bed_mm(job);
}

static void include(struct setup_box *box, double x, double y, double z)
{
	box->least = vec3_make(fmin(box->least.x, x), fmin(box->least.y, y), fmin(box->least.z, z));
	box->most = vec3_make(fmax(box->most.x, x), fmax(box->most.y, y), fmax(box->most.z, z));
}

struct setup_box setup_moves(const struct job_result *result)
{
	struct setup_box box = { { 0.0, 0.0, 0.0 }, { 0.0, 0.0, 0.0 } };

	for (size_t i = 0; i < result->program_count; i++) {
		const struct program_figures *program = &result->program[i];
		if (i == 0)
			box = (struct setup_box){ program->least, program->most };
		include(&box, program->least.x, program->least.y, program->least.z);
		include(&box, program->most.x, program->most.y, program->most.z);
	}
	return box;
}

struct setup_box setup_moves_on_neck(const struct paper_content *content)
{
	struct setup_box box = setup_moves(content->result);
	struct vec3 zero = content->job->fixture.work_zero_mm;

	return (struct setup_box){ vec3_add(box.least, zero), vec3_add(box.most, zero) };
}

static void include_places(struct setup_box *box, size_t count, const struct place *place,
			   bool high)
{
	for (size_t i = 0; i < count; i++) {
		double top = high ? place[i].top_mm : 0.0;
		include(box, place[i].x_from_mm, place[i].y_from_mm, top);
		include(box, place[i].x_to_mm, place[i].y_to_mm, top);
	}
}

struct setup_box setup_extent(const struct paper_content *content)
{
	const struct job *job = content->job;
	const struct fixture *fixture = &job->fixture;
	const struct blank *blank = &job->blank;
	double from = blank_from_mm(blank), to = blank_to_mm(blank);
	double half = fmax(blank_widest_mm(blank, from, to), fixture->riser_width_mm / 2.0);
	struct setup_box box = setup_moves_on_neck(content);

	include(&box, fmin(from, neck_from_mm(content->neck)), -half, setup_bed_mm(job));
	include(&box, fmax(to, neck_to_mm(content->neck)), half, blank_highest_mm(blank));
	if (fixture->riser_height_mm > 0.0) {
		include(&box, fixture->riser_from_mm, -half, 0.0);
		include(&box, fixture->riser_to_mm, half, 0.0);
	}
	if (fixture->fretboard.glued) {
		struct fretboard board = fretboard_of(&job->neck, fixture->fretboard.overhang_mm);
		include(&box, board.x_from_mm, -board.half_from_mm, board.face_mm);
		include(&box, board.x_to_mm, board.half_to_mm, 0.0);
	}
	include_places(&box, fixture->keep_out_count, fixture->keep_out, true);
	include_places(&box, fixture->hold_count, fixture->hold, false);
	return box;
}
